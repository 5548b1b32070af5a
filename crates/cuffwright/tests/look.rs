//! The look keeps its promises: every building block rendered, scanned, and its colours measured.

#[path = "../examples/gallery/pages.rs"]
mod pages;

use std::collections::BTreeMap;
use std::path::Path;

use cuffwright::web::assets::SHEETS;

fn sheet(name: &str) -> &'static str {
    SHEETS.iter().find(|(known, _)| *known == name).map(|(_, css)| *css).expect("the sheet is embedded")
}

fn every_page() -> impl Iterator<Item = (&'static str, String)> {
    pages::ALL.iter().map(|(name, page)| (*name, page().into_string()))
}

#[test]
fn no_page_carries_style_or_script_of_its_own() {
    for (name, page) in every_page() {
        for forbidden in [
            " style=",
            "<style",
            "<script",
            "javascript:",
            " onclick",
            " onload",
            " onchange",
            " onsubmit",
            "<iframe",
            "http://",
            "https://",
        ] {
            assert!(!page.contains(forbidden), "{forbidden} in {name}");
        }
    }
    for (name, css) in SHEETS {
        assert!(!css.contains("url(") && !css.contains("@import"), "{name} loads something from elsewhere");
    }
}

#[test]
fn every_page_has_one_main_one_first_heading_and_no_missing_word() {
    for (name, page) in every_page() {
        let head = page.split("</head>").next().unwrap_or_default();
        assert_eq!(head.matches("<title>").count(), 1, "the title of {name}");
        for once in ["<h1", "<main", "lang=\"en-GB\"", "name=\"viewport\""] {
            assert_eq!(page.matches(once).count(), 1, "{once} in {name}");
        }
        assert!(!page.contains('‹'), "a message is missing in {name}");
        assert!(!page.contains("user-scalable"), "zoom stays free");
    }
}

#[test]
fn an_id_stands_once_on_a_page_and_every_reference_finds_its_id() {
    for (name, page) in every_page() {
        let ids: Vec<&str> = attribute(&page, " id=\"").collect();
        for (index, id) in ids.iter().enumerate() {
            assert!(!ids[..index].contains(id), "{id} stands twice in {name}");
        }
        for reference in [" for=\"", " aria-describedby=\"", " aria-labelledby=\"", " href=\"#"] {
            for found in attribute(&page, reference).flat_map(str::split_whitespace) {
                assert!(ids.contains(&found), "{found} is referred to but does not exist in {name}");
            }
        }
    }
}

#[test]
fn every_drawing_is_named_or_stands_beside_its_words() {
    for (name, page) in every_page() {
        for drawing in page.split("<svg").skip(1) {
            let head = drawing.split('>').next().unwrap_or_default();
            let body = drawing.split("</svg>").next().unwrap_or_default();
            let named = head.contains("role=\"img\"") && body.contains("<title>") && body.contains("<desc>");
            assert!(
                named || head.contains("aria-hidden=\"true\""),
                "a drawing without a name in {name}: {head}"
            );
        }
    }
}

fn attribute<'a>(page: &'a str, opening: &'a str) -> impl Iterator<Item = &'a str> {
    page.split(opening).skip(1).filter_map(|rest| rest.split('"').next())
}

#[test]
fn components_use_roles_and_roles_use_values() {
    let values = declared(sheet("values"));
    for (name, css) in SHEETS.iter().filter(|(name, _)| !matches!(*name, "values" | "roles")) {
        assert!(!css.contains('#') && !css.contains("rgb"), "{name} mixes a colour of its own");
        for value in values.iter().filter(|(_, is)| is.starts_with('#')) {
            assert!(!css.contains(&format!("var({})", value.0)), "{name} uses {} instead of a role", value.0);
        }
    }
    let roles = sheet("roles");
    let before_forced = roles.split("@media (forced-colors").next().unwrap_or_default();
    for (role, is) in before_forced.split(['{', '}']).flat_map(declarations) {
        let value = is.strip_prefix("var(").and_then(|rest| rest.strip_suffix(')'));
        let known = value.is_some_and(|value| values.iter().any(|(name, _)| name == value));
        assert!(known, "{role} is not one of the named values: {is}");
    }
}

#[test]
fn no_component_names_a_physical_side() {
    for (name, css) in SHEETS {
        for physical in [
            "margin-left",
            "margin-right",
            "padding-left",
            "padding-right",
            "text-align: left",
            "text-align: right",
            "border-left",
            "border-right",
        ] {
            assert!(!css.contains(physical), "{physical} in {name}: use the logical property");
        }
    }
}

/// Which roles meet, and how far apart they must stand: WCAG 2.2, 1.4.3 (text 4.5) and 1.4.11 (drawings and
/// controls 3). Cable, grooves and hairlines carry no meaning and are not listed.
const MEETINGS: &[(&str, &str, f64)] = &[
    ("--ink", "--ground", 7.0),
    ("--ink", "--sunk", 7.0),
    ("--ink", "--field", 7.0),
    ("--quiet", "--ground", 4.5),
    ("--quiet", "--sunk", 4.5),
    ("--stop", "--ground", 4.5),
    ("--stop", "--sunk", 4.5),
    ("--water", "--ground", 4.5),
    ("--on-lit", "--lit", 4.5),
    ("--on-stop", "--stop", 4.5),
    ("--on-button", "--button", 4.5),
    ("--on-deep", "--deep", 7.0),
    ("--on-deep-quiet", "--deep", 4.5),
    ("--edge", "--ground", 3.0),
    ("--edge", "--field", 3.0),
    ("--edge", "--sunk", 3.0),
    ("--rim", "--ground", 3.0),
    ("--float", "--ground", 3.0),
    ("--lit-edge", "--ground", 3.0),
    ("--focus", "--ground", 3.0),
];

#[test]
fn light_dark_and_paper_stand_far_enough_apart() {
    assert_ne!(colour("light", "--ground"), colour("dark", "--ground"), "the schemes are really read apart");
    for scheme in ["light", "dark", "print"] {
        for (front, back, wanted) in MEETINGS {
            let ratio = contrast(colour(scheme, front), colour(scheme, back));
            assert!(*wanted <= ratio, "{front} on {back}, {scheme}: {ratio:.2}, wanted {wanted}");
        }
    }
    for scheme in ["light", "dark"] {
        let ratio = contrast(colour(scheme, "--deep-focus"), colour(scheme, "--deep"));
        assert!(3.0 <= ratio, "the lit stretch and the focus in the masthead, {scheme}: {ratio:.2}");
    }
}

// Source: the definition of relative luminance in WCAG 2.2; black on white is 21 by that definition, and #767676 is
// the darkest-known grey that just passes 4.5 on white, #777777 just fails.
#[test]
fn contrast_is_measured_as_the_guideline_defines_it() {
    let of = |front, back| contrast(rgb(front), rgb(back));
    assert!((of("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    assert!((of("#ffffff", "#ffffff") - 1.0).abs() < 1e-9);
    assert!(4.5 <= of("#767676", "#ffffff") && of("#777777", "#ffffff") < 4.5);
}

fn declared(css: &str) -> BTreeMap<String, String> {
    css.split(['{', '}']).flat_map(declarations).collect()
}

fn declarations(block: &str) -> Vec<(String, String)> {
    block
        .split(';')
        .filter_map(|line| line.rsplit("*/").next().unwrap_or(line).trim().split_once(':'))
        .filter(|(name, _)| name.starts_with("--"))
        .map(|(name, is)| (name.trim().to_owned(), is.trim().to_owned()))
        .collect()
}

fn colour(scheme: &str, role: &str) -> [f64; 3] {
    let roles = sheet("roles");
    let mut held = declared(roles.split("@media").next().unwrap_or_default());
    let opening = match scheme {
        "dark" => Some("@media (prefers-color-scheme: dark)"),
        "print" => Some("@media print"),
        _ => None,
    };
    if let Some(opening) = opening {
        let block = roles
            .split(opening)
            .nth(1)
            .and_then(|rest| rest.split("}\n}").next())
            .expect("the scheme exists");
        held.extend(declared(block));
    }
    let value = held.get(role).unwrap_or_else(|| panic!("{role} is no role"));
    let name = value.trim_start_matches("var(").trim_end_matches(')');
    rgb(declared(sheet("values")).get(name).unwrap_or_else(|| panic!("{name} is no value")))
}

fn rgb(hex: &str) -> [f64; 3] {
    let channel = |at: usize| {
        f64::from(u8::from_str_radix(&hex[at..at + 2], 16).expect("two hexadecimal digits")) / 255.0
    };
    [channel(1), channel(3), channel(5)]
}

fn contrast(one: [f64; 3], other: [f64; 3]) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

fn luminance(colour: [f64; 3]) -> f64 {
    let linear = |channel: f64| {
        if channel <= 0.040_45 { channel / 12.92 } else { ((channel + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2])
}

#[test]
fn every_message_a_page_names_exists() {
    let mut named = Vec::new();
    collect(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/web"), &mut named);
    assert!(30 < named.len(), "the scan found next to nothing: {}", named.len());
    for id in named {
        let said = cuffwright::web::words::text(&id);
        assert!(!said.starts_with('‹') || id == "no-such-message", "{id} is named but not in the catalogue");
    }
}

/// Literal names only: `text("…")` and `say("…"`. Names put together from a word are tested where they are made.
fn collect(folder: &Path, named: &mut Vec<String>) {
    for entry in std::fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("the entry can be read").path();
        if path.is_dir() {
            collect(&path, named);
            continue;
        }
        let source = std::fs::read_to_string(&path).expect("the source can be read");
        for call in ["text(\"", "say(\""] {
            named.extend(attribute(&source, call).map(str::to_owned));
        }
    }
}
