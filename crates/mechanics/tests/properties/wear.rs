//! The withdrawal rule: cases, and more findings never make it milder.

use mechanics::elastic::{
    Drift, Finding, Inspection, Law, Reading, ScaleError, Service, Stretch, Unknown, WearRule, WearVerdict,
    drift, fit, wear,
};
use mechanics::spread::WithError;
use proptest::prelude::*;
use quantity::{Force, Length, Share};

const FRESH: Inspection = Inspection { days_ago: 3, nick: false, whitened_or_sticky: false };

fn moved(change: f64, sd: f64) -> Drift {
    let [value, sd] = [change, sd].map(Share::from_fraction);
    Drift { change: WithError { value, sd }, at: Stretch::from_ratio(2.0).expect("a plain ratio") }
}

fn sound() -> Service {
    Service {
        repetitions: Some(100),
        months: Some(2),
        inspection: Some(FRESH),
        drift: Some(moved(-0.03, 0.02)),
    }
}

fn severity(verdict: &WearVerdict) -> u8 {
    match verdict {
        WearVerdict::InUse => 0,
        WearVerdict::CannotTell(_) => 1,
        WearVerdict::Recheck(_) => 2,
        WearVerdict::Withdrawn(_) => 3,
    }
}

#[test]
fn the_rule_case_by_case() {
    let verdict = |service: Service| wear(&service, &WearRule::USUAL);
    assert_eq!(verdict(sound()), WearVerdict::InUse);
    let nicked = Inspection { nick: true, ..FRESH };
    assert_eq!(
        verdict(Service { inspection: Some(nicked), ..sound() }),
        WearVerdict::Withdrawn(vec![Finding::Damaged(nicked)])
    );
    let softer = moved(-0.16, 0.01);
    assert_eq!(
        verdict(Service { drift: Some(softer), ..sound() }),
        WearVerdict::Withdrawn(vec![Finding::Drifted {
            drift: softer,
            limit: WearRule::USUAL.largest_drift
        }])
    );
    assert_eq!(
        verdict(Service { months: Some(6), ..sound() }),
        WearVerdict::Withdrawn(vec![Finding::Old { months: 6, limit: 6 }])
    );
    assert_eq!(
        verdict(Service { repetitions: Some(500), ..sound() }),
        WearVerdict::Recheck(vec![Finding::Pulled { repetitions: 500, limit: 500 }])
    );
    let late = Inspection { days_ago: 29, ..FRESH };
    assert_eq!(
        verdict(Service { inspection: Some(late), ..sound() }),
        WearVerdict::Recheck(vec![Finding::InspectionOverdue { days_ago: 29, limit: 28 }])
    );
    // A drift that its own error could carry past the limit is measured again.
    assert!(matches!(
        verdict(Service { drift: Some(moved(-0.10, 0.05)), ..sound() }),
        WearVerdict::Recheck(_)
    ));
    assert_eq!(
        verdict(Service { repetitions: None, inspection: None, ..sound() }),
        WearVerdict::CannotTell(vec![Unknown::Inspection, Unknown::Repetitions])
    );
}

proptest! {
    #[test]
    fn another_finding_never_makes_it_milder(
        repetitions in prop::option::of(0_u32..900), months in prop::option::of(0_u32..12),
        days in prop::option::of(0_u32..60), change in prop::option::of((-0.3_f64..0.3, 0.0_f64..0.1)), which in 0_u8..4
    ) {
        let inspection = days.map(|days_ago| Inspection { days_ago, ..FRESH });
        let drift = change.map(|(change, sd)| moved(change, sd));
        let service = Service { repetitions, months, inspection, drift };
        let worse = match which {
            0 => Service { repetitions: repetitions.map(|n| n + 500), ..service },
            1 => Service { months: months.map(|n| n + 6), ..service },
            2 => Service { inspection: Some(Inspection { nick: true, ..inspection.unwrap_or(FRESH) }), ..service },
            _ => Service { drift: Some(moved(-0.4, 0.0)), ..service },
        };
        let severity = |service: &Service| severity(&wear(service, &WearRule::USUAL));
        prop_assert!(severity(&service) <= severity(&worse));
    }
}

#[test]
fn a_band_gone_a_tenth_softer_is_seen_with_its_error() {
    let calibrate = |part: f64| {
        let law =
            Law::MooneyRivlin { a: Force::from_newtons(18.0 * part), b: Force::from_newtons(9.0 * part) };
        let readings: Vec<Reading> = [1.2, 1.5, 1.8, 2.1, 2.4]
            .iter()
            .zip([0.2, -0.3, 0.1, 0.2, -0.2])
            .map(|(l, off)| {
                let stretch = Stretch::from_ratio(*l).expect("a plain ratio");
                let force = Force::from_newtons(law.force(stretch).newtons() + off);
                Reading { length: Length::from_metres(*l), force }
            })
            .collect();
        fit(Length::from_metres(1.0), &readings, &ScaleError::LUGGAGE_SCALE).expect("good data")
    };
    let double = Stretch::from_ratio(2.0).expect("a plain ratio");
    let drift = drift(&calibrate(1.0), &calibrate(0.9), double).expect("the band pulls").change;
    assert!((drift.value.fraction() + 0.10).abs() < 0.01, "{drift:?}");
    assert!((0.001..0.02).contains(&drift.sd.fraction()), "{drift:?}");
}
