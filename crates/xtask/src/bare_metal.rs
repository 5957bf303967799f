//! Proof that the core needs no operating system: it is checked for a processor without one.

use crate::step::{Outcome, run};
use crate::toolchain::Target;

/// The target.
pub(crate) const BARE: Target = Target {
    name: "thumbv7em-none-eabihf",
    library: "core,alloc",
    features: "",
    links: false,
    directory: "target-bare",
};

/// Checks crate lashwork for the bare-metal target: what needs an operating system does not resolve there,
/// and code for that processor is not needed to see it.
pub(crate) fn check() -> Outcome {
    let (mut check, _) = BARE.cargo("check")?;
    run(check.args(["--package", "lashwork"]))
}
