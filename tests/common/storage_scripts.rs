//! What is done to the storage of a browser, by scripts that know no engine.

/// Fills the storage to the brim. Source of the error's name: HTML Standard, section 12.2.1.
pub(crate) const FILL: &str = r"
    let [size, count] = [1 << 20, 0];
    while (size >= 1) {
        try {
            localStorage.setItem(`filler/${count}`, 'x'.repeat(size));
            count += 1;
        } catch (error) {
            if (error.name !== 'QuotaExceededError') throw error;
            size = Math.floor(size / 2);
        }
    }
    return count;";
/// Takes away what filled it.
pub(crate) const EMPTY: &str = "for (const key of Object.keys(localStorage)) if (key.startsWith('filler/')) localStorage.removeItem(key);";
/// Takes away every state of every line, as somebody might by hand, or a program that cleans up.
pub(crate) const TAKE_AWAY: &str = "
    for (const key of Object.keys(localStorage)) if (key.startsWith('taperwright/line/')) localStorage.removeItem(key);";
