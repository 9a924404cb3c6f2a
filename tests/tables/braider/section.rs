//! The braid where it forms, cut across.

use core::f64::consts::PI;

use super::Job;

/// The thread, and how it packs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Yarn {
    /// One end, kg/m.
    pub(crate) end: f64,
    /// Fibre, kg/m³.
    pub(crate) fibre_density: f64,
    /// Share of a thread's section that is fibre.
    pub(crate) packing: f64,
    /// How many times wider than thick a thread lies.
    pub(crate) flattening: f64,
    /// Extra length of a thread from waving.
    pub(crate) crimp: f64,
    /// Share of the braid's section that is fibre.
    pub(crate) fibre_fraction: f64,
}

impl Yarn {
    /// Thickness of the flattened thread of so many kg/m: its section keeps its area, so t/√e. Analytic.
    fn thickness(&self, thread: f64) -> f64 {
        let round = (4.0 * thread / (PI * self.fibre_density * self.packing)).sqrt();
        round / self.flattening.sqrt()
    }
}

/// What goes into the braid.
#[derive(Clone, Copy, Debug)]
pub(super) struct Load {
    /// Threads that cross, as long as they are, kg/m of thread.
    threads: f64,
    /// Straight in the core, kg/m.
    core: f64,
    /// Of the mean thread, m.
    thickness: f64,
}

impl Load {
    /// The load of threads with these ends, and of `core` kg/m.
    pub(super) fn of(yarn: &Yarn, ends: impl ExactSizeIterator<Item = u32>, core: f64) -> Self {
        assert_ne!(ends.len(), 0, "no thread is engaged");
        let count = ends.len() as f64;
        let threads = ends.map(f64::from).sum::<f64>() * yarn.end;
        Self {
            threads,
            core,
            thickness: yarn.thickness(threads / count),
        }
    }
}

/// The braid where it forms.
#[derive(Clone, Copy, Debug)]
pub(super) struct Section {
    /// Of the thread's path, m.
    pub(super) radius: f64,
    /// Braid formed for each radian wound, m.
    pub(super) advance: f64,
    /// Thread length for each length of braid.
    pub(super) take_up: f64,
    /// Angle between thread and axis, rad.
    pub(super) angle: f64,
    /// Outer diameter, m.
    pub(super) diameter: f64,
    /// kg/m.
    pub(super) density: f64,
}

/// What stays as it is while the line is braided.
#[derive(Clone, Copy, Debug)]
pub(super) struct Zone {
    guide_radius_squared: f64,
    held_radius: Option<f64>,
    crimped: f64,
    /// d² for each kg/m.
    bulk: f64,
}

impl Zone {
    pub(super) fn of(job: &Job) -> Self {
        Self {
            guide_radius_squared: job.guide_radius * job.guide_radius,
            held_radius: job.held_radius,
            crimped: 1.0 + job.yarn.crimp,
            bulk: 4.0 / (PI * job.yarn.fibre_density * job.yarn.fibre_fraction),
        }
    }

    /// The braid that forms `distance` behind the guides. Radius, free length and angle depend on each other; begun with
    /// a radius near by, they settle in a few rounds, since S changes by only r/S of what r does.
    pub(super) fn section(&self, load: &Load, distance: f64, mut radius: f64) -> Section {
        loop {
            let free = (self.guide_radius_squared - radius * radius).sqrt();
            let slant = (free * free + distance * distance).sqrt();
            let take_up = self.crimped * slant / distance;
            let density = load.threads * take_up + load.core;
            let diameter = (self.bulk * density).sqrt();
            let bare = (0.5 * diameter - load.thickness).max(0.5 * load.thickness);
            let next = self.held_radius.unwrap_or(bare);
            let change = (next - radius).abs();
            assert!(change.is_finite(), "the braid does not fit into its guides");
            radius = next;
            if change <= 1e-12 * radius {
                let advance = radius * distance / free;
                let angle = free.atan2(distance);
                return Section {
                    radius,
                    advance,
                    take_up,
                    angle,
                    diameter,
                    density,
                };
            }
        }
    }

    /// How far behind the guides the braid forms when it forms as fast as `lay` is drawn in a circuit: by halving, since
    /// a braid farther behind forms faster.
    pub(super) fn settled(&self, load: &Load, lay: f64) -> f64 {
        let reach = self.guide_radius_squared.sqrt();
        // From 89° to a twentieth of a degree.
        let (mut low, mut high) = (0.02 * reach, 1e3 * reach);
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            let section = self.section(load, middle, 0.0);
            if 2.0 * PI * section.advance < lay {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    }
}
