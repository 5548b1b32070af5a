//! Who a swimmer is, and what was signed, asked and measured.

use jiff::civil::{Date, date};

use super::cast::{Case, Member, Squad};
use super::days::{BOOKS_OPEN, DAY, MEASURING_DAYS, SCREENING_DAYS};
use super::diary::{Diary, Hand};
use super::random::Random;
use trade::screening::measure::{Measure, Station};

use crate::facts::{
    ArmLengthsFact, ClinicianFact, ConsentFact, ConsentWord, ContactFact, FindingFact, GrowthFact,
    IntakeFact, ScreeningFact, SexWord, SideWord, SwimmerFact, WaterWeekFact, WithoutValue,
};

/// The club's own roster row.
pub(super) fn swimmer(member: &Member, number: usize) -> SwimmerFact {
    let (guardian, relation) = member.guardian;
    let note = match member.case {
        Case::LatexAllergy => Some("Latex allergy: latex-free bands only."),
        Case::Beginner => Some("Asthma: inhaler in the side pocket of the bag."),
        Case::WaterJump => Some("Epilepsy: last seizure 2023; plan is with the coach."),
        _ => None,
    };
    SwimmerFact {
        name: member.name.to_owned(),
        goes_by: member.goes_by.map(str::to_owned),
        born: member.born,
        sex: member.sex,
        squad: member.squad.name().to_owned(),
        experience: member.experience(),
        programme_started: member.programme_started(),
        left: None,
        contacts: vec![ContactFact {
            name: guardian.to_owned(),
            relation: relation.to_owned(),
            // Numbers that lead nowhere.
            phone: format!("000 555 {:04}", 1200 + 7 * number),
        }],
        emergency_note: note.map(str::to_owned),
        club_number: Some(format!("HV-{:03}", 101 + number)),
    }
}

/// Everything on paper that a day brings for one swimmer.
pub(super) fn tell(diary: &mut Diary<'_>, member: &Member, day: Date) {
    diary.at(day, 9 * 60);
    if day == member.joined() {
        consents(diary, member, day);
    }
    if day == intake_day(member) {
        intake(diary, member, day, true);
    }
    if member.case == Case::IntakeOpen && day == date(2026, 11, 21) {
        intake(diary, member, day, false);
    }
    if measured_on(member).contains(&day) {
        growth(diary, member, day);
    }
    if screened_on(member).contains(&day) {
        diary.at(day, 13 * 60);
        screening(diary, member, day);
    }
    water(diary, member, day);
    super::weekly::tell(diary, member, day);
}

fn consents(diary: &mut Diary<'_>, member: &Member, day: Date) {
    let signed = match member.case {
        Case::ConsentExpired => date(2025, 11, 18),
        _ => day,
    };
    let mut granted = vec![
        ConsentWord::Screening,
        ConsentWord::Exercise,
        ConsentWord::HealthRecord,
        ConsentWord::Doctor,
        ConsentWord::Assent,
    ];
    if diary.random.happens(0.7) {
        granted.push(ConsentWord::Assistant);
    }
    if diary.random.happens(0.5) {
        granted.push(ConsentWord::Evaluation);
    }
    let (guardian, relation) = member.guardian;
    let (signer, relation) =
        if member.case == Case::Adult { (member.name, "self") } else { (guardian, relation) };
    let fact = ConsentFact {
        signed,
        granted,
        signer: signer.to_owned(),
        relation: relation.to_owned(),
        text_version: "2025-08".to_owned(),
        withdrawn: None,
    };
    diary.write(Hand::Office, &fact);
}

fn intake_day(member: &Member) -> Date {
    match member.case {
        Case::Teaching => date(2026, 11, 14),
        Case::DislocationStory => date(2026, 11, 20),
        Case::MissedScreening => member.joined(),
        _ => SCREENING_DAYS[0],
    }
}

fn intake(diary: &mut Diary<'_>, member: &Member, day: Date, is_complete: bool) {
    let had_pain = diary.random.happens(0.2);
    let fact = IntakeFact {
        date: day,
        shoulder_pain_12_months: Some(had_pain || member.case == Case::SecondPainEvent),
        dislocation_or_slipping: is_complete.then_some(member.case == Case::DislocationStory),
        operation: Some(false),
        signs: Vec::new(),
        signs_asked: true,
    };
    diary.write(Hand::Practitioner, &fact);
}

fn measured_on(member: &Member) -> Vec<Date> {
    if 18.0 <= member.age_on(DAY) {
        return Vec::new();
    }
    MEASURING_DAYS.into_iter().filter(|day| member.joined() <= *day).chain(late_measure(member)).collect()
}

fn late_measure(member: &Member) -> Option<Date> {
    matches!(member.case, Case::DislocationStory | Case::MissedScreening).then(|| intake_day(member))
}

/// Height at one time, from the height at the re-test and the pace of growth.
fn height_on(member: &Member, day: Date) -> f64 {
    let (height, pace) = member.height;
    let years_before = f64::from(trade::history::days_between(day, MEASURING_DAYS[2])) / 365.25;
    // The spurt is younger than the September measurement: three centimetres in two months.
    let spurt = if member.case == Case::GrowthSpurt && 0.1 < years_before { 3.0 } else { 0.0 };
    height - pace * years_before - spurt
}

fn growth(diary: &mut Diary<'_>, member: &Member, day: Date) {
    let height = height_on(member, day);
    let age = member.age_on(day);
    let metres = height / 100.0;
    let mass = (16.2 + 0.6 * (age - 11.0)) * metres * metres * diary.random.between(0.96, 1.04);
    let fact = GrowthFact {
        date: day,
        height_cm: tenths(height),
        sitting_height_cm: Some(tenths(height * 0.52)),
        mass_kg: Some(tenths(mass)),
    };
    if member.case == Case::Absence && day == BOOKS_OPEN {
        // One typing slip that was noticed: the wrong number stays on record beside the right one.
        let wrong = GrowthFact { height_cm: fact.height_cm - 18.0, ..fact.clone() };
        diary.write_corrected(Hand::Practitioner, &wrong, &fact, "two digits were swapped");
    } else {
        diary.write(Hand::Practitioner, &fact);
    }
}

fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

fn screened_on(member: &Member) -> Vec<Date> {
    match member.case {
        Case::MissedScreening => Vec::new(),
        // Away at a family wedding when the others were re-tested.
        Case::Adult => vec![SCREENING_DAYS[0]],
        Case::Teaching | Case::DislocationStory => vec![intake_day(member)],
        _ => SCREENING_DAYS.to_vec(),
    }
}

fn screening(diary: &mut Diary<'_>, member: &Member, day: Date) {
    let mut findings = findings(&mut diary.random, member, day);
    for finding in &mut findings {
        finding.trials = trials(finding);
    }
    // Station by station, as the hall writes it down.
    for station in Station::ALL {
        let own: Vec<FindingFact> = findings
            .iter()
            .filter(|finding| Measure::of(&finding.key).is_some_and(|measure| measure.station == station))
            .cloned()
            .collect();
        if own.is_empty() {
            continue;
        }
        let is_looking = station.is_licensed();
        let fact = ScreeningFact {
            findings: own,
            looked_behind: is_looking,
            clinician: is_looking.then(|| ClinicianFact {
                name: Hand::Practitioner.name().to_owned(),
                licence: "HV-PT-0417".to_owned(),
                licence_until: date(2027, 12, 31),
            }),
            station: Some(station.word().to_owned()),
            device: device(station).map(str::to_owned),
            hours_since_swim: Some(18.0),
            ..ScreeningFact::of(day, Hand::Practitioner.name())
        };
        diary.write(Hand::Practitioner, &fact);
        diary.wait(240);
    }
}

const fn device(station: Station) -> Option<&'static str> {
    match station {
        Station::Range => Some("inclinometer, passive, lying"),
        Station::Strength => Some("dynamometer with a strap, lying, arm at 90 degrees"),
        Station::Endurance => Some("lying face down, 1 kg, hold"),
        _ => None,
    }
}

/// Tries around a value, whose mean it is.
fn trials(finding: &FindingFact) -> Vec<f64> {
    let tries = Measure::of(&finding.key).map_or(1, |measure| measure.trials);
    match (finding.value, tries) {
        (Some(value), 2) => vec![value - 1.0, value + 1.0],
        (Some(value), 3) => vec![value - 2.0, value + 1.0, value + 1.0],
        _ => Vec::new(),
    }
}

fn findings(random: &mut Random, member: &Member, day: Date) -> Vec<FindingFact> {
    let age = member.age_on(day);
    let again = day == SCREENING_DAYS[1];
    let is_lax = member.case == Case::Hypermobile;
    let male = if member.sex == SexWord::Male { 1.0 } else { 0.0 };
    let mut found = Vec::new();
    let mut note = |key: &str, side: Option<SideWord>, value: f64, unit: &str| {
        let value = value.round();
        found.push(FindingFact {
            key: key.to_owned(),
            side,
            value: Some(value),
            as_entered: Some(format!("{value} {unit}")),
            ..FindingFact::default()
        });
    };
    // Strength rises with age, more in boys, and by a few per cent over ten weeks; the two arms differ by less than
    // the test can tell, save where the case says otherwise.
    let external = (38.0 + 8.0 * (age - 11.0) + 2.5 * male * (age - 11.0)) * random.factor(0.08);
    let external = if again { external * 1.04 } else { external };
    let ratio = random.between(0.82, 0.92);
    let flexible = random.normal();
    for side in [SideWord::Left, SideWord::Right] {
        let own = if member.case == Case::WeakArm && side == SideWord::Left {
            0.80
        } else {
            random.between(0.97, 1.03)
        };
        let force = external * own;
        let looser = if is_lax { 14.0 } else { 0.0 };
        // Sides of one swimmer lie close together; one swimmer has a stiff right shoulder.
        let stiff = if member.case == Case::Plateau && side == SideWord::Right { 14.0 } else { 0.0 };
        note("er_force", Some(side), force, "N");
        note("ir_force", Some(side), external / ratio * random.between(0.97, 1.03), "N");
        note(
            "shoulder_er_rom",
            Some(side),
            98.0 + 5.0 * flexible + looser + random.between(-2.0, 2.0),
            "deg",
        );
        note(
            "shoulder_ir_rom",
            Some(side),
            58.0 + 4.0 * flexible + looser - stiff + random.between(-2.0, 2.0),
            "deg",
        );
        note("shoulder_flexion_rom", Some(side), 180.0 + 4.0 * flexible + looser / 2.0, "deg");
        note("horizontal_adduction", Some(side), 22.0 + 4.0 * flexible + random.between(-2.0, 2.0), "deg");
        note("posterior_endurance_time", Some(side), (22.0 + 3.5 * (age - 11.0)) * random.factor(0.18), "s");
        note("side_bridge_time", Some(side), (30.0 + 5.0 * (age - 11.0)) * random.factor(0.15), "s");
        note("pec_minor_length", Some(side), 12.5 + 0.5 * (age - 11.0) + random.between(-0.4, 0.4), "cm");
    }
    note("plank_time", None, (42.0 + 8.0 * (age - 11.0)) * random.factor(0.18), "s");
    let beighton = if is_lax { 7.0 } else { (2.0 * random.share() * random.share() * 2.0).min(3.0) };
    note("beighton", None, beighton, "of 9");
    if member.case == Case::IntakeOpen && again {
        // A test that was left out says so; it is not a zero.
        let last = found.iter_mut().find(|finding| finding.key == "plank_time");
        if let Some(finding) = last {
            finding.value = None;
            finding.as_entered = None;
            finding.without_value = Some(WithoutValue::NotTested("mat was needed elsewhere".to_owned()));
        }
    }
    found
}

/// Kilometres of the week before, written down on Monday.
fn water(diary: &mut Diary<'_>, member: &Member, day: Date) {
    let from = day.saturating_sub(jiff::ToSpan::days(7));
    let counted = date(2026, 8, 31) <= from && member.joined() <= from;
    if !counted || day.weekday() != jiff::civil::Weekday::Monday {
        return;
    }
    let usual: f64 = member.squad.km() * diary.random.between(0.92, 1.07);
    let km = match member.case {
        Case::Absence if date(2026, 11, 9) <= from => 0.0,
        Case::WaterJump if from == date(2026, 11, 16) => Squad::Youth.km() * 1.5,
        Case::WaterJump if from == date(2026, 10, 5) => 9.0,
        _ => usual,
    };
    diary.at(day, 9 * 60 + 30);
    let mut aside = Random::aside(diary.subject.uuid().as_u128(), from);
    let pace = aside.between(20.0, 23.0);
    let week = WaterWeekFact {
        sessions: Some(if km < 1.0 { 0 } else { member.squad.practices() }),
        minutes: (1.0 <= km).then(|| (km * pace).round()),
        effort: (1.0 <= km).then(|| (aside.between(4.5, 7.0) * 2.0).round() / 2.0),
        ..WaterWeekFact::of(from, tenths(km))
    };
    diary.write(Hand::Office, &week);
}

/// Lengths of the arm, for those who are fifteen and more and were screened: invented, in proportion to height.
pub(super) fn arms(diary: &mut Diary<'_>, member: &Member) {
    let day = SCREENING_DAYS[0];
    if member.age_on(day) < 15.0 || !screened_on(member).contains(&day) {
        return;
    }
    diary.at(day, 17 * 60);
    let height = height_on(member, day) / 100.0;
    let centimetres = |share: f64| (height * share * 100.0).round() / 100.0;
    let fact = ArmLengthsFact {
        date: day,
        upper_arm_m: Some(centimetres(0.178)),
        forearm_m: Some(centimetres(0.147)),
        wrist_to_knuckle_m: Some(centimetres(0.051)),
        elbow_spacing_m: Some(centimetres(0.235)),
    };
    diary.write(Hand::Practitioner, &fact);
}
