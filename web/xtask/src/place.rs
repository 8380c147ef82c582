//! Where things lie: the repository, what cargo builds, what the build lays out.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use serde_json::Value;

use crate::command;

/// The top of the repository that this tool was compiled from.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here).to_path_buf()
}

/// What the build lays out for the host.
pub(crate) fn dist() -> PathBuf {
    root().join("dist")
}

/// What cargo knows of the workspace.
pub(crate) struct Workspace(Value);

impl Workspace {
    /// Asks cargo.
    pub(crate) fn read() -> Result<Self> {
        let mut cargo = command::cargo();
        cargo.args(["metadata", "--no-deps", "--format-version", "1"]);
        let text = command::output(&mut cargo)?;
        let value = serde_json::from_str(&text).context("cargo metadata is not JSON")?;
        Ok(Self(value))
    }

    /// The folder that cargo builds into.
    pub(crate) fn target(&self) -> Result<PathBuf> {
        self.0["target_directory"]
            .as_str()
            .map(PathBuf::from)
            .context("cargo metadata names no target directory")
    }

    /// The names of a package's targets of one kind: `test`, `bench`, `bin`.
    pub(crate) fn targets(&self, package: &str, kind: &str) -> Vec<String> {
        let targets = self
            .package(package)
            .and_then(|found| found["targets"].as_array());
        targets
            .into_iter()
            .flatten()
            .filter(|target| {
                let kinds = target["kind"].as_array();
                kinds.is_some_and(|kinds| kinds.iter().any(|found| found == kind))
            })
            .filter_map(|target| target["name"].as_str().map(str::to_owned))
            .collect()
    }

    fn package(&self, name: &str) -> Option<&Value> {
        let packages = self.0["packages"].as_array()?;
        packages.iter().find(|package| package["name"] == name)
    }
}
