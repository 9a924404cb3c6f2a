//! Keeping the book, and living with other tabs that keep it too.

use leptos::prelude::*;

use super::desk::{Desk, kept_books};
use crate::book::Workshop;
use crate::browser::clock;
use crate::browser::storage::fresh_id;
use crate::shelf::{Entry, Keeping, Kept, News, Seen, Unkept, Work as _, concerns};
use crate::view::bench::shelf;

/// Takes apart what two tabs wrote under one number at the same moment, if they ever did.
pub(super) fn settle() {
    let Ok(mut shelf) = shelf() else { return };
    let tangled = |entry: Entry| entry.is_tangled.then_some(entry.number);
    let books = shelf.list::<Workshop>().unwrap_or_default();
    for number in books.into_iter().filter_map(tangled) {
        // What could not be taken apart stays as it is, and is tried again at the next opening.
        let _ = shelf.settle::<Workshop>(number);
    }
}

impl Desk {
    /// Keeps the book. Where another tab changed it meanwhile, this one becomes a copy beside it.
    pub(super) fn keep(self) {
        let seen = self.seen.get_value();
        let kept = self
            .workshop
            .with_untracked(|workshop| keep(seen.as_ref(), workshop));
        self.is_kept.set_value(kept.is_ok());
        match kept {
            Ok(Keeping { kept, parted }) => {
                self.trouble.set(None);
                self.number.set(Some(kept.seen.number()));
                self.seen.set_value(Some(kept.seen));
                if let Some(parted) = parted {
                    self.workshop.set(kept.work);
                    self.tell(parted.words::<Workshop>());
                }
                self.list(&kept_books());
            }
            Err(error) => self.tell(error.to_string()),
        }
    }

    /// Another tab wrote something: the book follows, as long as all that was written into it here is kept.
    pub(super) fn hear(self, key: Option<&str>) {
        if !concerns(key) {
            return;
        }
        settle();
        self.list(&kept_books());
        let Some(seen) = self.seen.get_value() else {
            return;
        };
        match shelf().and_then(|shelf| shelf.news::<Workshop>(&seen)) {
            Ok(News::Changed(kept)) if self.is_kept.get_value() => self.follow(
                *kept,
                "Another tab changed this workshop’s book. You see it as it is now.",
            ),
            Ok(News::Moved(kept)) => self.follow(
                *kept,
                "Another tab changed this workshop’s book at the same moment. Yours is kept beside it, as a copy.",
            ),
            Ok(News::Newer) => self.tell(
                "A newer version of this page changed this workshop’s book. Reload the page before you go on.".to_owned(),
            ),
            Ok(News::Gone) => self.tell(
                "This workshop’s book is no longer kept in this browser: another tab took it away. Save it as a file if you want to keep what you see.".to_owned(),
            ),
            Ok(News::Binned) => self.tell(
                "Another tab put this workshop into the bin. It comes back when you change it here.".to_owned(),
            ),
            Ok(News::Same | News::Changed(_)) | Err(_) => {}
        }
    }

    fn follow(self, kept: Kept<Workshop>, words: &str) {
        self.forget_past();
        self.number.set(Some(kept.seen.number()));
        self.seen.set_value(Some(kept.seen));
        self.workshop.set(kept.work);
        self.tell(words.to_owned());
    }
}

fn keep(seen: Option<&Seen>, workshop: &Workshop) -> Result<Keeping<Workshop>, Unkept> {
    let today = clock::today();
    let what = Workshop::WORD;
    let mut shelf = shelf().map_err(|why| Unkept { what, why })?;
    if let Some(seen) = seen {
        return shelf.keep(seen, workshop, today);
    }
    let kept = shelf.keep_new(fresh_id(), workshop, today)?;
    Ok(Keeping { kept, parted: None })
}
