//! How much of the protocol stands on what.

use std::collections::BTreeMap;

use trade::protocol::{Evidence, Protocol};
use trade::rule::catalogue;

/// A strength of evidence, in the order from firm to soft.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Strength {
    /// Published, and seen.
    Published,
    /// Computed from published numbers.
    Computed,
    /// Published as far as memory goes; not verified.
    FromMemory,
    /// Core practice, no trial.
    CorePractice,
    /// Common practice, no source.
    CommonPractice,
}

impl Strength {
    /// Every strength, firm first.
    pub const ALL: [Strength; 5] = [
        Strength::Published,
        Strength::Computed,
        Strength::FromMemory,
        Strength::CorePractice,
        Strength::CommonPractice,
    ];

    /// The mark that stands beside a number.
    pub const fn mark(self) -> &'static str {
        match self {
            Strength::Published => "L",
            Strength::Computed => "D",
            Strength::FromMemory => "M",
            Strength::CorePractice => "B",
            Strength::CommonPractice => "C",
        }
    }
}

impl From<&Evidence> for Strength {
    fn from(evidence: &Evidence) -> Self {
        match evidence {
            Evidence::Published(_) => Strength::Published,
            Evidence::Computed => Strength::Computed,
            Evidence::FromMemory => Strength::FromMemory,
            Evidence::CorePractice => Strength::CorePractice,
            Evidence::CommonPractice => Strength::CommonPractice,
        }
    }
}

/// How many parameters, and how many sentences about exercises, stand on each.
pub fn counts(protocol: &Protocol) -> BTreeMap<Strength, (usize, usize)> {
    let mut counts: BTreeMap<Strength, (usize, usize)> =
        Strength::ALL.iter().map(|strength| (*strength, (0, 0))).collect();
    for listed in &protocol.parameters.listed {
        counts.entry(Strength::from(&listed.evidence)).or_default().0 += 1;
    }
    for note in protocol.exercises.iter().flat_map(|exercise| &exercise.evidence) {
        counts.entry(Strength::from(&note.evidence)).or_default().1 += 1;
    }
    counts
}

/// How many rules name a parameter.
pub fn rules_reading(key: &str, field: &str) -> Vec<&'static str> {
    catalogue::all()
        .filter(|rule| rule.parameters.contains(&key) || rule.parameters.contains(&field))
        .map(|rule| rule.code.0)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_parameter_and_sentence_of_the_shipped_protocol_is_counted_once() {
        let protocol = trade::protocol::shipped();
        let counts = counts(protocol);
        let parameters: usize = counts.values().map(|(parameters, _)| parameters).sum();
        assert_eq!(parameters, protocol.parameters.listed.len());
        assert!(0 < counts[&Strength::Published].1);
    }
}
