// The page's own copy, for use without a connection. The workshop writes this file into the site: a line before this text
// names the build (BUILD); `build.json` beside it lists all files of the build, the page too, with the SHA-256 of each.
//
// One cache holds one build, whole: nothing is put into it whose SHA-256 is not the one listed. A host may answer with a web page
// in place of a file, or with half of one, and say that all is well. A page opens with the newest build that is there whole, never
// with a mixture. A build that did not open here is skipped for a day, and the one before opens.
//
// A newer worker waits until somebody takes it, or until a page of its own build is open.

// The last function of this file: a file that was cut off fails here, and the browser keeps the worker it has.
listen();

// Functions below are called only once all of this is set.
const PAGE = "./";
const LIST = "build.json";
const SCOPE = registration.scope;
// Another copy of the site may lie in another folder of the same host.
const PREFIX = `taperwright ${SCOPE} `;
const NAME = PREFIX + BUILD;
// Builds that did not open, each with the time of that.
const FAILED = `taperwright failed ${SCOPE}`;

// Longest time, in milliseconds, that opening waits for the network, to learn whether there is a newer build and to get all
// of it. A working connection brings a kilobyte well within it, even at half a second for each of the four ways to and fro
// of a new connection; a bad one must not keep whoever stands at the machine before a white page.
const PATIENCE = 2000;
// How long a build that did not open is skipped, in milliseconds.
const A_DAY = 24 * 60 * 60 * 1000;

// Such a name never changes its content; all other files are asked for anew.
const HASHED = /-[0-9a-f]{8,16}(_bg)?\.[a-z]+$/;

// A host that names the wrong type keeps browsers from using a file.
const TYPES = {
  css: "text/css",
  js: "text/javascript",
  json: "application/json",
  png: "image/png",
  svg: "image/svg+xml",
  txt: "text/plain",
  wasm: "application/wasm",
  webmanifest: "application/manifest+json",
  woff2: "font/woff2",
};

// Stores the build that is served; where one is named, no other. An earlier one that is served again becomes the last in
// order, and so the newest.
async function store(wanted) {
  const list = await fetch(LIST, { cache: "no-cache" });
  if (!list.ok) throw new Error(`${LIST}: ${list.status}`);
  const { build, files } = await list.json();
  if (wanted && build !== wanted) throw new Error("another build is served");
  if (await isFailing(build)) throw new Error("this build does not open here");
  const name = PREFIX + build;
  await alone(async () => {
    if ((await newestName()) !== name) await fill(name, files);
    await forgetFailed(build);
  });
}

async function fill(name, { [PAGE]: page, ...others }) {
  await caches.delete(name);
  const cache = await caches.open(name);
  await Promise.all(Object.entries(others).map(async ([file, sum]) => cache.put(file, await checked(file, sum))));
  // The page comes last: where it is, all is.
  await cache.put(PAGE, await checked(PAGE, page));
}

// Two workers may store or delete at once.
function alone(work) {
  return navigator.locks ? navigator.locks.request(`laying up ${SCOPE}`, work) : work();
}

// A file as it is listed. Where the browser's own cache has something else under its name, the host is asked.
async function checked(file, sum) {
  const ways = HASHED.test(file) ? ["default", "reload"] : ["no-cache", "reload"];
  for (const cache of ways) {
    const response = await fetch(file, { cache });
    if (!response.ok) throw new Error(`${file}: ${response.status}`);
    const body = await response.arrayBuffer();
    if ((await sha256(body)) === sum) return made(file, body, response.headers);
  }
  throw new Error(`${file}: not the file of this build`);
}

async function sha256(body) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return Array.from(sum, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A new answer: browsers refuse a page that came by a detour, and the body is no longer packed.
function made(file, body, given) {
  const headers = new Headers(given);
  for (const name of ["content-encoding", "content-length"]) headers.delete(name);
  headers.set("content-type", file === PAGE ? "text/html; charset=utf-8" : TYPES[file.split(".").pop()] ?? "application/octet-stream");
  return new Response(body, { headers });
}

function answer(event) {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || !request.url.startsWith(SCOPE)) return;
  const isPage = [SCOPE, `${SCOPE}index.html`].includes(url.origin + url.pathname);
  event.respondWith(request.mode === "navigate" && isPage ? page(event) : file(request));
}

// The network is asked first, for the build it has; the page itself always comes out of a whole cache. What comes too late is
// stored all the same, for the next time.
async function page(event) {
  const asked = navigator.onLine ? store().catch(() => {}) : undefined;
  event.waitUntil(asked);
  await Promise.race([asked, new Promise((late) => setTimeout(late, PATIENCE))]);
  const cache = await newest();
  return (await cache?.match(PAGE)) ?? fetch(PAGE);
}

// By its name a hashed file is the same in whichever cache it is; of the others the newest counts. A page that looks for what
// is wrong asks the host.
async function file(request) {
  if (request.cache === "reload") return fetch(request);
  const first = HASHED.test(new URL(request.url).pathname) ? undefined : await newest();
  const kept = (await first?.match(request, { ignoreVary: true })) ?? (await caches.match(request, { ignoreVary: true }));
  return kept ?? fetch(request);
}

// Names of this site's caches, in the order in which they were made.
async function names() {
  return (await caches.keys()).filter((name) => name.startsWith(PREFIX));
}

// Names of the builds that are there whole, the newest first.
async function wholeNames() {
  const all = await Promise.all((await names()).map(async (name) => ((await caches.match(PAGE, { cacheName: name })) ? [name] : [])));
  return all.flat().reverse();
}

// The newest of those that open; where none does, the newest.
async function newestName() {
  const whole = await wholeNames();
  for (const name of whole) if (!(await isFailing(name.slice(PREFIX.length)))) return name;
  return whole[0];
}

async function newest() {
  const name = await newestName();
  return name && caches.open(name);
}

// ---- Builds that do not open

async function isFailing(build) {
  const at = await (await caches.match(build, { cacheName: FAILED }))?.text();
  // A clock that was set back must not keep a build away for years.
  return Math.abs(Date.now() - Number(at)) < A_DAY;
}

// Notes that a build did not open. The answer is whether another will open in its place.
async function failed(build) {
  const whole = await wholeNames();
  const others = whole.map((name) => name.slice(PREFIX.length)).filter((other) => other !== build);
  const isFailingToo = await Promise.all(others.map(isFailing));
  if (isFailingToo.every(Boolean)) return false;
  await (await caches.open(FAILED)).put(build, new Response(String(Date.now())));
  return true;
}

async function failedBuilds() {
  // Not made where there is none.
  if (!(await caches.has(FAILED))) return [];
  return (await (await caches.open(FAILED)).keys()).map(({ url }) => url.slice(SCOPE.length));
}

// This build is served: it is tried, and others that did not open are of no use any more.
async function forgetFailed(served) {
  for (const build of await failedBuilds()) if (build !== served) await caches.delete(PREFIX + build);
  await caches.delete(FAILED);
}

// ---- What pages ask

async function obey({ data, ports }) {
  const [word, build] = [data].flat();
  if (word === "which") ports[0].postMessage(BUILD);
  if (word === "failed") ports[0].postMessage(await failed(build));
  if (word === "skipped") ports[0].postMessage((await failedBuilds()).length > 0);
  if (word === "start") await skipWaiting();
  if (word === "tidy") await tidy();
  if (word === "take") {
    await skipWaiting();
    for (const client of await pages()) client.postMessage({ taken: BUILD, of: SCOPE });
  }
}

async function pages() {
  const all = await clients.matchAll({ type: "window", includeUncontrolled: true });
  return all.filter((client) => client.url.startsWith(SCOPE));
}

// Deletes builds that no page is of. Every page that has opened holds a lock by the name of its cache for as long as it is open;
// while a page is still opening there are fewer locks than pages, and the next page to open sees to it.
async function tidy() {
  const open = await pages();
  const { held } = (await navigator.locks?.query()) ?? { held: [] };
  const used = held.map((lock) => lock.name).filter((name) => name.startsWith(PREFIX));
  if (used.length < open.length) return;
  await alone(async () => {
    const wanted = [NAME, await newestName(), ...used];
    const others = (await names()).filter((name) => !wanted.includes(name));
    await Promise.all(others.map((name) => caches.delete(name)));
  });
}

function listen() {
  addEventListener("install", (event) => event.waitUntil(store(BUILD)));
  addEventListener("activate", (event) => event.waitUntil(clients.claim().then(tidy)));
  addEventListener("fetch", answer);
  addEventListener("message", (event) => event.waitUntil(obey(event)));
}
