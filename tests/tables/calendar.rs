//! Days, the dates of dressing steps, and the calendar file, read back by an independent reader.

use icalendar::{Calendar, CalendarDateTime, Component as _, DatePerhapsTime};
use taperwright::keep::share::calendar::{CalendarEvent, write};
use taperwright::paper::chart::timeline::timeline;
use taperwright::plan::days::dates::{DatedStep, StepStatus, StepTime, dates};
use taperwright::plan::days::{Day, Diary};

fn day(text: &str) -> Day {
    Day::parse(text).unwrap_or_else(|error| panic!("{error}"))
}

/// The Gregorian rule: every fourth year is a leap year, centuries only where 400 divides them. ISO 8601: 2000-01-01 was a
/// Saturday (any almanac).
#[test]
fn days_are_those_of_the_calendar() {
    for there in ["2000-02-29", "2028-02-29", "2199-12-31"] {
        assert_eq!(day(there).iso(), there);
    }
    for typed in ["٢٠٢٨-٠٢-٢٩", "२०२८-०२-२९", "２０２８－０２－２９"]
    {
        assert_eq!(day(typed), day("2028-02-29"), "{typed}");
    }
    for missing in [
        "2100-02-29",
        "2027-02-29",
        "2026-13-01",
        "2026-00-10",
        "1999-12-31",
        "2200-01-01",
        "2026-1-1",
        "26-01-01",
        "2026-01-01-",
        "tomorrow",
        "2026-01-0x",
    ] {
        let said = Day::parse(missing).expect_err(missing).to_string();
        assert!(
            said.contains(missing) && said.contains("2000-03-09"),
            "{said}"
        );
    }
    // A browser's own field for a date has no text while the date is not whole.
    let said = Day::parse("").expect_err("no day").to_string();
    assert_eq!(said, "Give a whole date between 2000 and 2199.");
    assert_eq!(day("2000-01-01").words_with_year(), "Sat 1 Jan 2000");
    assert_eq!(day("2000-01-01").plus(366), day("2001-01-01"));
    assert_eq!(day("2028-03-01").since(day("2028-02-01")), 29);
    assert_eq!(day("2000-01-01").plus(-1), day("2000-01-01"));
    assert_eq!(day("2199-12-31").plus(i64::MAX), day("2199-12-31"));
}

fn hands(hours: f64) -> StepTime {
    StepTime { hours, hands: true }
}

fn alone(hours: f64) -> StepTime {
    StepTime {
        hours,
        hands: false,
    }
}

fn days(dated: &[DatedStep]) -> Vec<(String, String)> {
    let words = |dated: &DatedStep| {
        (
            dated.first.iso()[5..].to_owned(),
            dated.last.iso()[5..].to_owned(),
        )
    };
    dated.iter().map(words).collect()
}

/// By hand: oil from 9 to 11 on the 25th, dripping till 23; warmth for seven days till 23 on the 2nd; rubbing down waits for the
/// next morning.
#[test]
fn steps_follow_each_other_by_day_and_night() {
    let steps = [hands(2.0), alone(12.0), alone(168.0), hands(1.0)];
    let dated = dates(day("2026-11-25"), &steps, &[], None);
    let pair = |from: &str, to: &str| (from.to_owned(), to.to_owned());
    assert_eq!(
        days(&dated),
        [
            pair("11-25", "11-25"),
            pair("11-25", "11-25"),
            pair("11-25", "12-02"),
            pair("12-03", "12-03")
        ]
    );
    let standings: Vec<StepStatus> = dated.iter().map(|dated| dated.status).collect();
    assert_eq!(
        standings,
        [
            StepStatus::Next,
            StepStatus::Waiting,
            StepStatus::Waiting,
            StepStatus::Waiting
        ]
    );
}

/// A tick three days late moves what follows by three days; one in time moves nothing; one a day early pulls it along.
#[test]
fn late_and_early_move_what_follows() {
    let steps = [hands(2.0), alone(48.0), alone(168.0), hands(1.0)];
    let start = day("2026-11-25");
    let planned = dates(start, &steps, &[], None);
    let with = |tick: Day| dates(start, &steps, &[Some(start), Some(tick)], None);
    let intime = with(planned[1].last);
    assert_eq!(days(&intime), days(&planned));
    let late = with(planned[1].last.plus(3));
    assert_eq!(
        late[1].status,
        StepStatus::Done {
            on: planned[1].last.plus(3),
            late_by: 3
        }
    );
    assert_eq!(late[2].last.since(planned[2].last), 3);
    assert_eq!(late[3].planned, planned[3].last);
    let early = with(planned[1].last.plus(-1));
    assert_eq!(early[2].last.since(planned[2].last), -1);
    let overdue = dates(start, &steps, &[Some(start)], Some(planned[1].last.plus(2)));
    assert_eq!(overdue[1].status, StepStatus::Overdue(2));
}

#[test]
fn a_diary_takes_ticks_in_any_order() {
    let mut diary = Diary::new(day("2026-11-25"));
    diary.tick(3, Some(day("2026-12-01")));
    assert_eq!(
        (diary.tick_of(3), diary.tick_of(0), diary.tick_of(99)),
        (Some(day("2026-12-01")), None, None)
    );
    diary.tick(3, None);
    diary.tick(usize::MAX, Some(day("2026-12-01")));
    assert_eq!(diary.tick_of(3), None);
    let text = serde_json::to_string(&diary).expect("plain data");
    assert_eq!(
        serde_json::from_str::<Diary>(&text).expect("it reads back"),
        diary
    );
}

const HARD: &str = "Öl, zuerst; dann\\trocknen\nzweite Zeile: ✓ and a very long line indeed, which has to be folded more than once before it is over, whatever it says";

fn entries() -> Vec<CalendarEvent> {
    let entry = |uid: &str, first: &str, last: &str, title: &str| CalendarEvent {
        uid: uid.to_owned(),
        first: day(first),
        last: day(last),
        title: title.to_owned(),
        text: HARD.to_owned(),
    };
    vec![
        entry("1@line", "2026-11-25", "2026-11-25", "Oil under vacuum"),
        entry("2@line", "2028-02-28", "2028-02-29", HARD),
    ]
}

/// RFC 5545: the file as the `icalendar` crate reads it. Section 3.6.1: an all-day event has a DATE for its start, and for its end
/// the first day after it.
#[test]
fn another_reader_finds_the_same_days_and_words() {
    let calendar: Calendar = write(&entries(), "20261125T090000Z")
        .parse()
        .expect("a calendar");
    let events: Vec<_> = calendar
        .components
        .iter()
        .filter_map(|component| component.as_event())
        .collect();
    assert_eq!(events.len(), 2);
    let date = |when: Option<DatePerhapsTime>| match when {
        Some(DatePerhapsTime::Date(date)) => date.to_string(),
        other => panic!("{other:?} is no whole day"),
    };
    for (event, entry) in events.iter().zip(entries()) {
        assert_eq!(event.get_uid(), Some(entry.uid.as_str()));
        assert_eq!(event.get_summary(), Some(entry.title.as_str()));
        assert_eq!(event.get_description(), Some(entry.text.as_str()));
        assert_eq!(date(event.get_start()), entry.first.iso());
        assert_eq!(date(event.get_end()), entry.last.plus(1).iso());
        let stamp = event.get_timestamp().map(CalendarDateTime::from);
        assert!(stamp.is_some(), "no moment of writing");
    }
}

/// RFC 5545, section 3.1: lines end with CR LF and have at most 75 octets; a folded one goes on after a space.
#[test]
fn lines_are_folded() {
    let text = write(&entries(), "20261125T090000Z");
    assert!(text.ends_with("END:VCALENDAR\r\n"));
    let lines: Vec<&str> = text.split("\r\n").collect();
    assert!(
        lines
            .iter()
            .all(|line| line.len() <= 75 && !line.contains(['\r', '\n']))
    );
    assert!(lines.iter().any(|line| line.starts_with(' ')));
}

#[test]
fn the_bar_shows_the_dates_of_the_steps() {
    let start = day("2026-11-25");
    let dated = dates(start, &steps_of_the_bar(), &[], None);
    // Nine and a bit days: the last step is done on the tenth.
    let strip = timeline(&dated, Some(start)).expect("there are steps");
    let whole = dated[3].last.since(start) + 1;
    assert_eq!(strip.today, Some(0.5 / whole as f64));
    // Two hours by hand, then two days from eleven of the first day on, then seven: an hour by hand on the last day of those
    // has no room of its own.
    let steps: Vec<_> = strip.segments.iter().map(|it| it.steps.clone()).collect();
    assert_eq!(steps, [0..1, 1..2, 2..4]);
    let ends: Vec<f64> = strip.segments.iter().map(|it| it.to).collect();
    let after = |days: i64| days as f64 / whole as f64;
    assert_eq!(ends, [after(1), after(3), after(whole)]);
    let begins: Vec<f64> = strip.segments.iter().map(|it| it.from).collect();
    assert_eq!(begins, [0.0, after(1), after(3)]);
    // The first day, the day the seven days begin, the last.
    let labels: Vec<&str> = strip.labels.iter().map(|it| it.text.as_str()).collect();
    assert_eq!(labels, ["25\u{a0}Nov", "27\u{a0}Nov", "4\u{a0}Dec"]);
    let done = dates(start, &steps_of_the_bar(), &[Some(start)], Some(start));
    let done = timeline(&done, None).expect("there are steps").segments;
    assert_eq!(
        done.iter().map(|it| it.is_done).collect::<Vec<_>>(),
        [true, false, false]
    );
    assert_eq!(
        timeline(&dated, Some(start.plus(100))).and_then(|strip| strip.today),
        None
    );
    assert_eq!(timeline(&[], None), None);
}

fn steps_of_the_bar() -> [StepTime; 4] {
    [hands(2.0), alone(48.0), alone(168.0), hands(1.0)]
}
