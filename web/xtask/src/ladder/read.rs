//! What a module declares, what it passes on, and which paths it names.

use std::collections::BTreeSet;

use proc_macro2::TokenTree;
use syn::visit::{self, Visit};
use syn::{Attribute, Item, UseTree, Visibility};

/// What stands in one module.
#[derive(Debug, Default)]
pub(super) struct Content {
    /// Names that it declares itself.
    pub(super) declares: BTreeSet<String>,
    /// Names that it imports, with the paths: what others find in it, if it passes them on.
    pub(super) imports: Vec<Import>,
    pub(super) paths: BTreeSet<Vec<String>>,
    /// Its modules: those of files of their own, and those written in place.
    pub(super) modules: Vec<(String, Option<Content>)>,
}

/// A name that is imported, and may be passed on.
#[derive(Debug)]
pub(super) struct Import {
    /// The name here; `*` for all.
    pub(super) name: String,
    pub(super) path: Vec<String>,
    pub(super) public: bool,
}

impl Content {
    pub(super) fn of(items: &[Item]) -> Self {
        let mut content = Self::default();
        for item in items {
            content.item(item);
        }
        content
    }

    fn item(&mut self, item: &Item) {
        if is_for_tests(attributes(item)) {
            return;
        }
        match item {
            Item::Use(one) => {
                let public = !matches!(one.vis, Visibility::Inherited);
                self.import(&one.tree, &mut Vec::new(), public);
                return;
            }
            Item::Mod(one) => {
                let inside = one.content.as_ref().map(|(_, items)| Content::of(items));
                self.modules.push((one.ident.to_string(), inside));
                return;
            }
            _ => {}
        }
        self.declares.extend(declared(item));
        Paths(&mut self.paths).visit_item(item);
    }

    fn import(&mut self, tree: &UseTree, before: &mut Vec<String>, public: bool) {
        let mut add = |name: String, path: Vec<String>| {
            self.imports.push(Import { name, path, public });
        };
        match tree {
            UseTree::Path(one) => {
                before.push(one.ident.to_string());
                self.import(&one.tree, before, public);
                before.pop();
            }
            UseTree::Name(one) if one.ident == "self" => {
                add(before.last().cloned().unwrap_or_default(), before.clone());
            }
            UseTree::Name(one) => add(one.ident.to_string(), with(before, one.ident.to_string())),
            UseTree::Rename(one) => {
                add(one.rename.to_string(), with(before, one.ident.to_string()))
            }
            UseTree::Glob(_) => add("*".into(), before.clone()),
            UseTree::Group(group) => {
                for one in &group.items {
                    self.import(one, before, public);
                }
            }
        }
    }
}

fn with(before: &[String], name: String) -> Vec<String> {
    before.iter().cloned().chain([name]).collect()
}

/// Every path of an item; those in macros as far as their tokens look like one.
struct Paths<'a>(&'a mut BTreeSet<Vec<String>>);

impl<'ast> Visit<'ast> for Paths<'_> {
    fn visit_path(&mut self, path: &'ast syn::Path) {
        let segments = path.segments.iter().map(|one| one.ident.to_string());
        self.0.insert(segments.collect());
        visit::visit_path(self, path);
    }

    fn visit_visibility(&mut self, _: &'ast Visibility) {
        // `pub(super)` names a place and uses nothing of it.
    }

    fn visit_macro(&mut self, one: &'ast syn::Macro) {
        self.tokens(one.tokens.clone());
        visit::visit_macro(self, one);
    }

    fn visit_item_macro(&mut self, one: &'ast syn::ItemMacro) {
        // What a macro's own rules name is named where it is used.
        if !one.mac.path.is_ident("macro_rules") {
            visit::visit_item_macro(self, one);
        }
    }
}

impl Paths<'_> {
    fn tokens(&mut self, tokens: proc_macro2::TokenStream) {
        let mut path: Vec<String> = Vec::new();
        let mut colons = 0;
        for token in tokens {
            match token {
                TokenTree::Ident(name) if colons == 2 => path.push(name.to_string()),
                TokenTree::Ident(name) => {
                    self.end(&mut path);
                    path.push(name.to_string());
                }
                TokenTree::Punct(sign) if sign.as_char() == ':' => {
                    colons += 1;
                    continue;
                }
                TokenTree::Group(group) => {
                    self.end(&mut path);
                    self.tokens(group.stream());
                }
                _ => self.end(&mut path),
            }
            colons = 0;
        }
        self.end(&mut path);
    }

    fn end(&mut self, path: &mut Vec<String>) {
        if !path.is_empty() {
            self.0.insert(std::mem::take(path));
        }
    }
}

fn declared(item: &Item) -> Option<String> {
    let name = match item {
        Item::Const(one) => &one.ident,
        Item::Enum(one) => &one.ident,
        Item::Fn(one) => &one.sig.ident,
        Item::Macro(one) if one.ident.is_some() => one.ident.as_ref()?,
        // A formula is declared by its macro: the first name that is followed by a colon.
        Item::Macro(one) => return named_by_macro(&one.mac.tokens),
        Item::Static(one) => &one.ident,
        Item::Struct(one) => &one.ident,
        Item::Trait(one) => &one.ident,
        Item::Type(one) => &one.ident,
        Item::Union(one) => &one.ident,
        _ => return None,
    };
    Some(name.to_string())
}

fn named_by_macro(tokens: &proc_macro2::TokenStream) -> Option<String> {
    let mut last = None;
    for token in tokens.clone() {
        match token {
            TokenTree::Ident(name) => last = Some(name.to_string()),
            TokenTree::Punct(sign) if sign.as_char() == ':' => return last,
            _ => {}
        }
    }
    None
}

fn attributes(item: &Item) -> &[Attribute] {
    match item {
        Item::Const(one) => &one.attrs,
        Item::Enum(one) => &one.attrs,
        Item::Fn(one) => &one.attrs,
        Item::Impl(one) => &one.attrs,
        Item::Macro(one) => &one.attrs,
        Item::Mod(one) => &one.attrs,
        Item::Static(one) => &one.attrs,
        Item::Struct(one) => &one.attrs,
        Item::Trait(one) => &one.attrs,
        Item::Type(one) => &one.attrs,
        Item::Use(one) => &one.attrs,
        _ => &[],
    }
}

fn is_for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|one| {
        one.path().is_ident("cfg")
            && one
                .meta
                .require_list()
                .is_ok_and(|list| list.tokens.to_string() == "test")
    })
}
