//! The file of everything, written from the texts of a store as the module `keep::shelf::backup` describes it. The page writes
//! it in `style/boot.js`; `tests/browser/broken.rs` compares the two.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

/// Texts under keys.
type Texts = BTreeMap<String, String>;

/// Highest revision written.
const HIGHEST: u64 = 1 << 32;

/// A revision of a line, a measured line or a workshop that is whole.
struct Revision<'a> {
    key: &'a str,
    kind: &'a str,
    number: u32,
    word: &'a str,
    count: u64,
    id: &'a str,
    base: &'a str,
    changed: &'a str,
    file: &'a str,
}

impl<'a> Revision<'a> {
    fn of(key: &'a str, text: &'a str) -> Option<Self> {
        let mut parts = key.strip_prefix("taperwright/")?.splitn(3, '/');
        let (kind, number, word) = (parts.next()?, parts.next()?, parts.next()?);
        let (head, file) = text.split_once("\n\n")?;
        let (fields, checksum) = head.rsplit_once("checksum ")?;
        let field = |name: &str| {
            let mut lines = fields.lines();
            lines.find_map(|line| line.strip_prefix(name)?.strip_prefix(' '))
        };
        let sum = |text: &str| format!("{:08x}", crc32fast::hash(text.as_bytes()));
        let is_whole = fields.starts_with("taperwright kept 1\n")
            && field("mark") == Some(word)
            && word.rsplit('-').next() == Some(&sum(file))
            && checksum == sum(&format!("{fields}{file}"));
        (is_whole && ["line", "workshop", "measured"].contains(&kind)).then_some(())?;
        Some(Self {
            key,
            kind,
            number: number.parse().ok()?,
            word,
            count: word.split('-').next()?.parse().ok()?,
            id: field("id")?,
            base: field("base")?,
            changed: field("changed")?,
            file,
        })
    }

    fn is_of_same(&self, other: &Self) -> bool {
        (self.kind, self.number, self.id) == (other.kind, other.number, other.id)
    }

    fn item(&self, texts: &Texts) -> Value {
        let note = format!(
            "taperwright/bin/{}/{}/{}",
            self.kind, self.number, self.word
        );
        json!({
            "id": self.id, "revision": self.count.clamp(1, HIGHEST), "changed": self.changed,
            "binned": texts.contains_key(&note), "file": self.file,
        })
    }
}

/// The file of everything in a store: the newest revision of each line and workshop, and every text that is neither that nor
/// an older revision of it.
pub(crate) fn everything(texts: &Texts) -> String {
    let whole = texts
        .iter()
        .filter_map(|(key, text)| Revision::of(key, text));
    let mut revisions: Vec<Revision<'_>> = whole.collect();
    revisions.sort_by_key(|one| (one.kind, one.number, one.id, one.count, one.word));
    let mut used = BTreeSet::new();
    let (mut lines, mut workshops, mut measured) = (Vec::new(), Vec::new(), Vec::new());
    for alike in revisions.chunk_by(Revision::is_of_same) {
        let Some(newest) = alike.last() else {
            continue;
        };
        let list = match newest.kind {
            "line" => &mut lines,
            "measured" => &mut measured,
            _ => &mut workshops,
        };
        list.push(newest.item(texts));
        let mut next = Some(newest);
        while let Some(one) = next.filter(|one| used.insert(one.key)) {
            next = alike.iter().find(|other| other.word == one.base);
        }
    }
    let is_ours = |key: &str| {
        let prefixes = ["line/", "workshop/", "measured/", "unreadable/"];
        let rest = key.strip_prefix("taperwright/");
        rest.is_some_and(|rest| prefixes.iter().any(|prefix| rest.starts_with(prefix)))
    };
    let unreadable: Vec<Value> = texts
        .iter()
        .filter(|(key, _)| is_ours(key) && !used.contains(key.as_str()))
        .map(|(key, text)| json!({"key": key, "text": text}))
        .collect();
    let file = json!({
        "format": "taperwright backup", "version": 2,
        "lines": lines, "workshops": workshops, "measured": measured, "unreadable": unreadable,
    });
    file.to_string()
}
