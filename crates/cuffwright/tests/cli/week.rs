//! `week`, `rota` and `fit`: contracts for outside checks, from a file or standard input.

use std::fs;

use serde_json::Value;

use super::run::{Folder, cuffwright, cuffwright_reading, repository};

/// Code blocks of the page in one language.
fn examples(language: &str) -> Vec<String> {
    let page = fs::read_to_string(repository("docs/week.md")).unwrap();
    let fence = format!("```{language}\n");
    page.split(&fence).skip(1).filter_map(|rest| rest.split("```").next()).map(str::to_owned).collect()
}

fn week(text: &str) -> (i32, Value) {
    let said = cuffwright_reading(&["week", "-", "--json"], text.as_bytes());
    (said.code, said.json("cuffwright.week/1"))
}

#[test]
fn the_examples_of_the_page_are_answered_as_it_says() {
    let examples = examples("toml");
    assert_eq!(examples.len(), 3);
    let (code, plan) = week(&examples[0]);
    assert_eq!((code, &plan["outcome"], &plan["proven"]), (0, &"plan".into(), &true.into()));
    assert_eq!(plan["plan"].as_array().unwrap().len(), 3);
    let request = &plan["requests"][0];
    assert_eq!(request["allowed"], false);
    assert_eq!(request["offers"].as_array().unwrap().len(), 3, "{request}");
    let reasons: Vec<&str> = request["reasons"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["requirement"].as_str().unwrap())
        .collect();
    assert!(reasons.contains(&"before-water"), "{reasons:?}");
    let (code, clash) = week(&examples[1]);
    assert_eq!((code, &clash["outcome"], &clash["clash"]["smallest"]), (1, &"clash".into(), &true.into()));
    let names: Vec<&str> = clash["clash"]["requirements"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["requirement"].as_str().unwrap())
        .collect();
    assert!(names.contains(&"sessions") && names.contains(&"before-water"), "{names:?}");
    let (code, repair) = week(&examples[2]);
    assert_eq!((code, &repair["repair"]["kept"]), (0, &1.into()));
    assert_eq!(repair["repair"]["moves"].as_array().unwrap().len(), 1);
}

#[test]
fn a_week_in_words_says_the_same() {
    let text = &examples("toml")[0];
    cuffwright_reading(&["week", "-"], text.as_bytes()).ends_with(0).says(&[
        "A plan; none has more points than its",
        "Seniors, 2026-03-10 15:20-15:45 deck: no",
        "15 min from the end of dryland to the water",
        "the same day, after the last practice",
    ]);
    cuffwright_reading(&["week", "-"], examples("toml")[1].as_bytes())
        .ends_with(1)
        .says(&["There is no plan", "With one session fewer there is a plan"]);
}

#[test]
fn every_problem_of_a_week_is_named_with_its_place_and_a_hint() {
    let bad = "zone = \"Europe/Amsterdm\"\nfrom = 2026-03-09\n[[groups]]\nname = \"A\"\nswimmers = 3\n[[practises]]\nday = \"Mon\"\n";
    cuffwright_reading(&["week", "-"], bad.as_bytes()).ends_with(2).says(&[
        "standard input:1:8: “Europe/Amsterdm” is not a time zone",
        "Nearest: Europe/Amsterdam",
        "standard input:6:3: “practises” is not known",
    ]);
    let said = cuffwright_reading(&["week", "-", "--json"], bad.as_bytes()).ends_with(2);
    let json = said.json("cuffwright.failure/1");
    assert_eq!(json["problems"].as_array().unwrap().len(), 2);
    cuffwright(&["week"]).ends_with(2).says(&["Give a file with a described week"]);
}

#[test]
fn the_rota_of_the_page_is_proven() {
    let table = &examples("csv")[0];
    let said = cuffwright_reading(&["rota", "-", "--json"], table.as_bytes()).ends_with(0);
    let json = said.json("cuffwright.rota/1");
    assert_eq!((&json["minutes"], &json["proven"]), (&16.into(), &true.into()));
    assert_eq!(json["visits"].as_array().unwrap().len(), 8);
    assert!(json["starts"]["B"].get("mats").is_none(), "a zero is no visit");
    cuffwright_reading(&["rota", "-"], table.as_bytes()).ends_with(0).says(&["16 min; no rota is shorter."]);
    cuffwright_reading(&["rota", "-"], b"group,wall\nA,\n")
        .ends_with(2)
        .says(&["standard input:2: A at wall is blank.", "Write 0 where a group does not visit a station"]);
}

/// The paper's generator, its seeds and its optima as in the tests of `schedule`, where the source is named: one of each
/// size through the command.
#[test]
fn published_instances_come_out_at_their_optimum() {
    struct Generator(i64);
    impl Generator {
        fn between(&mut self, low: i64, high: i64) -> i64 {
            let k = self.0 / 127_773;
            self.0 = 16_807 * (self.0 % 127_773) - k * 2_836;
            if self.0 < 0 {
                self.0 += 2_147_483_647;
            }
            low + (self.0 as f64 / 2_147_483_647.0 * (high - low + 1) as f64) as i64
        }
    }
    let folder = Folder::new();
    for (n, times, machines, optimum) in [
        (4, 1_166_510_396, 164_000_672, 193),
        (5, 527_556_884, 1_343_124_817, 300),
        (7, 1_840_686_215, 1_827_454_623, 435),
    ] {
        let (mut times, mut machines) = (Generator(times), Generator(machines));
        let durations: Vec<Vec<i64>> =
            (0..n).map(|_| (0..n).map(|_| times.between(1, 99)).collect()).collect();
        let mut table = (0..n).fold("job".to_owned(), |head, at| format!("{head},M{at}"));
        for (job, row) in durations.iter().enumerate() {
            let mut order: Vec<usize> = (0..n as usize).collect();
            for at in 0..n {
                order.swap(at as usize, machines.between(at, n - 1) as usize);
            }
            let mut stays = vec![0; n as usize];
            for (machine, duration) in order.into_iter().zip(row) {
                stays[machine] = *duration;
            }
            let cells: Vec<String> = stays.iter().map(i64::to_string).collect();
            table.push_str(&format!("\nJ{job},{}", cells.join(",")));
        }
        let file = folder.file(&format!("tai{n}.csv"), &table);
        let json = cuffwright(&["rota", &file, "--json"]).ends_with(0).json("cuffwright.rota/1");
        assert_eq!((&json["minutes"], &json["proven"]), (&optimum.into(), &true.into()), "{n}x{n}");
    }
}

#[test]
fn a_session_that_does_not_fit_says_what_would() {
    let said = cuffwright(&["fit", "--minutes", "45", "--two-arm", "4", "--json"]).ends_with(1);
    let json = said.json("cuffwright.fit/1");
    assert_eq!((&json["usable"], &json["fits"]), (&"26:00".into(), &false.into()));
    let options = json["options"].as_array().unwrap();
    let rotating = options.iter().find(|one| one["way"] == "rotating-full-dose").unwrap();
    assert_eq!((&rotating["clock"], &rotating["fits"]), (&"21:15".into(), &true.into()));
    cuffwright(&["fit", "--minutes", "45", "--two-arm", "3"])
        .ends_with(0)
        .says(&["as asked", "22:30", "fits"]);
    cuffwright(&["fit", "--minutes", "45"]).ends_with(2).says(&["No exercise is named."]);
}
