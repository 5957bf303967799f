//! Any bytes as a document: an answer or a refusal, never anything else, and nothing leaks.
#![no_main]

use lashwork_c::document::{lw_job_sheet, lw_run, lw_validate};
use lashwork_c::error::{lw_error, lw_error_free};
use lashwork_c::status::lw_status;
use lashwork_c::text::{lw_text, lw_text_free};
use std::ptr::null_mut;

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    let (document, len) = (data.as_ptr().cast(), data.len());
    let mut text = lw_text {
        data: null_mut(),
        len: 0,
    };
    let mut error: *mut lw_error = null_mut();
    // SAFETY: the document is readable for its length, text and error are locals.
    unsafe {
        assert_eq!(
            lw_run(document, len, &raw mut text, &raw mut error),
            lw_status::Ok
        );
        let answer = std::slice::from_raw_parts(text.data.cast::<u8>(), text.len);
        let answer: serde_json::Value = serde_json::from_slice(answer).expect("JSON");
        let is_report = answer.get("report").is_some();
        assert_ne!(is_report, answer.get("problems").is_some());
        lw_text_free(&raw mut text);

        let expected = if is_report {
            lw_status::Ok
        } else {
            lw_status::Refused
        };
        assert_eq!(
            lw_job_sheet(document, len, &raw mut text, &raw mut error),
            expected
        );
        lw_text_free(&raw mut text);
        lw_error_free(error);
        assert_eq!(lw_validate(document, len, null_mut()), expected);
    }
});
