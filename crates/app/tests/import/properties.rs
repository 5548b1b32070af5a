//! What holds of any file: it never panics, and the order of its rows and columns says nothing.

use app::import::{Kind, Preview, read_table};
use proptest::prelude::*;
use rust_xlsxwriter::Workbook;

use crate::world::{World, options, three};

/// Facts without the rows they came from, and problems without theirs.
fn content(preview: &Preview) -> (Vec<String>, Vec<String>) {
    let facts = preview
        .facts
        .iter()
        .map(|fact| format!("{} {:?} {} {:?}", fact.natural_key, fact.subject, fact.payload, fact.change))
        .collect();
    let mut problems: Vec<String> = preview
        .problems
        .iter()
        // These name other rows, which is what the order of rows changes.
        .filter(|problem| problem.says != "import-note-date-order" && problem.says != "import-note-repeated")
        .map(|problem| {
            format!("{:?} {:?} {} {:?}", problem.column, problem.value, problem.says, problem.weight)
        })
        .collect();
    problems.sort();
    (facts, problems)
}

const ROSTER: [&str; 9] = [
    "Ada Fenwick-Moss;17.04.2012;Otters;101;158,2;08.09.2026",
    "Ada Fenwick-Moss;02.11.2014;Minnows;102;146,5;08.09.2026",
    "Pip Quillfeather;28.02.2009;Herons;;176,4;08.09.2026",
    "Pip Quillfeather;28.02.2009;;103;;",
    "Nia Thistlewick;24.12.2012;Otters;117;;",
    "Nia Thistlewick;24.12.2012;Otters;117;;",
    "Rowan Juniper;31.04.2009;Herons;7;178;08.09.2026",
    ";01.01.2011;Otters;8;160;08.09.2026",
    "Tove Brambleby;09.07.2010;Herons;104;118;08.09.2026",
];

const SETS: [&str; 5] = [
    "101;2026-11-09;RC-1;left;b16;120 cap;85 F6;after practice;0",
    "101;2026-11-09;RC-1;right;b16;110 F6;80 F6;after practice;",
    "102;2026-11-09;SC-1;;b10;60 F7;;after practice;L2 R0",
    "101;2026-11-11;CO-1;;floor;60 cap;;rested;",
    "999;2026-11-11;CO-1;;floor;60 cap;;rested;",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn the_order_of_roster_rows_does_not_matter(rows in Just(ROSTER.to_vec()).prop_shuffle()) {
        let read = |rows: &[&str]| {
            three().read(&format!("Name;Birth date;Squad;Club number;Height (cm);Measured on\n{}\n", rows.join("\n")))
        };
        prop_assert_eq!(content(&read(&rows)), content(&read(&ROSTER)));
    }

    #[test]
    fn the_order_of_set_rows_does_not_matter(rows in Just(SETS.to_vec()).prop_shuffle()) {
        let read = |rows: &[&str]| {
            three().read(&format!(
                "Club number;Date;Exercise;Side;Rung;Set 1;Set 2;Context;Pain before\n{}\n",
                rows.join("\n")
            ))
        };
        prop_assert_eq!(content(&read(&rows)), content(&read(&SETS)));
    }

    #[test]
    fn the_order_of_columns_does_not_matter(order in Just(vec![0_usize, 1, 2, 3, 4, 5]).prop_shuffle()) {
        let header = ["Name", "Birth date", "Squad", "Club number", "Height (cm)", "Measured on"];
        let read = |order: &[usize]| {
            let line = |cells: &[&str]| order.iter().map(|&place| cells[place]).collect::<Vec<_>>().join(";");
            let rows: Vec<String> =
                ROSTER.iter().map(|row| line(&row.split(';').collect::<Vec<_>>())).collect();
            three().read(&format!("{}\n{}\n", line(&header), rows.join("\n")))
        };
        prop_assert_eq!(content(&read(&order)), content(&read(&[0, 1, 2, 3, 4, 5])));
    }

    #[test]
    fn arbitrary_bytes_never_panic(bytes in proptest::collection::vec(any::<u8>(), 0..600)) {
        let _ = read_table(&bytes, "list");
    }

    #[test]
    fn arbitrary_text_never_panics(text in "[A-Za-z0-9;,\t\"\n\r.=+@/() -]{0,300}") {
        for kind in Kind::ALL {
            let _ = World::default().try_read(text.as_bytes(), Some(*kind), &options());
        }
    }

    #[test]
    fn arbitrary_cells_under_known_headers_never_panic(
        cells in proptest::collection::vec("[A-Za-z0-9,.:/'\"°=+@ -]{0,10}", 15 * 3),
    ) {
        let lists = [
            "Name;Birth date;Sex;Seasons;Club number;Phone;Height (cm);Mass;Measured on;Consent signed;Consent items;Intake date;Operation;Red flags asked;Red flags",
            "Name;Birth date;Club number;Date;Tester;ER range L;ER range R;ER force L;ER force R (lb);Plank;Beighton;Visible hollow;Lever arm;Pec minor L;Pec minor R",
            "Mark;Kind;Force;Length;Mass;Pieces;In service;Latex;a;b;c;d;e;f;g",
            "Name;Club number;Date;Exercise;Side;Rung;Level;Hand weight;Set 1;Set 2;End 1;Fault 1;Seen;Context;Pain before",
        ];
        for header in lists {
            let rows: Vec<String> = cells.chunks(15).map(|row| row.join(";").replace('"', "\"\"")).collect();
            let _ = three().try_read(format!("{header}\n{}\n", rows.join("\n")).as_bytes(), None, &options());
        }
    }

    #[test]
    fn a_damaged_workbook_never_panics(place in 0_usize..4000, byte in any::<u8>(), cut in 0_usize..4000) {
        let mut book = Workbook::new();
        let sheet = book.add_worksheet();
        sheet.write(0, 0, "Name").unwrap().write(0, 1, "Birth date").unwrap().write(1, 0, "A B").unwrap();
        let mut bytes = book.save_to_buffer().unwrap();
        let length = bytes.len();
        bytes[place % length] = byte;
        let _ = read_table(&bytes, "list.xlsx");
        bytes.truncate(cut % length);
        let _ = read_table(&bytes, "list.xlsx");
    }

    #[test]
    fn a_file_imported_twice_adds_nothing(heights in proptest::collection::vec(1250_u32..2050, 1..12)) {
        let rows: Vec<String> = heights
            .iter()
            .enumerate()
            .map(|(i, height)| format!("P{i} Q;20{:02}-03-{:02};{},{};2026-09-08", 8 + i % 7, 1 + i, height / 10, height % 10))
            .collect();
        let list = format!("Name;Birth date;Height (cm);Measured on\n{}\n", rows.join("\n"));
        let mut world = World::default();
        let first = world.read(&list);
        prop_assert_eq!(first.counts.added, 2 * heights.len());
        world.record(&first);
        let again = world.read(&list);
        prop_assert_eq!((again.counts.added, again.counts.corrected), (0, 0));
    }
}
