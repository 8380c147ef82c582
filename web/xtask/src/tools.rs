//! The browsers, their drivers and the rules for screens, which the tests need: found, or installed where
//! that can be done.

use std::env;
use std::path::PathBuf;

use anyhow::{Context, Result, bail};

use crate::command::{cargo, find, in_root, output, run};
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

/// The other two engines that the app is shown to work in, each with what drives it.
pub(crate) struct Engines {
    /// Firefox's driver; it finds the browser itself.
    pub(crate) geckodriver: PathBuf,
    pub(crate) webkit_driver: PathBuf,
    /// WebKitGTK's small browser.
    pub(crate) webkit_browser: PathBuf,
}

/// The version of geckodriver that is installed where there is none.
const GECKODRIVER: &str = "geckodriver@0.37.1";

/// What Debian calls the two engines, and the display that nobody looks at.
const ENGINES: [&str; 4] = ["firefox-esr", "webkit2gtk-driver", "xvfb", "xauth"];

/// Finds Firefox and WebKitGTK with their drivers, or installs them.
pub(crate) fn engines() -> Result<Engines> {
    if webkit().is_none() && !apt_install(&ENGINES)? {
        bail!(
            "the tests need Firefox and WebKitGTK beside Chromium. On Debian, as root:\n\n    \
             apt-get update && apt-get install -y {}\n\n\
             Elsewhere install Firefox, WebKitWebDriver, MiniBrowser of WebKitGTK, and xvfb-run",
            ENGINES.join(" ")
        );
    }
    let Some((webkit_driver, webkit_browser)) = webkit() else {
        bail!("firefox, WebKitWebDriver, MiniBrowser or xvfb-run is still not to be found");
    };
    Ok(Engines {
        geckodriver: geckodriver()?,
        webkit_driver,
        webkit_browser,
    })
}

/// WebKitGTK's driver and browser, where these, Firefox and a display are all there.
fn webkit() -> Option<(PathBuf, PathBuf)> {
    find("firefox-esr").or_else(|| find("firefox"))?;
    find("xvfb-run")?;
    Some((find("WebKitWebDriver")?, minibrowser()?))
}

/// The browser lies beside WebKitGTK's own libraries, not on the PATH.
fn minibrowser() -> Option<PathBuf> {
    if let Some(named) = find("MiniBrowser") {
        return Some(named);
    }
    let mut folders = vec![PathBuf::from("/usr/libexec"), PathBuf::from("/usr/lib")];
    let below = std::fs::read_dir("/usr/lib").ok()?;
    folders.extend(below.flatten().map(|entry| entry.path()));
    folders
        .iter()
        .flat_map(|folder| {
            ["webkit2gtk-4.1", "webkit2gtk-4.0", "webkitgtk-6.0"].map(|name| folder.join(name))
        })
        .map(|folder| folder.join("MiniBrowser"))
        .find(|path| path.is_file())
}

/// What `GECKODRIVER` names, what is on the PATH, or what cargo builds below the target folder, once.
fn geckodriver() -> Result<PathBuf> {
    if let Some(path) = env::var_os("GECKODRIVER").map(PathBuf::from) {
        if path.is_file() {
            return Ok(path);
        }
        bail!(
            "GECKODRIVER names {}, and there is no such file",
            path.display()
        );
    }
    if let Some(path) = find("geckodriver") {
        return Ok(path);
    }
    let folder = Workspace::read()?.target()?.join("geckodriver");
    let program = format!("geckodriver{}", env::consts::EXE_SUFFIX);
    let path = folder.join("bin").join(program);
    if path.is_file() {
        return Ok(path);
    }
    println!("{GECKODRIVER} is missing: cargo builds it, which takes a minute or two.");
    let mut install = cargo();
    install.args(["install", "--locked", "--root"]);
    install.arg(&folder).arg(GECKODRIVER);
    // What it is built from is kept apart from what this repository builds.
    install.env("CARGO_TARGET_DIR", folder.join("build"));
    run(&mut install).context("geckodriver could not be built")?;
    Ok(path)
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
    if find("npm").is_none() && !apt_install(&["npm"])? {
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
