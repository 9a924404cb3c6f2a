//! On any machine, with any yarn, a ready drawing is of its class or says why it cannot be.

use proptest::prelude::*;
use taperwright::base::choice::Choice as _;
use taperwright::braid::weight::{CLASSES, Verdict};
use taperwright::edit::starts::{FAR, NoStart, Start};
use taperwright::plan::Plan;

use crate::likely::likely;
use crate::lines::cases;

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn a_start_is_of_its_class_or_says_why(
        workshop in likely(),
        start in proptest::sample::select(Start::ALL),
        class in proptest::sample::select(&CLASSES[..]),
    ) {
        match start.on(&workshop, class) {
            Ok(line) => {
                prop_assert_eq!(Plan::of(&line).verdict, Verdict::Within(class));
                prop_assert_eq!(line.track(), workshop.track());
                prop_assert_eq!(line.take_off(), workshop.take_off());
            }
            Err(NoStart::OffClass { nearest, .. }) => {
                prop_assert!(!(class.low..=class.high).contains(&nearest.grains()));
            }
            Err(NoStart::AngleFar { angle, .. }) => {
                let off = (angle - workshop.target_angle()).abs();
                prop_assert!(off > workshop.angle_tolerance() * FAR);
            }
            Err(NoStart::NotBraided(which)) => prop_assert_eq!(which, class),
            Err(NoStart::Refused(refusal)) => prop_assert!(false, "{}", refusal),
        }
    }
}
