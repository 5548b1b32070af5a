//! The encrypted socket on the club's network: its certificate, renewed while it runs, and the stable name.

use std::collections::HashMap;
use std::net::{IpAddr, SocketAddr};
use std::path::PathBuf;
use std::sync::{Arc, PoisonError, RwLock};
use std::time::Duration;

use axum::Router;
use door::address::{Place, place_of};
use door::listen::{Tls, may_listen};
use door::tls::{HOST, Names, config, folder, own};
use hyper_util::server::graceful::Watcher;
use jiff::civil::Date;
use mdns_sd::{ServiceDaemon, ServiceInfo};
use tokio::net::TcpListener;
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::ServerConfig;

use super::Site;
use super::lan::{Authority, Lan};
use super::reception::{Reception, Taken};
use super::serve::ServeError;
use super::way::Way;

/// Longest wait for a handshake.
const HANDSHAKE_PATIENCE: Duration = Duration::from_secs(10);
/// The first byte of a TLS handshake (RFC 8446, section 5.1).
const HANDSHAKE: u8 = 22;
/// How often it looks whether the certificate must be renewed, or the laptop has got another address.
const RENEWAL_WATCH: Duration = Duration::from_secs(60);

/// How to serve phones.
#[derive(Debug, Clone)]
pub struct LanSettings {
    /// Where. The unspecified address takes every one of the laptop's.
    pub address: SocketAddr,
    /// With which certificate.
    pub files: Files,
    /// Tells the network the stable name. Never done for a loopback address.
    pub announce: bool,
}

/// The certificate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Files {
    /// The laptop's own, made and renewed in this folder.
    Laptop(PathBuf),
    /// One that the club brings, for a name it owns.
    Club {
        /// The chain as PEM.
        certificate: PathBuf,
        /// The key as PEM.
        key: PathBuf,
        /// The name that phones use.
        host: String,
    },
}

/// The socket, taken, with its certificate.
pub(super) struct OnLan {
    listener: TcpListener,
    port: u16,
    how: LanSettings,
    config: Arc<RwLock<Arc<ServerConfig>>>,
    reception: Arc<Reception>,
    renewal: Option<Ends>,
    _announced: Announced,
}

impl OnLan {
    /// Takes the address, if it may be served at all, and makes or reads the certificate.
    pub(super) async fn bind(site: &Site, app: Router, how: LanSettings) -> Result<Self, ServeError> {
        let accounts =
            site.desk().open_accounts().map_err(|error| ServeError::Store(format!("{error:?}")))?;
        let ip = how.address.ip();
        // The laptop's own address may be served in any case, but this way is for phones: it wants accounts, too.
        let asked = if place_of(ip) == Place::Laptop { IpAddr::from([0, 0, 0, 0]) } else { ip };
        may_listen(asked, accounts, Tls::On).map_err(ServeError::Refused)?;
        let (config, mut lan) = ready(site, &how, site.now().today)?;
        let failed = |error| ServeError::Bind(how.address, error);
        let listener = TcpListener::bind(how.address).await.map_err(failed)?;
        let port = listener.local_addr().map_err(failed)?.port();
        lan.port = port;
        let announced = if how.announce && place_of(ip) != Place::Laptop { announce(&lan) } else { None };
        site.set_lan(lan);
        Ok(Self {
            listener,
            port,
            how,
            config: Arc::new(RwLock::new(config)),
            reception: Arc::new(Reception::new(app)),
            renewal: None,
            _announced: Announced(announced),
        })
    }

    /// Begins to look after the certificate.
    pub(super) fn begin(&mut self, site: Site) {
        let work = renew(site, self.how.clone(), self.port, Arc::clone(&self.config));
        self.renewal = Some(Ends(tokio::spawn(work)));
    }

    /// The next connection.
    pub(super) async fn accept(&self) -> Option<Taken> {
        self.reception.accept(&self.listener).await
    }

    /// Answers on one connection, from the handshake on.
    pub(super) fn answer(&self, taken: Taken, watcher: Watcher, lan: Option<Lan>) {
        let (stream, peer, place) = taken;
        let now = Arc::clone(&self.config.read().unwrap_or_else(PoisonError::into_inner));
        let reception = Arc::clone(&self.reception);
        let way = Way { secure: true, peer: peer.ip(), port: self.port };
        tokio::spawn(async move {
            let mut first = [0];
            let peeked = tokio::time::timeout(HANDSHAKE_PATIENCE, stream.peek(&mut first)).await;
            if let (Ok(Ok(1)), Some(lan), true) = (peeked, lan, first[0] != HANDSHAKE) {
                let _ = watcher.watch(reception.led_on(stream, lan)).await;
                return;
            }
            let handshake = TlsAcceptor::from(now).accept(stream);
            if let Ok(Ok(stream)) = tokio::time::timeout(HANDSHAKE_PATIENCE, handshake).await {
                let _ = watcher.watch(reception.connection(stream, way)).await;
            }
            drop(place);
        });
    }
}

/// A task that ends with its owner.
struct Ends(tokio::task::JoinHandle<()>);

impl Drop for Ends {
    fn drop(&mut self) {
        self.0.abort();
    }
}

/// The name on the network, taken back with its owner.
struct Announced(Option<ServiceDaemon>);

impl Drop for Announced {
    fn drop(&mut self) {
        if let Some(daemon) = &self.0 {
            daemon.shutdown().ok();
        }
    }
}

/// Certificate and names for one day. The port is not known yet.
fn ready(site: &Site, how: &LanSettings, today: Date) -> Result<(Arc<ServerConfig>, Lan), ServeError> {
    let addresses = addresses_of(how.address.ip());
    match &how.files {
        Files::Laptop(folder) => {
            let club = site.desk().club().about.as_ref().map(|club| club.name.clone()).unwrap_or_default();
            let names = Names::of_laptop(&addresses);
            let ready = folder::ready(folder, &club, &names, today)
                .map_err(|error| ServeError::Certificate(error.to_string()))?;
            let config = config::server(&ready.laptop.certificate, &ready.laptop.key)
                .map_err(ServeError::Certificate)?;
            let authority = Authority { pem: ready.authority, fingerprint: ready.authority_says.fingerprint };
            let lan = Lan {
                host: HOST.to_owned(),
                addresses,
                port: 0,
                authority: Some(authority),
                until: ready.says.until,
            };
            Ok((config, lan))
        }
        Files::Club { certificate, key, host } => {
            let read = |path: &PathBuf| {
                std::fs::read_to_string(path)
                    .map_err(|error| ServeError::Certificate(format!("{}: {error}", path.display())))
            };
            let (chain, key) = (read(certificate)?, read(key)?);
            let usable = own::check(&chain, &key, host, today).map_err(|troubles| {
                let each: Vec<String> = troubles.iter().map(trouble).collect();
                ServeError::Certificate(each.join("; "))
            })?;
            let config = config::server(&chain, &key).map_err(ServeError::Certificate)?;
            let until = usable.certificate.until;
            Ok((config, Lan { host: host.clone(), addresses, port: 0, authority: None, until }))
        }
    }
}

fn trouble(trouble: &own::Trouble) -> String {
    let say = |id: &str, values: &[(&str, String)]| app::text::Texts::english().say(id, values);
    match trouble {
        own::Trouble::Certificate { detail } => say("certificate-unread", &[("detail", detail.clone())]),
        own::Trouble::Key { detail } => say("certificate-key-unread", &[("detail", detail.clone())]),
        own::Trouble::Mismatch => say("certificate-mismatch", &[]),
        own::Trouble::NotYet { from } => say("certificate-not-yet", &[("day", from.to_string())]),
        own::Trouble::Ended { until } => say("certificate-ended", &[("day", until.to_string())]),
        own::Trouble::Name { host, hosts } => {
            say("certificate-name", &[("host", host.clone()), ("hosts", hosts.join(", "))])
        }
    }
}

/// The laptop's addresses on private networks: all of them, or the one that was asked for.
fn addresses_of(asked: IpAddr) -> Vec<IpAddr> {
    if place_of(asked) != Place::Every {
        return vec![asked];
    }
    let all = if_addrs::get_if_addrs().unwrap_or_default();
    let mut found: Vec<IpAddr> = all
        .into_iter()
        .map(|interface| interface.ip())
        // A link-local IPv6 address needs the name of the link behind it, which no browser takes.
        .filter(|ip| {
            place_of(*ip) == Place::Private && !matches!(ip, IpAddr::V6(six) if six.is_unicast_link_local())
        })
        .collect();
    found.sort_unstable();
    found.dedup();
    found
}

/// Looks once a minute whether a new day, another address or the end of the certificate asks for a new one. What
/// cannot be renewed goes on with what there is, and is tried again.
async fn renew(site: Site, how: LanSettings, port: u16, config: Arc<RwLock<Arc<ServerConfig>>>) {
    loop {
        tokio::time::sleep(RENEWAL_WATCH).await;
        let (site, how, config) = (site.clone(), how.clone(), Arc::clone(&config));
        let work = move || {
            let today = site.now().today;
            let Ok((new, mut lan)) = ready(&site, &how, today) else { return };
            lan.port = port;
            if site.lan().as_ref() != Some(&lan) {
                *config.write().unwrap_or_else(PoisonError::into_inner) = new;
                site.set_lan(lan);
            }
        };
        let _ = tokio::task::spawn_blocking(work).await;
    }
}

/// Tells the network the stable name, so that phones find it without numbers. A network that does not carry such
/// words leaves the numbers.
fn announce(lan: &Lan) -> Option<ServiceDaemon> {
    let daemon = ServiceDaemon::new().ok()?;
    let host = format!("{}.", lan.host);
    let none: HashMap<String, String> = HashMap::new();
    let service =
        ServiceInfo::new("_https._tcp.local.", "Cuffwright", &host, &lan.addresses[..], lan.port, none)
            .ok()?;
    daemon.register(service.enable_addr_auto()).ok()?;
    Some(daemon)
}
