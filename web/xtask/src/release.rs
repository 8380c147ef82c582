//! `release`: one archive of all that a release consists of, the same byte for byte wherever it is made of the same
//! files: names in order, no time, no owner, fixed modes.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;

use anyhow::{Context, Result, bail};
use flate2::{Compression, GzBuilder};
use sha2::{Digest, Sha256};
use tar::{Builder, EntryType, Header};

use crate::place::{self, Workspace};
use crate::{build, wasm};

/// Beside the built app: what a receiver may want to read.
const PAPERS: [&str; 5] = [
    "CHANGELOG.md",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
];

/// What README shows.
const PICTURES: &str = "web/pictures";

/// How the worker's list of files begins. The kill switch lists none.
const LISTED: &str = "[[\"./\",";

/// The list of hashes, as `sha256sum --check` reads it.
const HASHES: &str = "SHA256SUMS";

/// What a built app must hold to be released.
const NEEDED: [&str; 5] = [
    "index.html",
    "sw.js",
    "notices.txt",
    "notebook-v1.schema.json",
    "demo-data/two-yards.json",
];

/// Files by their paths in the archive.
type Files = BTreeMap<String, Vec<u8>>;

/// `cargo xtask release`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let mut no_build = false;
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("no-build") => no_build = true,
            other => return Err(other.unexpected().into()),
        }
    }
    build::ensure(no_build)?;
    let files = gathered()?;
    let name = format!("stillwood-{}", env!("CARGO_PKG_VERSION"));
    let bytes = archive(&name, &files)?;
    let folder = Workspace::read()?.target()?.join("release-archive");
    fs::create_dir_all(&folder).with_context(|| format!("no folder {}", folder.display()))?;
    let path = folder.join(format!("{name}.tar.gz"));
    fs::write(&path, &bytes).with_context(|| format!("cannot write {}", path.display()))?;
    println!("{}  {}", hex(&bytes), path.display());
    println!("{} files, {} KB", files.len(), bytes.len().div_ceil(1024));
    Ok(())
}

/// The built app, the papers with their pictures, and the hashes of all.
fn gathered() -> Result<Files> {
    let mut files = Files::new();
    for (name, bytes) in wasm::files_below(&place::dist(), "")? {
        files.insert(format!("dist/{name}"), bytes);
    }
    for name in PAPERS {
        let bytes = fs::read(place::root().join(name));
        files.insert(
            name.to_owned(),
            bytes.with_context(|| format!("no {name}"))?,
        );
    }
    files.extend(wasm::files_below(&place::root(), PICTURES)?);
    for name in NEEDED {
        if !files.contains_key(&format!("dist/{name}")) {
            bail!("dist/ holds no {name}: it is not the whole app");
        }
    }
    if !lists_files(&files["dist/sw.js"]) {
        bail!("dist/sw.js is the kill switch: run `cargo xtask build` first, without --worker-off");
    }
    let hashes = hashes(&files);
    files.insert(HASHES.to_owned(), hashes.into_bytes());
    Ok(files)
}

/// Whether a worker keeps the app on a device.
fn lists_files(worker: &[u8]) -> bool {
    String::from_utf8_lossy(worker).contains(LISTED)
}

fn hashes(files: &Files) -> String {
    let mut list = String::new();
    for (name, bytes) in files {
        // Writing to a text can't fail.
        let _ = writeln!(list, "{}  {name}", hex(bytes));
    }
    list
}

/// The archive's bytes, which are those of the files and their names alone.
fn archive(folder: &str, files: &Files) -> Result<Vec<u8>> {
    let packed = GzBuilder::new()
        .mtime(0)
        .write(Vec::new(), Compression::best());
    let mut archive = Builder::new(packed);
    for (name, bytes) in files {
        let mut header = Header::new_ustar();
        header.set_entry_type(EntryType::Regular);
        header.set_size(bytes.len() as u64);
        header.set_mode(0o644);
        header.set_mtime(0);
        header.set_uid(0);
        header.set_gid(0);
        let path = format!("{folder}/{name}");
        archive
            .append_data(&mut header, &path, bytes.as_slice())
            .with_context(|| format!("{path} does not go into the archive"))?;
    }
    let packed = archive.into_inner().context("the archive has no end")?;
    packed.finish().context("the archive can't be packed")
}

fn hex(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::{Files, archive, hashes, lists_files, place, wasm};
    use std::fs;
    use std::io::Read;
    use std::path::Path;

    /// Writes the files in an order of its own and gathers them as a release does.
    fn gathered_again(folder: &Path, files: &[(&str, &str)], read_only: bool) -> Files {
        for (name, text) in files {
            let path = folder.join(name);
            fs::create_dir_all(path.parent().expect("a folder")).expect("the folder");
            fs::write(&path, text).expect("a file");
            let mut modes = fs::metadata(&path).expect("its modes").permissions();
            modes.set_readonly(read_only);
            fs::set_permissions(&path, modes).expect("its modes");
        }
        let found = wasm::files_below(folder, "").expect("the files");
        fs::remove_dir_all(folder).expect("the folder goes");
        found.into_iter().collect()
    }

    #[test]
    fn the_same_files_in_two_folders_make_the_same_bytes() {
        let files = [("sw.js", "worker"), ("a/b.css", "p {}"), ("a.txt", "abc")];
        let mut turned = files;
        turned.reverse();
        let folder = |name: &str| {
            std::env::temp_dir().join(format!("stillwood-{name}-{}", std::process::id()))
        };
        let one = gathered_again(&folder("one"), &files, false);
        let other = gathered_again(&folder("another-place"), &turned, true);
        let packed = archive("stillwood-1", &one).expect("an archive");
        assert_eq!(packed, archive("stillwood-1", &other).expect("an archive"));
        let mut changed = one.clone();
        changed.insert("a.txt".to_owned(), b"abd".to_vec());
        assert_ne!(
            packed,
            archive("stillwood-1", &changed).expect("an archive")
        );
    }

    #[test]
    fn the_archive_holds_the_files_in_order_without_time_or_owner() {
        let mut files = Files::new();
        files.insert("b".to_owned(), b"two".to_vec());
        files.insert("a".to_owned(), b"one".to_vec());
        let packed = archive("top", &files).expect("an archive");
        let mut archive = tar::Archive::new(flate2::read::GzDecoder::new(packed.as_slice()));
        let mut found = Vec::new();
        for entry in archive.entries().expect("its entries") {
            let mut entry = entry.expect("an entry");
            let header = entry.header();
            assert_eq!(header.mtime().expect("a time"), 0);
            assert_eq!(header.uid().expect("an owner"), 0);
            assert_eq!(header.mode().expect("modes"), 0o644);
            let path = entry.path().expect("a path").display().to_string();
            let mut text = String::new();
            entry.read_to_string(&mut text).expect("its bytes");
            found.push((path, text));
        }
        let expected = [("top/a", "one"), ("top/b", "two")];
        assert_eq!(
            found,
            expected.map(|(path, text)| (path.to_owned(), text.to_owned()))
        );
    }

    #[test]
    fn what_readme_shows_and_links_goes_into_the_archive() {
        let readme = fs::read_to_string(place::root().join("README.md")).expect("README.md");
        let pictures = wasm::files_below(&place::root(), super::PICTURES).expect("the pictures");
        let packed: Vec<&str> = pictures.iter().map(|(name, _)| name.as_str()).collect();
        for (after, _) in readme
            .split("](")
            .skip(1)
            .filter_map(|part| part.split_once(')'))
        {
            let is_address = after.starts_with("http") || after.starts_with('#');
            assert!(
                is_address || packed.contains(&after) || super::PAPERS.contains(&after),
                "{after}"
            );
        }
    }

    #[test]
    fn the_kill_switch_is_no_release() {
        let kill = fs::read(place::root().join("static/sw-off.js")).expect("the kill switch");
        assert!(!lists_files(&kill));
        assert!(lists_files(b"const FILES = [[\"./\",\"sha384-x\"]];"));
    }

    #[test]
    fn the_list_of_hashes_is_as_common_tools_read_it() {
        let files = Files::from([("a.txt".to_owned(), b"abc".to_vec())]);
        // FIPS 180-4, the digest of "abc".
        let digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(hashes(&files), format!("{digest}  a.txt\n"));
    }
}
