//! A copy of a measured line, on the maker's own machine and with the maker's own yarn.
//!
//! What is kept is either the sizes of the original or its weights: a line of another material cannot have both. The threads are
//! those that suit the drawing (`edit::suitable_threads`).

use core::fmt;

use super::suitable_threads::{nearest_far_angle, suitable_threads};
use crate::base::choice::Choice;
use crate::base::units::{Angle, Length, LinearDensity, Mass};
use crate::braid::taper::Taper;
use crate::design::refusal::{LEAST_SPACING, Refusal};
use crate::design::settings::{DIAMETER, POSITION};
use crate::design::{Design, Draft, DraftOriginal, DraftPoint, NAME_ROOM};
use crate::edit::Edit;
use crate::edit::finder::ThreadPlan;
use crate::measured::{MadeOf, Zone};
use crate::plan::{Plan, diameters_of, drawn_head};

/// What a copy keeps of its original.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Keeps {
    /// The diameter at every place.
    #[default]
    Sizes,
    /// The weight of every metre.
    Weights,
}

impl Choice for Keeps {
    const ALL: &'static [Self] = &[Self::Sizes, Self::Weights];

    fn key(self) -> &'static str {
        match self {
            Self::Sizes => "sizes",
            Self::Weights => "weights",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Sizes => "Its sizes",
            Self::Weights => "Its weights",
        }
    }
}

/// What is to be copied.
#[derive(Clone, Debug, PartialEq)]
pub struct Original<'a> {
    /// What it is called; may be empty.
    pub name: &'a str,
    /// The taper found in its readings.
    pub taper: &'a Taper,
    /// What size and weight say about it.
    pub made_of: &'a MadeOf,
}

/// A copy with its plan.
#[derive(Clone, Debug, PartialEq)]
pub struct LineCopy {
    /// The copy.
    pub design: Design,
    /// Its plan.
    pub plan: Plan,
    /// How it differs from its original, from the tip.
    pub differences: Vec<Difference>,
}

/// A place of a copy beside the same place of the original.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Distance from the tip.
    pub at: Length,
    /// Diameter of the original, and finished diameter of the copy as it is planned.
    pub diameters: (Length, Length),
    /// What a metre of the original weighs, where that is known, and a finished metre of the copy.
    pub weights: (Option<LinearDensity>, LinearDensity),
}

/// Why there is no copy.
#[derive(Clone, Debug, PartialEq)]
pub enum NoCopy {
    /// The weights are to be kept, and nothing was weighed.
    NotWeighed,
    /// Machine and yarn make no sound braid of these sizes.
    NotBraided,
    /// They do, but only with the angle far from the target.
    AngleFar(Angle),
    /// It is no valid design.
    Refused(Refusal),
}

impl From<Refusal> for NoCopy {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

impl fmt::Display for NoCopy {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotWeighed => write!(
                out,
                "Its weights are not known. Weigh the line, or a part of it, and type the weight above. Or keep its sizes."
            ),
            Self::NotBraided => write!(
                out,
                "Your yarn, machine and gears give no sound braid of these sizes. Choose another workshop, or change yarn, gears or machine in the workshop."
            ),
            Self::AngleFar(angle) => write!(
                out,
                "With your yarn, machine and gears, these sizes need a braid angle of {:.1}°. That is far from your target angle. Choose another workshop, or change yarn or gears.",
                angle.degrees()
            ),
            Self::Refused(refusal) => write!(out, "{refusal}"),
        }
    }
}

/// The copy of a line in the workshop of a design.
///
/// # Errors
/// [`NoCopy`] where there is none.
pub fn copied(
    original: &Original<'_>,
    workshop: &Design,
    keeps: Keeps,
) -> Result<LineCopy, NoCopy> {
    let Original {
        name,
        taper,
        made_of,
    } = *original;
    let mut places: Vec<Length> = taper.points().iter().map(|point| point.at).collect();
    let sizes: Vec<Length> = match keeps {
        Keeps::Sizes => own_sizes(taper),
        Keeps::Weights => {
            places.extend(jumps(made_of));
            places.sort_by(|a, b| a.metres().total_cmp(&b.metres()));
            let weights = places.iter().map(|&at| made_of.linear_density(taper, at));
            let weights: Option<Vec<LinearDensity>> = weights.collect();
            diameters_of(workshop, &weights.ok_or(NoCopy::NotWeighed)?)
        }
    };
    let drawn = Design::parse(Draft {
        name: copy_name(name),
        notes: String::new(),
        pins: Vec::new(),
        points: in_hand(&points(&places, &sizes)),
        original: Some(DraftOriginal {
            name: name.to_owned(),
            head_g: made_of.head_mass.map(|head| head.value.grams()),
            points: points(&own_places(taper), &own_sizes(taper)),
        }),
        ..workshop.draft().clone()
    })?;
    let supply = suitable_threads(&drawn, ThreadPlan::is_sound).map_err(|tried| {
        let sound = tried.iter().filter(|plan| plan.is_sound());
        nearest_far_angle(sound, &drawn).map_or(NoCopy::NotBraided, NoCopy::AngleFar)
    })?;
    let design = Edit::Supply(supply).apply(&drawn)?;
    let plan = Plan::of(&design);
    let (design, plan) = match (keeps, made_of.head_mass) {
        (Keeps::Weights, Some(head)) => of_weight(design, plan, head.value),
        _ => (design, plan),
    };
    Ok(LineCopy {
        differences: differences(&plan, taper, made_of),
        design,
        plan,
    })
}

/// The same drawing a little thicker or thinner, so that the planned head is as heavy as it can be brought to this. Only whole
/// threads can be used, so the first drawing is often a percent or two off.
fn of_weight(design: Design, plan: Plan, head: Mass) -> (Design, Plan) {
    let off = |plan: &Plan| plan.head_mass.map(|own| (own / head - 1.0).abs());
    let mut best = (design, plan);
    for _ in 0..ROUNDS {
        let Some(own) = best.1.head_mass else {
            return best;
        };
        let factor = (head / own).sqrt();
        let Ok(design) = scaled(&best.0, factor) else {
            return best;
        };
        let plan = Plan::of(&design);
        let is_sound = plan.notices.len() <= best.1.notices.len();
        if !is_sound || off(&plan) >= off(&best.1) {
            return best;
        }
        best = (design, plan);
    }
    best
}

/// The same drawing with every size multiplied, in digits a hand can use.
fn scaled(design: &Design, factor: f64) -> Result<Design, Refusal> {
    let scaled = Edit::ScaleSizes(factor).apply(design)?;
    Design::parse(Draft {
        points: in_hand(&scaled.draft().points),
        ..scaled.draft().clone()
    })
}

/// Points in digits a hand can use: places to a millimetre, sizes to a micrometre. The last place stays, as the line's length does.
fn in_hand(points: &[DraftPoint]) -> Vec<DraftPoint> {
    let thousandths = |value: f64| (value * 1e3).round() / 1e3;
    let last = points.len().saturating_sub(1);
    let point = |(index, point): (usize, &DraftPoint)| DraftPoint {
        at_m: if index == last {
            point.at_m
        } else {
            thousandths(point.at_m)
        },
        diameter_mm: thousandths(point.diameter_mm),
    };
    let rounded: Vec<DraftPoint> = points.iter().enumerate().map(point).collect();
    let spacing = POSITION.quanta(LEAST_SPACING);
    let is_free = |pair: &[DraftPoint]| {
        POSITION.quanta(pair[1].at_m) >= POSITION.quanta(pair[0].at_m) + spacing
    };
    // Points that are as close as they may be stay where they are.
    if rounded.windows(2).all(is_free) {
        rounded
    } else {
        points.to_vec()
    }
}

/// Most rounds of drawing a copy thicker or thinner.
const ROUNDS: u32 = 4;

/// What the first 30 ft of a line of this shape would weigh, drawn in the workshop of a design; `None` where it is too short for a
/// class, or no valid design.
pub fn silk_head(taper: &Taper, workshop: &Design) -> Option<Mass> {
    let drawn = Design::parse(Draft {
        pins: Vec::new(),
        points: points(&own_places(taper), &own_sizes(taper)),
        original: None,
        ..workshop.draft().clone()
    });
    drawn_head(&drawn.ok()?)
}

/// How a planned line differs from another: at the points of the other, at the ends of its own parts, and half-way along each slope
/// of the other.
pub fn differences(plan: &Plan, other: &Taper, made_of: &MadeOf) -> Vec<Difference> {
    let end = plan.length.min(other.length());
    let parts = plan.sections.iter().map(|weight| weight.section.to);
    let mut places: Vec<Length> = own_places(other).into_iter().chain(parts).collect();
    let slopes = other.points().windows(2);
    let slopes = slopes.filter(|pair| pair[0].diameter != pair[1].diameter);
    places.extend(slopes.map(|pair| (pair[0].at + pair[1].at) / 2.0));
    places.push(end);
    places.retain(|at| *at <= end);
    places.sort_by(|a, b| a.metres().total_cmp(&b.metres()));
    places.dedup_by(|later, earlier| *later - *earlier < MERGED_WITHIN);
    let at = |at: Length| {
        let dressed = plan.station(at).dressed;
        Difference {
            at,
            diameters: (other.diameter_at(at), dressed.diameter),
            weights: (made_of.linear_density(other, at), dressed.linear_density),
        }
    };
    places.into_iter().map(at).collect()
}

/// Places closer than this are one row of a comparison.
const MERGED_WITHIN: Length = Length::from_millimetres(50.0);

/// Where the mass per volume of the original changes: the place, and one right after it.
fn jumps(made_of: &MadeOf) -> impl Iterator<Item = Length> {
    let differ = |pair: &&[Zone]| {
        let share = pair[0].density.grams_per_cubic_centimetre()
            / pair[1].density.grams_per_cubic_centimetre();
        (share - 1.0).abs() > WORTH_A_JUMP
    };
    let step = Length::from_metres(LEAST_SPACING);
    let changes = made_of.zones.windows(2).filter(differ);
    changes.flat_map(move |pair| [pair[0].to, pair[0].to + step])
}

/// A change of the mass per volume smaller than this is within what a scale can tell. Our own choice.
const WORTH_A_JUMP: f64 = 0.01;

fn own_places(taper: &Taper) -> Vec<Length> {
    taper.points().iter().map(|point| point.at).collect()
}

fn own_sizes(taper: &Taper) -> Vec<Length> {
    taper.points().iter().map(|point| point.diameter).collect()
}

/// Points as a design has them: on their steps, within the range, and no closer than a design allows. The last one stays.
fn points(places: &[Length], sizes: &[Length]) -> Vec<DraftPoint> {
    let point = |at: u32, size: Length| DraftPoint {
        at_m: POSITION.value(at),
        diameter_mm: size.millimetres().clamp(DIAMETER.low, DIAMETER.high),
    };
    let mut points: Vec<DraftPoint> = Vec::new();
    let spacing = POSITION.quanta(LEAST_SPACING);
    for (at, size) in places.iter().zip(sizes) {
        let at = POSITION.quanta(at.metres());
        let before = points.last().map(|point| POSITION.quanta(point.at_m));
        let is_free = before.is_none_or(|before| at >= before + spacing);
        if is_free {
            points.push(point(at, *size));
        }
    }
    if let (Some(at), Some(size)) = (places.last(), sizes.last()) {
        let at = POSITION.quanta(at.metres());
        let is_there = |point: &DraftPoint| POSITION.quanta(point.at_m) == at;
        if points.len() > 1 && !points.last().is_some_and(is_there) {
            points.pop();
            points.push(point(at, *size));
        }
    }
    points
}

/// What the copy of a line is called.
fn copy_name(name: &str) -> String {
    const COPY: &str = "Copy of ";
    if name.is_empty() {
        return "Copy of a measured line".to_owned();
    }
    let room = NAME_ROOM - COPY.len();
    let held: String = name.chars().take(room).collect();
    format!("{COPY}{}", held.trim_end())
}
