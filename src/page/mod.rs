//! The page. All but its looks exists in the browser build only.

pub mod looks;

#[cfg(target_arch = "wasm32")]
mod browser;
#[cfg(target_arch = "wasm32")]
pub mod view;
