//! Comparing a computed number with the digits a source prints.

/// Asserts that `found`, rounded to as many decimals as `printed` has, reads exactly as printed.
///
/// The tolerance of a row is thereby its own last digit: nobody can widen it without changing the source's number.
#[track_caller]
pub(crate) fn row(found: f64, printed: &str) {
    let decimals = printed
        .split_once('.')
        .map_or(0, |(_, behind)| behind.len());
    assert_eq!(format!("{found:.decimals$}"), printed, "computed {found}");
}

/// Asserts that two numbers agree to a share of their size.
#[track_caller]
pub(crate) fn agree(found: f64, wanted: f64, share: f64) {
    assert!(
        (found - wanted).abs() <= share * wanted.abs(),
        "{found} is not {wanted} to within {share} of it"
    );
}
