//! What people type, and what is made of it.

use super::*;
use proptest::prelude::*;

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b.abs().max(1.0)
}

#[test]
fn numbers_as_people_type_them() {
    let cases = [
        ("12,5", 12.5),
        ("12.5", 12.5),
        (" 7 ", 7.0),
        (",5", 0.5),
        (".25", 0.25),
        ("1 234,5", 1234.5),
        ("1\u{a0}234,5", 1234.5),
        ("1\u{202f}234", 1234.0),
        ("1'234.5", 1234.5),
        ("1,234.5", 1234.5),
        ("1.234,5", 1234.5),
        ("1,234,567", 1_234_567.0),
        ("0,125", 0.125),
        ("0.125", 0.125),
        ("1234,567", 1234.567),
        ("-3", -3.0),
        ("−3,5", -3.5),
        ("+4", 4.0),
        ("-0", 0.0),
    ];
    for (text, wanted) in cases {
        let got = number(text, None).unwrap_or_else(|error| panic!("{text}: {error}")).value;
        assert!(close(got, wanted), "{text}: {got}");
        assert!(!(got == 0.0 && got.is_sign_negative()), "{text}");
    }
}

#[test]
fn what_may_be_two_numbers_is_asked_about() {
    for text in ["1,234", "1.234", "12,500", "999.000"] {
        assert!(matches!(number(text, None), Err(ReadingError::Ambiguous { .. })), "{text}");
    }
    assert_eq!(
        number("1,234", None),
        Err(ReadingError::Ambiguous { as_decimal: 1.234, as_thousands: 1234.0 })
    );
    assert_eq!(number("1,234", Some(DecimalMark::Comma)).unwrap().value, 1.234);
    assert_eq!(number("1,234", Some(DecimalMark::Point)).unwrap().value, 1234.0);
}

#[test]
fn what_is_not_a_number_is_refused() {
    for text in
        ["abc", "1,23,4", "12,34,567", "1 23", "12 3,4", "--3", "1.2.3", "5-", "1e3", "0x10", "٣", "1,", "."]
    {
        assert_eq!(number(text, None), Err(ReadingError::NotANumber), "{text}");
    }
    for text in ["inf", "NaN", "-Infinity", "∞"] {
        assert_eq!(number(text, None), Err(ReadingError::NotFinite), "{text}");
    }
    assert_eq!(number(&"9".repeat(400), None), Err(ReadingError::NotFinite));
    assert_eq!(number("  ", None), Err(ReadingError::Empty));
    assert_eq!(number("12.5", Some(DecimalMark::Comma)), Err(ReadingError::NotANumber));
}

#[test]
fn quantities_as_people_type_them() {
    use Dimension::{Angle, Count, Force, Length, Mass, Time};
    let cases = [
        ("12,5 kg", Mass, 12.5, Unit::Kilogram),
        ("12.5kg", Mass, 12.5, Unit::Kilogram),
        ("5 lb", Mass, 2.267_961_85, Unit::Pound),
        ("500 g", Mass, 0.5, Unit::Gram),
        ("18 lbf", Force, 80.067_989_074_689, Unit::PoundForce),
        ("18 lb", Force, 80.067_989_074_689, Unit::PoundForce),
        ("2 kg", Force, 19.6133, Unit::KilogramForce),
        ("16 N", Force, 16.0, Unit::Newton),
        ("160 cm", Length, 1.6, Unit::Centimetre),
        ("1,60 m", Length, 1.6, Unit::Metre),
        ("63 in", Length, 1.6002, Unit::Inch),
        ("63\"", Length, 1.6002, Unit::Inch),
        ("5'4\"", Length, 1.6256, Unit::Foot),
        ("5′4″", Length, 1.6256, Unit::Foot),
        ("5' 4''", Length, 1.6256, Unit::Foot),
        ("5 ft 4 in", Length, 1.6256, Unit::Foot),
        ("5ft 4.5", Length, 1.6383, Unit::Foot),
        ("5'", Length, 1.524, Unit::Foot),
        ("5 feet 4 inches", Length, 1.6256, Unit::Foot),
        ("45 s", Time, 45.0, Unit::Second),
        ("45sec.", Time, 45.0, Unit::Second),
        ("1:30", Time, 90.0, Unit::Minute),
        ("1:05,5", Time, 65.5, Unit::Minute),
        ("1 min 30 s", Time, 90.0, Unit::Minute),
        ("1'30\"", Time, 90.0, Unit::Minute),
        ("2 min", Time, 120.0, Unit::Minute),
        ("95°", Angle, 95.0, Unit::Degree),
        ("95 deg", Angle, 95.0, Unit::Degree),
        ("6", Count, 6.0, Unit::One),
    ];
    for (text, dimension, wanted, unit) in cases {
        let got = quantity(text, dimension, None, None).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!(close(got.value, wanted), "{text}: {}", got.value);
        assert_eq!(got.unit, unit, "{text}");
    }
}

#[test]
fn units_that_do_not_fit_are_named() {
    let read = |text: &str, dimension| quantity(text, dimension, None, None);
    assert_eq!(read("12 cm", Dimension::Mass), Err(ReadingError::WrongKind(Unit::Centimetre)));
    assert_eq!(read("12 stone", Dimension::Mass), Err(ReadingError::UnknownUnit("stone".to_owned())));
    assert_eq!(read("12", Dimension::Mass), Err(ReadingError::NoUnit));
    assert_eq!(read("5'14\"", Dimension::Length), Err(ReadingError::NotANumber));
    assert_eq!(read("1:75", Dimension::Time), Err(ReadingError::NotANumber));
    assert_eq!(read("-1:30", Dimension::Time), Err(ReadingError::NotANumber));
    assert_eq!(read("NaN kg", Dimension::Mass), Err(ReadingError::NotANumber));
    assert_eq!(read("inf", Dimension::Mass), Err(ReadingError::NotFinite));
    assert!(matches!(read("1,250 kg", Dimension::Mass), Err(ReadingError::Ambiguous { .. })));
    assert_eq!(read("6/9", Dimension::Count), Err(ReadingError::NotANumber));
    assert_eq!(quantity("162", Dimension::Length, Some(Unit::Centimetre), None).unwrap().value, 1.62);
}

#[test]
fn the_last_place_written_is_known() {
    let read = |text| quantity(text, Dimension::Force, None, None).unwrap().half_last_place;
    assert!(close(read("16 N"), 0.5));
    assert!(close(read("16.0 N"), 0.05));
    assert!(close(read("1,6 kgf"), 0.490_332_5));
}

proptest! {
    #[test]
    fn a_number_comes_back_however_it_was_written(
        whole in 0_u32..100_000_000,
        decimals in "[0-9]{1,2}",
        negative in any::<bool>(),
    ) {
        let sign = if negative { "-" } else { "" };
        let wanted: f64 = format!("{sign}{whole}.{decimals}").parse().unwrap();
        let grouped = |mark: &str| {
            let digits = whole.to_string();
            let first = digits.len() % 3;
            let mut parts: Vec<&str> = if first == 0 { Vec::new() } else { vec![&digits[..first]] };
            parts.extend((first..digits.len()).step_by(3).map(|at| &digits[at..at + 3]));
            parts.join(mark)
        };
        for text in [
            format!("{sign}{whole},{decimals}"),
            format!("{sign}{whole}.{decimals}"),
            format!("{sign}{},{decimals}", grouped(" ")),
            format!("{sign}{}.{decimals}", grouped("'")),
            format!("{sign}{}.{decimals}", grouped(",")),
            format!("{sign}{},{decimals}", grouped(".")),
        ] {
            prop_assert_eq!(number(&text, None).map(|n| n.value), Ok(wanted), "{}", text);
        }
    }

    #[test]
    fn no_text_panics_and_no_number_is_infinite(text in any::<String>(), word in "[0-9'\":., kgcmlbftins-]{0,12}") {
        for text in [&text, &word] {
            for dimension in [Dimension::Mass, Dimension::Force, Dimension::Length, Dimension::Angle, Dimension::Time, Dimension::Count] {
                if let Ok(reading) = quantity(text, dimension, None, None) {
                    prop_assert!(reading.value.is_finite());
                }
            }
        }
    }

    #[test]
    fn a_unit_and_back_changes_nothing(value in 0.001_f64..1e5) {
        for row in UNITS {
            let back = row.0.from_canonical(row.0.to_canonical(value));
            prop_assert!((back - value).abs() <= 1e-9 * value);
        }
    }
}
