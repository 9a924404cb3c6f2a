//! The grid of the chart, drawn by plotters. It is drawn again only when the scale or the size changes. plotters draws no text here,
//! so that no font is needed and the page uses its own type: to measure text it needs inline styles, which the page's policy
//! forbids. Curves, figures and handles are SVG nodes of ours, so that a drag only sets attributes.

use core::ops::Range;

use plotters::coord::Shift;
use plotters::coord::ranged1d::{DefaultFormatting, KeyPointHint, Ranged};
use plotters::prelude::*;

use super::scale::{Band, LEFT, Scale, Tick};

/// plotters rounds to whole pixels; drawing this many times larger keeps the grid where the curves are.
pub const OVERSIZE: u32 = 8;

/// The grid as an SVG fragment, [`OVERSIZE`] times as large as the chart. Empty when plotters refuses the size.
pub fn frame(scale: &Scale) -> String {
    let mut svg = String::new();
    let drawn = draw(scale, &mut svg);
    if drawn.is_ok() { svg } else { String::new() }
}

type DrawingError = Box<dyn core::error::Error>;
type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;

/// An axis in pixels, with a line at each of its figures: the scale has found the places, since an axis may have breaks.
struct Lines {
    at: Vec<f64>,
    over: Range<f64>,
}

impl Lines {
    fn of(ticks: &[Tick], over: Range<f64>) -> Self {
        let at = ticks.iter().map(|tick| tick.at).collect();
        Self { at, over }
    }
}

impl Ranged for Lines {
    type FormatOption = DefaultFormatting;
    type ValueType = f64;

    fn map(&self, value: &f64, (low, high): (i32, i32)) -> i32 {
        let share = (value - self.over.start) / (self.over.end - self.over.start);
        low + whole(share * f64::from(high - low))
    }

    fn key_points<Hint: KeyPointHint>(&self, _: Hint) -> Vec<f64> {
        self.at.clone()
    }

    fn range(&self) -> Range<f64> {
        self.over.clone()
    }
}

fn draw(scale: &Scale, svg: &mut String) -> Result<(), DrawingError> {
    let size = (oversized(scale.width), oversized(scale.height));
    let root = SVGBackend::with_string(svg, (size.0.unsigned_abs(), size.1.unsigned_abs()))
        .into_drawing_area();
    let profile = scale.profile();
    let across = LEFT..scale.right();
    let sizes = Lines::of(&scale.diameter_ticks(), profile.bottom()..profile.top);
    grid(&root, scale, profile, Lines::of(&[], across.clone()), sizes)?;
    let all = Band {
        top: profile.top,
        height: scale.foot() - profile.top,
    };
    let lengths = Lines::of(&scale.length_ticks(), across);
    grid(&root, scale, all, lengths, Lines::of(&[], 0.0..1.0))?;
    root.present()?;
    Ok(())
}

fn grid(
    root: &Area<'_>,
    scale: &Scale,
    band: Band,
    x: Lines,
    y: Lines,
) -> Result<(), DrawingError> {
    let corner = (oversized(LEFT), oversized(band.top));
    let size = (oversized(scale.band_width()), oversized(band.height));
    let area = root.clone().shrink(corner, size);
    let mut chart = ChartBuilder::on(&area).build_cartesian_2d(x, y)?;
    let mut mesh = chart.configure_mesh();
    mesh.disable_axes()
        .bold_line_style(BLACK.stroke_width(OVERSIZE))
        .light_line_style(TRANSPARENT);
    mesh.draw()?;
    Ok(())
}

fn oversized(pixels: f64) -> i32 {
    whole(pixels.clamp(1.0, 10_000.0) * f64::from(OVERSIZE))
}

/// A screen is far smaller than the range of the type.
#[allow(clippy::cast_possible_truncation)]
fn whole(value: f64) -> i32 {
    value.round() as i32
}
