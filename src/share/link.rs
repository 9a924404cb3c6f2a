//! A whole design in the fragment of a link.
//!
//! Base64url of: version byte, length and CRC-32 of the payload (little-endian, 2 and 4 bytes), payload; then the
//! letter `z`, so that no mail program strips a dash at the end and a link cut short is known as such. The
//! payload is postcard of `Wire`: every number a whole count of its step. See DEVELOPERS.md.

use core::fmt;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde::{Deserialize, Serialize};

use super::first;
use crate::choice::Choice;
use crate::design::machine::Mounted;
use crate::design::pin::DraftPin;
use crate::design::refusal::{MOST_GEARS, MOST_PINS, MOST_POINTS, Refusal};
use crate::design::settings::{DIAMETER, POSITION, Setting, Settings, TEETH};
use crate::design::{Design, Draft, DraftPoint, NAME_ROOM, NOTES_ROOM};

/// What a design's fragment begins with.
pub const PREFIX: &str = "line=";
/// The letter every link ends with.
const END: char = 'z';
/// The format written.
const VERSION: u8 = 2;
/// Bytes before the payload: version, length, checksum.
const HEADER: usize = 7;
/// Longest fragment, in characters: what messengers pass on whole.
pub const LONGEST: usize = 1_800;

/// Why a link gave no design, or a design no link.
#[derive(Clone, Debug, PartialEq)]
pub enum LinkError {
    /// The design makes a link of more characters than are sent whole.
    TooLong(usize),
    /// The link is longer than any made here.
    Overlong,
    /// The end is missing.
    CutOff,
    /// Characters were changed on the way.
    Altered,
    /// Made by a newer version of this program.
    Newer(u8),
    /// Readable, but not a design that could be braided.
    Refused(Refusal),
}

impl fmt::Display for LinkError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong(characters) => write!(
                out,
                "This design makes a link of {characters} characters; messengers carry {LONGEST}. Send the design file instead."
            ),
            Self::Overlong => write!(
                out,
                "The link is longer than any Taperwright makes, and is not opened. Ask for the design file."
            ),
            Self::CutOff => write!(
                out,
                "The link was cut off on its way; its end is missing. Ask for it again, or for the design file."
            ),
            Self::Altered => write!(
                out,
                "The link was altered on its way and cannot be trusted. Ask for it again, or for the design file."
            ),
            Self::Newer(version) => write!(
                out,
                "The link is of format {version}; this page reads up to {VERSION}. Reload the page to get its newest version."
            ),
            Self::Refused(refusal) => write!(out, "The link's design cannot be used. {refusal}"),
        }
    }
}

/// The payload. Choices are their place in their list; settings stand in the order of [`Setting::ALL`].
#[derive(Serialize, Deserialize)]
struct Wire {
    name: String,
    notes: String,
    fibre: u8,
    condition: u8,
    build: u8,
    pattern: u8,
    train: u8,
    /// Bit sets of places, clockwise and counter-clockwise; 0 for every place.
    mounted: (u64, u64),
    gears: Vec<u32>,
    settings: Vec<u32>,
    pins: Vec<WirePin>,
    /// Distance behind the point before, and diameter.
    points: Vec<(u32, u32)>,
}

/// A pin: its numbers are counts, positions in steps.
#[derive(Serialize, Deserialize)]
enum WirePin {
    Place(u32, u32, bool, u32),
    Carrier(u32, u8, u32),
    Wheels(u32, u32, u32, u32, u32),
    Swap(u32, u8, u32),
}

/// The fragment of a design, without the `#`.
///
/// # Errors
/// [`LinkError::TooLong`] when it would not survive being sent.
pub fn encode(design: &Design) -> Result<String, LinkError> {
    let fragment = format!("{PREFIX}{}", pack(design)?);
    if fragment.len() > LONGEST {
        Err(LinkError::TooLong(fragment.len()))
    } else {
        Ok(fragment)
    }
}

/// What a fragment carries of a design behind its prefix, however long.
///
/// # Errors
/// [`LinkError::TooLong`] when the design has more bytes than the form can count.
pub(super) fn pack(design: &Design) -> Result<String, LinkError> {
    let payload =
        postcard::to_allocvec(&Wire::of(design.draft())).expect("counts and text always serialise");
    let length = u16::try_from(payload.len()).map_err(|_| LinkError::TooLong(payload.len()))?;
    let mut bytes = vec![VERSION];
    bytes.extend(length.to_le_bytes());
    bytes.extend(crc32fast::hash(&payload).to_le_bytes());
    bytes.extend(payload);
    Ok(format!("{}{END}", URL_SAFE_NO_PAD.encode(bytes)))
}

/// The design of a fragment; `None` when the fragment is no design's at all.
///
/// # Errors
/// Inside the option, [`LinkError`] says what happened to the link.
pub fn decode(fragment: &str) -> Option<Result<Design, LinkError>> {
    let code = fragment.trim_start_matches('#').strip_prefix(PREFIX)?;
    let is_overlong = code.len() + PREFIX.len() > LONGEST;
    Some(if is_overlong {
        Err(LinkError::Overlong)
    } else {
        unpack(code)
    })
}

/// The design of what [`pack`] made.
///
/// # Errors
/// [`LinkError`] says what happened to it.
pub(super) fn unpack(code: &str) -> Result<Design, LinkError> {
    payload(code).and_then(|(version, payload)| design(version, &payload))
}

/// The version and the payload, when length and checksum hold.
fn payload(code: &str) -> Result<(u8, Vec<u8>), LinkError> {
    let whole = code.strip_suffix(END);
    let mut bytes = bytes_of(whole.unwrap_or(code))?;
    match bytes.first() {
        Some(&version) if version > VERSION => return Err(LinkError::Newer(version)),
        Some(&version) if version >= 1 && bytes.len() >= HEADER => {}
        Some(1..) | None => return Err(LinkError::CutOff),
        Some(0) => return Err(LinkError::Altered),
    }
    let version = bytes[0];
    let payload = bytes.split_off(HEADER);
    let length = usize::from(u16::from_le_bytes([bytes[1], bytes[2]]));
    let sum = u32::from_le_bytes([bytes[3], bytes[4], bytes[5], bytes[6]]);
    if payload.len() < length || whole.is_none() {
        return Err(LinkError::CutOff);
    }
    let sound = payload.len() == length && crc32fast::hash(&payload) == sum;
    if sound {
        Ok((version, payload))
    } else {
        Err(LinkError::Altered)
    }
}

/// Decodes, dropping up to three characters of a torn last group.
fn bytes_of(code: &str) -> Result<Vec<u8>, LinkError> {
    let whole = code.get(..code.len() - code.len() % 4).unwrap_or("");
    URL_SAFE_NO_PAD
        .decode(code)
        .or_else(|_| URL_SAFE_NO_PAD.decode(whole))
        .map_err(|_| LinkError::Altered)
}

fn design(version: u8, payload: &[u8]) -> Result<Design, LinkError> {
    let draft = match version {
        1 => whole::<first::Wire>(payload).and_then(first::Wire::draft),
        _ => whole::<Wire>(payload).and_then(Wire::draft),
    };
    Design::parse(draft.ok_or(LinkError::Altered)?).map_err(LinkError::Refused)
}

/// What a payload holds, when nothing is left over.
fn whole<'a, W: Deserialize<'a>>(payload: &'a [u8]) -> Option<W> {
    let (wire, rest) = postcard::take_from_bytes::<W>(payload).ok()?;
    rest.is_empty().then_some(wire)
}

impl Wire {
    fn of(draft: &Draft) -> Self {
        let mut before = 0;
        let point = |point: &DraftPoint| {
            let at = POSITION.quanta(point.at_m);
            let step = at - before;
            before = at;
            (step, DIAMETER.quanta(point.diameter_mm))
        };
        Self {
            name: draft.name.clone(),
            notes: draft.notes.clone(),
            fibre: place_of(draft.fibre),
            condition: place_of(draft.condition),
            build: place_of(draft.build),
            pattern: place_of(draft.pattern),
            train: place_of(draft.train),
            mounted: (
                bits(&draft.mounted.clockwise),
                bits(&draft.mounted.counter_clockwise),
            ),
            pins: draft.pins.iter().map(WirePin::of).collect(),
            gears: draft
                .gears
                .iter()
                .map(|&teeth| TEETH.quanta(teeth))
                .collect(),
            settings: Setting::ALL
                .iter()
                .map(|&setting| setting.rule().quanta(draft.settings.get(setting)))
                .collect(),
            points: draft.points.iter().map(point).collect(),
        }
    }

    /// The draft, when every list has a length a design can have and every choice exists.
    fn draft(self) -> Option<Draft> {
        let fits = self.name.len() <= 4 * NAME_ROOM
            && self.notes.len() <= 4 * NOTES_ROOM
            && self.gears.len() <= MOST_GEARS
            && self.points.len() <= MOST_POINTS
            && self.pins.len() <= MOST_PINS
            && self.settings.len() == Setting::ALL.len();
        fits.then_some(())?;
        Some(Draft {
            fibre: choice_at(self.fibre)?,
            condition: choice_at(self.condition)?,
            build: choice_at(self.build)?,
            pattern: choice_at(self.pattern)?,
            train: choice_at(self.train)?,
            mounted: Mounted {
                clockwise: places(self.mounted.0),
                counter_clockwise: places(self.mounted.1),
            },
            pins: self
                .pins
                .iter()
                .map(WirePin::draft)
                .collect::<Option<_>>()?,
            gears: self.gears.iter().map(|&teeth| TEETH.value(teeth)).collect(),
            settings: settings_of(&self.settings),
            points: points_of(&self.points)?,
            name: self.name,
            notes: self.notes,
        })
    }
}

impl WirePin {
    fn of(pin: &DraftPin) -> Self {
        let at = |at_m| POSITION.quanta(at_m);
        match *pin {
            DraftPin::Place {
                threads,
                heavy,
                rising,
                at_m,
            } => Self::Place(threads, heavy, rising, at(at_m)),
            DraftPin::Carrier {
                threads,
                direction,
                number,
            } => Self::Carrier(threads, place_of(direction), number),
            DraftPin::Swap {
                heavy,
                direction,
                number,
            } => Self::Swap(heavy, place_of(direction), number),
            DraftPin::Wheels {
                threads,
                heavy,
                at_m,
                driver,
                driven,
            } => Self::Wheels(threads, heavy, at(at_m), driver, driven),
        }
    }

    fn draft(&self) -> Option<DraftPin> {
        Some(match *self {
            Self::Place(threads, heavy, rising, at) => DraftPin::Place {
                threads,
                heavy,
                rising,
                at_m: POSITION.value(at),
            },
            Self::Carrier(threads, direction, number) => DraftPin::Carrier {
                threads,
                direction: choice_at(direction)?,
                number,
            },
            Self::Swap(heavy, direction, number) => DraftPin::Swap {
                heavy,
                direction: choice_at(direction)?,
                number,
            },
            Self::Wheels(threads, heavy, at, driver, driven) => DraftPin::Wheels {
                threads,
                heavy,
                at_m: POSITION.value(at),
                driver,
                driven,
            },
        })
    }
}

/// Places as a bit set; a design's are below 64.
fn bits(places: &[u32]) -> u64 {
    let bit = |&place: &u32| 1_u64.checked_shl(place).unwrap_or(0);
    places.iter().map(bit).fold(0, |set, bit| set | bit)
}

fn places(bits: u64) -> Vec<u32> {
    (0..u64::BITS)
        .filter(|place| bits >> place & 1 == 1)
        .collect()
}

fn settings_of(quanta: &[u32]) -> Settings {
    let mut settings = Settings::default();
    for (setting, &quanta) in Setting::ALL.into_iter().zip(quanta) {
        settings.set(setting, setting.rule().value(quanta));
    }
    settings
}

pub(super) fn points_of(steps: &[(u32, u32)]) -> Option<Vec<DraftPoint>> {
    let mut at = 0_u32;
    let point = |&(step, diameter): &(u32, u32)| {
        at = at.checked_add(step)?;
        Some(DraftPoint {
            at_m: POSITION.value(at),
            diameter_mm: DIAMETER.value(diameter),
        })
    };
    steps.iter().map(point).collect()
}

/// The lists are far shorter than 256.
#[allow(clippy::cast_possible_truncation)]
fn place_of<C: Choice>(choice: C) -> u8 {
    C::ALL
        .iter()
        .position(|other| *other == choice)
        .unwrap_or(0) as u8
}

pub(super) fn choice_at<C: Choice>(place: u8) -> Option<C> {
    C::ALL.get(usize::from(place)).copied()
}
