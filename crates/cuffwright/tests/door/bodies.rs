//! What is sent that should not be: too much, too slowly, or with a path that climbs.

use std::io::{Read, Write};
use std::time::{Duration, Instant};

use axum::body::Body;
use axum::http::Request;
use door::role::Role;

use super::site::{Asker, Club, HOST, cookie};
use crate::build::*;

#[tokio::test]
async fn no_path_climbs_out_of_what_is_served() {
    let club = Club::peopled();
    for path in [
        "/assets/../Cargo.toml",
        "/assets/..%2f..%2fCargo.toml",
        "/assets/%2e%2e%2fCargo.toml",
        "/assets/....//Cargo.toml",
        "/assets/%00",
        "/people/..%2f..%2fetc%2fpasswd",
        "/people/%2e%2e/facts",
        "/import/..%2f..%2fclub.sqlite",
        "/accounts/..%2f..%2f",
        "//etc/passwd",
        "/install/..%2fauthority.key",
    ] {
        let page = club.get(path, Asker::As(Role::Owner)).await;
        assert!(page.status == 404 || page.status == 400, "{path}: {}", page.status);
        assert!(!page.body.contains("[package]") && !page.body.contains("root:"), "{path}");
    }
}

#[tokio::test]
async fn too_much_is_refused_and_from_a_stranger_not_even_read() {
    let club = Club::peopled();
    let request = |path: &str, cookie: &str, length: usize| {
        Request::post(path)
            .header("host", HOST)
            .header("cookie", cookie)
            .header("sec-fetch-site", "same-origin")
            .header("content-type", "application/x-www-form-urlencoded")
            .body(Body::from("a=".to_owned() + &"x".repeat(length)))
            .unwrap()
    };
    let owner = cookie(Asker::As(Role::Owner));
    assert_eq!(club.ask(request("/accounts/new", &owner, 70 * 1024)).await.status, 413);
    assert_eq!(club.ask(request("/sign-in", "", 70 * 1024)).await.status, 413);
    assert_eq!(club.ask(request("/import", "", 70 * 1024)).await.status, 401, "unread");
    let coach = cookie(Asker::As(Role::HeadCoach));
    assert_eq!(club.ask(request("/import", &coach, 70 * 1024)).await.status, 403, "unread");
}

/// A head that never ends and a body that never comes, over a real socket: both are let go, and others go on.
#[tokio::test(flavor = "multi_thread")]
async fn whoever_is_slow_is_let_go_and_keeps_nobody_else_waiting() {
    let settings = cuffwright::web::Settings {
        address: "127.0.0.1:0".parse().unwrap(),
        entry: cuffwright::web::site::Entry::Accounts,
        clock: std::sync::Arc::new(|| at(0)),
        banner: None,
    };
    let bound = cuffwright::web::bind(desk().0, settings).await.unwrap();
    let address = bound.address();
    let server = tokio::spawn(bound.run(std::future::pending()));
    let slow = tokio::task::spawn_blocking(move || {
        let began = Instant::now();
        let open = |head: &str| {
            let mut stream = std::net::TcpStream::connect(address).unwrap();
            stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
            stream.write_all(head.as_bytes()).unwrap();
            stream
        };
        let mut no_head = open("GET / HTTP/1.1\r\nHost: ");
        let mut no_body = open(&format!(
            "POST /sign-in HTTP/1.1\r\nHost: {address}\r\nOrigin: http://{address}\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 40\r\n\r\nlogin="
        ));
        // Somebody else is served meanwhile.
        let mut quick =
            open(&format!("GET /sign-in HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n"));
        let mut page = String::new();
        quick.read_to_string(&mut page).unwrap();
        assert!(page.starts_with("HTTP/1.1 200"), "{page}");
        assert!(began.elapsed() < Duration::from_secs(12), "the others did not wait");
        let mut said = Vec::new();
        no_head.read_to_end(&mut said).ok();
        let head_let_go = began.elapsed();
        let mut said = [0; 12];
        no_body.read_exact(&mut said).unwrap();
        (head_let_go, String::from_utf8_lossy(&said).into_owned(), began.elapsed())
    });
    let (head, said, body) = slow.await.unwrap();
    server.abort();
    assert!(head < Duration::from_secs(40), "{head:?}");
    assert_eq!(said, "HTTP/1.1 408");
    assert!(body < Duration::from_secs(55), "{body:?}");
}
