// Has the page laid up for use without a connection, and notices newer builds. What there is to say stands in an attribute of
// the document, since the program may come to listen late: `coming` and `ready` at a first visit, `newer` when another build
// is there, `taken` when somebody took it. Where the browser keeps no copies (a page that came unencrypted, some private
// windows) nothing is said, and all else works.

const root = document.documentElement;
const build = document.querySelector("meta[name=build]").content;
const container = navigator.serviceWorker;
let isFirst = false;

function tell(word) {
  root.dataset.offline = word;
  root.dispatchEvent(new Event("taperwright-offline"));
}

async function begin() {
  const known = await container.getRegistration(document.baseURI);
  // That of a folder above is another site's.
  isFirst = !known?.active || known.scope !== new URL("./", document.baseURI).href;
  if (isFirst) tell("coming");
  // The program first: its files are then at hand for the copy.
  await new Promise((done) => ("opened" in root.dataset ? done() : root.addEventListener("taperwright-opened", done)));
  const registration = await container.register(new URL("worker.js", document.baseURI), { updateViaCache: "none" });
  container.addEventListener("message", ({ data }) => data.of === registration.scope && data.taken !== build && tell("taken"));
  container.addEventListener("controllerchange", () => compare(container.controller));
  root.addEventListener("taperwright-take", () => (registration.waiting ?? registration.active)?.postMessage("take"));
  registration.addEventListener("updatefound", () => follow(registration));
  follow(registration);
  compare(registration.waiting);
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

// A waiting worker of this page's own build need not wait; one of another build is news.
async function compare(worker) {
  if (!worker) return;
  const its = await new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => done(data);
    worker.postMessage("which", [port2]);
  });
  if (its === build) worker.postMessage("start");
  else if (root.dataset.offline !== "taken") tell("newer");
}

// Tablets keep a page open for weeks: it looks again whenever it comes to the front or gets a connection.
function keepLook(registration) {
  // Without a connection there is nothing to find.
  const look = () => document.visibilityState === "visible" && registration.update().catch(() => {});
  document.addEventListener("visibilitychange", look);
  addEventListener("online", look);
}

// As long as this page is open, its build stays.
function hold(registration) {
  const tidy = () => registration.active?.postMessage("tidy");
  const forAsLongAsOpen = () => (tidy(), new Promise(() => {}));
  navigator.locks?.request(`taperwright ${registration.scope} ${build}`, { mode: "shared" }, forAsLongAsOpen);
}

// Whatever the browser's reason for keeping no copy, the page works without.
if (container) begin().catch(() => isFirst && tell(""));
