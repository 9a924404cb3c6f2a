//! The steps that can be undone and redone, as text, so that they outlast a reload.
//!
//! The first line says what the text is and the number of its form. Each design then has a line of its own: a sign, `<` for one
//! before, `=` for the present one, `>` for one undone, and the code of its link. The text is written over at each change: steps can
//! be lost, lines cannot.

use super::link;
use crate::design::Design;
use crate::edit::sketch::Sketch;

/// The first line: what the text is, and the number of its form.
const HEADING: &str = "taperwright steps 1";
/// Most designs kept before and after the one now: some 40 kilobytes of the few megabytes a browser gives.
const MOST_KEPT: usize = 50;
/// Most characters of codes kept on either side: of designs with the longest notes and hundreds of points the nearest ones.
const MOST_ROOM: usize = 200_000;

/// Longest text read, in bytes: every design's code as long as a code may be.
const LONGEST: usize = (2 * MOST_KEPT + 1) * (link::LONGEST_CODE + 2);

const BEFORE: char = '<';
const NOW: char = '=';
const UNDONE: char = '>';

/// The text of a sketch's settled steps. A design too large for a code, or for what
/// room is left, ends the steps kept on its side.
pub fn write(sketch: &Sketch) -> String {
    let mut lines = vec![HEADING.to_owned()];
    let side = |sign: char, designs: &[Design]| {
        let codes = designs.iter().rev().take(MOST_KEPT);
        let mut room = MOST_ROOM;
        let mut codes: Vec<String> = codes
            .map_while(|design| link::pack(design).ok())
            .map_while(|code| {
                room = room.checked_sub(code.len())?;
                Some(format!("{sign}{code}"))
            })
            .collect();
        codes.reverse();
        codes
    };
    lines.extend(side(BEFORE, sketch.past()));
    lines.extend(side(NOW, core::slice::from_ref(sketch.settled())));
    lines.extend(side(UNDONE, sketch.future()));
    lines.join("\n")
}

/// The sketch of a design with the steps of a text, where they are that design's steps; else without any. Steps are a
/// convenience: a text that is damaged, or left behind by another tab, is no reason to trouble anybody.
pub fn read(text: &str, design: Design) -> Sketch {
    steps(text, &design).map_or_else(
        || Sketch::new(design.clone()),
        |(past, future)| Sketch::with_steps(design.clone(), past, future),
    )
}

fn steps(text: &str, design: &Design) -> Option<(Vec<Design>, Vec<Design>)> {
    let mut lines = text.lines();
    if text.len() > LONGEST || lines.next() != Some(HEADING) {
        return None;
    }
    let (mut past, mut now, mut future) = (Vec::new(), None, Vec::new());
    for line in lines.take(2 * MOST_KEPT + 1) {
        let mut characters = line.chars();
        let sign = characters.next()?;
        let step = link::unpack(characters.as_str()).ok()?;
        match sign {
            BEFORE => past.push(step),
            NOW => now = Some(step),
            UNDONE => future.push(step),
            _ => return None,
        }
    }
    (now.as_ref() == Some(design)).then_some((past, future))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::DraftPoint;
    use crate::design::demo::demo;
    use crate::edit::Edit;

    #[test]
    fn of_the_longest_lines_the_nearest_steps_are_kept() {
        let mut draft = demo().draft().clone();
        let point = |index: u32| DraftPoint {
            at_m: f64::from(index) * 0.1,
            diameter_mm: 0.8 + f64::from(index % 7) * 0.0123,
        };
        draft.points = (0..1000).map(point).collect();
        let mut sketch = Sketch::new(Design::parse(draft).expect("a line"));
        for step in 0..60 {
            let named = sketch.try_out(Edit::Name(format!("step {step}")));
            named.expect("a name");
            sketch.settle();
        }
        let text = write(&sketch);
        assert!(text.len() < 2 * MOST_ROOM, "{} characters", text.len());
        let kept = read(&text, sketch.settled().clone());
        let (kept, all) = (kept.past(), sketch.past());
        assert!(kept.len() > 10 && kept.len() < MOST_KEPT, "{}", kept.len());
        assert_eq!(kept, &all[all.len() - kept.len()..]);
    }
}
