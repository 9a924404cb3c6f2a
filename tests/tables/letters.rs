//! Silk size letters.

use taperwright::base::units::Length;
use taperwright::braid::letters::{LETTERS, Letter};

use crate::row::agree;

/// Thousandths of an inch and letter: the old tables as reprinted in Healy, Pocket Guide to Fishing Knots.
const TABLE: [(f64, &str); 13] = [
    (80.0, "AAAAA"),
    (75.0, "AAAA"),
    (70.0, "AAA"),
    (65.0, "AA"),
    (60.0, "A"),
    (55.0, "B"),
    (50.0, "C"),
    (45.0, "D"),
    (40.0, "E"),
    (35.0, "F"),
    (30.0, "G"),
    (25.0, "H"),
    (22.0, "I"),
];

fn nearest(thousandths: f64) -> Option<&'static str> {
    Letter::nearest(Length::from_millimetres(thousandths * 25.4e-3)).map(|letter| letter.name)
}

#[test]
fn the_letters_are_those_of_the_table() {
    assert_eq!(LETTERS.len(), TABLE.len());
    for (letter, (thousandths, name)) in LETTERS.iter().zip(TABLE) {
        assert_eq!(letter.name, name);
        agree(letter.diameter.millimetres(), thousandths * 25.4e-3, 1e-12);
        assert_eq!(nearest(thousandths), Some(name));
    }
}

/// By the middle between two rows of the table, a tenth of a thousandth to either side.
#[test]
fn between_two_letters_the_nearer_one_counts() {
    for pair in TABLE.windows(2) {
        let ((thick, thicker), (thin, thinner)) = (pair[0], pair[1]);
        let middle = f64::midpoint(thick, thin);
        assert_eq!(nearest(middle + 0.1), Some(thicker));
        assert_eq!(nearest(middle - 0.1), Some(thinner));
    }
}

/// Our own choice: half of the widest step of the table, 2.5 thousandths, beyond either end.
#[test]
fn far_outside_the_table_there_is_no_letter() {
    let rows = [
        (82.4, Some("AAAAA")),
        (82.6, None),
        (200.0, None),
        (19.6, Some("I")),
        (19.4, None),
        (0.0, None),
    ];
    for (thousandths, name) in rows {
        assert_eq!(nearest(thousandths), name, "{thousandths}");
    }
}
