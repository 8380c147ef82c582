//! Another version of the built app, as the next release would be: other bytes in one file, and with
//! them other names, digests and version in the page and the worker.

use super::place::{Folder, program};
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha256, Sha384};
use std::fs;
use std::path::{Path, PathBuf};

/// Where a file waits that the host does not have.
const ASIDE: &str = "aside";

/// A copy of the built app that can be changed while a server gives it.
#[derive(Debug)]
pub struct Dist(Folder);

impl Dist {
    pub fn copy() -> Self {
        let folder = Folder::new("dist");
        copy_below(&program("STILLWOOD_DIST"), folder.path());
        Self(folder)
    }

    /// Another build, laid out in a folder.
    pub fn of(folder: Folder) -> Self {
        Self(folder)
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    /// Makes it the next version: a style more. Returns the version's name.
    pub fn release(&self) -> String {
        let old = self.styles();
        let mut bytes = fs::read(self.path().join(&old)).expect("the styles");
        bytes.extend_from_slice(b"\n/* the next version */\n");
        let stem = old.split('.').next().unwrap_or_default();
        let new = format!("{stem}.{}.css", &hex(&Sha256::digest(&bytes))[..12]);
        fs::write(self.path().join(&new), &bytes).expect("the new styles");
        fs::remove_file(self.path().join(&old)).expect("the old styles go");

        let version = hex(&Sha256::digest(new.as_bytes()))[..16].to_owned();
        let page = self.read("index.html");
        let page = page
            .replace(&old, &new)
            .replace(&version_of(&page), &version);
        let worker = self.read("sw.js");
        let mut worker = worker.replace(&old, &new);
        worker = worker.replace(&constant(&worker, "VERSION"), &version);
        worker = with_integrity(&worker, &new, &bytes);
        worker = with_integrity(&worker, "./", page.as_bytes());
        self.write("index.html", &page);
        // The worker last, as the build does: whoever sees it finds all that it lists.
        self.write("sw.js", &worker);
        version
    }

    /// Makes it the next version, of which one file never arrived on the host.
    pub fn release_in_part(&self) -> String {
        let version = self.release();
        let styles = self.path().join(self.styles());
        fs::rename(&styles, styles.with_extension(ASIDE)).expect("the styles go");
        version
    }

    /// Puts back what never arrived.
    pub fn mend(&self) {
        let styles = self.path().join(self.styles());
        fs::rename(styles.with_extension(ASIDE), &styles).expect("the styles come");
    }

    /// The name of the styles, which changes with their content.
    fn styles(&self) -> String {
        let page = self.read("index.html");
        let to = page.find(".css\"").expect("the page names its styles") + ".css".len();
        let from = page[..to].rfind(['"', '/']).expect("an attribute") + 1;
        page[from..to].to_owned()
    }

    fn read(&self, name: &str) -> String {
        let path = self.path().join(name);
        fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()))
    }

    fn write(&self, name: &str, text: &str) {
        let path = self.path().join(name);
        // Put in place whole: a server is giving it.
        let aside: PathBuf = self.path().join(format!("{name}.new"));
        fs::write(&aside, text).expect("a file");
        fs::rename(&aside, &path).expect("its place");
    }
}

fn version_of(page: &str) -> String {
    let mark = "name=\"build\" content=\"";
    let from = page.find(mark).expect("the page names its version") + mark.len();
    let to = page[from..].find('"').expect("its end") + from;
    page[from..to].to_owned()
}

fn constant(worker: &str, name: &str) -> String {
    let mark = format!("const {name} = \"");
    let from = worker.find(&mark).expect("the worker has it") + mark.len();
    let to = worker[from..].find('"').expect("its end") + from;
    worker[from..to].to_owned()
}

fn with_integrity(worker: &str, file: &str, bytes: &[u8]) -> String {
    let mark = format!("[\"{file}\",\"");
    let from = worker.find(&mark).expect("the worker lists it") + mark.len();
    let to = worker[from..].find('"').expect("its end") + from;
    let digest = BASE64_STANDARD.encode(Sha384::digest(bytes));
    format!("{}sha384-{digest}{}", &worker[..from], &worker[to..])
}

/// Whether it is the packed form of the file beside it, which a host would go on giving when that is changed.
pub fn is_packed(file: &Path) -> bool {
    file.extension()
        .is_some_and(|end| end == "br" || end == "gz")
}

fn copy_below(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("the built app").flatten() {
        let (source, target) = (entry.path(), to.join(entry.file_name()));
        if source.is_dir() {
            copy_below(&source, &target);
        } else if !is_packed(&source) {
            fs::copy(&source, &target).expect("a copy");
        }
    }
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
