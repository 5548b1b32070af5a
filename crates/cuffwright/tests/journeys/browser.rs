//! A real Chromium, driven by its own driver, and the real server on a free port of this machine.

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::time::Duration;

use app::demo;
use app::desk::{Author, Desk};
use cuffwright::web::site::Entry;
use cuffwright::web::{Settings, bind};
use fantoccini::elements::Element;
use fantoccini::{Client, ClientBuilder, Locator};
use serde_json::json;
use store::Store;
use tokio::io::{AsyncBufReadExt, BufReader};
use tokio::sync::{Mutex, MutexGuard, oneshot};
use tokio::task::JoinHandle;
use trade::protocol::shipped;

/// One browser at a time: two cores carry no more without making a test wait for the other's pages.
static TURN: Mutex<()> = Mutex::const_new(());

/// How long to wait before looking again, and how often to look.
const MOMENT: Duration = Duration::from_millis(100);
const PATIENCE: u32 = 300;

const DRIVER: &str = "/usr/bin/chromedriver";

/// What a journey begins with.
pub(crate) enum Begin {
    /// Nothing on record.
    Empty,
    /// The demo club.
    Demo,
}

/// How the browser is set up.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Scripts {
    On,
    Off,
}

/// A browser in front of a server.
pub(crate) struct Journey {
    pub(crate) client: Client,
    home: String,
    driver: Child,
    profile: PathBuf,
    server: JoinHandle<()>,
    stop: oneshot::Sender<()>,
    _turn: MutexGuard<'static, ()>,
}

impl Journey {
    /// Starts server and browser and opens the first page.
    pub(crate) async fn begin(with: &Begin, scripts: Scripts, width: u32) -> Self {
        let turn = TURN.lock().await;
        let served = serve(with).await;
        Self::before(turn, served, scripts, width, &[]).await
    }

    /// A browser in front of a server that a test has set up itself, told some more.
    pub(crate) async fn at(served: Served, width: u32, more: &[String]) -> Self {
        let turn = TURN.lock().await;
        Self::before(turn, served, Scripts::On, width, more).await
    }

    async fn before(
        turn: MutexGuard<'static, ()>,
        (home, server, stop): Served,
        scripts: Scripts,
        width: u32,
        more: &[String],
    ) -> Self {
        let (driver, port) = start_driver().await;
        let profile = fresh_folder();
        let client = browser(port, &profile, scripts, width, more).await;
        client.goto(&home).await.expect("the first page opens");
        Self { client, home, driver, profile, server, stop, _turn: turn }
    }

    pub(crate) async fn go(&self, path: &str) {
        self.client
            .goto(&format!("{}{path}", self.home.trim_end_matches('/')))
            .await
            .expect("the page opens");
    }

    /// Waits until it is there.
    pub(crate) async fn find(&self, css: &str) -> Element {
        match self.client.wait().at_most(MOMENT * PATIENCE).for_element(Locator::Css(css)).await {
            Ok(found) => found,
            Err(error) => panic!("{css} is not on {}: {error}", self.address().await),
        }
    }

    pub(crate) async fn click(&self, css: &str) {
        let found = self.find(css).await;
        found.click().await.unwrap_or_else(|error| panic!("{css} cannot be pressed: {error}"));
    }

    pub(crate) async fn click_link(&self, words: &str) {
        // The page with the link may still be on its way.
        let found = self.client.wait().at_most(MOMENT * PATIENCE).for_element(Locator::LinkText(words)).await;
        let found = found.unwrap_or_else(|error| panic!("no link says {words}: {error}"));
        found.click().await.expect("a link can be pressed");
    }

    pub(crate) async fn fill(&self, css: &str, value: &str) {
        let found = self.find(css).await;
        found.clear().await.expect("the field can be cleared");
        found.send_keys(value).await.expect("the field takes text");
    }

    /// Chooses in a list.
    pub(crate) async fn choose(&self, css: &str, value: &str) {
        self.click(&format!("{css} option[value='{value}']")).await;
    }

    pub(crate) async fn text(&self, css: &str) -> String {
        self.find(css).await.text().await.expect("an element has text")
    }

    pub(crate) async fn has(&self, css: &str) -> bool {
        !self.client.find_all(Locator::Css(css)).await.expect("the page answers").is_empty()
    }

    pub(crate) async fn count(&self, css: &str) -> usize {
        self.client.find_all(Locator::Css(css)).await.expect("the page answers").len()
    }

    /// Waits until the page says so: a press leads on in its own time, longer on a busy machine.
    pub(crate) async fn says(&self, words: &str) {
        for _ in 0..PATIENCE {
            // While one page goes and the next comes there may be no body to read.
            let body = self.client.find(Locator::Css("body")).await;
            if let Ok(body) = body
                && body.text().await.is_ok_and(|text| text.contains(words))
            {
                return;
            }
            tokio::time::sleep(MOMENT).await;
        }
        panic!("{} does not say {words:?}: {}", self.address().await, self.text("body").await);
    }

    /// Waits until so many of them are there.
    pub(crate) async fn counts(&self, css: &str, wanted: usize) {
        let mut found = usize::MAX;
        for _ in 0..PATIENCE {
            found = self.count(css).await;
            if found == wanted {
                return;
            }
            tokio::time::sleep(MOMENT).await;
        }
        panic!("{css}: {found} on {}, wanted {wanted}", self.address().await);
    }

    pub(crate) async fn address(&self) -> String {
        let url = self.client.current_url().await.expect("the browser knows where it is");
        url.as_str().trim_start_matches(self.home.trim_end_matches('/')).to_owned()
    }

    /// The page of a swimmer, found by the list as a person would.
    pub(crate) async fn to_swimmer(&self, name: &str) {
        self.go("/people").await;
        self.fill("#search-name", name).await;
        self.click("form.search button[type=submit]").await;
        self.counts(".pair-line", 1).await;
        self.click(".pair-who a").await;
    }

    /// Ends browser and server.
    pub(crate) async fn end(mut self) {
        self.client.close().await.expect("the browser closes");
        self.driver.kill().expect("the driver was started here");
        self.driver.wait().expect("the driver ends");
        self.stop.send(()).expect("the server still runs");
        self.server.await.expect("the server ends by itself");
        std::fs::remove_dir_all(&self.profile).ok();
    }
}

/// Where a server is, and how it ends.
pub(crate) type Served = (String, JoinHandle<()>, oneshot::Sender<()>);

async fn serve(with: &Begin) -> Served {
    let (store, protocol) = (Store::in_memory().unwrap(), shipped().clone());
    let desk = match with {
        Begin::Empty => Desk::new(store, protocol).unwrap(),
        Begin::Demo => demo::open(demo::SEED, protocol, store).unwrap(),
    };
    let settings = Settings {
        address: "127.0.0.1:0".parse().unwrap(),
        entry: Entry::Demo(Author { name: demo::PRACTITIONER.to_owned(), device: "journey".to_owned() }),
        clock: Arc::new(demo::morning),
        banner: None,
    };
    let bound = bind(desk, settings).await.expect("a free port of this machine can be taken");
    let home = format!("http://{}/", bound.address());
    let (stop, stopped) = oneshot::channel::<()>();
    let server = tokio::spawn(bound.run(async {
        stopped.await.ok();
    }));
    (home, server, stop)
}

/// The driver chooses a free port and says which.
async fn start_driver() -> (Child, u16) {
    assert!(
        Path::new(DRIVER).exists(),
        "the journeys need Chromium and its driver from Debian: run ./check, or apt-get install chromium chromium-driver"
    );
    let mut driver = Command::new(DRIVER)
        .arg("--port=0")
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the driver starts");
    let out = driver.stdout.take().expect("its output is piped");
    let out = tokio::process::ChildStdout::from_std(out).expect("its output can be read");
    let mut lines = BufReader::new(out).lines();
    let mut port = None;
    while let Ok(Some(line)) = lines.next_line().await {
        port = line.trim_end_matches('.').rsplit("on port ").next().and_then(|word| word.parse().ok());
        if port.is_some() && line.contains("started successfully") {
            break;
        }
    }
    // Whatever else it says is read and dropped, so that it never waits for a reader.
    tokio::spawn(async move { while let Ok(Some(_)) = lines.next_line().await {} });
    (driver, port.expect("the driver says its port"))
}

pub(crate) fn fresh_folder() -> PathBuf {
    let folder =
        std::env::temp_dir().join(format!("cuffwright-journey-{}", cuffwright::web::site::fresh_key()));
    std::fs::create_dir_all(&folder).expect("a folder can be made");
    folder
}

async fn browser(port: u16, profile: &Path, scripts: Scripts, width: u32, more: &[String]) -> Client {
    let mut args = vec![
        "--headless".to_owned(),
        "--no-sandbox".to_owned(),
        "--disable-gpu".to_owned(),
        "--no-first-run".to_owned(),
        "--disable-background-networking".to_owned(),
        "--disable-component-update".to_owned(),
        "--disable-sync".to_owned(),
        "--lang=en-GB".to_owned(),
        format!("--user-data-dir={}", profile.display()),
    ];
    args.extend(more.iter().cloned());
    // A headless window is never narrower than 500 px; a device of that width is what a phone really is.
    args.push(format!("--window-size={width},900"));
    let mut options = json!({ "args": args });
    if width < 500 {
        options["mobileEmulation"] =
            json!({ "deviceMetrics": { "width": width, "height": 740, "pixelRatio": 2.0 } });
    }
    if scripts == Scripts::Off {
        options["prefs"] = json!({ "profile.managed_default_content_settings.javascript": 2 });
    }
    let mut wanted = serde_json::Map::new();
    wanted.insert("goog:chromeOptions".to_owned(), options);
    let connector = hyper_util::client::legacy::connect::HttpConnector::new();
    ClientBuilder::new(connector)
        .capabilities(wanted)
        .connect(&format!("http://127.0.0.1:{port}"))
        .await
        .expect("Chromium starts")
}
