//! Every rule, every number, every exercise and every source of the protocol in force.
//!
//! - [`exercises`]: ladders, faults, cautions.

pub mod exercises;

use app::desk::Desk;
use app::views::ground::{Strength, counts, rules_reading};
use maud::{Markup, html};
use trade::protocol::Evidence;
use trade::rule::{Rule, catalogue};

use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::table::{Column, table};
use crate::web::parts::why::{ground_word, rule_link};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Families of rule codes, in reading order, with what they are about.
const FAMILIES: &[(&str, &str)] = &[
    ("G", "family-papers"),
    ("U", "family-signs"),
    ("E", "family-pain"),
    ("C", "family-screening"),
    ("W", "family-growth"),
    ("L", "family-laxity"),
    ("T", "family-teaching"),
    ("D", "family-dose"),
    ("P", "family-progression"),
    ("A", "family-absence"),
    ("B", "family-return"),
    ("S", "family-season"),
    ("M", "family-water"),
    ("V", "family-values"),
    ("Q", "family-asking"),
];

/// The words for a strength of evidence.
pub fn strength_word(strength: Strength) -> String {
    text(match strength {
        Strength::Published => "strength-published",
        Strength::Computed => "strength-computed",
        Strength::FromMemory => "strength-from-memory",
        Strength::CorePractice => "strength-core",
        Strength::CommonPractice => "strength-common",
    })
}

/// Strength and, where there is one, the source.
pub fn evidence(evidence: &Evidence) -> Markup {
    let strength = Strength::from(evidence);
    html! {
        span.mark-of title=(strength_word(strength)) { "[" (strength.mark()) "]" } " " (strength_word(strength))
        @if let Evidence::Published(key) = evidence { ", " a href={ "/rules/sources#" (key) } { (key) } }
    }
}

/// All rules and parameters.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let protocol = desk.protocol();
    let (title, lede) = (text("place-rules"), text("rules-lede"));
    let frame = Frame {
        title: &title,
        lede: Some(&lede),
        here: Here::At(Place::Rules, Spot::Rules),
        ..Frame::default()
    };
    let rows: Vec<Vec<Markup>> = protocol
        .parameters
        .listed
        .iter()
        .map(|listed| {
            vec![
                html! { span id={ "parameter-" (listed.key) } { (listed.label) } },
                html! { (listed.value) },
                html! { (listed.allowed) },
                evidence(&listed.evidence),
                html! { @for code in rules_reading(listed.key, listed.field) { (rule_link(code)) " " } },
            ]
        })
        .collect();
    let heads = [
        text("col-parameter"),
        text("col-value"),
        text("col-allowed"),
        text("col-ground"),
        text("col-rules"),
    ];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let body = html! {
        (ground(desk))
        nav.families aria-label=(text("rules-families")) { ul {
            @for (letter, words) in FAMILIES { li { a href={ "#family-" (letter) } { (text(words)) } } }
            li { a href="#parameters" { (text("rules-parameters")) } }
        } }
        @for (letter, words) in FAMILIES {
            section id={ "family-" (letter) } {
                h2 { (text(words)) }
                dl.rule-list {
                    @for rule in catalogue::all().filter(|rule| family(rule) == *letter) {
                        dt { (rule_link(rule.code.0)) " " (rule.name) }
                        dd { (rule.checks) }
                    }
                }
            }
        }
        (table("parameters", &text("rules-parameters"), &columns, &rows))
    };
    visit.page(desk, frame, body)
}

fn family(rule: &Rule) -> &'static str {
    rule.code.0.trim_end_matches(|letter: char| letter.is_ascii_digit())
}

/// Name, revision, hash, and how firm the ground is, in words and counts.
fn ground(desk: &Desk) -> Markup {
    let protocol = desk.protocol();
    let counts = counts(protocol);
    html! {
        section.ground aria-labelledby="ground" {
            h2 id="ground" { (text("ground-heading")) }
            p { b { (protocol.title) } ", " (say("ground-revision", &[("revision", Value::Words(&protocol.revision))])) }
            p.quiet { (protocol.name) ", " code.hash { (protocol.hash) } }
            p { (text("ground-words")) }
            ul {
                @for (strength, (parameters, notes)) in &counts {
                    li { b { "[" (strength.mark()) "] " (strength_word(*strength)) } ": "
                        (say("ground-count", &[("parameters", Value::Count(*parameters as i64)), ("notes", Value::Count(*notes as i64))])) }
                }
            }
        }
    }
}

/// One rule in full.
pub fn one(desk: &Desk, visit: &Visit) -> Answer {
    let rule = catalogue::find(visit.param("code")).ok_or_else(|| WebError::missing().back_to("/rules"))?;
    let code = rule.code.to_string();
    let title = say("rule-title", &[("code", Value::Words(&code)), ("name", Value::Words(rule.name))]);
    let frame = Frame { title: &title, here: Here::Below(Place::Rules, Spot::Rules), ..Frame::default() };
    let parameters = rule.parameters.iter().filter_map(|key| desk.protocol().parameters.listed_of(key));
    let body = html! {
        dl.rule-whole {
            dt { (text("rule-checks")) } dd { (rule.checks) }
            dt { (text("rule-matters")) } dd { (rule.matters) }
            dt { (text("rule-except")) } dd { (rule.except) }
            dt { (text("rule-example")) } dd { (rule.example) }
            dt { (text("rule-ground")) } dd { (ground_word(rule.ground)) }
            dt { (text("rule-source")) } dd { (rule.source) }
            @if !rule.parameters.is_empty() {
                dt { (text("rule-parameters")) }
                dd { ul { @for listed in parameters {
                    li { a href={ "/rules#parameter-" (listed.key) } { (listed.label) } ": " b { (listed.value) } ", " (evidence(&listed.evidence)) }
                } } }
            }
        }
        p { a href="/rules" { (text("rules-all")) } }
    };
    visit.page(desk, frame, body)
}

/// The reference list.
pub fn sources(desk: &Desk, visit: &Visit) -> Answer {
    let (title, lede) = (text("spot-sources"), text("sources-lede"));
    let here = Here::At(Place::Rules, Spot::Sources);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        dl.sources {
            @for source in &desk.protocol().sources {
                dt id=(source.key) { (source.key) }
                dd { p { (source.citation) } p.quiet { (say("source-seen", &[("seen", Value::Words(&source.seen))])) } }
            }
        }
    };
    visit.page(desk, frame, body)
}
