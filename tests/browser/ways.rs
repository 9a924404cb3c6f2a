//! Ways about the page: to a place, to wherever a control stands, to all figures and the whole schedule. A reader knows where to
//! look; these look in every place and on every sheet in turn.

use serde_json::json;

use super::page::Page;
use super::state::State;

/// What the scripts below share: what is shown, and how to get elsewhere.
const WAYS: &str = r#"
    const frames = async (count) => {
        for (; count > 0; count -= 1) await new Promise((drawn) => requestAnimationFrame(drawn));
    };
    const sheet = () => document.querySelector(".over.shown");
    const until = async (wish) => {
        for (let tries = 0; tries < 300 && !wish(); tries += 1) await frames(1);
        return wish();
    };
    const closeSheet = async () => {
        sheet()?.querySelector(".over-head [data-action$='-close']").click();
        await until(() => !sheet() && !String(history.state).endsWith(" sheet"));
    };
    const placeNow = () => document.documentElement.dataset.place;
    const goTo = async (place) => {
        await closeSheet();
        document.querySelector(`[data-action="place"][data-place="${place}"]`).click();
        await until(() => placeNow() === place);
        await frames(2);
    };
    const openSheet = async (opener) => {
        document.querySelector(opener).click();
        await until(sheet);
        await frames(2);
    };
"#;

/// Where a control may stand that is in no place now: a place, then what opens a sheet there.
const SEEK: &str = r#"
    const HOPS = [
        [null, '.menu [data-action="workshop-sheet"]'],
        ["draw"], ["threads"], ["wind"], ["dress"], ["weigh"], ["braid"],
        ["draw", '[data-action="numbers"]'],
        ["threads", '[data-action="plans"]'],
        [null, '[data-action="all-figures"]'],
        [null, '[data-action="my-lines"]'],
        [null, '.menu [data-action="compare"]'],
        [null, '.menu [data-action="new-line"]'],
        [null, '.menu [data-action="words"]'],
        [null, '.menu [data-action="cautions"]'],
    ];
    const found = () => [...document.querySelectorAll(selector)].filter((one) => !one.closest(".over:not(.shown)"));
    const here = () => found().find((one) => !sheet() || sheet().contains(one) || !one.closest(".shell"));
    const openPopover = async () => {
        const closed = here()?.closest("[popover]:not(:popover-open)");
        if (closed) document.querySelector(`[popovertarget="${closed.id}"]`).click();
    };
    const seek = async () => {
        if (here()) return openPopover();
        const first = placeNow();
        await closeSheet();
        if (here()) return openPopover();
        for (const [place, opener] of HOPS) {
            if (place && place !== placeNow()) await goTo(place);
            if (opener) await openSheet(opener);
            if (here()) return openPopover();
            await closeSheet();
        }
        await goTo(first);
    };
"#;

/// Whether a selector finds something in the place or on the sheet shown, and not in a closed popover.
const IS_HERE: &str = r#"
    const [selector] = arguments;
    const sheet = document.querySelector(".over.shown");
    const is = (one) => !one.closest(".over:not(.shown), [popover]:not(:popover-open)")
        && (!sheet || sheet.contains(one) || !one.closest(".shell"));
    return [...document.querySelectorAll(selector)].some(is);"#;

/// All figures from their sheet, and the schedule from its place.
const ALL: &str = r#"
    const [done] = arguments;
    const first = placeNow();
    await closeSheet();
    await openSheet('[data-action="all-figures"]');
    const { figures } = READ();
    await goTo("threads");
    const { events } = READ();
    await goTo(first);
    done({ figures, events });
"#;

impl Page {
    /// Goes to a place: `draw`, `threads`, `wind`, `braid`, `dress`, `weigh`.
    pub(super) async fn go_to(&self, place: &str) {
        let script = format!(
            "const [place, done] = arguments; (async () => {{ {WAYS} await goTo(place); done(true); }})();"
        );
        self.ask_later::<bool>(&script, vec![json!(place)]).await;
        self.at_rest().await;
    }

    /// Closes the sheet that is open, if one is.
    pub(super) async fn close_sheet(&self) {
        let script = format!(
            "const [done] = arguments; (async () => {{ {WAYS} await closeSheet(); done(true); }})();"
        );
        self.ask_later::<bool>(&script, vec![]).await;
    }

    /// Goes where a control stands, if it stands anywhere.
    pub(super) async fn seek(&self, selector: &str) {
        if self.ask(IS_HERE, vec![json!(selector)]).await {
            return;
        }
        let script = format!(
            "const [selector, done] = arguments; (async () => {{ {WAYS} {SEEK} await seek(); await frames(2); done(true); }})();"
        );
        self.ask_later::<bool>(&script, vec![json!(selector)]).await;
        self.at_rest().await;
    }

    /// All figures and the schedule, once everything follows the last finished change. The place shown is the same after it.
    pub(super) async fn state(&self) -> State {
        self.at_rest().await;
        let read = super::state::READ;
        let all = ALL.replace("const [done] = arguments;", "");
        let script = format!(
            "const [done] = arguments; (async () => {{ {WAYS} const READ = () => {{ {read} }}; {all} }})();"
        );
        self.ask_later(&script, vec![]).await
    }

    /// The figures shown now, in the middle of a drag too.
    pub(super) async fn seen(&self) -> State {
        self.ask(super::state::READ, vec![]).await
    }
}
