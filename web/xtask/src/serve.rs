//! `serve`: dist/ on this machine as a static host would give it.

use std::fs;
use std::io;
use std::net::{SocketAddr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use anyhow::{Context, Result};
use http_body_util::Full;
use hyper::body::Bytes;
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Method, Request, Response, header};
use hyper_util::rt::TokioIo;
use lexopt::ValueExt;
use sha2::{Digest, Sha256};

use crate::squeezed::PACKINGS;
use crate::{build, place};

/// What a host should send with every file; README tells them to whoever keeps one.
const HEADERS: [(&str, &str); 4] = [
    ("Content-Security-Policy", "frame-ancestors 'none'"),
    ("X-Content-Type-Options", "nosniff"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Referrer-Policy", "no-referrer"),
];

/// For a file whose name carries the digest of its bytes: they never change.
const FOR_GOOD: &str = "public, max-age=31536000, immutable";

/// For every other file: a new version is seen at the next look.
const ASKED_EACH_TIME: &str = "no-cache";

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

/// Answers for ever. Each connection is a task of its own: one that a browser opens early and leaves
/// silent holds up no other.
fn serve(listener: TcpListener, folder: PathBuf, under: &str) -> Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .context("the server did not start")?;
    let site: Arc<(PathBuf, String)> = Arc::new((folder, under.to_owned()));
    runtime.block_on(async {
        listener.set_nonblocking(true)?;
        let listener = tokio::net::TcpListener::from_std(listener)?;
        loop {
            // A browser that went away while it was knocking is no one's fault.
            let Ok((stream, _)) = listener.accept().await else {
                continue;
            };
            let site = site.clone();
            let service = service_fn(move |request| {
                let response = answer(&request, &site.0, &site.1);
                async move { response }
            });
            tokio::spawn(http1::Builder::new().serve_connection(TokioIo::new(stream), service));
        }
    })
}

type Answer = Response<Full<Bytes>>;

fn answer<B>(request: &Request<B>, folder: &Path, under: &str) -> hyper::http::Result<Answer> {
    if !matches!(*request.method(), Method::GET | Method::HEAD) {
        return plain(405, "Only GET and HEAD.\n");
    }
    let path = request.uri().path();
    if format!("{path}/") == under {
        return with_headers()
            .status(301)
            .header(header::LOCATION, under)
            .body(Full::default());
    }
    let name = match path.strip_prefix(under) {
        Some("") => "index.html",
        Some(name) => name,
        None => return plain(404, "Not here.\n"),
    };
    let Some(bytes) = file(folder, name) else {
        return plain(404, "Not here.\n");
    };
    let packing = packing(request, folder, name);
    let bytes = packing
        .as_ref()
        .map_or(bytes.as_slice(), |(_, packed)| packed);
    let tag = tag(bytes);
    let known = request.headers().get(header::IF_NONE_MATCH);
    let response = with_headers()
        .header(header::CACHE_CONTROL, lifetime(name))
        .header(header::ETAG, &tag)
        .header(header::VARY, "Accept-Encoding");
    if known.is_some_and(|known| known.as_bytes() == tag.as_bytes()) {
        return response.status(304).body(Full::default());
    }
    let response = match packing {
        Some((packing, _)) => response.header(header::CONTENT_ENCODING, packing),
        None => response,
    };
    response
        .header(header::CONTENT_TYPE, mime(name))
        .body(Full::from(bytes.to_vec()))
}

/// The packed file beside that one which the browser takes, with the packing's name in HTTP. One that is older is
/// of another version.
fn packing<B>(request: &Request<B>, folder: &Path, name: &str) -> Option<(&'static str, Vec<u8>)> {
    let accepted = request
        .headers()
        .get(header::ACCEPT_ENCODING)?
        .to_str()
        .ok()?;
    let accepts = |packing: &str| {
        accepted.split(',').any(|one| {
            let (one, weight) = one.split_once(';').unwrap_or((one, ""));
            let weight = weight.trim().trim_start_matches("q=").parse();
            one.trim().eq_ignore_ascii_case(packing) && weight.unwrap_or(1.0_f32) > 0.0
        })
    };
    PACKINGS.iter().find_map(|(ending, packing)| {
        let packed = format!("{name}{ending}");
        let bytes = accepts(packing).then(|| file(folder, &packed))??;
        let written = |name: &str| {
            fs::metadata(folder.join(name))
                .and_then(|of| of.modified())
                .ok()
        };
        (written(&packed)? >= written(name)?).then_some((*packing, bytes))
    })
}

fn with_headers() -> hyper::http::response::Builder {
    let start = Response::builder();
    HEADERS.iter().fold(start, |response, (name, value)| {
        response.header(*name, *value)
    })
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
        true => FOR_GOOD,
        false => ASKED_EACH_TIME,
    }
}

fn plain(status: u16, text: &'static str) -> hyper::http::Result<Answer> {
    with_headers()
        .status(status)
        .header(header::CONTENT_TYPE, "text/plain; charset=utf-8")
        .body(Full::from(text))
}

#[cfg(test)]
mod tests {
    use super::{ASKED_EACH_TIME, FOR_GOOD, HEADERS, answer, file, header, lifetime, mime};
    use crate::place;
    use hyper::Request;
    use std::path::Path;

    #[test]
    fn what_the_browser_has_already_is_not_sent_again() {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        let ask = |path: &str, tag: &str| {
            let request = Request::get(path)
                .header(header::IF_NONE_MATCH, tag)
                .body(());
            answer(&request.unwrap(), here, "/sub/").unwrap()
        };
        let first = ask("/sub/Cargo.toml", "none");
        assert_eq!(first.status(), 200);
        let tag = first.headers()[header::ETAG].to_str().unwrap();
        assert_eq!(ask("/sub/Cargo.toml", tag).status(), 304);
        assert_eq!(ask("/sub", tag).status(), 301);
        assert_eq!(ask("/Cargo.toml", tag).status(), 404);
        assert_eq!(ask("/sub/../Cargo.toml", tag).status(), 404);
    }

    #[test]
    fn a_browser_is_given_the_packed_file_that_it_takes() {
        let folder = std::env::temp_dir().join(format!("stillwood-serve-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        for (name, text) in [
            ("a.js", "plain"),
            ("a.js.br", "small"),
            ("a.js.gz", "zip"),
            ("b.js", "b"),
        ] {
            std::fs::write(folder.join(name), text).unwrap();
        }
        let ask = |path: &str, accepted: &str| {
            let request = Request::get(path).header(header::ACCEPT_ENCODING, accepted);
            let answer = answer(&request.body(()).unwrap(), &folder, "/").unwrap();
            let header = |name| {
                answer
                    .headers()
                    .get(name)
                    .map(|value| value.to_str().unwrap().to_owned())
            };
            assert_eq!(header(header::VARY).as_deref(), Some("Accept-Encoding"));
            assert_eq!(header(header::CONTENT_TYPE).unwrap(), mime("a.js"));
            (
                header(header::CONTENT_ENCODING),
                header(header::ETAG).unwrap(),
            )
        };
        let br = ask("/a.js", "gzip, deflate, br, zstd");
        let gz = ask("/a.js", "gzip;q=1.0, br;q=0");
        let plain = ask("/a.js", "identity");
        assert_eq!(br.0.as_deref(), Some("br"));
        assert_eq!(gz.0.as_deref(), Some("gzip"));
        assert_eq!(plain.0, None);
        assert!(br.1 != gz.1 && gz.1 != plain.1, "one tag for two forms");
        assert_eq!(ask("/b.js", "gzip, br").0, None);
        std::fs::remove_dir_all(&folder).unwrap();
    }

    #[test]
    fn every_answer_carries_the_headers_and_the_readme_names_them() {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        for path in ["/sub/Cargo.toml", "/sub", "/sub/none", "/elsewhere"] {
            let request = Request::get(path).body(()).unwrap();
            let answer = answer(&request, here, "/sub/").unwrap();
            for (name, value) in HEADERS {
                assert_eq!(answer.headers()[name], value, "{path}");
            }
        }
        let post = Request::post("/sub/share").body(()).unwrap();
        let refused = answer(&post, here, "/sub/").unwrap();
        assert_eq!(refused.status(), 405);
        assert_eq!(refused.headers()["Referrer-Policy"], "no-referrer");

        let readme = std::fs::read_to_string(place::root().join("README.md")).unwrap();
        let named = HEADERS.map(|(name, value)| format!("`{name}: {value}`"));
        let lifetimes = [FOR_GOOD, ASKED_EACH_TIME].map(|life| format!("`Cache-Control: {life}`"));
        for line in named.iter().chain(&lifetimes) {
            assert!(readme.contains(line), "README does not name {line}");
        }
    }

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
