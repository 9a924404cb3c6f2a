//! Tables of readings: whatever a text is, each of its rows is accounted for; however a table is written, it is read alike.
//!
//! Analytic: a table says the same with other separators, marks, line ends, headings and orders of columns. Rows are counted
//! from outside by the crate `csv` (RFC 4180). Inch and foot: 25.4 mm and 0.3048 m, exactly (international yard and pound
//! agreement, 1959).

use std::collections::BTreeSet;
use std::fmt::Write as _;

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::base::units::show::Units;
use taperwright::base::units::text::Unit;
use taperwright::keep::share::readings::{AskedUnits, ReadTable, TableError, read, write};

use crate::lines::cases;

/// Whole millimetres along the line and whole micrometres of diameter, within the range of a design.
fn reading() -> impl Strategy<Value = (u32, u32)> {
    (0_u32..=100_000, 100_u32..=10_000)
}

fn lengths(readings: &[(u32, u32)]) -> Vec<(Length, Length)> {
    let length = |(at, diameter): &(u32, u32)| {
        (
            Length::from_metres(f64::from(*at) / 1e3),
            Length::from_millimetres(f64::from(*diameter) / 1e3),
        )
    };
    readings.iter().map(length).collect()
}

/// Pieces of tables, so that random texts are more than noise.
fn piece() -> impl Strategy<Value = String> {
    let pieces = [
        "0.5",
        "0,95",
        "1,200",
        "1.200",
        "-3",
        "12",
        "38",
        "95 thou",
        "3 ft 6",
        "10' 6\"",
        "\"",
        "\"\"",
        "\t",
        ";",
        ",",
        "|",
        "  ",
        " ",
        "\n",
        "\r\n",
        "\r",
        "#",
        "# Line: x",
        "sep=;\n",
        "Place (m)",
        "Diameter [mm]",
        "d1",
        "No.",
        "Remark",
        "m",
        "mm",
        "(ft)",
        "1/1000\"",
        "1/100 mm",
        "---",
        "Ø",
        "٠٫٥",
        "９",
        "\u{feff}",
        "\u{202e}",
        "é",
        "魚",
        "elbows",
        "1e308",
        "9999999999999999999999",
        "mean",
        "one",
        "(",
        "/",
        "in",
        "\u{a0}",
        "''",
    ];
    let known = proptest::sample::select(pieces.to_vec()).prop_map(str::to_owned);
    prop_oneof![8 => known, 1 => "\\PC{0,4}", 1 => any::<char>().prop_map(String::from)]
}

/// Pieces one after the other, or rows of numbers with pieces among them.
fn text() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        (0_u32..300).prop_map(|at| format!("{}.{}", at / 10, at % 10)),
        (70_u32..140).prop_map(|size| format!("{}.{:02}", size / 100, size % 100)),
    ];
    let cell = prop_oneof![7 => number, 1 => piece()];
    let row = proptest::collection::vec(cell, 2..5);
    let separator = proptest::sample::select(vec!["\t", ";", ",", "|", "  ", " "]);
    let heading = proptest::sample::select(vec![
        "",
        "Place (m);d",
        "d1;Place;d2;No.",
        "ft;thou",
        "Title",
    ]);
    let table = (heading, proptest::collection::vec(row, 1..12), separator);
    let table = table.prop_map(|(heading, rows, separator)| {
        let rows = rows.iter().map(|row| row.join(separator));
        let heading = heading.replace(';', separator);
        [heading]
            .into_iter()
            .chain(rows)
            .collect::<Vec<_>>()
            .join("\n")
    });
    let pieces = proptest::collection::vec(piece(), 0..60).prop_map(|pieces| pieces.concat());
    prop_oneof![3 => table, 1 => pieces]
}

fn asked() -> impl Strategy<Value = AskedUnits> {
    let units = || {
        proptest::option::of(proptest::sample::select(vec![
            Unit::Metre,
            Unit::Millimetre,
            Unit::Foot,
            Unit::Thousandth,
            Unit::Gram,
        ]))
    };
    let system = proptest::sample::select(vec![Units::Metric, Units::Imperial]);
    (units(), units(), system).prop_map(|(place, diameter, system)| AskedUnits {
        place,
        diameter,
        system,
    })
}

/// The rows that a table accounts for.
fn accounted(table: &ReadTable) -> BTreeSet<usize> {
    let rows = &table.rows;
    let unread = table.unread.iter().map(|unread| unread.row);
    let all = [&rows.read, &rows.heading, &rows.comments];
    all.into_iter().flatten().copied().chain(unread).collect()
}

fn is_sentence(words: &str) {
    assert!(words.ends_with('.'), "{words:?}");
    assert!(!words.contains(char::is_control), "{words:?}");
}

proptest! {
    #![proptest_config(cases(1_000))]

    #[test]
    fn no_text_panics_and_all_is_within_its_range(
        text in text(),
        asked in asked(),
    ) {
        match read(&text, &asked) {
            Err(error) => {
                is_sentence(&error.to_string());
                if let TableError::NothingRead { first } = error {
                    prop_assert!(first.len() <= 3);
                }
            }
            Ok(table) => {
                prop_assert!(!table.readings.is_empty());
                for (at, diameter) in &table.readings {
                    prop_assert!((0.0..=100.0).contains(&at.metres()));
                    prop_assert!((0.099_999..=10.000_001).contains(&diameter.millimetres()));
                    // Tenths of a millimetre, and of a micrometre.
                    let on_step = |value: f64| (value - value.round()).abs() < 1e-6;
                    prop_assert!(on_step(at.metres() * 1e4) && on_step(diameter.millimetres() * 1e4));
                }
                for unread in &table.unread {
                    is_sentence(&unread.why);
                    prop_assert!(unread.text.chars().count() <= 200);
                    prop_assert!(!unread.text.contains(char::is_control));
                }
                // What was read goes out and comes in as it is.
                let name = table.name.clone().unwrap_or_default();
                let again = read(&write(&name, &table.readings), &AskedUnits::default());
                let again = again.expect("it was written here");
                prop_assert_eq!(again.readings, table.readings);
                prop_assert_eq!(again.name, table.name);
            }
        }
    }

    /// A table without quotes: the crate `csv` counts the rows that are not blank, and their number in the text.
    #[test]
    fn every_row_is_accounted_for(
        rows in proptest::collection::vec(
            proptest::collection::vec(
                prop_oneof![
                    3 => (0_u32..30_000).prop_map(|at| format!("{:.3}", f64::from(at) / 1e3)),
                    3 => (500_u32..1_500).prop_map(|size| format!("{:.3}", f64::from(size) / 1e3)),
                    1 => proptest::sample::select(vec![
                        "", "", "abc", "-1", "1200", "77", "1,200", "# off", "---", "Place (m)", "m", "mean 1", "Ø 0.9", "-",
                    ]).prop_map(str::to_owned),
                ],
                0..4,
            ),
            0..30,
        ),
        heading in proptest::sample::select(vec!["", "Place (m);Diameter (mm);Remark\n", "d1;d2;dist\n", "Title\nNo;at;d\n"]),
        end in proptest::sample::select(vec!["\n", "\r\n"]),
    ) {
        let lines: Vec<String> = rows.iter().map(|row| row.join(";")).collect();
        let text = format!("sep=;\n{heading}{}", lines.join("\n")).replace('\n', end);
        // The crate numbers lines in its own way after blank ones, so it reads them one by one.
        let is_filled = |line: &str| {
            let mut by_crate = csv::ReaderBuilder::new()
                .has_headers(false)
                .delimiter(b';')
                .from_reader(line.as_bytes());
            by_crate.records().any(|record| {
                record.expect("texts").iter().any(|cell| !cell.trim().is_empty())
            })
        };
        let lines = text.split(end).enumerate().filter(|(_, line)| is_filled(line));
        let wanted: BTreeSet<usize> = lines.map(|(at, _)| at + 1).collect();
        if let Ok(table) = read(&text, &AskedUnits::default()) {
            prop_assert_eq!(accounted(&table), wanted, "{:?} {:?}", text, table);
        }
    }

    /// With cells in quotes that hold separators, quotes and ends of lines, the crate `csv` counts as many rows.
    #[test]
    fn rows_with_quotes_are_counted(
        rows in proptest::collection::vec((0_u32..30_000, 500_u32..1_500, "[a-z;\"\n é]{0,12}", 0_u32..8), 1..30),
    ) {
        let mut writer = csv::WriterBuilder::new().delimiter(b';').from_writer(Vec::new());
        let mut add = |cells: [&str; 3]| writer.write_record(cells).expect("it is written to memory");
        add(["Place (m)", "Ø; (mm)", "Remark"]);
        for (at, diameter, remark, kind) in &rows {
            let (at, diameter) = (f64::from(*at) / 1e3, f64::from(*diameter) / 1e3);
            let (at, diameter) = (format!("{at:.3}"), format!("{diameter:.3}"));
            match kind {
                0 => add(["", "", ""]),
                1 => add(["", "", remark]),
                2 => add([&at, "", remark]),
                3 => add([remark, &diameter, ""]),
                _ => add([&at, &diameter, remark]),
            }
        }
        let text = writer.into_inner().expect("it is written to memory");
        let text = String::from_utf8(text).expect("texts");
        let mut by_crate = csv::ReaderBuilder::new()
            .has_headers(false)
            .delimiter(b';')
            .from_reader(text.as_bytes());
        let records = by_crate.records().map(|record| record.expect("three cells"));
        let filled = records.filter(|record| record.iter().any(|cell| !cell.trim().is_empty()));
        let count = filled.count();
        let good = rows.iter().filter(|row| row.3 > 3).count();
        match read(&text, &AskedUnits::default()) {
            Ok(table) => {
                prop_assert_eq!(accounted(&table).len(), count, "{:?} {:?}", text, table);
                prop_assert!(table.readings.len() >= good);
            }
            Err(error) => prop_assert!(good == 0, "{text:?} {error:?}"),
        }
    }

    #[test]
    fn what_is_written_is_read_back(
        readings in proptest::collection::vec(reading(), 1..60),
        name in "[ -~é魚“”]{0,40}",
    ) {
        let readings = lengths(&readings);
        let table = read(&write(&name, &readings), &AskedUnits::default()).expect("it was written here");
        prop_assert_eq!(&table.readings, &readings);
        prop_assert_eq!(table.name.unwrap_or_default(), name.trim());
        prop_assert_eq!((table.unread.len(), table.passed_by.len()), (0, 0));
        prop_assert_eq!((table.at_unit, table.diameter_unit), (Unit::Metre, Unit::Millimetre));
    }

    #[test]
    fn one_table_written_in_many_ways_is_read_alike(
        readings in proptest::collection::vec((0_u32..60_000, 300_u32..3_000), 2..20),
        separator in 0_usize..6,
        comma in any::<bool>(),
        end in proptest::sample::select(vec!["\n", "\r\n", "\r"]),
        units in 0_usize..6,
        order in Just([0, 1, 2]).prop_shuffle(),
        mark in any::<bool>(),
    ) {
        let separator = ["\t", ";", "|", ",", "   ", " "][separator];
        let (at_unit, diameter_unit) = [("m", "mm"), ("cm", "µm"), ("mm", "mm"), ("m", "micron"), ("metres", "mm"), ("mm", "µm")][units];
        let number = |micrometres: f64, unit: &str| {
            let (share, decimals) = match unit {
                "mm" => (1e3, 3),
                "cm" => (1e4, 1),
                "m" | "metres" => (1e6, 3),
                _ => (1.0, 0),
            };
            let number = format!("{:.decimals$}", micrometres / share);
            let number = if comma { number.replace('.', ",") } else { number };
            if separator == "," { format!("\"{number}\"") } else { number }
        };
        let line = |cells: [String; 3]| {
            let cells: Vec<&str> = order.iter().map(|at| cells[*at].as_str()).collect();
            cells.join(separator)
        };
        let mut lines = vec![line([
            format!("Place ({at_unit})"),
            format!("Diameter ({diameter_unit})"),
            "No.".to_owned(),
        ])];
        for (count, (at, diameter)) in readings.iter().enumerate() {
            lines.push(line([
                number(f64::from(*at) * 1e3, at_unit),
                number(f64::from(*diameter), diameter_unit),
                (count + 1).to_string(),
            ]));
        }
        let mark = if mark { "\u{feff}" } else { "" };
        let text = format!("{mark}{}{end}", lines.join(end));
        let asked = AskedUnits::default();
        let table = read(&text, &asked);
        // Where no number decides the mark, a number with two meanings is refused: none is misread.
        let is_doubtful = |table: &ReadTable| table.unread.iter().all(|unread| unread.why.contains("two numbers"));
        match table {
            Ok(table) if table.unread.is_empty() => {
                prop_assert_eq!(&table.readings, &lengths(&readings), "{}", text);
                prop_assert_eq!(&table.passed_by, &["No."]);
                prop_assert!(!table.at_assumed && !table.diameter_assumed);
            }
            Ok(table) => {
                prop_assert!(comma && is_doubtful(&table), "{} {:?}", text, table);
                for reading in &table.readings {
                    prop_assert!(lengths(&readings).contains(reading), "{} {:?}", text, table);
                }
            }
            Err(TableError::NothingRead { first }) => {
                prop_assert!(comma && first.iter().all(|unread| unread.why.contains("two numbers")), "{} {:?}", text, first);
            }
            Err(error) => prop_assert!(false, "{} {:?}", text, error),
        }
    }

    /// Feet and thousandths are the same places and diameters.
    #[test]
    fn imperial_tables_are_read(
        readings in proptest::collection::vec((0_u32..2_000, 20_u32..300), 1..20),
        heading in proptest::sample::select(vec!["dist in ft\td / thou", "Feet\tmil", "Place (ft)\tØ 1/1000\"", "at, feet\tdia (thousandths)"]),
    ) {
        let mut text = heading.to_owned();
        for (tenths, fifths) in &readings {
            let (at, diameter) = (f64::from(*tenths) / 10.0, f64::from(*fifths) / 5.0);
            write!(text, "\n{at:.1}\t{diameter:.1}").expect("a text takes all");
        }
        let table = read(&text, &AskedUnits::default());
        let table = table.expect("places and diameters");
        prop_assert_eq!(table.readings.len(), readings.len(), "{:?}", table);
        for ((at, diameter), (tenths, fifths)) in table.readings.iter().zip(&readings) {
            prop_assert!((at.metres() - f64::from(*tenths) * 0.03048).abs() <= 0.000_500_1);
            prop_assert!((diameter.millimetres() - f64::from(*fifths) * 0.00508).abs() <= 0.000_500_1);
        }
    }
}
