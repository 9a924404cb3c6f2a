//! How good the plans of a book have been: how much heavier than planned its lines weigh, how much they differ from each other,
//! and how often the range of a plan held; each with the limits that so few lines allow.

use super::weighed::WeighedLine;
use crate::base::sample::{Sample, share_limits};
use crate::base::units::Mass;
use crate::plan::prediction::NINETY_FIVE;

/// Up to so many lines show little. Our own choice: the mean of three is known to 2.5 of their spreads, that of four to 1.6.
const FEW: u32 = 3;

/// How good the plans of a book have been.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accuracy {
    /// How much heavier than planned the lines weigh, as shares of what was planned.
    pub off: Sample,
    /// How many of them the plan gave a range.
    pub ranged: u32,
    /// How many of those weigh what is within it.
    pub held: u32,
}

impl Accuracy {
    /// That of some lines weighed; `None` without any.
    pub fn of(lines: &[WeighedLine]) -> Option<Self> {
        let offs: Vec<f64> = lines.iter().map(WeighedLine::off).collect();
        let ranged = || lines.iter().filter(|line| line.margin > Mass::ZERO);
        let is_held = |line: &&WeighedLine| (line.weighed - line.planned).abs() <= line.margin;
        let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        Some(Self {
            off: Sample::of(&offs)?,
            ranged: count(ranged().count()),
            held: count(ranged().filter(is_held).count()),
        })
    }

    /// The bias in words, which begin with whose lines they are: `Your lines weigh 1.2 % more than planned on average (between
    /// −3.1 and +5.5 %, from 4 lines).`
    pub fn bias_words(&self, whose: &str) -> String {
        let (count, off) = (self.off.count, off_words(self.off.mean));
        let Some((low, high)) = self.off.mean_limits() else {
            return format!("{whose} line weighs {off}. One line shows no spread.");
        };
        let few = if count <= FEW {
            " So few lines show little."
        } else {
            ""
        };
        format!(
            "{whose} lines weigh {off} on average (between {} and {} %, from {count} lines).{few}",
            signed(low),
            signed(high)
        )
    }

    /// The spread in words; `None` of one line.
    pub fn spread_words(&self) -> Option<String> {
        let (low, high) = self.off.deviation_limits()?;
        let [spread, low, high] = [self.off.deviation?, low, high].map(|share| 100.0 * share);
        Some(format!(
            "The spread from line to line is {spread:.1} % (between {low:.1} and {high:.1} %)."
        ))
    }

    /// The share of lines within the range of their plan; `None` where no plan gave one.
    pub fn held_share(&self) -> Option<f64> {
        (self.ranged > 0).then(|| f64::from(self.held) / f64::from(self.ranged))
    }

    /// How often the range of a plan held, in words.
    pub fn held_words(&self) -> Option<String> {
        self.held_share()?;
        let (low, high) = share_limits(self.held, self.ranged, NINETY_FIVE);
        let (heads, lines) = match self.ranged {
            1 => ("head is", "1 line allows".to_owned()),
            ranged => ("heads are", format!("{ranged} lines allow")),
        };
        Some(format!(
            "{} of {} {heads} within the range of the plan. It should hold for 95 of 100 lines; {lines} between {:.0} and {:.0}.",
            self.held,
            self.ranged,
            100.0 * low,
            100.0 * high
        ))
    }
}

/// `1.2 % more than planned`, `0.6 % less than planned`, `as planned`.
fn off_words(off: f64) -> String {
    let tenths = (1000.0 * off).round() / 10.0;
    if tenths > 0.0 {
        format!("{tenths:.1} % more than planned")
    } else if tenths < 0.0 {
        format!("{:.1} % less than planned", -tenths)
    } else {
        "as planned".to_owned()
    }
}

/// A share in percent with its sign: `+5.5`, `−3.1`, `0.0`.
fn signed(share: f64) -> String {
    let tenths = (1000.0 * share).round() / 10.0;
    if tenths > 0.0 {
        format!("+{tenths:.1}")
    } else if tenths < 0.0 {
        format!("−{:.1}", -tenths)
    } else {
        "0.0".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(offs: &[f64]) -> Vec<WeighedLine> {
        let line = |(index, off): (usize, &f64)| WeighedLine {
            index,
            planned: Mass::from_grains(140.0),
            weighed: Mass::from_grains(140.0 * (1.0 + off)),
            margin: Mass::from_grains(7.0),
        };
        offs.iter().enumerate().map(line).collect()
    }

    fn accuracy(offs: &[f64]) -> Accuracy {
        Accuracy::of(&lines(offs)).expect("there are lines")
    }

    /// Of 1 %, 2 % and 3 % the mean is 2 % and the standard deviation 1 %. With Student's t of 4.3027 at two degrees of freedom the
    /// mean is known to 4.3027/√3 = 2.484 points; with chi-squared of 0.05064 and 7.3778 the deviation is between 0.5207 and
    /// 6.2847 points. Both from any printed table (from memory).
    #[test]
    fn three_lines_give_limits_and_are_few() {
        let three = accuracy(&[0.01, 0.02, 0.03]);
        assert_eq!(
            three.bias_words("Your"),
            "Your lines weigh 2.0 % more than planned on average (between −0.5 and +4.5 %, from 3 lines). So few lines show little."
        );
        assert_eq!(
            three.spread_words().as_deref(),
            Some("The spread from line to line is 1.0 % (between 0.5 and 6.3 %).")
        );
        assert!(
            !accuracy(&[0.01, 0.02, 0.03, 0.02])
                .bias_words("Your")
                .contains("few")
        );
    }

    #[test]
    fn one_line_claims_no_spread_and_no_line_claims_nothing() {
        let one = accuracy(&[-0.012]);
        assert_eq!(
            one.bias_words("Your"),
            "Your line weighs 1.2 % less than planned. One line shows no spread."
        );
        assert_eq!(one.spread_words(), None);
        assert_eq!(Accuracy::of(&[]), None);
        assert!(
            accuracy(&[0.0001])
                .bias_words("Your")
                .contains("weighs as planned")
        );
    }

    /// The range is 5 % either way: of 1 %, 6 % and −5.1 % one head is within. Wilson's limits of 1 of 3 are 6 and 79 of 100, by
    /// hand from his formula.
    #[test]
    fn heads_within_their_range_are_counted() {
        let three = accuracy(&[0.01, 0.06, -0.051]);
        assert_eq!((three.held, three.ranged), (1, 3));
        let words = three.held_words().expect("the plans gave a range");
        assert!(words.starts_with("1 of 3 heads are within"), "{words}");
        assert!(words.ends_with("between 6 and 79."), "{words}");
    }

    /// A whole line weighed has no range: it counts for the bias alone.
    #[test]
    fn a_whole_line_has_no_range() {
        let mut whole = lines(&[0.01]);
        whole[0].margin = Mass::ZERO;
        let accuracy = Accuracy::of(&whole).expect("there is one");
        assert_eq!((accuracy.ranged, accuracy.held_words()), (0, None));
    }
}
