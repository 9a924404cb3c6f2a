//! Setting up the machine for a line: what is needed, which rows apply, and their ticks.

use super::Run;
use super::setup::SetupRow;
use crate::base::units::Length;
use crate::braid::geometry::Braid;
use crate::braid::takeoff::Wheels;
use crate::braid::track::{Carrier, Track};
use crate::design::Design;
use crate::plan::{Action, Plan, Set};

/// How a machine is set up for a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// The track with its mounted carriers.
    pub track: Track,
    /// The carriers that begin, with the ends of their threads.
    pub first: Set,
    /// The bobbins that enter later, in the order in which they do.
    pub later: Vec<LaterBobbin>,
    /// Mounted carriers without a thread in the braid at the start, whether they enter later or never.
    pub idle: Vec<Carrier>,
    /// The wheels to begin with.
    pub wheels: Wheels,
    /// What is braided before the tip; nothing where the design has no lead-in.
    pub lead_in: Option<LeadIn>,
    /// The bare braid to expect there.
    pub braid: Braid,
}

/// A bobbin that is not in the braid at the start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LaterBobbin {
    /// The carrier it is for.
    pub carrier: Carrier,
    /// Ends of its thread.
    pub ends: u32,
    /// Where it first enters, from the tip.
    pub enters: Length,
    /// Whether another bobbin is on that carrier until then: this one waits beside the machine.
    pub waits: bool,
}

/// What is braided before the tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeadIn {
    /// Its length.
    pub length: Length,
    /// Carrier circuits for it.
    pub circuits: f64,
}

impl Setup {
    /// How the machine is set up for the line of a plan; `plan` is the plan of `design`.
    pub fn of(design: &Design, plan: &Plan) -> Self {
        let first = match plan.events.first().map(|event| &event.action) {
            Some(Action::Start(set)) => set.clone(),
            _ => Set::new(),
        };
        let track = design.track();
        let begins = |carrier: &Carrier| first.iter().any(|(one, _)| one == carrier);
        let idle = track.all().filter(|carrier| !begins(carrier)).collect();
        let mut later: Vec<LaterBobbin> = Vec::new();
        for bobbin in &plan.bobbins {
            let (carrier, ends) = (bobbin.carrier, bobbin.ends);
            if first.contains(&(carrier, ends)) {
                continue;
            }
            let waits = begins(&carrier) || later.iter().any(|other| other.carrier == carrier);
            later.push(LaterBobbin {
                carrier,
                ends,
                enters: bobbin.enters,
                waits,
            });
        }
        let length = design.lead_in();
        let station = plan.station(Length::ZERO);
        Self {
            track,
            first,
            later,
            idle,
            wheels: station.piece.wheels,
            lead_in: (length > Length::ZERO).then_some(LeadIn {
                length,
                circuits: plan.workload.lead_in,
            }),
            braid: station.braid,
        }
    }

    /// Whether a row applies. Without a lead-in nothing is braided before the tip that could be tried.
    pub fn has(&self, row: SetupRow) -> bool {
        match row {
            SetupRow::Guide
            | SetupRow::FirstBobbins
            | SetupRow::Tension
            | SetupRow::Thread
            | SetupRow::Gear => true,
            SetupRow::LaterBobbins => !self.later.is_empty(),
            SetupRow::IdleWeights => !self.idle.is_empty(),
            SetupRow::LeadIn | SetupRow::Push | SetupRow::Measure => self.lead_in.is_some(),
        }
    }

    /// The rows that apply, in the order of the work.
    pub fn rows(&self) -> impl Iterator<Item = SetupRow> + '_ {
        SetupRow::ALL.into_iter().filter(|&row| self.has(row))
    }

    /// How many of them a run has not ticked.
    pub fn open_rows(&self, run: &Run) -> usize {
        self.rows().filter(|row| !run.setup.contains(row)).count()
    }
}

impl Run {
    /// The run with a row of setting up ticked, or not. Ticks stay in the order of the work, each of them once.
    #[must_use]
    pub fn set_up(mut self, row: SetupRow, ticked: bool) -> Self {
        self.setup.retain(|&other| other != row);
        if ticked {
            self.setup.push(row);
        }
        self.setup.sort_unstable();
        self.setup.dedup();
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::braid::threads::Build;
    use crate::design::demo::demo;
    use crate::design::settings::Setting;

    fn setup(change: impl FnOnce(&mut crate::design::Draft)) -> Setup {
        let mut draft = demo().draft().clone();
        change(&mut draft);
        let design = Design::parse(draft).expect("the changed example is valid");
        Setup::of(&design, &Plan::of(&design))
    }

    /// The example has 16 carriers: those that do not begin are idle, and enter later.
    #[test]
    fn what_does_not_begin_is_idle() {
        let setup = setup(|_| ());
        assert_eq!(setup.first.len() + setup.idle.len(), 16);
        assert!(!setup.later.is_empty());
        assert!(setup.later.iter().all(|bobbin| !bobbin.waits));
        let rows: Vec<SetupRow> = setup.rows().collect();
        assert_eq!(rows, SetupRow::ALL);
    }

    /// Of heavier threads the second bobbin of a carrier waits beside the machine.
    #[test]
    fn a_second_bobbin_of_a_carrier_waits() {
        let setup = setup(|draft| draft.build = Build::HeavierThreads);
        let begins = |carrier| setup.first.iter().any(|(one, _)| *one == carrier);
        assert!(setup.later.iter().any(|bobbin| begins(bobbin.carrier)));
        for bobbin in &setup.later {
            assert_eq!(bobbin.waits, begins(bobbin.carrier), "{bobbin:?}");
        }
    }

    #[test]
    fn rows_that_do_not_apply_are_absent() {
        let level = setup(|draft| {
            draft.settings.set(Setting::LeadIn, 0.0);
            draft
                .points
                .iter_mut()
                .for_each(|point| point.diameter_mm = 1.155);
        });
        let rows: Vec<SetupRow> = level.rows().collect();
        let alone = [
            SetupRow::Guide,
            SetupRow::FirstBobbins,
            SetupRow::Tension,
            SetupRow::Thread,
            SetupRow::Gear,
        ];
        assert_eq!(rows, alone, "{level:?}");
    }

    #[test]
    fn ticks_are_kept_once_and_in_order() {
        let run = Run::default()
            .set_up(SetupRow::Gear, true)
            .set_up(SetupRow::Guide, true)
            .set_up(SetupRow::Gear, true);
        assert_eq!(run.setup, [SetupRow::Guide, SetupRow::Gear]);
        let setup = setup(|_| ());
        assert_eq!(setup.open_rows(&run), SetupRow::ALL.len() - 2);
        assert_eq!(run.set_up(SetupRow::Guide, false).setup, [SetupRow::Gear]);
    }
}
