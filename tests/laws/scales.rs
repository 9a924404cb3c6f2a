//! The scale of the chart, with level stretches drawn short and a core left out. Analytic: a map and its inverse, and words that
//! have room.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::base::units::show::Units;
use taperwright::design::{Design, DraftPoint};
use taperwright::paper::chart::breaks::breaks;
use taperwright::paper::chart::loupe;
use taperwright::paper::chart::notes::{Subject, notes};
use taperwright::paper::chart::ribbon;
use taperwright::paper::chart::scale::{LEFT, Manner, Scale};
use taperwright::paper::chart::tag;
use taperwright::paper::chart::visible_range::VisibleRange;
use taperwright::plan::Plan;

use crate::designs::{parsed, usual};
use crate::lines::{any_design, cases};

const SHORT: Manner = Manner {
    is_folded: true,
    is_cut: true,
};

/// Lines with level stretches of every length, one after the other, with slopes between them.
fn stepped() -> impl Strategy<Value = Design> {
    let part = (0.05..20.0_f64, 0.05..6.0_f64, 0.7..1.3_f64);
    prop::collection::vec(part, 1..5).prop_map(|parts| {
        let mut draft = usual().draft().clone();
        draft.points.clear();
        let mut at_m = 0.0;
        let mut add =
            |at_m: f64, diameter_mm: f64| draft.points.push(DraftPoint { at_m, diameter_mm });
        for (level, slope, size) in parts {
            add(at_m, size);
            add(at_m + level, size);
            at_m += level + slope;
        }
        parsed(draft)
    })
}

fn any_line() -> impl Strategy<Value = Design> {
    prop_oneof![3 => stepped(), 1 => any_design()]
}

fn sizes() -> impl Strategy<Value = (f64, f64)> {
    (300.0..1600.0_f64, 180.0..1100.0_f64)
}

fn units() -> impl Strategy<Value = Units> {
    prop_oneof![Just(Units::Metric), Just(Units::Imperial)]
}

fn scale_of(design: &Design, plan: &Plan, units: Units, size: (f64, f64)) -> Scale {
    Scale::on_chart((design, plan), None, SHORT, units, size)
}

/// A scale zoomed in about a share of the paper.
fn zoomed(scale: Scale, line: Length, about: f64, times: f64) -> Scale {
    let paper = scale.paper_of(line);
    let range = scale.visible().zoomed(times, paper * about, paper);
    scale.with_visible(range)
}

/// How many pixels two places to either side of one are apart, for each metre.
fn density(scale: &Scale, at: Length) -> f64 {
    let hair = Length::from_millimetres(0.5);
    (scale.x_of(at + hair) - scale.x_of(at - hair)) / (hair.metres() * 2.0)
}

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn every_place_has_its_pixel_and_every_pixel_its_place(
        design in any_line(), size in sizes(), about in 0.0..1.0_f64, times in 1.0..30.0_f64,
    ) {
        let plan = Plan::of(&design);
        let scale = zoomed(scale_of(&design, &plan, Units::Metric, size), plan.length, about, times);
        let mut before = f64::NEG_INFINITY;
        for step in -20..=120 {
            let at = plan.length * (f64::from(step) / 100.0);
            let x = scale.x_of(at);
            prop_assert!(x > before, "{x} is not right of {before}");
            before = x;
            let back = scale.at_of(x);
            prop_assert!((back - at).abs() <= plan.length * 1e-9, "{at:?} comes back as {back:?}");
        }
        let mut before = Length::from_metres(f64::NEG_INFINITY);
        for step in -20..=120 {
            let x = size.0 * f64::from(step) / 100.0;
            let at = scale.at_of(x);
            prop_assert!(at > before);
            before = at;
            prop_assert!((scale.x_of(at) - x).abs() < 1e-6);
        }
    }

    #[test]
    fn every_size_has_its_edge_and_back(design in any_line(), size in sizes(), units in units()) {
        let plan = Plan::of(&design);
        let scale = scale_of(&design, &plan, units, size);
        let mut before = 0.0;
        for step in 0..=100 {
            let drawn = scale.core + (scale.diameter - scale.core) * (f64::from(step) / 100.0);
            let half = scale.half_thickness(drawn);
            prop_assert!(half >= before);
            before = half;
            prop_assert!((scale.diameter_of(half) - drawn).abs().millimetres() < 1e-9);
        }
        // All that is drawn lies between the cut and the edge of the band.
        for point in &design.draft().points {
            let drawn = Length::from_millimetres(point.diameter_mm);
            prop_assert!(drawn > scale.core);
            prop_assert!(scale.half_thickness(drawn) <= scale.profile().height / 2.0);
        }
        // A size below the core is held at the cut, and a hand within the cut still means a size.
        prop_assert_eq!(scale.half_thickness(scale.core * 0.5), scale.half_cut());
        prop_assert!(scale.half_cut() == 0.0 || scale.diameter_of(scale.half_cut() / 2.0) < scale.core);
    }

    /// Only level stretches are folded, and only long ones; beside them a metre is as long everywhere.
    #[test]
    fn slopes_have_one_scale(design in any_line(), size in sizes()) {
        let (plan, taper) = (Plan::of(&design), design.taper());
        let scale = scale_of(&design, &plan, Units::Metric, size);
        for fold in scale.folds.iter() {
            let (from, to) = fold.level;
            prop_assert!(from < fold.from && fold.from < fold.to && fold.to < to);
            prop_assert!(to - from > plan.length * 0.15);
            prop_assert!((taper.diameter_at(from) - taper.diameter_at(to)).abs().millimetres() < 2e-3);
            prop_assert!(taper.points().iter().all(|point| point.at <= from || point.at >= to));
        }
        for pair in taper.points().windows(2) {
            let middle = (pair[0].at + pair[1].at) / 2.0;
            let is_hidden = scale.folds.iter().any(|fold| fold.from <= middle && middle <= fold.to);
            if !is_hidden && pair[1].at - pair[0].at > Length::from_millimetres(2.0) {
                let here = density(&scale, middle);
                prop_assert!((here / scale.pixels_per_metre() - 1.0).abs() < 1e-6);
            }
        }
        let whole = scale.x_of(plan.length);
        prop_assert!(whole > LEFT && whole <= scale.right());
    }

    /// What a hand drags may move into a fold: while the paper is kept it stays the same map.
    #[test]
    fn a_fold_stays_after_a_small_change(design in stepped(), by in -0.02..0.02_f64) {
        let plan = Plan::of(&design);
        let before = scale_of(&design, &plan, Units::Metric, (780.0, 700.0));
        let mut draft = design.draft().clone();
        let last = draft.points.len() - 1;
        draft.points[last].at_m += by;
        let moved = parsed(draft);
        let after = scale_of(&moved, &Plan::of(&moved), Units::Metric, (780.0, 700.0));
        let kept = after.keeping_paper_of(&before);
        for point in &design.draft().points {
            let at = Length::from_metres(point.at_m);
            prop_assert!((kept.x_of(at) - before.x_of(at)).abs() < 1e-6);
        }
    }

    #[test]
    fn cells_lie_where_the_plan_has_them(design in any_line(), size in sizes()) {
        let plan = Plan::of(&design);
        let scale = scale_of(&design, &plan, Units::Metric, size);
        let threads = |at: Length| plan.station(at).piece.load.threads.to_string();
        let gear = |at: Length| plan.station(at).piece.wheels.to_string();
        let rows: [(_, &dyn Fn(Length) -> String); 2] = [
            (ribbon::threads(&plan, &scale), &threads),
            (ribbon::gears(&plan, &scale), &gear),
        ];
        for (row, value) in rows {
            prop_assert_eq!(row.cells[0].from, Length::ZERO);
            prop_assert_eq!(row.cells[row.cells.len() - 1].to, plan.length);
            prop_assert!(row.cells.windows(2).all(|pair| pair[0].to == pair[1].from));
            for stretch in plan.line.stretches() {
                let middle = (stretch.from() + stretch.to()) / 2.0;
                let cell = row.cells.iter().find(|cell| cell.from <= middle && middle < cell.to);
                let cell = cell.expect("every stretch has a cell");
                prop_assert_eq!(&cell.value, &value(middle));
            }
            // Figures stand within their own cell, and none in a break.
            let mut free = f64::NEG_INFINITY;
            for cell in &row.cells {
                let Some(x) = cell.label_at else { continue };
                let half = cell.value.len() as f64 * 4.0;
                prop_assert!(scale.x_of(cell.from) <= x - half && x + half <= scale.x_of(cell.to));
                prop_assert!(x - half >= free, "{} runs into its neighbour", cell.value);
                free = x + half;
                for fold in scale.folds.iter() {
                    prop_assert!(x + half <= scale.x_of(fold.from) || x - half >= scale.x_of(fold.to));
                }
            }
        }
    }

    /// With eight pixels a character, which is more than the type takes, no words run into each other or off the paper.
    #[test]
    fn words_have_room(design in any_line(), size in sizes(), units in units(), times in 1.0..10.0_f64) {
        let plan = Plan::of(&design);
        let scale = zoomed(scale_of(&design, &plan, units, size), plan.length, 0.3, times);
        let written = notes(&plan, &breaks(&design.taper(), &scale), &scale);
        for (index, one) in written.iter().enumerate() {
            let (left, right) = one.span();
            prop_assert!(left >= 0.0 && right <= size.0, "{} runs off the paper", one.words);
            for other in &written[index + 1..] {
                let (from, to) = other.span();
                let apart = right <= from || to <= left || (one.y - other.y).abs() >= 12.0;
                prop_assert!(apart, "{} and {}", one.words, other.words);
            }
        }
        let core = written.iter().filter(|note| note.subject == Subject::Core).count();
        prop_assert_eq!(core, usize::from(scale.half_cut() > 0.0), "what is not drawn is written in");
        let mut free = f64::NEG_INFINITY;
        for tick in scale.length_ticks() {
            let half = tick.label.chars().count() as f64 * 4.0;
            prop_assert!(tick.at - half >= free, "{} runs into its neighbour", tick.label);
            prop_assert!(tick.at + half <= size.0);
            free = tick.at + half;
        }
        let heights: Vec<f64> = scale.diameter_ticks().iter().map(|tick| tick.at).collect();
        prop_assert!(heights.windows(2).all(|pair| (pair[0] - pair[1]).abs() >= 15.0));
    }

    /// The label at the hand is on the chart, and not beneath a finger or the loupe.
    #[test]
    fn the_label_is_clear_of_the_hand(
        chart in (320.0..1600.0_f64, 320.0..1100.0_f64), at in (0.0..1.0_f64, 0.0..1.0_f64), is_covered: bool,
    ) {
        let hand = (chart.0 * at.0, chart.1 * at.1);
        let size = (140.0, 88.0);
        let (x, y) = tag::place(hand, size, chart, is_covered);
        prop_assert!(x >= 0.0 && y >= 0.0 && x + size.0 <= chart.0 && y + size.1 <= chart.1);
        let apart = |(across, down): (f64, f64)| {
            let right = (x - across).max(across - x - size.0).max(0.0);
            right.hypot((y - down).max(down - y - size.1).max(0.0))
        };
        // A fingertip covers some 20 px round itself: common practice, no source.
        prop_assert!(apart(hand) >= if is_covered { 20.0 } else { 8.0 }, "{hand:?}: {x}, {y}");
        prop_assert!(!is_covered || apart(loupe::place(hand, chart)) >= loupe::RADIUS - 0.001);
    }
}

/// A level line has nothing beside its level part: it is drawn as long as it is.
#[test]
fn a_line_that_is_level_throughout_is_not_folded() {
    let mut draft = usual().draft().clone();
    draft.points = vec![
        DraftPoint {
            at_m: 0.0,
            diameter_mm: 1.0,
        },
        DraftPoint {
            at_m: 25.0,
            diameter_mm: 1.0,
        },
    ];
    let design = parsed(draft);
    let plan = Plan::of(&design);
    let scale = scale_of(&design, &plan, Units::Metric, (780.0, 520.0));
    assert!(scale.folds.is_empty());
    assert_eq!(scale.visible(), VisibleRange::whole(plan.length));
}
