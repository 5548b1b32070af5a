//! `demo` and `serve`: started as a shell starts them, asked over the socket, ended by Ctrl-C.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command};

use serde_json::Value;

use super::club::club;
use super::run::{Folder, cuffwright, nothing_starts, start};

/// A running server; it is ended with its test.
struct Server {
    child: Child,
    said: Value,
}

impl Server {
    /// Starts one, and reads what it says when its address is taken.
    fn start(arguments: &[&str]) -> Self {
        let guard = nothing_starts();
        let mut child = start(arguments);
        drop(guard);
        let mut out = BufReader::new(child.stdout.as_mut().unwrap());
        let mut text = String::new();
        while serde_json::from_str::<Value>(&text).is_err() {
            assert!(out.read_line(&mut text).unwrap() > 0, "it ended early: {text}");
        }
        let said: Value = serde_json::from_str(&text).unwrap();
        assert_eq!(said["shape"], "cuffwright.serving/1");
        Self { child, said }
    }

    /// Asks for a page.
    fn page(&self, path: &str) -> String {
        let address = self.said["address"].as_str().unwrap();
        let host = address.trim_start_matches("http://").trim_end_matches('/');
        let mut socket = TcpStream::connect(host).unwrap();
        write!(socket, "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").unwrap();
        let mut page = String::new();
        socket.read_to_string(&mut page).unwrap();
        page
    }

    /// Ctrl-C, and the code with which it ended.
    fn interrupt(&mut self) -> Option<i32> {
        self.signal("-INT")
    }

    fn signal(&mut self, signal: &str) -> Option<i32> {
        let id = self.child.id().to_string();
        let guard = nothing_starts();
        assert!(Command::new("kill").args([signal, &id]).status().unwrap().success());
        drop(guard);
        self.child.wait().unwrap().code()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.child.kill().ok();
        self.child.wait().ok();
    }
}

#[test]
fn the_demo_opens_in_a_folder_stays_there_and_ends_by_itself() {
    let folder = Folder::new();
    let named = folder.path("demo");
    let mut demo = Server::start(&["demo", "--folder", &named, "--port", "0", "--json"]);
    assert_eq!((&demo.said["today"], &demo.said["keeps"]), (&"2026-11-25".into(), &true.into()));
    let page = demo.page("/");
    assert!(page.starts_with("HTTP/1.1 ") && !page.starts_with("HTTP/1.1 5"), "{page}");
    let store = demo.said["store"].as_str().unwrap().to_owned();
    cuffwright(&["gate", "--store", &store]).ends_with(5).says(&["is in use by another process"]);
    assert_eq!(demo.interrupt(), Some(0));
    let first = cuffwright(&["log", "verify", "--store", &store, "--json"]).ends_with(0);
    // Opened again it is the same club, and another number does not pour a second one in.
    let mut again = Server::start(&["demo", "--folder", &named, "--port", "0", "--json"]);
    assert_eq!(again.interrupt(), Some(0));
    assert_eq!(cuffwright(&["log", "verify", "--store", &store, "--json"]).out, first.out);
    cuffwright(&["demo", "--folder", &named, "--seed", "2", "--port", "0"])
        .ends_with(4)
        .says(&["hint: Leave --seed out"]);
    cuffwright(&["gate", "--store", &store, "--on", "2026-11-25"]).ends_with(0).says(&["Swimmers: 26."]);
}

#[test]
fn a_demo_without_a_folder_leaves_nothing() {
    let mut demo = Server::start(&["demo", "--port", "0", "--json"]);
    let store = std::path::PathBuf::from(demo.said["store"].as_str().unwrap());
    assert!(store.is_file());
    assert_eq!(demo.said["keeps"], false);
    assert_eq!(demo.signal("-TERM"), Some(0));
    assert!(!store.exists() && !store.parent().unwrap().exists());
}

#[test]
fn a_store_is_served_on_this_machine_only() {
    let folder = Folder::new();
    let store = club(&folder);
    let mut server = Server::start(&["serve", "--store", &store, "--port", "0", "--json"]);
    assert_eq!(server.said["club"], "SC Talbach");
    // Nobody has an account yet: every page leads to making the owner's, and shows nobody's name.
    let page = server.page("/people");
    assert!(page.contains("location: /first") && !page.contains("Mara Lindqvist"), "{page}");
    assert!(server.page("/first").contains("The first account"));
    assert_eq!(server.interrupt(), Some(0));
    for address in ["0.0.0.0", "::", "192.168.1.20"] {
        // Refused before anything is opened: the store need not even be there.
        let none = folder.path("none.cuff");
        cuffwright(&["serve", "--store", &none, "--address", address])
            .ends_with(4)
            .says(&["is not an address of this machine alone", "add --lan"]);
    }
    cuffwright(&["serve", "--store", &store, "--address", "everywhere"]).ends_with(2);
    cuffwright(&["serve", "--store", &folder.path("none.cuff")]).ends_with(3);
}

#[test]
fn phones_are_served_only_with_an_account_and_then_encrypted() {
    let folder = Folder::new();
    let store = club(&folder);
    let lan = [
        "serve",
        "--store",
        &store,
        "--port",
        "0",
        "--lan",
        "--lan-address",
        "127.0.0.1",
        "--lan-port",
        "0",
        "--json",
    ];
    cuffwright(&lan).ends_with(4).says(&["nobody has an account yet"]);
    cuffwright(&["serve", "--store", &store, "--certificate", "x.pem"]).ends_with(2);
    owner(&store);
    let mut server = Server::start(&lan);
    let name = server.said["lan"]["name"].as_str().unwrap().to_owned();
    assert!(name.starts_with("https://cuffwright.local:"), "{name}");
    assert!(server.said["lan"]["fingerprint"].as_str().unwrap().len() > 60);
    // Plain words on the encrypted port get no page.
    let port: u16 = name.trim_end_matches('/').rsplit(':').next().unwrap().parse().unwrap();
    let mut socket = TcpStream::connect(("127.0.0.1", port)).unwrap();
    let ask = format!("GET / HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\r\n");
    socket.write_all(ask.as_bytes()).unwrap();
    let mut said = Vec::new();
    socket.read_to_end(&mut said).ok();
    let said = String::from_utf8_lossy(&said).into_owned();
    assert!(
        said.starts_with("HTTP/1.1 308") && said.contains(&format!("https://127.0.0.1:{port}/")),
        "{said}"
    );
    assert_eq!(server.interrupt(), Some(0));
    let kept = std::fs::read_dir(format!("{store}.certificates")).unwrap().count();
    assert_eq!(kept, 4, "authority and laptop, certificate and key");
    // The same authority after another start: a phone is set up once.
    let before = server.said["lan"]["fingerprint"].clone();
    let mut again = Server::start(&lan);
    assert_eq!(again.said["lan"]["fingerprint"], before);
    assert_eq!(again.interrupt(), Some(0));
    let broken = folder.path("broken.pem");
    std::fs::write(&broken, "no certificate").unwrap();
    let own = ["--certificate", &broken, "--key", &broken, "--host", "club.example"];
    cuffwright(&[&lan[..], &own[..]].concat()).ends_with(2).says(&["the certificate cannot be read"]);
}

/// Gives the store an owner, as the first page would.
fn owner(store: &str) {
    let store = store::Store::open(std::path::Path::new(store), store::Open { create: false }).unwrap();
    let mut desk = app::desk::Desk::new(store, trade::protocol::shipped().clone()).unwrap();
    let new = app::entry::NewAccount {
        role: door::role::Role::Owner,
        login: "olga".into(),
        name: "Olga Owner".into(),
        licence: None,
        bound: Default::default(),
    };
    let accepted = door::policy::accept("nine slow turtles", &[]).unwrap();
    let hash = door::password::PasswordHash::of(&accepted, &[1; 16]);
    desk.make_owner(&super::club::moment(), door::fresh::id().unwrap(), &new, &hash).unwrap();
}

#[test]
fn accounts_are_looked_after_from_the_command_line() {
    let folder = Folder::new();
    let store = club(&folder);
    cuffwright(&["account", "list", "--store", &store]).ends_with(0).says(&["Nobody has an account yet"]);
    owner(&store);
    let listed = cuffwright(&["account", "list", "--store", &store, "--json"]).ends_with(0);
    let listed: Value = serde_json::from_str(&listed.out).unwrap();
    assert_eq!(listed["accounts"][0]["login"], "olga");
    assert_eq!(listed["accounts"][0]["state"], "open");
    cuffwright(&["account", "list", "--store", &store]).ends_with(0).says(&[
        "olga",
        "Olga Owner",
        "owner",
        "open",
    ]);
    let code = cuffwright(&["account", "recover", "--store", &store, "Olga", "--json"]).ends_with(0);
    let code: Value = serde_json::from_str(&code.out).unwrap();
    assert_eq!((code["code"].as_str().unwrap().len(), &code["minutes"]), (14, &15.into()));
    cuffwright(&["account", "recover", "--store", &store, "nobody"]).ends_with(3);
    cuffwright(&["account", "unlock", "--store", &store, "olga"]).ends_with(0).says(&["open again for olga"]);
    cuffwright(&["account", "revoke", "--store", &store, "olga"]).ends_with(4).says(&["last owner"]);
    cuffwright(&["account", "revoke", "--store", &store, "blue phone"]).ends_with(3);
}

#[test]
fn a_port_that_is_taken_is_named() {
    let folder = Folder::new();
    let store = club(&folder);
    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port().to_string();
    cuffwright(&["serve", "--store", &store, "--port", &port])
        .ends_with(5)
        .says(&[&port, "Choose another one"]);
}
