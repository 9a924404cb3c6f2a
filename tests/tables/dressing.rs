//! What oil does to a braid.

use taperwright::braid::{Braid, Braiding};
use taperwright::design::settings::Setting;
use taperwright::dressing::{Dressed, Dressing};
use taperwright::units::{Angle, Density, Length};

use crate::designs::usual;
use crate::row::{agree, row};

/// Oil alone: nothing else goes on.
fn oiled(fill: f64, gain: f64) -> Dressing {
    Dressing {
        oil_fill: fill,
        oil_gain: gain,
        varnish_fill: 0.0,
        film: Length::ZERO,
        grease: 0.0,
        ..usual().dressing()
    }
}

fn dressed(dressing: &Dressing, fibre_fraction: f64) -> (Braid, Dressed) {
    let braiding = Braiding {
        fibre_fraction,
        ..usual().braiding()
    };
    let braid = braiding.at_angle(16, Angle::from_degrees(45.0));
    (braid, dressing.dress(&braid, fibre_fraction))
}

/// Boyle's law at absolute pressure p in air of 1013.25 mbar (standard atmosphere, ISO 2533): the share filled is at
/// most 1 − p/p₀. The default and its ground name 100 mbar; there is no calculator of vacuum in the core to check.
#[test]
fn the_default_fill_is_boyles_at_a_hundred_millibar() {
    let fill = 1.0 - 100.0 / 1013.25;
    assert_eq!(Setting::OilFill.default_value(), f64::round(100.0 * fill));
    assert!(Setting::OilFill.ground().contains("90 % at 100 mbar"));
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
        let (braid, line) = dressed(&oiled(0.95, 0.12), fraction);
        row(line.oil_wet / braid.linear_density, wet);
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
/// g/cm³, so that 0.4 of the voids stay filled; varnish of 1 g/cm³ fills half of the rest and leaves a quarter of itself.
#[test]
fn varnish_fills_what_the_oil_left() {
    let density = Density::from_grams_per_cubic_centimetre;
    let dressing = Dressing {
        oil_fill: 0.5,
        oil_density: density(0.8),
        oil_gain: 0.25,
        dried_oil_density: density(1.25),
        varnish_fill: 0.5,
        varnish_density: density(1.0),
        varnish_solids: 0.25,
        film: Length::ZERO,
        film_density: density(1.0),
        grease: 0.0,
    };
    let (braid, line) = dressed(&dressing, 0.55);
    let voids = braid.area().square_metres() * 0.45 * 1000.0;
    agree(line.oil_wet.kilograms_per_metre(), voids * 0.5 * 0.8, 1e-12);
    agree(line.oil.kilograms_per_metre(), voids * 0.5, 1e-12);
    agree(
        line.varnish.kilograms_per_metre(),
        voids * 0.6 * 0.5 * 0.25,
        1e-12,
    );
}

/// Analytic: a film of h on a rod of diameter d is the ring between d and d + 2h; grease is a share of all under it.
#[test]
fn film_and_grease_come_on_top() {
    let bare = oiled(0.0, 0.0);
    let dressing = Dressing {
        film: Length::from_micrometres(50.0),
        film_density: Density::from_grams_per_cubic_centimetre(1.2),
        grease: 0.02,
        ..bare
    };
    let (braid, line) = dressed(&dressing, 0.55);
    let d = braid.diameter.metres();
    let ring = core::f64::consts::FRAC_PI_4 * ((d + 100e-6).powi(2) - d.powi(2));
    agree(line.film.kilograms_per_metre(), ring * 1200.0, 1e-9);
    agree(line.diameter.metres(), d + 100e-6, 1e-12);
    let under = braid.linear_density + line.film;
    agree(line.linear_density / under, 1.02, 1e-12);
}
