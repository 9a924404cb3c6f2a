//! A ruler of line classes around a weight.

use crate::base::units::Mass;
use crate::braid::weight::{CLASSES, Class, Verdict};

/// Bands shown on either side of the nearest class.
const NEIGHBOURS: usize = 1;
/// Grains shown beyond the outermost bands.
const MARGIN: f64 = 8.0;

/// A band of the ruler; places are shares of its width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RulerBand {
    /// The class.
    pub class: Class,
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Whether the weight is in it.
    pub holds: bool,
}

/// The ruler.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruler {
    /// Bands from left to right.
    pub bands: Vec<RulerBand>,
    /// Place of the weight, at the nearer end where it is beyond.
    pub pointer: f64,
}

/// The ruler around a head of this mass.
pub fn ruler(head: Mass) -> Ruler {
    let grains = head.grains();
    let distance = |class: &Class| (class.target - grains).abs();
    let nearest =
        (0..CLASSES.len()).min_by(|&a, &b| distance(&CLASSES[a]).total_cmp(&distance(&CLASSES[b])));
    let nearest = nearest.unwrap_or(0);
    let shown =
        &CLASSES[nearest.saturating_sub(NEIGHBOURS)..(nearest + NEIGHBOURS + 1).min(CLASSES.len())];
    let (low, high) = (shown[0].low - MARGIN, shown[shown.len() - 1].high + MARGIN);
    let place = |grains: f64| ((grains - low) / (high - low)).clamp(0.0, 1.0);
    let band = |class: &Class| RulerBand {
        class: *class,
        from: place(class.low),
        to: place(class.high),
        holds: Verdict::of(head).number() == Some(class.number),
    };
    Ruler {
        bands: shown.iter().map(band).collect(),
        pointer: place(grains),
    }
}
