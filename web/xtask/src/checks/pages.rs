//! The core's public functions, and which of their pages show a formula.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use syn::{
    Attribute, Expr, ExprLit, File, ImplItem, Item, ItemImpl, Lit, Meta, ReturnType, Signature,
    Type, Visibility,
};

/// What a page says where a formula comes from.
const ORIGINS: [&str; 10] = [
    "Source:",
    "Derived here",
    "A definition",
    "Arithmetic",
    "ommon practice",
    "extbook",
    "(from memory",
    ", from memory",
    "(read",
    "(formula read",
];

const NO_VALUE: &str = "No published value:";

#[derive(Debug, PartialEq)]
pub(super) struct Function {
    /// With the rooms that it stands in.
    pub(super) name: String,
    /// As rows name it: the function, or type and method.
    pub(super) short: String,
    /// Whether its page says where it comes from.
    pub(super) has_origin: bool,
    /// Whether its page states an equation; what gives a text only shows one.
    pub(super) has_equation: bool,
    /// Why no published value is known for it.
    pub(super) no_value: Option<String>,
}

/// All functions below a folder, in the order of their names.
pub(super) fn functions(source: &Path) -> Result<Vec<Function>> {
    let mut found = Vec::new();
    look_in(source, "", &mut found)?;
    found.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(found)
}

fn look_in(folder: &Path, room: &str, found: &mut Vec<Function>) -> Result<()> {
    let cannot = || format!("cannot read {}", folder.display());
    for entry in fs::read_dir(folder).with_context(cannot)? {
        let path = entry.with_context(cannot)?.path();
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        let within = match stem.as_ref() {
            "mod" | "lib" => room.to_owned(),
            name if room.is_empty() => name.to_owned(),
            name => format!("{room}::{name}"),
        };
        if path.is_dir() {
            look_in(&path, &within, found)?;
        } else if path.extension().is_some_and(|end| end == "rs") && stem != "tests" {
            let text = fs::read_to_string(&path)
                .with_context(|| format!("cannot read {}", path.display()))?;
            found.extend(functions_in(&text, &within).with_context(|| path.display().to_string())?);
        }
    }
    Ok(())
}

pub(super) fn functions_in(text: &str, room: &str) -> Result<Vec<Function>> {
    let File { items, .. } = syn::parse_file(text)?;
    let mut found = Vec::new();
    for item in &items {
        match item {
            Item::Fn(free) if matches!(free.vis, Visibility::Public(_)) => {
                let name = free.sig.ident.to_string();
                found.push(function(&free.attrs, &free.sig, room, name));
            }
            Item::Impl(of_type) if of_type.trait_.is_none() => {
                found.extend(methods(of_type, room));
            }
            _ => {}
        }
    }
    Ok(found)
}

fn methods(of_type: &ItemImpl, room: &str) -> Vec<Function> {
    let Type::Path(path) = of_type.self_ty.as_ref() else {
        return Vec::new();
    };
    let Some(last) = path.path.segments.last() else {
        return Vec::new();
    };
    let public = of_type.items.iter().filter_map(|item| match item {
        ImplItem::Fn(method) if matches!(method.vis, Visibility::Public(_)) => Some(method),
        _ => None,
    });
    public
        .map(|method| {
            let name = format!("{}::{}", last.ident, method.sig.ident);
            function(&method.attrs, &method.sig, room, name)
        })
        .collect()
}

fn function(
    attributes: &[Attribute],
    signature: &Signature,
    room: &str,
    short: String,
) -> Function {
    let page = page(attributes);
    let prose: Vec<String> = page
        .split("\n\n")
        .map(|paragraph| paragraph.split_whitespace().collect::<Vec<_>>().join(" "))
        .collect();
    let has_origin = prose
        .iter()
        .any(|paragraph| ORIGINS.iter().any(|origin| paragraph.contains(origin)));
    let no_value = prose.iter().find_map(|paragraph| {
        let (_, reason) = paragraph.split_once(NO_VALUE)?;
        Some(
            reason
                .split(". ")
                .next()?
                .trim_matches([' ', '.'])
                .to_owned(),
        )
    });
    let has_equation =
        !gives_text(signature) && prose.iter().any(|paragraph| paragraph.contains(" = "));
    Function {
        name: format!("{room}::{short}"),
        short,
        has_origin,
        has_equation,
        no_value: no_value.filter(|reason| !reason.is_empty()),
    }
}

fn gives_text(signature: &Signature) -> bool {
    let ReturnType::Type(_, given) = &signature.output else {
        return false;
    };
    let name = match given.as_ref() {
        Type::Reference(reference) => reference.elem.as_ref(),
        other => other,
    };
    matches!(name, Type::Path(path) if path.path.is_ident("String") || path.path.is_ident("str"))
}

/// The doc comment without its examples.
fn page(attributes: &[Attribute]) -> String {
    let mut lines = Vec::new();
    let mut in_example = false;
    for attribute in attributes {
        let Meta::NameValue(pair) = &attribute.meta else {
            continue;
        };
        if !pair.path.is_ident("doc") {
            continue;
        }
        if let Expr::Lit(ExprLit {
            lit: Lit::Str(line),
            ..
        }) = &pair.value
        {
            let line = line.value();
            let line = line.trim();
            if line.starts_with("```") {
                in_example = !in_example;
            } else if !in_example {
                lines.push(line.to_owned());
            }
        }
    }
    lines.join("\n")
}
