//! The file for whole jobs: what is in `whole`, built for size, and columns of readings.
//!
//! Columns of readings are compiled where they are called. So this crate is built for speed (`profile.wasm` of the
//! workspace), and the file linked so; little else stands here.
//!
//! Uses `lashwork-wire`.
#![allow(
    clippy::must_use_candidate,
    reason = "JavaScript sees no such attribute"
)]

pub use lashwork_wasm_whole::*;

use wasm_bindgen::prelude::wasm_bindgen;

/// Judges columns of readings into `out`; the answer is `{"refused": [...]}` or `{"problems": [...]}`.
#[wasm_bindgen]
#[expect(clippy::too_many_arguments, reason = "a column each")]
pub fn judge_columns(
    settings: &[u8],
    low: &[f64],
    high: &[f64],
    uncertainty: &[f64],
    lower: &[f64],
    upper: &[f64],
    at: &[f64],
    at_uncertainty: &[f64],
    reference: &[f64],
    mm_per_kelvin: &[f64],
    mm_per_kelvin_uncertainty: &[f64],
    out: &mut [f64],
) -> Vec<u8> {
    let readings = lashwork_wire::LashReadings {
        low,
        high,
        uncertainty,
        lower,
        upper,
        at,
        at_uncertainty,
        reference,
        mm_per_kelvin,
        mm_per_kelvin_uncertainty,
    };
    lashwork_wire::judge_columns_told(settings, &readings, out)
}
