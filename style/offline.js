// Has the page stored for use without a connection, and notices newer builds. The state is an attribute of the document, since
// the program may start to listen late: `coming` and `ready` at a first visit, `newer` when another build is there, `taken` when
// it was accepted. Where the browser keeps no copies (an unencrypted page, some private windows) nothing is registered and
// nothing is said; everything else works. `older` when this page is of a version before one that did not open here.
//
// A newer worker waits until it is accepted, or until a page of its build opens. Accepted in one tab, it is announced to all; each
// reloads when nothing would be lost (src/page/view/updates.rs). Each page holds a lock by the name of its cache, so that the
// worker deletes a build only when no page uses it.

const root = document.documentElement;
// boot.js asks for this file again where it did not come.
root.dataset.watching = "";
const build = document.querySelector("meta[name=build]").content;
const container = navigator.serviceWorker;
let isFirst = false;

function tell(word) {
  root.dataset.offline = word;
  root.dispatchEvent(new Event("taperwright-offline"));
}

async function begin() {
  const known = await container.getRegistration(document.baseURI);
  // The worker of a folder above belongs to another site.
  isFirst = !known?.active || known.scope !== new URL("./", document.baseURI).href;
  if (isFirst) tell("coming");
  // The program first: its files are then available for the copy.
  await new Promise((done) => ("opened" in root.dataset ? done() : root.addEventListener("taperwright-opened", done)));
  const registration = await container.register(new URL("worker.js", document.baseURI), { updateViaCache: "none" });
  container.addEventListener("message", ({ data }) => data.of === registration.scope && data.taken !== build && tell("taken"));
  container.addEventListener("controllerchange", () => compare(container.controller));
  root.addEventListener("taperwright-take", () => (registration.waiting ?? registration.active)?.postMessage("take"));
  // A page that did not open only looks for a newer build.
  if (root.dataset.opened === "no") return;
  registration.addEventListener("updatefound", () => follow(registration));
  follow(registration);
  compare(registration.waiting);
  if (container.controller) ask(container.controller, "skipped").then((isOlder) => isOlder && tell("older"));
  keepLook(registration);
  hold(registration);
}

function follow(registration) {
  const worker = registration.installing;
  worker?.addEventListener("statechange", () => {
    if (worker.state === "installed" && registration.active) compare(worker);
    if (worker.state === "activated" && isFirst) tell("ready");
    if (worker.state === "redundant" && isFirst) tell("");
  });
}

// A waiting worker of this page's own build need not wait; one of another build is a newer version.
async function compare(worker) {
  if (!worker) return;
  const its = await ask(worker, "which");
  if (its === build) worker.postMessage("start");
  else if (root.dataset.offline !== "taken") tell("newer");
}

function ask(worker, word) {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => done(data);
    worker.postMessage(word, [port2]);
  });
}

// Tablets keep a page open for weeks: it checks again whenever it becomes visible or gets a connection.
function keepLook(registration) {
  // Without a connection there is nothing to find.
  const look = () => document.visibilityState === "visible" && registration.update().catch(() => {});
  document.addEventListener("visibilitychange", look);
  addEventListener("online", look);
}

// As long as this page is open, its build is kept.
function hold(registration) {
  const tidy = () => registration.active?.postMessage("tidy");
  const forAsLongAsOpen = () => (tidy(), new Promise(() => {}));
  navigator.locks?.request(`taperwright ${registration.scope} ${build}`, { mode: "shared" }, forAsLongAsOpen);
}

// Every script is there or has failed once the page is loaded. Where the one that opens the program did not come, or came damaged,
// nothing else would say so.
function check() {
  if ("opening" in root.dataset) return;
  const words = document.querySelector("#opening p");
  const again = Object.assign(document.createElement("button"), { textContent: "Try again" });
  again.dataset.action = "load-again";
  again.onclick = async () => {
    // In this way it takes the place of what the browser has kept.
    const scripts = [...document.scripts].filter((script) => script.src);
    await Promise.all(scripts.map(({ src }) => fetch(src, { cache: "reload" }).catch(() => {})));
    location.reload();
  };
  words.textContent = "A part of this page did not arrive whole. ";
  words.setAttribute("role", "alert");
  words.append(again);
}

if (document.readyState === "complete") check();
else addEventListener("load", check, { once: true });

// Where the browser refuses to keep a copy, the page works without.
if (container) begin().catch(() => isFirst && tell(""));
