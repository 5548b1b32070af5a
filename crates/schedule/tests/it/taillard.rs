//! Published: Taillard's open-shop instances of 1993, made by his own generator, at their optimal lengths.
//!
//! Source: E. Taillard, "Benchmarks for basic scheduling problems", European Journal of Operational Research 64
//! (1993) 278-285: the generator of its appendix and the table of seeds for open shops. Seeds and optimal lengths were
//! written down FROM MEMORY; what speaks for them is that the solver proves exactly the remembered optimum on every
//! one of the thirty, which a single wrong digit of a seed would not survive.

use schedule::rota::{Rota, faults, shortest};

/// The paper's generator of numbers from low to high (Bratley, Fox and Schrage 1983).
struct Generator(i64);

impl Generator {
    fn between(&mut self, low: i64, high: i64) -> i64 {
        let k = self.0 / 127_773;
        self.0 = 16_807 * (self.0 % 127_773) - k * 2_836;
        if self.0 < 0 {
            self.0 += 2_147_483_647;
        }
        let share = self.0 as f64 / 2_147_483_647.0;
        low + (share * (high - low + 1) as f64) as i64
    }
}

/// A square instance: durations from 1 to 99 row by row, then for each job an order of machines by exchanges.
pub(crate) fn instance(n: usize, time_seed: i64, machine_seed: i64) -> Vec<Vec<u32>> {
    let mut times = Generator(time_seed);
    let durations: Vec<Vec<u32>> = (0..n)
        .map(|_| (0..n).map(|_| u32::try_from(times.between(1, 99)).expect("1 to 99")).collect())
        .collect();
    let mut machines = Generator(machine_seed);
    let mut stays = vec![vec![0; n]; n];
    for (job, durations) in durations.iter().enumerate() {
        let mut order: Vec<usize> = (0..n).collect();
        for at in 0..n {
            let with =
                machines.between(i64::try_from(at).expect("small"), i64::try_from(n).expect("small") - 1);
            order.swap(at, usize::try_from(with).expect("within the order"));
        }
        for (machine, duration) in order.into_iter().zip(durations) {
            stays[job][machine] = *duration;
        }
    }
    stays
}

pub(crate) const FOUR: [(i64, i64, u32); 10] = [
    (1_166_510_396, 164_000_672, 193),
    (1_624_514_147, 1_076_870_026, 236),
    (1_116_611_914, 1_729_673_136, 271),
    (410_579_806, 1_453_014_524, 250),
    (1_036_100_146, 375_655_500, 295),
    (597_897_640, 322_140_729, 189),
    (1_268_670_769, 556_009_645, 201),
    (307_928_077, 421_384_574, 217),
    (667_545_295, 485_515_899, 261),
    (35_780_816, 492_238_933, 217),
];

pub(crate) const FIVE: [(i64, i64, u32); 10] = [
    (527_556_884, 1_343_124_817, 300),
    (1_046_824_493, 1_973_406_531, 262),
    (1_165_033_492, 86_711_717, 323),
    (476_292_817, 24_463_110, 310),
    (1_181_363_416, 606_981_348, 326),
    (897_739_730, 513_119_113, 312),
    (577_107_303, 2_046_387_124, 303),
    (1_714_191_910, 1_928_475_945, 300),
    (1_813_128_617, 2_091_141_708, 353),
    (808_919_936, 183_753_764, 326),
];

pub(crate) const SEVEN: [(i64, i64, u32); 10] = [
    (1_840_686_215, 1_827_454_623, 435),
    (1_026_771_938, 1_312_166_461, 443),
    (609_471_574, 670_843_185, 468),
    (1_022_295_947, 398_226_875, 463),
    (1_513_073_047, 1_250_759_651, 416),
    (1_612_211_197, 95_606_345, 451),
    (435_024_109, 1_118_234_860, 422),
    (1_760_865_440, 1_099_909_092, 424),
    (122_574_075, 10_979_313, 458),
    (248_031_774, 1_685_251_301, 398),
];

#[test]
fn every_instance_of_four_five_and_seven_is_proven_at_its_optimum() {
    for (n, instances) in [(4, FOUR), (5, FIVE), (7, SEVEN)] {
        for (at, (times, machines, optimum)) in instances.into_iter().enumerate() {
            let rota = Rota { stays: instance(n, times, machines), change: 0, kit: vec![] };
            let table = shortest(&rota, &mut || false).expect("a rota");
            assert_eq!(faults(&rota, &table), Vec::<String>::new(), "{n}x{n} number {}", at + 1);
            assert!(table.is_proven());
            assert_eq!(table.length, optimum, "{n}x{n} number {}", at + 1);
        }
    }
}
