//! Times as short as a contact stays closed.

use super::scalar::scalar_type;
use uom::si::time::millisecond;

scalar_type!(
    /// A time far below a second: how long the contacts stay closed, or from one spark to the next.
    ///
    /// ```
    /// use lashwork::quantity::BriefTime;
    /// assert_eq!(BriefTime::parse("0.004 s")?.milliseconds(), 4.0);
    /// assert!(BriefTime::parse("4").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    /// It is not the time an engine takes to cool:
    /// ```compile_fail
    /// use lashwork::quantity::{BriefTime, Elapsed};
    /// let time: BriefTime = Elapsed::parse("10 s").unwrap();
    /// ```
    BriefTime, "time", "ms" as "milliseconds", (0.0, 1e7),
    from from_milliseconds, get milliseconds,
    "ms, us or s" { "ms" => 1.0, "us" | "µs" | "\u{3bc}s" => 1e-3, "s" => 1e3 },
    si Time: millisecond
);
