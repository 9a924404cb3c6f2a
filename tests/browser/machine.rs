//! The pictures of the machine show the place the readout tells of: who is on, who is next, and the angle to hold a line
//! against are those of the schedule and the readout.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;

use super::gesture::hover;
use super::harness::{on_the_page, until};
use super::page::Page;

/// What the readout, the pictures and the schedule say.
const SAID: &str = r"
    const all = (what) => [...document.querySelectorAll(what)];
    const here = (key) => Number(document.querySelector(`[data-here=${key}]`).dataset.si);
    const marks = (what) => all(`[data-picture=track-map] ${what}`).map((mark) => mark.dataset.mapCarrier);
    return {
        at: here('at'), threads: here('threads'), angle: here('angle'),
        gauge: Number(document.querySelector('[data-gauge]').dataset.si),
        ends: Object.fromEntries(all('[data-picture=track-map] [data-state=engaged][data-ends]')
            .map((mark) => [mark.dataset.mapCarrier, mark.dataset.ends])),
        idle: marks('[data-state=idle]'),
        next: marks('[data-next=true]'),
        title: document.querySelector('#machine .track-map .title').textContent,
        ribs: all('[data-picture=braid] path.thread').map((path) => path.getAttribute('d')),
        rows: all('[data-event]').map((row) => ({
            event: row.dataset.event, at: Number(row.dataset.at), carriers: row.dataset.carrier ?? '',
            ends: row.dataset.ends,
        })),
    };";

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

/// What is said, once it is of a place as wished.
pub(super) async fn told(page: &Page, wish: impl Fn(f64) -> bool) -> Said {
    until("the place is told of", async || {
        let said: Said = page.ask(SAID, vec![]).await;
        wish(said.at).then_some(said)
    })
    .await
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
fn the_machine_follows_the_hovering_mouse() {
    on_the_page(async |page| {
        let chosen = told(page, |at| at > 1.0).await;
        let (_, y) = page.point(2).await;
        let (tip, end) = (page.point(0).await.0, page.point(5).await.0);
        // At places that are no points, along both tapers and the belly.
        for share in [0.03, 0.08, 0.5, 0.93, 0.97] {
            hover(page, (tip + share * (end - tip), y + 12.0));
            let said = told(page, |at| (at - 25.146 * share).abs() < 0.3).await;
            assert_ne!(said.at, chosen.at);
            said.agrees();
        }
    });
}
