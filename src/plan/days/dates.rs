//! When each step of a dressing begins and ends, as planned and as it really went.

use super::Day;

/// Hours of a day at which handwork may begin; before and after them it waits for the next morning. Our own choice.
const MORNING: f64 = 9.0;
const EVENING: f64 = 18.0;
/// The hour a ticked step is taken to have ended at: it is known by its day only. Our own choice.
const NOON: f64 = 12.0;
const HOURS: f64 = 24.0;

/// How long a step takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StepTime {
    /// How long it takes, hours, 0 or more.
    pub hours: f64,
    /// Whether it takes the maker's hands, and so begins by day; else it goes on by day and night.
    pub hands: bool,
}

/// The status of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepStatus {
    /// It was done.
    Done {
        /// On this day.
        on: Day,
        /// So many days later than first planned; negative where earlier.
        late_by: i64,
    },
    /// It is the next to be done.
    Next,
    /// It is the next to be done, and should have been some days ago.
    Overdue(i64),
    /// It waits for others.
    Waiting,
}

/// First and last day.
type Span = (Day, Day);

/// A step on the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DatedStep {
    /// The day it begins.
    pub first: Day,
    /// The day it ends; never before the first.
    pub last: Day,
    /// The day it was to end when nothing had been ticked.
    pub planned: Day,
    /// Its status.
    pub status: StepStatus,
}

/// The steps on the calendar, from a start day on which work begins in the morning. `ticks` holds the day on which a step
/// was done; a tick moves all that follows, and counts from noon of its day. A tick before the day a step began, by the ticks
/// before it, pulls its beginning along; ticks out of order count as they are written.
pub fn dates(
    start: Day,
    steps: &[StepTime],
    ticks: &[Option<Day>],
    today: Option<Day>,
) -> Vec<DatedStep> {
    let planned = run(start, steps, &[]);
    let real = run(start, steps, ticks);
    let tick = |index: usize| ticks.get(index).copied().flatten();
    let next = (0..steps.len()).find(|&index| tick(index).is_none());
    let dated = |(index, (real, planned)): (usize, (Span, Span))| {
        let ((first, last), (_, planned)) = (real, planned);
        let status = match tick(index) {
            Some(on) => StepStatus::Done {
                on,
                late_by: on.since(planned),
            },
            None if next == Some(index) => status(last, today),
            None => StepStatus::Waiting,
        };
        DatedStep {
            first,
            last,
            planned,
            status,
        }
    };
    real.into_iter()
        .zip(planned)
        .enumerate()
        .map(dated)
        .collect()
}

fn status(last: Day, today: Option<Day>) -> StepStatus {
    let late = today.map_or(0, |today| today.since(last));
    if late > 0 {
        StepStatus::Overdue(late)
    } else {
        StepStatus::Next
    }
}

/// First and last day of each step.
fn run(start: Day, steps: &[StepTime], ticks: &[Option<Day>]) -> Vec<Span> {
    // Hours since midnight of the start day.
    let mut clock = MORNING;
    let day = |hours: f64| start.plus(whole_days(hours));
    let mut place = |(index, step): (usize, &StepTime)| {
        let begin = if step.hands { by_day(clock) } else { clock };
        let end = begin + step.hours.max(0.0);
        let (first, last) = (day(begin), day(end));
        match ticks.get(index).copied().flatten() {
            None => {
                clock = end;
                (first, last)
            }
            Some(done) => {
                // On the planned day the planned hour holds: a tick in time moves nothing.
                clock = if done == last {
                    end
                } else {
                    hours_of(done.since(start)) + NOON
                };
                (first.min(done), done)
            }
        }
    };
    steps.iter().enumerate().map(&mut place).collect()
}

/// The next hour from `clock` on at which handwork may begin.
fn by_day(clock: f64) -> f64 {
    let midnight = (clock / HOURS).floor() * HOURS;
    let hour = clock - midnight;
    if hour < MORNING {
        midnight + MORNING
    } else if hour > EVENING {
        midnight + HOURS + MORNING
    } else {
        clock
    }
}

// Two hundred years are far below 2⁵³ hours, and a day is held to its years anyway.
#[allow(clippy::cast_possible_truncation)]
fn whole_days(hours: f64) -> i64 {
    (hours / HOURS).floor() as i64
}

#[allow(clippy::cast_precision_loss)]
fn hours_of(days: i64) -> f64 {
    days as f64 * HOURS
}
