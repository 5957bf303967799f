//! What is checked of a pointer before it is used, and the only places that read and write through
//! one.
//!
//! A structure begins with its own size as the caller's header knew it (`struct_size`). One that is
//! shorter than this library's is read as if the fields it lacks were zero, once there are later
//! fields; one that is longer is taken if all it has beyond is zero. No header has a size that is not a multiple of
//! its alignment: it would end within a pointer.

use crate::boundary::Outcome;
use crate::error::lw_error;
use crate::status::lw_status;
use std::mem::MaybeUninit;
use std::str::{Utf8Error, from_utf8};

/// No structure will ever be longer; a greater size is memory that was never set.
const LONGEST_STRUCT: usize = 4096;

/// A structure that may grow.
///
/// # Safety
/// `repr(C)`, its first field is the size as a `usize`, it holds integers, floats and raw pointers
/// only (so that any bits are a value), and it has no padding that matters.
pub(crate) unsafe trait Record: Copy {
    /// Its size when it was first published.
    const FIRST_SIZE: usize;
}

fn check<T>(name: &'static str, pointer: *const T) -> Outcome {
    if pointer.is_null() {
        return Err(lw_error::of(lw_status::NullPointer, name, || {
            format!("{name} is NULL")
        }));
    }
    if !pointer.is_aligned() {
        return Err(lw_error::of(lw_status::Misaligned, name, || {
            format!("{name} is not a multiple of {}", align_of::<T>())
        }));
    }
    Ok(())
}

/// A place of the caller that is written once, at the end.
#[derive(Debug)]
pub(crate) struct Place<T>(*mut T);

impl<T> Place<T> {
    pub(crate) fn write(self, value: T) {
        // SAFETY: `place` promised that it is writable; what stood there is not read.
        unsafe { self.0.write(value) }
    }
}

/// Checks a place for one value.
///
/// # Safety
/// Null, misaligned, or writable during the call.
pub(crate) unsafe fn place<T>(name: &'static str, pointer: *mut T) -> Outcome<Place<T>> {
    check(name, pointer)?;
    Ok(Place(pointer))
}

/// What a handle points to.
///
/// # Safety
/// Null, or a handle of this library that nothing frees during `'a`.
pub(crate) unsafe fn shared<'a, T>(name: &'static str, pointer: *const T) -> Outcome<&'a T> {
    check(name, pointer)?;
    // SAFETY: not null and aligned; the rest is the contract above.
    Ok(unsafe { &*pointer })
}

/// An array to read; one without items is ignored, because an empty container may have none.
///
/// # Safety
/// Null, misaligned, or readable for `len` items that nothing writes during `'a`.
pub(crate) unsafe fn items<'a, T>(
    name: &'static str,
    data: *const T,
    len: usize,
) -> Outcome<&'a [T]> {
    if len == 0 {
        return Ok(&[]);
    }
    check(name, data)?;
    check_length::<T>(name, len)?;
    // SAFETY: not null, aligned and short enough; the rest is the contract above.
    Ok(unsafe { std::slice::from_raw_parts(data, len) })
}

/// An array to read that may be left out.
///
/// # Safety
/// As [`items`].
pub(crate) unsafe fn optional_items<'a, T>(
    name: &'static str,
    data: *const T,
    len: usize,
) -> Outcome<Option<&'a [T]>> {
    if data.is_null() {
        return Ok(None);
    }
    // SAFETY: passed on under the same contract.
    unsafe { items(name, data, len) }.map(Some)
}

/// An array to write; one without items is ignored.
///
/// # Safety
/// Null, misaligned, or writable for `len` items that nothing else reads or writes during `'a`.
pub(crate) unsafe fn room<'a, T>(
    name: &'static str,
    data: *mut T,
    len: usize,
) -> Outcome<&'a mut [MaybeUninit<T>]> {
    if len == 0 {
        return Ok(&mut []);
    }
    check(name, data)?;
    check_length::<T>(name, len)?;
    // SAFETY: not null, aligned and short enough; the rest is the contract above.
    Ok(unsafe { std::slice::from_raw_parts_mut(data.cast(), len) })
}

/// An array to write that may be left out.
///
/// # Safety
/// As [`room`].
pub(crate) unsafe fn optional_room<'a, T>(
    name: &'static str,
    data: *mut T,
    len: usize,
) -> Outcome<Option<&'a mut [MaybeUninit<T>]>> {
    if data.is_null() {
        return Ok(None);
    }
    // SAFETY: passed on under the same contract.
    unsafe { room(name, data, len) }.map(Some)
}

fn check_length<T>(name: &'static str, len: usize) -> Outcome {
    match len.checked_mul(size_of::<T>()) {
        Some(bytes) if isize::try_from(bytes).is_ok() => Ok(()),
        _ => Err(lw_error::of(lw_status::OutOfBounds, name, || {
            format!("{name} cannot have {len} items")
        })),
    }
}

/// Bytes to read; NULL is refused even if there are none.
///
/// # Safety
/// As [`items`].
pub(crate) unsafe fn bytes<'a>(
    name: &'static str,
    data: *const std::ffi::c_char,
    len: usize,
) -> Outcome<&'a [u8]> {
    check(name, data)?;
    // SAFETY: passed on under the same contract.
    unsafe { items(name, data.cast::<u8>(), len) }
}

/// Text to read.
///
/// # Safety
/// As [`bytes`].
pub(crate) unsafe fn text<'a>(
    name: &'static str,
    data: *const std::ffi::c_char,
    len: usize,
) -> Outcome<&'a str> {
    // SAFETY: passed on under the same contract.
    let bytes = unsafe { bytes(name, data, len) }?;
    from_utf8(bytes).map_err(|why: Utf8Error| {
        lw_error::of(lw_status::NotUtf8, name, || format!("{name}: {why}"))
    })
}

/// Writes all items of an array, or says how many there are.
///
/// # Safety
/// `data` as [`room`], null only if `capacity` is zero; `count` as [`place`].
pub(crate) unsafe fn fill<T: Copy>(
    name: &'static str,
    values: &[T],
    (data, capacity): (*mut T, usize),
    count: *mut usize,
) -> Outcome {
    // SAFETY: passed on under the same contract.
    let count = unsafe { place("count", count) }?;
    // SAFETY: as above.
    let array = unsafe { room(name, data, capacity) }?;
    count.write(values.len());
    if values.len() > capacity {
        return Err(lw_error::of(lw_status::ShortBuffer, name, || {
            format!(
                "{name} has room for {capacity}, {} are needed",
                values.len()
            )
        }));
    }
    for (to, from) in array.iter_mut().zip(values) {
        to.write(*from);
    }
    Ok(())
}

fn check_size<T: Record>(name: &'static str, size: usize) -> Outcome {
    let is_of_a_header = size.is_multiple_of(align_of::<T>());
    if is_of_a_header && (T::FIRST_SIZE..=LONGEST_STRUCT).contains(&size) {
        return Ok(());
    }
    Err(lw_error::of(lw_status::StructSize, name, || {
        let own = size_of::<T>();
        format!("{name} states a size of {size}, this library knows {own}")
    }))
}

/// Where a structure of another size goes.
pub(crate) const fn spare<T: Record>() -> MaybeUninit<T> {
    MaybeUninit::uninit()
}

/// A structure to read where it lies, or from `spare` if its size is not this library's.
///
/// Copied first, it would cost more than all else that a cheap call does: the processor waits where a
/// load spans two stores that are under way.
///
/// # Safety
/// Null, misaligned, or readable during `'a` for as many bytes as its first field says, and nothing
/// writes there.
pub(crate) unsafe fn seen<'a, T: Record>(
    name: &'static str,
    pointer: *const T,
    spare: &'a mut MaybeUninit<T>,
) -> Outcome<&'a T> {
    check(name, pointer)?;
    // SAFETY: every record begins with its size.
    let size = unsafe { pointer.cast::<usize>().read() };
    if size == size_of::<T>() {
        // SAFETY: readable for its size, and a record takes any bits.
        return Ok(unsafe { &*pointer });
    }
    // SAFETY: passed on under the same contract.
    unsafe { of_other_size(name, pointer, size, spare) }
}

/// A copy of a structure.
///
/// # Safety
/// As [`seen`].
pub(crate) unsafe fn record<T: Record>(name: &'static str, pointer: *const T) -> Outcome<T> {
    // SAFETY: passed on under the same contract.
    unsafe { seen(name, pointer, &mut spare()).copied() }
}

/// A structure of an older or a newer header, copied over zeros of this library's size.
///
/// # Safety
/// Readable for `size` bytes.
#[cold]
unsafe fn of_other_size<'s, T: Record>(
    name: &'static str,
    pointer: *const T,
    size: usize,
    spare: &'s mut MaybeUninit<T>,
) -> Outcome<&'s T> {
    check_size::<T>(name, size)?;
    let own = size_of::<T>();
    *spare = MaybeUninit::zeroed();
    // SAFETY: readable for `size` bytes, and the copy is no longer than either.
    unsafe {
        pointer
            .cast::<u8>()
            .copy_to_nonoverlapping(spare.as_mut_ptr().cast(), size.min(own));
    }
    if size > own {
        // SAFETY: readable for `size` bytes.
        let beyond =
            unsafe { std::slice::from_raw_parts(pointer.cast::<u8>().add(own), size - own) };
        if beyond.iter().any(|byte| *byte != 0) {
            return Err(lw_error::of(lw_status::StructSize, name, || {
                format!("{name} sets fields that this library does not know yet")
            }));
        }
    }
    // SAFETY: a record takes any bits, and all of them are set.
    Ok(unsafe { spare.assume_init_ref() })
}

/// A structure of the caller that is written once, at the end, as long as the caller knows it.
#[derive(Debug)]
pub(crate) struct RecordPlace<T> {
    pointer: *mut T,
    size: usize,
}

impl<T: Record> RecordPlace<T> {
    pub(crate) fn write(self, value: &T) {
        let own = size_of::<T>();
        if self.size == own {
            // SAFETY: `record_place` promised that it is writable; the size is put back in front.
            unsafe {
                self.pointer.write(*value);
                self.pointer.cast::<usize>().write(own);
            }
        } else {
            self.write_other_size(value);
        }
    }

    #[cold]
    fn write_other_size(self, value: &T) {
        let own = size_of::<T>();
        let to = self.pointer.cast::<u8>();
        // SAFETY: `record_place` promised that `size` bytes are writable; the copy is no longer than
        // either side, and the size the caller stated is put back in front.
        unsafe {
            std::ptr::from_ref(value)
                .cast::<u8>()
                .copy_to_nonoverlapping(to, self.size.min(own));
            if self.size > own {
                to.add(own).write_bytes(0, self.size - own);
            }
            self.pointer.cast::<usize>().write(self.size);
        }
    }
}

/// Checks a structure to write.
///
/// # Safety
/// Null, misaligned, or writable for as many bytes as its first field says.
pub(crate) unsafe fn record_place<T: Record>(
    name: &'static str,
    pointer: *mut T,
) -> Outcome<RecordPlace<T>> {
    check(name, pointer)?;
    // SAFETY: every record begins with its size.
    let size = unsafe { pointer.cast::<usize>().read() };
    if size != size_of::<T>() {
        check_size::<T>(name, size)?;
    }
    Ok(RecordPlace { pointer, size })
}
