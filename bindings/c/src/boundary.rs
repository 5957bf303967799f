//! Where a panic and a refusal become a status.

use crate::error::lw_error;
use crate::status::lw_status;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// What the inside of a call gives back: nothing, or the error to hand over.
pub(crate) type Outcome<T = ()> = Result<T, Box<lw_error>>;

/// Runs the inside of a call; nothing but a status leaves it.
///
/// # Safety
/// `error` is null or writable.
pub(crate) unsafe fn boundary(
    error: *mut *mut lw_error,
    work: impl FnOnce() -> Outcome,
) -> lw_status {
    // Nothing that a panic could leave half done is looked at again: the core has no state, and the
    // caller is told not to use the outputs.
    let refused = match catch_unwind(AssertUnwindSafe(work)) {
        Ok(Ok(())) => return lw_status::Ok,
        Ok(Err(refused)) => refused,
        Err(_) => lw_error::panic(),
    };
    let status = refused.status();
    if !error.is_null() {
        // SAFETY: not null, so writable by the contract above; what stood there is not read.
        unsafe { error.write(Box::into_raw(refused)) };
    }
    status
}

/// Panics inside the boundary, to prove that it holds. Built for tests alone.
///
/// # Safety
/// `error` is null or writable.
#[cfg(lashwork_injected_panic)]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_injected_panic(error: *mut *mut lw_error) -> lw_status {
    #[expect(clippy::panic, reason = "the panic is what is tested")]
    // SAFETY: passed on under the same contract.
    unsafe {
        boundary(error, || panic!("injected"))
    }
}

#[cfg(test)]
mod tests {
    use super::boundary;
    use crate::error::{lw_error, lw_error_code, lw_error_free, lw_error_message};
    use crate::status::lw_status;
    use std::ffi::CStr;
    use std::ptr;

    #[test]
    fn a_panic_becomes_a_status_with_text() {
        let mut error: *mut lw_error = ptr::null_mut();
        // SAFETY: `error` is a local; the texts live as long as it does.
        unsafe {
            assert_eq!(
                boundary(&raw mut error, || panic!("injected")),
                lw_status::Panic
            );
            assert_eq!(CStr::from_ptr(lw_error_code(error)), c"c.panic");
            let message = CStr::from_ptr(lw_error_message(error));
            assert!(message.to_string_lossy().contains("defect"));
            lw_error_free(error);
        }
    }

    #[test]
    fn nobody_has_to_want_the_error() {
        // SAFETY: a null error is allowed.
        let status = unsafe { boundary(ptr::null_mut(), || panic!("injected")) };
        assert_eq!(status, lw_status::Panic);
    }
}
