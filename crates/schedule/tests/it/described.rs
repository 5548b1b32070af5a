//! A week as a person writes it down, and everything that can be wrong with it.

use schedule::describe::{Described, Note, Problem, read};
use schedule::week::Grade;
use schedule::week::plan::{Answer, plan};
use schedule::week::request::answer;

const HEAD: &str = "zone = \"Europe/Amsterdam\"\nfrom = 2026-03-09\n";
const GROUP: &str = "[[groups]]\nname = \"Seniors\"\nswimmers = 12\nsessions = 2\nminutes = 40\n";

fn good(rest: &str) -> Described {
    let text = format!("{HEAD}{GROUP}{rest}");
    read(&text).unwrap_or_else(|problems| panic!("{problems:?}\n{text}"))
}

fn bad(text: &str) -> Vec<Problem> {
    read(text).err().unwrap_or_else(|| panic!("no problem in {text}"))
}

fn says(rest: &str) -> Vec<(usize, &'static str)> {
    bad(&format!("{HEAD}{GROUP}{rest}")).into_iter().map(|problem| (problem.line, problem.says)).collect()
}

#[test]
fn times_and_days_may_be_written_in_many_ways() {
    let expected = good(
        "[[practices]]\ngroups = [\"Seniors\"]\ndays = [\"Tue\", \"Thu\"]\nfrom = \"16:00\"\nto = \"18:00\"\n",
    );
    assert_eq!(expected.week.water.len(), 2);
    for practice in [
        "[[practices]]\ngroup = \"seniors\"\nday = \"Tuesday, Thursday\"\nstart = 16:00:00\nend = 18:00:00\n",
        "[[water]]\nsquads = \"all\"\ndays = \"tue/thu\"\ntime = \"16:00-18:00\"\n",
        "[[practice]]\ndays = [\"2026-03-10\", \"2026-03-12\"]\nfrom = \"4 pm\"\nminutes = 120\n",
        "[[practices]]\nwhen = [\"Tue 16:00-18:00\", \"Thu 16.00-18.00\"]\n",
        "[[practices]]\nwhen = \"Tue, Thu 4pm-6pm\"\n",
        "[[practices]]\nstart = 2026-03-10T16:00:00\nend = 2026-03-10T18:00:00\n[[practices]]\nday = 2026-03-12\nfrom = 16\nto = 18\n",
    ] {
        let read = good(practice);
        let spans =
            |described: &Described| described.week.water.iter().map(|water| water.span).collect::<Vec<_>>();
        assert_eq!(spans(&read), spans(&expected), "{practice}");
    }
}

#[test]
fn a_weekly_practice_counts_on_the_morning_after_the_week() {
    let week = good(
        "[[practices]]\nday = \"Mon\"\nfrom = \"00:30\"\nto = \"02:00\"\n[[requests]]\ngroup = \"Seniors\"\nday = \"Sun\"\nfrom = \"21:00\"\n",
    );
    let reply = answer(&week.week, &week.requests[0]);
    assert!(!reply.is_granted(), "Monday's water comes three hours later");
}

#[test]
fn a_whole_week_is_planned_as_it_is_described() {
    let described = good("");
    assert!(described.notes.contains(&Note::NoWindows) && described.notes.contains(&Note::NoSupervisors));
    let full = good(
        r#"
kit = { bands = 12 }
prefer = [{ days = "Mon", weight = 5 }, { from = "17:00", to = "21:00", weight = 2 }]

[[groups]]
name = "Minnows"
size = 8
age = 11
sessions = 1
minutes = 30

[[kit]]
name = "bands"
pieces = 20

[[places]]
name = "deck"
groups_at_once = 2

[[practices]]
groups = ["Seniors"]
days = "Mon-Fri"
from = "16:00"
to = "18:00"
place = "pool"

[[practices]]
groups = ["Minnows"]
days = ["Tue", "Thu"]
from = "17:00"
to = "18:00"

[[deck]]
place = "deck"
days = "weekdays"
from = "17:00"
to = "19:30"

[[supervisors]]
name = "N"
hours = ["Mon-Thu 17:00-20:00", "Fri 17:00-20:00"]

[[meets]]
name = "County"
date = 2026-03-14
grade = "B"
groups = ["Seniors"]

[[school]]
days = "weekdays"
from = "08:30"
to = "15:00"

[[loads]]
name = "gym"
groups = ["Seniors"]
days = ["Wed"]
from = "07:00"
to = "08:00"

[[closures]]
place = "pool"
day = "Fri"
reason = "pump"
"#,
    );
    let week = &full.week;
    assert!(week.groups[1].young && week.groups[1].minutes == 30);
    assert_eq!(week.meets[0].grade, Grade::B);
    assert_eq!(
        week.water.iter().filter(|water| water.groups == [0]).count(),
        5,
        "Friday falls out, next Monday counts"
    );
    assert!(matches!(full.notes[0], Note::PracticeCancelled { .. }));
    let Answer::Plan(plan) = plan(week, 10.0) else { panic!("a plan") };
    assert!(plan.is_proven());
    // The week of a B meet has one session less, the gym on Wednesday takes Tuesday and Thursday, and 48 hours before
    // Saturday morning end on Thursday: Monday is left.
    let seniors: Vec<_> = plan.sessions.iter().filter(|placed| placed.group == 0).collect();
    assert_eq!(seniors.len(), 1);
    assert_eq!(week.slots[seniors[0].slot].span.day().to_string(), "2026-03-09");
}

#[test]
fn every_problem_is_named_with_its_line() {
    for (rest, expected) in [
        (
            "[[practices]]\nday = \"Tue\"\nfrom = \"18:00\"\nto = \"16:00\"\n",
            vec![(10, "described-backwards")],
        ),
        (
            "[[practices]]\nday = \"Moonday\"\nfrom = \"16:00\"\nto = \"18:00\"\n",
            vec![(9, "described-bad-day")],
        ),
        (
            "[[practices]]\nday = 2026-02-30\nfrom = \"16:00\"\nto = \"18:00\"\n",
            vec![(9, "described-syntax")],
        ),
        (
            "[[practices]]\nday = \"2026-02-30\"\nfrom = \"16:00\"\nto = \"18:00\"\n",
            vec![(9, "described-bad-date")],
        ),
        (
            "[[practices]]\nday = \"Tue\"\nfrom = \"26:00\"\nto = \"18:00\"\n",
            vec![(10, "described-bad-time")],
        ),
        ("[[practices]]\nday = \"Tue\"\nfrom = \"16:00\"\n", vec![(8, "described-no-end")]),
        ("[[practices]]\nday = \"Tue\"\n", vec![(8, "described-missing")]),
        ("[[practices]]\nfrom = \"16:00\"\nto = \"18:00\"\n", vec![(8, "described-missing")]),
        (
            "[[practices]]\ngroup = \"Senors\"\nday = \"Tue\"\nfrom = \"16:00\"\nto = \"18:00\"\n",
            vec![(9, "described-unknown-name")],
        ),
        ("[[practises]]\nday = \"Tue\"\n", vec![(8, "described-unknown-key")]),
        ("[settings]\ngap_hours = 1\n", vec![(9, "described-out-of-range")]),
        ("[[meets]]\nday = \"Sat\"\ngrade = \"D\"\n", vec![(10, "described-bad-grade")]),
        ("[[meets]]\nday = \"Sat\"\n", vec![(8, "described-missing")]),
        ("[[closures]]\nplace = \"lagoon\"\nday = \"Sat\"\n", vec![(9, "described-unknown-name")]),
        ("[[groups]]\nname = \"seniors\"\nswimmers = 3\n", vec![(9, "described-duplicate")]),
        (
            "[[groups]]\nname = \"Juniors\"\nswimmers = 3\nsessions = 1\nat_least = 2\n",
            vec![(8, "described-at-least")],
        ),
        (
            "[[known]]\ngroup = \"Seniors\"\nday = \"Tue\"\nfrom = \"15:00\"\noverride = { by = \"N\" }\n",
            vec![(12, "described-blank-reason")],
        ),
        (
            "[[practices]]\nday = \"Tue\"\nfrom = \"16:00\"\nto = \"18:00\"\n[[practices]]\nday = \"Tue\"\nfrom = \"17:00\"\nto = \"19:00\"\n",
            vec![(12, "described-overlap")],
        ),
    ] {
        assert_eq!(says(rest), expected, "{rest}");
    }
}

#[test]
fn a_head_that_is_wrong_is_named() {
    let says =
        |text: &str| -> Vec<&'static str> { bad(text).into_iter().map(|problem| problem.says).collect() };
    assert_eq!(
        says(&format!("zone = \"Europe/Amsterdm\"\nfrom = 2026-03-09\n{GROUP}")),
        vec!["described-unknown-zone"]
    );
    let near = bad(&format!("zone = \"Europe/Amsterdm\"\nfrom = 2026-03-09\n{GROUP}"));
    assert!(near[0].args.contains(&("near", "Europe/Amsterdam".to_owned())), "{near:?}");
    assert_eq!(
        says(&format!("zone = \"Europe/Amsterdam\"\nfrom = 2026-03-09\nto = 2026-03-20\n{GROUP}")),
        vec!["described-too-long"]
    );
    assert_eq!(says(&format!("from = 2026-03-09\n{GROUP}")), vec!["described-missing"]);
    assert_eq!(says(HEAD), vec!["described-no-groups"]);
    assert_eq!(says("zone = \n"), vec!["described-syntax"]);
}

#[test]
fn a_time_that_clocks_jump_over_is_refused() {
    let text = format!(
        "zone = \"Europe/Amsterdam\"\nfrom = 2026-03-23\n{GROUP}[[practices]]\nday = \"Sun\"\nfrom = \"02:15\"\nto = \"04:00\"\n"
    );
    assert_eq!(bad(&text)[0].says, "described-skipped-time");
}

#[test]
fn ten_thousand_entries_are_refused_at_once() {
    let one = "[[practices]]\nday = \"Tue\"\nfrom = \"16:00\"\nto = \"18:00\"\n";
    let problems = bad(&format!("{HEAD}{GROUP}{}", one.repeat(10_000)));
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].says, "described-too-many");
}

#[test]
fn every_message_has_its_own_name() {
    let mut names: Vec<&str> =
        schedule::describe::problem::MESSAGES.iter().map(|message| message.says).collect();
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all);
}

proptest::proptest! {
    #[test]
    fn no_text_makes_it_panic(text in "[a-z\\[\\]=\" :0-9.\n-]{0,200}") {
        let _ = read(&text);
        let _ = read(&format!("{HEAD}{GROUP}{text}"));
    }
}
