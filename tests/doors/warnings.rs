//! A readable design that cannot be braided as drawn: the plan says what is the matter, where, and what would do.
//!
//! Each figure in a notice is held against a walk along the line or against the braid it speaks of; what is said to be
//! possible is then drawn, and must be.

use taperwright::base::units::{Length, Mass};
use taperwright::braid::stretch::Station;
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::plan::bobbins::Bobbin;
use taperwright::plan::{AngleCause, Notice, Plan};

use crate::designs::{design, parsed, usual};

/// A line level from tip to end.
fn level(settings: &[(Setting, f64)], size: f64) -> Design {
    design(settings, &[(0.0, size), (20.0, size)])
}

/// The usual double taper with other settings.
fn with(settings: &[(Setting, f64)]) -> Design {
    let mut draft = usual().draft().clone();
    for &(setting, value) in settings {
        draft.settings.set(setting, value);
    }
    parsed(draft)
}

/// The one notice of a kind that a plan must have.
#[track_caller]
fn only<T>(plan: &Plan, kind: impl Fn(&Notice) -> Option<T>) -> T {
    let mut found: Vec<T> = plan.notices.iter().filter_map(kind).collect();
    assert_eq!(found.len(), 1, "{:?}", plan.notices);
    found.remove(0)
}

#[track_caller]
fn none(plan: &Plan, is_kind: impl Fn(&Notice) -> bool) {
    assert!(!plan.notices.iter().any(is_kind), "{:?}", plan.notices);
}

/// The line at every fifth of a millimetre.
fn walk(plan: &Plan) -> impl Iterator<Item = (Length, Station)> {
    let places = (0_u32..).map(|step| Length::from_millimetres(f64::from(step) * 0.2));
    let places = places.take_while(|&at| at < plan.length);
    places.map(|at| (at, plan.station(at)))
}

/// The first and the last place of a walk at which something holds.
fn span(plan: &Plan, holds: impl Fn(&Station) -> bool) -> Option<(Length, Length)> {
    let places: Vec<Length> = walk(plan)
        .filter(|(_, station)| holds(station))
        .map(|(at, _)| at)
        .collect();
    Some((*places.first()?, *places.last()?))
}

#[test]
fn a_drawing_thicker_than_all_threads() {
    let thick = |notice: &Notice| match *notice {
        Notice::TooThick {
            wanted,
            most,
            possible,
        } => Some((wanted, most, possible)),
        _ => None,
    };
    let plan = Plan::of(&level(&[], 1.5));
    let (wanted, most, possible) = only(&plan, thick);
    assert_eq!(most, 16.0);
    // The threads a diameter calls for go with its square, the film of 10 µm on either side left out.
    let bare = |size: Length| size.millimetres() - 0.02;
    let share = bare(Length::from_millimetres(1.5)) / bare(possible);
    assert!((wanted / most - share * share).abs() < 1e-9);
    let drawn = Plan::of(&level(&[], possible.millimetres()));
    none(&drawn, |notice| thick(notice).is_some());
    assert_eq!(drawn.threads_max(), 16);
}

#[test]
fn a_drawing_thinner_than_the_fewest_threads() {
    let thin = |notice: &Notice| match *notice {
        Notice::TooThin {
            wanted,
            fewest,
            possible,
        } => Some((wanted, fewest, possible)),
        _ => None,
    };
    let plan = Plan::of(&level(&[], 0.5));
    let (wanted, fewest, possible) = only(&plan, thin);
    assert!(fewest == 8.0 && wanted < 7.5);
    let drawn = Plan::of(&level(&[], possible.millimetres()));
    none(&drawn, |notice| thin(notice).is_some());
    assert_eq!(drawn.threads_min(), 8);
}

/// Thread that a bobbin has given when the line has come to a place: it is in from its first entry on.
fn given(design: &Design, plan: &Plan, bobbin: &Bobbin, at: Length) -> Length {
    let lead_in = if bobbin.enters == Length::ZERO {
        design.lead_in() * plan.line.stretches()[0].steady.take_up
    } else {
        Length::ZERO
    };
    design.thread_allowance() + lead_in + plan.line.thread(bobbin.enters, at)
}

/// A bobbin full to its flange has π/4 (D² − d²) · width in it, of which a share is fibre. Analytic.
fn holds(design: &Design, ends: u32) -> Length {
    let size = design.bobbin();
    let area =
        core::f64::consts::FRAC_PI_4 * (size.full.metres().powi(2) - size.barrel.metres().powi(2));
    let fibre = area * size.width.metres() * size.packing;
    let mass = fibre * design.thread().fibre_density.kilograms_per_cubic_metre();
    let thread = (design.thread().end * f64::from(ends)).kilograms_per_metre();
    Length::from_metres(mass / thread)
}

#[test]
fn bobbins_too_small() {
    let small = |notice: &Notice| match *notice {
        Notice::BobbinTooSmall { bobbins, first, at } => Some((bobbins, first, at)),
        _ => None,
    };
    let design = with(&[(Setting::BobbinFull, 11.0)]);
    let plan = Plan::of(&design);
    let (bobbins, first, at) = only(&plan, small);
    let too_long = |bobbin: &&Bobbin| bobbin.length > holds(&design, bobbin.ends);
    assert_eq!(bobbins, plan.bobbins.iter().filter(too_long).count());
    assert!(bobbins > 0 && first.enters < at && at < plan.length);
    let (given, holds) = (
        given(&design, &plan, &first, at),
        holds(&design, first.ends),
    );
    // A place to some millimetres is all a maker needs.
    assert!((given - holds).abs() < Length::from_millimetres(5.0));
    let heaviest = plan.bobbins.iter().map(|bobbin| bobbin.mass);
    let heaviest = heaviest.fold(Mass::ZERO, Mass::max);
    let ample = with(&[(Setting::BobbinFull, 30.0)]);
    assert!(ample.bobbin().capacity(ample.thread().fibre_density) > heaviest);
    none(&Plan::of(&ample), |notice| small(notice).is_some());
}

/// With one gear far off, the gear advised makes the angle it promises, and once owned the angle is within the tolerance.
#[test]
fn no_gear_near_enough() {
    let off = |notice: &Notice| match notice {
        Notice::AngleOff {
            parts,
            cause: AngleCause::NoWheelsOwned { buy, .. },
        } => Some((parts.at, parts.angle, *buy)),
        _ => None,
    };
    let mut draft = level(&[], 1.0).draft().clone();
    draft.gears = vec![60.0];
    let design = parsed(draft.clone());
    let plan = Plan::of(&design);
    let (at, angle, buy) = only(&plan, off);
    let target = design.target_angle();
    assert!((plan.station(at).braid.angle - angle).abs().degrees() < 1e-6);
    assert!((angle - target).abs() > design.angle_tolerance());
    let better = buy.unwrap_or_else(|| panic!("{:?}", plan.notices));
    draft.gears.push(f64::from(better.wheels.teeth()));
    let with_it = Plan::of(&parsed(draft.clone()));
    none(&with_it, |notice| off(notice).is_some());
    assert_eq!(with_it.layout.wheels, [better.wheels]);
    let made = design
        .braiding()
        .at_lay(with_it.threads_max(), design.take_off().lay(better.wheels))
        .angle;
    assert!((made - better.angle).abs().degrees() < 1e-9);
    // A roller that draws half a metre in a circuit: no wheel makes that a braid.
    draft.settings.set(Setting::MachineConstant, 500.0);
    let (_, _, buy) = only(&Plan::of(&parsed(draft)), off);
    assert_eq!(buy, None);
}

/// Round threads fill their way round where N d / (2π D cos α) reaches 1. Analytic.
#[test]
fn threads_that_find_no_room() {
    let jams = |notice: &Notice| match *notice {
        Notice::Jammed {
            from,
            to,
            cover_factor,
        } => Some((from, to, cover_factor)),
        _ => None,
    };
    let dense = [
        (Setting::FibreFraction, 70.0),
        (Setting::TargetAngle, 60.0),
        (Setting::MachineConstant, 1.6),
    ];
    let design = with(&dense);
    let plan = Plan::of(&design);
    let (from, to, cover_factor) = only(&plan, jams);
    let round = design.thread().round_diameter();
    let factor = |station: &Station| {
        let filled = f64::from(station.braid.threads) * (round / station.braid.path_diameter);
        filled / (core::f64::consts::TAU * station.braid.angle.radians().cos())
    };
    let (first, last) = span(&plan, |station| factor(station) >= 1.0).expect("it jams");
    assert!(from <= first && last <= to, "{from:?} to {to:?}");
    let most = walk(&plan).map(|(_, station)| factor(&station));
    assert!((most.fold(0.0, f64::max) / cover_factor - 1.0).abs() < 1e-3);
    none(&Plan::of(&usual()), |notice| jams(notice).is_some());
}

#[test]
fn a_braid_too_open() {
    let open = |notice: &Notice| match *notice {
        Notice::TooOpen { from, to, cover } => Some((from, to, cover)),
        _ => None,
    };
    // Threads that stay round, loosely laid, cover less than soft ones.
    let with_limit = |limit: f64| {
        let loose = [
            (Setting::ThreadFlattening, 1.0),
            (Setting::FibreFraction, 35.0),
            (Setting::LeastCover, limit),
        ];
        Plan::of(&with(&loose))
    };
    let plan = with_limit(0.0);
    let least = walk(&plan).map(|(_, station)| station.braid.cover());
    let least = least.fold(1.0, f64::min);
    let limit = ((least + 0.02) * 1e3).round() / 10.0;
    let plan = with_limit(limit);
    let (from, to, cover) = only(&plan, open);
    let is_open = |station: &Station| station.braid.cover() < limit / 100.0;
    let (first, last) = span(&plan, is_open).expect("it is open somewhere");
    assert!(from <= first && last <= to && (cover - least).abs() < 1e-3);
    let below = ((least - 0.02) * 1e3).round() / 10.0;
    none(&with_limit(below), |notice| open(notice).is_some());
}

/// The angle needs three lags until a twentieth of a step is left: e⁻³ is 0.050. Analytic.
#[test]
fn an_angle_without_time_to_rest() {
    let restless = |notice: &Notice| match *notice {
        Notice::Restless { stops, at, needed } => Some((stops, at, needed)),
        _ => None,
    };
    let steep = [(0.0, 0.76), (5.0, 0.76), (5.5, 1.075), (20.0, 1.075)];
    let plan = Plan::of(&design(&[(Setting::LeastSpacing, 10.0)], &steep));
    let (stops, at, needed) = only(&plan, restless);
    assert!(stops > 2 && plan.layout.stops.iter().any(|stop| stop.at == at));
    let lag = plan.line.stretch_at(at).convergence.lag();
    assert!((needed / lag - 3.0).abs() < 1e-9);
    let gentle = [(0.0, 0.76), (1.0, 0.76), (19.0, 1.075), (20.0, 1.075)];
    none(&Plan::of(&design(&[], &gentle)), |notice| {
        restless(notice).is_some()
    });
    let short = |notice: &Notice| match *notice {
        Notice::LeadInShort { lead_in, needed } => Some((lead_in, needed)),
        _ => None,
    };
    let (lead_in, needed) = only(&Plan::of(&with(&[(Setting::LeadIn, 20.0)])), short);
    assert_eq!(lead_in, Length::from_millimetres(20.0));
    let steady = (needed.millimetres() * 10.0).ceil() / 10.0;
    none(&Plan::of(&with(&[(Setting::LeadIn, steady)])), |notice| {
        short(notice).is_some()
    });
}
