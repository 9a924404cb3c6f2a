//! The braider itself against what is known without it.

use core::f64::consts::PI;

use super::{Job, Operation, Record, Ring, Seat, Yarn};
use crate::row::{agree, row};

const GUIDE_RADIUS: f64 = 0.03;

/// Silk of 20/22 denier, common practice, no source.
fn silk() -> Yarn {
    Yarn {
        end: 21.0 / 9e6,
        fibre_density: 1340.0,
        packing: 0.70,
        flattening: 1.5,
        crimp: 0.02,
        fibre_fraction: 0.55,
    }
}

/// Every carrier of a ring at work, each with 12 ends, over two metres.
fn full(ring: Ring) -> Job {
    Job {
        engaged: ring.mounted.iter().map(|&seat| (seat, 12)).collect(),
        ring,
        yarn: silk(),
        guide_radius: GUIDE_RADIUS,
        held_radius: None,
        constant: 1.8e-3,
        ratio: 1.0,
        events: Vec::new(),
        length: 2.0,
    }
}

fn sixteen() -> Job {
    full(Ring::every(1, 8, 4))
}

/// Crossings per metre along one rib: a thread of either way passes it for each of them.
fn crossings_per_metre(record: &Record, line: usize, from: f64, to: f64) -> f64 {
    let rib = record.rib(line, from, to);
    (rib.forth + rib.back) as f64 / (2.0 * (to - from))
}

/// The share of fibre that gives the braid the path diameter `path` at `angle`: the braid's formulas turned round.
fn fibre_fraction(yarn: &Yarn, threads: usize, path: f64, angle: f64) -> f64 {
    let thread = 12.0 * yarn.end;
    let thickness = (4.0 * thread / (PI * 1340.0 * 0.70 * 1.5)).sqrt();
    let outer = path + 2.0 * thickness;
    let braid = threads as f64 * thread * (1.0 + yarn.crimp) / angle.cos();
    4.0 * braid / (PI * 1340.0 * outer * outer)
}

/// Analytic: tan α = πD/L and P = N/(2L), by hand; thread lies longer by (1 + c)/cos α. Crossings are counted, to one.
#[test]
fn a_constant_state_has_its_angle_crossings_and_thread() {
    let rows = [
        (1.00e-3_f64, 4.000e-3_f64, 16_usize, "38.146", 20.000),
        (0.80e-3, 4.350e-3, 16, "30.018", 18.391),
        (0.60e-3, 3.260e-3, 8, "30.037", 12.270),
    ];
    for (path, lay, threads, angle, per_centimetre) in rows {
        let mut job = sixteen();
        job.engaged.truncate(threads);
        job.constant = lay;
        let wanted = (PI * path / lay).atan();
        job.yarn.fibre_fraction = fibre_fraction(&job.yarn, threads, path, wanted);
        let record = job.run();
        for at in [0.0, 1.0, 2.0] {
            row(record.angle(at).to_degrees(), angle);
        }
        for line in [0, 5] {
            let counted = crossings_per_metre(&record, line, 0.0, 2.0) / 100.0;
            agree(counted, per_centimetre, 1.0 / 2000.0);
        }
        agree(record.circuits(0.5, 1.5), 1.0 / lay, 1e-6);
        for spent in record.threads.values() {
            agree(spent.braided, 2.0 * 1.02 / wanted.cos(), 1e-6);
        }
    }
}

/// Analytic: at a held radius dh/dy = 1 − h/h∞ in the length y drawn, so h = h∞ + (h₀ − h∞) exp(−y/h∞), with
/// h∞ = L S/(2πr). The gear is changed between two meetings.
#[test]
fn at_a_held_radius_the_convergence_is_exponential() {
    let (radius, change) = (0.5e-3_f64, 0.100_03);
    for ratio in [0.75, 1.25, 2.0] {
        let mut job = sixteen();
        (job.held_radius, job.constant) = (Some(radius), 4e-3);
        job.events = vec![(change, Operation::Fit { ratio })];
        let record = job.run();
        let free = (GUIDE_RADIUS * GUIDE_RADIUS - radius * radius).sqrt();
        let settled = |ratio: f64| ratio * 4e-3 * free / (2.0 * PI * radius);
        let (start, goal) = (settled(1.0), settled(ratio));
        agree(record.distance(change), start, 1e-9);
        for behind in [0.003, 0.01, 0.05, 0.1, 0.3] {
            let at = change + behind;
            let left = (-record.drawn(change, at) / goal).exp();
            agree(record.distance(at) - goal, (start - goal) * left, 1e-3);
            agree(record.distance(at), goal + (start - goal) * left, 1e-5);
            agree(record.angle(at).tan(), free / record.distance(at), 1e-5);
        }
    }
}

/// A line on which everything happens: threads come, go and change their size, a gear is changed, tails overlap, and
/// one is cut short by the end of the line.
fn eventful() -> Job {
    let mut job = sixteen();
    job.engaged.truncate(10);
    let (idle, busy) = (Seat::Forth(6), Seat::Back(1));
    let (first, last) = (Seat::Back(0), Seat::Forth(2));
    job.events = vec![
        (
            1.95,
            Operation::Drop {
                seat: last,
                tail: 0.15,
            },
        ),
        (
            0.30,
            Operation::Engage {
                seat: idle,
                ends: 12,
            },
        ),
        (0.30, Operation::Fit { ratio: 1.25 }),
        (
            0.70,
            Operation::Swap {
                seat: busy,
                ends: 16,
                tail: 0.08,
            },
        ),
        (
            0.75,
            Operation::Drop {
                seat: first,
                tail: 0.10,
            },
        ),
        (
            1.20,
            Operation::Drop {
                seat: busy,
                tail: 0.0,
            },
        ),
    ];
    job
}

/// Analytic: what leaves the bobbins is in the line.
#[test]
fn the_mass_of_the_line_is_that_of_its_threads() {
    let record = eventful().run();
    let thread_mass = |((_, ends), spent): (&(Seat, u32), &super::Spent)| {
        f64::from(*ends) * silk().end * (spent.braided + spent.tails)
    };
    let threads: f64 = record.threads.iter().map(thread_mass).sum();
    agree(record.mass(0.0, 2.0), threads, 1e-12);
    let halves = record.mass(0.0, 0.777) + record.mass(0.777, 2.0);
    agree(halves, threads, 1e-12);
}

/// By the list of what was done: who was engaged where, which sizes each carrier gave, how much tail lies in the line.
#[test]
fn deeds_are_done_where_they_stand() {
    let record = eventful().run();
    let counts = [
        (0.0, 10),
        (0.299, 10),
        (0.3, 11),
        (0.75, 10),
        (1.3, 9),
        (1.96, 8),
    ];
    for (at, count) in counts {
        assert_eq!(record.engaged(at).len(), count, "at {at}");
    }
    assert_eq!(record.engaged(0.71)[&Seat::Back(1)], 16);
    let tails = [
        (Seat::Back(1), 12, 0.08),
        (Seat::Back(0), 12, 0.10),
        (Seat::Forth(2), 12, 0.05),
    ];
    for (seat, ends, length) in tails {
        agree(record.threads[&(seat, ends)].tails, length, 1e-9);
    }
    assert_eq!(record.threads[&(Seat::Back(1), 16)].tails, 0.0);
    assert_eq!(record.threads.len(), 12);
}

/// Analytic: at a held radius the angle stays, so d² is in proportion to the mass per length, and grows by
/// 4 T/(πρφ) for a tail of T that lies straight, while the thread it was gave (1 + c)/cos α of itself.
#[test]
fn a_tail_fills_the_core_as_long_as_it_lies() {
    let mut job = sixteen();
    job.held_radius = Some(0.4e-3);
    let seat = Seat::Forth(3);
    job.events = vec![(0.5, Operation::Drop { seat, tail: 0.07 })];
    let record = job.run();
    let thread = 12.0 * silk().end;
    let per_mass = 4.0 / (PI * 1340.0 * 0.55);
    let take_up = 1.02 / record.angle(0.0).cos();
    for (at, threads, core) in [
        (0.49, 16.0, 0.0),
        (0.5, 15.0, 1.0),
        (0.569, 15.0, 1.0),
        (0.5701, 15.0, 0.0),
    ] {
        let density = thread * (threads * take_up + core);
        agree(record.diameter(at).powi(2), per_mass * density, 1e-9);
        agree(record.mass(at, at + 5e-4), 5e-4 * density, 1e-6);
    }
}

/// Analytic: only the mean thread and the sum of all count, so 16 and 8 ends by turns braid as 12 do, and each carrier
/// gives the same length.
#[test]
fn mixed_threads_braid_as_their_mean() {
    let even = sixteen().run();
    let mut job = sixteen();
    for (index, (_, ends)) in job.engaged.iter_mut().enumerate() {
        *ends = if index % 4 < 2 { 16 } else { 8 };
    }
    let mixed = job.run();
    agree(mixed.angle(1.0), even.angle(1.0), 1e-12);
    agree(mixed.diameter(1.0), even.diameter(1.0), 1e-12);
    agree(mixed.mass(0.0, 2.0), even.mass(0.0, 2.0), 1e-12);
    let thin = mixed.threads[&(Seat::Back(3), 8)].braided;
    agree(mixed.threads[&(Seat::Forth(0), 16)].braided, thin, 1e-12);
}

/// Analytic: the path of two threads is one thickness across, so tan α = πt/L.
#[test]
fn two_threads_lie_one_thickness_apart() {
    let mut job = sixteen();
    job.engaged.truncate(2);
    let thickness = (4.0 * 12.0 * silk().end / (PI * 1340.0 * 0.70 * 1.5)).sqrt();
    let record = job.run();
    agree(record.angle(1.0).tan(), PI * thickness / 1.8e-3, 1e-6);
}

/// Common practice, no source: rings of 2, 4 and 6 slots float over one, two and three; and a ring for two with a carrier
/// on every second place floats over one.
#[test]
fn full_rings_float_as_their_patterns_say() {
    let rings = [
        (Ring::every(1, 16, 2), 1),
        (Ring::every(1, 8, 4), 2),
        (Ring::every(1, 8, 6), 3),
        (Ring::every(2, 16, 4), 1),
    ];
    for (ring, float) in rings {
        let seats = ring.mounted.clone();
        let record = full(ring).run();
        for seat in seats {
            let sides = record.lies_over(seat, 1.0, 1.05);
            assert!(sides.len() > 100);
            for pair in sides.windows(float + 1) {
                assert_ne!(pair[0], pair[float], "{seat:?}: {sides:?}");
            }
        }
    }
}

/// Analytic: in one circuit every thread passes every line along the braid once, so that of eleven carriers eleven do;
/// at full load they pass in pairs, each a crossing.
#[test]
fn every_thread_passes_every_rib_once_a_circuit() {
    let mut job = sixteen();
    let full = job.run();
    job.engaged.truncate(11);
    let part = job.run();
    let circuits = 100.0 * 1.8e-3;
    for line in 0..16 {
        let rib = part.rib(line, 0.0002, 0.0002 + circuits);
        assert_eq!((rib.forth, rib.back), (600, 500));
        assert!((200..=500).contains(&rib.crossings));
        let rib = full.rib(line, 0.0002, 0.0002 + circuits);
        assert_eq!((rib.forth, rib.back, rib.crossings), (800, 800, 800));
    }
    let all: usize = (0..16)
        .map(|line| part.rib(line, 0.0002, 0.0002 + circuits).crossings)
        .sum();
    // Two threads of different ways meet twice in a circuit.
    assert_eq!(all, 100 * 2 * 6 * 5);
}
