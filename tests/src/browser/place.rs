//! Where things are: what the build tool handed over, and folders that go when they are done with.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

/// A program or folder that the build tool names in the environment.
pub fn program(variable: &str) -> PathBuf {
    let Some(path) = env::var_os(variable).map(PathBuf::from) else {
        panic!(
            "{variable} is not set: these tests are started by `cargo xtask test --only browser-tests`"
        );
    };
    assert!(
        path.exists(),
        "{variable} names {}, and there is nothing",
        path.display()
    );
    path
}

/// A folder of this test alone; it goes with the value.
#[derive(Debug)]
pub struct Folder(PathBuf);

impl Folder {
    pub fn new(what: &str) -> Self {
        static MADE: AtomicU32 = AtomicU32::new(0);
        let number = MADE.fetch_add(1, Ordering::Relaxed);
        let name = format!("stillwood-{what}-{}-{number}", std::process::id());
        Self::made(env::temp_dir().join(name))
    }

    /// A new, empty one in another folder, and gone with that.
    pub fn within(folder: &Path) -> Self {
        Self::made(folder.join("profile"))
    }

    fn made(path: PathBuf) -> Self {
        fs::create_dir_all(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
        Self(path)
    }

    pub fn path(&self) -> &Path {
        &self.0
    }

    /// Puts a file into it and returns where it is.
    pub fn put(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.0.join(name);
        fs::write(&path, bytes).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
        path
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A browser that is just going may still write; what stays behind lies in the system's
        // folder for such things.
        let _ = fs::remove_dir_all(&self.0);
    }
}
