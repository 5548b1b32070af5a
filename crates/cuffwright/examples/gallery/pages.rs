//! Invented swimmers on invented days, so that every building block can be seen and scanned.

use cuffwright::web::error::{Kind, WebError};
use cuffwright::web::layout::{Frame, Here, Place, Spot, shell};
use cuffwright::web::parts::due::{Closing, DueLine, When, due_list};
use cuffwright::web::parts::form::{self, Choice, Decision, Field, Filter};
use cuffwright::web::parts::notice::{Outcome, Problem, empty, outcome, problems};
use cuffwright::web::parts::proposal::{DoseWords, ProposalWords, proposal};
use cuffwright::web::parts::shoulder::{
    PairLine, ShoulderState, Water, availability_key, pair_list, shoulder_head, water,
};
use cuffwright::web::parts::table::{Column, Paging, paging, table};
use cuffwright::web::parts::why::{Reason, trace, why};
use cuffwright::web::rope::{self, Band, Heading, Rope, RopeEnd, Ropes};
use maud::{Markup, html};
use quantity::HoldTime;
use trade::dosing::{Action, Count};
use trade::gate::Availability;
use trade::rule::Ground;
use trade::side::Side;

/// Renders one page.
type Page = fn() -> Markup;

/// Every page by its name.
pub(crate) const ALL: &[(&str, Page)] = &[
    ("due", due),
    ("people", people),
    ("swimmer", swimmer),
    ("forms", forms),
    ("rules", rules),
    ("bare", bare),
    ("error", error),
];

const CLUB: Option<&str> = Some("Quarry Lane Swimmers");

fn reason(code: &str, sentence: &str, source: &str, ground: Ground) -> Reason {
    Reason { code: code.to_owned(), sentence: sentence.to_owned(), source: source.to_owned(), ground }
}

fn stay_reasons() -> Vec<Reason> {
    vec![
        reason(
            "P4",
            "The third set on the left ended at 107 s: elbow left its place.",
            "protocol, part on progression",
            Ground::CommonPractice,
        ),
        reason(
            "P1",
            "A step up needs three seen sets of 120 s in two sessions running.",
            "protocol, part on progression",
            Ground::CorePractice,
        ),
        reason(
            "D2",
            "A timed hold repeated by the same person differs by 30 s or more, so 13 s say nothing about strength.",
            "repeatability study of a timed shoulder hold",
            Ground::Published,
        ),
    ]
}

fn due() -> Markup {
    let line = |when, about: Option<(&str, &str)>, what: &str, owner: &str, why| DueLine {
        when,
        about: about.map(|(name, href)| (name.to_owned(), href.to_owned())),
        what: what.to_owned(),
        owner: owner.to_owned(),
        close: Closing::There("/people/5/close".to_owned()),
        why,
    };
    let pain = why(&[reason(
        "E2",
        "She said 4 of 10 in the second set of scaption on Monday.",
        "protocol, part on pain",
        Ground::CorePractice,
    )]);
    let lines = [
        line(
            When::Late(2),
            Some(("Ysolde Marrick", "/people/5")),
            "right shoulder: ask how the morning after was",
            "the practitioner",
            pain,
        ),
        line(
            When::Late(1),
            Some(("Ysolde Marrick", "/people/5")),
            "tell the guardian about the pain on Monday",
            "the practitioner",
            html! {},
        ),
        line(
            When::Today,
            Some(("Ysolde Marrick", "/people/5")),
            "water is not decided; next practice at 16:00",
            "the practitioner",
            html! {},
        ),
        line(
            When::Today,
            Some(("Corvin Adeyo-Blythe", "/people/9")),
            "the consent ran out yesterday",
            "the administrator",
            html! {},
        ),
        line(
            When::Tomorrow,
            Some(("Tamsel Oru", "/people/11")),
            "the letter of the 3rd has no answer yet",
            "the practitioner",
            html! {},
        ),
        line(
            When::On("Fri 14 Aug".to_owned()),
            None,
            "band 16 N, long loop: four weeks since the last inspection",
            "the supervisor",
            html! {},
        ),
    ];
    let done = outcome(Outcome::Done, "Ysolde Marrick's guardian was told today at 08:40.");
    let frame = Frame {
        title: "Six things to close",
        lede: Some("Wednesday 12 August. Two are late, and both are about one swimmer."),
        here: Here::At(Place::Due, Spot::Due),
        club: CLUB,
        outcome: Some(&done),
        ..Frame::default()
    };
    shell(&frame, due_list("Due", &lines))
}

fn people() -> Markup {
    let state = |availability, because: &str, review: Option<&str>| ShoulderState {
        availability,
        because: because.to_owned(),
        review: review.map(str::to_owned),
    };
    let full = state(Availability::Full, "", None);
    let limited = state(
        Availability::Limited,
        "two sets, no overhead work: signed limit of Dr Wexcombe",
        Some("24 Aug"),
    );
    let today = state(Availability::OutToday, "pain 2 on this side on Monday", Some("13 Aug"));
    let referred =
        state(Availability::OutReferred, "gives way overhead; letter sent on 3 Aug", Some("17 Aug"));
    let missing = state(Availability::NotYet, "consent ran out on 11 Aug", None);
    let names = [
        ("Bram Okafor-Lind", "seniors, born 2008", &full, &full),
        ("Corvin Adeyo-Blythe", "juniors, born 2012", &missing, &missing),
        ("Ilse Ferrand", "seniors, born 2007", &limited, &full),
        ("Tamsel Oru", "juniors, born 2011", &full, &referred),
        ("Ysolde Marrick", "juniors, born 2011", &full, &today),
    ];
    let lines: Vec<PairLine<'_>> = names
        .iter()
        .map(|(name, tells_apart, left, right)| PairLine {
            name,
            href: "/people/5",
            tells_apart,
            left,
            right,
        })
        .collect();
    let filters = [
        Filter {
            name: "group",
            label: "Group",
            value: "",
            options: &[("juniors", "Juniors"), ("seniors", "Seniors")],
        },
        Filter {
            name: "state",
            label: "Availability",
            value: "",
            options: &[("out", "out"), ("limited", "limited")],
        },
    ];
    let frame = Frame {
        title: "Swimmers",
        lede: Some("Each shoulder stands for itself: left on the left, right on the right."),
        here: Here::At(Place::People, Spot::People),
        club: CLUB,
        ..Frame::default()
    };
    shell(
        &frame,
        html! {
            (form::search("/people", "", &filters))
            (pair_list("Swimmers", &lines))
            (paging(Paging { page: 2, pages: 6, href: "/people?page=" }))
            (availability_key())
        },
    )
}

fn set(number: u8, held: f64, cap: f64, end: RopeEnd) -> Rope {
    let (held, cap) = (HoldTime::from_seconds(held), HoldTime::from_seconds(cap));
    Rope { number, held, cap, end, fault_left: None }
}

fn swimmer() -> Markup {
    let state = |availability, because: &str| ShoulderState {
        availability,
        because: because.to_owned(),
        review: None,
    };
    let scale = HoldTime::from_seconds(120.0);
    let row = |side: &str, when: &str, sets: &[Rope], heading| {
        rope::ropes(&Ropes {
            label: &rope::ropes_label(side, "band external rotation", when),
            sets,
            scale,
            heading,
        })
    };
    let elbow = || RopeEnd::Form("elbow leaves its place".to_owned());
    let left_sets = [
        set(1, 120.0, 120.0, RopeEnd::CapSeen),
        set(2, 120.0, 120.0, RopeEnd::CapUnseen),
        set(3, 107.0, 120.0, elbow()),
    ];
    let mut right_sets = [
        set(1, 120.0, 120.0, RopeEnd::CapSeen),
        set(2, 120.0, 120.0, RopeEnd::CapSeen),
        set(3, 120.0, 120.0, RopeEnd::CapSeen),
    ];
    right_sets[2].fault_left = Some("shrug".to_owned());
    let left_before = [
        set(1, 60.0, 60.0, RopeEnd::CapSeen),
        set(2, 51.5, 60.0, RopeEnd::ChoseToStop),
        set(3, 33.0, 60.0, RopeEnd::Kit),
    ];
    let right_before = [
        set(1, 60.0, 60.0, RopeEnd::CapSeen),
        set(2, 44.0, 60.0, RopeEnd::Pain),
        set(3, 12.0, 60.0, RopeEnd::CalledAway),
    ];
    let stay = stay_reasons();
    let up = [reason(
        "P1",
        "Six seen sets of 120 s in two sessions running.",
        "protocol, part on progression",
        Ground::CorePractice,
    )];
    let dose = |rung, from| DoseWords {
        rung: Some(rung),
        from,
        sets: 3,
        cap: Some("120"),
        rest: "30",
        tempo: "1 s out, 1 s back",
    };
    let decide = |key, about, confirms| {
        form::decision(&Decision {
            action: "/people/5/decide",
            key,
            about,
            about_unseen: "",
            confirms,
            instead: &[("b13", "rung 13 N"), ("b16", "rung 16 N"), ("rest", "leave out")],
            most_sets: 3,
            pressing: true,
            hidden: &[("seen", "a81f")],
            problem: None,
            given: None,
        })
    };
    let shown = |side, action, dose, have, reasons, alone| ProposalWords {
        exercise: None,
        side,
        action,
        dose: Some(dose),
        count: Some(Count { have, need: 2 }),
        reasons,
        alone,
    };
    let none = html! {};
    let bands = [
        Band::Together(
            shoulder_head(Side::Left, &state(Availability::Full, "")),
            shoulder_head(Side::Right, &state(Availability::Limited, "no overhead work: signed limit")),
        ),
        Band::Across(html! { h3 { "Band external rotation" } }),
        Band::Apart(
            proposal(&shown("Left", Action::Stay, dose("16 N", None), 1, &stay, false), &none),
            proposal(&shown("Right", Action::Up, dose("20 N", Some("16 N")), 2, &up, true), &none),
        ),
        Band::Together(
            row("Left shoulder", "Mon 10 Aug", &left_sets, Heading::Leftward),
            row("Right shoulder", "Mon 10 Aug", &right_sets, Heading::Rightward),
        ),
        Band::Apart(
            decide("l", "left", "Stay on rung 16 N."),
            decide("r", "right", "One rung up, from 16 N to 20 N."),
        ),
        Band::Across(html! { h4 { "Thu 6 Aug" } }),
        Band::Earlier(
            row("Left shoulder", "Thu 6 Aug", &left_before, Heading::Leftward),
            row("Right shoulder", "Thu 6 Aug", &right_before, Heading::Rightward),
        ),
        Band::Across(
            html! { h3 { "Push-up plus" } (row("Both arms", "Mon 10 Aug", &right_sets[..2], Heading::Rightward)) },
        ),
    ];
    let frame = Frame {
        title: "Ilse Ferrand",
        lede: Some("Seniors, born 2007. Next session: Thursday 13 August, after practice."),
        here: Here::Below(Place::People, Spot::People),
        club: CLUB,
        ..Frame::default()
    };
    shell(
        &frame,
        html! {
            (water(Water::Undecided("Odalys Penhaven")))
            (rope::both_shoulders("Ilse Ferrand", &bands))
            (rope::key())
            h2 { "Reasons at length" }
            (trace(&stay))
        },
    )
}

fn forms() -> Markup {
    let list = [
        Problem {
            place: "Row 7, column mass".to_owned(),
            says: "412 is outside 15 to 200 kg.".to_owned(),
            hint: "41.2, if a decimal point was lost".to_owned(),
            field: None,
        },
        Problem {
            place: "Body mass".to_owned(),
            says: "“heavy” is not a number.".to_owned(),
            hint: String::new(),
            field: Some("mass".to_owned()),
        },
    ];
    let refused = outcome(Outcome::Refused, "The file has 2 problems; the record is as it was.");
    let frame = Frame {
        title: "Bring in a file",
        here: Here::At(Place::People, Spot::Import),
        club: CLUB,
        outcome: Some(&refused),
        ..Frame::default()
    };
    shell(
        &frame,
        html! {
            (problems(&list))
            (outcome(Outcome::Ask, "105 cm is short for a swimmer born in 2009. Send it again if it is right."))
            (outcome(Outcome::Unchanged, "Every row was on record already: 0 added."))
            form method="post" action="/import" {
                (form::file(&Field { name: "file", label: "File", hint: Some("CSV or XLSX, columns in any order"), ..Field::default() }, ".csv,.xlsx"))
                (form::field(&Field { name: "mass", label: "Body mass", hint: Some("kg"), value: "heavy", problem: Some("This is not a number."), keyboard: Some("decimal"), ..Field::default() }))
                (form::choices("fever", "Fever or feeling ill today?", None, &[
                    Choice { value: "no", label: "No", hint: None },
                    Choice { value: "yes", label: "Yes", hint: Some("The whole session is off.") },
                    Choice { value: "not-asked", label: "Not asked", hint: Some("Stays an open question; nobody starts without it.") },
                ]))
                (form::lines(&Field { name: "note", label: "Note", ..Field::default() }))
                (form::submit("Look at it first"))
            }
            (form::decision(&Decision {
                action: "/people/5/decide", key: "d",
                about: "left", about_unseen: "", confirms: "Stay on rung 16 N.",
                instead: &[("b13", "rung 13 N")], most_sets: 3, pressing: true, hidden: &[], problem: Some("Say why, in a few words."), given: Some(("override", "")),
            }))
        },
    )
}

fn rules() -> Markup {
    let columns = [
        Column::words("Parameter"),
        Column::number("Value"),
        Column::words("Unit"),
        Column::words("Ground"),
        Column::words("Source"),
    ];
    let row = |cells: [&str; 5]| cells.iter().map(|cell| html! { (cell) }).collect::<Vec<_>>();
    let rows = [
        row(["Cap of a set", "120", "s", "core practice", "dose frame of the programme"]),
        row(["Hand weight in scaption, at most", "2.2", "kg", "common practice", "none"]),
        row(["Rest between sets", "30", "s", "core practice", "dose frame of the programme"]),
    ];
    let frame = Frame {
        title: "Rules",
        lede: Some("Every number the tool uses, where it comes from, and how firm the ground under it is."),
        here: Here::At(Place::Rules, Spot::Rules),
        club: CLUB,
        ..Frame::default()
    };
    shell(&frame, table("parameters", "Dose", &columns, &rows))
}

fn bare() -> Markup {
    let frame = Frame {
        title: "To review",
        here: Here::At(Place::Due, Spot::Review),
        club: CLUB,
        ..Frame::default()
    };
    shell(
        &frame,
        empty(
            "No proposal is waiting. The next ones come with the next session on record.",
            Some(("To the swimmers", "/people")),
        ),
    )
}

fn error() -> Markup {
    WebError { reference: Some("3f9c-22".to_owned()), ..WebError::new(Kind::Defect) }
        .back_to("/people/5")
        .render()
}
