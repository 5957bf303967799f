//! Quantities, estimates and what is judged of them: published figures and laws.

mod band_judge_laws;
#[path = "../causes/mod.rs"]
mod causes;
mod every_mark;
mod gum_coverage;
mod gum_published;
#[path = "../history/mod.rs"]
mod history;
mod quantity_laws;
mod quantity_published;
mod specification_published;
mod tolerance_any_quantity;
mod tolerance_deep_tails;
mod tolerance_laws;
mod tolerance_picture;
mod tolerance_published;
mod tolerance_rules;
