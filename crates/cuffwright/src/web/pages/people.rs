//! The swimmers: who fits a search, both shoulders of each, in pages.

use app::desk::Desk;
use app::views::people::{Find, TRACKS, find, squads};
use maud::html;

use super::shared::{AVAILABILITIES, encoded, href, name, shoulder_state, tells_apart};
use super::{first, seen};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::form::{Filter, search};
use crate::web::parts::notice::empty;
use crate::web::parts::shoulder::{PairLine, availability_key, availability_word, pair_list};
use crate::web::parts::table::{Paging, paging};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Swimmers on one page.
const LINES: usize = 50;

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    if !visit.is_clinical() {
        return seen::list::show(desk, visit);
    }
    let here = Here::At(Place::People, Spot::People);
    if desk.people().next().is_none() {
        return first::show(desk, visit, here);
    }
    let day = visit.day();
    let sought = Find {
        name: visit.query.one("name").to_owned(),
        availability: AVAILABILITIES.into_iter().find(|one| one.word() == visit.query.one("state")),
        squad: visit.query.one("squad").to_owned(),
        track: visit.query.one("track").to_owned(),
    };
    let found = find(desk, day, &sought);
    let pages = u32::try_from(found.len().div_ceil(LINES)).unwrap_or(u32::MAX).max(1);
    let page = visit.page_number().min(pages);
    let shown: Vec<_> = found
        .iter()
        .skip((page as usize - 1) * LINES)
        .take(LINES)
        .map(|found| {
            let gate = &found.assessment.gate;
            let side = |side| shoulder_state(desk, gate, side);
            let whole = (name(found.person), href(found.person), tells_apart(found.person));
            (whole, side(trade::side::Side::Left), side(trade::side::Side::Right))
        })
        .collect();
    let lines: Vec<PairLine<'_>> = shown
        .iter()
        .map(|((name, href, tells_apart), left, right)| PairLine { name, href, tells_apart, left, right })
        .collect();

    let states: Vec<(&str, String)> =
        AVAILABILITIES.iter().map(|one| (one.word(), availability_word(*one))).collect();
    let states: Vec<(&str, &str)> = states.iter().map(|(value, words)| (*value, words.as_str())).collect();
    let squads = squads(desk, day);
    let squads: Vec<(&str, &str)> = squads.iter().map(|squad| (squad.as_str(), squad.as_str())).collect();
    let tracks: Vec<String> = TRACKS.iter().map(|word| text(&format!("track-{word}"))).collect();
    let tracks: Vec<(&str, &str)> =
        TRACKS.iter().zip(&tracks).map(|(word, words)| (*word, words.as_str())).collect();
    let squad_label = text("filter-squad");
    let (state_label, track_label) = (text("filter-state"), text("filter-track"));
    let filters = [
        Filter { name: "state", label: &state_label, value: visit.query.one("state"), options: &states },
        Filter { name: "squad", label: &squad_label, value: &sought.squad, options: &squads },
        Filter { name: "track", label: &track_label, value: &sought.track, options: &tracks },
    ];
    let title = text("spot-people");
    let lede = say("people-lede", &[("n", Value::Count(found.len() as i64))]);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let link = format!(
        "/people?name={}&state={}&squad={}&track={}&page=",
        encoded(&sought.name),
        encoded(visit.query.one("state")),
        encoded(&sought.squad),
        encoded(&sought.track)
    );
    let body = html! {
        (search("/people", &sought.name, &filters))
        @if lines.is_empty() { (empty(&text("people-nobody"), Some((&text("search-clear"), "/people")))) }
        @else { (pair_list(&title, &lines)) }
        (paging(Paging { page, pages, href: &link }))
        (availability_key())
    };
    visit.page(desk, frame, body)
}
