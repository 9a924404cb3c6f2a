// Reloads the page once another build of it is served. Only `cargo run -- serve` puts this script into the page. Names of files
// change with their contents, so every build has another page.

let first;

setInterval(async () => {
  // While a build is being put in place, or when the server is closed, there is nothing to compare.
  const response = await fetch("./", { cache: "no-store" }).catch(() => undefined);
  if (!response?.ok) return;
  const page = await response.text();
  first ??= page;
  if (page !== first) location.reload();
}, 300);
