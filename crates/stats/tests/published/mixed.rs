//! Linear mixed models: the sleep study of Bates 2015.

use stats::mixed::{Measured, Method, MixedFit, MixedSample, fit};

use crate::references::{check, number, table};

fn study() -> MixedSample {
    let rows = table("bates-2015", "sleepstudy.csv");
    let rows = rows.iter().map(|row| Measured {
        value: number(row, "reaction"),
        covariates: vec![number(row, "days")],
        group: row["subject"].parse().expect("a number"),
    });
    MixedSample::new(rows.collect()).expect("numbers")
}

fn fitted(slope: bool, method: Method) -> MixedFit {
    let fit = fit(&study(), slope.then_some(0), method).expect("a likeliest model");
    assert!(fit.converged && !fit.singular, "{fit:?}");
    fit
}

#[test]
fn intercept_and_slope_by_the_restricted_criterion() {
    let fit = fitted(true, Method::Restricted);
    check("lmm.sleep.reml.b", &fit.coefficients);
    check("lmm.sleep.reml.se", &[fit.se(0), fit.se(1)]);
    let (intercept, days, both) = (fit.between[(0, 0)], fit.between[(1, 1)], fit.between[(0, 1)]);
    check("lmm.sleep.reml.var_int", &[intercept]);
    check("lmm.sleep.reml.var_days", &[days]);
    check("lmm.sleep.reml.cov", &[both]);
    check("lmm.sleep.reml.corr", &[both / (intercept * days).sqrt()]);
    check("lmm.sleep.reml.sigma2", &[fit.residual]);
    check("lmm.sleep.reml.sd", &[intercept.sqrt(), days.sqrt(), fit.residual.sqrt()]);
    check("lmm.sleep.reml.reml_criterion", &[fit.criterion]);
    let of =
        |subject: u32| &fit.modes.iter().find(|mode| mode.group == subject).expect("all are there").modes;
    check("lmm.sleep.blup.s308", of(308));
    check("lmm.sleep.blup.s309", of(309));
    check("lmm.sleep.blup.s310", of(310));
    check("lmm.sleep.blup.s337", of(337));
}

#[test]
fn intercept_and_slope_by_maximum_likelihood() {
    let fit = fitted(true, Method::MaximumLikelihood);
    check("lmm.sleep.ml.b", &fit.coefficients);
    check("lmm.sleep.ml.se", &[fit.se(0), fit.se(1)]);
    let (intercept, days, both) = (fit.between[(0, 0)], fit.between[(1, 1)], fit.between[(0, 1)]);
    check("lmm.sleep.ml.var_int", &[intercept]);
    check("lmm.sleep.ml.var_days", &[days]);
    check("lmm.sleep.ml.cov", &[both]);
    check("lmm.sleep.ml.corr", &[both / (intercept * days).sqrt()]);
    check("lmm.sleep.ml.sigma2", &[fit.residual]);
    check("lmm.sleep.ml.deviance", &[fit.criterion]);
    check("lmm.sleep.ml.aic", &[fit.aic()]);
}

#[test]
fn intercept_alone_by_both() {
    let restricted = fitted(false, Method::Restricted);
    let likeliest = fitted(false, Method::MaximumLikelihood);
    let (b, se) = (&restricted.coefficients, [restricted.se(0), restricted.se(1)]);
    let (between, within) = (restricted.between[(0, 0)], restricted.residual);
    check("lmm.sleep.ri.reml", &[b[0], b[1], se[0], se[1], between, within, restricted.criterion]);
    let (between, within) = (likeliest.between[(0, 0)], likeliest.residual);
    check("lmm.sleep.ri.ml", &[likeliest.se(0), likeliest.se(1), between, within, likeliest.criterion]);
    let gain = likeliest.criterion - fitted(true, Method::MaximumLikelihood).criterion;
    check("lmm.sleep.ri.lrt_vs_random_slope", &[gain]);
}
