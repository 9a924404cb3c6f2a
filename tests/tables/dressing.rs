//! What oil does to a braid.

use taperwright::base::units::text::{Unit, read};
use taperwright::base::units::{Angle, Density, Length, Mass, Pressure};
use taperwright::braid::dressing::{Dressed, Dressing, Materials};
use taperwright::braid::geometry::{Braid, Braiding};
use taperwright::braid::recipe::{DraftStep, StepKind, StepValue};
use taperwright::braid::vacuum::{self, STANDARD_AIR};
use taperwright::design::settings::Setting;
use taperwright::plan::Plan;

use crate::designs::usual;
use crate::row::{agree, row};

/// Oil alone, soaked in without vacuum: nothing else goes on.
fn oiled(fill: f64, gain: f64) -> Materials {
    Materials {
        oil_fill: fill,
        oil_gain: gain,
        ..usual().materials()
    }
}

/// One coat of oil and its drying.
fn oil_alone() -> [DraftStep; 2] {
    [StepKind::Oil, StepKind::Air].map(DraftStep::usual)
}

fn dressed(dressing: &Dressing, fibre_fraction: f64) -> (Braid, Dressed) {
    let braiding = Braiding {
        fibre_fraction,
        ..usual().braiding()
    };
    let braid = braiding.at_angle(16, Angle::from_degrees(45.0));
    (braid, dressing.dress(&braid, fibre_fraction))
}

/// Analytic, silk (1.34) and linseed oil (0.93, Encyclopaedia Britannica, 11th and 14th ed.), 95 % of voids filled,
/// gain in drying 12 % (Surface Coatings International B, doi 10.1007/BF02765585).
#[test]
fn oil_weighs_a_known_share_of_the_silk() {
    let rows = [
        (0.50, "0.659", "0.738", "1.165", "0.670"),
        (0.55, "0.539", "0.604", "1.182", "0.737"),
        (0.60, "0.440", "0.492", "1.200", "0.804"),
    ];
    for (fraction, wet, dry, finished, bare) in rows {
        let materials = oiled(0.95, 0.12);
        let (braid, line) = dressed(&materials.finished(&oil_alone()), fraction);
        let coat = materials.stages(&oil_alone())[0].coat.expect("oil goes on");
        let taken = braid.area() * (1.0 - fraction) * coat.wet();
        row(taken / braid.linear_density, wet);
        row(line.oil / braid.linear_density, dry);
        let section = core::f64::consts::FRAC_PI_4 * braid.diameter.metres().powi(2);
        row(
            line.linear_density.grams_per_metre() / (section * 1e6),
            finished,
        );
        row(
            braid.linear_density.grams_per_metre() / (section * 1e6),
            bare,
        );
        assert_eq!(line.diameter, braid.diameter);
    }
}

/// Analytic, with round numbers: oil of 0.8 g/cm³ in half of the voids gains a quarter of its mass and dries to 1.25
/// g/cm³, so that 0.4 of the voids stay filled; varnish of 1 g/cm³, thinned one to one by mass with solvent of 1 g/cm³,
/// fills half of the rest and leaves a quarter of itself.
#[test]
fn varnish_fills_what_the_oil_left() {
    let density = Density::from_grams_per_cubic_centimetre;
    let materials = Materials {
        oil_fill: 0.5,
        oil: density(0.8),
        oil_gain: 0.25,
        dried_oil: density(1.25),
        varnish_fill: 0.5,
        varnish: density(1.0),
        solids: 0.5,
        solvent: density(1.0),
        film: Length::ZERO,
        film_density: density(1.0),
        pick_up: 1.0,
        grease: 0.0,
        weighed: 1.0,
        air: STANDARD_AIR,
    };
    let steps = [
        StepKind::Oil,
        StepKind::Air,
        StepKind::Varnish,
        StepKind::Air,
    ]
    .map(DraftStep::usual);
    let stages = materials.stages(&steps);
    let coat = stages[0].coat.expect("oil goes on");
    let (braid, line) = dressed(&materials.finished(&steps), 0.55);
    let voids = braid.area().square_metres() * 0.45 * 1000.0;
    agree(coat.wet().grams_per_cubic_centimetre(), 0.5 * 0.8, 1e-12);
    agree(line.oil.kilograms_per_metre(), voids * 0.5, 1e-12);
    agree(
        line.varnish.kilograms_per_metre(),
        voids * 0.6 * 0.5 * 0.25,
        1e-12,
    );
    // What is empty: nothing at first, half while the oil is wet, 0.6 once it is dry, half of that under wet varnish, and
    // what its solids of 1 g/cm³ leave.
    let empty = stages.iter().map(|stage| stage.empty);
    for (empty, known) in empty.zip([0.5, 0.6, 0.3, 0.6 - 0.075]) {
        agree(empty, known, 1e-12);
    }
}

/// Analytic: a film of h on a rod of diameter d is the ring between d and d + 2h; grease is a share of all under it; what
/// lines weigh over what is calculated is a factor on everything.
#[test]
fn film_and_grease_come_on_top() {
    let dressing = Dressing {
        film: Length::from_micrometres(50.0),
        film_density: Density::from_grams_per_cubic_centimetre(1.2),
        grease: 0.02,
        weighed: 1.05,
        ..Dressing::BARE
    };
    let (braid, line) = dressed(&dressing, 0.55);
    let d = braid.diameter.metres();
    let ring = core::f64::consts::FRAC_PI_4 * ((d + 100e-6).powi(2) - d.powi(2));
    agree(line.film.kilograms_per_metre(), ring * 1200.0, 1e-9);
    agree(line.diameter.metres(), d + 100e-6, 1e-12);
    let under = braid.linear_density + line.film;
    agree(line.linear_density / under, 1.02 * 1.05, 1e-12);
}

/// Boyle's law, analytic, at absolute pressure p in the standard air of 1013.25 mbar (ISO 2533): 1 − p/p₀.
#[test]
fn vacuum_lets_in_what_boyle_allows() {
    let rows = [
        (500.0, "0.507"),
        (200.0, "0.803"),
        (100.0, "0.901"),
        (50.0, "0.951"),
        (10.0, "0.990"),
    ];
    for (mbar, bound) in rows {
        let left = Pressure::from_millibars(mbar);
        row(vacuum::fill_bound(left, STANDARD_AIR), bound);
        // A coat that would fill all takes this share, and says so.
        let materials = oiled(1.0, 0.1);
        let mut step = DraftStep::usual(StepKind::OilVacuum);
        step.set(StepValue::Millibar, mbar);
        let coat = materials.stages(&[step])[0].coat.expect("oil goes on");
        row(coat.fill, bound);
        assert_eq!(coat.bound, Some(coat.fill));
    }
    let fill = vacuum::fill_bound(Pressure::from_millibars(100.0), STANDARD_AIR);
    assert_eq!(Setting::OilFill.default_value(), f64::round(100.0 * fill));
}

/// A gauge shows a difference: 900 mbar under air of 1013.25 leave 113.25; 27 inHg (33.8639 mbar each, NIST SP 811) leave
/// 98.9.
#[test]
fn a_gauge_shows_a_difference() {
    for gauge in [-900.0, 900.0] {
        let left = vacuum::absolute(Pressure::from_millibars(gauge), STANDARD_AIR);
        agree(left.millibars(), 113.25, 1e-12);
    }
    let typed = read("27 inHg", Unit::Millibar).expect("a pressure");
    agree(typed, 27.0 * 33.8639, 1e-5);
    let left = vacuum::absolute(Pressure::from_millibars(typed), STANDARD_AIR);
    row(left.millibars(), "98.9");
}

/// The standard atmosphere, ISO 2533 and U.S. Standard Atmosphere 1976 (the same below 32 km), pressures at heights in
/// geopotential metres; from memory of the tables.
#[test]
fn air_gets_thinner_with_height() {
    let rows = [
        (0.0, 1013.25),
        (500.0, 954.61),
        (1_000.0, 898.75),
        (1_500.0, 845.56),
        (2_000.0, 794.95),
        (3_000.0, 701.09),
    ];
    for (metres, mbar) in rows {
        let air = vacuum::air_at(Length::from_metres(metres));
        agree(air.millibars(), mbar, 1e-4);
    }
}

/// Two routes to the mass of a tapered line after each step: the sum over the line of each station dressed, by a fine rule of
/// trapezoids, and the plan's own sums.
#[test]
fn a_line_weighs_the_sum_of_its_stations() {
    let design = usual();
    let plan = Plan::of(&design);
    let materials = design.materials();
    for dressing in [
        Dressing::BARE,
        materials.finished(&oil_alone()),
        materials.finished(&design.draft().recipe),
    ] {
        let length = plan.length;
        let pieces = plan.line.stretches().iter().flat_map(|stretch| {
            let parts = 400;
            (0..parts).map(move |k| {
                let share = (f64::from(k) + 0.5) / f64::from(parts);
                let at = stretch.from() + stretch.length() * share;
                (stretch, at, stretch.length() / f64::from(parts))
            })
        });
        let sum: Mass = pieces
            .map(|(stretch, at, part)| {
                let braid = plan.line.station_in(stretch, at).braid;
                part * dressing.dress(&braid, 0.55).linear_density
            })
            .sum();
        let told = plan
            .line
            .mass_with(&dressing, Density::ZERO, Length::ZERO, length);
        agree(told.grams(), sum.grams(), 2e-6);
    }
}
