//! What a page's own thread did, read off the browser's trace.

use serde_json::Value;

use super::cdp::Session;

/// What is traced: work of the page's thread, on the time line that developers see.
pub(crate) const CATEGORIES: &str = "devtools.timeline,disabled-by-default-devtools.timeline";

/// Work by these names is scripting, layout or paint; each is counted with all it holds.
const WORK: [&str; 13] = [
    "EventDispatch",
    "FireAnimationFrame",
    "TimerFire",
    "FunctionCall",
    "RunMicrotasks",
    "v8.callFunction",
    "ParseHTML",
    "UpdateLayoutTree",
    "Layout",
    "PrePaint",
    "Paint",
    "Layerize",
    "Commit",
];

/// A stretch of time on the page's thread, in seconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Span {
    pub(crate) from: f64,
    pub(crate) to: f64,
}

impl Span {
    pub(crate) fn length(self) -> f64 {
        self.to - self.from
    }
}

/// What happened on the page's thread, in order.
#[derive(Debug, Default)]
pub(crate) struct Trace {
    /// Scripting, layout and paint; no two overlap.
    pub(crate) work: Vec<Span>,
    /// Whole tasks.
    pub(crate) tasks: Vec<Span>,
    /// When the pointer came down last.
    pub(crate) taken: Option<f64>,
    /// When a move of the pointer was told to the page.
    pub(crate) moves: Vec<f64>,
    /// When the pointer went up last.
    pub(crate) let_go: Option<f64>,
}

impl Trace {
    /// Leaves the page and takes what was traced of it: the driver tells that when it goes elsewhere. The page's thread is the
    /// one that calls animation frames.
    pub(crate) async fn take(session: &Session) -> Self {
        let left = session.client.goto("about:blank").await;
        left.expect("the browser leaves the page");
        let entries = session.log("performance");
        let events: Vec<Event> = entries.iter().filter_map(Event::read).collect();
        let Some(thread) = busiest(&events) else {
            return Self::default();
        };
        let mut own: Vec<&Event> = events.iter().filter(|one| one.thread == thread).collect();
        own.sort_by(|a, b| a.span.from.total_cmp(&b.span.from));
        let spans = |is_one: &dyn Fn(&str) -> bool| {
            let ones = own.iter().filter(|event| is_one(&event.name));
            ones.map(|event| event.span).collect::<Vec<_>>()
        };
        let told = |kind: &str| {
            let ones = own.iter().filter(|event| event.told == kind);
            ones.map(|event| event.span.from).collect::<Vec<_>>()
        };
        Self {
            work: joined(spans(&|name| WORK.contains(&name))),
            tasks: joined(spans(&|name| name.ends_with("RunTask"))),
            taken: told("pointerdown").last().copied(),
            moves: told("pointermove"),
            let_go: told("pointerup").last().copied(),
        }
    }

    /// The longest task between two moments.
    pub(crate) fn longest(&self, from: f64, to: f64) -> f64 {
        let tasks = self.tasks.iter();
        let within = tasks.filter(|task| task.to > from && task.from < to);
        within.map(|task| task.length()).fold(0.0, f64::max)
    }

    /// How long the thread worked between two moments.
    pub(crate) fn worked(&self, from: f64, to: f64) -> f64 {
        let within = |span: &Span| (span.to.min(to) - span.from.max(from)).max(0.0);
        self.work.iter().map(within).sum()
    }
}

struct Event {
    name: String,
    /// What was told to the page, where that is what happened.
    told: String,
    thread: (i64, i64),
    span: Span,
}

impl Event {
    /// A finished stretch of work in a note of the browser's log.
    fn read(entry: &Value) -> Option<Self> {
        let note: Value = serde_json::from_str(entry["message"].as_str()?).ok()?;
        let event = &note["message"]["params"];
        if note["message"]["method"] != "Tracing.dataCollected" || event["ph"] != "X" {
            return None;
        }
        let seconds = |key: &str| Some(event[key].as_f64()? * 1e-6);
        let from = seconds("ts")?;
        Some(Self {
            name: event["name"].as_str()?.to_owned(),
            told: event["args"]["data"]["type"]
                .as_str()
                .unwrap_or_default()
                .to_owned(),
            thread: (event["pid"].as_i64()?, event["tid"].as_i64()?),
            span: Span {
                from,
                to: from + seconds("dur").unwrap_or(0.0),
            },
        })
    }
}

fn busiest(events: &[Event]) -> Option<(i64, i64)> {
    let frames = events
        .iter()
        .filter(|event| event.name == "FireAnimationFrame");
    let mut threads: Vec<_> = frames.map(|event| event.thread).collect();
    threads.sort_unstable();
    let count = |thread: &(i64, i64)| threads.iter().filter(|one| *one == thread).count();
    threads.iter().max_by_key(|thread| count(thread)).copied()
}

/// Spans in order, those that overlap as one.
fn joined(spans: Vec<Span>) -> Vec<Span> {
    let mut joined: Vec<Span> = Vec::new();
    for span in spans {
        match joined.last_mut() {
            Some(last) if span.from < last.to => last.to = last.to.max(span.to),
            _ => joined.push(span),
        }
    }
    joined
}
