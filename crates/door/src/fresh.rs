//! Random bits from the operating system. For the edge only: everything else takes them as values.

use uuid::Uuid;

/// So many random bytes. None when the operating system has none to give, which no caller can mend.
pub fn bytes<const N: usize>() -> Option<[u8; N]> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).ok()?;
    Some(bytes)
}

/// A random id for an account or a device.
pub fn id() -> Option<Uuid> {
    bytes::<16>().map(|bytes| uuid::Builder::from_random_bytes(bytes).into_uuid())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn draws_differ() {
        assert_ne!(bytes::<16>().unwrap(), bytes::<16>().unwrap());
        assert_eq!(id().unwrap().get_version_num(), 4);
    }
}
