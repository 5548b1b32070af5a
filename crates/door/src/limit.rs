//! How often somebody may try: times in, decision out.
//!
//! A try is written down *before* the password or code is looked at and only taken back when it was right, so that
//! many tries sent at once get no further than the same tries one after another. A right one clears nothing but itself. An instant that lies ahead of the
//! clock counts as recent: putting a clock back never buys a try.

use std::net::IpAddr;

use crate::address::{Place, counted_as, place_of};
use crate::stamp::{Span, Stamp};
use crate::token::labelled;

/// So many tries in any stretch of this length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limit {
    /// Tries.
    pub tries: usize,
    /// Length of the stretch.
    pub within: Span,
}

/// One account, tried from one kind of place: five typing errors, then a quarter of an hour; and a slow guesser stays
/// far below the hundred failures in a row that NIST SP 800-63B (3.2.2) allows at most.
pub const PER_ACCOUNT: &[Limit] =
    &[Limit { tries: 5, within: Span::minutes(15) }, Limit { tries: 20, within: Span::hours(24) }];
/// One address, whatever account it tries: a squad behind one phone still gets in.
pub const PER_ADDRESS: &[Limit] = &[Limit { tries: 20, within: Span::minutes(15) }];
/// The whole door from the network: keeps the laptop responsive and its file small.
pub const ALTOGETHER: &[Limit] = &[Limit { tries: 200, within: Span::minutes(15) }];
/// How long a try must be remembered at most.
pub const REMEMBERED: Span = Span::hours(24);

/// What tries are counted under. Kept as a hash: people type passwords into the field for the name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Bucket(pub [u8; 32]);

/// A bucket and the limits it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counted {
    /// Where to look.
    pub bucket: Bucket,
    /// How much is allowed there.
    pub limits: &'static [Limit],
}

/// A login name as it is compared: trimmed and in lower case.
pub fn login_key(login: &str) -> String {
    login.trim().to_lowercase()
}

/// Everything one try is counted under. The laptop itself has its own bucket for each account and no address limit:
/// somebody who guesses from the network cannot lock the practitioner out of the laptop on deck.
pub fn buckets(login: &str, from: IpAddr) -> Vec<Counted> {
    let [laptop, network] = of_account(login);
    let on_laptop = place_of(from) == Place::Laptop;
    let account = Counted { bucket: if on_laptop { laptop } else { network }, limits: PER_ACCOUNT };
    if on_laptop {
        return vec![account];
    }
    let mut all = vec![account];
    all.extend(address_buckets(from));
    all
}

/// Where tries at one account are counted: on the laptop, and from the network.
pub fn of_account(login: &str) -> [Bucket; 2] {
    ["laptop", "network"].map(|place| bucket(&format!("account/{place}/{}", login_key(login))))
}

/// What tries at a code (pairing, invitation) from one address are counted under.
pub fn address_buckets(from: IpAddr) -> Vec<Counted> {
    if place_of(from) == Place::Laptop {
        return Vec::new();
    }
    let address = bucket(&format!("address/{}", counted_as(from)));
    let every = bucket("every");
    vec![Counted { bucket: address, limits: PER_ADDRESS }, Counted { bucket: every, limits: ALTOGETHER }]
}

fn bucket(key: &str) -> Bucket {
    Bucket(labelled(b"cuffwright tries", key.as_bytes()))
}

/// May this try go on?
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Decision {
    /// Yes, and so many more after it before it is locked.
    Go {
        /// Tries left after this one.
        left: usize,
    },
    /// No, not before this instant.
    Locked {
        /// First instant at which a try goes on again.
        until: Stamp,
    },
}

/// Decides one more try in one bucket, by the tries remembered there, in any order.
pub fn decide(limits: &[Limit], tries: &[Stamp], now: Stamp) -> Decision {
    let mut left = usize::MAX;
    let mut until = None;
    for limit in limits {
        let mut counted: Vec<Stamp> =
            tries.iter().copied().filter(|at| now < at.after(limit.within)).collect();
        counted.sort_unstable();
        match limit.tries.checked_sub(counted.len() + 1) {
            Some(more) => left = left.min(more),
            None => {
                // The try whose forgetting makes room again.
                let oldest = counted.get(counted.len().saturating_sub(limit.tries.max(1)));
                let free = oldest.map_or(Stamp(u64::MAX), |at| at.after(limit.within));
                until = until.max(Some(free));
            }
        }
    }
    match until {
        Some(until) => Decision::Locked { until },
        None => Decision::Go { left },
    }
}

/// The strictest of several decisions.
pub fn strictest(decisions: impl IntoIterator<Item = Decision>) -> Decision {
    decisions.into_iter().fold(Decision::Go { left: usize::MAX }, |one, other| match (one, other) {
        (Decision::Go { left }, Decision::Go { left: fewer }) => Decision::Go { left: left.min(fewer) },
        (Decision::Locked { until }, Decision::Locked { until: later }) => {
            Decision::Locked { until: until.max(later) }
        }
        (locked @ Decision::Locked { .. }, _) | (_, locked) => locked,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const TWO_IN_TEN: &[Limit] = &[Limit { tries: 2, within: Span(10) }];

    #[test]
    fn a_lock_ends_when_the_oldest_try_is_forgotten() {
        let at = |tries: &[u64], now| {
            let tries: Vec<Stamp> = tries.iter().copied().map(Stamp).collect();
            decide(TWO_IN_TEN, &tries, Stamp(now))
        };
        assert_eq!(at(&[], 0), Decision::Go { left: 1 });
        assert_eq!(at(&[0], 3), Decision::Go { left: 0 });
        assert_eq!(at(&[0, 3], 4), Decision::Locked { until: Stamp(10) });
        assert_eq!(at(&[3, 0], 9), Decision::Locked { until: Stamp(10) });
        assert_eq!(at(&[0, 3], 10), Decision::Go { left: 0 });
        assert_eq!(at(&[0, 3, 10], 12), Decision::Locked { until: Stamp(13) });
        assert_eq!(at(&[50, 50], 12), Decision::Locked { until: Stamp(60) }, "the clock was put back");
    }

    #[test]
    fn an_account_is_locked_after_five_for_a_quarter_of_an_hour_and_after_twenty_for_a_day() {
        let mut tries = Vec::new();
        let mut now = Stamp(0);
        let mut gone = 0;
        while now < Stamp(0).after(Span::hours(24)) {
            match decide(PER_ACCOUNT, &tries, now) {
                Decision::Go { .. } => {
                    tries.push(now);
                    gone += 1;
                }
                Decision::Locked { until } => {
                    assert!(now < until);
                    if gone == 5 {
                        assert_eq!(until, Stamp(0).after(Span::minutes(15)));
                    }
                    now = until;
                }
            }
        }
        assert_eq!(gone, 20);
        assert_eq!(now, Stamp(0).after(Span::hours(24)));
    }

    #[test]
    fn a_name_is_one_name_however_it_is_typed_and_the_laptop_counts_apart() {
        let lan = "192.168.1.7".parse().unwrap();
        let other = "192.168.1.8".parse().unwrap();
        let laptop = "127.0.0.1".parse().unwrap();
        assert_eq!(buckets(" Ana ", lan)[0], buckets("ana", other)[0]);
        assert_ne!(buckets("ana", lan)[0].bucket, buckets("ana", laptop)[0].bucket);
        assert_ne!(buckets("ana", lan)[0].bucket, buckets("eva", lan)[0].bucket);
        assert_ne!(buckets("ana", lan)[1], buckets("ana", other)[1]);
        assert_eq!((buckets("ana", laptop).len(), buckets("ana", lan).len()), (1, 3));
        assert!(address_buckets(laptop).is_empty());
    }

    proptest! {
        /// However tries are spaced and however often the clock is put back, no stretch holds more than its limit.
        #[test]
        fn no_stretch_ever_holds_more_tries_than_its_limit(steps in prop::collection::vec(-30_i64..40, 1..200)) {
            let mut tries: Vec<Stamp> = Vec::new();
            let mut now: u64 = 100;
            for step in steps {
                now = now.saturating_add_signed(step);
                if let Decision::Go { .. } = decide(TWO_IN_TEN, &tries, Stamp(now)) {
                    tries.push(Stamp(now));
                }
                for start in &tries {
                    let within = tries.iter().filter(|at| *start <= **at && **at < start.after(Span(10))).count();
                    prop_assert!(within <= 2, "{within} from {start:?}");
                }
            }
        }

        /// More remembered tries never free one.
        #[test]
        fn one_more_try_never_unlocks(tries in prop::collection::vec(0_u64..60, 0..12), more in 0_u64..60, now in 0_u64..60) {
            let before: Vec<Stamp> = tries.iter().copied().map(Stamp).collect();
            let mut after = before.clone();
            after.push(Stamp(more));
            if let Decision::Locked { until } = decide(TWO_IN_TEN, &before, Stamp(now)) {
                let later = decide(TWO_IN_TEN, &after, Stamp(now));
                let still = matches!(later, Decision::Locked { until: then } if until <= then);
                prop_assert!(still, "{later:?} instead of until {until:?}");
            }
        }
    }
}
