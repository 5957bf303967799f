//! The part of the JavaScript package that answers questions of the ignition which need no engine: dwell and
//! gap, one point by every tool, a winding, the coil, the advance. It is a WebAssembly file of its own, for
//! pages that ask nothing else.
//!
//! Uses `lashwork-wire`.
#![allow(
    clippy::must_use_candidate,
    reason = "JavaScript sees no such attribute"
)]

use wasm_bindgen::prelude::wasm_bindgen;

/// Answers questions of the ignition with JSON: `{"ignition": ...}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn ignition_check(check: &[u8]) -> Vec<u8> {
    lashwork_wire::ignition_check(check)
}

/// The version of lashwork.
#[wasm_bindgen]
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}
