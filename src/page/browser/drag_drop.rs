//! What is dragged over the page from elsewhere.

use web_sys::{DragEvent, File};

/// What was dropped.
pub(crate) enum DropContent {
    /// Files, at least one.
    Files(Vec<File>),
    /// Words, or an address.
    Text(String),
    /// Nothing that can be read.
    Nothing,
}

/// Whether files are dragged.
pub(crate) fn are_files(event: &DragEvent) -> bool {
    let types = event.data_transfer().map(|data| data.types());
    types.is_some_and(|types| types.includes(&"Files".into(), 0))
}

/// Shows by the pointer whether it may be dropped here.
pub(crate) fn admit(event: &DragEvent, is_admitted: bool) {
    if let Some(data) = event.data_transfer() {
        data.set_drop_effect(if is_admitted { "copy" } else { "none" });
    }
}

/// What was dropped: files, else an address, else text.
pub(crate) fn content(event: &DragEvent) -> DropContent {
    let Some(data) = event.data_transfer() else {
        return DropContent::Nothing;
    };
    let files: Vec<File> = data.files().map_or_else(Vec::new, |list| {
        (0..list.length()).filter_map(|at| list.get(at)).collect()
    });
    if !files.is_empty() {
        return DropContent::Files(files);
    }
    let read = |kind| data.get_data(kind).ok().filter(|text| !text.is_empty());
    let text = read("text/uri-list").or_else(|| read("text/plain"));
    text.map_or(DropContent::Nothing, DropContent::Text)
}
