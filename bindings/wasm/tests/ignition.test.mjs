// Questions of the ignition: the bits of the shared direct calls, and refusals at their places.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { LashworkError, ignitionCheck, version } from "../pkg/ignition-node.js";
import { output, pkg, root } from "./support.mjs";

const casesOf = (topic) => JSON.parse(readFileSync(join(root, `tests/direct/ignition_${topic}.json`), "utf8")).cases;

/** A number as the direct calls write it. */
const bits = (number) => {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, number);
  return `0x${view.getBigUint64(0).toString(16).padStart(16, "0")}`;
};
const deg = (number) => ({ deg: number });
const mm = (number) => ({ mm: number });
const btdc = (number) => ({ deg_btdc: number });
const CAMS = [, "half_crank", "crank"];
const SIDES = [, "ahead", "on", "behind"];
const VERDICTS = ["refused", "in_band", "below", "above", "cannot_say"];

const shows = (number, scale) => (scale === 100 ? { shows: { "%": number } } : { shows: deg(number), scale });
const printed = ([gap, gapU, dwell, dwellU, lobes, unusual]) => ({
  lobes,
  gap_unusual: unusual === 1,
  pair: { gap: mm(gap), gap_uncertainty: mm(gapU), dwell: deg(dwell), dwell_uncertainty: deg(dwellU) },
});
const known = ({ value, uncertainty }) => [Object.values(value)[0], uncertainty].map(bits);
const wayOf = (point, tool) => point.ways.find(({ shows }) => tool in shows);
const pistonOf = ([throw_, rod, offset, u, lean]) => ({
  throw: mm(throw_),
  rod: mm(rod),
  offset: mm(offset),
  dial: { uncertainty: mm(u), plug_hole: deg(lean) },
});
const pointBy = (tool, asked) => {
  const { point } = ignitionCheck({ point: asked });
  return [point.at.deg_btdc, wayOf(point, tool).uncertainty_deg].map(bits);
};
const circuit = ([supply, supplyU, ohm, ohmU, mh, mhU, dwell, dwellU, lobes, cam]) => ({
  supply: { volts: supply },
  supply_uncertainty: { volts: supplyU },
  resistance: { ohm },
  resistance_uncertainty: { ohm: ohmU },
  inductance: { millihenries: mh },
  inductance_uncertainty: { millihenries: mhU },
  dwell: deg(dwell),
  dwell_uncertainty: deg(dwellU),
  lobes,
  cam: CAMS[cam],
});
const WEAK = [, (x) => ({ share_of_current: x }), (x) => ({ share_of_energy: x }), (x) => ({ current: { amperes: x } }), (x) => ({ energy: { millijoules: x } })];
const curve = ([speeds, least, most, ends]) => ({
  centrifugal: {
    crank: speeds.map((rpm, at) => ({ speed: { rpm }, least: deg(least[at]), most: deg(most[at]) })),
    ends: ends === 1,
  },
});

/** Each call, asked of the package. */
const CALLS = {
  dwell_of_reading: ([shown, scale, lobes]) => {
    const reading = { ...shows(shown, scale), uncertainty: deg(0) };
    return [bits(ignitionCheck({ dwell: { lobes, reading } }).dwell.reading.value.deg)];
  },
  reading_of_dwell: ([dwell, scale, lobes]) => {
    const to = scale === 100 ? {} : { to_scale: scale };
    const found = ignitionCheck({ dwell: { lobes, reading: { ...shows(dwell), uncertainty: deg(0) }, ...to } }).dwell;
    return [bits(scale === 100 ? found.percent : found.on_scale)];
  },
  dwell_at_gap: (given) => {
    const gap = { is: mm(given[6]), uncertainty: mm(given[7]) };
    return known(ignitionCheck({ dwell: { ...printed(given), gap } }).dwell.at_gap);
  },
  gap_at_dwell: (given) => {
    const reading = { shows: deg(given[6]), uncertainty: deg(given[7]) };
    return known(ignitionCheck({ dwell: { ...printed(given), reading } }).dwell.gap);
  },
  spark_shift: ([change, u, cam, share]) => {
    const asked = { dwell_change: deg(change), uncertainty: deg(u), cam: CAMS[cam], opening_share: share };
    const { earlier, uncertainty_deg } = ignitionCheck({ spark_shift: asked }).spark_shift;
    return [earlier.deg, uncertainty_deg].map(bits);
  },
  distributor_at_point: ([at, turns]) => {
    const way = wayOf(ignitionCheck({ point: { at: btdc(at), crank_turns: turns } }).point, "distributor");
    return [way.shows.distributor.deg_btdc, way.uncertainty_deg].map(bits);
  },
  point_at_distributor: ([at, turns]) => pointBy("distributor", { at_distributor: btdc(at), crank_turns: turns }),
  dial_at_point: (given) => {
    const way = wayOf(ignitionCheck({ point: { at: btdc(given[5]), piston: pistonOf(given) } }).point, "dial");
    return [way.shows.dial.shows.mm, way.shows.dial.travel.mm, way.uncertainty_deg].map(bits);
  },
  point_at_dial: (given) => {
    const read = { shows: mm(given[5]), side: [, "before", "after"][given[6]] };
    return pointBy("dial", { at_dial: read, piston: pistonOf(given) });
  },
  rim_at_point: ([at, diameter, tape]) => {
    const rim = { diameter: mm(diameter), by_tape: tape === 1 };
    const way = wayOf(ignitionCheck({ point: { at: btdc(at), rim } }).point, "rim");
    return [bits(way.shows.rim.along.mm), SIDES.indexOf(way.shows.rim.side), bits(way.uncertainty_deg)];
  },
  point_at_rim: ([along, side, diameter, tape]) => {
    const rim = { diameter: mm(diameter), by_tape: tape === 1 };
    return pointBy("rim", { at_rim: { along: mm(along), side: SIDES[side] }, rim });
  },
  copper_resistance: ([ohm, u, at, within, wanted]) => {
    const asked = {
      of: "copper",
      reads: { ohm },
      uncertainty: { ohm: u },
      at: { celsius: at },
      within: { kelvin: within },
      book_at: { celsius: wanted },
    };
    return known(ignitionCheck({ winding: asked }).winding.resistance);
  },
  charge_at_speed: (given) => {
    const asked = { ...circuit(given), speeds: [{ rpm: given[10] }] };
    const [one] = ignitionCheck({ coil: asked }).coil.charges;
    const shares = [one.share_of_current, one.share_of_energy].map(bits);
    return [bits(Object.values(one.closed)[0]), ...known(one.current), ...known(one.energy), ...shares];
  },
  weak_from_speed: (given) => {
    const asked = { ...circuit(given), weak_below: WEAK[given[10]](given[11]) };
    return known(ignitionCheck({ coil: asked }).coil.weak_above);
  },
  advance_at_speed: (given) => {
    const { least, most } = ignitionCheck({ advance: { ...curve(given), speed: { rpm: given[4] } } }).advance.allowed;
    return [least.deg, most.deg].map(bits);
  },
};

/** What is refused sooner here than by the calls: it is no quantity, no byte, or no share in per cent. */
const REFUSED_EARLIER = ["quantity.out-of-range", "document.unexpected", "ignition.dwell-percent"];

/** What is given without any doubt: an uncertainty is written as a resistance is, and none of those is nought. */
const WITHOUT_DOUBT = ["direct-coil-002", "direct-coil-006"];

test("every answer has the bits of the direct call, and what that refuses is refused", () => {
  const counts = { answered: 0, refused: 0, sameCode: 0 };
  const called = new Set();
  for (const { id, call, in: given, out, refused } of ["breaker", "point", "coil", "timing"].flatMap(casesOf)) {
    if (!(call in CALLS)) continue;
    called.add(call);
    if (WITHOUT_DOUBT.includes(id)) {
      assert.throws(() => CALLS[call](given), { code: "quantity.out-of-range", path: /uncertainty$/ }, id);
    } else if (out !== undefined) {
      assert.deepEqual(CALLS[call](given), out, id);
      counts.answered += 1;
    } else {
      assert.throws(
        () => CALLS[call](given),
        (why) => {
          assert.ok(why instanceof LashworkError, `${id}: ${why}`);
          const codes = why.problems.map(({ code }) => code);
          assert.ok([refused, ...REFUSED_EARLIER].some((code) => codes.includes(code)), `${id}: ${codes}, not ${refused}`);
          assert.ok(why.problems.every(({ place, hint }) => place.startsWith("/") && hint.length > 0), id);
          counts.sameCode += codes.includes(refused) ? 1 : 0;
          return true;
        },
      );
      counts.refused += 1;
    }
  }
  assert.deepEqual([...called].sort(), Object.keys(CALLS).sort());
  assert.ok(counts.answered >= 35 && counts.sameCode >= 25, JSON.stringify(counts));
});

test("a strobe reading is judged with the bits of the columns", () => {
  let rows = 0;
  for (const { id, call, in: given, out } of casesOf("timing")) {
    const [speeds, , , , span, low, high, at, rule, , , speedU, delay, hose, read, rpm, u] = given;
    // The usual rule alone: a question has no other.
    if (call !== "judge_strobe_columns" || out === undefined || rule !== 5) continue;
    read.forEach((shown, row) => {
      const expected = out.slice(11 * row, 11 * (row + 1));
      const asked = {
        ...(speeds === null ? {} : curve(given)),
        limits: { ...(span !== 3 && { from: btdc(low) }), ...(span !== 2 && { to: btdc(high) }) },
        ...(at !== 0 && { printed_for: { rpm: at } }),
        reading: {
          read: btdc(shown),
          uncertainty: deg(u[row]),
          speed: { rpm: rpm[row] },
          speed_uncertainty: { rpm: speedU },
          vacuum_hose: [, "not_fitted", "plugged", "connected"][hose],
          lamp_delay_us: delay,
        },
      };
      if (expected[0] === 0) {
        assert.throws(() => ignitionCheck({ advance: asked }), LashworkError, `${id} ${row}`);
        return;
      }
      const { low: from, high: to, uncertainty_deg, judged } = ignitionCheck({ advance: asked }).advance.point;
      const chances = ["below", "in_band", "above"].flatMap((side) => [judged.probabilities[side].least, judged.probabilities[side].most]);
      const found = [VERDICTS.indexOf(judged.verdict), Number(judged.provable), ...[...chances, from.deg_btdc, to.deg_btdc, uncertainty_deg].map(bits)];
      assert.deepEqual(found, expected, `${id} ${row}`);
      rows += 1;
    });
  }
  assert.ok(rows >= 12, `${rows} rows`);
});

test("verdict, other scales and printed pairs are those of a whole document", async () => {
  const { run } = await import("../pkg/node.js");
  const dwell = { shows: "34 deg", uncertainty: "0.5 deg" };
  const limits = { from: "50 deg", to: "54 deg" };
  const { dwell: found } = ignitionCheck({ dwell: { lobes: 4, reading: dwell, limits } });
  const document = JSON.parse(readFileSync(join(root, "examples/data/opposed-four-ignition.json"), "utf8"));
  document.ignition.contacts = { dwell, dwell_limits: limits };
  const { contacts } = run(document).ignition;
  assert.equal(found.judged.verdict, contacts.dwell.verdict);
  assert.deepEqual(found.judged.probabilities, contacts.dwell.probabilities);
  assert.ok(contacts.other_scales.length > 0);
  assert.deepEqual(
    found.other_scales.map(({ scale, dwell: { value }, in_band }) => ({ scale, dwell: value, in_band })),
    contacts.other_scales.map(({ scale, dwell, in_band }) => ({ scale, dwell, in_band })),
  );
});

test("what is not in order is refused where it stands, all of it together", () => {
  const refused = (check) => {
    try {
      ignitionCheck(check);
    } catch (why) {
      return why.problems.map(({ place, code }) => `${place} ${code}`);
    }
    return assert.fail("nothing was thrown");
  };
  assert.deepEqual(refused({}), [" document.missing-field"]);
  assert.deepEqual(refused([]), [" document.wrong-type"]);
  assert.deepEqual(refused({ dwel: {} }), ["/dwel document.unknown-field"]);
  const reading = { shows: "52 deg", uncertainty: "1 deg" };
  assert.deepEqual(refused({ dwell: { lobes: 4, reading: { ...reading, shows: 52 } } }), ["/dwell/reading/shows quantity.no-unit"]);
  assert.deepEqual(refused({ dwell: { lobes: 8, reading }, point: { at: "10 deg BTDC", at_rim: { along: "5 mm", side: "ahead" } } }), [
    "/dwell/reading ignition.dwell-beyond-pitch",
    "/point ignition.one-point",
  ]);
  assert.deepEqual(refused({ dwell: { lobes: 4, gap: { is: "0.4 mm", uncertainty: "0.01 mm" } } }), ["/dwell/pair document.missing-field"]);
  assert.deepEqual(refused({ point: { at_distributor: "5 deg BTDC" } }), ["/point/crank_turns document.missing-field"]);
  assert.deepEqual(refused({ advance: { speed: "1500 rpm" } }), ["/advance/centrifugal document.missing-field"]);
  assert.equal(version(), JSON.parse(readFileSync(join(pkg, "package.json"), "utf8")).version);
});

test("what was taken is listed, and a page that forgets init is told so", () => {
  const shift = { dwell_change: "3 deg", uncertainty: "0.5 deg", cam: "half_crank" };
  assert.deepEqual(ignitionCheck({ spark_shift: shift }).assumptions.map(({ code }) => code), ["ignition.flanks-symmetric"]);
  const script = `import { ignitionCheck } from ${JSON.stringify(`${pkg}/ignition.js`)};
    try { ignitionCheck({}); } catch (why) { console.log(why.code); }`;
  assert.equal(output("node", ["--input-type=module", "-e", script]).trim(), "package.not-ready");
});
