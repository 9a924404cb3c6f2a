//! What a bench book teaches, against algebra done by hand.

use core::f64::consts::PI;

use taperwright::base::units::{Length, Mass};
use taperwright::braid::yarn::Fibre;
use taperwright::design::Design;
use taperwright::design::parameters::Parameter;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::record::{LineField, LineRecord, LineStage};
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::keep::book::{Frozen, MeasureKind, Source, Workshop};
use taperwright::plan::Plan;
use taperwright::plan::prediction::knowledge::Knowledge;
use taperwright::plan::prediction::prior;

use crate::designs::{parsed, usual};
use crate::prediction::predicted;
use crate::row::agree;

/// A braid whose truth is chosen, and what follows from it without solving anything.
pub(crate) struct Truth {
    /// Machine constant, millimetres.
    pub(crate) constant: f64,
    pub(crate) crimp: f64,
    pub(crate) fibre_fraction: f64,
    /// True size of the yarn over its label.
    pub(crate) yarn: f64,
}

/// Lay (mm), mass per length (g/m), diameter (mm) and angle (degrees) of sixteen threads of twelve ends of 20/22 denier silk
/// at the angle at which `driver` teeth on 40 really draw them.
///
/// Analytic: `T = n k T₀ τ (1 + c)/cos α`, `d = √(4 T/(π ρ φ))`, `D = d − 2 t` with `t = √(4 k T₀ τ/(π ρ ψ))/√e`, and
/// `L = C g = π D / tan α`; the angle is found by halving, and nothing of the project's is asked.
pub(crate) fn braid(truth: &Truth, driver: f64) -> [f64; 4] {
    let end = 21.0 / 9.0 * 1e-3 * truth.yarn;
    let solid =
        |grams_per_metre: f64, share: f64| (4.0 * grams_per_metre / (PI * 1.34 * share)).sqrt();
    let thickness = solid(12.0 * end, 0.70) / 1.5_f64.sqrt();
    let lay = truth.constant * driver / 40.0;
    let mass = |angle: f64| 192.0 * end * (1.0 + truth.crimp) / angle.cos();
    let path = |angle: f64| solid(mass(angle), truth.fibre_fraction) - 2.0 * thickness;
    let (mut low, mut high) = (0.1_f64, 1.5_f64);
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if PI * path(middle) / middle.tan() > lay {
            low = middle;
        } else {
            high = middle;
        }
    }
    let angle = 0.5 * (low + high);
    let diameter = solid(mass(angle), truth.fibre_fraction);
    [lay, mass(angle), diameter, angle.to_degrees()]
}

const TRUTH: Truth = Truth {
    constant: 3.45,
    crimp: 0.031,
    fibre_fraction: 0.53,
    yarn: 0.98,
};

pub(crate) fn swatch(driver: f64) -> Swatch {
    let [lay, mass, diameter, angle] = braid(&TRUTH, driver);
    let length = 20.0;
    Swatch {
        threads: Some(16.0),
        ends: Some(12.0),
        driver: Some(driver),
        driven: Some(40.0),
        length_m: Some(length),
        circuits: Some(length * 1e3 / lay),
        mass_g: Some(mass * length),
        diameter_mm: Some(diameter),
        angle_deg: Some(angle),
        ..Swatch::default()
    }
}

pub(crate) fn workshop(swatches: Vec<Swatch>) -> Workshop {
    Workshop {
        swatches,
        ..Workshop::new("lot A".to_owned(), &usual())
    }
}

/// One swatch, written down so often that belief weighs nothing beside it, gives back what it was made with: the
/// constant, the fibre in the section, and of yarn and crimp, which act as one, `τ (1 + c)`. Analytic, see [`braid`].
#[test]
fn a_swatch_gives_back_what_it_was_made_with() {
    let book = workshop(vec![swatch(28.0); 400]);
    let estimate = Estimate::of(&book);
    let value = |parameter: Parameter| estimate.learnt[parameter as usize].value;
    agree(value(Parameter::Constant), 3.45, 1e-5);
    let together = value(Parameter::Yarn) * (1.0 + value(Parameter::Crimp) / 100.0);
    // To the error of the angle: 1° of 400 swatches moves 1/cos α by 0.09 %.
    agree(together, 98.0 * 1.031, 9e-4);
    agree(value(Parameter::FibreFraction), 53.0, 2e-3);
    // Of each of the two by itself, a swatch has little to say.
    let single = Estimate::of(&workshop(vec![swatch(28.0)]));
    let crimp = &single.learnt[Parameter::Crimp as usize];
    assert!(crimp.from_measuring() < 0.3, "{crimp:?}");
    // The dressing is as it was believed.
    for parameter in [
        Parameter::OilFill,
        Parameter::VarnishPickUp,
        Parameter::Weighed,
    ] {
        let learnt = &estimate.learnt[parameter as usize];
        agree(learnt.value, learnt.prior, 1e-12);
        agree(learnt.spread, learnt.prior_spread, 1e-12);
        assert_eq!(learnt.told_by_words(), "");
    }
    assert_eq!((estimate.swatches, estimate.lines), (400, 0));
}

/// Analytic: a belief of 3.2 mm, ± 3 % as stated, and a lay that says 3.45 mm to 0.05 % and a quarter of some 8300 circuits.
#[test]
fn the_constant_is_weighed_by_its_errors() {
    let alone = Swatch {
        mass_g: None,
        diameter_mm: None,
        angle_deg: None,
        ..swatch(28.0)
    };
    let circuits: f64 = 20_000.0 / (3.45 * 0.7);
    let error = 3.45 * (0.0005_f64.powi(2) + (0.25 / circuits).powi(2)).sqrt();
    let (prior, measured) = ((3.2 * prior::CONSTANT_SHARE).powi(-2), error.powi(-2));
    let estimate = Estimate::of(&workshop(vec![alone]));
    let learnt = &estimate.learnt[Parameter::Constant as usize];
    let mean = (3.2 * prior + 3.45 * measured) / (prior + measured);
    agree(learnt.value, mean, 1e-9);
    agree(learnt.spread, (prior + measured).powf(-0.5), 1e-6);
    agree(learnt.from_measuring(), measured / (prior + measured), 1e-9);
    assert_eq!(learnt.told_by, [(MeasureKind::Lay, 1)]);
    assert_eq!(learnt.told_by_words(), "1 lay");
    let residual = estimate.residuals[0];
    assert_eq!(residual.source, Source::Swatch(0, SwatchField::Circuits));
    agree(residual.measured, 3.45 * 0.7, 1e-12);
    assert_eq!(estimate.residuals.len(), 1);
}

/// A swatch of which nothing was measured but its angle, with an own error in degrees or the usual one.
fn angle_alone(own: Option<f64>) -> Swatch {
    Swatch {
        length_m: None,
        circuits: None,
        mass_g: None,
        diameter_mm: None,
        angle_error_deg: own,
        ..swatch(28.0)
    }
}

/// A photo's own error of 1° is the usual one of a gauge: it teaches the same to the last bit.
#[test]
fn an_own_error_of_the_usual_size_changes_nothing() {
    let usual = Estimate::of(&workshop(vec![angle_alone(None), swatch(25.0)]));
    let own = Estimate::of(&workshop(vec![angle_alone(Some(1.0)), swatch(25.0)]));
    assert_eq!(own, usual);
    assert_eq!(own.residuals[0].error, 1.0);
}

/// Analytic: numbers weigh by one over the square of their errors. So one angle with half the error teaches what four with the whole
/// error do, and four with twice the error teach what one does.
#[test]
fn an_angle_weighs_by_its_own_error() {
    let of = |swatches: Vec<Swatch>| Estimate::of(&workshop(swatches));
    let four = of(vec![angle_alone(Some(1.0)); 4]);
    let half = of(vec![angle_alone(Some(0.5))]);
    for (one, other) in half.learnt.iter().zip(&four.learnt) {
        agree(one.value, other.value, 1e-6);
        agree(one.spread, other.spread, 1e-6);
    }
    let four_wide = of(vec![angle_alone(Some(2.0)); 4]);
    let usual = of(vec![angle_alone(None)]);
    let moved = |estimate: &Estimate| {
        let constant = &estimate.learnt[Parameter::Constant as usize];
        (constant.value - constant.prior).abs()
    };
    agree(moved(&four_wide), moved(&usual), 1e-6);
    // What is learnt goes with 1/(S² + e²), where S is what was believed of the angle: its inverse is straight in e².
    let [narrow, middle, wide] =
        [0.5, 1.0, 2.0].map(|own| moved(&of(vec![angle_alone(Some(own))])));
    assert!(narrow > middle && middle > wide, "{narrow} {middle} {wide}");
    let steps = [
        (1.0 / middle - 1.0 / narrow) / 0.75,
        (1.0 / wide - 1.0 / middle) / 3.0,
    ];
    agree(steps[0], steps[1], 0.03);
}

/// Analytic: a belief of 3.2 mm, ± 3 % as stated, and crossings that say 3.45 mm. Sixteen threads cross `16 · 10/(2 · 3.45 · 0.7)`
/// times in a centimetre. By hand the rule of 1 mm in that centimetre and half a crossing make the error; of a photo its own does.
#[test]
fn crossings_weigh_by_their_own_error() {
    let crossings = 16.0 * 10.0 / (2.0 * 3.45 * 0.7);
    let learnt = |own: Option<f64>| {
        let swatch = Swatch {
            circuits: None,
            angle_deg: None,
            crossings: Some(crossings),
            crossings_over_m: Some(0.01),
            crossings_error: own,
            ..angle_alone(None)
        };
        let estimate = Estimate::of(&workshop(vec![swatch]));
        estimate.learnt[Parameter::Constant as usize].clone()
    };
    let usual = (0.1_f64.powi(2) + (0.5 / crossings).powi(2)).sqrt() * crossings;
    for (own, error) in [(None, usual), (Some(0.3), 0.3), (Some(1.5), 1.5)] {
        let share = error / crossings;
        let (prior, measured) = (
            (3.2 * prior::CONSTANT_SHARE).powi(-2),
            (3.45 * share).powi(-2),
        );
        let learnt = learnt(own);
        let mean = (3.2 * prior + 3.45 * measured) / (prior + measured);
        agree(learnt.value, mean, 1e-9);
        agree(learnt.spread, (prior + measured).powf(-0.5), 1e-6);
    }
}

/// An own error that cannot be is not used: the usual one holds.
#[test]
fn an_own_error_that_cannot_be_is_not_used() {
    let usual = Estimate::of(&workshop(vec![angle_alone(None)]));
    for own in [0.0, -1.0, 1e-9, 90.0, f64::NAN, f64::INFINITY] {
        let estimate = Estimate::of(&workshop(vec![angle_alone(Some(own))]));
        assert_eq!(estimate, usual, "{own}");
    }
}

/// Analytic: ten metres of thread of twelve ends of 20/22 denier, which is known to half its range over √3. They are weighed to a
/// hundredth of a gram and laid along a rule to 0.05 %. No braid is needed for that, and no other parameter is learnt.
#[test]
fn thread_alone_shows_the_size_of_the_yarn() {
    let grams = 10.0 * 12.0 * 21.0 / 9.0 * 1e-3;
    let thread = Swatch {
        ends: Some(12.0),
        thread_length_m: Some(10.0),
        thread_mass_g: Some(1.02 * grams),
        ..Swatch::default()
    };
    let estimate = Estimate::of(&workshop(vec![thread]));
    let error = 100.0 * ((0.01 / grams).powi(2) + (1.02 * 0.0005_f64).powi(2)).sqrt();
    let (prior, measured) = ((100.0 / 21.0 / 3.0_f64.sqrt()).powi(-2), error.powi(-2));
    let yarn = &estimate.learnt[Parameter::Yarn as usize];
    agree(
        yarn.value,
        (100.0 * prior + 102.0 * measured) / (prior + measured),
        1e-6,
    );
    agree(yarn.spread, (prior + measured).powf(-0.5), 1e-6);
    assert_eq!(yarn.told_by_words(), "1 thread weight");
    let crimp = &estimate.learnt[Parameter::Crimp as usize];
    assert_eq!((crimp.value, crimp.told_by_words()), (2.0, String::new()));
    let [residual] = estimate.residuals[..] else {
        panic!("{:?}", estimate.residuals);
    };
    assert_eq!(residual.source, Source::Swatch(0, SwatchField::ThreadMass));
    agree(residual.expected, grams * yarn.value / 100.0, 1e-9);
}

/// A count of circuits a tenth too high among others stands out, is asked about, and hardly counts meanwhile.
#[test]
fn what_is_beyond_chance_is_shown() {
    let mut swatches = vec![swatch(28.0), swatch(26.0), swatch(30.0)];
    let honest = Estimate::of(&workshop(swatches.clone()));
    assert!(
        honest
            .residuals
            .iter()
            .all(|residual| !residual.is_outlier())
    );
    swatches[1].circuits = swatches[1].circuits.map(|circuits| 1.1 * circuits);
    let book = workshop(swatches);
    assert_eq!(book.complaints_of_swatch(&book.swatches[1]), []);
    let estimate = Estimate::of(&book);
    let worst = estimate
        .residuals
        .iter()
        .max_by(|one, other| one.standardised.abs().total_cmp(&other.standardised.abs()))
        .expect("there are residuals");
    assert_eq!(worst.source, Source::Swatch(1, SwatchField::Circuits));
    assert!(worst.is_outlier(), "{worst:?}");
    assert_eq!(estimate.residuals.len(), honest.residuals.len());
    let constant = |estimate: &Estimate| estimate.learnt[0].value;
    assert!((constant(&estimate) - constant(&honest)).abs() < 0.01);
    let [doubt] = estimate.doubts[..] else {
        panic!("{:?}", estimate.doubts);
    };
    assert_eq!((doubt.source, doubt.is_used), (worst.source, true));
    agree(doubt.off(), worst.standardised, 1e-9);
    // Confirmed, it pulls as hard as the others, and the middle of all is learnt.
    let mut book = book;
    book.confirm(worst.source);
    let estimate = Estimate::of(&book);
    assert!(constant(&estimate) < constant(&honest) - 0.05);
    let asked = estimate.doubts.iter();
    assert!(asked.into_iter().all(|doubt| doubt.source != worst.source));
}

/// Numbers complained of are not learnt from: the same book without them teaches the same.
#[test]
fn what_cannot_be_is_left_out() {
    let mut wrong = swatch(28.0);
    wrong.mass_g = Some(0.1);
    let without = Swatch {
        mass_g: None,
        ..wrong.clone()
    };
    let told = Estimate::of(&workshop(vec![wrong]));
    assert_eq!(told, Estimate::of(&workshop(vec![without])));
    assert_eq!(told.residuals.len(), 3);
    let mut broken = swatch(28.0);
    broken.threads = None;
    let nothing = Estimate::of(&workshop(vec![broken]));
    assert_eq!(nothing, Estimate::of(&workshop(Vec::new())));
    assert_eq!(nothing.parameters(), usual().parameters());
}

/// A line that came out just as planned teaches that all is as believed, only better known, and by what.
#[test]
fn a_line_as_planned_confirms() {
    let plan = Plan::of(&usual());
    let mut line = LineRecord::new("first".to_owned(), Frozen::of(&usual()));
    line.bare.mass_g = Some(plan.bare_mass.grams());
    line.finished.head_mass_g = plan.head_mass.map(Mass::grams);
    line.finished.mass_g = Some(plan.total_mass.grams());
    let mut book = workshop(Vec::new());
    book.records.push(line);
    let estimate = Estimate::of(&book);
    for learnt in &estimate.learnt {
        agree(learnt.value, learnt.prior, 1e-6);
        assert!(learnt.spread <= learnt.prior_spread);
    }
    let oil = &estimate.learnt[Parameter::OilFill as usize];
    assert_eq!(oil.told_by_words(), "2 finished weights");
    let yarn = &estimate.learnt[Parameter::Yarn as usize];
    assert_eq!(yarn.told_by_words(), "1 bare weight, 2 finished weights");
    assert_eq!(
        estimate.residuals[0].source,
        Source::Line(0, LineStage::Bare, LineField::Mass)
    );
    assert_eq!(estimate.moved_on(&usual()), []);
    assert_eq!((estimate.swatches, estimate.lines), (0, 1));
}

/// Boyle: a jar drawn down to 100 mbar of 1013.25 lets in 90.1 %. A line heavier than full can be teaches no more than that.
#[test]
fn oil_is_never_learnt_beyond_what_pressure_lets_in() {
    let plan = Plan::of(&usual());
    let mut line = LineRecord::new("heavy".to_owned(), Frozen::of(&usual()));
    line.bare.mass_g = Some(plan.bare_mass.grams());
    line.finished.mass_g = Some(1.2 * plan.total_mass.grams());
    let mut book = workshop(Vec::new());
    book.records = vec![line; 8];
    let estimate = Estimate::of(&book);
    let oil = &estimate.learnt[Parameter::OilFill as usize];
    assert!(
        oil.value <= 100.0 - 100.0 * 100.0 / 1013.25 + 0.01,
        "{oil:?}"
    );
    assert!(oil.value > 90.0, "{oil:?}");
    // What is left is looked for elsewhere: in more voids, more varnish, and what is left out of the calculation.
    let value = |parameter: Parameter| estimate.learnt[parameter as usize].value;
    assert!(value(Parameter::FibreFraction) < 53.0);
    assert!(value(Parameter::VarnishPickUp) > 110.0);
    assert!(value(Parameter::Weighed) > 101.0);
}

/// Where less was let in than was believed, and the lines are as full as that, the belief is left as it was: nothing speaks
/// against it. Where they are emptier, that is learnt.
#[test]
fn belief_beyond_what_pressure_lets_in_stands() {
    let mut draft = usual().draft().clone();
    for step in &mut draft.recipe {
        if step.kind.is_oil() {
            step.mbar = 200.0;
        }
    }
    let design = parsed(draft);
    let plan = Plan::of(&design);
    let learnt = |share: f64| {
        let mut line = LineRecord::new("200 mbar".to_owned(), Frozen::of(&design));
        line.bare.mass_g = Some(plan.bare_mass.grams());
        line.finished.mass_g = Some(share * plan.total_mass.grams());
        // Bare diameters tell how much there is to be filled.
        for place in 0..10 {
            line.bare.set(LineField::At(place), Some(12.0));
            let diameter = plan.line.station(Length::from_metres(12.0)).braid.diameter;
            line.bare
                .set(LineField::Diameter(place), Some(diameter.millimetres()));
        }
        let mut book = workshop(Vec::new());
        book.records = vec![line; 8];
        Estimate::of(&book).learnt[Parameter::OilFill as usize].clone()
    };
    let full = learnt(1.0);
    agree(full.value, 90.0, 1e-9);
    agree(full.spread, full.prior_spread, 1e-9);
    let emptier = learnt(0.8);
    assert!(emptier.value < 79.0 && emptier.spread < 4.9, "{emptier:?}");
}

/// What a design keeps is what was learnt: spreads to four decimals, correlations to whole percents.
#[test]
fn a_design_keeps_how_well_it_is_known() {
    let estimate = Estimate::of(&workshop(vec![swatch(28.0), swatch(25.0)]));
    let design = with(&usual(), &estimate);
    assert_eq!(estimate.moved_on(&design), []);
    let moved = estimate.moved_on(&usual());
    assert_eq!(moved[0].parameter, Parameter::Constant);
    agree(moved[0].now, 3.45, 1e-3);
    assert_eq!(moved[0].planned, 3.2);
    let known = Knowledge::of(&design);
    for (index, learnt) in estimate.learnt.iter().enumerate() {
        assert!((known.spreads[index] - learnt.spread).abs() < 1e-4);
        assert_eq!(known.correlations[index][index], 1.0);
    }
    let (crimp, yarn) = (Parameter::Crimp as usize, Parameter::Yarn as usize);
    let together = estimate.covariance[crimp][yarn]
        / (estimate.learnt[crimp].spread * estimate.learnt[yarn].spread);
    assert!(together < -0.5, "{together}");
    assert!((known.correlations[yarn][crimp] - together).abs() <= 0.005);
    assert_eq!(
        design
            .draft()
            .learned
            .as_ref()
            .map(|learned| learned.swatches),
        Some(2)
    );
    assert_eq!(known.scatter, 0.015);
}

/// The design planned with what was learnt.
fn with(design: &Design, estimate: &Estimate) -> Design {
    let mut draft = design.draft().clone();
    estimate.parameters().put_into(&mut draft.settings);
    draft.learned = Some(estimate.learned());
    parsed(draft)
}

/// Without a book the beliefs themselves make the range, and measuring makes it narrower.
#[test]
fn measuring_narrows_the_range() {
    let before = predicted(&usual());
    assert_eq!(Knowledge::of(&usual()), Knowledge::believed(&usual()));
    let estimate = Estimate::of(&workshop(vec![swatch(28.0), swatch(25.0)]));
    let after = predicted(&with(&usual(), &estimate));
    assert!(after.margin() / after.mass < 0.8 * (before.margin() / before.mass));
    assert!(before.margin() / before.mass > 0.05);
    assert_eq!(usual().setting(Setting::YarnFactor), 100.0);
}

/// A value set by hand, or another yarn, is the maker's own belief again; what was not learnt may be changed freely.
#[test]
fn what_was_learnt_holds_as_long_as_its_values() {
    let estimate = Estimate::of(&workshop(vec![swatch(28.0)]));
    let learn = Edit::Learn {
        parameters: estimate.parameters(),
        learned: Some(Box::new(estimate.learned())),
        workshop: "Reed Pool".to_owned(),
    };
    let taught = learn.apply(&usual()).expect("a valid design");
    assert_eq!(taught.draft().workshop, "Reed Pool");
    assert!(taught.draft().learned.is_some());
    let after = |edit: Edit| edit.apply(&taught).expect("a valid design");
    for edit in [
        Edit::Set(Setting::Crimp, 3.0),
        Edit::Set(Setting::MachineConstant, 3.0),
        Edit::Fibre(Fibre::Nylon),
        Edit::Label {
            low: 20.0,
            high: 21.0,
        },
    ] {
        assert_eq!(after(edit.clone()).draft().learned, None, "{edit:?}");
    }
    for edit in [
        Edit::Set(Setting::Film, 12.0),
        Edit::Name("Another".to_owned()),
        Edit::Set(Setting::Crimp, taught.setting(Setting::Crimp)),
    ] {
        assert_eq!(
            after(edit.clone()).draft().learned,
            taught.draft().learned,
            "{edit:?}"
        );
    }
}
