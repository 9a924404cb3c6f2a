//! The picture on the card: the silhouette with the staircase below it, over one axis of length.

use super::measure::width;
use super::sheet::{Anchor, Sheet, plain};
use super::{LEFT, ROOM};
use crate::chart::paths;
use crate::chart::scale::{self, Scale};
use crate::design::Design;
use crate::plan::{Plan, SectionWeight};
use crate::units::show::{self, Units};
use crate::words;

/// Size of the picture in its own pixels: high enough for staircase and profile, too low for the strip of angles.
const PIXELS: (f64, f64) = (1_040.0, 312.0);
/// Millimetres of a pixel.
const PIXEL: f64 = ROOM / PIXELS.0;
/// Height of the picture, in millimetres.
pub(super) const HEIGHT: f64 = PIXELS.1 * PIXEL;
/// Size of its figures, in millimetres.
const FIGURE: f64 = 2.4;

/// A picture that hangs at a height of the sheet.
struct Picture<'a> {
    sheet: &'a mut Sheet,
    scale: Scale,
    top: f64,
}

/// Draws a line at a height of the sheet, in millimetres.
pub(super) fn put(sheet: &mut Sheet, design: &Design, plan: &Plan, units: Units, top: f64) {
    let scale = Scale::of(design, plan, units, PIXELS);
    let mut picture = Picture { sheet, scale, top };
    picture.curves(design, plan);
    picture.axes();
    picture.head(plan);
    for section in &plan.sections {
        picture.dimension(section);
    }
}

impl Picture<'_> {
    fn curves(&mut self, design: &Design, plan: &Plan) {
        let scale = self.scale;
        let finish = crate::chart::heft::Finish::Finished;
        self.path("fill=\"#e4e4e4\"", &paths::silhouette(plan, &scale));
        self.path("fill=\"#bdbdbd\"", &paths::weighed(plan, &scale, finish));
        let line = "fill=\"none\" stroke=\"#000\" stroke-width=\"1.4\"";
        self.path(line, &paths::drawing(design, &scale));
        self.path("fill=\"#d0d0d0\"", &paths::staircase_area(plan, &scale));
        self.path(line, &paths::staircase(plan, &scale));
        self.path(
            line,
            &paths::gear_changes_on(plan, &scale, scale.staircase()),
        );
    }

    fn path(&mut self, paint: &str, data: &str) {
        let transform = format!("translate({LEFT} {:.2}) scale({PIXEL:.5})", self.top);
        self.sheet.path(&transform, paint, data);
    }

    /// A place of the picture on the sheet.
    fn spot(&self, x: f64, y: f64) -> (f64, f64) {
        (LEFT + x * PIXEL, self.top + y * PIXEL)
    }

    fn text(&mut self, (x, y): (f64, f64), anchor: Anchor, words: &str) {
        let spot = self.spot(x, y);
        self.sheet.text(spot, anchor, plain(FIGURE), words);
    }

    fn axes(&mut self) {
        let scale = self.scale;
        for tick in scale.length_ticks() {
            self.text((tick.at, scale.foot() + 17.0), Anchor::Middle, &tick.label);
        }
        let sides = scale
            .diameter_ticks()
            .into_iter()
            .chain(scale.thread_ticks());
        for tick in sides {
            self.text((scale::LEFT - 8.0, tick.at + 4.5), Anchor::End, &tick.label);
        }
        let (length, size) = (
            scale.units.position().symbol(),
            scale.units.diameter().symbol(),
        );
        let captions = [
            (
                scale.profile().bottom() + 14.0,
                format!("finished diameter, {size}; darker: weighed for the class"),
            ),
            (
                scale.staircase().top - 6.0,
                "threads engaged; strokes on top: change of gear".to_owned(),
            ),
            (
                scale.foot() + 33.0,
                format!("distance from the tip, {length}"),
            ),
        ];
        for (y, words) in captions {
            self.text((scale::LEFT, y), Anchor::Start, &words);
        }
        let foot = self.spot(scale::LEFT, scale.foot());
        let right = self.spot(scale::LEFT + scale.band_width(), scale.foot());
        self.sheet.rule(foot, right, 0.25);
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
        let line = paths::dimension_line(from, to, y);
        self.path("fill=\"none\" stroke=\"#000\" stroke-width=\"1.2\"", &line);
    }

    /// The dimension line of a part with its name and length, as much of them as has room.
    fn dimension(&mut self, weight: &SectionWeight) {
        let (scale, section) = (self.scale, weight.section);
        let (from, to) = (scale.x_of(section.from), scale.x_of(section.to));
        let y = scale.profile().bottom() + scale::DIMENSION_LINE;
        self.bracket([from, to], y);
        let length = scale.units.show_position(section.to - section.from);
        let labels = [format!("{} {length}", words::part(section.part)), length];
        let fits = |label: &&String| width(label, plain(FIGURE)) <= (to - from) * PIXEL;
        if let Some(label) = labels.iter().find(fits) {
            self.text((f64::midpoint(from, to), y + 16.0), Anchor::Middle, label);
        }
    }
}
