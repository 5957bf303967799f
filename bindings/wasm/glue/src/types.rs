//! TypeScript types of the answers, read from the Rust source of the types that are serialised:
//! names, documentation and shapes then cannot part.
//!
//! Only what those types use is understood; anything else is an error, never a guess.

use crate::source::{Found, Known};
use std::collections::BTreeSet;
use std::fmt::Write;
use syn::{Attribute, Fields, GenericArgument, Item, PathArguments, Type};

/// Types that serialise themselves by hand, and what they write.
const BY_HAND: [(&str, &str); 19] = [
    ("Length", "Millimetres"),
    ("Lash", "Millimetres"),
    ("LashChange", "Millimetres"),
    ("ShimThickness", "Millimetres"),
    ("ScrewTravel", "Millimetres"),
    ("CamMovement", "Millimetres"),
    ("Uncertainty", "Millimetres"),
    ("Nominal", "Millimetres"),
    ("PulleyArc", "Millimetres"),
    ("Marked", "MarkedLength"),
    ("CrankAngle", "Degrees"),
    ("CamAngle", "Degrees"),
    ("DistributorAngle", "Degrees"),
    ("AxisAngle", "Degrees"),
    ("ScrewAngle", "Degrees"),
    ("CyclePosition", "Degrees"),
    ("Temperature", "Celsius"),
    ("TemperatureDifference", "Kelvin"),
    ("Elapsed", "Minutes"),
];

/// What the types above write.
const QUANTITIES: &str = "\
/** A length, in millimetres. */
export interface Millimetres { mm: number }

/** A length as it is marked or printed: its text with its unit, and the same in millimetres. */
export interface MarkedLength { text: string; mm: number }

/** An angle, in degrees. */
export interface Degrees { deg: number }

/** A temperature, in degrees Celsius. */
export interface Celsius { celsius: number }

/** A difference of temperatures, in kelvin. */
export interface Kelvin { kelvin: number }

/** A time, in minutes. */
export interface Minutes { minutes: number }
";

/// The TypeScript declarations of `roots` and all they hold.
pub(crate) fn declarations(folders: &[&str], roots: &[&str]) -> Result<String, String> {
    let known = Known::read(folders)?;
    let mut wanted = Vec::new();
    for root in roots {
        wanted.push(known.find(root, None)?);
    }
    let (mut done, mut text) = (BTreeSet::new(), String::from(QUANTITIES));
    while let Some(found) = wanted.pop() {
        let name = known.shown(found);
        if !done.insert(name.clone()) {
            continue;
        }
        let mut uses = Uses {
            known: &known,
            by: found,
            found: Vec::new(),
        };
        let declared = declaration(&name, &mut uses).map_err(|why| format!("{name}: {why}"))?;
        let _ = write!(text, "\n{declared}");
        wanted.extend(uses.found.into_iter().rev());
    }
    Ok(text)
}

/// What the declaration of one type uses.
struct Uses<'k> {
    known: &'k Known,
    by: &'k Found,
    found: Vec<&'k Found>,
}

impl Uses<'_> {
    /// The name by which a type is shown, which is thereby used.
    fn name(&mut self, name: &str) -> Result<String, String> {
        if self.by.parameters().any(|parameter| parameter == name) {
            return Ok(name.to_owned());
        }
        let found = self.known.find(name, Some(self.by))?;
        self.found.push(found);
        Ok(self.known.shown(found))
    }
}

/// What `#[serde(...)]` says of a type, a field or a variant.
#[derive(Default)]
struct Serde {
    snake_case: bool,
    transparent: bool,
    skip: bool,
    /// The fields of the value stand in its place.
    flatten: bool,
    rename: Option<String>,
    /// The field that names the variant, beside the variant's own fields.
    tag: Option<String>,
}

fn serde(attributes: &[Attribute]) -> Result<Serde, String> {
    let mut said = Serde::default();
    for attribute in attributes.iter().filter(|a| a.path().is_ident("serde")) {
        let read = attribute.parse_nested_meta(|meta| {
            if meta.path.is_ident("rename_all") {
                let style: syn::LitStr = meta.value()?.parse()?;
                if style.value() != "snake_case" {
                    return Err(meta.error("only snake_case is understood"));
                }
                said.snake_case = true;
            } else if meta.path.is_ident("rename") || meta.path.is_ident("tag") {
                let is_tag = meta.path.is_ident("tag");
                let name: syn::LitStr = meta.value()?.parse()?;
                *(if is_tag {
                    &mut said.tag
                } else {
                    &mut said.rename
                }) = Some(name.value());
            } else if meta.path.is_ident("transparent") {
                said.transparent = true;
            } else if meta.path.is_ident("skip") {
                said.skip = true;
            } else if meta.path.is_ident("flatten") {
                said.flatten = true;
            } else {
                return Err(meta.error("this serde attribute is not understood"));
            }
            Ok(())
        });
        read.map_err(|why| why.to_string())?;
    }
    Ok(said)
}

fn declaration(name: &str, uses: &mut Uses<'_>) -> Result<String, String> {
    match &uses.by.item {
        Item::Struct(item) => {
            let said = serde(&item.attrs)?;
            let (name, doc) = (generic(name, uses.by), documentation(&item.attrs, ""));
            if let Fields::Named(_) = item.fields
                && !said.transparent
            {
                let fields = fields(&item.fields, "  ", true, uses)?;
                return Ok(format!("{doc}export interface {name} {{\n{fields}}}\n"));
            }
            let mut kept = item
                .fields
                .iter()
                .filter(|field| serde(&field.attrs).is_ok_and(|said| !said.skip));
            match (kept.next(), kept.next()) {
                (Some(field), None) => {
                    let inner = of_type(&field.ty, uses)?;
                    Ok(format!("{doc}export type {name} = {inner};\n"))
                }
                _ => Err("a struct without field names that is not of one value".into()),
            }
        }
        Item::Enum(item) => {
            let said = serde(&item.attrs)?;
            let (name, doc) = (generic(name, uses.by), documentation(&item.attrs, ""));
            let mut text = format!("{doc}export type {name} =");
            for variant in &item.variants {
                let own = serde(&variant.attrs)?;
                let plain = variant.ident.to_string();
                let word = match own.rename {
                    Some(word) => word,
                    None if said.snake_case => snake_case(&plain),
                    None => plain,
                };
                let shape = match (&said.tag, &variant.fields) {
                    (Some(tag), Fields::Unit) => format!("{{ {tag}: {word:?} }}"),
                    (Some(tag), Fields::Named(_)) => {
                        let fields = fields(&variant.fields, "      ", true, uses)?;
                        format!("{{\n      {tag}: {word:?};\n{fields}    }}")
                    }
                    (Some(tag), Fields::Unnamed(inner)) => match inner.unnamed.first() {
                        Some(one) if inner.unnamed.len() == 1 => {
                            let one = of_type(&one.ty, uses)?;
                            format!("({{ {tag}: {word:?} }} & {one})")
                        }
                        _ => return Err("a tag with several fields that have no names".into()),
                    },
                    (None, Fields::Unit) => format!("{word:?}"),
                    (None, Fields::Named(_)) => {
                        let fields = fields(&variant.fields, "      ", true, uses)?;
                        format!("{{\n    {word}: {{\n{fields}    }};\n  }}")
                    }
                    (None, Fields::Unnamed(inner)) => {
                        let inner: Vec<String> = inner
                            .unnamed
                            .iter()
                            .map(|field| of_type(&field.ty, uses))
                            .collect::<Result<_, _>>()?;
                        match inner.as_slice() {
                            [one] => format!("{{ {word}: {one} }}"),
                            several => format!("{{ {word}: [{}] }}", several.join(", ")),
                        }
                    }
                };
                let doc = documentation(&variant.attrs, "  ");
                let _ = write!(text, "\n{doc}  | {shape}");
            }
            Ok(text + ";\n")
        }
        _ => Err("neither struct nor enum".into()),
    }
}

/// A name with its type parameters.
fn generic(name: &str, found: &Found) -> String {
    let parameters: Vec<String> = found.parameters().collect();
    if parameters.is_empty() {
        name.to_owned()
    } else {
        format!("{name}<{}>", parameters.join(", "))
    }
}

fn fields(
    fields: &Fields,
    indent: &str,
    is_certain: bool,
    uses: &mut Uses<'_>,
) -> Result<String, String> {
    let mut text = String::new();
    let mark = if is_certain { "" } else { "?" };
    for field in fields {
        let said = serde(&field.attrs)?;
        if said.flatten {
            text += &flattened(&field.ty, indent, uses)?;
            continue;
        }
        let plain = field.ident.as_ref().map(ToString::to_string);
        let Some(name) = said.rename.or(plain).filter(|_| !said.skip) else {
            continue;
        };
        let doc = documentation(&field.attrs, indent);
        let shape = of_type(&field.ty, uses).map_err(|why| format!("{name}: {why}"))?;
        let _ = writeln!(text, "{doc}{indent}{name}{mark}: {shape};");
    }
    Ok(text)
}

/// The fields of a struct whose fields stand among those of another, all of them or, of an `Option`,
/// all or none.
fn flattened(rust: &Type, indent: &str, uses: &mut Uses<'_>) -> Result<String, String> {
    let (name, is_certain) = match inside_option(rust) {
        Some(inner) => (last_name(inner), false),
        None => (last_name(rust), true),
    };
    let name = name.ok_or("only a plain struct can be flattened")?;
    let found = uses.known.find(&name, Some(uses.by))?;
    let mut inner = Uses {
        known: uses.known,
        by: found,
        found: Vec::new(),
    };
    let text = match &found.item {
        Item::Struct(item) => fields(&item.fields, indent, is_certain, &mut inner)?,
        Item::Enum(item) => choices(item, indent, &mut inner)?,
        _ => return Err(format!("{name} is flattened and has no fields")),
    };
    uses.found.extend(inner.found);
    Ok(text)
}

/// A field for each variant of a flattened enumeration, of which one is there at most.
fn choices(item: &syn::ItemEnum, indent: &str, uses: &mut Uses<'_>) -> Result<String, String> {
    let said = serde(&item.attrs)?;
    let mut text = String::new();
    for variant in &item.variants {
        let plain = variant.ident.to_string();
        let name = match serde(&variant.attrs)?.rename {
            Some(word) => word,
            None if said.snake_case => snake_case(&plain),
            None => plain,
        };
        let one = match &variant.fields {
            Fields::Unnamed(inner) if inner.unnamed.len() == 1 => inner.unnamed.first(),
            _ => None,
        };
        let one = one.ok_or("a flattened enumeration has one value in each variant")?;
        let doc = documentation(&variant.attrs, indent);
        let shape = of_type(&one.ty, uses)?;
        let _ = writeln!(text, "{doc}{indent}{name}?: {shape};");
    }
    Ok(text)
}

/// What an `Option` may hold.
fn inside_option(rust: &Type) -> Option<&Type> {
    let Type::Path(path) = rust else { return None };
    let last = path.path.segments.last()?;
    match &last.arguments {
        PathArguments::AngleBracketed(arguments) if last.ident == "Option" => {
            arguments.args.iter().find_map(|argument| match argument {
                GenericArgument::Type(inner) => Some(inner),
                _ => None,
            })
        }
        _ => None,
    }
}

fn last_name(rust: &Type) -> Option<String> {
    match rust {
        Type::Path(path) => path.path.segments.last().map(|last| last.ident.to_string()),
        _ => None,
    }
}

fn of_type(rust: &Type, uses: &mut Uses<'_>) -> Result<String, String> {
    match rust {
        Type::Reference(inner) => of_type(&inner.elem, uses),
        Type::Array(list) => Ok(format!("{}[]", grouped(of_type(&list.elem, uses)?))),
        Type::Tuple(tuple) => {
            let inner: Result<Vec<_>, _> = tuple.elems.iter().map(|t| of_type(t, uses)).collect();
            Ok(format!("[{}]", inner?.join(", ")))
        }
        Type::Path(path) => {
            let Some(last) = path.path.segments.last() else {
                return Err("an empty path".into());
            };
            let mut inner = Vec::new();
            if let PathArguments::AngleBracketed(arguments) = &last.arguments {
                for argument in &arguments.args {
                    if let GenericArgument::Type(inner_type) = argument {
                        inner.push(of_type(inner_type, uses)?);
                    }
                }
            }
            named(&last.ident.to_string(), &inner, uses)
        }
        _ => Err("this form of type is not understood".into()),
    }
}

fn named(name: &str, inner: &[String], uses: &mut Uses<'_>) -> Result<String, String> {
    let mut last_first = inner.iter().rev().cloned();
    Ok(match (name, last_first.next(), last_first.next()) {
        ("String" | "str", None, _) => "string".into(),
        ("bool", None, _) => "boolean".into(),
        ("f64" | "u8" | "u16" | "u32" | "i32" | "usize" | "u64" | "i64", None, _) => {
            "number".into()
        }
        ("Box" | "Cow", Some(one), None) => one,
        ("Option", Some(one), None) => format!("{one} | null"),
        ("Vec" | "BTreeSet", Some(one), None) => format!("{}[]", grouped(one)),
        ("BTreeMap", Some(value), Some(_)) => format!("Record<string, {value}>"),
        (name, None, _) => match BY_HAND.iter().find(|(by_hand, _)| *by_hand == name) {
            Some((_, quantity)) => (*quantity).to_owned(),
            None => uses.name(name)?,
        },
        ("HashMap" | "HashSet" | "Result" | "Rc" | "Arc", _, _) => {
            return Err(format!("{name}<...> is not understood"));
        }
        (name, _, _) => {
            format!("{}<{}>", uses.name(name)?, inner.join(", "))
        }
    })
}

fn grouped(shape: String) -> String {
    if shape.contains(" | ") {
        format!("({shape})")
    } else {
        shape
    }
}

/// The documentation of an item up to its first example or heading.
fn documentation(attributes: &[Attribute], indent: &str) -> String {
    let mut lines: Vec<String> = Vec::new();
    for attribute in attributes.iter().filter(|a| a.path().is_ident("doc")) {
        if let syn::Meta::NameValue(meta) = &attribute.meta
            && let syn::Expr::Lit(literal) = &meta.value
            && let syn::Lit::Str(line) = &literal.lit
        {
            let line = line.value().trim().to_owned();
            if line.starts_with("```") || line.starts_with('#') {
                break;
            }
            lines.push(line.replace("*/", "* /"));
        }
    }
    while lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    match lines.as_slice() {
        [] => String::new(),
        [one] => format!("{indent}/** {one} */\n"),
        many => {
            let body: String = many.iter().fold(String::new(), |mut body, line| {
                let _ = writeln!(body, "{}", format!("{indent} * {line}").trim_end());
                body
            });
            format!("{indent}/**\n{body}{indent} */\n")
        }
    }
}

fn snake_case(name: &str) -> String {
    let mut text = String::new();
    for c in name.chars() {
        if c.is_uppercase() && !text.is_empty() {
            text.push('_');
        }
        text.extend(c.to_lowercase());
    }
    text
}
