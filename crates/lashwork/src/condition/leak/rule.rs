//! A printed rule for leak-down: so much of the supply must stand in the cylinder.

use super::tester::{hole, orifice_of_bore, read};
use super::{LeakError, Tester};
use crate::quantity::{AbsolutePressure, Area, GaugePressure, Length};
use crate::tolerance::{Estimate, Judgement, Limits, Uncertainty};
use serde::Serialize;

/// A supply and an area that differ from the rule's by no more are the rule's.
const SAME_SUPPLY: f64 = 0.01;
const SAME_AREA: f64 = 0.05;

/// What a rule is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum RuleBy {
    /// What the tester shows; only the rule's own tester may be used.
    Face,
    /// The area of the leak, by any tester.
    Area,
}

/// The least that must stand in a cylinder, with the tester it is printed for.
///
/// ```
/// use lashwork::condition::leak::LeakRule;
/// use lashwork::quantity::{AbsolutePressure, Length};
/// // 60 of 80 psi through 0.040 in: a hole of 0.858 mm2.
/// let rule = LeakRule::ac_43_13(Length::parse("4 in")?)?;
/// let most = rule.most(AbsolutePressure::parse("1 atm")?)?;
/// assert!((most.square_millimetres() - 0.858).abs() < 1e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LeakRule {
    supply: GaugePressure,
    orifice: Length,
    least: GaugePressure,
}

impl LeakRule {
    /// Takes the supply, the orifice's diameter and the least that must stand in the cylinder.
    ///
    /// # Errors
    /// [`LeakError::Rule`] unless the least is above nothing and under the supply.
    pub fn new(
        supply: GaugePressure,
        orifice: Length,
        least: GaugePressure,
    ) -> Result<Self, LeakError> {
        if least.kilopascals() <= 0.0 || least >= supply {
            return Err(LeakError::Rule { least, supply });
        }
        Ok(Self {
            supply,
            orifice,
            least,
        })
    }

    /// 60 of 80 psi, as quoted from AC 43.13-1B, with its orifice for the bore.
    ///
    /// # Errors
    /// None that a bore can cause.
    pub fn ac_43_13(bore: Length) -> Result<Self, LeakError> {
        let psi = |number| GaugePressure::from_number(number, "psi");
        Self::new(psi(80.0)?, orifice_of_bore(bore)?, psi(60.0)?)
    }

    /// What is supplied.
    pub(crate) const fn supply(&self) -> GaugePressure {
        self.supply
    }

    /// The least that must stand in the cylinder.
    pub(crate) const fn least(&self) -> GaugePressure {
        self.least
    }

    /// The largest leak that it allows, by the air around.
    ///
    /// # Errors
    /// [`LeakError::Air`].
    pub fn most(&self, air: AbsolutePressure) -> Result<Area, LeakError> {
        let tester = Tester::of_diameter(
            read(self.supply, Uncertainty::ZERO)?,
            self.orifice,
            Length::from_mm(0.0)?,
        )?;
        let air = Estimate::between(air, air, Uncertainty::ZERO)?;
        let leak = tester.leak(&read(self.least, Uncertainty::ZERO)?, &air)?;
        Ok(leak.area.centre().unwrap_or(hole(leak.hole)?))
    }

    /// Whether this is the tester that it is printed for.
    ///
    /// # Errors
    /// [`LeakError::OtherSupply`], [`LeakError::OtherOrifice`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::condition::leak::{LeakRule, Tester};
    /// use lashwork::quantity::{GaugePressure, Length};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let bore = Length::parse("4 in")?;
    /// let supply = GaugePressure::parse("100 psi")?;
    /// let tester = Tester::of_bore(Estimate::between(supply, supply, Uncertainty::ZERO)?, bore)?;
    /// let refused = LeakRule::ac_43_13(bore)?.is_for(&tester).unwrap_err();
    /// assert_eq!(refused.code(), "condition.leak-other-supply");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn is_for(&self, tester: &Tester) -> Result<(), LeakError> {
        let what = "the tester";
        let (Some(supply), Some(orifice)) = (tester.supply().centre(), tester.orifice().centre())
        else {
            return Err(LeakError::OneSided { what });
        };
        let near = |a: f64, b: f64, part: f64| (a - b).abs() <= part * b;
        let (own, rule) = (supply.kilopascals(), self.supply.kilopascals());
        if !near(own, rule, SAME_SUPPLY) {
            return Err(LeakError::OtherSupply {
                rule: self.supply,
                tester: supply,
            });
        }
        let rule = hole(self.orifice)?.square_millimetres();
        let own = orifice.square_millimetres();
        if !near(own, rule, SAME_AREA) {
            return Err(LeakError::OtherOrifice { rule, tester: own });
        }
        Ok(())
    }

    /// Judges what the rule's own tester shows.
    ///
    /// # Errors
    /// As [`Self::is_for`].
    ///
    /// ```
    /// use lashwork::condition::leak::{LeakRule, Tester};
    /// use lashwork::quantity::{GaugePressure, Length};
    /// use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
    /// let psi = |number: f64, u: f64| {
    ///     let p = GaugePressure::from_number(number, "psi").unwrap();
    ///     Estimate::between(p, p, Uncertainty::from_number(u).unwrap()).unwrap()
    /// };
    /// let bore = Length::parse("4 in")?;
    /// let (rule, tester) = (LeakRule::ac_43_13(bore)?, Tester::of_bore(psi(80.0, 0.0), bore)?);
    /// assert_eq!(rule.judged(&tester, &psi(60.0, 1.0))?.verdict, Verdict::InBand);
    /// assert_eq!(rule.judged(&tester, &psi(59.0, 1.0))?.verdict, Verdict::Below);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn judged(
        &self,
        tester: &Tester,
        shown: &Estimate<GaugePressure>,
    ) -> Result<Judgement, LeakError> {
        self.is_for(tester)?;
        Ok(shown.judged_by(&Limits::at_least(self.least)))
    }

    /// Judges a leak by its area, whatever tester it was found with.
    ///
    /// # Errors
    /// [`LeakError::Air`].
    pub fn judged_by_area(
        &self,
        leak: &Estimate<Area>,
        air: AbsolutePressure,
    ) -> Result<Judgement, LeakError> {
        Ok(leak.judged_by(&Limits::at_most(self.most(air)?)))
    }
}
