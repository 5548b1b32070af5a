//! An instant and a stretch of time, as plain numbers: the clock is read at the edge.

/// Milliseconds since the Unix epoch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stamp(pub u64);

/// A stretch of time in milliseconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span(pub u64);

impl Span {
    /// So many minutes.
    pub const fn minutes(count: u64) -> Self {
        Self(count * 60_000)
    }

    /// So many hours.
    pub const fn hours(count: u64) -> Self {
        Self::minutes(count * 60)
    }

    /// So many days of 24 hours.
    pub const fn days(count: u64) -> Self {
        Self::hours(count * 24)
    }
}

impl Stamp {
    /// So much later.
    pub const fn after(self, span: Span) -> Self {
        Self(self.0.saturating_add(span.0))
    }

    /// So much earlier.
    pub const fn before(self, span: Span) -> Self {
        Self(self.0.saturating_sub(span.0))
    }
}
