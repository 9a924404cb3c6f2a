//! SVG path data under construction.

use core::fmt::Write as _;

/// Largest number of tenths that a coordinate may have and still be a whole one.
const MOST_TENTHS: f64 = 9e15;

/// Writes a number to its nearest tenth, without a decimal where that is whole. A drag writes some hundred of them for each
/// frame; the formatter of decimals, which knows every digit of a number, took most of the time of a path.
fn push_tenths(data: &mut String, value: f64) {
    let tenths = (value * 10.0).round();
    #[expect(
        clippy::cast_possible_truncation,
        reason = "whole, and where it is not small enough it is not used"
    )]
    let count = tenths as i64;
    let (sign, whole, tenth) = (
        if count < 0 { "-" } else { "" },
        (count / 10).unsigned_abs(),
        count % 10,
    );
    // Writing to a string cannot fail.
    let _ = match tenth.unsigned_abs() {
        _ if tenths.is_nan() || tenths.abs() > MOST_TENTHS => write!(data, "{value:.1}"),
        0 => write!(data, "{sign}{whole}"),
        tenth => write!(data, "{sign}{whole}.{tenth}"),
    };
}

/// Path data under construction, to a tenth of a pixel.
#[derive(Default)]
pub(super) struct Path {
    data: String,
    down: bool,
}

impl Path {
    /// The next point begins a new piece.
    pub(super) fn lift(&mut self) {
        self.down = false;
    }

    pub(super) fn to(&mut self, x: f64, y: f64) {
        let letter = if self.down { 'L' } else { 'M' };
        self.down = true;
        self.data.push(letter);
        push_tenths(&mut self.data, x);
        self.data.push(' ');
        push_tenths(&mut self.data, y);
    }

    pub(super) fn level(&mut self, from: f64, to: f64, y: f64) {
        self.to(from, y);
        self.to(to, y);
    }

    /// Goes back to where the piece began; the next point begins a new one.
    pub(super) fn shut(&mut self) {
        self.data.push('Z');
        self.lift();
    }

    pub(super) fn open(self) -> String {
        self.data
    }

    pub(super) fn closed(mut self) -> String {
        self.shut();
        self.data
    }
}
