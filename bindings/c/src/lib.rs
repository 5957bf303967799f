//! The C interface of lashwork. What a C programmer needs to know is in `include/lashwork.h`, which is
//! written from the comments here.
//!
//! Every call does three things: check the pointers, make one call into the core or the JSON interface,
//! move the result out. There is no formula, default, unit factor or rule of the trade here.
//!
//! - [`boundary`](mod@boundary): where a panic and a refusal become a status.
//! - [`pointers`]: what is checked of a pointer before it is used; the unsafe reading and writing.
//! - [`status`], [`error`](mod@error), [`text`], [`version`]: what every call uses.
//! - [`document`]: whole jobs. [`engine`], [`plan`]: values kept behind a handle, made from
//!   [`engine_parts`] and [`valve_train`].
//! - [`quantity`], [`crank`], [`feeler`], [`thermal`], [`judging`], [`adjust`]: direct calls; of ignition
//!   [`breaker`], [`coil`], [`ignition_point`]; of mixture [`fuel`], [`lambda`] of [`exhaust_gas`], [`air`],
//!   [`balance`] of [`throttles`] with its [`balance_answer`]; of condition [`compression`], [`compression_set`] of
//!   [`compression_readings`], [`leak`], [`head`], [`running_events`] of [`running_valve`]s.
//! - [`columns`], [`timing`], [`mixture_columns`], [`drift_columns`]: many readings in one call; [`advance_fit`],
//!   [`idle`], [`drift`] and [`forecast`] of [`past_readings`]: what they say together.
#![allow(
    unsafe_code,
    reason = "a C caller hands over raw pointers; this crate is where they are checked"
)]
#![allow(
    non_camel_case_types,
    reason = "types have the names that C programs know them by"
)]
#![deny(clippy::undocumented_unsafe_blocks)]

pub mod adjust;
pub mod advance_fit;
pub mod air;
pub mod balance;
pub mod balance_answer;
mod balance_columns;
pub mod boundary;
pub mod breaker;
pub mod coil;
pub mod columns;
pub mod compression;
pub mod compression_readings;
pub mod compression_set;
pub mod crank;
pub mod document;
pub mod drift;
pub mod drift_columns;
pub mod engine;
pub mod engine_parts;
pub mod error;
pub mod exhaust_gas;
pub mod feeler;
pub mod forecast;
pub mod fuel;
pub mod head;
pub mod idle;
pub mod ignition_point;
pub mod judging;
pub mod lambda;
pub mod leak;
pub mod mixture_columns;
pub mod past_readings;
pub mod plan;
pub mod pointers;
pub mod quantity;
pub mod running_events;
pub mod running_valve;
pub mod status;
pub mod text;
pub mod thermal;
pub mod throttles;
pub mod timing;
pub mod valve_train;
pub mod version;
