//! Feeds whatever the fuzzer thinks of to `harness::storage`.
#![no_main]

#[path = "../harness/mod.rs"]
#[allow(dead_code, reason = "each target runs one of the four")]
mod harness;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| harness::storage::run(bytes));
