//! What is measured, at which station, how often, and who may do it.
//!
//! The order of the stations is the order of the day: questions, body size, looking, range, strength, endurance
//! last, because a tired shoulder is a weaker one. Minutes are common practice for one swimmer and one tester.

/// A station of a screening day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Station {
    /// Questions, and whether anything hurts now.
    CheckIn,
    /// Height, sitting height, mass.
    Body,
    /// Laxity and what is seen from behind: a licensed clinician's.
    Looking,
    /// Range of both shoulders.
    Range,
    /// Strength of both arms.
    Strength,
    /// Posterior shoulder endurance of both arms.
    Endurance,
    /// Trunk holds.
    Trunk,
}

impl Station {
    /// Every station in the order of the day.
    pub const ALL: [Station; 7] = [
        Station::CheckIn,
        Station::Body,
        Station::Looking,
        Station::Range,
        Station::Strength,
        Station::Endurance,
        Station::Trunk,
    ];

    /// The word used in addresses, files and on the command line.
    pub const fn word(self) -> &'static str {
        match self {
            Station::CheckIn => "check-in",
            Station::Body => "body",
            Station::Looking => "looking",
            Station::Range => "range",
            Station::Strength => "strength",
            Station::Endurance => "endurance",
            Station::Trunk => "trunk",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Station> {
        Station::ALL.into_iter().find(|station| station.word() == word)
    }

    /// Minutes for one swimmer with one tester: common practice.
    pub const fn minutes(self) -> f64 {
        match self {
            Station::CheckIn | Station::Body => 4.0,
            Station::Looking | Station::Range | Station::Endurance => 6.0,
            Station::Strength => 7.0,
            Station::Trunk => 5.0,
        }
    }

    /// Only a licensed clinician does this station: reading laxity and looking for wasting are interpretation.
    pub const fn is_licensed(self) -> bool {
        matches!(self, Station::Looking)
    }

    /// Its measures in the order in which they are taken.
    pub fn measures(self) -> impl Iterator<Item = &'static Measure> {
        MEASURES.iter().filter(move |measure| measure.station == self)
    }
}

/// How several trials become one value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Combine {
    /// Their mean.
    Mean,
    /// There is one trial.
    Only,
}

/// One measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// Key in the range table.
    pub key: &'static str,
    /// Where it is taken.
    pub station: Station,
    /// Taken on the left and on the right.
    pub sided: bool,
    /// Trials offered on one side.
    pub trials: u8,
    /// Decimals that are worth writing.
    pub decimals: u8,
    /// The file it is kept in: body sizes are growth facts.
    pub is_body_size: bool,
}

impl Measure {
    /// Looks one up by its key.
    pub fn of(key: &str) -> Option<&'static Measure> {
        MEASURES.iter().find(|measure| measure.key == key)
    }

    /// How trials become one value: the mean wherever there are several, so that a lucky trial does not count double.
    pub const fn combine(&self) -> Combine {
        if self.trials > 1 { Combine::Mean } else { Combine::Only }
    }

    /// One value from the trials; nothing from none.
    pub fn value(&self, trials: &[f64]) -> Option<f64> {
        let n = u32::try_from(trials.len()).ok().filter(|n| 0 < *n)?;
        Some(trials.iter().sum::<f64>() / f64::from(n))
    }
}

const fn measure(key: &'static str, station: Station, sided: bool, trials: u8, decimals: u8) -> Measure {
    Measure { key, station, sided, trials, decimals, is_body_size: false }
}

const fn size(key: &'static str, decimals: u8) -> Measure {
    Measure { is_body_size: true, ..measure(key, Station::Body, false, 2, decimals) }
}

/// Every measure in the order of the day.
pub static MEASURES: &[Measure] = &[
    size("height", 1),
    size("sitting_height", 1),
    size("body_mass", 1),
    measure("beighton", Station::Looking, false, 1, 0),
    measure("shoulder_er_rom", Station::Range, true, 2, 0),
    measure("shoulder_ir_rom", Station::Range, true, 2, 0),
    measure("shoulder_flexion_rom", Station::Range, true, 1, 0),
    measure("horizontal_adduction", Station::Range, true, 1, 0),
    measure("pec_minor_length", Station::Range, true, 1, 1),
    measure("er_force", Station::Strength, true, 3, 0),
    measure("ir_force", Station::Strength, true, 3, 0),
    measure("lever_arm", Station::Strength, false, 1, 1),
    measure("posterior_endurance_reps", Station::Endurance, true, 1, 0),
    measure("posterior_endurance_time", Station::Endurance, true, 1, 0),
    measure("stability_touches", Station::Endurance, false, 3, 0),
    measure("plank_time", Station::Trunk, false, 1, 0),
    measure("side_bridge_time", Station::Trunk, true, 1, 0),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_measure_stands_in_the_range_table_and_once() {
        for (index, measure) in MEASURES.iter().enumerate() {
            assert!(quantity::Range::of(measure.key).is_some(), "{}", measure.key);
            assert!(MEASURES[..index].iter().all(|other| other.key != measure.key), "{}", measure.key);
        }
    }

    #[test]
    fn stations_take_thirty_eight_minutes_and_endurance_comes_after_strength() {
        // Source: trade handbook A4, "person-time about 38 min per swimmer".
        assert_eq!(Station::ALL.iter().map(|station| station.minutes()).sum::<f64>(), 38.0);
        assert!(Station::Strength < Station::Endurance && Station::Range < Station::Strength);
        for station in Station::ALL {
            assert_eq!(Station::from_word(station.word()), Some(station));
        }
    }

    #[test]
    fn trials_become_their_mean_and_none_becomes_nothing() {
        let force = Measure::of("er_force").expect("strength is measured");
        assert_eq!(force.value(&[90.0, 96.0, 93.0]), Some(93.0));
        assert_eq!(force.value(&[]), None);
    }
}
