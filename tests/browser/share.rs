//! A link carries a whole line to somebody else, and never harms what that person has.

use std::rc::Rc;

use taperwright::keep::share::link;
use taperwright::keep::shelf::LINE_KEY;

use super::harness::{Desk, at_a_desk, on_the_page, until};
use super::kept;
use super::memory::dragged;
use super::page::{Page, Storage};
use super::state::State;

#[test]
fn a_link_shows_the_same_line_in_another_browser() {
    at_a_desk(async |desk| {
        let sender = desk.visitor().await;
        let (sent, design) = dragged(&sender).await;
        let fragment = shared(&sender).await;
        assert_eq!(link::decode(&fragment), Some(Ok(design)));
        let receiver = desk.visitor_by(&fragment).await;
        assert_eq!(receiver.state().await, sent);
        assert_eq!(receiver.count("keep-copy").await, 1, "it is no preview");
        assert!(receiver.storage().await.is_empty(), "looking alone kept it");
    });
}

#[test]
fn a_link_never_touches_the_own_line_unless_a_copy_is_kept() {
    at_a_desk(async |desk| {
        let (fragment, sent) = foreign(desk).await;
        let own = Owner::of(desk.visitor().await).await;
        own.page.go(&fragment).await;
        own.sees(&sent).await;
        own.page.press("leave-preview").await;
        own.is_home().await;
        // An open page only hears of another fragment; now the link is there from the beginning.
        own.page.go(&fragment).await;
        own.page.reload().await;
        own.sees(&sent).await;
        own.page.press("keep-copy").await;
        own.has_both(&sent).await;
    });
}

#[test]
fn changing_a_preview_makes_it_a_line_beside_the_own_one() {
    at_a_desk(async |desk| {
        let (fragment, _) = foreign(desk).await;
        let own = Owner::of(desk.visitor().await).await;
        own.page.go(&fragment).await;
        own.page.enter("point-size", "0.85").await;
        let is_thinner = |now: &State| now.si("belly-diameter") < 0.9e-3;
        let changed = own
            .page
            .until_state("the preview changes", is_thinner)
            .await;
        own.has_both(&changed).await;
    });
}

#[test]
fn a_link_cut_off_or_altered_says_so_and_leaves_the_own_line() {
    at_a_desk(async |desk| {
        let (fragment, _) = foreign(desk).await;
        let own = Owner::of(desk.visitor().await).await;
        for broken in [cut_off(&fragment), altered(&fragment)] {
            let said = link::decode(&broken)
                .expect("still a link")
                .expect_err(&broken);
            own.page.go(&broken).await;
            own.page.until_said(&said.to_string()).await;
            own.is_home().await;
            own.page.reload().await;
            own.page.until_said(&said.to_string()).await;
            own.is_home().await;
        }
    });
}

#[test]
fn a_link_can_be_copied() {
    on_the_page(async |page| {
        page.session.allow_clipboard(&page.origin);
        let fragment = shared(page).await;
        page.press("copy-link").await;
        let link = format!("{}/{fragment}", page.origin);
        until("the link is in the clipboard", async || {
            let script = "navigator.clipboard.readText().then(arguments[0]);";
            let text = page.session.client.execute_async(script, vec![]).await;
            (text.expect("the clipboard answers") == link.as_str()).then_some(())
        })
        .await;
    });
}

/// The fragment of the line on the page, with its `#`.
pub(super) async fn shared(page: &Page) -> String {
    page.press("share").await;
    let link = page.value("link").await;
    let rest = link.strip_prefix(&format!("{}/", page.origin));
    rest.expect("the link leads to this site").to_owned()
}

/// A link from somebody else, and what it should show.
async fn foreign(desk: &Desk) -> (String, State) {
    let sender = desk.visitor().await;
    sender.enter("point-size", "0.95").await;
    let sent = sender
        .until_state("the line changes", |now| now.si("belly-diameter") < 1.0e-3)
        .await;
    (shared(&sender).await, sent)
}

fn cut_off(fragment: &str) -> String {
    fragment[..fragment.len() - 5].to_owned()
}

/// The same link with one letter in its middle exchanged for another.
fn altered(fragment: &str) -> String {
    let (middle, other) = (
        fragment.len() / 2,
        |letter| if letter == "A" { "B" } else { "A" },
    );
    let letter = &fragment[middle..=middle];
    format!(
        "{}{}{}",
        &fragment[..middle],
        other(letter),
        &fragment[middle + 1..]
    )
}

/// Somebody with a line of their own.
struct Owner {
    page: Rc<Page>,
    state: State,
    storage: Storage,
}

impl Owner {
    async fn of(page: Rc<Page>) -> Self {
        let (state, _) = dragged(&page).await;
        let storage = page.storage().await;
        Self {
            page,
            state,
            storage,
        }
    }

    /// Another line is shown, as a preview, and nothing is lost for it.
    async fn sees(&self, other: &State) {
        self.page
            .until_state("the preview is shown", |now| now == other)
            .await;
        assert_eq!(self.page.storage().await, self.storage);
    }

    /// The own line is shown, as it was kept.
    async fn is_home(&self) {
        self.page
            .until_state("the own line is shown", |now| *now == self.state)
            .await;
        assert_eq!(self.page.count("keep-copy").await, 0, "still a preview");
        assert_eq!(self.page.storage().await, self.storage);
    }

    /// Both lines are kept, the copy is open, and the own line can be had again.
    async fn has_both(&self, copy: &State) {
        let own = |mut texts: Storage| {
            texts.retain(|key, _| key.starts_with(&format!("{LINE_KEY}1/")));
            texts
        };
        until("two lines are kept", async || {
            (self.page.kept_numbers().await == [1, 2]).then_some(())
        })
        .await;
        assert_eq!(
            self.page.texts_of(1).await,
            own(self.storage.clone()),
            "the own line was touched"
        );
        self.page.reload().await;
        assert_eq!(self.page.state().await, *copy);
        kept::fetch(&self.page, 1).await;
        self.page
            .until_state("the own line is back", |now| *now == self.state)
            .await;
    }
}
