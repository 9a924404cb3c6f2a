//! What day and time it is where the maker is.

use js_sys::Date;

use crate::plan::days::Day;

/// Today, by the device's own calendar; `None` where that is set to a year not known here.
// Months and days are small whole numbers, and so is any year a device shows.
#[allow(clippy::cast_possible_truncation, clippy::cast_possible_wrap)]
pub(crate) fn today() -> Option<Day> {
    let now = Date::new_0();
    let month = u8::try_from(now.get_month() + 1).ok()?;
    let day = u8::try_from(now.get_date()).ok()?;
    Day::new(now.get_full_year() as i32, month, day)
}

/// This moment in universal time, as calendars write it: `20261125T090000Z`.
pub(crate) fn stamp() -> String {
    let now = String::from(Date::new_0().to_iso_string());
    let digits: String = now
        .chars()
        .take_while(|c| *c != '.')
        .filter(|c| !matches!(c, '-' | ':'))
        .collect();
    format!("{digits}Z")
}
