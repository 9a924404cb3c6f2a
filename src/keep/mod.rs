//! What outlives a visit: links and files, the bench book, the lines and workshops kept in the browser.
//!
//! [`share`] knows of designs only, [`book`] uses `share`, and [`shelf`] and [`dropped`] use both.
//!
//! # The doors
//!
//! Everything from outside comes in by a function that takes a text and gives a valid thing or an error in words. Each looks first
//! at the size of the text and, where it is JSON, at its shape: depth, braces and brackets, longest text. Nothing takes more than
//! 16 MB beside its input; `tests/caps` counts.
//!
//! | door | cap | why |
//! |---|---|---|
//! | link | 1,800 characters | what messengers carry whole |
//! | code of a design in a book or among steps | 60,000 characters | more than twice the longest a design can have |
//! | text dropped | its first 1,000,000 bytes | far more than a message has |
//! | design file | 1,000,000 bytes; depth 8, 40,000 braces, texts of 100,000 bytes | a thousand points and a hundred pins take some 86,000 bytes |
//! | file of a measured line | 1,000,000 bytes; depth 8, 40,000 braces, texts of 100,000 bytes | two thousand readings and 500 rows not understood take half of it |
//! | bench book | 5,000,000 bytes; depth 16, 161,290 braces, texts of 100,000 bytes | a browser keeps no more; a diameter takes 31 bytes or more |
//! | table of readings | 1,000,000 bytes; 10,000 rows, 200,000 cells, 4,096 in a row | two thousand readings, with remarks, take a fifth of it |
//! | file dropped | that of its kind | |
//! | file of everything | 32,000,000 bytes; depth 8, 20,005 braces; texts of 2,000 bytes, those of an item 7,000,000 | five million characters, each six bytes at most where escaped |
//! | revision under a key | head of 4,000 bytes, file as above | larger ones stay and are listed |
//! | steps to undo | 101 codes of 60,000 characters | fifty each way and the present one |
//! | notes of the bin and of the last export | 200 and 100 bytes | as they are written |
//!
//! - A list is read no further than its limit and one more, so that it is reported as too long.
//! - A file of everything is read item by item, once all of it was seen to be sound.
//! - A message about a damaged file has at most 160 characters, none of them unseen.
//! - Texts are cleaned where they come in: control characters, unseen ones and those that turn the direction of writing.
//! - A link has a checksum. A file has none: a changed digit in it is another line.

pub mod book;
pub mod dropped;
pub mod share;
pub mod shelf;
