// The page's own copy, for use without a connection. The workshop writes this file into the site: a line before this text
// names the build (BUILD); `build.json` beside it lists all files of it but the page itself.
//
// One cache holds one build, whole. A page opens with the newest build that is there whole, never with a mixture. A newer
// worker waits until somebody takes it, or until a page of its own build is open.

const PAGE = "./";
const LIST = "build.json";
const SCOPE = registration.scope;
// Another copy of the site may lie in another folder of the same host.
const PREFIX = `taperwright ${SCOPE} `;
const NAME = PREFIX + BUILD;

// Longest time, in milliseconds, that opening waits for the network, to learn whether there is a newer build and to get all
// of it. A working connection brings a kilobyte well within it, even at half a second for each of the four ways to and fro
// of a new connection; a bad one must not keep whoever stands at the machine before a white page.
const PATIENCE = 2000;

// Such a name never changes its content; all other files are asked for anew.
const HASHED = /-[0-9a-f]{8,16}(_bg)?\.[a-z]+$/;

addEventListener("install", (event) => event.waitUntil(layUp(BUILD)));
addEventListener("activate", (event) => event.waitUntil(clients.claim().then(tidy)));
addEventListener("fetch", answer);
addEventListener("message", (event) => event.waitUntil(obey(event)));

// Lays up the build that is served; where one is named, no other. An earlier one that is served again becomes the last in
// order, and so the newest.
async function layUp(wanted) {
  const { build, files } = await (await fetched(LIST)).json();
  if (wanted && build !== wanted) throw new Error("another build is served");
  const name = PREFIX + build;
  await alone(async () => {
    if ((await newestName()) === name) return;
    await caches.delete(name);
    const cache = await caches.open(name);
    await Promise.all(files.map(async (file) => cache.put(file, await fetched(file))));
    const page = await fetched(PAGE);
    if (!(await page.clone().text()).includes(build)) throw new Error("the site is just being changed");
    // The page comes last: where it is, all is.
    await cache.put(PAGE, page);
  });
}

// Two workers may lay up or put away at once.
function alone(work) {
  return navigator.locks ? navigator.locks.request(`laying up ${SCOPE}`, work) : work();
}

async function fetched(file) {
  const response = await fetch(file, { cache: HASHED.test(file) ? "default" : "no-cache" });
  if (!response.ok) throw new Error(`${file}: ${response.status}`);
  // Browsers refuse a page that came by a detour unless it is made anew.
  return response.redirected ? new Response(response.body, { headers: response.headers }) : response;
}

function answer(event) {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || !request.url.startsWith(SCOPE)) return;
  const isPage = [SCOPE, `${SCOPE}index.html`].includes(url.origin + url.pathname);
  event.respondWith(request.mode === "navigate" && isPage ? page(event) : file(request));
}

// The network is asked first, for the build it has; the page itself always comes out of a whole cache. What comes too late is
// laid up all the same, for the next time.
async function page(event) {
  const asked = navigator.onLine ? layUp().catch(() => {}) : undefined;
  event.waitUntil(asked);
  await Promise.race([asked, new Promise((late) => setTimeout(late, PATIENCE))]);
  const cache = await newest();
  return (await cache?.match(PAGE)) ?? fetch(PAGE);
}

// By its name a hashed file is the same in whichever cache it is; of the others the newest counts.
async function file(request) {
  const first = HASHED.test(new URL(request.url).pathname) ? undefined : await newest();
  const kept = (await first?.match(request, { ignoreVary: true })) ?? (await caches.match(request, { ignoreVary: true }));
  return kept ?? fetch(request);
}

// Names of this site's caches, in the order in which they were made.
async function names() {
  return (await caches.keys()).filter((name) => name.startsWith(PREFIX));
}

async function newestName() {
  for (const name of (await names()).reverse()) {
    if (await caches.match(PAGE, { cacheName: name })) return name;
  }
}

async function newest() {
  const name = await newestName();
  return name && caches.open(name);
}

async function obey({ data, ports }) {
  if (data === "which") ports[0].postMessage(BUILD);
  if (data === "start") await skipWaiting();
  if (data === "tidy") await tidy();
  if (data === "take") {
    await skipWaiting();
    for (const client of await pages()) client.postMessage({ taken: BUILD, of: SCOPE });
  }
}

async function pages() {
  const all = await clients.matchAll({ type: "window", includeUncontrolled: true });
  return all.filter((client) => client.url.startsWith(SCOPE));
}

// Puts away builds that no page is of. Every page holds a lock by the name of its cache for as long as it is open; while a
// page is still opening there are fewer locks than pages, and the next page to open sees to it.
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
