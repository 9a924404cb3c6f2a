//! The machine constant is found from what was measured, and used when asked for.

use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;

use super::fields::{refuses, takes};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;

#[test]
fn crossings_counted_along_a_rib_give_the_constant() {
    on_the_page(async |page| {
        page.unfold("constant-way").await;
        page.choose("constant-way", "crossings").await;
        for (field, typed) in [
            ("constant-counted", "100"),
            ("constant-length", "22.5"),
            ("constant-threads", "16"),
            ("constant-driver", "20"),
            ("constant-driven", "40"),
        ] {
            page.enter(field, typed).await;
        }
        // A rib has P = N ÷ (2 L) crossings a metre, so L = 16 × 22.5 mm ÷ (2 × 100) = 1.8 mm, drawn at 20 to 40 teeth;
        // at equal teeth twice that. Analytic.
        until_constant(page, 3.6e-3).await;
        assert_eq!(page.value("machine_constant_mm").await, "3.25");
        assert!(page.storage().await.is_empty(), "used without being asked");
        page.press("use-constant").await;
        takes(
            page,
            &edited(demo(), Edit::Set(Setting::MachineConstant, 3.6)),
        )
        .await;
        assert_eq!(page.value("machine_constant_mm").await, "3.6");
        page.press("undo").await;
        takes(page, &demo()).await;
    });
}

#[test]
fn circuits_and_roller_give_it_too() {
    on_the_page(async |page| {
        page.unfold("constant-way").await;
        // 10 circuits over 20 mm at 20 to 40 teeth: 2 mm a circuit, 4 mm at equal teeth. Analytic.
        page.enter("constant-counted", "10").await;
        page.enter("constant-length", "2 cm").await;
        until_constant(page, 4e-3).await;
        page.choose("constant-way", "roller").await;
        page.enter("constant-roller", "40").await;
        page.enter("constant-train", "0.01").await;
        page.enter("constant-horn-gears", "12").await;
        // A circuit takes 6 turns of a horn gear, each 0.01 turn of a roller of π × 40 mm round. Analytic.
        until_constant(page, 6.0 * 0.01 * core::f64::consts::PI * 0.04).await;
        assert_eq!(page.matching("[data-action=constant-counted]").await, 0);
    });
}

#[test]
fn nothing_measured_is_refused() {
    on_the_page(async |page| {
        page.unfold("constant-way").await;
        refuses(page, "constant-counted", "0", &["above 0"]).await;
        refuses(page, "constant-length", "-3", &["above 0"]).await;
        // A constant that no machine has is refused where it would be used.
        page.enter("constant-length", "100 m").await;
        page.press("use-constant").await;
        until("the refusal is explained", async || {
            let said = page.said_beside("use-constant").await;
            said.filter(|said| said.contains("500"))
        })
        .await;
        assert!(page.storage().await.is_empty(), "something was kept");
    });
}

/// What is typed and refused is not passed over: the button does not use the number from before.
#[test]
fn a_number_refused_is_not_passed_over() {
    on_the_page(async |page| {
        page.unfold("constant-way").await;
        let field = page.control("constant-counted").await;
        field.send_keys("many").await.expect("a field takes keys");
        // As a tablet does that leaves the focus in the field.
        let press = "document.querySelector('[data-action=use-constant]').click();";
        page.run(press, vec![]).await;
        page.until_focused("[data-action=constant-counted]").await;
        assert!(page.value("constant-counted").await.contains("many"));
        assert!(page.storage().await.is_empty(), "something was kept");
    });
}

async fn until_constant(page: &Page, metres: f64) {
    until("the constant is found", async || {
        let script = "return Number(document.querySelector('[data-constant]').dataset.constant);";
        let found: f64 = page.ask(script, vec![]).await;
        ((found - metres).abs() < 1e-9).then_some(())
    })
    .await;
}
