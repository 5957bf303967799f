//! Which library this is.

use crate::pointers::text;
use std::ffi::c_char;

/// Number of the binary interface. It changes when a program built against an older header could no
/// longer work; the shared library carries it in its name.
pub const LW_ABI_VERSION: u32 = 1;

/// The release, NUL-terminated.
const VERSION: &str = concat!(env!("CARGO_PKG_VERSION"), "\0");

/// The number of the binary interface of the library that is loaded.
///
/// Compare it with `LW_ABI_VERSION` of the header, or use `LW_ABI_MATCHES()`. Any thread.
#[must_use]
#[unsafe(no_mangle)]
pub extern "C" fn lw_abi_version() -> u32 {
    LW_ABI_VERSION
}

/// The release of the library that is loaded, such as "0.1.0".
///
/// Never NULL; NUL-terminated, static, not to be freed. Any thread.
#[must_use]
#[unsafe(no_mangle)]
pub extern "C" fn lw_version() -> *const c_char {
    VERSION.as_ptr().cast()
}

macro_rules! sizes {
    ($given:expr, $($module:ident: $($name:ident)*;)*) => {
        match $given {
            $($(stringify!($name) => size_of::<crate::$module::$name>(),)*)*
            _ => 0,
        }
    };
}

/// The size of a structure as this library knows it, by its name, such as "lw_estimate"; 0 for an unknown
/// name. Languages that declare the structures again can check themselves with it.
///
/// `name` is `len` bytes. Any thread.
///
/// # Safety
/// `name` is readable for `len` bytes or NULL.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_struct_size(name: *const c_char, len: usize) -> usize {
    // SAFETY: null is refused; the rest is the contract above.
    let name = unsafe { text("name", name, len) };
    name.map_or(0, |name| {
        sizes! {
            name,
            text: lw_text;
            quantity: lw_mark;
            crank: lw_slider_crank;
            judging: lw_estimate lw_limits lw_rule lw_judgement;
            breaker: lw_gap_and_dwell;
            ignition_point: lw_dial;
            coil: lw_primary_circuit lw_charge;
            columns: lw_reading_columns lw_judgement_columns;
            timing: lw_advance_curve lw_printed_timing lw_strobe_columns lw_point_columns;
            advance_fit: lw_curve_prior lw_curve_fit;
            thermal: lw_warmth;
            fuel: lw_fuel;
            exhaust_gas: lw_exhaust_gas;
            lambda: lw_lambda lw_lambda_range;
            air: lw_air lw_air_density;
            mixture_columns: lw_gas_columns lw_lambda_columns lw_air_columns lw_density_columns;
            idle: lw_idle_readings lw_idle_crown;
            throttles: lw_linkage lw_throttle_looks lw_trial_turns;
            balance_answer: lw_balance lw_throttle_columns lw_move_columns lw_shaft_columns;
            compression: lw_cranking lw_compression;
            compression_readings: lw_compression_rule lw_compression_readings;
            compression_set: lw_compression_verdict lw_cylinder_columns;
            leak: lw_leak_tester lw_leak lw_leak_reading_columns lw_leak_columns;
            head: lw_adapter lw_bolt_friction lw_preload;
            running_valve: lw_flank lw_running_valve;
            running_events: lw_printed_events lw_event_columns lw_effective_ratio;
            past_readings: lw_past_readings;
            drift: lw_drift lw_valve_drift_columns;
            forecast: lw_forecast_columns lw_departure_columns;
            drift_columns: lw_drift_columns;
            adjust: lw_screw lw_screw_turn lw_shim_fit lw_shim_series lw_shim_choice;
            engine_parts: lw_engine_parts;
            valve_train: lw_valve_train lw_plan_cost lw_stop lw_valve_check;
        }
    })
}
