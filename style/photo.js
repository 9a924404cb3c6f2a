// The end of the script of the program that reads photographs, which runs beside the page (src/page/photo_worker). The workshop
// puts it after what wasm-bindgen writes (src/host/photo.rs).

// The page may ask before the program listens.
const early = [];
const hold = ({ data }) => early.push(data);
addEventListener("message", hold);

// The page hears of an error by itself, but not of one in a promise.
const broke = (reason) => {
  console.error(reason);
  postMessage("broken");
};
addEventListener("unhandledrejection", ({ reason }) => broke(reason));

// What came damaged must not come out of the browser's cache again.
const load = (cache) => __wbg_init({ module_or_path: fetch(new URL("photo_bg.wasm", import.meta.url), { cache }) });

load("default").catch(() => load("reload")).then(() => {
  removeEventListener("message", hold);
  for (const data of early) dispatchEvent(new MessageEvent("message", { data }));
}, broke);
