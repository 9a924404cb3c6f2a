//! Treads: the stretches between two stops, each braided with wheels of its own, and the rows of the schedule they belong
//! to. What a maker insists on at a row about wheels is insisted on for its tread.

use super::{Action, Event, Plan};
use crate::base::units::Length;
use crate::braid::threads::Level;
use crate::plan::layout::stops::Stop;

/// A stretch of line between two stops for threads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tread {
    /// Its level.
    pub level: Level,
    /// Its middle, from the tip.
    pub middle: Length,
    /// The pin that holds its wheels, by its place in the design's list.
    pub pin: Option<usize>,
}

impl Plan {
    /// The tread whose wheels a row of this plan's schedule decides: the start decides those of the first, a change of
    /// wheels those of the tread it is made for, and where wheels stay the last change of threads at a stop those behind it.
    /// `None` for all other rows, so that every tread belongs to one row.
    pub fn tread(&self, event: &Event) -> Option<Tread> {
        let index = self.tread_index(event)?;
        let layout = &self.layout;
        let before = index.checked_sub(1).map(|before| &layout.stops[before]);
        let from = before.map_or(Length::ZERO, |stop| stop.at);
        let to = layout.stops.get(index).map_or(self.length, |stop| stop.at);
        let level = before.map_or(layout.first, Stop::after);
        Some(Tread {
            level: *self.supply.levels().get(level)?,
            middle: (from + to) / 2.0,
            pin: layout.pinned_treads.get(index).copied().flatten(),
        })
    }

    fn tread_index(&self, event: &Event) -> Option<usize> {
        let layout = &self.layout;
        let is_changed = |stop: usize| layout.wheels[stop] != layout.wheels[stop + 1];
        let mut stops = 0..layout.stops.len();
        let stop = match event.action {
            Action::Start(_) => return Some(0),
            Action::End(_) => None,
            Action::Gear { .. } => {
                stops.find(|&stop| is_changed(stop) && layout.wheels_at[stop] == event.at)
            }
            Action::Add { .. } | Action::Drop { .. } | Action::Swap { .. } => {
                let levels = self.supply.levels();
                let is_last = |stop: usize| levels[layout.stops[stop].after()] == event.level;
                stops.find(|&stop| layout.stops[stop].at == event.at && is_last(stop))
            }
        };
        let is_of_threads = event.action.is_of_threads();
        let stop = stop.filter(|&stop| !(is_of_threads && is_changed(stop)))?;
        Some(stop + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::braid::takeoff::{Train, Wheels};
    use crate::braid::threads::Build;
    use crate::design::Design;
    use crate::design::demo::demo;
    use crate::design::pin::DraftPin;
    use crate::design::settings::Setting;
    use crate::edit::Edit;

    /// Lines with changes of wheels before, at and behind their stops, with stops of several changes, and with stops
    /// where wheels stay.
    fn lines() -> Vec<Design> {
        let made = |edits: &[Edit]| {
            let mut edits = edits.iter().cloned();
            edits.try_fold(demo(), |design, edit| edit.apply(&design))
        };
        let lines = [
            made(&[]),
            made(&[Edit::Build(Build::HeavierThreads)]),
            made(&[
                Edit::Build(Build::HeavierThreads),
                Edit::Train(Train::FreePair),
            ]),
            made(&[Edit::Set(Setting::LeastSpacing, 1000.0)]),
            made(&[Edit::Set(Setting::GuideRadius, 200.0)]),
        ];
        lines.map(|line| line.expect("a line")).to_vec()
    }

    fn insisting_on(design: &Design, tread: Tread, wheels: Wheels) -> Design {
        let pin = DraftPin::Wheels {
            threads: tread.level.threads,
            heavy: tread.level.heavy,
            at_m: tread.middle.metres(),
            driver: wheels.driver,
            driven: wheels.driven,
        };
        let replaces = tread.pin;
        let edit = Edit::Pin { pin, replaces };
        edit.apply(design).expect("a pin of a tread there is")
    }

    #[test]
    fn every_tread_belongs_to_one_row() {
        for design in lines() {
            let plan = Plan::of(&design);
            let mut treads: Vec<usize> = plan
                .events
                .iter()
                .filter_map(|event| plan.tread_index(event))
                .collect();
            treads.sort_unstable();
            assert!(treads.into_iter().eq(0..=plan.layout.stops.len()));
        }
    }

    #[test]
    fn wheels_insisted_on_at_a_row_are_those_of_its_tread() {
        for design in lines() {
            let (plan, choices) = (Plan::of(&design), design.take_off().choices());
            for event in &plan.events {
                let Some(index) = plan.tread_index(event) else {
                    continue;
                };
                let fitted = plan.layout.wheels[index];
                let other = choices.iter().find(|&&wheels| wheels != fitted).unwrap();
                let tread = plan.tread(event).unwrap();
                let pinned = insisting_on(&design, tread, *other);
                let layout = Plan::of(&pinned).layout;
                assert_eq!(layout.dropped_pins, []);
                assert_eq!(layout.wheels[index], *other, "{event:?}");
                assert_eq!(layout.pinned_treads[index], Some(0));
            }
        }
    }
}
