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
                "{} cannot be a measurement: it must be more than 0. Type it again, or clear the field.",
                plain(*value)
            ),
            Self::NotWhole(value) => format!(
                "{} is not a whole number. Count again, and type a whole number.",
                plain(*value)
            ),
            Self::OutOfRange { value, low, high } => format!(
                "{} is not possible here: the range is {} to {}. Check it, and type it again.",
                plain(*value),
                plain(*low),
                plain(*high)
            ),
            Self::Alone(other) => {
                format!("This needs the {other} too. Fill that in, or clear this field.")
            }
            Self::NoSuchCoat(coats) => format!(
                "The line was planned with {}, and none of them dries at this step. Move the numbers to the right coat, or clear them.",
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
                "{} threads cannot run on {carriers} carriers. Count again. If your machine has more, set it under Settings and update the machine of this book.",
                plain(*threads)
            ),
            Self::NoSuchGear { teeth, owned } => format!(
                "This book’s machine has no gear of {} teeth. It has {owned}. Correct the number. If you own the gear, add it under Settings and update the machine of this book.",
                plain(*teeth)
            ),
            Self::OnlyOneGear(teeth) => format!(
                "This book’s machine has one gear of {} teeth, not two. Correct one of the numbers. Or add the second gear under Settings and update the machine of this book.",
                plain(*teeth)
            ),
            Self::OtherPartner { teeth, partner } => format!(
                "{} teeth is not possible: the fixed gear of this book’s machine has {partner}. Correct the number. Or set the gear under Settings and update the machine of this book.",
                plain(*teeth)
            ),
            Self::OtherSum { sum, fits } => format!(
                "Two gears with {} teeth together do not fit: this book’s machine needs {fits}. Correct one of the numbers. Or set the total under Settings and update the machine of this book.",
                plain(*sum)
            ),
            _ => return None,
        })
    }

    fn about_the_line(&self) -> Option<String> {
        Some(match self {
            Self::OtherYarn => "This line was made of another yarn than the workshop's, so nothing can be learnt from it here. Save it in a workshop of its own.".to_owned(),
            Self::NoDesign { is_newer: true } => "A newer Taperwright wrote the design of this line. Reload the page to get the newest version; nothing is lost.".to_owned(),
            Self::NoDesign { is_newer: false } => "The design of this line is damaged, so nothing can be learnt from the line. Your measurements are still here.".to_owned(),
            Self::NoHead(missing) => format!(
                "The line is {} too short to have 30 ft to weigh. Enter the weight of the whole line instead.",
                metres(*missing)
            ),
            Self::BeyondEnd { at, length } => format!(
                "{} from the tip is beyond the end of the line, {}. Measure the place again, from the tip.",
                metres(*at),
                metres(*length)
            ),
            Self::HeadOverWhole { head, whole } => format!(
                "The first 30 ft with {} are heavier than the whole line with {}. Weigh both again. One of them may be in grains.",
                grams(*head),
                grams(*whole)
            ),
            _ => return None,
        })
    }

    fn about_the_yarn(&self) -> Option<String> {
        Some(match self {
            Self::LighterThanYarn { mass, yarn } => format!(
                "{} is less than the yarn alone weighs: {} laid straight. Weigh again, and check length, threads and ends.",
                grams(*mass),
                grams(*yarn)
            ),
            Self::ThinnerThanYarn { diameter, yarn } => format!(
                "{} is thinner than the yarn can be: {} pressed solid. Measure again without squeezing, and check threads and ends.",
                millimetres(*diameter),
                millimetres(*yarn)
            ),
            Self::HeavierThanYarn { mass, most } => format!(
                "{} is more than this can weigh: {} with the loosest braid of all threads. Weigh again, in grams, and check length, threads and ends.",
                grams(*mass),
                grams(*most)
            ),
            Self::ThickerThanYarn { diameter, most } => format!(
                "{} is thicker than this yarn can make: {} with the loosest braid. Measure again, and check threads, ends and circuits.",
                millimetres(*diameter),
                millimetres(*most)
            ),
            Self::AngleOff {
                angle: found,
                low,
                high,
            } => format!(
                "An angle of {} does not fit this lay and diameter, which make {} to {}. Measure all three again.",
                angle(*found),
                angle(*low),
                angle(*high)
            ),
            Self::LaysApart {
                circuits,
                crossings,
            } => format!(
                "The circuits make a lay of {}, the crossings one of {}. One of them is miscounted: count again, and clear the wrong one.",
                millimetres(*circuits),
                millimetres(*crossings)
            ),
            Self::LighterThanBefore {
                earlier,
                later,
                before,
                after,
            } => format!(
                "{} the line weighs {}, {} it weighed {}. Dressing cannot make it lighter. Weigh again, dry, on the same scale, and clear the wrong weight.",
                capital(&later.name()),
                grams(*after),
                earlier.name(),
                grams(*before)
            ),
            _ => return None,
        })
    }
}
