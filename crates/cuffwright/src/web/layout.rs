//! The shell around every page: places in the order of a day, the page's own head, the cautions.
//!
//! Only places that exist are shown: a link that leads nowhere costs a reader more than a missing one.

use door::principal::Principal;
use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::assets::{Asset, href};
use super::routes::may_open;
use super::words::{Value, say, text};

/// A place of the interface, in the order of a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// What must be closed, by whom and when.
    Due,
    /// The live session.
    Deck,
    /// The swimmers.
    People,
    /// The timetable.
    Week,
    /// Bands, weights, anchors.
    Kit,
    /// Re-tests and season.
    Year,
    /// The protocol, every number with its source.
    Rules,
}

impl Place {
    /// Every place, in the order of a day.
    pub const DAY: [Place; 7] =
        [Place::Due, Place::Deck, Place::People, Place::Week, Place::Kit, Place::Year, Place::Rules];

    /// Its spots; none while the place does not exist yet. The first is where the place itself leads.
    pub const fn spots(self) -> &'static [Spot] {
        match self {
            Place::Due => &[Spot::Due, Spot::Review, Spot::Charts],
            Place::Deck => &[Spot::Deck, Spot::Session, Spot::Devices],
            Place::People => &[
                Spot::People,
                Spot::Screening,
                Spot::Weekly,
                Spot::Import,
                Spot::Accounts,
                Spot::Audit,
                Spot::Retention,
            ],
            Place::Kit => &[Spot::Kit],
            Place::Rules => &[Spot::Rules, Spot::Exercises, Spot::Sources],
            Place::Week => &[Spot::Week],
            Place::Year => &[Spot::Year, Spot::Season, Spot::SetTimes],
        }
    }

    const fn word(self) -> &'static str {
        match self {
            Place::Due => "place-due",
            Place::Deck => "place-deck",
            Place::People => "place-people",
            Place::Week => "place-week",
            Place::Kit => "place-kit",
            Place::Year => "place-year",
            Place::Rules => "place-rules",
        }
    }
}

/// A page that the navigation leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// What must be closed.
    Due,
    /// Proposals waiting for a person.
    Review,
    /// The live session.
    Deck,
    /// A session, written down by hand.
    Session,
    /// The swimmers.
    People,
    /// A screening day and what comes of it.
    Screening,
    /// The weekly check.
    Weekly,
    /// Files of the club.
    Import,
    /// What the club owns.
    Kit,
    /// The protocol.
    Rules,
    /// What is done.
    Exercises,
    /// Where it comes from.
    Sources,
    /// Phones and tablets on deck.
    Devices,
    /// Who may come in.
    Accounts,
    /// Who saw and changed what.
    Audit,
    /// For how long records are kept.
    Retention,
    /// What the season showed.
    Season,
    /// What sets to expect.
    SetTimes,
    /// Whose line moved, and the load.
    Charts,
    /// The timetable.
    Week,
    /// The season.
    Year,
}

impl Spot {
    /// Its address.
    pub const fn path(self) -> &'static str {
        match self {
            Spot::Due => "/due",
            Spot::Review => "/review",
            Spot::Deck => "/deck",
            Spot::Session => "/session",
            Spot::People => "/people",
            Spot::Screening => "/screening",
            Spot::Weekly => "/weekly",
            Spot::Import => "/import",
            Spot::Kit => "/kit",
            Spot::Rules => "/rules",
            Spot::Exercises => "/rules/exercises",
            Spot::Sources => "/rules/sources",
            Spot::Devices => "/devices",
            Spot::Accounts => "/accounts",
            Spot::Audit => "/audit",
            Spot::Retention => "/retention",
            Spot::Week => "/week",
            Spot::Year => "/year",
            Spot::Season => "/season",
            Spot::SetTimes => "/season/set-times",
            Spot::Charts => "/due/charts",
        }
    }

    const fn word(self) -> &'static str {
        match self {
            Spot::Due => "spot-due",
            Spot::Review => "spot-review",
            Spot::People => "spot-people",
            Spot::Deck => "spot-deck",
            Spot::Session => "spot-session",
            Spot::Screening => "spot-screening",
            Spot::Weekly => "spot-weekly",
            Spot::Import => "spot-import",
            Spot::Kit => "place-kit",
            Spot::Rules => "place-rules",
            Spot::Exercises => "spot-exercises",
            Spot::Sources => "spot-sources",
            Spot::Devices => "spot-devices",
            Spot::Accounts => "spot-accounts",
            Spot::Audit => "spot-audit",
            Spot::Retention => "spot-retention",
            Spot::Season => "spot-season",
            Spot::SetTimes => "spot-set-times",
            Spot::Charts => "spot-charts",
            Spot::Week => "spot-week",
            Spot::Year => "spot-year",
        }
    }
}

/// Where a page stands in the navigation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Here {
    /// Nowhere: an error page.
    #[default]
    Nowhere,
    /// One of the pages that the navigation leads to.
    At(Place, Spot),
    /// Below one of them, for instance one swimmer under the swimmers.
    Below(Place, Spot),
}

impl Here {
    /// What a link says about itself: this very page, or the one above it.
    fn current(self, spot: Spot) -> Option<&'static str> {
        match self {
            Here::At(_, here) if here == spot => Some("page"),
            Here::Below(_, here) if here == spot => Some("true"),
            _ => None,
        }
    }

    fn place(self) -> Option<Place> {
        match self {
            Here::Nowhere => None,
            Here::At(place, _) | Here::Below(place, _) => Some(place),
        }
    }
}

/// What the shell needs to know of a page.
#[derive(Debug, Clone, Copy, Default)]
pub struct Frame<'a> {
    /// Title and first heading.
    pub title: &'a str,
    /// One sentence under the heading.
    pub lede: Option<&'a str>,
    /// Where it stands.
    pub here: Here,
    /// The club's own name.
    pub club: Option<&'a str>,
    /// Words above everything, for instance that the club is invented.
    pub banner: Option<&'a str>,
    /// What the last form did, shown before anything else.
    pub outcome: Option<&'a Markup>,
    /// Who reads: only places that are open to them are shown. Nobody known, no places.
    pub who: Option<&'a Principal>,
    /// Who that is, in words, and the way out.
    pub badge: Option<&'a Markup>,
}

/// A whole page.
pub fn shell(frame: &Frame<'_>, body: Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en-GB" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (say("page-title", &[("title", Value::Words(frame.title))])) }
                link rel="icon" type="image/svg+xml" href=(href(Asset::Mark));
                link rel="stylesheet" href=(href(Asset::Style));
            }
            body {
                a.skip href="#main" { (text("skip-to-main")) }
                @if let Some(banner) = frame.banner { p.banner { (banner) } }
                (masthead(frame))
                main id="main" tabindex="-1" {
                    @if let Some(outcome) = frame.outcome { (outcome) }
                    div.head {
                        h1 { (frame.title) }
                        @if let Some(lede) = frame.lede { p.lede { (lede) } }
                    }
                    (body)
                }
                (cautions())
            }
        }
    }
}

fn masthead(frame: &Frame<'_>) -> Markup {
    html! {
        header.masthead {
            div.masthead-row {
                a.wordmark href="/" { (mark()) span { (text("site-name")) } }
                @if let Some(club) = frame.club { p.club { (club) } }
                @if let Some(badge) = frame.badge { (badge) }
                nav.places aria-label=(text("nav-places")) { ul {
                    @for place in Place::DAY {
                        @if let Some(first) = open_spots(place, frame.who).first() {
                            li { (place_link(place, *first, frame.here)) }
                        }
                    }
                } }
            }
            (lane())
        }
        @if let Some(place) = frame.here.place() {
            @let spots = open_spots(place, frame.who);
            @if spots.len() > 1 { (within(place, &spots, frame.here)) }
        }
    }
}

/// The spots of a place that are open to the reader.
fn open_spots(place: Place, who: Option<&Principal>) -> Vec<Spot> {
    let Some(who) = who else { return Vec::new() };
    place.spots().iter().copied().filter(|spot| may_open(who, spot.path())).collect()
}

fn place_link(place: Place, first: Spot, here: Here) -> Markup {
    // A place counts as current for everything below it; only its own first page is "this page".
    let current = if here.place() == Some(place) { here.current(first).or(Some("true")) } else { None };
    html! {
        a href=(first.path()) aria-current=[current] {
            (text(place.word()))
            @if current.is_some() { (run()) }
        }
    }
}

fn within(place: Place, spots: &[Spot], here: Here) -> Markup {
    let name = text(place.word());
    html! {
        nav.within aria-label=(say("nav-within", &[("place", Value::Words(&name))])) { ul {
            @for spot in spots {
                li { a href=(spot.path()) aria-current=[here.current(*spot)] { (text(spot.word())) } }
            }
        } }
    }
}

/// The mark: a cable with three floats, the middle one lifted, as a shoulder lifts between two arms.
fn mark() -> Markup {
    html! {
        svg.mark viewBox="0 0 34 24" width="34" height="24" aria-hidden="true" focusable="false" {
            path.mark-cable d="M0 17h8l5-8h8l5 8h8" {}
            rect.mark-float x="2" y="10" width="6" height="14" rx="2" {}
            rect.mark-float.mark-lit x="14" y="2" width="6" height="14" rx="2" {}
            rect.mark-float x="26" y="10" width="6" height="14" rx="2" {}
        }
    }
}

/// The lane rope under the masthead, red for its first metres as off the wall of a pool.
fn lane() -> Markup {
    html! {
        svg.lane width="100%" height="16" aria-hidden="true" focusable="false" {
            defs {
                pattern id="lane-floats" width="16" height="16" patternUnits="userSpaceOnUse" {
                    rect.lane-float x="2" y="1" width="12" height="14" rx="3" {}
                    path.lane-rib d="M6.5 3v10M9.5 3v10" {}
                }
                pattern id="lane-end" width="16" height="16" patternUnits="userSpaceOnUse" {
                    rect.lane-end x="2" y="1" width="12" height="14" rx="3" {}
                    path.lane-rib d="M6.5 3v10M9.5 3v10" {}
                }
                pattern id="lane-lit" width="16" height="16" patternUnits="userSpaceOnUse" {
                    rect.lane-lit x="2" y="1" width="12" height="14" rx="3" {}
                    path.lane-rib d="M6.5 3v10M9.5 3v10" {}
                }
            }
            rect.lane-cable y="7" width="100%" height="2" {}
            rect width="100%" height="16" fill="url(#lane-floats)" {}
            rect width="64" height="16" fill="url(#lane-end)" {}
        }
    }
}

/// The stretch of the lane rope that lights up under the place one stands at.
fn run() -> Markup {
    PreEscaped(String::from(concat!(
        r#"<svg class="run" width="100%" height="16" aria-hidden="true" focusable="false">"#,
        r#"<rect width="100%" height="16" fill="url(#lane-lit)"></rect></svg>"#,
    )))
}

const CAUTIONS: [&str; 6] =
    ["caution-uninjured", "caution-water", "caution-band", "caution-adult", "caution-aim", "caution-log"];

fn cautions() -> Markup {
    html! {
        footer.cautions {
            h2 { (text("cautions-heading")) }
            ul { @for caution in CAUTIONS { li { (text(caution)) } } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rendered(here: Here) -> String {
        let who = Principal::laptop("R. Ahvenlaine");
        shell(&Frame { title: "Due", here, who: Some(&who), ..Frame::default() }, html! {}).into_string()
    }

    #[test]
    fn only_places_that_are_open_to_the_reader_are_links() {
        let owner = rendered(Here::At(Place::Due, Spot::Due));
        let coach = Principal { role: door::role::Role::HeadCoach, ..Principal::laptop("") };
        let coach = Frame { title: "People", who: Some(&coach), ..Frame::default() };
        let coach = shell(&coach, html! {}).into_string();
        let stranger = shell(&Frame { title: "Sign in", ..Frame::default() }, html! {}).into_string();
        for (path, is_coachs) in [
            ("/due", false),
            ("/people", true),
            ("/week", true),
            ("/deck", false),
            ("/kit", true),
            ("/rules", true),
        ] {
            let link = format!("<li><a href=\"{path}\"");
            assert!(owner.contains(&link), "{path}");
            assert_eq!(coach.contains(&link), is_coachs, "{path}");
            assert!(!stranger.contains(&link), "{path}");
        }
        assert!(!owner.contains("href=\"#\""));
    }

    #[test]
    fn one_link_is_this_page_and_the_places_stand_in_day_order() {
        let page = rendered(Here::At(Place::Due, Spot::Review));
        assert_eq!(page.matches("aria-current=\"page\"").count(), 1);
        let at = |path: &str| page.rfind(&format!("<li><a href=\"{path}\"")).expect("the place is linked");
        assert!(at("/people") < at("/rules"));
        let below = rendered(Here::Below(Place::People, Spot::People));
        assert_eq!(below.matches("aria-current=\"page\"").count(), 0);
        assert_eq!(below.matches("aria-current=\"true\"").count(), 2, "the place and its list");
    }

    #[test]
    fn every_page_carries_every_caution_and_a_way_past_the_head() {
        let page = rendered(Here::Nowhere);
        for caution in CAUTIONS {
            assert!(page.contains(&text(caution)), "{caution}");
        }
        assert!(page.find("href=\"#main\"") < page.find("<header"));
        assert!(!page.contains('‹'), "a message is missing: {page}");
    }
}
