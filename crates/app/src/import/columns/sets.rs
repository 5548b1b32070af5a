//! Columns of past set times.

use quantity::reading::Dimension::{Count, Force, Mass, Time};

use super::Carries::{MaybeSide, Number};
use super::Reads::{Choice, Day, Quantity, Text, YesNo};
use super::{Col, Spec, column};

/// Every column of past set times.
#[rustfmt::skip]
pub(super) static COLUMNS: &[Spec] = &[
    column(Col::Name, "name", Text, &["swimmer", "full name", "athlete", "swimmer name", "naam"]),
    column(Col::FirstName, "first name", Text, &["first", "given name", "forename", "vorname", "prénom", "voornaam"]),
    column(Col::LastName, "last name", Text, &["last", "surname", "family name", "nachname", "nom", "apellidos", "cognome", "achternaam"]),
    column(Col::Born, "birth date", Day, &["born", "date of birth", "dob", "birthday", "geburtsdatum", "date de naissance"]),
    column(Col::ClubNumber, "club number", Text, &["number", "no", "nr", "member number", "member no", "member id", "id", "mitgliedsnummer", "numéro"]),
    column(Col::Date, "date", Day, &["session date", "day", "datum", "tag", "fecha", "data"]),
    column(Col::Session, "session", Quantity(Count), &["session number", "session no", "session of the day", "einheit"]),
    column(Col::Exercise, "exercise", Text, &["exercise id", "exercise name", "drill", "übung", "exercice", "ejercicio", "esercizio", "oefening"]),
    column(Col::WorkingSide, "side", Choice, &["arm", "shoulder", "seite", "côté", "lado", "lato", "kant"]),
    column(Col::Rung, "rung", Text, &["rung used", "resistance", "stufe"]),
    column(Col::Level, "level", Quantity(Count), &["rung number", "ladder level", "niveau", "nivel"]),
    column(Col::Force, "band force", Quantity(Force), &["force", "band", "band pull", "kraft"]),
    column(Col::Weight, "hand weight", Quantity(Mass), &["mass", "weight", "load", "dumbbell", "gewicht"]),
    column(Col::PlannedRung, "planned rung", Text, &["rung planned", "prescribed rung", "planned"]),
    column(Col::PrescribedSets, "prescribed sets", Quantity(Count), &["sets prescribed", "sets planned", "planned sets"]),
    column(Col::SetNumber, "set number", Quantity(Count), &["set no", "set nr", "which set", "satznummer"]),
    column(Col::SetTime, "set", Quantity(Time), &["time", "seconds", "set time", "hold", "zeit", "satz", "série", "serie", "temps", "tiempo"]).carrying(Number),
    column(Col::End, "end", Choice, &["end reason", "ended by", "why ended", "reason", "ende"]).carrying(Number),
    column(Col::Fault, "fault", Text, &["form fault", "fault code", "fehler"]).carrying(Number),
    column(Col::Seen, "seen", YesNo, &["watched", "observed", "gesehen"]).carrying(Number),
    column(Col::Context, "context", Choice, &["when", "situation", "zustand"]),
    column(Col::Cap, "cap", Quantity(Time), &["time cap", "cap in force", "limit"]),
    column(Col::ClockKind, "clock", Choice, &["timed by", "stopwatch", "uhr"]),
    column(Col::Rest, "rest before", Quantity(Time), &["rest", "pause"]),
    column(Col::Effort, "practice effort", Quantity(Count), &["effort", "effort of last practice", "rpe"]),
    column(Col::PainBefore, "pain before", Text, &["shoulder pain before", "schmerz vorher", "douleur avant"]).carrying(MaybeSide),
    column(Col::PainAfter, "pain after", Text, &["shoulder pain after", "schmerz nachher", "douleur après"]).carrying(MaybeSide),
];
