//! A plan held against its line from the stepped braider, quantity by quantity.

use taperwright::base::units::Length;
use taperwright::braid::stretch::Stretch;
use taperwright::design::Design;
use taperwright::plan::Plan;

use super::job::{job, seat};
use crate::braider::Record;

// What is left between the two is the closed form of the late angle, right to the second order in a step, and the
// braider's own step of one meeting. Each limit is a round number above the worst seen; the worst of all come from the
// line whose few gears draw a fifth more or less at once.

/// Of the whole line and of the head, as a share; 0.0002 % was seen.
const WHOLE_LIMIT: f64 = 5e-6;
/// Of the mass of a part, as a share; 0.01 % was seen, elsewhere a quarter of that.
const PART_LIMIT: f64 = 2e-4;
/// Of the thread on a bobbin, as a share; 0.002 % was seen.
const THREAD_LIMIT: f64 = 5e-5;
/// Of the circuits from one line of the schedule to the next, as a share; 0.05 % was seen, over three centimetres.
const CIRCUITS_LIMIT: f64 = 1e-3;
/// Of the angle, in degrees; 0.028° was seen.
const ANGLE_LIMIT: f64 = 0.05;
/// Of the diameter, as a share; 0.024 % was seen.
const DIAMETER_LIMIT: f64 = 5e-4;
/// Of what is counted along a rib, of which both ways are counted and the mean is taken: at either end of it one thread that just
/// passes, or just does not.
const COUNT_LIMIT: f64 = 2.0;

/// A plan, and the line that a braider makes of it.
pub(super) struct Braided {
    pub(super) design: Design,
    pub(super) plan: Plan,
    pub(super) record: Record,
}

impl Braided {
    pub(super) fn of(design: Design) -> Self {
        let plan = Plan::of(&design);
        let record = job(&design, &plan).run();
        Self {
            design,
            plan,
            record,
        }
    }

    /// Everything, each as near as it should be.
    pub(super) fn agrees(&self) {
        self.masses_agree();
        self.threads_agree();
        self.circuits_agree();
        for at in self.places() {
            self.section_agrees(at);
        }
        self.crossings_agree();
        self.interlacing_agrees();
    }

    /// Bare mass of every part, of the head, and of the whole.
    fn masses_agree(&self) {
        let plan = &self.plan;
        for weight in &plan.sections {
            let (from, to) = (weight.section.from, weight.section.to);
            let braided = self.record.mass(from.metres(), to.metres());
            let planned = plan.line.bare_mass(from, to).kilograms();
            alike("mass of a part", planned, braided, PART_LIMIT);
        }
        let whole = self.record.mass(0.0, plan.length.metres());
        alike("mass", plan.bare_mass.kilograms(), whole, WHOLE_LIMIT);
        if let Some(planned) = plan.head_bare_mass {
            let (from, to) = (plan.head.from.metres(), plan.head.to.metres());
            let braided = self.record.mass(from, to);
            alike("head", planned.kilograms(), braided, WHOLE_LIMIT);
        }
    }

    /// What is on every bobbin, less what never comes into the line: the allowance and the lead-in at the first angle.
    fn threads_agree(&self) {
        let (design, track) = (&self.design, self.design.track());
        let take_up = (1.0 + design.braiding().crimp) / self.record.angle(0.0).cos();
        let lead_in = design.lead_in().metres() * take_up;
        assert_eq!(self.plan.bobbins.len(), self.record.threads.len());
        for bobbin in &self.plan.bobbins {
            let spent = self.record.threads[&(seat(track, bobbin.carrier), bobbin.ends)];
            let allowed = design.thread_allowance().metres() * f64::from(bobbin.engagements);
            let begins = f64::from(u8::from(bobbin.enters == Length::ZERO));
            let in_the_line = bobbin.length.metres() - allowed - begins * lead_in;
            let given = spent.braided + spent.tails;
            alike("thread", in_the_line, given, THREAD_LIMIT);
        }
    }

    /// Circuits turned from each line of the schedule to the next.
    fn circuits_agree(&self) {
        for pair in self.plan.events.windows(2) {
            let (from, to) = (pair[0].at.metres(), pair[1].at.metres());
            if from == to {
                assert_eq!(pair[1].circuits, 0.0, "turned while nothing is braided");
                continue;
            }
            let counted = self.record.circuits(from, to);
            alike("circuits", pair[1].circuits, counted, CIRCUITS_LIMIT);
        }
    }

    /// Just before, at and just after everything done, on the way to the steady state after it, and all along the line.
    fn places(&self) -> Vec<Length> {
        let whole = self.plan.length;
        let along = (0_u32..400).map(|step| whole * (f64::from(step) / 400.0));
        let around = |stretch: &Stretch| {
            let (from, lag) = (stretch.from(), stretch.convergence.lag());
            let hair = Length::from_micrometres(1.0);
            let behind = [0.1, 0.3, 0.7, 1.5, 3.0].map(|lags| from + lag * lags);
            [from - hair, from, from + hair].into_iter().chain(behind)
        };
        let on_the_line = |at: &Length| *at >= Length::ZERO && *at <= whole;
        let stretches = self.plan.line.stretches().iter().flat_map(around);
        stretches.chain(along).filter(on_the_line).collect()
    }

    fn section_agrees(&self, at: Length) {
        let found = self.plan.station(at).braid;
        let braided = self.record.angle(at.metres()).to_degrees();
        near("angle", found.angle.degrees(), braided, ANGLE_LIMIT);
        let braided = self.record.diameter(at.metres());
        let found = found.diameter.metres();
        alike("diameter", found, braided, DIAMETER_LIMIT);
    }

    /// Crossings counted on two lines along the braid, where it is steady in the tip and in the belly: a thread of
    /// either way passes for each of them.
    fn crossings_agree(&self) {
        let belly = self.plan.line.stretch_at(self.plan.belly.piece.from);
        for stretch in [&self.plan.line.stretches()[0], belly] {
            let is_steady = stretch.convergence.is_steady();
            let lags = if is_steady { 0.0 } else { 7.0 };
            let (from, to) = (
                stretch.from() + stretch.convergence.lag() * lags,
                stretch.to(),
            );
            let told = stretch.steady.crossings_per_metre() * (to - from).metres();
            assert!(told > 60.0, "hardly anything to count: {told}");
            for line in [0, 5] {
                let rib = self.record.rib(line, from.metres(), to.metres());
                let counted = 0.5 * (rib.forth + rib.back) as f64;
                near("crossings", told, counted, COUNT_LIMIT);
            }
        }
    }
}

#[track_caller]
fn alike(what: &str, planned: f64, braided: f64, share: f64) {
    near(what, planned, braided, share * braided.abs());
}

#[track_caller]
fn near(what: &str, planned: f64, braided: f64, limit: f64) {
    assert!(
        (planned - braided).abs() <= limit,
        "{what}: planned {planned}, braided {braided}"
    );
}
