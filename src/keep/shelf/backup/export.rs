//! Everything out.

use super::{Aside, Backup, FORMAT, Piece, VERSION};
use crate::design::Design;
use crate::keep::book::Workshop;
use crate::keep::shelf::branch::{Branch, Head};
use crate::keep::shelf::keys::Keys;
use crate::keep::shelf::{ASIDE_KEY, Id, Shelf, Store, StoreError, Work};

impl Backup {
    fn empty() -> Self {
        Self {
            format: FORMAT.to_owned(),
            version: VERSION,
            lines: Vec::new(),
            workshops: Vec::new(),
            unreadable: Vec::new(),
        }
    }

    fn write(&self) -> String {
        serde_json::to_string(self).expect("numbers and texts always have a form in JSON")
    }
}

/// The file of what the browser would not keep: lines and workshops with the lasting names they are to have.
pub fn loose(lines: &[(Id, Design)], workshops: &[(Id, Workshop)]) -> String {
    let backup = Backup {
        lines: lines.iter().map(|(id, line)| fresh(*id, line)).collect(),
        workshops: workshops
            .iter()
            .map(|(id, book)| fresh(*id, book))
            .collect(),
        ..Backup::empty()
    };
    backup.write()
}

fn fresh<T: Work>(id: Id, work: &T) -> Piece {
    Piece {
        id: id.to_string(),
        revision: 1,
        changed: None,
        binned: false,
        file: work.write(),
    }
}

impl<S: Store> Shelf<S> {
    /// Everything that is kept, as one file: every line and workshop, also in the bin, also what two tabs wrote at the same
    /// moment, and every text that cannot be read, to the letter. Steps to undo stay behind.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read: half of everything would be taken for all of it.
    pub fn export_everything(&self) -> Result<String, StoreError> {
        let mut backup = Backup::empty();
        backup.lines = self.pieces::<Design>(&mut backup.unreadable)?;
        backup.workshops = self.pieces::<Workshop>(&mut backup.unreadable)?;
        for key in self.store.keys()? {
            if key.starts_with(ASIDE_KEY) {
                self.lay_aside(key, &mut backup.unreadable)?;
            }
        }
        Ok(backup.write())
    }

    fn pieces<T: Work>(&self, asides: &mut Vec<Aside>) -> Result<Vec<Piece>, StoreError> {
        let keys = Keys::of::<T>(&self.store)?;
        let mut pieces = Vec::new();
        for &number in keys.states.keys() {
            let branch = Branch::<T>::of(&self.store, number)?;
            let head = branch.owner().and_then(|id| branch.head(id));
            if let Some(head) = head {
                let is_binned =
                    keys.notes_of(number).next().is_some() && self.is_binned::<T>(number)?;
                pieces.push(piece(head, head.leaf.id, is_binned));
            }
            pieces.extend(
                branch
                    .strays()
                    .into_iter()
                    .map(|stray| stray_piece(stray, head)),
            );
            let newer = branch.newer.into_iter().map(|it| (it.key, it.text));
            let strange = branch.strange.into_iter().map(|it| (it.key, it.text));
            asides.extend(newer.chain(strange).map(|(key, text)| Aside { key, text }));
        }
        for key in keys.strange {
            self.lay_aside(key, asides)?;
        }
        Ok(pieces)
    }

    fn lay_aside(&self, key: String, asides: &mut Vec<Aside>) -> Result<(), StoreError> {
        if let Some(text) = self.store.get(&key)? {
            asides.push(Aside { key, text });
        }
        Ok(())
    }
}

/// A stray under the name it will have once it is settled.
fn stray_piece<T: Work>(stray: &Head<T>, own: Option<&Head<T>>) -> Piece {
    let is_sibling = own.is_some_and(|own| own.leaf.id == stray.leaf.id);
    let id = stray.leaf.id;
    let id = if is_sibling {
        id.parted(stray.leaf.mark)
    } else {
        id
    };
    piece(stray, id, false)
}

fn piece<T>(head: &Head<T>, id: Id, binned: bool) -> Piece {
    Piece {
        id: id.to_string(),
        revision: head.leaf.mark.revision.max(1),
        changed: head.leaf.changed.map(crate::plan::days::Day::iso),
        binned,
        file: head.leaf.file.clone(),
    }
}
