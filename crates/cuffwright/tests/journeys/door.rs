//! Coming in, in a real browser: the first run of a new user, and a phone that is paired over an encrypted connection.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant};

use base64_of::base64;
use cuffwright::web::site::Entry;
use cuffwright::web::{Files, LanSettings, Settings, bind};
use door::code::Purpose;
use sha2::{Digest, Sha256};
use tokio::sync::oneshot;

use crate::browser::{Journey, fresh_folder};
use crate::build::*;
use crate::canaries::{MARKS, mark};

/// From nothing to the first page behind the door, as somebody new does it: two commands and one form.
#[tokio::test(flavor = "multi_thread")]
async fn a_new_user_is_in_within_a_minute() {
    let folder = fresh_folder();
    let store = folder.join("club.sqlite").display().to_string();
    let began = Instant::now();
    let program = env!("CARGO_BIN_EXE_cuffwright");
    let init = [
        "init",
        "--store",
        &store,
        "--club",
        "Driftwood Bay",
        "--zone",
        "UTC",
        "--practitioner",
        "Olga Owner",
    ];
    assert!(Command::new(program).args(init).stdout(Stdio::null()).status().unwrap().success());
    let serve = ["serve", "--store", &store, "--port", "0", "--json"];
    let mut running = Command::new(program).args(serve).stdout(Stdio::piped()).spawn().unwrap();
    let mut out = BufReader::new(running.stdout.take().unwrap());
    let mut text = String::new();
    let said: serde_json::Value = loop {
        assert!(0 < out.read_line(&mut text).unwrap(), "it ended early: {text}");
        if let Ok(said) = serde_json::from_str(&text) {
            break said;
        }
    };
    let (stop, stopped) = oneshot::channel::<()>();
    let server = tokio::spawn(async move {
        stopped.await.ok();
        running.kill().expect("it was started here");
        running.wait().expect("it ends");
    });
    let journey = Journey::at((said["address"].as_str().unwrap().to_owned(), server, stop), 1200, &[]).await;
    assert_eq!(journey.address().await, "/first");
    journey.fill("#login", "olga").await;
    journey.fill("#password", PASSWORD).await;
    journey.fill("#again", PASSWORD).await;
    journey.click("form.record button[type=submit]").await;
    journey.says("Your account is there, and you are signed in by it").await;
    let took = began.elapsed();
    assert!(took < Duration::from_secs(60), "from nothing to the first page inside: {took:?}");
    // Out, and in again.
    journey.click(".badge button").await;
    journey.says("You are signed out").await;
    journey.fill("#login", "olga").await;
    journey.fill("#password", PASSWORD).await;
    journey.click("form.record button[type=submit]").await;
    journey.find("#first-steps").await;
    journey.end().await;
    std::fs::remove_dir_all(&folder).ok();
}

/// Everything that a page's origin keeps in the browser.
const KEPT: &str = r"
    const done = arguments[arguments.length - 1];
    (async () => {
        let all = JSON.stringify({ ...localStorage }) + JSON.stringify({ ...sessionStorage }) + document.cookie;
        for (const known of await indexedDB.databases()) {
            const db = await new Promise((ok, no) => {
                const opening = indexedDB.open(known.name);
                opening.onsuccess = () => ok(opening.result);
                opening.onerror = () => no(opening.error);
            });
            for (const store of db.objectStoreNames) {
                const rows = await new Promise((ok) => {
                    const asking = db.transaction(store).objectStore(store).getAll();
                    asking.onsuccess = () => ok(asking.result);
                });
                all += JSON.stringify(rows);
            }
            db.close();
        }
        for (const name of await caches.keys()) {
            const cache = await caches.open(name);
            for (const request of await cache.keys()) all += await (await cache.match(request)).text();
        }
        done(all);
    })().catch((error) => done('failed: ' + error));
";

/// A phone at 360 px opens the stable name, encrypted and trusted, is paired by a code, and opens its deck bag. What
/// the browser then keeps holds no word that a supervisor may not read.
#[tokio::test(flavor = "multi_thread")]
async fn a_phone_is_paired_by_a_code_over_the_stable_name_and_keeps_no_health_word() {
    let folder = fresh_folder();
    let (mut desk, owner) = desk();
    mark(&mut desk, swimmer(1));
    let code = new_code(5, Purpose::Pairing);
    desk.open_pairing(&at(0), &owner, &code).unwrap();
    let settings = Settings {
        address: "127.0.0.1:0".parse().unwrap(),
        entry: Entry::Accounts,
        clock: Arc::new(|| at(1)),
        banner: None,
    };
    let lan = LanSettings {
        address: "127.0.0.1:0".parse().unwrap(),
        files: Files::Laptop(folder.clone()),
        announce: false,
    };
    let bound = bind(desk, settings).await.unwrap().also_on_lan(lan).await.unwrap();
    let home = bound.lan().unwrap().address("/pair");
    assert!(home.starts_with("https://cuffwright.local:"), "{home}");
    let (stop, stopped) = oneshot::channel::<()>();
    let server = tokio::spawn(bound.run(async {
        stopped.await.ok();
    }));
    let more = [
        "--host-resolver-rules=MAP cuffwright.local 127.0.0.1".to_owned(),
        // Trusts the laptop's key and no other, as a phone does that has installed the certificate.
        format!("--ignore-certificate-errors-spki-list={}", key_of(&folder)),
    ];
    let journey = Journey::at((home.clone(), server, stop), 360, &more).await;
    journey.fill("#code", &code.code.shown().to_lowercase()).await;
    journey.fill("#label", "blue phone").await;
    journey.click("form.record button[type=submit]").await;
    journey.find("#prepare").await;
    journey.says("blue phone, supervisor").await;
    let secure = journey.client.execute("return window.isSecureContext", Vec::new()).await.unwrap();
    assert_eq!(secure, true, "the bag can be kept only on such a page");
    journey.choose("#context", "rested").await;
    journey.click(".deck-exercises input[value='RC-1']").await;
    journey.click("button[value=prepare]").await;
    let open = journey.find("a[href*='/deck/session/']").await;
    let path = open.attr("href").await.unwrap().unwrap();
    journey.client.goto(&format!("{}{path}", home.trim_end_matches("/pair"))).await.unwrap();
    journey.says("Ben").await;
    let mut kept = String::new();
    for _ in 0..50 {
        let value = journey.client.execute_async(KEPT, Vec::new()).await.unwrap();
        kept = value.as_str().unwrap_or_default().to_owned();
        if kept.contains("Ben Specimen") {
            break;
        }
        tokio::time::sleep(Duration::from_millis(200)).await;
    }
    assert!(kept.contains("Ben"), "the bag is kept, so that there is something to look through: {kept}");
    let reads = |things: &[door::permit::Thing]| {
        things.iter().any(|thing| {
            door::permit::reach(door::role::Role::Supervisor, *thing) != door::permit::Reach::Nothing
        })
    };
    for (mark, things) in MARKS {
        assert!(reads(things) || !kept.contains(mark), "{mark} is kept on a supervisor's phone");
    }
    // The console's own store carries the same name; a token would follow an equals sign.
    assert!(!kept.contains("cuffwright-deck="), "no script reads the token");
    for path in ["/due", "/accounts", "/people/x/facts"] {
        journey.client.goto(&format!("{}{path}", home.trim_end_matches("/pair"))).await.unwrap();
        journey.says("Not for this role").await;
    }
    journey.end().await;
    std::fs::remove_dir_all(&folder).ok();
}

/// The hash of the laptop's public key, as the browser's own switch takes it.
fn key_of(folder: &std::path::Path) -> String {
    let pem = std::fs::read(folder.join("laptop.pem")).unwrap();
    let (_, pem) = x509_parser::pem::parse_x509_pem(&pem).unwrap();
    let certificate = pem.parse_x509().unwrap();
    base64(&Sha256::digest(certificate.public_key().raw))
}

/// Base 64 (RFC 4648, section 4), for one hash.
mod base64_of {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

    pub(super) fn base64(bytes: &[u8]) -> String {
        let mut text = String::new();
        for three in bytes.chunks(3) {
            let whole = three.iter().fold(0_u32, |whole, byte| whole << 8 | u32::from(*byte))
                << (8 * (3 - three.len()));
            for place in 0..4 {
                let letter = usize::try_from(whole >> (18 - 6 * place) & 63).unwrap();
                text.push(if place <= three.len() { char::from(LETTERS[letter]) } else { '=' });
            }
        }
        text
    }

    #[test]
    fn it_is_written_as_the_standard_shows() {
        for (bytes, text) in [("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foobar", "Zm9vYmFy")] {
            assert_eq!(base64(bytes.as_bytes()), text);
        }
    }
}
