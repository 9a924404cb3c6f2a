//! Finding a piece of work in a long list: by words of its name, in an order.

use core::cmp::Reverse;

use super::document::Document;
use super::find::ShelfEntry;
use crate::base::choice::Choice;

/// In which order a list stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// What was changed last comes first; what has no day comes last. Of one day, the highest number first.
    #[default]
    Newest,
    /// By name, capitals and small letters alike; of one name, the lowest number first.
    Name,
}

impl Choice for Order {
    const ALL: &'static [Self] = &[Self::Newest, Self::Name];

    fn key(self) -> &'static str {
        match self {
            Self::Newest => "newest",
            Self::Name => "name",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Newest => "newest first",
            Self::Name => "by name",
        }
    }
}

/// Those whose name has every one of these words in it, capitals and small letters alike, in an order. Without words, all of
/// them. What cannot be opened has no name: it is found only without words, and stands first, where it is seen.
pub fn sought<T: Document>(entries: &[ShelfEntry], words: &str, order: Order) -> Vec<ShelfEntry> {
    let words = words.to_lowercase();
    let words: Vec<&str> = words.split_whitespace().collect();
    let name = |entry: &ShelfEntry| entry.title::<T>().map(str::to_lowercase);
    let has_all = |name: &Option<String>| {
        let has = |word: &&str| name.as_ref().is_some_and(|name| name.contains(*word));
        words.iter().all(has)
    };
    let named = entries.iter().map(|entry| (name(entry), entry));
    let mut found: Vec<_> = named.filter(|(name, _)| has_all(name)).collect();
    match order {
        Order::Newest => found.sort_by_key(|(name, entry)| {
            (
                name.is_some(),
                Reverse(entry.changed),
                Reverse(entry.number),
            )
        }),
        Order::Name => found.sort_by(|(one, first), (other, second)| {
            (one, first.number).cmp(&(other, second.number))
        }),
    }
    found.into_iter().map(|(_, entry)| entry.clone()).collect()
}
