//! The club's set times as a model.

use app::demo;
use app::set_times::gather::gather;
use store::Store;
use trade::protocol::read::shipped;

use super::build::{Squad, TODAY, swimmer};

/// Six swimmers, twenty sessions each; stronger ones reach the cap more often.
fn squad() -> Squad {
    let mut squad = Squad::swimmers(6);
    for number in 1..=6_u128 {
        for session in 0..20 {
            // A made-up scatter that repeats: what matters is that it is there.
            let wobble = [0.8, 1.1, 0.95, 1.3, 0.7][(session as usize + number as usize) % 5];
            let strength = 40.0 + 25.0 * number as f64;
            let sets: Vec<(f64, &str)> = [1.0, 0.9, 0.8]
                .iter()
                .map(|part| strength * part * wobble)
                .map(|time| if time < 120.0 { (time.round(), "form") } else { (120.0, "cap") })
                .collect();
            squad.session(number, 100 - 4 * session, if session % 2 == 0 { "left" } else { "right" }, &sets);
        }
    }
    squad
}

#[test]
fn a_squads_sets_become_one_model_and_its_word_is_kept_count_of() {
    let desk = squad().desk();
    let found = desk.set_times(TODAY);
    assert_eq!((found.counts.sets, found.counts.lines, found.counts.swimmers), (360, 12, 6));
    assert_eq!(found.counts.sets, found.counts.lost + found.counts.reached);
    let model = found.model.as_ref().unwrap();
    assert!(model.fit.settled.converged);
    // Each further set is shorter; all rest was the same, so of rest nothing can be told, nor of rungs.
    let by_set = model.columns.iter().position(|column| *column == 0).unwrap();
    assert!(model.fit.coefficients[by_set + 1] < -0.05);
    assert!(model.dropped.contains(&2), "{:?}", model.dropped);
    // The strongest is known to be the strongest.
    let own = |number| model.own.iter().find(|(line, _)| line.subject == swimmer(number)).unwrap().1.mean;
    assert!(own(1) < own(3) && own(3) < own(6));
    let record = found.record.as_ref().unwrap();
    assert!(60 < record.n, "{record:?}");
    assert!((0.0..=1.0).contains(&record.brier) && record.brier < record.brier_of_mean, "{record:?}");
    // The same facts in another order are the same model, to the last digit.
    let again = squad().backwards().desk().set_times(TODAY);
    assert_eq!(again.model.as_ref().unwrap().fit.log_likelihood, model.fit.log_likelihood);
    assert_eq!(again.record, found.record);
}

#[test]
fn what_nobody_saw_is_left_out_and_what_may_mean_something_is_counted() {
    let mut squad = Squad::swimmers(1);
    squad.session(1, 9, "left", &[(120.0, "cap"), (120.0, "cap-unseen"), (80.0, "form")]);
    squad.session(1, 7, "left", &[(60.0, "pain"), (70.0, "chose-to-stop"), (40.0, "kit")]);
    squad.session(1, 0, "left", &[(50.0, "form")]);
    let desk = squad.desk();
    let found = gather(desk.protocol(), desk.people(), TODAY);
    let counts = found.counts;
    assert_eq!((counts.sets, counts.reached, counts.unseen, counts.lost), (5, 1, 1, 1));
    assert_eq!((counts.pain, counts.chose, counts.other), (1, 1, 1));
    assert!(found.rows.iter().all(|row| row.date < TODAY), "today is not known yet");
}

#[test]
fn a_club_without_a_loss_of_form_has_no_model_and_says_why() {
    let mut squad = Squad::swimmers(2);
    for days in [20, 15, 10] {
        squad.session(1, days, "left", &[(120.0, "cap"), (120.0, "cap")]);
    }
    let found = squad.desk().set_times(TODAY);
    assert_eq!(found.model.as_ref().unwrap_err().word(), "all-censored");
    assert!(found.next.is_empty() && found.record.is_err());
}

#[test]
fn the_demo_club_gets_expectations_only_for_doses_that_are_given() {
    let desk = demo::open(demo::SEED, shipped().clone(), Store::in_memory().unwrap()).unwrap();
    let found = desk.set_times(demo::DAY);
    let model = found.model.as_ref().unwrap();
    assert!(model.fit.settled.converged && 100 < found.counts.sets, "{:?}", found.counts);
    assert!(!found.next.is_empty());
    for next in &found.next {
        let person = desk.person(next.line.subject).unwrap();
        let plan = &desk.assess(person, demo::DAY).plan;
        let is_it = |proposal: &&trade::dosing::Proposal| {
            proposal.exercise == next.line.exercise && proposal.side == next.line.side
        };
        assert!(plan.proposals.iter().find(is_it).unwrap().dose.is_some());
        assert!((0.0..=1.0).contains(&next.session.chance_all));
        let first = &next.session.sets[0];
        assert!(first.interval.low < first.median && first.median < first.interval.high);
        assert!(next.session.chance_all <= first.chance + 1e-6);
    }
}
