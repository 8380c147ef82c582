//! The app compiled to WebAssembly with its JavaScript glue. Nothing is installed globally but the
//! compiler's wasm32 target, and that only where it is missing.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

use crate::command;
use crate::place::{self, Workspace};

/// What the browser runs.
pub(crate) const TARGET: &str = "wasm32-unknown-unknown";
pub(crate) const APP: &str = "stillwood-web";

/// The files that make up the compiled app, with the names by which the pages ask for them.
pub(crate) struct App {
    /// `stillwood-web_bg.wasm`
    pub(crate) module: Vec<u8>,
    /// `stillwood-web.js`
    pub(crate) glue: String,
    /// Pieces of JavaScript that crates bring along; the glue imports them by `./snippets/...`.
    pub(crate) snippets: Vec<(String, Vec<u8>)>,
}

/// Makes sure that the compiler in use can build for the browser.
pub(crate) fn ensure_target() -> Result<()> {
    if target_is_there()? {
        return Ok(());
    }
    println!("The compiler's {TARGET} target is missing: adding it.");
    let advice = format!(
        "the compiler in use cannot build for {TARGET}. Run\n\n    rustup target add {TARGET}\n\n\
         in the top folder of the repository (where Rust did not come from rustup, install the \
         {TARGET} standard library in the way its packager gives), then try again"
    );
    let mut rustup = command::in_root("rustup");
    rustup.args(["target", "add", TARGET]);
    if let Err(error) = command::run(&mut rustup) {
        bail!("{error:#}: {advice}");
    }
    if !target_is_there()? {
        bail!("it was added, and still {advice}");
    }
    Ok(())
}

fn target_is_there() -> Result<bool> {
    let mut rustc = command::in_root("rustc");
    rustc.args(["--print", "target-libdir", "--target", TARGET]);
    let folder = PathBuf::from(command::output(&mut rustc)?.trim());
    // The folder alone may be an empty leftover: the standard library must be in it.
    let Ok(entries) = fs::read_dir(folder) else {
        return Ok(false);
    };
    Ok(entries
        .filter_map(Result::ok)
        .any(|entry| entry.file_name().to_string_lossy().starts_with("libstd-")))
}

/// Compiles the app for release and writes its glue. With names, the module tells profilers what its functions are
/// called.
pub(crate) fn compile(workspace: &Workspace, names: bool) -> Result<App> {
    let target = workspace.target()?;
    let mut cargo = command::cargo();
    cargo.args(["build", "--release", "--package", APP, "--target", TARGET]);
    cargo.env("CARGO_ENCODED_RUSTFLAGS", flags(&target));
    command::run(&mut cargo)?;

    let input = target
        .join(TARGET)
        .join("release")
        .join(format!("{APP}.wasm"));
    let output = target.join("xtask-glue");
    if output.exists() {
        fs::remove_dir_all(&output).with_context(|| cannot("clear", &output))?;
    }
    Bindgen::new()
        .input_path(&input)
        .out_name(APP)
        .web(true)?
        .typescript(false)
        .demangle(names)
        .remove_name_section(!names)
        .remove_producers_section(true)
        .omit_default_module_path(true)
        .generate(&output)
        .context("wasm-bindgen could not write the glue")?;

    let read = |name: String| {
        let path = output.join(name);
        fs::read(&path).with_context(|| cannot("read", &path))
    };
    let module = read(format!("{APP}_bg.wasm"))?;
    let glue = String::from_utf8(read(format!("{APP}.js"))?).context("the glue is not text")?;
    let snippets = files_below(&output, "snippets")?;
    Ok(App {
        module,
        glue,
        snippets,
    })
}

/// Panic messages name source files: the published module must not tell where they lay on the
/// machine that built it, and must not differ between machines for that.
fn flags(target: &Path) -> String {
    let mut flags = Vec::new();
    let mut hide = |folder: &Path, name: &str| {
        flags.push(format!("--remap-path-prefix={}={name}", folder.display()));
    };
    let home = std::env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::home_dir().map(|home| home.join(".cargo")));
    if let Some(home) = home {
        hide(&home, "cargo");
    }
    hide(target, "target");
    hide(&place::root(), "stillwood");
    flags.join("\u{1f}")
}

/// Every file below a folder, by its path from `top`, in order.
pub(crate) fn files_below(top: &Path, folder: &str) -> Result<Vec<(String, Vec<u8>)>> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_owned()];
    while let Some(folder) = open.pop() {
        let path = top.join(&folder);
        if !path.is_dir() {
            continue;
        }
        for entry in fs::read_dir(&path).with_context(|| cannot("read", &path))? {
            let entry = entry.with_context(|| cannot("read", &path))?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if name.starts_with('.') {
                continue;
            }
            let name = if folder.is_empty() {
                name
            } else {
                format!("{folder}/{name}")
            };
            if entry.path().is_dir() {
                open.push(name);
            } else {
                let bytes =
                    fs::read(entry.path()).with_context(|| cannot("read", &entry.path()))?;
                found.push((name, bytes));
            }
        }
    }
    found.sort();
    Ok(found)
}

fn cannot(what: &str, path: &Path) -> String {
    format!("cannot {what} {}", path.display())
}
