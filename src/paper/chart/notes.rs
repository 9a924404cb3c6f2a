//! What is written into the drawing itself: what is weighed, what is not drawn, what the rows are. No words run into each other.

use super::breaks::Break;
use super::note::{ASCENT, CHARACTER};
use super::paths::dimension_line;
use super::scale::{LEFT, Scale};
use crate::base::units::show::{self, Units, trimmed};
use crate::plan::Plan;

pub use super::note::{Anchor, Note, Subject};

/// How far below the middle of words their foot is, in pixels.
const FOOT: f64 = 5.0;

/// The words, those that matter most first; what has no room beside them is left out.
pub fn notes(plan: &Plan, breaks: &[Break], scale: &Scale) -> Vec<Note> {
    let mut notes: Vec<Note> = Vec::new();
    let wished = core::iter::once(head(plan, scale))
        .chain(breaks.iter().map(|one| vec![level(one, scale)]))
        .chain([core(scale)])
        .chain(rows(scale).into_iter().map(|row| vec![row]));
    for forms in wished {
        let has_room = |form: &Note| {
            let (left, right) = form.span();
            let is_on_paper = left >= 0.0 && right <= scale.width;
            is_on_paper && !notes.iter().any(|note| note.meets(form))
        };
        if let Some(form) = forms.into_iter().find(has_room) {
            notes.push(form);
        }
    }
    notes
}

/// Over the profile: what is weighed, and what it weighs.
fn head(plan: &Plan, scale: &Scale) -> Vec<Note> {
    let Some(mass) = plan.head_mass else {
        return vec![above(scale, "shorter than 30 ft".to_owned(), LEFT)];
    };
    let left = seen_head(plan, scale).map_or(LEFT, |ends| ends.0);
    let mass = show::grains(mass);
    let forms = [format!("first 30 ft: {mass}"), format!("30 ft: {mass}")];
    forms
        .map(|words| {
            let width = words.chars().count() as f64 * CHARACTER;
            let x = left.min(scale.right() - width).max(LEFT);
            above(scale, words, x)
        })
        .to_vec()
}

fn above(scale: &Scale, words: String, x: f64) -> Note {
    Note {
        subject: Subject::Head,
        x,
        y: bracket_y(scale) - 10.0,
        anchor: Anchor::Start,
        words,
    }
}

/// The bracket over what is weighed, as path data; nothing where it is out of view.
pub fn bracket(plan: &Plan, scale: &Scale) -> Option<String> {
    let ends = seen_head(plan, scale)?;
    Some(dimension_line(ends.0, ends.1, bracket_y(scale)))
}

fn seen_head(plan: &Plan, scale: &Scale) -> Option<(f64, f64)> {
    scale.seen((plan.head.from, plan.head.to.min(plan.length)))
}

fn bracket_y(scale: &Scale) -> f64 {
    scale.profile().top - 12.0
}

/// In a break: how long the level stretch is.
fn level(one: &Break, scale: &Scale) -> Note {
    let length = scale.convert_length(one.level);
    let words = format!("{} {}", trimmed(length, 1), scale.units.position().symbol());
    Note {
        subject: Subject::Level,
        x: f64::midpoint(one.x.0, one.x.1),
        y: scale.profile().middle() + FOOT,
        anchor: Anchor::Middle,
        words,
    }
}

/// In the cut along the axis, or below: what is not drawn.
fn core(scale: &Scale) -> Vec<Note> {
    if scale.half_cut() == 0.0 {
        return Vec::new();
    }
    let decimals = match scale.units {
        Units::Metric => 1,
        Units::Imperial => 0,
    };
    let size = trimmed(scale.convert_diameter(scale.core), decimals);
    let size = format!("{size} {}", scale.units.diameter().symbol());
    let forms = [
        format!("core of {size} not drawn"),
        format!("core {size} not drawn"),
        format!("core {size}"),
    ];
    let at_right = |words: &String| Note {
        subject: Subject::Core,
        x: scale.right() - 6.0,
        y: scale.profile().middle() + FOOT,
        anchor: Anchor::End,
        words: words.clone(),
    };
    let at_left = |words: &String| Note {
        x: LEFT + 6.0,
        anchor: Anchor::Start,
        ..at_right(words)
    };
    // Where breaks leave no room along the axis, below the profile; where figures stand there, at its foot.
    let foot = if scale.has_threads() { ASCENT } else { -FOOT };
    let below = |words: &String| Note {
        y: scale.profile().bottom() + foot,
        ..at_right(words)
    };
    let along = forms.iter().map(at_right).chain(forms.iter().map(at_left));
    along.chain(forms.iter().map(below)).collect()
}

/// Beside the bands: what they are, or count in.
fn rows(scale: &Scale) -> Vec<Note> {
    let row = |words: &str, y: f64| Note {
        subject: Subject::Row,
        x: LEFT - 7.0,
        y,
        anchor: Anchor::End,
        words: words.to_owned(),
    };
    let mut rows = vec![row(
        scale.units.diameter().symbol(),
        scale.profile().middle() + FOOT,
    )];
    if scale.has_threads() {
        rows.push(row("threads", scale.staircase().bottom() - FOOT));
        rows.push(row("gear", scale.gears().middle() + FOOT));
    }
    if scale.has_angles() {
        rows.push(Note {
            x: LEFT,
            anchor: Anchor::Start,
            ..row(
                "braid angle; dotted: one gear throughout",
                scale.angles().top - FOOT,
            )
        });
    }
    rows
}
