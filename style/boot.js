// Starts the program that trunk built. The page's policy allows no inline script, so the file names, which carry hashes,
// arrive as attributes of an element of the page.

// The look chosen at an earlier visit, before the program is there: a dark page must not flash white.
try {
  const look = localStorage.getItem("taperwright/look");
  if (["light", "dark", "bright"].includes(look)) document.documentElement.dataset.look = look;
} catch {
  // Without storage there is no look to put on.
}

const names = document.querySelector("meta[name=program]").dataset;
const address = (name) => new URL(name, document.baseURI);

async function open() {
  if (typeof WebAssembly !== "object") {
    throw new Error("this browser does not run WebAssembly, or a setting forbids it");
  }
  const program = await import(address(names.js));
  await program.default({ module_or_path: address(names.wasm) });
  document.getElementById("opening")?.remove();
}

// Text only: whatever the reason says, it cannot become markup.
function explain(reason) {
  const paragraphs = [
    "Taperwright could not open.",
    "Load the page again. If that does not help, try a current version of Firefox, Chrome, Edge or Safari.",
    `What the browser said: ${reason?.message ?? reason}.`,
  ].map((text) => Object.assign(document.createElement("p"), { textContent: text }));
  const alert = Object.assign(document.createElement("div"), { role: "alert" });
  document.getElementById("page").replaceChildren(alert);
  alert.append(...paragraphs);
}

// Also a program that does not open is followed by the look for a newer one.
function opened() {
  document.documentElement.dataset.opened = "";
  document.documentElement.dispatchEvent(new Event("taperwright-opened"));
}

open().catch((reason) => {
  console.error(reason);
  explain(reason);
}).finally(opened);
