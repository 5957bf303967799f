//! Whole jobs and their documents, the diagnosis and the place of the crank.

mod as_left;
mod conformance;
mod crank_check;
mod diagnosis_laws;
mod direct;
mod document_laws;
mod document_numbers;
mod document_places;
mod document_refusals;
mod document_schema;
mod ignition_order;
mod job_advice;
mod job_start;
mod job_stops;
mod job_warm;
mod joint_findings;
mod metal_off_reference;
mod one_page;
mod one_valve_advice;
mod quick_check;
mod readme_program;
mod report_schema;
mod sections;
mod shim_plans;
mod units_said;
