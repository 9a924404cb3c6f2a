//! The page, as a reader meets it: what it shows, and the ways to change it. Only what `data-` attributes and roles
//! promise is relied on, never how it looks.

use std::collections::BTreeMap;

use fantoccini::elements::Element;
use fantoccini::key::Key;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use taperwright::design::Design;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{
    Document, LINE_KEY, LineNumber, Lookup, OPEN_KEY, Shelf, WorkshopNumber, Writer,
};

use super::cdp::{Session, Size};
use super::harness::until;
use super::pool;
use super::state::State;

/// A shelf on a copy of what a browser keeps.
fn shelf(storage: Storage) -> Shelf<Memory> {
    Shelf::load(Memory(storage), Writer(0)).expect("a copy can be read")
}

/// What is kept under a number, if anything.
fn looked_at<T: Document + core::fmt::Debug>(storage: Storage, number: u32) -> Option<T> {
    match shelf(storage).look(number) {
        Lookup::Kept(kept) => Some(kept.work),
        Lookup::Nothing | Lookup::Unreadable { .. } => None,
        found => panic!("{found:?}"),
    }
}

/// A tablet held sideways.
const USUAL_SIZE: Size = (1180, 820);
/// The alert that stands nearer to a field than any other control does.
const SAID_BESIDE: &str = r#"
    const field = document.querySelector(arguments[0]);
    for (let around = field.parentElement; around; around = around.parentElement) {
        if (around.querySelectorAll("[data-action]").length > 1) return null;
        const alert = around.querySelector('[role="alert"]');
        if (alert) return alert.textContent;
    }
    return null;"#;

/// Where the page keeps which place was shown last, and how far it was scrolled.
pub(super) const PLACE_KEY: &str = "taperwright/place";

/// All words shown now.
const TEXT: &str = "return document.body.innerText;";

/// Centre of a control point, once it stays where it is for a frame.
const SPOT: &str = r"
    const [index, done] = arguments;
    const spot = () => {
        const bounds = document.querySelector(`[data-point='${index}']`).getBoundingClientRect();
        return [bounds.x + bounds.width / 2, bounds.y + bounds.height / 2];
    };
    const before = spot();
    requestAnimationFrame(() => requestAnimationFrame(() => {
        const after = spot();
        done(before.every((value, axis) => value === after[axis]) ? after : null);
    }));";

/// Everything the browser keeps for the page: texts by key.
pub(super) type Storage = BTreeMap<String, String>;
/// A place in the viewport, in CSS pixels.
pub(super) type Spot = (f64, f64);

/// A page in a browser of its own.
pub(super) struct Page {
    /// The browser.
    pub(super) session: Session,
    /// Where the site is served.
    pub(super) origin: String,
}

impl Page {
    /// Opens the page at the site's address with this after it, and waits until it shows a line.
    pub(super) async fn open(session: Session, origin: String, rest: &str) -> Self {
        session.resize(USUAL_SIZE);
        let page = Self { session, origin };
        page.go(rest).await;
        page
    }

    /// Goes to an address of the site.
    pub(super) async fn go(&self, rest: &str) {
        let address = format!("{}/{rest}", self.origin);
        self.session
            .client
            .goto(&address)
            .await
            .expect("the page opens");
        self.until_open().await;
    }

    /// Loads the page again.
    pub(super) async fn reload(&self) {
        self.session.reload().await;
        self.until_open().await;
    }

    async fn until_open(&self) {
        until("the page shows a line", async || {
            self.seen()
                .await
                .figures
                .contains_key("class")
                .then_some(())
        })
        .await;
        self.at_rest().await;
    }

    /// Waits until all parts of the page are built and follow the last finished change.
    pub(super) async fn at_rest(&self) {
        self.until_there("[data-whole]").await;
    }

    /// Leaves the browser to the next test, or closes one that is not shared.
    pub(super) async fn leave(self) {
        if self.session.is_shared {
            pool::give_back(self.session, &self.origin).await;
        } else {
            self.session.close().await;
        }
    }

    /// Runs a script in the page.
    pub(super) async fn run(&self, script: &str, args: Vec<Value>) -> Value {
        let answer = self.session.client.execute(script, args).await;
        answer.unwrap_or_else(|error| panic!("{error}, in {script}"))
    }

    /// What a script in the page answers.
    pub(super) async fn ask<T: DeserializeOwned>(&self, script: &str, args: Vec<Value>) -> T {
        serde_json::from_value(self.run(script, args).await).expect("the answer has its form")
    }

    /// What a script answers later: it is given a function to answer with, after its arguments.
    pub(super) async fn ask_later<T: DeserializeOwned>(&self, script: &str, args: Vec<Value>) -> T {
        let answer = self.session.client.execute_async(script, args).await;
        let answer = answer.unwrap_or_else(|error| panic!("{error}, in {script}"));
        serde_json::from_value(answer).expect("the answer has its form")
    }

    /// Waits until the browser has drawn what there is by now.
    pub(super) async fn until_drawn(&self) {
        let script = "const [done] = arguments; requestAnimationFrame(() => requestAnimationFrame(() => done(true)));";
        self.ask_later::<bool>(script, vec![]).await;
    }

    /// The state, once it is as wished.
    pub(super) async fn until_state(&self, what: &str, wish: impl Fn(&State) -> bool) -> State {
        until(what, async || Some(self.state().await).filter(&wish)).await
    }

    /// Everything kept in this browser, but for the hint where the maker was last: tests go about the page to read it, see
    /// [`super::places`].
    pub(super) async fn storage(&self) -> Storage {
        let script = "return Object.fromEntries(Object.entries(localStorage));";
        let mut storage: Storage = self.ask(script, vec![]).await;
        storage.remove(PLACE_KEY);
        storage
    }

    /// The open line, as it is kept.
    pub(super) async fn kept(&self) -> Option<Design> {
        let number = self.storage().await.get(OPEN_KEY)?.parse().ok()?;
        self.kept_line(number).await
    }

    /// The line of a number, as it is kept.
    pub(super) async fn kept_line(&self, number: LineNumber) -> Option<Design> {
        looked_at(self.storage().await, number)
    }

    /// The numbers of the lines kept.
    pub(super) async fn kept_numbers(&self) -> Vec<LineNumber> {
        let entries = shelf(self.storage().await).list::<Design>();
        let entries = entries.expect("a copy can be read");
        entries.iter().map(|entry| entry.number).collect()
    }

    /// The texts of the line of a number, by their keys.
    pub(super) async fn texts_of(&self, number: LineNumber) -> Storage {
        let mut texts = self.storage().await;
        let prefix = format!("{LINE_KEY}{number}/");
        texts.retain(|key, _| key.starts_with(&prefix));
        texts
    }

    /// Everything there is to read on the page now.
    pub(super) async fn text(&self) -> String {
        self.ask(TEXT, vec![]).await
    }

    /// The bench book of a number, as it is kept.
    pub(super) async fn kept_book(&self, number: WorkshopNumber) -> Option<Workshop> {
        looked_at(self.storage().await, number)
    }

    /// The bench book, once it is kept as wished.
    pub(super) async fn until_book(
        &self,
        what: &str,
        wish: impl Fn(&Workshop) -> bool,
    ) -> Workshop {
        until(what, async || self.kept_book(1).await.filter(&wish)).await
    }

    /// Waits until the page says something.
    pub(super) async fn until_said(&self, words: &str) {
        until(&format!("the page says “{words}”"), async || {
            self.text().await.contains(words).then_some(())
        })
        .await;
    }

    /// A control.
    pub(super) async fn control(&self, action: &str) -> Element {
        self.element(&format!(r#"[data-action="{action}"]"#)).await
    }

    /// The first element that a selector finds in the place or on the sheet where it is.
    async fn element(&self, selector: &str) -> Element {
        let found = self.found(selector, "return found();").await;
        let id = found.as_object().and_then(|found| found.values().next());
        let id = id.and_then(Value::as_str).expect("an element has an id");
        Element::from_element_id(self.session.client.clone(), id.to_owned().into())
    }

    /// How many controls of a key there are.
    pub(super) async fn count(&self, action: &str) -> usize {
        let script = "return document.querySelectorAll(`[data-action='${arguments[0]}']`).length;";
        self.ask(script, vec![json!(action)]).await
    }

    /// How many elements a selector finds.
    pub(super) async fn matching(&self, selector: &str) -> usize {
        let script = "return document.querySelectorAll(arguments[0]).length;";
        self.ask(script, vec![json!(selector)]).await
    }

    /// Waits until a selector finds something.
    pub(super) async fn until_there(&self, selector: &str) {
        until(&format!("there is {selector}"), async || {
            (self.matching(selector).await > 0).then_some(())
        })
        .await;
    }

    /// Waits until a selector finds nothing any more.
    pub(super) async fn until_gone(&self, selector: &str) {
        until(&format!("{selector} is gone"), async || {
            (self.matching(selector).await == 0).then_some(())
        })
        .await;
    }

    /// What is to be read in the first element that a selector finds.
    pub(super) async fn words_of(&self, selector: &str) -> String {
        let script =
            "const one = found(); return one && (one.innerText ?? one.textContent).trim();";
        let words = self.found(selector, script).await;
        words.as_str().expect("words are a text").to_owned()
    }

    /// Waits until what a selector finds has the focus.
    pub(super) async fn until_focused(&self, selector: &str) {
        let script = "return document.activeElement?.matches(arguments[0]) ?? false;";
        until(&format!("{selector} has the focus"), async || {
            let has: bool = self.ask(script, vec![json!(selector)]).await;
            has.then_some(())
        })
        .await;
    }

    /// Presses a button.
    pub(super) async fn press(&self, action: &str) {
        self.press_at(&format!(r#"[data-action="{action}"]"#)).await;
    }

    /// Presses the first of those that a selector finds.
    pub(super) async fn press_at(&self, selector: &str) {
        let pressed = self.element(selector).await.click().await;
        // Scrolled there, parts that were out of sight take their room, and the chart may cover it: whoever sees that scrolls on.
        let pressed = match pressed {
            Err(error) if error.to_string().contains("click intercepted") => {
                self.bring(selector).await;
                self.until_drawn().await;
                self.element(selector).await.click().await
            }
            pressed => pressed,
        };
        pressed.unwrap_or_else(|error| panic!("{selector} cannot be pressed: {error}"));
    }

    /// Scrolls until the first of those that a selector finds stands in the middle, where nothing that sticks to an edge of the
    /// window covers it.
    pub(super) async fn bring(&self, selector: &str) {
        let script = "document.querySelector(arguments[0]).scrollIntoView({ block: 'center' });";
        self.run(script, vec![json!(selector)]).await;
    }

    /// Unfolds the finer values among which a control stands.
    pub(super) async fn unfold(&self, action: &str) {
        let script = r#"
            const fold = document.querySelector(`[data-action="${arguments[0]}"]`).closest("details");
            if (fold && !fold.open) fold.querySelector("summary").click();"#;
        self.seek(&format!(r#"[data-action="{action}"]"#)).await;
        self.run(script, vec![json!(action)]).await;
    }

    /// Chooses from a list.
    pub(super) async fn choose(&self, action: &str, value: &str) {
        self.choose_at(&format!(r#"[data-action="{action}"]"#), value)
            .await;
    }

    /// Chooses from the first list that a selector finds.
    pub(super) async fn choose_at(&self, selector: &str, value: &str) {
        let chosen = self.element(selector).await.select_by_value(value).await;
        chosen.unwrap_or_else(|error| panic!("{value} cannot be chosen for {selector}: {error}"));
    }

    /// Types into a field, in place of what stands there, and presses Enter.
    pub(super) async fn enter(&self, action: &str, text: &str) {
        self.enter_at(&format!(r#"[data-action="{action}"]"#), text)
            .await;
    }

    /// The same, into the first field that a selector finds.
    pub(super) async fn enter_at(&self, selector: &str, text: &str) {
        let (control, delete) = (char::from(Key::Control), char::from(Key::Delete));
        let field = self.element(selector).await;
        // The control key is let go with the end of a request in every engine, but in the middle of one in Chromium only.
        let enter = char::from(Key::Enter);
        for keys in [format!("{control}a"), format!("{delete}{text}{enter}")] {
            let typed = field.send_keys(&keys).await;
            typed.unwrap_or_else(|error| panic!("{selector} takes no keys: {error}"));
        }
    }

    /// What stands in a field.
    pub(super) async fn value(&self, action: &str) -> String {
        let value = self.control(action).await.prop("value").await;
        value
            .expect("a field answers")
            .expect("a field has a value")
    }

    /// What stands in the first field that a selector finds.
    pub(super) async fn value_at(&self, selector: &str) -> String {
        let value = self.element(selector).await.prop("value").await;
        value
            .expect("a field answers")
            .expect("a field has a value")
    }

    /// An attribute of the first element that a selector finds.
    pub(super) async fn attribute_at(&self, selector: &str, name: &str) -> Option<String> {
        let attribute = self.element(selector).await.attr(name).await;
        attribute.expect("an element answers")
    }

    /// What the page says is wrong with a field, right beside it.
    pub(super) async fn said_beside(&self, action: &str) -> Option<String> {
        let selector = format!(r#"[data-action="{action}"]"#);
        self.said_beside_at(&selector).await
    }

    /// The same of the first field that a selector finds.
    pub(super) async fn said_beside_at(&self, selector: &str) -> Option<String> {
        self.seek(selector).await;
        self.ask(SAID_BESIDE, vec![json!(selector)]).await
    }

    /// The centre of a control point, once it has settle.
    pub(super) async fn point(&self, index: usize) -> Spot {
        self.seek(&format!("[data-point='{index}']")).await;
        until("a point rests", async || {
            self.ask_later(SPOT, vec![json!(index)]).await
        })
        .await
    }
}
