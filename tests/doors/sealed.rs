//! Links made by hand, as the module `keep::share::link` describes them, their checksums true.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use taperwright::keep::share::link::{LinkError, PREFIX, decode};

use crate::designs::usual;

/// The payload as the format describes it, since version 3; postcard writes a struct's fields one after another.
#[derive(serde::Serialize)]
pub(crate) struct Payload {
    pub(crate) name: String,
    pub(crate) notes: String,
    pub(crate) fibre: u8,
    pub(crate) condition: u8,
    pub(crate) build: u8,
    pub(crate) pattern: u8,
    pub(crate) train: u8,
    pub(crate) mounted: (u64, u64),
    pub(crate) gears: Vec<u32>,
    pub(crate) reserved: u8,
    pub(crate) pins: Vec<Pin>,
    pub(crate) points: Vec<(u32, u32)>,
    /// Place in the table and count of steps, of what is not the default.
    pub(crate) changed: Vec<(u8, u32)>,
    pub(crate) workshop: String,
    pub(crate) recipe: Recipe,
    pub(crate) learned: Option<Learned>,
}

/// Dressing steps: kinds, counts of their values, what they are warmed in.
pub(crate) type Steps = Vec<(u8, Vec<u32>, u8)>;

/// The recipe, as the format describes it: a ready one, or its steps.
#[derive(serde::Serialize)]
pub(crate) enum Recipe {
    Ready(u8),
    Own(Steps),
}

/// What was learnt, as the format describes it.
#[derive(serde::Serialize)]
pub(crate) struct Learned {
    pub(crate) spreads: [u32; 7],
    pub(crate) correlations: [i8; 21],
    pub(crate) scatter: u32,
    pub(crate) swatches: u32,
    pub(crate) lines: u32,
}

/// A pin as the format describes it.
#[derive(serde::Serialize)]
pub(crate) enum Pin {
    Place(u32, u32, bool, u32),
    Carrier(u32, u8, u32),
    Wheels(u32, u32, u32, u32, u32),
}

/// The usual recipe: hours and millibars in tenths, temperatures and shares whole.
pub(crate) const RECIPE: [(u8, &[u32]); 12] = [
    (0, &[10]),
    (1, &[20, 1000, 0]),
    (3, &[120]),
    (4, &[1680, 45]),
    (6, &[5040]),
    (7, &[5]),
    (8, &[10]),
    (9, &[10, 1000, 50]),
    (5, &[720]),
    (11, &[20]),
    (12, &[5]),
    (13, &[5]),
];

/// A payload that reads as the usual design.
pub(crate) fn payload() -> Payload {
    let design = usual();
    let draft = design.draft();
    // Positions count tenths of a millimetre after the point before; sizes tenths of a micrometre.
    let points = vec![
        (0, 7600),
        (1524, 7600),
        (24_384, 10_750),
        (199_644, 10_750),
        (24_384, 7600),
        (1524, 7600),
    ];
    let gears = (15..=30).collect();
    Payload {
        name: draft.name.clone(),
        notes: draft.notes.clone(),
        fibre: 0,
        condition: 0,
        build: 0,
        pattern: 1,
        train: 0,
        mounted: (0, 0),
        gears,
        reserved: 0,
        pins: Vec::new(),
        points,
        // A machine constant of 3.2 mm, in thousandths, is all that is not usual.
        changed: vec![(9, 3200)],
        workshop: String::new(),
        recipe: Recipe::Ready(0),
        learned: None,
    }
}

/// A link of these bytes after a header of our making.
pub(crate) fn link(version: u8, length: usize, sum: u32, bytes: &[u8]) -> String {
    let mut whole = head(version, length);
    whole.extend(sum.to_le_bytes());
    whole.extend(bytes);
    format!("{PREFIX}{}z", URL_SAFE_NO_PAD.encode(whole))
}

/// Version and length.
fn head(version: u8, length: usize) -> Vec<u8> {
    let length = u16::try_from(length).expect("the tests write short links");
    [&[version][..], &length.to_le_bytes()].concat()
}

/// The checksum of these bytes in a link of a version: of the bytes alone up to version 3, of version and length too since.
pub(crate) fn sum(version: u8, length: usize, bytes: &[u8]) -> u32 {
    let mut checked = head(version, length);
    checked.retain(|_| version > 3);
    checked.extend(bytes);
    crc32fast::hash(&checked)
}

/// A link of a version whose header is true to its bytes.
pub(crate) fn sealed_as(version: u8, bytes: &[u8]) -> String {
    let sum = sum(version, bytes.len(), bytes);
    link(version, bytes.len(), sum, bytes)
}

/// A link of the version written whose header is true to its bytes.
pub(crate) fn sealed(bytes: &[u8]) -> String {
    sealed_as(5, bytes)
}

pub(crate) fn sealed_payload(spoil: impl FnOnce(&mut Payload)) -> String {
    let mut payload = payload();
    spoil(&mut payload);
    sealed(&with_original(&payload))
}

#[track_caller]
pub(crate) fn error(fragment: &str) -> LinkError {
    decode(fragment)
        .expect("the fragment begins as a line")
        .expect_err("a bad link was read")
}

/// The bytes of a payload as version 5 has them: after it the original, and here there is none.
pub(crate) fn with_original(payload: &Payload) -> Vec<u8> {
    let mut bytes = postcard::to_allocvec(payload).expect("counts and text serialise");
    bytes.push(0);
    bytes
}
