//! What each file of a crate uses of its other files, read from the source.
//!
//! A path that begins with `crate`, `super` or `self`, or with a name that such a path brought in,
//! is followed to the file in which its item is written: through every `use` on the way, so that
//! a `mod.rs` that only hands names on is nobody's user. Calls of methods name no file, and aren't seen.

use std::collections::{HashMap, HashSet};
use std::fs;
use std::path::{Path, PathBuf};

use proc_macro2::{TokenStream, TokenTree};
use syn::visit::{self, Visit};

/// One file's use of another.
pub(crate) struct Arrow {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) line: usize,
    /// The path as it is written.
    pub(crate) path: String,
}

/// A crate's files, relative to its `src`, and the arrows between them.
pub(crate) struct Crate {
    pub(crate) files: Vec<String>,
    pub(crate) arrows: Vec<Arrow>,
}

/// A module's path from the crate's root.
type Names = Vec<String>;

#[derive(Default)]
struct Module {
    file: usize,
    items: HashSet<String>,
    imports: HashMap<String, Names>,
    globs: Vec<Names>,
}

/// A path as it stands in a module.
struct Use {
    module: Names,
    path: Names,
    line: usize,
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Import,
    /// A `use` that hands on what it names.
    Facade,
    Glob,
    InCode,
    InMacro,
}

/// What a path leads to.
#[derive(Clone)]
enum Place {
    Module(Names),
    Item(usize),
}

/// Reads the crate whose root is `src/lib.rs`, without what is only compiled for its tests.
pub(crate) fn read(src: &Path) -> Crate {
    let mut reader = Reader { src: src.to_owned(), ..Reader::default() };
    reader.file(src.join("lib.rs"), src.to_owned(), Vec::new());
    let tree = reader.tree;
    let arrows = reader.uses.iter().filter_map(|found| tree.arrow(found)).collect();
    Crate { files: reader.files, arrows }
}

#[derive(Default)]
struct Reader {
    src: PathBuf,
    files: Vec<String>,
    tree: Tree,
    uses: Vec<Use>,
    /// Where the modules lie that the module being read declares.
    folder: PathBuf,
    module: Names,
}

impl Reader {
    fn file(&mut self, file: PathBuf, folder: PathBuf, module: Names) {
        let text =
            fs::read_to_string(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let tokens: TokenStream =
            text.parse().unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let parsed: syn::File = syn::parse2(without_tests(tokens))
            .unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let name = file.strip_prefix(&self.src).unwrap().to_string_lossy().replace('\\', "/");
        self.files.push(name);
        let outer = (
            std::mem::replace(&mut self.folder, folder),
            std::mem::replace(&mut self.module, module),
        );
        self.tree.begin(&self.module, self.files.len() - 1);
        self.visit_file(&parsed);
        (self.folder, self.module) = outer;
    }

    fn found(&mut self, path: Names, line: usize, kind: Kind) {
        self.uses.push(Use { module: self.module.clone(), path, line, kind });
    }

    fn here(&mut self) -> &mut Module {
        self.tree.modules.get_mut(&self.module).unwrap()
    }

    fn import(&mut self, tree: &syn::UseTree, before: &mut Names, handed_on: bool) {
        let kind = if handed_on { Kind::Facade } else { Kind::Import };
        let named = |reader: &mut Self, ident: &proc_macro2::Ident, name: String| {
            let mut path = before.clone();
            if ident != "self" || path.is_empty() {
                path.push(ident.to_string());
            }
            let name = if name == "self" { path.last().unwrap().clone() } else { name };
            reader.here().imports.insert(name, path.clone());
            reader.found(path, ident.span().start().line, kind);
        };
        match tree {
            syn::UseTree::Name(leaf) => named(self, &leaf.ident, leaf.ident.to_string()),
            syn::UseTree::Rename(leaf) => named(self, &leaf.ident, leaf.rename.to_string()),
            syn::UseTree::Path(inner) => {
                before.push(inner.ident.to_string());
                self.import(&inner.tree, before, handed_on);
                before.pop();
            }
            syn::UseTree::Group(group) => {
                group.items.iter().for_each(|tree| self.import(tree, before, handed_on));
            }
            syn::UseTree::Glob(glob) => {
                let line = glob.star_token.spans[0].start().line;
                self.here().globs.push(before.clone());
                self.found(before.clone(), line, if handed_on { kind } else { Kind::Glob });
            }
        }
    }

    /// The paths in a macro's words, each as far as it is written out.
    fn tokens(&mut self, tokens: TokenStream) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let mut rest = tokens.as_slice();
        while let [first, after @ ..] = rest {
            rest = after;
            match first {
                TokenTree::Group(group) => self.tokens(group.stream()),
                TokenTree::Ident(ident) => {
                    let mut path = vec![ident.to_string()];
                    while let [
                        TokenTree::Punct(one),
                        TokenTree::Punct(two),
                        TokenTree::Ident(next),
                        after @ ..,
                    ] = rest
                        && (one.as_char(), two.as_char()) == (':', ':')
                    {
                        path.push(next.to_string());
                        rest = after;
                    }
                    if path.len() > 1 {
                        self.found(path, ident.span().start().line, Kind::InMacro);
                    }
                }
                _ => {}
            }
        }
    }
}

impl<'ast> Visit<'ast> for Reader {
    fn visit_item(&mut self, item: &'ast syn::Item) {
        let name = match item {
            syn::Item::Const(item) => Some(&item.ident),
            syn::Item::Enum(item) => Some(&item.ident),
            syn::Item::Fn(item) => Some(&item.sig.ident),
            syn::Item::Macro(item) => item.ident.as_ref(),
            syn::Item::Static(item) => Some(&item.ident),
            syn::Item::Struct(item) => Some(&item.ident),
            syn::Item::Trait(item) => Some(&item.ident),
            syn::Item::Type(item) => Some(&item.ident),
            _ => None,
        };
        if let Some(name) = name {
            self.here().items.insert(name.to_string());
        }
        visit::visit_item(self, item);
    }

    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        let name = item.ident.to_string();
        let folder = self.folder.join(&name);
        let mut module = self.module.clone();
        module.push(name);
        if let Some((_, items)) = &item.content {
            let file = self.here().file;
            let outer = (
                std::mem::replace(&mut self.folder, folder),
                std::mem::replace(&mut self.module, module),
            );
            self.tree.begin(&self.module, file);
            items.iter().for_each(|item| self.visit_item(item));
            (self.folder, self.module) = outer;
            return;
        }
        let flat = folder.with_extension("rs");
        let file = if flat.is_file() { flat } else { folder.join("mod.rs") };
        self.file(file, folder, module);
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        let handed_on = !matches!(item.vis, syn::Visibility::Inherited);
        self.import(&item.tree, &mut Vec::new(), handed_on);
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let names: Names = path.segments.iter().map(|part| part.ident.to_string()).collect();
        if names.len() > 1 {
            let line = path.segments[0].ident.span().start().line;
            self.found(names, line, Kind::InCode);
        }
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, mac: &'ast syn::Macro) {
        self.tokens(mac.tokens.clone());
        visit::visit_macro(self, mac);
    }
}

/// The tokens of a file without any item that is marked as the tests' own.
fn without_tests(tokens: TokenStream) -> TokenStream {
    let is = |token: &TokenTree, mark: char| matches!(token, TokenTree::Punct(punct) if punct.as_char() == mark);
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut kept = Vec::new();
    let mut rest = tokens.as_slice();
    while let [first, after @ ..] = rest {
        rest = after;
        if is(first, '#')
            && let [TokenTree::Group(mark), after @ ..] = rest
            && mark.stream().to_string().replace(' ', "") == "cfg(test)"
        {
            let ends = |token: &TokenTree| {
                is(token, ';')
                    || matches!(token, TokenTree::Group(group) if group.delimiter() == proc_macro2::Delimiter::Brace)
            };
            let end =
                after.iter().position(ends).unwrap_or_else(|| panic!("a test without an end"));
            rest = &after[end + 1..];
            // As after `use a::{b, c}`.
            if rest.first().is_some_and(|token| is(token, ';')) {
                rest = &rest[1..];
            }
            continue;
        }
        kept.push(match first {
            TokenTree::Group(group) => {
                let mut inner =
                    proc_macro2::Group::new(group.delimiter(), without_tests(group.stream()));
                inner.set_span(group.span());
                inner.into()
            }
            other => other.clone(),
        });
    }
    kept.into_iter().collect()
}

#[derive(Default)]
struct Tree {
    modules: HashMap<Names, Module>,
}

impl Tree {
    fn begin(&mut self, module: &Names, file: usize) {
        self.modules.insert(module.clone(), Module { file, ..Module::default() });
    }

    fn arrow(&self, found: &Use) -> Option<Arrow> {
        let from = self.modules[&found.module].file;
        let to = match self.resolve(&found.module, &found.path, &mut Vec::new())? {
            Place::Item(file) => file,
            // A module that is brought in is used by the paths that begin with its name.
            Place::Module(module) => match found.kind {
                Kind::Glob | Kind::InMacro => self.modules[&module].file,
                Kind::Import | Kind::InCode | Kind::Facade => return None,
            },
        };
        let beneath = || {
            let below = |(path, module): (&Names, &Module)| {
                module.file == to && path.starts_with(&found.module)
            };
            self.modules.iter().any(below)
        };
        if from == to || found.kind == Kind::Facade && beneath() {
            return None;
        }
        Some(Arrow { from, to, line: found.line, path: found.path.join("::") })
    }

    /// `passed` are the names followed so far, so that one that hands on itself comes to an end.
    fn resolve(
        &self,
        module: &Names,
        path: &[String],
        passed: &mut Vec<(Names, String)>,
    ) -> Option<Place> {
        let (first, mut rest) = path.split_first()?;
        let mut place = match first.as_str() {
            "crate" => Place::Module(Vec::new()),
            "self" => Place::Module(module.clone()),
            "super" => Place::Module(module.split_last()?.1.to_vec()),
            name => self.step(module, name, rest.is_empty(), passed)?,
        };
        while let (Place::Module(module), Some((name, after))) = (&place, rest.split_first()) {
            place = match name.as_str() {
                "super" => Place::Module(module.split_last()?.1.to_vec()),
                // What isn't seen to be written here comes out of a macro here.
                name => self
                    .step(module, name, after.is_empty(), passed)
                    .unwrap_or(Place::Item(self.modules[module].file)),
            };
            rest = after;
        }
        Some(place)
    }

    fn step(
        &self,
        module: &Names,
        name: &str,
        last: bool,
        passed: &mut Vec<(Names, String)>,
    ) -> Option<Place> {
        let here = &self.modules[module];
        let mut child = module.clone();
        child.push(name.to_owned());
        let child = self.modules.contains_key(&child).then_some(Place::Module(child));
        if child.is_some() && !last {
            return child;
        }
        if here.items.contains(name) {
            return Some(Place::Item(here.file));
        }
        let step = (module.clone(), name.to_owned());
        if passed.contains(&step) {
            return child;
        }
        passed.push(step);
        let imported = || self.resolve(module, here.imports.get(name)?, &mut passed.clone());
        let by_glob = || {
            here.globs.iter().find_map(|glob| {
                let Place::Module(from) = self.resolve(module, glob, &mut passed.clone())? else {
                    return None;
                };
                self.step(&from, name, last, &mut passed.clone())
            })
        };
        // A module and a macro or function in it may have one name; what is handed on is meant.
        match (child, imported()) {
            (None, None) => by_glob(),
            (Some(child), None | Some(Place::Module(_))) => Some(child),
            (_, imported) => imported,
        }
    }
}
