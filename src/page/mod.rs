//! The page. All but its looks and the names of its places exists in the browser build only.

pub mod looks;
pub mod places;

#[cfg(target_arch = "wasm32")]
mod browser;
#[cfg(target_arch = "wasm32")]
pub mod view;
