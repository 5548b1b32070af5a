//! Columns of a roster.

use quantity::reading::Dimension::{Length, Mass};

use super::Reads::{Choice, Day, Quantity, Text, YesNo};
use super::{Col, Spec, column};

/// Every column of a roster.
#[rustfmt::skip]
pub(super) static COLUMNS: &[Spec] = &[
    column(Col::Name, "name", Text, &["swimmer", "full name", "athlete", "swimmer name", "nom complet", "nombre completo", "nome completo", "naam"]),
    column(Col::FirstName, "first name", Text, &["first", "given name", "forename", "vorname", "prénom", "nombre", "nome", "voornaam", "förnamn"]),
    column(Col::LastName, "last name", Text, &["last", "surname", "family name", "nachname", "nom", "apellido", "apellidos", "cognome", "achternaam", "efternamn"]),
    column(Col::GoesBy, "goes by", Text, &["known as", "nickname", "called", "rufname"]),
    column(Col::Born, "birth date", Day, &["born", "date of birth", "dob", "birthday", "geburtsdatum", "geboren", "geb", "date de naissance", "né le", "fecha de nacimiento", "data di nascita", "geboortedatum", "födelsedatum"]),
    column(Col::Sex, "sex", Choice, &["gender", "m/f", "geschlecht", "sexe", "sexo", "sesso", "geslacht", "kön"]),
    column(Col::Squad, "squad", Text, &["group", "team", "gruppe", "mannschaft", "groupe", "grupo", "gruppo", "groep", "grupp"]),
    column(Col::ClubNumber, "club number", Text, &["number", "no", "nr", "member number", "member no", "member id", "membership number", "id", "mitgliedsnummer", "numéro", "número", "numero", "lidnummer"]),
    column(Col::Seasons, "seasons", Text, &["experience", "dryland seasons", "seasons of dryland", "season count", "years of dryland", "saisons", "erfahrung", "temporadas"]),
    column(Col::ProgrammeStart, "programme start", Day, &["program start", "programme started", "started", "start date", "in programme since", "beginn", "programmstart"]),
    column(Col::LeftOn, "left on", Day, &["left club", "leaving date", "ausgetreten"]),
    column(Col::GuardianName, "guardian", Text, &["guardian name", "parent", "parent name", "emergency contact", "contact", "erziehungsberechtigte", "eltern", "kontakt", "tuteur", "parents", "tutor", "genitore", "ouder"]),
    column(Col::GuardianPhone, "guardian phone", Text, &["phone", "telephone", "parent phone", "emergency phone", "contact phone", "mobile", "telefon", "telefon eltern", "téléphone", "teléfono", "telefono", "telefoon"]),
    column(Col::GuardianRelation, "guardian relation", Text, &["relation", "relationship", "parent relation", "verhältnis", "lien"]),
    column(Col::EmergencyNote, "allergies", Text, &["allergy", "allergy note", "emergency note", "medical alert", "allergien", "allergie", "alergias", "allergieën"]),
    column(Col::Height, "height", Quantity(Length), &["stature", "body height", "größe", "körpergröße", "taille", "estatura", "altura", "altezza", "lengte", "längd"]),
    column(Col::SittingHeight, "sitting height", Quantity(Length), &["sitting", "sitzhöhe", "taille assise", "zithoogte"]),
    column(Col::BodyMass, "mass", Quantity(Mass), &["body mass", "weight", "body weight", "gewicht", "körpergewicht", "poids", "peso", "vikt"]),
    column(Col::MeasuredOn, "measured on", Day, &["measured", "date measured", "measure date", "height date", "messdatum", "gemessen am", "mesuré le"]),
    column(Col::ConsentSigned, "consent signed", Day, &["consent", "consent date", "consent signed on", "einwilligung", "einwilligung am", "consentement", "consentimiento", "consenso"]),
    column(Col::ConsentItems, "consent items", Text, &["consent to", "consents", "items agreed", "consent given for", "einwilligung für"]),
    column(Col::ConsentSigner, "consent signed by", Text, &["signed by", "signer", "consent signer", "unterzeichnet von"]),
    column(Col::ConsentRelation, "consent relation", Text, &["signer relation", "relation of signer"]),
    column(Col::IntakeDate, "intake date", Day, &["intake", "questions asked on", "intake on", "anamnese am"]),
    column(Col::PainYear, "shoulder pain 12 months", YesNo, &["shoulder pain in the last 12 months", "shoulder pain last 12 months", "pain 12 months", "pain last year", "schulterschmerz 12 monate"]),
    column(Col::Dislocated, "slipped or dislocated", YesNo, &["dislocated", "dislocation", "slipping", "dislocation or slipping", "slipped", "luxation"]),
    column(Col::Operation, "operation", YesNo, &["surgery", "shoulder operation", "shoulder surgery", "op"]),
    column(Col::SignsAsked, "red flags asked", YesNo, &["signs asked", "red flag questions asked", "warning signs asked"]),
    column(Col::Signs, "red flags", Text, &["red flag signs", "warning signs", "signs"]),
];
