//! Names made to do harm are only words, whichever door they come in by and wherever they are shown: nothing in them is carried
//! out, they become no element, and they break no layout. And the largest files that the doors admit are answered.

use std::fs;
use std::path::PathBuf;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use fantoccini::key::Key;
use serde_json::{Value, json};
use taperwright::base::choice::Choice as _;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::keep::book::{self, Workshop};
use taperwright::keep::dropped;
use taperwright::keep::share::{file, link};
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Id, LINE_KEY, Lookup, OPEN_KEY, Shelf, Writer};
use taperwright::page::places::Place;

use super::cdp::Size;
use super::drops::{CHART, Load};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;

/// Markup, the end of a section of XML, an end of text, and a turn of the direction of writing; as long as a name may be, so
/// that a line of it fits nowhere.
const NAME: &str =
    "\"><img src=x onerror=document.title='gotcha'>]]>\u{0}\u{202e}<b>WWWWWWWWWWWWWWWWWWWWWWWWW";
/// The same in as many bytes, without anything that would be taken out: a link is made with it, and then altered.
const STANDIN: &str =
    "\"><img src=x onerror=document.title='gotcha'>]]>qqqq<b>WWWWWWWWWWWWWWWWWWWWWWWWW";
/// The sheets that show a name, and those beside them.
const SHEETS: [&str; 9] = [
    "all-figures",
    "my-lines",
    "new-line",
    "share",
    "card",
    "workshop-sheet",
    "numbers",
    "compare",
    "dressing-sheet",
];
/// A tablet held upright, and a phone.
const SIZES: [Size; 2] = [(820, 1180), (390, 844)];

/// What a name has made of itself: the document's title, and elements that the page never has.
const MADE: &str = "
    const made = [...document.querySelectorAll('img, iframe, object, [onerror], script:not([src]), b')];
    return [document.title, made.filter((it) => it.localName !== 'b' || it.textContent.startsWith('WWW')).map((it) => it.outerHTML)];";
/// How much wider than the window the page is, and what is widest.
const WIDER: &str = "
    const over = Math.max(document.documentElement.scrollWidth, document.body.scrollWidth) - innerWidth;
    const wide = [...document.querySelectorAll('body *')].filter((it) => it.getBoundingClientRect().right > innerWidth + 1);
    return [over, wide.slice(0, 12).map((it) => it.cloneNode().outerHTML.slice(0, 90)).join('; ')];";

/// What is left of a name once it is in: what could disguise it is gone.
fn clean(name: &str) -> String {
    name.replace(['\u{0}', '\u{202e}'], "")
}

fn name_of_field() -> &'static str {
    "[data-action=line-name]"
}

async fn until_named(page: &Page, name: &str) {
    until(&format!("the line is called “{name}”"), async || {
        (page.value_at(name_of_field()).await == name).then_some(())
    })
    .await;
}

/// Nothing was carried out, nothing came to be, and no character turns what stands after it.
async fn is_harmless(page: &Page, place: &str) {
    let (title, made): (String, Vec<String>) = page.ask(MADE, vec![]).await;
    let is_own = title.ends_with("· Taperwright") && !title.contains(['\u{0}', '\u{202e}']);
    assert!(is_own, "{place}: {title}");
    assert!(made.is_empty(), "{place}: {made:?}");
    let text = page.text().await;
    assert!(!text.contains(['\u{0}', '\u{202e}']), "{place}: {text}");
}

async fn fits(page: &Page, place: &str) {
    let (over, widest): (f64, String) = page.ask(WIDER, vec![]).await;
    assert!(over <= 0.0, "{place}: {over} pixels too wide: {widest}");
}

/// Types a text into the field of the name, with characters no keyboard has.
async fn typed(page: &Page, text: &str) {
    let script = "
        const field = document.querySelector(arguments[0]);
        field.value = arguments[1];
        for (const kind of ['input', 'change']) field.dispatchEvent(new Event(kind, { bubbles: true }));";
    page.seek(name_of_field()).await;
    page.run(script, vec![json!(name_of_field()), json!(text)])
        .await;
}

/// A link that carries the name as it is: version, length, checksum of all the rest, payload. See [`link`].
fn hostile_link() -> String {
    let design = edited(demo(), Edit::Name(STANDIN.to_owned()));
    let code = link::encode(&design).expect("short");
    let code = code.trim_start_matches("line=").trim_end_matches('z');
    let bytes = URL_SAFE_NO_PAD.decode(code).expect("base64url");
    let payload = &bytes[7..];
    let at = payload
        .windows(STANDIN.len())
        .position(|it| it == STANDIN.as_bytes());
    let at = at.expect("the name stands in it");
    assert_eq!(NAME.len(), STANDIN.len());
    let payload = [&payload[..at], NAME.as_bytes(), &payload[at + NAME.len()..]].concat();
    let header = &bytes[..3];
    let sum = crc32fast::hash(&[header, &payload].concat()).to_le_bytes();
    let code = URL_SAFE_NO_PAD.encode([header, &sum, &payload].concat());
    format!("#line={code}z")
}

/// A design file with a name that no field would have taken.
fn hostile_file(name: &str) -> String {
    let mut value: Value = serde_json::from_str(&file::write(&demo())).expect("a file of ours");
    for key in ["name", "notes", "workshop"] {
        value["design"][key] = json!(name);
    }
    value.to_string()
}

fn hostile_book(name: &str) -> String {
    let text = book::file::write(&Workshop::new("Mill".to_owned(), &demo()));
    let mut value: Value = serde_json::from_str(&text).expect("a file of ours");
    for key in ["name", "notes"] {
        value["workshop"][key] = json!(name);
    }
    value.to_string()
}

/// A state written by hand, with right sums, whose head bears the name too. See [`taperwright::keep::shelf`].
fn hostile_state(number: u32) -> (String, String) {
    let file = hostile_file(NAME);
    let mark = format!(
        "1-00000000000000aa-{:08x}",
        crc32fast::hash(file.as_bytes())
    );
    let head = format!(
        "taperwright kept 1\nid 00000000000000{number:02x}\nmark {mark}\nbase none\ncopied none\nchanged unknown\nformat 3\nname {NAME}\n"
    );
    let sum = crc32fast::hash(format!("{head}{file}").as_bytes());
    (
        format!("{LINE_KEY}{number}/{mark}"),
        format!("{head}checksum {sum:08x}\n\n{file}"),
    )
}

fn made(page: &Page, name: &str, text: &str) -> PathBuf {
    let path = page.session.downloads().join(name);
    fs::write(&path, text).expect("a file can be written");
    path
}

async fn open(page: &Page, action: &str, path: &std::path::Path) {
    let path = path.to_str().expect("a name made here is text");
    let sent = page.control(action).await.send_keys(path).await;
    sent.expect("the file is chosen");
}

#[test]
fn a_hostile_name_is_only_words_by_every_door() {
    on_the_page(async |page| {
        typed(page, NAME).await;
        until_named(page, &clean(NAME)).await;
        is_harmless(page, "typed").await;
        typed(page, &"W".repeat(10_000)).await;
        page.until_there(".open-now [role=alert]").await;
        is_harmless(page, "typed too long").await;
        let taken_back = page
            .control("line-name")
            .await
            .send_keys(&char::from(Key::Escape).to_string())
            .await;
        taken_back.expect("the field takes keys");
        // Another name each time, so that it is sure which one stands there.
        let name = NAME.replace("<b>W", "<b>F");
        let path = made(page, "named.taper.json", &hostile_file(&name));
        open(page, "open-file", &path).await;
        until_named(page, &clean(&name)).await;
        is_harmless(page, "opened").await;
        let long = made(page, "long.taper.json", &hostile_file(&"W".repeat(10_000)));
        open(page, "open-file", &long).await;
        page.until_there(".messages .message").await;
        is_harmless(page, "opened, too long").await;
        Load::files(page, &[path]).drop(CHART);
        until("it is kept beside", async || {
            (page.kept_numbers().await.len() == 3).then_some(())
        })
        .await;
        is_harmless(page, "dropped").await;
        page.go(&hostile_link()).await;
        page.reload().await;
        until_named(page, &clean(NAME)).await;
        is_harmless(page, "by link").await;
    });
}

/// What lies in storage was written by whoever could: by hand, with right sums, it is shown as harmlessly in every view.
#[test]
fn a_hostile_name_harms_no_view() {
    on_the_page(async |page| {
        let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("it can be read");
        let workshop = book::file::read(&hostile_book(NAME)).expect("a book");
        shelf.keep_new(Id(1), &workshop, None).expect("room");
        let mut texts = shelf.into_store().0;
        texts.extend([hostile_state(1), hostile_state(2)]);
        texts.insert(format!("{LINE_KEY}3"), hostile_file(NAME));
        texts.insert(format!("{LINE_KEY}4"), format!("{NAME} is no line"));
        texts.insert(OPEN_KEY.to_owned(), "1".to_owned());
        texts.insert(format!("{LINE_KEY}{NAME}"), "nor is this".to_owned());
        let looked = Shelf::load(Memory(texts.clone()), Writer(2))
            .map(|shelf| shelf.look::<taperwright::design::Design>(1));
        assert!(
            matches!(looked, Ok(Lookup::Kept(_))),
            "it is refused: {looked:?}"
        );
        let script = "for (const [key, text] of Object.entries(arguments[0])) localStorage.setItem(key, text);";
        page.run(script, vec![json!(texts)]).await;
        page.reload().await;
        page.press("intro-done").await;
        until_named(page, &clean(NAME)).await;
        page.enter("compare-link", &hostile_link()).await;
        page.until_there("[data-compared]").await;
        page.close_sheet().await;
        for size in SIZES {
            page.session.resize(size);
            for &place in Place::ALL {
                page.go_to(place.key()).await;
                if place == Place::Braid && page.count("run-begin").await > 0 {
                    page.press("run-begin").await;
                    page.until_there("[data-step-index]").await;
                }
                look(page, place.key(), size).await;
            }
            for sheet in SHEETS {
                page.open_sheet(sheet).await;
                look(page, sheet, size).await;
                page.close_sheet().await;
            }
        }
    });
}

async fn look(page: &Page, view: &str, size: Size) {
    let place = format!("{view} at {size:?}");
    until(&format!("{place} has its size"), async || {
        let width: u32 = page.ask("return innerWidth;", vec![]).await;
        (width == size.0).then_some(())
    })
    .await;
    is_harmless(page, &place).await;
    fits(page, &place).await;
}

/// Bytes of the program's memory: it gives out the same module however often it is asked for it.
const MEMORY: &str = "
    const { js, wasm } = document.querySelector('meta[name=program]').dataset;
    const address = (name) => new URL(name, document.baseURI).href;
    import(address(js)).then((program) => program.default({ module_or_path: address(wasm) }))
        .then(({ memory }) => arguments[0](memory.buffer.byteLength));";

async fn memory(page: &Page) -> u64 {
    let answer = page.session.client.execute_async(MEMORY, vec![]).await;
    answer
        .expect("the module answers")
        .as_u64()
        .expect("a number of bytes")
}

/// The largest files the doors admit, filled with what takes most to read, are answered in words, and the page goes on. How
/// much memory they took is printed.
#[test]
fn the_largest_files_admitted_are_answered() {
    on_the_page(async |page| {
        let pad = |start: &str, unit: &str, end: &str, largest: usize| {
            let times = (largest - start.len() - end.len()) / unit.len();
            format!("{start}{}{end}", unit.repeat(times))
        };
        let begun = "{\"format\":\"taperwright design\",\"version\":3,\"design\":{\"points\":[";
        let cases = [
            ("nested", pad("", "[", "", file::LARGEST)),
            ("numbers", pad(begun, "1e308,", "0]}}", file::LARGEST)),
            (
                "letters",
                pad(
                    "{\"format\":\"taperwright design\",\"version\":3,\"design\":{\"name\":\"",
                    "W",
                    "\"}}",
                    file::LARGEST,
                ),
            ),
        ];
        let first = memory(page).await;
        for (name, text) in &cases {
            let path = made(page, &format!("{name}.json"), text);
            answered(page, async || open(page, "open-file", &path).await).await;
            let after = memory(page).await;
            println!(
                "file door, {name}, {} bytes: memory {first} → {after}",
                text.len()
            );
        }
        for (name, text) in [
            ("nested", pad("", "[", "", dropped::LARGEST)),
            (
                "numbers",
                pad(
                    "{\"format\":\"taperwright bench book\",\"version\":1,\"workshop\":{\"swatches\":[",
                    "1e308,",
                    "0]}}",
                    dropped::LARGEST,
                ),
            ),
        ] {
            let path = made(page, &format!("dropped-{name}.json"), &text);
            answered(page, async || {
                Load::files(page, std::slice::from_ref(&path)).drop(CHART);
            })
            .await;
            let after = memory(page).await;
            println!(
                "drop door, {name}, {} bytes: memory {first} → {after}",
                text.len()
            );
        }
        super::memory::dragged(page).await;
    });
}

/// Does something, and waits until the page has said something of it.
async fn answered(page: &Page, operation: impl AsyncFnOnce()) {
    // What the page says of its copy for the shed may come at any moment.
    let close = "for (const it of document.querySelectorAll('.message button')) if (it.innerText === 'Close') it.click();
        return document.querySelectorAll('.messages .message').length;";
    until("nothing is said", async || {
        (page.ask::<usize>(close, vec![]).await == 0).then_some(())
    })
    .await;
    operation().await;
    page.until_there(".messages .message").await;
}
