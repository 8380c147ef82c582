//! `gallery`: every screen in its main states as pictures, on one page, and the pictures in README.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};
use lexopt::ValueExt;

use crate::command::{cargo, run};
use crate::place::{self, Workspace};
use crate::{palette, tools};

/// README's pictures: a file, and the picture of the gallery that it is.
const IN_README: [(&str, &str); 7] = [
    ("today.png", "today-sample.phone.paper.png"),
    ("sort.png", "yard-sort.phone.paper.png"),
    ("measure.png", "yard-measure-slope.phone.paper.png"),
    ("verdict.png", "yard-verdict.phone.paper.png"),
    ("racks.png", "racks-place.phone.paper.png"),
    ("match.png", "blanks-match.phone.paper.png"),
    ("laptop.png", "yard-planks.laptop.paper.png"),
];

/// How the pictures of one state stand in a row: device and scheme.
const COLUMNS: [(&str, &str); 6] = [
    ("phone", "paper"),
    ("phone", "shed"),
    ("phone", "sun"),
    ("laptop", "paper"),
    ("laptop", "shed"),
    ("laptop", "sun"),
];

/// `cargo xtask gallery`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let mut parts = Vec::new();
    let mut readme_alone = false;
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("of") => parts.push(words.value()?.string()?),
            lexopt::Arg::Long("readme") => readme_alone = true,
            other => return Err(other.unexpected().into()),
        }
    }
    if readme_alone {
        let page = |(_, picture): &(_, &str)| picture.trim_end_matches(".paper.png").to_owned();
        parts.extend(IN_README.iter().map(page));
    }
    let folder = Workspace::read()?.target()?.join("gallery");
    if parts.is_empty() && folder.exists() {
        // A state that is no more would stay behind.
        fs::remove_dir_all(&folder).with_context(|| format!("{} stays", folder.display()))?;
    }
    let mut pages = cargo();
    pages.args(["run", "--package", "stillwood-app", "--example", "gallery"]);
    run(pages.arg("--").arg(&folder))?;

    let mut pictures = cargo();
    pictures.args(["run", "--package", "stillwood-tests"]);
    pictures.args(["--features", "browser", "--bin", "pictures", "--"]);
    pictures.env("CHROMEDRIVER", tools::driver()?);
    run(pictures.arg(&folder).args(&parts))?;

    let index = folder.join("index.html");
    fs::write(&index, page_of(&states(&folder)?)).context("the page of pictures")?;
    println!("all of them are shown by {}", index.display());
    if parts.is_empty() || readme_alone {
        renew(&folder, &place::root().join("web/pictures"))?;
    }
    Ok(())
}

/// The names of the states, each once.
fn states(folder: &Path) -> Result<BTreeSet<String>> {
    let mut names = BTreeSet::new();
    for entry in fs::read_dir(folder)? {
        let name = entry?.file_name().to_string_lossy().into_owned();
        names.extend(name.strip_suffix(".phone.html").map(str::to_owned));
    }
    if names.is_empty() {
        bail!("no page was written into {}", folder.display());
    }
    Ok(names)
}

fn page_of(states: &BTreeSet<String>) -> String {
    let mut page = String::from(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Every screen</title>\
         <style>body{font:16px sans-serif}section{display:flex;gap:8px;align-items:start}\
         img{border:1px solid #999}.phone{height:340px}.laptop{height:340px}</style><h1>Every screen</h1>\n",
    );
    for state in states {
        // Writing to a text can't fail.
        let _ = write!(page, "<h2 id=\"{state}\">{state}</h2><section>");
        for (device, scheme) in COLUMNS {
            let _ = write!(
                page,
                "<a href=\"{state}.{device}.html\"><img class=\"{device}\" loading=\"lazy\" \
                 alt=\"{state}, {device}, {scheme}\" src=\"{state}.{device}.{scheme}.png\"></a>"
            );
        }
        page.push_str("</section>\n");
    }
    page
}

/// Puts README's pictures in their place, and takes out what is none of them.
fn renew(gallery: &Path, pictures: &Path) -> Result<()> {
    for (file, picture) in IN_README {
        let of = || format!("README's picture {picture}");
        let bytes = fs::read(gallery.join(picture)).with_context(of)?;
        let small = palette::reduced(&bytes).with_context(of)?;
        fs::write(pictures.join(file), small).with_context(of)?;
    }
    for entry in fs::read_dir(pictures)? {
        let entry = entry?;
        let name = entry.file_name();
        if IN_README.iter().all(|(file, _)| name != *file) {
            fs::remove_file(entry.path()).context("a picture that README no longer shows")?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::{IN_README, place};

    #[test]
    fn readme_shows_each_of_its_pictures() {
        let readme = std::fs::read_to_string(place::root().join("README.md")).expect("README");
        for (file, _) in IN_README {
            assert!(readme.contains(&format!("web/pictures/{file}")), "{file}");
        }
    }
}
