//! Which lines of a trace a role may read: "why?" is filtered by the class of each line, never by its words.

use door::permit::{Reach, Thing, reach};
use door::role::Role;
use trade::dosing::Proposal;
use trade::trace::{Class, Line};

/// What reading a class of line takes.
pub const fn thing_of(class: Class) -> Thing {
    match class {
        Class::Availability => Thing::Availability,
        Class::Dose => Thing::Card,
        Class::Health => Thing::Health,
    }
}

/// May this role read lines of this class, of a swimmer it may see at all?
pub fn may_read(role: Role, class: Class) -> bool {
    reach(role, thing_of(class)) != Reach::Nothing
}

/// The lines that a role may read, in their order.
pub fn readable(role: Role, lines: &[Line]) -> Vec<Line> {
    lines.iter().filter(|line| may_read(role, line.class)).cloned().collect()
}

/// A proposal with only the lines that a role may read; its rule codes follow from them.
pub fn proposal_for(role: Role, proposal: &Proposal) -> Proposal {
    Proposal {
        trace: readable(role, &proposal.trace),
        alone: readable(role, &proposal.alone),
        ..proposal.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_class_is_read_by_whom_it_is_meant_for() {
        let readers = |class| Role::ALL.into_iter().filter(|role| may_read(*role, class)).collect::<Vec<_>>();
        use Role::*;
        assert_eq!(readers(Class::Health), [Owner, Practitioner, Swimmer, Guardian]);
        assert_eq!(readers(Class::Dose), [Owner, Practitioner, Supervisor, Swimmer, Guardian]);
        assert_eq!(
            readers(Class::Availability),
            [Owner, Practitioner, Supervisor, HeadCoach, Swimmer, Guardian]
        );
    }
}
