//! What to ply and to wind, in words.

use super::{carrier, short};
use crate::base::units::Length;
use crate::base::units::show::{self, Units};
use crate::design::Design;
use crate::design::settings::Setting;
use crate::plan::Plan;
use crate::plan::bobbins::{Bobbin, Plying};
use crate::plan::wound::WoundState;

/// Thread of this length and more is given in kilometres.
const KILOMETRE: f64 = 1000.0;

/// The yarn as its label names it: `20/22 denier`.
pub fn yarn_label(design: &Design) -> String {
    let of = |setting| show::trimmed(design.setting(setting), 2);
    let (low, high) = (of(Setting::LabelLow), of(Setting::LabelHigh));
    if low == high {
        format!("{low} denier")
    } else {
        format!("{low}/{high} denier")
    }
}

/// What to ply as a whole: `Ply 491 m of thread, 14 ends of 20/22 denier`; of several kinds only how many there are.
pub fn to_ply(plan: &Plan, label: &str, units: Units) -> String {
    let thread = units.show_yarn(plan.yarn.thread, 0);
    match &plan.plying[..] {
        [one] => format!("Ply {thread} of thread, {} ends of {label}", one.ends),
        kinds => format!("Ply {thread} of thread, {} kinds of {label}", kinds.len()),
    }
}

/// What it takes: `7.2 km of filament, 16.9 g with waste.`
pub fn to_buy(plan: &Plan, units: Units) -> String {
    format!(
        "{} of filament, {:.1}\u{202f}g with waste.",
        filament(plan.yarn.ends, units),
        plan.yarn.bought.grams()
    )
}

/// One kind of thread of several: `8 bobbins of 14 ends: 312 m of thread, 4.6 km of filament, 10.6 g`.
pub fn plied(kind: &Plying, units: Units) -> String {
    let bobbins = match kind.bobbins {
        1 => "1 bobbin".to_owned(),
        count => format!("{count} bobbins"),
    };
    format!(
        "{bobbins} of {} ends: {} of thread, {} of filament, {:.1}\u{202f}g",
        kind.ends,
        units.show_yarn(kind.thread, 0),
        filament(kind.yarn, units),
        kind.mass.grams()
    )
}

/// A length of filament, no finer than it can be drawn off: `7.2 km`, `840 m`, `23700 ft`.
fn filament(length: Length, units: Units) -> String {
    match units {
        Units::Metric if length.metres() >= KILOMETRE => {
            format!("{:.1}\u{202f}km", length.metres() / KILOMETRE)
        }
        _ => units.show_yarn(length, 0),
    }
}

/// How many are wound: `3 of 14 bobbins wound.`
pub fn wound_count(wound: usize, all: usize) -> String {
    if wound == all {
        format!("All {all} bobbins wound.")
    } else {
        format!("{wound} of {all} bobbins wound.")
    }
}

/// When a bobbin enters: `from the tip`, `enters at 2.591 m`, `enters at 2.591 m, 2 times`.
pub fn enters(bobbin: &Bobbin, units: Units) -> String {
    let at = if bobbin.enters == Length::ZERO {
        "from the tip".to_owned()
    } else {
        format!("enters at {}", units.show_position(bobbin.enters))
    };
    match bobbin.engagements {
        0 | 1 => at,
        times => format!("{at}, {times} times"),
    }
}

/// Where a bobbin that does not hold its thread is empty.
pub fn runs_out(bobbin: &Bobbin, units: Units) -> Option<String> {
    let at = units.show_position(bobbin.runs_out?);
    Some(format!("too small: empty at {at}"))
}

/// What a tile says of the winding, apart from that it is to be done.
pub fn wound_state(state: WoundState, units: Units) -> Option<String> {
    Some(match state {
        WoundState::ToWind => return None,
        WoundState::Wound => "✓ wound".to_owned(),
        WoundState::More(more) => format!("wind {} more", units.show_yarn(more, 1)),
        WoundState::OtherEnds(ends) => format!("wound with {ends} ends: wind again"),
    })
}

/// The name of a bobbin where room is short, and as it is spoken.
pub fn bobbin_names(bobbin: &Bobbin) -> (String, String) {
    let spoken = format!("Bobbin {}", carrier(bobbin.carrier));
    (short(bobbin.carrier), spoken)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;

    #[test]
    fn what_to_ply_names_length_ends_and_label() {
        let plan = Plan::of(&demo());
        let said = to_ply(&plan, &yarn_label(&demo()), Units::Metric);
        let metres = format!("{:.0}\u{202f}m", plan.yarn.thread.metres());
        assert_eq!(
            said,
            format!("Ply {metres} of thread, 14 ends of 20/22 denier")
        );
        let said = to_buy(&plan, Units::Metric);
        let km = format!("{:.1}\u{202f}km", plan.yarn.ends.metres() / 1e3);
        assert!(said.starts_with(&km), "{said}");
    }

    #[test]
    fn every_state_but_the_plain_one_is_said() {
        let said = |state| wound_state(state, Units::Metric);
        assert_eq!(said(WoundState::ToWind), None);
        let more = said(WoundState::More(Length::from_metres(2.5)));
        assert_eq!(more.as_deref(), Some("wind 2.5\u{202f}m more"));
        let other = said(WoundState::OtherEnds(12)).expect("it is said");
        assert!(other.contains("12 ends"), "{other}");
    }
}
