//! The steps on a phone, in order, as names of sentences. Two families of phones differ in where the settings lie;
//! which is which a person sees by where an app is kept, so no maker is named.

/// The steps for one family of phones.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Family {
    /// Which phones, in words.
    pub title: &'static str,
    /// Its steps.
    pub steps: &'static [&'static str],
}

/// Every family.
pub const FAMILIES: &[Family] = &[
    Family {
        title: "install-share-title",
        steps: &[
            "install-share-open",
            "install-share-allow",
            "install-share-profile",
            "install-share-trust",
            "install-check",
            "install-share-home",
        ],
    },
    Family {
        title: "install-drawer-title",
        steps: &[
            "install-drawer-open",
            "install-drawer-settings",
            "install-drawer-choose",
            "install-drawer-warn",
            "install-check",
            "install-drawer-home",
        ],
    },
];

/// What is said above and below the steps.
pub const INTRODUCTION: &[&str] = &["install-why", "install-limits", "install-compare"];
/// What to do when it does not work, and at the end of a phone's service.
pub const AFTERWARDS: &[&str] = &["install-not-found", "install-remove"];
