//! Why a picture cannot be measured.

use super::degrees::degrees_off;
use crate::base::units::show::trimmed;
use crate::photo::PhotoRefusal;

/// Why a picture cannot be measured, and what to do.
pub fn refusal(why: &PhotoRefusal) -> String {
    match *why {
        PhotoRefusal::TooSmall => {
            "The picture has too few pixels. Take one with the camera, in its full size.".to_owned()
        }
        PhotoRefusal::NoBand => "No line across the picture was found. Lay it from side to side on a plain ground. Or drag the blue lines onto its edges.".to_owned(),
        PhotoRefusal::BadEdges => {
            "The blue lines are not the two edges of a line. Drag one onto each edge.".to_owned()
        }
        PhotoRefusal::TooDark => {
            "The line is nearly black in this picture. Give it more light, from the side.".to_owned()
        }
        PhotoRefusal::TooBright => {
            "The line is nearly white in this picture. Give it less light, and tap on the line first.".to_owned()
        }
        PhotoRefusal::TooThin { diameter, needed } => format!(
            "The line is {} thick in this picture; it needs {}. Go closer.",
            pixels(diameter.floor()),
            whole(needed.ceil())
        ),
        PhotoRefusal::TooShort { diameters, needed } => format!(
            "The picture shows too little of the line: {} times its thickness. Show at least {} times its thickness.",
            trimmed((diameters * 10.0).floor() / 10.0, 1),
            trimmed((needed * 10.0).ceil() / 10.0, 1)
        ),
        PhotoRefusal::ThreadsTooSmall { thread, needed } => format!(
            "A thread has {} in this picture; it needs {}. Go closer.",
            pixels(thread.floor()),
            whole(needed.ceil())
        ),
        PhotoRefusal::Blurred => "The threads have no clear edges. Hold the camera still, tap on the line, and give it more light.".to_owned(),
        PhotoRefusal::NotTwoFamilies => "No threads that lean one way and the other were found. Turn the line until the braid is clear to see.".to_owned(),
        PhotoRefusal::Askew => "Threads that lean one way are far steeper than the others. Show the whole width of the line, and check its edges.".to_owned(),
        PhotoRefusal::OtherCount { threads, seen } => format!(
            "The picture does not look like {threads} threads, but like {seen}. Check the count below, and the edges."
        ),
        PhotoRefusal::CountUnsure { threads, other } => format!(
            "The braid may have {threads} threads or {other}, and the angle depends on it. Type the count below."
        ),
        PhotoRefusal::Unsure { error } => format!(
            "The parts of this picture do not agree: the angle is known to ± {}° only. Take a sharper one.",
            degrees_off(error)
        ),
    }
}

fn whole(number: f64) -> String {
    format!("{number:.0}")
}

fn pixels(count: f64) -> String {
    let word = if count == 1.0 { "pixel" } else { "pixels" };
    format!("{count:.0} {word}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refusal_says_what_to_do_with_its_numbers() {
        let said = refusal(&PhotoRefusal::ThreadsTooSmall {
            thread: 4.4,
            needed: 6.0,
        });
        assert_eq!(
            said,
            "A thread has 4 pixels in this picture; it needs 6. Go closer."
        );
        let said = refusal(&PhotoRefusal::TooThin {
            diameter: 1.2,
            needed: 39.5,
        });
        assert_eq!(
            said,
            "The line is 1 pixel thick in this picture; it needs 40. Go closer."
        );
        let said = refusal(&PhotoRefusal::TooShort {
            diameters: 2.97,
            needed: 3.0,
        });
        assert_eq!(
            said,
            "The picture shows too little of the line: 2.9 times its thickness. Show at least 3 times its thickness."
        );
        let said = refusal(&PhotoRefusal::Unsure {
            error: 6.0_f64.to_radians(),
        });
        assert!(said.contains("± 6.0°"), "{said}");
        let others = [
            PhotoRefusal::TooSmall,
            PhotoRefusal::NoBand,
            PhotoRefusal::BadEdges,
            PhotoRefusal::TooDark,
            PhotoRefusal::TooBright,
            PhotoRefusal::Blurred,
            PhotoRefusal::NotTwoFamilies,
            PhotoRefusal::Askew,
            PhotoRefusal::OtherCount {
                threads: 16,
                seen: 12,
            },
            PhotoRefusal::CountUnsure {
                threads: 8,
                other: 12,
            },
        ];
        for why in others {
            let said = refusal(&why);
            // The fault, then what to do.
            assert!(
                said.matches(". ").count() >= 1 && said.ends_with('.'),
                "{said}"
            );
        }
    }
}
