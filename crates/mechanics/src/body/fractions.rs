//! Segment lengths as fractions of stature: Drillis & Contini 1966 (New York University report 1166-03), as Winter's
//! Figure 4.1 prints them. Transcribed in `references/drillis-contini-1966`.

/// Upper arm (looked up).
pub(crate) const UPPER_ARM: f64 = 0.186;
/// Forearm (looked up).
pub(crate) const FOREARM: f64 = 0.146;
/// Wrist to fingertip (looked up).
pub(crate) const HAND_TO_FINGERTIP: f64 = 0.108;
/// Thigh (looked up).
pub(crate) const THIGH: f64 = 0.245;
/// Shank (looked up).
pub(crate) const SHANK: f64 = 0.246;
/// Foot length (from memory).
pub(crate) const FOOT: f64 = 0.152;
/// Ankle joint above the sole (looked up).
pub(crate) const ANKLE_HEIGHT: f64 = 0.039;
/// Hip joint to shoulder joint (looked up).
pub(crate) const HIP_TO_SHOULDER: f64 = 0.288;
/// Between the acromia (from memory); measured adult breadth is nearer 0.23, joint centres nearer 0.20-0.21.
pub(crate) const BIACROMIAL: f64 = 0.259;
