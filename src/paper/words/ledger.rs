//! The mass of a line before and after a dressing step, so rounded that the figures shown add up.
//!
//! States are rounded, and what a step changes is shared out among its parts: each is rounded by itself, and what that leaves
//! is given to the largest. A state is therefore the same figure wherever it stands, and no change is off by more than two
//! hundredths of a gram.

use crate::base::units::Mass;
use crate::plan::{Mixture, StepReport};

/// A mass in hundredths of a gram, as it is shown.
pub type Hundredths = i64;

/// What changes the mass of a line in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// Oil taken up wet.
    Oil,
    /// Varnish taken up wet, as it is in its tin.
    Varnish,
    /// Solvent taken up.
    Solvent,
    /// Oxygen taken from the air.
    Gained,
    /// Grease rubbed in.
    Grease,
    /// What the maker's lines weigh beyond the calculation.
    Corrected,
    /// What evaporates; less than 0.
    Evaporates,
}

impl Change {
    /// The words shown.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Oil => "oil",
            Self::Varnish => "varnish",
            Self::Solvent => "solvent",
            Self::Gained => "from the air",
            Self::Grease => "grease",
            Self::Corrected => "correction from your lines",
            Self::Evaporates => "evaporates",
        }
    }
}

/// A step's ledger as it is shown: `before` and all changes add up to `after`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShownLedger {
    /// Mass before the step.
    pub before: Hundredths,
    /// What changes it, each with its sign; nothing that is shown as 0.
    pub changes: Vec<(Change, Hundredths)>,
    /// Mass after it.
    pub after: Hundredths,
    /// Whether something is wet then.
    pub is_wet: bool,
}

/// A mass to the nearest hundredth of a gram.
// A line weighs far less than 2⁵³ hundredths of a gram.
#[allow(clippy::cast_possible_truncation)]
pub fn hundredths(mass: Mass) -> Hundredths {
    (mass.grams() * 100.0).round() as Hundredths
}

/// So many hundredths of a gram: `25.54 g`. Without a sign.
pub fn shown(mass: Hundredths) -> String {
    let size = mass.unsigned_abs();
    format!("{}.{:02}\u{202f}g", size / 100, size % 100)
}

impl ShownLedger {
    /// That of a step.
    pub fn of(report: &StepReport) -> Self {
        let ledger = &report.ledger;
        let (before, after) = (hundredths(ledger.before), hundredths(ledger.after));
        let mut changes: Vec<(Change, Hundredths)> = exact(report)
            .into_iter()
            .map(|(change, mass)| (change, hundredths(mass)))
            .collect();
        let listed: Hundredths = changes.iter().map(|change| change.1).sum();
        let largest = changes.iter_mut().max_by_key(|change| change.1.abs());
        if let Some(largest) = largest {
            largest.1 += after - before - listed;
        }
        changes.retain(|change| change.1 != 0);
        Self {
            before,
            changes,
            after,
            is_wet: report.is_wet,
        }
    }

    /// What the line takes up of a part of a coat.
    pub fn taken(&self, change: Change) -> Hundredths {
        let mut changes = self.changes.iter();
        changes
            .find(|found| found.0 == change)
            .map_or(0, |found| found.1)
    }

    /// The ledger in a line: `24.33 g + 2.33 g varnish + 2.33 g solvent = 28.99 g, wet`; the weight alone where nothing changed.
    pub fn words(&self) -> String {
        let wet = if self.is_wet { ", wet" } else { "" };
        let after = shown(self.after);
        if self.changes.is_empty() {
            return format!("{after}{wet}");
        }
        let changes = self.change_words();
        format!("{} {changes} = {after}{wet}", shown(self.before))
    }

    /// What changes alone: `+ 0.68 g from the air − 3.45 g evaporates`.
    pub fn change_words(&self) -> String {
        let changes = self.changes.iter();
        let words = changes
            .map(|&(change, mass)| format!("{} {} {}", sign(mass), shown(mass), change.name()));
        words.collect::<Vec<String>>().join(" ")
    }

    /// The same where room is short: `24.33 + 4.66 = 28.99 g`.
    pub fn short(&self) -> String {
        let bare = |mass: Hundredths| shown(mass).replace("\u{202f}g", "");
        let more: Hundredths = self.changes.iter().map(|change| change.1.max(0)).sum();
        let less: Hundredths = self.changes.iter().map(|change| change.1.min(0)).sum();
        let parts = [more, less].into_iter().filter(|mass| *mass != 0);
        let parts = parts.map(|mass| format!("{} {}", sign(mass), bare(mass)));
        let parts: Vec<String> = core::iter::once(bare(self.before)).chain(parts).collect();
        format!("{} = {}", parts.join(" "), shown(self.after))
    }
}

/// `+` or `−`, as a change goes.
pub const fn sign(mass: Hundredths) -> char {
    if mass < 0 { '\u{2212}' } else { '+' }
}

/// Every change with its sign, not yet rounded.
fn exact(report: &StepReport) -> Vec<(Change, Mass)> {
    let ledger = &report.ledger;
    let taken = report.coat.map_or(Mixture::default(), |coat| coat.taken);
    [
        (Change::Oil, taken.oil.mass),
        (Change::Varnish, taken.varnish.mass),
        (Change::Solvent, taken.solvent.mass),
        (Change::Gained, ledger.gained),
        (Change::Grease, ledger.grease),
        (Change::Corrected, ledger.corrected),
        (Change::Evaporates, Mass::ZERO - ledger.evaporates),
    ]
    .to_vec()
}
