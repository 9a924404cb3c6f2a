//! Ways about the page: to a place, to wherever a control stands, to all figures and the whole schedule. A reader knows where to
//! look; these look in every place and on every sheet in turn.

use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use super::harness::until;
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
        const open = sheet();
        if (!open) return;
        open.querySelector(".over-head [data-action$='-close']").click();
        const isClosed = await until(() => !sheet() && !String(history.state).endsWith(" sheet"));
        if (!isClosed) throw new Error(`${open.className} does not close`);
    };
    const placeNow = () => document.documentElement.dataset.place;
    const goTo = async (place) => {
        await closeSheet();
        document.querySelector(`[data-action="place"][data-place="${place}"]`).click();
        if (!await until(() => placeNow() === place)) throw new Error(`the page does not go to ${place}`);
        await frames(2);
    };
    const openSheet = async (opener) => {
        document.querySelector(opener).click();
        if (!await until(sheet)) throw new Error(`${opener} opens no sheet`);
        await Promise.all(sheet().getAnimations({ subtree: true }).map((animation) => animation.finished));
        await frames(2);
    };
"#;

/// Where a control may stand that is in no place now: a place, then what opens a sheet there.
const SEEK: &str = r#"
    const HOPS = [
        [null, '.menu [data-action="workshop-sheet"]'],
        ["draw"], ["threads"], ["wind"], ["dress"], ["weigh"], ["braid"],
        [null, '.menu [data-action="numbers"]'],
        ["threads", '[data-action="plans"]'],
        [null, '[data-action="all-figures"]'],
        [null, '[data-action="my-lines"]'],
        [null, '.menu [data-action="compare"]'],
        [null, '.menu [data-action="turnover"]'],
        [null, '.menu [data-action="new-line"]'],
        [null, '.menu [data-action="questions"]'],
        [null, '.menu [data-action="photo-sheet"]'],
        [null, '.menu [data-action="words"]'],
        [null, '.menu [data-action="cautions"]'],
        [null, '[data-action="share"]'],
        [null, '[data-action="card"]'],
    ];
    const found = () => [...document.querySelectorAll(selector)].filter((one) => !one.closest(".over:not(.shown)"));
    const canBeSeen = (one) => one.checkVisibility() || one.closest("[popover]:not(:popover-open)") || foldOf(one);
    const here = () => found().find((one) => canBeSeen(one) && (!sheet() || sheet().contains(one) || !one.closest(".shell")));
    const uncover = () => {
        const one = here();
        const closed = one?.closest("[popover]:not(:popover-open)");
        if (closed) document.querySelector(`[popovertarget="${closed.id}"]`).click();
        for (let fold = foldOf(one); fold; fold = foldOf(one)) fold.querySelector("summary").click();
    };
    const seek = async () => {
        if (here()) return uncover();
        const first = placeNow();
        await closeSheet();
        if (here()) return uncover();
        for (const [place, opener] of HOPS) {
            const wanted = place ?? first;
            if (wanted !== placeNow()) await goTo(wanted);
            if (opener) await openSheet(opener);
            if (here()) return uncover();
            await closeSheet();
        }
        await goTo(first);
    };
"#;

/// Folded parts that hide an element.
const FOLD: &str = r#"
    const foldOf = (one) => {
        const fold = one?.closest("details:not([open])");
        const isHead = fold && fold.querySelector("summary").contains(one);
        return isHead ? foldOf(fold.parentElement) : fold;
    };
"#;

/// The first that a selector finds in the place or on the sheet shown, neither folded nor in a closed popover; what is seen is
/// found before what is not.
const HERE: &str = r#"
    const [selector] = arguments;
    const sheet = document.querySelector(".over.shown");
    const is = (one) => !one.closest(".over:not(.shown), [popover]:not(:popover-open)")
        && (!sheet || sheet.contains(one) || !one.closest(".shell")) && !foldOf(one);
    const all = () => [...document.querySelectorAll(selector)].filter(is);
    const found = () => all().find((one) => one.checkVisibility()) ?? all()[0] ?? null;
"#;

/// All figures from their sheet, and the schedule from its place.
const ALL: &str = r#"
    const first = placeNow();
    await closeSheet();
    await openSheet('[data-action="all-figures"]');
    const { figures } = READ();
    await goTo("threads");
    const { events } = READ();
    await goTo(first);
    return { figures, events };
"#;

impl Page {
    /// Goes to a place: `draw`, `threads`, `wind`, `braid`, `dress`, `weigh`.
    pub(super) async fn go_to(&self, place: &str) {
        let script = "await goTo(args[0]); return true;";
        self.walk::<bool>(script, vec![json!(place)]).await;
        self.at_rest().await;
    }

    /// Opens a sheet by the script of its button, wherever that stands: on a phone some stand in the menu under other names.
    pub(super) async fn open_sheet(&self, opener: &str) {
        let script =
            "await closeSheet(); await openSheet(`[data-action=${args[0]}]`); return true;";
        let place = match opener {
            "dressing-sheet" => "dress",
            "plans" => "threads",
            _ => "draw",
        };
        self.go_to(place).await;
        self.walk::<bool>(script, vec![json!(opener)]).await;
        self.at_rest().await;
    }

    /// Closes the sheet that is open, if one is.
    pub(super) async fn close_sheet(&self) {
        self.walk::<bool>("await closeSheet(); return true;", vec![])
            .await;
    }

    /// Goes where a control stands, if it stands anywhere.
    pub(super) async fn seek(&self, selector: &str) {
        let is_here = format!("{FOLD} {HERE} return !!found()?.checkVisibility();");
        if self.ask(&is_here, vec![json!(selector)]).await {
            return;
        }
        let script = format!(
            "const [selector] = args; {FOLD} {SEEK} await seek(); await frames(2); return true;"
        );
        self.walk::<bool>(&script, vec![json!(selector)]).await;
        self.at_rest().await;
    }

    /// What a script answers of the element `found` by a selector, once there is one.
    pub(super) async fn found(&self, selector: &str, script: &str) -> Value {
        self.seek(selector).await;
        let script = format!("{FOLD} {HERE} {script}");
        until(&format!("there is {selector}"), async || {
            let answer = self.run(&script, vec![json!(selector)]).await;
            (!answer.is_null()).then_some(answer)
        })
        .await
    }

    /// All figures and the schedule, once everything follows the last finished change. The place shown is the same after it, and
    /// no sheet is open.
    pub(super) async fn state(&self) -> State {
        self.at_rest().await;
        let read = super::state::READ;
        let script = format!("const READ = () => {{ {read} }}; {ALL}");
        self.walk(&script, vec![]).await
    }

    /// The figures shown now, in the middle of a drag too.
    pub(super) async fn seen(&self) -> State {
        self.ask(super::state::READ, vec![]).await
    }

    /// Runs a script that goes about the page, with what [`WAYS`] has; its arguments are `args`. What cannot be reached is said.
    async fn walk<T: DeserializeOwned>(&self, script: &str, args: Vec<Value>) -> T {
        let script = format!(
            "const args = [...arguments]; const done = args.pop(); {WAYS}
            (async () => {{ {script} }})().then((said) => done({{ said }}), (error) => done({{ error: String(error) }}));"
        );
        let answer: Value = self.ask_later(&script, args).await;
        assert!(answer["error"].is_null(), "{}", answer["error"]);
        serde_json::from_value(answer["said"].clone()).expect("the answer has its form")
    }
}
