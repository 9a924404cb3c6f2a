//! Which handles are drawn: those that have room, and the chosen point's.

use leptos::prelude::*;

use crate::base::units::Length;
use crate::design::Design;
use crate::page::view::bench::{Bench, bench};
use crate::paper::chart::grip::{self, ChartPoint, Edge, Grip};
use crate::paper::chart::scale::Scale;

/// The handles that are drawn. The scale, and with it the edge a handle sits on, stays as it is while one is dragged.
#[derive(Clone, Copy)]
pub(super) struct DrawnHandles {
    edges: Memo<Vec<Option<Edge>>>,
    /// Indices of their points, tip first.
    pub(super) points: Memo<Vec<usize>>,
    /// Where the handles of all points sit; `None` for points without one.
    pub(super) spots: Memo<Vec<Option<Spot>>>,
}

/// Where a handle sits, and whether that is in sight.
pub(super) type Spot = (ChartPoint, bool);

impl DrawnHandles {
    /// Of the line on the bench.
    pub(super) fn of(bench: Bench, scale: Signal<Scale>) -> Self {
        let edges = Memo::new(move |_| {
            let chosen = bench.chosen.get();
            bench
                .settled
                .with(|design| scale.with(|scale| grip::handles(design, scale, chosen)))
        });
        let points = Memo::new(move |_| {
            let is_drawn = |edges: &Vec<Option<Edge>>| {
                let drawn = edges.iter().enumerate().filter(|(_, edge)| edge.is_some());
                drawn.map(|(index, _)| index).collect()
            };
            edges.with(is_drawn)
        });
        let spots = Memo::new(move |_| {
            bench.drawn(|design| {
                edges.with(|edges| scale.with(|scale| grip::spots(design, edges, scale)))
            })
        });
        Self {
            edges,
            points,
            spots,
        }
    }

    /// The edge of a handle; `None` where it is not drawn.
    pub(super) fn edge(self, index: usize) -> Option<Edge> {
        self.edges.with(|edges| edges.get(index).copied().flatten())
    }

    /// Where a handle sits; `None` where it is not drawn.
    pub(super) fn spot(self, index: usize) -> Option<Spot> {
        self.spots.with(|spots| spots.get(index).copied().flatten())
    }

    /// The handle that a pointer takes hold of.
    pub(super) fn grip_at(
        self,
        bench: Bench,
        scale: Signal<Scale>,
        at: ChartPoint,
    ) -> Option<Grip> {
        let nearest = |design: &Design, edges: &Vec<Option<Edge>>, scale: &Scale| {
            grip::nearest(grip::grips(design, edges, scale), at)
        };
        bench.design.with_untracked(|design| {
            self.edges
                .with_untracked(|edges| scale.with_untracked(|scale| nearest(design, edges, scale)))
        })
    }

    /// Whether points in sight have no handle, for want of room.
    fn are_thinned(self, bench: Bench, scale: Signal<Scale>) -> bool {
        let in_sight = bench.settled.with(|design| {
            let places = design.draft().points.iter().map(|point| point.at_m);
            scale.with(|scale| {
                places
                    .filter(|&at| scale.shows(Length::from_metres(at)))
                    .count()
            })
        });
        self.points.with(Vec::len) < in_sight
    }
}

/// Over the chart: that some points have no handle.
#[component]
pub(super) fn Thinned(handles: DrawnHandles, scale: Signal<Scale>) -> impl IntoView {
    let bench = bench();
    let is_thinned = Memo::new(move |_| handles.are_thinned(bench, scale));
    move || {
        is_thinned
            .get()
            .then(|| view! { <p class="thinned">"Zoom in to see every point."</p> })
    }
}
