//! The frame of the chart, drawn by plotters: the grid of each band. It is drawn again only when the scale or the
//! size changes. plotters draws no text here, so that no font is needed and the page uses its own type: to measure text it
//! needs inline styles, which the page's policy forbids. Curves, figures and handles are SVG nodes of ours, so that a drag only
//! sets attributes.

use plotters::prelude::*;

use super::scale::{Band, LEFT, Scale};

/// plotters rounds to whole pixels; drawing this many times larger keeps the grid where the curves are.
pub const OVERSIZE: u32 = 8;

/// The grid as an SVG fragment, [`OVERSIZE`] times as large as the chart. Empty when plotters refuses the size.
pub fn frame(scale: &Scale) -> String {
    let mut svg = String::new();
    let drawn = draw(scale, &mut svg);
    if drawn.is_ok() { svg } else { String::new() }
}

type DrawingError = Box<dyn core::error::Error>;

fn draw(scale: &Scale, svg: &mut String) -> Result<(), DrawingError> {
    let size = (oversized(scale.width), oversized(scale.height));
    let root = SVGBackend::with_string(svg, (size.0.unsigned_abs(), size.1.unsigned_abs()))
        .into_drawing_area();
    let (from, to) = scale.lengths_shown();
    let diameter = scale.convert_diameter(scale.diameter);
    let (columns, rows) = (scale.length_tick_count(), scale.diameter_tick_count());
    for (index, band) in scale.drawn_bands().into_iter().enumerate() {
        let area = band_area(&root, scale, band);
        if index == 0 {
            grid(&area, from..to, -diameter..diameter, columns, rows)?;
        } else {
            grid(&area, from..to, 0.0..1.0, columns, 0)?;
        }
    }
    root.present()?;
    Ok(())
}

type Area<'a> = DrawingArea<SVGBackend<'a>, plotters::coord::Shift>;

fn band_area<'a>(root: &Area<'a>, scale: &Scale, band: Band) -> Area<'a> {
    let corner = (oversized(LEFT), oversized(band.top));
    root.clone().shrink(
        corner,
        (oversized(scale.band_width()), oversized(band.height)),
    )
}

fn grid(
    area: &Area<'_>,
    x: core::ops::Range<f64>,
    y: core::ops::Range<f64>,
    columns: usize,
    rows: usize,
) -> Result<(), DrawingError> {
    let line = BLACK.stroke_width(OVERSIZE);
    let mut chart = ChartBuilder::on(area).build_cartesian_2d(x, y)?;
    let mut mesh = chart.configure_mesh();
    mesh.disable_axes()
        .x_labels(columns)
        .y_labels(rows)
        .bold_line_style(line)
        .light_line_style(TRANSPARENT);
    if rows == 0 {
        mesh.disable_y_mesh();
    }
    mesh.draw()?;
    Ok(())
}

/// A screen is far smaller than the range of the type.
#[allow(clippy::cast_possible_truncation)]
fn oversized(pixels: f64) -> i32 {
    (pixels.clamp(1.0, 10_000.0) * f64::from(OVERSIZE)).round() as i32
}
