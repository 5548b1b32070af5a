//! Lengths of the arm by tape: each one measured replaces an estimate from height.

use app::desk::Draft;
use app::facts::{ArmLengthsFact, Kind};

use super::Sheet;
use crate::web::parts::ask::{Ask, Control};

/// Upper arm, forearm, hand, elbow to elbow.
pub const ARMS: Sheet = Sheet {
    word: "arms",
    kind: Kind::ArmLengths,
    title: "record-arms",
    lede: "record-arms-lede",
    asks: |_| {
        vec![
            Ask::new("date", "ask-date", Control::Day).needed(),
            Ask::new("upper_arm_m", "ask-upper-arm", Control::Number),
            Ask::new("forearm_m", "ask-forearm", Control::Number),
            Ask::new("wrist_to_knuckle_m", "ask-wrist-to-knuckle", Control::Number),
            Ask::new("elbow_spacing_m", "ask-elbow-spacing", Control::Number).hint("ask-elbow-spacing-hint"),
        ]
    },
    take: |_, taking| {
        let date = taking.past_day("date");
        // A tape is read in centimetres.
        let mut metres = |name: &str| taking.number_or_none(name).map(|centimetres| centimetres / 100.0);
        let (upper_arm_m, forearm_m) = (metres("upper_arm_m"), metres("forearm_m"));
        let (wrist_to_knuckle_m, elbow_spacing_m) = (metres("wrist_to_knuckle_m"), metres("elbow_spacing_m"));
        Some(vec![Draft::new(&ArmLengthsFact {
            date: date?,
            upper_arm_m,
            forearm_m,
            wrist_to_knuckle_m,
            elbow_spacing_m,
        })])
    },
};
