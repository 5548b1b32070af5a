//! How long one password check takes: for the person who signs in, and for the one who guesses.

use door::password::{PasswordHash, is_right};
use door::policy::accept;

fn main() {
    divan::main();
}

#[divan::bench(sample_count = 10)]
fn one_check(bencher: divan::Bencher<'_, '_>) {
    let accepted = accept("nine slow turtles", &[]).expect("long and odd");
    let kept = PasswordHash::of(&accepted, &[1; 16]);
    bencher.bench(|| is_right(Some(&kept), "nine slow turtles"));
}

#[divan::bench(sample_count = 10)]
fn one_unknown_name() -> bool {
    door::password::prepare();
    is_right(None, "nine slow turtles")
}
