//! The stated cast: how much line is out, its loop, its speed, and what hangs on the line. It is the same for every line that is
//! compared.

use core::f64::consts::FRAC_PI_4;

use super::line::LinePiece;
use crate::base::choice::Choice;
use crate::base::rule::{Misfit, Rule, rule};
use crate::base::units::text::Unit;
use crate::base::units::{Area, Density, Length, Mass, Speed};

/// A number of the cast that the maker may set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CastNumber {
    /// Length of line beyond the rod tip.
    Outside,
    /// Height of the loop.
    LoopHeight,
    /// Speed of the upper leg of the loop when it begins to roll.
    Speed,
    /// Length of the leader, tippet and all.
    LeaderLength,
    /// Its diameter at the line.
    Butt,
    /// Its diameter at the fly.
    Tippet,
    /// How much of it is level tippet.
    TippetLength,
    /// Mass of the fly.
    FlyMass,
    /// How broad the fly is to the air.
    FlyBreadth,
}

const COUNT: usize = 9;

impl Choice for CastNumber {
    const ALL: &'static [Self] = &[
        Self::Outside,
        Self::LoopHeight,
        Self::Speed,
        Self::LeaderLength,
        Self::Butt,
        Self::Tippet,
        Self::TippetLength,
        Self::FlyMass,
        Self::FlyBreadth,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Outside => "line-out",
            Self::LoopHeight => "loop-height",
            Self::Speed => "cast-speed",
            Self::LeaderLength => "leader-length",
            Self::Butt => "leader-butt",
            Self::Tippet => "tippet",
            Self::TippetLength => "tippet-length",
            Self::FlyMass => "fly-mass",
            Self::FlyBreadth => "fly-breadth",
        }
    }

    fn name(self) -> &'static str {
        self.rule().name
    }
}

impl CastNumber {
    /// Its name, unit and range. A loop is always shorter than the line that is out.
    pub const fn rule(self) -> Rule {
        match self {
            Self::Outside => rule("line beyond the rod tip", Unit::Metre, 4.0, 40.0, 1000),
            Self::LoopHeight => rule("height of the loop", Unit::Metre, 0.2, 1.5, 1000),
            Self::Speed => rule(
                "speed of the upper leg",
                Unit::MetrePerSecond,
                4.0,
                40.0,
                100,
            ),
            Self::LeaderLength => rule("length of the leader", Unit::Metre, 0.5, 8.0, 1000),
            Self::Butt => rule(
                "leader diameter at the line",
                Unit::Millimetre,
                0.1,
                2.0,
                1000,
            ),
            Self::Tippet => rule(
                "leader diameter at the fly",
                Unit::Millimetre,
                0.05,
                1.0,
                1000,
            ),
            Self::TippetLength => rule("length of the tippet", Unit::Metre, 0.1, 3.0, 1000),
            Self::FlyMass => rule("mass of the fly", Unit::Gram, 0.005, 10.0, 1000),
            Self::FlyBreadth => rule("breadth of the fly", Unit::Millimetre, 1.0, 60.0, 10),
        }
    }

    /// What it means, and where its default comes from.
    pub const fn ground(self) -> &'static str {
        match self {
            Self::Outside => {
                "Line outside the rod tip, without the leader. A shorter line is used whole. Default: the 30 ft of the class."
            }
            Self::LoopHeight => {
                "From the lower leg to the upper one. Default: 0.6 m, a usual loop; rule of thumb, no source."
            }
            Self::Speed => {
                "Speed of the upper leg as the loop leaves the rod tip. Default: 15 m/s, a usual cast; rule of thumb, no source."
            }
            Self::LeaderLength => "With its tippet. Default: 9 ft; rule of thumb, no source.",
            Self::Butt => {
                "Where it is tied to the line. Default: 0.53 mm; rule of thumb, no source."
            }
            Self::Tippet => "Where the fly is tied on. Default: 0.18 mm; rule of thumb, no source.",
            Self::TippetLength => {
                "The level end of the leader. The rest tapers evenly. Default: 0.6 m; rule of thumb, no source."
            }
            Self::FlyMass => "Default: 0.05 g, a small dry fly; rule of thumb, no source.",
            Self::FlyBreadth => {
                "Its hackle, seen from the front. It holds the air like a disc of this breadth. Default: 8 mm; rule of thumb, no source."
            }
        }
    }

    const fn usual(self) -> f64 {
        match self {
            Self::Outside => 9.144,
            Self::LoopHeight | Self::TippetLength => 0.6,
            Self::Speed => 15.0,
            Self::LeaderLength => 2.743,
            Self::Butt => 0.53,
            Self::Tippet => 0.18,
            Self::FlyMass => 0.05,
            Self::FlyBreadth => 8.0,
        }
    }

    fn index(self) -> usize {
        Self::ALL.iter().position(|&one| one == self).unwrap_or(0)
    }
}

/// Mass per volume of a leader of nylon. Source: the usual figure of textile tables; from memory.
const NYLON: Density = Density::from_grams_per_cubic_centimetre(1.14);
/// Drag of a fly on the area of its disc. Our own choice: bluff bodies have about 1.
const FLY_DRAG: f64 = 1.0;

/// A cast, each number within its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cast([f64; COUNT]);

impl Default for Cast {
    fn default() -> Self {
        let mut values = [0.0; COUNT];
        for &number in CastNumber::ALL {
            values[number.index()] = number.usual();
        }
        Self(values)
    }
}

impl Cast {
    /// A number of it, in the unit of its rule.
    pub fn number(&self, number: CastNumber) -> f64 {
        self.0[number.index()]
    }

    /// The same cast with another number.
    ///
    /// # Errors
    /// [`Misfit`] where the number is out of its range.
    pub fn with(mut self, number: CastNumber, value: f64) -> Result<Self, Misfit> {
        self.0[number.index()] = number.rule().admit(value)?;
        Ok(self)
    }

    /// As one line of text, to keep.
    pub fn write(&self) -> String {
        let numbers: Vec<String> = self.0.iter().map(f64::to_string).collect();
        numbers.join(" ")
    }

    /// From that text; `None` where it is not such a text.
    pub fn read(text: &str) -> Option<Self> {
        let words: Vec<&str> = text.split(' ').collect();
        if words.len() != COUNT {
            return None;
        }
        let mut numbers = CastNumber::ALL.iter().zip(words);
        numbers.try_fold(Self::default(), |cast, (&number, word)| {
            cast.with(number, word.parse().ok()?).ok()
        })
    }

    /// Length of line beyond the rod tip.
    pub fn outside(&self) -> Length {
        self.metres(CastNumber::Outside)
    }

    /// Half the height of the loop.
    pub fn loop_radius(&self) -> Length {
        self.metres(CastNumber::LoopHeight) / 2.0
    }

    /// Speed of the upper leg when the loop begins to roll.
    pub fn speed(&self) -> Speed {
        Speed::from_metres_per_second(self.number(CastNumber::Speed))
    }

    /// Length of the leader.
    pub fn leader_length(&self) -> Length {
        self.metres(CastNumber::LeaderLength)
    }

    /// The leader from the fly: level tippet, then the taper to the butt. The tippet is never longer than the leader.
    pub fn leader(&self) -> Vec<LinePiece> {
        let size = |number| Length::from_millimetres(self.number(number));
        let (tippet, butt) = (size(CastNumber::Tippet), size(CastNumber::Butt));
        let whole = self.leader_length();
        let level = self.metres(CastNumber::TippetLength).min(whole);
        let mut pieces = LinePiece::solid(level, [tippet; 2], NYLON);
        if level < whole {
            pieces.extend(LinePiece::solid(whole - level, [tippet, butt], NYLON));
        }
        pieces
    }

    /// Mass of the fly.
    pub fn fly_mass(&self) -> Mass {
        Mass::from_grams(self.number(CastNumber::FlyMass))
    }

    /// Area by which the fly holds the air, its coefficient of drag in it.
    pub fn fly_drag_area(&self) -> Area {
        let breadth = Length::from_millimetres(self.number(CastNumber::FlyBreadth));
        breadth * (breadth * (FRAC_PI_4 * FLY_DRAG))
    }

    fn metres(&self, number: CastNumber) -> Length {
        Length::from_metres(self.number(number))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_again() {
        let cast = Cast::default().with(CastNumber::Speed, 18.5).unwrap();
        assert_eq!(Cast::read(&cast.write()), Some(cast));
        assert_eq!(Cast::read("1 2 3"), None);
        assert_eq!(Cast::read(&cast.write().replace("18.5", "900")), None);
    }

    #[test]
    fn every_usual_number_keeps_its_rule() {
        for &number in CastNumber::ALL {
            let usual = number.usual();
            let admitted = Cast::default().with(number, usual).unwrap();
            assert_eq!(admitted, Cast::default(), "{number:?}");
        }
    }

    #[test]
    fn a_loop_is_shorter_than_the_line_that_is_out() {
        let longest = core::f64::consts::PI * CastNumber::LoopHeight.rule().high / 2.0;
        assert!(longest < CastNumber::Outside.rule().low);
    }

    #[test]
    fn a_tippet_longer_than_the_leader_is_all_of_it() {
        let cast = Cast::default().with(CastNumber::LeaderLength, 0.5).unwrap();
        let length: Length = cast.leader().iter().map(|piece| piece.length).sum();
        assert!((length.metres() - 0.5).abs() < 1e-12);
    }
}
