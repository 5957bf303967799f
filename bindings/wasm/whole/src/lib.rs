//! The JavaScript package of lashwork, but for columns of readings. Each function makes one call and moves the
//! answer out; types, argument checks and the error class are in `js/`. The functions for single readings are
//! those of the small file.
//!
//! Uses `lashwork-wire`.
#![allow(
    clippy::must_use_candidate,
    reason = "JavaScript sees no such attribute"
)]

#[path = "../../quick/src/lib.rs"]
pub mod quick;

use wasm_bindgen::prelude::wasm_bindgen;

/// Answers a document with JSON: `{"report": ...}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn run(document: &[u8]) -> Vec<u8> {
    lashwork_wire::run(document)
}

/// Answers a document with its job sheet of one page: `{"sheet": ...}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn job_sheet(document: &[u8]) -> Vec<u8> {
    lashwork_wire::job_sheet_told(document)
}

/// Answers a document with its full sheet: `{"sheet": ...}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn full_sheet(document: &[u8]) -> Vec<u8> {
    lashwork_wire::full_sheet_told(document)
}

/// Numbers of a row in what `judge_columns` writes.
#[wasm_bindgen]
pub fn outputs() -> usize {
    lashwork_wire::OUTPUTS
}

/// Works out lambda of columns of analyses into `out`, three numbers a row; the answer is
/// `{"refused": [...]}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn lambda_columns(
    settings: &[u8],
    co2: &[f64],
    co: &[f64],
    o2: &[f64],
    hc_ppm: &[f64],
    out: &mut [f64],
) -> Vec<u8> {
    lashwork_wire::lambda_columns_told(settings, [co2, co, o2, hc_ppm], out)
}

/// Works out the density of columns of readings of the air into `out`; the answer is `{"refused": [...]}` or
/// `{"problems": [...]}`.
#[wasm_bindgen]
pub fn density_columns(
    settings: &[u8],
    kpa: &[f64],
    celsius: &[f64],
    percent: &[f64],
    out: &mut [f64],
) -> Vec<u8> {
    lashwork_wire::density_columns_told(settings, [kpa, celsius, percent], out)
}

/// Works out the areas of columns of leak-down readings into `out`, three numbers a row; the answer is
/// `{"refused": [...]}` or `{"problems": [...]}`.
#[wasm_bindgen]
pub fn leak_columns(settings: &[u8], shown: &[f64], air: &[f64], out: &mut [f64]) -> Vec<u8> {
    lashwork_wire::leak_columns_told(settings, [shown, air], out)
}

/// Works out the drift of columns of past readings into `out`, four numbers a valve; the answer is
/// `{"refused": [...]}` or `{"problems": [...]}`.
#[wasm_bindgen]
#[expect(clippy::too_many_arguments, reason = "a column each")]
pub fn drift_columns(
    settings: &[u8],
    at: &[f64],
    low: &[f64],
    high: &[f64],
    uncertainty: &[f64],
    valve: &[f64],
    state: &[f64],
    out: &mut [f64],
) -> Vec<u8> {
    let readings = lashwork_wire::DriftReadings {
        at,
        low,
        high,
        uncertainty,
        valve,
        state,
    };
    lashwork_wire::drift_columns_told(settings, &readings, out)
}
