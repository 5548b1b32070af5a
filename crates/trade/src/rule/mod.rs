//! The rule catalogue: each rule explains itself once, and every screen, sheet and command reads it from here.
//!
//! A rule's code is its family letter and a number, stable for life and never reused. Families:
//! [`consent and papers`](gate_rules) `G`, pain `E`, urgent signs `U`, screening findings `C`, growth `W`,
//! laxity `L`, teaching `T`, dose `D`, progression `P`, absence `A`, return `B`, season `S`, water `M`,
//! values derived from a test `V`, whom to ask `Q`.

pub mod catalogue;
pub mod dose_rules;
pub mod gate_rules;
pub mod screening_rules;

use crate::protocol::Evidence;

/// A rule's code, for instance `P4`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RuleCode(pub &'static str);

impl std::fmt::Display for RuleCode {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.0)
    }
}

/// A rule, in words for people. Every field is filled: a rule that cannot explain itself is not a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rule {
    /// Stable code.
    pub code: RuleCode,
    /// Named after the pattern it finds, not after what is then done.
    pub name: &'static str,
    /// What it checks and what follows.
    pub checks: &'static str,
    /// Why it matters.
    pub matters: &'static str,
    /// When it does not apply.
    pub except: &'static str,
    /// One example.
    pub example: &'static str,
    /// Strength of evidence.
    pub ground: Ground,
    /// Where it comes from, in words.
    pub source: &'static str,
    /// Parameters of the protocol it reads, by key.
    pub parameters: &'static [&'static str],
}

/// The strength of evidence behind a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ground {
    /// Published; the source field names it.
    Published,
    /// Core practice of the trade, without a trial behind it.
    CorePractice,
    /// Common practice, without a source.
    CommonPractice,
    /// A decision of this project for safety or privacy.
    House,
}

impl Ground {
    /// The words for it.
    pub const fn word(self) -> &'static str {
        match self {
            Ground::Published => "published",
            Ground::CorePractice => "core practice",
            Ground::CommonPractice => "common practice",
            Ground::House => "decision of this project",
        }
    }
}

impl From<&Evidence> for Ground {
    fn from(evidence: &Evidence) -> Self {
        match evidence {
            Evidence::Published(_) | Evidence::Computed => Ground::Published,
            Evidence::CorePractice => Ground::CorePractice,
            Evidence::FromMemory | Evidence::CommonPractice => Ground::CommonPractice,
        }
    }
}
