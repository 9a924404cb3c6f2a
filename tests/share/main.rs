//! What leaves the page — tables, codes, cards, the form of a file — is read back by readers that are not ours.
//!
//! Sources: RFC 4180 (tables), ISO/IEC 18004 (codes), XML 1.0 (cards), JSON Schema 2020-12 (files), each named beside its
//! check.
#![cfg(not(target_arch = "wasm32"))]

mod cards;
mod codes;
#[path = "../common/designs.rs"]
#[allow(dead_code, reason = "what is tried here needs few of them")]
mod designs;
mod dropped;
mod helvetica;
mod hostile;
mod injected;
#[path = "../laws/lines.rs"]
#[allow(
    dead_code,
    reason = "the laws need more kinds of lines than are tried here"
)]
mod lines;
mod readings;
mod scan;
mod schema;
mod tables;
#[path = "../common/up_and_down.rs"]
mod up_and_down;
