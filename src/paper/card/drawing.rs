//! The picture on the card: the silhouette with its parts and sizes, the staircase below it, and the gears, all over one axis
//! of length.

use super::blocks::Block;
use super::input::CardInput;
use super::measure::width;
use super::paper::MARGIN;
use super::sheet::{Anchor, Paint, Placement, plain};
use super::spacing::Spacing;
use crate::base::units::show;
use crate::base::units::{Length, show::Units};
use crate::braid::letters::Letter;
use crate::braid::takeoff::Wheels;
use crate::paper::chart::finish::Finish;
use crate::paper::chart::paths;
use crate::paper::chart::scale::{self, Scale};
use crate::plan::{Action, Plan, SectionWeight};

/// Width of the picture in its own pixels.
const ACROSS: f64 = 1_040.0;
/// Height of the row of gears, in pixels.
const GEARS: f64 = 26.0;
/// How far above the lower edge of that row its words stand, in pixels.
const GEAR_FOOT: f64 = 8.0;
/// How far below a tick the foot of its figure stands, in pixels: half as high as the figure.
const HALF_FIGURE: f64 = 4.5;
/// Size of its figures, in millimetres.
const FIGURE: f64 = super::spacing::LEAST;
/// Width of the edges of the line it is a copy of, in pixels: half of those of its own drawing.
const ORIGINAL: f64 = 0.7;
/// Room left between two sizes written beside each other, in millimetres.
const APART: f64 = 1.5;

/// The picture under way.
struct LineDrawing {
    block: Block,
    scale: Scale,
    /// Millimetres of a pixel.
    pixel: f64,
    /// Whether the line is a copy, and its original drawn.
    has_original: bool,
}

/// Draws the line.
pub(super) fn drawing(input: &CardInput<'_>, spacing: &Spacing) -> Block {
    let CardInput {
        design,
        plan,
        details,
        ..
    } = *input;
    let size = (ACROSS, spacing.drawing);
    let scale = Scale::of(design, plan, details.units, size);
    let original = design.original_taper();
    let scale = original.map_or(scale, |it| {
        scale.with_room_for(it.length(), it.thickest(), 0.0)
    });
    let scale = scale.on_card();
    let pixel = details.paper.room() / ACROSS;
    let mut picture = LineDrawing {
        block: Block::default(),
        scale,
        pixel,
        has_original: design.draft().original.is_some(),
    };
    picture.curves(input);
    picture.axes();
    picture.gears(plan);
    picture.head(plan);
    for section in &plan.sections {
        picture.dimension(section);
    }
    picture.sizes(input);
    picture.block.height = (spacing.drawing + GEARS) * pixel;
    picture.block
}

impl LineDrawing {
    fn curves(&mut self, input: &CardInput<'_>) {
        let (plan, scale) = (input.plan, self.scale);
        let line = Paint::Line(1.4);
        self.path(Paint::Fill(0xe4), paths::silhouette(plan, &scale));
        self.path(
            Paint::Fill(0xbd),
            paths::weighed(plan, &scale, Finish::Finished),
        );
        self.path(line, paths::drawing(input.design, &scale));
        if let Some(original) = input.design.original_taper() {
            self.path(Paint::Line(ORIGINAL), paths::edges_of(&original, &scale));
        }
        let threads = paths::staircase(plan, &scale);
        self.path(Paint::Fill(0xd0), paths::area_below(&threads, &scale));
        self.path(line, threads);
    }

    fn path(&mut self, paint: Paint, data: String) {
        let place = Placement {
            at: (MARGIN, 0.0),
            scale: self.pixel,
            turn: 0.0,
        };
        self.block.sheet.path(place, paint, data);
    }

    /// A place of the picture on the sheet.
    fn spot(&self, x: f64, y: f64) -> (f64, f64) {
        (MARGIN + x * self.pixel, y * self.pixel)
    }

    fn text(&mut self, (x, y): (f64, f64), anchor: Anchor, words: &str) {
        let spot = self.spot(x, y);
        self.block.sheet.text(spot, anchor, plain(FIGURE), words);
    }

    /// Room of a text, in pixels.
    fn room(&self, words: &str) -> f64 {
        width(words, plain(FIGURE)) / self.pixel
    }

    fn axes(&mut self) {
        let scale = self.scale;
        let below = scale.foot() + GEARS;
        for tick in scale.length_ticks() {
            self.text((tick.at, below + 16.0), Anchor::Middle, &tick.label);
        }
        // Figures of threads where they do not touch each other, nor the word for the gears below.
        let apart = FIGURE * 1.15 / self.pixel;
        let mut lowest = below - GEAR_FOOT - HALF_FIGURE;
        let threads = scale.thread_ticks().into_iter().filter(|tick| {
            let has_room = lowest - tick.at >= apart;
            if has_room {
                lowest = tick.at;
            }
            has_room
        });
        let sides = scale.diameter_ticks().into_iter().chain(threads);
        for tick in sides.collect::<Vec<_>>() {
            self.text(
                (scale::LEFT - 8.0, tick.at + HALF_FIGURE),
                Anchor::End,
                &tick.label,
            );
        }
        let (length, size) = (
            scale.units.position().symbol(),
            scale.units.diameter().symbol(),
        );
        let thin = if self.has_original {
            "; thin line: the original"
        } else {
            ""
        };
        let captions = [
            (
                scale.profile().bottom() + 14.0,
                format!("finished diameter, {size}; darker: weighed for the class{thin}"),
            ),
            (
                scale.staircase().top - 6.0,
                "threads engaged, and the gear fitted below them".to_owned(),
            ),
            (below + 33.0, format!("distance from the tip, {length}")),
        ];
        for (y, words) in captions {
            self.text((scale::LEFT, y), Anchor::Start, &words);
        }
        for y in [scale.foot(), below] {
            let left = self.spot(scale::LEFT, y);
            let right = self.spot(scale::LEFT + scale.band_width(), y);
            self.block.sheet.rule(left, right, 0.25);
        }
    }

    /// Which gear is fitted where: a stroke at every change, and between two of them the teeth, where there is room.
    fn gears(&mut self, plan: &Plan) {
        let (top, foot) = (self.scale.foot(), self.scale.foot() + GEARS);
        let ranges = geared(plan);
        for (index, (from, to, wheels)) in ranges.iter().enumerate() {
            let (from, to) = (self.scale.x_of(*from), self.scale.x_of(*to));
            if index > 0 {
                let (above, below) = (self.spot(from, top), self.spot(from, foot));
                self.block.sheet.rule(above, below, 0.25);
            }
            let words = wheels.to_string();
            if self.room(&words) <= to - from {
                let middle = f64::midpoint(from, to);
                self.text((middle, foot - GEAR_FOOT), Anchor::Middle, &words);
            }
        }
        let left = scale::LEFT - 8.0;
        self.text((left, foot - GEAR_FOOT), Anchor::End, "gear");
    }

    /// The bracket of what is weighed for the class.
    fn head(&mut self, plan: &Plan) {
        let scale = self.scale;
        let y = scale.profile().top - 12.0;
        let ends = [plan.head.from, plan.head.to.min(plan.length)].map(|at| scale.x_of(at));
        self.bracket(ends, y);
        let words = match plan.head_mass {
            Some(mass) => format!("first 30 ft weigh {}", show::grains(mass)),
            None => "shorter than 30 ft".to_owned(),
        };
        self.text((ends[0], y - 9.0), Anchor::Start, &words);
    }

    /// A line with a tick at either end.
    fn bracket(&mut self, [from, to]: [f64; 2], y: f64) {
        self.path(Paint::Line(1.2), paths::dimension_line(from, to, y));
    }

    /// The dimension line of a part with its name and length, as much of them as has room.
    fn dimension(&mut self, weight: &SectionWeight) {
        let (scale, section) = (self.scale, weight.section);
        let (from, to) = (scale.x_of(section.from), scale.x_of(section.to));
        let y = scale.profile().bottom() + scale::DIMENSION_LINE;
        self.bracket([from, to], y);
        let length = scale.units.show_position(section.to - section.from);
        let labels = [format!("{} {length}", section.part.name()), length];
        let fits = |label: &&String| self.room(label) <= to - from;
        if let Some(label) = labels.iter().find(fits).cloned() {
            self.text((f64::midpoint(from, to), y + 16.0), Anchor::Middle, &label);
        }
    }

    /// The largest diameter, drawn or braided, over a stretch of the picture.
    fn thickest_over(&self, input: &CardInput<'_>, (left, right): (f64, f64)) -> Length {
        let taper = input.design.taper();
        let original = input.design.original_taper();
        let along = |step: u32| left + (right - left) * f64::from(step) / 8.0;
        let sizes = (0..=8).map(|step| {
            let at = self
                .scale
                .at_of(along(step))
                .max(Length::ZERO)
                .min(input.plan.length);
            let behind = original
                .as_ref()
                .map_or(Length::ZERO, |it| it.diameter_at(at));
            taper
                .diameter_at(at)
                .max(input.plan.station(at).dressed.diameter)
                .max(behind)
        });
        sizes.fold(Length::ZERO, Length::max)
    }

    /// The drawn size at every end of a part, with its letter where it has one: those that have room, from the tip.
    fn sizes(&mut self, input: &CardInput<'_>) {
        let (plan, taper) = (input.plan, input.design.taper());
        let ends = plan.sections.iter().map(|weight| weight.section.to);
        let middle = self.scale.profile().middle();
        let last = self.scale.x_of(plan.length);
        let mut free = scale::LEFT;
        for at in core::iter::once(Length::ZERO).chain(ends) {
            let diameter = taper.diameter_at(at);
            let words = size(diameter, self.scale.units);
            let (x, room) = (self.scale.x_of(at), self.room(&words));
            let left = (x - room / 2.0).clamp(scale::LEFT, (last - room).max(scale::LEFT));
            if left >= free {
                let thickest = self.thickest_over(input, (left, left + room));
                let above = middle - self.scale.half_thickness(thickest) - 6.0;
                self.text((left, above), Anchor::Start, &words);
                free = left + room + APART / self.pixel;
            }
        }
    }
}

/// A diameter, and the letter it is called by.
fn size(diameter: Length, units: Units) -> String {
    let said = units.show_diameter_short(diameter);
    Letter::nearest(diameter).map_or(said.clone(), |letter| format!("{said} {}", letter.name))
}

/// From where to where which gear is fitted.
fn geared(plan: &Plan) -> Vec<(Length, Length, Wheels)> {
    let fits = |action: &Action| matches!(action, Action::Start(_) | Action::Gear { .. });
    let fitted: Vec<(Length, Wheels)> = plan
        .events
        .iter()
        .filter(|event| fits(&event.action))
        .map(|event| (event.at, event.wheels))
        .collect();
    let ends = fitted.iter().skip(1).map(|next| next.0);
    let ends = ends.chain([plan.length]);
    fitted
        .iter()
        .zip(ends)
        .map(|(&(from, wheels), to)| (from, to, wheels))
        .collect()
}
