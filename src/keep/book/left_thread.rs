//! Thread left on bobbins: from the line that is done into the notes of the machine, and from there onto the next line.
//!
//! It is at one place only: what is noted is taken off the line that left it, and what is used is taken out of the notes.

use super::machine_notes::{LeftOver, MOST_LEFT_OVER, MachineNotes};
use crate::base::units::Length;
use crate::plan::bobbins::Bobbin;
use crate::plan::left_over::{LEAST_LEFT, LeftThread};
use crate::plan::wound::Wound;

impl MachineNotes {
    /// Notes what a line has left on its bobbins, in place of what was noted of the same bobbins.
    pub fn note_left(&mut self, left: &[LeftThread]) {
        for one in left {
            let key = one.carrier.to_string();
            self.left_over
                .retain(|noted| (&noted.carrier, noted.ends) != (&key, one.ends));
            if one.left >= LEAST_LEFT {
                self.left_over.push(LeftOver {
                    carrier: key,
                    ends: one.ends,
                    thread_m: Some(one.left.metres()),
                });
            }
        }
        // Where there is no room for all, the oldest make way.
        let too_many = self.left_over.len().saturating_sub(MOST_LEFT_OVER);
        self.left_over.drain(..too_many);
    }

    /// The bobbins of a line that have thread from before on them, and how much; those already ticked are left out.
    pub fn left_for<'a>(&self, bobbins: &'a [Bobbin], wound: &Wound) -> Vec<(&'a Bobbin, Length)> {
        let open = bobbins.iter().filter(|it| wound.tick_of(it).is_none());
        open.filter_map(|bobbin| Some((bobbin, self.left_on(bobbin)?)))
            .collect()
    }

    /// Puts the thread from before onto the bobbins of a line, and takes it out of the notes.
    pub fn use_left(&mut self, bobbins: &[Bobbin], wound: &mut Wound) {
        for (bobbin, thread) in self.left_for(bobbins, wound) {
            wound.put_thread(bobbin, thread);
            self.left_over.retain(|noted| !noted.is_on(bobbin));
        }
    }

    fn left_on(&self, bobbin: &Bobbin) -> Option<Length> {
        let noted = self.left_over.iter().find(|noted| noted.is_on(bobbin))?;
        let thread = Length::from_metres(noted.thread_m?);
        (thread >= LEAST_LEFT && thread.is_finite()).then_some(thread)
    }
}

impl LeftOver {
    fn is_on(&self, bobbin: &Bobbin) -> bool {
        self.ends == bobbin.ends && self.carrier == bobbin.carrier.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::Plan;
    use crate::plan::left_over::left_on;
    use crate::plan::wound::WoundState;

    #[test]
    fn thread_moves_from_one_line_to_the_next_and_is_nowhere_twice() {
        let plan = Plan::of(&demo());
        let (bobbins, mut wound) = (&plan.bobbins, Wound::default());
        for bobbin in &bobbins[..3] {
            wound.toggle(bobbin, bobbins);
        }
        let left = left_on(bobbins, &wound);
        let mut notes = MachineNotes::default();
        notes.note_left(&left);
        notes.note_left(&left);
        assert_eq!(
            notes.left_over.len(),
            3,
            "noted again, it is the same thread"
        );
        let mut next = Wound::default();
        assert_eq!(notes.left_for(bobbins, &next).len(), 3);
        notes.use_left(bobbins, &mut next);
        assert!(notes.left_over.is_empty());
        let WoundState::More(more) = next.state(&bobbins[0], bobbins) else {
            panic!("what is left is not enough for another line");
        };
        let together = more + left[0].left;
        assert!((together - bobbins[0].length).abs() < Length::from_metres(0.11));
    }

    #[test]
    fn what_does_not_fit_a_bobbin_stays_noted() {
        let plan = Plan::of(&demo());
        let noted = |carrier: &str, ends, thread_m| LeftOver {
            carrier: carrier.to_owned(),
            ends,
            thread_m,
        };
        let first = plan.bobbins[0];
        let key = first.carrier.to_string();
        let mut notes = MachineNotes {
            left_over: vec![
                noted(&key, first.ends + 1, Some(3.0)),
                noted("no carrier", first.ends, Some(3.0)),
                noted(&key, first.ends, Some(f64::NAN)),
            ],
            ..MachineNotes::default()
        };
        let mut wound = Wound::default();
        notes.use_left(&plan.bobbins, &mut wound);
        assert!(wound.is_empty());
        assert_eq!(notes.left_over.len(), 3);
    }
}
