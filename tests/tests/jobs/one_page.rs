//! The job sheet on one page: its size, its order, room to write, and that nothing a hand would follow is missing.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a page that does not hold what it must is a broken test"
)]

use lashwork::job::BearsOn;
use lashwork::job::clearance::ClearanceReport;
use lashwork_tests::refusals::{example, put};
use serde_json::{Value, json};

const LINES: usize = 66;
const COLUMNS: usize = 100;

fn page(document: &Value) -> (String, ClearanceReport) {
    let report = lashwork_wire::report(document.to_string().as_bytes()).expect("a report");
    (report.sheet(), report.clearance.expect("clearances"))
}

fn place(page: &str, text: &str) -> usize {
    page.find(text)
        .unwrap_or_else(|| panic!("no {text:?} on\n{page}"))
}

/// 66 lines of 100 characters are a page of a line printer.
#[test]
fn a_four_cylinder_engine_fits_a_page() {
    for name in ["inline-four.json", "exchanged-four.json"] {
        let (page, _) = page(&example(name));
        let lines = page.lines().count();
        assert!(lines <= LINES, "{name}: {lines} lines");
        let wide = page.lines().find(|line| line.chars().count() > COLUMNS);
        assert_eq!(wide, None, "{name}");
    }
}

#[test]
fn what_is_settled_first_comes_first_and_every_valve_has_room_to_write() {
    let (page, found) = page(&example("exchanged-four.json"));
    let stop_work = place(&page, "STOP WORK: ");
    let (book, caution) = (place(&page, "\n[book] "), place(&page, "\n! "));
    let (stop, assumed) = (place(&page, "\nStop 1: "), place(&page, "\nAssumed"));
    assert!(stop_work < book && book < caution && caution < stop && stop < assumed);
    // Nothing to turn stands anywhere while that is open.
    assert!(
        !page.contains("screw out") && !page.contains("reset to"),
        "{page}"
    );
    let rows = page.matches("[_______] [_______]").count();
    assert_eq!(rows, found.valves.len() + found.not_read.len());
}

#[test]
fn what_comes_before_an_amount_stands_before_it() {
    let mut document = example("inline-four.json");
    let nothing = json!({ "cylinder": "1", "valve": "exhaust", "nothing_goes": true });
    put(&mut document, "/clearance/readings/1", nothing);
    let (page, _) = page(&document);
    let (closed, cause) = (
        place(&page, "make sure that this valve is closed"),
        place(&page, "find the cause first"),
    );
    assert!(closed < cause, "{page}");
}

/// Everything but the chosen way round is one line each; a verdict's assumptions are told, the rest
/// counted.
#[test]
fn what_is_not_needed_under_the_bonnet_is_one_line() {
    let (page, found) = page(&example("inline-four.json"));
    let others = page.lines().filter(|line| line.starts_with("Or ")).count();
    assert_eq!(others, found.stops.plans.len() - 1);
    assert!(page.contains("- uncertainty of the hand not stated"));
    assert!(page.contains(" more on the full sheet"));
    assert!(
        !page.contains("deg inside") && !page.contains("u 0.00"),
        "{page}"
    );
}

#[test]
fn shims_are_changed_stop_by_stop_with_their_cautions() {
    let (page, found) = page(&example("v-eight-shims.json"));
    let plan = found.shim_plans.first().expect("a plan");
    let caution = place(&page, "! Press a valve down only as far as");
    let mut last = caution;
    for number in 1..=plan.stops.len() {
        let at = place(&page, &format!("\nShim stop {number}: "));
        assert!(at > last, "{page}");
        last = at;
    }
    let steps = page
        .lines()
        .filter(|line| line.contains(": lift out "))
        .count();
    assert_eq!(steps, plan.moves.len());
}

/// Parts may be called anything, also what reads like a temperature.
#[test]
fn the_head_shows_temperatures_and_no_parts() {
    let mut document = example("inline-four.json");
    let part = "/clearance/metal/parts/0/part";
    put(&mut document, part, json!("iron at the front"));
    let (sheet, found) = page(&document);
    assert!(!sheet.contains("at the front"), "{sheet}");
    assert!(sheet.contains("\nblock at 25 C (u 2 K)\n"), "{sheet}");
    let all = found.warmth.temperatures;
    assert_eq!(all.len(), 1);
    assert_eq!(all[0].name.as_deref(), Some("block"));
    assert!((all[0].temperature.celsius() - 25.0).abs() < 1e-9);
    assert!((all[0].uncertainty_k - 2.0).abs() < 1e-12);
    assert_eq!(all[0].valves, None);
}

/// What the page tells of its assumptions is what the report says a verdict or a place hangs on.
#[test]
fn the_page_tells_the_assumptions_that_bear_on_a_verdict_or_a_place() {
    for name in ["inline-four.json", "radial-nine.json", "v-eight-shims.json"] {
        let bytes = example(name).to_string();
        let report = lashwork_wire::report(bytes.as_bytes()).expect("a report");
        // Words only: the page breaks its lines.
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let page = words(&report.sheet());
        for one in &report.assumptions {
            let told = page.contains(&words(&format!("- {}", one.text)));
            assert_eq!(told, one.bears_on != BearsOn::Other, "{name}: {}", one.code);
        }
        let bears = |code: &str, on: BearsOn| {
            let mut all = report.assumptions.iter().filter(|a| a.code == code);
            assert!(all.all(|a| a.bears_on == on), "{name}: {code}");
        };
        bears("feeler.hand", BearsOn::Verdict);
        bears("tolerance.rule", BearsOn::Verdict);
        bears("valve.events", BearsOn::Place);
        bears("valve.start", BearsOn::Place);
        bears("adjust.sense", BearsOn::Other);
    }
}

/// How often an action stands in what was found.
fn actions(found: &Value, action: &str) -> usize {
    let own = usize::from(found["action"] == action);
    let below: usize = match found {
        Value::Array(all) => all.iter().map(|one| actions(one, action)).sum(),
        Value::Object(all) => all.values().map(|one| actions(one, action)).sum(),
        _ => 0,
    };
    own + below
}

/// Every amount that is set or fitted, what then reads, and every reading to be taken has room beside it.
#[test]
fn ignition_and_mixture_have_room_to_write() {
    let examples = [
        ("four-carburettors-at-altitude.json", "mixture"),
        ("opposed-four-ignition.json", "ignition"),
        ("opposed-four-magnetos.json", "ignition"),
        ("odd-fire-twin-ignition.json", "ignition"),
    ];
    let (mut set, mut read) = (0, 0);
    for (name, section) in examples {
        let mut document = example(name);
        if section == "mixture" {
            // So loosely read that it is to be read again.
            put(&mut document, "/mixture/float/uncertainty", json!("3 mm"));
        }
        let bytes = document.to_string();
        let report = lashwork_wire::report(bytes.as_bytes()).expect("a report");
        let page = report.sheet();
        let page = page.split("IGNITION: ").last().expect("the last page");
        let wide = page.lines().find(|line| line.chars().count() > COLUMNS);
        assert_eq!(wide, None, "{name}");
        let found = serde_json::to_value(&report).expect("as JSON");
        let sets = actions(&found[section], "set");
        let rooms = |word: &str| page.matches(&format!(" {word} [_______]\n")).count();
        assert_eq!(rooms("as left"), sets, "{name}\n{page}");
        assert!(rooms("done") >= sets, "{name}\n{page}");
        let measures = actions(&found[section], "measure");
        assert!(rooms("found") >= measures, "{name}\n{page}");
        (set, read) = (set + sets, read + measures);
    }
    assert!(set > 0 && read > 0);
}

/// Two screws of a linkage are two amounts, and all four throttles are read again.
#[test]
fn each_screw_and_each_throttle_has_its_own_room() {
    let bytes = example("four-carburettors-at-altitude.json").to_string();
    let report = lashwork_wire::report(bytes.as_bytes()).expect("a report");
    let balance = report
        .mixture
        .as_ref()
        .and_then(|found| found.balance.as_ref());
    assert_eq!(balance.expect("asked for").turns.len(), 2);
    let page = report.sheet();
    let from = place(&page, "\nBalance: ");
    let to = place(&page, "\nIdle: ");
    let part = page.get(from..to).expect("one after the other");
    assert_eq!(part.matches(" done [_______]\n").count(), 2, "{part}");
    assert_eq!(part.matches(" then [_______]\n").count(), 4, "{part}");
    assert_eq!(part.matches("then the screw between").count(), 1, "{part}");
}
