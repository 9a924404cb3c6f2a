//! What is typed is taken in any unit of the trade; what makes no sense stays in its field and is explained there.

use taperwright::design::demo::demo;
use taperwright::design::{Design, DraftPoint};
use taperwright::edit::{Edit, LineEnds, MoveOptions};

use super::drag::belly;
use super::gesture::{Hand, Pointer};
use super::harness::{on_the_page, until};
use super::page::Page;

#[test]
fn a_size_is_taken_with_comma_or_unit() {
    on_the_page(async |page| {
        for (typed, millimetres) in [
            ("1,2", 1.2),
            (".045\"", 1.143),
            ("1.1 mm", 1.1),
            ("42 thou", 1.0668),
        ] {
            page.enter("point-size", typed).await;
            takes(page, &with_belly(millimetres)).await;
            assert_eq!(page.value("point-size").await, millimetres.to_string());
        }
    });
}

#[test]
fn a_size_in_other_units_is_shown_and_taken_in_them() {
    on_the_page(async |page| {
        page.press("imperial").await;
        page.enter("point-size", "40").await;
        takes(page, &with_belly(1.016)).await;
        assert_eq!(page.value("point-size").await, "40");
    });
}

/// A handle acts as soon as it is pressed; what is typed for the point chosen before is taken first.
#[test]
fn a_size_typed_is_taken_before_another_point_is_grabbed() {
    on_the_page(async |page| {
        let typed = "
            const field = document.querySelector('[data-action=point-size]');
            field.focus();
            field.value = '1.2';
            field.dispatchEvent(new Event('input', { bubbles: true }));";
        page.run(typed, vec![]).await;
        Hand::take(page, Pointer::Mouse, 0).await.let_go();
        takes(page, &with_belly(1.2)).await;
    });
}

#[test]
fn a_place_is_taken_exactly() {
    on_the_page(async |page| {
        page.enter("point-at", "9 ft").await;
        let mut point = demo().draft().points[belly()];
        point.at_m = 9.0 * 0.3048;
        let edit = placed(point);
        takes(page, &edit.apply(&demo()).unwrap()).await;
    });
}

#[test]
fn a_point_is_added_without_bending_the_line_and_taken_away_again() {
    on_the_page(async |page| {
        let before = page.state().await;
        page.press("add-point").await;
        let demo = demo();
        let points = &demo.draft().points;
        let at_m = f64::midpoint(points[belly()].at_m, points[belly() + 1].at_m);
        let ends = LineEnds::Alike;
        takes(page, &Edit::Add { at_m, ends }.apply(&demo).unwrap()).await;
        assert_eq!(page.state().await.events, before.events);
        page.press("remove-point").await;
        takes(page, &demo).await;
        assert_eq!(page.state().await, before);
    });
}

#[test]
fn a_belly_that_need_not_stay_level_bends() {
    on_the_page(async |page| {
        page.unfold("keep-level").await;
        page.press("keep-level").await;
        page.press("keep-ends").await;
        page.enter("point-size", "0.95").await;
        let mut draft = demo().draft().clone();
        draft.points[belly()].diameter_mm = 0.95;
        takes(page, &Design::parse(draft).unwrap()).await;
    });
}

#[test]
fn nonsense_stays_in_its_field_and_is_explained_beside_it() {
    on_the_page(async |page| {
        refuses(page, "point-size", "abc", &["abc"]).await;
        refuses(page, "point-size", "3 °", &["°"]).await;
        refuses(page, "point-at", "", &[]).await;
    });
}

#[test]
fn what_is_out_of_range_is_answered_with_the_range() {
    on_the_page(async |page| {
        refuses(page, "point-size", "12", &["12", "0.1", "10"]).await;
        refuses(page, "point-size", "-1", &["-1", "0.1", "10"]).await;
        refuses(page, "point-at", "101", &["101", "100"]).await;
        // Behind the next point.
        refuses(page, "point-at", "24", &["24"]).await;
    });
}

fn placed(point: DraftPoint) -> Edit {
    Edit::Place {
        index: belly(),
        point,
        options: MoveOptions::default(),
    }
}

fn with_belly(millimetres: f64) -> Design {
    let mut point = demo().draft().points[belly()];
    point.diameter_mm = millimetres;
    let edit = placed(point);
    edit.apply(&demo()).expect("a belly that can be made")
}

/// The page shows and keeps this design, and has nothing to object.
pub(super) async fn takes(page: &Page, design: &Design) {
    page.until_state("the typed line is shown", |state| state.shows(design))
        .await;
    assert_eq!(page.kept().await.as_ref(), Some(design));
    let alerts: usize = page
        .ask(
            r#"return document.querySelectorAll('[role="alert"]').length;"#,
            vec![],
        )
        .await;
    assert_eq!(alerts, 0, "the page objects to what it took");
}

/// The page refuses what is typed: it stays there, marked as wrong, the words beside it name what matters, and neither
/// the figures nor what is kept change.
pub(super) async fn refuses(page: &Page, field: &str, typed: &str, named: &[&str]) {
    refuses_at(page, &format!(r#"[data-action="{field}"]"#), typed, named).await;
}

/// The same of the first field that a selector finds. While something stands there refused, neither place nor sheet is left: only
/// the figures in sight are read, and what is kept.
pub(super) async fn refuses_at(page: &Page, field: &str, typed: &str, named: &[&str]) {
    let (state, storage) = (page.state().await, page.storage().await);
    let right = page.value_at(field).await;
    let seen = page.seen().await;
    page.enter_at(field, typed).await;
    let said = until("the refusal is explained", async || {
        page.said_beside_at(field).await
    })
    .await;
    for word in named {
        assert!(said.contains(word), "“{said}” does not name {word}");
    }
    assert!(said.len() > 15, "“{said}” explains nothing");
    assert_eq!(page.value_at(field).await, typed);
    let marked = page.attribute_at(field, "aria-invalid").await;
    assert_eq!(marked.as_deref(), Some("true"));
    page.at_rest().await;
    assert_eq!(page.seen().await, seen);
    assert_eq!(page.storage().await, storage);
    page.enter_at(field, &right).await;
    until("the field is content", async || {
        page.said_beside_at(field).await.is_none().then_some(())
    })
    .await;
    assert_eq!(page.state().await, state);
}

/// Types a number far out of range into every field for numbers of the place or sheet shown, one after another, and takes it back:
/// for each its key, its name and what is said beside it.
const OUT_OF_RANGE: &str = r"
    const [done] = arguments;
    const drawn = () => new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next)));
    const told = [];
    const shown = document.querySelector('.over.shown') ?? document.querySelector('[data-shows]');
    for (const fold of shown.querySelectorAll('details')) fold.open = true;
    (async () => {
        await drawn();
        for (const field of shown.querySelectorAll('input[inputmode=decimal]')) {
            if (field.disabled) continue;
            field.value = '-99999';
            field.dispatchEvent(new Event('input', { bubbles: true }));
            field.dispatchEvent(new Event('change', { bubbles: true }));
            await drawn();
            const said = field.closest('.field').querySelector('.said')?.textContent ?? '';
            told.push([field.dataset.action, field.getAttribute('aria-label'), said]);
            field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape' }));
            await drawn();
        }
        done(told);
    })();";

/// Whatever is refused is called what its field is called, never by the name of another number.
#[test]
fn a_number_out_of_range_is_called_by_the_name_of_its_field() {
    on_the_page(async |page| {
        page.choose("build", "both").await;
        page.enter("gears", "15–50").await;
        page.choose("train", "fixed-centres").await;
        let before = page.state().await;
        let mut told: Vec<(String, String, String)> = Vec::new();
        for place in ["draw", "dress"] {
            page.go_to(place).await;
            told.append(&mut page.ask_later(OUT_OF_RANGE, vec![]).await);
        }
        for sheet in ["workshop-sheet", "numbers"] {
            page.open_sheet(sheet).await;
            told.append(&mut page.ask_later(OUT_OF_RANGE, vec![]).await);
        }
        assert!(told.len() > 60, "only {} fields", told.len());
        for (action, name, said) in told {
            // Fields of one point are named after it too; some are another way to enter the number before them.
            let own = name.rsplit(", ").next().unwrap_or_default();
            assert!(
                said.contains(own.trim_start_matches("or ")),
                "{action}, “{name}”: “{said}”"
            );
            assert!(
                said.contains("99999") || said.contains("above 0"),
                "{action}: “{said}”"
            );
        }
        assert_eq!(page.state().await, before);
    });
}
