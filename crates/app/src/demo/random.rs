//! Chance from one number: the same number gives the same club on every machine.
//!
//! SplitMix64 (Steele, Lea, Flood 2014, "Fast splittable pseudorandom number generators", OOPSLA). Only additions,
//! multiplications and shifts stand behind every draw, so no platform's mathematics library can change the result.

/// A stream of chance.
#[derive(Debug, Clone)]
pub(super) struct Random(u64);

/// The odd constant of the generator: 2^64 divided by the golden ratio.
const GAMMA: u64 = 0x9e37_79b9_7f4a_7c15;

impl Random {
    pub(super) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A stream of its own for one member, so that a change to one leaves the others as they are.
    pub(super) fn for_member(seed: u64, index: u64) -> Self {
        let mut outer = Self::new(seed);
        let mixed = outer.next() ^ index.wrapping_add(1).wrapping_mul(GAMMA);
        Self::new(Self::new(mixed).next())
    }

    /// A stream for what is written down beside training, from whom and when it is about: drawing from it moves
    /// nothing else.
    pub(super) fn aside(whom: u128, day: jiff::civil::Date) -> Self {
        let whom =
            u64::try_from(whom >> 64).unwrap_or(0) ^ u64::try_from(whom & u128::from(u64::MAX)).unwrap_or(0);
        let days = trade::history::days_between(jiff::civil::Date::constant(2020, 1, 1), day).unsigned_abs();
        let mut outer = Self::new(whom ^ u64::from(days).wrapping_mul(GAMMA));
        Self::new(outer.next())
    }

    pub(super) const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(GAMMA);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^ (bits >> 31)
    }

    /// Evenly between 0 and 1, without 1.
    pub(super) fn share(&mut self) -> f64 {
        // 53 bits are what a double holds exactly.
        let bits = u32::try_from(self.next() >> 32).expect("the upper half of 64 bits fits into 32");
        f64::from(bits) / 4_294_967_296.0
    }

    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    pub(super) fn happens(&mut self, chance: f64) -> bool {
        self.share() < chance
    }

    /// Close to a standard normal: the sum of twelve even draws less six, which has mean 0 and variance 1.
    pub(super) fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.share()).sum::<f64>() - 6.0
    }

    /// A log-normal factor around one.
    pub(super) fn factor(&mut self, sigma: f64) -> f64 {
        exp(sigma * self.normal())
    }

    /// One of a list that is never empty.
    pub(super) fn pick<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        let length = u64::try_from(list.len()).expect("a list in memory is shorter than 2^64");
        let index = usize::try_from(self.next() % length).expect("an index below a length fits");
        &list[index]
    }

    /// Ten bytes for an id.
    pub(super) fn ten_bytes(&mut self) -> [u8; 10] {
        let mut bytes = [0; 10];
        bytes[..8].copy_from_slice(&self.next().to_be_bytes());
        bytes[8..].copy_from_slice(&self.next().to_be_bytes()[..2]);
        bytes
    }

    /// Sixteen bytes for an id.
    pub(super) fn sixteen_bytes(&mut self) -> [u8; 16] {
        let mut bytes = [0; 16];
        bytes[..8].copy_from_slice(&self.next().to_be_bytes());
        bytes[8..].copy_from_slice(&self.next().to_be_bytes());
        bytes
    }
}

/// The exponential from basic arithmetic alone: Taylor's series of a sixty-fourth, squared six times.
pub(super) fn exp(power: f64) -> f64 {
    let small = power / 64.0;
    let mut term = 1.0;
    let mut sum = 1.0;
    for step in 1..=8 {
        term *= small / f64::from(step);
        sum += term;
    }
    for _ in 0..6 {
        sum *= sum;
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First outputs for the seed 1234567, as listed with the reference C code of the generator (prng.di.unimi.it).
    #[test]
    fn the_generator_is_the_published_one() {
        let mut random = Random::new(1_234_567);
        let drawn: Vec<u64> = (0..3).map(|_| random.next()).collect();
        assert_eq!(drawn, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }

    #[test]
    fn the_exponential_agrees_with_the_library() {
        for tenth in -30..=30 {
            let power = f64::from(tenth) / 10.0;
            assert!((exp(power) / power.exp() - 1.0).abs() < 1e-12, "{power}");
        }
    }

    #[test]
    fn draws_have_the_mean_and_spread_they_claim() {
        let mut random = Random::new(7);
        let drawn: Vec<f64> = (0..20_000).map(|_| random.normal()).collect();
        let mean = drawn.iter().sum::<f64>() / 20_000.0;
        let variance = drawn.iter().map(|value| (value - mean) * (value - mean)).sum::<f64>() / 20_000.0;
        assert!(mean.abs() < 0.03 && (variance - 1.0).abs() < 0.05, "{mean} {variance}");
    }
}
