//! A new maker is asked a few things first. An answer is an ordinary change: it is found in the settings, and it is undone. Not to
//! know leaves the default or brings it back.

use serde_json::json;
use taperwright::base::choice::Choice as _;
use taperwright::braid::recipe::ReadyRecipe;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::machine::ReadyMade;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::edit::first_answers::Question;
use taperwright::paper::figures::prediction_detail;
use taperwright::plan::Plan;

use super::cdp::Size;
use super::gesture::{Hand, Pointer};
use super::harness::{on_the_page, until};
use super::page::{Page, Spot};
use super::settings::edited;

/// A tablet upright, and the narrowest phone.
const UPRIGHT: Size = (820, 1180);
const NARROW: Size = (320, 640);

/// The middle of the first element that a selector finds in the open sheet, scrolled to; else of the first that is seen.
const MIDDLE: &str = r"
    const sheet = document.querySelector('.over.shown');
    const all = [...(sheet ?? document).querySelectorAll(arguments[0])];
    const one = all.find((it) => it.checkVisibility({ visibilityProperty: true }));
    if (!one) return null;
    one.scrollIntoView({ block: 'center' });
    const { left, top, width, height } = one.getBoundingClientRect();
    return [left + width / 2, top + height / 2];";

/// By how much the sheet is wider than its room; how many of the questions stand at each left edge.
const COLUMNS: &str = r"
    const body = document.querySelector('.over.shown .over-body');
    const edges = [...body.querySelectorAll('[data-question]')].map((one) => Math.round(one.getBoundingClientRect().left));
    return [body.scrollWidth - body.clientWidth, new Set(edges).size];";

#[test]
fn questions_are_opened_by_touch_answered_and_found_in_the_settings() {
    on_the_page(async |page| {
        page.take_size(UPRIGHT).await;
        open_by_touch(page).await;
        for question in Question::ALL {
            stands(page, *question, false).await;
        }
        let before = effect(page, "before").await;
        assert_eq!(
            Some(&before),
            prediction_detail(&Plan::of(&demo())).as_ref()
        );

        page.enter("label", "24/26").await;
        let labelled = edited(
            demo(),
            Edit::Label {
                low: 24.0,
                high: 26.0,
            },
        );
        answered(page, Question::Label, &labelled).await;
        page.choose("machine", ReadyMade::TwelveRegular.key()).await;
        let mounted = edited(labelled.clone(), Edit::Machine(ReadyMade::TwelveRegular));
        answered(page, Question::Machine, &mounted).await;
        assert_eq!(effect(page, "before").await, before);

        touch(page, &unknown(Question::Label)).await;
        let open = Edit::Label {
            low: 20.0,
            high: 22.0,
        };
        let open = edited(mounted.clone(), open);
        until_kept(page, &open).await;
        stands(page, Question::Label, false).await;
        stands(page, Question::Machine, true).await;

        page.close_sheet().await;
        page.open_sheet("workshop-sheet").await;
        assert_eq!(page.value("label").await, "20/22");
        assert_eq!(page.value("machine").await, ReadyMade::TwelveRegular.key());
        page.close_sheet().await;
        // Each was a change of its own.
        for wanted in [&mounted, &labelled, &demo()] {
            page.press("undo").await;
            until_kept(page, wanted).await;
        }
    });
}

#[test]
fn answers_are_seen_again_after_a_reload() {
    on_the_page(async |page| {
        page.open_sheet("questions").await;
        page.choose("recipe", ReadyRecipe::Undressed.key()).await;
        let bare = edited(demo(), Edit::Recipe(ReadyRecipe::Undressed));
        answered(page, Question::Dressing, &bare).await;
        page.close_sheet().await;
        page.reload().await;
        page.open_sheet("questions").await;
        stands(page, Question::Dressing, true).await;
        assert_eq!(page.value("recipe").await, ReadyRecipe::Undressed.key());
        let now = effect(page, "before").await;
        assert_eq!(Some(&now), prediction_detail(&Plan::of(&bare)).as_ref());
    });
}

#[test]
fn what_cannot_be_is_refused_beside_its_field_until_it_is_left_open() {
    on_the_page(async |page| {
        page.open_sheet("questions").await;
        let field = "[data-question=ends] [data-action=ends_per_thread]";
        page.enter_at(field, "900").await;
        until("it is refused", async || {
            let said = page.said_beside_at(field).await?;
            (said.contains("900") && said.contains("500")).then_some(())
        })
        .await;
        assert!(page.storage().await.is_empty(), "it was taken");
        page.press_at(&unknown(Question::Ends)).await;
        page.until_gone(".over.shown [role=alert]").await;
        let ends = demo().setting(Setting::EndsPerThread);
        assert_eq!(page.value_at(field).await, ends.to_string());
    });
}

/// Silk alone has gum: of another fibre nobody is asked for it.
#[test]
fn what_has_no_effect_is_not_asked() {
    on_the_page(async |page| {
        page.open_sheet("questions").await;
        page.until_there("[data-question=condition]").await;
        page.choose("fibre", "nylon").await;
        page.until_gone("[data-question=condition]").await;
    });
}

#[test]
fn the_questions_stand_in_one_column_that_fits() {
    on_the_page(async |page| {
        page.open_sheet("questions").await;
        for size in [UPRIGHT, NARROW] {
            page.resize_to(size).await;
            let (beyond, edges): (f64, usize) = page.ask(COLUMNS, vec![]).await;
            assert!(beyond <= 0.0, "{size:?}: {beyond} pixels too wide");
            assert_eq!(edges, 1, "{size:?}");
        }
    });
}

/// The hint of a first visit leads to the questions, the workshop and a new line do too.
#[test]
fn the_questions_are_one_button_away_where_they_are_wanted() {
    on_the_page(async |page| {
        for sheet in ["workshop-sheet", "new-line"] {
            page.open_sheet(sheet).await;
            page.press_at(".over.shown [data-action=questions]").await;
            page.until_there(".over.shown [data-question]").await;
            page.close_sheet().await;
        }
    });
}

/// From the hint of the first visit.
async fn open_by_touch(page: &Page) {
    touch(page, "[data-intro] [data-action=questions]").await;
    page.until_there(".over.shown [data-question]").await;
}

async fn touch(page: &Page, selector: &str) {
    page.until_drawn().await;
    let at = until(&format!("{selector} is there"), async || {
        page.ask::<Option<Spot>>(MIDDLE, vec![json!(selector)])
            .await
    })
    .await;
    Hand::press(page, Pointer::Finger, at).let_go();
}

/// The button that leaves a question open.
fn unknown(question: Question) -> String {
    format!(
        "[data-question={}] [data-action=do-not-know]",
        question.key()
    )
}

async fn stands(page: &Page, question: Question, is_known: bool) {
    let selector = format!(
        ".over.shown [data-question={}][data-known={is_known}]",
        question.key()
    );
    page.until_there(&selector).await;
}

async fn effect(page: &Page, which: &str) -> String {
    page.words_of(&format!("[data-effect={which}]")).await
}

/// An answer is kept, its question counts as known, and the foot of the sheet says what it does.
async fn answered(page: &Page, question: Question, design: &Design) {
    until_kept(page, design).await;
    stands(page, question, true).await;
    let words = prediction_detail(&Plan::of(design)).expect("the line has a head");
    until("its weight is said", async || {
        (effect(page, "now").await == words).then_some(())
    })
    .await;
}

async fn until_kept(page: &Page, design: &Design) {
    until("the line is kept so", async || {
        (page.kept().await.as_ref() == Some(design)).then_some(())
    })
    .await;
}
