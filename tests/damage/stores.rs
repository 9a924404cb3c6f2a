//! Damaged states, as they lie in a browser's storage.

use taperwright::design::Design;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Id, LINE_KEY, Lookup, Shelf, Writer};

use crate::damaged;
use crate::designs::usual;

/// A state has a checksum: damaged, it is left alone and listed, and never another line. CRC-32 as for links.
#[test]
fn states_damaged() {
    let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("memory does not fail");
    shelf
        .keep_new(Id(7), &usual(), None)
        .expect("memory does not fail");
    let store = shelf.into_store();
    let (key, whole) = store
        .0
        .iter()
        .find(|(key, _)| key.starts_with(LINE_KEY))
        .expect("it was kept");
    let (mut same, mut strange, mut newer) = (0, 0, 0);
    for text in damaged(whole, 5_000) {
        let shelf = Shelf::load(Memory([(key.clone(), text.clone())].into()), Writer(2));
        let mut shelf = shelf.expect("memory does not fail");
        match shelf.look::<Design>(1) {
            Lookup::Kept(kept) => {
                assert_eq!(kept.work, usual());
                same += 1;
            }
            Lookup::Unreadable { text: there, .. } => {
                assert_eq!(there, text);
                strange += 1;
            }
            Lookup::Newer { text: there, .. } => {
                assert_eq!(there, text);
                newer += 1;
            }
            found => panic!("{found:?}"),
        }
        shelf.settle::<Design>(1).expect("memory does not fail");
        shelf
            .keep_new(Id(8), &usual(), None)
            .expect("memory does not fail");
        assert_eq!(shelf.into_store().0.get(key), Some(&text));
    }
    println!("{same} the same, {strange} strange, {newer} newer");
    assert!(
        same == 0 && strange > 4_000,
        "{same} the same, {strange} strange, {newer} newer"
    );
}
