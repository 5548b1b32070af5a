//! Reading how an exercise is drawn. Everything is optional but view, angles and contacts; without any drawing an
//! exercise gets a card of words.

use quantity::{Angle, Length};
use toml::Spanned;
use toml::de::DeValue;

use super::problem::{FIGURE_CONTACT, FIGURE_NEEDS, Report, UNKNOWN_NAME, WRONG_COUNT, nearest};
use super::table::{Table, number_within, wrong_type};
use crate::name::RungId;
use crate::protocol::Rung;
use crate::protocol::figure::{
    BandRun, FigureContact, FigurePart, FigureScript, JointAngle, Limb, Touched, Whose,
};

const KEYS: &[&str] = &[
    "rungs",
    "view",
    "start",
    "end",
    "contacts",
    "wall_m",
    "wall_margin_m",
    "bench_m",
    "ball_m",
    "circle_m",
    "weights",
    "band",
];

/// A wall is drawn this far beyond what touches it unless the file says otherwise.
const WALL_MARGIN: Length = Length::from_metres(0.35);

/// Reads the drawings of one exercise.
pub(super) fn figures(
    exercise: &str,
    table: &Table<'_>,
    ladder: &[Rung],
    report: &mut Report<'_>,
) -> Vec<FigureScript> {
    let Some(value) = table.find("figure") else { return Vec::new() };
    let Some(list) = value.get_ref().as_array() else {
        wrong_type("figure", "tables", value, report);
        return Vec::new();
    };
    let mut scripts = Vec::new();
    for item in list.iter() {
        let Some(figure) = Table::open(item, "figure", None, KEYS, report) else { continue };
        let figure = figure.called(format!("{exercise} figure"));
        scripts.push(one(&figure, ladder, report));
    }
    scripts
}

fn one(table: &Table<'_>, ladder: &[Rung], report: &mut Report<'_>) -> FigureScript {
    let metres = |key: &str, within, report: &mut Report<'_>| {
        let value = table.find(key)?;
        number_within(key, value, within, report).map(Length::from_metres)
    };
    let (around, above) = view(table, report);
    let wall = metres("wall_m", (0.05, 3.0), report);
    let wall_margin = metres("wall_margin_m", (0.05, 1.0), report).unwrap_or(WALL_MARGIN);
    let bench = metres("bench_m", (0.02, 1.5), report);
    let ball = metres("ball_m", (0.02, 0.4), report);
    let circle = metres("circle_m", (0.01, 0.5), report);
    let contacts = contacts(table, report);
    for (surface, key, is_there) in
        [(Touched::Wall, "wall_m", wall.is_some()), (Touched::Bench, "bench_m", bench.is_some())]
    {
        if !is_there && contacts.iter().any(|contact| contact.on == surface) {
            report.add(&FIGURE_NEEDS, table.at.clone(), [table.within.clone(), key.to_owned()]);
        }
    }
    FigureScript {
        rungs: rungs(table, ladder, report),
        around,
        above,
        start: angles(table, "start", report),
        end: angles(table, "end", report),
        contacts,
        wall,
        wall_margin,
        bench,
        ball,
        circle,
        weights: table.flag("weights", report).unwrap_or(false),
        band: band(table, report),
    }
}

fn rungs(table: &Table<'_>, ladder: &[Rung], report: &mut Report<'_>) -> Vec<RungId> {
    let mut named = Vec::new();
    for (name, at) in table.texts("rungs", false, report) {
        if ladder.iter().any(|rung| rung.id.as_str() == name) {
            named.push(RungId::new(&name));
        } else {
            let near = nearest(&name, ladder.iter().map(|rung| rung.id.as_str()));
            report.add(&UNKNOWN_NAME, at, ["rung".to_owned(), name, near]);
        }
    }
    named
}

/// Numbers of a list of a fixed length, in the order they are written.
fn numbers<const N: usize>(
    key: &str,
    value: &Spanned<DeValue<'_>>,
    within: [(f64, f64); N],
    report: &mut Report<'_>,
) -> Option<[f64; N]> {
    let Some(list) = value.get_ref().as_array() else {
        wrong_type(key, "numbers", value, report);
        return None;
    };
    if list.len() != N {
        let values = [key.to_owned(), N.to_string(), list.len().to_string()];
        report.add(&WRONG_COUNT, value.span(), values);
        return None;
    }
    let mut read = [0.0; N];
    for ((place, item), within) in read.iter_mut().zip(list.iter()).zip(within) {
        *place = number_within(key, item, within, report)?;
    }
    Some(read)
}

fn view(table: &Table<'_>, report: &mut Report<'_>) -> (Angle, Angle) {
    let read = table
        .need("view", report)
        .and_then(|value| numbers("view", value, [(-180.0, 180.0), (-10.0, 80.0)], report));
    let [around, above] = read.unwrap_or([0.0, 0.0]);
    (Angle::from_degrees(around), Angle::from_degrees(above))
}

/// Angles of the trunk stand in the keyframe itself, those of limbs in a table of their own.
fn angles(table: &Table<'_>, key: &str, report: &mut Report<'_>) -> Vec<JointAngle> {
    let words = |limb: Limb| limb.joints().iter().map(|joint| joint.word());
    let limbs = Limb::ALL.into_iter().filter(|limb| *limb != Limb::Body);
    let allowed: Vec<&str> = words(Limb::Body).chain(limbs.clone().map(Limb::word)).collect();
    let Some(keyframe) = table.find(key).and_then(|value| Table::open(value, key, None, &allowed, report))
    else {
        return Vec::new();
    };
    let mut angles = of_limb(Limb::Body, &keyframe, report);
    for limb in limbs {
        let joints: Vec<&str> = words(limb).collect();
        let Some(value) = keyframe.find(limb.word()) else { continue };
        let Some(named) = Table::open(value, limb.word(), None, &joints, report) else { continue };
        angles.extend(of_limb(limb, &named, report));
    }
    angles
}

fn of_limb(limb: Limb, table: &Table<'_>, report: &mut Report<'_>) -> Vec<JointAngle> {
    let joints = limb.joints().iter();
    let read = joints.filter_map(|joint| {
        let value = number_within(joint.word(), table.find(joint.word())?, joint.limits(), report)?;
        Some(JointAngle { limb, joint: *joint, value })
    });
    read.collect()
}

fn contacts(table: &Table<'_>, report: &mut Report<'_>) -> Vec<FigureContact> {
    let mut contacts = Vec::new();
    for (words, at) in table.texts("contacts", true, report) {
        match contact(&words) {
            Some(contact) => contacts.push(contact),
            None => report.add(&FIGURE_CONTACT, at, [words]),
        }
    }
    contacts
}

/// `feet on floor`, `working-hand on wall`, `forearms on wall sliding`, `other-hand on other-hip`.
fn contact(words: &str) -> Option<FigureContact> {
    let words: Vec<&str> = words.split_whitespace().collect();
    let (part, on, slides) = match words.as_slice() {
        [part, "on", on] => (part, on, false),
        [part, "on", on, "sliding"] => (part, on, true),
        _ => return None,
    };
    let (part, whose) = FigurePart::read(part)?;
    let on = match *on {
        "floor" => Touched::Floor,
        "wall" => Touched::Wall,
        "bench" => Touched::Bench,
        other => {
            let (part, whose) = FigurePart::read(other)?;
            Touched::Part(part, whose)
        }
    };
    // A foot or a forearm lies on something with its length; between two parts only points can meet.
    let lies = |part: FigurePart| matches!(part, FigurePart::Foot | FigurePart::Forearm);
    match on {
        Touched::Part(other, _) if lies(part) || lies(other) => None,
        Touched::Part(other, Whose::Both) if whose == Whose::Both && other.words().0 != other.words().1 => {
            None
        }
        _ => Some(FigureContact { part, whose, on, slides }),
    }
}

fn band(table: &Table<'_>, report: &mut Report<'_>) -> Option<BandRun> {
    let value = table.find("band")?;
    if value.get_ref().as_str() == Some("hand to hand") {
        return Some(BandRun::HandToHand);
    }
    let band = Table::open(value, "band", None, &["anchor_m"], report)?;
    let anchor = band.need("anchor_m", report)?;
    let [outward, forward, up] =
        numbers("anchor_m", anchor, [(-3.0, 3.0); 3], report)?.map(Length::from_metres);
    Some(BandRun::Anchored { outward, forward, up })
}
