//! At the machine: one step at a time, large, with the screen kept awake. Every tick is kept at once in the line's record.

mod mishap;
mod progress;
mod screen;

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::machine::{Map, Station};
use super::made::{Made, made};
use super::overlay::{Overlay, Sheet};
use super::words;
use crate::browser::storage::LocalStore;
use crate::design::Design;
use crate::plan::{Action, Course, Event, Plan};
use crate::run::{Now, Run};
use crate::shelf::Store as _;
use crate::units::Length;
use crate::units::show;
use crate::units::text::{Unit, read};
use crate::view::field::TextField;

/// Key under which the distance to the rollers is kept, metres.
const ROLLERS_KEY: &str = "taperwright/rollers";

/// The line at the machine.
#[derive(Clone, Copy)]
struct Work {
    bench: Bench,
    made: Made,
    /// The design it is braided by, and its plan.
    planned: Memo<Option<(Design, Plan)>>,
    /// What is done of it.
    run: Memo<Option<Run>>,
    /// What was done at its real places, and what is to do.
    course: Memo<Option<Course>>,
    /// The step to do now.
    now: Memo<Option<Now>>,
    /// From where the threads meet to where the maker measures.
    rollers: RwSignal<Length>,
}

/// The line on this sheet.
fn work() -> Work {
    expect_context::<Work>()
}

impl Work {
    fn open(bench: Bench) -> Self {
        let made = made();
        // Reckoned once for the plan it was begun by, not for every tick.
        let frozen = Memo::new(move |_| {
            made.record
                .with(|record| record.as_ref().map(|(_, record)| record.design.clone()))
        });
        let planned = Memo::new(move |_| {
            frozen.with(|frozen| {
                let design = frozen.as_ref()?.design().ok()?;
                Some((design.clone(), Plan::of(design)))
            })
        });
        let run = Memo::new(move |_| made.record.with(|record| record.as_ref()?.1.run.clone()));
        let mishaps =
            Memo::new(move |_| run.with(|run| run.as_ref().map(|run| run.mishaps.clone())));
        let course = Memo::new(move |_| {
            let mishaps = mishaps.get()?;
            planned.with(|planned| {
                let (design, plan) = planned.as_ref()?;
                let run = Run {
                    mishaps,
                    ..Run::default()
                };
                Some(run.course(design, plan))
            })
        });
        let now = Memo::new(move |_| {
            run.with(|run| {
                course.with(|course| {
                    planned.with(|planned| {
                        let (_, plan) = planned.as_ref()?;
                        Some(Now::of(run.as_ref()?, course.as_ref()?, plan))
                    })
                })
            })
        });
        Self {
            bench,
            made,
            planned,
            run,
            course,
            now,
            rollers: RwSignal::new(kept_rollers()),
        }
    }

    /// Takes the line on: from now on it is braided by the plan as it is.
    fn begin(self) {
        self.made.begin();
        self.made.change(|record| record.run = Some(Run::default()));
    }

    fn change(self, change: impl FnOnce(Run, &Course) -> Run) {
        let run = self.run.get_untracked();
        let after = self
            .course
            .with_untracked(|course| Some(change(run?, course.as_ref()?)));
        if let Some(after) = after {
            self.put(after);
        }
    }

    fn put(self, run: Run) {
        self.made.change(|record| record.run = Some(run));
    }

    fn set_rollers(self, distance: Length) {
        self.rollers.set(distance);
        let kept = LocalStore.set(ROLLERS_KEY, &distance.metres().to_string());
        if let Err(error) = kept {
            self.bench.say(error.to_string());
        }
    }
}

/// The distance kept at an earlier visit; none where it makes no sense.
fn kept_rollers() -> Length {
    let kept = LocalStore.get(ROLLERS_KEY).ok().flatten();
    let metres = kept.and_then(|text| text.parse::<f64>().ok());
    Length::from_metres(
        metres
            .filter(|metres| (0.0..=10.0).contains(metres))
            .unwrap_or(0.0),
    )
}

/// The sheet; what is on it is only made while it is open.
#[component]
pub(crate) fn AtMachine() -> impl IntoView {
    let bench = bench();
    let is_open = move || bench.sheet.get() == Some(Sheet::Machine);
    view! {
        <Overlay sheet=Sheet::Machine label="At the machine" has_print=false>
            <Show when=is_open>
                <Stand />
            </Show>
        </Overlay>
    }
}

#[component]
fn Stand() -> impl IntoView {
    let bench = bench();
    let work = Work::open(bench);
    provide_context(work);
    let has_begun = Memo::new(move |_| work.run.with(Option::is_some));
    view! {
        <article class="stand">
            <screen::KeptAwake />
            <Show when=move || has_begun.get() fallback=move || view! { <Begin /> }>
                <Step />
            </Show>
            {move || bench.message.get().map(|message| view! { <p class="said" role="alert">{message.text}</p> })}
        </article>
    }
}

#[component]
fn Begin() -> impl IntoView {
    let work = work();
    let title = move || work.bench.settled.with(|design| design.title().to_owned());
    view! {
        <h1>{move || format!("Braid {}", title())}</h1>
        <p>
            "One step at a time. The line is braided by the plan as it is now, whatever you change in the drawing later; every
            step you tick is kept at once, in the bench book."
        </p>
        <button class="main huge" data-action="run-begin" on:click=move |_| work.begin()>"Begin this line"</button>
    }
}

/// What to do now.
#[component]
fn Step() -> impl IntoView {
    let work = work();
    let now = work.now;
    let is_done =
        Memo::new(move |_| now.with(|now| now.as_ref().is_some_and(|now| now.event.is_none())));
    let counted = move || {
        now.with(|now| {
            now.as_ref()
                .map(|now| format!("step {} of {}", (now.index + 1).min(now.count), now.count))
        })
    };
    view! {
        <p class="counted" data-step-index=move || now.with(|now| now.as_ref().map(|now| now.index.to_string()))>{counted}</p>
        <Show when=move || !is_done.get() fallback=move || view! { <AllDone /> }>
            <ToDo />
        </Show>
        <progress::Progress />
        <Show when=move || !is_done.get()>
            <Ahead />
            <MapThere />
            <mishap::Mishaps />
            <Rollers />
        </Show>
    }
}

/// The step, the way to it, and the buttons.
#[component]
fn ToDo() -> impl IntoView {
    let work = work();
    let units = move || work.bench.units.get();
    let now = work.now;
    let way = move || now.with(|now| now.as_ref().and_then(|now| way_words(now, units())));
    let deed = move || now.with(|now| now.as_ref()?.event.as_ref().map(deed_words));
    let more = move || {
        let lead_in = work
            .planned
            .with(|planned| planned.as_ref().map(|(design, _)| design.lead_in()));
        now.with(|now| {
            now.as_ref()?
                .event
                .as_ref()
                .and_then(|event| more_words(event, lead_in?, units()))
        })
    };
    let mark = move || {
        let rollers = work.rollers.get();
        now.with(|now| {
            now.as_ref()?
                .event
                .as_ref()
                .map(|event| mark_words(event, rollers, units()))
        })
    };
    let at_start = move || now.with(|now| now.as_ref().is_none_or(|now| now.index == 0));
    let is_way = Memo::new(move |_| {
        now.with(|now| now.as_ref().is_some_and(|now| now.remaining > Length::ZERO))
    });
    view! {
        <Show when=move || is_way.get()>
            <p class="way" data-run=move || now.with(|now| now.as_ref().map(|now| now.remaining.metres().to_string()))>{way}</p>
            <Counter />
            <p class="where-at">{mark}</p>
        </Show>
        <p class="stop-first">"Stop the machine and let it come to rest before you reach in."</p>
        <p class="deed" role="status">{deed}</p>
        <p class="more">{more}</p>
        <div class="big-buttons">
            <button class="main huge" data-action="run-done" on:click=move |_| work.change(Run::tick)>"Done"</button>
            <button class="huge" data-action="run-back" disabled=at_start on:click=move |_| work.change(|run, _| run.back())>"Back one step"</button>
        </div>
    }
}

/// Circuits counted by tap.
#[component]
fn Counter() -> impl IntoView {
    let work = work();
    let counted = move || {
        work.run
            .with(|run| run.as_ref().map_or(0, |run| run.circuits))
    };
    let wanted = move || {
        work.now
            .with(|now| now.as_ref().map_or(0.0, |now| now.circuits))
    };
    view! {
        <div class="counter">
            <button class="huge" data-action="circuit" on:click=move |_| work.change(|run, _| run.count(true))>
                {move || format!("{} of {:.1} circuits", counted(), wanted())}
                <small>"tap for each"</small>
            </button>
            <button class="huge" data-action="circuit-less" aria-label="one circuit less" on:click=move |_| work.change(|run, _| run.count(false))>
                "−"
            </button>
        </div>
    }
}

/// How far to run: `Run 1.234 m: 540.2 circuits, 31 crossings, 12 min`.
fn way_words(now: &Now, units: show::Units) -> Option<String> {
    (now.remaining > Length::ZERO).then_some(())?;
    let turns = if now.turns > 0.0 {
        format!(", {:.0} handle turns", now.turns)
    } else {
        String::new()
    };
    Some(format!(
        "Run {}: {:.1} circuits, {:.0} crossings along one rib{turns}, {}",
        units.show_position(now.remaining),
        now.circuits,
        now.crossings,
        show::minutes(now.minutes)
    ))
}

/// The step in large words.
fn deed_words(event: &Event) -> String {
    match &event.action {
        Action::Add { carrier, ends } => format!(
            "Add a thread of {ends} ends on {}",
            words::carrier(*carrier)
        ),
        Action::Drop { carrier, .. } => format!("Drop the thread on {}", words::carrier(*carrier)),
        Action::Swap { carrier, from, to } => format!(
            "On {} take the thread of {from} ends off, put that of {to} on",
            words::carrier(*carrier)
        ),
        Action::Gear { from, to } => format!("Take the gear {from} off, fit {to}"),
        Action::Start(set) => format!(
            "Thread {} carriers and fit the gear {}",
            set.len(),
            event.wheels
        ),
        Action::End(_) => "Stop: the line is long enough. Cut it behind this place.".to_owned(),
    }
}

fn more_words(event: &Event, lead_in: Length, units: show::Units) -> Option<String> {
    match &event.action {
        Action::Start(set) => Some(format!(
            "{}. {} Mark the tip there.",
            words::set(set),
            words::lead_in(lead_in, units)
        )),
        Action::Drop { .. } => Some("Cut it off, lay its tail into the core.".to_owned()),
        _ => None,
    }
}

/// Where the step is, at the point where the threads meet and at the maker's own mark.
fn mark_words(event: &Event, rollers: Length, units: show::Units) -> String {
    let at = units.show_position(event.at);
    if rollers <= Length::ZERO {
        return format!("at {at} from the tip, where the threads meet");
    }
    let mark = event.at - rollers;
    if mark > Length::ZERO {
        format!(
            "when {} have passed your mark ({at} where the threads meet)",
            units.show_position(mark)
        )
    } else {
        format!(
            "{} before the tip comes to your mark ({at} where the threads meet)",
            units.show_position(mark.abs())
        )
    }
}

/// The next two steps.
#[component]
fn Ahead() -> impl IntoView {
    let work = work();
    let rows = move || {
        let units = work.bench.units.get();
        let ahead = work.now.with(|now| {
            now.as_ref()
                .map(|now| now.ahead.clone())
                .unwrap_or_default()
        });
        let row = |event: Event| {
            let words = format!(
                "at {}: {}",
                units.show_position(event.at),
                deed_words(&event)
            );
            view! { <li>{words}</li> }
        };
        ahead.into_iter().map(row).collect_view()
    };
    view! {
        <h2>"Then"</h2>
        <ol class="ahead">{rows}</ol>
    }
}

/// The ring with the carriers that are on, and the one this step is about.
#[component]
fn MapThere() -> impl IntoView {
    let work = work();
    let at = Memo::new(move |_| {
        work.now
            .with(|now| now.as_ref().map_or(Length::ZERO, |now| now.stands))
    });
    let here = Memo::new(move |_| {
        work.planned.with(|planned| {
            let (design, plan) = planned.as_ref()?;
            work.now.with(|now| {
                let now = now.as_ref()?;
                Some(Station::of_run(design, plan, now))
            })
        })
    });
    let next_at = Memo::new(move |_| {
        work.now.with(|now| {
            let now = now.as_ref()?;
            let behind = now.event.iter().chain(&now.ahead);
            behind
                .clone()
                .find(|event| event.action.is_of_threads())
                .map(|event| event.at)
        })
    });
    view! {
        {move || here.get().map(|here| {
            let here = Memo::new(move |_| here.clone());
            view! { <Map station=Station { at, here, next_at } /> }
        })}
    }
}

#[component]
fn AllDone() -> impl IntoView {
    let work = work();
    let made = move || {
        work.course.with(|course| {
        let course = course.as_ref()?;
        Some(format!(
            "Braided: {} of line, {} bare. Weigh it, and write that into the bench book; then the dressing begins.",
            work.bench.units.get().show_position(course.line.length()),
            show::grams(course.line.bare_mass(Length::ZERO, course.line.length()))
        ))
    })
    };
    view! {
        <p class="deed" role="status">"All steps are done."</p>
        <p class="more">{made}</p>
        <div class="big-buttons">
            <button class="huge" data-action="run-back" on:click=move |_| work.change(|run, _| run.back())>"Back one step"</button>
            <button class="huge" data-action="run-again" on:click=move |_| { work.made.let_go(); work.begin(); }>
                "Begin another of this plan"
            </button>
        </div>
    }
}

/// The distance to where the maker measures, set once.
#[component]
fn Rollers() -> impl IntoView {
    let work = work();
    let unit = move || match work.bench.units.get() {
        show::Units::Metric => Unit::Centimetre,
        show::Units::Imperial => Unit::Inch,
    };
    let value = move || {
        Unit::Metre
            .convert(work.rollers.get().metres(), unit())
            .unwrap_or(0.0)
    };
    let take = move |text: String| {
        let typed = read(&text, unit()).map_err(|unread| unread.to_string())?;
        let metres = unit().convert(typed, Unit::Metre).unwrap_or(0.0);
        if !(0.0..=10.0).contains(&metres) {
            return Err(
                "The rollers are between 0 and 10 m from where the threads meet.".to_owned(),
            );
        }
        work.set_rollers(Length::from_metres(metres));
        Ok(())
    };
    view! {
        <details class="finer">
            <summary>"I measure elsewhere than where the threads meet"</summary>
            <TextField
                label="from where the threads meet to your mark"
                action="rollers"
                numeric=true
                unit=Signal::derive(move || unit().symbol().to_owned())
                value=Signal::derive(move || show::trimmed(value(), 2))
                commit=take
                ground="At the rollers, say. Measured once along the braid; every length is then also told at your mark."
            />
        </details>
    }
}
