//! One WebAssembly file made into several that share a memory and a table.
//!
//! The main file calls what went to a part through the table, where the part puts it when it is loaded; a
//! part has the main file's exports as its imports.

use crate::parts::{PARTS, Parting, parting};
use walrus::ir::Value;
use walrus::{
    ConstExpr, ElementItems, ElementKind, ExportItem, FunctionBuilder, FunctionId, FunctionKind,
    GlobalKind, ImportId, ImportKind, ImportedFunction, MemoryId, Module, TableId, passes,
};

/// What the parts call the main file.
const MAIN: &str = "m";
/// What the main file calls its table and memory.
const TABLE: &str = "_t";
const MEMORY: &str = "memory";

type Outcome<T> = Result<T, String>;

/// The main file, and each part by its name.
pub(crate) fn split(whole: &[u8]) -> Outcome<(Module, Vec<(&'static str, Module)>)> {
    let mut main = read(whole)?;
    let found = parting(&main);
    let table = table_of(&main)?;
    let all = functions(&main);
    let first_slot = main.tables.get(table).initial;
    let mut slot = first_slot;
    let mut parts = Vec::new();
    for (number, (part, doors)) in PARTS.iter().zip(&found.doors).enumerate() {
        let offset = i32::try_from(slot).map_err(|why| format!("table: {why}"))?;
        for (door, slot) in doors.iter().zip(offset..) {
            through_table(&mut main, at(&all, *door)?, table, slot);
        }
        slot += doors.len() as u64;
        parts.push((*part, part_of(whole, &found, number, offset)?));
    }
    let grown = main.tables.get_mut(table);
    grown.initial = slot;
    grown.maximum = grown.maximum.map(|most| most + slot - first_slot);
    lend(&mut main, &all, &found, table)?;
    passes::gc::run(&mut main);
    Ok((main, parts))
}

fn read(whole: &[u8]) -> Outcome<Module> {
    Module::from_buffer(whole).map_err(|why| format!("{why:#}"))
}

fn table_of(module: &Module) -> Outcome<TableId> {
    let found = module.tables.main_function_table();
    found
        .map_err(|why| format!("{why:#}"))?
        .ok_or_else(|| "no table of functions".to_owned())
}

fn memory_of(module: &Module) -> Outcome<MemoryId> {
    let mut memories = module.memories.iter();
    memories
        .next()
        .map(walrus::Memory::id)
        .ok_or_else(|| "no memory".to_owned())
}

/// The functions by their places in the file.
fn functions(module: &Module) -> Vec<FunctionId> {
    module.funcs.iter().map(walrus::Function::id).collect()
}

/// One of them.
fn at(functions: &[FunctionId], place: usize) -> Outcome<FunctionId> {
    let found = functions.get(place).filter(|id| id.index() == place);
    found.copied().ok_or_else(|| format!("no function {place}"))
}

/// Instead of its body a function calls what stands in the table.
fn through_table(module: &mut Module, id: FunctionId, table: TableId, slot: i32) {
    let ty = module.funcs.get(id).ty();
    let (params, results) = module.types.params_results(ty);
    let (params, results) = (params.to_vec(), results.to_vec());
    let args: Vec<_> = params.iter().map(|of| module.locals.add(*of)).collect();
    let mut builder = FunctionBuilder::new(&mut module.types, &params, &results);
    let mut body = builder.func_body();
    for arg in &args {
        body.local_get(*arg);
    }
    body.i32_const(slot).call_indirect(ty, table);
    module.funcs.get_mut(id).kind = FunctionKind::Local(builder.local_func(args));
}

/// The name under which something is lent.
fn lent_name(of: char, number: usize) -> String {
    format!("_{of}{number:x}")
}

/// Exports what the parts use.
fn lend(main: &mut Module, all: &[FunctionId], found: &Parting, table: TableId) -> Outcome<()> {
    for (number, place) in found.lent.iter().enumerate() {
        main.exports.add(&lent_name('f', number), at(all, *place)?);
    }
    let globals: Vec<_> = main.globals.iter().map(walrus::Global::id).collect();
    for id in globals {
        if let Ok(number) = found.globals.binary_search(&id.index()) {
            main.exports.add(&lent_name('g', number), id);
        }
    }
    main.exports.add(TABLE, table);
    let memory = memory_of(main)?;
    let exported = main.exports.iter().any(
        |export| matches!(export.item, ExportItem::Memory(id) if id == memory && export.name == MEMORY),
    );
    exported
        .then_some(())
        .ok_or_else(|| format!("the memory is not exported as {MEMORY}"))
}

/// One part: its functions, which it puts in the table from a slot on, and the rest as imports.
fn part_of(whole: &[u8], found: &Parting, number: usize, offset: i32) -> Outcome<Module> {
    let mut part = read(whole)?;
    let table = table_of(&part)?;
    let memory = memory_of(&part)?;
    forget_beginnings(&mut part);
    let import = import(&mut part, TABLE, table);
    let of_functions = part.tables.get_mut(table);
    (of_functions.import, of_functions.maximum) = (Some(import), None);
    let import = self::import(&mut part, MEMORY, memory);
    let memory = part.memories.get_mut(memory);
    (memory.import, memory.maximum) = (Some(import), None);
    let all = functions(&part);
    for id in &all {
        if let Ok(lent) = found.lent.binary_search(&id.index())
            && found.part.get(id.index()) != Some(&Some(number))
        {
            let import = self::import(&mut part, &lent_name('f', lent), *id);
            let function = part.funcs.get_mut(*id);
            let ty = function.ty();
            function.kind = FunctionKind::Import(ImportedFunction { import, ty });
        }
    }
    let globals: Vec<_> = part.globals.iter().map(walrus::Global::id).collect();
    for id in globals {
        if let Ok(lent) = found.globals.binary_search(&id.index()) {
            let import = self::import(&mut part, &lent_name('g', lent), id);
            part.globals.get_mut(id).kind = GlobalKind::Import(import);
        }
    }
    let doors = found.doors.get(number).into_iter().flatten();
    let doors: Vec<FunctionId> = doors
        .map(|place| at(&all, *place))
        .collect::<Outcome<_>>()?;
    let kind = ElementKind::Active {
        table,
        offset: ConstExpr::Value(Value::I32(offset)),
    };
    let element = part.elements.add(kind, ElementItems::Functions(doors));
    part.tables.get_mut(table).elem_segments.insert(element);
    passes::gc::run(&mut part);
    Ok(part)
}

fn import(part: &mut Module, name: &str, kind: impl Into<ImportKind>) -> ImportId {
    part.imports.add(MAIN, name, kind)
}

/// What the main file does when it begins is done once: exports, filling the memory and the table.
fn forget_beginnings(part: &mut Module) {
    part.start = None;
    let exports: Vec<_> = part.exports.iter().map(walrus::Export::id).collect();
    for id in exports {
        part.exports.delete(id);
    }
    let elements: Vec<_> = part.elements.iter().map(walrus::Element::id).collect();
    for id in elements {
        part.elements.delete(id);
    }
    let data: Vec<_> = part.data.iter().map(walrus::Data::id).collect();
    for id in data {
        part.data.delete(id);
    }
    for table in part.tables.iter_mut() {
        table.elem_segments.clear();
    }
    for memory in part.memories.iter_mut() {
        memory.data_segments.clear();
    }
    let customs: Vec<_> = part.customs.iter().map(|(id, _)| id).collect();
    for id in customs {
        part.customs.delete(id);
    }
}
