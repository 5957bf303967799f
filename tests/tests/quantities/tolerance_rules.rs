//! What the decision rules say of a reading, and what is refused or reported of specifications.

#![allow(
    clippy::float_cmp,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test says what it expects exactly, and a wrong set-up should stop it"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::quantity::{Lash, LashChange, Temperature};
use lashwork::tolerance::{DecisionRule, Estimate, HasLimits, Limits, Uncertainty, Verdict, judge};
use lashwork::valve::{
    Applicability, Condition, NumberRange, Provenance, Specification, ValveLimits, disagreements,
};
use lashwork_tests::values::{band, lash, mark, u};

fn normal(mm: f64, sigma: f64) -> Estimate<Lash> {
    let at = Lash::from_mm(mm).unwrap();
    Estimate::between(at, at, u(sigma)).unwrap()
}

/// The default rule on both sides of both limits, from the quantiles of the normal.
#[test]
fn guarded_tight_levels() {
    let limits = band("0.15 mm", "0.25 mm");
    let verdict = |mm| judge(&normal(mm, 0.01), &limits, &Lash::USUAL_RULE).verdict;
    assert_eq!(verdict(0.15 + 0.0165), Verdict::InBand);
    assert_eq!(verdict(0.15 + 0.0164), Verdict::CannotSay);
    assert_eq!(verdict(0.1501), Verdict::CannotSay);
    assert_eq!(verdict(0.15), Verdict::Below);
    assert_eq!(verdict(0.25), Verdict::InBand);
    assert_eq!(verdict(0.2501), Verdict::Above);
}

/// ISO 14253-1:2017: 1.645 u inside to accept, 1.645 u outside to refuse; no zone below 3.92.
#[test]
fn proof_levels() {
    let limits = band("0.15 mm", "0.25 mm");
    let rule = DecisionRule::iso_14253_1();
    let verdict = |mm| judge(&normal(mm, 0.01), &limits, &rule).verdict;
    assert_eq!(verdict(0.15 + 0.0165), Verdict::InBand);
    assert_eq!(verdict(0.15 + 0.0164), Verdict::CannotSay);
    assert_eq!(verdict(0.15 - 0.0164), Verdict::CannotSay);
    assert_eq!(verdict(0.15 - 0.0165), Verdict::Below);
    assert_eq!(verdict(0.25 + 0.0165), Verdict::Above);
    assert!(judge(&normal(0.1, 0.1 / 3.92), &limits, &rule).provable);
    assert!(!judge(&normal(0.2, 0.1 / 3.91), &limits, &rule).provable);
    // Guarded on one side only, a reading high in the band can still be accepted down to 1.645.
    let tight = Lash::USUAL_RULE;
    assert!(judge(&normal(0.2, 0.1 / 1.66), &limits, &tight).provable);
    assert!(!judge(&normal(0.2, 0.1 / 1.64), &limits, &tight).provable);
    // Guarded on both sides at 95 %, each side has 1.645 of its own.
    let both = DecisionRule::guarded(0.95, 0.95).unwrap();
    assert!(judge(&normal(0.2, 0.1 / 3.30), &limits, &both).provable);
    assert!(!judge(&normal(0.2, 0.1 / 3.28), &limits, &both).provable);
    // Guarded on the loose side only, the place to be accepted at is low in the band.
    let loose = DecisionRule::guarded(0.5, 0.95).unwrap();
    assert!(judge(&normal(0.2, 0.1 / 1.66), &limits, &loose).provable);
    assert!(!judge(&normal(0.2, 0.1 / 1.64), &limits, &loose).provable);
}

/// JCGM 106:2012 8.2: the best estimate decides; on the limit it is accepted.
#[test]
fn simple_levels() {
    let limits = band("0.15 mm", "0.25 mm");
    let verdict = |mm| judge(&normal(mm, 0.01), &limits, &DecisionRule::simple()).verdict;
    assert_eq!(verdict(0.15), Verdict::InBand);
    assert_eq!(verdict(0.1499), Verdict::Below);
    assert_eq!(verdict(0.25), Verdict::InBand);
    assert_eq!(verdict(0.2501), Verdict::Above);
}

#[test]
fn one_sided_readings() {
    let limits = band("0.15 mm", "0.25 mm");
    let rule = Lash::USUAL_RULE;
    let sharp = u(0.002);
    // Below the thinnest leaf: tight beyond doubt.
    let stuck = Estimate::at_most(lash("0.10 mm"), sharp);
    assert_eq!(judge(&stuck, &limits, &rule).verdict, Verdict::Below);
    assert_eq!(stuck.standard_uncertainty(), None);
    assert_eq!(stuck.centre(), None);
    // Above the thickest: loose beyond doubt.
    let gaping = Estimate::at_least(lash("0.30 mm"), sharp);
    let judged = judge(&gaping, &limits, &rule);
    assert_eq!(judged.verdict, Verdict::Above);
    assert!(judged.probabilities.above.least > 0.999 && judged.probabilities.above.most == 1.0);
    assert!(judged.probabilities.in_band.least == 0.0 && judged.probabilities.in_band.most < 1e-9);
    // Inside the band from one side: the other side is open.
    let open = Estimate::at_least(lash("0.20 mm"), sharp);
    let judged = judge(&open, &limits, &rule);
    assert_eq!(judged.verdict, Verdict::CannotSay);
    assert!(judged.probabilities.below.most < 1e-9 && judged.provable);
    // With no upper limit that suffices.
    let floor = Limits::at_least(mark("0.15 mm"));
    let judged = judge(&open, &floor, &rule);
    assert_eq!(judged.verdict, Verdict::InBand);
    assert_eq!(judged.probabilities.above.most, 0.0);
    assert!(judged.probabilities.in_band.least > 0.999_999_999);
}

#[test]
fn points_on_the_limits_are_in_the_band() {
    let limits = band("0.15 mm", "0.25 mm");
    for at in ["0.15 mm", "0.25 mm"] {
        let point = Estimate::between(lash(at), lash(at), Uncertainty::ZERO).unwrap();
        let p = point.probabilities(&limits);
        assert_eq!(
            (p.below.most, p.in_band.least, p.above.most),
            (0.0, 1.0, 0.0)
        );
    }
}

#[test]
fn shifting_moves_and_widens() {
    let found = Estimate::between(lash("0.10 mm"), lash("0.15 mm"), u(0.003)).unwrap();
    let cold = found.shifted(LashChange::from_mm(0.02).unwrap(), u(0.004));
    assert_abs_diff_eq!(cold.centre().unwrap().mm(), 0.145, epsilon = 1e-15);
    assert_abs_diff_eq!(cold.normal_uncertainty().mm(), 0.005, epsilon = 1e-17);
}

fn specification(intake: &str, exhaust: ValveLimits) -> Specification {
    let set = Limits::between(mark(intake), mark(intake)).unwrap();
    Specification {
        id: "plate".into(),
        provenance: Provenance {
            document: "plate on the rocker cover".into(),
            edition: None,
            applies_to: None,
            engine_numbers: None,
        },
        condition: Condition::Cold,
        reference: Some(Temperature::parse("68 F").unwrap()),
        measured_at: None,
        intake: ValveLimits::new(mark(intake), set, None).unwrap(),
        exhaust,
    }
}

#[test]
fn sources_are_compared_exactly() {
    let exhaust = ValveLimits::new(mark("0.20 mm"), band("0.18 mm", "0.22 mm"), None).unwrap();
    let wider = Some(band("0.15 mm", "0.25 mm"));
    let lenient = ValveLimits::new(mark("0.20 mm"), band("0.18 mm", "0.22 mm"), wider).unwrap();
    let inch = specification("0.006 in", exhaust);
    let mut metric = specification("0.15 mm", lenient);
    metric.reference = Some(Temperature::parse("20 C").unwrap());
    let found = disagreements(&inch, &metric);
    let fields: Vec<_> = found.iter().map(|d| d.field).collect();
    assert_eq!(
        fields,
        [
            // A band of no width is one figure, so its ends are not printed.
            "intake.set_to",
            "exhaust.leave_alone.lower",
            "exhaust.leave_alone.upper"
        ]
    );
    assert_eq!(found[0].size.unwrap().nanometres(), 2400);
    assert_eq!(
        (found[0].first.as_str(), found[0].second.as_str()),
        ("0.006 in", "0.15 mm")
    );
    assert_eq!(
        (found[1].first.as_str(), found[1].size),
        ("not stated", None)
    );
    // The same length in other words is no disagreement.
    assert!(disagreements(&inch, &specification("6 thou", exhaust)).is_empty());
}

#[test]
fn applicability_says_when_it_cannot_tell() {
    let exhaust = ValveLimits::new(mark("0.20 mm"), band("0.18 mm", "0.22 mm"), None).unwrap();
    let mut spec = specification("0.15 mm", exhaust);
    assert_eq!(spec.applicability(Some(7)), Applicability::NotStated);
    spec.provenance.engine_numbers = Some(NumberRange::new(7, 9).unwrap());
    assert_eq!(spec.applicability(Some(7)), Applicability::Applies);
    assert_eq!(spec.applicability(Some(10)), Applicability::DoesNotApply);
    assert_eq!(spec.applicability(None), Applicability::CannotTell);
}

#[test]
fn refusals_name_what_was_written() {
    let crossed = Limits::<Lash>::between(mark("0.010 in"), mark("0,20 mm")).unwrap_err();
    assert_eq!(crossed.code(), "tolerance.crossed-limits");
    assert!(crossed.to_string().contains("0.010 in") && crossed.hint().contains("0.20 mm"));
    let outside = ValveLimits::new(
        mark("0.20 mm"),
        band("0.15 mm", "0.25 mm"),
        Some(band("0.18 mm", "0.30 mm")),
    )
    .unwrap_err();
    assert_eq!(outside.code(), "tolerance.set-outside-leave-alone");
    assert!(outside.to_string().contains("0.15 mm to 0.25 mm"));
    assert!(outside.to_string().contains("0.18 mm to 0.30 mm"));
    assert!(Estimate::between(lash("0.2 mm"), lash("0.1 mm"), u(0.0)).is_err());
    for bad in [-0.1, f64::NAN, f64::INFINITY] {
        assert_eq!(
            Uncertainty::<Lash>::from_mm(bad).unwrap_err().code(),
            "tolerance.uncertainty"
        );
    }
}
