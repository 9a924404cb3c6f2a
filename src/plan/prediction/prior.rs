//! What is believed before anything is measured: the base settings, and how far books and labels may be off. The spreads
//! are our own choice, each with its reason; one standard deviation each.

use crate::base::estimate::Unknown;
use crate::design::Design;
use crate::design::parameters::{COUNT, Parameter};
use crate::design::settings::Setting;

/// Of the machine constant, as a share: a roller's diameter and a train's teeth read off, the slip of the line not known.
pub const CONSTANT_SHARE: f64 = 0.03;
/// Of crimp, in points: books say 1 to 4 % of soft braids, and the usual 2 % is only their middle.
pub const CRIMP: f64 = 1.5;
/// Of the fibre in the section, in points: books say 50 to 60 %, which as a uniform range has a spread of 2.9.
pub const FIBRE_FRACTION: f64 = 3.0;
/// Of the yarn's size, as a share, where its label is one number: a length weighed by the maker.
pub const YARN_SHARE: f64 = 0.005;
/// Of the voids oil fills, in points: gauges of vacuum, and how long the jar is left, differ by as much.
pub const OIL_FILL: f64 = 5.0;
/// Of varnish picked up, in points of percent: hands wipe very differently.
pub const VARNISH_PICK_UP: f64 = 30.0;
/// Of the dressed mass against the calculated one, in points of percent: all that the calculation leaves out.
pub const WEIGHED: f64 = 2.0;
/// From one line to the next of one hand, of the dressed weight as a share.
pub const SCATTER: f64 = 0.015;

/// The beliefs of a workshop with the settings of this design, in the order of [`Parameter::ALL`].
///
/// A label's range is taken as uniform: half of it over √3. The braid cannot hold more fibre than its threads do.
pub fn of(base: &Design) -> [Unknown; COUNT] {
    Parameter::ALL.map(|parameter| {
        let rule = parameter.setting().rule();
        let mean = base.setting(parameter.setting());
        Unknown {
            mean,
            spread: spread(base, parameter, mean),
            low: rule.low,
            high: match parameter {
                Parameter::FibreFraction => rule.high.min(base.setting(Setting::ThreadPacking)),
                _ => rule.high,
            },
        }
    })
}

fn spread(base: &Design, parameter: Parameter, mean: f64) -> f64 {
    match parameter {
        Parameter::Constant => CONSTANT_SHARE * mean,
        Parameter::Crimp => CRIMP,
        Parameter::FibreFraction => FIBRE_FRACTION,
        Parameter::Yarn => mean * (base.label_spread() / 3.0_f64.sqrt()).max(YARN_SHARE),
        Parameter::OilFill => OIL_FILL,
        Parameter::VarnishPickUp => VARNISH_PICK_UP,
        Parameter::Weighed => WEIGHED,
    }
}
