//! The weekly check: four questions a shoulder in the club's own words, scored by a published rule.
//!
//! The rule is that of the overuse questionnaire as updated in 2020 (Clarsen 2020, Br J Sports Med 54:390, seen at
//! second hand): four answers each worth 0, 8, 17 or 25. Taking part without any trouble ends the check at zero; not
//! having been able to take part ends it at a hundred. The wording here is our own, so its name is our own too, and
//! its numbers must not be compared with the published questionnaire's as if the same had been asked.

/// Points of the four answers of one question.
pub const POINTS: [u8; 4] = [0, 8, 17, 25];
/// Last answer of a question.
pub const LAST: u8 = 3;
/// First answer of "how much less" and "how well" that makes a problem substantial.
pub const SUBSTANTIAL_FROM: u8 = 2;

/// Answers about one shoulder, by their place from 0, the best, to 3.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Answers {
    /// Could you take part.
    pub taking_part: u8,
    /// How much less did you train; not asked after the first or the last answer above.
    pub less_training: Option<u8>,
    /// How much did it cost your swimming.
    pub performance: Option<u8>,
    /// How much did the shoulder trouble you.
    pub symptoms: Option<u8>,
}

/// What the answers come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Score {
    /// 0 to 100.
    pub points: u8,
    /// Anything above zero.
    pub problem: bool,
    /// Training or performance reduced moderately or more, or no part taken.
    pub substantial: bool,
}

impl Answers {
    /// Four answers that exist, and none missing that must be there.
    pub fn is_complete(&self) -> bool {
        self.score().is_some()
    }

    /// Every answer given is one of the four.
    pub fn is_sound(&self) -> bool {
        let others = [self.less_training, self.performance, self.symptoms];
        self.taking_part <= LAST && others.iter().flatten().all(|answer| *answer <= LAST)
    }

    /// The score; none while an answer is missing that the rule needs: a missing answer is never a zero.
    pub fn score(&self) -> Option<Score> {
        if !self.is_sound() {
            return None;
        }
        if self.taking_part == 0 {
            return Some(Score { points: 0, problem: false, substantial: false });
        }
        if self.taking_part == LAST {
            return Some(Score { points: 100, problem: true, substantial: true });
        }
        let (less, performance, symptoms) = (self.less_training?, self.performance?, self.symptoms?);
        let points = [self.taking_part, less, performance, symptoms]
            .iter()
            .map(|answer| POINTS[usize::from(*answer)])
            .sum::<u8>();
        let substantial = SUBSTANTIAL_FROM <= less || SUBSTANTIAL_FROM <= performance;
        Some(Score { points, problem: 0 < points, substantial })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answers(options: [Option<u8>; 4]) -> Answers {
        Answers {
            taking_part: options[0].unwrap_or_default(),
            less_training: options[1],
            performance: options[2],
            symptoms: options[3],
        }
    }

    // Source: Clarsen 2020, Br J Sports Med 54:390; the rule as quoted in public code that cites it (not opened).
    #[test]
    fn scored_by_the_published_rule() {
        for (options, points, problem, substantial) in [
            ([Some(0), None, None, None], 0, false, false),
            ([Some(1), Some(0), Some(0), Some(1)], 16, true, false),
            ([Some(1), Some(1), Some(1), Some(1)], 32, true, false),
            ([Some(1), Some(2), Some(1), Some(1)], 41, true, true),
            ([Some(2), Some(1), Some(1), Some(3)], 58, true, false),
            ([Some(2), Some(3), Some(3), Some(3)], 92, true, true),
            ([Some(3), None, None, None], 100, true, true),
        ] {
            assert_eq!(answers(options).score(), Some(Score { points, problem, substantial }), "{options:?}");
        }
    }

    #[test]
    fn a_missing_answer_is_no_zero_and_a_fifth_answer_is_none() {
        assert_eq!(answers([Some(1), Some(0), None, Some(0)]).score(), None);
        assert_eq!(answers([Some(1), Some(4), Some(0), Some(0)]).score(), None);
        assert_eq!(answers([Some(4), None, None, None]).score(), None);
    }

    proptest::proptest! {
        #[test]
        fn a_worse_answer_never_scores_less(
            options in proptest::array::uniform4(0_u8..4), at in 0_usize..4,
        ) {
            let score = |options: [u8; 4]| answers(options.map(Some)).score().expect("all four are given");
            let mut worse = options;
            worse[at] = (worse[at] + 1).min(LAST);
            let (before, after) = (score(options), score(worse));
            proptest::prop_assert!(before.points <= after.points);
            proptest::prop_assert!(!before.substantial || after.substantial);
        }
    }
}
