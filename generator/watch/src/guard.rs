//! Who may ask, and what every answer says.
//!
//! A page of another site, open in the same browser, can name a host of its own that leads to 127.0.0.1 (rebinding), and
//! would then read from here as from itself. It cannot choose the `Host` that its browser sends: only a name of this
//! machine is answered. Pages and scripts of other sites may not take in anything from here either.

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::header::{ALLOW, CACHE_CONTROL, HOST, HeaderName, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::shared::Shared;

const EVERY_ANSWER: [(HeaderName, &str); 4] = [
    (CACHE_CONTROL, "no-store"),
    (REFERRER_POLICY, "no-referrer"),
    (X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// Answers what may be asked.
pub(crate) async fn guard(State(shared): State<Arc<Shared>>, request: Request, next: Next) -> Response {
    let mut answer = if !is_own_host(request.headers()) {
        (StatusCode::FORBIDDEN, shared.words().get("watch.foreign").to_owned()).into_response()
    } else if !matches!(*request.method(), Method::GET | Method::HEAD) {
        (StatusCode::METHOD_NOT_ALLOWED, [(ALLOW, "GET, HEAD")]).into_response()
    } else {
        next.run(request).await
    };
    for (name, value) in EVERY_ANSWER {
        answer.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    answer
}

/// Whether a request is to this machine by one of its own names, at any port: it may come through another one.
fn is_own_host(headers: &HeaderMap) -> bool {
    let mut hosts = headers.get_all(HOST).iter();
    let (Some(host), None) = (hosts.next().and_then(|host| host.to_str().ok()), hosts.next()) else { return false };
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) => name,
        _ => host,
    };
    ["127.0.0.1", "localhost", "[::1]"].contains(&name.to_ascii_lowercase().as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_names_of_this_machine_are_hosts() {
        let own = |host: &'static str| is_own_host(&HeaderMap::from_iter([(HOST, HeaderValue::from_static(host))]));
        for host in ["127.0.0.1", "127.0.0.1:7328", "localhost:1", "LOCALHOST", "[::1]:7328", "[::1]"] {
            assert!(own(host), "{host}");
        }
        for host in ["", "valves.example", "localhost.example:80", "127.0.0.1.example", "127.0.0.1:x", "192.168.1.4"] {
            assert!(!own(host), "{host}");
        }
        assert!(!is_own_host(&HeaderMap::new()));
        let mut two = HeaderMap::from_iter([(HOST, HeaderValue::from_static("localhost"))]);
        two.append(HOST, HeaderValue::from_static("valves.example"));
        assert!(!is_own_host(&two));
    }
}
