//! Numbers as SVG wants them: short, and never "-0".

/// A coordinate with at most one decimal: finer than any screen shows.
pub(crate) fn short(value: f64) -> String {
    trimmed(value, 1)
}

/// A number with at most so many decimals and none that says nothing.
pub(crate) fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
