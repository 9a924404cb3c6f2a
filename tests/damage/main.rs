//! Links, files and stores damaged on their way: bits flipped, stretches cut out, put in, swapped or repeated. Nothing ever
//! panics; what comes out is an error or something valid; and what has a checksum is never taken for something else.
//!
//! Sources: none needed; what CRC-32 promises is named where it is counted.
#![cfg(not(target_arch = "wasm32"))]

#[path = "../common/designs.rs"]
#[allow(dead_code, reason = "few of them are needed here")]
mod designs;
#[path = "../common/everything.rs"]
mod everything;
mod files;
mod links;
#[path = "../common/small_pictures.rs"]
#[allow(dead_code, reason = "one picture is enough here")]
mod small_pictures;
mod stores;

use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;

/// What happens to bytes on their way. Places are shares of the whole, in thousandths.
#[derive(Clone, Debug)]
enum Damage {
    Flip(u16, u8),
    Cut(u16, u8),
    Insert(u16, Vec<u8>),
    Swap(u16, u16, u8),
    Repeat(u16, u8),
}

fn damage() -> impl Strategy<Value = Damage> {
    let place = 0_u16..1000;
    prop_oneof![
        (place.clone(), 0_u8..8).prop_map(|(at, bit)| Damage::Flip(at, bit)),
        (place.clone(), 1_u8..).prop_map(|(at, length)| Damage::Cut(at, length)),
        (place.clone(), prop::collection::vec(any::<u8>(), 1..9))
            .prop_map(|(at, bytes)| Damage::Insert(at, bytes)),
        (place.clone(), place.clone(), 1_u8..16)
            .prop_map(|(one, other, length)| Damage::Swap(one, other, length)),
        (place, 1_u8..).prop_map(|(at, length)| Damage::Repeat(at, length)),
    ]
}

impl Damage {
    fn done_to(&self, bytes: &mut Vec<u8>) {
        let length = bytes.len();
        let place = |share: u16| usize::from(share) * length / 1000;
        let stretch = |at: u16, count: u8| place(at)..(place(at) + usize::from(count)).min(length);
        match self {
            Self::Flip(at, bit) if length > 0 => bytes[place(*at)] ^= 1 << bit,
            Self::Flip(..) => {}
            Self::Cut(at, count) => drop(bytes.drain(stretch(*at, *count))),
            Self::Insert(at, new) => {
                bytes.splice(place(*at)..place(*at), new.iter().copied());
            }
            Self::Swap(one, other, count) => {
                for (one, other) in stretch(*one, *count).zip(stretch(*other, *count)) {
                    bytes.swap(one, other);
                }
            }
            Self::Repeat(at, count) => {
                let again = bytes[stretch(*at, *count)].to_vec();
                bytes.splice(place(*at)..place(*at), again);
            }
        }
    }
}

/// So many texts made of this one by one to three damages each, the same every time; those that stayed as they were left
/// out. What is no text any more is made one, as a browser does.
fn damaged(whole: &str, count: usize) -> Vec<String> {
    let mut runner = TestRunner::deterministic();
    let several = prop::collection::vec(damage(), 1..4);
    let mut draw = || {
        let tree = several.new_tree(&mut runner);
        let damages = tree.expect("the strategy never gives up").current();
        let mut bytes = whole.as_bytes().to_vec();
        for damage in damages {
            damage.done_to(&mut bytes);
        }
        String::from_utf8_lossy(&bytes).into_owned()
    };
    let texts = (0..count).map(|_| draw());
    texts.filter(|text| text != whole).collect()
}

#[test]
fn damage_is_done() {
    let texts = damaged("Reed Pool, invented", 400);
    let lengths: std::collections::BTreeSet<usize> = texts.iter().map(String::len).collect();
    assert!(texts.len() > 380, "{} of 400 are damaged", texts.len());
    assert!(lengths.len() > 20, "{lengths:?}");
}
