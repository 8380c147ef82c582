//! `serve`: dist/ on this machine as a static host would give it.

use std::fs;
use std::io;
use std::net::{SocketAddr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread;

use anyhow::{Context, Result, bail};
use lexopt::ValueExt;
use sha2::{Digest, Sha256};
use tiny_http::{Header, Method, Request, Response, Server, StatusCode};

use crate::{build, place};

/// `cargo xtask serve`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let (mut port, mut no_build, mut under) = (8080, false, String::from("/"));
    let mut from = None;
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("port") => port = words.value()?.parse()?,
            lexopt::Arg::Long("under") => under = words.value()?.string()?,
            lexopt::Arg::Long("no-build") => no_build = true,
            lexopt::Arg::Long("from") => from = Some(PathBuf::from(words.value()?)),
            other => return Err(other.unexpected().into()),
        }
    }
    let under = match under.trim_matches('/') {
        "" => String::from("/"),
        path => format!("/{path}/"),
    };
    // The port first: no one wants to wait for a build to hear that it is taken.
    let listener = listen(port)?;
    let folder = match from {
        Some(folder) => folder,
        None => {
            build::ensure(no_build)?;
            place::dist()
        }
    };
    let address = listener.local_addr().context("the port is gone")?;
    println!("Serving at http://{address}{under} until this is stopped (Ctrl-C).");
    serve(listener, folder, &under)
}

/// Takes the port.
fn listen(port: u16) -> Result<TcpListener> {
    let address = SocketAddr::from(([127, 0, 0, 1], port));
    TcpListener::bind(address).map_err(|error| match error.kind() {
        io::ErrorKind::AddrInUse => anyhow::anyhow!(
            "port {port} is in use: stop what uses it, or choose another with --port"
        ),
        io::ErrorKind::PermissionDenied => {
            anyhow::anyhow!("port {port} is not allowed here: choose one above 1023 with --port")
        }
        _ => anyhow::anyhow!("port {port} cannot be opened: {error}"),
    })
}

/// Answers for ever.
fn serve(listener: TcpListener, folder: PathBuf, under: &str) -> Result<()> {
    let server = match Server::from_listener(listener, None) {
        Ok(server) => Arc::new(server),
        Err(error) => bail!("the server did not start: {error}"),
    };
    let mut threads = Vec::new();
    for _ in 0..4 {
        let (server, folder, under) = (server.clone(), folder.clone(), under.to_owned());
        threads.push(thread::spawn(move || {
            while let Ok(request) = server.recv() {
                // A browser that went away is no one's fault.
                let _ = answer(request, &folder, &under);
            }
        }));
    }
    for thread in threads {
        if thread.join().is_err() {
            bail!("a thread of the server broke");
        }
    }
    Ok(())
}

fn answer(request: Request, folder: &Path, under: &str) -> io::Result<()> {
    if !matches!(request.method(), Method::Get | Method::Head) {
        return request.respond(plain(405, "Only GET and HEAD.\n"));
    }
    let path = request.url().split(['?', '#']).next().unwrap_or_default();
    if format!("{path}/") == under {
        return request.respond(with(plain(301, ""), "Location", under));
    }
    let name = match path.strip_prefix(under) {
        Some("") => "index.html",
        Some(name) => name,
        None => return request.respond(plain(404, "Not here.\n")),
    };
    let Some(bytes) = file(folder, name) else {
        return request.respond(plain(404, "Not here.\n"));
    };
    let tag = tag(&bytes);
    let mut headers = request.headers().iter();
    let response = if headers.any(|h| h.field.equiv("If-None-Match") && h.value.as_str() == tag) {
        plain(304, "")
    } else {
        with(Response::from_data(bytes), "Content-Type", mime(name))
    };
    let response = with(response, "X-Content-Type-Options", "nosniff");
    let response = with(response, "Cache-Control", lifetime(name));
    request.respond(with(response, "ETag", &tag))
}

/// The file of that name, if it lies in the folder.
fn file(folder: &Path, name: &str) -> Option<Vec<u8>> {
    let fair =
        |part: &str| !part.is_empty() && !part.starts_with('.') && !part.contains(['\\', ':']);
    if !name.split('/').all(fair) {
        return None;
    }
    fs::read(folder.join(name)).ok()
}

fn tag(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    let hex: String = digest[..8]
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect();
    format!("\"{hex}\"")
}

fn mime(name: &str) -> &'static str {
    match name.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "woff2" => "font/woff2",
        "txt" | "md" => "text/plain; charset=utf-8",
        "csv" => "text/csv; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// A name that carries its digest (`boot.0a1b2c3d4e5f.js`) never changes its bytes; any other may.
fn lifetime(name: &str) -> &'static str {
    let digest = name.rsplit('.').nth(1).unwrap_or_default();
    let is_digest = digest.len() == 12 && digest.bytes().all(|byte| byte.is_ascii_hexdigit());
    match is_digest {
        true => "public, max-age=31536000, immutable",
        false => "no-cache",
    }
}

fn plain(status: u16, text: &str) -> Response<io::Cursor<Vec<u8>>> {
    Response::from_string(text).with_status_code(StatusCode(status))
}

/// The answer with one more header; names and values here are plain ASCII, which always parses.
fn with<R: io::Read>(response: Response<R>, name: &str, value: &str) -> Response<R> {
    match Header::from_bytes(name, value) {
        Ok(header) => response.with_header(header),
        Err(()) => response,
    }
}

#[cfg(test)]
mod tests {
    use super::{file, lifetime, mime};
    use std::path::Path;

    #[test]
    fn only_files_below_the_folder_are_given() {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        assert!(file(here, "src/main.rs").is_some());
        for name in [
            "../Cargo.toml",
            "src/../Cargo.toml",
            "/Cargo.toml",
            "src",
            "src//main.rs",
            ".hidden",
        ] {
            assert!(file(here, name).is_none(), "{name}");
        }
    }

    #[test]
    fn only_names_with_a_digest_are_kept() {
        assert!(lifetime("icons/icon.0a1b2c3d4e5f.svg").contains("immutable"));
        for name in [
            "sw.js",
            "index.html",
            "manifest.webmanifest",
            "demo-data/yard.json",
        ] {
            assert_eq!(lifetime(name), "no-cache", "{name}");
        }
    }

    #[test]
    fn a_module_is_sent_as_one() {
        assert_eq!(
            mime("stillwood-web_bg.0a1b2c3d4e5f.wasm"),
            "application/wasm"
        );
        assert_eq!(mime("sw.js"), "text/javascript; charset=utf-8");
    }
}
