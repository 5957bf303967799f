//! What the header says, as a table: its structures, its calls, and a way to make each.

use lashwork_c::status::lw_status;
use std::ffi::c_void;

/// A value that is no pointer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Number {
    /// `double`
    Double,
    /// `int64_t`
    Whole,
    /// `size_t`
    Size,
    /// `uint32_t`
    Choice,
    /// `uint8_t`
    Byte,
    /// `char`
    Letter,
}

/// Whether the library reads or writes there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Way {
    In,
    Out,
}

/// What a field or parameter is.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Kind {
    Number(Number),
    /// Numbers, as many as a count says.
    Column(Number, Way),
    /// A structure, by its place in [`RECORDS`].
    Record(usize, Way),
    Text,
    Engine,
    Plan,
    NewEngine,
    NewPlan,
    NewText,
    Error,
}

#[derive(Debug)]
pub(crate) struct Field {
    pub(crate) name: &'static str,
    pub(crate) kind: Kind,
    /// Bytes from the beginning of its structure.
    pub(crate) at: usize,
}

#[derive(Debug)]
pub(crate) struct Record {
    pub(crate) name: &'static str,
    pub(crate) size: usize,
    pub(crate) fields: &'static [Field],
}

#[derive(Debug)]
pub(crate) struct Call {
    pub(crate) name: &'static str,
    pub(crate) parameters: &'static [Field],
    pub(crate) make: fn(&Arguments) -> lw_status,
}

/// The arguments of one call.
#[derive(Debug, Default)]
pub(crate) struct Arguments(pub(crate) Vec<Argument>);

#[derive(Clone, Copy, Debug)]
pub(crate) enum Argument {
    Pointer(*mut c_void),
    Bits(u64),
}

impl Arguments {
    fn bits(&self, i: usize) -> u64 {
        match self.0.get(i) {
            Some(Argument::Bits(bits)) => *bits,
            other => unreachable!("argument {i} is {other:?}"),
        }
    }
    fn pointer(&self, i: usize) -> *mut c_void {
        match self.0.get(i) {
            Some(Argument::Pointer(pointer)) => *pointer,
            other => unreachable!("argument {i} is {other:?}"),
        }
    }
    fn double(&self, i: usize) -> f64 {
        f64::from_bits(self.bits(i))
    }
    fn whole(&self, i: usize) -> i64 {
        self.bits(i).cast_signed()
    }
    #[allow(
        clippy::cast_possible_truncation,
        reason = "it was put there as 32 bits"
    )]
    fn choice(&self, i: usize) -> u32 {
        self.bits(i) as u32
    }
    #[allow(clippy::cast_possible_truncation, reason = "the table is for 64 bits")]
    fn size(&self, i: usize) -> usize {
        self.bits(i) as usize
    }
}

include!(concat!(env!("OUT_DIR"), "/table.rs"));
