//! Which functions of the large file are there for one section of a document only.

use rustc_demangle::demangle;
use walrus::ir::{Visitor, dfs_in_order};
use walrus::{ConstExpr, ElementItems, ExportItem, FunctionId, FunctionKind, GlobalId, Module};

/// The sections of a document that have a file of their own, which is fetched when a document has the section.
/// What two of them share stays where both find it.
pub(crate) const PARTS: [&str; 6] = [
    "clearance",
    "condition",
    "ignition",
    "mixture",
    "history",
    "causes",
];

/// What answers documents, and columns of a section, for which the module of the package sees to it that its part is
/// there; everything else that is exported must work without a part.
const NEED_A_PART: [&str; 5] = [
    "run",
    "job_sheet",
    "full_sheet",
    "leak_columns",
    "drift_columns",
];

/// Where the modules of a section stand: what it is about, its question, its reader.
const MODULES: [&str; 3] = ["lashwork::", "lashwork::job::", "lashwork_wire::"];

/// Where each function goes. Functions are known by their place in the file, which is the same whenever the
/// file is read.
pub(crate) struct Parting {
    /// The part of each function; none where it stays in the main file.
    pub(crate) part: Vec<Option<usize>>,
    /// For each part the functions that others call, in the order of the file.
    pub(crate) doors: Vec<Vec<usize>>,
    /// What parts call that is not their own, in the order of the file.
    pub(crate) lent: Vec<usize>,
    /// The globals that parts use, in the order of the file.
    pub(crate) globals: Vec<usize>,
}

/// What a function names.
#[derive(Default)]
struct Named {
    functions: Vec<usize>,
    globals: Vec<usize>,
}

impl Visitor<'_> for Named {
    fn visit_function_id(&mut self, id: &FunctionId) {
        self.functions.push(id.index());
    }

    fn visit_global_id(&mut self, id: &GlobalId) {
        self.globals.push(id.index());
    }
}

/// A function goes to a part if a document without the section does not reach it: from what every document may
/// reach, a part is entered by functions of its own modules, and these are called only where the section is
/// there. What another part calls stays in the main file, and so does what is called by its place in the table,
/// because nobody sees who calls it, and functions of different modules that came out alike are one.
pub(crate) fn parting(module: &Module) -> Parting {
    let named: Vec<Named> = module.funcs.iter().map(named).collect();
    let owner: Vec<Option<usize>> = module
        .funcs
        .iter()
        .map(|function| owner(function.name.as_deref().unwrap_or_default()))
        .collect();
    let always = reached(needs_no_part(module), &named, |_, _| false);
    let is = |list: &[bool], function: usize| list.get(function) == Some(&true);
    let of = |function: usize| owner.get(function).copied().flatten();
    let is_door = |function: usize| of(function).is_some() && !is(&always, function);
    let any_document = reached(roots(module), &named, |_, function| is_door(function));
    let mut part = vec![None; named.len()];
    for one in 0..PARTS.len() {
        let there = reached(roots(module), &named, |caller, function| {
            is(&any_document, caller) && is_door(function) && of(function) == Some(one)
        });
        for (of, is_there) in part.iter_mut().zip(there) {
            if !is_there {
                of.get_or_insert(one);
            }
        }
    }
    parted(module, &named, part)
}

/// What parts lend and take, where each function goes.
fn parted(module: &Module, named: &[Named], part: Vec<Option<usize>>) -> Parting {
    let mut found = Parting {
        part,
        doors: PARTS.iter().map(|_| Vec::new()).collect(),
        lent: Vec::new(),
        globals: Vec::new(),
    };
    let part_of = |function: usize| found.part.get(function).copied().flatten();
    let mut called = roots(module);
    for (caller, names) in named.iter().enumerate() {
        let from = part_of(caller);
        let others = names.functions.iter().filter(|to| part_of(**to) != from);
        called.extend(others.clone());
        if from.is_some() {
            found.lent.extend(others);
            found.globals.extend(&names.globals);
        }
    }
    for list in [&mut called, &mut found.lent, &mut found.globals] {
        list.sort_unstable();
        list.dedup();
    }
    for function in called {
        if let Some(of) = found.part.get(function).copied().flatten()
            && let Some(doors) = found.doors.get_mut(of)
        {
            doors.push(function);
        }
    }
    found
}

fn named(function: &walrus::Function) -> Named {
    let mut found = Named::default();
    if let FunctionKind::Local(local) = &function.kind {
        dfs_in_order(&mut found, local, local.entry_block());
    }
    found
}

/// The part in whose modules a function stands, by its own path or that of its type.
fn owner(name: &str) -> Option<usize> {
    let path = format!("{:#}", demangle(name));
    let path = path.trim_start_matches(['<', '&']);
    let stands_in = |section: &&str| {
        let inside = |path: &str| {
            path.strip_prefix(*section)
                .is_some_and(|rest| rest.starts_with("::"))
        };
        MODULES
            .iter()
            .any(|module| path.strip_prefix(module).is_some_and(inside))
    };
    PARTS.iter().position(stands_in)
}

/// What is called from outside.
fn roots(module: &Module) -> Vec<usize> {
    exported(module, |_| true)
        .chain(in_tables(module))
        .collect()
}

/// What is called without a document, or by its place in a table.
fn needs_no_part(module: &Module) -> Vec<usize> {
    let others = exported(module, |name| !NEED_A_PART.contains(&name));
    others.chain(in_tables(module)).collect()
}

fn exported(module: &Module, which: impl Fn(&str) -> bool) -> impl Iterator<Item = usize> {
    let functions = module
        .exports
        .iter()
        .filter_map(move |export| match export.item {
            ExportItem::Function(id) if which(&export.name) => Some(id.index()),
            _ => None,
        });
    functions.chain(module.start.iter().map(FunctionId::index))
}

fn in_tables(module: &Module) -> impl Iterator<Item = usize> {
    module
        .elements
        .iter()
        .flat_map(|element| match &element.items {
            ElementItems::Functions(ids) => ids.iter().map(FunctionId::index).collect::<Vec<_>>(),
            ElementItems::Expressions(_, items) => {
                let functions = items.iter().filter_map(|item| match item {
                    ConstExpr::RefFunc(id) => Some(id.index()),
                    _ => None,
                });
                functions.collect()
            }
        })
}

/// Whether each function is reached without the calls that are closed.
fn reached(
    mut open: Vec<usize>,
    named: &[Named],
    closed: impl Fn(usize, usize) -> bool,
) -> Vec<bool> {
    let mut there = vec![false; named.len()];
    while let Some(function) = open.pop() {
        if let (Some(is_there), Some(names)) = (there.get_mut(function), named.get(function))
            && !std::mem::replace(is_there, true)
        {
            let calls = names.functions.iter().copied();
            open.extend(calls.filter(|to| !closed(function, *to)));
        }
    }
    there
}
