//! Sketching: what moves along, what holds a point back, what it is drawn to, and what is seen under the hand.

use serde_json::json;
use taperwright::design::demo::demo;
use taperwright::design::{Design, DraftPoint};
use taperwright::edit::snap::Snap;
use taperwright::edit::{Edit, LineEnds, MoveOptions, ends_are_alike};

use super::drag::belly;
use super::gesture::{Hand, Pointer, escape};
use super::harness::{on_the_page, until};
use super::page::Page;

/// Where the loupe is, and how far it keeps from a place.
const LOUPE: &str = r"
    const rim = document.querySelector('.loupe .rim')?.getBoundingClientRect();
    return rim ? [rim.left + rim.width / 2, rim.top + rim.height / 2, rim.width / 2] : null;";

#[test]
fn both_ends_of_a_double_taper_move_alike_until_told_otherwise() {
    on_the_page(async |page| {
        let alike = dragged(page, belly()).await;
        assert!(ends_are_alike(&alike) && !same_points(&alike, &demo()));
        page.press("undo").await;
        page.unfold("keep-ends").await;
        page.press("keep-ends").await;
        page.press("keep-level").await;
        let apart = dragged(page, belly()).await;
        assert!(!ends_are_alike(&apart));
        let (now, before) = (&apart.draft().points, &demo().draft().points.clone());
        let moved: Vec<usize> = (0..now.len()).filter(|&k| now[k] != before[k]).collect();
        assert_eq!(moved, [belly()]);
    });
}

#[test]
fn all_behind_a_point_can_go_along() {
    on_the_page(async |page| {
        page.unfold("along").await;
        page.press("keep-ends").await;
        page.choose("along", "all-behind").await;
        let after = dragged(page, belly()).await;
        let lengths = |design: &Design| -> Vec<i64> {
            let points = &design.draft().points;
            let tenths = |pair: &[DraftPoint]| ((pair[1].at_m - pair[0].at_m) * 1e4).round();
            #[allow(clippy::cast_possible_truncation)]
            points.windows(2).map(|pair| tenths(pair) as i64).collect()
        };
        let (before, after) = (lengths(&demo()), lengths(&after));
        let changed: Vec<usize> = (0..before.len())
            .filter(|&k| before[k] != after[k])
            .collect();
        assert_eq!(changed, [belly() - 1]);
    });
}

#[test]
fn a_move_held_back_shows_the_wish_and_says_why() {
    on_the_page(async |page| {
        let before = page.chart().await;
        let way = page.point(belly() - 1).await.0 - page.point(belly()).await.0;
        let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
        hand.glide((way - 30.0, 0.0));
        page.until_there("[data-wish]").await;
        let said = page.words_of("[data-held]").await;
        assert!(
            said.contains("points 2 and 3 stay at least 10 mm apart"),
            "{said}"
        );
        escape(page).await;
        page.until_gone("[data-held]").await;
        page.until_gone("[data-wish]").await;
        hand.let_go();
        assert_eq!(page.chart().await, before);
    });
}

#[test]
fn a_point_is_drawn_to_whole_threads() {
    on_the_page(async |page| {
        page.unfold("snap-threads").await;
        page.press("snap-threads").await;
        page.until_there(".guides line").await;
        let design = dragged(page, belly()).await;
        let snap = Snap {
            threads: true,
            ..Snap::default()
        };
        let size = design.draft().points[belly()].diameter_mm;
        let guides = snap.guides(&demo());
        let off = guides
            .iter()
            .map(|guide| (guide.diameter.millimetres() - size).abs());
        // Half a step of the grid of diameters.
        assert!(
            off.fold(f64::INFINITY, f64::min) <= 0.5e-4,
            "{size} is no guide"
        );
    });
}

#[test]
fn a_loupe_shows_what_the_finger_hides_and_keeps_clear_of_it() {
    on_the_page(async |page| {
        let mut hand = Hand::take(page, Pointer::Finger, belly()).await;
        hand.glide((10.0, 12.0));
        page.until_there(".loupe .silhouette").await;
        let (x, y, radius): (f64, f64, f64) = page.ask(LOUPE, vec![]).await;
        let away = (x - hand.at.0).hypot(y - hand.at.1);
        // A fingertip covers some 20 px around itself: common practice, no source.
        assert!(away > radius + 20.0, "{away} px from the finger");
        hand.let_go();
        page.until_gone(".loupe").await;
        let hand = Hand::take(page, Pointer::Mouse, belly()).await;
        page.until_there(".handle.dragged").await;
        assert_eq!(page.matching(".loupe").await, 0);
        hand.let_go();
    });
}

#[test]
fn a_pen_drags_like_a_mouse() {
    on_the_page(async |page| {
        let before = page.chart().await;
        let mut hand = Hand::take(page, Pointer::Pen, belly()).await;
        hand.glide((0.0, -24.0));
        page.until_chart("the line follows the pen", |now| *now != before)
            .await;
        page.until_there(".loupe").await;
        escape(page).await;
        page.until_chart("Escape puts it back", |now| *now == before)
            .await;
        hand.let_go();
        let mut hand = Hand::take(page, Pointer::Pen, belly()).await;
        hand.glide((20.0, -24.0));
        hand.let_go();
        until("the drag is kept", async || page.kept().await).await;
    });
}

#[test]
fn a_drag_follows_once_for_each_frame() {
    on_the_page(async |page| {
        let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
        hand.glide((10.0, 0.0));
        page.until_there(".handle.dragged").await;
        // A hundred moves told within one frame: the point's place is written once at most.
        let script = r"
            const done = arguments[0];
            const handle = document.querySelector('.handle.dragged');
            const dot = handle.querySelector('.dot');
            let written = 0;
            const watch = new MutationObserver((changes) => { written += changes.length; });
            watch.observe(handle, { attributes: true, attributeFilter: ['transform'] });
            requestAnimationFrame(() => {
                const { x, y } = dot.getBoundingClientRect();
                for (let step = 1; step <= 100; step += 1) {
                    window.dispatchEvent(new PointerEvent('pointermove', {
                        pointerId: 1, buttons: 1, clientX: x + step / 4, clientY: y,
                    }));
                }
                requestAnimationFrame(() => requestAnimationFrame(() => {
                    watch.disconnect();
                    done(written);
                }));
            });";
        let written = page.session.client.execute_async(script, vec![]).await;
        assert_eq!(written.expect("the page counts"), json!(1));
        escape(page).await;
        hand.let_go();
    });
}

/// Whatever is spoken by itself is silent while the hand holds a point, and speaks when it lets go.
#[test]
fn a_drag_is_no_stream_of_words() {
    on_the_page(async |page| {
        // What the page says of its copy for the shed has nothing to do with the hand.
        page.until_ready().await;
        let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
        page.until_there(".handle.dragged").await;
        let listen = "
            window.spoken = 0;
            const live = '[role=status], [role=alert], [aria-live], output';
            new MutationObserver((changes) => {
                spoken += changes.filter(({ target }) => (target.closest?.(live) ?? target.parentElement?.closest(live))).length;
            }).observe(document.body, { subtree: true, childList: true, characterData: true });";
        page.run(listen, vec![]).await;
        let before = page.chart().await;
        // So thick that there is something to warn of.
        hand.glide((0.0, -90.0));
        page.until_chart("the line follows", |now| *now != before)
            .await;
        assert_eq!(page.ask::<u32>("return spoken;", vec![]).await, 0);
        hand.let_go();
        until("the page speaks", async || {
            (page.ask::<u32>("return spoken;", vec![]).await > 0).then_some(())
        })
        .await;
    });
}

#[test]
fn points_and_parts_are_typed_in_the_table() {
    on_the_page(async |page| {
        let field =
            |action: &str, row: usize| format!(r#"[data-row="{row}"] [data-action="{action}"]"#);
        page.enter_at(&field("row-size", 1), "0,8").await;
        let sizes = kept_where(page, |design| design.draft().points[1].diameter_mm == 0.8).await;
        // The tip is level, and the ends are alike.
        let tips: Vec<f64> = [0, 1, 4, 5]
            .map(|k| sizes.draft().points[k].diameter_mm)
            .to_vec();
        assert_eq!(tips, [0.8; 4]);
        page.enter_at(&field("row-stretch", 2), "60 ft").await;
        let longer = Edit::Lengthen {
            first: 2,
            last: 3,
            length_m: 60.0 * 0.3048,
            ends: LineEnds::Alike,
        };
        let longer = longer.apply(&sizes).expect("a belly of 60 ft");
        kept_where(page, |design| *design == longer).await;
        page.enter("line-length", "20").await;
        kept_where(page, |design| design.draft().points[5].at_m == 20.0).await;
        page.enter("scale-sizes", "110 %").await;
        kept_where(page, |design| {
            (design.draft().points[0].diameter_mm - 0.88).abs() < 1e-4
        })
        .await;
        // Nonsense stays where it was typed, is explained there, and changes nothing.
        let before = page.kept().await;
        page.enter_at(&field("row-at", 3), "yonder").await;
        page.until_said("yonder").await;
        assert_eq!(page.value_at(&field("row-at", 3)).await, "yonder");
        assert_eq!(page.kept().await, before);
    });
}

#[test]
fn a_press_is_one_threads_worth() {
    on_the_page(async |page| {
        let threads = page.state().await.si("threads-max");
        page.press("thicker").await;
        page.until_state("one thread more", |now| {
            now.si("threads-max") == threads + 1.0
        })
        .await;
        page.press("thinner").await;
        page.press("thinner").await;
        page.until_state("one thread less", |now| {
            now.si("threads-max") == threads - 1.0
        })
        .await;
    });
}

/// Drags a point by mouse; returns what is then kept.
async fn dragged(page: &Page, point: usize) -> Design {
    let before = page.kept().await;
    // What was chosen of how points move may stand over the chart.
    escape(page).await;
    page.until_gone(":popover-open").await;
    let mut hand = Hand::take(page, Pointer::Mouse, point).await;
    hand.glide((18.0, -14.0));
    hand.let_go();
    let changed = async || page.kept().await.filter(|now| Some(now) != before.as_ref());
    until("the drag is kept", changed).await
}

async fn kept_where(page: &Page, wish: impl Fn(&Design) -> bool) -> Design {
    until("the change is kept", async || {
        page.kept().await.filter(&wish)
    })
    .await
}

fn same_points(a: &Design, b: &Design) -> bool {
    a.draft().points == b.draft().points
}

/// The belly of the demo moved by a field with the usual options; the page and this agree on what is usual.
#[test]
fn a_field_moves_what_a_drag_moves() {
    on_the_page(async |page| {
        page.enter("point-at", "4").await;
        let mut point = demo().draft().points[belly()];
        point.at_m = 4.0;
        let edit = Edit::Place {
            index: belly(),
            point,
            options: MoveOptions::default(),
        };
        let wanted = edit.apply(&demo()).expect("a longer taper");
        kept_where(page, |design| *design == wanted).await;
    });
}
