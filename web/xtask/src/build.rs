//! `build`: the app, laid out in dist/ for any static HTTPS host or sub-path.

use std::fs;

use anyhow::{Context, Result, bail};
use stillwood_core::record::{Header, Selection, write};

use crate::place::{self, Workspace};
use crate::site::{PAGE, Site, WORKER};
use crate::squeezed::Squeezed;
use crate::{licences, shorter, size, wasm};

const BOOT: &str = "boot.js";
const BACKGROUND: &str = "background-worker.js";
const WORKER_OFF: &str = "sw-off.js";
const MANIFEST: &str = "manifest.webmanifest";
/// The page that saves the record where the app does not start, and its script.
const RESCUE: &str = "rescue.html";
const RESCUE_SCRIPT: &str = "rescue.js";

/// What a system takes when the app is installed, which needs the host anyway: no device keeps them.
const ICONS_TO_INSTALL_WITH: [&str; 3] = [
    "icons/apple-touch-180.png",
    "icons/icon-512.png",
    "icons/maskable-512.png",
];

/// What may be asked of a build.
#[derive(Clone, Copy, Default)]
pub(crate) struct Options {
    /// Fails when over budget.
    pub(crate) check_size: bool,
    /// The kill switch in the place of the service worker.
    pub(crate) worker_off: bool,
    names: bool,
}

/// `cargo xtask build`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let mut options = Options::default();
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("check-size") => options.check_size = true,
            lexopt::Arg::Long("worker-off") => options.worker_off = true,
            lexopt::Arg::Long("names") => options.names = true,
            other => return Err(other.unexpected().into()),
        }
    }
    build(options)
}

/// Builds the app into dist/ and prints what a first visit loads.
pub(crate) fn build(options: Options) -> Result<()> {
    wasm::ensure_target()?;
    let app = wasm::compile(&Workspace::read()?, options.names)?;
    let (site, version) = lay_out(app, options)?;
    let dist = place::dist();
    let squeezed = Squeezed::of(&site)?;
    site.write(&dist, &squeezed)?;
    let fits = size::report(&site, &squeezed);
    println!("version {version} is in {}", dist.display());
    if options.worker_off {
        println!(
            "WARNING: this one carries the kill switch: it takes the app off its makers' devices"
        );
    }
    if options.check_size && !fits {
        bail!("over the size budget");
    }
    Ok(())
}

/// Leaves first, then the files that name them: each file's digest is of its last bytes.
fn lay_out(app: wasm::App, options: Options) -> Result<(Site, String)> {
    let mut site = Site::default();
    let mut texts = Vec::new();
    for (name, bytes) in wasm::files_below(&place::root().join("static"), "")? {
        let is_template = matches!(
            name.as_str(),
            PAGE | WORKER | WORKER_OFF | BOOT | BACKGROUND | MANIFEST | RESCUE | RESCUE_SCRIPT
        );
        if is_template || name.ends_with(".css") || name.ends_with(".js") {
            let text = String::from_utf8(bytes).with_context(|| format!("{name} is not text"))?;
            let text = match name.rsplit('.').next() {
                Some("js") => shorter::script(&text),
                Some("css") => shorter::style(&text),
                _ => text,
            };
            if is_template || name.ends_with(".css") {
                texts.push((name, text));
            } else {
                site.add_hashed(&name, text.into_bytes())?;
            }
        } else if ICONS_TO_INSTALL_WITH.contains(&name.as_str()) {
            site.add_hashed_on_the_host(&name, bytes)?;
        } else if name.starts_with("licences/") {
            // On the host only, for who asks is at a desk.
            site.add_on_the_host(&name, bytes)?;
        } else {
            site.add_hashed(&name, bytes)?;
        }
    }
    for (name, bytes) in wasm::files_below(&place::root(), "demo-data")? {
        // The app asks for these by name; the list in the worker ties them to their version.
        // The records alone: what they are made from is no part of the app.
        if name.ends_with(".json") {
            site.add_plain(&name, bytes)?;
        }
    }

    // The schema of the file, published with the app; on the host only, for who asks is at a desk.
    let schema = serde_json::to_vec(&stillwood_core::record::schema())?;
    site.add_on_the_host("notebook-v1.schema.json", schema)?;

    // Of all crates in the app; on the host only, for who asks is at a desk.
    site.add_on_the_host("notices.txt", licences::notices()?)?;

    let mut glue = app.glue;
    for (name, bytes) in app.snippets {
        let published = site.add_hashed(&name, bytes)?;
        glue = glue.replace(&format!("'./{name}'"), &format!("'./{published}'"));
        glue = glue.replace(&format!("\"./{name}\""), &format!("\"./{published}\""));
    }
    site.add_hashed("stillwood-web_bg.wasm", app.module)?;
    site.add_hashed("stillwood-web.js", shorter::script(&glue).into_bytes())?;

    for (name, text) in &texts {
        if name.ends_with(".css") || name == BOOT || name == BACKGROUND {
            let filled = site.fill(name, text)?;
            site.add_hashed(name, filled.into_bytes())?;
        } else if name == RESCUE_SCRIPT {
            let filled = text.replace("\"{{empty-file}}\"", empty_file().trim_end());
            site.add_hashed(name, site.fill(name, &filled)?.into_bytes())?;
        }
    }
    for (name, text) in &texts {
        // Browsers know an installed app by its manifest's address, and makers that page by its own.
        if name == MANIFEST || name == RESCUE {
            let filled = site.fill(name, text)?;
            site.add_plain(name, filled.into_bytes())?;
        }
    }
    let template = |wanted: &str| {
        let found = texts.iter().find(|(name, _)| name == wanted);
        found
            .map(|(_, text)| text.as_str())
            .with_context(|| format!("static/{wanted} is missing"))
    };
    let worker = template(if options.worker_off {
        WORKER_OFF
    } else {
        WORKER
    })?;
    let version = site.finish(template(PAGE)?, worker)?;
    Ok((site, version))
}

/// A file of no entries as the app writes it, for the page that writes files without the app.
fn empty_file() -> String {
    write(&Header::new("rescue page", "", Selection::Whole), [])
}

/// Builds unless told not to; then dist/ must be there.
pub(crate) fn ensure(no_build: bool) -> Result<()> {
    if !no_build {
        return build(Options::default());
    }
    let page = place::dist().join(PAGE);
    if fs::metadata(&page).is_err() {
        bail!(
            "there is no {}: run `cargo xtask build` first",
            page.display()
        );
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::{empty_file, place};

    #[test]
    fn a_file_of_no_entries_can_stand_in_a_script() {
        let file: serde_json::Value = serde_json::from_str(&empty_file()).expect("JSON");
        assert_eq!(file["header"]["count"], 0);
        assert_eq!(file["entries"], serde_json::json!([]));
        let script = std::fs::read_to_string(place::root().join("static/rescue.js"));
        assert!(script.expect("it is there").contains("\"{{empty-file}}\""));
    }

    #[test]
    fn underlines_are_written_as_every_browser_reads_them() {
        let read = |name: &str| std::fs::read_to_string(place::root().join(name));
        let styles = read("static/app.css").expect("the styles");
        for shorthand in styles.split("text-decoration:").skip(1) {
            let value = shorthand.split([';', '}']).next().unwrap_or_default();
            assert_eq!(value.split_whitespace().count(), 1, "{value}");
        }
    }
}
