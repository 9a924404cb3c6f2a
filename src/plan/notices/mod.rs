//! The notices of a plan.

mod angle;

use crate::base::units::Length;
use crate::braid::geometry::cover;
use crate::braid::ladder::Ladder;
use crate::braid::stretch::Stretch;
use crate::design::Design;
use crate::design::settings::Setting;
use crate::plan::contents::Plan;
use crate::plan::layout::Ground;
use crate::plan::layout::stops::Crowding;
use crate::plan::notice::Notice;

/// Half a thread: a smaller difference is rounding.
const ROUNDING: f64 = 0.5;

pub(super) fn of(design: &Design, ground: &Ground, plan: &Plan) -> Vec<Notice> {
    let mut notices: Vec<Notice> = unsound(&plan.ladder).collect();
    notices.extend(too_thick(ground));
    notices.extend(too_thin(ground));
    notices.extend(angle::notices(design, ground, plan));
    let factors = cover_factors(plan);
    notices.extend(jammed(design, &factors));
    notices.extend(too_open(design, &factors));
    notices.extend(bobbin_too_small(plan));
    let dropped = plan.layout.dropped_pins.iter().cloned();
    notices.extend(dropped.map(Notice::PinDropped));
    notices.extend(crowded(plan));
    notices.extend(left_out(plan));
    notices.extend(restless(plan));
    notices.extend(lead_in_short(design, plan));
    let off = plan
        .sections
        .iter()
        .filter(|section| section.why_off.is_some());
    notices.extend(off.copied().map(Notice::SectionOff));
    notices
}

/// The states that fall apart.
fn unsound(ladder: &Ladder) -> impl Iterator<Item = Notice> {
    let states = (ladder.start()..)
        .zip(ladder.interlacings())
        .filter(|(_, found)| !found.is_sound());
    states.map(|(threads, found)| Notice::Unsound {
        threads,
        carriers: found.unsound.clone(),
    })
}

fn too_thick(ground: &Ground) -> Option<Notice> {
    let (staircase, most) = (&ground.staircase, ground.staircase.most());
    let wanted = staircase.wanted(ground.taper.thickest());
    (wanted > most + ROUNDING).then(|| Notice::TooThick {
        wanted,
        most,
        possible: staircase.diameter(most),
    })
}

fn too_thin(ground: &Ground) -> Option<Notice> {
    let (staircase, fewest) = (&ground.staircase, ground.staircase.least());
    let wanted = staircase.wanted(ground.taper.thinnest());
    (wanted < fewest - ROUNDING).then(|| Notice::TooThin {
        wanted,
        fewest,
        possible: staircase.diameter(fewest),
    })
}

/// Every stretch with the cover factor at each of its ends.
type CoverFactors<'a> = Vec<(&'a Stretch, [f64; 2])>;

fn cover_factors(plan: &Plan) -> CoverFactors<'_> {
    let factors =
        |stretch: &Stretch| [stretch.from(), stretch.to()].map(|at| stretch.cover_factor_at(at));
    let stretches = plan.line.stretches().iter();
    stretches
        .map(|stretch| (stretch, factors(stretch)))
        .collect()
}

/// From the first to the last stretch with an end of which something holds.
fn span(factors: &CoverFactors, holds: impl Fn(f64) -> bool) -> Option<(Length, Length)> {
    let does = |(_, ends): &&(&Stretch, [f64; 2])| ends.iter().any(|&end| holds(end));
    let first = factors.iter().find(does)?;
    let last = factors.iter().rfind(does)?;
    Some((first.0.from(), last.0.to()))
}

/// Soft threads flatten as far as their neighbours leave room, and the cover factor counts flattened threads. So the braid jams
/// where there is no room even for round threads.
fn jammed(design: &Design, factors: &CoverFactors) -> Option<Notice> {
    let round = design.thread().round_diameter() / design.thread().width();
    let (from, to) = span(factors, |factor| factor * round >= 1.0)?;
    let ends = factors.iter().flat_map(|(_, ends)| ends);
    Some(Notice::Jammed {
        from,
        to,
        cover_factor: ends.map(|factor| factor * round).fold(0.0, f64::max),
    })
}

fn too_open(design: &Design, factors: &CoverFactors) -> Option<Notice> {
    let least = design.share(Setting::LeastCover);
    let (from, to) = span(factors, |factor| cover(factor) < least)?;
    let ends = factors.iter().flat_map(|(_, ends)| ends);
    Some(Notice::TooOpen {
        from,
        to,
        cover: ends.map(|&factor| cover(factor)).fold(1.0, f64::min),
    })
}

fn crowded(plan: &Plan) -> impl Iterator<Item = Notice> {
    let crowdings = plan.layout.crowdings.iter().copied();
    let kept = crowdings.filter(|crowding| !matches!(crowding, Crowding::LeftOut { .. }));
    kept.map(Notice::Crowded)
}

/// One notice for all that is left out.
fn left_out(plan: &Plan) -> Option<Notice> {
    let is_left_out = |crowding: &&Crowding| matches!(crowding, Crowding::LeftOut { .. });
    let crowdings = plan.layout.crowdings.iter().filter(is_left_out);
    let mut places: Vec<Length> = crowdings.map(Crowding::at).collect();
    places.sort_by(|a, b| a.metres().total_cmp(&b.metres()));
    places.dedup();
    (!places.is_empty()).then_some(Notice::LeftOut { places })
}

/// The angle must be steady where the tip begins.
fn lead_in_short(design: &Design, plan: &Plan) -> Option<Notice> {
    let needed = plan.line.stretches()[0].convergence.lag() * LAGS;
    let lead_in = design.lead_in();
    (lead_in < needed).then_some(Notice::LeadInShort { lead_in, needed })
}

/// Lags a step needs until a twentieth of it is left, e⁻³ = 0.050.
const LAGS: f64 = 3.0;

fn restless(plan: &Plan) -> Option<Notice> {
    let lag = |at: Length| plan.line.stretch_at(at).convergence.lag() * LAGS;
    // A change of wheels beside its stop is there to steady the angle.
    let places: Vec<Length> = plan.layout.stops.iter().map(|stop| stop.at).collect();
    let is_close = |pair: &&[Length]| pair[1] - pair[0] < lag(pair[0]);
    let close: Vec<&[Length]> = places.windows(2).filter(is_close).collect();
    let first = close.first()?;
    Some(Notice::Restless {
        stops: close.len(),
        at: first[0],
        needed: lag(first[0]),
    })
}

fn bobbin_too_small(plan: &Plan) -> Option<Notice> {
    let small = || {
        plan.bobbins
            .iter()
            .filter_map(|bobbin| Some((*bobbin, bobbin.runs_out?)))
    };
    let (first, at) = small().min_by(|a, b| a.1.metres().total_cmp(&b.1.metres()))?;
    Some(Notice::BobbinTooSmall {
        bobbins: small().count(),
        first,
        at,
    })
}
