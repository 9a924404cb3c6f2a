//! Tables are read as they were written by two readers that share nothing with the writer: the `csv` crate, and Python's
//! `csv` module in its strict mode. No cell is taken for a formula.
//!
//! Sources: RFC 4180, section 2, for records and quoting; what a formula begins with: from memory.

use std::fs;
use std::process::Command;

use taperwright::base::units::show::Units;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::share::table::{self, Cell, Table};
use taperwright::plan::{Action, Plan};

use crate::designs::{parsed, usual};
use crate::hostile::{NAMES, named};
use crate::lines::{any_design, some_of};

/// What begins a formula.
const FORMULA: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// The records of a text as the `csv` crate reads it; each must have as many fields as the first.
fn read_by_crate(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes());
    let fields = |record: csv::StringRecord| record.iter().map(str::to_owned).collect();
    reader
        .records()
        .map(|record| fields(record.expect("a record of as many fields")))
        .collect()
}

/// The records as Python reads them.
fn read_by_python(text: &str) -> Vec<Vec<String>> {
    const SCRIPT: &str = "import csv, json, sys\n\
        with open(sys.argv[1], encoding='utf-8-sig', newline='') as file:\n\
        \x20   print(json.dumps(list(csv.reader(file, strict=True))))";
    let file = tempfile::NamedTempFile::new().expect("a file to read from");
    fs::write(file.path(), text).expect("the table can be written");
    let run = Command::new("python3")
        .args(["-c", SCRIPT])
        .arg(file.path())
        .output()
        .expect("python3 must be installed: it is the second reader of tables");
    assert!(
        run.status.success(),
        "Python would not read the table: {}",
        String::from_utf8_lossy(&run.stderr)
    );
    serde_json::from_slice(&run.stdout).expect("lists of lists of texts")
}

/// The records after the head as both readers find them, which must be the same.
fn read(table: &Table) -> Vec<Vec<String>> {
    let text = table.csv();
    let records = read_by_crate(&text);
    assert_eq!(records, read_by_python(&text), "the two readers differ");
    assert_eq!(records[0], table.head, "the head");
    assert_eq!(records.len(), table.rows.len() + 1);
    records.into_iter().skip(1).collect()
}

/// The place of a column.
fn column(table: &Table, name: &str) -> usize {
    let place = table.head.iter().position(|head| *head == name);
    place.unwrap_or_else(|| panic!("no column “{name}”"))
}

/// The numbers of a column as they are read; none where the place is empty.
fn numbers(table: &Table, records: &[Vec<String>], name: &str) -> Vec<Option<f64>> {
    let place = column(table, name);
    let number = |record: &Vec<String>| {
        let field = &record[place];
        (!field.is_empty()).then(|| field.parse().expect("a number"))
    };
    records.iter().map(number).collect()
}

#[track_caller]
fn alike(found: &[Option<f64>], wanted: impl IntoIterator<Item = Option<f64>>) {
    let wanted: Vec<_> = wanted.into_iter().collect();
    assert_eq!(found.len(), wanted.len());
    for (found, wanted) in found.iter().zip(wanted) {
        let near = |(a, b): (&f64, f64)| (a - b).abs() <= 0.51e-6;
        let same = found.as_ref().zip(wanted).is_some_and(near);
        assert!(
            same || (found.is_none() && wanted.is_none()),
            "{found:?}, not {wanted:?}"
        );
    }
}

#[test]
fn words_come_back_as_they_are_unless_they_could_be_a_formula() {
    let plain = [
        "Heron Weir",
        "a, b",
        "say “so”",
        "say \"so\"",
        "\"",
        "two\nlines",
        "",
        "Äschenweiß µ°",
        "a=b",
        "x - y",
        "’tis",
        "'",
        ";",
    ];
    let table = Table {
        head: &["Words"],
        // A lone empty field would be an empty line, which readers skip.
        rows: plain
            .iter()
            .map(|words| vec![Cell::text(format!("x{words}"))])
            .collect(),
    };
    let found = read(&table);
    let wanted: Vec<Vec<String>> = plain
        .iter()
        .map(|words| vec![format!("x{words}")])
        .collect();
    assert_eq!(found, wanted);
}

#[test]
fn no_text_is_taken_for_a_formula_and_none_is_lost() {
    let formulas = [
        "=cmd|' /C calc'!A0",
        "+1+1",
        "-1",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "\n=1",
        "  =1",
        "\u{0}=1",
        "=\"a\",\"b\"",
        "＝1",
    ];
    let row = |words: &&str| vec![Cell::text(*words), Cell::text("behind")];
    let table = Table {
        head: &["Words", "Behind"],
        rows: formulas.iter().map(row).collect(),
    };
    for (words, record) in formulas.iter().zip(read(&table)) {
        let kept: String = words
            .chars()
            .filter(|c| !c.is_control() || *c == '\n')
            .collect();
        assert_eq!(record, [format!("“{kept}”"), "behind".to_owned()]);
    }
}

#[test]
fn numbers_stay_numbers() {
    let given = [
        -1.5,
        0.0,
        -0.0,
        -0.000_000_1,
        1e-6,
        123_456.789,
        1e9,
        f64::NAN,
        f64::INFINITY,
    ];
    let table = Table {
        head: &["Number", "Behind"],
        rows: given
            .iter()
            .map(|&n| vec![Cell::Number(n), Cell::text("x")])
            .collect(),
    };
    let found: Vec<String> = read(&table)
        .into_iter()
        .map(|mut record| record.remove(0))
        .collect();
    let wanted = [
        "-1.5",
        "0",
        "0",
        "0",
        "0.000001",
        "123456.789",
        "1000000000",
        "",
        "",
    ];
    assert_eq!(found, wanted);
}

/// RFC 4180, section 2, rule 1: each record ends with CR LF. The mark in front is that of UTF-8.
#[test]
fn every_record_ends_with_carriage_return_and_line_feed() {
    let text = table::schedule(&demo(), &Plan::of(&demo()), Units::Metric).csv();
    assert!(text.starts_with('\u{feff}') && text.ends_with("\r\n"));
    assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
    assert_eq!(
        text.matches("\r\n").count(),
        Plan::of(&demo()).events.len() + 1
    );
}

#[test]
fn the_schedule_says_what_the_plan_says() {
    for design in some_of(&any_design(), 6)
        .into_iter()
        .chain([demo(), usual()])
    {
        schedule_is_that_of(&design);
    }
}

fn schedule_is_that_of(design: &Design) {
    let plan = Plan::of(design);
    let table = table::schedule(design, &plan, Units::Metric);
    let records = read(&table);
    let events = || plan.events.iter();
    let of = |name: &str| numbers(&table, &records, name);
    alike(&of("At (m)"), events().map(|event| Some(event.at.metres())));
    alike(
        &of("Since the row before (m)"),
        events().map(|event| Some(event.since.metres())),
    );
    alike(
        &of("Carrier circuits since the row before"),
        events().map(|event| Some(event.circuits)),
    );
    alike(
        &of("Threads from here on"),
        events().map(|event| Some(f64::from(event.level.threads))),
    );
    alike(
        &of("Driving gear (teeth)"),
        events().map(|event| Some(f64::from(event.wheels.driver))),
    );
    alike(
        &of("Driven gear (teeth)"),
        events().map(|event| Some(f64::from(event.wheels.driven))),
    );
    let target = design.target_angle().degrees();
    alike(
        &of("Braid angle off the target (°)"),
        events().map(|event| Some(event.angle.degrees() - target)),
    );
    let what = column(&table, "What");
    for (record, event) in records.iter().zip(events()) {
        assert_eq!(
            record[what] == "add",
            matches!(event.action, Action::Add { .. })
        );
    }
}

/// The demo's angles lie on both sides of the target, so that the table has numbers with a minus.
#[test]
fn angles_under_the_target_are_negative_numbers() {
    let plan = Plan::of(&demo());
    let table = table::schedule(&demo(), &plan, Units::Metric);
    let off = numbers(&table, &read(&table), "Braid angle off the target (°)");
    assert!(off.iter().flatten().any(|off| *off < 0.0));
    assert!(off.iter().flatten().any(|off| *off > 0.0));
}

#[test]
fn the_bobbins_say_what_the_plan_says() {
    for design in some_of(&any_design(), 6).into_iter().chain([demo()]) {
        let plan = Plan::of(&design);
        let table = table::bobbins(&design, &plan, Units::Imperial);
        let records = read(&table);
        let bobbins = || plan.bobbins.iter();
        let of = |name: &str| numbers(&table, &records, name);
        alike(
            &of("Thread to wind (m)"),
            bobbins().map(|bobbin| Some(bobbin.length.metres())),
        );
        alike(
            &of("Mass of it (g)"),
            bobbins().map(|bobbin| Some(bobbin.mass.grams())),
        );
        alike(
            &of("Too small: empty at (m)"),
            bobbins().map(|bobbin| Some(bobbin.runs_out?.metres())),
        );
        let end: f64 = of("Length of ends for it, plying included (m)")
            .iter()
            .flatten()
            .sum();
        let yarn: f64 = plan.plying.iter().map(|kind| kind.yarn.metres()).sum();
        assert!(
            (end - yarn).abs() <= 1e-6 * yarn.max(1.0),
            "{end} of {yarn} m"
        );
    }
}

#[test]
fn a_hostile_name_is_a_name_and_nothing_else() {
    for name in NAMES {
        let design = named(name);
        let plan = Plan::of(&design);
        for table in [
            table::schedule(&design, &plan, Units::Metric),
            table::bobbins(&design, &plan, Units::Metric),
        ] {
            for record in read(&table) {
                assert!(record[0].contains(design.title()), "{record:?}");
                let is_formula =
                    |field: &&String| field.starts_with(FORMULA) && field.parse::<f64>().is_err();
                assert_eq!(record.iter().find(is_formula), None);
            }
        }
    }
}

#[test]
fn files_are_called_by_letters_digits_and_dashes() {
    for name in NAMES {
        let design = named(name);
        for file in [table::schedule_name(&design), table::bobbins_name(&design)] {
            let stem = file
                .trim_end_matches(".schedule.csv")
                .trim_end_matches(".bobbins.csv");
            let is_plain = |c: char| c.is_alphanumeric() || c == '-';
            assert!(!stem.is_empty() && stem.chars().all(is_plain), "{file}");
        }
    }
    let mut draft = usual().draft().clone();
    "Höllental / No. 5".clone_into(&mut draft.name);
    assert_eq!(
        table::schedule_name(&parsed(draft)),
        "höllental-no-5.schedule.csv"
    );
}
