//! Memory of the caller: as long as it must be and no longer, so that a sanitizer sees one step too far.

use crate::table::Number;
use std::ffi::c_void;
use std::ptr::slice_from_raw_parts_mut;

/// So many items of one width, reached through its pointer alone.
#[derive(Debug)]
pub(crate) struct Block {
    start: Start,
    len: usize,
    /// Whether a pointer was put in: its bits are not read then.
    holds_pointers: bool,
    /// Whether the library may write there.
    is_written: bool,
}

#[derive(Clone, Copy, Debug)]
enum Start {
    Eight(*mut u64),
    Four(*mut u32),
    One(*mut u8),
}

fn boxed<T: Default + Clone>(len: usize) -> *mut T {
    Box::into_raw(vec![T::default(); len].into_boxed_slice()).cast()
}

impl Block {
    /// Room for so many numbers, all 0.
    pub(crate) fn of(number: Number, len: usize, is_written: bool) -> Self {
        let start = match number {
            Number::Double | Number::Whole | Number::Size => Start::Eight(boxed(len)),
            Number::Choice => Start::Four(boxed(len)),
            Number::Byte | Number::Letter => Start::One(boxed(len)),
        };
        Self {
            start,
            len,
            holds_pointers: false,
            is_written,
        }
    }

    pub(crate) fn pointer(&self) -> *mut c_void {
        match self.start {
            Start::Eight(start) => start.cast(),
            Start::Four(start) => start.cast(),
            Start::One(start) => start.cast(),
        }
    }

    /// Sets an item, or those bits of it that it has.
    #[allow(
        clippy::cast_possible_truncation,
        reason = "a narrow item has the low bits"
    )]
    pub(crate) fn set(&self, at: usize, bits: u64) {
        assert!(at < self.len, "an item that is not there");
        // SAFETY: within the block, which is this one's alone.
        unsafe {
            match self.start {
                Start::Eight(start) => start.add(at).write(bits),
                Start::Four(start) => start.add(at).write(bits as u32),
                Start::One(start) => start.add(at).write(bits as u8),
            }
        }
    }

    /// Sets four bytes of a structure to the low ones.
    #[allow(clippy::cast_possible_truncation, reason = "the low bits are meant")]
    pub(crate) fn set_four(&self, at_byte: usize, bits: u64) {
        assert!(at_byte + 4 <= self.len * 8 && at_byte.is_multiple_of(4));
        let value = bits as u32;
        // SAFETY: within the block, and aligned.
        unsafe { self.pointer().byte_add(at_byte).cast::<u32>().write(value) }
    }

    /// Sets a pointer of a structure.
    pub(crate) fn set_pointer(&mut self, at_byte: usize, value: *mut c_void) {
        assert!(at_byte + 8 <= self.len * 8 && at_byte.is_multiple_of(8));
        self.holds_pointers = true;
        // SAFETY: within the block, and aligned.
        unsafe {
            let place = self.pointer().byte_add(at_byte);
            place.cast::<*mut c_void>().write(value);
        }
    }

    /// All bits that stand there; nothing of a structure that holds pointers, which the library only reads.
    pub(crate) fn seen(&self) -> Vec<u64> {
        if self.holds_pointers {
            return Vec::new();
        }
        // SAFETY: within the block, whose items were all set.
        let item = |at: usize| unsafe {
            match self.start {
                Start::Eight(start) => start.add(at).read(),
                Start::Four(start) => u64::from(start.add(at).read()),
                Start::One(start) => u64::from(start.add(at).read()),
            }
        };
        (0..self.len).map(item).collect()
    }

    /// Puts back what was seen.
    pub(crate) fn put_back(&self, seen: &[u64]) {
        for (at, bits) in seen.iter().enumerate() {
            self.set(at, *bits);
        }
    }

    /// How many items there are.
    pub(crate) fn len(&self) -> usize {
        self.len
    }

    pub(crate) fn is_written(&self) -> bool {
        self.is_written
    }
}

impl Drop for Block {
    fn drop(&mut self) {
        // SAFETY: made by `boxed` with this length, and dropped once.
        unsafe {
            match self.start {
                Start::Eight(start) => {
                    drop(Box::from_raw(slice_from_raw_parts_mut(start, self.len)));
                }
                Start::Four(start) => {
                    drop(Box::from_raw(slice_from_raw_parts_mut(start, self.len)));
                }
                Start::One(start) => drop(Box::from_raw(slice_from_raw_parts_mut(start, self.len))),
            }
        }
    }
}
