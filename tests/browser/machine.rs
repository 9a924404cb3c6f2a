//! The pictures of the machine, at Threads, show the place that the readout at Draw tells of: who is on, who is next, and the
//! angle to hold a line against are those of the schedule and the readout. One cursor moves through both places.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;
use serde_json::{Value, json};
use taperwright::design::demo::demo;

use super::gesture::hover;
use super::harness::{on_the_page, until};
use super::page::Page;

/// What the readout says, at Draw.
const HERE: &str = r"
    const [at, , threads, angle] = document.querySelector('[data-station]').dataset.station.split(' ').map(Number);
    return { at, threads, angle };";

/// What the pictures and the schedule say, at Threads, beside what is given.
const SAID: &str = r"
    const all = (what) => [...document.querySelectorAll(what)];
    const marks = (what) => all(`[data-picture=track-map] ${what}`).map((mark) => mark.dataset.mapCarrier);
    return {
        ...arguments[0],
        gauge: Number(document.querySelector('[data-gauge]').dataset.si),
        ends: Object.fromEntries(all('[data-picture=track-map] [data-state=engaged][data-ends]')
            .map((mark) => [mark.dataset.mapCarrier, mark.dataset.ends])),
        idle: marks('[data-state=idle]'),
        next: marks('[data-next=true]'),
        title: document.querySelector('.machine .track-map .title').textContent,
        ribs: all('[data-picture=braid] path.thread').map((path) => path.getAttribute('d')),
        rows: all('[data-event]').map((row) => ({
            event: row.dataset.event, at: Number(row.dataset.at), carriers: row.dataset.carrier ?? '',
            ends: row.dataset.ends,
        })),
    };";

const TITLE: &str = ".machine .track-map .title";

#[derive(Debug, Deserialize)]
pub(super) struct Said {
    at: f64,
    threads: f64,
    angle: f64,
    gauge: f64,
    /// Ends of the threads that are on, by carrier.
    ends: BTreeMap<String, String>,
    idle: BTreeSet<String>,
    next: Vec<String>,
    title: String,
    ribs: Vec<String>,
    rows: Vec<Row>,
}

#[derive(Debug, Deserialize)]
struct Row {
    event: String,
    at: f64,
    carriers: String,
    ends: String,
}

impl Said {
    /// Who is on here and with how many ends, by doing what the schedule says up to here.
    fn ends_by_schedule(&self) -> BTreeMap<String, String> {
        let mut on = BTreeMap::new();
        for row in self.rows.iter().filter(|row| row.at <= self.at) {
            let carriers = row.carriers.split_whitespace().map(str::to_owned);
            match row.event.as_str() {
                "start" | "add" | "swap" => on.extend(carriers.map(|one| (one, row.ends.clone()))),
                "drop" => carriers.for_each(|one| assert!(on.remove(&one).is_some())),
                _ => {}
            }
        }
        on
    }

    /// How many ends the threads have that are on, each number once.
    pub(super) fn kinds(&self) -> BTreeSet<String> {
        self.ends.values().cloned().collect()
    }

    /// Who is added or dropped next, by the schedule.
    fn next_by_schedule(&self) -> Vec<String> {
        let mut beyond = self.rows.iter().filter(|row| row.at > self.at);
        let next = beyond.find(|row| ["add", "drop", "swap"].contains(&row.event.as_str()));
        next.map(|row| row.carriers.clone()).into_iter().collect()
    }

    pub(super) fn agrees(&self) {
        let on = self.ends.len();
        assert_eq!(self.ends, self.ends_by_schedule(), "at {}", self.at);
        assert_eq!(self.next, self.next_by_schedule(), "at {}", self.at);
        assert!((self.threads - on as f64).abs() < 0.5, "{self:?}");
        assert!((self.angle - self.gauge).abs() < 1e-12, "{self:?}");
        let all = on + self.idle.len();
        let title = format!("{on} of {all} carriers engaged");
        assert!(self.title.ends_with(&title), "{}", self.title);
        assert_eq!(self.ribs.len(), 4, "two ways on two levels");
        assert!(
            self.ribs.iter().all(|path| path.len() > 100),
            "{:?}",
            self.ribs
        );
    }
}

/// What is said, once it is of a place as wished. The page is then at Threads.
pub(super) async fn told(page: &Page, wish: impl Fn(f64) -> bool) -> Said {
    page.go_to("draw").await;
    let here = until("the place is told of", async || {
        let here: Value = page.ask(HERE, vec![]).await;
        here["at"].as_f64().filter(|at| wish(*at)).map(|_| here)
    })
    .await;
    page.go_to("threads").await;
    page.ask(SAID, vec![here]).await
}

#[test]
fn the_machine_is_shown_at_the_chosen_point() {
    on_the_page(async |page| {
        let belly = told(page, |at| at > 1.0).await;
        belly.agrees();
        page.press("point-before").await;
        page.press("point-before").await;
        let tip = told(page, |at| at == 0.0).await;
        tip.agrees();
        assert!(tip.ends.len() < belly.ends.len(), "the tip is thinner");
        assert_ne!(tip.ribs, belly.ribs, "the braid does not follow");
    });
}

#[test]
fn the_machine_follows_a_tap_on_the_stairs() {
    on_the_page(async |page| {
        let chosen = told(page, |at| at > 1.0).await;
        // At places that are no points, along both tapers and the belly.
        for share in [0.03, 0.08, 0.5, 0.93, 0.97] {
            let before = page.words_of(TITLE).await;
            let script = "
                const stairs = document.querySelector('[data-picture=stairs]');
                const { left, top, width, height } = stairs.getBoundingClientRect();
                const [clientX, clientY] = [left + arguments[0] * width, top + height / 2];
                document.elementFromPoint(clientX, clientY).dispatchEvent(new MouseEvent('click', { bubbles: true, clientX, clientY }));";
            page.run(script, vec![json!(share)]).await;
            until("the map shows another place", async || {
                (page.words_of(TITLE).await != before).then_some(())
            })
            .await;
            let said = told(page, |at| (at - 25.146 * share).abs() < 0.3).await;
            assert_ne!(said.at, chosen.at);
            said.agrees();
        }
    });
}

/// A row of the schedule shows the machine as it is once that row is done.
#[test]
fn the_machine_follows_a_tap_on_a_row() {
    on_the_page(async |page| {
        page.go_to("threads").await;
        let rows = page.matching("[data-event]").await;
        for row in [1, rows / 2, rows - 1] {
            let row = format!("[data-event]:nth-of-type({row})");
            let at = page.attribute_at(&row, "data-at").await;
            let at: f64 = at.expect("a row has a place").parse().expect("a number");
            page.press_at(&format!("{row} [data-action=show-here]"))
                .await;
            let said = told(page, |here| (here - at).abs() < 1e-9).await;
            said.agrees();
        }
    });
}

/// Between two points of a taper the chart is never folded: half way between them is half way along the line.
#[test]
fn the_machine_follows_the_hovering_mouse() {
    on_the_page(async |page| {
        let points = demo().draft().points.clone();
        for (first, last) in [(1, 2), (3, 4)] {
            page.go_to("draw").await;
            let (left, y) = page.point(first).await;
            let (right, other) = page.point(last).await;
            hover(page, (f64::midpoint(left, right), y.max(other) + 12.0));
            let at = f64::midpoint(points[first].at_m, points[last].at_m);
            let said = told(page, |here| (here - at).abs() < 0.1).await;
            said.agrees();
        }
    });
}
