//! Bobbins: how much thread each carrier gives to the line, whether it fits, and what to ply.

use crate::base::units::{Density, Length, LinearDensity, Mass};
use crate::braid::bobbin::BobbinSize;
use crate::braid::stretch::BraidedLine;
use crate::braid::threads::Supply;
use crate::braid::track::Carrier;
use crate::plan::event::{Action, Event};

/// What one bobbin must hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bobbin {
    /// The carrier it sits on.
    pub carrier: Carrier,
    /// Ends plied to its thread.
    pub ends: u32,
    /// How often it is engaged along the line.
    pub engagements: u32,
    /// Where it first enters, from the tip.
    pub enters: Length,
    /// Thread to wind on, allowance and tails included.
    pub length: Length,
    /// What of that is allowance: thread for leading in and waste, which the line itself does not take.
    pub allowance: Length,
    /// Its mass.
    pub mass: Mass,
    /// Where along the line it would be empty, when it does not hold all that.
    pub runs_out: Option<Length>,
}

/// Threads of one kind to ply.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plying {
    /// Ends in the thread.
    pub ends: u32,
    /// Bobbins to wind of it.
    pub bobbins: u32,
    /// Thread on them together.
    pub thread: Length,
    /// Filament end to take from the cones, allowance for plying included.
    pub yarn: Length,
    /// Its mass, as braided.
    pub mass: Mass,
}

/// What winding is calculated from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Winding<'a> {
    /// The line braided.
    pub line: &'a BraidedLine,
    /// The threads there are.
    pub supply: Supply,
    /// Mass per length of one filament end.
    pub end: LinearDensity,
    /// Density of the fibre.
    pub density: Density,
    /// The machine's bobbins.
    pub size: BobbinSize,
    /// Thread for leading in and waste, for each engagement.
    pub allowance: Length,
    /// Length braided before the tip.
    pub lead_in: Length,
    /// Length over which tails are buried.
    pub tail: Length,
    /// More yarn for plying, as a share.
    pub plying: f64,
}

/// One time a bobbin is engaged.
#[derive(Clone, Copy)]
struct Engagement {
    carrier: Carrier,
    ends: u32,
    from: Length,
    to: Length,
    tail: Length,
}

impl Winding<'_> {
    /// The bobbins, in the order in which they enter.
    ///
    /// Thread on a bobbin is the sum over its engaged stretches of line length times take-up, the tails it leaves, and an
    /// allowance for each engagement; those engaged at the tip also give the lead-in.
    pub fn bobbins(&self, events: &[Event]) -> Vec<Bobbin> {
        let engagements = engagements(events, self);
        let mut bobbins: Vec<Bobbin> = Vec::new();
        for engagement in &engagements {
            let place = bobbins
                .iter()
                .position(|bobbin| engagement.is_of(bobbin))
                .unwrap_or_else(|| {
                    bobbins.push(Bobbin::empty(engagement));
                    bobbins.len() - 1
                });
            let bobbin = &mut bobbins[place];
            let holds = self.holds(bobbin.ends);
            self.wind(bobbin, engagement, holds);
        }
        bobbins
    }

    /// Where along the line a bobbin would be empty that has so much thread on it; `None` where it has enough.
    pub fn runs_out(&self, events: &[Event], bobbin: &Bobbin, has: Length) -> Option<Length> {
        let mut engagements = engagements(events, self);
        engagements.retain(|engagement| engagement.is_of(bobbin));
        let mut wound = Bobbin::empty(engagements.first()?);
        for engagement in &engagements {
            self.wind(&mut wound, engagement, has);
        }
        wound.runs_out
    }

    /// What to ply, each kind of thread by itself, the lightest first.
    pub fn plying(&self, bobbins: &[Bobbin]) -> Vec<Plying> {
        let mut kinds: Vec<u32> = bobbins.iter().map(|bobbin| bobbin.ends).collect();
        kinds.sort_unstable();
        kinds.dedup();
        let ply = |ends: u32| {
            let of_kind = || bobbins.iter().filter(move |bobbin| bobbin.ends == ends);
            let thread: Length = of_kind().map(|bobbin| bobbin.length).sum();
            let yarn = thread * (f64::from(ends) * (1.0 + self.plying));
            Plying {
                ends,
                bobbins: u32::try_from(of_kind().count()).unwrap_or(u32::MAX),
                thread,
                yarn,
                mass: yarn * self.end,
            }
        };
        kinds.into_iter().map(ply).collect()
    }

    /// Mass per length of a thread of so many ends.
    fn thread(&self, ends: u32) -> LinearDensity {
        self.end * f64::from(ends)
    }

    /// Length of a thread of so many ends that a full bobbin holds.
    fn holds(&self, ends: u32) -> Length {
        let capacity = self.size.capacity(self.density).kilograms();
        Length::from_metres(capacity / self.thread(ends).kilograms_per_metre())
    }

    /// Winds on what one engagement takes, and notes where a bobbin that holds so much would be empty. The allowance is taken
    /// as spent when the thread is led in, so that a bobbin said to suffice does.
    fn wind(&self, bobbin: &mut Bobbin, engagement: &Engagement, holds: Length) {
        let before = bobbin.length + self.allowance + self.lead_in_of(engagement);
        let braided = self.line.thread(engagement.from, engagement.to);
        bobbin.engagements += 1;
        bobbin.allowance += self.allowance;
        bobbin.length = before + braided + engagement.tail;
        bobbin.mass = bobbin.length * self.thread(bobbin.ends);
        if bobbin.runs_out.is_none() && bobbin.length > holds {
            let left = (holds - before).max(Length::ZERO);
            let empty = self.line.place_after_thread(engagement.from, left);
            bobbin.runs_out = Some(empty.unwrap_or(engagement.to).min(engagement.to));
        }
    }

    fn lead_in_of(&self, engagement: &Engagement) -> Length {
        if engagement.from == Length::ZERO {
            self.lead_in * self.line.stretches()[0].steady.take_up
        } else {
            Length::ZERO
        }
    }

    fn tail_at(&self, at: Length) -> Length {
        self.tail.min(self.line.length() - at)
    }
}

impl Engagement {
    /// Whether it takes its thread from this bobbin.
    fn is_of(&self, bobbin: &Bobbin) -> bool {
        (self.carrier, self.ends) == (bobbin.carrier, bobbin.ends)
    }
}

impl Bobbin {
    /// What the line itself takes of it: braided, tails and lead-in, without the allowance.
    pub fn takes(&self) -> Length {
        self.length - self.allowance
    }

    /// Mass per length of its thread; zero where it has none.
    pub fn linear_density(&self) -> LinearDensity {
        let per_metre = self.mass.kilograms() / self.length.metres();
        LinearDensity::from_kilograms_per_metre(if per_metre.is_finite() {
            per_metre
        } else {
            0.0
        })
    }

    /// Length of its thread that weighs so much; `None` where no mass and length of it are planned to compare with.
    pub fn length_of(&self, mass: Mass) -> Option<Length> {
        let length = self.length * (mass / self.mass);
        let is_planned = self.mass > Mass::ZERO && self.length > Length::ZERO;
        (is_planned && length.is_finite() && mass >= Mass::ZERO).then_some(length)
    }

    /// Nothing wound on yet.
    fn empty(engagement: &Engagement) -> Self {
        Self {
            carrier: engagement.carrier,
            ends: engagement.ends,
            engagements: 0,
            enters: engagement.from,
            length: Length::ZERO,
            allowance: Length::ZERO,
            mass: Mass::ZERO,
            runs_out: None,
        }
    }
}

/// Every engagement, in the order in which they begin.
fn engagements(events: &[Event], winding: &Winding<'_>) -> Vec<Engagement> {
    let mut all: Vec<Engagement> = Vec::new();
    let begin = |all: &mut Vec<Engagement>, carrier, ends, from| {
        all.push(Engagement {
            carrier,
            ends,
            from,
            to: winding.line.length(),
            tail: Length::ZERO,
        });
    };
    let end = |all: &mut Vec<Engagement>, carrier, at| {
        let open = all
            .iter_mut()
            .rev()
            .find(|engagement| engagement.carrier == carrier);
        if let Some(engagement) = open {
            engagement.to = at;
            engagement.tail = winding.tail_at(at);
        }
    };
    for event in events {
        match &event.action {
            Action::Start(set) => {
                for &(carrier, ends) in set {
                    begin(&mut all, carrier, ends, event.at);
                }
            }
            Action::Add { carrier, ends } => begin(&mut all, *carrier, *ends, event.at),
            Action::Drop { carrier, .. } => end(&mut all, *carrier, event.at),
            Action::Swap { carrier, to, .. } => {
                end(&mut all, *carrier, event.at);
                begin(&mut all, *carrier, *to, event.at);
            }
            Action::Gear { .. } | Action::End(_) => {}
        }
    }
    all
}
