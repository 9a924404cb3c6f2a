//! The machine at work.

use core::f64::consts::PI;
use std::collections::BTreeMap;

use super::record::{Record, Row};
use super::section::{Load, Section, Zone};
use super::{Job, Operation, Seat};

/// A thread on an engaged carrier.
#[derive(Clone, Copy, Debug)]
struct Thread {
    ends: u32,
    /// Thread that any carrier had given since the start of the line when this one came in, m.
    since: f64,
}

/// A tail in the core.
#[derive(Clone, Copy, Debug)]
struct Tail {
    seat: Seat,
    ends: u32,
    from: f64,
    to: f64,
}

/// The machine, and the line as far as it is braided.
pub(super) struct Braider<'a> {
    job: &'a Job,
    zone: Zone,
    load: Load,
    engaged: BTreeMap<Seat, Thread>,
    tails: Vec<Tail>,
    lay: f64,
    section: Section,
    /// The line where it forms; its `meets` tells of the last step.
    now: Row,
    /// What a carrier engaged from the start has given, m.
    given: f64,
    record: Record,
}

impl<'a> Braider<'a> {
    pub(super) fn of(job: &'a Job) -> Self {
        let engaged: BTreeMap<Seat, Thread> = (job.engaged.iter())
            .map(|&(seat, ends)| (seat, Thread { ends, since: 0.0 }))
            .collect();
        assert_eq!(engaged.len(), job.engaged.len(), "engaged twice");
        let zone = Zone::of(job);
        let load = Load::of(&job.yarn, engaged.values().map(|thread| thread.ends), 0.0);
        let lay = job.constant * job.ratio;
        let distance = zone.settled(&load, lay);
        let section = zone.section(&load, distance, 0.0);
        Self {
            job,
            zone,
            load,
            engaged,
            tails: Vec::new(),
            lay,
            section,
            now: Row::start(distance),
            given: 0.0,
            record: Record::new(&job.ring),
        }
    }

    /// Braids to the end, an operation at a time.
    pub(super) fn braid(mut self) -> Record {
        let mut operations = self.job.events.clone();
        operations.sort_by(|a, b| a.0.total_cmp(&b.0));
        operations.retain(|operation| operation.0 < self.job.length);
        for (place, operation) in operations {
            self.braid_over_tails(place);
            self.perform(operation);
        }
        self.braid_over_tails(self.job.length);
        self.finish()
    }

    /// Braids to a place, stopping wherever a tail ends on the way.
    fn braid_over_tails(&mut self, place: f64) {
        loop {
            let ends = self.tails.iter().map(|tail| tail.to);
            let stop = ends.fold(place, f64::min);
            self.braid_to(stop);
            let (over, lasting) = self.tails.iter().partition(|tail| tail.to <= stop);
            self.tails = lasting;
            self.note_tails(over);
            if stop == place {
                return;
            }
        }
    }

    /// Braids to a place with nothing changed on the way.
    fn braid_to(&mut self, place: f64) {
        if self.now.at >= place {
            return;
        }
        self.settle_load();
        self.note();
        while self.now.at < place {
            self.step(place);
            self.note();
        }
    }

    /// What is engaged, and what lies in the core, from here on.
    fn settle_load(&mut self) {
        for seat in self.engaged.keys() {
            assert!(
                self.job.ring.mounted.contains(seat),
                "{seat:?} is not mounted"
            );
        }
        let core = self.tails.iter().map(|tail| f64::from(tail.ends));
        let core = core.sum::<f64>() * self.job.yarn.end;
        let ends = self.engaged.values().map(|thread| thread.ends);
        self.load = Load::of(&self.job.yarn, ends, core);
        self.section = self.cut(self.now.distance);
        let engaged = (self.engaged.iter())
            .map(|(&seat, thread)| (seat, thread.ends))
            .collect();
        self.record.change(self.now.at, engaged);
    }

    fn cut(&self, distance: f64) -> Section {
        self.zone.section(&self.load, distance, self.section.radius)
    }

    /// On to the next meeting, or to `place` if that comes first.
    fn step(&mut self, place: f64) {
        let meeting = self.now.meetings.floor() + 1.0;
        let whole = meeting - self.now.meetings;
        let room = place - self.now.at;
        let middle = self.middle(whole);
        if self.formed(&middle, whole) < room {
            self.take(&middle, whole);
            (self.now.meetings, self.now.meets) = (meeting, true);
        } else {
            // The part of a meeting that just reaches the place; the braid forms almost evenly within it.
            let mut part = whole;
            for _ in 0..3 {
                part *= room / self.formed(&self.middle(part), part);
            }
            self.take(&self.middle(part), part);
            self.now.meetings = (self.now.meetings + part).min(meeting);
            (self.now.at, self.now.meets) = (place, self.now.meetings == meeting);
        }
        self.section = self.cut(self.now.distance);
    }

    /// The braid half-way through a part of a meeting: the midpoint rule, whose error falls with the square of the step.
    fn middle(&self, part: f64) -> Section {
        let gain = self.drawn(part) - self.formed(&self.section, part);
        self.cut(self.now.distance + 0.5 * gain)
    }

    fn drawn(&self, part: f64) -> f64 {
        part * self.lay / self.job.ring.places() as f64
    }

    fn formed(&self, section: &Section, part: f64) -> f64 {
        part * section.advance * 2.0 * PI / self.job.ring.places() as f64
    }

    fn take(&mut self, section: &Section, part: f64) {
        let (drawn, formed) = (self.drawn(part), self.formed(section, part));
        assert!(formed > 0.0, "no braid forms");
        self.now.at += formed;
        self.now.drawn += drawn;
        self.now.distance += drawn - formed;
        self.now.mass += section.density * formed;
        self.given += section.take_up * formed;
    }

    fn note(&mut self) {
        self.now.angle = self.section.angle;
        self.now.diameter = self.section.diameter;
        self.record.rows.push(self.now);
        if core::mem::take(&mut self.now.meets) {
            self.record.met.push(self.now.at);
        }
    }

    fn perform(&mut self, operation: Operation) {
        match operation {
            Operation::Engage { seat, ends } => self.engage(seat, ends),
            Operation::Drop { seat, tail } => self.disengage(seat, tail),
            Operation::Swap { seat, ends, tail } => {
                self.disengage(seat, tail);
                self.engage(seat, ends);
            }
            Operation::Fit { ratio } => self.lay = self.job.constant * ratio,
        }
    }

    fn engage(&mut self, seat: Seat, ends: u32) {
        let since = self.given;
        let before = self.engaged.insert(seat, Thread { ends, since });
        assert!(before.is_none(), "{seat:?} is engaged already");
    }

    fn disengage(&mut self, seat: Seat, length: f64) {
        let thread = self.engaged.remove(&seat).expect("it is engaged");
        self.note_thread(seat, thread);
        let from = self.now.at;
        self.tails.push(Tail {
            seat,
            ends: thread.ends,
            from,
            to: from + length,
        });
    }

    fn note_thread(&mut self, seat: Seat, thread: Thread) {
        let spent = self.record.threads.entry((seat, thread.ends)).or_default();
        spent.braided += self.given - thread.since;
    }

    /// Tails end with the line if not before.
    fn note_tails(&mut self, tails: Vec<Tail>) {
        for tail in tails {
            let spent = self.record.threads.entry((tail.seat, tail.ends));
            spent.or_default().tails += tail.to.min(self.job.length) - tail.from;
        }
    }

    fn finish(mut self) -> Record {
        for (seat, thread) in core::mem::take(&mut self.engaged) {
            self.note_thread(seat, thread);
        }
        let tails = core::mem::take(&mut self.tails);
        self.note_tails(tails);
        self.record
    }
}
