//! How the threads of a plan lie over and under each other, by what the stepped braider did.

use taperwright::base::units::Length;
use taperwright::braid::stretch::Stretch;
use taperwright::braid::track::{Carrier, Direction, Track};

use super::compare::Braided;
use super::job::seat;

/// Sides repeat after two circuits; a float begun in these ends within as many more.
const CIRCUITS: f64 = 4.0;

impl Braided {
    /// The longest float, on every stretch and of the whole line; and the very order of sides.
    pub(super) fn interlacing_agrees(&self) {
        let stretches = self.plan.line.stretches().iter();
        let floats: Vec<usize> = stretches
            .filter_map(|stretch| self.floats_agree(stretch))
            .collect();
        let longest = floats.iter().max().copied().unwrap_or_default();
        assert_eq!(longest, self.plan.interlacings.longest_float as usize);
    }

    /// The longest float on a stretch; `None` where it is too short to show it.
    fn floats_agree(&self, stretch: &Stretch) -> Option<usize> {
        let from = stretch.from().metres();
        let to = from + 2.0 * CIRCUITS * stretch.piece.lay.metres();
        let to = to.min(stretch.to().metres());
        if self.record.circuits(from, to) < CIRCUITS {
            return None;
        }
        let seats = self.record.engaged(from).keys().copied();
        let float = |seat| longest_run(&self.record.lies_over(seat, from, to));
        let longest = seats.map(float).max()?;
        let told = self.plan.ladder.interlacing(stretch.piece.load.threads);
        assert!(told.is_sound(), "{told:?}");
        assert_eq!(longest, told.longest_float as usize, "{stretch:?}");
        self.sides_agree(from, to);
        Some(longest)
    }

    /// Over and under of three carriers, by the track's rule.
    fn sides_agree(&self, from: f64, to: f64) {
        let track = self.design.track();
        let set = self.plan.set_at(Length::from_metres(from));
        let meetings = self.record.meetings_before(from)..self.record.meetings_before(to);
        for index in [0, set.len() / 2, set.len() - 1] {
            let carrier = set[index].0;
            let told = meetings.clone().filter_map(|meeting| {
                let (clockwise, other, turn) = met(track, &set, carrier, meeting)?;
                let over = track.meeting_is_over(clockwise, other, turn);
                Some(over == (carrier.direction == Direction::Clockwise))
            });
            let seen = self.record.lies_over(seat(track, carrier), from, to);
            assert_eq!(seen, told.collect::<Vec<_>>(), "{carrier} from {from}");
            assert!(seen.len() > 12, "{carrier} crosses {} threads", seen.len());
        }
    }
}

/// Whom a carrier meets when all meet for the m-th time, if the other one is engaged: the clockwise one first, and how
/// many turns that one has done. A clockwise carrier of place i is then at its own meeting i + m. Analytic.
fn met(
    track: Track,
    set: &[(Carrier, u32)],
    carrier: Carrier,
    meeting: usize,
) -> Option<(Carrier, Carrier, u32)> {
    let meeting = u32::try_from(meeting).expect("a line has fewer than 2³² meetings");
    let (place, each_way) = (track.place(carrier), track.places_each_way());
    let other = carrier.direction.other();
    let at = |place| {
        let mut all = set.iter().map(|&(carrier, _)| carrier);
        all.find(|&met| met.direction == other && track.place(met) == place)
    };
    match carrier.direction {
        Direction::Clockwise => {
            let own = place + meeting;
            Some((carrier, at(own % each_way)?, own / each_way))
        }
        Direction::CounterClockwise => {
            let clockwise = (place + each_way - meeting % each_way) % each_way;
            let own = clockwise + meeting;
            Some((at(clockwise)?, carrier, own / each_way))
        }
    }
}

fn longest_run(sides: &[bool]) -> usize {
    let runs = sides.chunk_by(|a, b| a == b).map(<[bool]>::len);
    runs.max().unwrap_or(0)
}
