//! Line weight: the first 30 ft, and the class they make.

pub mod two_handed;

use crate::base::units::{Length, Mass};
use crate::braid::taper::{Part, Section};

/// Length whose mass decides the class. Source: AFFTA (formerly AFTMA) fly line weight standard.
pub const HEAD_LENGTH: Length = Length::from_feet(30.0);
/// Level tip left out of the weighing; a longer one counts from here on. From memory of the same standard.
pub const TIP_LEFT_OUT: Length = Length::from_inches(6.0);

/// Less than this is not missing but rounding: half of the finest step in which a position can be drawn.
const LEAST_MISSING: Length = Length::from_micrometres(50.0);

/// A class with its band, in grains.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Class {
    /// Its number.
    pub number: u8,
    /// Least mass, in grains.
    pub low: f64,
    /// Mass aimed at, in grains.
    pub target: f64,
    /// Greatest mass, in grains.
    pub high: f64,
}

const fn class(number: u8, low: f64, target: f64, high: f64) -> Class {
    Class {
        number,
        low,
        target,
        high,
    }
}

impl Class {
    /// The class of a number; `None` beyond the table.
    pub fn of_number(number: u8) -> Option<Self> {
        CLASSES.into_iter().find(|class| class.number == number)
    }

    /// The class whose target is nearest to what a head weighs; of two equally near the lighter.
    pub fn nearest(head: Mass) -> Self {
        let off = |class: Self| (Mass::from_grains(class.target) - head).abs();
        let nearer = |best, next| if off(next) < off(best) { next } else { best };
        CLASSES.into_iter().fold(CLASSES[0], nearer)
    }
}

/// The classes. Source: AFFTA fly line weight standard.
pub const CLASSES: [Class; 15] = [
    class(1, 54.0, 60.0, 66.0),
    class(2, 74.0, 80.0, 86.0),
    class(3, 94.0, 100.0, 106.0),
    class(4, 114.0, 120.0, 126.0),
    class(5, 134.0, 140.0, 146.0),
    class(6, 152.0, 160.0, 168.0),
    class(7, 177.0, 185.0, 193.0),
    class(8, 202.0, 210.0, 218.0),
    class(9, 230.0, 240.0, 250.0),
    class(10, 270.0, 280.0, 290.0),
    class(11, 318.0, 330.0, 342.0),
    class(12, 368.0, 380.0, 392.0),
    class(13, 435.0, 450.0, 465.0),
    class(14, 485.0, 500.0, 515.0),
    class(15, 535.0, 550.0, 565.0),
];

/// What the weight of the head says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// Within the band of a class.
    Within(Class),
    /// In the gap between two bands.
    Between(Class, Class),
    /// Lighter than the lightest class: this light.
    UnderFirst(Mass),
    /// Heavier than the heaviest class: this heavy.
    OverLast(Mass),
    /// The line is too short to be weighed: this much is missing.
    Missing(Length),
}

impl Verdict {
    /// The verdict on a head of this mass. A band holds its own ends.
    pub fn of(head: Mass) -> Self {
        // Compared as masses: the ends of a band and a head entered in grains are then rounded alike.
        let below = CLASSES
            .iter()
            .rposition(|class| Mass::from_grains(class.low) <= head);
        match below.map(|index| (CLASSES[index], CLASSES.get(index + 1))) {
            None => Self::UnderFirst(head),
            Some((class, _)) if head <= Mass::from_grains(class.high) => Self::Within(class),
            Some((class, Some(next))) => Self::Between(class, *next),
            Some((_, None)) => Self::OverLast(head),
        }
    }

    /// The verdict on a head that may be too short to weigh, by so much.
    pub fn on(head: Option<Mass>, missing: Option<Length>) -> Self {
        match (head, missing) {
            (_, Some(length)) => Self::Missing(length),
            (head, None) => Self::of(head.unwrap_or_default()),
        }
    }

    /// The class number, where there is one.
    pub fn number(&self) -> Option<u8> {
        match self {
            Self::Within(class) => Some(class.number),
            _ => None,
        }
    }
}

/// The stretch that is weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Head {
    /// Where weighing begins: the end of the level tip, or 6 in from the tip where that is longer.
    pub from: Length,
    /// Where it ends, 30 ft on; beyond the line's end when that is too short.
    pub to: Length,
}

impl Head {
    /// The head of a line with these sections.
    pub fn of(sections: &[Section]) -> Self {
        let tip = sections
            .first()
            .filter(|section| section.part == Part::LevelTip);
        let from = tip.map_or(Length::ZERO, |tip| tip.to.min(TIP_LEFT_OUT));
        Self {
            from,
            to: from + HEAD_LENGTH,
        }
    }

    /// How much line is missing to weigh a head, if any.
    pub fn missing(&self, line: Length) -> Option<Length> {
        let missing = self.to - line;
        (missing > LEAST_MISSING).then_some(missing)
    }
}
