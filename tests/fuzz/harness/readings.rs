//! Any text as a table of readings: read within its ranges, or refused in words.

use taperwright::base::units::show::Units;
use taperwright::base::units::text::Unit;
use taperwright::keep::share::readings::{AskedUnits, TableError, read, write};

/// The first byte says what is asked for; the others are the text, made one as a browser does.
pub(crate) fn run(bytes: &[u8]) {
    let (first, rest) = bytes.split_first().unwrap_or((&0, &[]));
    let text = String::from_utf8_lossy(rest);
    match read(&text, &asked(*first)) {
        Err(error) => {
            super::is_a_sentence(&error.to_string());
            if let TableError::NothingRead { first } = error {
                for row in first {
                    super::is_a_sentence(&row.why);
                }
            }
        }
        Ok(table) => {
            for (at, diameter) in &table.readings {
                assert!((0.0..=1000.0).contains(&at.metres()), "{at:?}");
                assert!(
                    (0.1..=10.0).contains(&diameter.millimetres()),
                    "{diameter:?}"
                );
            }
            for row in &table.unread {
                super::is_a_sentence(&row.why);
                assert!(row.text.chars().count() <= 200);
            }
            let name = table.name.clone().unwrap_or_default();
            let again = read(&write(&name, &table.readings), &AskedUnits::default());
            let again = again.expect("it was written here");
            assert_eq!((again.readings, again.name), (table.readings, table.name));
        }
    }
}

fn asked(byte: u8) -> AskedUnits {
    let unit = |at: u8| match at % 4 {
        0 => None,
        1 => Some(Unit::Millimetre),
        2 => Some(Unit::Foot),
        _ => Some(Unit::Thousandth),
    };
    AskedUnits {
        place: unit(byte),
        diameter: unit(byte / 4),
        system: if byte < 128 {
            Units::Metric
        } else {
            Units::Imperial
        },
    }
}
