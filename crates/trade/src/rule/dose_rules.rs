//! Rules of dosing, in words: progression `P`, absence `A`, return `B`, teaching `T`, dose `D`, season `S`.
//!
//! Long because it is one list: a rule is looked up here and nowhere else.

use super::{Ground, Rule, RuleCode};

/// Set reaches the cap.
pub const P1: RuleCode = RuleCode("P1");
/// Number of sets.
pub const P2: RuleCode = RuleCode("P2");
/// Rest between sets.
pub const P3: RuleCode = RuleCode("P3");
/// Qualifying session.
pub const P4: RuleCode = RuleCode("P4");
/// Enough qualifying sessions.
pub const P5: RuleCode = RuleCode("P5");
/// One step at a time.
pub const P6: RuleCode = RuleCode("P6");
/// Starting over after a step.
pub const P7: RuleCode = RuleCode("P7");
/// Step too big.
pub const P8: RuleCode = RuleCode("P8");
/// Plateau.
pub const P9: RuleCode = RuleCode("P9");
/// Fall of total time.
pub const P10: RuleCode = RuleCode("P10");
/// Pain within the last days.
pub const P11: RuleCode = RuleCode("P11");
/// Session cut short from outside.
pub const P12: RuleCode = RuleCode("P12");
/// Arms apart on the ladder.
pub const P13: RuleCode = RuleCode("P13");
/// Top of the ladder.
pub const P14: RuleCode = RuleCode("P14");
/// No steps up now.
pub const P15: RuleCode = RuleCode("P15");
/// Steps confirmed one by one.
pub const P16: RuleCode = RuleCode("P16");
/// Every decision carries its reason.
pub const P17: RuleCode = RuleCode("P17");
/// Held step.
pub const P18: RuleCode = RuleCode("P18");
/// Up to a week away.
pub const A1: RuleCode = RuleCode("A1");
/// One to two weeks away.
pub const A2: RuleCode = RuleCode("A2");
/// Two to four weeks away.
pub const A3: RuleCode = RuleCode("A3");
/// Four to eight weeks away.
pub const A4: RuleCode = RuleCode("A4");
/// More than eight weeks away.
pub const A5: RuleCode = RuleCode("A5");
/// Injury without a letter.
pub const B5: RuleCode = RuleCode("B5");
/// Way back after an injury.
pub const B6: RuleCode = RuleCode("B6");
/// Clinician's plan only.
pub const B7: RuleCode = RuleCode("B7");
/// Clinician's limit.
pub const B8: RuleCode = RuleCode("B8");
/// First session after having been out.
pub const B9: RuleCode = RuleCode("B9");
/// Pain on the way back.
pub const B10: RuleCode = RuleCode("B10");
/// Movement kept small.
pub const L3: RuleCode = RuleCode("L3");
/// Arms apart in time.
pub const C9: RuleCode = RuleCode("C9");
/// First weeks of the growth hold.
pub const W9: RuleCode = RuleCode("W9");
/// Not signed off.
pub const T1: RuleCode = RuleCode("T1");
/// First sessions of an exercise.
pub const T2: RuleCode = RuleCode("T2");
/// Forgotten exercise.
pub const T3: RuleCode = RuleCode("T3");
/// Plain dose.
pub const D1: RuleCode = RuleCode("D1");
/// Support arm.
pub const D2: RuleCode = RuleCode("D2");
/// Stopped today.
pub const D3: RuleCode = RuleCode("D3");
/// Only with a finding.
pub const D4: RuleCode = RuleCode("D4");
/// Where the calibration set begins.
pub const D5: RuleCode = RuleCode("D5");
/// Calibration set.
pub const D6: RuleCode = RuleCode("D6");
/// Rung not in the protocol.
pub const D7: RuleCode = RuleCode("D7");
/// Deload week.
pub const S1: RuleCode = RuleCode("S1");
/// Camp.
pub const S2: RuleCode = RuleCode("S2");
/// Taper.
pub const S3: RuleCode = RuleCode("S3");
/// Meet ahead.
pub const S4: RuleCode = RuleCode("S4");

/// Every rule of dosing.
pub const RULES: &[Rule] = &[
    Rule {
        code: P1,
        name: "set reaches the cap",
        checks: "A set ends at form loss, at the cap, or earlier for a stated reason. The cap is the longest a set may last.",
        matters: "The dose is time with good form; a clock that runs on past it trains the fault.",
        except: "Trunk holds and balance have a cap of their own.",
        example: "A cap of 120 s: at 120 s the set is over even if form is perfect.",
        ground: Ground::CorePractice,
        source: "practice of the trade; sets this long lie outside the ranges that youth consensus papers describe",
        parameters: &["cap_s"],
    },
    Rule {
        code: P2,
        name: "number of sets",
        checks: "Three sets a line; two for beginners in their first weeks, on the growth hold, after an absence, in deload weeks, camps and tapers.",
        matters: "Fewer sets keep the exercise in practice without adding to what the shoulders already do.",
        except: "Limits that a clinician has signed may be lower still.",
        example: "A beginner in week three is given two sets.",
        ground: Ground::CorePractice,
        source: "practice of the trade",
        parameters: &["sets"],
    },
    Rule {
        code: P3,
        name: "rest between sets",
        checks: "Rest between sets is the same for everybody on the common clock; the real rest is recorded with each set.",
        matters: "A set after a longer rest is another test.",
        except: "A club may choose 60 s for under-14s.",
        example: "Rest 30 s; a swimmer who stops early rests longer, and the record says so.",
        ground: Ground::CorePractice,
        source: "practice of the trade; youth guidance speaks of about a minute (after Lloyd 2014)",
        parameters: &["rest_s"],
    },
    Rule {
        code: P4,
        name: "qualifying session",
        checks: "A session qualifies when all three sets were seen to reach the protocol's cap on the prescribed rung, with no cued fault left and no pain spoken. The reason a set ended decides, not its seconds.",
        matters: "A step up on a set that fell short, or that nobody saw, would be progress by wish.",
        except: "A hand-held clock has the protocol's tolerance; a device clock only its rounding, half a second.",
        example: "120, 120 and 118 s ended by the elbow leaving its place: does not qualify.",
        ground: Ground::CorePractice,
        source: "practice of the trade",
        parameters: &["cap_s", "sets", "tolerance_s"],
    },
    Rule {
        code: P5,
        name: "enough qualifying sessions",
        checks: "A step up is earned after the protocol's number of qualifying sessions in one context. The careful number applies under 14, on the hypermobile and growth tracks, in the first six weeks, and after a restart or an injury until the next step. The count starts again after a gap of more than seven days, a session that fell short, or pain.",
        matters: "A re-test of a timed shoulder hold differs by about 30 to 45 s, so one good day proves little.",
        except: "Sessions that say nothing (planned short, home, not seen) neither add nor take away; of two sessions of one day one counts.",
        example: "Thirteen years old, first qualifying session: one of two.",
        ground: Ground::CommonPractice,
        source: "number by core practice; the careful number argued from the error of a timed shoulder hold (MDC 29.6 to 45.6 s, published)",
        parameters: &["n_qualify", "n_qualify_careful"],
    },
    Rule {
        code: P6,
        name: "one step at a time",
        checks: "A step is one rung of one exercise. In one session at most two exercises step up; the longest earned goes first.",
        matters: "When much changes at once nobody can tell what a sore shoulder answers to.",
        except: "None.",
        example: "Three exercises earned a step: two go up, the third waits.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["max_ups_per_session"],
    },
    Rule {
        code: P7,
        name: "starting over after a step",
        checks: "After a step nothing is expected: each set lasts as long as form does, and the count starts at zero.",
        matters: "A heavier rung makes times shorter; that is the point of it, not a setback.",
        except: "None.",
        example: "From 3 x 120 s to 55 s on the new rung: as it should be.",
        ground: Ground::CorePractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: P8,
        name: "step too big",
        checks: "On a new rung, a first set that ended under the protocol's seconds in two sessions brings the line one rung down, whichever way the swimmer came to that rung.",
        matters: "A step that leaves twenty seconds trains little but the end of the set.",
        except: "A rung stops being new after two sessions with a long enough first set; from then on a short set asks a question instead. Sets cut off by kit or by being called away do not count.",
        example: "First sets of 14 and 17 s on the new rung: one rung down, and an intermediate loop is worth cutting.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["step_too_big_s", "step_too_big_sessions"],
    },
    Rule {
        code: P9,
        name: "plateau",
        checks: "The best total time at a rung is as many sessions old as the rule says. Look at form, sleep, water load and the force of the band; change the variant, not the weight.",
        matters: "More weight on a plateau mostly adds faults.",
        except: "Only complete sessions under the full cap in one context are compared.",
        example: "Six sessions without a better total.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["plateau_sessions"],
    },
    Rule {
        code: P10,
        name: "fall of total time",
        checks: "In each of the last two sessions the total at the same rung and in the same context lies more than a quarter below what was held before. Hold, and ask about pain, tiredness and illness.",
        matters: "Repeated zeros for pain with falling times are a reason to ask.",
        except: "It never takes a rung away by itself.",
        example: "360 s before, then 250 and 240 s.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["fall_pct", "fall_sessions"],
    },
    Rule {
        code: P11,
        name: "pain within the last days",
        checks: "After a pain event, or one-sided pain spoken around a session, no shoulder exercise steps up until the days have passed.",
        matters: "Pain and progress do not go together in a programme for uninjured shoulders.",
        except: "None. Symmetrical ache after training stops steps for the session only.",
        example: "Pain 2 in one shoulder on Wednesday: no steps up for fourteen days.",
        ground: Ground::CommonPractice,
        source: "common practice, stricter than rehabilitation models on purpose",
        parameters: &["no_up_after_pain_days"],
    },
    Rule {
        code: P12,
        name: "session cut short from outside",
        checks: "A set that ended for kit or because the swimmer was called away makes the session incomplete: neither good nor bad.",
        matters: "A torn band says nothing about a shoulder.",
        except: "Pain in the same session still counts.",
        example: "Fire alarm in the third set: the rung and the count stay.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: P13,
        name: "arms apart on the ladder",
        checks: "In a one-arm exercise both arms must qualify. The arm behind may catch up; the arm ahead waits and never stands more than one rung above the other.",
        matters: "The stronger arm would otherwise run away.",
        except: "None.",
        example: "Right 3 x 120 s, left stops at 95 s: the right arm holds.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: P14,
        name: "top of the ladder",
        checks: "Scaption never exceeds its limit; prone lifts stay light under 15; some rungs have a lowest age; the hypermobile track has a top. At the top: keep with one or two sets, or change to something harder that is not heavier.",
        matters: "A heavier dumbbell in scaption mostly brings a shrug.",
        except: "None; the scaption limit is fixed.",
        example: "2.2 kg held three times for 120 s: switch to three seconds up and three down.",
        ground: Ground::CorePractice,
        source: "practice of the trade; no trial behind the limit",
        parameters: &["scaption_limit_kg", "prone_limit_under_15_kg"],
    },
    Rule {
        code: P15,
        name: "no steps up now",
        checks: "No step up in a deload week, a camp, a taper, the first weeks of a growth hold, the first session after more than seven days away, or on the strength of a session at home or right before the water.",
        matters: "These are weeks to keep, not to build.",
        except: "The step is not lost: see P18. Two weeks of planned lighter work are no absence.",
        example: "Camp week: the earned step waits.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["home_counts"],
    },
    Rule {
        code: P16,
        name: "steps confirmed one by one",
        checks: "Steps for under-14s, the hypermobile track, anything within the days after pain, sessions with unseen sets, and the first step of a line are confirmed one by one by a person.",
        matters: "Bulk acceptance is where the one wrong step slips through.",
        except: "None.",
        example: "Twenty proposals: seventeen together, three alone.",
        ground: Ground::House,
        source: "safety decision of this project, after common practice",
        parameters: &[],
    },
    Rule {
        code: P17,
        name: "every decision carries its reason",
        checks: "Each proposal names its rules, their values, and the protocol it was made under; the person's decision is kept beside it.",
        matters: "A number nobody can question is a number nobody should follow.",
        except: "None.",
        example: "“Why?” on any dose.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: P18,
        name: "held step",
        checks: "A step earned while P15 forbids it is held and given at the first session that allows it, with no pain. It lapses after six weeks, after more than fourteen days away, or after pain. A step that nothing forbade and nobody confirmed is taken back by a later full session that falls short.",
        matters: "Earned is earned, but not for ever.",
        except: "None.",
        example: "Earned in the week before camp, given in the week after.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["held_up_valid_weeks", "held_up_gap_days"],
    },
    Rule {
        code: A1,
        name: "up to a week away",
        checks: "Same rung. Without swimming, or after illness, two sets the first time; after illness no steps up for a week.",
        matters: "A few days change little.",
        except: "An absence for injury goes by the clinician's letter.",
        example: "Six days with a cold and fever: same rung, two sets, no steps for a week.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["gap_days"],
    },
    Rule {
        code: A2,
        name: "one to two weeks away",
        checks: "Same rung and two sets, no step up in the first session (for a week when the swimmer did not swim); one rung down after illness.",
        matters: "Tissue and form come back later than will.",
        except: "An absence for injury goes by the clinician's letter.",
        example: "Nine days on holiday, swam: same rung, two sets.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["gap_days"],
    },
    Rule {
        code: A3,
        name: "two to four weeks away",
        checks: "One rung down; two sets of at most 60 s in the first session, of 45 s for a week without swimming; two rungs down for two weeks after illness, with a question about heart and breathing.",
        matters: "Children lost 19.3 % of upper-body strength in eight weeks without training: about 8 % in three weeks.",
        except: "An absence for injury goes by the clinician's letter.",
        example: "Three weeks' holiday with swimming: one rung down, 2 x 60 s once, then normal.",
        ground: Ground::CommonPractice,
        source: "common practice; its anchor is Faigenbaum 1996 (published), linear in time by assumption",
        parameters: &["gap_days"],
    },
    Rule {
        code: A4,
        name: "four to eight weeks away",
        checks: "Two rungs down and taught once more, with sets and cap as after two to four weeks; without swimming the water comes back first; after illness the teaching block starts again.",
        matters: "Form is forgotten before strength is.",
        except: "An absence for injury goes by the clinician's letter.",
        example: "Six weeks away: two rungs down, the first session untimed.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["gap_days"],
    },
    Rule {
        code: A5,
        name: "more than eight weeks away",
        checks: "Starts like a new swimmer, with a short screening; after illness a clinician has a word first.",
        matters: "The record no longer describes the shoulder.",
        except: "An absence for injury goes by the clinician's letter.",
        example: "57 days away: teaching block and calibration set.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["gap_days"],
    },
    Rule {
        code: B5,
        name: "injury without a letter",
        checks: "After an absence for injury nothing is dosed until a licensed clinician's letter is on record.",
        matters: "The tool cannot clear anybody.",
        except: "None.",
        example: "Three weeks out with a sore shoulder and no letter: a person decides, nothing is given.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: B6,
        name: "way back after an injury",
        checks: "Two rungs below the rung before the injury: two weeks of 2 x 45 s, one of 2 x 60 s, then the careful count until the first step; no step up before week four. Weeks are counted from the first session back.",
        matters: "The first weeks test the shoulder, not the swimmer's patience.",
        except: "After a dislocation or an operation see B7.",
        example: "Cleared on the 2nd: rung five becomes rung three.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["n_qualify_careful"],
    },
    Rule {
        code: B7,
        name: "clinician's plan only",
        checks: "After a dislocation or an operation the tool keeps the clinician's plan and writes none of its own.",
        matters: "That road belongs to licensed practice.",
        except: "None.",
        example: "Cleared after a dislocation: the doses are the clinician's to write.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: B8,
        name: "clinician's limit",
        checks: "A signed limit locks tags or exercises, sets and caps until its last day.",
        matters: "Limits are the clinician's; the tool only keeps them.",
        except: "A limit without a valid licence or a last day is refused at entry.",
        example: "No overhead work until 30 March: scaption and Y are left out.",
        ground: Ground::House,
        source: "decision of this project: limits come from licensed practice",
        parameters: &[],
    },
    Rule {
        code: B9,
        name: "first session after having been out",
        checks: "Once a person has reopened a shoulder, or a letter has answered the question, the first session of each line that loads it is two sets, one rung lower, and nothing steps up.",
        matters: "Two pain-free days say that it is quiet at rest, not that it carries the old load.",
        except: "The swimmer's place on the ladder stays; after an injury the way back is longer, see B6.",
        example: "Out on Monday, reopened on Thursday: on Thursday two sets on the rung below.",
        ground: Ground::CommonPractice,
        source: "common practice of the trade",
        parameters: &[],
    },
    Rule {
        code: B10,
        name: "pain on the way back",
        checks: "On the way back after an injury, pain of 3 and more, or of 2 and more the next morning, takes the line one rung back; the clinician is told.",
        matters: "A shoulder that answers so early was asked for too much.",
        except: "Answered once the swimmer stands on another rung.",
        example: "Week five, pain 2 the morning after: one rung lower.",
        ground: Ground::CommonPractice,
        source: "common practice of the trade",
        parameters: &[],
    },
    Rule {
        code: L3,
        name: "movement kept small",
        checks: "On the hypermobile track each dose says how the movement is limited: the middle of the range, slower, never to the end of it. Slipping is asked after in every session.",
        matters: "Loose joints are strengthened in the range they control.",
        except: "Load is not forbidden.",
        example: "Band external rotation only until the forearm points straight ahead.",
        ground: Ground::CommonPractice,
        source: "common practice of the trade",
        parameters: &[],
    },
    Rule {
        code: C9,
        name: "arms apart in time",
        checks: "At the same rung the mean set times of the two arms differ by at least a quarter and 30 s in two sessions. Hold and ask.",
        matters: "It may be skill, tiredness or something the swimmer has not said.",
        except: "Only sessions under the full cap are compared.",
        example: "Left 110 s, right 70 s, twice.",
        ground: Ground::CommonPractice,
        source: "common practice; the 30 s are about the error of a timed hold",
        parameters: &["side_diff_time_s", "side_diff_time_s", "side_diff_time_sessions"],
    },
    Rule {
        code: W9,
        name: "first weeks of the growth hold",
        checks: "Two sets, a shorter cap and no steps up in the first four weeks, and longer while pain is on record; push-ups stay at the incline in those weeks; nothing at ninety degrees of both elbow and shoulder.",
        matters: "Longer limbs make the same weight a bigger load, and form is relearned.",
        except: "Not a ban: training goes on.",
        example: "Week three of the hold: 2 x 90 s on the present rung.",
        ground: Ground::CommonPractice,
        source: "common practice; no trial in swimmers found",
        parameters: &["growth_cap_s", "growth_no_up_weeks"],
    },
    Rule {
        code: T1,
        name: "not signed off",
        checks: "No timed set and no step up before a person has signed the exercise off: 20 s at tempo without a correction.",
        matters: "Progress on a badly learnt movement is progress of the fault.",
        except: "None.",
        example: "Taught twice, not yet clean for 20 s: taught again.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["teaching_sets", "teaching_s"],
    },
    Rule {
        code: T2,
        name: "first sessions of an exercise",
        checks: "The first two sessions of an exercise are taught: two sets of 20 to 30 s, not to form loss. A new variant is shown before it is timed.",
        matters: "Learning and testing do not go together.",
        except: "None.",
        example: "Signed off on day one: the second session is still taught.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["teaching_sessions", "teaching_sets", "teaching_s"],
    },
    Rule {
        code: T3,
        name: "forgotten exercise",
        checks: "After more than eight weeks without it an exercise is taught and signed off again.",
        matters: "Form is forgotten before strength is.",
        except: "None.",
        example: "Back to prone Y after nine weeks.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["teaching_s"],
    },
    Rule {
        code: D1,
        name: "plain dose",
        checks: "Mobility is done to a plain dose: not timed to form loss and not progressed.",
        matters: "Stretch is a prescription, not a contest.",
        except: "None.",
        example: "Cross-body stretch: 30 s, three to five times, tight side only.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: D2,
        name: "support arm",
        checks: "An exercise is given only if every shoulder it loads may take part, the support arm included.",
        matters: "A plank on a sore shoulder is shoulder work.",
        except: "Exercises that load no shoulder.",
        example: "Left shoulder out: no side plank on either side.",
        ground: Ground::House,
        source: "safety decision of this project",
        parameters: &[],
    },
    Rule {
        code: D3,
        name: "stopped today",
        checks: "Pain during a session stops an exercise, all shoulder work or the session, for that day.",
        matters: "Pain stops the set.",
        except: "Symmetrical muscle ache of 1 to 2 that does not rise.",
        example: "Pain 2 in one shoulder in scaption: no more scaption today.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["pain_during_stop_joint"],
    },
    Rule {
        code: D4,
        name: "only with a finding",
        checks: "Mobility is offered only where screening gave a reason.",
        matters: "Many swimmers are loose already.",
        except: "None.",
        example: "No side difference found: no cross-body stretch.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: D5,
        name: "where the calibration set begins",
        checks: "The start table names a rung by age, sex and experience. The calibration set there decides, not the table.",
        matters: "A maximal test is neither needed nor kind.",
        except: "Under nine years no start is written.",
        example: "Girl of 16 with a season behind her: the table's row for girls of 15 to 18.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["calibration_s"],
    },
    Rule {
        code: D6,
        name: "calibration set",
        checks: "One clean set of 45 to 60 s places the swimmer on the rung; a shorter one sends the line one rung lower.",
        matters: "Too low is a week lost; too high is a fault learnt.",
        except: "A set that was cut off, or that nobody saw reach its cap, is repeated.",
        example: "38 s: one rung lower, try again.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["calibration_s"],
    },
    Rule {
        code: D7,
        name: "rung not in the protocol",
        checks: "The record names a rung that the protocol in force does not have. A person says which one is meant.",
        matters: "A guess here would be a guess about load.",
        except: "None.",
        example: "A rung of last year's ladder.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: S1,
        name: "deload week",
        checks: "Every fourth week: two sets, a shorter cap, no steps up.",
        matters: "Planned ease; never counted as missed.",
        except: "Off where the protocol says so, or where the club states no season start and no week.",
        example: "Week eight of the season.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["deload_every_weeks", "deload_sets", "deload_cap_s"],
    },
    Rule {
        code: S2,
        name: "camp",
        checks: "Two sets and no steps up in a training camp.",
        matters: "The water already asks for more than usual.",
        except: "None.",
        example: "Camp from Monday to Sunday.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: S3,
        name: "taper",
        checks: "Fewer sets and no steps up in a planned taper.",
        matters: "Planned ease before a meet.",
        except: "None.",
        example: "Taper until the 14th.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: S4,
        name: "meet ahead",
        checks: "Before a main meet sets and cap shrink from three weeks out, one rung lower in the last week; nothing loaded in the last 48 h before a meet that counts, nor the day before one that is trained through. Days stand for hours, on the cautious side.",
        matters: "Nobody races better on tired cuffs.",
        except: "A meet that is trained through changes nothing before its eve.",
        example: "Main meet on Saturday: the last loaded session is on Wednesday.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["meet_gap_ab_h", "meet_gap_c_h"],
    },
];
