//! A link's code holds the link: read back from its picture by rqrr, a reader that shares nothing with the writer.

use proptest::prelude::*;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::share::link;
use taperwright::paper::code::{Code, LARGEST_MM, SMALLEST_MODULE_MM, TooLong};

use crate::lines::{any_design, cases};
use crate::scan::{Painted, painted};

/// An address a page could have.
const ADDRESS: &str = "https://braiding.example/taperwright/index.html#";

/// What a camera reads off a code.
fn scanned(code: &Code) -> (u16, String) {
    painted(&code.path(), code.whole() as usize).read()
}

fn link_of(design: &Design) -> String {
    let fragment = link::encode(design).expect("this design makes a link");
    format!("{ADDRESS}{fragment}")
}

#[test]
fn a_scanned_code_opens_the_same_line() {
    let link = link_of(&demo());
    let (_, read) = scanned(&Code::of(&link).expect("the demo's link is short"));
    assert_eq!(read, link);
    let (_, fragment) = read.split_once('#').expect("the link has a fragment");
    assert_eq!(link::decode(fragment), Some(Ok(demo())));
}

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn every_code_reads_back_or_is_refused(design in any_design()) {
        let Ok(fragment) = link::encode(&design) else { return Ok(()) };
        let link = format!("{ADDRESS}{fragment}");
        match Code::of(&link) {
            Ok(code) => prop_assert_eq!(scanned(&code).1, link),
            Err(said) => {
                prop_assert_eq!(said.bytes, link.len());
                prop_assert!(link.len() > TooLong::MOST);
            }
        }
    }
}

/// ISO/IEC 18004, table of capacities, byte mode: version 20 holds 858 bytes at level L and 666 at level M. Four white
/// squares on every side: the same standard, section on the quiet zone.
#[test]
fn the_longest_code_still_prints_and_a_longer_one_is_refused_in_words() {
    let text = |bytes: usize| "a".repeat(bytes);
    let longest = Code::of(&text(858)).expect("what version 20 holds");
    assert_eq!(longest.size(), 97);
    assert!(longest.module_mm() >= SMALLEST_MODULE_MM);
    assert!(f64::from(longest.whole()) * longest.module_mm() <= LARGEST_MM + 1e-9);
    let said = Code::of(&text(859)).expect_err("more than version 20 holds");
    for word in ["859", "858", "35 mm", "design file"] {
        assert!(
            said.to_string().contains(word),
            "“{said}” does not say “{word}”"
        );
    }
}

#[test]
fn the_level_drops_only_where_the_code_would_not_fit() {
    let level = |bytes| scanned(&Code::of(&"a".repeat(bytes)).expect("fits")).0;
    assert_eq!((level(666), level(667)), (0, 1), "rqrr: 0 is M, 1 is L");
}

#[test]
fn four_squares_on_every_side_are_white() {
    let code = Code::of("https://braiding.example/").expect("short");
    let Painted { whole, black } = painted(&code.path(), code.whole() as usize);
    let margin = |n: usize| !(4..whole - 4).contains(&n);
    for (at, black) in black.iter().enumerate() {
        assert!(!(*black && (margin(at % whole) || margin(at / whole))));
    }
    assert_eq!(code.view_box(), format!("-4 -4 {whole} {whole}"));
}
