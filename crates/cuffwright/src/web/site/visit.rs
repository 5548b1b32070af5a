//! One request as a page function sees it: the moment, the names in its address, and how a page leaves.

use app::desk::{Author, Desk, Draft};
use app::entry::author_of;
use app::error::AppError;
use app::moment::Moment;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use door::permit::{About, Denied, Thing, may};
use door::principal::Principal;
use door::token::Token;
use jiff::civil::Date;
use maud::{Markup, html};
use store::SubjectId;

use super::sent::Sent;
use super::way::{Cookie, Way};
use super::{Entry, Site, fresh_key};
use crate::web::error::{Kind, WebError};
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
    /// The way it came.
    pub way: Way,
    /// Its headers.
    pub headers: HeaderMap,
    /// Who asks; none for a stranger, who gets no further than the door.
    pub who: Option<Principal>,
    /// What the browser carries: a session's token, a device's, or one that means nothing yet.
    pub token: Option<Token>,
    /// The token was made just now and goes along with the page: a browser that came with none.
    pub is_new_browser: bool,
    /// The row of the route table.
    pub route: &'static str,
}

impl Visit {
    /// Today in the club's zone.
    pub fn today(&self) -> Date {
        self.moment.today
    }

    /// Who asks. Behind the door somebody always does.
    pub fn who(&self) -> Result<&Principal, WebError> {
        self.who.as_ref().ok_or(WebError::new(Kind::SignIn))
    }

    /// Who writes, for the record.
    pub fn author(&self) -> Author {
        let nobody = Author { name: String::new(), device: String::new() };
        self.who.as_ref().map_or(nobody, author_of)
    }

    /// True for whoever reads reasons and health words of everybody: the owner and practitioners. Everybody else is
    /// shown the types of `app::roles`.
    pub fn is_clinical(&self) -> bool {
        self.may(Thing::Health)
    }

    /// True when whoever asks may see or do this about everybody.
    pub fn may(&self, thing: Thing) -> bool {
        self.who.as_ref().is_some_and(|who| may(who, thing, About::Everybody, self.moment.today).is_ok())
    }

    /// Records facts about one swimmer, or about the club, in the asker's name: only what the asker may record, and
    /// the audit says so.
    pub fn record(&self, desk: &mut Desk, subject: SubjectId, drafts: &[Draft]) -> Result<(), AppError> {
        let drafts: Vec<(SubjectId, Draft)> = drafts.iter().map(|draft| (subject, draft.clone())).collect();
        self.record_many(desk, &drafts)
    }

    /// The same about several.
    pub fn record_many(&self, desk: &mut Desk, drafts: &[(SubjectId, Draft)]) -> Result<(), AppError> {
        let who = self.who.as_ref().ok_or_else(|| app::entry::problem::denied(Denied::Role))?;
        desk.record_all_as(&self.moment, who, drafts).map(drop)
    }

    /// True when a form carries the word of this session (in the demo: of this start), so that it comes from a page
    /// of ours.
    pub fn is_sealed(&self, given: &str) -> bool {
        match (&self.token, self.site.entry()) {
            (_, Entry::Demo(_)) => given == self.site.token(),
            (Some(token), Entry::Accounts) => token.is_form_word(given),
            (None, Entry::Accounts) => false,
        }
    }

    /// The word that a form must carry; blank for a browser that carries nothing yet.
    pub fn form_word(&self) -> String {
        match (&self.token, self.site.entry()) {
            (_, Entry::Demo(_)) => self.site.token().to_owned(),
            (token, Entry::Accounts) => token.as_ref().map(Token::form_word).unwrap_or_default(),
        }
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
            input type="hidden" name="token" value=(self.form_word());
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
        let frame = Frame { outcome: frame.outcome.or(done.as_ref()), ..frame };
        let mut response = respond::page_with(status, self.framed(desk, frame, |frame| shell(&frame, body)));
        if let (true, Some(token)) = (self.is_new_browser, &self.token) {
            Cookie::Session.set(&mut response, &token.reveal(), self.way.secure);
        }
        Ok(response)
    }

    /// Draws with what stands around every page: club, banner, and whoever reads. A stranger reads no club's name.
    pub fn framed(&self, desk: &Desk, frame: Frame<'_>, draw: impl FnOnce(Frame<'_>) -> Markup) -> Markup {
        let club = desk.club().about.as_ref().map(|club| club.name.as_str());
        let badge = super::badge::badge(self);
        draw(Frame {
            club: club.filter(|_| self.who.is_some()),
            banner: self.site.banner(),
            who: self.who.as_ref(),
            badge: badge.as_ref(),
            ..frame
        })
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
    ("owner", Outcome::Done, "done-owner"),
    ("password", Outcome::Done, "done-password"),
    ("signed-out", Outcome::Done, "done-signed-out"),
    ("account", Outcome::Done, "done-account"),
    ("paired", Outcome::Done, "done-paired"),
    ("device-ended", Outcome::Done, "done-device-ended"),
    ("withdrawn", Outcome::Done, "done-withdrawn"),
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
