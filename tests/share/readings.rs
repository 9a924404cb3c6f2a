//! Readings from tables as makers paste them, and tables as they leave the page.
//!
//! The examples are invented: forms that spreadsheets and makers use, with made-up numbers. What they mean is stated beside
//! each, in metres and millimetres. Inch and foot: 25.4 mm and 0.3048 m, exactly (international yard and pound agreement, 1959).

use taperwright::base::units::Length;
use taperwright::base::units::show::Units;
use taperwright::base::units::text::Unit;
use taperwright::keep::share::readings::{AskedUnits, ReadTable, read, write};

fn usual(text: &str) -> ReadTable {
    let read = read(text, &AskedUnits::default());
    read.unwrap_or_else(|error| panic!("{text:?}: {error:?}"))
}

/// Place in m and diameter in mm of each reading.
fn pairs(table: &ReadTable) -> Vec<(f64, f64)> {
    let pair = |(at, diameter): &(Length, Length)| (at.metres(), diameter.millimetres());
    table.readings.iter().map(pair).collect()
}

/// Asserts what a text is read as, and that nothing of it is left unread.
#[track_caller]
fn reads(text: &str, wanted: &[(f64, f64)]) -> ReadTable {
    let table = usual(text);
    let (found, unread) = (pairs(&table), &table.unread);
    let near =
        |(a, b): (&(f64, f64), &(f64, f64))| (a.0 - b.0).abs() < 1e-9 && (a.1 - b.1).abs() < 1e-9;
    let is_same = found.len() == wanted.len() && found.iter().zip(wanted).all(near);
    assert!(is_same, "{text:?}: {found:?} {table:?}");
    assert_eq!(unread, &[], "{text:?}");
    table
}

const THREE: [(f64, f64); 3] = [(0.5, 0.95), (1.0, 0.97), (1.5, 1.02)];

#[test]
fn tables_as_spreadsheets_copy_them() {
    for text in [
        // English and German, by tabs.
        "Place (m)\tDiameter (mm)\n0.5\t0.95\n1\t0.97\n1.5\t1.02\n",
        "Place (m)\tDiameter (mm)\r\n0,5\t0,95\r\n1\t0,97\r\n1,5\t1,02\r\n",
        // German CSV.
        "0,5;0,95\n1,0;0,97\n1,5;1,02",
        "\u{feff}sep=;\r\nAbstand [m];Durchmesser [mm];\r\n0,5;0,95;\r\n1,0;0,97;\r\n1,5;1,02;\r\n;;\r\n",
        // English CSV, also with decimal commas in quotes.
        "0.5,0.95\r1,0.97\r1.5,1.02\r",
        "\"Place, m\",\"Diameter, mm\"\n\"0,5\",\"0,95\"\n\"1,0\",\"0,97\"\n\"1,5\",\"1,02\"",
        // Columns in another order, and columns nothing is made of.
        "Date\tØ mm\tNo.\tdist in m\tRemark\n2026-11-01\t0.95\t1\t0.5\t\n2026-11-01\t0.97\t2\t1\tby the window, dry\n2026-11-02\t1.02\t3\t1.5\t",
        "No;Place;Diameter\n1;0,5;0,95\n2;1;0,97\n3;1,5;1,02",
        // A row of units under the heading.
        "Place;Diameter\nm;mm\n0,5;0,95\n1;0,97\n1,5;1,02",
        "Place\tDiameter\n(m)\t[mm]\n0.5\t0.95\n1\t0.97\n1.5\t1.02",
        "m\tmm\n0.5\t0.95\n1\t0.97\n1.5\t1.02",
        // By hand: blanks, upright strokes, comments.
        "0.5 0.95\n1 0.97\n1.5 1.02",
        "0,5   0,95\n1     0,97\n1,5   1,02",
        "Place (m)  Diameter (mm)\n0.5  0.95\n1  0.97\n1.5  1.02",
        "Place (m) Diameter (mm)\n0.5 0.95\n1 0.97\n1.5 1.02",
        "| Place | Diameter |\n|-------|----------|\n| 0.5 m | 0.95 mm |\n| 1 m | 0.97 mm |\n| 1.5 m | 1.02 mm |",
        "# measured dry\n\n0.5|0.95\n\n1|0.97\n1.5|1.02",
        // Units in the cells.
        "0.5 m\t0.95 mm\n1 m\t970 µm\n150 cm\t1.02",
        "0.5 m 0.95 mm\n1 m 0.97 mm\n1.5 m 1.02 mm",
        "0,5 m 0,95 mm\n1 m 0,97 mm\n1,5 m 1,02 mm",
        "0.5\tØ 0.95\n1\tØ 0.97\n1.5\tØ 1.02",
        // Other units.
        "cm;µm\n50;950\n100;970\n150;1020",
        "Place (mm);d (mm)\n500;0,95\n1.000;0,97\n1.500;1,02",
        "Place (mm);d (mm)\n500;0.95\n1,000;0.97\n1,500;1.02",
        "at_m,d_mm\n0.5,0.95\n1,0.97\n1.5,1.02",
        // On its side.
        "Place (m)\t0.5\t1\t1.5\nDiameter (mm)\t0.95\t0.97\t1.02",
        "Place;0,5;1;1,5\nd;0,95;0,97;1,02",
        // Digits of other scripts.
        "٠٫٥\t٠٫٩٥\n١\t٠٫٩٧\n١٫٥\t١٫٠٢",
        "０．５\t０．９５\n１\t０．９７\n１．５\t１．０２",
        // A number of the row without a heading.
        "1\t0.5\t0.95\n2\t1\t0.97\n3\t1.5\t1.02",
        // The diameter first, without headings.
        "0.95;0.5\n0.97;1.0\n1.02;1.5",
    ] {
        reads(text, &THREE);
    }
}

#[test]
fn rows_in_any_order_stay_in_theirs() {
    let wanted = [(12.0, 1.3), (0.5, 0.9), (7.25, 1.1)];
    reads("Place (m),d (mm)\n12,1.3\n0.5,0.9\n7.25,1.1", &wanted);
    reads("12,1.3\n0.5,0.9\n7.25,1.1", &wanted);
    reads("d;Place\n1,3;12\n0,9;0,5\n1,1;7,25", &wanted);
}

#[test]
fn several_diameters_of_one_place_are_several_readings() {
    let wanted = [
        (0.5, 0.95),
        (0.5, 0.94),
        (1.0, 0.97),
        (1.0, 0.99),
        (1.0, 0.98),
    ];
    for text in [
        "Place (m);d1 (mm);d2 (mm);d3 (mm)\n0,5;0,95;0,94;\n1;0,97;0,99;0,98",
        "Place;1;2;3\n0,5;0,95;0,94;-\n1;0,97;0,99;0,98",
        "Place;Diameter;;\n(m);1;2;3\n0,5;0,95;0,94;\n1;0,97;0,99;0,98",
        "0.5\t0.95\t0.94\t\n1\t0.97\t0.99\t0.98",
    ] {
        reads(text, &wanted);
    }
    let table = reads(
        "Place\td1\td2\tmean\n0.5\t0.95\t0.94\t0.945\n1\t0.97\t0.99\t0.98",
        &[(0.5, 0.95), (0.5, 0.94), (1.0, 0.97), (1.0, 0.99)],
    );
    assert_eq!(table.passed_by, ["mean"]);
    // The same diameter in two units is one reading.
    let table = reads(
        "Place (m)\td (mm)\td (thou)\n0.5\t0.95\t37.4",
        &[(0.5, 0.95)],
    );
    assert_eq!(table.passed_by, ["d (thou)"]);
}

#[test]
fn feet_and_thousandths_are_read() {
    // By hand: 3 ft 6 is 1.0668 m, 10 ft 6 is 3.2004 m; 38 thou are 0.9652 mm, 40 thou 1.016 mm.
    let wanted = [(1.0668, 0.9652), (3.2004, 1.016)];
    for text in [
        "Place (ft)\tDiameter (thou)\n3.5\t38\n10.5\t40",
        "dist in ft,d / mil\n3.5,38\n10.5,40",
        "3 ft 6\t38 thou\n10' 6\"\t40 thou",
        "\"3' 6\"\"\",0.038 in\n\"10' 6\"\"\",0.040 in",
        "3' 6\",0.038\"\n10' 6\",0.040\"",
        "3' 6\" 38 thou\n10' 6\" 40 thou",
        "Feet;1/1000\"\n3,5;38\n10,5;40",
        "Place;Diameter, inch\n3.5 feet;0.038\n10.5 feet;.040",
        "Place (inch)\tØ (\")\n42\t0.038\n126\t0.040",
        // Nothing but the sizes.
        "3.5\t38\n10.5\t40",
        "3.5,0.038\n10.5,0.040",
    ] {
        reads(text, &wanted);
    }
}

/// Sizes decide where no unit is written, and it is said that they did.
#[test]
fn units_are_chosen_by_size() {
    for (text, at, diameter) in [
        ("0.5\t0.95\n25\t1.1", Unit::Metre, Unit::Millimetre),
        ("50\t0.95\n2500\t1.1", Unit::Centimetre, Unit::Millimetre),
        ("500\t950\n25000\t1100", Unit::Millimetre, Unit::Micrometre),
        ("1.5\t38\n82\t44", Unit::Foot, Unit::Thousandth),
        ("18\t.038\n984\t.044", Unit::Inch, Unit::Inch),
    ] {
        let table = usual(text);
        assert_eq!(
            (table.at_unit, table.diameter_unit),
            (at, diameter),
            "{text}"
        );
        assert!(table.at_assumed && table.diameter_assumed, "{text}");
    }
    let table = usual("Place (m)\td\n0.5\t0.95");
    assert!(!table.at_assumed && table.diameter_assumed);
    let asked = AskedUnits {
        place: Some(Unit::Foot),
        diameter: Some(Unit::Thousandth),
        system: Units::Metric,
    };
    let table = read("Place (m)\td (mm)\n10\t40", &asked).expect("as asked");
    assert_eq!(
        (table.at_unit, table.diameter_unit),
        (Unit::Foot, Unit::Thousandth)
    );
    assert_eq!(pairs(&table), [(3.048, 1.016)]);
    // No size decides: the reader's own system does.
    let imperial = AskedUnits {
        system: Units::Imperial,
        ..AskedUnits::default()
    };
    let text = "1\t5\n2\t6";
    assert_eq!(usual(text).diameter_unit, Unit::Millimetre);
    let table = read(text, &imperial).expect("0.127 mm and 0.152 mm are within reach");
    assert_eq!(table.diameter_unit, Unit::Thousandth);
}

#[test]
fn rows_are_counted_as_a_spreadsheet_counts() {
    // The remark in row 2 has a line end of its own, rows 3 and 5 are blank.
    let text = "Place (m),d (mm),Remark\n0.5,0.95,\"two\nlines\"\n\n1,0.97,\n,,\n1.5,x,";
    let table = usual(text);
    assert_eq!(table.rows.read, [2, 4]);
    assert_eq!(table.unread[0].row, 6);
    // A quote that nothing closes swallows no rows.
    let table = usual("0.5,0.95,\"open\n1,0.97,\n1.5,1.02,");
    assert_eq!(table.rows.read, [1, 2, 3]);
}

/// The crate `csv` finds in what is written the cells that were to be in it, and every row as long as the first.
#[test]
fn a_reader_that_is_not_ours_finds_the_same_cells() {
    for name in ["", "Heron Weir", "=1+1", "a, \"b\"; c\td\n e", "# Line: x"] {
        let readings: Vec<(Length, Length)> = (0..50)
            .map(|at| {
                let at = f64::from(at);
                (
                    Length::from_metres((at * 337.0) / 1e3),
                    Length::from_millimetres((600.0 + at * 7.0) / 1e3),
                )
            })
            .collect();
        let text = write(name, &readings);
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(text.as_bytes());
        let records: Vec<csv::StringRecord> = reader
            .records()
            .map(|record| record.expect("as many cells as the first"))
            .collect();
        let head = records.iter().position(|record| &record[0] == "place (m)");
        let head = head.expect("a heading");
        assert_eq!(head, usize::from(!name.is_empty()));
        assert_eq!(&records[head][1], "diameter (mm)");
        let cells: Vec<(f64, f64)> = records[head + 1..]
            .iter()
            .map(|record| {
                let number = |at: usize| record[at].parse().expect("a number with a dot");
                (number(0), number(1))
            })
            .collect();
        let wanted: Vec<(f64, f64)> = readings
            .iter()
            .map(|(at, diameter)| (at.metres(), diameter.millimetres()))
            .collect();
        assert_eq!(cells, wanted);
        let again = usual(&text);
        assert_eq!(again.readings, readings);
        let shown: String = name.replace(['\t', '\n'], " ");
        assert_eq!(again.name, (!name.is_empty()).then_some(shown));
        assert!(!again.at_assumed && !again.diameter_assumed && again.unread.is_empty());
    }
}
