//! The drawing: what is seen is where it should be, and what is grabbed moves with the hand.
#![cfg(not(target_arch = "wasm32"))]

#[path = "common/designs.rs"]
mod designs;

use taperwright::base::choice::Choice as _;
use taperwright::base::units::show::Units;
use taperwright::base::units::{Length, Mass};
use taperwright::design::demo::demo;
use taperwright::design::{Design, Draft, DraftPoint};
use taperwright::edit::starts::Start;
use taperwright::paper::chart::drag::{Drag, PointerKind};
use taperwright::paper::chart::finish::Finish;
use taperwright::paper::chart::frame::{OVERSIZE, frame};
use taperwright::paper::chart::grip::{Edge, Grip, REACH, grips, handles, nearest, spot};
use taperwright::paper::chart::outline::{Frame, outline};
use taperwright::paper::chart::paths;
use taperwright::paper::chart::ruler::ruler;
use taperwright::paper::chart::scale::{LEFT, Manner, Scale};
use taperwright::paper::chart::visible_range::VisibleRange;
use taperwright::paper::figures::{FIGURES, verdict_detail, verdict_title};
use taperwright::plan::Plan;

use designs::{design, usual};

/// A tablet held upright.
const SIZE: (f64, f64) = (780.0, 470.0);

fn scale_of(design: &Design) -> Scale {
    Scale::of(design, &Plan::of(design), Units::Metric, SIZE)
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

#[test]
fn a_place_on_the_chart_is_the_place_on_the_line() {
    let scale = scale_of(&usual());
    for metres in [0.0, 0.1524, 2.5, 25.146] {
        let at = Length::from_metres(metres);
        near(scale.at_of(scale.x_of(at)).metres(), metres, 1e-12);
    }
    for millimetres in [0.1, 0.76, 1.075] {
        let size = Length::from_millimetres(millimetres);
        let back = scale.diameter_of(scale.half_thickness(size));
        near(back.millimetres(), millimetres, 1e-12);
    }
}

#[test]
fn everything_drawn_lies_on_the_paper() {
    for units in [Units::Metric, Units::Imperial] {
        let design = usual();
        let scale = Scale::of(&design, &Plan::of(&design), units, SIZE);
        let bands = scale.drawn_bands();
        assert_eq!(bands.len(), 4);
        assert!(bands.windows(2).all(|pair| pair[0].bottom() < pair[1].top));
        assert!(bands[bands.len() - 1].bottom() < scale.height);
        let right = LEFT + scale.band_width();
        assert!(
            scale
                .length_ticks()
                .iter()
                .all(|tick| (LEFT..=right).contains(&tick.at))
        );
        let inside = |at: f64, band: usize| (bands[band].top..=bands[band].bottom()).contains(&at);
        assert!(scale.diameter_ticks().iter().all(|tick| inside(tick.at, 0)));
        assert!(scale.angle_ticks().iter().all(|tick| inside(tick.at, 3)));
        let card = scale.on_card();
        let stairs = card.staircase();
        let inside = |at: f64| (stairs.top..=stairs.bottom()).contains(&at);
        assert!(card.thread_ticks().iter().all(|tick| inside(tick.at)));
    }
}

/// The figures stand where plotters draws its lines: every figure of length is the x of a line in the grid, also beyond a break.
#[test]
fn figures_stand_at_the_lines_of_the_grid() {
    for scale in [scale_of(&usual()), short(&usual(), SIZE)] {
        let svg = frame(&scale);
        let lines: Vec<f64> = svg
            .split("x1=\"")
            .skip(1)
            .filter_map(|line| line.split('"').next()?.parse().ok())
            .collect();
        assert!(!svg.contains("<text"), "plotters must draw no text");
        assert!(lines.len() >= 4, "{svg}");
        for tick in scale.length_ticks() {
            let x = tick.at * f64::from(OVERSIZE);
            let off = lines
                .iter()
                .map(|line| (line - x).abs())
                .fold(f64::MAX, f64::min);
            assert!(off <= 1.5, "no line at the figure {}", tick.label);
            // The figure is the place: the last one has its unit beside it.
            let figure = tick.label.split(' ').next().unwrap_or_default();
            let metres = figure.parse().expect("a number");
            near(scale.x_of(Length::from_metres(metres)), tick.at, 1e-6);
        }
    }
}

/// The chart of a design in the usual manner.
fn short(design: &Design, size: (f64, f64)) -> Scale {
    let manner = Manner {
        is_folded: true,
        is_cut: true,
    };
    Scale::on_chart(
        (design, &Plan::of(design)),
        None,
        manner,
        Units::Metric,
        size,
    )
}

/// The ready drawings at the size of a tablet: one thread more or less is seen, and tapers have the room.
#[test]
fn a_thread_is_seen_and_tapers_have_the_room() {
    for start in Start::ALL {
        let design = start.design();
        let plan = Plan::of(&design);
        let scale = short(&design, (780.0, 520.0));
        let made = |stretch: &taperwright::braid::stretch::Stretch| {
            scale.half_thickness(plan.line.station_in(stretch, stretch.to()).dressed.diameter)
        };
        let mut steps = 0;
        for pair in plan.line.stretches().windows(2) {
            let threads = |of: usize| pair[of].piece.load.threads;
            if threads(0).abs_diff(threads(1)) == 1 {
                // As the staircase has them: at a change the braid itself comes to its new size over some length.
                let size = |of: usize| plan.staircase.diameter(f64::from(threads(of)));
                let step = scale.half_thickness(size(0)) - scale.half_thickness(size(1));
                assert!(step.abs() >= 6.0, "{start:?}: {step} px");
                steps += 1;
            }
            assert!(made(&pair[0]) > scale.half_cut());
        }
        assert_eq!(steps == 0, *start == Start::Level);
        let taper = design.taper();
        let slopes = taper
            .points()
            .windows(2)
            .filter(|pair| pair[0].diameter != pair[1].diameter);
        let drawn: f64 = slopes
            .map(|pair| scale.x_of(pair[1].at) - scale.x_of(pair[0].at))
            .sum();
        assert!(
            *start == Start::Level || drawn >= 0.4 * scale.band_width(),
            "{start:?}: {drawn} px"
        );
    }
}

/// A taper of the other line must not vanish in a break of this one.
#[test]
fn a_break_hides_no_taper_of_the_line_compared() {
    let own = Start::DoubleTaper.design();
    let manner = Manner {
        is_folded: true,
        is_cut: true,
    };
    for start in Start::ALL {
        let other = start.design();
        let (plan, behind) = (Plan::of(&own), Plan::of(&other));
        let scale = Scale::on_chart(
            (&own, &plan),
            Some((&other, &behind)),
            manner,
            Units::Metric,
            SIZE,
        );
        let taper = other.taper();
        for fold in scale.folds.iter() {
            let inside = |at: Length| fold.from < at && at < fold.to && at < taper.length();
            assert!(
                !taper.points().iter().any(|point| inside(point.at)),
                "{start:?}"
            );
            let sizes = [fold.from, fold.to]
                .map(|at| taper.diameter_at(at.min(taper.length())).millimetres());
            near(sizes[0], sizes[1], 2e-3);
        }
        assert!(scale.x_of(behind.length) <= scale.right());
    }
}

#[test]
fn small_changes_leave_the_paper_where_it_was() {
    let before = scale_of(&usual());
    let thicker = design(&[], &[(0.0, 0.76), (2.6, 1.2), (25.0, 1.2)]);
    let kept = scale_of(&thicker).keeping_paper_of(&before);
    assert_eq!(
        (kept.length, kept.diameter),
        (before.length, before.diameter)
    );
    let longer = design(&[], &[(0.0, 0.76), (2.6, 1.6), (40.0, 1.6)]);
    let fresh = scale_of(&longer);
    let moved = fresh.keeping_paper_of(&before);
    assert_eq!(
        (moved.length, moved.diameter),
        (fresh.length, fresh.diameter)
    );
    assert!(moved.x_of(Length::from_metres(40.0)) < LEFT + moved.band_width());
}

/// A longer, thicker line of more threads, compared with this one, fits on the paper as a whole, and one that is smaller moves nothing.
#[test]
fn the_paper_has_room_for_a_line_laid_behind() {
    let own = scale_of(&usual());
    let (longest, thickest) = (Length::from_metres(45.0), Length::from_millimetres(2.4));
    let room = own.with_room_for(longest, thickest, 40.0);
    assert!(room.x_of(longest) < LEFT + room.band_width());
    assert!(room.half_thickness(thickest) < room.profile().height / 2.0);
    assert!(room.y_of_threads(40.0) >= room.staircase().top);
    // Kept, the paper of before must still have that room.
    let kept = room.keeping_paper_of(&own);
    assert!(kept.x_of(longest) < LEFT + kept.band_width());
    assert!(kept.half_thickness(thickest) < kept.profile().height / 2.0);
    let small = Length::from_millimetres(0.5);
    assert_eq!(own.with_room_for(Length::from_metres(5.0), small, 3.0), own);
}

/// A number of pixels as paths have it: to its tenth, which is left out where it is none.
fn tenths(pixels: f64) -> String {
    let written = format!("{pixels:.1}");
    written.strip_suffix(".0").unwrap_or(&written).to_owned()
}

#[test]
fn the_outline_follows_the_threads() {
    let (design, scale) = (usual(), scale_of(&usual()));
    let plan = Plan::of(&design);
    let outline = paths::silhouette(&plan, &scale);
    // Both edges have a corner where a stretch begins, as thick as the line is there.
    let middle = scale.profile().middle();
    for stretch in plan.line.stretches() {
        let station = plan.line.station_in(stretch, stretch.from());
        let half = scale.half_thickness(station.dressed.diameter);
        for y in [middle - half, middle + half] {
            let corner = format!("{} {}", tenths(scale.x_of(stretch.from())), tenths(y));
            assert!(outline.contains(&corner), "no corner at {corner}");
        }
    }
    assert!(outline.starts_with(&format!("M{} ", tenths(scale.x_of(Length::ZERO)))));
    assert!(outline.ends_with('Z'));
    let weighed = paths::weighed(&plan, &scale, Finish::Finished);
    assert!(weighed.starts_with(&format!("M{:.1} ", scale.x_of(plan.head.from))));
    assert!(weighed.contains(&format!("{:.1} ", scale.x_of(plan.head.to))));
}

/// The short level tip puts two points 5 pixels apart: they must not cover each other.
#[test]
fn neighbouring_handles_sit_on_different_edges() {
    let (design, scale) = (usual(), scale_of(&usual()));
    let handles = handles(&design, &scale, 0);
    assert_eq!(handles[..2], [Some(Edge::Upper), Some(Edge::Lower)]);
    assert_ne!(handles[4], handles[5]);
    let grips: Vec<Grip> = grips(&design, &handles, &scale).collect();
    assert_eq!(grips.len(), design.draft().points.len());
    for &grip in &grips {
        assert_eq!(nearest(grips.iter().copied(), grip.spot), Some(grip));
    }
    let (x, y) = grips[2].spot;
    assert_eq!(nearest(grips.iter().copied(), (x, y - REACH - 1.0)), None);
}

/// A thousand points on a tablet: what is drawn can be told apart, and zooming in shows every point.
#[test]
fn handles_without_room_are_not_drawn_until_the_chart_is_zoomed() {
    const CHOSEN: usize = 501;
    let point = |index: u32| DraftPoint {
        at_m: f64::from(index) * 0.1,
        diameter_mm: 1.0 + 0.05 * f64::from(index % 2),
    };
    let points = (0..1000).map(point).collect();
    let design = Design::parse(Draft {
        points,
        ..usual().draft().clone()
    })
    .expect("a valid drawing");
    let scale = scale_of(&design);
    let all = handles(&design, &scale, CHOSEN);
    let drawn: Vec<Grip> = grips(&design, &all, &scale).collect();
    assert!(drawn.len() < 200, "{} handles", drawn.len());
    assert!(drawn.iter().any(|grip| grip.index == CHOSEN));
    for edge in [Edge::Upper, Edge::Lower] {
        let of_edge = drawn
            .iter()
            .filter(|grip| grip.edge == edge && grip.index != CHOSEN);
        let x: Vec<f64> = of_edge.map(|grip| grip.spot.0).collect();
        assert!(x.windows(2).all(|pair| pair[1] - pair[0] > 11.9), "{x:?}");
    }
    // Another chosen point changes no handle but its own.
    let other = handles(&design, &scale, 0);
    let differ = (0..all.len()).filter(|&index| all[index] != other[index]);
    assert_eq!(differ.collect::<Vec<_>>(), [CHOSEN]);
    let near = scale.with_visible(VisibleRange {
        from: Length::from_metres(50.0),
        length: Length::from_metres(5.0),
    });
    let seen = handles(&design, &near, CHOSEN);
    for (index, point) in design.draft().points.iter().enumerate() {
        let is_in_sight = near.shows(Length::from_metres(point.at_m));
        assert_eq!(seen[index].is_some(), is_in_sight, "point {index}");
    }
}

#[test]
fn a_drag_keeps_the_distance_from_the_finger() {
    let (design, scale) = (usual(), scale_of(&usual()));
    let point = design.draft().points[2];
    for (edge, thicker) in [(Edge::Upper, -10.0), (Edge::Lower, 10.0)] {
        let handle = spot(&point, edge, &scale);
        let down = (handle.0 + 9.0, handle.1 + 7.0);
        let grip = Grip {
            index: 2,
            point,
            edge,
            spot: handle,
        };
        let mut drag = Drag::begin(1, PointerKind::Pen, grip, down);
        let mut wish = |at| {
            drag.moved(at);
            drag.wish(at, &scale)
        };
        assert_eq!(wish((down.0 + 2.0, down.1 + 3.0)), None, "within the slop");
        let moved = wish((down.0 + 20.0, down.1 + thicker)).expect("moving");
        let there = spot(&moved, edge, &scale);
        near(there.0 - handle.0, 20.0, 1e-9);
        near(there.1 - handle.1, thicker, 1e-9);
        assert!(moved.diameter_mm > point.diameter_mm);
        // Once it moves it moves, also back to where it began.
        let back = wish(down).expect("still moving");
        near(back.diameter_mm, point.diameter_mm, 1e-9);
    }
}

/// Source of the bands: AFFTA fly line weight standard.
#[test]
fn the_ruler_points_into_the_band_that_holds_the_weight() {
    for (grains, class) in [
        (140.0, Some(5)),
        (130.0, None),
        (60.0, Some(1)),
        (560.0, Some(15)),
    ] {
        let ruler = ruler(Mass::from_grains(grains));
        let holding = ruler.bands.iter().find(|band| band.holds);
        assert_eq!(holding.map(|band| band.class.number), class, "{grains} gr");
        let inside = ruler
            .bands
            .iter()
            .filter(|band| (band.from..=band.to).contains(&ruler.pointer));
        assert_eq!(inside.count(), usize::from(class.is_some()), "{grains} gr");
    }
    assert_eq!(
        ruler(Mass::from_grains(1.0)).pointer.to_bits(),
        0.0_f64.to_bits()
    );
}

#[test]
fn every_figure_has_a_key_of_its_own_a_number_and_a_reason() {
    let plan = Plan::of(&usual());
    let keys: std::collections::BTreeSet<_> = FIGURES.iter().map(|figure| figure.key).collect();
    assert_eq!(keys.len(), FIGURES.len());
    for figure in &FIGURES {
        for units in [Units::Metric, Units::Imperial] {
            let value = (figure.value)(&plan, units);
            assert!(value.si.is_some_and(f64::is_finite), "{}", figure.key);
            assert!(
                !value.text.is_empty() && figure.how.len() > 30,
                "{}",
                figure.key
            );
        }
    }
    for key in [
        "length",
        "head-mass",
        "tip-mass",
        "front-mass",
        "belly-mass",
        "rear-mass",
        "total-mass",
    ] {
        assert!(keys.contains(key), "{key}");
    }
}

#[test]
fn the_verdict_says_how_far_inside_or_outside() {
    let said = |points: &[(f64, f64)]| {
        let plan = Plan::of(&design(&[], points));
        (
            verdict_title(&plan.verdict),
            verdict_detail(&plan, Units::Metric),
        )
    };
    let (title, detail) = said(&[(0.0, 1.075), (20.0, 1.075)]);
    assert_eq!(title, "Between 5 and 6");
    assert!(detail.contains("too heavy for class 5"), "{detail}");
    let (title, detail) = said(&[(0.0, 1.075), (9.0, 1.075)]);
    assert_eq!(title, "No class yet");
    assert!(detail.contains("0.144\u{202f}m too short"), "{detail}");
    let (title, detail) = said(&[(0.0, 0.76), (0.1524, 0.76), (2.591, 1.075), (25.0, 1.075)]);
    assert_eq!(title, "Class 5");
    assert!(detail.contains("Class 5 allows 134 to 146 gr"), "{detail}");
}

/// The line that is seen before the program is there: the example's, in the page itself.
#[test]
fn the_page_opens_with_the_example_drawn() {
    let page = include_str!("../index.html");
    let taper = demo().taper();
    let frame = Frame::around(core::slice::from_ref(&taper), (320.0, 26.0));
    let drawn = format!("<path d=\"{}\"/>", outline(&taper, &frame));
    assert!(page.contains(&drawn), "index.html should have {drawn}");
}

/// The polylines of a path of `M`, `L` and numbers.
fn polylines(path: &str) -> Vec<Vec<(f64, f64)>> {
    let pieces = path.split('M').filter(|piece| !piece.is_empty());
    let point = |text: &str| {
        let (x, y) = text.split_once(' ').expect("two numbers");
        (x.parse().expect("a number"), y.parse().expect("a number"))
    };
    pieces
        .map(|piece| piece.split('L').map(point).collect())
        .collect()
}

/// How far a point is from a straight piece.
fn distance((x, y): (f64, f64), (from, to): ((f64, f64), (f64, f64))) -> f64 {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx * dx + dy * dy;
    let along = ((x - from.0) * dx + (y - from.1) * dy) / length.max(f64::MIN_POSITIVE);
    let along = along.clamp(0.0, 1.0);
    (x - from.0 - along * dx).hypot(y - from.1 - along * dy)
}

/// A part outside the tolerance is drawn over the curve of the angle, and nowhere else: sixteen metres of running line that
/// settle within the first half metre are no slope of five metres.
#[test]
fn what_is_outside_the_tolerance_is_drawn_on_the_curve() {
    let mut draft = Start::WeightForward.design().draft().clone();
    draft.gears = (20..=40).map(f64::from).collect();
    for (index, at_m) in [(2, 5.0763), (3, 9.144)] {
        draft.points[index].at_m = at_m;
        draft.points[index].diameter_mm = 0.9892;
    }
    let design = designs::parsed(draft);
    let (plan, scale) = (Plan::of(&design), scale_of(&design));
    let curve = polylines(&paths::angle(&plan, &scale)).concat();
    let outside = polylines(&paths::angle_outside(&plan, &scale));
    let parts = || outside.iter().flat_map(|part| part.windows(2));
    let lengths = outside
        .iter()
        .map(|part| part[part.len() - 1].0 - part[0].0);
    let longest = lengths.fold(0.0, f64::max);
    assert!(
        longest > 300.0,
        "the running line is not drawn: {longest} px"
    );
    for pair in parts() {
        for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
            let between = |a: f64, b: f64| a + (b - a) * share;
            let point = (between(pair[0].0, pair[1].0), between(pair[0].1, pair[1].1));
            let pieces = curve
                .windows(2)
                .map(|piece| distance(point, (piece[0], piece[1])));
            let off = pieces.fold(f64::INFINITY, f64::min);
            assert!(off < 1.0, "{off} px beside the curve at {point:?}");
        }
    }
}
