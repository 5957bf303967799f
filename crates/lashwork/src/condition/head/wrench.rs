//! What is set on a torque wrench, with an adapter or without.

use super::HeadError;
use crate::quantity::{AxisAngle, Length, Torque};
use crate::tolerance::known::normal;
use crate::tolerance::{Estimate, Limits};
use serde::Serialize;

/// Wrenches from drive to grip, and adapters, in millimetres.
const WRENCH: (f64, f64) = (80.0, 3_000.0);
const ADAPTER: (f64, f64) = (0.0, 1_000.0);
/// Deviations that a wrench may be allowed, in percent.
const CLASS: (f64, f64) = (0.5, 20.0);
/// Part of its greatest torque from which a wrench is right to its class.
const LEAST: f64 = 0.2;

/// An adapter between the wrench's drive and the bolt.
///
/// ```
/// use lashwork::condition::head::Adapter;
/// use lashwork::quantity::{AxisAngle, Length, Torque};
/// // A wrench of 16 in with an adapter of 2 in: set 44.44 for 50.
/// let adapter = Adapter::new(Length::parse("16 in")?, Length::parse("2 in")?, AxisAngle::ZERO)?;
/// let set = adapter.set_for(Torque::parse("50 lbf ft")?)?;
/// assert!((set.newton_metres() / 1.355_818 - 44.44).abs() < 0.005);
/// // Square to the wrench it changes nothing.
/// let square = AxisAngle::from_degrees(90.0)?;
/// let square = Adapter::new(Length::parse("16 in")?, Length::parse("2 in")?, square)?;
/// assert!((square.set_for(Torque::parse("50 Nm")?)?.newton_metres() - 50.0).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Adapter {
    wrench: f64,
    lever: f64,
}

impl Adapter {
    /// Takes the length of the wrench from its drive to the middle of the grip, that of the adapter from the drive
    /// to the bolt, and how far it is turned out of the wrench's line: 0 straight on, 90 square, 180 folded back.
    ///
    /// # Errors
    /// [`HeadError::Length`] outside 80 mm to 3 m, or over 1 m; [`HeadError::FoldedBack`] if less than a fifth of
    /// the wrench is left between bolt and grip.
    pub fn new(wrench: Length, adapter: Length, turned: AxisAngle) -> Result<Self, HeadError> {
        let checked = |what, length: Length, (min, max): (f64, f64)| {
            if (min..=max).contains(&length.mm()) {
                Ok(length.mm())
            } else {
                Err(HeadError::Length {
                    what,
                    length,
                    min,
                    max,
                })
            }
        };
        let wrench = checked("a wrench", wrench, WRENCH)?;
        let adapter = checked("an adapter", adapter, ADAPTER)?;
        let lever = wrench + adapter * libm::cos(turned.degrees().to_radians());
        if lever < LEAST * wrench {
            return Err(HeadError::FoldedBack { left: lever });
        }
        Ok(Self { wrench, lever })
    }

    /// What to set for a torque at the bolt.
    ///
    /// # Errors
    /// [`HeadError::Quantity`] for a torque out of range.
    ///
    /// # Source
    /// One force at the grip, two levers: US Army TM 9-254, figure 46.
    pub fn set_for(&self, at_bolt: Torque) -> Result<Torque, HeadError> {
        Ok(Torque::of_si(at_bolt.si() * (self.wrench / self.lever))?)
    }

    /// What the bolt gets of a torque that is set.
    ///
    /// # Errors
    /// [`HeadError::Quantity`] for a torque out of range.
    ///
    /// ```
    /// use lashwork::condition::head::Adapter;
    /// use lashwork::quantity::{AxisAngle, Length, Torque};
    /// let mm = |mm| Length::from_mm(mm);
    /// let adapter = Adapter::new(mm(400.0)?, mm(50.0)?, AxisAngle::ZERO)?;
    /// let at_bolt = adapter.at_bolt(Torque::from_newton_metres(80.0)?)?;
    /// assert_eq!(at_bolt.newton_metres(), 90.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn at_bolt(&self, set: Torque) -> Result<Torque, HeadError> {
        Ok(Torque::of_si(set.si() * (self.lever / self.wrench))?)
    }
}

/// A torque wrench.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::condition::head::Wrench;
/// use lashwork::quantity::Torque;
/// let wrench = Wrench::new(Torque::parse("200 Nm")?, 4.0)?;
/// let at_bolt = wrench.leaves(Torque::parse("80 Nm")?)?;
/// // 4 % either way, equally likely: 1.85 Nm of standard uncertainty.
/// assert!((at_bolt.standard_uncertainty().unwrap().number() - 1.848).abs() < 1e-3);
/// let low = wrench.leaves(Torque::parse("12 Nm")?).unwrap_err();
/// assert_eq!(low.code(), "condition.head-wrench-range");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Wrench {
    most: Torque,
    percent: f64,
}

impl Wrench {
    /// Takes the end of its scale and the deviation it is allowed, in percent.
    ///
    /// # Errors
    /// [`HeadError::WrenchClass`] outside 0.5 to 20 %.
    pub fn new(most: Torque, percent: f64) -> Result<Self, HeadError> {
        if CLASS.0 <= percent && percent <= CLASS.1 {
            Ok(Self { most, percent })
        } else {
            Err(HeadError::WrenchClass { got: percent })
        }
    }

    /// What it gives when so much is set.
    ///
    /// # Errors
    /// [`HeadError::WrenchRange`] under a fifth of its scale or over its end.
    pub fn leaves(&self, set: Torque) -> Result<Estimate<Torque>, HeadError> {
        let least = Torque::of_si(self.most.si() * LEAST)?;
        if set < least || set > self.most {
            return Err(HeadError::WrenchRange {
                torque: set,
                least,
                most: self.most,
            });
        }
        let nm = set.newton_metres();
        Ok(normal(nm, nm * self.percent / 100.0 / libm::sqrt(3.0))?)
    }

    /// Whether it can keep a printed band: the middle to set, if the band is no narrower than the wrench.
    ///
    /// # Errors
    /// [`HeadError::FinerThanWrench`]; [`HeadError::NoTorque`] for a band with one end; as [`Self::leaves`].
    ///
    /// ```
    /// use lashwork::condition::head::Wrench;
    /// use lashwork::quantity::Torque;
    /// let wrench = Wrench::new(Torque::parse("200 Nm")?, 4.0)?;
    /// assert_eq!(wrench.keeps(&"76 Nm to 84 Nm".parse()?)?.newton_metres(), 80.0);
    /// assert!(wrench.keeps(&"79 Nm to 81 Nm".parse()?).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn keeps(&self, band: &Limits<Torque>) -> Result<Torque, HeadError> {
        let (Some(low), Some(high)) = (band.lower(), band.upper()) else {
            return Err(HeadError::NoTorque);
        };
        let middle = Torque::of_si(0.5 * (low.si() + high.si()))?;
        self.leaves(middle)?;
        let half = 0.5 * (high.newton_metres() - low.newton_metres());
        let percent = 100.0 * half / middle.newton_metres();
        // Half a unit of the last place is no reason to refuse a band of just the class.
        if percent < self.percent * (1.0 - 1e-9) {
            return Err(HeadError::FinerThanWrench {
                band: percent,
                wrench: self.percent,
            });
        }
        Ok(middle)
    }
}
