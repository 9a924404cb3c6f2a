//! What is said of a measured line.

use super::changes_in_all;
use crate::base::units::show::{self, Units};
use crate::design::Design;
use crate::measured::{FoundTaper, MadeOf, Material, Reading, Trust};
use crate::paper::figures::verdict_words;
use crate::plan::Plan;

/// What was found in these readings: how many points, how far the readings scatter, and which are not used.
pub fn found(found: &FoundTaper, readings: &[Reading]) -> String {
    let out = || {
        let all = readings.iter().zip(&found.left_out);
        all.filter(|(_, is_out)| **is_out).map(|(one, _)| one)
    };
    let ends = [readings.first(), readings.last()].map(|end| end.map(|one| one.at));
    let by_maker = out().filter(|one| one.trust == Trust::LeftOut).count();
    let judged = || out().filter(|one| one.trust != Trust::LeftOut);
    let at_end = judged().filter(|one| ends.contains(&Some(one.at))).count();
    let contradicted = judged().count() - at_end;
    let counted = |count: usize| match count {
        1 => "1 reading".to_owned(),
        count => format!("{count} readings"),
    };
    let is = |count: usize| if count == 1 { "is" } else { "are" };
    let mut said = vec![format!(
        "{} points fit {}. The scatter of a reading is taken as {:.0} µm.",
        found.points.len(),
        counted(readings.len() - out().count()),
        found.scatter.metres() * 1e6
    )];
    if found.is_mirrored {
        said.push("Both ends are alike, as in a double taper.".to_owned());
    }
    if contradicted > 0 {
        said.push(format!(
            "{} {} left out: the others contradict.",
            counted(contradicted),
            is(contradicted)
        ));
    }
    if at_end > 0 {
        said.push(format!(
            "{} at an end {} not used until more readings beside confirm it.",
            counted(at_end),
            is(at_end)
        ));
    }
    if by_maker > 0 {
        said.push(format!(
            "{} {} left out by you.",
            counted(by_maker),
            is(by_maker)
        ));
    }
    said.join(" ")
}

/// What the line weighs for its volume, with the range that 95 of 100 such measurements keep.
pub fn density(made_of: &MadeOf) -> Option<String> {
    let density = made_of.density?;
    Some(format!(
        "{:.2} ± {:.2} g/cm³",
        density.value.grams_per_cubic_centimetre(),
        2.0 * density.spread.grams_per_cubic_centimetre()
    ))
}

/// What a line of such a density may be.
pub fn materials(made_of: &MadeOf) -> Option<String> {
    made_of.density?;
    let names: Vec<&str> = made_of.materials.iter().map(|one| material(*one)).collect();
    Some(match names.split_last() {
        None => "No braided silk line and no usual coated line has this density. Check sizes and weights.".to_owned(),
        Some((only, [])) => format!("It can be {only}."),
        Some((last, before)) => format!(
            "It can be {} or {last}. Measure more places, or weigh more exactly, to tell them apart.",
            before.join(", ")
        ),
    })
}

/// One of them.
pub fn material(material: Material) -> &'static str {
    match material {
        Material::BareSilk => "braided silk without oil and varnish (0.60 to 0.84 g/cm³)",
        Material::FloatingCoat => "a coated line that floats by itself (0.75 to 1.00 g/cm³)",
        Material::DressedSilk => "braided silk, oiled and varnished (1.05 to 1.25 g/cm³)",
        Material::SinkingCoat => "a coated line made to sink (over 1.25 g/cm³)",
    }
}

/// What the first 30 ft weigh and which class that is; what is missing where it has none. `None` where nothing was weighed.
pub fn class(made_of: &MadeOf, units: Units) -> Option<String> {
    let verdict = made_of.verdict.as_ref()?;
    if let Some(missing) = made_of.missing {
        return Some(format!(
            "none: {} of the first 30 ft are missing",
            units.show_position(missing)
        ));
    }
    let how = if made_of.is_head_weighed {
        "weighed"
    } else {
        "calculated from what was weighed"
    };
    let mass = made_of.head_mass.map_or_else(String::new, |head| {
        format!(
            ", {} ± {:.1} gr, {how}",
            show::grains(head.value),
            2.0 * head.spread.grains()
        )
    });
    Some(format!("{}{mass}", verdict_words(verdict)))
}

/// What a copy is like, with what its original is like where that is known.
pub fn copy_facts(
    design: &Design,
    plan: &Plan,
    original: Option<&MadeOf>,
    units: Units,
) -> Vec<(&'static str, String)> {
    let beside = |own: String, other: Option<String>| match other {
        Some(other) => format!("{own} (original {other})"),
        None => own,
    };
    let head = original.and_then(|made| made.head_mass);
    let verdict = original.and_then(|made| made.verdict.as_ref());
    let (fewest, most) = (plan.threads_min(), plan.threads_max());
    let taper = design.original_taper();
    let belly = taper.map(|taper| units.show_diameter_short(taper.thickest()));
    vec![
        (
            "First 30 ft",
            beside(
                plan.head_mass.map(show::grains).unwrap_or_default(),
                head.map(|head| show::grains(head.value)),
            ),
        ),
        (
            "Class",
            beside(verdict_words(&plan.verdict), verdict.map(verdict_words)),
        ),
        (
            "Belly",
            beside(
                units.show_diameter_short(plan.belly.dressed.diameter),
                belly,
            ),
        ),
        (
            "Threads",
            format!("{fewest} to {most}, each of {} ends", design.supply().light),
        ),
        ("At the machine", changes_in_all(plan)),
    ]
}
