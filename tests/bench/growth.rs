//! Lines to see by how what is calculated grows: with control points, with carriers, and one for drags.

use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft, DraftPoint};

/// Control points of the series.
pub(crate) const POINTS: [u32; 5] = [10, 30, 100, 300, 1000];
/// Carriers of the series.
pub(crate) const CARRIERS: [u32; 5] = [16, 24, 32, 48, 64];

/// Length of every line of the series of points, in metres: that a thousand lie a tenth of a metre apart.
const LENGTH_M: f64 = 99.9;

/// A line of the demo's machine with so many control points, at least two, up and down over two levels or so: the
/// stops grow with the points, the length stays.
pub(crate) fn of_points(count: u32) -> Design {
    let step = LENGTH_M / f64::from(count - 1);
    let point = |index: u32| DraftPoint {
        at_m: f64::from(index) * step,
        diameter_mm: if index.is_multiple_of(2) { 1.0 } else { 1.05 },
    };
    let mut draft = demo().draft().clone();
    // No swelling is too short to be worth its stops.
    draft.settings.set(Setting::StopPrice, 0.0);
    drawn(draft, (0..count).map(point).collect())
}

/// The demo's line on a machine of so many carriers, a multiple of four, thicker by as much as there are more: from half of
/// them at the tip to seven of eight in the belly. The stops grow with the carriers.
pub(crate) fn of_carriers(count: u32) -> Design {
    let mut draft = demo().draft().clone();
    let times = (f64::from(count) / 16.0).sqrt();
    for point in &mut draft.points {
        point.diameter_mm *= times;
    }
    let settings = &mut draft.settings;
    settings.set(Setting::HornGears, f64::from(count / 2));
    settings.set(Setting::MostThreads, f64::from(count));
    settings.set(Setting::FewestThreads, f64::from(count / 2));
    // A thicker braid advances by more in a circuit at the same angle.
    let constant = settings.get(Setting::MachineConstant);
    settings.set(Setting::MachineConstant, constant * times);
    Design::parse(draft).expect("the machine has a track")
}

/// A line of forty control points to drag about: thin at both ends, with a slow and a fast wave between.
pub(crate) fn forty_points() -> Design {
    let point = |index: u32| {
        let along = f64::from(index);
        let body = 0.24 * (along.min(39.0 - along) / 8.0).min(1.0);
        let waves = 0.035 * (along * 0.9).sin() + 0.02 * (along * 2.3).cos();
        DraftPoint {
            at_m: along * 0.65,
            diameter_mm: 0.86 + body + waves,
        }
    };
    drawn(demo().draft().clone(), (0..40).map(point).collect())
}

fn drawn(draft: Draft, points: Vec<DraftPoint>) -> Design {
    Design::parse(Draft { points, ..draft }).expect("the drawing is a valid one")
}
