//! The fields a maker types into.

use taperwright::base::units::text::{Unit, read};
use taperwright::design::settings::Setting;
use taperwright::design::{Design, gears};
use taperwright::edit::{Edit, LineEnds};

use crate::designs::usual;
use crate::{outside_every_range, says};

/// What a field does with a text: reads it in the setting's unit, and sets it.
fn typed(setting: Setting, text: &str) -> Result<Design, String> {
    let value = read(text, setting.rule().unit).map_err(|unread| unread.to_string())?;
    Edit::Set(setting, value)
        .apply(&usual())
        .map_err(|refusal| refusal.to_string())
}

#[track_caller]
fn refused(setting: Setting, text: &str, things: &[&str]) {
    says(
        &typed(setting, text).expect_err("bad input was let in"),
        things,
    );
}

#[test]
fn texts_that_are_no_number() {
    for text in ["", "   ", "\t"] {
        refused(Setting::TargetAngle, text, &["empty", "Type a number"]);
    }
    for text in [
        "NaN",
        "inf",
        "-inf",
        "abc",
        "--5",
        "1.2.3",
        "½",
        "四五",
        ".",
        "-",
        "12-",
        "\u{202e}54",
    ] {
        refused(Setting::TargetAngle, text, &[text, "is not a number"]);
    }
    let endless = "9".repeat(400);
    refused(Setting::TargetAngle, &endless, &["is not a number"]);
}

/// Digits of every script are those of a number: the field then holds what was meant.
#[test]
fn digits_of_other_scripts_are_taken() {
    for text in ["٤٥", "۴۵", "४५", "４５", "٤٥٫٠", "４５．０°"] {
        let set = typed(Setting::TargetAngle, text).unwrap_or_else(|said| panic!("{text}: {said}"));
        assert_eq!(set.setting(Setting::TargetAngle), 45.0, "{text}");
    }
}

#[test]
fn units_that_do_not_belong() {
    refused(Setting::TargetAngle, "45 mm", &["does not take mm", "in °"]);
    refused(
        Setting::MachineConstant,
        "3 den",
        &["does not take den", "in mm"],
    );
    refused(
        Setting::HornGears,
        "16 mm",
        &["does not take mm", "plain number"],
    );
    refused(
        Setting::Film,
        "10 parsec",
        &["parsec", "not known here", "mm", "thou"],
    );
    refused(Setting::Film, "1e3", &["e3", "The unit"]);
}

#[test]
fn numbers_outside_their_range() {
    for (setting, value, words) in outside_every_range() {
        let words = words.each_ref().map(String::as_str);
        refused(setting, &value.to_string(), &words);
        // Behind a comma stand more than three decimals, which no grouping of thousands could be.
        let decimals = value.to_string().contains('.');
        let text = format!("{value}{}", if decimals { "0000" } else { "" });
        refused(setting, &text.replace('.', ",").replace('-', "−"), &words);
    }
}

/// Nobody can tell whether thousands or decimals are meant, so the field asks instead of guessing.
#[test]
fn a_number_that_can_be_read_in_two_ways() {
    for text in ["1,200", "12,000 den"] {
        refused(
            Setting::LabelHigh,
            text,
            &["two numbers", "large one", "small one"],
        );
    }
    let set = typed(Setting::MachineConstant, "1,2 mm").expect("a decimal comma");
    assert_eq!(set.setting(Setting::MachineConstant), 1.2);
}

/// The value refused is named in the field's own unit, whatever it was typed in.
#[test]
fn units_are_converted_before_the_range_is_checked() {
    refused(Setting::MachineConstant, "1 m", &["1000", "0.1 to 500"]);
    let set = typed(Setting::MachineConstant, "0,125 in").expect("3.175 mm is allowed");
    assert_eq!(set.setting(Setting::MachineConstant), 3.175);
    let set = typed(Setting::LabelHigh, "2,5 tex").expect("22.5 denier is allowed");
    assert_eq!(set.setting(Setting::LabelHigh), 22.5);
}

#[test]
fn settings_that_do_not_fit_each_other() {
    refused(Setting::HornGears, "7", &["7 horn gears", "even"]);
    refused(Setting::MostThreads, "7", &["8", "7"]);
    refused(Setting::FewestThreads, "17", &["17 threads", "16"]);
    refused(
        Setting::LabelLow,
        "23",
        &["smaller number first", "23", "22"],
    );
    refused(Setting::EndsPerThread, "12,5", &["12.5", "whole number"]);
}

/// A number that follows from others is refused as what it was typed for, with the range these leave it.
#[test]
fn what_follows_from_others_is_called_by_its_own_name() {
    let refusal = |edit: Edit| {
        let refused = edit.apply(&usual());
        refused.expect_err("far out of range").to_string()
    };
    let ends = LineEnds::Apart;
    let lengthen = |first, last, length_m| Edit::Lengthen {
        first,
        last,
        length_m,
        ends,
    };
    // The belly of the usual line begins at its third point.
    let belly = refusal(lengthen(2, 3, -3.0));
    says(&belly, &["-3\u{202f}m", "length of the belly", "0.01 to "]);
    assert!(!belly.contains("tip"), "{belly}");
    let last = usual().draft().points.len() - 1;
    says(
        &refusal(lengthen(0, last, 101.0)),
        &["101\u{202f}m", "length of the whole line", "to 100"],
    );
    // What is said to be allowed is.
    for (first, last) in [(2, 3), (0, last), (0, 2)] {
        let said = refusal(lengthen(first, last, 1e6));
        let range = said.split("you can type ").nth(1).expect("a range");
        let (low, high) = range.split_once(" to ").expect("two ends");
        let high = high.split('\u{202f}').next().unwrap_or_default();
        for end in [low, high] {
            let length: f64 = end.parse().expect("a number");
            let applied = lengthen(first, last, length).apply(&usual());
            assert!(applied.is_ok(), "{length} m: {applied:?}");
        }
    }
    says(
        &refusal(Edit::ScaleSizes(-0.03)),
        &["-3\u{202f}%", "the scale of all diameters"],
    );
    says(
        &refusal(Edit::Gauge {
            index: 0,
            mbar: 3000.0,
        }),
        &["3000\u{202f}mbar", "the gauge reading"],
    );
    says(
        &refusal(Edit::Height(-99_999.0)),
        &["-99999\u{202f}m", "height above sea level"],
    );
    says(&refusal(Edit::Height(f64::NAN)), &["Type a number for"]);
}

#[test]
fn lists_of_gears() {
    for (text, word) in [
        ("20 x", "x"),
        ("20.5", "20.5"),
        ("-3", "-3"),
        ("1-", "1-"),
        ("99999999999", "99999999999"),
        ("1-4000000000", "1-4000000000"),
    ] {
        let unread = gears::read(text, &[]).expect_err("nonsense was read as gears");
        says(&unread.to_string(), &[word, "not a whole number"]);
    }
    let backward = gears::read("30-20", &[]).expect_err("a backward range was read as gears");
    says(&backward.to_string(), &["30-20", "smaller number first"]);
    let set = |text: &str| {
        let teeth = gears::read(text, &[]).map_err(|unread| unread.to_string())?;
        Edit::Gears(teeth)
            .apply(&usual())
            .map_err(|refusal| refusal.to_string())
    };
    says(
        &set("").expect_err("no gears"),
        &["at least one change gear"],
    );
    says(&set("8-150").expect_err("143 gears"), &["143", "60"]);
    says(
        &set("5, 20").expect_err("a gear of five teeth"),
        &["5", "8 to 200"],
    );
    let gears = set("30 15–17; 20,20")
        .expect("a list of gears")
        .draft()
        .gears
        .clone();
    assert_eq!(gears, [15.0, 16.0, 17.0, 20.0, 20.0, 30.0]);
}

/// Nothing typed may panic: every text of up to three of the characters that mean something.
#[test]
fn no_short_text_panics() {
    let letters = [
        "1", ".", ",", "-", "−", "'", "\"", "′", "ft", "in", " ", "°", "ß", "%", "",
    ];
    let (mut read_some, mut refused_some) = (0, 0);
    for a in letters {
        for b in letters {
            for c in letters {
                for field in [Unit::Foot, Unit::Millimetre, Unit::One] {
                    match read(&format!("{a}{b}{c}"), field) {
                        Ok(value) => {
                            assert!(value.is_finite());
                            read_some += 1;
                        }
                        Err(unread) => {
                            assert!(!unread.to_string().is_empty());
                            refused_some += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(read_some > 100 && refused_some > 100);
}
