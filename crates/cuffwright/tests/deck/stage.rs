//! The real command with the demo club in a folder of its own, a browser in front of it, and time that can be skipped.
//!
//! A session of minutes is played in seconds by moving the page's monotonic clock on between the moments that matter;
//! over a cap it always runs by itself.

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::time::Duration;

use fantoccini::wd::WebDriverCompatibleCommand;
use fantoccini::{Client, ClientBuilder, Locator};
use serde_json::{Value, json};
use tokio::io::{AsyncBufReadExt, BufReader};
use tokio::sync::{Mutex, MutexGuard};

/// One browser at a time: two cores carry no more.
static TURN: Mutex<()> = Mutex::const_new(());
const MOMENT: Duration = Duration::from_millis(100);
const PATIENCE: u32 = 400;
const DRIVER: &str = "/usr/bin/chromedriver";

pub(crate) fn is_long() -> bool {
    std::env::var_os("CUFFWRIGHT_LONG").is_some()
}

fn folder(name: &str) -> PathBuf {
    let folder =
        std::env::temp_dir().join(format!("cuffwright-deck-{name}-{}", cuffwright::web::site::fresh_key()));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// The demo club, made once and copied for each test.
fn club() -> &'static Path {
    static CLUB: OnceLock<PathBuf> = OnceLock::new();
    CLUB.get_or_init(|| {
        let made = folder("club");
        let mut server = Server::start(&made, 0);
        server.kill();
        made
    })
}

/// The command, serving.
pub(crate) struct Server {
    child: Child,
    pub(crate) port: u16,
    folder: PathBuf,
}

impl Server {
    fn start(folder: &Path, port: u16) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_cuffwright"))
            .args(["demo", "--json", "--port", &port.to_string(), "--folder"])
            .arg(folder)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let out = child.stdout.take().unwrap();
        let mut told = String::new();
        let mut reader = std::io::BufReader::new(out);
        while !told.trim_end().ends_with('}') {
            assert_ne!(
                std::io::BufRead::read_line(&mut reader, &mut told).unwrap(),
                0,
                "the command ended: {told}"
            );
        }
        let told: Value = serde_json::from_str(&told).unwrap();
        let address = told["address"].as_str().unwrap().trim_end_matches('/').to_owned();
        let port = address.rsplit(':').next().unwrap().parse().unwrap();
        Self { child, port, folder: folder.to_owned() }
    }

    /// Ends it as a power cut would.
    pub(crate) fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// Starts it again where it was.
    pub(crate) fn again(&mut self) {
        *self = Self::start(&self.folder.clone(), self.port);
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.child.kill().ok();
        self.child.wait().ok();
    }
}

/// Cuts the browser's network, or mends it.
#[derive(Debug)]
struct Network(bool);

impl WebDriverCompatibleCommand for Network {
    fn endpoint(&self, base: &url::Url, session: Option<&str>) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/chromium/network_conditions", session.unwrap_or_default()))
    }

    fn method_and_body(&self, _: &url::Url) -> (axum::http::Method, Option<String>) {
        let rate = if self.0 { -1 } else { 0 };
        let conditions = json!({ "offline": !self.0, "latency": 0, "download_throughput": rate, "upload_throughput": rate });
        (axum::http::Method::POST, Some(json!({ "network_conditions": conditions }).to_string()))
    }
}

/// A browser in front of a server.
pub(crate) struct Stage {
    pub(crate) client: Client,
    pub(crate) server: Server,
    driver: Child,
    profile: PathBuf,
    pub(crate) session: String,
    _turn: MutexGuard<'static, ()>,
}

impl Stage {
    /// A prepared session of one exercise for both arms, and the console open in front of it.
    pub(crate) async fn open(width: u32, exercises: &[(&str, u32)]) -> Self {
        let turn = TURN.lock().await;
        let home = folder("run");
        // The record may have a journal beside it.
        for file in std::fs::read_dir(club()).unwrap() {
            let file = file.unwrap();
            std::fs::copy(file.path(), home.join(file.file_name())).unwrap();
        }
        let server = Server::start(&home, 0);
        let (driver, port) = start_driver().await;
        let profile = folder("profile");
        let client = browser(port, &profile, width).await;
        let mut stage = Self { client, server, driver, profile, session: String::new(), _turn: turn };
        stage.prepare(exercises).await;
        stage.go(&format!("/deck/session/{}", stage.session)).await;
        stage.ready().await;
        stage
    }

    pub(crate) fn address(&self, path: &str) -> String {
        format!("http://127.0.0.1:{}{path}", self.server.port)
    }

    pub(crate) async fn go(&self, path: &str) {
        self.client.goto(&self.address(path)).await.unwrap();
    }

    /// The console has read its bag and its disk, and time can be moved on.
    pub(crate) async fn ready(&self) {
        self.until("document.querySelector('#deck')?.dataset.ready === 'yes'").await;
        let warp = "const real = performance.now.bind(performance); globalThis.skipped = 0; performance.now = () => real() + skipped;";
        self.run(warp).await;
    }

    async fn prepare(&mut self, exercises: &[(&str, u32)]) {
        self.go("/deck").await;
        for (exercise, cap) in exercises {
            self.run(&format!("document.querySelector('#exercise-{exercise}').checked = true; document.getElementById('cap.{exercise}').value = '{cap}';")).await;
        }
        let marked: Vec<String> = exercises.iter().map(|(exercise, _)| format!("'{exercise}'")).collect();
        self.run(&format!("for (const box of document.querySelectorAll('input[name=exercise]')) box.checked = [{}].includes(box.value); document.querySelector('#context').value = 'rested'; document.querySelector('#before_water').value = 'test of the console'; document.querySelector('button[value=prepare]').click();", marked.join(","))).await;
        self.until("document.querySelector('.deck-prepared a') !== null").await;
        let href = self.ask("return document.querySelector('.deck-prepared a').getAttribute('href')").await;
        self.session = href.as_str().unwrap().rsplit('/').next().unwrap().to_owned();
    }

    pub(crate) async fn run(&self, script: &str) {
        self.client.execute(script, Vec::new()).await.unwrap_or_else(|error| panic!("{script}: {error}"));
    }

    pub(crate) async fn ask(&self, script: &str) -> Value {
        self.client.execute(script, Vec::new()).await.unwrap_or_else(|error| panic!("{script}: {error}"))
    }

    /// Waits until an expression holds.
    pub(crate) async fn until(&self, holds: &str) {
        for _ in 0..PATIENCE {
            if self
                .client
                .execute(&format!("return Boolean({holds})"), Vec::new())
                .await
                .is_ok_and(|is| is == true)
            {
                return;
            }
            tokio::time::sleep(MOMENT).await;
        }
        let body = self.ask("return document.body.innerText.slice(0, 1500)").await;
        panic!("never: {holds}\n{body}");
    }

    pub(crate) async fn click(&self, css: &str) {
        let found = self.client.wait().at_most(MOMENT * PATIENCE).for_element(Locator::Css(css)).await;
        let found = found.unwrap_or_else(|error| panic!("{css}: {error}"));
        found.click().await.unwrap_or_else(|error| panic!("{css} cannot be pressed: {error}"));
    }

    pub(crate) async fn network(&self, is_there: bool) {
        self.client.issue_cmd(Network(is_there)).await.unwrap();
    }

    /// Moves the page's clock on.
    pub(crate) async fn skip(&self, seconds: f64) {
        self.run(&format!("skipped += {};", seconds * 1000.0)).await;
    }

    /// Marks the first `count` swimmers who may start as here, and asks them aloud.
    pub(crate) async fn gather(&self, count: usize) -> Vec<String> {
        let script = "return deck.bag.swimmers.filter((one) => one.lines.clear.some((line) => line.timed)).map((one) => one.id)";
        let able: Vec<String> = serde_json::from_value(self.ask(script).await).unwrap();
        let who: Vec<String> = able.into_iter().take(count).collect();
        for one in &who {
            self.click(&format!(".deck-person[data-who='{one}'] .deck-here")).await;
            self.until(&format!(
                "!document.querySelector(\".deck-person[data-who='{one}'] .deck-ask\").disabled"
            ))
            .await;
            self.click(&format!(".deck-person[data-who='{one}'] .deck-ask")).await;
            self.click("dialog[open] #ask-spoken").await;
            self.click("dialog[open] #ask-none").await;
            self.until("document.querySelector('dialog[open]') === null").await;
        }
        self.click("#to-live").await;
        who
    }

    /// Sets the next stretch of work going, and waits through the lead-in.
    pub(crate) async fn begin(&self) {
        self.click("#go").await;
        self.until("deck.session.now(deck.now()).kind === 'lead'").await;
        self.skip(4.0).await;
        self.until("deck.session.now(deck.now()).kind === 'run'").await;
    }

    /// How the running or last set of each stands.
    pub(crate) async fn stands(&self, who: &str) -> String {
        let script =
            format!("return document.querySelector(\".deck-place[data-who='{who}']\").dataset.stands");
        self.ask(&script).await.as_str().unwrap_or_default().to_owned()
    }

    pub(crate) async fn touch(&self, who: &str, what: &str) {
        self.click(&format!(".deck-place[data-who='{who}'] .deck-{what}-touch")).await;
    }

    /// Everything is acknowledged.
    pub(crate) async fn handed_over(&self) {
        self.until("deck.outbox.waiting === 0").await;
    }

    /// Ids of every entry that this device has written, as its disk holds them.
    pub(crate) async fn written(&self) -> Vec<String> {
        serde_json::from_value(self.ask("return deck.session.state.entries().map((entry) => entry.id)").await)
            .unwrap()
    }

    /// Sets on record, as the server tells them, read without the browser.
    pub(crate) fn on_record(&mut self) -> (Vec<String>, Vec<Value>) {
        self.server.kill();
        let store =
            store::Store::open(self.server.folder.join("demo.cuff"), store::Open { create: false }).unwrap();
        let entries = store.live_facts_of_kind("deck-entry").unwrap();
        let ids = entries.iter().map(|live| live.fact.told.id.to_string()).collect();
        let sets = store.live_facts_of_kind("set").unwrap();
        let ours = sets
            .iter()
            .filter(|live| live.fact.told.natural_key.as_deref().is_some_and(|key| key.starts_with("deck:")));
        let sets = ours
            .map(|live| {
                let mut set: Value = serde_json::from_str(live.payload()).unwrap();
                set["who"] = json!(live.fact.told.subject.to_string());
                set
            })
            .collect();
        (ids, sets)
    }

    pub(crate) async fn end(mut self) {
        self.client.close().await.ok();
        self.driver.kill().unwrap();
        self.driver.wait().unwrap();
        std::fs::remove_dir_all(&self.profile).ok();
    }
}

async fn start_driver() -> (Child, u16) {
    assert!(
        Path::new(DRIVER).exists(),
        "the console's tests need Chromium and its driver from Debian: run ./check"
    );
    let mut driver =
        Command::new(DRIVER).arg("--port=0").stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let out = tokio::process::ChildStdout::from_std(driver.stdout.take().unwrap()).unwrap();
    let mut lines = BufReader::new(out).lines();
    let mut port = None;
    while let Ok(Some(line)) = lines.next_line().await {
        port = port.or_else(|| {
            line.trim_end_matches('.')
                .rsplit("on port ")
                .next()
                .and_then(|word| word.parse().ok())
                .filter(|port| *port != 0)
        });
        if line.contains("started successfully") {
            break;
        }
    }
    tokio::spawn(async move { while let Ok(Some(_)) = lines.next_line().await {} });
    (driver, port.expect("the driver says its port"))
}

async fn browser(port: u16, profile: &Path, width: u32) -> Client {
    let args = json!([
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--lang=en-GB",
        "--autoplay-policy=no-user-gesture-required",
        format!("--user-data-dir={}", profile.display()),
        format!("--window-size={width},900"),
    ]);
    let mut options = json!({ "args": args });
    if width < 500 {
        options["mobileEmulation"] =
            json!({ "deviceMetrics": { "width": width, "height": 740, "pixelRatio": 2.0 } });
    }
    let mut wanted = serde_json::Map::new();
    wanted.insert("goog:chromeOptions".to_owned(), options);
    let connector = hyper_util::client::legacy::connect::HttpConnector::new();
    ClientBuilder::new(connector)
        .capabilities(wanted)
        .connect(&format!("http://127.0.0.1:{port}"))
        .await
        .expect("the browser starts")
}
