// Starts the program that trunk built. The page's policy allows no inline script, so the file names, which carry hashes,
// arrive as attributes of this script's own element.

// The look chosen at an earlier visit, before the program is there: a dark page must not flash white.
try {
  const look = localStorage.getItem("taperwright/look");
  if (["light", "dark", "bright"].includes(look)) document.documentElement.dataset.look = look;
} catch {
  // Without storage there is no look to put on.
}

const script = document.querySelector("script[data-wasm]");
const address = (name) => new URL(name, document.baseURI);

async function open() {
  if (typeof WebAssembly !== "object") {
    throw new Error("this browser does not run WebAssembly, or a setting forbids it");
  }
  const program = await import(address(script.dataset.js));
  await program.default({ module_or_path: address(script.dataset.wasm) });
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

open().catch((reason) => {
  console.error(reason);
  explain(reason);
});
