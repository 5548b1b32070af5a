//! A squad of 60 on 6 rolls with 8 lengths each: how long until the choice is proven.

use cutting::{Candidate, Need, Question, cut};

fn main() {
    divan::main();
}

/// Swimmers whose present load is spread evenly on a log scale; each needs a rung now, one up and one down.
fn squad(swimmers: usize, most_per_roll: Option<usize>) -> Question {
    let loads: Vec<(usize, f64)> = (0..6)
        .flat_map(|roll| {
            let weakest = 4.0 * 1.45_f64.powi(roll);
            (0..8).map(move |length| (roll as usize, weakest * (1.0 + 0.11 * f64::from(length))))
        })
        .collect();
    let needs = (0..swimmers)
        .flat_map(|swimmer| {
            // Body and strength shift what each loop means for each swimmer.
            let spread = ((swimmer * 37 % 60) as f64) / 60.0;
            let now = 4.5 * 7.0_f64.powf(spread);
            let body = 0.9 + 0.2 * ((swimmer * 17 % 60) as f64) / 60.0;
            [(0.93, 1.07), (1.20, 1.30), (1.0 / 1.30, 1.0 / 1.20)]
                .map(move |(low, high)| (now / body, low, high))
        })
        .map(|(now, low, high)| Need {
            met_by: (0..loads.len()).filter(|at| (now * low..=now * high).contains(&loads[*at].1)).collect(),
            weight: 1,
        })
        .collect();
    Question {
        candidates: loads.iter().map(|(roll, _)| Candidate { roll: *roll }).collect(),
        needs,
        most_per_roll,
        most_in_all: None,
    }
}

#[divan::bench(sample_count = 3, sample_size = 1, args = [2, 3, 8])]
fn sixty_swimmers_six_rolls_eight_lengths(most: usize) -> f64 {
    let found = cut(&squad(60, Some(most)), 10.0).expect("the question is sound");
    match found.proof {
        cutting::Proof::Proven => 0.0,
        cutting::Proof::Gap(gap) => gap,
    }
}
