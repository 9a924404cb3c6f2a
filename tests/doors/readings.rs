//! Tables of readings that cannot be read, or not all of them: each row is named with a reason, and nothing is guessed.

use taperwright::keep::share::readings::{AskedUnits, ReadTable, TableError, read};

fn usual(text: &str) -> ReadTable {
    let read = read(text, &AskedUnits::default());
    read.unwrap_or_else(|error| panic!("{text:?}: {error:?}"))
}

fn pairs(table: &ReadTable) -> Vec<(f64, f64)> {
    let pairs = table.readings.iter();
    pairs
        .map(|(at, diameter)| (at.metres(), diameter.millimetres()))
        .collect()
}

/// What cannot be read is listed with its row as the spreadsheet counts it, and why.
#[test]
fn what_is_not_read_is_listed() {
    let text = "Heron Weir\n\nPlace (m);d (mm);d2;Remark\n0,5;0,95;0,94;\n1;;;no grip\n1,5;abc;1,0;\n-2;1,0;1,0;\n;1,1;1,1;\n1200;1,0;1,0;\n3;95;0,96;\n4;9 elbows;;\nend;;;\n5;1,0;1,0;";
    let table = usual(text);
    let rows: Vec<(usize, &str)> = table
        .unread
        .iter()
        .map(|unread| (unread.row, unread.why.as_str()))
        .collect();
    let wanted = [
        (1, "This row has no number and is before the heading."),
        (5, "There is no diameter in this row."),
        (6, "“abc” is no diameter."),
        (7, "The place -2 m is before the tip."),
        (8, "There is no place in this row."),
        (9, "The place 1200 m is more than 100 m from the tip."),
        (10, "The diameter 95 mm is outside 0.1 to 10 mm."),
        (11, "“elbows” is no unit of length."),
        (12, "“end” is no place."),
    ];
    assert_eq!(rows.len(), wanted.len(), "{rows:#?}");
    for (found, wanted) in rows.iter().zip(wanted) {
        assert_eq!(found.0, wanted.0);
        assert!(found.1.starts_with(wanted.1), "{found:?}, not {wanted:?}");
    }
    assert_eq!(table.unread[1].text, "1;;;no grip");
    assert_eq!(table.passed_by, ["Remark"]);
    assert_eq!(
        table.readings.len(),
        6,
        "two of row 4, one of 6 and 10, two of 13"
    );
    assert_eq!(table.rows.read, [4, 6, 10, 13]);
    assert_eq!(table.rows.heading, [3]);
}

#[test]
fn a_number_with_two_meanings_is_listed() {
    // Nothing in the table says which mark stands before decimals.
    let table = usual("Place (mm)\td (µm)\n500\t950\n1,200\t1000");
    assert_eq!(table.readings.len(), 1);
    assert_eq!(
        table.unread[0].why,
        "“1,200” can mean two numbers. Write 1200 for the large one, or 1.2000 for the small one."
    );
    // Both marks are used.
    let table = usual("0.5\t0,95\n1.200\t0,97\n2.5\t1,0");
    assert_eq!((table.readings.len(), table.unread.len()), (2, 1));
    assert!(table.unread[0].why.contains("two numbers"));
    // The table decides: thousands in the one, decimals in the other.
    let table = usual("Place (mm)\td (mm)\n1,200\t0.95");
    assert_eq!(pairs(&table), [(1.2, 0.95)]);
    let table = usual("Place (m)\td (mm)\n1,200\t0,95");
    assert_eq!(pairs(&table), [(1.2, 0.95)]);
}

#[test]
fn texts_that_are_no_table() {
    let refused = |text: &str| read(text, &AskedUnits::default()).expect_err("it is no table");
    let large = "0.5,0.95\n".repeat(120_000);
    assert_eq!(refused(&large), TableError::TooLarge);
    assert_eq!(refused("PK\u{3}\u{4}\u{14}\0\u{6}\0"), TableError::Binary);
    assert_eq!(refused(&"\u{fffd}ab".repeat(50)), TableError::Binary);
    for text in [
        "",
        "\n\n;;\n",
        "Dear reader,\nhow are you?",
        "{\"format\":\"x\"}",
        "Place;Diameter",
    ] {
        assert_eq!(refused(text), TableError::NotATable, "{text}");
    }
    let many = "0.5,0.95\n".repeat(2_001);
    assert_eq!(refused(&many), TableError::TooMany { readings: 2_001 });
    assert_eq!(
        usual(&"0.5,0.95\n1,1.1\n".repeat(1_000)).readings.len(),
        2_000
    );
    assert_eq!(refused(&"1\n".repeat(10_001)), TableError::TooManyCells);
    let said = refused("Place (m);d (mm)\n0,5;95\n1;97");
    assert!(matches!(&said, TableError::NothingRead { first } if first.len() == 2));
    assert!(
        said.to_string().contains("Row 2: The diameter 95 mm"),
        "{said}"
    );
    assert_eq!(
        refused("Place (m);d (1/100 mm)\n0,5;95"),
        TableError::UnknownUnit {
            heading: "d (1/100 mm)".to_owned()
        }
    );
}

/// Commas in two meanings look like a table of whole numbers.
#[test]
fn commas_in_two_meanings_are_refused() {
    for text in [
        "0,5,0,95\n1,0,0,97\n1,5,1,02",
        "Place,Diameter\n0,5, 0,95\n1, 0,97",
    ] {
        let read = read(text, &AskedUnits::default());
        assert_eq!(read, Err(TableError::TwoKindsOfComma), "{text}");
    }
    // Whole millimetres and micrometres are read.
    let table = usual("500,950,955,960\n1000,970,975,980");
    assert_eq!(table.readings.len(), 6);
    let table = usual("No,Place (m),d (µm)\n1,1,950\n2,2,970");
    assert_eq!(pairs(&table), [(1.0, 0.95), (2.0, 0.97)]);
}

/// What measures something else is not taken for a diameter, whatever its unit.
#[test]
fn other_columns_are_no_diameters() {
    for heading in ["Circumference (mm)", "Radius (mm)", "Weight (g)", "Date"] {
        let text = format!("Place (m);{heading}\n0,5;3\n1;3,1");
        let read = read(&text, &AskedUnits::default());
        assert!(
            matches!(read, Err(TableError::NothingRead { .. })),
            "{heading}: {read:?}"
        );
    }
}
