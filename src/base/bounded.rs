//! Lists and tables of which no more is taken in than there is room for, however long they are in the file.

use core::fmt;
use core::marker::PhantomData;
use std::collections::BTreeMap;

use serde::de::{Deserialize, Deserializer, Error as _, IgnoredAny, MapAccess, SeqAccess, Visitor};

/// Most numbers in a table: twice as many as there are settings, so that what is not known is reported by its name.
const MOST_NUMBERS: usize = 100;

/// Reads a list for `#[serde(deserialize_with = "…")]`. Of one with more than `MOST` elements one element more is kept, so
/// that whoever counts them sees that there are too many; the rest is read past.
///
/// # Errors
/// Those of the deserializer.
pub(crate) fn bounded_list<'de, D, T, const MOST: usize>(
    deserializer: D,
) -> Result<Vec<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    deserializer.deserialize_seq(BoundedList::<T, MOST>(PhantomData))
}

struct BoundedList<T, const MOST: usize>(PhantomData<T>);

impl<'de, T: Deserialize<'de>, const MOST: usize> Visitor<'de> for BoundedList<T, MOST> {
    type Value = Vec<T>;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a list")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Vec<T>, A::Error> {
        let mut taken = Vec::new();
        while taken.len() <= MOST {
            let Some(element) = list.next_element()? else {
                taken.shrink_to_fit();
                return Ok(taken);
            };
            taken.push(element);
        }
        while list.next_element::<IgnoredAny>()?.is_some() {}
        Ok(taken)
    }
}

/// Reads a table of numbers by name, none of them twice: which of the two was meant?
///
/// # Errors
/// Those of the deserializer; when a name stands twice, or more names than there could be.
pub(crate) fn number_table<'de, D: Deserializer<'de>>(
    deserializer: D,
) -> Result<BTreeMap<String, f64>, D::Error> {
    deserializer.deserialize_map(NumberTable)
}

struct NumberTable;

impl<'de> Visitor<'de> for NumberTable {
    type Value = BTreeMap<String, f64>;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a table of numbers")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut table: A) -> Result<Self::Value, A::Error> {
        let mut numbers = BTreeMap::new();
        while let Some((name, number)) = table.next_entry::<String, f64>()? {
            if numbers.contains_key(&name) {
                return Err(A::Error::custom(format!("“{name}” is there twice")));
            }
            if numbers.len() == MOST_NUMBERS {
                return Err(A::Error::custom("there are more numbers than settings"));
            }
            numbers.insert(name, number);
        }
        Ok(numbers)
    }
}

#[cfg(test)]
mod tests {
    use super::{MOST_NUMBERS, bounded_list, number_table};

    fn table(text: &str) -> Result<usize, String> {
        let read = number_table(&mut serde_json::Deserializer::from_str(text));
        read.map(|table| table.len())
            .map_err(|error| error.to_string())
    }

    #[test]
    fn a_table_names_each_number_once_and_not_too_many() {
        assert_eq!(table("{\"a\":1,\"b\":2}"), Ok(2));
        assert!(table("{\"a\":1,\"a\":1}").is_err_and(|said| said.contains("“a” is there twice")));
        let many = |count: usize| {
            let rows: Vec<String> = (0..count).map(|row| format!("\"{row}\":0")).collect();
            format!("{{{}}}", rows.join(","))
        };
        assert_eq!(table(&many(MOST_NUMBERS)), Ok(MOST_NUMBERS));
        assert!(table(&many(MOST_NUMBERS + 1)).is_err());
        assert!(table("[1]").is_err());
    }

    fn read(text: &str) -> Option<Vec<u8>> {
        bounded_list::<_, _, 2>(&mut serde_json::Deserializer::from_str(text)).ok()
    }

    #[test]
    fn one_more_than_there_is_room_for_is_kept() {
        assert_eq!(read("[]"), Some(vec![]));
        assert_eq!(read("[1,2]"), Some(vec![1, 2]));
        assert_eq!(read("[1,2,3,4,5]"), Some(vec![1, 2, 3]));
    }

    #[test]
    fn what_is_no_list_is_none() {
        for text in ["{}", "7", "[1,2,3,4", "[1,2,3,4,}", "[1,\"2\"]"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
