//! Tables of readings made to take up room.

use taperwright::keep::share::readings::LARGEST;

/// What a table is made of, over and over.
pub(crate) const UNITS: [(&str, &str); 18] = [
    ("rows", "0.5,0.95\n"),
    ("short rows", "1;1\n"),
    ("rows of one cell", "1\n"),
    ("rows that are wrong", "x;y;z\n0.5;abc;9\n"),
    (
        "rows with long remarks",
        "0.5;0.95;a remark that takes up room and says nothing of the line but does so again and again, in many words\n",
    ),
    (
        "rows of many cells",
        "0.5;0.95;1;2;3;4;5;6;7;8;9;10;11;12;13;14;15;16;17;18;19;20\n",
    ),
    (
        "rows of bad cells",
        "0.5;x;x;x;x;x;x;x;x;x;x;x;x;x;x;x;x;x;x;x;x\n",
    ),
    ("cells in one row", "1;"),
    ("blank cells", ";"),
    ("tabs", "\t"),
    ("cells by blanks", "1 "),
    ("cells by two blanks", "1  "),
    ("open quotes", "\"a\n"),
    ("quotes", "\""),
    ("open quotes and doubled ones", "\"a\n\"\"\n"),
    ("blank rows", "\n"),
    ("comments", "# a\n"),
    ("two long rows", "1;1.1;1.2;1.3;1.4;1.5;1.6;1.7;1.8;1.9\n"),
];

/// Texts of a unit: as long as is read, and short enough for each cap not to be met at once.
pub(crate) fn made_of(unit: &str) -> Vec<String> {
    let heading = "Place;Diameter\n0.5;0.95\n";
    let long = unit.repeat((LARGEST - heading.len()) / unit.len());
    let rows = unit.repeat(9_990);
    let cells = unit.repeat(2_000);
    let texts = [
        format!("{heading}{long}"),
        long,
        format!("{heading}{rows}"),
        format!("{cells}\n{cells}"),
    ];
    texts
        .into_iter()
        .filter(|text| text.len() <= LARGEST)
        .collect()
}

/// The largest tables that are read: with long remarks, with many columns, and on its side.
pub(crate) fn largest() -> [(&'static str, String); 3] {
    let remark = "a long remark, ".repeat(32);
    let row = |at: usize, rest: &str| format!("{}.{};0.95{rest}\n", at / 10, at % 10);
    let with = |rest: &str| -> String { (0..2_000).map(|at| row(at % 300, rest)).collect() };
    let list = |cell: fn(usize) -> String| (0..2_000).map(cell).collect::<Vec<_>>().join(";");
    let on_side = format!(
        "Place (m);{}\nd (mm);{}",
        list(|at| (at % 300).to_string()),
        list(|_| "0.95".to_owned())
    );
    let columns = format!(
        "Place;d{}\n{}",
        ";x".repeat(60),
        with(&";2.5 mm".repeat(60))
    );
    [
        ("table with long remarks", with(&format!(";{remark}"))),
        ("table of many columns", columns),
        ("table on its side", on_side),
    ]
}
