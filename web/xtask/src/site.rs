//! The files of the published app: names that carry the digest of their own bytes, and templates
//! in which `{{name}}` stands for the published name of a file.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha256, Sha384};

use crate::squeezed::Squeezed;

/// The page, which the service worker knows as `./`.
pub(crate) const PAGE: &str = "index.html";
/// The service worker, whose name never changes: browsers look for updates under it.
pub(crate) const WORKER: &str = "sw.js";

/// The files of the published app.
#[derive(Default)]
pub(crate) struct Site {
    files: BTreeMap<String, Vec<u8>>,
    names: BTreeMap<String, String>,
    on_the_host_only: BTreeSet<String>,
    version: String,
}

impl Site {
    /// Adds a file under a name that carries the digest of its bytes, so that it can be kept for
    /// ever: call it when nothing more will change in them. Returns that name.
    pub(crate) fn add_hashed(&mut self, name: &str, bytes: Vec<u8>) -> Result<String> {
        let digest = hex(&Sha256::digest(&bytes));
        let (folder, file) = match name.rsplit_once('/') {
            Some((folder, file)) => (format!("{folder}/"), file),
            None => (String::new(), name),
        };
        let (stem, ending) = file.rsplit_once('.').unwrap_or((file, "bin"));
        let published = format!("{folder}{stem}.{}.{ending}", &digest[..12]);
        self.add(name, published, bytes)
    }

    /// Adds a file under its own name.
    pub(crate) fn add_plain(&mut self, name: &str, bytes: Vec<u8>) -> Result<String> {
        self.add(name, name.to_owned(), bytes)
    }

    /// Adds a file that stays on the host: no device keeps it for when there is no network.
    pub(crate) fn add_on_the_host(&mut self, name: &str, bytes: Vec<u8>) -> Result<String> {
        self.on_the_host_only.insert(name.to_owned());
        self.add_plain(name, bytes)
    }

    /// Adds a file under a name that carries its digest; it stays on the host as well.
    pub(crate) fn add_hashed_on_the_host(&mut self, name: &str, bytes: Vec<u8>) -> Result<String> {
        let published = self.add_hashed(name, bytes)?;
        self.on_the_host_only.insert(published.clone());
        Ok(published)
    }

    fn add(&mut self, name: &str, published: String, bytes: Vec<u8>) -> Result<String> {
        let plain = |c: char| c.is_ascii_alphanumeric() || "-_./".contains(c);
        if !published.chars().all(plain) {
            bail!(
                "the file name \"{published}\" would need escaping in a URL: use letters, digits, - _ ."
            );
        }
        if self.files.insert(published.clone(), bytes).is_some() {
            bail!("two files would be published as {published}");
        }
        self.names.insert(name.to_owned(), published.clone());
        Ok(published)
    }

    /// Puts published names into a template: `{{styles.css}}` becomes `./styles.0a1b2c3d4e5f.css`,
    /// and `{{integrity:styles.css}}` the digest of its bytes, `sha256-...`.
    pub(crate) fn fill(&self, template: &str, text: &str) -> Result<String> {
        let mut filled = String::with_capacity(text.len());
        let mut rest = text;
        while let Some((before, after)) = rest.split_once("{{") {
            let (name, after) = after
                .split_once("}}")
                .with_context(|| format!("{template}: a {{{{ without its }}}}"))?;
            filled.push_str(before);
            let of_digest = name.strip_prefix("integrity:");
            let bytes = of_digest
                .and_then(|name| self.names.get(name))
                .and_then(|published| self.files.get(published));
            if name == "version" && !self.version.is_empty() {
                filled.push_str(&self.version);
            } else if let Some(bytes) = bytes {
                filled.push_str("sha256-");
                filled.push_str(&BASE64_STANDARD.encode(Sha256::digest(bytes)));
            } else if let Some(published) = self.names.get(name) {
                filled.push_str("./");
                filled.push_str(published);
            } else {
                bail!("{template} asks for {{{{{name}}}}}, and no such file was added before it");
            }
            rest = after;
        }
        filled.push_str(rest);
        Ok(filled)
    }

    /// Closes the list: adds the page and the service worker. The version is a digest of
    /// everything, so that any change makes another one.
    pub(crate) fn finish(&mut self, page: &str, worker: &str) -> Result<String> {
        let mut digest = Sha256::new();
        let templates = [(PAGE, page.as_bytes()), (WORKER, worker.as_bytes())];
        let files = self
            .files
            .iter()
            .map(|(name, bytes)| (name.as_str(), bytes.as_slice()));
        for (name, bytes) in files.chain(templates) {
            digest.update(format!("{name} {}\n", bytes.len()));
            digest.update(bytes);
        }
        self.version = hex(&digest.finalize())[..16].to_owned();

        let page = self.fill(PAGE, page)?;
        self.add_plain(PAGE, page.into_bytes())?;
        let list = self.list()?;
        let host_only: Vec<&String> = self.on_the_host_only.iter().collect();
        let host_only = serde_json::to_string(&host_only).context("the files of the host")?;
        let worker = worker
            .replace("\"{{files}}\"", &list)
            .replace("\"{{on-the-host-only}}\"", &host_only);
        let worker = self.fill(WORKER, &worker)?;
        self.add_plain(WORKER, worker.into_bytes())?;
        Ok(self.version.clone())
    }

    /// The list for the service worker: each file's path and its integrity as browsers check it.
    fn list(&self) -> Result<String> {
        let rows: Vec<[String; 2]> = self
            .files_kept()
            .map(|(name, bytes)| {
                let path = if name == PAGE { "./" } else { name };
                let digest = BASE64_STANDARD.encode(Sha384::digest(bytes));
                [path.to_owned(), format!("sha384-{digest}")]
            })
            .collect();
        serde_json::to_string(&rows).context("the list of files")
    }

    /// The published files that a device keeps, by name.
    pub(crate) fn files_kept(&self) -> impl Iterator<Item = (&String, &Vec<u8>)> {
        let kept = |(name, _): &(&String, &Vec<u8>)| !self.on_the_host_only.contains(*name);
        self.files.iter().filter(kept)
    }

    /// All files, by name.
    pub(crate) fn files(&self) -> impl Iterator<Item = (&String, &Vec<u8>)> {
        self.files.iter()
    }

    /// Writes the files and their compressed forms, the page and the worker last, then removes what is no longer
    /// among them: a server that is running never gives a page whose files are not there.
    pub(crate) fn write(&self, folder: &Path, squeezed: &Squeezed) -> Result<()> {
        let of_the_page = |name: &str| {
            let name = name
                .strip_suffix(".br")
                .or(name.strip_suffix(".gz"))
                .unwrap_or(name);
            matches!(name, PAGE | WORKER)
        };
        let all = || self.files.iter().chain(squeezed.files());
        let first = all().filter(|(name, _)| !of_the_page(name));
        let last = all().filter(|(name, _)| of_the_page(name));
        for (name, bytes) in first.chain(last) {
            let path = folder.join(name);
            let parent = path.parent().unwrap_or(folder);
            fs::create_dir_all(parent)
                .with_context(|| format!("cannot make the folder {}", parent.display()))?;
            fs::write(&path, bytes).with_context(|| format!("cannot write {}", path.display()))?;
        }
        for (name, _) in crate::wasm::files_below(folder, "")? {
            if !self.files.contains_key(&name) && !squeezed.holds(&name) {
                let path = folder.join(name);
                fs::remove_file(&path)
                    .with_context(|| format!("cannot remove {}", path.display()))?;
            }
        }
        Ok(())
    }
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::Site;

    fn site(style: &str) -> (Site, String) {
        let mut site = Site::default();
        site.add_hashed("styles.css", style.as_bytes().to_vec())
            .expect("a plain name");
        let version = site
            .finish(
                "<link href=\"{{styles.css}}\"> {{version}}",
                "const FILES = \"{{files}}\"; \"{{version}}\"",
            )
            .expect("both templates ask for what is there");
        (site, version)
    }

    fn text(site: &Site, name: &str) -> String {
        String::from_utf8(site.files[name].clone()).expect("text")
    }

    #[test]
    fn the_page_names_the_file_by_its_digest() {
        let (site, version) = site("p {}");
        let (name, _) = site
            .files
            .iter()
            .find(|(name, _)| name.ends_with(".css"))
            .expect("it");
        assert_eq!(
            text(&site, "index.html"),
            format!("<link href=\"./{name}\"> {version}")
        );
        assert!(text(&site, "sw.js").starts_with("const FILES = [[\"./\",\"sha384-"));
    }

    #[test]
    fn any_change_makes_another_version_and_the_same_bytes_the_same() {
        assert_eq!(site("p {}").1, site("p {}").1);
        assert_ne!(site("p {}").1, site("q {}").1);
    }

    #[test]
    fn what_stays_on_the_host_is_in_no_list_of_the_worker() {
        let mut site = Site::default();
        site.add_on_the_host("notices.txt", b"notices".to_vec())
            .expect("a plain name");
        site.finish("page", "const FILES = \"{{files}}\";")
            .expect("nothing is asked for");
        assert!(site.files.contains_key("notices.txt"));
        let worker = text(&site, "sw.js");
        assert!(!worker.contains("notices.txt"), "{worker}");
        assert!(worker.contains("./"), "{worker}");
    }

    #[test]
    fn the_worker_is_told_what_stays_on_the_host() {
        let mut site = Site::default();
        site.add_on_the_host("notices.txt", b"notices".to_vec())
            .expect("a plain name");
        site.add_hashed_on_the_host("icons/a.png", b"a".to_vec())
            .expect("a plain name");
        let told =
            "const FILES = \"{{files}}\"; const HOST = \"{{on-the-host-only}}\"; {{icons/a.png}}";
        site.finish("page", told).expect("all is there");
        let worker = text(&site, "sw.js");
        let icon = "icons/a.ca978112ca1b.png";
        assert!(
            worker.contains(&format!("HOST = [\"{icon}\",\"notices.txt\"]; ./{icon}")),
            "{worker}"
        );
    }

    #[test]
    fn a_template_is_told_a_files_digest() {
        let mut site = Site::default();
        site.add_hashed("a.txt", b"abc".to_vec())
            .expect("a plain name");
        let filled = site.fill("page", "is {{integrity:a.txt}}.");
        // FIPS 180-4, the digest of "abc", as base64.
        assert_eq!(
            filled.expect("it is there"),
            "is sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=."
        );
        assert!(site.fill("page", "{{integrity:b.txt}}").is_err());
    }

    #[test]
    fn a_template_that_asks_for_a_missing_file_is_refused() {
        let error = Site::default()
            .fill("page", "{{nothing.js}}")
            .expect_err("it is missing");
        assert!(error.to_string().contains("{{nothing.js}}"), "{error}");
    }
}
