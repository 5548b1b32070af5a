//! Rubber and bands.
//!
//! Sources: Treloar 1944, Trans Faraday Soc 40:59-70 (8 % S vulcanised natural rubber, uniaxial); Mooney 1940, J Appl
//! Phys 11:582-592; Ogden 1972, Proc R Soc Lond A 326:565-584; Lawson & Hanson 1974 for the fit. Constants of fits were
//! worked independently in double precision; a fit's range is part of the check, since the constants move with it.

use mechanics::elastic::{Fit, Law, Reading, ScaleError, Stretch, fit, fit_one_term, stiffening};
use quantity::{Force, Length, Share, Temperature};

use crate::references::{check, number, table};

/// 1 kgf/cm2 in MPa, exact by definition. A strand of 1 mm2 pulls with as many newtons as its stress has MPa.
const KGF_PER_CM2_IN_MPA: f64 = 0.098_066_5;

fn stretch(ratio: f64) -> Stretch {
    Stretch::from_ratio(ratio).expect("a plain ratio")
}

fn force(newtons: f64) -> Force {
    Force::from_newtons(newtons)
}

/// Treloar's points above rest, as stretch and MPa.
fn treloar() -> Vec<(f64, f64)> {
    table("treloar-1944", "tension.csv")
        .iter()
        .map(|row| (number(row, "stretch"), number(row, "kgf_per_cm2") * KGF_PER_CM2_IN_MPA))
        .filter(|(stretch, _)| 1.0 < *stretch)
        .collect()
}

fn treloar_readings(limit: f64) -> Vec<Reading> {
    treloar()
        .into_iter()
        .filter(|(stretch, _)| *stretch <= limit)
        .map(|(stretch, mpa)| Reading { length: Length::from_metres(stretch), force: force(mpa) })
        .collect()
}

fn constants(fit: &Fit) -> [f64; 2] {
    fit.constants().map(|constant| constant.value.newtons())
}

#[test]
fn treloars_rubber_goes_through_the_fit_a_club_uses() {
    check("rubber.treloar_unit", &[8.80 * KGF_PER_CM2_IN_MPA]);
    for (limit, n, two_terms, one_term) in [
        (2.5, 8, "rubber.nnls_mooney.2.5", "rubber.ls_neohooke.2.5"),
        (3.6, 10, "rubber.nnls_mooney.3.6", "rubber.ls_neohooke.3.6"),
    ] {
        let readings = treloar_readings(limit);
        assert_eq!(readings.len(), n);
        let metre = Length::from_metres(1.0);
        let fitted = fit(metre, &readings, &ScaleError::LUGGAGE_SCALE).expect("clean data");
        let [a, b] = constants(&fitted);
        check(two_terms, &[a, b, fitted.residual_root_mean_square().newtons()]);
        let simpler = fit_one_term(metre, &readings, &ScaleError::LUGGAGE_SCALE).expect("clean data");
        check(one_term, &[constants(&simpler)[0], simpler.residual_root_mean_square().newtons()]);
    }
}

#[test]
fn laws_at_fixed_constants() {
    // (l, neo-Hookean mu = 0.4, Mooney C1 = 0.15 C2 = 0.05), MPa on 1 mm2.
    for (l, neo, mooney) in [
        (1.5, "rubber.neohooke.1.5", Some("rubber.mooney.1.5")),
        (2.0, "rubber.neohooke.2.0", Some("rubber.mooney.2.0")),
        (3.0, "rubber.neohooke.3.0", None),
    ] {
        check(neo, &[Law::MooneyRivlin { a: force(0.4), b: force(0.0) }.force(stretch(l)).newtons()]);
        if let Some(id) = mooney {
            check(id, &[Law::MooneyRivlin { a: force(0.30), b: force(0.10) }.force(stretch(l)).newtons()]);
        }
    }
}

/// Ogden's three terms with his constants: an independent law that should land on Treloar's points, and so a check that
/// they were transcribed rightly.
fn ogden(l: f64) -> f64 {
    OGDEN
        .iter()
        .map(|(mu, alpha)| mu * KGF_PER_CM2_IN_MPA * (l.powf(alpha - 1.0) - l.powf(-alpha / 2.0 - 1.0)))
        .sum()
}

const OGDEN: [(f64, f64); 3] = [(6.3, 1.3), (0.012, 5.0), (-0.1, -2.0)];

#[test]
fn ogdens_law_lands_on_the_transcribed_points() {
    for (id, l) in
        [("rubber.ogden1972.1.5", 1.5), ("rubber.ogden1972.2.0", 2.0), ("rubber.ogden1972.3.0", 3.0)]
    {
        check(id, &[ogden(l)]);
    }
    let modulus = OGDEN.iter().map(|(mu, alpha)| mu * alpha).sum::<f64>() / 2.0 * KGF_PER_CM2_IN_MPA;
    check("rubber.ogden_mu0", &[modulus]);
    let rms = |points: &[(f64, f64)]| {
        (points.iter().map(|(l, mpa)| (ogden(*l) - mpa).powi(2)).sum::<f64>() / points.len() as f64).sqrt()
    };
    let all = treloar();
    check("rubber.ogden_rms_treloar", &[rms(&all)]);
    let lower: Vec<_> = all.into_iter().filter(|(l, _)| *l <= 7.05).collect();
    assert_eq!(lower.len(), 19);
    let worst = lower
        .iter()
        .filter(|(l, _)| 1.24 <= *l)
        .map(|(l, mpa)| (ogden(*l) / mpa - 1.0).abs())
        .fold(0.0, f64::max);
    check("rubber.ogden_rms_treloar_le7", &[rms(&lower), worst]);
}

#[test]
fn a_straight_line_through_rubber_is_wrong_where_adolescents_work() {
    let points: Vec<(f64, f64)> = treloar()
        .into_iter()
        .map(|(l, mpa)| (l - 1.0, mpa))
        .filter(|(e, _)| (0.239..=2.571).contains(e))
        .collect();
    assert_eq!(points.len(), 8);
    let n = points.len() as f64;
    let mean = |f: &dyn Fn(&(f64, f64)) -> f64| points.iter().map(f).sum::<f64>() / n;
    let (mean_e, mean_p) = (mean(&|p| p.0), mean(&|p| p.1));
    let slope = mean(&|p| (p.0 - mean_e) * (p.1 - mean_p)) / mean(&|p| (p.0 - mean_e).powi(2));
    let start = mean_p - slope * mean_e;
    let left = mean(&|p| (p.1 - start - slope * p.0).powi(2));
    let r2 = 1.0 - left / mean(&|p| (p.1 - mean_p).powi(2));
    let worst = points.iter().map(|p| ((start + slope * p.0) / p.1 - 1.0).abs()).fold(0.0, f64::max);
    check("rubber.linear_24_257pct", &[start, slope, r2, worst]);
}

#[test]
fn warmth_stiffens_rubber() {
    let celsius = |value| Temperature::try_from_celsius(value).expect("a plain temperature");
    check("rubber.temperature_factor", &[stiffening(celsius(20.0), celsius(30.0)).expect("both plausible")]);
}

fn worked_calibration() -> (Length, Vec<Reading>) {
    let lengths = [0.60, 0.70, 0.80, 0.90, 1.00, 1.10, 1.25, 1.40];
    let forces = [13.2, 21.3, 28.8, 34.8, 39.1, 43.8, 50.9, 56.2];
    let readings = lengths
        .iter()
        .zip(forces)
        .enumerate()
        .map(|(index, (length, force))| Reading::try_new(index, *length, force).expect("plain numbers"))
        .collect();
    (Length::from_metres(0.5), readings)
}

#[test]
fn a_worked_calibration() {
    let (rest, readings) = worked_calibration();
    check("band.calib.forces", &readings.iter().map(|reading| reading.force.newtons()).collect::<Vec<_>>());
    let fit = fit(rest, &readings, &ScaleError::LUGGAGE_SCALE).expect("a good set");
    let [a, b] = fit.constants();
    let correlation = fit.correlation().expect("both constants are free");
    check(
        "band.calib.fit",
        &[
            a.value.newtons(),
            b.value.newtons(),
            fit.residual_sd().newtons(),
            a.sd.newtons(),
            b.sd.newtons(),
            correlation,
        ],
    );
    for (id, l) in [("band.calib.predict.1.5", 1.5), ("band.calib.predict.2.0", 2.0)] {
        let at = fit.predict(stretch(l));
        check(id, &[at.curve.value.newtons(), at.curve.sd.newtons(), at.new_reading_sd.newtons()]);
    }
    check("band.length_sensitivity", &[fit.law().stiffness(stretch(2.0), rest).newtons_per_metre()]);
    let used = fit.in_use(stretch(2.0), rest, Length::from_metres(0.010), Share::from_percent(3.0));
    let relative = used.relative().expect("the band pulls");
    check("band.total_uncertainty.2.0", &[used.value.newtons(), used.sd.newtons(), relative]);
}

#[test]
fn a_constant_that_wants_to_be_negative_is_held_at_zero() {
    let true_law = |l: f64| 20.0 * (l - l.powi(-2)) - 2.0 * (1.0 - l.powi(-3));
    let readings: Vec<Reading> = [1.2, 1.5, 2.0, 2.5, 3.0]
        .map(|l| Reading { length: Length::from_metres(l), force: force(true_law(l)) })
        .to_vec();
    let metre = Length::from_metres(1.0);
    let fitted = fit(metre, &readings, &ScaleError::LUGGAGE_SCALE).expect("clean data");
    check("band.nnls_clamps", &constants(&fitted));
    assert_eq!(fitted.held_at_zero(), [false, true]);
    assert_eq!(fitted.correlation(), None);
}

#[test]
fn elongation_is_counted_from_rest() {
    let stretch = Stretch::of(Length::from_metres(1.8), Length::from_metres(0.8)).expect("a rest length");
    check("band.percent_elongation", &[stretch.percent_elongation()]);
}
