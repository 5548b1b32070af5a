//! Change against error: published pairs, the worked individual, and where an error comes from.

use jiff::civil::date;
use trade::screening::change::{Word, change};
use trade::screening::error::{
    Origin, OwnTrial, Published, Size, Z90, Z95, published, sem_from_change, smallest_change,
};
use trade::screening::measure::MEASURES;

fn close(got: f64, wanted: f64, tolerance: f64) {
    assert!((got - wanted).abs() <= tolerance, "{got} is not {wanted}");
}

fn own(n: usize, sem: f64) -> OwnTrial {
    OwnTrial { date: date(2026, 9, 20), n, trials: 2, sem }
}

// Source: mdc.pub.1 to 13: printed SEM and MDC of the papers named; tolerance is the printed rounding.
#[test]
#[expect(clippy::approx_constant, reason = "6.28 is a printed error, not a turn")]
fn printed_errors_and_their_smallest_change() {
    for (sem, printed, tolerance, what) in [
        (2.17, 6.01, 0.02, "de Oliveira 2017, touches"),
        (1.35, 3.74, 0.02, "de Oliveira 2017, by height"),
        (6.49, 17.98, 0.02, "de Oliveira 2017, power"),
        (0.41, 1.14, 0.02, "Rosa 2016"),
        (6.12, 16.97, 0.02, "reach, normalised"),
        (4.11, 11.41, 0.03, "reach, lower"),
        (6.28, 17.42, 0.03, "reach, upper"),
        (10.7, 29.6, 0.1, "timed shoulder endurance, lower"),
        (16.45, 45.6, 0.1, "timed shoulder endurance, upper"),
        (2.22, 6.17, 0.02, "Yoma 2021, dominant"),
        (3.81, 10.57, 0.02, "Yoma 2021, other"),
    ] {
        assert!((smallest_change(sem) - printed).abs() <= tolerance, "{what}");
    }
    // At 90 %: pain-free 7.3 and 17.0, painful 13.1 and 30.6.
    close(sem_from_change(17.0, Z90), 7.3, 0.05);
    close(sem_from_change(30.6, Z90), 13.1, 0.06);
    // Source: mdc.trap.sem95: a printed "SEM (95 %)" of 9.4 is 4.796, and its change 13.3.
    close(9.4 / Z95, 4.796_006, 1e-6);
    close(smallest_change(9.4 / Z95), 13.3, 0.15);
}

// Source: change.individual: error 3, 88 then 95.
#[test]
fn a_change_above_what_matters_may_still_be_within_error() {
    let error = Origin::Own(own(20, 3.0));
    let found = change(88.0, 95.0, Some(&error));
    assert_eq!((found.difference, found.word), (7.0, Word::CannotTell));
    close(found.smallest.unwrap(), 8.315_423, 1e-5);
    close(found.low.unwrap(), -1.315_423, 1e-5);
    close(found.high.unwrap(), 15.315_423, 1e-5);
    let smallest = found.smallest.unwrap();
    for (after, word) in [
        (88.0 + smallest, Word::Up),
        (88.0 - smallest, Word::Down),
        (88.0 + 0.999 * smallest, Word::CannotTell),
        (88.0, Word::CannotTell),
    ] {
        assert_eq!(change(88.0, after, Some(&error)).word, word, "{after}");
    }
}

#[test]
fn without_an_error_nothing_can_be_told() {
    let found = change(40.0, 90.0, None);
    assert_eq!((found.word, found.smallest, found.difference), (Word::CannotTell, None, 50.0));
    assert!(Origin::best("plank_time", None).is_none(), "no error of it was published");
}

#[test]
fn an_own_trial_beats_print_where_it_is_one() {
    let is_own = |trial| matches!(Origin::best("shoulder_er_rom", Some(trial)), Some(Origin::Own(_)));
    assert!(is_own(own(5, 2.0)));
    assert!(!is_own(own(4, 2.0)), "four people are no trial");
    assert!(!is_own(own(20, 0.0)), "no spread at all is no error");
    assert!(!is_own(own(20, f64::NAN)));
    assert!(matches!(Origin::best("shoulder_er_rom", None), Some(Origin::Published(_))));
}

#[test]
fn every_published_error_belongs_to_a_measure_and_is_a_number() {
    let found: Vec<&Published> = MEASURES.iter().filter_map(|measure| published(measure.key)).collect();
    assert_eq!(found.len(), 10, "measures with a published error");
    for error in found {
        let sem = match error.size {
            Size::Absolute(sem) => sem,
            Size::Share(share) => {
                assert!(share < 0.2, "{}", error.key);
                share
            }
        };
        assert!(sem.is_finite() && 0.0 < sem && 5 <= error.n, "{}", error.key);
    }
    // The strength test: under 16 % of its value is within error, as the gate reads the same source.
    let force = Origin::best("er_force", None).unwrap();
    close(smallest_change(force.sem(100.0)), 16.0, 1e-9);
}

proptest::proptest! {
    /// The word does not depend on the unit, and turns round when time does.
    #[test]
    fn unit_and_direction(
        before in 10.0_f64..200.0, after in 10.0_f64..200.0, sem in 0.5_f64..20.0, factor in 0.01_f64..100.0,
    ) {
        let of = |before: f64, after: f64, sem: f64| {
            change(before, after, Some(&Origin::Own(own(20, sem)))).word
        };
        let word = of(before, after, sem);
        // A hair's breadth beside the limit may round either way.
        let gap = ((after - before).abs() / smallest_change(sem) - 1.0).abs();
        proptest::prop_assume!(1e-9 < gap);
        proptest::prop_assert_eq!(of(before * factor, after * factor, sem * factor), word);
        let turned = match word {
            Word::Up => Word::Down,
            Word::Down => Word::Up,
            Word::CannotTell => Word::CannotTell,
        };
        proptest::prop_assert_eq!(of(after, before, sem), turned);
    }
}
