//! What came of a session: sets by swimmer, two records of one set, refused entries, something new, incidents.

use std::collections::{BTreeMap, BTreeSet};

use app::deck::entry::Entry;
use app::desk::Desk;
use app::facts::{DeckSessionFact, EndWord, IncidentFact, Kind as FactKind, SetFact, read_json};
use door::permit::Thing;
use maud::{Markup, html};
use store::{Closing, FactId, SubjectId};

use super::{BELOW, session};
use crate::web::error::WebError;
use crate::web::layout::Frame;
use crate::web::pages::person::lines::{exercise_name, side_name};
use crate::web::pages::shared::{href, name};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// One live set of this session, as a device saw it.
struct Saw {
    id: FactId,
    subject: SubjectId,
    fact: SetFact,
    contested: bool,
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let session = session(desk, visit)?;
    let entries = desk.deck_entries(&session.session)?;
    let saw = saw(desk, &session)?;
    let (title, lede) = (text("deck-record-title"), text("deck-record-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here: BELOW, ..Frame::default() };
    let devices: BTreeSet<&str> = entries.iter().map(|entry| entry.device.as_str()).collect();
    let count = |count: usize| Value::Count(i64::try_from(count).unwrap_or(0));
    let body = html! {
        @if entries.is_empty() { p { (text("deck-no-entries")) } }
        @else { p.quiet { (say("deck-entries", &[("n", count(entries.len())), ("of", count(devices.len()))])) } }
        (conflicts(desk, visit, &session, &saw))
        (refusals(desk, visit, &session)?)
        (something_new(desk, &session, &entries))
        (incidents(desk, &session)?)
        (by_swimmer(desk, &saw))
        @if visit.may(Thing::Decide) { p { a.button href="/review" { (text("spot-review")) } } }
    };
    visit.page(desk, frame, body)
}

fn saw(desk: &Desk, session: &DeckSessionFact) -> Result<Vec<Saw>, WebError> {
    let prefix = format!("deck:{}:", session.session);
    let live = desk.store().live_facts_of_kind(FactKind::Set.word()).map_err(app::error::AppError::from)?;
    Ok(live
        .into_iter()
        .filter(|live| live.fact.told.natural_key.as_deref().is_some_and(|key| key.starts_with(&prefix)))
        .filter_map(|live| {
            let fact = read_json::<SetFact>(live.payload()).ok()?;
            Some(Saw {
                id: live.fact.told.id,
                subject: live.fact.told.subject,
                fact,
                contested: live.contested,
            })
        })
        .collect())
}

fn set_words(desk: &Desk, fact: &SetFact) -> String {
    let end = match fact.set.end {
        EndWord::Cap if fact.set.seen == Some(true) => text("deckui-stands-seen"),
        EndWord::Cap => text("deckui-stands-unseen"),
        EndWord::Form => say("deckui-stands-form", &[("s", Value::Words(&fact.set.seconds.to_string()))]),
        EndWord::ChoseToStop => {
            say("deckui-stands-chose-to-stop", &[("s", Value::Words(&fact.set.seconds.to_string()))])
        }
        EndWord::Pain => say("deckui-stands-pain", &[("s", Value::Words(&fact.set.seconds.to_string()))]),
        EndWord::Kit => say("deckui-stands-kit", &[("s", Value::Words(&fact.set.seconds.to_string()))]),
        EndWord::Left => say("deckui-stands-left", &[("s", Value::Words(&fact.set.seconds.to_string()))]),
    };
    let fault = fact.set.fault.as_deref().and_then(|code| {
        desk.protocol().fault(&trade::name::FaultCode::new(code)).map(|fault| format!(": {}", fault.name))
    });
    format!("{}. {end}{}", fact.number, fault.unwrap_or_default())
}

fn line_words(desk: &Desk, fact: &SetFact) -> String {
    let exercise = exercise_name(desk, &trade::name::ExerciseId::new(&fact.exercise));
    format!("{exercise}, {}", side_name(fact.side.into()))
}

fn who(desk: &Desk, subject: SubjectId) -> Markup {
    match desk.person(subject) {
        Ok(person) => html! { a href=(href(person)) { (name(person)) } },
        Err(_) => html! { (text("deck-someone")) },
    }
}

/// Both are kept; a person takes one back.
fn conflicts(desk: &Desk, visit: &Visit, session: &DeckSessionFact, saw: &[Saw]) -> Markup {
    let mut twice: BTreeMap<(SubjectId, String, u8), Vec<&Saw>> = BTreeMap::new();
    for one in saw.iter().filter(|one| one.contested) {
        twice.entry((one.subject, line_words(desk, &one.fact), one.fact.number)).or_default().push(one);
    }
    twice.retain(|_, both| 1 < both.len());
    html! {
        @if !twice.is_empty() {
            section.deck-conflicts id="conflicts" {
                h2 { (text("deck-conflicts")) }
                p { (text("deck-conflicts-what")) }
                @for ((subject, line, _), both) in &twice {
                    p { (who(desk, *subject)) ", " (line) }
                    ul { @for one in both {
                        li {
                            (set_words(desk, &one.fact)) " "
                            form.in-place method="post" action={ "/deck/session/" (session.session) "/keep" } {
                                (visit.seals())
                                input type="hidden" name="keep" value=(one.id);
                                @for other in both.iter().filter(|other| other.id != one.id) { input type="hidden" name="drop" value=(other.id); }
                                button.button.button-plain type="submit" { (text("deck-keep-this")) }
                            }
                        }
                    } }
                }
            }
        }
    }
}

/// Takes the others back, with the reason.
pub fn keep(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let session = session(desk, visit)?;
    let saw = saw(desk, &session)?;
    let find = |id: &str| saw.iter().find(|one| one.id.to_string() == id);
    let kept = find(sent.one("keep")).ok_or_else(WebError::missing)?;
    let drops: Vec<(SubjectId, FactId)> = sent
        .all("drop")
        .filter_map(find)
        .filter(|one| one.subject == kept.subject && one.fact.number == kept.fact.number && one.id != kept.id)
        .map(|one| (one.subject, one.id))
        .collect();
    for (subject, id) in drops {
        desk.deck_take_back(&visit.moment, &visit.author(), subject, id, &text("deck-kept-reason"))?;
    }
    Ok(respond::see(&format!("/deck/session/{}/record?done=deck-kept", session.session)))
}

fn refusals(desk: &Desk, visit: &Visit, session: &DeckSessionFact) -> Result<Markup, WebError> {
    let open = desk.store().open_refusals().map_err(app::error::AppError::from)?;
    let ours: Vec<_> = open
        .iter()
        .filter(|refusal| refusal.offered.told.kind == app::deck::ENTRY)
        .filter_map(|refusal| {
            let payload = refusal.offered.told.payload.as_ref()?;
            Some((refusal.number, Entry::read(payload.as_str()).ok()?, refusal.offered.told.subject))
        })
        .filter(|(_, entry, _)| entry.session == session.session)
        .collect();
    Ok(html! {
        @if !ours.is_empty() {
            section id="refusals" {
                h2 { (text("deck-refusals")) }
                p { (text("deck-refusals-what")) }
                ul { @for (number, entry, subject) in &ours {
                    li {
                        (entry.k) " " @if *subject != SubjectId::CLUB { (who(desk, *subject)) } " " (entry.wall)
                        @if let Some(reason) = entry.reason { " " (end_word(reason)) }
                        form.in-place method="post" action={ "/deck/session/" (session.session) "/close" } {
                            (visit.seals())
                            input type="hidden" name="number" value=(number);
                            label for={ "reason-" (number) } { (text("deck-refusal-reason")) }
                            input type="text" id={ "reason-" (number) } name="reason" required;
                            button.button.button-plain type="submit" { (text("deck-close-refusal")) }
                        }
                    }
                } }
            }
        }
    })
}

fn end_word(end: EndWord) -> String {
    serde_json::to_value(end).ok().and_then(|word| word.as_str().map(str::to_owned)).unwrap_or_default()
}

/// Closes a refusal; what was refused is kept.
pub fn close(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let session = session(desk, visit)?;
    let number = sent.one("number").parse().map_err(|_| WebError::missing())?;
    let reason = sent.one("reason").to_owned();
    if reason.is_empty() {
        return show(desk, visit);
    }
    let author = visit.author().name;
    desk.close_refusal(&Closing { number, author, at: visit.moment.stamp.clone(), reason })?;
    Ok(respond::see(&format!("/deck/session/{}/record?done=deck-closed", session.session)))
}

fn something_new(desk: &Desk, session: &DeckSessionFact, entries: &[Entry]) -> Markup {
    let new: BTreeSet<&str> = entries
        .iter()
        .filter(|entry| entry.k == "answers" && entry.fresh == Some(true))
        .filter_map(|entry| entry.who.as_deref())
        .collect();
    html! {
        @if !new.is_empty() {
            section id="something-new" {
                h2 { (text("deck-new-head")) }
                ul { @for id in &new {
                    @if let Some(person) = id.parse().ok().and_then(|id| desk.person(id).ok()) {
                        li { (name(person)) ": " a href={ (href(person)) "/record/pain?when=before&back=/deck/session/" (session.session) "/record" } { (text("deck-new-ask")) } }
                    }
                } }
            }
        }
    }
}

fn incidents(desk: &Desk, session: &DeckSessionFact) -> Result<Markup, WebError> {
    let live =
        desk.store().live_facts_of_kind(FactKind::Incident.word()).map_err(app::error::AppError::from)?;
    let of_day: Vec<IncidentFact> = live
        .iter()
        .filter_map(|live| read_json::<IncidentFact>(live.payload()).ok())
        .filter(|incident| incident.date == session.date)
        .collect();
    Ok(html! {
        @if !of_day.is_empty() {
            section id="incidents" {
                h2 { (text("deck-incidents")) }
                ul { @for incident in &of_day {
                    li { (text(&format!("deckui-incident-{}", incident.what))) " " (incident.words) @if let Some(mark) = &incident.kit { " (" (mark) ")" } }
                } }
            }
        }
    })
}

fn by_swimmer(desk: &Desk, saw: &[Saw]) -> Markup {
    let mut sorted: BTreeMap<(String, SubjectId), BTreeMap<String, Vec<&SetFact>>> = BTreeMap::new();
    for one in saw {
        let called = desk.person(one.subject).map(name).unwrap_or_default();
        let lines = sorted.entry((called, one.subject)).or_default();
        lines.entry(line_words(desk, &one.fact)).or_default().push(&one.fact);
    }
    html! {
        @for ((_, subject), lines) in &mut sorted {
            section.deck-came {
                h3 { (who(desk, *subject)) }
                @for (line, facts) in lines {
                    @let sorted = { facts.sort_by_key(|fact| fact.number); &*facts };
                    p { strong { (line) } " " @for fact in sorted { span.deck-set { (set_words(desk, fact)) } " " } }
                }
            }
        }
    }
}
