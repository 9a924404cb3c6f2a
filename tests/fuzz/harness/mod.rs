//! What must hold for any bytes at all: shared by the fuzz targets and by the test that replays their corpus.

#[path = "../../common/everything.rs"]
pub(crate) mod everything;
pub(crate) mod file;
pub(crate) mod link;
pub(crate) mod readings;
pub(crate) mod storage;

use taperwright::design::Design;
use taperwright::edit::sketch::Sketch;
use taperwright::keep::share::{file as design_file, link as design_link, steps};
use taperwright::plan::Plan;

/// What holds for every design, wherever it came from: it is valid, and every way out leads back to it.
fn holds(design: &Design) {
    assert_eq!(Design::parse(design.draft().clone()).as_ref(), Ok(design));
    assert_eq!(
        design_file::read(&design_file::write(design)).as_ref(),
        Ok(design)
    );
    assert_eq!(
        design_file::read(&design_file::write_small(design)).as_ref(),
        Ok(design)
    );
    if let Ok(fragment) = design_link::encode(design) {
        assert!(fragment.len() <= design_link::LONGEST);
        assert_eq!(
            design_link::decode(&fragment),
            Some(Ok(design.clone())),
            "{fragment}"
        );
    }
    let sketch = steps::read(&steps::write(&Sketch::new(design.clone())), design.clone());
    assert_eq!(sketch.settled(), design);
}

/// Plans the design for one input in sixteen: a plan takes a thousand times as long as a link.
fn may_be_planned(design: &Design, bytes: &[u8]) {
    if crc32fast::hash(bytes).is_multiple_of(16) {
        let _ = Plan::of(design);
    }
}

/// Asserts that a refusal is a sentence, and takes over nothing unseen from what it refuses.
fn is_a_sentence(words: &str) {
    assert!(words.ends_with(['.', '?', '”']), "{words:?}");
    assert!(!words.contains(char::is_control), "{words:?}");
}
