//! The browser, its driver and the rules for screens, which the tests need: found, or installed where
//! that can be done.

use std::env;
use std::path::PathBuf;

use anyhow::{Context, Result, bail};

use crate::command::{find, in_root, output, run};
use crate::place::Workspace;

/// The rules by which every screen is checked; they come from the npm registry.
const AXE: &str = "axe-core@4.14.1";

/// Where the browser's driver lies. What `CHROMEDRIVER` names is taken at its word; otherwise both
/// the browser and the driver must be on the PATH, and on Debian root gets them installed.
pub(crate) fn driver() -> Result<PathBuf> {
    if let Some(path) = env::var_os("CHROMEDRIVER").map(PathBuf::from) {
        if path.is_file() {
            return Ok(path);
        }
        bail!(
            "CHROMEDRIVER names {}, and there is no such file",
            path.display()
        );
    }
    if let Some(path) = both() {
        return Ok(path);
    }
    install()?;
    match both() {
        Some(path) => Ok(path),
        None => bail!("chromium and chromedriver were installed, but are not on the PATH"),
    }
}

fn both() -> Option<PathBuf> {
    find("chromium").or_else(|| find("chromium-browser"))?;
    find("chromedriver")
}

fn install() -> Result<()> {
    if !apt_install(&["chromium", "chromium-driver"])? {
        bail!(
            "the tests need the browser Chromium and its driver. On Debian, as root:\n\n    \
             apt-get update && apt-get install -y chromium chromium-driver\n\n\
             Elsewhere install both of one version, so that `chromium` and `chromedriver` are on \
             the PATH, or let CHROMEDRIVER name the driver"
        );
    }
    Ok(())
}

/// Installs what is missing, on Debian and as root; false where that can't be done.
pub(crate) fn apt_install(packages: &[&str]) -> Result<bool> {
    let is_root = find("id").is_some() && output(in_root("id").arg("-u"))?.trim() == "0";
    if find("apt-get").is_none() || !is_root {
        return Ok(false);
    }
    println!("Missing, to be installed: {}.", packages.join(", "));
    run(in_root("apt-get").arg("update"))?;
    let mut install = in_root("apt-get");
    install.args(["install", "-y"]).args(packages);
    run(install.env("DEBIAN_FRONTEND", "noninteractive"))?;
    Ok(true)
}

/// Where axe-core lies: what `STILLWOOD_AXE` names, or what npm puts below the target folder, once.
pub(crate) fn axe() -> Result<PathBuf> {
    if let Some(path) = env::var_os("STILLWOOD_AXE").map(PathBuf::from) {
        if path.is_file() {
            return Ok(path);
        }
        bail!(
            "STILLWOOD_AXE names {}, and there is no such file",
            path.display()
        );
    }
    let folder = Workspace::read()?.target()?.join("axe");
    let script = folder.join("node_modules/axe-core/axe.min.js");
    if script.is_file() {
        return Ok(script);
    }
    if find("npm").is_none() {
        bail!(
            "the tests check every screen with {AXE}, which npm fetches. On Debian, as root:\n\n    \
             apt-get update && apt-get install -y npm\n\n\
             Elsewhere install Node.js, or let STILLWOOD_AXE name axe.min.js of that version"
        );
    }
    println!("{AXE} is missing: npm fetches it.");
    let mut npm = in_root("npm");
    npm.args(["install", "--no-save", "--ignore-scripts", "--no-audit"]);
    npm.args(["--no-fund", "--silent", "--prefix"]);
    run(npm.arg(&folder).arg(AXE)).context("axe-core could not be fetched")?;
    Ok(script)
}
