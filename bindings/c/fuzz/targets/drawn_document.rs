//! Any bytes as a document that the schema draws from them, held against what must be so of every answer.
#![no_main]

use lashwork_tests::drawn::{Drawer, hold};
use std::sync::OnceLock;

static DRAWER: OnceLock<Drawer> = OnceLock::new();

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    let drawer = DRAWER.get_or_init(|| Drawer::new().expect("the schema and the vectors"));
    let document = drawer.document(data);
    if let Err(why) = hold(&document) {
        panic!("{why}\n{document}");
    }
});
