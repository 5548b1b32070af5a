//! Who may ask: strangers, other names, forged forms, too much, the wrong way.

use axum::body::Body;
use axum::http::Request;

use app::demo::Case;

use super::site::{HOST, demo_site, read_site, site_with, swimmer};

#[tokio::test]
async fn a_name_that_points_here_from_elsewhere_is_refused() {
    let site = read_site();
    for host in ["rebound.example:4000", "127.0.0.1:4001", "127.0.0.1", "192.168.1.7:4000"] {
        let page = site.ask(Request::get("/people").header("host", host).body(Body::empty()).unwrap()).await;
        assert_eq!(page.status, 421, "{host}");
        assert!(!page.body.contains("/people/"), "nothing leaks to {host}");
    }
    let page = site.ask(Request::get("/people").body(Body::empty()).unwrap()).await;
    assert_eq!(page.status, 421, "no name at all");
}

#[tokio::test]
async fn a_form_from_another_site_is_refused_whatever_it_carries() {
    let site = read_site();
    let token = site.site().token().to_owned();
    let pairs = [("token", token.as_str())];
    for headers in [
        vec![],
        vec![("sec-fetch-site", "cross-site")],
        vec![("origin", "http://evil.example")],
        vec![("origin", "null")],
    ] {
        let page = site.post_raw("/review", &pairs, &headers).await;
        assert_eq!(page.status, 403, "{headers:?}");
    }
    let page = site.post_raw("/review", &pairs, &[("origin", "http://127.0.0.1:4000")]).await;
    assert_eq!(page.status, 303, "our own origin is taken");
}

#[tokio::test]
async fn a_form_without_the_token_of_this_start_is_refused() {
    let site = read_site();
    for token in ["", "00000000000000000000000000000000"] {
        let page = site.post_raw("/review", &[("token", token)], &[("sec-fetch-site", "same-origin")]).await;
        assert_eq!(page.status, 403, "{token:?}");
    }
}

#[tokio::test]
async fn too_much_is_not_taken() {
    let site = demo_site();
    let much = "x".repeat(70 * 1024);
    assert_eq!(site.post("/review", &[("line", &much)]).await.status, 413);
    let request = Request::post("/import")
        .header("host", HOST)
        .header("sec-fetch-site", "same-origin")
        .header("content-type", "multipart/form-data; boundary=XX")
        .header("content-length", (25 * 1024 * 1024).to_string())
        .body(Body::empty())
        .unwrap();
    assert_eq!(site.ask(request).await.status, 413);
}

#[tokio::test]
async fn the_wrong_way_is_said_to_be_wrong() {
    let site = demo_site();
    assert_eq!(site.post("/people", &[]).await.status, 405);
    let request = Request::delete("/people")
        .header("host", HOST)
        .header("sec-fetch-site", "same-origin")
        .body(Body::empty())
        .unwrap();
    let page = site.ask(request).await;
    assert_eq!(page.status, 405);
    assert!(page.headers.contains_key("content-security-policy"));
}

#[tokio::test]
async fn only_loopback_is_served() {
    use app::desk::Desk;
    use cuffwright::web::{ServeError, Settings, bind};
    for address in ["0.0.0.0:0", "192.0.2.1:0", "[::]:0"] {
        let desk = Desk::new(store::Store::in_memory().unwrap(), trade::protocol::shipped().clone()).unwrap();
        let settings = Settings {
            address: address.parse().unwrap(),
            entry: cuffwright::web::site::Entry::Demo(super::site::author()),
            clock: std::sync::Arc::new(app::demo::morning),
            banner: None,
        };
        let refused = bind(desk, settings).await.err().expect("only this machine is served");
        assert!(matches!(refused, ServeError::NotLoopback(_)), "{address}");
        assert!(refused.to_string().contains(address), "{refused}");
    }
}

#[tokio::test]
async fn a_form_sent_twice_is_stored_once() {
    let site = site_with(Case::PainOnMonday);
    let subject = swimmer(Case::PainOnMonday);
    let count = || site.site().desk().store().counts().unwrap().facts;
    let path = format!("/people/{subject}/record/guardian-told");
    let form = [("date", "2026-11-25"), ("by", "Ronja"), ("once", "k1"), ("back", "/due")];
    let before = count();
    let first = site.post(&path, &form).await;
    let second = site.post(&path, &form).await;
    assert_eq!((first.status.as_u16(), second.status.as_u16()), (303, 303));
    assert_eq!(first.location(), second.location());
    assert_eq!(count(), before + 1);
}

#[tokio::test]
async fn a_fault_with_the_desk_in_hand_leaves_the_next_reader_whole() {
    let site = site_with(Case::PainOnMonday);
    let broken = site.site().clone();
    let fell = std::thread::spawn(move || {
        let _desk = broken.desk();
        panic!("on purpose");
    });
    assert!(fell.join().is_err());
    let page = site.get("/people").await;
    assert_eq!(page.status, 200);
    assert_eq!(page.body.matches("class=\"pair-line\"").count(), 1, "what is on record is still there");
}

#[tokio::test]
async fn the_socket_answers_and_stops_when_told() {
    use std::io::{Read, Write};
    let desk =
        app::desk::Desk::new(store::Store::in_memory().unwrap(), trade::protocol::shipped().clone()).unwrap();
    let settings = cuffwright::web::Settings {
        address: "127.0.0.1:0".parse().unwrap(),
        entry: cuffwright::web::site::Entry::Demo(super::site::author()),
        clock: std::sync::Arc::new(app::demo::morning),
        banner: None,
    };
    let bound = cuffwright::web::bind(desk, settings).await.unwrap();
    let address = bound.address();
    let (stop, stopped) = tokio::sync::oneshot::channel::<()>();
    let server = tokio::spawn(bound.run(async {
        stopped.await.ok();
    }));
    let answer = tokio::task::spawn_blocking(move || {
        let mut stream = std::net::TcpStream::connect(address).unwrap();
        write!(stream, "GET / HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    });
    let answer = answer.await.unwrap();
    assert!(answer.starts_with("HTTP/1.1 200") && answer.contains("first-steps"));
    stop.send(()).unwrap();
    tokio::time::timeout(std::time::Duration::from_secs(20), server).await.expect("it stops").unwrap();
    assert!(std::net::TcpStream::connect(address).is_err(), "the address is free again");
}
