//! Texts of one kind under numbered keys, and the rule that none is written over unless it could be read.

use super::{LineNumber, STEPS_KEY, Shelf, Store, StoreError};

/// A kind of numbered text.
pub(super) struct Numbered {
    /// Keys: this, then the number.
    pub(super) prefix: &'static str,
    /// Whether a text can be read as what it should be.
    pub(super) can_be_read: fn(&str) -> bool,
}

impl Numbered {
    pub(super) fn key(&self, number: LineNumber) -> String {
        format!("{}{number}", self.prefix)
    }
}

impl<S: Store> Shelf<S> {
    /// Keeps a text under its number, or under a new one: also where the text under the number wished for cannot be read,
    /// since that must stay. What was written is read back.
    pub(super) fn put(
        &mut self,
        kind: &Numbered,
        number: Option<LineNumber>,
        text: &str,
    ) -> Result<LineNumber, StoreError> {
        let number = match number {
            Some(number) if self.may_be_replaced(kind, number)? => number,
            _ => self.free_number(kind)?,
        };
        let key = kind.key(number);
        self.set(&key, text)?;
        if self.store.get(&key)?.as_deref() == Some(text) {
            Ok(number)
        } else {
            Err(StoreError::NotKept)
        }
    }

    /// Puts a text under a key. Where there is no room, all steps are let go for it: they are a convenience.
    pub(super) fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        match self.store.set(key, text) {
            Err(StoreError::Full) => {
                for steps in self.store.keys()? {
                    if steps.starts_with(STEPS_KEY) {
                        self.store.set(&steps, "")?;
                    }
                }
                self.store.set(key, text)
            }
            done => done,
        }
    }

    /// The numbers in use, ascending. A key that only looks like one of ours (`+7`, `07`) is somebody else's.
    pub(super) fn numbers(&self, kind: &Numbered) -> Result<Vec<LineNumber>, StoreError> {
        let number_of = |text: &String| {
            let number = text.strip_prefix(kind.prefix)?.parse().ok()?;
            (*text == kind.key(number)).then_some(number)
        };
        let mut numbers: Vec<_> = self.store.keys()?.iter().filter_map(number_of).collect();
        numbers.sort_unstable();
        Ok(numbers)
    }

    /// Whether nothing stands under a number, or a text that can be read.
    fn may_be_replaced(&self, kind: &Numbered, number: LineNumber) -> Result<bool, StoreError> {
        let text = self.store.get(&kind.key(number))?;
        Ok(text.is_none_or(|text| (kind.can_be_read)(&text)))
    }

    /// The number after the highest in use; the lowest gap when there is none after it.
    fn free_number(&self, kind: &Numbered) -> Result<LineNumber, StoreError> {
        let numbers = self.numbers(kind)?;
        let next = numbers.last().map_or(Some(1), |last| last.checked_add(1));
        let gap = || (1..LineNumber::MAX).find(|number| numbers.binary_search(number).is_err());
        next.or_else(gap).ok_or(StoreError::Full)
    }
}
