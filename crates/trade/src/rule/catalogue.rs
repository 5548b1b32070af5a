//! Every rule by its code: the one place where a code is looked up.

use super::{Rule, RuleCode, dose_rules, gate_rules, screening_rules};

/// Every rule, gate first.
pub fn all() -> impl Iterator<Item = &'static Rule> {
    gate_rules::RULES.iter().chain(dose_rules::RULES).chain(screening_rules::RULES)
}

/// Finds a rule by its code, upper or lower case.
pub fn find(code: &str) -> Option<&'static Rule> {
    all().find(|rule| rule.code.0.eq_ignore_ascii_case(code))
}

/// The rule of a code that stands in the catalogue.
pub fn rule_of(code: RuleCode) -> Option<&'static Rule> {
    all().find(|rule| rule.code == code)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_unique() {
        let mut codes: Vec<_> = all().map(|rule| rule.code).collect();
        let count = codes.len();
        codes.sort();
        codes.dedup();
        assert_eq!(codes.len(), count);
    }

    #[test]
    fn every_rule_explains_itself_in_full() {
        for rule in all() {
            for (field, text) in [
                ("name", rule.name),
                ("checks", rule.checks),
                ("matters", rule.matters),
                ("except", rule.except),
                ("example", rule.example),
                ("source", rule.source),
            ] {
                assert!(!text.trim().is_empty(), "{}: {field}", rule.code);
            }
        }
    }
}
