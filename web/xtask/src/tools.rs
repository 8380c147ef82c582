//! The browser and its driver, which the tests need: found, or installed where that can be done.

use std::env;
use std::path::PathBuf;

use anyhow::{Result, bail};

use crate::command::{find, in_root, output, run};

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
    let is_root = find("id").is_some() && output(in_root("id").arg("-u"))?.trim() == "0";
    if find("apt-get").is_none() || !is_root {
        bail!(
            "the tests need the browser Chromium and its driver. On Debian, as root:\n\n    \
             apt-get update && apt-get install -y chromium chromium-driver\n\n\
             Elsewhere install both of one version, so that `chromium` and `chromedriver` are on \
             the PATH, or let CHROMEDRIVER name the driver"
        );
    }
    println!("Chromium or its driver is missing: installing them.");
    run(in_root("apt-get").arg("update"))?;
    let mut install = in_root("apt-get");
    install.args(["install", "-y", "chromium", "chromium-driver"]);
    run(install.env("DEBIAN_FRONTEND", "noninteractive"))
}
