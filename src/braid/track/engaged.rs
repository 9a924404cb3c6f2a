//! Which carriers are engaged.

use super::carrier::{Carrier, Direction};

/// A set of engaged carriers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Engaged {
    /// Bit `n` for carrier number `n`: clockwise, counter-clockwise.
    sets: [u64; 2],
}

impl Engaged {
    /// The set of these carriers, whose numbers are at most 63.
    pub fn from_carriers(carriers: &[Carrier]) -> Self {
        carriers
            .iter()
            .fold(Self::default(), |set, &carrier| set.with(carrier))
    }

    /// The set with one carrier more.
    #[must_use]
    pub fn with(mut self, carrier: Carrier) -> Self {
        self.sets[carrier.direction as usize] |= 1 << carrier.number;
        self
    }

    /// Whether the carrier is in the set.
    pub fn holds(&self, carrier: Carrier) -> bool {
        self.of(carrier.direction) >> carrier.number & 1 == 1
    }

    /// How many carriers run that way.
    pub fn count(&self, direction: Direction) -> u32 {
        self.of(direction).count_ones()
    }

    /// The carriers, clockwise ones first, each direction in track order.
    pub fn carriers(self) -> impl Iterator<Item = Carrier> {
        Direction::BOTH.into_iter().flat_map(move |direction| {
            bits(self.of(direction)).map(move |number| Carrier { direction, number })
        })
    }

    /// The carriers of one direction, bit `n` for number `n`.
    pub(crate) const fn of(&self, direction: Direction) -> u64 {
        self.sets[direction as usize]
    }

    /// The set of these numbers, clockwise and counter-clockwise.
    pub(crate) const fn of_numbers(sets: [u64; 2]) -> Self {
        Self { sets }
    }
}

/// The numbers of the bits that are set, ascending.
pub(crate) fn bits(mut word: u64) -> impl Iterator<Item = u32> {
    core::iter::from_fn(move || {
        let lowest = (word != 0).then(|| word.trailing_zeros())?;
        word &= word - 1;
        Some(lowest)
    })
}
