//! What a braid bears.

use taperwright::base::choice::Choice as _;
use taperwright::base::units::Angle;
use taperwright::braid::yarn::Fibre;
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::plan::Plan;

use crate::designs::design;
use crate::row::{agree, row};

/// Morton & Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, Tables 13.1–13.2, cN/tex; cotton is the middle
/// of 19 to 45. Polypropylene and polyethylene from memory.
#[test]
fn fibres_have_their_published_tenacities() {
    let published = [
        (Fibre::Silk, 38.0),
        (Fibre::Nylon, 48.0),
        (Fibre::Polyester, 47.0),
        (Fibre::Viscose, 18.0),
        (Fibre::Cotton, f64::midpoint(19.0, 45.0)),
        (Fibre::Flax, 54.0),
    ];
    let from_memory = [(Fibre::Polypropylene, 50.0), (Fibre::Polyethylene, 300.0)];
    for (fibre, centinewtons_per_tex) in published.into_iter().chain(from_memory) {
        agree(fibre.tenacity(), centinewtons_per_tex * 1e4, 1e-15);
    }
    assert_eq!(published.len() + from_memory.len(), Fibre::ALL.len());
}

/// Silk loses 15 to 20 % of its strength when wet, as published for degummed silk. Of the others only the direction,
/// from memory: cotton and flax gain, nylon and viscose lose, what takes up no water stays.
#[test]
fn fibres_are_weaker_wet_or_stronger() {
    let kept = |fibre: Fibre| fibre.wet_strength();
    assert!((0.80..=0.85).contains(&kept(Fibre::Silk)));
    assert!(kept(Fibre::Viscose) < kept(Fibre::Nylon) && kept(Fibre::Nylon) < 1.0);
    assert!(kept(Fibre::Cotton) > 1.0 && kept(Fibre::Flax) > 1.0);
    for dry in [Fibre::Polyester, Fibre::Polypropylene, Fibre::Polyethylene] {
        agree(kept(dry), 1.0, 1e-15);
    }
}

/// A level line of 16 threads of one end of 46.7 tex each, braided at 25° to within the micrometre of lay that can be set.
fn sixteen_of_46_7_tex(efficiency: f64) -> Design {
    let denier = 46.7 * 9.0;
    let line = |constant: f64| {
        let settings = [
            (Setting::LabelLow, denier),
            (Setting::LabelHigh, denier),
            (Setting::EndsPerThread, 1.0),
            (Setting::FewestThreads, 16.0),
            (Setting::TargetAngle, 25.0),
            (Setting::PartnerTeeth, 20.0),
            (Setting::MachineConstant, constant),
            (Setting::StrengthEfficiency, efficiency),
        ];
        design(&settings, &[(0.0, 1.2), (10.0, 1.2)])
    };
    let braid = line(1.0).braiding().at_angle(16, Angle::from_degrees(25.0));
    // The gear of 20 teeth is owned.
    line(braid.lay.millimetres())
}

/// Analytic: 16 · 46.7 tex · 38 cN/tex · cos 25° are 257.3 N; a braid keeps 85 % of it, and wet 82 % of that.
#[test]
fn a_braid_bears_what_its_threads_do_along_the_line() {
    for (efficiency, dry, wet) in [(100.0, "257.3", "211.0"), (85.0, "218.7", "179.4")] {
        let plan = Plan::of(&sixteen_of_46_7_tex(efficiency));
        row(plan.belly.braid.angle.degrees(), "25.00");
        row(plan.strength.dry.newtons(), dry);
        row(plan.strength.wet.newtons(), wet);
    }
}
