//! What is on the chart now, in the middle of a drag too: the cells of threads and gears, the words written into it, its scale.

use serde::Deserialize;

use super::harness::until;
use super::page::{Page, Spot};

/// Reads it.
const READ: &str = r"
    const svg = document.querySelector('[data-per-metre]');
    const cells = (row) => {
        const group = svg.querySelector(`[data-ribbon='${row}']`);
        const ends = group.dataset.ends.split(' ').map(Number);
        return [...group.children].map(({ dataset }, cell) => ({ value: dataset.value, from: ends[cell], to: ends[cell + 1] }));
    };
    const words = (subject) => [...svg.querySelectorAll(`[data-note='${subject}']`)].map((note) => note.textContent);
    return {
        threads: cells('threads'), gears: cells('gear'),
        head: words('head'), level: words('level'), core: words('core'),
        drawn: svg.querySelector('.drawn').getAttribute('d'),
    };";

/// Pixels of a metre on the chart, where nothing is drawn short.
const PER_METRE: &str =
    "return Number(document.querySelector('[data-per-metre]').dataset.perMetre);";

/// A cell of the ribbon.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Cell {
    /// Threads, or the teeth of a gear.
    pub(super) value: String,
    /// Where it begins, in metres.
    pub(super) from: f64,
    /// Where it ends.
    pub(super) to: f64,
}

/// What is on the chart.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Chart {
    /// Cells of threads, tip first.
    pub(super) threads: Vec<Cell>,
    /// Cells of gears.
    pub(super) gears: Vec<Cell>,
    /// What is written over what is weighed.
    pub(super) head: Vec<String>,
    /// What is written into breaks.
    pub(super) level: Vec<String>,
    /// What is written about the core.
    pub(super) core: Vec<String>,
    /// The drawn edges.
    pub(super) drawn: String,
}

impl Chart {
    /// What the head weighs, in grains, as it is written over it.
    pub(super) fn head_grains(&self) -> f64 {
        let (_, mass) = self.head[0].split_once(':').expect("a mass after a colon");
        let number: String = mass
            .chars()
            .filter(|letter| letter.is_ascii_digit() || *letter == '.')
            .collect();
        number.parse().expect("a mass is a number")
    }

    /// What follows from the line alone, whatever the scale.
    pub(super) fn of_line(&self) -> (Vec<Cell>, Vec<Cell>, Vec<String>) {
        (self.threads.clone(), self.gears.clone(), self.head.clone())
    }
}

impl Page {
    /// What is on the chart.
    pub(super) async fn chart(&self) -> Chart {
        self.ask(READ, vec![]).await
    }

    /// Waits until the chart is as wished.
    pub(super) async fn until_chart(&self, what: &str, wish: impl Fn(&Chart) -> bool) -> Chart {
        until(what, async || Some(self.chart().await).filter(&wish)).await
    }

    /// Pixels of a metre on the chart.
    pub(super) async fn per_metre(&self) -> f64 {
        self.ask(PER_METRE, vec![]).await
    }

    /// Waits until a point is within so many pixels of a place.
    pub(super) async fn until_under(&self, point: usize, at: Spot, within: f64) {
        until("the point is under the hand", async || {
            let (x, y) = self.point(point).await;
            ((x - at.0).hypot(y - at.1) < within).then_some(())
        })
        .await;
    }
}
