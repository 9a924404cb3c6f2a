//! Bad input at every door: refused, in words that name the value and what would be allowed, and never a panic.
//!
//! Sources: none needed. What is allowed stands in the table of settings; that a refusal names it is the promise tested.
#![cfg(not(target_arch = "wasm32"))]

mod book;
mod book_file;
mod book_lines;
mod book_machine;
mod book_photos;
#[path = "../common/designs.rs"]
mod designs;
mod file;
mod golden;
mod link;
mod link_around;
mod link_flipped;
mod link_made_up;
mod measured;
mod messages;
mod nonsense;
mod parse;
mod readings;
mod sealed;
#[path = "../common/small_pictures.rs"]
mod small_pictures;
mod typed;
mod warnings;

/// Asserts that a message says each of these things.
#[track_caller]
fn says(message: &str, things: &[&str]) {
    for thing in things {
        assert!(
            message.contains(thing),
            "“{message}” does not say “{thing}”"
        );
    }
}

/// Every setting with values outside its range and the words of its refusal: name, value, least and greatest.
fn outside_every_range() -> Vec<(taperwright::design::settings::Setting, f64, [String; 4])> {
    use taperwright::design::settings::Setting;
    let outside = |setting: Setting| {
        let rule = setting.rule();
        let step = 1.0 / f64::from(rule.steps);
        [
            rule.low - step,
            rule.high + step,
            -rule.high,
            10.0 * rule.high,
        ]
        .map(|value| {
            (
                setting,
                value,
                [
                    rule.name.to_owned(),
                    // Written to four decimals, without the noise of binary fractions.
                    ((value * 1e4).round() / 1e4).to_string(),
                    rule.low.to_string(),
                    rule.high.to_string(),
                ],
            )
        })
    };
    Setting::ALL.into_iter().flat_map(outside).collect()
}
