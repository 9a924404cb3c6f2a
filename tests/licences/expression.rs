//! An expression of licences: names, `AND`, `OR`, `WITH`, brackets; older crates write a stroke for `OR`.

/// Whether the terms can be kept with these licences alone. What cannot be understood is not allowed.
pub(crate) fn allows(expression: &str, allowed: &[&str]) -> bool {
    let spaced = expression
        .replace('/', " OR ")
        .replace('(', " ( ")
        .replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut rest = words.as_slice();
    either(&mut rest, allowed) == Some(true) && rest.is_empty()
}

fn next<'a>(rest: &mut &[&'a str]) -> Option<&'a str> {
    let (first, behind) = rest.split_first()?;
    *rest = behind;
    Some(first)
}

fn either(rest: &mut &[&str], allowed: &[&str]) -> Option<bool> {
    let mut is_allowed = both(rest, allowed)?;
    while rest.first() == Some(&"OR") {
        next(rest);
        is_allowed |= both(rest, allowed)?;
    }
    Some(is_allowed)
}

fn both(rest: &mut &[&str], allowed: &[&str]) -> Option<bool> {
    let mut is_allowed = one(rest, allowed)?;
    while rest.first() == Some(&"AND") {
        next(rest);
        is_allowed &= one(rest, allowed)?;
    }
    Some(is_allowed)
}

fn one(rest: &mut &[&str], allowed: &[&str]) -> Option<bool> {
    let name = next(rest)?;
    if name == "(" {
        let is_allowed = either(rest, allowed)?;
        return (next(rest)? == ")").then_some(is_allowed);
    }
    if rest.first() == Some(&"WITH") {
        // An exception only ever gives more leave.
        next(rest);
        next(rest)?;
    }
    Some(allowed.contains(&name))
}

#[test]
fn expressions_are_understood() {
    let allowed = |expression: &str| allows(expression, &["MIT", "ISC", "Apache-2.0"]);
    for good in [
        "MIT",
        "MIT OR GPL-3.0-only",
        "GPL-3.0-only/MIT",
        "(MIT OR GPL-3.0-only) AND ISC",
        "Apache-2.0 WITH LLVM-exception OR GPL-3.0-only",
        "GPL-3.0-only AND ISC OR MIT",
    ] {
        assert!(allowed(good), "{good}");
    }
    for bad in [
        "",
        "GPL-3.0-only",
        "MIT AND GPL-3.0-only",
        "(MIT OR ISC) AND GPL-3.0-only",
        "MIT OR",
        "MIT ISC",
        "(MIT",
        "mit",
    ] {
        assert!(!allowed(bad), "{bad}");
    }
}
