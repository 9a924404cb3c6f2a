//! What the page and the program that reads photographs (`photo_worker`) send each other. Each message is a number, these bytes,
//! and what only a browser can hold: the file to open, the picture to draw.

use core::fmt;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use crate::photo::{Asked, PhotoReading, PhotoRefusal};

/// Largest file that is opened, bytes. Our own choice: cameras of the day write up to 50 MB.
pub const LARGEST_FILE: f64 = 80e6;

/// What the page asks for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum PhotoRequest {
    /// Open the file that comes along, then read the braid in it.
    Open(Asked),
    /// Read the braid in the picture that was opened last.
    Read(Asked),
}

/// What the page gets.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum PhotoResponse {
    /// The file is open. The picture comes along, so many pixels wide and high.
    Opened(u32, u32),
    /// The file does not open.
    Unopened(PhotoUnopened),
    /// What the picture shows, or why it shows nothing.
    Read(Box<Result<PhotoReading, PhotoRefusal>>),
}

/// Why a file does not open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum PhotoUnopened {
    /// It has no bytes.
    Empty,
    /// It has more than [`LARGEST_FILE`].
    TooLarge,
    /// The browser makes no picture of it.
    NotAPicture,
}

impl fmt::Display for PhotoUnopened {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(match self {
            Self::Empty => "This file is empty. Choose another photo, or take a new one.",
            Self::TooLarge => "This file is larger than 80 MB. Save the photo as a JPEG file, or take one with fewer pixels.",
            Self::NotAPicture => {
                "The browser cannot open this file as a photo. Choose a JPEG or PNG file with fewer than 100 million pixels."
            }
        })
    }
}

/// The bytes of a message.
pub fn bytes_of<T: Serialize>(message: &T) -> Vec<u8> {
    // Fails only for lists of unknown length, and there are none.
    postcard::to_allocvec(message).unwrap_or_default()
}

/// The message of these bytes; `None` where they are none.
pub fn message_of<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    let (message, rest) = postcard::take_from_bytes(bytes).ok()?;
    rest.is_empty().then_some(message)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::{Line, Point};

    #[test]
    fn messages_are_read_from_their_own_bytes() {
        let line = Line::new(Point::new(0.5, -1.25), Point::new(1e5, f64::MIN_POSITIVE));
        for request in [
            PhotoRequest::Open(Asked::default()),
            PhotoRequest::Read(Asked {
                threads: Some(16),
                edges: None,
            }),
            PhotoRequest::Read(Asked {
                edges: Some([line, line.reversed()]),
                threads: None,
            }),
        ] {
            assert_eq!(message_of(&bytes_of(&request)), Some(request));
        }
        let refusal = PhotoRefusal::TooThin {
            diameter: 3.5,
            needed: 20.0,
        };
        for response in [
            PhotoResponse::Opened(1, u32::MAX),
            PhotoResponse::Unopened(PhotoUnopened::TooLarge),
            PhotoResponse::Read(Box::new(Err(refusal))),
        ] {
            assert_eq!(message_of(&bytes_of(&response)), Some(response));
        }
    }

    #[test]
    fn other_bytes_are_no_message() {
        let whole = bytes_of(&PhotoRequest::Read(Asked {
            edges: Some([Line::default(); 2]),
            threads: Some(16),
        }));
        for length in 0..whole.len() {
            assert_eq!(
                message_of::<PhotoRequest>(&whole[..length]),
                None,
                "{length}"
            );
        }
        let longer = [whole, vec![0]].concat();
        assert_eq!(message_of::<PhotoRequest>(&longer), None);
        assert_eq!(message_of::<PhotoRequest>(b"words"), None);
    }
}
