//! A store that several tabs share, and that errs as it is told.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

use taperwright::keep::shelf::{Store, StoreError};

pub(crate) type Texts = BTreeMap<String, String>;

/// How a call to the store goes wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fault {
    /// A write is refused, and does nothing.
    Refused,
    /// A write is refused, and was done all the same.
    RefusedButDone,
    /// A write is said to be done, and was not.
    Ignored,
    /// A write is said to be done, and only half of it was.
    CutOff,
    /// A write is refused, and half of it was done.
    RefusedHalfDone,
    /// A text reads altered.
    Garbled,
    /// A text reads as not there.
    Unseen,
    /// A text cannot be read.
    Unreadable,
    /// The keys cannot be listed.
    Unlistable,
    /// The list of keys lacks the last.
    ListedShort,
    /// Taking away is refused.
    Sticky,
    /// Taking away is said to be done, and was not.
    Immortal,
}

impl Fault {
    pub(crate) const ALL: [Self; 12] = [
        Self::Refused,
        Self::RefusedButDone,
        Self::Ignored,
        Self::CutOff,
        Self::RefusedHalfDone,
        Self::Garbled,
        Self::Unseen,
        Self::Unreadable,
        Self::Unlistable,
        Self::ListedShort,
        Self::Sticky,
        Self::Immortal,
    ];

    fn call(self) -> Call {
        match self {
            Self::Garbled | Self::Unseen | Self::Unreadable => Call::Get,
            Self::Unlistable | Self::ListedShort => Call::Keys,
            Self::Sticky | Self::Immortal => Call::Remove,
            _ => Call::Set,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Call {
    Get,
    Set,
    Remove,
    Keys,
}

/// What another tab does in the midst of a call.
pub(crate) type Meanwhile = Box<dyn FnOnce()>;

/// One tab's view of the shared store.
#[derive(Clone)]
pub(crate) struct Flaky {
    pub(crate) texts: Rc<RefCell<Texts>>,
    /// Most bytes of keys and texts.
    pub(crate) quota: Rc<Cell<usize>>,
    /// Which call of its kind goes wrong: so many more go well before.
    fault: Rc<Cell<Option<(Fault, usize)>>>,
    /// What this tab sees where it lags behind the others: browsers tell their processes of each other's writes late.
    lagging: Rc<RefCell<Option<Texts>>>,
    /// What happens meanwhile, before so many calls.
    meanwhile: Rc<RefCell<Option<(usize, Meanwhile)>>>,
}

impl Flaky {
    pub(crate) fn new() -> Self {
        Self {
            texts: Rc::default(),
            quota: Rc::new(Cell::new(usize::MAX)),
            fault: Rc::default(),
            lagging: Rc::default(),
            meanwhile: Rc::default(),
        }
    }

    /// Another tab's view.
    pub(crate) fn other(&self) -> Self {
        Self {
            texts: self.texts.clone(),
            quota: self.quota.clone(),
            ..Self::new()
        }
    }

    pub(crate) fn err(&self, fault: Fault, after: usize) {
        self.fault.set(Some((fault, after)));
    }

    pub(crate) fn lag(&self) {
        let now = self.texts.borrow().clone();
        *self.lagging.borrow_mut() = Some(now);
    }

    pub(crate) fn meanwhile(&self, before: usize, what: Meanwhile) {
        *self.meanwhile.borrow_mut() = Some((before, what));
    }

    /// From now on all is well.
    pub(crate) fn heal(&self) {
        self.fault.set(None);
        *self.lagging.borrow_mut() = None;
        *self.meanwhile.borrow_mut() = None;
    }

    pub(crate) fn size(&self) -> usize {
        let texts = self.texts.borrow();
        texts.iter().map(|(key, text)| key.len() + text.len()).sum()
    }

    /// The fault of this call, if it is its turn.
    fn fault(&self, call: Call) -> Option<Fault> {
        self.let_others();
        let (fault, after) = self.fault.get().filter(|(fault, _)| fault.call() == call)?;
        self.fault
            .set(after.checked_sub(1).map(|after| (fault, after)));
        (after == 0).then_some(fault)
    }

    fn let_others(&self) {
        let taken = self.meanwhile.borrow_mut().take();
        match taken {
            Some((0, what)) => what(),
            Some((before, what)) => *self.meanwhile.borrow_mut() = Some((before - 1, what)),
            None => {}
        }
    }

    fn seen<R>(&self, look: impl FnOnce(&Texts) -> R) -> R {
        match &*self.lagging.borrow() {
            Some(texts) => look(texts),
            None => look(&self.texts.borrow()),
        }
    }

    fn change(&self, change: impl Fn(&mut Texts)) {
        change(&mut self.texts.borrow_mut());
        if let Some(texts) = &mut *self.lagging.borrow_mut() {
            change(texts);
        }
    }

    fn put(&self, key: &str, text: &str) -> Result<(), StoreError> {
        let there = self
            .texts
            .borrow()
            .get(key)
            .map_or(0, |text| key.len() + text.len());
        if self.size() - there + key.len() + text.len() > self.quota.get() {
            return Err(StoreError::Full);
        }
        self.change(|texts| drop(texts.insert(key.to_owned(), text.to_owned())));
        Ok(())
    }
}

/// The first half of a text.
pub(crate) fn half(text: &str) -> &str {
    let middle = (0..=text.len() / 2)
        .rev()
        .find(|at| text.is_char_boundary(*at));
    &text[..middle.unwrap_or(0)]
}

impl Store for Flaky {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        let text = |texts: &Texts| texts.get(key).cloned();
        match self.fault(Call::Get) {
            Some(Fault::Unreadable) => Err(StoreError::Absent),
            Some(Fault::Unseen) => Ok(None),
            Some(_) => Ok(self.seen(text).map(|text| text.replace(['1', 'e'], "l"))),
            None => Ok(self.seen(text)),
        }
    }

    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        match self.fault(Call::Set) {
            Some(Fault::Refused) => Err(StoreError::Full),
            Some(Fault::RefusedButDone) => self.put(key, text).and(Err(StoreError::Full)),
            Some(Fault::RefusedHalfDone) => self.put(key, half(text)).and(Err(StoreError::Full)),
            Some(Fault::CutOff) => self.put(key, half(text)),
            Some(_) => Ok(()),
            None => self.put(key, text),
        }
    }

    fn remove(&mut self, key: &str) -> Result<(), StoreError> {
        match self.fault(Call::Remove) {
            Some(Fault::Sticky) => Err(StoreError::Absent),
            Some(_) => Ok(()),
            None => {
                self.change(|texts| drop(texts.remove(key)));
                Ok(())
            }
        }
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        let mut keys: Vec<String> = match self.fault(Call::Keys) {
            Some(Fault::Unlistable) => return Err(StoreError::Absent),
            Some(_) => self.seen(|texts| texts.keys().rev().skip(1).cloned().collect()),
            None => self.seen(|texts| texts.keys().cloned().collect()),
        };
        keys.sort_unstable_by(|a, b| b.cmp(a));
        Ok(keys)
    }
}
