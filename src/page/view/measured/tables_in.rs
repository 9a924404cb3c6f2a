//! Tables of readings, opened or pasted, on their way into the open line.

use leptos::prelude::*;

use super::state::{OpenMeasured, TableReport};
use crate::base::units::text::Unit;
use crate::keep::share::measured_file;
use crate::keep::share::readings::{self, AskedUnits, ReadTable};
use crate::measured::MeasuredLine;
use crate::page::browser::address;
use crate::page::view::sheet_kind::SheetKind;

impl OpenMeasured {
    /// Opens a file: that of a measured line, or a table of readings; `None` where it is too large.
    pub(crate) fn take_file(self, text: Option<String>) {
        let Some(text) = text else {
            let error = measured_file::MeasuredFileError::TooLarge;
            return self.bench.say(error.to_string());
        };
        if text
            .trim_start_matches('\u{feff}')
            .trim_start()
            .starts_with('{')
        {
            match measured_file::read(&text) {
                Ok(line) => self.take_in(line),
                Err(error) => self.bench.say(error.to_string()),
            }
            return;
        }
        let is_empty = self.bench.sheet.get_untracked() == Some(SheetKind::Measured)
            && self
                .line
                .with_untracked(|line| line.draft().readings.is_empty());
        if !is_empty && !self.may_leave() {
            return;
        }
        let before = if is_empty {
            self.line.get_untracked()
        } else {
            MeasuredLine::new()
        };
        // What is no table opens nothing and leaves the open line as it is.
        let table = readings::read(&text, &self.read_as(None, None));
        let added = table.map_err(|error| error.to_string()).and_then(|table| {
            let line = table.edit().apply(&before);
            Ok((line.map_err(|refusal| refusal.to_string())?, table))
        });
        match added {
            Err(said) => self.bench.say(said),
            Ok((line, table)) => {
                if !is_empty {
                    address::forget_measured();
                    self.show(before.clone(), None);
                }
                self.put(line, false);
                self.report.set(Some(TableReport {
                    before,
                    text,
                    table,
                }));
            }
        }
    }

    /// Adds the readings of a table that was pasted.
    ///
    /// # Errors
    /// Why there are none in it.
    pub(super) fn paste(self, text: String) -> Result<(), String> {
        let table = readings::read(&text, &self.read_as(None, None));
        self.add_table(text, table.map_err(|error| error.to_string())?)
    }

    /// Reads the last table again, in other units.
    pub(super) fn read_again(self, place: Unit, diameter: Unit) {
        let Some(report) = self.report.get_untracked() else {
            return;
        };
        let read = readings::read(&report.text, &self.read_as(Some(place), Some(diameter)));
        let outcome = read.map_err(|error| error.to_string()).and_then(|table| {
            // The readings of the first time are replaced, as one step to undo.
            let line = table.edit().apply(&report.before);
            let line = line.map_err(|refusal| refusal.to_string())?;
            self.put(line, false);
            self.report.set(Some(TableReport { table, ..report }));
            Ok(())
        });
        if let Err(said) = outcome {
            self.trouble.set(Some(said));
        }
    }

    fn read_as(self, place: Option<Unit>, diameter: Option<Unit>) -> AskedUnits {
        AskedUnits {
            place,
            diameter,
            system: self.bench.units.get_untracked(),
        }
    }

    fn add_table(self, text: String, table: ReadTable) -> Result<(), String> {
        let before = self.line.get_untracked();
        self.change(table.edit())?;
        self.report.set(Some(TableReport {
            before,
            text,
            table,
        }));
        Ok(())
    }
}
