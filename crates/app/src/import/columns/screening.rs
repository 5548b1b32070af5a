//! Columns of a screening list. Findings are named by their key in the range table.

use quantity::reading::Dimension::{Angle, Count, Force, Length, Time};

use super::Carries::{MaybeSide, Side};
use super::Reads::{Day, Quantity, Text};
use super::{Col, Spec, column};

/// Every column of a screening list.
#[rustfmt::skip]
pub(super) static COLUMNS: &[Spec] = &[
    column(Col::Name, "name", Text, &["swimmer", "full name", "athlete", "swimmer name", "naam"]),
    column(Col::FirstName, "first name", Text, &["first", "given name", "forename", "vorname", "prénom", "voornaam"]),
    column(Col::LastName, "last name", Text, &["last", "surname", "family name", "nachname", "nom", "apellidos", "cognome", "achternaam"]),
    column(Col::Born, "birth date", Day, &["born", "date of birth", "dob", "birthday", "geburtsdatum", "date de naissance"]),
    column(Col::ClubNumber, "club number", Text, &["number", "no", "nr", "member number", "member no", "member id", "id", "mitgliedsnummer", "numéro"]),
    column(Col::Date, "date", Day, &["screening date", "test date", "tested on", "screened on", "datum", "testdatum", "fecha", "data"]),
    column(Col::Tester, "tester", Text, &["tested by", "examiner", "assessor", "prüfer", "testeur"]),
    column(Col::Finding("shoulder_er_rom"), "er range", Quantity(Angle), &["er rom", "external rotation range", "external rotation rom", "external rotation range of motion", "shoulder er rom", "er range of motion", "aussenrotation"]).carrying(Side),
    column(Col::Finding("shoulder_ir_rom"), "ir range", Quantity(Angle), &["ir rom", "internal rotation range", "internal rotation rom", "internal rotation range of motion", "shoulder ir rom", "ir range of motion", "innenrotation"]).carrying(Side),
    column(Col::Finding("shoulder_flexion_rom"), "flexion range", Quantity(Angle), &["flexion", "flexion rom", "shoulder flexion", "shoulder flexion rom"]).carrying(Side),
    column(Col::Finding("horizontal_adduction"), "horizontal adduction", Quantity(Angle), &["horizontal adduction range", "cross body adduction", "hadd"]).carrying(Side),
    column(Col::Finding("er_force"), "er force", Quantity(Force), &["er strength", "external rotation force", "external rotation strength", "er", "kraft aussenrotation"]).carrying(Side),
    column(Col::Finding("ir_force"), "ir force", Quantity(Force), &["ir strength", "internal rotation force", "internal rotation strength", "ir", "kraft innenrotation"]).carrying(Side),
    column(Col::Finding("lever_arm"), "lever arm", Quantity(Length), &["lever", "lever length", "forearm lever"]).carrying(MaybeSide),
    column(Col::Finding("posterior_endurance_time"), "posterior endurance", Quantity(Time), &["posterior endurance time", "posterior shoulder endurance", "posterior shoulder endurance time", "endurance", "endurance hold", "pset"]).carrying(Side),
    column(Col::Finding("posterior_endurance_reps"), "posterior endurance reps", Quantity(Count), &["posterior endurance repetitions", "posterior shoulder endurance reps", "endurance reps"]).carrying(Side),
    column(Col::Finding("plank_time"), "plank", Quantity(Time), &["front plank", "plank time", "plank hold", "front plank hold"]),
    column(Col::Finding("side_bridge_time"), "side bridge", Quantity(Time), &["side plank", "side bridge time", "side bridge hold", "side plank time"]).carrying(Side),
    column(Col::Finding("pec_minor_length"), "pec minor length", Quantity(Length), &["pectoralis minor length", "pec minor", "pectoralis minor"]).carrying(Side),
    column(Col::Finding("beighton"), "beighton", Quantity(Count), &["beighton score", "laxity", "laxity score", "beighton of 9"]),
    column(Col::Hollow, "visible hollow", Text, &["hollow", "visible wasting", "hollow seen", "wasting"]).carrying(MaybeSide),
];
