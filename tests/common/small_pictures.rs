//! Small pictures for the bench book, written by a library that is not ours.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use taperwright::keep::book::{PICTURE_ROOM, SmallPicture};

/// How an address of a picture begins.
pub(crate) const ADDRESS: &str = "data:image/jpeg;base64,";

/// Grey, 24 × 16 pixels, written by Pillow 13: baseline, then progressive.
pub(crate) const JPEGS: [&str; 2] = [
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6jq62rZ4C8ybqmx5moq6T/wAALCAAQABgBAREA/8QAFgABAQEAAAAAAAAAAAAAAAAABQQG/8QAHRAAAQUAAwEAAAAAAAAAAAAAAQACBBExAwUSYf/aAAgBAQAAPwAeKzEvFZiYisxZeKzEvFZir7DldF6qRysv0G+QQaIJNXfy7X//2Q==",
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6jq62rZ4C8ybqmx5moq6T/wgALCAAQABgBAREA/8QAFgABAQEAAAAAAAAAAAAAAAAABAMF/9oACAEBAAAAARrZlsr/AP/EABgQAQEBAQEAAAAAAAAAAAAAAAACAwES/9oACAEBAAEFApSlKWnfOX//xAAXEAADAQAAAAAAAAAAAAAAAAAAAQIg/9oACAEBAAY/As0z/8QAFxABAQEBAAAAAAAAAAAAAAAAAQARMf/aAAgBAQABPyExjGMhHcy//9oACAEBAAAAEHf/xAAYEAADAQEAAAAAAAAAAAAAAAAAARExYf/aAAgBAQABPxDExMTExKlxBpxpty3lp//Z",
];

/// The bytes of the first with so many more: comments, which say nothing (ITU-T T.81, B.2.4.5).
pub(crate) fn jpeg_of(more: usize) -> Vec<u8> {
    let plain = STANDARD.decode(JPEGS[0]).expect("it is base64");
    let mut bytes = plain[..2].to_vec();
    let mut left = more;
    while left >= 4 {
        let filled = (left - 4).min(60_000);
        bytes.extend([0xFF, 0xFE]);
        bytes.extend(
            u16::try_from(filled + 2)
                .expect("it is short")
                .to_be_bytes(),
        );
        bytes.extend((0..=250).cycle().take(filled));
        left -= filled + 4;
    }
    bytes.extend(&plain[2..]);
    bytes
}

/// The address of a picture of these bytes.
pub(crate) fn address(bytes: &[u8]) -> String {
    format!("{ADDRESS}{}", STANDARD.encode(bytes))
}

pub(crate) fn picture() -> SmallPicture {
    SmallPicture::parse(&format!("{ADDRESS}{}", JPEGS[0])).expect("it is a JPEG")
}

/// As large as a picture may be, to the last four characters.
pub(crate) fn largest() -> SmallPicture {
    let plain = STANDARD.decode(JPEGS[0]).expect("it is base64").len();
    let bytes = (PICTURE_ROOM - ADDRESS.len()) / 4 * 3;
    SmallPicture::parse(&address(&jpeg_of(bytes - plain))).expect("there is room")
}
