//! The part of the JavaScript package that judges single readings. It is a WebAssembly file of its own,
//! a quarter of the whole one, for pages that must answer at once; the whole one has these functions too.
//!
//! Uses `lashwork-wire`.
#![allow(
    clippy::must_use_candidate,
    reason = "JavaScript sees no such attribute"
)]

use wasm_bindgen::prelude::wasm_bindgen;

/// Answers a quick check with JSON: `{"quick": ...}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn quick_check(check: &[u8]) -> Vec<u8> {
    lashwork_wire::quick_check(check)
}

/// Fills `out` with the shares of a histogram; the answer is `{"filled": n}` or
/// `{"problems": [...]}`.
#[wasm_bindgen]
pub fn shares(
    low: f64,
    high: f64,
    uncertainty: f64,
    from: f64,
    to: f64,
    out: &mut [f64],
) -> Vec<u8> {
    lashwork_wire::shares_told((low, high), uncertainty, (from, to), out)
}

/// A gap in a unit; the answer is `{"text": ...}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn lash_text(mm: f64, unit: &str, decimals: u32) -> Vec<u8> {
    lashwork_wire::lash_text_told(mm, unit, decimals as usize)
}

/// A temperature in a unit; the answer is `{"text": ...}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn temperature_text(celsius: f64, unit: &str, decimals: u32) -> Vec<u8> {
    lashwork_wire::temperature_text_told(celsius, unit, decimals as usize)
}

/// The version of lashwork.
#[wasm_bindgen]
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}
