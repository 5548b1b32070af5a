//! One request as a page function sees it: the moment, the names in its address, and how a page leaves.

use app::desk::Desk;
use app::moment::Moment;
use axum::http::StatusCode;
use axum::response::Response;
use jiff::civil::Date;
use maud::{Markup, html};
use store::SubjectId;

use super::sent::Sent;
use super::{Site, fresh_key};
use crate::web::error::WebError;
use crate::web::layout::{Frame, shell};
use crate::web::parts::notice::{Outcome, outcome};
use crate::web::respond;
use crate::web::words::text;

/// What a page function gives back.
pub type Answer = Result<Response, WebError>;

/// One request.
pub struct Visit {
    /// What every request shares.
    pub site: Site,
    /// Now.
    pub moment: Moment,
    /// Names in the address, for instance the swimmer's id.
    pub params: Vec<(String, String)>,
    /// What stands behind the question mark.
    pub query: Sent,
    /// The address without what stands behind the question mark.
    pub path: String,
}

impl Visit {
    /// Today in the club's zone.
    pub fn today(&self) -> Date {
        self.moment.today
    }

    /// One name in the address; empty when the route has none.
    pub fn param(&self, name: &str) -> &str {
        self.params.iter().find(|(known, _)| known == name).map_or("", |(_, value)| value)
    }

    /// The swimmer in the address.
    pub fn subject(&self) -> Result<SubjectId, WebError> {
        self.param("id").parse().map_err(|_| WebError::missing())
    }

    /// The day asked about: `?on=`, else today. A day that cannot be read is nobody's day, so today again.
    pub fn day(&self) -> Date {
        self.query.one("on").parse().unwrap_or(self.moment.today)
    }

    /// Which page of a long list, counted from one.
    pub fn page_number(&self) -> u32 {
        self.query.one("page").parse().ok().filter(|page| 0 < *page).unwrap_or(1)
    }

    /// What goes along unseen with every form: the token of this start, and a key by which a form that is sent
    /// twice is stored once.
    pub fn seals(&self) -> Markup {
        html! {
            input type="hidden" name="token" value=(self.site.token());
            input type="hidden" name="once" value=(fresh_key());
        }
    }

    /// A page in its shell. What the last form did is read from `?done=`.
    pub fn page(&self, desk: &Desk, frame: Frame<'_>, body: Markup) -> Answer {
        self.page_as(desk, StatusCode::OK, frame, body)
    }

    /// The same with a status of its own.
    pub fn page_as(&self, desk: &Desk, status: StatusCode, frame: Frame<'_>, body: Markup) -> Answer {
        let done = self.done();
        let club = desk.club().about.as_ref().map(|club| club.name.as_str());
        let frame =
            Frame { club, banner: self.site.banner(), outcome: frame.outcome.or(done.as_ref()), ..frame };
        Ok(respond::page_with(status, shell(&frame, body)))
    }

    fn done(&self) -> Option<Markup> {
        let word = self.query.some("done")?;
        let (_, what, id) = DONE.iter().find(|(known, _, _)| *known == word)?;
        Some(outcome(*what, &text(id)))
    }
}

/// What a form did, by the word in the address of the page it leads to. A closed list: an address can only say
/// what stands here.
const DONE: &[(&str, Outcome, &str)] = &[
    ("recorded", Outcome::Done, "done-recorded"),
    ("emergency", Outcome::Done, "done-emergency"),
    ("decided", Outcome::Done, "done-decided"),
    ("together", Outcome::Done, "done-together"),
    ("session", Outcome::Done, "done-session"),
    ("imported", Outcome::Done, "done-imported"),
    ("import-unchanged", Outcome::Unchanged, "done-import-unchanged"),
    ("corrected", Outcome::Done, "done-corrected"),
    ("taken-back", Outcome::Done, "done-taken-back"),
    ("deck-prepared", Outcome::Done, "done-deck-prepared"),
    ("deck-place", Outcome::Done, "done-deck-place"),
    ("deck-kept", Outcome::Done, "done-deck-kept"),
    ("deck-closed", Outcome::Done, "done-deck-closed"),
    ("nothing-marked", Outcome::Unchanged, "done-nothing-marked"),
];

/// Adds `done=` to an address on this site, before its fragment.
pub fn with_done(path: &str, word: &str) -> String {
    let (path, fragment) = path.split_once('#').map_or((path, ""), |(path, fragment)| (path, fragment));
    let (path, query) = path.split_once('?').map_or((path, ""), |(path, query)| (path, query));
    let mut kept: Vec<String> = query
        .split('&')
        .filter(|pair| !pair.is_empty() && !pair.starts_with("done="))
        .map(str::to_owned)
        .collect();
    kept.push(format!("done={word}"));
    let fragment = if fragment.is_empty() { String::new() } else { format!("#{fragment}") };
    format!("{path}?{}{fragment}", kept.join("&"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_done_is_added_once_and_before_the_fragment() {
        assert_eq!(with_done("/due", "recorded"), "/due?done=recorded");
        assert_eq!(with_done("/due?page=2&done=old#x", "new"), "/due?page=2&done=new#x");
    }

    #[test]
    fn everything_done_has_its_words() {
        for (word, what, id) in DONE {
            assert!(!outcome(*what, &text(id)).into_string().contains('‹'), "{word}");
        }
    }
}
