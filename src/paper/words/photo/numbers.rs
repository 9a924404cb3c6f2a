//! Numbers with their errors, beside what is planned.

use super::aim::PhotoAim;
use super::degrees::{degrees, degrees_off};
use crate::base::units::show::Units;
use crate::base::units::{Angle, Length};
use crate::photo::{Estimate, KnownDiameter};

/// An angle with its error: `45.8° ± 0.6°`.
pub fn angle(angle: Estimate) -> String {
    format!("{}° ± {}°", degrees(angle.value), degrees_off(angle.error))
}

/// What was measured, beside what is planned: `45.8° ± 0.6°. Your plan says 45.0° here.`
pub fn verdict(measured: Estimate, planned: Option<Angle>, aim: PhotoAim) -> String {
    let measured = match aim {
        PhotoAim::Line => format!("{} on the surface", angle(measured)),
        PhotoAim::Swatch | PhotoAim::Check => angle(measured),
    };
    match planned {
        Some(planned) => format!("{measured}. {}", aim.planned(planned)),
        None => format!("{measured}."),
    }
}

/// What the same braid shows on its outside, where its threads are steeper than in the middle of its wall.
pub fn on_surface(surface: Estimate) -> String {
    format!(
        "That is in the middle of the braid’s wall, as in your plan. On the surface you see {}.",
        angle(surface)
    )
}

/// What the angle is that a plan speaks of, and a swatch takes.
pub fn in_wall(in_wall: Estimate) -> String {
    format!(
        "In the middle of the braid’s wall that is {}. Plans and swatches speak of that.",
        angle(in_wall)
    )
}

/// How many threads the braid has: as stated, or as counted in the picture. `read` is the count of the reading, and the one that the
/// picture shows, where it does.
pub fn threads(stated: Option<u32>, read: Option<(u32, Option<u32>)>) -> String {
    match (stated, read) {
        (Some(stated), Some((read, Some(seen)))) if stated == read && seen != read => {
            format!(
                "The picture looks like {seen} threads. The angle is calculated with {stated}: check the count."
            )
        }
        (Some(stated), Some((read, _))) if stated == read => {
            "The angle is calculated with this count.".to_owned()
        }
        (None, Some((counted, _))) => {
            format!("The picture shows {counted}. If the braid has another count, type it.")
        }
        _ => "Type the count if you know it: the angle depends on it.".to_owned(),
    }
}

/// Fewest and most threads of a braid that is measured.
const THREADS: (u32, u32) = (6, 64);

/// A count of threads as typed; nothing where the field is empty.
///
/// # Errors
/// What to type instead.
pub fn read_threads(text: &str) -> Result<Option<u32>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let (least, most) = THREADS;
    let count = text
        .parse()
        .ok()
        .filter(|count| (least..=most).contains(count));
    let refused = || format!("Type a whole number from {least} to {most}, or leave it empty.");
    count.map(Some).ok_or_else(refused)
}

/// Crossings along a rib in a metre, with their error: `31.2 ± 0.5 per cm`.
pub fn crossings(crossings: Estimate, units: Units) -> String {
    let [value, error] =
        [crossings.value, crossings.error].map(|per_metre| units.show_crossings_number(per_metre));
    let unit = units.show_crossings_unit();
    format!("{value} ± {} {unit}", at_least_a_tenth(error))
}

fn at_least_a_tenth(error: String) -> String {
    if error == "0.0" {
        "0.1".to_owned()
    } else {
        error
    }
}

/// A diameter in metres, with its error: `1.05 ± 0.02 mm`.
pub fn diameter(diameter: Estimate, units: Units) -> String {
    let [value, error] = [diameter.value, diameter.error].map(Length::from_metres);
    match units {
        Units::Metric => format!(
            "{:.2} ± {:.2}\u{202f}mm",
            value.millimetres(),
            error.millimetres().max(0.01)
        ),
        Units::Imperial => format!(
            "{:.1} ± {:.1}\u{202f}thou",
            value.thousandths(),
            error.thousandths().max(0.1)
        ),
    }
}

/// From where the diameter of the braid is known, and how well.
pub fn known_by(diameter: KnownDiameter) -> String {
    match diameter {
        KnownDiameter::Planned(_) => "From your plan, ± 3 %.".to_owned(),
        KnownDiameter::Measured(_) => format!(
            "Measured with a micrometer, ± {:.0}\u{202f}µm.",
            diameter.error().metres() * 1e6
        ),
    }
}

/// Beyond so many degrees between the slopes of both families it is said. Our own choice: less does no harm.
const SKEW_SAID: f64 = 1.0;
/// And beyond so many of its errors.
const SKEW_ERRORS: f64 = 2.0;

/// That one family is steeper than the other, where that is beyond doubt.
pub fn skew(skew: Estimate) -> Option<String> {
    // The reading has half of it.
    let apart = 2.0 * skew.value.abs();
    let is_sure = skew.value.abs() > SKEW_ERRORS * skew.error;
    let is_large = Angle::from_radians(apart).degrees() > SKEW_SAID;
    (is_sure && is_large).then(|| {
        format!(
            "Threads that lean one way are {}° steeper than the others: the line is twisted, or the camera slants.",
            degrees(apart)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn estimate(value: f64, error: f64) -> Estimate {
        Estimate { value, error }
    }

    fn in_degrees(value: f64, error: f64) -> Estimate {
        estimate(value.to_radians(), error.to_radians())
    }

    #[test]
    fn the_verdict_names_what_it_is_compared_with() {
        let (measured, planned) = (in_degrees(45.8, 0.62), Some(Angle::from_degrees(45.0)));
        let said = |aim| verdict(measured, planned, aim);
        assert_eq!(
            said(PhotoAim::Check),
            "45.8° ± 0.6°. Your plan says 45.0° here."
        );
        assert_eq!(
            said(PhotoAim::Swatch),
            "45.8° ± 0.6°. Your plan says 45.0° for the belly."
        );
        assert_eq!(
            said(PhotoAim::Line),
            "45.8° ± 0.6° on the surface. The belly of the open line is planned to show 45.0° there."
        );
        assert_eq!(
            verdict(in_degrees(45.8, 0.004), None, PhotoAim::Line),
            "45.8° ± 0.1° on the surface."
        );
    }

    /// 3120 in a metre are 31.2 in a centimetre and 79.2 in an inch of 2.54 cm.
    #[test]
    fn sizes_are_shown_in_the_makers_units() {
        let of = estimate(3120.0, 50.0);
        assert_eq!(crossings(of, Units::Metric), "31.2 ± 0.5 per cm");
        assert_eq!(crossings(of, Units::Imperial), "79.2 ± 1.3 per in");
        assert_eq!(
            crossings(estimate(3120.0, 0.1), Units::Metric),
            "31.2 ± 0.1 per cm"
        );
        let of = estimate(1.016e-3, 0.0254e-3);
        assert_eq!(diameter(of, Units::Metric), "1.02 ± 0.03\u{202f}mm");
        assert_eq!(diameter(of, Units::Imperial), "40.0 ± 1.0\u{202f}thou");
    }

    /// The reading has half of what one family is steeper.
    #[test]
    fn a_skew_is_said_where_it_is_large_and_sure() {
        let said = skew(in_degrees(-0.6, 0.2)).unwrap_or_default();
        assert!(said.contains("1.2° steeper"), "{said}");
        assert_eq!(skew(in_degrees(0.6, 0.31)), None, "not sure");
        assert_eq!(skew(in_degrees(0.49, 0.01)), None, "too small");
    }

    #[test]
    fn a_count_is_a_whole_number_or_nothing() {
        assert_eq!(read_threads(" 16 "), Ok(Some(16)));
        assert_eq!(read_threads(""), Ok(None));
        for text in ["3", "65", "-16", "16.5", "many", "99999999999"] {
            let said = read_threads(text).unwrap_err();
            assert!(said.contains("6 to 64"), "{text}: {said}");
        }
        assert!(threads(None, Some((16, Some(16)))).contains("shows 16"));
        let said = threads(Some(14), Some((14, Some(16))));
        assert!(
            said.contains("like 16") && said.contains("with 14"),
            "{said}"
        );
        assert_ne!(threads(None, None), threads(Some(16), Some((16, Some(16)))));
    }

    #[test]
    fn a_diameter_says_where_it_is_from() {
        let size = Length::from_millimetres(1.0);
        let planned = known_by(KnownDiameter::Planned(size));
        assert!(planned.contains("plan"), "{planned}");
        let measured = known_by(KnownDiameter::Measured(size));
        assert!(measured.ends_with("± 15\u{202f}µm."), "{measured}");
    }
}
