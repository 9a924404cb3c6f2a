//! The run clock: where it has the machine is where the machine is, and the pace is learnt.
//!
//! Sources: analytic, but for the loss of precision of a median and a mean, and the least error of any estimate (Cramér 1946; Rao 1945).

use proptest::prelude::*;
use taperwright::design::demo::demo;
use taperwright::plan::Plan;
use taperwright::plan::run::{
    Between, Countdown, Look, Now, Pace, PaceBasis, Run, Signal, Ticks, Timed,
};

use crate::chance::Chance;
use crate::lines::cases;

/// A moment, in milliseconds since 1970.
const MORNING: f64 = 1_798_884_000_000.0;
/// The true pace of the machine, in circuits a minute.
const PACE: f64 = 41.0;

fn learnt(timed: Vec<Timed>) -> Pace {
    let mut run = Run::default();
    run.clock.timed = timed;
    Pace::of(&run.clock, &[], 25.0)
}

/// A stretch of the machine that seems to have taken so much longer, as a share, and some seconds.
fn stretch(circuits: f64, share: f64, seconds: f64) -> Timed {
    Timed {
        circuits,
        seconds: circuits / PACE * 60.0 * (1.0 + share) + seconds,
        with_stop: false,
    }
}

/// Five stretches of 3 to 15 minutes, as those of the example.
fn five(chance: &mut Chance) -> [f64; 5] {
    [(); 5].map(|()| PACE * (3.0 + 12.0 * chance.uniform()))
}

/// How many of a number of runs come within 1 % of the true pace.
fn share_within(runs: u32, share: f64, run: impl Fn(&mut Chance) -> Vec<Timed>) -> f64 {
    let mut chance = Chance::of(23);
    let is_near = |_: &u32| {
        let pace = learnt(run(&mut chance)).circuits_per_minute;
        (pace / PACE - 1.0).abs() <= share
    };
    let mut is_near = is_near;
    let near = (0..runs).filter(|it| is_near(it)).count();
    near as f64 / f64::from(runs)
}

/// Both presses of every stretch are off by two seconds, one standard deviation: after five stops the pace is right to 1 %.
#[test]
fn the_pace_is_learnt_within_five_stops() {
    let near = share_within(1_000, 0.01, |chance| {
        let press = |chance: &mut Chance| 2.0 * chance.normal();
        let circuits = five(chance);
        circuits
            .map(|it| stretch(it, 0.0, press(chance) - press(chance)))
            .to_vec()
    });
    assert!(near >= 0.99, "{near}");
}

/// Of ten stretches one is wrong, by up to twice its time: a stop that was not marked, a counter misread.
#[test]
fn a_wrong_stretch_in_ten_does_not_mislead() {
    let near = share_within(1_000, 0.01, |chance| {
        let circuits = five(chance);
        circuits
            .map(|it| {
                let is_wrong = chance.uniform() < 0.1;
                let share = if is_wrong {
                    0.1 + 1.9 * chance.uniform()
                } else {
                    0.0
                };
                stretch(it, share, 2.0 * chance.normal())
            })
            .to_vec()
    });
    assert!(near >= 0.97, "{near}");
}

/// Where every stretch is off by 10 % by itself, no estimate from five of them can be right to 1 %: the least error of any is 10 %
/// over the root of five, 4.5 %. It comes within a fifth of that, and to 1 % as soon as the number of stretches allows: the error falls
/// with its root.
#[test]
fn errors_of_ten_percent_fall_with_the_root_of_their_number() {
    let error = |count: usize| {
        let mut chance = Chance::of(7);
        let runs = 800;
        let square = |_| {
            let timed = (0..count).map(|_| stretch(400.0, 0.1 * chance.normal(), 0.0));
            let pace = learnt(timed.collect()).circuits_per_minute;
            (PACE / pace - 1.0).powi(2)
        };
        let sum: f64 = (0..runs).map(square).sum();
        (sum / f64::from(runs)).sqrt()
    };
    for count in [5, 20, 100] {
        let least = 0.1 / (count as f64).sqrt();
        let error = error(count);
        assert!(
            (0.9 * least..1.2 * least).contains(&error),
            "{count}: {error} {least}"
        );
    }
}

/// A maker who never says that the machine is stopped: the time of a stretch holds the work at its stop.
#[test]
fn without_the_stops_marked_the_fastest_stretch_teaches() {
    let stretches = [30.0, 200.0, 75.0].map(|stop| Timed {
        with_stop: true,
        ..stretch(400.0, 0.0, stop)
    });
    let pace = learnt(stretches.to_vec());
    assert_eq!(pace.basis, PaceBasis::ThisLine(3));
    assert!(
        (0.94..=1.0).contains(&(pace.circuits_per_minute / PACE)),
        "{pace:?}"
    );
    let mut marked = stretches.to_vec();
    marked.push(stretch(400.0, 0.0, 0.0));
    assert!((learnt(marked).circuits_per_minute / PACE - 1.0).abs() < 1e-9);
}

#[test]
fn the_makers_own_pace_comes_first_then_this_line_then_earlier_ones_then_what_is_set() {
    let run = Run::default();
    let earlier = [stretch(400.0, 0.0, 0.0)];
    let basis = |run: &Run, earlier: &[Timed]| Pace::of(&run.clock, earlier, 25.0).basis;
    assert_eq!(basis(&run, &[]), PaceBasis::Settings);
    assert_eq!(basis(&run, &earlier), PaceBasis::EarlierLines(1));
    let mut timed = run.clone();
    timed.clock.timed = vec![stretch(300.0, 0.0, 0.0); 2];
    assert_eq!(basis(&timed, &[]), PaceBasis::ThisLine(2));
    assert_eq!(basis(&timed, &earlier), PaceBasis::EarlierLines(3));
    timed.clock.timed.push(stretch(350.0, 0.0, 0.0));
    assert_eq!(basis(&timed, &earlier), PaceBasis::ThisLine(3));
    assert_eq!(
        basis(&timed.clone().with_pace(Some(50.0)), &earlier),
        PaceBasis::Own
    );
    assert_eq!(
        basis(&timed.with_pace(Some(f64::NAN)), &earlier),
        PaceBasis::ThisLine(3)
    );
}

/// What happens at the machine.
#[derive(Clone, Copy, Debug)]
enum Happens {
    Starts,
    Stops,
    Passes(f64),
    CountsIn,
    Nudges(i32),
    Ticks,
    TakesBack,
    /// The clock of the device is set ahead, and the maker says that the machine did not run in that time, or says nothing.
    JumpsAhead(f64, bool),
    SetBack(f64),
}

fn happens() -> impl Strategy<Value = Happens> {
    prop_oneof![
        Just(Happens::Starts),
        Just(Happens::Starts),
        Just(Happens::Stops),
        (0.0_f64..400.0).prop_map(Happens::Passes),
        (0.0_f64..400.0).prop_map(Happens::Passes),
        Just(Happens::CountsIn),
        (-3_i32..4).prop_map(Happens::Nudges),
        Just(Happens::Ticks),
        Just(Happens::TakesBack),
        (3.0_f64..4_000.0, any::<bool>()).prop_map(|(by, says)| Happens::JumpsAhead(by, says)),
        (3.0_f64..4_000.0).prop_map(Happens::SetBack),
    ]
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn whole(circuits: f64) -> u32 {
    circuits as u32
}

fn countdown(run: &Run, now: f64) -> Countdown {
    let pace = Pace {
        circuits_per_minute: PACE,
        basis: PaceBasis::Own,
        spread: None,
    };
    Countdown::of(run, 1000.0, pace, now)
}

proptest! {
    #![proptest_config(cases(300))]

    /// A machine of the test's own beside the run: what the run has of circuits is what the machine has, through starts, stops, counts
    /// and ticks, whenever presses are exact; and what is written down reads back.
    #[test]
    fn the_clock_is_where_the_machine_is(what in prop::collection::vec(happens(), 1..60)) {
        let design = demo();
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let (mut run, mut ticks) = (Run::default(), Ticks::default());
        let (mut now, mut circuits, mut is_running) = (MORNING, 0.0_f64, false);
        let mut before_ticks: Vec<(f64, bool, f64, f64, u32)> = Vec::new();
        // How often the clock was set, and by how much nobody said of it what it was.
        let (mut jumps, mut doubtful) = (0_u32, 0.0_f64);
        for happens in what {
            match happens {
                Happens::Starts => { run = run.started(now); is_running = true; }
                Happens::Stops => { run = run.stopped(now); is_running = false; }
                Happens::Passes(seconds) => {
                    now += 1000.0 * seconds;
                    if is_running { circuits += PACE * seconds / 60.0; }
                }
                Happens::CountsIn => {
                    // A counter shows whole circuits.
                    circuits = circuits.floor();
                    doubtful = 0.0;
                    run = run.counted_in(whole(circuits), now);
                }
                Happens::Nudges(by) => {
                    // The page offers it only where it knows.
                    if let Some(shown) = countdown(&run, now).done {
                        run = run.nudged(whole(shown), by, now);
                        circuits = f64::from(whole(shown).saturating_add_signed(by));
                    }
                }
                Happens::Ticks if run.done < adjusted.events.len() => {
                    before_ticks.push((circuits, is_running, now, doubtful, jumps));
                    doubtful = 0.0;
                    let wanted = run.wanted(&Now::of(&run, &adjusted, &plan), &plan);
                    run = ticks.tick(run, &adjusted, (wanted, false), now);
                    (circuits, is_running) = (0.0, false);
                }
                // What was noted before the clock was set cannot be compared with it.
                Happens::TakesBack if before_ticks.last().is_some_and(|it| it.4 == jumps) => {
                    run = ticks.take_back(run, &adjusted);
                    let (was, was_running, at, was_doubtful, _) = before_ticks.pop().expect("it was ticked");
                    // A machine that ran when the step was ticked is taken to run on.
                    let ran_on = if was_running { PACE * (now - at) / 60_000.0 } else { 0.0 };
                    (circuits, is_running, doubtful) = (was + ran_on, was_running, was_doubtful);
                }
                Happens::JumpsAhead(by, says) if is_running => {
                    let by = by.round();
                    now += 1000.0 * by;
                    jumps += 1;
                    run = run.in_doubt(by);
                    doubtful += by;
                    if says {
                        run = run.without_doubt(false);
                        doubtful = 0.0;
                    }
                }
                Happens::SetBack(by) if is_running => {
                    let by = by.round();
                    now -= 1000.0 * by;
                    jumps += 1;
                    run = run.set_back(by);
                    doubtful = (doubtful - by).max(0.0);
                }
                Happens::Ticks | Happens::TakesBack | Happens::JumpsAhead(..) | Happens::SetBack(_) => {}
            }
            let shown = countdown(&run, now);
            prop_assert_eq!(shown.is_running, is_running);
            prop_assert_eq!(shown.done.is_none(), doubtful > 0.0);
            let done = shown.done.unwrap_or(circuits);
            prop_assert!((done - circuits).abs() < 0.1, "{} {}", done, circuits);
            if let Some(left) = shown.left() {
                prop_assert!((left - (1000.0 - circuits).max(0.0)).abs() < 0.1);
            } else if doubtful == 0.0 {
                prop_assert!(is_running && circuits > 1020.0);
            }
            let text = serde_json::to_string(&run).expect("a run can be written");
            prop_assert_eq!(&serde_json::from_str::<Run>(&text).expect("it can be read"), &run);
        }
    }

    /// Whatever stands in a file, the clock gives a number of circuits or says that it knows none.
    #[test]
    fn no_clock_is_nonsense(
        since in prop::option::of(prop_oneof![prop::num::f64::NORMAL, MORNING - 1e9..MORNING + 1e9]),
        ran in prop_oneof![prop::num::f64::NORMAL, 0.0_f64..1e9],
        doubtful in prop_oneof![Just(0.0), prop::num::f64::NORMAL],
        own in prop::option::of(prop::num::f64::NORMAL),
        timed in prop::collection::vec((prop::num::f64::NORMAL, prop::num::f64::NORMAL), 0..6),
    ) {
        let mut run = Run::default();
        run.clock.running_since = since;
        run.clock.ran = ran;
        run.clock.doubtful = doubtful;
        run.clock.own_pace = own;
        run.clock.timed = timed
            .into_iter()
            .map(|(circuits, seconds)| Timed { circuits, seconds, with_stop: false })
            .collect();
        let pace = Pace::of(&run.clock, &[], 40.0);
        prop_assert!((0.05..=2000.0).contains(&pace.circuits_per_minute), "{:?}", pace);
        let countdown = Countdown::of(&run, 500.0, pace, MORNING);
        if let Some(left) = countdown.left() {
            prop_assert!((0.0..=500.0).contains(&left));
        }
        let after = run.stopped(MORNING);
        prop_assert!(after.clock.ran.is_finite());
    }

    /// Each signal is given once, whatever the pauses between the looks.
    #[test]
    fn each_signal_comes_once(pauses in prop::collection::vec(0.1_f64..40.0, 200..201), lead in 0.0_f64..60.0) {
        let run = Run::default().started(MORNING);
        let way = |now: f64| Countdown { wanted: 300.0, ..countdown(&run, now) };
        let (mut now, mut given) = (MORNING, Vec::new());
        for pause in pauses {
            let next = now + 1000.0 * pause;
            given.extend(way(next).signal_since(&way(now), lead));
            now = next;
        }
        let stops = given.iter().filter(|it| **it == Signal::Stop).count();
        prop_assert_eq!(stops, 1);
        prop_assert_eq!(given.last(), Some(&Signal::Stop));
        prop_assert!(given.len() <= 2, "{:?}", given);
    }

    /// Two clocks that go on alike say nothing; one that was set back is found out; one that went ahead is in doubt; a page that did not look was away.
    #[test]
    fn clocks_are_compared(seconds in 0.0_f64..80.0, jump in 3.0_f64..90_000.0) {
        let look = |wall: f64, steady: f64| Look { wall: 1000.0 * wall, steady: 1000.0 * steady };
        let before = look(5_000.0, 70.0);
        prop_assert_eq!(look(5_000.0 + seconds, 70.0 + seconds).since(&before), Between::Nothing);
        let is = |found: Between, wanted: fn(f64) -> Between, size: f64| match (found, wanted(size)) {
            (Between::SetBack(found), Between::SetBack(size))
            | (Between::Doubtful(found), Between::Doubtful(size))
            | (Between::Away(found), Between::Away(size)) => (found - size).abs() < 1e-6,
            _ => false,
        };
        let back = look(5_000.0 + seconds - jump, 70.0 + seconds).since(&before);
        prop_assert!(is(back, Between::SetBack, jump), "{:?}", back);
        let ahead = look(5_000.0 + seconds + jump, 70.0 + seconds).since(&before);
        prop_assert!(is(ahead, Between::Doubtful, jump), "{:?}", ahead);
        let slept = look(5_000.0 + jump + 90.0, 70.0 + jump + 90.0).since(&before);
        prop_assert!(is(slept, Between::Away, jump + 90.0), "{:?}", slept);
    }
}
