//! Every page of a store with 300 swimmers and five seasons, through the router: how long, at the median and at the
//! 99th percentile. Run by hand or by `./check --long`; nothing here is a timed test.
//!
//! The demo club's ten weeks are played again and again, each time further back, for as many swimmers as asked:
//! `cargo bench -p cuffwright --bench pages -- [SWIMMERS [SEASONS]]`.

use std::sync::Arc;
use std::time::{Duration, Instant};

use app::demo::{self, DemoClub};
use app::desk::{Author, Desk};
use axum::body::{Body, to_bytes};
use axum::http::Request;
use cuffwright::web::routes;
use cuffwright::web::site::Site;
use jiff::ToSpan;
use jiff::civil::Date;
use store::{FactId, NewFact, Payload, Store, SubjectId};
use tower::ServiceExt;
use trade::protocol::shipped;
use uuid::Uuid;

/// Stretches of ten weeks in a season of forty.
const STRETCHES: i32 = 4;
/// Goal at the 99th percentile.
const GOAL: Duration = Duration::from_millis(50);

fn main() {
    // `cargo bench` hands over words of its own; only numbers are ours.
    let numbers: Vec<i32> = std::env::args().skip(1).filter_map(|word| word.parse().ok()).collect();
    let (swimmers, seasons) = (numbers.first().copied().unwrap_or(300), numbers.get(1).copied().unwrap_or(5));
    let begun = Instant::now();
    let desk = desk(swimmers, seasons);
    let facts = desk.store().counts().expect("the store counts").facts;
    say(&format!("{swimmers} swimmers, {seasons} seasons, {facts} facts, built in {:.1?}", begun.elapsed()));
    let subjects: Vec<SubjectId> = desk.people().map(|person| person.subject).collect();
    let author = Author { name: demo::PRACTITIONER.to_owned(), device: "bench".to_owned() };
    let site = Site::new(desk, author, Arc::new(demo::morning), None, 4000);
    let runtime = tokio::runtime::Builder::new_current_thread().build().expect("a runtime starts");
    runtime.block_on(measure(&site, &subjects));
}

async fn measure(site: &Site, subjects: &[SubjectId]) {
    let begun = Instant::now();
    site.warm();
    say(&format!("every swimmer judged once in {:.1?}, before the first page is asked for", begun.elapsed()));
    let router = routes::router(site.clone());
    let mut every = Vec::new();
    for path in [
        "/",
        "/?page=2",
        "/review",
        "/people",
        "/people?page=3",
        "/people?name=an&state=full",
        "/session",
        "/kit",
        "/rules",
        "/rules/E1",
        "/rules/exercises",
        "/rules/exercises/RC-1",
        "/rules/sources",
        "/import",
        "/club",
    ] {
        let times = ask(&router, std::iter::repeat_n(path.to_owned(), 40)).await;
        report(path, &times);
        every.extend(times);
    }
    let each =
        |below: &str| -> Vec<String> { subjects.iter().map(|id| format!("/people/{id}{below}")).collect() };
    for below in ["", "/record/pain", "/facts", "?on=2026-10-01"] {
        let times = ask(&router, each(below).into_iter()).await;
        report(&format!("/people/ID{below}"), &times);
        every.extend(times);
    }
    let p99 = report("every page", &every);
    say(&format!("goal {GOAL:?} at the 99th percentile: {}", if p99 <= GOAL { "held" } else { "MISSED" }));
}

async fn ask(router: &axum::Router, paths: impl Iterator<Item = String>) -> Vec<Duration> {
    let mut times = Vec::new();
    for path in paths {
        let request = Request::get(&path).header("host", "localhost:4000").body(Body::empty());
        let begun = Instant::now();
        let answer = router.clone().oneshot(request.expect("a request")).await.expect("an answer");
        assert_eq!(answer.status(), 200, "{path}");
        to_bytes(answer.into_body(), usize::MAX).await.expect("a body");
        times.push(begun.elapsed());
    }
    times
}

fn report(what: &str, times: &[Duration]) -> Duration {
    let mut sorted = times.to_vec();
    sorted.sort_unstable();
    let at =
        |share: f64| sorted[(((sorted.len() as f64) * share).ceil() as usize).clamp(1, sorted.len()) - 1];
    say(&format!("{what:40} p50 {:8.2?}  p99 {:8.2?}  n {}", at(0.5), at(0.99), sorted.len()));
    at(0.99)
}

fn say(line: &str) {
    #[expect(clippy::print_stdout, reason = "a bench speaks to whoever started it")]
    {
        println!("{line}");
    }
}

/// The demo club's members, repeated and moved back in time.
fn desk(swimmers: i32, seasons: i32) -> Desk {
    let club = DemoClub::new(demo::SEED, shipped());
    let mut desk =
        Desk::new(Store::in_memory().expect("a store"), shipped().clone()).expect("an empty store reads");
    let of_club: Vec<NewFact> =
        club.facts.iter().filter(|fact| fact.subject == SubjectId::CLUB).cloned().collect();
    desk.append(&demo::morning(), of_club).expect("the club is stored");
    let mut number: u128 = 1;
    for swimmer in 0..swimmers {
        let original = club.subjects[usize::try_from(swimmer).expect("a count") % club.subjects.len()];
        let subject = SubjectId::from_uuid(Uuid::from_u128(0xA000_0000 + number));
        let mut facts = Vec::new();
        for back in 0..seasons * STRETCHES {
            for fact in club.facts.iter().filter(|fact| fact.subject == original) {
                // Who a swimmer is and the papers are written once; only what happens happens again.
                let once = ["swimmer", "consent", "intake"].contains(&fact.kind.as_str());
                if once && back > 0 || fact.correction.is_some() {
                    continue;
                }
                number += 1;
                facts.push(moved(fact, subject, number, back));
            }
        }
        desk.append(&demo::morning(), facts).expect("a swimmer is stored");
    }
    desk
}

fn moved(fact: &NewFact, subject: SubjectId, number: u128, back: i32) -> NewFact {
    let text = fact.payload.as_ref().map_or("null", Payload::as_str);
    let mut payload = String::with_capacity(text.len());
    for (index, piece) in text.split('"').enumerate() {
        if index > 0 {
            payload.push('"');
        }
        match piece.parse::<Date>() {
            Ok(day) if back > 0 => payload.push_str(&day.saturating_sub((back * 10).weeks()).to_string()),
            _ => payload.push_str(piece),
        }
    }
    NewFact {
        id: FactId::from_uuid(Uuid::from_u128(0xF000_0000_0000 + number)),
        subject,
        payload: Some(Payload::from_text(&payload).expect("moved dates stay JSON")),
        natural_key: None,
        ..fact.clone()
    }
}
