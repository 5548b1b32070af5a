//! Rules of the gate, in words: papers `G`, pain `E`, urgent signs `U`, screening findings `C`, growth and age `W`,
//! laxity `L`, return `B`, water `M`.
//!
//! Long because it is one list: a rule is looked up here and nowhere else.

use super::{Ground, Rule, RuleCode};

/// Consent not given.
pub const G1: RuleCode = RuleCode("G1");
/// Consent run out.
pub const G2: RuleCode = RuleCode("G2");
/// Consent taken back.
pub const G3: RuleCode = RuleCode("G3");
/// Own consent from 18.
pub const G4: RuleCode = RuleCode("G4");
/// Intake question without an answer.
pub const G5: RuleCode = RuleCode("G5");
/// Shoulder out or slipping, ever.
pub const G6: RuleCode = RuleCode("G6");
/// Shoulder operation, ever.
pub const G7: RuleCode = RuleCode("G7");
/// No screening on record.
pub const G8: RuleCode = RuleCode("G8");
/// Told not to train.
pub const G9: RuleCode = RuleCode("G9");
/// Fever.
pub const G10: RuleCode = RuleCode("G10");
/// Open referral.
pub const G11: RuleCode = RuleCode("G11");
/// Signed limit.
pub const G12: RuleCode = RuleCode("G12");
/// First weeks of the programme.
pub const G13: RuleCode = RuleCode("G13");
/// One-sided or joint pain of 1 or 2.
pub const E1: RuleCode = RuleCode("E1");
/// Ache of 1 or 2 on both sides.
pub const E2: RuleCode = RuleCode("E2");
/// Joint pain of 1 or 2 during a set.
pub const E3: RuleCode = RuleCode("E3");
/// Pain of 3 or 4.
pub const E4: RuleCode = RuleCode("E4");
/// Pain of 5 and more.
pub const E5: RuleCode = RuleCode("E5");
/// Ended for pain without a number.
pub const E6: RuleCode = RuleCode("E6");
/// Second pain event.
pub const E7: RuleCode = RuleCode("E7");
/// Pain that stays.
pub const E8: RuleCode = RuleCode("E8");
/// No steps up after pain.
pub const E9: RuleCode = RuleCode("E9");
/// Joint pain the next morning.
pub const E10: RuleCode = RuleCode("E10");
/// Pain-free days.
pub const E11: RuleCode = RuleCode("E11");
/// Asking again after a pain event.
pub const E12: RuleCode = RuleCode("E12");
/// Guardian told the same day.
pub const E13: RuleCode = RuleCode("E13");
/// Pain that a signed limit covers.
pub const E14: RuleCode = RuleCode("E14");
/// Emergency sign.
pub const U1: RuleCode = RuleCode("U1");
/// Person with an emergency sign.
pub const U2: RuleCode = RuleCode("U2");
/// Sign for the same day.
pub const U3: RuleCode = RuleCode("U3");
/// Sign for this week.
pub const U4: RuleCode = RuleCode("U4");
/// Sign for a talk.
pub const U5: RuleCode = RuleCode("U5");
/// Hollow behind the shoulder.
pub const C1: RuleCode = RuleCode("C1");
/// Large side difference of strength.
pub const C2: RuleCode = RuleCode("C2");
/// Side difference of strength.
pub const C3: RuleCode = RuleCode("C3");
/// Low strength ratio.
pub const C4: RuleCode = RuleCode("C4");
/// Strength ratio not known.
pub const C5: RuleCode = RuleCode("C5");
/// Shoulder pain in the year before.
pub const C6: RuleCode = RuleCode("C6");
/// Side difference of range.
pub const C7: RuleCode = RuleCode("C7");
/// Re-test.
pub const C8: RuleCode = RuleCode("C8");
/// Fast growth.
pub const W1: RuleCode = RuleCode("W1");
/// Near the height spurt.
pub const W2: RuleCode = RuleCode("W2");
/// Growth reported.
pub const W3: RuleCode = RuleCode("W3");
/// Under 14.
pub const W4: RuleCode = RuleCode("W4");
/// Growth measurement.
pub const W5: RuleCode = RuleCode("W5");
/// Lax joints.
pub const L1: RuleCode = RuleCode("L1");
/// Shoulder that once slipped.
pub const L2: RuleCode = RuleCode("L2");
/// Injury without a letter.
pub const B1: RuleCode = RuleCode("B1");
/// Return condition not met.
pub const B2: RuleCode = RuleCode("B2");
/// Return condition not written down.
pub const B3: RuleCode = RuleCode("B3");
/// Jump in water load.
pub const M1: RuleCode = RuleCode("M1");
/// Water not decided.
pub const M2: RuleCode = RuleCode("M2");

const PAIN_TABLE: &str =
    "pain table of this programme, stricter on purpose than pain models made for adults in treatment";
const SIGN_LIST: &str = "red-flag lists as shoulder care commonly uses them";

/// Every rule of the gate.
pub const RULES: &[Rule] = &[
    Rule {
        code: G1,
        name: "consent not given",
        checks: "Consent to screening, to the exercises and to keeping health records must each be granted. One that is missing means not yet.",
        matters: "Without them nothing may be measured, done or written down.",
        except: "Refusing that the coach sees more, photos, or use for evaluation never keeps anybody out.",
        example: "Everything granted but the keeping of health records: not yet.",
        ground: Ground::CommonPractice,
        source: "practice of the trade; consent law differs from country to country and comes first",
        parameters: &[],
    },
    Rule {
        code: G2,
        name: "consent run out",
        checks: "A consent holds up to and including the same day so many months later. From the next day on: not yet.",
        matters: "People forget what was signed, and what was asked may have changed.",
        except: "A club may let swimmers join without any record meanwhile; the availability stays not yet.",
        example: "Signed on 3 March with 12 months: 3 March of the next year is the last day.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &["consent_valid_months", "join_without_consent"],
    },
    Rule {
        code: G3,
        name: "consent taken back",
        checks: "A consent that is taken back acts from that day on, and only a newer signature opens again.",
        matters: "Consent that cannot be taken back is none.",
        except: "A paper that a newer one had already replaced.",
        example: "Taken back in the morning: not yet the same day.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: G4,
        name: "own consent from 18",
        checks: "From the 18th birthday only the swimmer's own signature counts; before it only a guardian's does.",
        matters: "The one who decides must be the one who signs.",
        except: "A child's own agreement is recorded beside the guardian's consent and replaces nothing.",
        example: "The guardian signed in May, the swimmer turns 18 in June: not yet from the birthday.",
        ground: Ground::CommonPractice,
        source: "practice of the trade; the age is fixed here",
        parameters: &[],
    },
    Rule {
        code: G5,
        name: "intake question without an answer",
        checks: "Every intake question of the newest intake needs an answer. One without means not yet.",
        matters: "A question that was not answered is not a no.",
        except: "None.",
        example: "The operation question was skipped: not yet, and the question is named.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: G6,
        name: "shoulder out or slipping, ever",
        checks: "A yes to \"did a shoulder ever come out or slip\" holds the person until a licensed clinician writes since then.",
        matters: "A shoulder that once came out may do so again under load.",
        except: "A letter that names the dislocation answers the question; any other letter answers for the shoulder it covers.",
        example: "\"It slipped out last month\": out, referred.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: G7,
        name: "shoulder operation, ever",
        checks: "A yes to \"was a shoulder ever operated on\" holds the person until a licensed clinician writes since then.",
        matters: "What was repaired, and what it may bear, only the clinician knows.",
        except: "A letter that names the operation answers the question; any other letter answers for the shoulder it covers.",
        example: "Operated three years ago, no letter: out, referred.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: G8,
        name: "no screening on record",
        checks: "Nobody takes part before one screening is on record.",
        matters: "Without a first measurement nothing later can be compared, and a hollow or a weak arm goes unseen.",
        except: "None; a short screening serves late joiners.",
        example: "Joined mid-season, not yet screened: not yet.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: G9,
        name: "told not to train",
        checks: "While a doctor's or a guardian's \"do not train\" stands, the person is out today.",
        matters: "Somebody outside knows more than the record does.",
        except: "It ends on its last day, or when its record is corrected.",
        example: "No sport until Friday: back on Saturday.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: G10,
        name: "fever",
        checks: "After an illness with fever, two days without symptoms come before any loaded work.",
        matters: "Hard work on top of an infection can harm more than the shoulder.",
        except: "An illness without fever only changes the dose.",
        example: "Without symptoms since Monday: back on Wednesday.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: G11,
        name: "open referral",
        checks: "A referral without an answer holds its shoulder, or the person.",
        matters: "Whoever asks a clinician waits for the answer.",
        except: "An answer ends the waiting; what the referral was about ends only by a letter that clears.",
        example: "Referred on the 4th, nothing heard by the 11th: the list asks.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: G12,
        name: "signed limit",
        checks: "Limits that a clinician signed while licensed hold to their last day. What they lock is locked.",
        matters: "A limit is only as good as the person who answers for it.",
        except: "A limit signed without a valid licence still restricts, but permits nothing.",
        example: "Nothing overhead for four weeks: limited, and overhead exercises are locked until then.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: G13,
        name: "first weeks of the programme",
        checks: "In the first weeks of the programme the careful count applies.",
        matters: "Tissue takes longer than skill.",
        except: "It ends by itself.",
        example: "Started on 1 September with 42 days: the careful count ends on 13 October.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &["newcomer_days", "n_qualify_careful"],
    },
    Rule {
        code: E1,
        name: "one-sided or joint pain of 1 or 2",
        checks: "Said outside a set, it puts that shoulder out today until a person reopens it.",
        matters: "One sore shoulder is not training ache, and a child's 1 may be somebody else's 4.",
        except: "A signed limit may cover it. During a set rule E3 speaks, the next morning rule E10.",
        example: "Right 2 before the session: right out today, left as before.",
        ground: Ground::House,
        source: "decision of this project, stricter than the pain table it comes from",
        parameters: &["pain_pre_out", "no_up_after_pain_days"],
    },
    Rule {
        code: E2,
        name: "ache of 1 or 2 on both sides",
        checks: "Muscle ache on both sides after a session in the last 48 hours holds nobody back, but nothing steps up that day.",
        matters: "Training makes muscles ache; a heavier rung on top tells nothing.",
        except: "Ache on one side only, or with one side not answered, is read as one-sided pain.",
        example: "Left 1, right 2, ache from Monday: goes on, no steps up.",
        ground: Ground::CommonPractice,
        source: PAIN_TABLE,
        parameters: &[],
    },
    Rule {
        code: E3,
        name: "joint pain of 1 or 2 during a set",
        checks: "That exercise stops today and a pain event is written. Where nobody named the exercise, every shoulder exercise stops.",
        matters: "The movement that hurts is the one to leave.",
        except: "Ache on both sides may finish the set if it does not rise.",
        example: "Right 2 during scaption: scaption stops, rowing goes on.",
        ground: Ground::CommonPractice,
        source: PAIN_TABLE,
        parameters: &["pain_during_stop_joint"],
    },
    Rule {
        code: E4,
        name: "pain of 3 or 4",
        checks: "At any time it is a pain event: all shoulder exercises stop, and the person is out of shoulder dryland until a person reopens.",
        matters: "From here on pain changes how somebody moves, and the other shoulder pays.",
        except: "Legs and trunk may go on. A club may be stricter before a session, or let 3 pass there for one shoulder only.",
        example: "Right 4 during the second set: out today, asked again the next morning.",
        ground: Ground::CommonPractice,
        source: PAIN_TABLE,
        parameters: &["pain_pre_out"],
    },
    Rule {
        code: E5,
        name: "pain of 5 and more",
        checks: "The session stops and the shoulder is referred: within a week, from 7 on the same day.",
        matters: "Pain this high is not for a programme for shoulders that do not hurt.",
        except: "None; no setting changes it.",
        example: "Left 7 after a pull: out, seen the same day.",
        ground: Ground::CommonPractice,
        source: PAIN_TABLE,
        parameters: &[],
    },
    Rule {
        code: E6,
        name: "ended for pain without a number",
        checks: "A set or a test that ended for pain, with no number written, is a pain event and puts the shoulder out today.",
        matters: "A number that nobody asked for may have been any number.",
        except: "A number spoken during that exercise that day replaces this rule for a set.",
        example: "Set 2 ended for pain, nothing else written: out today.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: E7,
        name: "second pain event",
        checks: "A new pain event within the window of an earlier one refers the shoulders of both.",
        matters: "What comes back was not gone.",
        except: "Answers to follow-ups of the same event are not a new one, unless a pain-free answer lies between or training had gone on.",
        example: "Right 4 on the 2nd, pain-free on the 5th, right 3 on the 12th: referred.",
        ground: Ground::CommonPractice,
        source: SIGN_LIST,
        parameters: &["repeat_event_window_days"],
    },
    Rule {
        code: E8,
        name: "pain that stays",
        checks: "Pain of 3 and more that nobody has called gone, left and right, for more than 7 days is referred.",
        matters: "Pain that is waited out for weeks is the usual story of a season lost.",
        except: "A whole pain-free answer on a later day ends it; silence does not.",
        example: "Right 3 on the 1st, no answer by the 9th: referred.",
        ground: Ground::CommonPractice,
        source: SIGN_LIST,
        parameters: &[],
    },
    Rule {
        code: E9,
        name: "no steps up after pain",
        checks: "After a pain event, and after one-sided or joint pain around a session, no shoulder exercise steps up for the days set.",
        matters: "A step up right after pain tests the wrong thing.",
        except: "Ache on both sides only waits a day.",
        example: "Right 1 before Wednesday's session: no step up for 14 days.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &["no_up_after_pain_days"],
    },
    Rule {
        code: E10,
        name: "joint pain the next morning",
        checks: "One-sided or joint pain of 1 or 2 the next morning: no steps up for 7 days.",
        matters: "The morning after says what the session was.",
        except: "From 3 on rule E4 speaks.",
        example: "Left 1 on Tuesday morning: no step up before the next Tuesday.",
        ground: Ground::CommonPractice,
        source: PAIN_TABLE,
        parameters: &[],
    },
    Rule {
        code: E11,
        name: "pain-free days",
        checks: "Enough days in a row, each with both shoulders answered and no pain, propose the end of out today.",
        matters: "A rule may say that it looks well; a person says that it is.",
        except: "Never for a shoulder that is referred. A day without an answer breaks the row.",
        example: "Both shoulders 0 on Thursday and Friday: proposed; the practitioner confirms.",
        ground: Ground::CommonPractice,
        source: PAIN_TABLE,
        parameters: &["pain_free_days"],
    },
    Rule {
        code: E12,
        name: "asking again after a pain event",
        checks: "After a pain event the swimmer is asked the next morning and after seven days.",
        matters: "How pain behaves overnight and over a week says more than its number.",
        except: "None; an answer for every shoulder that hurt closes it.",
        example: "Event on Monday: asked on Tuesday, and on the Monday after.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: E13,
        name: "guardian told the same day",
        checks: "A minor's guardian is told on the day of a pain event or an urgent sign, and when one-sided pain of 1 or 2 comes twice within the window.",
        matters: "Parents see the nights and the mornings.",
        except: "From 18 on it is the swimmer's own matter.",
        example: "Left 1 on the 3rd and left 2 on the 10th: told on the 10th.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &["repeat_event_window_days"],
    },
    Rule {
        code: E14,
        name: "pain that a signed limit covers",
        checks: "A signed limit may allow one-sided pain up to a number; up to it the shoulder is limited, not out.",
        matters: "A clinician who knows the shoulder may know its pain.",
        except: "Never from 3 on, never when the signer was not licensed on that day, and nothing steps up.",
        example: "Limit allows 2, right 2 today: limited.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: U1,
        name: "emergency sign",
        checks: "One of the emergency signs stops everything, whatever the pain number. Only a licensed letter ends it.",
        matters: "Some of what looks harmless on deck is decided within hours.",
        except: "None.",
        example: "Arm heavy, swollen and bluish, pain 2: emergency.",
        ground: Ground::CommonPractice,
        source: SIGN_LIST,
        parameters: &[],
    },
    Rule {
        code: U2,
        name: "person with an emergency sign",
        checks: "While an emergency sign of one shoulder stands, the whole person is out.",
        matters: "Nobody trains the left arm while the right one is an emergency.",
        except: "It ends with the letter that covers the sign.",
        example: "Right arm swollen and blue: the left shoulder is out as well.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: U3,
        name: "sign for the same day",
        checks: "A sign of this group stops the session and refers, to be seen the same day or the next morning.",
        matters: "A fresh injury is told best while it is fresh.",
        except: "None.",
        example: "Fell, heard a crack: out, seen today.",
        ground: Ground::CommonPractice,
        source: SIGN_LIST,
        parameters: &[],
    },
    Rule {
        code: U4,
        name: "sign for this week",
        checks: "A sign of this group refers the shoulder, to be seen within a week; without a side it refers both.",
        matters: "These are the signs that training on makes worse without anybody noticing.",
        except: "None.",
        example: "Wakes at night from the right shoulder: right out, referred.",
        ground: Ground::CommonPractice,
        source: SIGN_LIST,
        parameters: &[],
    },
    Rule {
        code: U5,
        name: "sign for a talk",
        checks: "A sign of this group holds nobody back; it asks for a talk, and is closed by a follow-up.",
        matters: "Worry, sleep and food decide more than a rung does.",
        except: "What is said in confidence stays with the practitioner and the doctor.",
        example: "Ache for more than three days: a talk this week.",
        ground: Ground::CommonPractice,
        source: SIGN_LIST,
        parameters: &[],
    },
    Rule {
        code: C1,
        name: "hollow behind the shoulder",
        checks: "A hollow seen behind a shoulder refers it before it is loaded, pain or not.",
        matters: "Muscle that has gone without pain is for a clinician to explain.",
        except: "A later screening that does not mention it ends nothing; a letter does.",
        example: "Hollow behind the right shoulder, no pain: right out, seen within a week.",
        ground: Ground::CommonPractice,
        source: SIGN_LIST,
        parameters: &[],
    },
    Rule {
        code: C2,
        name: "large side difference of strength",
        checks: "External rotation of one arm weaker than the other by more than the larger limit refers the weaker shoulder. The share is of the stronger arm.",
        matters: "So large a difference is beyond what sides and tests explain.",
        except: "Both arms must have been measured.",
        example: "60 N against 105 N: 42.9 % weaker, referred.",
        ground: Ground::CommonPractice,
        source: "practice of the trade; the cut has no study behind it",
        parameters: &["side_diff_strength_refer"],
    },
    Rule {
        code: C3,
        name: "side difference of strength",
        checks: "A difference over the smaller limit and over the test's own error makes the weaker arm decide.",
        matters: "The stronger arm must not run away.",
        except: "A difference within 16 %, the smallest the test can tell, says nothing.",
        example: "80 N against 100 N: 20 %, the weaker arm decides, tested again after six weeks.",
        ground: Ground::CommonPractice,
        source: "cut by practice; error of the test after mclaine2016 (abstract)",
        parameters: &["side_diff_strength_adapt"],
    },
    Rule {
        code: C4,
        name: "low strength ratio",
        checks: "External over internal rotation strength below the flag, on either side, puts external rotation first and leaves out band internal rotation.",
        matters: "Swimming itself trains internal rotation; the other side falls behind.",
        except: "A club may keep internal rotation in. The ratio depends on device and position.",
        example: "70 N out, 100 N in: 0.70, under 0.75.",
        ground: Ground::CommonPractice,
        source: "norms computed from mclaine2018 (abstract); the cut itself is practice",
        parameters: &["ratio_flag", "rc2_needs_ratio"],
    },
    Rule {
        code: C5,
        name: "strength ratio not known",
        checks: "Where a screening lacks one of the two strengths, the ratio is said to be unknown.",
        matters: "Not measured is not normal.",
        except: "It changes no exercise by itself.",
        example: "No strength test on the left: ratio on the left unknown.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: C6,
        name: "shoulder pain in the year before",
        checks: "Shoulder pain in the 12 months before intake asks to watch; it holds nobody back.",
        matters: "In one cohort earlier pain went with more later pain (odds ratio 4.1, 1.3 to 13.3).",
        except: "It lapses a year after the answer.",
        example: "Two sore weeks last winter, none now: takes part, is asked more often.",
        ground: Ground::Published,
        source: "walker2012 (abstract), 74 swimmers",
        parameters: &[],
    },
    Rule {
        code: C7,
        name: "side difference of range",
        checks: "Internal rotation or cross-body range that differs by 10 degrees or more offers the cross-body stretch.",
        matters: "Stretching is for tight shoulders; many swimmers are lax.",
        except: "Never on the hypermobile track.",
        example: "Internal rotation left 42, right 55: offered.",
        ground: Ground::Published,
        source: "mcclure2007 (abstract): four weeks of it in people with such a difference, not swimmers",
        parameters: &[],
    },
    Rule {
        code: C8,
        name: "re-test",
        checks: "A re-test is listed from the shorter span after the last screening and due by the longer one.",
        matters: "Without a second measurement nobody knows whether anything changed.",
        except: "After a side difference of strength it is due after six weeks.",
        example: "Screened on 1 September with 8 to 12 weeks: listed from 27 October, due by 24 November.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &["retest_weeks"],
    },
    Rule {
        code: W1,
        name: "fast growth",
        checks: "Growth at or over the limit, from two heights far enough apart, starts the growth hold. The error of the measurement is said with it.",
        matters: "Limbs that lengthen quickly change leverage and form.",
        except: "Judged from 8 to 18 years. It ends with slow growth clear of the spurt, or after 91 days without a pain event.",
        example: "3.5 cm in 150 days: 8.5 cm a year, with an error of 2.0 either way.",
        ground: Ground::CommonPractice,
        source: "practice; the error is arithmetic on 0.3 cm a reading",
        parameters: &["growth_velocity_cm_y", "growth_end_velocity_cm_y", "growth_min_days"],
    },
    Rule {
        code: W2,
        name: "near the height spurt",
        checks: "An estimated distance to the height spurt within the window starts the growth hold. Either of two equations suffices.",
        matters: "The body is at its fastest then, also when nobody measured twice.",
        except: "Estimates with an error of more than half a year; never more than a reason for care.",
        example: "Girl of 12.0, 154 cm, sitting 80 cm, 44 kg: 0.1 years, within the window.",
        ground: Ground::Published,
        source: "equations of Mirwald 2002 and Moore 2015 (seen second-hand); the window is practice",
        parameters: &["maturity_window_y"],
    },
    Rule {
        code: W3,
        name: "growth reported",
        checks: "Sudden clumsiness, or pain where a tendon meets the bone, starts the growth hold under 18.",
        matters: "Swimmers and parents notice before the tape does.",
        except: "Each report begins the weeks anew.",
        example: "\"Keeps dropping things\" on 5 May: hold from 5 May.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: W4,
        name: "under 14",
        checks: "Under 14 the careful count applies and a person confirms every step.",
        matters: "Sets this long lie outside what youth papers describe, so care stands in for evidence.",
        except: "It ends on the 14th birthday.",
        example: "12 years, three full sets once: one of two.",
        ground: Ground::CommonPractice,
        source: "practice of the trade; the age is fixed here",
        parameters: &["n_qualify_careful"],
    },
    Rule {
        code: W5,
        name: "growth measurement",
        checks: "From 9 to 17 height, sitting height and mass are measured every 3 to 4 months, and six weeks into a growth hold.",
        matters: "A spurt lasts a year; a yearly visit misses it.",
        except: "Never judged on a span shorter than the parameter.",
        example: "Measured on 1 September: listed from 1 December, due by 1 January.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &["growth_min_days"],
    },
    Rule {
        code: L1,
        name: "lax joints",
        checks: "A Beighton score at or over the cut for age and sex puts the swimmer on the hypermobile track.",
        matters: "Lax shoulders need control in the middle of their range, not more range.",
        except: "It keeps nobody out. The score describes other joints than the shoulder and names no disease.",
        example: "Girl of 15 with 7 of 9: included, on the track. With 5: the usual track.",
        ground: Ground::Published,
        source: "williams2024 (abstract) under 18; eligibility text of a trial in adults (mobilex_elig)",
        parameters: &["beighton_cut_u18", "beighton_cut_girls", "beighton_cut_woman", "beighton_cut_man"],
    },
    Rule {
        code: L2,
        name: "shoulder that once slipped",
        checks: "Whoever had a shoulder out, or felt it slip, is on the hypermobile track once a clinician has cleared it.",
        matters: "End positions are where it would happen again.",
        except: "None.",
        example: "Dislocated two years ago, cleared: included, on the track.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: B1,
        name: "injury without a letter",
        checks: "Away with an injury and no licensed letter since: out, referred.",
        matters: "\"The doctor said it is fine\" is not a letter.",
        except: "A letter that names an injury, or letters for both shoulders, end it.",
        example: "Six weeks away after a dislocation, no paper: stays out.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: B2,
        name: "return condition not met",
        checks: "Beside the letter: no pain in daily life, range within 10 degrees of the other side, strength at least 90 % of it, a week or more at half the usual water. One that is known not to be met: out today.",
        matters: "A letter says that it may begin, not that everything is back.",
        except: "A newer letter with newer values replaces it.",
        example: "Strength 80 % of the other side: waits.",
        ground: Ground::CommonPractice,
        source: "practice of the trade",
        parameters: &[],
    },
    Rule {
        code: B3,
        name: "return condition not written down",
        checks: "A return condition that nobody wrote down is listed as open; it does not count as met.",
        matters: "What was not asked is not known.",
        except: "It holds nothing back by itself.",
        example: "Letter without a strength value: listed.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
    Rule {
        code: M1,
        name: "jump in water load",
        checks: "The last whole week of water above the limit, as a share of the mean of the four weeks before, asks for a talk.",
        matters: "Load that rises quickly is worth a question; the evidence is thin and no ban follows.",
        except: "Without all four weeks on record nothing is said.",
        example: "42 km after a mean of 31 km: 135 %.",
        ground: Ground::CommonPractice,
        source: "feijen2021 (abstract) found an odds ratio of 4.31 (1.00 to 18.54); the method is disputed (impellizzeri2021)",
        parameters: &["load_jump_pct"],
    },
    Rule {
        code: M2,
        name: "water not decided",
        checks: "While a shoulder is out, a person decides and writes what is allowed in the water, before the next practice.",
        matters: "Out of dryland says nothing about the water, and the coach will ask.",
        except: "A decision on or after the newest hold closes it.",
        example: "Out since Tuesday evening, practice on Wednesday: decided by then.",
        ground: Ground::House,
        source: "decision of this project",
        parameters: &[],
    },
];
