//! The documents that the fuzz target starts from, once through the interface without the fuzzer.
#![allow(unsafe_code, reason = "the interface is called as C programs call it")]

use lashwork_c::document::{lw_run, lw_validate};
use lashwork_c::status::lw_status;
use lashwork_c::text::{lw_text, lw_text_free};
use std::path::Path;
use std::ptr::null_mut;

#[test]
fn every_document_of_the_corpus_is_answered() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus/document");
    let mut statuses = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let bytes = std::fs::read(entry.unwrap().path()).unwrap();
        let (document, len) = (bytes.as_ptr().cast(), bytes.len());
        let mut text = lw_text {
            data: null_mut(),
            len: 0,
        };
        // SAFETY: the document is readable for its length, the text is a local.
        let answered = unsafe { lw_run(document, len, &raw mut text, null_mut()) };
        assert_eq!(answered, lw_status::Ok);
        assert!(text.len > 10);
        // SAFETY: as above.
        unsafe {
            lw_text_free(&raw mut text);
            statuses.push(lw_validate(document, len, null_mut()));
        }
    }
    assert!(statuses.contains(&lw_status::Ok) && statuses.contains(&lw_status::Refused));
}
