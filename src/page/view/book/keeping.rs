//! Keeping the book, and living with other tabs that keep it too.

use leptos::prelude::*;

use super::open_book::{OpenBook, kept_books};
use crate::keep::book::Workshop;
use crate::keep::shelf::{Keeping, Kept, News, concerns};
use crate::page::view::bench::{keep, settle_all, shelf};

impl OpenBook {
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

    /// Tries once more to keep what could not be kept.
    pub(super) fn try_again(self) {
        if !self.is_kept.get_value() {
            self.keep();
        }
    }

    /// Another tab wrote something: the book follows, as long as all that was written into it here is kept.
    pub(super) fn hear(self, key: Option<&str>) {
        if !concerns(key) {
            return;
        }
        settle_all::<Workshop>(&kept_books());
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
                "Another tab changed this workshop’s book at the same moment. Yours is saved beside it, as a copy.",
            ),
            Ok(News::Newer) => self.tell(
                "A newer version of this page changed this workshop’s book. Reload the page before you go on.".to_owned(),
            ),
            Ok(News::Gone) => self.tell(
                "This workshop’s book is no longer saved in this browser: another tab deleted it. Save it as a file if you want to keep it.".to_owned(),
            ),
            Ok(News::Binned) => self.tell(
                "Another tab moved this workshop to the bin. It comes back when you change it here.".to_owned(),
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
