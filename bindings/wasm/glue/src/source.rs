//! The Rust source of the serialised types, and which type a name in it means.

use std::collections::BTreeMap;
use std::path::Path;
use syn::{Attribute, Item, UseTree};

/// A serialised type.
pub(crate) struct Found {
    /// The area of its crate in which it stands: the first part of its path.
    area: String,
    /// The area from which its file takes each name.
    imports: BTreeMap<String, String>,
    name: String,
    pub(crate) item: Item,
}

impl Found {
    /// Its type parameters.
    pub(crate) fn parameters(&self) -> impl Iterator<Item = String> {
        let generics = match &self.item {
            Item::Struct(item) => Some(&item.generics),
            Item::Enum(item) => Some(&item.generics),
            _ => None,
        };
        let parameters = generics.into_iter().flat_map(syn::Generics::type_params);
        parameters.map(|parameter| parameter.ident.to_string())
    }
}

/// Every serialised type, by name; a name may stand for one in each of several areas.
pub(crate) struct Known(BTreeMap<String, Vec<Found>>);

impl Known {
    /// Reads the sources of some crates.
    pub(crate) fn read(folders: &[&str]) -> Result<Self, String> {
        let mut known = Self(BTreeMap::new());
        for folder in folders {
            known.read_folder(Path::new(folder), None)?;
        }
        Ok(known)
    }

    fn read_folder(&mut self, folder: &Path, area: Option<&str>) -> Result<(), String> {
        let wrong = |why: std::io::Error| format!("{}: {why}", folder.display());
        let entries = std::fs::read_dir(folder).map_err(wrong)?;
        let mut paths: Vec<_> = entries.flatten().map(|entry| entry.path()).collect();
        paths.sort();
        for path in paths {
            let stem = path.file_stem().unwrap_or_default().to_string_lossy();
            let area = area.unwrap_or(&stem);
            if path.is_dir() {
                self.read_folder(&path, Some(area))?;
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let source = std::fs::read_to_string(&path).map_err(wrong)?;
                let file =
                    syn::parse_file(&source).map_err(|why| format!("{}: {why}", path.display()))?;
                self.add(file.items, area);
            }
        }
        Ok(())
    }

    fn add(&mut self, items: Vec<Item>, area: &str) {
        let mut imports = BTreeMap::new();
        for item in &items {
            if let Item::Use(item) = item {
                take_imports(&item.tree, &mut Vec::new(), &mut imports);
            }
        }
        for item in items {
            let (name, attributes) = match &item {
                Item::Struct(item) => (item.ident.to_string(), &item.attrs),
                Item::Enum(item) => (item.ident.to_string(), &item.attrs),
                _ => continue,
            };
            if derives_serialize(attributes) {
                self.0.entry(name.clone()).or_default().push(Found {
                    area: area.to_owned(),
                    imports: imports.clone(),
                    name,
                    item,
                });
            }
        }
    }

    /// The type that a name means in the file of `by`.
    pub(crate) fn find(&self, name: &str, by: Option<&Found>) -> Result<&Found, String> {
        let all = self.0.get(name).map_or(&[][..], Vec::as_slice);
        if let [only] = all {
            return Ok(only);
        }
        let area = by.map(|by| by.imports.get(name).unwrap_or(&by.area));
        let mut here = all.iter().filter(|found| Some(&found.area) == area);
        match (here.next(), here.next()) {
            (Some(found), None) => Ok(found),
            (None, _) => Err(format!("no serialised type is called {name}")),
            _ => Err(format!("several types of one area are called {name}")),
        }
    }

    /// The name to show: with its area in front where another has the same.
    pub(crate) fn shown(&self, found: &Found) -> String {
        let mut area = found.area.chars();
        match (self.0.get(&found.name), area.next()) {
            (Some(all), Some(first)) if all.len() > 1 => {
                format!("{}{}{}", first.to_uppercase(), area.as_str(), found.name)
            }
            _ => found.name.clone(),
        }
    }
}

/// Notes the area of every name that is imported by `crate::area::...` or `lashwork::area::...`.
fn take_imports(tree: &UseTree, path: &mut Vec<String>, into: &mut BTreeMap<String, String>) {
    match tree {
        UseTree::Path(step) => {
            path.push(step.ident.to_string());
            take_imports(&step.tree, path, into);
            path.pop();
        }
        UseTree::Group(group) => {
            for tree in &group.items {
                take_imports(tree, path, into);
            }
        }
        UseTree::Name(name) => {
            if let [root, area, ..] = path.as_slice()
                && (root == "crate" || root == "lashwork")
            {
                into.insert(name.ident.to_string(), area.clone());
            }
        }
        UseTree::Rename(_) | UseTree::Glob(_) => {}
    }
}

fn derives_serialize(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        let mut found = false;
        if attribute.path().is_ident("derive") {
            let _ = attribute.parse_nested_meta(|meta| {
                found |= meta.path.is_ident("Serialize");
                Ok(())
            });
        }
        found
    })
}
