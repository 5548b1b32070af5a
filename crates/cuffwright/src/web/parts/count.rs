//! How far towards a step: as many floats as sessions needed, filled as far as there are any, and the words.

use maud::{Markup, html};
use trade::dosing::Count;

use crate::web::words::{Value, say};

/// Most floats that are drawn; more than this is said in words only.
const DRAWN: u8 = 8;

/// "1 of 2 sessions that count".
pub fn count(count: Count) -> Markup {
    let number = |value: u8| Value::Count(i64::from(value));
    html! {
        p.count {
            @if count.need <= DRAWN {
                span.count-floats aria-hidden="true" {
                    @for place in 0..count.need { i class=(if place < count.have { "count-have" } else { "count-open" }) {} }
                }
                " "
            }
            b { (say("count-of", &[("have", number(count.have)), ("need", number(count.need))])) }
            " " (say("count-sessions", &[("need", number(count.need))]))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_count_is_said_and_drawn() {
        let shown = count(Count { have: 1, need: 2 }).into_string();
        assert!(shown.contains("1 of 2") && shown.contains("sessions that count"));
        assert_eq!((shown.matches("count-have").count(), shown.matches("count-open").count()), (1, 1));
        assert!(count(Count { have: 0, need: 1 }).into_string().contains("session that counts"));
    }

    #[test]
    fn more_than_needed_never_draws_more_than_needed() {
        let shown = count(Count { have: 3, need: 2 }).into_string();
        assert_eq!(shown.matches("<i ").count(), 2);
    }
}
