// Times the core for the line whose code stands behind # of the address, and writes milliseconds into the page.
import init, * as core from "./in_browser.js";

const place = document.getElementById("times");
const asked = new URLSearchParams(location.search);
const number = (name, usual) => Number(asked.get(name) ?? usual);

const measure = (code) => ({
  plan: Array.from(core.plan_times(code, number("runs", 50), number("batch", 20))),
  head_grains: core.head_grains(code) ?? null,
});

try {
  await init();
  place.textContent = JSON.stringify(measure(location.hash.slice(1)));
  place.dataset.state = "done";
} catch (problem) {
  place.textContent = String(problem);
  place.dataset.state = "failed";
}
