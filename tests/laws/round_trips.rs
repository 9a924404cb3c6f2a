//! Out and back in: nothing is lost.

use proptest::prelude::*;
use taperwright::braid::takeoff::TEETH;
use taperwright::design::gears;
use taperwright::keep::share::link::{LONGEST, LinkError};
use taperwright::keep::share::{file, link};

use crate::likely::pinned;
use crate::lines::{any_design, cases};

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn a_file_holds_the_whole_design(design in any_design()) {
        prop_assert_eq!(file::read(&file::write(&design)), Ok(design));
    }

    /// A link holds the whole design, or is refused for its length before it is sent.
    #[test]
    fn a_link_holds_the_whole_design(design in any_design()) {
        match link::encode(&design) {
            Ok(fragment) => {
                prop_assert!(fragment.len() <= LONGEST);
                prop_assert!(fragment.bytes().all(|b| b.is_ascii_alphanumeric() || b"=-_".contains(&b)));
                prop_assert_eq!(link::decode(&fragment), Some(Ok(design.clone())));
                prop_assert_eq!(link::decode(&format!("#{fragment}")), Some(Ok(design)));
            }
            Err(error) => prop_assert!(matches!(error, LinkError::TooLong(length) if length > LONGEST)),
        }
    }

    /// What a maker might braid can be sent, pins, mounted places, trains and heavier threads with it.
    #[test]
    fn a_likely_line_fits_a_link(design in pinned()) {
        let fragment = link::encode(&design).unwrap_or_else(|error| panic!("{error}"));
        prop_assert_eq!(link::decode(&fragment), Some(Ok(design.clone())));
        prop_assert_eq!(file::read(&file::write(&design)), Ok(design));
    }

    #[test]
    fn gears_read_back_as_they_are_shown(mut teeth in proptest::collection::vec(8_u32..=200, 1..=60)) {
        teeth.sort_unstable();
        let teeth: Vec<f64> = teeth.into_iter().map(|teeth| TEETH.value(teeth)).collect();
        prop_assert_eq!(gears::read(&gears::show(&teeth), &[]), Ok(teeth));
    }
}

/// Sixty points and a full set of gears fit a link: what a maker draws can be sent.
#[test]
fn a_drawing_of_sixty_points_can_be_sent() {
    let points: Vec<_> = (0..60)
        .map(|k| (f64::from(k) * 1.6, 0.8 + f64::from(k % 7) * 0.05))
        .collect();
    let mut draft = crate::designs::draft(&[], &points);
    draft.gears = (15..75).map(f64::from).collect();
    let design = crate::designs::parsed(draft);
    let fragment = link::encode(&design).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(link::decode(&fragment), Some(Ok(design)));
}
