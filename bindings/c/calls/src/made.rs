//! One call after the other, with the engine and the plan that those before it made.

use crate::asked::{Asked, New};
use crate::block::Block;
use crate::source::once_in;
use crate::table::Call;
use crate::told::{of_error, sizes_agree};
use arbitrary::Unstructured;
use lashwork_c::engine::{lw_engine, lw_engine_free, lw_engine_of_document};
use lashwork_c::plan::{lw_plan, lw_plan_free};
use lashwork_c::status::lw_status;
use lashwork_c::text::lw_text_free;
use std::mem::replace;
use std::ptr::null_mut;
use std::sync::Once;

/// An engine for calls that ask for one before any was made.
const ENGINE: &[u8] = br#"{"engine": {"cycle": "four_stroke", "cylinders": [
    {"label": "1", "bank": "0 deg", "crankpin": "0 deg"}, {"label": "2", "bank": "0 deg", "crankpin": "180 deg"},
    {"label": "3", "bank": "0 deg", "crankpin": "180 deg"}, {"label": "4", "bank": "0 deg", "crankpin": "0 deg"}],
    "firing_order": ["1", "3", "4", "2"], "firing": "even",
    "rotation": {"sense": "clockwise", "seen_from": "free_end"}, "numbering": "free_end"}}"#;

/// The handles that are there.
#[derive(Debug)]
pub(crate) struct Made {
    pub(crate) engine: *mut lw_engine,
    pub(crate) plan: *mut lw_plan,
}

impl Default for Made {
    fn default() -> Self {
        static SIZES: Once = Once::new();
        SIZES.call_once(sizes_agree);
        Self {
            engine: null_mut(),
            plan: null_mut(),
        }
    }
}

impl Drop for Made {
    fn drop(&mut self) {
        self.take(null_mut(), null_mut());
    }
}

impl Made {
    /// Lets the handles go and takes others.
    fn take(&mut self, engine: *mut lw_engine, plan: *mut lw_plan) {
        // SAFETY: handles of the library or NULL, let go once.
        unsafe {
            lw_plan_free(replace(&mut self.plan, plan));
            lw_engine_free(replace(&mut self.engine, engine));
        }
    }

    /// Makes a call twice, holds what came against the rules of every call, and keeps a handle that it made;
    /// says whether it was done.
    pub(crate) fn call(&mut self, call: &Call, source: &mut Unstructured<'_>) -> bool {
        if self.engine.is_null() && once_in(source, 2) {
            let (document, len) = (ENGINE.as_ptr().cast(), ENGINE.len());
            // SAFETY: a text with its length, and a place of this object.
            let made =
                unsafe { lw_engine_of_document(document, len, &raw mut self.engine, null_mut()) };
            assert_eq!(made, lw_status::Ok, "the engine of every call");
        }
        let new = Box::into_raw(Box::new(New::default()));
        let asked = Asked::of(call, self, new, source);
        let (status, told) = once(call, &asked, new);
        // SAFETY: made above, and no call has it now.
        let first = unsafe { new.replace(New::default()) };
        let after = asked.seen();
        for (block, (before, after)) in asked.blocks.iter().zip(asked.before.iter().zip(&after)) {
            let is_done = matches!(
                status,
                lw_status::Ok | lw_status::RowsRefused | lw_status::ShortBuffer
            );
            let may_differ = is_done && block.is_written();
            assert!(
                may_differ || before == after,
                "{} wrote on {status:?}",
                call.name
            );
            block.put_back(before);
        }
        assert_eq!(
            (status, told),
            once(call, &asked, new),
            "{} again",
            call.name
        );
        assert_eq!(after, asked.seen(), "{} again", call.name);
        drop(asked);
        // SAFETY: made above, and the arguments that named it are gone.
        let second = *unsafe { Box::from_raw(new) };
        self.keep(first, second);
        status == lw_status::Ok
    }

    /// Keeps the second handles and lets the first go, and the texts.
    fn keep(&mut self, mut first: New, mut second: New) {
        // SAFETY: what the library made, or nothing; each is let go once.
        unsafe {
            lw_text_free(&raw mut first.text);
            lw_text_free(&raw mut second.text);
            lw_engine_free(first.engine);
            lw_plan_free(first.plan);
        }
        assert_eq!(first.engine.is_null(), second.engine.is_null());
        assert_eq!(first.plan.is_null(), second.plan.is_null());
        if !second.plan.is_null() {
            let engine = replace(&mut self.engine, null_mut());
            self.take(engine, second.plan);
        }
        if !second.engine.is_null() {
            let plan = replace(&mut self.plan, null_mut());
            self.take(second.engine, plan);
        }
    }
}

/// Makes a call: its status, and what its error tells.
fn once(call: &Call, asked: &Asked, new: *mut New) -> (lw_status, String) {
    let status = (call.make)(&asked.arguments);
    assert_ne!(status, lw_status::Panic, "{} panics", call.name);
    // SAFETY: made by the caller, and no call has it now.
    let error = unsafe { replace(&mut (*new).error, null_mut()) };
    let told = if asked.wants_error {
        of_error(call.name, error, status)
    } else {
        String::new()
    };
    (status, told)
}

impl Asked {
    /// What stands in every block.
    pub(crate) fn seen(&self) -> Vec<Vec<u64>> {
        self.blocks.iter().map(Block::seen).collect()
    }
}
