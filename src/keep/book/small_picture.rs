//! A small picture kept with a swatch: a JPEG, as the text of a data address.
//!
//! What comes from a file is shown by the browser, so it is looked at before it gets there: letters of base64 only, a JPEG from its
//! first bytes to its last, and few enough pixels, whatever its header says.

use core::fmt;
use std::sync::Arc;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// Most characters of a picture kept, its address and all.
pub const PICTURE_ROOM: usize = 32_000;
/// Most pixels of its width and of its height. Our own choice: no larger picture goes into so few characters and shows more.
pub const PICTURE_SIDE: u16 = 1_024;
/// How the address of a picture begins. Source: RFC 2397.
const ADDRESS: &str = "data:image/jpeg;base64,";
/// The marks a JPEG begins and ends with. Source: ITU-T T.81, table B.1.
const START: [u8; 2] = [0xFF, 0xD8];
const END: [u8; 2] = [0xFF, 0xD9];

/// A small picture. A copy of it takes up no room.
#[derive(Clone, PartialEq, Eq)]
pub struct SmallPicture {
    address: Arc<str>,
    width: u16,
    height: u16,
}

/// Why a text is no such picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureRefusal {
    /// So many characters, more than there is room for.
    TooLong(usize),
    /// Another kind of address, or of picture.
    NoJpeg,
    /// Characters that are not base64, or not all of them.
    Broken,
    /// Its end is missing, or something follows it.
    CutOff,
    /// Pixels of its width and height, more than are shown, or none.
    Size(u16, u16),
}

impl fmt::Display for PictureRefusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong(letters) => write!(
                out,
                "a picture has {letters} characters, and there is room for {PICTURE_ROOM}"
            ),
            Self::NoJpeg => write!(out, "a picture is not a JPEG"),
            Self::Broken => write!(out, "a picture has characters that do not belong there"),
            Self::CutOff => write!(out, "a picture does not end as a JPEG does"),
            Self::Size(width, height) => write!(
                out,
                "a picture has {width} × {height} pixels, and there is room for {PICTURE_SIDE} × {PICTURE_SIDE}"
            ),
        }
    }
}

impl SmallPicture {
    /// A picture from its data address, as a browser writes one.
    ///
    /// # Errors
    /// [`PictureRefusal`] says why it is none.
    pub fn parse(address: &str) -> Result<Self, PictureRefusal> {
        if address.len() > PICTURE_ROOM {
            return Err(PictureRefusal::TooLong(address.chars().count()));
        }
        let letters = address
            .strip_prefix(ADDRESS)
            .ok_or(PictureRefusal::NoJpeg)?;
        let bytes = STANDARD
            .decode(letters)
            .map_err(|_| PictureRefusal::Broken)?;
        if !bytes.starts_with(&START) {
            return Err(PictureRefusal::NoJpeg);
        }
        if !bytes.ends_with(&END) {
            return Err(PictureRefusal::CutOff);
        }
        let (width, height) = size(&bytes).ok_or(PictureRefusal::CutOff)?;
        let is_small = |side| (1..=PICTURE_SIDE).contains(&side);
        if !is_small(width) || !is_small(height) {
            return Err(PictureRefusal::Size(width, height));
        }
        Ok(Self {
            address: address.into(),
            width,
            height,
        })
    }

    /// Its data address.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Pixels from side to side.
    pub const fn width(&self) -> u16 {
        self.width
    }

    /// Pixels from top to bottom.
    pub const fn height(&self) -> u16 {
        self.height
    }
}

/// Width and height as the header of the frame has them; `None` where there is no such header before the picture itself.
/// Source: ITU-T T.81, B.1.1.4 for segments and B.2.2 for the header of a frame.
fn size(jpeg: &[u8]) -> Option<(u16, u16)> {
    let mut rest = jpeg.get(START.len()..)?;
    loop {
        let (&mark, after) = rest.split_first()?;
        if mark != 0xFF {
            return None;
        }
        let (&kind, segment) = after.split_first()?;
        match kind {
            // Any number of these may stand before a mark.
            0xFF => rest = after,
            0xC0..=0xCF if !matches!(kind, 0xC4 | 0xC8 | 0xCC) => {
                return Some((number(segment, 5)?, number(segment, 3)?));
            }
            // Marks without a segment, and the picture itself, do not stand before the frame.
            0x00..=0x01 | 0xD0..=0xDA => return None,
            _ => rest = segment.get(usize::from(number(segment, 0)?.max(2))..)?,
        }
    }
}

/// A number of two bytes.
fn number(bytes: &[u8], at: usize) -> Option<u16> {
    let two = bytes.get(at..at + 2)?;
    Some(u16::from_be_bytes([two[0], two[1]]))
}

// Its letters say nothing in a message.
impl fmt::Debug for SmallPicture {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { width, height, .. } = self;
        write!(
            out,
            "SmallPicture({width} × {height}, {} bytes)",
            self.address.len()
        )
    }
}

impl Serialize for SmallPicture {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.address)
    }
}

impl<'de> Deserialize<'de> for SmallPicture {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Address;

        impl de::Visitor<'_> for Address {
            type Value = SmallPicture;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("a picture")
            }

            fn visit_str<E: de::Error>(self, address: &str) -> Result<SmallPicture, E> {
                SmallPicture::parse(address).map_err(E::custom)
            }
        }

        deserializer.deserialize_str(Address)
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// A JPEG as short as one can be, with this before its frame. Written out by hand after ITU-T T.81, B.2.2.
    fn jpeg(before: &[u8], width: u16, height: u16) -> Vec<u8> {
        let mut bytes = START.to_vec();
        bytes.extend(before);
        bytes.extend([0xFF, 0xC0, 0, 11, 8]);
        bytes.extend(height.to_be_bytes());
        bytes.extend(width.to_be_bytes());
        bytes.extend([1, 1, 0x11, 0]);
        bytes.extend(END);
        bytes
    }

    fn parse(bytes: &[u8]) -> Result<SmallPicture, PictureRefusal> {
        SmallPicture::parse(&format!("{ADDRESS}{}", STANDARD.encode(bytes)))
    }

    pub(crate) fn picture() -> SmallPicture {
        parse(&jpeg(&[], 8, 8)).expect("a picture")
    }

    #[test]
    fn the_size_is_that_of_the_frame() {
        // A segment of an application, which holds another frame, then a filling byte.
        let aside = [0xFF, 0xE1, 0, 9, 0xFF, 0xC0, 0, 11, 8, 0, 1, 0xFF];
        for before in [&[][..], &aside] {
            let picture = parse(&jpeg(before, 320, 200)).expect("a picture");
            assert_eq!((picture.width(), picture.height()), (320, 200));
        }
        assert_eq!(
            parse(&jpeg(&[], 65_535, 2)),
            Err(PictureRefusal::Size(65_535, 2))
        );
        assert_eq!(parse(&jpeg(&[], 0, 2)), Err(PictureRefusal::Size(0, 2)));
        // Without a frame before the picture nothing says how large it is.
        for none in [&[0xFF, 0xDA][..], &[0xFF, 0xE0, 0xFF, 0xFF], &[0, 0]] {
            assert_eq!(parse(&jpeg(none, 8, 8)), Err(PictureRefusal::CutOff));
        }
    }

    #[test]
    fn no_bytes_are_read_beyond_the_end() {
        let whole = jpeg(&[], 8, 8);
        for end in 0..whole.len() {
            assert!(parse(&whole[..end]).is_err(), "cut at {end}");
            assert_eq!(size(&whole[..end]).is_some(), end >= 11, "cut at {end}");
        }
    }
}
