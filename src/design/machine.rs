//! The machine as a maker describes it: horn gears, slots, and the places that bear a carrier.

use super::draft::Draft;
use super::settings::Setting;
use crate::base::choice::Choice;
use crate::braid::track::{Direction, NoTrack, Pattern, Track};

pub use super::mounted::Mounted;

/// Machines that are met often, ready to choose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadyMade {
    /// Sixteen carriers on eight horn gears of four slots.
    SixteenRegular,
    /// Sixteen carriers on sixteen horn gears of two slots.
    SixteenDiamond,
    /// Sixteen carriers on every second place of a ring for thirty-two.
    SixteenOfThirtyTwo,
    /// Eight carriers on eight horn gears of two slots.
    EightDiamond,
    /// Eight carriers on every second place of a ring for sixteen.
    EightOfSixteen,
    /// Twelve carriers on six horn gears of four slots.
    TwelveRegular,
    /// Twenty-four carriers on twelve horn gears of four slots.
    TwentyFourRegular,
    /// Twenty-four carriers on eight horn gears of six slots.
    TwentyFourHercules,
    /// Thirty-two carriers on sixteen horn gears of four slots.
    ThirtyTwoRegular,
    /// Any other.
    Other,
}

impl Choice for ReadyMade {
    const ALL: &'static [Self] = &[
        Self::SixteenRegular,
        Self::SixteenDiamond,
        Self::SixteenOfThirtyTwo,
        Self::EightDiamond,
        Self::EightOfSixteen,
        Self::TwelveRegular,
        Self::TwentyFourRegular,
        Self::TwentyFourHercules,
        Self::ThirtyTwoRegular,
        Self::Other,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::SixteenRegular => "16-regular",
            Self::SixteenDiamond => "16-diamond",
            Self::SixteenOfThirtyTwo => "16-of-32",
            Self::EightDiamond => "8-diamond",
            Self::EightOfSixteen => "8-of-16",
            Self::TwelveRegular => "12-regular",
            Self::TwentyFourRegular => "24-regular",
            Self::TwentyFourHercules => "24-hercules",
            Self::ThirtyTwoRegular => "32-regular",
            Self::Other => "other",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::SixteenRegular => "16 carriers, regular",
            Self::SixteenDiamond => "16 carriers, diamond",
            Self::SixteenOfThirtyTwo => "16 carriers on every second of 32 places",
            Self::EightDiamond => "8 carriers, diamond",
            Self::EightOfSixteen => "8 carriers on every second of 16 places",
            Self::TwelveRegular => "12 carriers, regular",
            Self::TwentyFourRegular => "24 carriers, regular",
            Self::TwentyFourHercules => "24 carriers, Hercules",
            Self::ThirtyTwoRegular => "32 carriers, regular",
            Self::Other => "another, set by its values",
        }
    }
}

impl ReadyMade {
    /// Horn gears, the pattern at full load, and which one in how many places is mounted. `None` for any other.
    const fn ring(self) -> Option<(u32, Pattern, u32)> {
        Some(match self {
            Self::SixteenRegular => (8, Pattern::Regular, 1),
            Self::SixteenDiamond => (16, Pattern::Diamond, 1),
            Self::SixteenOfThirtyTwo => (16, Pattern::Regular, 2),
            Self::EightDiamond => (8, Pattern::Diamond, 1),
            Self::EightOfSixteen => (8, Pattern::Regular, 2),
            Self::TwelveRegular => (6, Pattern::Regular, 1),
            Self::TwentyFourRegular => (12, Pattern::Regular, 1),
            Self::TwentyFourHercules => (8, Pattern::Hercules, 1),
            Self::ThirtyTwoRegular => (16, Pattern::Regular, 1),
            Self::Other => return None,
        })
    }

    /// Which of them a draft's machine is.
    pub fn of(draft: &Draft) -> Self {
        let horn_gears = Setting::HornGears
            .rule()
            .quanta(draft.settings.get(Setting::HornGears));
        let is_it = |ready: &Self| {
            ready.ring().is_some_and(|(gears, pattern, every)| {
                let each_way = gears * pattern.slots() / 4;
                gears == horn_gears
                    && pattern == draft.pattern
                    && Mounted::every(every, each_way) == draft.mounted
            })
        };
        Self::ALL.iter().copied().find(is_it).unwrap_or(Self::Other)
    }

    /// Puts this machine into a draft; any other leaves it as it is.
    pub(crate) fn put_into(self, draft: &mut Draft) {
        let Some((gears, pattern, every)) = self.ring() else {
            return;
        };
        draft.pattern = pattern;
        draft.settings.set(Setting::HornGears, f64::from(gears));
        draft.mounted = Mounted::every(every, gears * pattern.slots() / 4);
        keep_threads_within(draft);
    }
}

/// Brings a ring to the nearest that exists with every place mounted, and the threads within its carriers.
pub(crate) fn mount_every_place(draft: &mut Draft) {
    let wish = Setting::HornGears
        .rule()
        .quanta(draft.settings.get(Setting::HornGears));
    let gears = Track::nearest_horn_gears(wish, draft.pattern.slots());
    draft.settings.set(Setting::HornGears, f64::from(gears));
    draft.mounted = Mounted::default();
    keep_threads_within(draft);
}

/// The track of a draft whose settings are on their steps.
pub(super) fn track_of(draft: &Draft) -> Result<Track, NoTrack> {
    let horn_gears = Setting::HornGears
        .rule()
        .quanta(draft.settings.get(Setting::HornGears));
    let slots = draft.pattern.slots();
    let set = |direction| {
        let places = draft.mounted.of(direction);
        if places.is_empty() {
            return Ok(None);
        }
        let each_way = horn_gears * slots / 4;
        let bit = |bits: u64, &place: &u32| {
            let bit = 1_u64.checked_shl(place).filter(|_| place < each_way);
            bit.map(|bit| bits | bit)
                .ok_or(NoTrack::PlaceOffTrack(direction, place))
        };
        places.iter().try_fold(0, bit).map(Some)
    };
    let ways = [
        set(Direction::Clockwise)?,
        set(Direction::CounterClockwise)?,
    ];
    let every = every_place(horn_gears, slots);
    Track::with_mounted(horn_gears, slots, ways.map(|way| way.unwrap_or(every)))
}

/// Every place of one direction; the ring itself is checked by the track.
fn every_place(horn_gears: u32, slots: u32) -> u64 {
    let each_way = horn_gears * slots / 4;
    1_u64
        .checked_shl(each_way)
        .map_or(u64::MAX, |above| above - 1)
}

/// After a change of machine the line uses as many threads as run balanced, and begins with no more than that.
pub(crate) fn keep_threads_within(draft: &mut Draft) {
    let Ok(track) = track_of(draft) else {
        return;
    };
    let most = f64::from(track.most_threads());
    draft.settings.set(Setting::MostThreads, most);
    let fewest = draft.settings.get(Setting::FewestThreads);
    draft.settings.set(Setting::FewestThreads, fewest.min(most));
}
