//! What day and time it is where the maker is.

use js_sys::Date;
use leptos::prelude::window;

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

/// This moment, in milliseconds since 1970 in universal time, as the device is set.
pub(crate) fn wall() -> f64 {
    Date::now()
}

/// Milliseconds of a clock that nobody sets; it may stand still while the device sleeps.
pub(crate) fn steady() -> f64 {
    window().performance().map_or_else(Date::now, |it| it.now())
}

/// The time of day of a moment where the maker is, `14:05`, and on which day if that is not today: `14:05 tomorrow`.
pub(crate) fn time_of_day(moment: f64) -> String {
    let (then, now) = (Date::new(&moment.into()), Date::new_0());
    let time = format!("{:02}:{:02}", then.get_hours(), then.get_minutes());
    let day = |date: &Date| (date.get_full_year(), date.get_month(), date.get_date());
    let tomorrow = Date::new_with_year_month_day(
        now.get_full_year(),
        now.get_month().cast_signed(),
        now.get_date().cast_signed() + 1,
    );
    if day(&then) == day(&now) {
        time
    } else if day(&then) == day(&tomorrow) {
        format!("{time} tomorrow")
    } else {
        format!("{time} on {}.{}.", then.get_date(), then.get_month() + 1)
    }
}
