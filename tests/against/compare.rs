//! What the script says beside what the core says.

use taperwright::base::units::{Length, Mass};
use taperwright::braid::taper::Part;
use taperwright::design::Design;
use taperwright::plan::Plan;

use super::Calculated;

/// How far a figure of theirs is from ours.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Difference {
    /// The figure.
    pub(crate) figure: &'static str,
    /// Ours, in SI units; of several the one farthest off.
    pub(crate) ours: f64,
    /// Theirs.
    pub(crate) theirs: f64,
    /// Their difference over ours; infinite where one side has more of them than the other.
    pub(crate) relative: f64,
}

/// Figure by figure, what the script says beside the core's plan of the same design.
pub(crate) fn with_script(design: &Design, plan: &Plan, theirs: &Calculated) -> Vec<Difference> {
    let ours = Ours::of(design, plan);
    let (bare, head_bare) = (plan.bare_mass.kilograms(), kilograms(plan.head_bare_mass));
    let ratio = |&(driver, driven): &(u32, u32)| f64::from(driver) / f64::from(driven);
    let ratios: Vec<f64> = theirs.wheels.iter().map(ratio).collect();
    let (threads, heavy) = (counts(&theirs.threads), counts(&theirs.heavy));
    let mut found = vec![
        farthest("threads on every interval", &ours.threads, &threads),
        farthest("heavier threads on every interval", &ours.heavy, &heavy),
        farthest("places of the stops", &ours.stops, &theirs.stops),
        farthest("ratio of the wheels", &ours.ratios, &ratios),
        farthest("places of the wheels", &ours.wheels_at, &theirs.wheels_at),
        farthest("angle at rest", &ours.angle, &theirs.angle),
        farthest("bare diameter", &ours.diameter, &theirs.diameter),
        farthest("path of the thread", &ours.path, &theirs.path),
        farthest("lay", &ours.lay, &theirs.lay),
        farthest("bare mass of the line", &[bare], &[theirs.bare_mass]),
        farthest(
            "bare mass of the first 30 ft",
            &head_bare,
            theirs.head_bare_mass.as_slice(),
        ),
    ];
    found.extend(results(plan, theirs));
    found
}

fn results(plan: &Plan, theirs: &Calculated) -> Vec<Difference> {
    let (parts, their_parts) = (plan.sections.iter(), theirs.parts.iter());
    let names = parts.clone().map(|part| name(part.section.part));
    // Of other parts nothing is compared, so that their count differs.
    let are_same = their_parts.clone().map(|part| part.part.as_str()).eq(names);
    let parts: Vec<f64> = parts.map(|part| part.mass.kilograms()).collect();
    let their_parts: Vec<f64> = their_parts
        .filter(|_| are_same)
        .map(|part| part.mass)
        .collect();
    let class = |number: Option<u8>| f64::from(number.unwrap_or_default());
    let (light, heavy) = bobbins(plan);
    let angle = plan.belly.braid.angle.radians();
    let total = plan.total_mass.kilograms();
    vec![
        farthest(
            "mass of the first 30 ft",
            &kilograms(plan.head_mass),
            theirs.head_mass.as_slice(),
        ),
        farthest("mass of the line", &[total], &[theirs.total_mass]),
        farthest("mass of its parts", &parts, &their_parts),
        farthest(
            "class",
            &[class(plan.verdict.number())],
            &[class(theirs.class)],
        ),
        farthest("angle in the belly", &[angle], &[theirs.belly_angle]),
        farthest("thread on the bobbins", &light, &theirs.bobbins.light),
        farthest("thread on heavier bobbins", &heavy, &theirs.bobbins.heavy),
    ]
}

/// What the core says of every interval.
#[derive(Default)]
struct Ours {
    threads: Vec<f64>,
    heavy: Vec<f64>,
    stops: Vec<f64>,
    ratios: Vec<f64>,
    wheels_at: Vec<f64>,
    angle: Vec<f64>,
    diameter: Vec<f64>,
    path: Vec<f64>,
    lay: Vec<f64>,
}

impl Ours {
    fn of(design: &Design, plan: &Plan) -> Self {
        let layout = &plan.layout;
        let (levels, take_off, braiding) =
            (plan.supply.levels(), design.take_off(), design.braiding());
        let afters = layout
            .stops
            .iter()
            .map(taperwright::plan::layout::stops::Stop::after);
        let mut ours = Self {
            stops: metres(layout.stops.iter().map(|stop| stop.at)),
            wheels_at: metres(layout.wheels_at.iter().copied()),
            ..Self::default()
        };
        for (level, &wheels) in std::iter::once(layout.first)
            .chain(afters)
            .zip(&layout.wheels)
        {
            let level = levels[level];
            let rest = braiding.at_lay(plan.supply.load(level), take_off.lay(wheels));
            ours.threads.push(f64::from(level.threads));
            ours.heavy.push(f64::from(level.heavy));
            ours.ratios.push(wheels.ratio());
            ours.angle.push(rest.angle.radians());
            ours.diameter.push(rest.diameter.metres());
            ours.path.push(rest.path_diameter.metres());
            ours.lay.push(rest.lay.metres());
        }
        ours
    }
}

/// The pair that differs most.
fn farthest(figure: &'static str, ours: &[f64], theirs: &[f64]) -> Difference {
    let pair = |(&ours, &theirs): (&f64, &f64)| Difference {
        figure,
        ours,
        theirs,
        relative: if ours == theirs {
            0.0
        } else {
            ((theirs - ours) / ours).abs()
        },
    };
    let none = Difference {
        figure,
        ours: 0.0,
        theirs: 0.0,
        relative: 0.0,
    };
    let pairs = ours.iter().zip(theirs).map(pair);
    let farthest = pairs.fold(none, |a, b| if b.relative >= a.relative { b } else { a });
    let relative = if ours.len() == theirs.len() {
        farthest.relative
    } else {
        f64::INFINITY
    };
    Difference {
        relative,
        ..farthest
    }
}

fn metres(lengths: impl Iterator<Item = Length>) -> Vec<f64> {
    lengths.map(Length::metres).collect()
}

fn counts(counts: &[u32]) -> Vec<f64> {
    counts.iter().copied().map(f64::from).collect()
}

fn kilograms(mass: Option<Mass>) -> Vec<f64> {
    mass.map(Mass::kilograms).into_iter().collect()
}

/// Thread on light and on heavy bobbins, shortest first.
fn bobbins(plan: &Plan) -> (Vec<f64>, Vec<f64>) {
    let sorted = |is_light: bool| {
        let of_kind = plan.bobbins.iter();
        let of_kind = of_kind.filter(|bobbin| (bobbin.ends == plan.supply.light) == is_light);
        let mut lengths = metres(of_kind.map(|bobbin| bobbin.length));
        lengths.sort_by(f64::total_cmp);
        lengths
    };
    (sorted(true), sorted(false))
}

/// The everyday name of a part.
fn name(part: Part) -> &'static str {
    match part {
        Part::LevelTip => "tip",
        Part::FrontTaper => "front",
        Part::Belly => "belly",
        Part::RearTaper => "rear",
        Part::RearTip | Part::RunningLine => "end",
    }
}
