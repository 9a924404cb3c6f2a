//! The dressing has days: begun in the book, ticked by the maker, moved along, kept, and taken into another calendar.

use std::fs;

use icalendar::{Calendar, Component as _, DatePerhapsTime};
use serde_json::json;
use taperwright::braid::recipe::{Caution, ReadyRecipe, StepKind};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::record::LineRecord;
use taperwright::keep::share::calendar;
use taperwright::paper::chart::timeline::timeline;
use taperwright::paper::words;
use taperwright::plan::days::dates::{DatedStep, StepStatus, StepTime, dates};
use taperwright::plan::days::{Day, Diary};

use super::dressing::{field, row, unfold};
use super::files::saved;
use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;

/// First and last day of every step, and how it stands; empty where nothing is said.
const DAYS: &str = "
    return [...document.querySelectorAll('li[data-step]')].map((step) => {
        const { first, last } = step.querySelector('.days').dataset;
        const standing = step.querySelector('[data-standing]');
        return [first ?? '', last ?? '', standing?.dataset.standing ?? ''];
    });";

/// The day it is where the browser is.
const TODAY: &str = "
    const now = new Date();
    const two = (number) => String(number).padStart(2, '0');
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;";

#[test]
fn a_start_day_gives_every_step_its_days_and_stands_in_the_book() {
    on_the_page(async |page| {
        let start = today(page).await;
        let book = begun(page, start).await;
        let record = only(&book);
        assert_eq!(
            record.line,
            Some(1),
            "the line is not kept, or not this one"
        );
        assert_eq!(record.diary, Some(Diary::new(start)));
        // The line is at home where its record is.
        let kept = page.kept().await.expect("the line is kept");
        assert_eq!(
            kept,
            edited(demo(), Edit::Workshop(book.title().to_owned()))
        );
        assert_eq!(record.design.design(), Ok(&kept));
        follows(page, &kept, &Diary::new(start)).await;
        // Another start moves all of it, and is no second line.
        let later = start.plus(40);
        page.press("course-more").await;
        enter_day(page, "[data-action=dressing-start]", later).await;
        let book = page
            .until_book("the start is moved", |book| diary(book).start == later)
            .await;
        only(&book);
        follows(page, &kept, diary(&book)).await;
        page.reload().await;
        page.go_to("dress").await;
        follows(page, &kept, diary(&book)).await;
    });
}

#[test]
fn a_step_ticked_late_moves_what_follows_and_is_still_ticked_after_a_reload() {
    on_the_page(async |page| {
        let start = today(page).await.plus(-9);
        begun(page, start).await;
        let planned = dated(page, &demo(), &Diary::new(start)).await;
        unfold(page, StepKind::Inspect).await;
        let late = planned[0].last.plus(5);
        enter_day(page, &field(StepKind::Inspect, "tick-day"), late).await;
        let ticked = page
            .until_book("the tick is kept", |book| {
                diary(book).tick_of(0) == Some(late)
            })
            .await;
        let moved = dated(page, &demo(), diary(&ticked)).await;
        assert!(moved[1].first > planned[1].first, "nothing moved");
        follows(page, &demo(), diary(&ticked)).await;
        let said = page.words_of(&row(StepKind::Inspect)).await;
        assert!(said.contains("5 days late"), "{said}");
        page.reload().await;
        page.go_to("dress").await;
        follows(page, &demo(), diary(&ticked)).await;
        // Unticked: everything is as first planned.
        page.press_at(&field(StepKind::Inspect, "tick")).await;
        let undone = page
            .until_book("the tick is gone", |book| diary(book).tick_of(0).is_none())
            .await;
        follows(page, &demo(), diary(&undone)).await;
    });
}

#[test]
fn done_today_is_ticked_on_the_day_it_is() {
    on_the_page(async |page| {
        let today = today(page).await;
        begun(page, today).await;
        // The row need not be opened for it.
        page.press_at(&field(StepKind::Inspect, "tick")).await;
        let book = page
            .until_book("the tick is kept", |book| diary(book).tick_of(0).is_some())
            .await;
        assert_eq!(diary(&book).tick_of(0), Some(today));
        follows(page, &demo(), diary(&book)).await;
    });
}

#[test]
fn what_should_have_been_done_is_overdue() {
    on_the_page(async |page| {
        let start = today(page).await.plus(-30);
        let book = begun(page, start).await;
        let planned = dated(page, &demo(), diary(&book)).await;
        let StepStatus::Overdue(days) = planned[0].status else {
            panic!("{:?} is not overdue", planned[0]);
        };
        let said = page.words_of(&row(StepKind::Inspect)).await;
        assert!(said.contains(&format!("{days} days overdue")), "{said}");
    });
}

/// The head of the place says where the work stands, in the core's words, and one tap begins it today.
#[test]
fn the_course_says_where_the_work_stands() {
    on_the_page(async |page| {
        page.go_to("dress").await;
        page.until_said("Choose a start date").await;
        page.press("start-today").await;
        let book = page
            .until_book("the dressing is begun", |book| book.records.len() == 1)
            .await;
        let today = today(page).await;
        assert_eq!(diary(&book).start, today);
        let dated = dated(page, &demo(), diary(&book)).await;
        let kinds = demo()
            .draft()
            .recipe
            .iter()
            .map(|step| step.kind)
            .collect::<Vec<_>>();
        let steps: Vec<_> = kinds.into_iter().zip(dated).collect();
        let course = words::course(&steps, Some(today)).expect("there are steps");
        page.until_said(&course.heading).await;
        page.until_said(&course.ahead).await;
        let parts = page.matching(".strip rect").await;
        let bar = timeline(
            &steps.iter().map(|step| step.1).collect::<Vec<_>>(),
            Some(today),
        );
        let bar = bar.expect("there are steps");
        assert_eq!(parts, bar.segments.len());
        assert!(bar.today.is_some());
        assert_eq!(page.matching(".strip .today").await, 1);
    });
}

/// Source: RFC 5545, section 3.6.1, as the `icalendar` crate reads it: an all-day event ends on the first day after it.
#[test]
fn another_calendar_reads_the_same_days_and_what_to_beware_of() {
    on_the_page(async |page| {
        let book = begun(page, today(page).await).await;
        let planned = dated(page, &demo(), diary(&book)).await;
        page.press("save-calendar").await;
        let path = saved(page, "ics").await;
        let name = path.file_name().and_then(|name| name.to_str());
        assert_eq!(name, Some(calendar::name(&demo()).as_str()));
        let text = fs::read_to_string(&path).expect("the saved file is there");
        let read: Calendar = text.parse().expect("a calendar");
        let events: Vec<_> = read
            .components
            .iter()
            .filter_map(|component| component.as_event())
            .collect();
        let demo = demo();
        let steps = &demo.draft().recipe;
        assert_eq!(events.len(), steps.len());
        for ((event, step), dated) in events.iter().zip(steps).zip(&planned) {
            assert_eq!(date(event.get_start()), dated.first.iso());
            assert_eq!(date(event.get_end()), dated.last.plus(1).iso());
            let said = event.get_description().expect("an event says something");
            for caution in step.kind.cautions() {
                assert!(said.contains(caution.words()), "{said} lacks {caution:?}");
            }
            let is_oil = step.kind.is_oil();
            assert!(!is_oil || said.contains(Caution::OilyRags.words()));
            assert!(!is_oil || said.contains(Caution::DEFERRING));
        }
        let mut uids: Vec<_> = events.iter().filter_map(|event| event.get_uid()).collect();
        uids.sort_unstable();
        uids.dedup();
        assert_eq!(uids.len(), steps.len(), "two steps are one entry");
    });
}

#[test]
fn a_dressing_begun_with_other_steps_says_so_and_can_follow_the_plan() {
    on_the_page(async |page| {
        let start = today(page).await;
        begun(page, start).await;
        follows(page, &demo(), &Diary::new(start)).await;
        page.choose("recipe", "rough").await;
        page.until_there("[data-action=follow-plan]").await;
        page.until_said("started with other steps").await;
        let shown: Vec<[String; 3]> = page.ask(DAYS, vec![]).await;
        assert!(shown.iter().flatten().all(String::is_empty), "{shown:?}");
        let rough = edited(demo(), Edit::Recipe(ReadyRecipe::Rough));
        page.press("follow-plan").await;
        page.until_gone("[data-action=follow-plan]").await;
        let book = page
            .until_book("the record follows the plan", |book| {
                let design = only(book).design.design();
                design.is_ok_and(|design| design.draft().recipe == rough.draft().recipe)
            })
            .await;
        assert_eq!(diary(&book), &Diary::new(start));
        follows(page, &rough, diary(&book)).await;
    });
}

#[test]
fn another_line_of_the_plan_begins_today_and_the_first_keeps_its_ticks() {
    on_the_page(async |page| {
        let start = today(page).await.plus(-20);
        begun(page, start).await;
        unfold(page, StepKind::Inspect).await;
        enter_day(page, &field(StepKind::Inspect, "tick-day"), start).await;
        page.until_book("the tick is kept", |book| diary(book).tick_of(0).is_some())
            .await;
        page.press("course-more").await;
        page.press("begin-another").await;
        let book = page
            .until_book("there are two lines", |book| book.records.len() == 2)
            .await;
        let first = book.records[0].diary.as_ref().expect("it was begun");
        assert_eq!((first.start, first.tick_of(0)), (start, Some(start)));
        let second = &book.records[1];
        assert_eq!(second.line, Some(1));
        assert_eq!(second.diary, Some(Diary::new(today(page).await)));
        follows(page, &demo(), diary(&book)).await;
    });
}

/// Begins the dressing of the line on the bench; returns the book it is written into.
pub(super) async fn begun(page: &Page, start: Day) -> Workshop {
    page.go_to("dress").await;
    enter_day(page, "[data-action=dressing-start]", start).await;
    page.until_book("the dressing is begun in the book", |book| {
        let record = book.records.last();
        record.is_some_and(|record| record.diary == Some(Diary::new(start)))
    })
    .await
}

/// The day it is where the browser is.
pub(super) async fn today(page: &Page) -> Day {
    let iso: String = page.ask(TODAY, vec![]).await;
    Day::parse(&iso).expect("the browser knows the day")
}

/// Enters a day as the browser's own calendar does: the field has it at once, and says that it changed.
pub(super) async fn enter_day(page: &Page, selector: &str, day: Day) {
    let script = "
        const field = document.querySelector(arguments[0]);
        field.value = arguments[1];
        field.dispatchEvent(new Event('input', { bubbles: true }));
        field.dispatchEvent(new Event('change', { bubbles: true }));";
    page.until_there(selector).await;
    page.run(script, vec![json!(selector), json!(day.iso())])
        .await;
}

/// The one line of a book.
fn only(book: &Workshop) -> &LineRecord {
    let [record] = book.records.as_slice() else {
        panic!("{} lines in the book", book.records.len());
    };
    record
}

/// The diary of the newest line of a book.
fn diary(book: &Workshop) -> &Diary {
    let record = book.records.last().expect("there is a line");
    record.diary.as_ref().expect("its dressing has begun")
}

/// The steps on the calendar, as the core lays them out.
async fn dated(page: &Page, design: &Design, diary: &Diary) -> Vec<DatedStep> {
    let steps = design.draft().recipe.iter();
    let legs: Vec<StepTime> = steps
        .map(|step| StepTime {
            hours: step.hours,
            hands: step.kind.takes_hands(),
        })
        .collect();
    let today = Some(today(page).await);
    dates(diary.start, &legs, &diary.ticks, today)
}

/// Every step shows the days, and the standing, that the core gives it.
async fn follows(page: &Page, design: &Design, diary: &Diary) {
    let planned: Vec<[String; 3]> = dated(page, design, diary)
        .await
        .iter()
        .map(|dated| {
            let standing = standing(dated.status);
            [dated.first.iso(), dated.last.iso(), standing.to_owned()]
        })
        .collect();
    until("every step has its days", async || {
        let shown: Vec<[String; 3]> = page.ask(DAYS, vec![]).await;
        (shown == planned).then_some(())
    })
    .await;
}

const fn standing(standing: StepStatus) -> &'static str {
    match standing {
        StepStatus::Done { .. } => "done",
        StepStatus::Next => "next",
        StepStatus::Overdue(_) => "overdue",
        StepStatus::Waiting => "",
    }
}

fn date(when: Option<DatePerhapsTime>) -> String {
    match when {
        Some(DatePerhapsTime::Date(date)) => date.to_string(),
        other => panic!("{other:?} is no whole day"),
    }
}
