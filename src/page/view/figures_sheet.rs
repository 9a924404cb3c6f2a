//! All figures: the class and how sure it is, what to see to before braiding, every figure with its formula, the parts of the line.

use leptos::prelude::*;

use super::figures::Figures;
use super::messages::Notices;
use super::sections::Sections;
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use super::verdict::VerdictBlock;

/// The sheet.
#[component]
pub(crate) fn FiguresSheet() -> impl IntoView {
    view! {
        <Sheet kind=SheetKind::Figures>
            <VerdictBlock />
            <Notices />
            <Figures />
            <Sections />
        </Sheet>
    }
}
