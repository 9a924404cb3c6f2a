//! Bobbins: how much thread each carrier gives to the line.

use crate::ladder::Ladder;
use crate::stretch::{Stretch, thread_range};
use crate::track::Carrier;
use crate::units::{Length, LinearDensity, Mass};

/// What one carrier's bobbin must hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bobbin {
    /// The carrier.
    pub carrier: Carrier,
    /// How often it is engaged along the line.
    pub engagements: u32,
    /// Thread to wind on, allowance included.
    pub length: Length,
    /// Its mass.
    pub mass: Mass,
}

/// The bobbins of every carrier used, in the order in which they are engaged.
///
/// Thread on a carrier is the sum over its engaged stretches of line length times take-up, and an allowance for
/// each engagement: what is led in before, and what is left on the bobbin after.
pub fn wind(
    stretches: &[Stretch],
    ladder: &Ladder,
    thread: LinearDensity,
    allowance: Length,
) -> Vec<Bobbin> {
    let (_, most) = thread_range(stretches);
    let engagements = engagements_by_rank(stretches, most);
    let braided = thread_by_rank(stretches, most);
    let carriers = ladder.engaged(most).iter();
    carriers
        .zip(engagements.into_iter().zip(braided))
        .map(|(&carrier, (engagements, braided))| {
            let length = braided + allowance * f64::from(engagements);
            Bobbin {
                carrier,
                engagements,
                length,
                mass: length * thread,
            }
        })
        .collect()
}

/// Thread braided in by the carrier of each rank: all stretches with more threads than its rank.
fn thread_by_rank(stretches: &[Stretch], most: u32) -> Vec<Length> {
    let mut at_level = vec![Length::ZERO; most as usize + 1];
    for stretch in stretches {
        at_level[stretch.threads as usize] += stretch.length() * stretch.fit.braid.take_up;
    }
    let mut above = Length::ZERO;
    let mut by_rank: Vec<Length> = at_level[1..]
        .iter()
        .rev()
        .map(|&level| {
            above += level;
            above
        })
        .collect();
    by_rank.reverse();
    by_rank
}

/// How often the carrier of each rank comes in: at the start, and at every rise past it.
fn engagements_by_rank(stretches: &[Stretch], most: u32) -> Vec<u32> {
    let mut by_rank = vec![0; most as usize];
    let mut before = 0;
    for stretch in stretches {
        for rank in before..stretch.threads {
            by_rank[rank as usize] += 1;
        }
        before = stretch.threads;
    }
    by_rank
}
