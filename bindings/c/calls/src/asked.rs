//! The arguments of one call, and the memory they lead to.

use crate::block::Block;
use crate::made::Made;
use crate::source::{below, bits, once_in, some, text};
use crate::table::{Argument, Arguments, Call, Field, Kind, Number, RECORDS, Record, Way};
use arbitrary::Unstructured;
use lashwork_c::engine::lw_engine;
use lashwork_c::error::lw_error;
use lashwork_c::plan::lw_plan;
use lashwork_c::text::lw_text;
use std::ffi::c_void;
use std::ptr::null_mut;

/// Bytes beyond the structure that this header knows, for one that says it is longer.
const BEYOND: usize = 64;
/// Most rows of a column.
const ROWS: usize = 12;
/// What stands where the library is to write.
const UNTOUCHED: u64 = 0x5a5a_5a5a_5a5a_5a5a;
/// Fields and parameters that say how long columns are.
const COUNTS: [&str; 7] = [
    "rows",
    "points",
    "throttles",
    "joints",
    "cylinders",
    "capacity",
    "valves",
];

/// The places where a call puts what is new.
#[derive(Debug)]
pub(crate) struct New {
    pub(crate) engine: *mut lw_engine,
    pub(crate) plan: *mut lw_plan,
    pub(crate) text: lw_text,
    pub(crate) error: *mut lw_error,
}

impl Default for New {
    fn default() -> Self {
        Self {
            engine: null_mut(),
            plan: null_mut(),
            text: lw_text {
                data: null_mut(),
                len: 0,
            },
            error: null_mut(),
        }
    }
}

/// The arguments of a call, and all memory that they lead to.
#[derive(Debug, Default)]
pub(crate) struct Asked {
    pub(crate) arguments: Arguments,
    pub(crate) blocks: Vec<Block>,
    /// What stood in the blocks before the call.
    pub(crate) before: Vec<Vec<u64>>,
    pub(crate) wants_error: bool,
    rows: usize,
}

impl Asked {
    pub(crate) fn of(
        call: &Call,
        made: &Made,
        new: *mut New,
        source: &mut Unstructured<'_>,
    ) -> Self {
        let mut asked = Self {
            rows: below(source, ROWS + 1),
            ..Self::default()
        };
        for (i, field) in call.parameters.iter().enumerate() {
            let next = call.parameters.get(i + 1).map_or("", |next| next.name);
            let argument = asked.argument(field, next, (made, new), source);
            asked.arguments.0.push(argument);
        }
        asked.before = asked.seen();
        asked
    }

    fn argument(
        &mut self,
        field: &Field,
        next: &str,
        (made, new): (&Made, *mut New),
        source: &mut Unstructured<'_>,
    ) -> Argument {
        // SAFETY: only places in it are taken.
        let (engine, plan, text, error) = unsafe {
            (
                &raw mut (*new).engine,
                &raw mut (*new).plan,
                &raw mut (*new).text,
                &raw mut (*new).error,
            )
        };
        let is_missing = once_in(source, 24);
        let pointer = match field.kind {
            Kind::Number(_) if field.name == "len" => {
                let bytes = self.blocks.last().map_or(0, Block::len);
                return Argument::Bits(bytes as u64);
            }
            Kind::Number(number) => return Argument::Bits(self.number(field.name, number, source)),
            Kind::Error => {
                self.wants_error = !is_missing;
                error.cast()
            }
            Kind::Text => self.text(source),
            _ if is_missing => null_mut(),
            Kind::Column(number, way) => {
                let len = if next == "capacity" { self.rows } else { 1 };
                self.column(field.name, number, way, len, source)
            }
            Kind::Record(which, way) => RECORDS
                .get(which)
                .map_or(null_mut(), |record| self.record(record, way, source)),
            Kind::Engine => made.engine.cast(),
            Kind::Plan => made.plan.cast(),
            Kind::NewEngine => engine.cast(),
            Kind::NewPlan => plan.cast(),
            Kind::NewText => text.cast(),
        };
        Argument::Pointer(match field.kind {
            Kind::Error if is_missing => null_mut(),
            _ => pointer,
        })
    }

    /// A number; one that says how long columns are is never more than they are.
    fn number(&self, name: &str, number: Number, source: &mut Unstructured<'_>) -> u64 {
        if !COUNTS.contains(&name) {
            return bits(source, name, number);
        }
        let is_less = once_in(source, 8);
        let count = if is_less {
            below(source, self.rows)
        } else {
            self.rows
        };
        count as u64
    }

    fn text(&mut self, source: &mut Unstructured<'_>) -> *mut c_void {
        let text = text(source);
        let block = Block::of(Number::Letter, text.len(), false);
        for (at, byte) in text.iter().enumerate() {
            block.set(at, u64::from(*byte));
        }
        self.add(block)
    }

    fn column(
        &mut self,
        name: &str,
        number: Number,
        way: Way,
        len: usize,
        source: &mut Unstructured<'_>,
    ) -> *mut c_void {
        let block = Block::of(number, len, way == Way::Out);
        let mut values: Vec<u64> = match way {
            Way::In => (0..len).map(|_| bits(source, name, number)).collect(),
            Way::Out => vec![UNTOUCHED; len],
        };
        // Every cylinder fires once.
        if name == "firing_order" && once_in(source, 2) {
            values = (1..=len as u64).collect();
        }
        // Speeds, points of a curve and times stand in their order.
        if way == Way::In && number == Number::Double && once_in(source, 2) {
            values.sort_by(|one, other| f64::from_bits(*one).total_cmp(&f64::from_bits(*other)));
        }
        for (at, bits) in values.iter().enumerate() {
            block.set(at, *bits);
        }
        let pointer = self.add(block);
        // One that is not where such a number may stand is refused before it is used.
        if len > 1 && number != Number::Byte && number != Number::Letter && once_in(source, 64) {
            return pointer.wrapping_byte_add(1);
        }
        pointer
    }

    /// A structure with all that it leads to.
    fn record(&mut self, record: &Record, way: Way, source: &mut Unstructured<'_>) -> *mut c_void {
        let stated = if once_in(source, 16) {
            usize::from(some::<u16>(source)) % (record.size + BEYOND + 1)
        } else {
            record.size
        };
        let len = stated.max(record.size).div_ceil(8);
        let mut block = Block::of(Number::Size, len, way == Way::Out);
        let lacks_columns = once_in(source, 2);
        for field in record.fields {
            let at = field.at;
            match field.kind {
                Kind::Number(_) if at == 0 => block.set(0, stated as u64),
                Kind::Number(number) => {
                    let value = match way {
                        Way::In => self.number(field.name, number, source),
                        Way::Out => UNTOUCHED,
                    };
                    if number == Number::Choice {
                        block.set_four(at, value);
                    } else {
                        block.set(at / 8, value);
                    }
                }
                _ if lacks_columns && once_in(source, 3) => block.set_pointer(at, null_mut()),
                Kind::Column(number, way) => {
                    let column = self.column(field.name, number, way, self.rows, source);
                    block.set_pointer(at, column);
                }
                Kind::Record(which, way) => {
                    let inner = RECORDS
                        .get(which)
                        .map(|inner| self.record(inner, way, source));
                    block.set_pointer(at, inner.unwrap_or(null_mut()));
                }
                other => unreachable!("{} holds {other:?}", record.name),
            }
        }
        self.add(block)
    }

    fn add(&mut self, block: Block) -> *mut c_void {
        let pointer = block.pointer();
        self.blocks.push(block);
        pointer
    }
}
