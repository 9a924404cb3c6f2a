//! The ways from a place to each view of it.

use taperwright::base::choice::Choice as _;
use taperwright::braid::recipe::{ReadyRecipe, StepKind};

use super::days::{begun, today};
use super::dressing::{self, field};
use super::kept;
use super::page::Page;
use super::photo;
use super::swatches::measured;
use super::turnover;
use super::views::{View, foreign_link};

/// An invented line as somebody may paste it, with a reading that is wrong and a row nobody understands.
const READINGS: &str = "Place (m);Diameter (mm)\n0;0.80\n0.5;0.81\n1;0.80\n1.5;0.84\n2;0.90\n2.5;0.95\n3;1.00\n3.5;1.05\n4;1.10\n6;1.10\n8;1.11\n10;1.10\n12;1.45\n14;1.10\n16;1.09\n18;1.10\n20;1.10\n21;1.10\n21.5;1.05\n22;1.00\n22.5;0.95\n23;0.90\n23.5;0.85\n24;0.80\n24.5;0.80\n25;0.80\nknot;0.9\n";

/// Opens the sheet of a measured line that is not begun.
async fn begin_measured(page: &Page) {
    page.press("my-lines").await;
    page.press("measure-line").await;
    page.until_there("[data-action=reading-diameter]").await;
}

impl View {
    /// Brings a page that is at the place of the view there.
    pub(super) async fn arrange(self, page: &Page) {
        match self {
            Self::Draw | Self::Preview | Self::Message => page.until_still().await,
            Self::Threads | Self::Wind | Self::Braid | Self::Dress | Self::Weigh => {}
            Self::ExampleBook => page.press("example-book").await,
            Self::Menu => page.press("menu").await,
            Self::Figures => page.press("all-figures").await,
            Self::Workshop => {
                page.press("workshop-sheet").await;
                page.until_there(".over.shown .settings").await;
                page.unfold_all().await;
            }
            Self::Questions => {
                page.press("questions").await;
                page.until_there(".over.shown [data-question]").await;
                page.choose("recipe", ReadyRecipe::Rough.key()).await;
            }
            Self::Numbers => page.press("numbers").await,
            Self::Plans => page.press("plans").await,
            Self::NewLine => page.press("new-line").await,
            Self::Cautions => page.press("cautions").await,
            Self::Share => page.press("share").await,
            Self::Card => page.press("card").await,
            Self::WrongValue => page.enter("point-size", "thick").await,
            Self::PinEditor => page.press_at("li[data-event=add] [data-action=pin]").await,
            Self::Word => page.press_at(".terms button[data-term]").await,
            _ => self.arrange_further(page).await,
        }
    }

    /// Arranges what takes more than one step.
    async fn arrange_further(self, page: &Page) {
        match self {
            Self::Found => {
                page.press("find-plan").await;
                page.until_there("li[data-found]").await;
                page.until_there("[data-search=done]").await;
            }
            Self::Measure => begin_measured(page).await,
            Self::Measured | Self::Copied => {
                begin_measured(page).await;
                page.enter("paste-readings", READINGS).await;
                page.press("read-table").await;
                page.until_there("[data-measured-point]").await;
                page.enter("measured-whole", "18.5").await;
                page.press_at("[data-keeps=weights]").await;
                page.until_there("[data-copy=copy]").await;
                if self == Self::Copied {
                    page.press("braid-this").await;
                }
            }
            Self::Photo => photo::open(page).await,
            Self::PhotoMeasured => {
                photo::measured(page).await;
                page.press_at("[data-photo-handle=edge-1-from]").await;
                page.press("photo-rule").await;
                page.until_there("[data-photo-handle=rule-to]").await;
                page.run(photo::SET_RULE, vec![]).await;
                page.until_there("[data-photo=diameter]").await;
            }
            Self::NewLineChosen => {
                page.press("new-line").await;
                page.press_at("[data-start=weight-forward]").await;
                page.press_at("[data-class='6']").await;
            }
            Self::Words => {
                page.press("words").await;
                page.press_at("[data-word=braid-angle] summary").await;
            }
            Self::Closer => {
                page.unfold("snap-threads").await;
                page.press("snap-threads").await;
                page.press("zoom-in").await;
                page.press("zoom-in").await;
            }
            Self::Compared | Self::CompareTables => {
                page.enter("compare-link", &foreign_link()).await;
                page.until_there("[data-compared]").await;
                if self == Self::Compared {
                    page.close_sheet().await;
                }
            }
            Self::Turnover => {
                page.enter("compare-link", &foreign_link()).await;
                page.until_there("[data-compared]").await;
                page.close_sheet().await;
                turnover::open(page).await;
            }
            Self::PointArrows => turnover::show_arrows(page).await,
            Self::Dressing => {
                dressing::unfold(page, StepKind::OilVacuum).await;
                page.enter_at(&field(StepKind::OilVacuum, "step-mbar"), "300")
                    .await;
                page.until_there("[data-step=oil-vacuum] .warnings").await;
                begun(page, today(page).await.plus(-4)).await;
                dressing::unfold(page, StepKind::Inspect).await;
                page.press_at(&field(StepKind::Inspect, "tick")).await;
            }
            Self::DressingSheet => {
                begun(page, today(page).await).await;
                page.press("dressing-sheet").await;
            }
            Self::Book => {
                measured(page).await;
                page.enter("swatch-angle", "70").await;
            }
            Self::AtMachine => {
                page.press("run-begin").await;
                page.press("run-done").await;
                page.until_there("[data-action=circuit]").await;
                page.unfold("mishaps").await;
                page.enter("mishap-skipped", "0.8").await;
            }
            Self::MyLines => kept::with_all_shown(page).await,
            Self::MadeLine | Self::Tag => {
                page.press("new-record").await;
                page.enter("line-head", "1").await;
                page.until_there(".measure.doubted").await;
                if self == Self::Tag {
                    page.press("tag").await;
                }
            }
            view => panic!("{view:?} is not arranged"),
        }
    }
}

impl Page {
    /// Unfolds whatever can be.
    async fn unfold_all(&self) {
        let script =
            "document.querySelectorAll('details').forEach((fold) => { fold.open = true; });";
        self.run(script, vec![]).await;
    }
}
