//! The practitioner's operations.
