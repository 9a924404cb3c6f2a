//! Two programs share this name. In the browser it opens the page; on the developer's machine it is the program behind
//! `cargo run`, which installs the tools, builds the site, serves it and runs every check.

#[cfg(not(target_arch = "wasm32"))]
mod host;

#[cfg(target_arch = "wasm32")]
fn main() {
    taperwright::page::view::open();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() -> std::process::ExitCode {
    host::run()
}
