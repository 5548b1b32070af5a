//! Rules that only say how a number comes about or when to ask, in words: values derived from a test `V`, whom to ask
//! `Q`, and the one screening finding that looks at the squad.

use super::{Ground, Rule, RuleCode};

/// Posterior endurance in the lowest fifth of the age group.
pub const C10: RuleCode = RuleCode("C10");
/// Arc of rotation.
pub const V1: RuleCode = RuleCode("V1");
/// Side difference of range.
pub const V2: RuleCode = RuleCode("V2");
/// Strength as a share of body weight.
pub const V3: RuleCode = RuleCode("V3");
/// Torque.
pub const V4: RuleCode = RuleCode("V4");
/// Strength ratio.
pub const V5: RuleCode = RuleCode("V5");
/// Symmetry of strength.
pub const V6: RuleCode = RuleCode("V6");
/// Side difference of a hold.
pub const V7: RuleCode = RuleCode("V7");
/// Length and touches by height.
pub const V8: RuleCode = RuleCode("V8");
/// Within the error of the test.
pub const V9: RuleCode = RuleCode("V9");
/// Change at a re-test.
pub const V10: RuleCode = RuleCode("V10");
/// Substantial problem in the weekly check.
pub const Q1: RuleCode = RuleCode("Q1");
/// Problem that stays or grows.
pub const Q2: RuleCode = RuleCode("Q2");
/// Zeros for pain with falling times.
pub const Q3: RuleCode = RuleCode("Q3");
/// One arm spared.
pub const Q4: RuleCode = RuleCode("Q4");
/// Nothing heard for weeks.
pub const Q5: RuleCode = RuleCode("Q5");
/// Water load of a week.
pub const Q6: RuleCode = RuleCode("Q6");
/// A line of one's own that moved.
pub const Q7: RuleCode = RuleCode("Q7");

/// Every rule of these families, in reading order.
pub static RULES: &[Rule] = &[
    Rule {
        code: C10,
        name: "posterior endurance in the lowest fifth",
        checks: "The weaker arm's posterior shoulder endurance lies in the lowest fifth of those within a year of the same age, tested in the same way. Prone lift and row come into the programme.",
        matters: "In one study of youth swimmers low posterior endurance went with later pain; experts rank it among the few things that matter and can be changed.",
        except: "Fewer than ten tested: cannot tell. It compares with this squad only, and a squad is no norm.",
        example: "Fifteen swimmers of that age: the three lowest, and whoever ties with them.",
        ground: Ground::Published,
        source: "feijen2021 (abstract), 201 swimmers, not validated elsewhere; the fifth itself is practice",
        parameters: &[],
    },
    Rule {
        code: V1,
        name: "arc of rotation",
        checks: "External plus internal rotation range of one shoulder, measured on one day in one way.",
        matters: "A shoulder may have turned its whole arc backwards; the arc tells that from a loss.",
        except: "Values taken in different ways are never added up.",
        example: "103 and 48 degrees: 151.",
        ground: Ground::Published,
        source: "definition as in Wilk 2011, Am J Sports Med 39:329 (abstract)",
        parameters: &[],
    },
    Rule {
        code: V2,
        name: "side difference of range",
        checks: "How much one shoulder lacks of the other. Both arms of a swimmer work, so there is no better side to compare with; the own baseline is.",
        matters: "It is written down for the next test. No rotation range went with pain in 70 elite swimmers, and reviews rate it as not associated.",
        except: "Thresholds of throwers stand beside it as information; none of them was validated in swimmers.",
        example: "Internal rotation 48 and 61: the first lacks 13 degrees.",
        ground: Ground::Published,
        source: "Wilk 2011 (122 pitchers, 170 seasons, abstract); mckenzie2023 (review in swimmers, abstract)",
        parameters: &[],
    },
    Rule {
        code: V3,
        name: "strength by body weight",
        checks: "Force divided by body mass times standard gravity, with a mass not older than ninety days.",
        matters: "A growing swimmer gets stronger by growing; the share shows what is left after that.",
        except: "Force depends on where the pad sat: without the lever arm only the same swimmer is comparable.",
        example: "112 N at 61 kg: 18.7 per cent.",
        ground: Ground::House,
        source: "unit definitions",
        parameters: &[],
    },
    Rule {
        code: V4,
        name: "torque",
        checks: "Force times lever arm; per kilogram with a mass not older than ninety days.",
        matters: "What the joint turns, whatever the length of the forearm.",
        except: "Without a lever arm it is not worked out.",
        example: "112 N at 24 cm: 26.9 N m.",
        ground: Ground::House,
        source: "unit definitions",
        parameters: &[],
    },
    Rule {
        code: V5,
        name: "strength ratio, external over internal",
        checks: "External over internal rotation strength of one shoulder, this way round.",
        matters: "Swimming trains internal rotation. A ratio hides the level: two weak muscles give a fine ratio.",
        except: "It depends on device and position. Print often gives the other way round: 1.09 there is 0.92 here.",
        example: "70 N out, 100 N in: 0.70.",
        ground: Ground::Published,
        source: "mclaine2018 (85 pain-free swimmers of 14 to 20 years, lying, abstract); ratio the same with and without a history of pain",
        parameters: &["ratio_flag"],
    },
    Rule {
        code: V6,
        name: "symmetry of strength",
        checks: "Weaker over stronger arm, beside the noise that a single such index carries.",
        matters: "With seven per cent spread of each side the noise is about 21 per cent: a ten-per-cent rule mostly flags error.",
        except: "The gate looks at the same difference with its own limits.",
        example: "80 and 100 N: 80 per cent.",
        ground: Ground::Published,
        source: "spread of the test from Job 2024 (19 national swimmers, abstract); noise computed from it",
        parameters: &[],
    },
    Rule {
        code: V7,
        name: "side difference of a hold",
        checks: "How much one side lacks of the other in seconds or repetitions.",
        matters: "Beside the error of the test it shows how little a few seconds mean.",
        except: "A hold that reached its cap or stopped for pain is no value to subtract.",
        example: "41 and 52 s: 11 s, within the error of 20.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: V8,
        name: "by height",
        checks: "Pectoralis minor length as a share of height; touches of the stability test by metre of height.",
        matters: "Longer people have longer muscles and longer reach.",
        except: "No cut-off is drawn: those in print come from adults and were not validated.",
        example: "25 touches at 1.70 m: 14.7.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: V9,
        name: "within the error of the test",
        checks: "A difference is set beside 1.96 times the square root of two times the standard error of measurement.",
        matters: "Below it two readings of the same shoulder differ as much.",
        except: "Errors of adults do not carry over to adolescents freely; the people are named.",
        example: "Error 3, difference 7: the smallest change is 8.3, so it cannot be told.",
        ground: Ground::Published,
        source: "the study named in the sentence; the formula is textbook",
        parameters: &[],
    },
    Rule {
        code: V10,
        name: "change at a re-test",
        checks: "Up or down only from the smallest change beyond error on; otherwise it cannot be told. The club's own trial of at least five people is used before print.",
        matters: "Any plus is otherwise sold as success.",
        except: "Where no error was published and the club has none, it cannot be told. Growth changes strength and range by itself.",
        example: "88 before, 95 now, error 3: plus 7, between minus 1.3 and plus 15.3: cannot tell.",
        ground: Ground::Published,
        source: "Jacobson and Truax 1991; the error named beside each change",
        parameters: &[],
    },
    Rule {
        code: Q1,
        name: "substantial problem in the weekly check",
        checks: "Training or performance reduced moderately or more, or no part taken, because of a shoulder: contact within two days.",
        matters: "The weekly check catches what days lost never show.",
        except: "It is an answer, not a finding. Pain numbers go through the pain rules as well.",
        example: "The third answer of four to \"how much less did you train\".",
        ground: Ground::Published,
        source: "clarsen2013 (abstract), scored as updated in 2020 (secondary); our own wording",
        parameters: &[],
    },
    Rule {
        code: Q2,
        name: "problem that stays or grows",
        checks: "Some problem in two checks running, or a score that rose by ten and more.",
        matters: "Overuse begins small.",
        except: "A week without an answer is not a zero; the last two answers within four weeks count.",
        example: "16 last week, 32 this week.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: Q3,
        name: "zeros for pain with falling times",
        checks: "A line of sets fell by more than the rule of falling times allows, and every pain answer of the last 28 days was zero, at least four of them.",
        matters: "Who always says zero may have learnt to.",
        except: "It accuses nobody: tiredness, illness and dull weeks look the same.",
        example: "Total time down by 28 per cent in two sessions, six answers, all zero.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &["fall_pct", "fall_sessions"],
    },
    Rule {
        code: Q4,
        name: "one arm spared",
        checks: "In the last 28 days the same arm was left out, or stopped by choice, in at least two sessions of one-arm exercises, and the other never was.",
        matters: "An arm is spared before anybody says why.",
        except: "Not where a hold or a limit keeps that arm out anyway.",
        example: "Right arm stopped by choice on Monday, left out on Wednesday.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: Q5,
        name: "nothing heard for weeks",
        checks: "Somebody who has answered before gave no weekly check for three weeks, while a third of the squad did.",
        matters: "Silence is not a zero.",
        except: "Not during a known absence.",
        example: "Last answer on 1 November, today the 25th.",
        ground: Ground::CommonPractice,
        source: "common practice",
        parameters: &[],
    },
    Rule {
        code: Q6,
        name: "water load of a week",
        checks: "Kilometres of the week beside the mean of the three before, in kilometres and, where that mean is not small, per cent; session load is effort times minutes.",
        matters: "Large rises belong in the talk with the coach.",
        except: "No ratio of this week to the month, and no zone that is called safe: dividing by a random month gives the same odds. No per cent where the three weeks before lie under 30 per cent of the last eight.",
        example: "42 km, 14 more than the mean of the three weeks before (50 per cent).",
        ground: Ground::Published,
        source: "Foster 2001, J Strength Cond Res 15:109 (session load); impellizzeri2021 (against the ratio, abstract); the guard is a choice of this project",
        parameters: &["load_jump_pct"],
    },
    Rule {
        code: Q7,
        name: "own line that moved",
        checks: "A self-starting chart of one's own set times on one rung, or of the kilometres of a week, has left its own level.",
        matters: "Each is compared with himself only, so the strong and the weak are asked alike.",
        except: "A chart is silent until it has learnt; how many speak by chance alone is said beside the list. It closes no gate.",
        example: "94 s in eight sessions, 71 s in the three since 2 November.",
        ground: Ground::Published,
        source: "Hawkins 1987 (self-starting cumulative sum), settings by simulation of this project",
        parameters: &[],
    },
];
