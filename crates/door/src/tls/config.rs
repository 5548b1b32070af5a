//! What a server needs to speak TLS: certificate and key, checked to belong together.

use std::sync::Arc;

use rustls::ServerConfig;
use rustls::crypto::ring;
use rustls::pki_types::pem::PemObject;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};

/// A server's configuration from PEM texts: TLS 1.2 and 1.3, no client certificates, HTTP/1.1.
pub fn server(certificates: &str, key: &str) -> Result<Arc<ServerConfig>, String> {
    let chain: Vec<CertificateDer<'static>> = CertificateDer::pem_slice_iter(certificates.as_bytes())
        .collect::<Result<_, _>>()
        .map_err(|error| error.to_string())?;
    let key = PrivateKeyDer::from_pem_slice(key.as_bytes()).map_err(|error| error.to_string())?;
    let mut config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .map_err(|error| error.to_string())?
        .with_no_client_auth()
        .with_single_cert(chain, key)
        .map_err(|error| error.to_string())?;
    config.alpn_protocols = vec![b"http/1.1".to_vec()];
    Ok(Arc::new(config))
}
