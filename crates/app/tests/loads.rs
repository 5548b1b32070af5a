//! From the scale to the seconds for one swimmer, on a desk with a store in memory.

#![allow(clippy::unwrap_used, reason = "helpers of tests stop where a test would")]
#![allow(clippy::type_complexity, reason = "a table of cases says its own types")]

use app::desk::{Author, Desk, Draft};
use app::drawn::somebody;
use app::facts::{
    ArmLengthsFact, CalibrationFact, ExperienceWord, FindingFact, GrowthFact, KitPieceFact, KitWord,
    ReadingFact, ScreeningFact, SexWord, SideWord, SwimmerFact,
};
use app::moment::Moment;
use app::reckon::{self, Kit};
use app::views::bands::bands;
use app::views::loads::{Alone, LineLoads, Missing, loads};
use jiff::civil::{Date, date};
use mechanics::body::Provenance;
use mechanics::elastic::{Law, Piece, Strands, WearVerdict};
use mechanics::strength::Obtained;
use mechanics::torque::{Exercise as Geometry, InputErrors, Outcome};
use quantity::{Force, Length, Mass};
use store::{Store, SubjectId};
use trade::name::ExerciseId;
use trade::protocol::shipped;
use trade::side::Side;
use uuid::Uuid;

const DAY: Date = date(2026, 11, 25);

struct World {
    desk: Desk,
    subject: SubjectId,
}

fn moment() -> Moment {
    app::demo::morning()
}

impl World {
    fn new(born: Date, sex: SexWord) -> Self {
        let desk = Desk::new(Store::in_memory().unwrap(), shipped().clone()).unwrap();
        let subject = SubjectId::from_uuid(Uuid::from_u128(77));
        let mut world = Self { desk, subject };
        let swimmer = SwimmerFact {
            name: "Isolde Marrow".to_owned(),
            goes_by: None,
            born,
            sex,
            squad: String::new(),
            experience: ExperienceWord::Trained,
            programme_started: Some(date(2026, 9, 14)),
            left: None,
            contacts: Vec::new(),
            emergency_note: None,
            club_number: None,
        };
        world.about(&Draft::new(&swimmer));
        world
    }

    fn about(&mut self, draft: &Draft) {
        let author = Author { name: "A. Name".to_owned(), device: "test".to_owned() };
        self.desk.record(&moment(), &author, self.subject, std::slice::from_ref(draft)).unwrap();
    }

    fn club(&mut self, draft: &Draft) -> Result<(), app::error::AppError> {
        let author = Author { name: "A. Name".to_owned(), device: "test".to_owned() };
        self.desk.record(&moment(), &author, SubjectId::CLUB, std::slice::from_ref(draft)).map(drop)
    }

    fn band(&mut self, mark: &str, at_double: f64) {
        let piece = KitPieceFact {
            mark: mark.to_owned(),
            kind: KitWord::Band,
            force_at_double_n: Some(at_double),
            rest_length_m: Some(1.2),
            mass_kg: None,
            pieces: 6,
            in_service: Some(date(2026, 9, 1)),
            latex: Some(false),
            withdrawn: None,
            as_entered: None,
        };
        self.club(&Draft::new(&piece)).unwrap();
        self.club(&Draft::new(&calibration(mark, at_double, date(2026, 10, 1)))).unwrap();
    }

    fn size(&mut self, height_cm: f64, mass_kg: f64) {
        let fact = GrowthFact {
            date: date(2026, 10, 1),
            height_cm,
            sitting_height_cm: None,
            mass_kg: Some(mass_kg),
        };
        self.about(&Draft::new(&fact));
    }

    fn strength(&mut self, newtons: f64) {
        let finding = |key: &str, side: SideWord, value: f64| FindingFact {
            key: key.to_owned(),
            side: Some(side),
            value: Some(value),
            as_entered: None,
            without_value: None,
            trials: Vec::new(),
            meant: false,
        };
        let findings = [SideWord::Left, SideWord::Right]
            .into_iter()
            .flat_map(|side| [finding("er_force", side, newtons), finding("ir_force", side, newtons * 1.1)])
            .collect();
        let fact = ScreeningFact {
            date: date(2026, 10, 2),
            tester: "A. Name".to_owned(),
            findings,
            visible_hollow: Vec::new(),
            looked_behind: false,
            station: None,
            device: None,
            hours_since_swim: None,
            clinician: None,
        };
        self.about(&Draft::new(&fact));
    }

    fn line(&self, exercise: &str, side: Option<Side>) -> LineLoads {
        let person = self.desk.person(self.subject).unwrap();
        let found = loads(&self.desk, person, DAY);
        let is_it = |line: &&LineLoads| line.exercise == ExerciseId::new(exercise) && line.side == side;
        found.lines.iter().find(is_it).unwrap_or_else(|| panic!("no {exercise}: {:?}", found.body)).clone()
    }
}

/// Seven readings of a band that pulls so much at double length.
fn calibration(mark: &str, at_double: f64, date: Date) -> CalibrationFact {
    let a = at_double / 2.1875;
    let force = |l: f64| a * (l - l.powi(-2)) + 0.5 * a * (1.0 - l.powi(-3));
    CalibrationFact {
        date,
        mark: mark.to_owned(),
        rest_m: 0.5,
        readings: [1.2, 1.4, 1.6, 1.8, 2.0, 2.3, 2.6]
            .map(|l| ReadingFact { length_m: 0.5 * l, force_n: (force(l) * 100.0).round() / 100.0 })
            .to_vec(),
        by: "A. Name".to_owned(),
        as_entered: None,
    }
}

fn equipped(born: Date) -> World {
    let mut world = World::new(born, SexWord::Female);
    world.size(166.0, 57.0);
    for (mark, at_double) in [("B-10", 9.8), ("B-13", 13.1), ("B-16", 16.4), ("B-20", 20.0), ("B-25", 25.2)] {
        world.band(mark, at_double);
    }
    world
}

#[test]
fn three_measured_bands_say_who_starts_on_which_and_what_torque_that_is() {
    let mut world = equipped(date(2009, 3, 1));
    world.strength(95.0);
    let line = world.line("RC-1", Some(Side::Right));
    assert_eq!(line.reckoned.len(), 5);
    let ladder = line.ladder.as_ref().unwrap();
    assert!(ladder.rungs.len() >= 4, "{:?}", ladder.rungs.len());
    for step in &ladder.steps {
        assert!(step.size.sd < step.size.value, "a step smaller than its error is none: {step:?}");
    }
    let strength = line.strength.unwrap();
    assert_eq!(strength.from, Obtained::Measured);
    let begins = line.begins.as_ref().unwrap();
    let chosen = &line.reckoned[begins.chosen.unwrap()];
    let peak = chosen.report.peak().value.newton_metres().abs();
    // Girls of 15 to 18 begin on 13 N by the table; the measured band nearest to it is B-13.
    assert_eq!(begins.table.as_str(), "b13");
    assert_eq!(chosen.name, "B-13");
    assert!(peak <= begins.part_of_strength.unwrap().newton_metres());
    assert!(peak <= begins.minute.unwrap().newton_metres());
    assert!(chosen.share.unwrap().value.fraction() < 0.30);
}

#[test]
fn a_weak_shoulder_begins_below_the_table() {
    let mut world = equipped(date(2009, 3, 1));
    world.strength(26.0);
    let line = world.line("RC-1", Some(Side::Right));
    let begins = line.begins.as_ref().unwrap();
    let limit = begins.part_of_strength.unwrap().newton_metres();
    assert!(limit < begins.table_load.unwrap().newton_metres(), "the table is too heavy here: {begins:?}");
    match begins.chosen {
        Some(chosen) => {
            assert!(line.reckoned[chosen].report.peak().value.newton_metres().abs() <= limit);
            assert_ne!(line.reckoned[chosen].name, "B-13");
        }
        None => {
            assert!(line.reckoned.iter().all(|one| limit < one.report.peak().value.newton_metres().abs()))
        }
    }
}

#[test]
fn under_fifteen_and_unmeasured_the_table_stands_alone() {
    let mut young = equipped(date(2012, 6, 1));
    young.strength(95.0);
    let begins = young.line("RC-1", Some(Side::Left)).begins.unwrap();
    assert_eq!(begins.alone, Some(Alone::Young));
    assert_eq!((begins.minute, begins.part_of_strength), (None, None));

    let unmeasured = equipped(date(2009, 3, 1)).line("RC-1", Some(Side::Left));
    assert_eq!(unmeasured.strength, None, "no strength is assumed for a minor");
    assert_eq!(unmeasured.begins.unwrap().alone, Some(Alone::Unmeasured));
    assert!(unmeasured.reckoned.iter().all(|one| one.share.is_none()));

    let adult = equipped(date(1999, 3, 1)).line("RC-1", Some(Side::Left));
    assert_eq!(adult.strength.unwrap().from, Obtained::Estimated);
    assert_eq!(adult.begins.unwrap().alone, Some(Alone::Unmeasured), "an assumed strength decides nothing");
}

#[test]
fn without_height_and_mass_nothing_is_reckoned() {
    let mut world = World::new(date(2009, 3, 1), SexWord::Female);
    world.band("B-16", 16.4);
    let person = world.desk.person(world.subject).unwrap();
    let found = loads(&world.desk, person, DAY);
    assert_eq!(found.body, Err(Missing::Size));
    assert!(found.lines.is_empty());
}

#[test]
fn a_tape_replaces_the_estimate_of_each_part_it_measured() {
    let mut world = equipped(date(2009, 3, 1));
    let arms = ArmLengthsFact {
        date: date(2026, 10, 3),
        upper_arm_m: None,
        forearm_m: Some(0.26),
        wrist_to_knuckle_m: None,
        elbow_spacing_m: None,
    };
    world.about(&Draft::new(&arms));
    let person = world.desk.person(world.subject).unwrap();
    let body = loads(&world.desk, person, DAY).body.unwrap();
    assert_eq!(body.forearm.length.from, Provenance::Measured);
    assert!((body.forearm.length.value.value.metres() - 0.26).abs() < 1e-12);
    assert!(matches!(body.upper_arm.length.from, Provenance::Estimated { adult_derived: true, .. }));
}

#[test]
fn readings_that_give_no_law_are_refused_and_nothing_is_stored() {
    let mut world = World::new(date(2009, 3, 1), SexWord::Female);
    world.band("B-16", 16.4);
    let sound = calibration("B-16", 16.4, date(2026, 11, 1));
    let broken: [(&str, fn(&mut CalibrationFact)); 5] = [
        ("load-too-few", |fact| fact.readings.truncate(1)),
        ("load-negative-force", |fact| fact.readings[2].force_n = -1.0),
        ("load-below-rest", |fact| fact.readings[0].length_m = 0.4),
        ("load-beyond-breaking", |fact| fact.readings[3].length_m = 90.0),
        ("load-rest-length", |fact| fact.rest_m = 0.0),
    ];
    for (says, break_it) in broken {
        let mut fact = sound.clone();
        break_it(&mut fact);
        let error = world.club(&Draft::new(&fact)).unwrap_err();
        assert!(error.problems.iter().any(|problem| problem.says == says), "{says}: {error:?}");
        assert_eq!(world.desk.club().calibrations.len(), 1, "{says}: something was stored");
    }
    let arms = ArmLengthsFact {
        date: DAY,
        upper_arm_m: Some(28.0),
        forearm_m: None,
        wrist_to_knuckle_m: None,
        elbow_spacing_m: None,
    };
    let author = Author { name: "A. Name".to_owned(), device: "test".to_owned() };
    assert!(
        world.desk.record(&moment(), &author, world.subject, &[Draft::new(&arms)]).is_err(),
        "28 m is no arm"
    );
}

#[test]
fn a_band_that_went_soft_is_taken_out_of_use_and_named_no_longer() {
    let mut world = equipped(date(2009, 3, 1));
    let rung = shipped().exercise(&ExerciseId::new("RC-1")).unwrap().ladder[2].clone();
    assert_eq!(world.desk.reader().rung_name(&rung), "B-16, measured 16.4 N at double length");
    let nominal = shipped().exercise(&ExerciseId::new("RC-1")).unwrap().ladder[7].clone();
    assert_eq!(world.desk.reader().rung_name(&nominal), "55 N at double length", "nobody measured one");
    world.club(&Draft::new(&calibration("B-16", 12.0, date(2026, 11, 20)))).unwrap();
    let soft = bands(&world.desk, DAY).into_iter().find(|band| band.piece.fact.mark == "B-16").unwrap();
    assert!(matches!(soft.wear, WearVerdict::Withdrawn(_)), "{:?}", soft.wear);
    assert!(!soft.may_be_used());
    let line = world.line("RC-1", Some(Side::Right));
    assert!(line.reckoned.iter().all(|one| one.name != "B-16"));
}

#[test]
fn a_piece_too_short_for_this_body_is_not_offered() {
    let mut world = equipped(date(2009, 3, 1));
    let short = KitPieceFact {
        mark: "S-16".to_owned(),
        kind: KitWord::Band,
        force_at_double_n: Some(16.0),
        rest_length_m: Some(0.25),
        mass_kg: None,
        pieces: 2,
        in_service: Some(date(2026, 9, 1)),
        latex: Some(false),
        withdrawn: None,
        as_entered: None,
    };
    world.club(&Draft::new(&short)).unwrap();
    world.club(&Draft::new(&calibration("S-16", 16.0, date(2026, 10, 1)))).unwrap();
    let line = world.line("RC-1", Some(Side::Right));
    assert!(
        line.not_offered.iter().any(|(mark, why)| mark == "S-16" && !why.is_empty()),
        "{:?}",
        line.not_offered
    );
    assert!(line.reckoned.iter().all(|one| one.name != "S-16"));
}

#[test]
fn every_resisted_exercise_with_a_torque_is_reckoned_from_its_drawing() {
    let body = somebody();
    let law = Law::MooneyRivlin { a: Force::from_newtons(9.0), b: Force::from_newtons(4.5) };
    let piece = Piece::new(law, Length::from_metres(1.2), Strands::Single).unwrap();
    let of = |exercise: &str, kit: Kit| {
        reckon::movement(shipped().exercise(&ExerciseId::new(exercise)).unwrap(), None, &body, kit)
    };
    let band = Kit::Band(piece);
    let kilogram = Kit::Weight(Mass::from_kilograms(1.0));
    let cases: [(&str, Kit, fn(&Geometry) -> bool, f64); 6] = [
        ("RC-1", band, |geometry| matches!(geometry, Geometry::AnchoredRotation(_)), 1.0),
        ("RC-2", band, |geometry| matches!(geometry, Geometry::AnchoredRotation(_)), -1.0),
        ("RC-3", kilogram, |geometry| matches!(geometry, Geometry::HandRaise(_)), 1.0),
        ("RC-4", kilogram, |geometry| matches!(geometry, Geometry::BallCircles(_)), 1.0),
        ("SC-1", band, |geometry| matches!(geometry, Geometry::Row(_)), 1.0),
        ("SC-3", kilogram, |geometry| matches!(geometry, Geometry::HandRaise(_)), 1.0),
    ];
    for (exercise, kit, is_it, sign) in cases {
        let movement = of(exercise, kit).unwrap_or_else(|| panic!("{exercise} is not reckoned"));
        assert!(is_it(&movement.exercise), "{exercise}: {:?}", movement.exercise);
        let Ok(Outcome::Torque(report)) = movement.report(&InputErrors::CALIBRATED) else {
            panic!("{exercise} has no torque");
        };
        let peak = report.curve.peak.torque.newton_metres();
        assert!(0.2 < peak * sign && peak * sign < 40.0, "{exercise}: {peak} N m");
        // The energy identity: what one arm does is what its band gains.
        if let Some(piece) = movement.exercise.piece() {
            let energy = |angle| piece.energy(movement.exercise.band_at(angle).unwrap().span).joules();
            let gained = energy(movement.to) - energy(movement.from);
            if matches!(movement.exercise, Geometry::AnchoredRotation(_)) {
                assert!((report.curve.work.joules() - gained).abs() < 1e-6, "{exercise}");
            }
            assert!(0.0 < gained, "{exercise} stretches its band");
        }
    }
    for exercise in ["SC-5", "CO-1", "FL-1"] {
        assert!(of(exercise, band).is_none(), "{exercise} has no torque that is reckoned");
    }
}
