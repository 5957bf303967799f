//! The temperatures that parts follow.

use super::MetalTemperature;
use alloc::string::String;
use alloc::vec::Vec;

/// Temperatures by name, each with its standard uncertainty, in the order of their names.
///
/// A sorted list: there are a handful of them, and a tree map of its own takes room in the
/// WebAssembly file.
///
/// ```
/// use lashwork::quantity::Temperature;
/// use lashwork::thermal::{MetalTemperature, PartTemperatures};
/// let warm = MetalTemperature::of(Temperature::parse("60 C")?);
/// let mut temperatures = PartTemperatures::new();
/// assert_eq!(temperatures.insert("head".into(), warm), None);
/// assert_eq!(temperatures.insert("head".into(), warm), Some(warm));
/// assert_eq!(temperatures.get("head"), Some(&warm));
/// assert_eq!(temperatures.get("block"), None);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartTemperatures(Vec<(String, MetalTemperature)>);

impl PartTemperatures {
    /// None yet.
    #[must_use]
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// Adds a temperature, and gives back the one that had its name.
    pub fn insert(&mut self, name: String, known: MetalTemperature) -> Option<MetalTemperature> {
        match self.place(&name) {
            Ok(at) => {
                let old = self.0.get_mut(at);
                old.map(|(_, old)| core::mem::replace(old, known))
            }
            Err(at) => {
                self.0.insert(at, (name, known));
                None
            }
        }
    }

    /// The temperature of that name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&MetalTemperature> {
        let at = self.place(name).ok()?;
        self.0.get(at).map(|(_, known)| known)
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = (&str, MetalTemperature)> {
        self.0.iter().map(|(name, known)| (name.as_str(), *known))
    }

    /// All of them, to be changed.
    pub(crate) fn iter_mut(&mut self) -> impl Iterator<Item = &mut (String, MetalTemperature)> {
        self.0.iter_mut()
    }

    fn place(&self, name: &str) -> Result<usize, usize> {
        self.0
            .binary_search_by(|(known, _)| known.as_str().cmp(name))
    }
}

impl FromIterator<(String, MetalTemperature)> for PartTemperatures {
    fn from_iter<I: IntoIterator<Item = (String, MetalTemperature)>>(all: I) -> Self {
        let mut made = Self::new();
        for (name, known) in all {
            made.insert(name, known);
        }
        made
    }
}
