//! What another plan of the same line changes at the machine.

use crate::plan::Plan;

/// What is braided otherwise by the second plan: `at most 15 threads, not 16`. Nothing where the work stays the same.
pub fn work_changes(before: &Plan, after: &Plan) -> Vec<String> {
    let counts = |count: fn(&Plan) -> usize| (count(before), count(after));
    let rows = [
        (
            "at least",
            "threads",
            counts(|plan| plan.threads_min() as usize),
        ),
        (
            "at most",
            "threads",
            counts(|plan| plan.threads_max() as usize),
        ),
        ("", "changes of thread", counts(Plan::thread_changes)),
        ("", "changes of gear", counts(Plan::gear_changes)),
    ];
    let changed = rows
        .into_iter()
        .filter(|(_, _, (before, after))| before != after);
    let words = |(limit, what, (before, after)): (&str, &str, (usize, usize))| {
        format!("{limit} {after} {what}, not {before}")
            .trim_start()
            .to_owned()
    };
    changed.map(words).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::design::settings::Setting;
    use crate::edit::Edit;

    #[test]
    fn what_changes_is_said_with_both_counts() {
        let plan = Plan::of(&demo());
        assert!(work_changes(&plan, &plan).is_empty());
        let heavier = Edit::Set(Setting::EndsPerThread, 20.0).apply(&demo());
        let other = Plan::of(&heavier.expect("threads one may ply"));
        let said = work_changes(&plan, &other);
        let most = format!(
            "at most {} threads, not {}",
            other.threads_max(),
            plan.threads_max()
        );
        assert_ne!(other.threads_max(), plan.threads_max());
        assert!(said.contains(&most), "{said:?}");
    }
}
