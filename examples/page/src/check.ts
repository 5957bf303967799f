// One valve as the kernel takes it: a quick check for each book, made of what a document says of clearances.
// What is wrong with a part is told at its place there; the reading has none.

import { toReading } from "./felt";
import {
  asked,
  isThere,
  quickCheck,
  type Document,
  type Problem,
  type QuickCheck,
  type OneValveReport,
} from "./kernel";
import { redraw, type Quick, type Settings } from "./state";

export interface Checked {
  /** What each book makes of the reading; none before there is a reading. */
  found: { book: string; report: OneValveReport }[];
  assumptions: OneValveReport["assumptions"];
  problems: Problem[];
  /** Whether it takes the whole WebAssembly file, which is not there yet. */
  waits: boolean;
}

const NOTHING: Checked = { found: [], assumptions: [], problems: [], waits: false };

/** The code of what the small WebAssembly file leaves to the whole one. */
const LEFT_OUT = "build.left-out";

type With = Pick<Settings, "rule" | "gauge">;

/** A reading that every set of leaves can give. It stands in for one that is not there yet, so that the rest
 * can be looked at; what is said of it is shown to nobody. */
const ANY_READING: QuickCheck["reading"] = { nothing_goes: true };

/** Checks are made once for what they are made of, so that the kernel is asked once. */
let made = new WeakMap<Quick, With & { checked: Checked }>();

/** Asks again: what was refused before the whole WebAssembly file was there is answered with it. */
export function checkAnew(): void {
  made = new WeakMap();
  redraw();
}

/** What the kernel says about the valve that was read. */
export function checked(quick: Quick, { rule, gauge }: With): Checked {
  const known = made.get(quick);
  if (known && known.rule === rule && known.gauge === gauge) return known.checked;
  if (!isThere()) return NOTHING;
  // Nothing is judged before it is said which valve it is, and that it is closed.
  const fresh = quick.valve ? check(quick, { rule, gauge }, quick.valve) : NOTHING;
  made.set(quick, { rule, gauge, checked: fresh });
  return fresh;
}

/** What is wrong with the books and the adjuster, for either kind of valve. */
export function faultsOfBoth(quick: Quick, { rule, gauge }: With): Problem[] {
  if (!isThere()) return [];
  return once(
    (["intake", "exhaust"] as const).flatMap((valve) => check(quick, { rule, gauge }, valve).problems),
  );
}

/** What can hurt someone at this valve. */
export function cautionsOf(quick: Quick, { rule, gauge }: With): string[] {
  if (!isThere() || !quick.valve) return [];
  const { valve } = quick;
  return once(
    answersOf(quick, { rule, gauge }, valve, ANY_READING).flatMap(({ report }) => report?.cautions ?? []),
  );
}

function check(quick: Quick, settings: With, valve: "intake" | "exhaust"): Checked {
  const reading = canJudge(quick) ? toReading(quick.felt) : undefined;
  const answers = answersOf(quick, settings, valve, reading ?? ANY_READING);
  const problems = answers.flatMap(({ problems }) => problems);
  return {
    found: reading ? answers.flatMap(({ book, report }) => (report ? [{ book, report }] : [])) : [],
    assumptions: once(answers.flatMap(({ report }) => report?.assumptions ?? [])),
    problems: once(problems.filter(({ code }) => code !== LEFT_OUT)),
    waits: problems.some(({ code }) => code === LEFT_OUT),
  };
}

/** An engine that is not cold is not judged before its temperature is said. */
const canJudge = ({ cold, base }: Quick): boolean => cold || base.clearance.metal !== undefined;

function answersOf(
  quick: Quick,
  settings: With,
  valve: "intake" | "exhaust",
  reading: QuickCheck["reading"],
) {
  const rest = partsOf(quick.base.clearance);
  const said = quick.base.clearance.specifications.map((book, i) => ({ book, i }));
  return said.map(({ book, i }) => {
    const { report, problems } = asked(() =>
      quickCheck({
        valve,
        limits: book[valve] ?? {},
        ...(book.reference && { reference: book.reference }),
        reading: { ...reading, ...(quick.shim && rest.shim && { shim: quick.shim }) },
        ...rest,
        ...settings,
      }),
    );
    return { book: book.id, report, problems: problems.map((problem) => placed(problem, i, valve)) };
  });
}

/** The parts of a document that a quick check takes too, without what only a whole job can use. */
function partsOf({ valves, metal }: Document["clearance"]): Omit<QuickCheck, "valve" | "limits" | "reading"> {
  const { rocker_ratio, screw, shim } = valves;
  const { stock: _stock, swap: _swap, ...oneShim } = shim ?? {};
  const { cooling: _cooling, curve: _curve, use, ...warmth } = metal ?? {};
  if (use === "parts") {
    delete warmth.temperature;
    delete warmth.measured;
  } else if (use === "measured") {
    delete warmth.temperatures;
    delete warmth.parts;
  }
  return {
    ...(screw && { screw }),
    ...(shim && { shim: oneShim as NonNullable<QuickCheck["shim"]> }),
    ...(rocker_ratio != null && { rocker_ratio }),
    ...(metal && { metal: warmth }),
  };
}

/** Where the parts of a quick check for book `i` stand in what the document says of clearances. */
const places = (i: number, valve: string): [string, string][] => [
  ["/limits", `/specifications/${i}/${valve}`],
  ["/reference", `/specifications/${i}/reference`],
  ["/screw", "/valves/screw"],
  ["/shim", "/valves/shim"],
  ["/rocker_ratio", "/valves/rocker_ratio"],
];

function placed(problem: Problem, i: number, valve: string): Problem {
  const found = places(i, valve).find(([from]) => `${problem.place}/`.startsWith(`${from}/`));
  if (!found) return problem;
  const [from, to] = found;
  return { ...problem, place: to + problem.place.slice(from.length) };
}

function once<T>(all: readonly T[]): T[] {
  return [...new Map(all.map((one) => [JSON.stringify(one), one])).values()];
}
