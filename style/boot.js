// Starts the program that trunk built, and takes over when it crashes: then it says so and saves everything stored in this
// browser as one file, without the program. The content security policy allows no inline script, so the file names, which
// contain hashes, are attributes of an element of the page.

const root = document.documentElement;
// offline.js says so where this file did not come.
root.dataset.opening = "";
const names = document.querySelector("meta[name=program]").dataset;
const build = document.querySelector("meta[name=build]").content;
const address = (name) => new URL(name, document.baseURI).href;
// Taken now, so that nothing done to the page later can remove it.
const make = document.createElement.bind(document);

// The look chosen at an earlier visit, set before the program has loaded: a dark page must not flash white.
try {
  const look = localStorage.getItem("taperwright/look");
  if (["light", "dark", "bright"].includes(look)) root.dataset.look = look;
} catch {
  // Without storage there is no look to set.
}

// The second copy of everything stored is opened, and its keys are read, while the program is loading. The program then takes
// over these requests (src/page/browser/second_copy.rs).
try {
  const copy = indexedDB.open("taperwright", 1);
  copy.onupgradeneeded = () => copy.result.createObjectStore("states");
  copy.addEventListener("success", () => {
    // Another tab that wants to delete or upgrade the database need not wait for this page.
    copy.result.onversionchange = () => copy.result.close();
    try {
      copy.keys = copy.result.transaction("states").objectStore("states").getAllKeys();
    } catch {
      // The program tries again, and opens without the copy where that fails too.
    }
  });
  window.taperwrightCopy = copy;
} catch {
  // The program says what the missing storage means.
}

async function open() {
  await read();
  if (typeof WebAssembly !== "object") {
    throw new Error("this browser does not run WebAssembly, or a setting forbids it");
  }
  const program = await import(address(names.js));
  await program.default({ module_or_path: address(names.wasm) });
  document.getElementById("opening")?.remove();
  isOpen = true;
}

let isOpen = false;

// Nothing can be added to a page that the browser has not read to its end, not even the message that it does not open.
function read() {
  if (document.readyState !== "loading") return undefined;
  return new Promise((done) => document.addEventListener("readystatechange", done, { once: true }));
}

// Also after a program that does not open, a newer build is looked for.
function opened() {
  root.dataset.opened = isOpen ? "yes" : "no";
  root.dispatchEvent(new Event("taperwright-opened"));
}

open().catch((reason) => {
  console.error(reason);
  broke("Taperwright could not open", reason);
}).finally(opened);

// ---- Files that a host sent damaged, with an answer that says that all is well. The worker keeps none of them; a first visit
// has no worker yet.

// What is wrong with the files of this page, in words. Asked for in this way they also take the place of what the browser has
// kept of them.
async function served() {
  const ask = (file) => fetch(address(file), { cache: "reload" });
  let files;
  try {
    const list = await (await ask("build.json")).json();
    if (list.build !== build) return "The server has another version of this page. Reload the page.";
    files = list.files;
  } catch {
    return "The server cannot be reached, or does not send the list of its files. Check your connection, then reload the page.";
  }
  // Nothing waits for the program that reads photographs.
  const isNeeded = (file) => /\.(css|js|wasm)$/.test(file) && !file.startsWith("photo-");
  const faults = await Promise.all(Object.entries(files).filter(([file]) => isNeeded(file)).map(async ([file, sum]) => {
    const response = await ask(file).catch(() => undefined);
    if (!response?.ok) return `“${file}” is missing`;
    const body = new Uint8Array(await response.arrayBuffer().catch(() => new ArrayBuffer(0)));
    // Without encryption browsers calculate no sums.
    const is = await crypto.subtle?.digest("SHA-256", body);
    if (is && [...new Uint8Array(is)].map((byte) => byte.toString(16).padStart(2, "0")).join("") === sum) return [];
    // A web page begins with a tag.
    if (body[0] === 60) return `a web page came in place of “${file}”`;
    return is ? `“${file}” is incomplete or was changed` : [];
  }));
  const all = faults.flat();
  if (!all.length) return "All files of this page are whole now. Reload the page.";
  return `The server does not send this page as it was made: ${all.join("; ")}. Tell the person who runs the site, and reload the page later.`;
}

// The sheet of style ends with this word.
const isStyled = () => getComputedStyle(root).getPropertyValue("--whole") !== "";

// What came damaged is asked for once more; where that does not help, the page works, and says why it looks so. The script that
// has the page stored for use without a connection does its work at the next visit.
async function check() {
  if (!isStyled() || !("watching" in root.dataset)) await mend();
  root.dataset.checked = "";
}

async function mend() {
  const words = await served();
  if (isStyled()) return;
  const sheet = document.querySelector("link[rel=stylesheet]");
  const again = sheet.cloneNode();
  await new Promise((done) => {
    again.onload = again.onerror = done;
    sheet.replaceWith(again);
  });
  if (!isStyled()) document.body.prepend(element("p", `The style of this page did not load. ${words}`, { role: "alert", "data-unstyled": "" }));
}

if (document.readyState === "complete") check();
else addEventListener("load", check, { once: true });

// Whether the version before this one opens in its place, once the page is loaded again.
function anotherOpens() {
  const worker = navigator.serviceWorker?.controller;
  if (isOpen || !worker) return false;
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => done(data);
    setTimeout(() => done(false), PATIENCE);
    worker.postMessage(["failed", build], [port2]);
  });
}

// ---- Work that is stored nowhere: the program hands its text over, and takes it back once it is stored. Only the newest of
// each kind is held, in the form in which the file of everything will hold it.

const unkept = new Map();

root.addEventListener("taperwright-unkept", ({ kind, id, name, file }) => {
  if (file) unkept.set(kind, { name, piece: { id, revision: 1, changed: null, binned: false, file } });
  else unkept.delete(kind);
  // A permanent listener would keep browsers from restoring the page from their cache.
  (unkept.size ? addEventListener : removeEventListener)("beforeunload", warn);
});

// The browser asks, in its own words, whether to leave.
function warn(event) {
  event.preventDefault();
}

// ---- How a crash is noticed

// The program reports a panic itself. It cannot report an error that runs through it: then it stops half-way, and what it
// holds cannot be trusted. Errors of other scripts, such as browser extensions, are not ours.
root.addEventListener("taperwright-broke", ({ said }) => broke(STOPPED, said));
addEventListener("error", ({ error }) => isOurs(error) && broke(STOPPED, error));
addEventListener("unhandledrejection", ({ reason }) => isOurs(reason) && broke(STOPPED, reason));

const STOPPED = "The page has stopped";

function isOurs(error) {
  const places = String(error?.stack ?? "");
  const isTrap = typeof WebAssembly === "object" && error instanceof WebAssembly.RuntimeError;
  return isTrap || [names.js, names.wasm].some((name) => places.includes(address(name)));
}

// ---- The file of everything, made of the raw texts. This is its only writer: the program asks for it too. The texts are
// described in src/keep/shelf/mod.rs, the file in src/keep/shelf/backup/mod.rs.

const KIND = { line: "lines", workshop: "workshops", measured: "measured", "measured line": "measured" };
const MARKED = /^taperwright\/(line|workshop|measured)\/(\d+)\/((\d+)-[0-9a-f]{16}-([0-9a-f]{8}))$/;
const OURS = /^taperwright\/(line|workshop|measured|unreadable)\//;
// Highest revision written, so that it is always a whole number.
const HIGHEST = 2 ** 32;
// Longest wait for the database, in milliseconds; mostly it answers within 20.
const PATIENCE = 1500;

function crc32(text) {
  let sum = ~0;
  for (const byte of new TextEncoder().encode(text)) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
  }
  return (~sum >>> 0).toString(16).padStart(8, "0");
}

// A state that is whole; nothing where a text is none.
function state([key, text]) {
  const [, kind, number, mark, revision, sum] = key.match(MARKED) ?? [];
  const gap = text.indexOf("\n\n");
  if (!kind || gap < 0) return undefined;
  const [head, file] = [text.slice(0, gap), text.slice(gap + 2)];
  const [heading, ...lines] = head.split("\n");
  const { id = "", mark: own, base = "", changed = null, checksum } = Object.fromEntries(lines.map((line) => line.split(/ (.*)/)));
  const isWhole = crc32(file) === sum && crc32(head.slice(0, head.lastIndexOf("checksum ")) + file) === checksum;
  if (heading !== "taperwright kept 1" || own !== mark || !isWhole) return undefined;
  return { kind, number, mark, revision: Math.min(Number(revision), HIGHEST), key, id, base, changed, file };
}

// The newest state of each line and workshop, and the states it was made from.
function newest(states) {
  const heads = new Map();
  const later = (one, other) => one.revision - other.revision || (one.mark > other.mark ? 1 : -1);
  for (const one of states) {
    const name = [one.kind, one.number, one.id].join();
    if (!heads.has(name) || later(one, heads.get(name).head) > 0) heads.set(name, { head: one, past: new Set() });
  }
  for (const { head, past } of heads.values()) {
    const before = (mark) => states.find((one) => one.mark === mark && one.number === head.number && one.id === head.id);
    for (let one = before(head.base); one && !past.has(one.key); one = before(one.base)) past.add(one.key);
  }
  // The oldest first, as their numbers were given: so they get their numbers where the file is brought in.
  return [...heads.values()].sort((one, other) => one.head.number - other.head.number);
}

function backup(texts) {
  const file = { format: "taperwright backup", version: 2, lines: [], workshops: [], measured: [], unreadable: [] };
  const heads = newest([...texts].map(state).filter(Boolean));
  const used = new Set();
  for (const { head, past } of heads) {
    for (const key of [head.key, ...past]) used.add(key);
    const binned = texts.has(`taperwright/bin/${head.kind}/${head.number}/${head.mark}`);
    file[KIND[head.kind]].push({ id: head.id, revision: head.revision, changed: head.changed, binned, file: head.file });
  }
  for (const [kind, { piece }] of unkept) file[KIND[kind]].push(piece);
  // Texts of newer and of unreleased versions are among these: the reader of the file sorts them.
  for (const [key, text] of texts) if (OURS.test(key) && !used.has(key)) file.unreadable.push({ key, text });
  return file;
}

// What the database has in addition, after the browser died without warning. A database that is not there is not made.
function copied() {
  return new Promise((done) => {
    setTimeout(() => done([]), PATIENCE);
    const request = indexedDB.open("taperwright");
    request.onupgradeneeded = () => request.transaction.abort();
    request.onerror = () => done([]);
    request.onsuccess = () => {
      if (!request.result.objectStoreNames.contains("states")) return done([]);
      const store = request.result.transaction("states").objectStore("states");
      const [keys, texts] = [store.getAllKeys(), store.getAll()];
      texts.onsuccess = () => done(keys.result.map((key, at) => [key, texts.result[at]]));
      texts.onerror = () => done([]);
    };
  }).catch(() => []);
}

// All texts by their keys, without halves of letters, which a file cannot hold.
function stored() {
  const whole = (text) => new TextDecoder("utf-8", { ignoreBOM: true }).decode(new TextEncoder().encode(text));
  return Object.entries(localStorage).map((entry) => entry.map(whole));
}

// The same; none where the browser gives no storage.
function storedOrNone() {
  try {
    return stored();
  } catch {
    return [];
  }
}

async function texts() {
  const besides = (await copied()).filter(([key]) => MARKED.test(key));
  return new Map([...besides, ...storedOrNone()]);
}

function save(file) {
  const [now, two] = [new Date(), (number) => String(number).padStart(2, "0")];
  const day = [now.getFullYear(), two(now.getMonth() + 1), two(now.getDate())].join("-");
  const link = Object.assign(make("a"), {
    href: URL.createObjectURL(new Blob([JSON.stringify(file)], { type: "application/json" })),
    download: `taperwright-${day}.everything.json`,
  });
  link.click();
  return link.download;
}

// The program asks for the file. Storage that cannot be read is no reason to hold back what is kept nowhere; but an empty file
// must not pass for everything.
root.addEventListener("taperwright-export", (event) => {
  try {
    event.saved = save(backup(new Map(unkept.size ? storedOrNone() : stored())));
  } catch (why) {
    console.error(why);
  }
});

// ---- The message in place of the page, of which nothing can be used any more

let isBroken = false;
let isSaved = false;

function broke(title, reason) {
  if (isBroken) return;
  isBroken = true;
  // The program checks this before it writes anything.
  root.dataset.broken = "";
  quiet();
  // Only once the program has stopped: it may be in the middle of a call.
  setTimeout(async () => {
    if (await anotherOpens()) location.reload();
    else panel(title, String(reason?.stack ?? reason?.message ?? reason));
  });
}

// No event reaches the program any more; presses on this message are handled here.
const EVENTS = `click dblclick contextmenu input change submit keydown keyup focus blur focusin focusout pointerdown pointermove pointerup
  pointercancel mousedown mousemove mouseup touchstart touchmove touchend touchcancel wheel dragenter dragover dragleave drop
  paste storage hashchange popstate visibilitychange pagehide pageshow beforeunload resize scroll toggle`.split(/\s+/);

function quiet() {
  for (const kind of EVENTS) addEventListener(kind, hush, { capture: true, passive: false });
}

function hush(event) {
  event.stopImmediatePropagation();
  const isHeld = event.type === "beforeunload" && unkept.size && !isSaved;
  if (isHeld || ["dragenter", "dragover", "drop"].includes(event.type)) event.preventDefault();
  const button = event.type === "click" && event.target.closest?.("[data-action]");
  if (button) ACTIONS[button.dataset.action]?.();
}

// Text only: a reason cannot become markup.
function element(kind, words, more = {}) {
  const made = Object.assign(make(kind), { textContent: words });
  for (const [name, value] of Object.entries(more)) made.setAttribute(name, value);
  return made;
}

function panel(title, said) {
  document.title = title;
  const box = element("div", "", { class: "broken", role: "alertdialog", "aria-labelledby": "broken", "aria-describedby": "broken-kept" });
  const buttons = element("p", "", { class: "broken-buttons" });
  buttons.append(
    element("button", "Back up your lines", { "data-action": "rescue", class: "main" }),
    element("button", "Reload the page", { "data-action": "load-again" }),
  );
  const fold = element("details", "");
  fold.append(
    element("summary", "Show the error message"),
    element("pre", said, { "data-said": "", tabindex: "0" }),
    element("button", "Copy the message", { "data-action": "copy-said" }),
  );
  box.append(
    element("h1", title, { id: "broken" }),
    element("p", "", { id: "broken-why" }),
    ...ACCOUNT[title === STOPPED ? "stopped" : "unopened"].map((words) => element("p", words)),
    element("p", "", { id: "broken-kept" }),
    buttons,
    element("p", "", { role: "status", "data-told": "" }),
    fold,
  );
  const page = element("main", "");
  page.append(box);
  document.body.replaceChildren(page);
  buttons.firstChild.focus();
  texts().then((all) => tell("#broken-kept", kept(all)));
  if (title !== STOPPED) served().then((words) => tell("#broken-why", words));
}

const ACCOUNT = {
  stopped: [
    "If a machine is running, stop it first.",
    "The program of this page has failed. It was stopped and saves nothing more, so your saved work is safe.",
    "Back up your lines, then reload the page. You may have to repeat your last change.",
  ],
  unopened: [
    "If reloading the page does not help, try a current version of Firefox, Chrome, Edge or Safari.",
  ],
};

function kept(all) {
  const { lines, workshops, measured, unreadable } = backup(all);
  const count = (number, what) => (number ? `${number} ${what}${number > 1 ? "s" : ""}` : "");
  const there = [count(lines.length - unkept.has("line"), "line"), count(workshops.length - unkept.has("workshop"), "workshop"), count(measured.length - unkept.has("measured line"), "measured line"), count(unreadable.length, "other text")];
  const found = there.filter(Boolean).join(", ");
  const loose = [...unkept].map(([kind, { name }]) => `The ${kind} “${name}” could not be saved here. The backup includes it.`);
  return [found ? `Saved in this browser, up to your last finished change: ${found}.` : "Nothing of yours is saved in this browser.", ...loose].join(" ");
}

function tell(where, words) {
  document.querySelector(where).textContent = words;
}

const ACTIONS = {
  async rescue() {
    try {
      const name = save(backup(await texts()));
      isSaved = true;
      tell("[data-told]", `Saved as “${name}” in the download folder of your browser. You can restore it under “My lines”. Everything saved in this browser stays here too.`);
    } catch (why) {
      tell("[data-told]", `The browser did not save the file: ${why.message}`);
    }
  },
  async "load-again"() {
    if (!isOpen) await served();
    location.reload();
  },
  async "copy-said"() {
    await navigator.clipboard?.writeText(document.querySelector("[data-said]").textContent).catch(() => {});
  },
};
