//! Cold and hot figures of one book: one specification under two conditions, of which the one that fits
//! the metal is used.

use super::Book;
use crate::job::units::Shown;
use crate::quantity::shown::reckoned;
use crate::quantity::{LashChange, Temperature};
use crate::thermal::{Metal, Reference, WARM_UP};
use crate::valve::{Specification, ValveKind};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Two columns of one book: the same in print, for another condition of the engine.
fn are_columns(a: &Specification, b: &Specification) -> bool {
    a.provenance == b.provenance && a.condition != b.condition && a.measured_at == b.measured_at
}

/// Marks every column for which another of the same book fits the metal's temperature better; metal
/// that is not stated is taken to be cold.
pub(super) fn choose(books: &mut [Book<'_>], metal: &Metal) {
    let is = middle(metal);
    let off: Vec<f64> = books
        .iter()
        .map(|book| (is - celsius(book.reference)).abs())
        .collect();
    let better = |book: &Book<'_>, mine: f64, at: usize| {
        let nearer = |(i, theirs): (usize, f64)| theirs < mine || (theirs <= mine && i < at);
        let mut others = books.iter().zip(&off).enumerate();
        others.find_map(|(i, (other, theirs))| {
            let fits = are_columns(book.specification, other.specification);
            (fits && nearer((i, *theirs))).then(|| other.specification.id.clone())
        })
    };
    let instead: Vec<Option<String>> = books
        .iter()
        .zip(&off)
        .enumerate()
        .map(|(at, (book, mine))| better(book, *mine, at))
        .collect();
    for (book, instead) in books.iter_mut().zip(instead) {
        book.used_instead = instead;
    }
}

/// The middle of the metal's temperatures, in degrees Celsius.
fn middle(metal: &Metal) -> f64 {
    let stated = metal.temperatures();
    let all = || stated.iter().map(|(_, t)| t.is.celsius());
    match (all().reduce(f64::min), all().reduce(f64::max)) {
        (Some(low), Some(high)) => f64::midpoint(low, high),
        _ => Temperature::ISO_1.celsius(),
    }
}

/// Where a column stands among the others of its book; running temperature for hot.
fn celsius(reference: Reference) -> f64 {
    reference.temperature().map_or_else(
        || Temperature::ISO_1.celsius() + WARM_UP.kelvin(),
        Temperature::celsius,
    )
}

/// Where the two columns of a book do not agree by the rule how the lash follows the temperature: further
/// apart than two standard uncertainties and the set bands allow.
pub(super) fn disagreements(books: &[Book<'_>], shown: Shown) -> Vec<String> {
    let mut all = Vec::new();
    for (i, a) in books.iter().enumerate() {
        for b in books.iter().skip(i + 1) {
            if are_columns(a.specification, b.specification) {
                let kinds = [ValveKind::Intake, ValveKind::Exhaust];
                all.extend(
                    kinds
                        .into_iter()
                        .filter_map(|kind| apart(a, b, kind, shown)),
                );
            }
        }
    }
    all
}

fn apart(a: &Book<'_>, b: &Book<'_>, kind: ValveKind, shown: Shown) -> Option<String> {
    let (from_a, from_b) = (a.against(kind), b.against(kind));
    let (from_a, from_b) = (from_a.correction.as_ref()?, from_b.correction.as_ref()?);
    let (mine, theirs) = (a.specification.limits(kind), b.specification.limits(kind));
    // The lash at the second reference less that at the first, by the rule and by the book.
    let by_rule = from_a.change.mm() - from_b.change.mm();
    let printed = theirs.set_to().mm() - mine.set_to().mm();
    let u = libm::hypot(
        from_a.standard_uncertainty_mm(),
        from_b.standard_uncertainty_mm(),
    );
    let half =
        |limits: &crate::valve::ValveLimits| limits.set().width_mm().map_or(0.0, |w| w / 2.0);
    let off = LashChange::from_mm(printed - by_rule).ok()?;
    (off.mm().abs() > 2.0 * u + half(mine) + half(theirs)).then(|| {
        format!(
            "{} and {} of one book do not agree on the {} lash by the rule how it follows the \
             temperature: {} apart, u {}",
            a.specification.id,
            b.specification.id,
            kind.word(),
            reckoned(off.mm(), shown.inches),
            reckoned(u, shown.inches)
        )
    })
}
