//! What to mind when jets are changed.

use core::fmt;
use serde::Serialize;

/// What to mind when jets are changed.
///
/// ```
/// use lashwork::mixture::jets::JetCaution;
/// assert_eq!(JetCaution::LeanBackDown.code(), "mixture.lean-back-down");
/// assert!(JetCaution::LeanBackDown.to_string().contains("before"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum JetCaution {
    /// Between two sizes the richer one is safe.
    RichIsSafe,
    /// The smaller jet is lean in the air the engine came from.
    LeanBackDown,
    /// The other air is denser: the jet that is fitted is lean in it.
    DenserIsLean,
    /// The air is so loosely known that a larger size is taken than its figures alone ask for.
    LooseAir,
    /// No size of the series is rich enough.
    SeriesTooSmall,
    /// The book's steps ask for a larger jet than both rules of density.
    BookIsRicher,
    /// The book's steps ask for a smaller jet than both rules of density.
    BookIsLeaner,
    /// Numbers of another maker mean another flow.
    OneMaker,
}

impl JetCaution {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::RichIsSafe => "mixture.rich-is-safe",
            Self::LeanBackDown => "mixture.lean-back-down",
            Self::DenserIsLean => "mixture.denser-is-lean",
            Self::LooseAir => "mixture.loose-air",
            Self::SeriesTooSmall => "mixture.series-too-small",
            Self::BookIsRicher => "mixture.book-is-richer",
            Self::BookIsLeaner => "mixture.book-is-leaner",
            Self::OneMaker => "mixture.one-maker",
        }
    }
}

impl fmt::Display for JetCaution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::RichIsSafe => {
                "between two sizes take the larger: rich costs power and plugs, lean costs a piston (common practice, no source)"
            }
            Self::LeanBackDown => {
                "put the larger jet back before the engine goes down again or into colder air: there the smaller one is lean, and lean at full load holes a piston"
            }
            Self::DenserIsLean => {
                "the other air is denser: change the jet before the engine is loaded in it"
            }
            Self::LooseAir => {
                "the density is known so loosely that a larger size is taken than the figures alone ask for; a barometer and a thermometer in both places would say it closer"
            }
            Self::SeriesTooSmall => {
                "no size that was named is large enough; the largest of them is lean"
            }
            Self::BookIsRicher => {
                "the book's steps ask for a larger jet than theory and proportion; begin with the larger one"
            }
            Self::BookIsLeaner => {
                "the book's steps ask for a smaller jet than theory and proportion; begin with the larger one and read the plugs before going to it"
            }
            Self::OneMaker => {
                "compare numbers of one maker and one kind of jet only: the same number of another flows otherwise"
            }
        })
    }
}
