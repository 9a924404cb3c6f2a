//! One state of the chart, whole: every curve, cell and word of it, as a pure function of what is drawn and of the scale. The view
//! writes what changed of it.

use super::breaks::breaks;
use super::finish::Finish;
use super::notes::{Note, bracket, notes};
use super::paths;
use super::ribbon::{self, Row};
use super::scale::Scale;
use crate::design::Design;
use crate::plan::Plan;

/// What follows the line from move to move.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The line as braided, closed.
    pub silhouette: String,
    /// The part of it weighed for the class, closed.
    pub weighed: String,
    /// The drawn edges.
    pub drawn: String,
    /// The cells of threads; none on a chart too low for them.
    pub threads: Row,
    /// The cells of gears.
    pub gears: Row,
    /// The angle along the line; empty on a chart without the strip.
    pub angle: String,
    /// The same with one gear throughout.
    pub one_gear: String,
    /// The curve where it is outside the tolerance.
    pub outside: String,
    /// What lies between that and the tolerance, closed.
    pub outside_area: String,
    /// The bracket over what is weighed, where it is in sight.
    pub bracket: Option<String>,
    /// What is written.
    pub notes: Vec<Note>,
}

impl Picture {
    /// The chart of a design and its plan, in a state of the line.
    pub fn of(design: &Design, plan: &Plan, scale: &Scale, finish: Finish) -> Self {
        let row = |row: fn(&Plan, &Scale) -> Row| {
            if scale.has_threads() {
                row(plan, scale)
            } else {
                Row::default()
            }
        };
        let angle = |curve: fn(&Plan, &Scale) -> String| {
            if scale.has_angles() {
                curve(plan, scale)
            } else {
                String::new()
            }
        };
        Self {
            silhouette: paths::silhouette_at(plan, scale, finish),
            weighed: paths::weighed(plan, scale, finish),
            drawn: paths::drawing(design, scale),
            threads: row(ribbon::threads),
            gears: row(ribbon::gears),
            angle: angle(paths::angle),
            one_gear: angle(paths::angle_with_one_gear),
            outside: angle(paths::angle_outside),
            outside_area: angle(paths::area_outside),
            bracket: bracket(plan, scale),
            notes: notes(plan, &breaks(&design.taper(), scale), scale),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::show::Units;
    use crate::design::demo::demo;
    use crate::edit::{Edit, MoveOptions};
    use crate::paper::chart::notes::Subject;
    use crate::paper::chart::scale::Manner;

    fn scale(size: (f64, f64)) -> Scale {
        let (design, manner) = (
            demo(),
            Manner {
                is_folded: true,
                is_cut: true,
            },
        );
        Scale::on_chart(
            (&design, &Plan::of(&design)),
            None,
            manner,
            Units::Metric,
            size,
        )
    }

    fn picture(design: &Design, size: (f64, f64)) -> Picture {
        Picture::of(design, &Plan::of(design), &scale(size), Finish::Finished)
    }

    #[test]
    fn a_state_has_one_picture_and_a_move_another() {
        let size = (780.0, 700.0);
        let before = picture(&demo(), size);
        assert_eq!(before, picture(&demo(), size));
        let mut point = demo().draft().points[2];
        point.at_m += 0.3;
        let moved = Edit::Place {
            index: 2,
            point,
            options: MoveOptions::default(),
        };
        let after = picture(&moved.apply(&demo()).expect("it may be there"), size);
        assert_ne!(before.drawn, after.drawn);
        assert_ne!(before.threads.outlines, after.threads.outlines);
        // The level part is as much shorter as the taper is longer, and the break says so while the paper stays.
        let level = |picture: &Picture| {
            let notes = picture.notes.iter();
            let mut level = notes.filter(|note| note.subject == Subject::Level);
            level.next().map(|note| note.words.clone())
        };
        assert_ne!(level(&before), level(&after));
    }

    #[test]
    fn cells_follow_each_other_to_the_end_of_the_line() {
        let Picture { threads, gears, .. } = picture(&demo(), (780.0, 700.0));
        for row in [threads, gears] {
            let words = row.ends();
            let ends: Vec<f64> = words
                .split(' ')
                .filter_map(|end| end.parse().ok())
                .collect();
            assert_eq!(ends.len(), row.cells.len() + 1);
            assert!(ends.is_sorted());
            assert_eq!(
                (ends[0], ends[ends.len() - 1]),
                (0.0, Plan::of(&demo()).length.metres())
            );
        }
    }

    #[test]
    fn a_low_chart_draws_no_cells_and_no_angle() {
        let low = picture(&demo(), (780.0, 240.0));
        assert!(low.threads.cells.is_empty() && low.angle.is_empty());
        assert_eq!(low.threads.ends(), "");
        assert!(!low.silhouette.is_empty());
    }
}
