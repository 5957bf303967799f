// The direct calls that the package offers, for node and for a page: inputs as the cases hold them, answers as
// they are written. Knows nothing of what is right.

const OWN = ["lower", "upper", "at", "at_uncertainty", "reference", "mm_per_kelvin", "mm_per_kelvin_uncertainty"];
const RULES = [, "guarded_tight", "simple", "iso_14253_1"];
const CLASSES = [, "00", "0", "I"];
const SHOWN_AS = [, , "hexane", "hexane_of_petrol", "propane", "carbon"];
const COUNTS = [, "hours", "distance", "days"];

const mm = (nanometres) => `${nanometres / 1e6} mm`;
const floats = (numbers) => Float64Array.from(numbers);
const rows = (column, row) => column.map((_, at) => row(at));

/** A number as the direct calls write it: the bits of a float, or a code. */
const bits = (number) => {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, Number.isNaN(number) ? NaN : number);
  return `0x${view.getBigUint64(0).toString(16).padStart(16, "0")}`;
};

/**
 * Each call: what comes out row by row, and which rows were refused; nothing where the package cannot be
 * asked with an input.
 */
export const CALLS = {
  judge_columns(lashwork, [span, from, to, rule, , , ends, low, high, uncertainty, ...own]) {
    const limits = { ...(span !== 3 && { from: mm(from) }), ...(span !== 2 && { to: mm(to) }) };
    const stated = own.map((numbers) => {
      const all = typeof numbers === "number" ? low.map(() => numbers) : numbers;
      return all?.map((number) => number ?? NaN);
    });
    const found = lashwork.judgeColumns(
      {
        // An end that is open is infinite here and of a span of its own in the cases.
        low: Float64Array.from(low, (end, row) => (ends?.[row] === 3 ? -Infinity : end)),
        high: Float64Array.from(high, (end, row) => (ends?.[row] === 2 ? Infinity : end)),
        uncertainty: floats(uncertainty),
        ...Object.fromEntries(OWN.flatMap((name, at) => (stated[at] ? [[name, floats(stated[at])]] : []))),
      },
      { ...(span !== 0 && { limits }), rule: RULES[rule] },
    );
    const sides = [found.below, found.in_band, found.above].flatMap(({ least, most }) => [least, most]);
    const numbers = [...sides, found.low, found.high, found.uncertainty];
    const out = rows(low, (row) => [
      found.verdict[row],
      found.provable[row],
      ...numbers.map((column) => bits(column[row])),
      found.at_reference[row],
    ]);
    return { out, refused: found.refused };
  },
  lambda_of_columns(lashwork, given) {
    if (SHOWN_AS[given[5]] === undefined) {
      return undefined;
    }
    const [co2, co, o2, hc] = given.map((column) => (Array.isArray(column) ? floats(column) : column));
    const settings = { fuel: `CH${given[7]}O${given[8]}N${given[9]}`, class: CLASSES[given[6]], shown_as: SHOWN_AS[given[5]] };
    const found = lashwork.lambdaColumns({ co2, co, o2, hc }, settings);
    // The direct calls give each contradiction a bit, so that several fit into one number.
    const bit = (at) => (at === 0 ? 0 : 2 ** (at - 1));
    const out = rows(given[0], (row) => [bits(found.lambda[row]), bits(found.uncertainty[row]), bit(found.contradiction[row])]);
    return { out, refused: found.refused };
  },
  density_of_columns(lashwork, given) {
    if (given[3] < 0) {
      // A pressure under nothing is refused as a text before the call is made.
      return undefined;
    }
    const [pressure, temperature, humidity] = given.slice(0, 3).map(floats);
    const uncertainty = { pressure: `${given[3]} kPa`, temperature: `${given[4]} K`, humidity: `${given[5]} %` };
    const found = lashwork.densityColumns({ pressure, temperature, humidity }, { uncertainty });
    const out = rows(given[0], (row) => [found.density, found.uncertainty, found.altitude].map((column) => bits(column[row])));
    return { out, refused: found.refused };
  },
  leak_of_columns(lashwork, [supply, supplyU, orifice, orificeU, shown, air, shownU, airU]) {
    const uncertainty = { supply: `${supplyU} kPa`, orifice: `${orificeU} mm`, shown: `${shownU} kPa`, air: `${airU} kPa` };
    const settings = { supply: `${supply} kPa`, orifice: `${orifice} mm`, uncertainty };
    const found = lashwork.leakColumns({ shown: floats(shown), air: floats(air) }, settings);
    const out = rows(shown, (row) => [found.area, found.uncertainty, found.hole].map((column) => bits(column[row])));
    return { out, refused: found.refused };
  },
  drift_of_columns(lashwork, [at, low, high, uncertainty, span, valve, state, count, , , , valves, ends, from, to, rule]) {
    const columns = {
      at: floats(at),
      low: Float64Array.from(low, (end, row) => (span?.[row] >= 3 ? -Infinity : end)),
      high: Float64Array.from(high, (end, row) => ([2, 4].includes(span?.[row]) ? Infinity : end)),
      uncertainty: floats(uncertainty),
      valve: floats(valve ?? at.map(() => 0)),
      ...(state && { state: floats(state) }),
    };
    const limits = { ...(ends !== 3 && { from: mm(from) }), ...(ends !== 2 && { to: mm(to) }) };
    const found = lashwork.driftColumns(columns, valves, { limits, rule: RULES[rule], counted_by: COUNTS[count] });
    const out = Array.from({ length: valves }, (_, row) => [
      bits(found.rate[row]),
      bits(found.uncertainty[row]),
      found.look[row],
      bits(found.at[row]),
    ]);
    return { out, refused: found.refused };
  },
};
