//! Work at the machine: tails that are buried, stops that keep their distance, bobbins that hold only so much.

use serde::Deserialize;
use taperwright::base::units::Length;
use taperwright::base::units::show::Units;

use super::harness::on_the_page;
use super::page::Page;
use super::state::State;

/// Every notice.
const NOTICES: &str = r"
    return [...document.querySelectorAll('.over.shown .notices li')].map((item) => item.textContent);";

/// What every bobbin must hold, and where it runs out.
const BOBBINS: &str = r"
    return [...document.querySelectorAll('[data-bobbin]')].map(({ dataset }) => ({
        mass: Number(dataset.mass), out: dataset.runsOut ? Number(dataset.runsOut) : null,
    }));";

#[derive(Debug, Deserialize)]
struct Bobbin {
    mass: f64,
    out: Option<f64>,
}

/// A tail of 50 mm weighs what 35 mm of the same thread do at 45°; that much earlier a thread is dropped, so that the line
/// keeps its weight. Analytic: tail × cos(angle) ÷ (1 + crimp) = 35 mm; the core, thicker while the tail lies in it, adds
/// some more.
#[test]
fn buried_tails_are_made_up_for_by_dropping_earlier() {
    on_the_page(async |page| {
        let buried = page.state().await;
        let flush = set(page, "buried_tail_mm", "0").await;
        let places = |state: &State| -> Vec<f64> {
            state
                .of_kind("drop")
                .iter()
                .map(|line| line.metres())
                .collect()
        };
        let pairs: Vec<_> = places(&buried).into_iter().zip(places(&flush)).collect();
        assert_eq!(pairs.len(), 6);
        for (with_tail, without) in pairs {
            let earlier = without - with_tail;
            assert!((0.02..0.07).contains(&earlier), "{earlier} m earlier");
        }
        // All drops lie after the first 30 ft.
        assert_eq!(flush.si("head-mass"), buried.si("head-mass"));
        let rear = buried.si("rear-head-mass") / flush.si("rear-head-mass");
        assert!((rear - 1.0).abs() < 0.003, "{rear}");
    });
}

#[test]
fn changes_closer_than_the_least_distance_are_made_together() {
    on_the_page(async |page| {
        let before = page.state().await;
        assert_eq!(
            stops(&before).iter().max(),
            Some(&1),
            "{:?}",
            stops(&before)
        );
        // More than any maker would want: the field ends at a metre.
        let after = set(page, "least_spacing_mm", "1000").await;
        let mut together: Vec<usize> = stops(&after).into_iter().filter(|&n| n > 1).collect();
        assert!(!together.is_empty(), "{after:?}");
        let mut said: Vec<usize> = notices(page, "least distance. They are made at one stop").await;
        together.sort_unstable();
        said.sort_unstable();
        assert_eq!(
            said, together,
            "the notices count otherwise than the schedule"
        );
    });
}

/// The number each notice with these words begins with.
async fn notices(page: &Page, words: &str) -> Vec<usize> {
    page.press("all-figures").await;
    page.until_there(".over.shown .notices li").await;
    let all: Vec<String> = page.ask(NOTICES, vec![]).await;
    let meant = all.iter().filter(|notice| notice.contains(words));
    let number = |notice: &String| {
        let first = notice.split_whitespace().next();
        first.and_then(|word| word.parse().ok())
    };
    meant.filter_map(number).collect()
}

/// Thread changes at each stop.
fn stops(state: &State) -> Vec<usize> {
    let is_change = |kind: &str| ["add", "drop", "swap"].contains(&kind);
    let changes: Vec<_> = state
        .events
        .iter()
        .filter(|line| is_change(&line.kind))
        .collect();
    changes
        .chunk_by(|a, b| a.at == b.at)
        .map(<[_]>::len)
        .collect()
}

#[test]
fn a_bobbin_too_small_runs_out_where_it_is_said() {
    on_the_page(async |page| {
        page.go_to("wind").await;
        let all: Vec<Bobbin> = page.ask(BOBBINS, vec![]).await;
        assert!(
            !all.is_empty() && all.iter().all(|one| one.out.is_none()),
            "{all:?}"
        );
        page.unfold("bobbin_full_mm").await;
        page.enter("bobbin_full_mm", "12.5").await;
        page.close_sheet().await;
        page.go_to("wind").await;
        page.until_there("[data-bobbin][data-runs-out]").await;
        // A ring of π ÷ 4 × (12.5² − 10²) mm² by 30 mm, 60 % of it silk of 1.34 g/cm³. Analytic; density by Morton &
        // Hearle, as in tests/tables/yarn.rs.
        let ring = core::f64::consts::FRAC_PI_4 * (0.012_5_f64.powi(2) - 0.01_f64.powi(2));
        let room = ring * 0.03 * 0.6 * 1340.0;
        let bobbins: Vec<Bobbin> = page.ask(BOBBINS, vec![]).await;
        assert!(
            bobbins
                .iter()
                .all(|one| one.out.is_some() == (one.mass > room)),
            "{room}"
        );
        page.until_said("too small: empty at").await;
        let length = page.state().await.si("length");
        let outs: Vec<f64> = bobbins.iter().filter_map(|one| one.out).collect();
        assert!(
            outs.len() < bobbins.len(),
            "none is left that is large enough"
        );
        assert!(outs.iter().all(|&at| 0.0 < at && at < length), "{outs:?}");
        let first = Length::from_metres(outs.iter().copied().fold(f64::INFINITY, f64::min));
        let said = format!("is empty first, at {}", Units::Metric.show_position(first));
        page.press("all-figures").await;
        page.until_said(&said).await;
        page.until_said(&format!("{} bobbins do not hold", outs.len()))
            .await;
    });
}

/// Types a setting and returns what is then shown.
async fn set(page: &Page, setting: &str, typed: &str) -> State {
    let before = page.state().await;
    page.enter(setting, typed).await;
    page.until_state("the setting shows", |now| *now != before)
        .await
}
