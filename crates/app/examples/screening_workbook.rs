//! Writes `examples/screening.xlsx`, the screening day of the invented club, from `examples/roster.csv`.
//!
//! Run from the root of the project: `cargo run -p app --example screening_workbook`. The same roster gives the same
//! values. Strengths stand in pounds and lengths in inches, as one tester's sheet has them; the list itself is metric.

use std::error::Error;
use std::path::Path;

use app::import::{Kind, Known, OnRecord, Options, preview, read_table};
use jiff::civil::date;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook};

const HEADERS: [&str; 21] = [
    "No.",
    "Swimmer",
    "Date",
    "Tester",
    "ER range L (deg)",
    "ER range R (deg)",
    "IR range L (deg)",
    "IR range R (deg)",
    "ER force L (lb)",
    "ER force R (lb)",
    "IR force L (lb)",
    "IR force R (lb)",
    "Lever arm (in)",
    "Posterior endurance L (s)",
    "Posterior endurance R (s)",
    "Plank (s)",
    "Side bridge L (s)",
    "Side bridge R (s)",
    "Pec minor L (in)",
    "Pec minor R (in)",
    "Beighton",
];

fn main() -> Result<(), Box<dyn Error>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join("examples");
    let roster = read_table(&std::fs::read(root.join("roster.csv"))?, "roster.csv")?;
    let known = Known {
        swimmers: &[],
        exercises: app::import::Exercises::of(trade::protocol::read::shipped()),
        on_record: &|_, _| OnRecord::Nothing,
    };
    let options = Options::new(date(2026, 11, 25), uuid::Uuid::nil());
    let mut swimmers = preview(&roster, Kind::Roster, &known, &options)?.swimmers();
    swimmers.sort_by(|a, b| a.club_number.cmp(&b.club_number));

    let mut book = Workbook::new();
    let made = ExcelDateTime::from_ymd(2026, 9, 12)?;
    book.set_properties(&DocProperties::new().set_title("Screening day").set_creation_datetime(&made));
    let sheet = book.add_worksheet();
    sheet.set_name("Screening")?;
    let bold = Format::new().set_bold();
    let as_date = Format::new().set_num_format("dd/mm/yyyy");
    sheet.write_with_format(0, 0, "Screening day, Driftwood Bay (invented)", &bold)?;
    for (column, header) in (0_u16..).zip(HEADERS) {
        sheet.write_with_format(2, column, header, &bold)?;
    }
    let mut row = 3;
    for swimmer in &swimmers {
        let number: u32 = swimmer.club_number.as_deref().unwrap_or("0").parse()?;
        if number == 121 {
            continue;
        }
        let age = f64::from(2026 - i32::from(swimmer.born.year()));
        let wobble =
            |salt: u32, span: u32| f64::from(number.wrapping_mul(salt) % (2 * span + 1)) - f64::from(span);
        let half = |value: f64| (value * 2.0).round() / 2.0;
        sheet.write(row, 0, number)?;
        sheet.write(row, 1, swimmer.name.as_str())?;
        sheet.write_with_format(
            row,
            2,
            ExcelDateTime::from_ymd(2026, 9, 9 + (number % 2) as u8)?,
            &as_date,
        )?;
        sheet.write(row, 3, if number.is_multiple_of(2) { "H. Marsh" } else { "L. Vane" })?;
        let er = 12.0 + 1.4 * (age - 11.0) + 0.5 * wobble(7, 3);
        let ir = er * 1.12 + 0.5 * wobble(5, 2);
        let values = [
            96.0 + wobble(3, 8),
            98.0 + wobble(11, 8),
            52.0 + wobble(13, 9),
            48.0 + wobble(17, 9),
            half(er),
            half(er + 0.4 * wobble(19, 3)),
            half(ir),
            half(ir + 0.4 * wobble(23, 3)),
            half(8.0 + 0.25 * (age - 11.0)),
            38.0 + 2.0 * (age - 11.0) + wobble(29, 9),
            40.0 + 2.0 * (age - 11.0) + wobble(31, 9),
            55.0 + 6.0 * (age - 11.0) + wobble(37, 15),
            32.0 + 3.0 * (age - 11.0) + wobble(41, 8),
            34.0 + 3.0 * (age - 11.0) + wobble(43, 8),
            half(5.5 + 0.1 * (age - 11.0)),
            half(5.5 + 0.1 * (age - 11.0)),
            f64::from(number * 5 % 6),
        ];
        for (column, value) in (4_u16..).zip(values) {
            sheet.write(row, column, value)?;
        }
        // What a real sheet has besides numbers.
        match number {
            105 => drop(sheet.write(row, 20, 7)?),
            109 => drop(sheet.write(row, 8, 10.5)?.write(row, 9, 14.5)?),
            104 => drop(sheet.write(row, 9, "pain")?.write(row, 14, "not tested: after the pain")?),
            111 => drop(sheet.write(row, 15, "refused")?),
            115 => drop(sheet.write(row, 18, "")?.write(row, 19, "")?),
            _ => {}
        }
        row += 1;
    }
    book.save(root.join("screening.xlsx"))?;
    Ok(())
}
