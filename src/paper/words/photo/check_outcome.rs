//! What became of numbers of a photo that were to be checks at the machine, where not all were written down.

use crate::paper::words::checks::check_name;
use crate::plan::run::CheckKind;

/// A photo does not say how far off a number may be, or it may be off too far.
pub const NO_ERROR: &str = "This picture is not clear enough for it. Take a sharper one.";

/// What was written down and what was not: each number of the photo with why it was refused, `None` where it was written.
pub fn check_outcome(outcomes: &[(CheckKind, Option<String>)]) -> String {
    let mut whys = outcomes.iter().map(|(_, refused)| refused.as_deref());
    if let [(_, Some(why)), _, ..] = outcomes
        && whys.all(|other| other == Some(why))
    {
        return format!("Nothing was written down. {why}");
    }
    let sentence = |(kind, refused): &(CheckKind, Option<String>)| {
        let (name, verb) = (check_name(*kind), verb(*kind));
        match refused {
            None => format!("The {name} {verb} written down."),
            Some(why) => format!("The {name} {verb} not written down. {why}"),
        }
    };
    outcomes
        .iter()
        .map(sentence)
        .collect::<Vec<String>>()
        .join(" ")
}

const fn verb(kind: CheckKind) -> &'static str {
    match kind {
        CheckKind::Crossings => "were",
        CheckKind::Angle | CheckKind::Diameter => "was",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(outcomes: &[(CheckKind, Option<&str>)]) -> String {
        let owned =
            |&(kind, refused): &(CheckKind, Option<&str>)| (kind, refused.map(str::to_owned));
        check_outcome(&outcomes.iter().map(owned).collect::<Vec<_>>())
    }

    #[test]
    fn both_outcomes_are_named() {
        let (angle, crossings) = (CheckKind::Angle, CheckKind::Crossings);
        assert_eq!(
            said(&[(angle, None), (crossings, Some("Look again."))]),
            "The braid angle was written down. The crossings along one rib were not written down. Look again."
        );
        assert_eq!(
            said(&[(angle, Some(NO_ERROR)), (crossings, Some("Look again."))]),
            format!(
                "The braid angle was not written down. {NO_ERROR} The crossings along one rib were not written down. Look again."
            )
        );
        assert_eq!(
            said(&[(angle, Some("Look again."))]),
            "The braid angle was not written down. Look again."
        );
    }

    #[test]
    fn one_reason_for_all_is_said_once() {
        let why = Some("There is no room.");
        assert_eq!(
            said(&[(CheckKind::Angle, why), (CheckKind::Crossings, why)]),
            "Nothing was written down. There is no room."
        );
    }
}
