//! The words of complaints: what is wrong, and what to do.

use core::fmt;

use super::Why;
use crate::base::units::show::{angle, trimmed};
use crate::base::units::{Length, Mass};

fn grams(mass: Mass) -> String {
    format!("{} g", trimmed(mass.grams(), 3))
}

fn millimetres(length: Length) -> String {
    format!("{} mm", trimmed(length.millimetres(), 3))
}

fn metres(length: Length) -> String {
    format!("{} m", trimmed(length.metres(), 3))
}

fn plain(value: f64) -> String {
    trimmed(value, 4)
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}

impl fmt::Display for Why {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let said = self
            .about_itself()
            .or_else(|| self.about_the_machine())
            .or_else(|| self.about_the_line())
            .or_else(|| self.about_the_yarn());
        out.write_str(&said.unwrap_or_default())
    }
}

impl Why {
    fn about_itself(&self) -> Option<String> {
        Some(match self {
            Self::NotPositive(value) => format!(
                "{} cannot have been measured: it must be more than 0. Type it again, or clear the field.",
                plain(*value)
            ),
            Self::NotWhole(value) => format!(
                "{} is not a whole number. Count again, and type a whole number.",
                plain(*value)
            ),
            Self::OutOfRange { value, low, high } => format!(
                "{} is outside what there can be, {} to {}. Look again, and type it once more.",
                plain(*value),
                plain(*low),
                plain(*high)
            ),
            Self::Alone(other) => {
                format!("It says nothing without the {other}. Fill that in, or clear this field.")
            }
            Self::NoSuchCoat(coats) => format!(
                "The line was planned with {}, and this is none that dries there. Move the numbers to the coat they belong to, or clear them.",
                match coats {
                    0 => "no oil".to_owned(),
                    1 => "one coat of oil".to_owned(),
                    coats => format!("{coats} coats of oil"),
                }
            ),
            Self::NotANumber => {
                "This is not a number. Type it again, or clear the field.".to_owned()
            }
            _ => return None,
        })
    }

    fn about_the_machine(&self) -> Option<String> {
        Some(match self {
            Self::MoreThanCarriers { threads, carriers } => format!(
                "{} threads cannot run on {carriers} carriers. Count again; or, if your machine has more, set it under Settings and take that machine over into this book.",
                plain(*threads)
            ),
            Self::NoSuchGear { teeth, owned } => format!(
                "A gear of {} teeth is not among those of this book’s machine: {owned}. Correct it; or, if you own it, add it under Settings and take that machine over into this book.",
                plain(*teeth)
            ),
            Self::OnlyOneGear(teeth) => format!(
                "Of the gears of {} teeth this book’s machine has one, not two. Correct one of them; or add the second under Settings and take that machine over into this book.",
                plain(*teeth)
            ),
            Self::OtherPartner { teeth, partner } => format!(
                "{} teeth cannot be: the wheel that is never changed has {partner} on this book’s machine. Correct it; or set the wheel under Settings and take that machine over into this book.",
                plain(*teeth)
            ),
            Self::OtherSum { sum, fits } => format!(
                "Two gears with {} teeth together do not fit: a pair on this book’s machine has {fits}. Correct one of them; or set the sum under Settings and take that machine over into this book.",
                plain(*sum)
            ),
            _ => return None,
        })
    }

    fn about_the_line(&self) -> Option<String> {
        Some(match self {
            Self::OtherYarn => "This line was made of another yarn than the workshop's, so it says nothing about it. Keep it in a workshop of its own.".to_owned(),
            Self::NoDesign { is_newer: true } => "The design this line was made by was written by a newer Taperwright. Reload the page to get its newest version; nothing is lost.".to_owned(),
            Self::NoDesign { is_newer: false } => "The design this line was made by is damaged, so nothing can be learnt from the line. What was measured is kept.".to_owned(),
            Self::NoHead(missing) => format!(
                "The line is {} too short to have 30 ft to weigh. Write down the weight of the whole line instead.",
                metres(*missing)
            ),
            Self::BeyondEnd { at, length } => format!(
                "{} from the tip is beyond the end of the line, {}. Measure the place again, from the tip.",
                metres(*at),
                metres(*length)
            ),
            Self::HeadOverWhole { head, whole } => format!(
                "The first 30 ft with {} are heavier than the whole line with {}. Weigh both again; one of them may be in grains.",
                grams(*head),
                grams(*whole)
            ),
            _ => return None,
        })
    }

    fn about_the_yarn(&self) -> Option<String> {
        Some(match self {
            Self::LighterThanYarn { mass, yarn } => format!(
                "{} is less than the yarn alone weighs, {} laid straight. Weigh it again, and check length, threads and ends.",
                grams(*mass),
                grams(*yarn)
            ),
            Self::ThinnerThanYarn { diameter, yarn } => format!(
                "{} is thinner than the yarn can be, {} pressed solid. Measure again without squeezing, and check threads and ends.",
                millimetres(*diameter),
                millimetres(*yarn)
            ),
            Self::HeavierThanYarn { mass, most } => format!(
                "{} is more than this can weigh, {} with the loosest braid of all its threads. Weigh it again, in grams, and check length, threads and ends.",
                grams(*mass),
                grams(*most)
            ),
            Self::ThickerThanYarn { diameter, most } => format!(
                "{} is thicker than this yarn can make, {} braided as loosely as can be. Measure again, and check threads, ends and circuits.",
                millimetres(*diameter),
                millimetres(*most)
            ),
            Self::AngleOff {
                angle: found,
                low,
                high,
            } => format!(
                "An angle of {} does not go with this lay and diameter, which make {} to {}. Measure all three again.",
                angle(*found),
                angle(*low),
                angle(*high)
            ),
            Self::LaysApart {
                circuits,
                crossings,
            } => format!(
                "Circuits make a lay of {}, crossings one of {}. One of the two is miscounted: count again, and clear the wrong one.",
                millimetres(*circuits),
                millimetres(*crossings)
            ),
            Self::LighterThanBefore {
                earlier,
                later,
                before,
                after,
            } => format!(
                "{} the line weighs {}, {} it weighed {}. Dressing cannot make it lighter: weigh again, dry, on the same scale, and clear the wrong weight.",
                capital(&later.name()),
                grams(*after),
                earlier.name(),
                grams(*before)
            ),
            _ => return None,
        })
    }
}
