//! May somebody see or do something: the [`table`] read for one person, one thing, one swimmer and one day.

pub mod table;

use jiff::civil::Date;

use crate::principal::{Principal, Subject};
use crate::role::Role;

pub use table::{Reach, Row, TABLE, Thing};

/// What a question is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// One swimmer, with the age in completed years on the day asked about.
    Person {
        /// Who.
        subject: Subject,
        /// Age.
        age: i16,
    },
    /// Everybody, or nobody in particular: a list of the squad, the kit, the calendar.
    Everybody,
}

/// Why not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Denied {
    /// The role does not reach that far.
    Role,
    /// Somebody else's record.
    NotYours,
    /// The swimmer has come of age: the guardian's view has ended.
    OfAge,
    /// The swimmer has not agreed that the guardian sees this.
    NotAgreed,
    /// It takes a licence that is valid on that day.
    Licence,
}

/// Age from which a swimmer is asked whether a guardian sees the health history: where law is silent, the age from
/// which the tool asks swimmers themselves.
pub const ASKED_FROM: i16 = 14;
/// Age at which a guardian's view ends.
pub const OF_AGE: i16 = 18;

/// How far a role reaches to a thing.
pub fn reach(role: Role, thing: Thing) -> Reach {
    let column = Role::ALL.iter().position(|listed| *listed == role);
    let row = TABLE.iter().find(|row| row.thing == thing);
    // A thing without a row, or a role without a column, reaches nothing; a test shows that there is none.
    row.zip(column).map_or(Reach::Nothing, |(row, column)| row.reach[column])
}

/// May this person see or do this, on this day?
pub fn may(who: &Principal, thing: Thing, about: About, on: Date) -> Result<(), Denied> {
    match (reach(who.role, thing), about) {
        (Reach::Nothing, _) => return Err(Denied::Role),
        (Reach::All, _) => {}
        (Reach::Own | Reach::Agreed, About::Everybody) => return Err(Denied::NotYours),
        (own, About::Person { subject, age }) => {
            let binding = who.bound.get(&subject).ok_or(Denied::NotYours)?;
            let is_guardian = who.role == Role::Guardian;
            if is_guardian && OF_AGE <= age {
                return Err(Denied::OfAge);
            }
            if is_guardian && own == Reach::Agreed && ASKED_FROM <= age && !binding.history {
                return Err(Denied::NotAgreed);
            }
        }
    }
    let needs_licence = TABLE.iter().any(|row| row.thing == thing && row.licence);
    let is_licensed = who.licence.as_ref().is_some_and(|licence| licence.is_valid_on(on));
    if needs_licence && !is_licensed { Err(Denied::Licence) } else { Ok(()) }
}

/// Roles that an account may be given by this role. An administrator who could make an owner would be one.
pub fn may_give(by: Role, role: Role) -> bool {
    match by {
        Role::Owner => true,
        Role::Administrator => !matches!(role, Role::Owner | Role::Practitioner),
        _ => false,
    }
}

/// Whether an account that this role made or invited anew must be confirmed by an owner before anybody can come in by
/// it: accounts that see health data, where they were not made by somebody who may see it too. Else an administrator
/// would only have to invite himself as somebody's guardian.
pub fn needs_confirming(by: Role, role: Role) -> bool {
    by != Role::Owner
        && (reach(role, Thing::Card) != Reach::Nothing || reach(role, Thing::Health) != Reach::Nothing)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::principal::{AccountId, Binding, Via};
    use crate::role::Licence;
    use jiff::civil::date;
    use std::collections::BTreeMap;
    use uuid::Uuid;

    const TODAY: Date = date(2026, 3, 9);

    fn someone(role: Role) -> Principal {
        Principal {
            via: Via::Account(AccountId(Uuid::from_u128(1))),
            name: "Sam Example".into(),
            role,
            licence: None,
            bound: BTreeMap::from([(Subject(Uuid::from_u128(7)), Binding::default())]),
        }
    }

    fn about(subject: u128, age: i16) -> About {
        About::Person { subject: Subject(Uuid::from_u128(subject)), age }
    }

    #[test]
    fn swimmers_and_guardians_see_their_own_and_no_list() {
        for role in [Role::Swimmer, Role::Guardian] {
            for row in TABLE {
                let own = may(&someone(role), row.thing, about(7, 12), TODAY);
                let other = may(&someone(role), row.thing, about(8, 12), TODAY);
                let list = may(&someone(role), row.thing, About::Everybody, TODAY);
                match reach(role, row.thing) {
                    Reach::Nothing => assert_eq!([own, other, list], [Err(Denied::Role); 3]),
                    Reach::All => assert_eq!([own, other, list], [Ok(()); 3]),
                    _ => {
                        assert_eq!([own, other, list], [Ok(()), Err(Denied::NotYours), Err(Denied::NotYours)])
                    }
                }
            }
        }
    }

    #[test]
    fn a_guardians_view_ends_at_eighteen_and_asks_the_teenager() {
        let mut guardian = someone(Role::Guardian);
        let history = |guardian: &Principal, age| may(guardian, Thing::History, about(7, age), TODAY);
        assert_eq!(history(&guardian, 13), Ok(()));
        assert_eq!(history(&guardian, 14), Err(Denied::NotAgreed));
        assert_eq!(may(&guardian, Thing::Pain, about(7, 17), TODAY), Ok(()));
        guardian.bound.values_mut().for_each(|binding| binding.history = true);
        assert_eq!(history(&guardian, 17), Ok(()));
        assert_eq!(history(&guardian, 18), Err(Denied::OfAge));
        assert_eq!(may(&guardian, Thing::Availability, about(7, 18), TODAY), Err(Denied::OfAge));
        assert_eq!(may(&someone(Role::Swimmer), Thing::History, about(7, 14), TODAY), Ok(()));
    }

    #[test]
    fn signing_takes_a_licence_that_is_valid_on_the_day() {
        for role in [Role::Owner, Role::Practitioner] {
            let mut who = someone(role);
            let sign = |who: &Principal, on| may(who, Thing::SignLetter, about(8, 12), on);
            assert_eq!(sign(&who, TODAY), Err(Denied::Licence));
            who.licence = Some(Licence { number: "PT 4711".into(), until: TODAY });
            assert_eq!(sign(&who, TODAY), Ok(()));
            assert_eq!(sign(&who, date(2026, 3, 10)), Err(Denied::Licence));
        }
        let mut supervisor = someone(Role::Supervisor);
        supervisor.licence = Some(Licence { number: "PT 4711".into(), until: TODAY });
        assert_eq!(may(&supervisor, Thing::SignLetter, about(8, 12), TODAY), Err(Denied::Role));
    }

    #[test]
    fn nobody_makes_an_account_that_sees_more_than_they_do() {
        for role in Role::ALL {
            assert!(may_give(Role::Owner, role) && !needs_confirming(Role::Owner, role));
            for by in [Role::Practitioner, Role::Supervisor, Role::HeadCoach, Role::Swimmer, Role::Guardian] {
                assert!(!may_give(by, role), "{by:?} {role:?}");
            }
        }
        assert!(!may_give(Role::Administrator, Role::Owner));
        assert!(!may_give(Role::Administrator, Role::Practitioner));
        for role in [Role::Supervisor, Role::Swimmer, Role::Guardian] {
            assert!(may_give(Role::Administrator, role) && needs_confirming(Role::Administrator, role));
        }
        for role in [Role::HeadCoach, Role::Administrator] {
            assert!(may_give(Role::Administrator, role) && !needs_confirming(Role::Administrator, role));
        }
    }

    #[test]
    fn a_paired_device_is_a_supervisor_and_nothing_else() {
        let device = Principal::device(crate::principal::DeviceId(Uuid::from_u128(3)), "phone");
        for row in TABLE {
            assert_eq!(
                may(&device, row.thing, About::Everybody, TODAY).is_ok(),
                row.reach[2] == Reach::All && !row.licence,
                "{:?}",
                row.thing
            );
        }
    }
}
