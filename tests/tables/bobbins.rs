//! Bobbins: what goes on, and where one would be empty.

use taperwright::base::units::{Length, LinearDensity};
use taperwright::braid::bobbin::BobbinSize;
use taperwright::braid::yarn::Fibre;
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::plan::Plan;
use taperwright::plan::bobbins::Bobbin;

use crate::designs::design;
use crate::row::{agree, row};

fn size(packing: f64) -> BobbinSize {
    BobbinSize {
        full: Length::from_millimetres(25.0),
        barrel: Length::from_millimetres(10.0),
        width: Length::from_millimetres(30.0),
        packing,
    }
}

/// Analytic: π/4 (25² − 10²) · 30 mm³ are 12.370 cm³; at 60 % fibre of 1.34 g/cm³ 9.945 g, that is 142.1 m of 70 tex and
/// 213.0 m of 46.7 tex.
#[test]
fn a_bobbin_holds_its_ring() {
    let density = Fibre::Silk.density();
    let solid = size(1.0).capacity(density).grams() / density.grams_per_cubic_centimetre();
    row(solid, "12.370");
    let held = size(0.6).capacity(density);
    row(held.grams(), "9.945");
    for (tex, metres) in [(70.0, "142.1"), (46.7, "213.0")] {
        let thread = LinearDensity::from_tex(tex);
        row(held.grams() / thread.grams_per_metre(), metres);
    }
}

/// A small bobbin of so many mm when full, barrel 10 mm, 5 mm wide, 60 % fibre.
fn small(full: f64) -> [(Setting, f64); 4] {
    [
        (Setting::BobbinFull, full),
        (Setting::BobbinBarrel, 10.0),
        (Setting::BobbinWidth, 5.0),
        (Setting::BobbinPacking, 60.0),
    ]
}

/// Metres of 28 tex silk on it: π/4 (D² − 10²) · 5 mm · 0.6 · 1.34 g/cm³ over 0.028 g/m. Analytic.
fn holds(full: f64) -> f64 {
    core::f64::consts::FRAC_PI_4 * (full * full - 100.0) * 5e-3 * 0.6 * 1.34 / 0.028
}

/// Analytic: on a level line each metre takes 1.02/cos α of thread, the lead-in of 0.3 m too; 0.8 m are allowed for.
#[test]
fn on_a_level_line_a_bobbin_runs_out_where_a_division_says() {
    row(holds(12.0), "4.961");
    let all = [(Setting::FewestThreads, 16.0)];
    let line = |full| {
        design(
            &[&all[..], &small(full)].concat(),
            &[(0.0, 1.0), (12.0, 1.0)],
        )
    };
    for full in [11.0, 12.0, 13.0] {
        let plan = Plan::of(&line(full));
        let take_up = 1.02 / plan.belly.braid.angle.radians().cos();
        let empty = (holds(full) - 0.8) / take_up - 0.3;
        assert_eq!(plan.bobbins.len(), 16);
        for bobbin in &plan.bobbins {
            let told = bobbin.runs_out.expect("it does not hold the line");
            agree(told.metres(), empty, 1e-9);
        }
    }
    let large = Plan::of(&line(20.0));
    assert!(holds(20.0) > 18.5);
    assert!(large.bobbins.iter().all(|bobbin| bobbin.runs_out.is_none()));
}

/// Where the thread walked along in millimetres is spent: 0.8 m and, at the tip, 0.3 m of lead-in when a carrier comes
/// in, 1.02/cos α a metre while it is engaged, 50 mm of tail when it goes out.
fn walked(plan: &Plan, bobbin: &Bobbin, holds: f64) -> Option<f64> {
    let (mut spent, mut was_in) = (0.0, false);
    let steps = (0_u32..).map(|step| 1e-3 * (f64::from(step) + 0.5));
    for at in steps.take_while(|&at| at < plan.length.metres()) {
        let station = plan.station(Length::from_metres(at));
        let take_up = 1.02 / station.braid.angle.radians().cos();
        let set = plan.set_at(Length::from_metres(at));
        let is_in = set.contains(&(bobbin.carrier, bobbin.ends));
        let begins = if at < 1e-3 { 0.3 * take_up } else { 0.0 };
        spent += match (was_in, is_in) {
            (false, true) => 0.8 + begins + 1e-3 * take_up,
            (true, true) => 1e-3 * take_up,
            (true, false) => 0.05,
            (false, false) => 0.0,
        };
        was_in = is_in;
        if spent > holds {
            return Some(at);
        }
    }
    None
}

fn swelling_twice(full: f64) -> Design {
    let drawing = [
        (0.0, 0.76),
        (0.5, 1.0),
        (2.0, 1.0),
        (2.5, 0.80),
        (3.0, 0.80),
        (3.5, 1.075),
        (6.0, 1.075),
    ];
    design(&small(full), &drawing)
}

/// By that walk, on a line whose carriers come in twice: to three millimetres.
#[test]
fn on_a_taper_a_bobbin_runs_out_where_its_thread_is_spent() {
    let (mut first, mut second) = (0, 0);
    for full in [11.0, 12.0, 13.0] {
        let plan = Plan::of(&swelling_twice(full));
        for bobbin in &plan.bobbins {
            let walked = walked(&plan, bobbin, holds(full));
            let told = bobbin.runs_out.map(Length::metres);
            assert_eq!(told.is_some(), walked.is_some(), "{bobbin:?}: {walked:?}");
            let apart = told.unwrap_or_default() - walked.unwrap_or_default();
            assert!(apart.abs() < 3e-3, "{bobbin:?}: {walked:?}");
            let is_late = told.is_some_and(|told| told > 3.0);
            first += u32::from(told.is_some() && !is_late);
            second += u32::from(is_late && bobbin.engagements == 2);
        }
    }
    assert!(first > 5 && second > 5, "{first} and {second} ran out");
}
