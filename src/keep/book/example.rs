//! A book as two swatches and three lines make it, for a visitor who has measured nothing yet.
//!
//! All of it is invented: the workshop, its truth, and the errors of its measuring. `tests/laws/example.rs` states the scenario and
//! shows that every number written here follows from it. What the book teaches is calculated like that of any other book.

use super::Workshop;
use super::entry::BookEntry;
use super::estimate::Estimate;
use super::frozen::Frozen;
use super::next::Brought;
use super::record::{LineField, LineRecord};
use super::swatch::{Swatch, SwatchField};
use super::weighed::{WeighedLine, planned_weights, weighed_lines};
use crate::design::demo::demo;
use crate::design::{Design, DraftPoint};
use crate::plan::Plan;
use crate::plan::prediction::Prediction;

/// Length of both swatches as they were cut, in metres, but for the error of the rule.
pub const SWATCH_METRES: f64 = 0.3;

/// Both swatches, of the threads of the demo's belly: driving teeth over [`DRIVEN`]; metres, carrier circuits, grams, millimetres,
/// degrees.
const SWATCHES: [[f64; 6]; 2] = [
    [28.0, 0.3, 129.25, 0.2, 1.06, 43.5],
    [24.0, 0.3, 151.25, 0.21, 1.12, 52.0],
];
const DRIVEN: f64 = 40.0;

/// The lines: their name, the finished diameter of the belly in millimetres, and what they weigh in grams: the whole line bare, the
/// whole finished, the first 30 ft.
const LINES: [(&str, f64, [f64; 3]); 3] = [
    ("Invented line 1", 1.085, [15.15, 24.72, 8.88]),
    ("Invented line 2", 1.17, [17.01, 27.25, 9.69]),
    ("Invented line 3", 1.0, [13.11, 21.49, 7.66]),
];

/// What the example book makes of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Example {
    /// The book.
    pub book: Workshop,
    /// What it teaches.
    pub estimate: Estimate,
    /// Its lines beside their plans.
    pub lines: Vec<WeighedLine>,
    /// The head of the line as it is planned without a book.
    pub without: Prediction,
    /// The same with what the example book teaches.
    pub with: Prediction,
    /// What each entry brought when it was written down, under its name.
    pub brought: Vec<(String, Brought)>,
}

impl Example {
    /// That of a line; `None` where it is too short to have a class, or of another yarn.
    pub fn of(design: &Design) -> Option<Self> {
        let (book, plan) = (book(), Plan::of(design));
        let estimate = Estimate::of(&book);
        let (taught, _) = estimate.taught(design, book.title())?;
        Some(Self {
            lines: weighed_lines(&book, &estimate.doubts, &planned_weights(&book, &[])),
            with: Plan::of(&taught).prediction?,
            brought: brought(&book, (design, &plan)),
            without: plan.prediction?,
            estimate,
            book,
        })
    }
}

/// What each entry brought to the book as it was then: the swatches were measured first.
fn brought(book: &Workshop, line: (&Design, &Plan)) -> Vec<(String, Brought)> {
    let mut grown = Workshop {
        swatches: Vec::new(),
        records: Vec::new(),
        ..book.clone()
    };
    let mut all = Vec::new();
    let mut add = |grown: &Workshop, name: &String, entry| {
        let brought = Brought::of(grown, &Estimate::of(grown), line, entry);
        all.extend(brought.map(|brought| (name.clone(), brought)));
    };
    for (index, swatch) in book.swatches.iter().enumerate() {
        grown.swatches.push(swatch.clone());
        add(&grown, &swatch.name, BookEntry::Swatch(index));
    }
    for (index, record) in book.records.iter().enumerate() {
        grown.records.push(record.clone());
        add(&grown, &record.name, BookEntry::Line(index));
    }
    all
}

/// The example book.
pub fn book() -> Workshop {
    let mut book = Workshop::new("Invented workshop".to_owned(), &demo());
    "An invented example: this workshop and its lines do not exist.".clone_into(&mut book.notes);
    let plan = Plan::of(&demo());
    let swatches = (1..).zip(SWATCHES);
    book.swatches = swatches
        .map(|(number, numbers)| swatch(number, numbers, &plan))
        .collect();
    book.records = LINES.map(line).to_vec();
    book
}

fn swatch(number: u32, numbers: [f64; 6], plan: &Plan) -> Swatch {
    let mut swatch = Swatch::of_belly(&demo(), plan);
    swatch.name = format!("Invented swatch {number}");
    swatch.set(SwatchField::Driven, Some(DRIVEN));
    let fields = [
        SwatchField::Driver,
        SwatchField::Length,
        SwatchField::Circuits,
        SwatchField::Mass,
        SwatchField::Diameter,
        SwatchField::Angle,
    ];
    for (field, value) in fields.into_iter().zip(numbers) {
        swatch.set(field, Some(value));
    }
    swatch
}

fn line((name, belly, [bare, whole, head]): (&str, f64, [f64; 3])) -> LineRecord {
    let mut record = LineRecord::new(name.to_owned(), Frozen::of(&with_belly(belly)));
    record.bare.set(LineField::Mass, Some(bare));
    record.finished.set(LineField::Mass, Some(whole));
    record.finished.set(LineField::HeadMass, Some(head));
    record
}

/// The demo with another belly, in millimetres.
fn with_belly(diameter_mm: f64) -> Design {
    let mut draft = demo().draft().clone();
    let thickest = |thickest: f64, point: &DraftPoint| thickest.max(point.diameter_mm);
    let belly = draft.points.iter().fold(0.0, thickest);
    for point in &mut draft.points {
        if point.diameter_mm == belly {
            point.diameter_mm = diameter_mm;
        }
    }
    Design::parse(draft).expect("the demo may be a little thicker or thinner: a test parses it")
}
