//! What a file may be before anything in it is understood.

use app::import::{Cell, Kind, read_table};
use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Workbook};

use crate::world::{World, in_words, options, payloads, said, three};

fn refused(bytes: &[u8]) -> &'static str {
    read_table(bytes, "list").expect_err("the file is no table").says.id
}

#[test]
fn text_is_read_whatever_its_letters_and_its_delimiter() {
    let plain = "Name;Birth date\nZoë Vell;2012-12-19\n";
    let wide: Vec<u8> = plain.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let files: Vec<Vec<u8>> = vec![
        plain.as_bytes().to_vec(),
        [b"\xEF\xBB\xBF".as_slice(), plain.as_bytes()].concat(),
        [b"\xFF\xFE".as_slice(), &wide].concat(),
        wide.clone(),
        [b"\xFE\xFF".to_vec(), plain.encode_utf16().flat_map(u16::to_be_bytes).collect()].concat(),
        b"Name;Birth date\nZo\xEB Vell;2012-12-19\n".to_vec(),
        b"sep=;\nName;Birth date\nZo\xEB Vell;2012-12-19\n".to_vec(),
        "Name,Birth date\r\nZoë Vell,2012-12-19\r\n".into(),
        "Name\tBirth date\rZoë Vell\t2012-12-19\r".into(),
        "\"Name\"|\"Birth date\"\n\"Zoë Vell\"|\"2012-12-19\"".into(),
    ];
    for bytes in files {
        let preview = World::default().try_read(&bytes, None, &options()).expect("a roster");
        assert_eq!(preview.rows[0].about, "Zoë Vell", "{bytes:?}");
        assert!(preview.is_ready());
    }
    let guessed = read_table(b"Name;Born\nZo\xEB;x\n", "list").unwrap();
    assert!(guessed.notes.iter().any(|note| note.says == "import-note-encoding-guessed"));
}

#[test]
fn what_is_no_table_is_refused() {
    assert_eq!(refused(b""), "import-file-empty");
    assert_eq!(refused(b"\n\n ; ;\n"), "import-file-empty");
    assert_eq!(refused(b"%PDF-1.7"), "import-file-pdf");
    assert_eq!(refused(b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"), "import-file-old-workbook");
    assert_eq!(refused(b"PK\x03\x04 and then nothing"), "import-file-bad-workbook");
    assert_eq!(refused(b"\x00\x01\x02\x03\x00\x00\xFF"), "import-file-not-a-table");
    assert_eq!(refused(&vec![b'a'; 21 * 1024 * 1024]), "import-file-too-large");
    assert_eq!(refused("a;b\n".repeat(50_001).as_bytes()), "import-file-too-many-rows");
    assert_eq!(refused(";x".repeat(300).as_bytes()), "import-file-too-many-columns");
    assert_eq!(refused(format!("Name;Born\n{};x", "y".repeat(5000)).as_bytes()), "import-file-long-cell");
    assert_eq!(refused(b"Name;Born\nA;\"2012\nB;2013\n"), "import-file-open-quote");
}

#[test]
fn row_numbers_are_those_a_person_sees() {
    let table = read_table(
        b"Squad list\n\n\nName;Birth date\r\n\r\nA B;2012-01-01\n\n\"C\nD\";2012-01-02\nE F;x\n",
        "list",
    );
    let numbers: Vec<u32> = table.unwrap().rows.iter().map(|row| row.number).collect();
    assert_eq!(numbers, [1, 4, 6, 8, 10]);
    let said_first = read_table(b"sep=;\n\nName;Birth date\nA B;2012-01-01\n", "list").unwrap();
    assert_eq!(said_first.rows.iter().map(|row| row.number).collect::<Vec<_>>(), [3, 4]);
}

#[test]
fn a_workbook_gives_cells_as_it_holds_them() {
    let mut book = Workbook::new();
    book.add_worksheet().set_name("Empty").unwrap();
    let day = Format::new().set_num_format("dd/mm/yyyy");
    let clock = Format::new().set_num_format("[h]:mm:ss");
    let sheet = book.add_worksheet();
    sheet.set_name("List").unwrap();
    sheet.write(4, 1, "Name").unwrap().write(4, 2, "Birth date").unwrap();
    sheet.write(4, 3, "Height (cm)").unwrap().write(4, 4, "Measured on").unwrap();
    sheet.write(6, 1, "Nia Thistlewick").unwrap().write(6, 3, 159.6).unwrap();
    sheet.write_with_format(6, 2, ExcelDateTime::from_ymd(2012, 12, 24).unwrap(), &day).unwrap();
    sheet.write_with_format(6, 4, ExcelDateTime::from_ymd(2026, 9, 8).unwrap(), &day).unwrap();
    sheet.write_with_format(8, 1, 0.0625, &clock).unwrap();
    sheet.write_formula(9, 1, Formula::new("=1/0").set_result("#DIV/0!")).unwrap();
    sheet.write(9, 2, true).unwrap();
    let other = book.add_worksheet();
    other.write(0, 0, "not read").unwrap();
    let bytes = book.save_to_buffer().unwrap();
    let table = read_table(&bytes, "list.xlsx").unwrap();
    assert_eq!(table.rows.iter().map(|row| row.number).collect::<Vec<_>>(), [5, 7, 9, 10]);
    assert_eq!(table.rows[1].cells[2], Cell::Day(jiff::civil::date(2012, 12, 24)));
    assert_eq!(table.rows[1].cells[3], Cell::Number(159.6));
    assert_eq!(table.rows[2].cells[1], Cell::Duration(5400.0));
    assert!(
        matches!(&table.rows[3].cells[1], Cell::Broken(_) | Cell::Text(_)),
        "{:?}",
        table.rows[3].cells[1]
    );
    assert_eq!(table.rows[3].cells[2], Cell::Truth(true));
    assert!(table.notes.iter().any(|note| note.says == "import-note-sheet-not-read"));
}

#[test]
fn a_lone_cell_in_the_last_corner_costs_nothing_and_is_refused() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    sheet.write(0, 0, "Name").unwrap().write(1_048_575, 16_383, "corner").unwrap();
    assert_eq!(refused(&book.save_to_buffer().unwrap()), "import-file-too-many-columns");
}

#[test]
fn a_failed_formula_is_a_problem_of_its_cell() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, header) in (0_u16..).zip(["Mark", "Kind", "Force (N)"]) {
        sheet.write(0, column, header).unwrap();
    }
    sheet.write(1, 0, "B16").unwrap().write(1, 1, "band").unwrap();
    sheet.write_formula(1, 2, Formula::new("=NA()").set_result("#N/A")).unwrap();
    let preview = World::default().try_read(&book.save_to_buffer().unwrap(), None, &options()).unwrap();
    // The writer stores the failed result as text, as some programs do; either way the row is blocked.
    assert!(
        said(&preview).iter().all(|(row, says)| {
            *row == Some(2) && ["import-cell-broken", "import-not-a-number"].contains(says)
        }),
        "{:?}",
        said(&preview)
    );
    assert!(!preview.is_ready());
}

#[test]
fn the_kind_is_told_from_the_headers() {
    let cases = [
        ("Name;Geburtsdatum;Größe (cm)\nA B;2012-01-01;\n", Kind::Roster),
        ("Vorname;NACHNAME;geb.\nA;B;2012-01-01\n", Kind::Roster),
        ("Club number,Date,ER force L (N)\n101,2026-09-08,80\n", Kind::Screening),
        (
            "Name,Date of birth,Date,ER range left,ER range right\nA,2012-01-01,2026-09-08,90,95\n",
            Kind::Screening,
        ),
        ("Mark,Type,Force at double length (lbf)\nB16,band,3.6\n", Kind::Kit),
        ("Swimmer,Date,Exercise,Side,Set 1,Set 2\nA,2026-09-08,RC-1,left,85 F6,80 F6\n", Kind::Sets),
    ];
    for (text, kind) in cases {
        assert_eq!(app::import::detect(&read_table(text.as_bytes(), "list").unwrap()), Ok(kind), "{text}");
    }
}

#[test]
fn a_kind_that_cannot_be_told_says_what_is_missing() {
    let table = read_table(b"Name;Birt date;Squad\nA B;2012-01-01;X\n", "list").unwrap();
    let problem = app::import::detect(&table).unwrap_err();
    assert_eq!(problem.says.id, "import-kind-unknown");
    let suggestions: Vec<_> = problem.suggestions.iter().map(|said| (said.id, said.args.clone())).collect();
    assert!(
        suggestions.contains(&(
            "import-try-header",
            vec![("header", "Birt date".to_owned()), ("meant", "birth date".to_owned())]
        )),
        "{suggestions:?}"
    );
    assert!(suggestions.iter().any(|(id, _)| *id == "import-try-adding-columns"));
    let forced = World::default().try_read(b"Name;Squad\nA;B\n", Some(Kind::Kit), &options()).unwrap_err();
    assert_eq!(forced.says.id, "import-no-headers");
}

#[test]
fn columns_that_cannot_be_settled_block_and_unknown_ones_are_named() {
    let preview = three().read("Name;Birth date;Born;Mass (stone);Lane\nA B;2012-01-01;2012-01-01;7;4\n");
    let says: Vec<_> = preview.problems.iter().map(|problem| problem.says).collect();
    for wanted in ["import-column-twice", "import-column-unknown-unit", "import-column-not-used"] {
        assert!(says.contains(&wanted), "{wanted}: {says:?}");
    }
    assert!(!preview.is_ready());
    let sideless = three().read("Club number;Date;ER force (N)\n101;2026-09-08;80\n");
    assert!(said(&sideless).contains(&(None, "import-column-needs-side")));
    for problem in preview.problems.iter().chain(&sideless.problems) {
        in_words(problem);
    }
}

#[test]
fn a_row_with_an_unquoted_decimal_comma_is_not_shifted_into_place() {
    let preview = three().read("Name,Birth date,Height (cm),Measured on\nA B,2012-01-01,158,5,2026-09-08\n");
    assert!(said(&preview).contains(&(Some(2), "import-row-too-long")), "{:?}", said(&preview));
}

#[test]
fn what_looks_like_a_formula_is_a_name_like_any_other() {
    for name in ["=Vesper Nightjar", "+Milo", "-Ines", "@Hugo", "=1+1"] {
        let preview = World::default().read(&format!("Name;Birth date\n{name};2012-01-01\n"));
        assert!(preview.is_ready());
        assert_eq!(payloads(&preview, app::facts::Kind::Swimmer)[0]["name"], name);
    }
}
