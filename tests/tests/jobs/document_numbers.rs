//! Quantities as a program writes them: a number under the key of its unit, with all the digits that
//! `f64` has.

use approx::abs_diff_eq;
use lashwork_tests::examples;
use lashwork_tests::refusals::{example, only, with};
use serde_json::{Value, json};

/// `"0.15 mm"` as `{"mm": 0.15}`, anywhere in a document.
fn as_numbers(value: &mut Value, found: &mut usize) {
    match value {
        Value::String(text) => {
            let parts = text.split_once(' ').and_then(|(number, unit)| {
                let number: f64 = number.parse().ok()?;
                [
                    "mm", "um", "in", "thou", "C", "F", "K", "deg", "min", "rpm", "psi", "ml",
                ]
                .contains(&unit)
                .then(|| json!({ unit: number }))
            });
            if let Some(object) = parts {
                *value = object;
                *found += 1;
            }
        }
        Value::Array(items) => items.iter_mut().for_each(|item| as_numbers(item, found)),
        Value::Object(fields) => fields.values_mut().for_each(|item| as_numbers(item, found)),
        _ => {}
    }
}

/// A report without its words, in which `0.2 mm` may stand for `0.20 mm`.
fn without_words(value: &mut Value) {
    match value {
        Value::String(_) => *value = Value::Null,
        Value::Array(items) => items.iter_mut().for_each(without_words),
        Value::Object(fields) => fields.values_mut().for_each(without_words),
        _ => {}
    }
}

fn answer(document: &Value) -> Value {
    let answer = lashwork_wire::run(document.to_string().as_bytes());
    serde_json::from_slice(&answer).unwrap_or_default()
}

#[test]
fn numbers_under_their_units_give_the_answer_of_the_texts() {
    for (name, bytes) in examples() {
        let document: Value = serde_json::from_slice(&bytes).unwrap_or_default();
        let (mut numbers, mut found) = (document.clone(), 0);
        as_numbers(&mut numbers, &mut found);
        assert!(found > 10, "{name}: {found}");
        let (mut told, mut asked) = (answer(&document), answer(&numbers));
        assert!(asked.get("problems").is_none(), "{name}: {asked}");
        without_words(&mut told);
        without_words(&mut asked);
        assert_eq!(told, asked, "{name}");
    }
}

/// 0.7 + 0.1, a third and a seventh as `f64` prints them.
#[test]
fn a_programs_own_digits_are_taken() {
    let document = with(
        example("inline-four.json"),
        &[
            ("/clearance/gauge/leaves/0", json!({ "mm": 0.7 + 0.1 })),
            ("/clearance/gauge/tolerance", json!({ "in": 0.001 / 3.0 })),
            ("/clearance/valves/guard", json!({ "deg": 360.0 / 7.0 })),
            (
                "/clearance/specifications/0/reference",
                json!({ "celsius": 20.1 + 0.2 }),
            ),
        ],
    );
    let told = answer(&document);
    assert!(told.get("problems").is_none(), "{told}");
    let at = "/report/clearance/specifications/0/reference/celsius";
    let reference = told.pointer(at).and_then(Value::as_f64);
    assert!(
        reference.is_some_and(|c| abs_diff_eq!(c, 20.3, epsilon = 1e-9)),
        "{reference:?}"
    );
}

#[test]
fn each_quantity_is_refused_in_its_own_words() {
    let refused = |pointer: &str, value: Value, code: &str| {
        let document = with(example("inline-four.json"), &[(pointer, value)]);
        let problem = only(document.to_string().as_bytes(), pointer, code);
        format!("{} {}", problem.message, problem.hint)
    };
    let (guard, leaf) = ("/clearance/valves/guard", "/clearance/gauge/leaves/0");
    let (fine, bare) = ("quantity.too-fine", "quantity.no-unit");
    for (value, code) in [
        (json!(15), bare),
        (json!("15"), bare),
        (json!("51.42857142857143 deg"), fine),
    ] {
        let words = refused(guard, value, code);
        assert!(
            !words.contains("nm") && !words.contains("nanometre"),
            "{words}"
        );
        assert!(!words.contains("mm"), "{words}");
    }
    assert!(refused(guard, json!(15), bare).contains("{\"deg\": 12}"));
    assert!(refused(leaf, json!(0.15), bare).contains("{\"mm\": 0.15}"));
    assert!(refused(leaf, json!("0.12345678 mm"), fine).contains("nanometre"));
    refused(guard, json!({ "grad": 15 }), "quantity.unknown-unit");
    refused(leaf, json!({ "mm": 1e300 }), "quantity.out-of-range");
}
