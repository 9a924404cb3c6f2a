//! Days of the calendar, and the dates of the steps of a dressing.
//!
//! There is no clock here: the caller passes the day of today in. Handwork begins between 9 and 18 o'clock; a tick counts from noon
//! of its day, except on the planned day.

pub mod dates;
mod diary;

use core::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};
use time::{Date, Month, Weekday};

use crate::base::units::text::with_plain_digits;

pub use diary::Diary;

/// The first year there is.
const FIRST_YEAR: i32 = 2000;
/// The last year there is.
const LAST_YEAR: i32 = 2199;

/// A day of the Gregorian calendar, from the beginning of 2000 to the end of 2199.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

/// Why a text is no day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoDay(String);

impl fmt::Display for NoDay {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0.is_empty() {
            return write!(
                out,
                "Give a whole date between {FIRST_YEAR} and {LAST_YEAR}."
            );
        }
        write!(
            out,
            "“{}” is not a date between {FIRST_YEAR} and {LAST_YEAR}. Write year, month and day: {FIRST_YEAR}-03-09.",
            self.0
        )
    }
}

impl Day {
    /// The day of a year, month and day of the month; `None` where there is none within the years known here.
    pub fn new(year: i32, month: u8, day: u8) -> Option<Self> {
        let is_known = (FIRST_YEAR..=LAST_YEAR).contains(&year);
        let month = Month::try_from(month).ok().filter(|_| is_known)?;
        Date::from_calendar_date(year, month, day).ok().map(Self)
    }

    /// The day written as `2026-11-25` (ISO 8601), in digits of any script.
    ///
    /// # Errors
    /// [`NoDay`] when it is written otherwise, or there is no such day.
    pub fn parse(text: &str) -> Result<Self, NoDay> {
        let text = text.trim();
        let plain = with_plain_digits(text);
        let day = || {
            let mut parts = plain.trim().split('-');
            let mut part = |digits: usize| {
                let part = parts.next()?;
                let is_plain = part.len() == digits && part.bytes().all(|b| b.is_ascii_digit());
                is_plain.then_some(part)
            };
            let (year, month, day) = (part(4)?, part(2)?, part(2)?);
            parts.next().is_none().then_some(())?;
            Self::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
        };
        day().ok_or_else(|| NoDay(text.to_owned()))
    }

    /// The day written as `2026-11-25` (ISO 8601).
    pub fn iso(self) -> String {
        let (year, month, day) = self.0.to_calendar_date();
        format!("{year:04}-{:02}-{day:02}", u8::from(month))
    }

    /// The same without dashes, as calendars write it.
    pub fn digits(self) -> String {
        self.iso().replace('-', "")
    }

    /// So many days later, or earlier where negative; held within the years known here.
    #[must_use]
    pub fn plus(self, days: i64) -> Self {
        let bound = |year, month, day| Date::from_calendar_date(year, month, day).unwrap_or(self.0);
        let (first, last) = (
            bound(FIRST_YEAR, Month::January, 1),
            bound(LAST_YEAR, Month::December, 31),
        );
        let wished = i64::from(self.0.to_julian_day()).saturating_add(days);
        let low = i64::from(first.to_julian_day());
        let high = i64::from(last.to_julian_day());
        let held = i32::try_from(wished.clamp(low, high)).ok();
        let day = held.and_then(|held| Date::from_julian_day(held).ok());
        Self(day.unwrap_or(self.0))
    }

    /// How many days it is after another; negative where it is before.
    pub fn since(self, other: Self) -> i64 {
        i64::from(self.0.to_julian_day()) - i64::from(other.0.to_julian_day())
    }

    /// The day of the month.
    pub fn of_month(self) -> u8 {
        self.0.day()
    }

    /// The name of its month, short.
    pub fn month(self) -> &'static str {
        match self.0.month() {
            Month::January => "Jan",
            Month::February => "Feb",
            Month::March => "Mar",
            Month::April => "Apr",
            Month::May => "May",
            Month::June => "Jun",
            Month::July => "Jul",
            Month::August => "Aug",
            Month::September => "Sep",
            Month::October => "Oct",
            Month::November => "Nov",
            Month::December => "Dec",
        }
    }

    /// The name of its day of the week, short.
    pub fn weekday(self) -> &'static str {
        match self.0.weekday() {
            Weekday::Monday => "Mon",
            Weekday::Tuesday => "Tue",
            Weekday::Wednesday => "Wed",
            Weekday::Thursday => "Thu",
            Weekday::Friday => "Fri",
            Weekday::Saturday => "Sat",
            Weekday::Sunday => "Sun",
        }
    }

    /// `25 Nov`.
    pub fn short(self) -> String {
        format!("{}\u{a0}{}", self.of_month(), self.month())
    }

    /// `25 Nov 2026`.
    pub fn with_year(self) -> String {
        format!("{} {}", self.short(), self.0.year())
    }

    /// `25 November`.
    pub fn long(self) -> String {
        format!("{} {}", self.of_month(), self.0.month())
    }

    /// From one day to another, where they differ: `29 Nov – 6 Dec`, `6 – 27 Dec`, `28 Nov`.
    pub fn range(first: Self, last: Self) -> String {
        let is_same_month = first.0.month() == last.0.month() && first.0.year() == last.0.year();
        if first == last {
            first.short()
        } else if is_same_month {
            format!("{} – {}", first.of_month(), last.short())
        } else {
            format!("{} – {}", first.short(), last.short())
        }
    }

    /// `Wed 25 Nov`.
    pub fn words(self) -> String {
        format!("{} {} {}", self.weekday(), self.of_month(), self.month())
    }

    /// `Wed 25 Nov 2026`.
    pub fn words_with_year(self) -> String {
        format!("{} {}", self.words(), self.0.year())
    }

    /// Whether it is a Monday.
    pub fn begins_week(self) -> bool {
        self.0.weekday() == Weekday::Monday
    }
}

impl Serialize for Day {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.iso())
    }
}

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::parse(&text).map_err(D::Error::custom)
    }
}
