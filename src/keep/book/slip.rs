//! Slips of the pen, of the unit and of counting that would explain a number.

use super::check::{self, Why};
use super::doubt::{Doubt, Slip};
use super::model::{MeasureKind, Model as _, Source, SwatchModel};
use super::swatch::SwatchField;
use super::workshop::Workshop;

/// By what a number has to be multiplied to make good a slip, and what it looks like meanwhile.
type Factor = (f64, &'static str);

/// A comma in the wrong place.
const TENS: [Factor; 6] = [
    (0.1, "This is ten times what is expected."),
    (10.0, "This is a tenth of what is expected."),
    (0.01, "This is a hundred times what is expected."),
    (100.0, "This is a hundredth of what is expected."),
    (0.001, "This is a thousand times what is expected."),
    (1_000.0, "This is a thousandth of what is expected."),
];
/// One inch is 25.4 mm. Source: exact, NIST SP 811.
const OF_SIZE: [Factor; 6] = [
    (25.4, "This looks like inches."),
    (0.0254, "This looks like thousandths of an inch."),
    (
        1.0 / 25.4,
        "This is 25.4 times what is expected, the number of millimetres in an inch.",
    ),
    (
        1.0 / 0.0254,
        "This looks like millimetres typed as thousandths of an inch.",
    ),
    (
        2.54,
        "This is too small by 2.54, the number of centimetres in an inch.",
    ),
    (
        1.0 / 2.54,
        "This is 2.54 times what is expected, the number of centimetres in an inch.",
    ),
];
/// Grains and ounces in grams. Source: exact, and rounded, NIST SP 811.
const OF_MASS: [Factor; 2] = [
    (0.064_798_91, "This looks like grains."),
    (28.349_52, "This looks like ounces."),
];
/// Circuits or crossings counted once for two, or twice for one: the lay goes the other way.
const OF_COUNT: [Factor; 2] = [
    (0.5, "This is half the count expected."),
    (2.0, "This is twice the count expected."),
];
/// Threads counted of one direction alone, or each twice.
const OF_THREADS: [Factor; 2] = [
    (2.0, "This is what twice as many threads would weigh."),
    (0.5, "This is what half as many threads would weigh."),
];
/// A length in centimetres or millimetres taken for metres, the other way round, or in feet.
const OF_LENGTH: [Factor; 6] = [
    (0.01, "The length looks like centimetres typed as metres."),
    (0.001, "The length looks like millimetres typed as metres."),
    (0.1, "The length is ten times what the other numbers give."),
    (
        10.0,
        "The length is a tenth of what the other numbers give.",
    ),
    (
        100.0,
        "The length is a hundredth of what the other numbers give.",
    ),
    (0.3048, "The length looks like feet."),
];
/// A slip explains a number that it brings within this many spreads of what is expected.
const EXPLAINS: f64 = 2.0;

/// The slip that explains a doubted number best, if any does. The other doubts are looked at too: where lay and weight are
/// off by the same share, it is the length they were both taken over.
pub(super) fn of(workshop: &Workshop, doubt: &Doubt, others: &[Doubt]) -> Option<Slip> {
    let kind = doubt.source.kind();
    let own: &[Factor] = match kind {
        MeasureKind::Lay => &OF_COUNT,
        MeasureKind::Angle => &[],
        MeasureKind::Diameter => &OF_SIZE,
        MeasureKind::SwatchWeight
        | MeasureKind::BareWeight
        | MeasureKind::OiledWeight
        | MeasureKind::FinishedWeight
        | MeasureKind::ThreadWeight => &OF_MASS,
    };
    let threads = OF_THREADS
        .iter()
        .filter(|_| kind == MeasureKind::SwatchWeight);
    let single = TENS.iter().chain(own);
    let single = single.filter_map(|factor| corrected(workshop, doubt, *factor));
    let threads = threads.filter_map(|factor| threads_corrected(workshop, doubt, *factor));
    let best = single
        .chain(threads)
        .filter(|(left, _)| *left <= EXPLAINS)
        .min_by(|one, other| one.0.total_cmp(&other.0));
    best.map(|(_, slip)| of_length(workshop, doubt, others).unwrap_or(slip))
}

/// How far a number is from what is expected once it is multiplied, in spreads.
fn left(doubt: &Doubt, factor: f64) -> f64 {
    (doubt.measured * factor - doubt.expected).abs() / doubt.spread
}

/// The number itself corrected; of a lay the count, which goes the other way.
fn corrected(workshop: &Workshop, doubt: &Doubt, (factor, words): Factor) -> Option<(f64, Slip)> {
    let written = workshop.get(doubt.source)?;
    let is_lay = doubt.source.kind() == MeasureKind::Lay;
    let value = if is_lay {
        written / factor
    } else {
        written * factor
    };
    let slip = Slip {
        words: if is_lay {
            other_way(factor, words)
        } else {
            words
        },
        at: doubt.source,
        value,
    };
    Some((left(doubt, factor), slip))
}

/// What is said of a count, which is too small by as much as its lay is too large.
fn other_way(factor: f64, words: &'static str) -> &'static str {
    let mut tens = TENS.iter();
    let turned = tens.find(|ten| (ten.0 * factor - 1.0).abs() < 1e-9);
    turned.map_or(words, |ten| ten.1)
}

/// The threads corrected, where that many can be: what the braid of so many weighs is calculated again, since its angle is another.
fn threads_corrected(
    workshop: &Workshop,
    doubt: &Doubt,
    (factor, words): Factor,
) -> Option<(f64, Slip)> {
    let Source::Swatch(index, _) = doubt.source else {
        return None;
    };
    let at = Source::Swatch(index, SwatchField::Threads);
    let value = workshop.get(at)? * factor;
    let mut swatch = workshop.swatches.get(index)?.clone();
    swatch.set(SwatchField::Threads, Some(value));
    let sound = check::swatch::sound(&swatch, &workshop.limits());
    let model = SwatchModel::of(&workshop.base, index, &sound)?;
    let row = model.sources().iter().position(|it| *it == doubt.source)?;
    let expected = *model.expected(&workshop.base.parameters()).get(row)?;
    let spread = doubt.spread * (expected / doubt.expected);
    let left = (doubt.measured - expected).abs() / spread;
    Some((left, Slip { words, at, value }))
}

/// The length of a swatch corrected, where both lay and weight ask for it.
fn of_length(workshop: &Workshop, doubt: &Doubt, others: &[Doubt]) -> Option<Slip> {
    let Source::Swatch(index, SwatchField::Circuits | SwatchField::Mass) = doubt.source else {
        return None;
    };
    let find = |field| {
        let mut others = others.iter();
        others.find(|other| other.source == Source::Swatch(index, field))
    };
    let lay = find(SwatchField::Circuits)?;
    let at = Source::Swatch(index, SwatchField::Length);
    let written = workshop.get(at)?;
    // A lay goes with the length, and so does what a length should weigh.
    let explains_mass = |factor: f64| match find(SwatchField::Mass) {
        Some(mass) => (mass.measured / factor - mass.expected).abs() <= EXPLAINS * mass.spread,
        None => has_impossible_mass(workshop, index),
    };
    let factors = OF_LENGTH.iter();
    let mut fitting = factors.filter(|(factor, _)| left(lay, *factor) <= EXPLAINS);
    let (factor, words) = *fitting.find(|(factor, _)| explains_mass(*factor))?;
    Some(Slip {
        words,
        at,
        value: written * factor,
    })
}

/// Whether the weight of a swatch is more or less than its yarn allows.
fn has_impossible_mass(workshop: &Workshop, index: usize) -> bool {
    let Some(swatch) = workshop.swatches.get(index) else {
        return false;
    };
    let complaints = workshop.complaints_of_swatch(swatch);
    complaints.iter().any(|complaint| {
        matches!(
            complaint.why,
            Why::LighterThanYarn { .. } | Why::HeavierThanYarn { .. }
        )
    })
}
