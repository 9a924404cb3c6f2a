//! Units, ends and threads.

use taperwright::base::choice::Choice as _;
use taperwright::base::units::text::{Unit, read};
use taperwright::base::units::{Angle, Density, Length, LinearDensity, Mass};
use taperwright::braid::yarn::{Condition, Fibre, Thread, round_diameter};
use taperwright::design::settings::Setting;

use crate::designs::{parsed, usual};
use crate::row::{agree, row};

/// International yard and pound agreement, 1959: 1 lb = 0.453 592 37 kg = 7000 gr, 1 ft = 0.3048 m, 1 in = 25.4 mm.
/// Tex and denier: ISO 1144, grams in 1000 m; denier counts 9000 m.
#[test]
fn units_convert_exactly() {
    assert_eq!(Mass::from_grains(1.0).kilograms(), 64.798_91e-6);
    agree(Mass::from_grains(7000.0).kilograms(), 0.453_592_37, 1e-15);
    agree(Mass::from_grams(9.0).grains(), 9.0 / 0.064_798_91, 1e-15);
    assert_eq!(Length::from_feet(1.0).metres(), 0.3048);
    assert_eq!(Length::from_feet(30.0).metres(), 9.144);
    agree(Length::from_inches(1.0).millimetres(), 25.4, 1e-15);
    agree(Length::from_millimetres(25.4).thousandths(), 1000.0, 1e-15);
    agree(LinearDensity::from_tex(1.0).grams_per_metre(), 1e-3, 1e-15);
    agree(LinearDensity::from_denier(9.0).tex(), 1.0, 1e-15);
    agree(
        Density::from_grams_per_cubic_centimetre(1.0).kilograms_per_cubic_metre(),
        1000.0,
        1e-15,
    );
    agree(
        Angle::from_degrees(180.0).radians(),
        core::f64::consts::PI,
        1e-15,
    );
}

/// The same agreement and standard, through the field a maker types into.
#[test]
fn typed_units_convert_exactly() {
    let rows = [
        ("1 in", Unit::Millimetre, 25.4),
        ("45 thou", Unit::Millimetre, 1.143),
        ("1 ft", Unit::Metre, 0.3048),
        ("82' 6\"", Unit::Metre, 25.146),
        ("1 tex", Unit::Denier, 9.0),
        ("1 m", Unit::Foot, 1.0 / 0.3048),
        ("10 µm", Unit::Millimetre, 0.01),
    ];
    for (text, field, value) in rows {
        let typed = read(text, field).unwrap_or_else(|unread| panic!("{text}: {unread}"));
        agree(typed, value, 1e-14);
    }
}

/// Morton & Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, Tables 5.1–5.2; flax and polyethylene from
/// memory, and the code must say so.
#[test]
fn fibres_have_their_published_densities() {
    let published = [
        (Fibre::Silk, 1.34),
        (Fibre::Nylon, 1.14),
        (Fibre::Polyester, 1.39),
        (Fibre::Polypropylene, 0.91),
        (Fibre::Viscose, 1.49),
        (Fibre::Cotton, 1.52),
    ];
    let from_memory = [(Fibre::Flax, 1.54), (Fibre::Polyethylene, 0.97)];
    for (fibre, density) in published.into_iter().chain(from_memory) {
        agree(fibre.density().grams_per_cubic_centimetre(), density, 1e-15);
    }
    assert_eq!(published.len() + from_memory.len(), Fibre::ALL.len());
}

/// Analytic: t = √(4T/(πρψ)), worked out by hand.
#[test]
fn round_threads_have_their_diameters() {
    let rows = [
        (Fibre::Silk, 21.0 / 9.0, 0.65, "0.0584"),
        (Fibre::Silk, 70.0, 0.60, "0.3329"),
        (Fibre::Silk, 70.0, 0.65, "0.3199"),
        (Fibre::Silk, 70.0, 0.75, "0.2978"),
        (Fibre::Nylon, 70.0, 0.65, "0.3468"),
        (Fibre::Polyester, 100.0, 0.65, "0.3754"),
    ];
    for (fibre, tex, packing, millimetres) in rows {
        let tex = LinearDensity::from_tex(tex);
        row(
            round_diameter(tex, fibre.density(), packing).millimetres(),
            millimetres,
        );
    }
}

/// Peirce 1937, J. Text. Inst. 28, T45: cotton of specific volume 1.1 cm³/g has a diameter of 1/(28 √Ne) in, Ne the
/// number of 840-yard hanks in a pound. "28" is printed to two digits, so the agreement is to 1 part in 56.
#[test]
fn cotton_yarn_is_as_thick_as_peirce_has_it() {
    let kilograms_per_metre = 0.453_592_37 / (840.0 * 0.9144);
    for hanks in [10.0_f64, 30.0, 60.0] {
        let yarn = LinearDensity::from_kilograms_per_metre(kilograms_per_metre / hanks);
        let bulk = Density::from_grams_per_cubic_centimetre(1.0 / 1.1);
        let found = round_diameter(yarn, bulk, 1.0).thousandths() / 1000.0;
        agree(found, 1.0 / (28.0 * hanks.sqrt()), 0.5 / 28.0);
    }
}

/// ISO 1144 for the size; analytic for the rest: a flattened thread keeps the area of its section.
#[test]
fn a_thread_is_its_ends_and_flattens_at_constant_area() {
    let thread = usual().thread();
    row(thread.end.tex(), "2.333");
    row(thread.linear_density().tex(), "28.000");
    let Thread { flattening, .. } = thread;
    let (width, thickness) = (thread.width().metres(), thread.thickness().metres());
    agree(width / thickness, flattening, 1e-12);
    agree(
        width * thickness,
        thread.round_diameter().metres().powi(2),
        1e-12,
    );
}

/// Degumming takes 20 to 30 % of raw silk, a textbook range; our default is 24 %. Only yarn entered raw loses it.
#[test]
fn raw_silk_loses_its_gum() {
    let mut draft = usual().draft().clone();
    assert_eq!(draft.settings.get(Setting::DegummingLoss), 24.0);
    draft.condition = Condition::Raw;
    let raw = parsed(draft).thread();
    agree(raw.end.tex(), 0.76 * 21.0 / 9.0, 1e-12);
    agree(usual().thread().end.tex(), 21.0 / 9.0, 1e-12);
}
