//! Feeler leaves, warm metal, screws and shims: published figures and laws.

// The search for shims is read from its source, which is `no_std`.
extern crate alloc;

mod adjust_published;
mod assignment;
mod columns;
mod feeler_laws;
mod feeler_published;
mod next_leaf;
mod shims_best_use;
mod text_laws;
mod thermal_chain;
mod thermal_cooldown;
mod thermal_curves;
mod thermal_fit;
mod thermal_laws;
mod thermal_published;
mod turn_words;
mod warm_laws;
