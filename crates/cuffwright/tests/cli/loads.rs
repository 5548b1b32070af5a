//! Bands, torques and fatigue through the very commands a club uses, beside values worked out elsewhere.
//!
//! Sources of the expected values are the folders of `references/`; each check names its id.

use std::fs;

use serde_json::Value;

use super::run::{Folder, Said, cuffwright, cuffwright_reading, repository};

/// Expected values of one check with its tolerances.
struct Check {
    values: Vec<Option<f64>>,
    relative: f64,
    absolute: f64,
}

fn check(folder: &str, id: &str) -> Check {
    let text = fs::read_to_string(repository(&format!("references/{folder}/checks.json"))).unwrap();
    let rows: Vec<Value> = serde_json::from_str(&text).unwrap();
    let row = rows.iter().find(|row| row["id"] == id).unwrap_or_else(|| panic!("no check {id}"));
    Check {
        values: row["values"].as_array().unwrap().iter().map(Value::as_f64).collect(),
        relative: row["relative"].as_f64().unwrap(),
        absolute: row["absolute"].as_f64().unwrap(),
    }
}

impl Check {
    #[track_caller]
    fn meets(&self, at: usize, found: f64) {
        let expected = self.values[at].unwrap();
        let off = (found - expected).abs();
        assert!(off <= self.absolute.max(self.relative * expected.abs()), "{found} instead of {expected}");
    }
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

#[track_caller]
fn fit(csv: &str, more: &[&str]) -> Value {
    let mut arguments = vec!["band", "fit", "-", "--json"];
    arguments.extend(more);
    cuffwright_reading(&arguments, csv.as_bytes()).ends_with(0).json("cuffwright.band-fit/1")
}

#[track_caller]
fn torque(toml: &str) -> Value {
    cuffwright_reading(&["torque", "-", "--json"], toml.as_bytes()).ends_with(0).json("cuffwright.torque/1")
}

#[track_caller]
fn fatigue(csv: &str, more: &[&str]) -> Value {
    let mut arguments = vec!["fatigue", "-", "--json"];
    arguments.extend(more);
    cuffwright_reading(&arguments, csv.as_bytes()).ends_with(0).json("cuffwright.fatigue/1")
}

// ---- bands ----

#[test]
fn treloars_rubber_of_1944_is_fitted_by_the_command_a_club_uses() {
    let table = fs::read_to_string(repository("references/treloar-1944/tension.csv")).unwrap();
    let points: Vec<(f64, f64)> = table
        .lines()
        .skip(1)
        .map(|line| line.split_once(',').unwrap())
        .map(|(stretch, stress)| (stretch.parse().unwrap(), stress.parse().unwrap()))
        .collect();
    for (limit, two, one) in [
        (2.5, "rubber.nnls_mooney.2.5", "rubber.ls_neohooke.2.5"),
        (3.6, "rubber.nnls_mooney.3.6", "rubber.ls_neohooke.3.6"),
    ] {
        // A strand of one metre and one square centimetre: stress in kgf/cm2 is its force in kgf.
        let rows: String = points
            .iter()
            .filter(|(stretch, _)| 1.0 < *stretch && *stretch <= limit)
            .map(|(stretch, stress)| format!("{stretch},{stress}\n"))
            .collect();
        let csv = format!("length_m,force_kgf\n{rows}");
        // One square centimetre carries a hundred newtons for every megapascal.
        let megapascal = |value: &Value| number(value) / 100.0;
        let said = fit(&csv, &["--rest", "1.0"]);
        let expected = check("treloar-1944", two);
        expected.meets(0, megapascal(&said["constants"]["a_n"]));
        expected.meets(1, megapascal(&said["constants"]["b_n"]));
        expected.meets(2, megapascal(&said["root_mean_square_n"]));
        let said = fit(&csv, &["--rest", "1.0", "--one-term"]);
        let expected = check("treloar-1944", one);
        expected.meets(0, megapascal(&said["constants"]["a_n"]));
        expected.meets(1, megapascal(&said["root_mean_square_n"]));
    }
}

#[test]
fn the_worked_calibration_comes_back_with_its_errors() {
    let csv = fs::read_to_string(repository("examples/loads/band.csv")).unwrap();
    let said = fit(&csv, &["--rest", "0.500", "--at", "1.5,2.0"]);
    let expected = check("worked-calibration", "band.calib.fit");
    let found = [
        &said["constants"]["a_n"],
        &said["constants"]["b_n"],
        &said["residual_sd_n"],
        &said["standard_errors"]["a_n"],
        &said["standard_errors"]["b_n"],
        &said["correlation"],
    ];
    found.iter().enumerate().for_each(|(at, value)| expected.meets(at, number(value)));
    for (at, id) in [(0, "band.calib.predict.1.5"), (1, "band.calib.predict.2.0")] {
        let (said, expected) = (&said["predictions"][at], check("worked-calibration", id));
        expected.meets(0, number(&said["force_n"]));
        expected.meets(1, number(&said["curve_sd_n"]));
        expected.meets(2, number(&said["new_reading_sd_n"]));
        assert_eq!(said["reach"], "within");
    }
    let in_use = check("worked-calibration", "band.total_uncertainty.2.0");
    in_use.meets(1, number(&said["predictions"][1]["in_use_sd_n"]));
    assert_eq!(said["residuals_n"].as_array().unwrap().len(), 8);
    let covariance = number(&said["covariance_n2"][0][1]);
    let expected = number(&said["correlation"])
        * number(&said["standard_errors"]["a_n"])
        * number(&said["standard_errors"]["b_n"]);
    assert!((covariance - expected).abs() < 1e-12);
}

#[test]
fn a_constant_that_would_be_negative_is_held_at_zero() {
    let csv = "length_m,force_n\n1.2,9.268518518518515\n1.5,19.703703703703702\n2,33.25\n2.5,44.928\n3,55.851851851851855\n";
    let said = fit(csv, &["--rest", "1"]);
    let expected = check("worked-calibration", "band.nnls_clamps");
    expected.meets(0, number(&said["constants"]["a_n"]));
    expected.meets(1, number(&said["constants"]["b_n"]));
    assert_eq!(said["held_at_zero"]["b"], true);
    assert_eq!(said["correlation"], Value::Null);
}

#[test]
fn any_unit_and_any_spelling_gives_the_same_law() {
    let metric = fit("length_m,force_n\n0.6,13.2\n0.8,28.8\n1.0,39.1\n1.4,56.2\n", &["--rest", "0.5"]);
    let rows = [(0.6, 13.2), (0.8, 28.8), (1.0, 39.1), (1.4, 56.2)];
    let table = |head: &str, length: f64, force: f64, mark: &str| {
        let row = |(l, f): &(f64, f64)| format!("{:.9}{mark}{:.9}\n", l / length, f / force);
        format!("{head}\n{}", rows.iter().map(row).collect::<String>())
    };
    for (csv, rest) in [
        (table("Length (cm),Force (kg)", 0.01, 9.80665, ","), "50cm"),
        (table("length_in,force_lb", 0.0254, 4.4482216152605, ","), "19.68503937in"),
        (table("stretched length mm\tpull [lbf]", 0.001, 4.4482216152605, "\t"), "0.5 m"),
        (table("Length-m;Force-kgf", 1.0, 9.80665, ";").replace('.', ","), "500mm"),
    ] {
        let said = fit(&csv, &["--rest", rest]);
        for constant in ["a_n", "b_n"] {
            let (one, other) = (number(&said["constants"][constant]), number(&metric["constants"][constant]));
            assert!((one - other).abs() < 1e-5, "{csv}: {one} {other}");
        }
    }
}

#[test]
fn readings_that_cannot_be_used_are_refused_with_reason_place_and_hint() {
    let cases: [(&str, &str, &str); 12] = [
        ("length_m,force_n\n0.6,13\n", "0.5", "at least 4"),
        (
            "length_m,force_n\n0.6,13\n0.7,-2\n0.8,28\n0.9,34\n",
            "0.5",
            "line 3: -2.0 N: a scale cannot read less",
        ),
        ("length_m,force_n\n0.4,13\n0.7,20\n0.8,28\n0.9,34\n", "0.5", "line 2: 0.400 m is not longer"),
        ("length_m,force_n\n0.5,0\n0.7,20\n0.8,28\n0.9,34\n", "0.5", "band is slack"),
        ("length_m,force_n\n0.6,13\n70,21\n0.8,28\n0.9,34\n", "0.5", "where rubber breaks"),
        ("length_m,length_cm,force_n\n0.6,60,13\n", "0.5", "same quantity in two columns"),
        ("length_m,force_n\n60cm,13\n70cm,20\n80cm,28\n90cm,34\n", "0.5", "another unit than its column"),
        ("length,force\n0.6,13\n0.7,20\n0.8,28\n0.9,34\n", "0.5", "Which unit?"),
        ("length_m,force_n\n0.6,13\n0.7,33\n0.8,12\n0.9,34\n", "0.5", "weaker than line 3"),
        ("length_m,force_n\n0.6,13\n0.61,13\n0.6,13\n0.61,14\n", "0.5", "Spread them further"),
        ("length_m,force_n\n0.6,13\n0.7,20\n0.8,28\n0.9,34\n", "0", "makes no piece"),
        ("length_m,force_n\n0.6,13\n0.7,20\n0.8,28\n0.9,34\n", "long", "is not a length"),
    ];
    for (csv, rest, says) in cases {
        let said = cuffwright_reading(&["band", "fit", "-", "--rest", rest], csv.as_bytes());
        said.ends_with(2).says(&[says, "hint:"]);
        let said = cuffwright_reading(&["band", "fit", "-", "--rest", rest, "--json"], csv.as_bytes());
        let failure = said.ends_with(2).json("cuffwright.failure/1");
        assert!(!failure["problems"].as_array().unwrap().is_empty(), "{csv}");
    }
    cuffwright(&["band", "fit", "no-such-file.csv", "--rest", "0.5"]).ends_with(3);
}

// ---- torque ----

#[test]
fn two_hand_rotation_meets_the_worked_geometry() {
    for rest in ["0.4", "0.3"] {
        let said = torque(&format!(
            "geometry = \"two-hand-rotation\"\nelbow_spacing_m = 0.4\nforearm_m = 0.3\nfrom_deg = 0\nto_deg = 60\nat_deg = [0, 30, 45, 60]\n[band]\nrest_m = {rest}\nstiffness_n_per_m = 100\n"
        ));
        for (at, phi) in [0, 30, 45, 60].iter().enumerate() {
            let expected = check("worked-geometry", &format!("geom.bilateralER.L0={rest}.phi={phi}"));
            let point = &said["at"][at];
            expected.meets(0, number(&point["span_m"]));
            expected.meets(1, number(&point["pull_n"]));
            expected.meets(2, number(&point["torque_nm"]));
        }
        let peak = check("worked-geometry", &format!("geom.bilateralER.peak_angle.L0={rest}"));
        let found = number(&said["peak"]["angle_deg"]);
        // A maximum is flat: its place is only known to the root of the arithmetic's precision.
        assert!((found - peak.values[0].unwrap()).abs() < 1e-5, "{found}");
    }
    let said = torque(
        "geometry = \"two-hand-rotation\"\nelbow_spacing_m = 0.4\nforearm_m = 0.3\nfrom_deg = 0\nto_deg = 60\n[band]\nrest_m = 0.3\nstiffness_n_per_m = 100\n",
    );
    let expected = check("worked-geometry", "geom.bilateralER.virtual_work");
    expected.meets(0, 2.0 * number(&said["work_j"]));
    expected.meets(1, number(&said["band_energy_gain_j"]));
}

#[test]
fn a_loop_round_both_hands_meets_the_worked_geometry() {
    let text = fs::read_to_string(repository("examples/loads/loop-rotation.toml")).unwrap();
    let said = torque(&text.replace("to_deg = 45", "to_deg = 45\nat_deg = [0, 30, 45]"));
    for (at, phi) in [0, 30, 45].iter().enumerate() {
        let expected = check("worked-geometry", &format!("geom.loopER.phi={phi}"));
        let point = &said["at"][at];
        for (place, key) in ["span_m", "stretch", "strand_force_n", "torque_nm"].iter().enumerate() {
            expected.meets(place, number(&point[*key]));
        }
    }
}

#[test]
fn anchored_rotation_meets_the_worked_geometry_outwards_and_inwards() {
    let anchored = |anchor: &str, angles: &str, from: i32, to: i32| {
        torque(&format!(
            "geometry = \"anchored-rotation\"\nforearm_m = 0.3\nanchor_m = [{anchor}]\nfrom_deg = {from}\nto_deg = {to}\nat_deg = [{angles}]\n[band]\nrest_m = 0.8\nat_double_n = 60\n"
        ))
    };
    for anchor in ["-1.0, 0.0, 0.0", "-1.0, 0.3, 0.0"] {
        let said = anchored(anchor, "-30, 0, 30, 60", -30, 60);
        for (at, phi) in [-30, 0, 30, 60].iter().enumerate() {
            let expected = check("worked-geometry", &format!("geom.anchoredER.A=({anchor}).phi={phi}"));
            let point = &said["at"][at];
            for (place, key) in ["span_m", "pull_n", "torque_nm"].iter().enumerate() {
                expected.meets(place, number(&point[*key]));
            }
        }
    }
    let said = anchored("1.0, 0.0, 0.0", "60, 30, 0, -30", 60, -30);
    for (at, phi) in [60, 30, 0, -30].iter().enumerate() {
        let expected = check("worked-geometry", &format!("geom.anchoredIR.phi={phi}"));
        let point = &said["at"][at];
        expected.meets(0, number(&point["span_m"]));
        expected.meets(1, number(&point["pull_n"]));
        expected.meets(2, number(&point["torque_nm"]));
    }
    let said = anchored("-1.0, 0.3, 0.0", "0", -30, 60);
    let expected = check("worked-geometry", "geom.anchoredER.virtual_work");
    expected.meets(0, number(&said["work_j"]));
    expected.meets(1, number(&said["band_energy_gain_j"]));
}

#[test]
fn a_row_meets_the_worked_geometry_at_its_end() {
    let row = |rise: u32| {
        let text = fs::read_to_string(repository("examples/loads/row.toml")).unwrap();
        torque(&text.replace("rise_deg = 15", &format!("rise_deg = {rise}\nat_deg = [0]")))
    };
    let (level, sloped) = (row(0), row(15));
    let expected = check("worked-geometry", "geom.row.end");
    expected.meets(0, number(&level["at"][0]["stretch"]));
    expected.meets(1, number(&level["at"][0]["pull_n"]));
    expected.meets(3, number(&level["at"][0]["torque_nm"]));
    let expected = check("worked-geometry", "geom.row.sloped");
    expected.meets(0, number(&sloped["at"][0]["torque_nm"]));
    expected.meets(1, number(&sloped["at"][0]["elbow_torque_nm"]));
}

#[test]
fn a_raised_arm_meets_the_worked_statics_and_the_share_of_strength() {
    let text = fs::read_to_string(repository("examples/loads/hand-raise.toml")).unwrap();
    let said = torque(&text.replace("to_deg = 90", "to_deg = 90\nat_deg = [30, 60, 90]"));
    for (at, theta) in [30, 60, 90].iter().enumerate() {
        let expected = check("worked-statics", &format!("scaption.F55.1kg.{theta}"));
        expected.meets(0, number(&said["at"][at]["torque_nm"]));
    }
    let strength = check("worked-statics", "scaption.gross_strength.F55");
    strength.meets(0, number(&said["share_of_strength"]["strength_nm"]));
    check("worked-statics", "scaption.share.F55.1kg.90")
        .meets(0, number(&said["share_of_strength"]["share"]));
    let bare = torque(&text.replace("weight_kg = 1.0", "weight_kg = 0"));
    check("worked-statics", "scaption.F55.0kg.90").meets(0, number(&bare["peak"]["torque_nm"]));
    assert_eq!(said["share_of_strength"]["strength_is"], "measured");
}

#[test]
fn push_ups_rank_as_published_and_meet_the_worked_wall() {
    let push_up = |sex: &str, variant: &str| {
        let said = torque(&format!(
            "geometry = \"push-up\"\n{variant}\n[body]\nsex = \"{sex}\"\nmass_kg = 70\nstature_m = 1.75\n"
        ));
        number(&said["hand_load"]["share_of_body_weight"])
    };
    // The worked value takes r as 0.7324; the table's own r is 0.73240534.
    for (angle, id) in [(60, "pushup.wall.60"), (70, "pushup.wall.70"), (75, "pushup.wall.75")] {
        let expected = check("worked-push-up", id).values[0].unwrap() / 0.7324 * 0.732_405_336_746_302_5;
        let found = push_up("male", &format!("variant = \"wall\"\nwall_deg = {angle}"));
        assert!((found - expected).abs() < 1e-9, "{found} {expected}");
    }
    let heights = [
        "feet_height_m = 0.6096",
        "feet_height_m = 0.3048",
        "variant = \"floor\"",
        "height_m = 0.3048",
        "height_m = 0.6096",
        "variant = \"wall\"",
    ];
    let loads: Vec<f64> = heights.iter().map(|variant| push_up("male", variant)).collect();
    assert!(loads.windows(2).all(|pair| pair[1] < pair[0] + 1e-9), "{loads:?}");
    let knees = push_up("female", "variant = \"knees\"");
    assert!((knees / push_up("female", "variant = \"floor\"") - 0.79).abs() < 1e-9);
    // What a scale reads, beside Ebben 2011 through the fitted arm length.
    let said = torque(
        "geometry = \"push-up\"\nheight_m = 0.3048\n[body]\nsex = \"male\"\nmass_kg = 70\nstature_m = 1.75\n",
    );
    let scale = number(&said["hand_load"]["on_a_scale"]);
    let expected = check("worked-push-up", "pushup.incline.predict").values[3].unwrap();
    assert!((scale - expected).abs() < 1e-4, "{scale} {expected}");
}

#[test]
fn every_example_is_worked_out_in_words_and_in_json() {
    let folder = repository("examples/loads");
    let mut seen = 0;
    for entry in fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        let (name, path) =
            (path.file_name().unwrap().to_str().unwrap().to_owned(), path.to_str().unwrap().to_owned());
        let command: Vec<&str> = match name.as_str() {
            "band.csv" => vec!["band", "fit", &path, "--rest", "0.5"],
            "plan.csv" => vec!["fatigue", &path],
            "ladder.toml" => vec!["ladder", &path],
            "squad.toml" => vec!["cut", "list", &path],
            _ if name.ends_with(".toml") => vec!["torque", &path],
            _ => continue,
        };
        let words = cuffwright(&command).ends_with(0);
        assert!(words.out.lines().count() >= 2, "{name}: {words:?}");
        assert!(
            !words.out.contains("cli-") && !words.out.contains("load-"),
            "a sentence is missing: {words:?}"
        );
        let json = cuffwright(&[command.as_slice(), &["--json"]].concat()).ends_with(0);
        let value: Value = serde_json::from_str(&json.out).unwrap();
        assert!(value["shape"].as_str().unwrap().starts_with("cuffwright."), "{name}");
        seen += 1;
    }
    assert!(seen >= 10, "{seen} examples");
}

#[test]
fn descriptions_that_cannot_be_worked_out_say_why() {
    let band = "[band]\nrest_m = 0.5\na_n = 18\nb_n = 9\n";
    let cases = [
        (format!("forearm_m = 0.3\n{band}"), "is one of: two-hand-rotation"),
        (format!("geometry = \"squat\"\n{band}"), "is no geometry"),
        (format!("geometry = \"two-hand-rotation\"\nforearm_m = 0.3\n{band}"), "elbow_spacing_m” is missing"),
        ("geometry = \"two-hand-rotation\"\nelbow_spacing_m = 0.4\nforearm_m = 0.3\n".to_owned(), "Add a table [band]"),
        ("geometry = \"hand-raise\"\nweight_kg = 1\n[body]\nsex = \"female\"\nstature_m = 1.65\n".to_owned(), "body mass is missing"),
        ("geometry = \"hand-raise\"\n[body]\nsex = \"female\"\nmass_kg = 55\n".to_owned(), "stature is missing"),
        ("geometry = \"hand-raise\"\n".to_owned(), "add a table [body]"),
        (format!("geometry = \"two-hand-rotation\"\nelbow_spacing_m = 0.4\nelbow_spacing_cm = 40\nforearm_m = 0.3\n{band}"), "the same in two units"),
        (format!("geometry = \"two-hand-rotation\"\nelbow_spacing_m = 0.4\nforearn_m = 0.3\n{band}"), "Was “forearm_m” meant?"),
        (format!("geometry = \"two-hand-rotation\"\nelbow_spacing_m = -0.4\nforearm_m = 0.3\n{band}"), "is no length for this"),
        (format!("geometry = \"two-hand-rotation\"\nelbow_spacing_m = 0.4\nforearm_m = 0.3\nfrom_deg = 10\nto_deg = 10\n{band}"), "ends where it starts"),
        ("geometry = \"row\"\n[band\n".to_owned(), "not TOML"),
        ("geometry = \"hand-raise\"\n[body]\nsex = \"female\"\nmass_kg = 55\nstature_m = 165\n".to_owned(), "another unit meant"),
        ("geometry = \"two-hand-rotation\"\n[body]\nsex = \"female\"\nage_y = 15\nmass_kg = 55\nstature_m = 1.65\n[strength]\nassumed = true\n[band]\nrest_m = 0.5\na_n = 18\n".to_owned(), "under 18 no strength is assumed"),
    ];
    for (toml, says) in &cases {
        let said: Said = cuffwright_reading(&["torque", "-"], toml.as_bytes());
        said.ends_with(2).says(&[says, "hint:"]);
    }
}

#[test]
fn a_description_may_name_its_calibration_file() {
    let folder = Folder::new();
    folder.file("band.csv", fs::read_to_string(repository("examples/loads/band.csv")).unwrap());
    let description = folder.file(
        "rotation.toml",
        "geometry = \"two-hand-rotation\"\nelbow_spacing_m = 0.4\nforearm_m = 0.3\n[band]\nrest_m = 0.4\ncalibration = \"band.csv\"\ncalibration_rest_m = 0.5\n",
    );
    let said =
        cuffwright(&["torque", &description, "--at", "0", "--json"]).ends_with(0).json("cuffwright.torque/1");
    assert!((number(&said["at"][0]["stretch"]) - 1.0).abs() < 1e-12);
    assert!(0.0 < number(&said["peak"]["torque_nm"]));
}

// ---- fatigue ----

#[test]
fn a_held_load_fails_when_the_model_says_and_follows_its_trajectory() {
    for (load, sustained, trajectory) in [
        ("0.3", "3cc.sustained.0.3", "3cc.trajectory.0.3"),
        ("0.5", "3cc.sustained.0.5", "3cc.trajectory.0.5"),
    ] {
        let said = fatigue(&format!("seconds,load_share\n300,{load}\n"), &["--every", "0.1"]);
        check("xia-frey-law-2008", sustained).meets(0, number(&said["failed_at_s"]));
        let expected = check("xia-frey-law-2008", trajectory);
        for (at, seconds) in [0.1, 1.0, 10.0, 60.0, 120.0, 300.0].iter().enumerate() {
            let points = said["trajectory"].as_array().unwrap();
            let point = points.iter().find(|point| (number(&point["at_s"]) - seconds).abs() < 1e-6).unwrap();
            expected.meets(2 * at, number(&point["active"]));
            expected.meets(2 * at + 1, number(&point["fatigued"]));
        }
    }
}

#[test]
fn endurance_of_every_load_and_muscle_meets_the_closed_form() {
    for (muscle, id) in
        [("shoulder", "3cc.ET.shoulder"), ("elbow", "3cc.ET.elbow"), ("trunk", "3cc.ET.trunk")]
    {
        let expected = check("xia-frey-law-2008", id);
        for tenth in 1..=9_u32 {
            let csv = format!("seconds,load_share\n3600,0.{tenth}\n");
            let said = fatigue(&csv, &["--muscle", muscle]);
            expected.meets(tenth as usize - 1, number(&said["failed_at_s"]));
        }
    }
    for (muscle, id) in [
        ("ankle", "3cc.asymptote.ankle"),
        ("knee", "3cc.asymptote.knee"),
        ("trunk", "3cc.asymptote.trunk"),
        ("shoulder", "3cc.asymptote.shoulder"),
        ("elbow", "3cc.asymptote.elbow"),
        ("grip", "3cc.asymptote.grip"),
        ("general", "3cc.asymptote.default"),
    ] {
        let said = fatigue("seconds,load_share\n10,0.3\n", &["--muscle", muscle]);
        check("xia-frey-law-2008", id).meets(0, number(&said["endless_share"]));
    }
}

#[test]
fn sets_with_rest_meet_the_worked_session() {
    let set = "2,0.35\n1,0.15\n".repeat(15);
    let csv = format!("seconds,load_share\n{}", format!("{set}45,0\n").repeat(3));
    for (rest_factor, id) in [("15", "3ccr.session.3x15"), ("1", "3cc.session.3x15.r1")] {
        let said = fatigue(&csv, &["--rest-factor", rest_factor, "--every", "45"]);
        let expected = check("xia-frey-law-2008", id);
        for (at, seconds) in [45.0, 90.0, 135.0, 180.0, 225.0, 270.0].iter().enumerate() {
            let points = said["trajectory"].as_array().unwrap();
            let point = points.iter().find(|point| (number(&point["at_s"]) - seconds).abs() < 1e-6).unwrap();
            expected.meets(2 * at + 1, number(&point["fatigued"]));
        }
    }
    let on_off = format!("seconds,load_share\n{}", "1,0.5\n1,0\n".repeat(120));
    let said = fatigue(&on_off, &["--rest-factor", "1"]);
    check("xia-frey-law-2008", "3cc.1on1off.50.r1").meets(0, number(&said["failed_at_s"]));
    let said = fatigue(&on_off, &[]);
    assert_eq!((said["failed_at_s"].clone(), said["failed"].clone()), (Value::Null, Value::Bool(false)));
    let said = fatigue("seconds,load_share\n30,0.5\n30,0.2\n", &["--every", "0.1"]);
    let expected = check("xia-frey-law-2008", "3cc.stepdown");
    for (at, seconds) in [30.0, 30.1, 31.0, 60.0].iter().enumerate() {
        let points = said["trajectory"].as_array().unwrap();
        let point = points.iter().find(|point| (number(&point["at_s"]) - seconds).abs() < 1e-6).unwrap();
        expected.meets(2 * at, number(&point["active"]));
        expected.meets(2 * at + 1, number(&point["fatigued"]));
    }
}

#[test]
fn seconds_are_starts_where_they_begin_with_nought_and_rise() {
    let lasting = fatigue("seconds,load_pct\n60,30\n30,0\n60,30\n", &[]);
    let starting = fatigue("seconds,load_share\n0,0.3\n60,0\n90,0.3\n150,0\n", &["--every", "1"]);
    assert_eq!((&lasting["seconds_mean"], &starting["seconds_mean"]), (&"last".into(), &"start".into()));
    let at_150 = starting["trajectory"].as_array().unwrap().iter().find(|at| at["at_s"] == 150.0).unwrap();
    let (one, other) = (number(&lasting["at_end"]["fatigued"]), number(&at_150["fatigued"]));
    assert!((one - other).abs() < 1e-12, "{one} {other}");
    // An open end goes on until the muscle falls short.
    let held = fatigue("start_s,load_share\n0,0.3\n", &[]);
    check("xia-frey-law-2008", "3cc.sustained.0.3").meets(0, number(&held["failed_at_s"]));
    assert_eq!(held["at_end"]["at_s"], held["failed_at_s"]);
    let forced = fatigue("seconds,load_share\n0,0.3\n60,0.5\n", &["--seconds", "last"]);
    assert_eq!(number(&forced["at_end"]["at_s"]), 60.0);
}

#[test]
fn plans_that_cannot_be_worked_through_say_why() {
    for (csv, says) in [
        ("seconds,load_share\n60,30\n", "Per cent belong in a column load_pct"),
        ("seconds,load_share\n60,-0.1\n", "is no share of strength"),
        ("seconds,load_share\n-5,0.3\n", "time does not run backwards"),
        ("seconds,load_share\n4000,0.1\n", "says nothing about hours"),
        ("seconds\n60\n", "No column for load_share"),
        ("seconds,load_share\n60,much\n", "is not a number"),
        ("seconds,load_share\n", "Nothing to read"),
    ] {
        cuffwright_reading(&["fatigue", "-"], csv.as_bytes()).ends_with(2).says(&[says, "hint:"]);
    }
    let plan = b"seconds,load_share\n60,0.3\n";
    cuffwright_reading(&["fatigue", "-", "--muscle", "heart"], plan).ends_with(2).says(&["no muscle group"]);
    cuffwright_reading(&["fatigue", "-", "--rest-factor", "500"], plan)
        .ends_with(2)
        .says(&["make no muscle"]);
}
