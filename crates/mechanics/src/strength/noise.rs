//! How noisy a strength test is, and what its printed errors imply.

use quantity::Share;

/// A change as a part of the change that one re-test of one person can detect; below 1 it proves nothing.
pub fn exceeds_detectable(change: Share, detectable: Share) -> Option<f64> {
    change.ratio_to(detectable)
}

/// How many pairs of tests must be averaged until a change exceeds what can be detected, which shrinks with the root
/// of their number; nothing when there is no change.
pub fn trials_to_detect(change: Share, detectable: Share) -> Option<u32> {
    let ratio = detectable.ratio_to(change)?.abs();
    (1..=10_000).find(|n| ratio < f64::from(*n).sqrt())
}

/// The means that are possible when an error is printed both absolutely (rounded) and as a percentage of the mean.
///
/// Each pair is (absolute, half of its last digit, percentage as a share); the result is where all of them overlap.
pub fn implied_mean(pairs: &[(f64, f64, Share)]) -> Option<(f64, f64)> {
    let range = |(absolute, half, share): &(f64, f64, Share)| {
        ((absolute - half) / share.fraction(), (absolute + half) / share.fraction())
    };
    let (low, high) =
        pairs.iter().map(range).reduce(|one, other| (one.0.max(other.0), one.1.min(other.1)))?;
    (low <= high).then_some((low, high))
}
