//! Gear intervals: the parts of the line between two stops, each braided with its own wheels, and the rows of the schedule they
//! belong to. Wheels pinned at a row are pinned for its interval.

use super::contents::Plan;
use super::event::{Action, Event};
use crate::base::units::Length;
use crate::braid::threads::Level;
use crate::plan::layout::stops::Stop;

/// A stretch of line between two stops for threads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GearInterval {
    /// Its level.
    pub level: Level,
    /// Its middle, from the tip.
    pub middle: Length,
    /// The pin that holds its wheels, by its place in the design's list.
    pub pin: Option<usize>,
}

impl Plan {
    /// The interval whose wheels a row of this plan's schedule decides. The start decides those of the first interval, a change of
    /// wheels those of the interval it is made for, and where wheels stay the last change of threads at a stop those after it.
    /// `None` for all other rows, so that every interval belongs to one row.
    pub fn gear_interval(&self, event: &Event) -> Option<GearInterval> {
        let index = self.interval_index(event)?;
        let layout = &self.layout;
        let before = index.checked_sub(1).map(|before| &layout.stops[before]);
        let from = before.map_or(Length::ZERO, |stop| stop.at);
        let to = layout.stops.get(index).map_or(self.length, |stop| stop.at);
        let level = before.map_or(layout.first, Stop::after);
        Some(GearInterval {
            level: *self.supply.levels().get(level)?,
            middle: (from + to) / 2.0,
            pin: layout.pinned_intervals.get(index).copied().flatten(),
        })
    }

    fn interval_index(&self, event: &Event) -> Option<usize> {
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

    /// Lines with changes of wheels before, at and after their stops, with stops of several changes, and with stops
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

    fn pinning(design: &Design, interval: GearInterval, wheels: Wheels) -> Design {
        let pin = DraftPin::Wheels {
            threads: interval.level.threads,
            heavy: interval.level.heavy,
            at_m: interval.middle.metres(),
            driver: wheels.driver,
            driven: wheels.driven,
        };
        let replaces = interval.pin;
        let edit = Edit::Pin { pin, replaces };
        edit.apply(design).expect("a pin of an interval there is")
    }

    #[test]
    fn every_interval_belongs_to_one_row() {
        for design in lines() {
            let plan = Plan::of(&design);
            let mut intervals: Vec<usize> = plan
                .events
                .iter()
                .filter_map(|event| plan.interval_index(event))
                .collect();
            intervals.sort_unstable();
            assert!(intervals.into_iter().eq(0..=plan.layout.stops.len()));
        }
    }

    #[test]
    fn wheels_pinned_at_a_row_are_those_of_its_interval() {
        for design in lines() {
            let (plan, choices) = (Plan::of(&design), design.take_off().choices());
            for event in &plan.events {
                let Some(index) = plan.interval_index(event) else {
                    continue;
                };
                let fitted = plan.layout.wheels[index];
                let other = choices.iter().find(|&&wheels| wheels != fitted).unwrap();
                let interval = plan.gear_interval(event).unwrap();
                let pinned = pinning(&design, interval, *other);
                let replanned = Plan::of(&pinned);
                let layout = &replanned.layout;
                assert_eq!(layout.dropped_pins, []);
                // Other wheels can leave out a swelling before it, so its index may change; its level does not.
                let held = layout
                    .pinned_intervals
                    .iter()
                    .position(|pin| *pin == Some(0));
                let held = held.expect("the pin holds an interval");
                assert_eq!(layout.wheels[held], *other, "{event:?}");
                let its_level = match held.checked_sub(1) {
                    Some(before) => layout.stops[before].after(),
                    None => layout.first,
                };
                assert_eq!(replanned.supply.levels()[its_level], interval.level);
            }
        }
    }
}
