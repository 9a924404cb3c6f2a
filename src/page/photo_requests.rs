//! Which answers of the program that reads photographs still count. It works on one request after another, and each has a number.

use crate::photo::Asked;

/// What becomes of an answer to a reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReadAnswer {
    /// It is shown.
    Show,
    /// It is about another picture, or answers an older request.
    Ignore,
    /// It answers an older request: the reader is asked for this instead, under this number.
    Ask(u32, Asked),
}

/// The requests so far.
#[derive(Clone, Debug, Default)]
pub struct PhotoRequests {
    /// Number of the last request.
    last: u32,
    /// The request that opened the picture; nothing without a picture.
    picture: Option<u32>,
    /// The request whose reading is awaited. Opening a picture reads it, too.
    awaited: Option<u32>,
    /// What is asked for next, once that reading is here.
    waiting: Option<Asked>,
}

impl PhotoRequests {
    /// Another picture is opened, under this number.
    pub fn open(&mut self) -> u32 {
        let number = self.next();
        self.picture = Some(number);
        self.awaited = Some(number);
        self.waiting = None;
        number
    }

    /// A reading is wanted. The number to ask for it by; nothing where it has to wait, or there is no picture.
    pub fn read(&mut self, asked: Asked) -> Option<u32> {
        self.picture?;
        if self.awaited.is_some() {
            self.waiting = Some(asked);
            return None;
        }
        let number = self.next();
        self.awaited = Some(number);
        Some(number)
    }

    /// Whether an answer is about the picture that was opened last.
    pub fn is_of_picture(&self, number: u32) -> bool {
        self.picture == Some(number)
    }

    /// There is no picture: the file did not open, or the program has failed.
    pub fn close(&mut self) {
        *self = Self {
            last: self.last,
            ..Self::default()
        };
    }

    /// A reading is here.
    pub fn answered(&mut self, number: u32) -> ReadAnswer {
        if self.awaited != Some(number) {
            return ReadAnswer::Ignore;
        }
        self.awaited = None;
        let Some(asked) = self.waiting.take() else {
            return ReadAnswer::Show;
        };
        let number = self.read(asked);
        number.map_or(ReadAnswer::Ignore, |number| ReadAnswer::Ask(number, asked))
    }

    fn next(&mut self) -> u32 {
        self.last = self.last.wrapping_add(1);
        self.last
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_to_an_older_picture_do_not_count() {
        let mut requests = PhotoRequests::default();
        let [old, new] = [requests.open(), requests.open()];
        assert!(!requests.is_of_picture(old) && requests.is_of_picture(new));
        assert_eq!(requests.answered(old), ReadAnswer::Ignore);
        assert_eq!(requests.answered(new), ReadAnswer::Show);
        assert_eq!(requests.answered(new), ReadAnswer::Ignore);
    }

    #[test]
    fn of_many_wishes_only_the_last_is_read() {
        let wish = |threads: u32| Asked {
            threads: Some(threads),
            edges: None,
        };
        let mut requests = PhotoRequests::default();
        let first = requests.open();
        assert_eq!(requests.read(wish(12)), None);
        assert_eq!(requests.read(wish(16)), None);
        let ReadAnswer::Ask(next, asked) = requests.answered(first) else {
            panic!("what was asked last is asked for");
        };
        assert_eq!(asked, wish(16));
        assert_eq!(requests.answered(first), ReadAnswer::Ignore);
        assert_eq!(requests.answered(next), ReadAnswer::Show);
        assert!(
            requests
                .read(Asked::default())
                .is_some_and(|third| third > next)
        );
    }

    #[test]
    fn without_a_picture_nothing_is_read() {
        let mut requests = PhotoRequests::default();
        assert_eq!(requests.read(Asked::default()), None);
        let number = requests.open();
        requests.close();
        assert!(!requests.is_of_picture(number));
        assert_eq!(requests.read(Asked::default()), None);
        assert_eq!(requests.answered(number), ReadAnswer::Ignore);
        assert!(requests.open() > number);
    }
}
