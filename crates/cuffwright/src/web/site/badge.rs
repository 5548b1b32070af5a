//! Who one is, at the head of every page, and the way out. In the demo: as whom it is seen, and as whom else it can be.

use door::principal::Via;
use door::role::Role;
use maud::{Markup, html};

use super::visit::Visit;
use crate::web::words::{Value, say, text};

/// The words at the head of a page; none for a stranger.
pub fn badge(visit: &Visit) -> Option<Markup> {
    let who = visit.who.as_ref()?;
    let role = text(&format!("role-{}", who.role.word()));
    if visit.site.entry().is_demo() {
        return Some(see_as(visit, who.role));
    }
    let name = say("badge-who", &[("name", Value::Words(&who.name)), ("role", Value::Words(&role))]);
    Some(html! {
        div.badge {
            @match who.via {
                Via::Device(_) => { p { (name) } }
                _ => {
                    a href="/me" { (name) }
                    form method="post" action="/sign-out" {
                        (visit.seals())
                        button.badge-do type="submit" { (text("badge-out")) }
                    }
                }
            }
        }
    })
}

fn see_as(visit: &Visit, now: Role) -> Markup {
    let role = text(&format!("role-{}", now.word()));
    html! {
        details.badge.see-as {
            summary { (say("badge-seen-as", &[("role", Value::Words(&role))])) }
            form method="post" action="/see-as" {
                (visit.seals())
                p { (text("badge-see-as")) }
                ul {
                    @for role in Role::ALL {
                        li { button.badge-do type="submit" name="role" value=(role.word()) aria-pressed=[(role == now).then_some("true")] { (text(&format!("role-{}", role.word()))) } }
                    }
                }
            }
        }
    }
}
