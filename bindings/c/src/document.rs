//! Whole jobs: a document in, a report or a job sheet out.

use crate::boundary::boundary;
use crate::error::lw_error;
use crate::pointers::{bytes, place};
use crate::status::lw_status;
use crate::text::{hand_over, lw_text};
use lashwork::job::Report;
use lashwork_wire::Problem;
use std::ffi::c_char;

impl From<Vec<Problem>> for Box<lw_error> {
    fn from(problems: Vec<Problem>) -> Self {
        let first = problems.first();
        let lines =
            |line: fn(&Problem) -> String| problems.iter().map(line).collect::<Vec<_>>().join("\n");
        lw_error::refused(
            first.map_or("", |p| &p.code),
            lines(|p| format!("{}: {}", p.place, p.message)),
            lines(|p| p.hint.clone()),
        )
        .at(first.map_or("", |p| &p.place))
    }
}

/// Answers a document with JSON: `{"report": ...}`, or `{"problems": [...]}` if it cannot be accepted.
///
/// `document` is `len` bytes, UTF-8 JSON as `lw_document_schema` describes it, at most 4 MiB; read only
/// during the call. A document that is refused still gives `LW_STATUS_OK`: the answer then lists every
/// problem with its place, code, message and hint. On `LW_STATUS_OK` `answer` holds text owned by the
/// caller; otherwise it is untouched. `error` may be NULL. Any thread, several at once.
///
/// # Safety
/// `document` is readable for `len` bytes and `answer` is writable, or they are NULL; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_run(
    document: *const c_char,
    len: usize,
    answer: *mut lw_text,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (document, answer) =
            unsafe { (bytes("document", document, len)?, place("answer", answer)?) };
        hand_over(lashwork_wire::run(document), answer);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Answers a document with the job sheet of one page, for a printer.
///
/// `document` as in `lw_run`. `LW_STATUS_REFUSED` if it cannot be accepted: the error then has every
/// problem in a line of its message, and the code and place of the first. On `LW_STATUS_OK` `sheet`
/// holds text owned by the caller; otherwise it is untouched. `error` may be NULL. Any thread, several
/// at once.
///
/// # Safety
/// As `lw_run`.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_job_sheet(
    document: *const c_char,
    len: usize,
    sheet: *mut lw_text,
    error: *mut *mut lw_error,
) -> lw_status {
    // SAFETY: the contract is passed on.
    unsafe { sheet_of(Report::sheet, document, len, sheet, error) }
}

/// Answers a document with the full sheet: the page of `lw_job_sheet` and everything behind it.
///
/// Arguments, answer and errors as those of `lw_job_sheet`.
///
/// # Safety
/// As `lw_run`.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_full_sheet(
    document: *const c_char,
    len: usize,
    sheet: *mut lw_text,
    error: *mut *mut lw_error,
) -> lw_status {
    // SAFETY: the contract is passed on.
    unsafe { sheet_of(Report::full_sheet, document, len, sheet, error) }
}

/// Answers a document with one of the sheets of its report.
///
/// # Safety
/// As `lw_run`.
unsafe fn sheet_of(
    write: fn(&Report) -> String,
    document: *const c_char,
    len: usize,
    sheet: *mut lw_text,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (document, sheet) =
            unsafe { (bytes("document", document, len)?, place("sheet", sheet)?) };
        hand_over(write(&lashwork_wire::report(document)?), sheet);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Whether `lw_run` would answer a document with a report, and if not, why.
///
/// `document` as in `lw_run`. `LW_STATUS_OK` if it is accepted, `LW_STATUS_REFUSED` if not: the error
/// then has every problem in a line of its message, and the code and place of the first. `error` may be
/// NULL. Any thread, several at once.
///
/// # Safety
/// `document` is readable for `len` bytes or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_validate(
    document: *const c_char,
    len: usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let document = unsafe { bytes("document", document, len) }?;
        lashwork_wire::report(document)?;
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The JSON Schema of a document.
///
/// On `LW_STATUS_OK` `schema` holds text owned by the caller; otherwise it is untouched. `error` may be
/// NULL. Any thread, several at once.
///
/// # Safety
/// `schema` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_document_schema(
    schema: *mut lw_text,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let schema = unsafe { place("schema", schema) }?;
        hand_over(lashwork_wire::document_schema(), schema);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
