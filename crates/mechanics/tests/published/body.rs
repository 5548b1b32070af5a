//! Segment tables and what follows from them.
//!
//! Sources: de Leva 1996, J Biomech 29(9):1223-1230, Table 4; Drillis & Contini 1966, as Winter's Figure 4.1; Jensen
//! 1986, J Biomech 19(5):359-368. Derived values were worked independently in double precision.

use mechanics::body::{
    Body, LengthSet, Person, Segment, Sex, Tape, Years, arm_mass_share, boy_head_share,
    drillis_contini_lengths, whole_body_share,
};
use quantity::{Length, Mass};

use crate::references::{check, number, table};

pub(crate) fn adult(sex: Sex, kilograms: f64, metres: f64, set: LengthSet) -> Body {
    let person = Person {
        sex,
        age: Years(25),
        mass: Mass::from_kilograms(kilograms),
        stature: Length::from_metres(metres),
    };
    Body::estimate(person, set, &Tape::default()).expect("an ordinary adult")
}

#[test]
fn every_row_in_use_is_the_printed_one() {
    for sex in [Sex::Female, Sex::Male] {
        let body = adult(sex, 100.0, 1.0, LengthSet::DeLeva);
        let rows: [(&str, Segment); 6] = [
            ("upper arm", body.upper_arm),
            ("forearm", body.forearm),
            ("hand", body.hand),
            ("thigh", body.thigh),
            ("shank", body.shank),
            ("trunk (3)", body.trunk),
        ];
        let prefix = if sex == Sex::Female { "female" } else { "male" };
        for (name, segment) in rows {
            let table = table("deleva-1996", "segments.csv");
            let row = table.iter().find(|row| row["segment"] == name).expect("the row is printed");
            let column = |what: &str| number(row, &format!("{prefix}_{what}"));
            // Half a unit of the fourth printed digit, times 100 kg.
            assert!((segment.mass.value.value.kilograms() / 100.0 - column("mass")).abs() < 1e-12, "{name}");
            assert_eq!(segment.centre.fraction(), column("com"), "{name}");
            assert_eq!(segment.gyration.sagittal, column("rg_sagittal"), "{name}");
            assert_eq!(segment.gyration.transverse, column("rg_transverse"), "{name}");
            assert_eq!(segment.gyration.longitudinal, column("rg_longitudinal"), "{name}");
        }
        for (name, segment) in
            [("upper_arm", body.upper_arm), ("forearm", body.forearm), ("wrist_to_MCP3", body.hand)]
        {
            let table = table("deleva-1996", "lengths.csv");
            let row = table.iter().find(|row| row["segment"] == name).expect("the row is printed");
            assert!((segment.length.value.value.metres() - number(row, prefix)).abs() < 1e-15, "{name}");
        }
    }
}

#[test]
fn every_fraction_of_stature_in_use_is_the_printed_one() {
    let body = adult(Sex::Male, 70.0, 1.0, LengthSet::DrillisContini);
    let used = [
        ("biacromial", body.shoulder_breadth),
        ("upper_arm", body.upper_arm.length),
        ("forearm", body.forearm.length),
        ("thigh", body.thigh.length),
        ("shank", body.shank.length),
        ("foot", body.foot.length),
        ("ankle_height", body.ankle_height),
        ("hip_to_shoulder", body.trunk.length),
    ];
    for (name, length) in used {
        let table = table("drillis-contini-1966", "fractions.csv");
        let row = table.iter().find(|row| row["segment"] == name).expect("the row is printed");
        assert_eq!(length.value.value.metres(), number(row, "fraction_of_stature"), "{name}");
    }
}

#[test]
fn mass_shares_add_up() {
    for (sex, sum, arm) in [
        (Sex::Male, "anthro.mass_sum.M", "anthro.arm_mass_fraction.M"),
        (Sex::Female, "anthro.mass_sum.F", "anthro.arm_mass_fraction.F"),
    ] {
        check(sum, &[whole_body_share(sex).fraction()]);
        check(arm, &[arm_mass_share(sex).fraction()]);
    }
}

#[test]
fn segment_masses_and_lengths() {
    for (id, sex, kilograms) in
        [("anthro.segments.F55", Sex::Female, 55.0), ("anthro.segments.M70", Sex::Male, 70.0)]
    {
        let body = adult(sex, kilograms, 1.70, LengthSet::DrillisContini);
        check(id, &[body.upper_arm, body.forearm, body.hand].map(|part| part.mass.value.value.kilograms()));
    }
    check("anthro.lengths.DC.165", &drillis_contini_lengths(Length::from_metres(1.65)).map(Length::metres));
}

#[test]
fn first_moments_of_a_straight_arm() {
    let cases = [
        (
            Sex::Male,
            "anthro.arm_first_moment.M.DC",
            "anthro.arm_first_moment.M.deLeva",
            "anthro.arm_first_moment_ratio.M",
        ),
        (
            Sex::Female,
            "anthro.arm_first_moment.F.DC",
            "anthro.arm_first_moment.F.deLeva",
            "anthro.arm_first_moment_ratio.F",
        ),
    ];
    for (sex, drillis, deleva, ratio) in cases {
        let k = |set| adult(sex, 60.0, 1.70, set).arm().first_moment_coefficient();
        check(drillis, &[k(LengthSet::DrillisContini)]);
        check(deleva, &[k(LengthSet::DeLeva)]);
        check(ratio, &[k(LengthSet::DrillisContini) / k(LengthSet::DeLeva)]);
    }
}

#[test]
fn inertia_of_a_straight_arm() {
    let arm = adult(Sex::Female, 55.0, 1.65, LengthSet::DrillisContini).arm();
    let inertia = arm.inertia(Mass::from_kilograms(0.0));
    check("anthro.arm_inertia.F55_165", &[inertia.kilogram_square_metres()]);
}

#[test]
fn the_head_of_a_boy_of_twelve() {
    let share = boy_head_share(Years(12)).expect("twelve lies inside the study");
    check("anthro.jensen_head.12y", &[share.fraction()]);
}
