//! The modules of a crate, and which file declares what a path means.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

use super::Use;
use super::read::Content;

/// A module's path from the crate's root.
type Place = Vec<String>;

pub(super) struct Modules {
    all: BTreeMap<Place, Module>,
}

struct Module {
    file: String,
    content: Content,
}

impl Modules {
    /// Of a folder that holds a crate's source.
    pub(super) fn read(folder: &Path) -> Result<Self> {
        let mut files = BTreeMap::new();
        gather(folder, folder, &mut files)?;
        Self::of(
            files
                .iter()
                .map(|(name, text)| (name.as_str(), text.as_str())),
        )
    }

    /// Of files by their names.
    pub(super) fn of<'a>(files: impl Iterator<Item = (&'a str, &'a str)>) -> Result<Self> {
        let files: BTreeMap<&str, &str> = files.collect();
        let mut roots = ["lib.rs", "main.rs"].into_iter();
        let root = roots.find(|name| files.contains_key(name));
        let mut modules = Self {
            all: BTreeMap::new(),
        };
        modules.load(
            &files,
            root.context("no lib.rs and no main.rs")?,
            Vec::new(),
        )?;
        Ok(modules)
    }

    fn load(&mut self, files: &BTreeMap<&str, &str>, file: &str, place: Place) -> Result<()> {
        let text = files.get(file).with_context(|| format!("no file {file}"))?;
        let parsed = syn::parse_file(text).with_context(|| format!("cannot read {file}"))?;
        self.add(files, file, place, Content::of(&parsed.items))
    }

    fn add(
        &mut self,
        files: &BTreeMap<&str, &str>,
        file: &str,
        place: Place,
        mut content: Content,
    ) -> Result<()> {
        for (name, inside) in std::mem::take(&mut content.modules) {
            content.declares.insert(name.clone());
            let mut below = place.clone();
            below.push(name);
            match inside {
                Some(inside) => self.add(files, file, below, inside)?,
                None => {
                    let path = below.join("/");
                    let names = [format!("{path}.rs"), format!("{path}/mod.rs")];
                    let found = names.iter().find(|name| files.contains_key(name.as_str()));
                    let found = found.with_context(|| format!("no file for {path}"))?;
                    self.load(files, found, below)?;
                }
            }
        }
        let file = file.to_owned();
        self.all.insert(place, Module { file, content });
        Ok(())
    }

    /// Every use of one file by another.
    pub(super) fn uses(&self) -> BTreeSet<Use> {
        let mut uses = BTreeSet::new();
        for (place, module) in &self.all {
            // What is only passed on is used by whoever names it, not here.
            let named = |name: &str| {
                let mut paths = module.content.paths.iter();
                paths.any(|path| path.first().is_some_and(|first| first == name))
            };
            let imported = module.content.imports.iter();
            let imported = imported.filter(|one| !one.public || named(&one.name));
            let imported = imported.map(|one| &one.path);
            // A single name can't be a module there: it is a variable that is called the same.
            let paths = module.content.paths.iter().filter(|path| path.len() > 1);
            for path in imported.chain(paths) {
                let Some(declares) = self.declaring(place, path) else {
                    continue;
                };
                if declares != module.file {
                    uses.insert(Use {
                        from: module.file.clone(),
                        to: declares,
                        name: path.last().cloned().unwrap_or_default(),
                    });
                }
            }
        }
        uses
    }

    /// The file that declares what a path means in a module; `None` for what is not of this crate.
    fn declaring(&self, place: &Place, path: &[String]) -> Option<String> {
        let (start, rest) = self.start(place, path)?;
        self.follow(&start, rest, &mut BTreeSet::new())
    }

    /// Where a path starts. One that starts with a name that was imported leads nowhere new.
    fn start<'p>(&self, place: &Place, path: &'p [String]) -> Option<(Place, &'p [String])> {
        let (first, mut rest) = path.split_first()?;
        let mut start = place.clone();
        match first.as_str() {
            "crate" => start.clear(),
            "self" => {}
            "super" => {
                start.pop()?;
                while rest.first().is_some_and(|name| name == "super") {
                    start.pop()?;
                    rest = &rest[1..];
                }
            }
            name => {
                start.push(name.to_owned());
                if !self.all.contains_key(&start) {
                    return None;
                }
            }
        }
        Some((start, rest))
    }

    fn follow(
        &self,
        place: &Place,
        path: &[String],
        asked: &mut BTreeSet<(Place, String)>,
    ) -> Option<String> {
        let module = self.all.get(place)?;
        let Some((name, rest)) = path.split_first() else {
            return Some(module.file.clone());
        };
        let mut below = place.clone();
        below.push(name.clone());
        if self.all.contains_key(&below) {
            return self.follow(&below, rest, asked);
        }
        if module.content.declares.contains(name) {
            return Some(module.file.clone());
        }
        if !asked.insert((place.clone(), name.clone())) {
            return None;
        }
        let imports = module.content.imports.iter();
        imports
            .filter(|one| one.name == *name || one.name == "*")
            .find_map(|one| {
                let mut whole = one.path.clone();
                if one.name == "*" {
                    whole.push(name.clone());
                }
                let (start, rest) = self.start(place, &whole)?;
                self.follow(&start, rest, asked)
            })
    }
}

fn gather(root: &Path, folder: &Path, files: &mut BTreeMap<String, String>) -> Result<()> {
    let cannot = || format!("cannot read {}", folder.display());
    for entry in fs::read_dir(folder).with_context(cannot)? {
        let path = entry.with_context(cannot)?.path();
        if path.is_dir() {
            gather(root, &path, files)?;
        } else if path.extension().is_some_and(|end| end == "rs") {
            let name = path
                .strip_prefix(root)?
                .to_string_lossy()
                .replace('\\', "/");
            let text = fs::read_to_string(&path).with_context(|| format!("cannot read {name}"))?;
            files.insert(name, text);
        }
    }
    Ok(())
}
