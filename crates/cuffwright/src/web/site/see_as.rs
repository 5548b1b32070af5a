//! In the demo, where nobody signs in: seeing it as somebody else would. The choice is a cookie, what it shows is
//! decided here, by the same table and the same types as for a real account.

use std::collections::BTreeMap;

use app::desk::{Desk, Person};
use app::entry::subject_of;
use door::principal::{Binding, Principal, Via};
use door::role::Role;
use jiff::civil::Date;

/// Whoever the demo is seen as: the practitioner who owns it, unless something else was chosen.
pub fn principal(desk: &Desk, owner: &str, chosen: Option<&str>, on: Date) -> Principal {
    let role = chosen.and_then(Role::from_word).unwrap_or(Role::Owner);
    let whose = role.is_bound().then(|| whose(desk, role, on)).flatten();
    let name = match (role, whose) {
        (Role::Owner, _) => owner.to_owned(),
        (Role::Swimmer, Some(person)) => person.read.swimmer.name.clone(),
        (Role::Guardian, Some(person)) => guardian_of(person),
        (role, _) => app::text::Texts::english().word(&format!("see-as-name-{}", role.word())),
    };
    let bound = whose.map(|person| (subject_of(person.subject), Binding { history: false }));
    Principal {
        via: Via::Laptop,
        name,
        role,
        licence: None,
        bound: bound.into_iter().collect::<BTreeMap<_, _>>(),
    }
}

/// Somebody with a record worth looking at: the first by name who is under age and has something held back.
fn whose(desk: &Desk, role: Role, on: Date) -> Option<&Person> {
    let mut squad: Vec<&Person> = desk.squad_on(on).collect();
    squad.sort_by(|one, other| {
        (&one.read.swimmer.name, one.subject).cmp(&(&other.read.swimmer.name, other.subject))
    });
    let minor = |person: &&Person| person.read.history.swimmer.age_on(on) < door::permit::OF_AGE;
    let held = |person: &&Person| minor(person) && !desk.assess(person, on).gate.holds.is_empty();
    let fits = squad.iter().copied().find(held);
    fits.or_else(|| squad.iter().copied().find(|person| role != Role::Guardian || minor(person)))
}

fn guardian_of(person: &Person) -> String {
    let contact = person.read.swimmer.contacts.first().map(|contact| contact.name.clone());
    contact.unwrap_or_else(|| app::text::Texts::english().word("see-as-name-guardian"))
}
