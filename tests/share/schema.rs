//! The schema of the design file says what the reader does: files written keep to it, spoiled ones do not. Validated by
//! boon, which knows nothing of lines. Source of the schema's language: JSON Schema 2020-12.

use boon::{Compiler, SchemaIndex, Schemas};
use proptest::prelude::*;
use serde_json::{Value, json};
use taperwright::base::choice::Choice;
use taperwright::braid::recipe::{Heat, StepKind};
use taperwright::braid::takeoff::Train;
use taperwright::braid::threads::Build;
use taperwright::braid::track::Pattern;
use taperwright::braid::yarn::{Condition, Fibre};
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::keep::share::file;

use crate::lines::{any_design, cases};

const TEXT: &str = include_str!("../doors/design.schema.json");
const NAME: &str = "urn:taperwright:design:4";

struct Schema {
    all: Schemas,
    index: SchemaIndex,
}

impl Schema {
    fn read() -> Self {
        let mut compiler = Compiler::new();
        compiler
            .add_resource(NAME, tree())
            .expect("the schema is named");
        let mut all = Schemas::new();
        let index = compiler.compile(NAME, &mut all).expect("the schema is one");
        Self { all, index }
    }

    fn said_of(&self, file: &Value) -> Result<(), String> {
        let said = self.all.validate(file, self.index);
        said.map_err(|error| format!("{error:#}"))
    }
}

fn tree() -> Value {
    serde_json::from_str(TEXT).expect("the schema is JSON")
}

fn demo_file() -> Value {
    serde_json::from_str(&file::write(&demo())).expect("a file is JSON")
}

proptest! {
    #![proptest_config(cases(64))]

    #[test]
    fn every_file_written_keeps_to_the_schema(design in any_design()) {
        let file: Value = serde_json::from_str(&file::write(&design)).expect("JSON");
        prop_assert_eq!(Schema::read().said_of(&file), Ok(()));
    }
}

/// Every setting with its range as the table of settings has it, and no other.
#[test]
fn every_setting_is_required_with_its_range() {
    let tree = tree();
    let settings = &tree["$defs"]["settings"];
    let required = settings["required"].as_array().expect("a list");
    let properties = settings["properties"].as_object().expect("a map");
    let always = |setting: &&Setting| !setting.may_be_missing();
    assert_eq!(
        (required.len(), properties.len()),
        (
            Setting::ALL.iter().filter(always).count(),
            Setting::ALL.len()
        )
    );
    for setting in Setting::ALL {
        let (rule, said) = (setting.rule(), &properties[setting.key()]);
        assert_eq!(
            required.contains(&json!(setting.key())),
            !setting.may_be_missing(),
            "{}",
            setting.key()
        );
        assert_eq!(
            said["minimum"].as_f64(),
            Some(rule.low),
            "{}",
            setting.key()
        );
        assert_eq!(
            said["maximum"].as_f64(),
            Some(rule.high),
            "{}",
            setting.key()
        );
        assert_eq!(
            said["type"] == "integer",
            rule.steps == 1,
            "{}",
            setting.key()
        );
    }
}

#[test]
fn every_choice_is_named() {
    fn keys<C: Choice>(said: &Value) {
        let keys: Vec<&str> = C::ALL.iter().map(|choice| choice.key()).collect();
        assert_eq!(said["enum"], json!(keys));
    }
    let tree = tree();
    let design = &tree["$defs"]["design"]["properties"];
    keys::<Fibre>(&design["fibre"]);
    keys::<Condition>(&design["condition"]);
    keys::<Build>(&design["build"]);
    keys::<Pattern>(&design["pattern"]);
    keys::<Train>(&design["train"]);
    let step = &tree["$defs"]["step"]["properties"];
    keys::<StepKind>(&step["kind"]);
    keys::<Heat>(&step["heat"]);
}

/// Neither the schema nor the reader takes it.
#[track_caller]
fn refused(schema: &Schema, what: &str, spoil: impl FnOnce(&mut Value)) {
    let mut file = demo_file();
    spoil(&mut file);
    assert_ne!(file, demo_file(), "{what} spoils nothing");
    assert!(schema.said_of(&file).is_err(), "the schema takes {what}");
    assert!(
        file::read(&file.to_string()).is_err(),
        "the reader takes {what}"
    );
}

#[test]
fn a_setting_missing_beyond_its_range_or_unknown_is_refused_by_both() {
    let schema = Schema::read();
    assert_eq!(schema.said_of(&demo_file()), Ok(()));
    for setting in Setting::ALL {
        let (key, rule) = (setting.key(), setting.rule());
        let step = 1.0 / f64::from(rule.steps);
        let set =
            |value: f64| move |file: &mut Value| file["design"]["settings"][key] = json!(value);
        refused(&schema, &format!("{key} too large"), set(rule.high + step));
        refused(&schema, &format!("{key} too small"), set(rule.low - step));
        refused(&schema, &format!("{key} as words"), |file| {
            file["design"]["settings"][key] = json!("12");
        });
        if setting.may_be_missing() {
            continue;
        }
        refused(&schema, &format!("no {key}"), |file| {
            file["design"]["settings"]
                .as_object_mut()
                .expect("a map")
                .remove(key);
        });
    }
    refused(&schema, "an unknown setting", |file| {
        file["design"]["settings"]["crimp"] = json!(2.0);
    });
}

#[test]
fn a_part_missing_or_unknown_is_refused_by_both() {
    let schema = Schema::read();
    let keys: Vec<String> = demo_file()["design"]
        .as_object()
        .expect("a map")
        .keys()
        .cloned()
        .collect();
    // Nothing learnt and no original may also be missing for the reader; everything else may not.
    let is_needed = |key: &&String| !matches!(key.as_str(), "learned" | "original");
    for key in keys.iter().filter(is_needed) {
        refused(&schema, &format!("no {key}"), |file| {
            file["design"].as_object_mut().expect("a map").remove(key);
        });
    }
    refused(&schema, "an unknown part", |file| {
        file["design"]["colour"] = json!("green");
    });
    refused(&schema, "no design", |file| {
        file.as_object_mut().expect("a map").remove("design");
    });
}

/// Something done to a file, and what it is.
type Spoil = (&'static str, fn(&mut Value));

#[test]
fn what_no_line_can_have_is_refused_by_both() {
    let spoils: [Spoil; 24] = [
        ("another format", |file| file["format"] = json!("a recipe")),
        ("a newer version", |file| file["version"] = json!(5)),
        ("a fibre nobody knows", |file| {
            file["design"]["fibre"] = json!("wool");
        }),
        ("a pattern with a capital", |file| {
            file["design"]["pattern"] = json!("Diamond");
        }),
        ("no gears", |file| file["design"]["gears"] = json!([])),
        ("half a tooth", |file| {
            file["design"]["gears"] = json!([20.5]);
        }),
        ("a gear of seven teeth", |file| {
            file["design"]["gears"] = json!([7, 20]);
        }),
        ("sixty-one gears", |file| {
            file["design"]["gears"] = json!(vec![20; 61]);
        }),
        ("an odd ring", |file| {
            file["design"]["settings"]["horn_gears"] = json!(7);
        }),
        ("a long name", |file| {
            file["design"]["name"] = json!("ü".repeat(81));
        }),
        ("long notes", |file| {
            file["design"]["notes"] = json!("n".repeat(401));
        }),
        ("no points", |file| file["design"]["points"] = json!([])),
        ("a line that begins elsewhere", |file| {
            file["design"]["points"][0]["at_m"] = json!(0.005);
        }),
        ("a point beyond the longest line", |file| {
            let last = file["design"]["points"].as_array().expect("a list").len() - 1;
            file["design"]["points"][last]["at_m"] = json!(101);
        }),
        ("a negative size", |file| {
            file["design"]["points"][1]["diameter_mm"] = json!(-1.0);
        }),
        ("a weight in a point", |file| {
            file["design"]["points"][1]["weight"] = json!(1);
        }),
        ("a pin of no kind", |file| {
            file["design"]["pins"] = json!([{"pin": "drawing"}]);
        }),
        ("a pin of a third direction", |file| {
            file["design"]["pins"] =
                json!([{"pin": "carrier", "threads": 8, "direction": "up", "number": 1}]);
        }),
        ("a pin on thread 65", |file| {
            file["design"]["pins"] =
                json!([{"pin": "carrier", "threads": 65, "direction": "cw", "number": 1}]);
        }),
        ("a step of no kind", |file| {
            file["design"]["recipe"] = json!([{"kind": "boil"}]);
        }),
        ("a vacuum without a pressure", |file| {
            file["design"]["recipe"] = json!([{"kind": "oil-vacuum", "hours": 2.0}]);
        }),
        ("an original of one point", |file| {
            let point = json!({"at_m": 0.0, "diameter_mm": 0.8});
            file["design"]["original"] = json!({"name": "", "head_g": null, "points": [point]});
        }),
        ("an original with a class", |file| {
            let points = file["design"]["points"].clone();
            file["design"]["original"] =
                json!({"name": "", "head_g": null, "points": points, "class": 5});
        }),
        ("half of what was learnt", |file| {
            file["design"]["learned"] = json!({"spreads": [1.0]});
        }),
    ];
    let schema = Schema::read();
    for (what, spoil) in spoils {
        refused(&schema, what, spoil);
    }
}

/// The longest line and the most of everything that the schema allows is what the reader allows.
#[test]
fn the_most_of_everything_is_taken_by_both() {
    let schema = Schema::read();
    let mut file = demo_file();
    let point = |index: u32| json!({"at_m": f64::from(index) * 0.1, "diameter_mm": 0.8});
    file["design"]["points"] = (0..1000).map(point).collect();
    file["design"]["gears"] = json!(vec![20; 60]);
    file["design"]["name"] = json!("ü".repeat(80));
    file["design"]["notes"] = json!("n".repeat(400));
    let points = file["design"]["points"].clone();
    file["design"]["original"] = json!({"name": "ü".repeat(80), "head_g": 9.1, "points": points});
    file["design"]["pins"] = json!([{"pin": "carrier", "threads": 64, "direction": "ccw", "number": 64}, {"pin": "swap", "heavy": 0, "direction": "cw", "number": 3}]);
    file["design"]["recipe"] = json!([{"kind": "grease"}, {"kind": "varnish-vacuum", "hours": 1, "mbar": 50, "solvent_percent": 90}]);
    assert_eq!(schema.said_of(&file), Ok(()));
    assert!(file::read(&file.to_string()).is_ok());
}
