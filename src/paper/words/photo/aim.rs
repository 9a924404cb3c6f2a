//! What a braid is measured for, and what is written down there.

use super::degrees::degrees;
use crate::base::units::Angle;

/// What a braid is measured for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PhotoAim {
    /// For itself: the belly of the open line is what it is compared with.
    #[default]
    Line,
    /// A swatch of the book.
    Swatch,
    /// A check at the machine.
    Check,
}

impl PhotoAim {
    /// Its key.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::Swatch => "swatch",
            Self::Check => "check",
        }
    }

    /// The words of the button that uses what was measured.
    pub const fn use_words(self) -> &'static str {
        match self {
            Self::Line => "Write as a swatch",
            Self::Swatch => "Use for this swatch",
            Self::Check => "Use for this check",
        }
    }

    /// What the plan says where the braid is from.
    pub(super) fn planned(self, angle: Angle) -> String {
        let degrees = degrees(angle.radians());
        match self {
            Self::Line => {
                format!("The belly of the open line is planned to show {degrees}° there.")
            }
            Self::Swatch => format!("Your plan says {degrees}° for the belly."),
            Self::Check => format!("Your plan says {degrees}° here."),
        }
    }
}

/// What was written into a check or a swatch of this name.
pub fn written(aim: PhotoAim, name: &str, has_crossings: bool, has_picture: bool) -> String {
    let what = if has_crossings {
        "angle and crossings"
    } else {
        "the angle"
    };
    let picture = if has_picture { ", and the picture" } else { "" };
    match aim {
        PhotoAim::Line => {
            format!("{name} is in the bench book, with {what} from the photo{picture}.")
        }
        PhotoAim::Swatch => format!("{name} has {what} from the photo now{picture}."),
        PhotoAim::Check => format!("This check has {what} from the photo now."),
    }
}

/// That the picture is saved too, and how large it is; `bytes` of it.
pub fn keep_picture(bytes: usize) -> String {
    format!(
        "Save a small picture with the swatch ({:.0} kB)",
        (bytes as f64 / 1000.0).max(1.0)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_written_is_named() {
        assert_eq!(
            written(PhotoAim::Check, "", false, false),
            "This check has the angle from the photo now."
        );
        assert_eq!(
            written(PhotoAim::Swatch, "Swatch 2", true, true),
            "Swatch 2 has angle and crossings from the photo now, and the picture."
        );
        assert_eq!(
            written(PhotoAim::Line, "Swatch 3", true, false),
            "Swatch 3 is in the bench book, with angle and crossings from the photo."
        );
    }
}
