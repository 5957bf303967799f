//! Computed values against reference values made by other programs (data: `tests/oracles`).

mod articulated_rod;
mod cooling;
mod crank_check;
mod diagnosis;
mod fit;
mod locking;
mod rectangular_normal;
mod slider_crank;
mod student_t;
mod units;
