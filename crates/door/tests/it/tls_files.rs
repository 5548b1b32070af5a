//! The certificate files: made once, renewed in time, never silently replaced.

use std::fs;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};

use door::tls::folder::{AUTHORITY, AUTHORITY_KEY, LAPTOP, LAPTOP_KEY, ready};
use door::tls::own::{Trouble, check};
use door::tls::{HOST, Names, TlsError};
use jiff::civil::date;

use crate::handshake::{TODAY, talks};

struct Scratch(PathBuf);

impl Scratch {
    fn new() -> Self {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        Self(std::env::temp_dir().join(format!("door-it-{}-{number}", std::process::id())))
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).ok();
    }
}

fn names(addresses: &[&str]) -> Names {
    let addresses: Vec<_> = addresses.iter().map(|text| text.parse().unwrap()).collect();
    Names::of_laptop(&addresses)
}

#[test]
fn the_authority_is_made_once_and_the_laptop_is_renewed_in_time() {
    let scratch = Scratch::new();
    let wanted = names(&["192.168.1.20"]);
    let first = ready(&scratch.0, "Harbour Club", &wanted, TODAY).unwrap();
    assert!(first.new_authority && first.renewed);
    assert!(first.authority_says.is_authority && !first.says.is_authority);
    assert_eq!((first.says.from, first.says.until), (date(2026, 3, 8), date(2026, 6, 6)));
    assert_eq!(first.authority_says.until, date(2036, 3, 8));

    let again = ready(&scratch.0, "Harbour Club", &wanted, date(2026, 5, 7)).unwrap();
    assert!(!again.new_authority && !again.renewed && again.laptop == first.laptop);
    let later = ready(&scratch.0, "Harbour Club", &wanted, date(2026, 5, 8)).unwrap();
    assert!(!later.new_authority && later.renewed);
    assert_eq!(later.authority, first.authority);
    assert_eq!(talks(&first.authority, &later.laptop, HOST, date(2026, 7, 1)), Ok(()));
    // A new address on the network is a new certificate under the same authority.
    let moved = ready(&scratch.0, "Harbour Club", &names(&["10.0.0.7"]), date(2026, 5, 9)).unwrap();
    assert!(moved.renewed && moved.says.holds_for("10.0.0.7") && moved.authority == first.authority);
    let ended = ready(&scratch.0, "Harbour Club", &wanted, date(2036, 3, 9));
    assert!(matches!(ended, Err(TlsError::AuthorityEnded { until }) if until == date(2036, 3, 8)));
}

#[test]
fn half_an_authority_is_never_replaced_and_a_spoilt_laptop_file_is() {
    let scratch = Scratch::new();
    ready(&scratch.0, "Harbour Club", &names(&[]), TODAY).unwrap();
    fs::write(scratch.0.join(LAPTOP), "rubbish").unwrap();
    assert!(ready(&scratch.0, "Harbour Club", &names(&[]), TODAY).unwrap().renewed);
    fs::rename(scratch.0.join(AUTHORITY_KEY), scratch.0.join("elsewhere")).unwrap();
    let half = ready(&scratch.0, "Harbour Club", &names(&[]), TODAY);
    assert!(matches!(half, Err(TlsError::HalfAuthority { missing }) if missing.ends_with(AUTHORITY_KEY)));
    assert!(scratch.0.join(AUTHORITY).exists());
}

#[cfg(unix)]
#[test]
fn keys_are_for_their_owner_alone_and_an_open_one_is_refused() {
    use std::os::unix::fs::PermissionsExt;
    let scratch = Scratch::new();
    ready(&scratch.0, "Harbour Club", &names(&[]), TODAY).unwrap();
    for key in [AUTHORITY_KEY, LAPTOP_KEY] {
        let mode = fs::metadata(scratch.0.join(key)).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600, "{key}");
    }
    fs::set_permissions(scratch.0.join(AUTHORITY_KEY), fs::Permissions::from_mode(0o640)).unwrap();
    let open = ready(&scratch.0, "Harbour Club", &names(&[]), TODAY);
    assert!(matches!(open, Err(TlsError::OpenKey { path }) if path.ends_with(AUTHORITY_KEY)));
}

#[test]
fn a_certificate_that_the_club_brings_is_checked_and_every_trouble_named() {
    let (one, two) = (Scratch::new(), Scratch::new());
    let one = ready(&one.0, "Harbour Club", &names(&["10.0.0.7"]), TODAY).unwrap().laptop;
    let two = ready(&two.0, "Harbour Club", &names(&[]), TODAY).unwrap().laptop;
    let usable = check(&one.certificate, &one.key, HOST, TODAY).unwrap();
    assert!(!usable.ends_soon && usable.certificate.hosts == [HOST]);
    assert!(check(&one.certificate, &one.key, "10.0.0.7", date(2026, 6, 1)).unwrap().ends_soon);
    let name = |host: &str| Trouble::Name { host: host.into(), hosts: vec![HOST.into()] };
    assert_eq!(
        check(&one.certificate, &two.key, "physio.example", date(2026, 7, 1)),
        Err(vec![Trouble::Ended { until: date(2026, 6, 6) }, name("physio.example"), Trouble::Mismatch])
    );
    let early = check(&one.certificate, &one.key, HOST, date(2026, 3, 7));
    assert_eq!(early, Err(vec![Trouble::NotYet { from: date(2026, 3, 8) }]));
    let rubbish = check("rubbish", "rubbish", HOST, TODAY).unwrap_err();
    assert!(matches!(rubbish[..], [Trouble::Certificate { .. }, Trouble::Key { .. }]), "{rubbish:?}");
}
