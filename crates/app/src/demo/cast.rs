//! Who is in the demo club, and what is awkward about each.
//!
//! Every name is invented. The spread is on purpose: long names, a right-to-left script, marks that a font or an
//! import may lose, two with one first name, one whose sex is not stated.

use jiff::civil::{Date, date};

use crate::facts::{ExperienceWord, SexWord};

/// What there is to see of one swimmer on the demo's day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Case {
    /// Nothing in particular: trains, gains, steps up.
    Ordinary,
    /// Three weeks away without swimming, back today.
    Absence,
    /// Grew fast since September: growth hold since the re-test.
    GrowthSpurt,
    /// Pain of 4 in scaption on Monday; nobody has followed it up.
    PainOnMonday,
    /// Left arm weaker than right, in the test and on the band.
    WeakArm,
    /// Loose joints: the hypermobile track.
    Hypermobile,
    /// Consent ran out last week.
    ConsentExpired,
    /// Referred nine days ago; no reply.
    ReferralUnanswered,
    /// Trains under a clinician's signed limit that runs out next week.
    LimitEnding,
    /// Second pain event within a fortnight: referred.
    SecondPainEvent,
    /// Newcomer who says that a shoulder came out once; nobody licensed has written.
    DislocationStory,
    /// Newcomer in the teaching block.
    Teaching,
    /// Eleven years old, first season.
    Beginner,
    /// At the heaviest hand weight: the next step is a switch.
    ScaptionLimit,
    /// Six sessions without gain in the push-up plus.
    Plateau,
    /// Times fall by more than a quarter while pain is said to be zero.
    FallingTimes,
    /// The last step up was too big: down again.
    RungTooBig,
    /// Monday's caps were seen by nobody.
    UnseenCaps,
    /// A step earned before the lighter week is still waiting.
    HeldStep,
    /// One intake question of the renewed form has no answer.
    IntakeOpen,
    /// Latex allergy on the deck card.
    LatexAllergy,
    /// Joined late and was never screened.
    MissedScreening,
    /// Turned 18 on Saturday; only the mother has signed.
    TurnedEighteen,
    /// An adult, who signed for himself and missed the re-test.
    Adult,
    /// Last week's water was far more than usual.
    WaterJump,
}

/// Squad.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Squad {
    Juniors,
    Youth,
    Performance,
}

impl Squad {
    pub(super) const ALL: [Squad; 3] = [Squad::Juniors, Squad::Youth, Squad::Performance];

    pub(super) const fn name(self) -> &'static str {
        match self {
            Squad::Juniors => "Juniors",
            Squad::Youth => "Youth",
            Squad::Performance => "Performance",
        }
    }

    /// Usual kilometres a week.
    pub(super) const fn km(self) -> f64 {
        match self {
            Squad::Juniors => 14.0,
            Squad::Youth => 28.0,
            Squad::Performance => 41.0,
        }
    }

    /// Water practices a week.
    pub(super) const fn practices(self) -> u16 {
        match self {
            Squad::Juniors => 3,
            Squad::Youth | Squad::Performance => 6,
        }
    }

    /// Minute of the day at which dryland begins, right after the practice.
    pub(super) const fn dryland_from(self) -> u32 {
        match self {
            Squad::Juniors => 17 * 60 + 50,
            Squad::Youth => 18 * 60 + 50,
            Squad::Performance => 19 * 60 + 50,
        }
    }
}

/// One member of the demo club.
#[derive(Debug)]
pub struct Member {
    /// Full name.
    pub name: &'static str,
    /// What there is to see.
    pub case: Case,
    pub(super) goes_by: Option<&'static str>,
    pub(super) born: Date,
    pub(super) sex: SexWord,
    pub(super) squad: Squad,
    /// Height on the day of the re-test, centimetres, and how fast it has grown, centimetres a year.
    pub(super) height: (f64, f64),
    pub(super) guardian: (&'static str, &'static str),
}

impl Member {
    pub(super) const fn experience(&self) -> ExperienceWord {
        match self.case {
            Case::Beginner | Case::Teaching | Case::DislocationStory | Case::MissedScreening => {
                ExperienceWord::Beginner
            }
            _ => ExperienceWord::Trained,
        }
    }

    /// Day the club wrote the swimmer down.
    pub(super) const fn joined(&self) -> Date {
        match self.case {
            Case::Teaching => date(2026, 11, 12),
            Case::DislocationStory => date(2026, 11, 19),
            Case::MissedScreening => date(2026, 11, 2),
            _ => BOOKS_OPEN,
        }
    }

    /// First day of the programme. Those who trained last season did so before this tool was in use.
    pub(super) const fn programme_started(&self) -> Option<Date> {
        match self.case {
            Case::DislocationStory => None,
            Case::Teaching => Some(date(2026, 11, 18)),
            Case::MissedScreening => Some(date(2026, 11, 2)),
            Case::Beginner => Some(SEASON),
            _ => Some(date(2025, 9, 15)),
        }
    }

    pub(super) fn age_on(&self, day: Date) -> f64 {
        f64::from(trade::history::days_between(self.born, day)) / 365.25
    }
}

use super::days::{BOOKS_OPEN, SEASON};
use Case as C;
use SexWord::{Female as F, Male as M, Unstated as U};
use Squad::{Juniors as J, Performance as P, Youth as Y};

type Row = (
    (&'static str, Option<&'static str>, Case),
    (Date, SexWord, Squad),
    (f64, f64),
    (&'static str, &'static str),
);

const fn member(row: Row) -> Member {
    let ((name, goes_by, case), (born, sex, squad), height, guardian) = row;
    Member { name, case, goes_by, born, sex, squad, height, guardian }
}

/// Everybody, in the order of the club's list.
#[rustfmt::skip]
pub static CAST: [Member; 26] = [
    member((("Aurélie Okonkwo-Brandt", None, C::Absence), (date(2009, 5, 3), F, P), (171.0, 0.5), ("Chidi Okonkwo", "father"))),
    member((("Tomasz Jarzębowicz", None, C::ScaptionLimit), (date(2009, 11, 30), M, P), (183.0, 1.0), ("Halina Jarzębowicz", "mother"))),
    member((("Þórdís Hrafnkelsdóttir", None, C::Plateau), (date(2010, 2, 17), F, P), (168.0, 1.0), ("Hrafnkell Bergsson", "father"))),
    member((("نور الهدى بن سالمين", Some("Nour"), C::FallingTimes), (date(2010, 7, 8), F, P), (164.0, 1.0), ("سميرة بن سالمين", "mother"))),
    member((("Søren Thorvald Lyngby-Østerfelt", Some("Søren"), C::RungTooBig), (date(2009, 1, 22), M, P), (180.0, 0.8), ("Mette Lyngby", "mother"))),
    member((("Lukas Petäjäsuvanto", None, C::UnseenCaps), (date(2010, 3, 11), M, P), (177.0, 2.0), ("Outi Petäjäsuvanto", "mother"))),
    member((("Lukas Fennimarsh", None, C::HeldStep), (date(2009, 9, 2), M, P), (179.0, 1.0), ("Dorothea Fennimarsh", "grandmother"))),
    member((("Maximilian-Konstantin von Hohenrode-Wittelsbuch", Some("Max"), C::Adult), (date(2007, 4, 19), M, P), (188.0, 0.0), ("Elfriede von Hohenrode", "mother"))),
    member((("Zsófia Kőszegvári", None, C::TurnedEighteen), (date(2008, 11, 21), F, P), (172.0, 0.0), ("Ildikó Kőszegvári", "mother"))),
    member((("Ebele Achterveld", None, C::WeakArm), (date(2010, 10, 5), F, P), (167.0, 1.0), ("Joost Achterveld", "father"))),
    member((("Joaquín Iturralde Mendizorro", Some("Joaco"), C::LimitEnding), (date(2008, 12, 29), M, P), (182.0, 0.5), ("Amaia Mendizorro", "mother"))),
    member((("Aiko Fairwether", None, C::Ordinary), (date(2010, 11, 9), F, P), (163.0, 1.0), ("Reiko Fairwether", "mother"))),
    member((("Bartholomew Quillfeather", Some("Barty"), C::GrowthSpurt), (date(2013, 4, 2), M, Y), (156.0, 6.0), ("Constance Quillfeather", "mother"))),
    member((("Ines Vandermeerle", None, C::PainOnMonday), (date(2012, 3, 27), F, Y), (163.0, 2.5), ("Katrien Vandermeerle", "mother"))),
    member((("Saoirse Ní Mhaolchroin", None, C::Hypermobile), (date(2011, 6, 14), F, Y), (166.0, 2.0), ("Fiachra Ó Maolchroin", "father"))),
    member((("Lâm Thảo Vy Nguyệt", Some("Vy"), C::ConsentExpired), (date(2011, 12, 5), F, Y), (160.0, 2.0), ("Lâm Quốc Bình", "father"))),
    member((("Oskar Dragomirov-Lund", None, C::ReferralUnanswered), (date(2010, 12, 19), M, Y), (175.0, 2.5), ("Ilinca Lund", "mother"))),
    member((("Chiara Bellofiore-Nsubuga", None, C::SecondPainEvent), (date(2012, 8, 30), F, Y), (161.0, 2.5), ("Patience Nsubuga", "mother"))),
    member((("Wren Castellane", None, C::WaterJump), (date(2010, 12, 9), U, Y), (172.0, 2.0), ("Morgan Castellane", "guardian"))),
    member((("Dagný Winterfeldt", None, C::IntakeOpen), (date(2011, 10, 23), F, Y), (165.0, 2.0), ("Ragna Winterfeldt", "mother"))),
    member((("Kwabena Hallorin", None, C::LatexAllergy), (date(2010, 11, 27), M, Y), (176.0, 2.5), ("Abena Hallorin", "mother"))),
    member((("Hanna-Liisa Merikorventaus", Some("Hanski"), C::Ordinary), (date(2013, 5, 30), F, J), (160.0, 3.5), ("Pirkko Merikorventaus", "mother"))),
    member((("Pippa Nyström-Abara", None, C::Beginner), (date(2015, 7, 16), F, J), (146.0, 5.5), ("Linnéa Nyström", "mother"))),
    member((("Emil Strandgårde", None, C::Teaching), (date(2014, 5, 20), M, J), (151.0, 5.0), ("Karin Strandgårde", "mother"))),
    member((("Mirembe Falkenå", None, C::DislocationStory), (date(2013, 2, 1), F, J), (161.0, 3.0), ("Nakato Falkenå", "mother"))),
    member((("Teodor Vasilchuk-Þorsson", None, C::MissedScreening), (date(2014, 1, 8), M, J), (153.0, 5.0), ("Olena Vasilchuk", "mother"))),
];
