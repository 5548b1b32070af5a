//! The club as a whole: practices, season, meets, kit and its inspections.

use jiff::civil::{Date, Time, date, time};

use super::cast::Squad;
use super::days::{BOOKS_OPEN, SEASON, ZONE};
use super::diary::{Diary, Hand};
use crate::facts::{
    CalibrationFact, ClubFact, GradeWord, InspectionFact, KitPieceFact, KitWord, MeetFact, PeriodFact,
    PhaseWord, PracticeFact, ReadingFact, SeasonFact, Units,
};

/// Day on which most of the kit was last looked at.
const INSPECTED: Date = date(2026, 11, 9);
/// Day on which the one overdue piece was.
const INSPECTED_LONG_AGO: Date = date(2026, 10, 5);

/// Mark, what it is, newtons at double length or kilograms, pieces, contains latex.
type Piece = (&'static str, KitWord, f64, u16, Option<bool>);

const KIT: [Piece; 19] = [
    ("B-10", KitWord::Band, 9.8, 6, Some(true)),
    ("B-13", KitWord::Band, 13.1, 8, Some(true)),
    ("B-16", KitWord::Band, 16.4, 8, Some(true)),
    ("B-20", KitWord::Band, 19.7, 8, Some(true)),
    ("B-25", KitWord::Band, 25.2, 6, Some(true)),
    ("B-32", KitWord::Band, 31.6, 4, Some(true)),
    ("B-42", KitWord::Band, 42.3, 2, None),
    ("F-13", KitWord::Band, 12.9, 2, Some(false)),
    ("F-16", KitWord::Band, 16.2, 2, Some(false)),
    ("F-20", KitWord::Band, 20.4, 2, Some(false)),
    ("W-025", KitWord::Weight, 0.25, 12, Some(false)),
    ("W-05", KitWord::Weight, 0.5, 16, Some(false)),
    ("W-10", KitWord::Weight, 1.0, 16, Some(false)),
    ("W-15", KitWord::Weight, 1.5, 8, Some(false)),
    ("W-20", KitWord::Weight, 2.0, 8, Some(false)),
    ("W-22", KitWord::Weight, 2.2, 4, Some(false)),
    ("S-05", KitWord::Ball, 0.5, 8, Some(false)),
    ("M-1", KitWord::Mat, 0.0, 16, Some(false)),
    ("A-1", KitWord::Anchor, 0.0, 8, Some(false)),
];

/// The one piece whose inspection is overdue, and the one that was withdrawn.
const OVERDUE: &str = "B-25";
const WITHDRAWN: &str = "B-42";

/// Tells everything about the club.
pub(super) fn tell(diary: &mut Diary<'_>) {
    diary.at(BOOKS_OPEN, 8 * 60);
    let club = ClubFact {
        name: super::CLUB.to_owned(),
        zone: ZONE.to_owned(),
        units: Units::Metric,
        practitioner: format!("{}, sports physiotherapist", super::PRACTITIONER),
        practitioner_phone: "000 555 0140".to_owned(),
        daily_practices: false,
    };
    diary.write(Hand::Office, &club);
    diary.write(Hand::Practitioner, &SeasonFact { start: SEASON });
    practices(diary);
    let period = |from, to, phase| PeriodFact { from, to, phase };
    diary.write(Hand::Practitioner, &period(date(2026, 12, 5), date(2026, 12, 12), PhaseWord::Taper));
    diary.write(Hand::Practitioner, &period(date(2026, 12, 27), date(2027, 1, 2), PhaseWord::Camp));
    let meet = |date, grade, name: &str| MeetFact {
        date,
        grade,
        name: Some(name.to_owned()),
        last: None,
        starts: None,
        squads: Vec::new(),
        swimmers: Vec::new(),
    };
    diary.write(Hand::Office, &meet(date(2026, 10, 11), GradeWord::C, "Autumn sprint day"));
    diary.write(Hand::Office, &meet(date(2026, 12, 12), GradeWord::B, "Candle meet"));
    kit(diary);
    super::weekly::trial(diary);
    calibrations(diary);
}

fn practices(diary: &mut Diary<'_>) {
    for squad in Squad::ALL {
        let (days, from, to): (&[i8], Time, Time) = match squad {
            Squad::Juniors => (&[1, 3, 5], time(16, 30, 0, 0), time(17, 40, 0, 0)),
            Squad::Youth => (&[1, 2, 3, 4, 5], time(17, 0, 0, 0), time(18, 40, 0, 0)),
            Squad::Performance => (&[1, 2, 3, 4, 5], time(17, 45, 0, 0), time(19, 40, 0, 0)),
        };
        for &weekday in days {
            diary.write(Hand::Office, &practice(squad, weekday, from, to));
        }
        if squad != Squad::Juniors {
            let (from, to) = (time(8, 0, 0, 0), time(10, 0, 0, 0));
            diary.write(Hand::Office, &practice(squad, 6, from, to));
        }
    }
}

fn practice(squad: Squad, weekday: i8, from: Time, to: Time) -> PracticeFact {
    PracticeFact { squad: squad.name().to_owned(), weekday, from, to, place: super::week::POOL.to_owned() }
}

fn kit(diary: &mut Diary<'_>) {
    diary.at(date(2026, 9, 10), 10 * 60);
    for (mark, kind, size, pieces, latex) in KIT {
        let is_band = kind == KitWord::Band;
        let has_mass = matches!(kind, KitWord::Weight | KitWord::Ball);
        let piece = KitPieceFact {
            mark: mark.to_owned(),
            kind,
            force_at_double_n: is_band.then_some(size),
            rest_length_m: is_band.then_some(1.2),
            mass_kg: has_mass.then_some(size),
            pieces,
            in_service: Some(date(2026, 9, 10)),
            latex,
            withdrawn: (mark == WITHDRAWN)
                .then(|| (date(2026, 10, 5), "a nick near the loop, found at the inspection".to_owned())),
            as_entered: is_band.then(|| format!("1.20 m, {size} N at 2.40 m, luggage scale")),
        };
        diary.write(Hand::Practitioner, &piece);
    }
    for day in [INSPECTED_LONG_AGO, INSPECTED] {
        diary.at(day, 10 * 60);
        for (mark, kind, ..) in KIT {
            let is_looked_at = matches!(kind, KitWord::Band | KitWord::Anchor);
            let is_skipped = day == INSPECTED && (mark == OVERDUE || mark == WITHDRAWN);
            if is_looked_at && !is_skipped {
                let by = Hand::Deck.name().to_owned();
                let fact = InspectionFact { date: day, mark: mark.to_owned(), sound: mark != WITHDRAWN, by };
                diary.write(Hand::Deck, &fact);
            }
        }
    }
}

/// Bands that were measured with a luggage scale, and on which days; one was measured again and had gone softer.
const MEASURED: [(&str, f64, Date, f64); 6] = [
    ("B-10", 9.8, date(2026, 9, 12), 1.0),
    ("B-13", 13.1, date(2026, 9, 12), 1.0),
    ("B-16", 16.4, date(2026, 9, 12), 1.0),
    ("B-20", 19.7, date(2026, 9, 12), 1.0),
    ("B-25", 25.2, date(2026, 9, 12), 1.0),
    ("B-16", 16.4, date(2026, 11, 14), 0.95),
];

/// Marks on the band stand this far apart when it is slack, metres.
const MARKS: f64 = 0.50;

/// Readings as a luggage scale shows them, in steps of 0.02 kg: invented, with the unevenness of a hand that pulls.
fn calibrations(diary: &mut Diary<'_>) {
    const KILOGRAM: f64 = 9.806_65;
    const STRETCHES: [(f64, f64); 7] =
        [(1.2, 1.01), (1.4, 0.99), (1.6, 1.01), (1.8, 1.0), (2.0, 1.0), (2.3, 0.99), (2.6, 1.005)];
    for (mark, at_double, day, softer) in MEASURED {
        diary.at(day, 11 * 60);
        // One strand with two constants in the ratio of two to one, pulling what the club's list says at double length.
        let a = at_double * softer / 2.1875;
        let readings: Vec<(f64, f64)> = STRETCHES
            .iter()
            .map(|(stretch, uneven)| {
                let force = a * (stretch - stretch.powi(-2)) + 0.5 * a * (1.0 - stretch.powi(-3));
                let shown = (force * uneven / KILOGRAM / 0.02).round() * 0.02;
                (stretch * MARKS, shown)
            })
            .collect();
        let entered: Vec<String> =
            readings.iter().map(|(length, shown)| format!("{:.0} {shown:.2}", length * 100.0)).collect();
        let fact = CalibrationFact {
            date: day,
            mark: mark.to_owned(),
            rest_m: MARKS,
            readings: readings
                .iter()
                .map(|(length_m, shown)| ReadingFact { length_m: *length_m, force_n: shown * KILOGRAM })
                .collect(),
            by: super::PRACTITIONER.to_owned(),
            as_entered: Some(format!("{} (cm, kg)", entered.join("; "))),
        };
        diary.write(Hand::Practitioner, &fact);
    }
}
