//! Saving the open line, and living with other tabs that save it too.

use leptos::prelude::*;

use super::state::OpenMeasured;
use crate::keep::shelf::{Keeping, Kept, News, concerns};
use crate::measured::MeasuredLine;
use crate::page::browser::{address, rescue};
use crate::page::view::bench::{keep, shelf};

impl OpenMeasured {
    /// Notes that the line was saved as a file: another one may be opened then.
    pub(super) fn filed(self) {
        if !self.is_kept.get_value() {
            self.is_kept.set_value(true);
            rescue::let_go::<MeasuredLine>();
        }
    }

    /// Saves the line. Where another tab changed it meanwhile, this one becomes a copy beside it.
    pub(super) fn keep(self) {
        let seen = self.seen.get_value();
        let kept = self.line.with_untracked(|line| keep(seen.as_ref(), line));
        self.is_kept.set_value(kept.is_ok());
        match kept {
            Ok(Keeping { kept, parted }) => {
                if self.is_preview.get_untracked() {
                    self.is_preview.set(false);
                    address::forget_measured();
                }
                self.trouble.set(None);
                self.number.set(Some(kept.seen.number()));
                self.seen.set_value(Some(kept.seen));
                if let Some(parted) = parted {
                    self.line.set(kept.work);
                    self.trouble.set(Some(parted.words::<MeasuredLine>()));
                }
            }
            Err(error) => self.trouble.set(Some(error.to_string())),
        }
    }

    /// Another tab wrote something: the line follows, as long as all that was changed here is saved.
    pub(super) fn hear(self, key: Option<&str>) {
        let Some(seen) = self.seen.get_value().filter(|_| concerns(key)) else {
            return;
        };
        let news = shelf().and_then(|shelf| shelf.news::<MeasuredLine>(&seen));
        match news {
            Ok(News::Changed(kept) | News::Moved(kept)) if self.is_kept.get_value() => {
                self.follow(*kept);
            }
            Ok(News::Binned) => self.trouble.set(Some(
                "Another tab moved this measured line to the bin. It is restored when you change it here.".to_owned(),
            )),
            Ok(News::Newer) => self.lose_place(
                "A newer version of this page changed this measured line in another tab. Reload the page before you continue.",
            ),
            Ok(News::Gone) => self.lose_place(
                "Another tab deleted this measured line. To save what you see, change it or save it as a file.",
            ),
            _ => {}
        }
    }

    /// What is seen here is saved nowhere any more.
    fn lose_place(self, words: &str) {
        if let Some(seen) = self.seen.get_value() {
            self.line
                .with_untracked(|line| rescue::hold(seen.id(), line));
        }
        self.is_kept.set_value(false);
        self.trouble.set(Some(words.to_owned()));
    }

    fn follow(self, kept: Kept<MeasuredLine>) {
        self.past.set(Vec::new());
        self.report.set(None);
        self.number.set(Some(kept.seen.number()));
        self.seen.set_value(Some(kept.seen));
        self.line.set(kept.work);
        self.trouble.set(Some(
            "Another tab changed this measured line. You see it as it is now.".to_owned(),
        ));
    }
}
