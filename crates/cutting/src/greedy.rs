//! A quick good choice to begin from: always the candidate that meets most of what is not met yet.

use crate::Question;

/// Chooses one after another until nothing more is met, then drops what turned out needless.
pub(crate) fn greedy(question: &Question) -> Vec<usize> {
    let mut chosen: Vec<usize> = Vec::new();
    loop {
        let (met, _) = question.met(&chosen);
        let gain = |candidate: usize| -> u64 {
            question
                .needs
                .iter()
                .zip(&met)
                .filter(|(need, met)| !**met && need.met_by.contains(&candidate))
                .map(|(need, _)| u64::from(need.weight))
                .sum()
        };
        let best = (0..question.candidates.len())
            .filter(|candidate| !chosen.contains(candidate))
            .filter(|candidate| question.allows(&[chosen.as_slice(), &[*candidate]].concat()))
            .map(|candidate| (gain(candidate), std::cmp::Reverse(candidate)))
            .max();
        match best {
            Some((gain, std::cmp::Reverse(candidate))) if 0 < gain => chosen.push(candidate),
            _ => break,
        }
    }
    let (_, whole) = question.met(&chosen);
    let mut index = 0;
    while index < chosen.len() {
        let mut without = chosen.clone();
        without.remove(index);
        if question.met(&without).1 == whole {
            chosen = without;
        } else {
            index += 1;
        }
    }
    chosen.sort_unstable();
    chosen
}
