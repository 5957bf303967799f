//! Every shared vector through every interface, compared by the same test.

use lashwork_tests::vectors::{Door, folder, pick, read, same};
use serde_json::json;

/// The ways to ask the kernel.
const DOORS: &[(&str, Door)] = &[("wire", lashwork_wire::run)];

#[test]
fn every_vector_holds_at_every_door() -> Result<(), String> {
    let vectors = read(&folder())?;
    assert!(vectors.len() >= 25, "only {} vectors", vectors.len());
    let mut failures = Vec::new();
    for (name, door) in DOORS {
        for vector in &vectors {
            let found = vector.differences(&door(&vector.request));
            failures.extend(found.into_iter().map(|f| format!("{name}: {f}")));
        }
    }
    assert!(
        failures.is_empty(),
        "{} differences:\n{}",
        failures.len(),
        failures.join("\n")
    );
    Ok(())
}

#[test]
fn every_vector_notices_a_wrong_answer() -> Result<(), String> {
    for vector in read(&folder())? {
        for answer in ["", "null", "{\"report\": {}}", "{\"problems\": []}"] {
            let found = vector.differences(answer.as_bytes());
            assert!(!found.is_empty(), "{} accepts {answer:?}", vector.id);
        }
    }
    Ok(())
}

#[test]
fn the_judge_tells_the_place_of_a_difference() {
    let expected = json!({ "a": [1.0, { "b": "tight" }], "c": null });
    let near = json!({ "a": [1.000_000_1, { "b": "tight" }], "c": null });
    assert_eq!(same(&expected, &expected, 0.0), Ok(()));
    assert_eq!(same(&expected, &near, 1e-6), Ok(()));
    let wrong = [
        (json!({ "a": [1.1, { "b": "tight" }], "c": null }), "/a/0:"),
        (
            json!({ "a": [1.0, { "b": "loose" }], "c": null }),
            "/a/1/b:",
        ),
        (json!({ "a": [1.0], "c": null }), "/a:"),
        (json!({ "a": [1.0, {}], "c": null }), "/a/1/b:"),
        (json!({ "a": [1.0, { "b": "tight" }] }), "/c:"),
        (json!({ "a": [1.0, { "b": "tight" }], "c": 0 }), "/c:"),
        (
            json!({ "a": ["1.0", { "b": "tight" }], "c": null }),
            "/a/0:",
        ),
        (
            json!({ "a": [1.0, { "b": "tight" }], "c": null, "d": 1 }),
            "/d:",
        ),
    ];
    for (got, place) in wrong {
        let found = same(&expected, &got, 1e-6).err().unwrap_or_default();
        assert!(found.starts_with(place), "{got}: {found:?}");
    }
}

#[test]
fn a_star_gathers_over_a_list() {
    let value = json!({ "list": [{ "x": { "y": 1 } }, { "x": { "y": 2 } }], "odd": [{}] });
    assert_eq!(pick(&value, "/list/*/x/y"), Some(json!([1, 2])));
    assert_eq!(pick(&value, "/list/1/x/y"), Some(json!(2)));
    assert_eq!(pick(&value, "/odd/*/x"), None);
    assert_eq!(pick(&value, "/list/0/*"), None);
}

#[test]
fn a_folder_without_vectors_is_refused() -> Result<(), std::io::Error> {
    let empty = std::env::temp_dir().join(format!("lashwork-empty-{}", std::process::id()));
    std::fs::create_dir_all(&empty)?;
    let outcome = read(&empty);
    std::fs::remove_dir(&empty)?;
    assert!(outcome.is_err());
    Ok(())
}
