//! `cuffwright log replay`: the log in many orders, and one digest of state.

use std::collections::BTreeMap;

use serde::Serialize;
use store::{Record, replay};

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::words::say;

/// Replays the log into memory in many random orders: every order must give the digest of state of the file.
///
/// Changes nothing. Ends with 1 if two orders differ.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.log-replay/1 with same, records, orders, seed, state (the file's digest) and digests: digest \
and orders, how many orders gave it.")]
pub(super) struct Args {
    #[command(flatten)]
    store: StoreArgs,
    /// How many orders.
    #[arg(long, value_name = "NUMBER", default_value_t = 200, value_parser = clap::value_parser!(u32).range(1..))]
    orders: u32,
    /// The number that the random orders follow from.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    seed: u64,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    same: bool,
    records: usize,
    orders: u32,
    seed: u64,
    state: String,
    digests: Vec<Found>,
}

#[derive(Serialize)]
struct Found {
    digest: String,
    orders: u32,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let failed = |error| Failure::store(&args.store.store, error);
    let store = args.store.store_only()?;
    let state = store.digest_of_state().map_err(failed)?;
    let records = store.export_facts().map_err(failed)?;
    drop(store);
    let mut order: Vec<&Record> = records.iter().collect();
    let mut dice = Dice(args.seed);
    let mut digests = BTreeMap::new();
    for _ in 0..args.orders {
        dice.shuffle(&mut order);
        let replayed = replay(order.iter().copied()).map_err(failed)?;
        *digests.entry(replayed.digest_of_state().map_err(failed)?).or_insert(0) += 1;
    }
    let same = digests.keys().eq([&state]);
    let shape = Shape {
        shape: "cuffwright.log-replay/1",
        same,
        records: records.len(),
        orders: args.orders,
        seed: args.seed,
        state: state.to_string(),
        digests: digests
            .into_iter()
            .map(|(digest, orders)| Found { digest: digest.to_string(), orders })
            .collect(),
    };
    let exit = if same { Exit::Well } else { Exit::Problems };
    if context.json {
        return Ok(Answer::json(exit, &shape));
    }
    let mut page = Page::default();
    let values = [
        ("records", shape.records.to_string()),
        ("orders", shape.orders.to_string()),
        ("seed", shape.seed.to_string()),
        ("state", shape.state.clone()),
    ];
    page.paragraph("", &say(if same { "cli-replay-same" } else { "cli-replay-differs" }, &values));
    let rows: Vec<Vec<String>> =
        shape.digests.into_iter().map(|found| vec![found.orders.to_string(), found.digest]).collect();
    page.table(2, &rows);
    Ok(Answer::page(exit, page))
}

/// SplitMix64 (Steele, Lea and Flood, 2014): enough for an order, and the same on every machine.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// Fisher and Yates: every order can come up.
    fn shuffle<T>(&mut self, items: &mut [T]) {
        for last in (1..items.len()).rev() {
            let places = u64::try_from(last + 1).expect("a length fits into 64 bits");
            let other = usize::try_from(self.next() % places).expect("smaller than a length");
            items.swap(last, other);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First numbers of SplitMix64 from zero, as in the reference implementation by Vigna (prng.di.unimi.it).
    #[test]
    fn the_dice_are_splitmix64() {
        let mut dice = Dice(0);
        assert_eq!(dice.next(), 0xe220_a839_7b1d_cdaf);
        assert_eq!(dice.next(), 0x6e78_9e6a_a1b9_65f4);
    }

    #[test]
    fn a_shuffle_keeps_everything_and_changes_the_order() {
        let mut items: Vec<u32> = (0..50).collect();
        Dice(7).shuffle(&mut items);
        assert_ne!(items, (0..50).collect::<Vec<_>>());
        items.sort_unstable();
        assert_eq!(items, (0..50).collect::<Vec<_>>());
    }
}
