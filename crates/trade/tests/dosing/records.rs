//! Records as they may come: anything that can be written down, in any combination.

use jiff::civil::Date;
use proptest::prelude::*;
use quantity::Pain;
use trade::history::*;
use trade::name::{ExerciseId, RungId};
use trade::protocol::Tag;
use trade::side::{Side, WorkingSide};

use crate::build::*;

pub(crate) fn day() -> impl Strategy<Value = Date> {
    (-1_i64..75).prop_map(ago)
}

pub(crate) fn side() -> impl Strategy<Value = Side> {
    prop_oneof![Just(Side::Left), Just(Side::Right)]
}

pub(crate) fn any_side() -> impl Strategy<Value = Option<Side>> {
    prop::option::of(side())
}

pub(crate) fn exercise() -> impl Strategy<Value = ExerciseId> {
    prop::sample::select(EXERCISES.to_vec()).prop_map(ExerciseId::new)
}

fn number() -> impl Strategy<Value = Option<Pain>> {
    prop_oneof![2 => Just(None), 5 => Just(pain(0)), 3 => (1_i64..4).prop_map(pain), 1 => (4_i64..11).prop_map(pain)]
}

pub(crate) fn when() -> impl Strategy<Value = PainWhen> {
    prop_oneof![
        Just(PainWhen::Before),
        exercise().prop_map(|exercise| PainWhen::During(Some(exercise))),
        Just(PainWhen::During(None)),
        Just(PainWhen::After),
        Just(PainWhen::NextMorning),
        Just(PainWhen::FollowUp),
        Just(PainWhen::Other),
    ]
}

pub(crate) fn kind() -> impl Strategy<Value = PainKind> {
    prop_oneof![Just(PainKind::Ache), Just(PainKind::JointOrOneSided), Just(PainKind::Unstated)]
}

fn pain_report() -> impl Strategy<Value = PainReport> {
    (
        day(),
        when(),
        number(),
        number(),
        kind(),
        prop::option::weighted(0.1, prop::sample::select(Sign::ALL.to_vec())),
        any_side(),
    )
        .prop_map(|(date, when, left, right, kind, sign, sign_side)| PainReport {
            date,
            when,
            left,
            right,
            kind,
            signs: sign.into_iter().collect(),
            sign_side,
        })
}

fn end() -> impl Strategy<Value = End> {
    prop_oneof![
        8 => Just(End::Cap),
        4 => Just(form("F03")),
        1 => Just(End::ChoseToStop),
        1 => Just(End::Pain),
        1 => Just(End::Kit),
        1 => Just(End::Left),
    ]
}

fn a_set() -> impl Strategy<Value = Set> {
    let cap = prop_oneof![6 => Just(120.0), 1 => Just(60.0), 1 => Just(45.0)];
    (cap, end(), 0.02..1.0_f64, prop::bool::weighted(0.9), prop::bool::weighted(0.1)).prop_map(
        |(cap, end, share, seen, by_hand)| Set {
            cap: seconds(cap),
            watched: if seen { Watched::Seen } else { Watched::Unseen },
            clock: if by_hand { Clock::Hand } else { Clock::Device },
            ..set(1, if end == End::Cap { cap } else { (cap * share).round() }, end)
        },
    )
}

/// Sets of one session: mostly all to the cap, else anything.
fn sets() -> impl Strategy<Value = Vec<Set>> {
    let full = Just(vec![set(1, 120.0, End::Cap); 3]);
    let sets = prop_oneof![3 => full, 2 => prop::collection::vec(a_set(), 1..5)];
    sets.prop_map(|mut sets| {
        for (index, set) in sets.iter_mut().enumerate() {
            set.number = u8::try_from(index + 1).unwrap_or(u8::MAX);
        }
        sets
    })
}

fn blocks() -> impl Strategy<Value = Vec<Block>> {
    let one = (exercise(), 0_usize..13, sets(), sets(), prop::bool::weighted(0.9), 1_u8..4);
    prop::collection::vec(one, 1..4).prop_map(|lines| {
        let mut blocks: Vec<Block> = Vec::new();
        for (id, rung, one, other, as_planned, prescribed_sets) in lines {
            let exercise = protocol().exercise(&id).expect("known");
            let rung = |up: usize| {
                // Rungs lie close together, so that sessions of one record often share one.
                let place = ((rung / 4) + up).min(exercise.ladder.len() - 1);
                exercise.ladder[place].id.clone()
            };
            for (side, sets) in trade::dosing::start::sides_of(exercise).iter().zip([one, other]) {
                if blocks.iter().any(|block| block.exercise == id && block.side == *side) {
                    continue;
                }
                blocks.push(Block {
                    exercise: id.clone(),
                    side: *side,
                    planned: rung(1),
                    used: rung(usize::from(as_planned)),
                    prescribed_sets,
                    sets,
                });
            }
        }
        blocks
    })
}

fn any_session() -> impl Strategy<Value = (Session, bool)> {
    let context =
        prop_oneof![6 => Just(Context::AfterPractice), 1 => Just(Context::Rested), 1 => Just(Context::Home)];
    (day(), context, blocks(), prop::bool::weighted(0.05), prop::bool::weighted(0.85)).prop_map(
        |(date, context, blocks, override_, asked)| {
            let excluded = override_.then(|| Excluded::BeforeWaterOverride("once".to_owned()));
            (Session { date, number: 1, context, excluded, blocks }, asked)
        },
    )
}

fn placement() -> impl Strategy<Value = Vec<Placement>> {
    let because = prop::sample::select(vec![
        Move::Start,
        Move::Up,
        Move::Down,
        Move::Switch,
        Move::Restart,
        Move::Override,
    ]);
    (day(), exercise(), 0_usize..12, because, prop::bool::weighted(0.5)).prop_map(
        |(date, id, rung, because, both)| {
            let exercise = protocol().exercise(&id).expect("known");
            let rung = RungId::new(exercise.ladder[rung.min(exercise.ladder.len() - 1)].id.as_str());
            let sides = trade::dosing::start::sides_of(exercise);
            let placed = |side: &WorkingSide| Placement {
                date,
                exercise: id.clone(),
                side: *side,
                rung: rung.clone(),
                because,
            };
            sides.iter().take(if both { 2 } else { 1 }).map(placed).collect()
        },
    )
}

fn limit() -> impl Strategy<Value = Limit> {
    let tags = prop::collection::btree_set(prop::sample::select(Tag::ALL.to_vec()), 0..3);
    let exercises = prop::collection::btree_set(exercise(), 0..2);
    let cap = prop::option::of(5.0..200.0_f64);
    (
        day(),
        0_i64..60,
        any_side(),
        tags,
        exercises,
        prop::option::of(0_u8..5),
        cap,
        prop::option::of(0_i64..4),
    )
        .prop_map(|(signed, days, side, locked_tags, locked_exercises, sets, cap, allowed)| Limit {
            signed,
            until: signed.saturating_add(jiff::ToSpan::days(days)),
            side,
            clinician: clinician(),
            locked_tags,
            locked_exercises,
            sets,
            cap: cap.map(seconds),
            allows_pain_up_to: allowed.and_then(pain),
            note: String::new(),
        })
}

fn clearance() -> impl Strategy<Value = Clearance> {
    let injury = prop::option::of(prop::sample::select(vec![
        InjuryKind::Dislocation,
        InjuryKind::Operation,
        InjuryKind::Other,
    ]));
    (day(), any_side(), injury, prop::option::of(any::<bool>())).prop_map(|(date, side, injury, free)| {
        Clearance {
            date,
            side,
            clinician: clinician(),
            injury,
            conditions: ReturnConditions { daily_life_pain_free: free, ..ReturnConditions::default() },
        }
    })
}

fn calendar() -> impl Strategy<Value = Calendar> {
    let phase = prop::sample::select(vec![Phase::Deload, Phase::Camp, Phase::Taper]);
    let period = (day(), 0_i64..20, phase).prop_map(|(from, days, phase)| Period {
        from,
        to: from.saturating_add(jiff::ToSpan::days(days)),
        phase,
    });
    let grade = prop::sample::select(vec![Grade::A, Grade::B, Grade::C]);
    let meet = (-40_i64..10, grade).prop_map(|(days, grade)| Meet { date: ago(days), grade });
    (
        prop::option::weighted(0.2, day()),
        prop::collection::vec(period, 0..2),
        prop::collection::vec(meet, 0..2),
    )
        .prop_map(|(season_start, periods, meets)| Calendar { season_start, periods, meets })
}

pub(crate) fn absence() -> impl Strategy<Value = Absence> {
    let reason =
        prop::sample::select(vec![AbsenceReason::Healthy, AbsenceReason::Illness, AbsenceReason::Injury]);
    (day(), 0_i64..50, reason, prop::option::of(any::<bool>())).prop_map(
        |(from, days, reason, kept_swimming)| Absence {
            from,
            to: Some(from.saturating_add(jiff::ToSpan::days(days))),
            reason,
            kept_swimming,
        },
    )
}

fn person() -> impl Strategy<Value = History> {
    let born = (1_i64..3650).prop_map(|days| ago(365 * 9 + days));
    let sex = prop::sample::select(vec![Sex::Female, Sex::Male, Sex::Unstated]);
    (born, sex, any::<bool>(), prop::option::weighted(0.9, 0_i64..300), prop::bool::weighted(0.95)).prop_map(
        |(born, sex, trained, started, papers)| {
            let mut history = swimmer(born);
            history.swimmer.sex = sex;
            history.swimmer.experience = if trained { Experience::Trained } else { Experience::Beginner };
            history.swimmer.programme_started = started.map(ago);
            if !papers {
                history.consents.clear();
            }
            history
        },
    )
}

/// Any record.
pub(crate) fn record() -> impl Strategy<Value = History> {
    let bodies = (
        prop::collection::vec(pain_report(), 0..3),
        prop::collection::vec(absence(), 0..2),
        prop::collection::vec(clearance(), 0..2),
        prop::collection::vec(limit(), 0..2),
        prop::collection::vec((day(), any_side()), 0..2),
    );
    let work = (
        prop::collection::vec(any_session(), 0..9),
        prop::collection::vec(placement(), 0..3),
        calendar(),
        prop::collection::vec((day(), exercise()), 0..2),
        prop::collection::btree_set(exercise(), 0..2),
    );
    (person(), bodies, work).prop_map(
        |(
            mut history,
            (pains, absences, clearances, limits, opened),
            (sessions, placements, calendar, taught, unsigned),
        )| {
            history.pains = pains;
            history.absences = absences;
            history.clearances = clearances;
            history.limits = limits;
            history.reopenings =
                opened.into_iter().map(|(date, side)| Reopening { date, side, by: "P".to_owned() }).collect();
            for (session, asked) in sessions {
                if asked {
                    history.pains.push(no_pain(session.date));
                }
                history.sessions.push(session);
            }
            history.placements = placements.into_iter().flatten().collect();
            history.calendar = calendar;
            history.taught.extend(taught.into_iter().map(|(date, exercise)| Taught { date, exercise }));
            history.sign_offs.retain(|sign| !unsigned.contains(&sign.exercise));
            history
        },
    )
}
