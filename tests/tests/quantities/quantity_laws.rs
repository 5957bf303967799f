//! Laws of reading and showing quantities, on generated input.

use approx::abs_diff_eq;
use lashwork::Refusal;
use lashwork::quantity::{
    CrankAngle, Cycle, CyclePosition, Elapsed, Lash, LengthUnit, MagnetoAngle, Marked, Nominal,
    QuantityError, Temperature, TemperatureDifference,
};
use proptest::prelude::*;

/// A unit, a step of nanometres that it shows without rounding, and the decimals that needs.
fn exact_steps() -> impl Strategy<Value = (LengthUnit, i64, u32)> {
    prop_oneof![
        Just((LengthUnit::Millimetre, 1, 6)),
        Just((LengthUnit::Micrometre, 1, 3)),
        Just((LengthUnit::Inch, 2_540, 4)),
        Just((LengthUnit::Thou, 2_540, 1)),
    ]
}

proptest! {
    #[test]
    fn what_is_shown_exactly_is_read_back(
        (unit, step, decimals) in exact_steps(),
        steps in -1_000_000_i64..1_000_000,
    ) {
        let held = Nominal::from_nanometres(steps * step).unwrap();
        let again = Marked::parse(&held.show(unit, decimals)).unwrap();
        prop_assert_eq!(again.nominal(), held);
        prop_assert_eq!(again.to_string(), held.show(unit, decimals));
        prop_assert_eq!(again.to_string().parse(), Ok(again));
    }

    #[test]
    fn a_number_and_its_unit_say_the_same_as_the_text(
        millionths in 0_i64..390_000_000,
        at in -270.0_f64..2000.0,
    ) {
        let number = millionths as f64 / 1e6;
        for unit in ["mm", "in", "thou", "um"] {
            let text = format!("{number} {unit}");
            match text.parse::<Marked>() {
                Ok(written) => prop_assert_eq!(Marked::from_number(number, unit), Ok(written)),
                Err(QuantityError::TooFine { .. }) => {
                    let off = Marked::from_number(number, unit).map(Marked::mm);
                    let mm = LengthUnit::parse("length", unit).unwrap();
                    let mm = mm.convert(number, LengthUnit::Millimetre);
                    prop_assert!(abs_diff_eq!(off.unwrap(), mm, epsilon = 0.51e-6));
                }
                Err(_) => prop_assert!(Marked::from_number(number, unit).is_err()),
            }
        }
        let text = format!("{number} deg");
        prop_assert_eq!(CrankAngle::from_number(number, "deg"), text.parse());
        prop_assert_eq!(MagnetoAngle::from_number(number, "deg"), text.parse());
        prop_assert_eq!(Elapsed::from_number(number, "min"), format!("{number} minutes").parse());
        let held = Temperature::from_celsius(at).unwrap();
        prop_assert_eq!(Temperature::from_number(at, "celsius"), Ok(held));
    }

    /// A program's numbers have up to 17 digits; a length is rounded, an angle or a temperature is
    /// held as it is.
    #[test]
    fn a_computed_number_is_taken(mm in -9_000.0_f64..9_000.0, deg in -7_000.0_f64..7_000.0) {
        let length = Marked::from_number(mm, "mm").unwrap();
        prop_assert!(abs_diff_eq!(length.mm(), mm, epsilon = 0.5e-6 + 1e-12));
        prop_assert_eq!(length.to_string().parse(), Ok(length));
        let taken = CrankAngle::from_number(deg, "deg").unwrap().degrees();
        prop_assert_eq!(taken.to_bits(), deg.to_bits());
        let taken = MagnetoAngle::from_number(deg, "deg").unwrap().degrees();
        prop_assert_eq!(taken.to_bits(), deg.to_bits());
    }

    #[test]
    fn rounding_for_show_stays_within_half_a_step(
        nanometres in -1_000_000_000_i64..1_000_000_000,
        decimals in 0_u32..=6,
    ) {
        let held = Nominal::from_nanometres(nanometres).unwrap();
        let shown = Marked::parse(&held.show(LengthUnit::Millimetre, decimals)).unwrap();
        let off = (shown.nominal().nanometres() - nanometres).abs();
        prop_assert!(off * 2 <= 10_i64.pow(6 - decimals));
    }

    #[test]
    fn comma_and_point_read_the_same(whole in 0_u32..1000, fraction in 0_u32..1000) {
        let point = Marked::parse(&format!("{whole}.{fraction:03} mm")).unwrap();
        let comma = Marked::parse(&format!("{whole},{fraction:03} mm")).unwrap();
        prop_assert_eq!(point, comma);
    }

    #[test]
    fn two_decimal_marks_are_refused(whole in 1_u32..1000, fraction in 0_u32..1000) {
        for text in [
            format!("{whole},{fraction:03}.5 mm"),
            format!("{whole}.{fraction:03},5 mm"),
            format!("{whole}.{fraction:03}.5 mm"),
        ] {
            let error = Marked::parse(&text).unwrap_err();
            prop_assert_eq!(error.code(), "quantity.not-a-number");
        }
    }

    #[test]
    fn a_bare_number_is_refused(text in "[-+]?[0-9]{1,4}([.,][0-9]{1,4})?") {
        for error in [
            Marked::parse(&text).unwrap_err(),
            Lash::parse(&text).unwrap_err(),
            Temperature::parse(&text).unwrap_err(),
            TemperatureDifference::parse(&text).unwrap_err(),
            CrankAngle::parse(&text).unwrap_err(),
            MagnetoAngle::parse(&text).unwrap_err(),
        ] {
            prop_assert_eq!(error.code(), "quantity.no-unit");
        }
    }

    #[test]
    fn any_text_is_answered(text in "\\PC{0,40}") {
        let errors: Vec<QuantityError> = [
            Marked::parse(&text).err(),
            Lash::parse(&text).err(),
            Temperature::parse(&text).err(),
            CrankAngle::parse(&text).err(),
            MagnetoAngle::parse(&text).err(),
        ]
        .into_iter()
        .flatten()
        .collect();
        for error in errors {
            prop_assert!(error.code().starts_with("quantity."));
            prop_assert!(!error.hint().is_empty());
        }
    }

    #[test]
    fn any_float_is_answered(value in any::<f64>()) {
        for made in [
            Lash::from_mm(value).map(Lash::mm),
            Temperature::from_celsius(value).map(Temperature::celsius),
            CrankAngle::from_degrees(value).map(CrankAngle::degrees),
            MagnetoAngle::from_degrees(value).map(MagnetoAngle::degrees),
        ] {
            match made {
                Ok(kept) => prop_assert!(kept.is_finite() && abs_diff_eq!(kept, value, epsilon = 1e-9)),
                Err(error) => prop_assert_eq!(error.code(), "quantity.out-of-range"),
            }
        }
    }

    #[test]
    fn a_temperature_difference_leads_back(
        from in -200.0_f64..1000.0,
        to in -200.0_f64..1000.0,
    ) {
        let from = Temperature::from_celsius(from).unwrap();
        let to = Temperature::from_celsius(to).unwrap();
        // Two roundings of at most 1300 K.
        prop_assert!(abs_diff_eq!((from + (to - from)).celsius(), to.celsius(), epsilon = 1e-12));
    }

    #[test]
    fn a_change_of_lash_leads_back(from in -20.0_f64..20.0, to in -20.0_f64..20.0) {
        let (from, to) = (Lash::from_mm(from).unwrap(), Lash::from_mm(to).unwrap());
        // Two roundings of at most 40 mm.
        prop_assert!(abs_diff_eq!((from + (to - from)).mm(), to.mm(), epsilon = 2e-14));
    }

    #[test]
    fn turning_forward_reaches_the_target(
        from in -2000.0_f64..2000.0,
        to in -2000.0_f64..2000.0,
        cycle in prop_oneof![Just(Cycle::TwoStroke), Just(Cycle::FourStroke)],
    ) {
        let place = |deg| CyclePosition::new(cycle, CrankAngle::from_degrees(deg).unwrap());
        let (from, to) = (place(from), place(to));
        let turn = from.forward_to(to);
        prop_assert!((0.0..cycle.degrees()).contains(&turn.degrees()));
        let off = (from.turned(turn).degrees() - to.degrees()).abs();
        // What lies within 1e-9 degrees below a whole cycle counts as its beginning.
        prop_assert!(off < 1e-8 || cycle.degrees() - off < 1e-8);
    }

    #[test]
    fn cam_and_distributor_lead_back_to_the_crank(
        degrees in -7200.0_f64..7200.0,
        cycle in prop_oneof![Just(Cycle::TwoStroke), Just(Cycle::FourStroke)],
    ) {
        let crank = CrankAngle::from_degrees(degrees).unwrap();
        // Halving and doubling lose nothing in binary.
        prop_assert_eq!(crank.at_cam(cycle).at_crank(cycle), crank);
        prop_assert_eq!(crank.at_distributor(cycle).at_crank(cycle), crank);
    }
}
