//! valve
