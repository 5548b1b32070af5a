//! The swimmers that fit a search, and the weightiest reason of each shoulder.

use std::sync::Arc;

use jiff::civil::Date;
use trade::gate::{Availability, Gate, Hold, Tracks};
use trade::side::Side;

use crate::desk::{Assessment, Desk, Person};

/// What is sought. Everything empty fits everybody.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Find {
    /// Parts of a name, in any order.
    pub name: String,
    /// At least one shoulder stands at this availability.
    pub availability: Option<Availability>,
    /// Squad, as written.
    pub squad: String,
    /// Track, by its word.
    pub track: String,
}

/// One swimmer found.
pub struct Found<'a> {
    /// Who.
    pub person: &'a Person,
    /// What the rules say on the day.
    pub assessment: Arc<Assessment>,
}

/// The words of the tracks, in the order in which they are offered.
pub const TRACKS: [&str; 5] = ["youth", "hypermobile", "growth", "return", "newcomer"];

/// True when a track by its word holds.
pub fn is_on_track(tracks: &Tracks, word: &str) -> bool {
    match word {
        "youth" => tracks.youth.is_some(),
        "hypermobile" => tracks.hypermobile.is_some(),
        "growth" => tracks.growth.is_some(),
        "return" => tracks.reentry.is_some(),
        "newcomer" => tracks.newcomer.is_some(),
        _ => false,
    }
}

/// Everybody of the squad who fits, by name; two of one name by date of birth.
pub fn find<'a>(desk: &'a Desk, on: Date, sought: &Find) -> Vec<Found<'a>> {
    let parts: Vec<String> = folded(&sought.name).split_whitespace().map(str::to_owned).collect();
    let mut found: Vec<Found<'a>> = desk
        .squad_on(on)
        .filter(|person| {
            let swimmer = &person.read.swimmer;
            let name =
                folded(&format!("{} {}", swimmer.name, swimmer.goes_by.as_deref().unwrap_or_default()));
            parts.iter().all(|part| name.contains(part.as_str()))
                && (sought.squad.is_empty() || swimmer.squad == sought.squad)
        })
        .map(|person| Found { person, assessment: desk.assess(person, on) })
        .filter(|found| {
            let gate = &found.assessment.gate;
            let stands = |wanted| Side::BOTH.iter().any(|side| gate.shoulder(*side) == wanted);
            sought.availability.is_none_or(stands)
                && (sought.track.is_empty() || is_on_track(&gate.tracks, &sought.track))
        })
        .collect();
    found.sort_by_cached_key(|found| {
        let swimmer = &found.person.read.swimmer;
        (folded(&swimmer.name), swimmer.born, found.person.subject)
    });
    found
}

/// Every squad by its name.
pub fn squads(desk: &Desk, on: Date) -> Vec<String> {
    let mut squads: Vec<String> = desk
        .squad_on(on)
        .map(|person| person.read.swimmer.squad.clone())
        .filter(|squad| !squad.is_empty())
        .collect();
    squads.sort_unstable();
    squads.dedup();
    squads
}

/// The weightiest hold of one shoulder, the person's own included.
pub fn weightiest(gate: &Gate, side: Side) -> Option<&Hold> {
    gate.holds.iter().find(|hold| hold.side.is_none_or(|held| held == side))
}

/// Lower case, with the marks of Latin letters taken off: whoever types "noel" finds "Noël".
pub fn folded(text: &str) -> String {
    text.to_lowercase()
        .chars()
        .flat_map(|letter| {
            let plain: &str = match letter {
                'à' | 'á' | 'â' | 'ã' | 'å' | 'ā' | 'ă' | 'ą' => "a",
                'ä' | 'æ' => "ae",
                'ç' | 'ć' | 'č' => "c",
                'ď' | 'đ' | 'ð' => "d",
                'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ė' | 'ę' | 'ě' => "e",
                'ğ' => "g",
                'ì' | 'í' | 'î' | 'ï' | 'ī' | 'į' | 'ı' => "i",
                'ł' | 'ľ' => "l",
                'ñ' | 'ń' | 'ň' => "n",
                'ò' | 'ó' | 'ô' | 'õ' | 'ő' | 'ō' => "o",
                'ö' | 'œ' | 'ø' => "oe",
                'ř' => "r",
                'ś' | 'š' | 'ş' | 'ș' => "s",
                'ß' => "ss",
                'ť' | 'ţ' | 'ț' => "t",
                'ù' | 'ú' | 'û' | 'ű' | 'ů' | 'ū' => "u",
                'ü' => "ue",
                'ý' | 'ÿ' => "y",
                'ź' | 'ż' | 'ž' => "z",
                other => return Folded::Same(std::iter::once(other)),
            };
            Folded::Plain(plain.chars())
        })
        .collect()
}

enum Folded {
    Same(std::iter::Once<char>),
    Plain(std::str::Chars<'static>),
}

impl Iterator for Folded {
    type Item = char;

    fn next(&mut self) -> Option<char> {
        match self {
            Folded::Same(one) => one.next(),
            Folded::Plain(letters) => letters.next(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_on_letters_do_not_hide_a_name() {
        assert_eq!(folded("Noël Ørsted"), "noel oersted");
        assert_eq!(folded("Łucja ŠTĚPÁN"), "lucja stepan");
    }

    #[test]
    fn every_track_word_is_known() {
        let tracks = Tracks::default();
        assert!(TRACKS.iter().all(|word| !is_on_track(&tracks, word)));
    }
}
