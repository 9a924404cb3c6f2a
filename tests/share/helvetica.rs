//! How wide a text is in Helvetica, and in Arial and Liberation Sans, which are as wide. Source: Adobe's font metrics of
//! Helvetica, widths in thousandths, from memory.

/// Widths from the space to the tilde.
const WIDTHS: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];
/// Helvetica-Bold is wider by less than this, all in all.
const BOLD: f64 = 1.08;

/// Width of a text, in the unit of its size. Other letters count as wide as an `n`, other signs too.
pub(crate) fn width(text: &str, size: f64, bold: bool) -> f64 {
    let thousandths = |c: char| {
        let place = (c as usize).checked_sub(0x20);
        place
            .and_then(|place| WIDTHS.get(place))
            .copied()
            .unwrap_or(556)
    };
    let sum: f64 = text.chars().map(|c| f64::from(thousandths(c))).sum();
    sum / 1e3 * size * if bold { BOLD } else { 1.0 }
}

#[test]
fn a_known_word_is_as_wide_as_set_by_hand() {
    // H 722, a 556, m 833, b 556, u 556, r 333, g 556, e 556, f 278, o 556, n 556, s 500, i 222, v 500: summed by hand.
    assert!((width("Hamburgefonsiv", 10.0, false) - 72.8).abs() < 1e-9);
}
