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
    assert!(server.page("/people").contains("Mara Lindqvist"));
    assert_eq!(server.interrupt(), Some(0));
    for address in ["0.0.0.0", "::", "192.168.1.20"] {
        // Refused before anything is opened: the store need not even be there.
        let none = folder.path("none.cuff");
        cuffwright(&["serve", "--store", &none, "--address", address]).ends_with(4).says(&[
            "is not an address of this machine alone",
            "Accounts and encrypted connections do not exist yet",
        ]);
    }
    cuffwright(&["serve", "--store", &store, "--address", "everywhere"]).ends_with(2);
    cuffwright(&["serve", "--store", &folder.path("none.cuff")]).ends_with(3);
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
