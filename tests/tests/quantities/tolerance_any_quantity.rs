//! Whatever can be estimated is judged alike: the same numbers give the same bits for a lash in
//! millimetres and for a dwell in degrees, which is a type of this test and not of the kernel.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use lashwork::Refusal;
use lashwork::quantity::{DistributorAngle, Lash, LashChange, QuantityError};
use lashwork::tolerance::{
    DecisionRule, Estimate, HasLimits, Limits, Measurand, Predicted, Uncertainty, judge,
};
use proptest::prelude::*;
use std::fmt;
use std::ops::Add;

/// The angle for which the contacts of a distributor stay closed.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
struct Dwell(DistributorAngle);

impl Measurand for Dwell {
    const UNIT: &'static str = "deg";
    const MAX_UNCERTAINTY: f64 = 360.0;

    fn number(self) -> f64 {
        self.0.degrees()
    }

    fn from_number(degrees: f64) -> Result<Self, QuantityError> {
        DistributorAngle::from_degrees(degrees).map(Self)
    }
}

impl Add<DistributorAngle> for Dwell {
    type Output = Self;

    fn add(self, turn: DistributorAngle) -> Self {
        Self(self.0 + turn)
    }
}

impl fmt::Display for Dwell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} deg", self.0.degrees())
    }
}

impl HasLimits for Dwell {
    type Printed = Self;
    const USUAL_RULE: DecisionRule = Lash::USUAL_RULE;

    fn printed_number(printed: Self) -> f64 {
        printed.number()
    }

    fn read_printed(text: &str) -> Result<Self, QuantityError> {
        DistributorAngle::parse(text).map(Self)
    }
}

fn estimate<Q: Changes>(low: f64, high: f64, u: f64, change: f64) -> Estimate<Q> {
    let extra = Uncertainty::from_number(0.25 * u).unwrap();
    let estimate = Estimate::from_numbers(low, high, u).unwrap();
    Q::changed(estimate, change, extra)
}

/// A change of each has a type of its own.
trait Changes: Measurand {
    fn changed(from: Estimate<Self>, by: f64, extra: Uncertainty<Self>) -> Estimate<Self>;
}

impl Changes for Lash {
    fn changed(from: Estimate<Self>, by: f64, extra: Uncertainty<Self>) -> Estimate<Self> {
        from.shifted(LashChange::from_mm(by).unwrap(), extra)
    }
}

impl Changes for Dwell {
    fn changed(from: Estimate<Self>, by: f64, extra: Uncertainty<Self>) -> Estimate<Self> {
        from.shifted(DistributorAngle::from_degrees(by).unwrap(), extra)
    }
}

/// All that is said of an estimate, as bits.
fn told<Q: HasLimits + Changes>(
    ends: [f64; 4],
    limits: &Limits<Q>,
    rule: &DecisionRule,
) -> Vec<u64> {
    let [low, high, u, change] = ends;
    let estimate = estimate::<Q>(low, high, u, change);
    let found = judge(&estimate, limits, rule);
    let mut all = vec![
        f64::from(found.verdict.number()),
        f64::from(u8::from(found.provable)),
    ];
    all.extend(found.probabilities.ends());
    all.extend(estimate.centre().map(Measurand::number));
    all.extend(estimate.standard_uncertainty().map(Uncertainty::number));
    let scale = Uncertainty::from_number(u + 0.01).unwrap();
    let centre = Q::from_number(low.max(-10.0)).unwrap();
    let next = Predicted::new(centre, scale, 3.0, scale).unwrap();
    all.extend(next.probabilities(limits).ends());
    let (from, to) = (Q::from_number(-1.0).unwrap(), Q::from_number(1.0).unwrap());
    all.extend(estimate.shares(from, to, 7).unwrap().unwrap_or_default());
    all.into_iter().map(f64::to_bits).collect()
}

proptest! {
    #[test]
    fn the_same_numbers_give_the_same_bits(
        low in -1.0..1.0, width in 0.0..0.5, u in 0.0..0.2_f64, change in -0.3..0.3,
        from in -100..100_i32, to in 0..100_i32, open in 0..3, rule in 0..3,
    ) {
        let (low, high) = match open {
            0 => (low, low + width),
            1 => (low, f64::INFINITY),
            _ => (f64::NEG_INFINITY, low),
        };
        let rule = [Lash::USUAL_RULE, DecisionRule::simple(), DecisionRule::iso_14253_1()]
            [usize::try_from(rule).unwrap()];
        let (from, to) = (f64::from(from) / 100.0, f64::from(from + to) / 100.0);
        let lash = format!("{from} mm to {to} mm").parse::<Limits<Lash>>().unwrap();
        let dwell = format!("{from} deg to {to} deg").parse::<Limits<Dwell>>().unwrap();
        let ends = [low, high, u, change];
        prop_assert_eq!(told(ends, &lash, &rule), told(ends, &dwell, &rule));
    }
}

#[test]
fn messages_name_the_unit_of_the_quantity() {
    let dwell = |degrees| Dwell::from_number(degrees).unwrap();
    let crossed = Estimate::between(dwell(50.0), dwell(40.0), Uncertainty::ZERO).unwrap_err();
    assert_eq!(
        crossed.to_string(),
        "an estimate from 50 deg to 40 deg has its ends the wrong way round"
    );
    let doubt = Uncertainty::<Dwell>::from_number(400.0).unwrap_err();
    assert_eq!(
        doubt.to_string(),
        "standard uncertainty 400 deg is outside 0 to 360 deg"
    );
    let limits = "63 deg to 57 deg".parse::<Limits<Dwell>>().unwrap_err();
    assert_eq!(limits.code(), "tolerance.crossed-limits");
    let lash = "57 mm to 63 mm".parse::<Limits<Dwell>>().unwrap_err();
    assert_eq!(lash.code(), "quantity.unknown-unit");
    let json = serde_json::to_value(Uncertainty::<Dwell>::from_number(1.5).unwrap()).unwrap();
    assert_eq!(json, serde_json::json!({ "deg": 1.5 }));
}
