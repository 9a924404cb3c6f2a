//! The days of the dressing: when it begins, what is done, what follows. They belong to a line in the bench book.

use leptos::prelude::*;

use crate::braid::recipe::DraftStep;
use crate::design::Design;
use crate::keep::book::Frozen;
use crate::keep::book::record::LineRecord;
use crate::keep::share::calendar;
use crate::page::browser::{clock, files};
use crate::page::view::bench::Bench;
use crate::page::view::book::Desk;
use crate::page::view::made::{Made, made};
use crate::plan::days::course::{Dated, Leg, Standing, course};
use crate::plan::days::{Day, Diary};

/// The line in dressing: its diary, and its steps on the calendar.
#[derive(Clone, Copy)]
pub(crate) struct Days {
    bench: Bench,
    desk: Desk,
    made: Made,
    /// The line being made, once its dressing has begun.
    record: Memo<Option<(usize, LineRecord)>>,
    /// Whether it is dressed by the steps now in the plan.
    fits: Memo<bool>,
    /// The steps on the calendar; empty where nothing has begun or other steps are followed.
    dated: Memo<Vec<Dated>>,
}

/// The days of this page.
pub(crate) fn days() -> Days {
    expect_context::<Days>()
}

impl Days {
    /// The days of the line on the bench.
    pub(crate) fn open(bench: Bench, desk: Desk) -> Self {
        let made = made();
        let record = Memo::new(move |_| {
            made.record
                .get()
                .filter(|(_, record)| record.diary.is_some())
        });
        let fits = Memo::new(move |_| {
            let steps_of = |design: &Design| design.draft().recipe.clone();
            let followed = record.with(|record| {
                let made = record.as_ref()?.1.design.design();
                made.ok().map(steps_of)
            });
            bench
                .settled
                .with(|design| followed == Some(steps_of(design)))
        });
        let dated = Memo::new(move |_| {
            let diary = record.with(|record| record.as_ref()?.1.diary.clone());
            let Some(diary) = diary.filter(|_| fits.get()) else {
                return Vec::new();
            };
            let legs = bench.settled.with(legs);
            course(diary.start, &legs, &diary.ticks, clock::today())
        });
        Self {
            bench,
            desk,
            made,
            record,
            fits,
            dated,
        }
    }

    /// A step on the calendar.
    pub(super) fn of(self, index: usize) -> Option<Dated> {
        self.dated.with(|dated| dated.get(index).copied())
    }

    /// All steps on the calendar.
    pub(super) fn all(self) -> Vec<Dated> {
        self.dated.get()
    }

    /// Whether days are shown.
    pub(super) fn are_shown(self) -> bool {
        self.dated.with(|dated| !dated.is_empty())
    }

    /// Notes the day a step was done, or that it was not.
    pub(super) fn tick(self, index: usize, day: Option<Day>) {
        self.change(|diary| diary.tick(index, day));
    }

    fn change(self, change: impl FnOnce(&mut Diary)) {
        self.made.change(|record| {
            if let Some(diary) = &mut record.diary {
                change(diary);
            }
        });
    }

    /// Begins the dressing of the line being made on a day; where it has begun, moves its start.
    fn begin(self, start: Day) {
        self.made.begin();
        self.made.change(|record| match &mut record.diary {
            Some(diary) => diary.start = start,
            None => record.diary = Some(Diary::new(start)),
        });
    }

    /// Another line of the same plan: the last one is done with.
    fn begin_another(self) {
        if let Some(today) = clock::today() {
            self.made.let_go();
            self.begin(today);
        }
    }

    /// Lets the line in the book be dressed by the steps now in the plan; its drawing stays as it was made.
    fn follow_plan(self) {
        let Some(record) = self.made.record_untracked() else {
            return;
        };
        let Ok(made) = record.design.design() else {
            return;
        };
        let mut draft = made.draft().clone();
        draft.recipe = self
            .bench
            .settled
            .with_untracked(|design| design.draft().recipe.clone());
        match Design::parse(draft) {
            Ok(design) => self
                .made
                .change(|record| record.design = Frozen::of(&design)),
            Err(refusal) => self.bench.say(refusal.to_string()),
        }
    }

    fn save_calendar(self) {
        let entries = self.bench.settled.with_untracked(|design| {
            let key = self
                .record
                .with_untracked(|record| record.as_ref().map_or(0, |(index, _)| *index));
            let place = self.desk.number.get_untracked().unwrap_or_default();
            let name = format!(
                "{place}-{key}-{}",
                self.start_untracked().map(Day::iso).unwrap_or_default()
            );
            calendar::of_dressing(design, &self.dated.get_untracked(), &name)
        });
        let text = calendar::write(&entries, &clock::stamp());
        let name = self.bench.settled.with_untracked(calendar::name);
        if files::save(&name, &text, "text/calendar").is_err() {
            self.bench
                .say("The browser would not save the file.".to_owned());
        }
    }

    fn start(self) -> Option<Day> {
        self.record
            .with(|record| Some(record.as_ref()?.1.diary.as_ref()?.start))
    }

    fn start_untracked(self) -> Option<Day> {
        untrack(move || self.start())
    }
}

fn legs(design: &Design) -> Vec<Leg> {
    let leg = |step: &DraftStep| Leg {
        hours: step.hours,
        hands: step.kind.takes_hands(),
    };
    design.draft().recipe.iter().map(leg).collect()
}

/// When it begins, and what can be done with the days as a whole.
#[component]
pub(super) fn Start() -> impl IntoView {
    let days = days();
    let has_begun = Memo::new(move |_| days.record.with(Option::is_some));
    let name = move || {
        days.record
            .with(|record| record.as_ref().map(|(_, record)| record.name.clone()))
    };
    let words = move || {
        match name() {
        Some(name) => format!("In dressing: {name}. Tick each step on the day it was done; what follows moves along."),
        None => "Name the day work begins, and every step gets its days. The line is written into the bench book.".to_owned(),
    }
    };
    let is_other = move || has_begun.get() && !days.fits.get();
    view! {
        <p class="hint">{words}</p>
        <div class="fields">
            <DayField
                label="work begins on"
                action="dressing-start"
                value=Signal::derive(move || days.start())
                take=Callback::new(move |day: Option<Day>| if let Some(day) = day { days.begin(day) })
            />
        </div>
        <Show when=is_other>
            <p class="caution">
                "The line in dressing was begun with other steps than the plan has now, so its days are not shown here."
            </p>
            <button data-action="follow-plan" on:click=move |_| days.follow_plan()>"Dress it by the steps as they are now"</button>
        </Show>
        <Show when=move || days.are_shown()>
            <super::timeline::Strip />
            <div class="step-buttons">
                <button data-action="save-calendar" on:click=move |_| days.save_calendar()>"Save the days for my calendar"</button>
                <button data-action="begin-another" on:click=move |_| days.begin_another()>"Begin another line of this plan today"</button>
            </div>
        </Show>
    }
}

/// A field for a day; the browser offers its own calendar.
#[component]
fn DayField(
    label: &'static str,
    action: &'static str,
    value: Signal<Option<Day>>,
    take: Callback<Option<Day>>,
) -> impl IntoView {
    let wrong = RwSignal::new(None::<String>);
    let finish = move |text: String| {
        if text.is_empty() {
            wrong.set(None);
            return take.run(None);
        }
        match Day::parse(&text) {
            Ok(day) => {
                wrong.set(None);
                take.run(Some(day));
            }
            Err(said) => wrong.set(Some(said.to_string())),
        }
    };
    view! {
        <div class="field" class:wrong=move || wrong.with(Option::is_some)>
            <span class="label">{label}</span>
            <span class="entry">
                <input
                    type="date"
                    aria-label=label
                    data-action=action
                    min="2000-01-01"
                    max="2199-12-31"
                    prop:value=move || value.get().map(Day::iso).unwrap_or_default()
                    on:change:target=move |event| finish(event.target().value())
                />
            </span>
            {move || wrong.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
        </div>
    }
}

/// The days of a step, in its row.
#[component]
pub(super) fn StepDays(index: usize) -> impl IntoView {
    let days = days();
    let dated = Memo::new(move |_| days.of(index));
    let words = move || dated.get().map(|dated| day_words(&dated));
    let standing = move || dated.get().and_then(|dated| standing_words(dated.standing));
    view! {
        <span class="days" data-first=move || dated.get().map(|it| it.first.iso()) data-last=move || dated.get().map(|it| it.last.iso())>
            {words}
        </span>
        {move || standing().map(|(words, key)| view! { <span class="standing-of" data-standing=key>{words}</span> })}
    }
}

/// `Wed 25 Nov`, or from one day to another.
fn day_words(dated: &Dated) -> String {
    if dated.first == dated.last {
        dated.first.words()
    } else {
        format!("{} – {}", dated.first.words(), dated.last.words())
    }
}

fn standing_words(standing: Standing) -> Option<(String, &'static str)> {
    let days = |count: i64| match count {
        1 => "1 day".to_owned(),
        count => format!("{count} days"),
    };
    Some(match standing {
        Standing::Done { on, late_by } => {
            let late = match late_by {
                0 => String::new(),
                late if late > 0 => format!(", {} late", days(late)),
                early => format!(", {} early", days(-early)),
            };
            (format!("✓ done {}{late}", on.words()), "done")
        }
        Standing::Next => ("next".to_owned(), "next"),
        Standing::Overdue(by) => (format!("next, {} overdue", days(by)), "overdue"),
        Standing::Waiting => return None,
    })
}

/// Ticking a step, in its open row.
#[component]
pub(super) fn Tick(index: usize) -> impl IntoView {
    let days = days();
    let done = Memo::new(move |_| match days.of(index)?.standing {
        Standing::Done { on, .. } => Some(on),
        _ => None,
    });
    view! {
        <Show when=move || days.of(index).is_some()>
            <div class="tick">
                <button
                    data-action="tick"
                    aria-pressed=move || done.get().is_some().to_string()
                    on:click=move |_| {
                        let day = if done.get_untracked().is_some() { None } else { clock::today() };
                        days.tick(index, day);
                    }
                >
                    {move || if done.get().is_some() { "Not done after all" } else { "Done today" }}
                </button>
                <DayField
                    label="done on"
                    action="tick-day"
                    value=Signal::derive(move || done.get())
                    take=Callback::new(move |day| days.tick(index, day))
                />
            </div>
        </Show>
    }
}
