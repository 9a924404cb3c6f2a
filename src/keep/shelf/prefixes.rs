//! What keys in the browser's storage begin with.

/// Keys of lines: this, then the number, then the mark of a state.
pub const LINE_KEY: &str = "taperwright/line/";
/// Keys of workshops, in the same manner.
pub const WORKSHOP_KEY: &str = "taperwright/workshop/";
/// Keys of measured lines, in the same manner.
pub const MEASURED_KEY: &str = "taperwright/measured/";
/// Keys of the steps that can be undone on a line: this, then its number.
pub const STEPS_KEY: &str = "taperwright/steps/";
/// Keys of the bobbins of a line that are wound: this, then its number.
pub const WOUND_KEY: &str = "taperwright/wound/";
/// Keys of notes that something is in the bin: this, then the kind.
pub const BIN_KEY: &str = "taperwright/bin/";
/// Keys of texts from a backup that could not be read: this, then a name made of the text.
pub const ASIDE_KEY: &str = "taperwright/unreadable/";
/// Key of the number of the open line.
pub const OPEN_KEY: &str = "taperwright/open";

/// What the keys of each kind of work begin with.
pub(super) const WORK_KEYS: [&str; 3] = [LINE_KEY, WORKSHOP_KEY, MEASURED_KEY];

/// Whether a key is that of a state, whose text never changes: so a copy of it kept elsewhere cannot be out of date.
pub fn is_state(key: &str) -> bool {
    let rest = |prefix: &&str| key.strip_prefix(*prefix);
    let marked = WORK_KEYS.iter().find_map(rest);
    marked.is_some_and(|rest| rest.contains('/')) || key.starts_with(ASIDE_KEY)
}

/// The number of a kept line.
pub type LineNumber = u32;
/// The number of a kept workshop.
pub type WorkshopNumber = u32;
