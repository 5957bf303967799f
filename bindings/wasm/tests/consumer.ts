// A program as a user writes it; it is compiled, not run.
import { CONTRADICTIONS, LOOKS, LashworkError, PARTS, bring, densityColumns, driftColumns, init, initSync, jobSheet, judgeColumns, lambdaColumns, leakColumns, missing, VERDICTS, quickCheck, run, runJson, schema, version } from "lashwork";
import type { Document, Part, Problem, QuickCheck, OneValveReport, Report } from "lashwork";

const check: QuickCheck = {
  valve: "intake",
  limits: { set_to: "0.20 mm", set: { from: "0.15 mm", to: "0.25 mm" } },
  reading: { goes: ["0.12 mm"], refuses: ["0.15 mm"] },
  screw: { pitch: "1 mm", seat: "valve_side" },
};

export async function use(document: Document): Promise<string> {
  await init();
  await init(new URL("https://example.org/lashwork.wasm"));
  await init(undefined, ["clearance"]);
  await init("lashwork.wasm", { history: "history.wasm" });
  // @ts-expect-error no such part
  await init(undefined, ["carburettor"]);
  await bring(document);
  const open: Part[] = missing(document);
  initSync(new Uint8Array());
  initSync(new Uint8Array(), { mixture: new Uint8Array() });
  if (open.length === PARTS.length) return "";
  const report: Report = run(document);
  run("{}");
  run(new Uint8Array());
  const quick: OneValveReport = quickCheck(check);
  const text: string = jobSheet(document) + runJson(document) + version();
  const properties: unknown = (await schema())["properties"];
  const column = new Float64Array(1);
  const columns = { low: column, high: column, uncertainty: column };
  const judged = judgeColumns(columns, { limits: { from: "0.15 mm" }, rule: "simple" });
  const word: "refused" | "in_band" | "below" | "above" | "cannot_say" | undefined = VERDICTS[judged.verdict[0] ?? 0];
  const sure: number | undefined = judged.below.least[0];
  const cold: number | undefined = judgeColumns({ ...columns, lower: column, at: column }, { rule: "simple", warmth: { reference: "20 C" } }).low[0];
  // @ts-expect-error a plain list is no column
  judgeColumns({ ...columns, low: [0.1] }, { limits: { from: "0.15 mm" }, rule: "simple" });
  // @ts-expect-error the rule has no default
  judgeColumns(columns, { limits: { from: "0.15 mm" } });
  const gas = lambdaColumns({ co2: column, co: column, o2: column, hc: column }, { fuel: "E10", class: "0", shown_as: "hexane" });
  const doubt: (typeof CONTRADICTIONS)[number] | undefined = CONTRADICTIONS[gas.contradiction[0] ?? 0];
  const u = { pressure: "0.3 kPa", temperature: "1 K", humidity: "5 %" };
  const dense: number | undefined = densityColumns({ pressure: column, temperature: column, humidity: column }, { uncertainty: u }).density[0];
  // @ts-expect-error the class of the tester has no default
  lambdaColumns({ co2: column, co: column, o2: column, hc: column }, { fuel: "E10", shown_as: "hexane" });
  const instruments = { supply: "3 kPa", orifice: "0.01 mm", shown: "4 kPa", air: "0.5 kPa" };
  const hole: number | undefined = leakColumns({ shown: column, air: column }, { supply: "80 psi", orifice: "1 mm", uncertainty: instruments }).hole[0];
  const past = { at: column, low: column, high: column, uncertainty: column, valve: column };
  const drifts = driftColumns(past, 1, { limits: { from: "0.15 mm" }, rule: "guarded_tight", counted_by: "hours" });
  const due: (typeof LOOKS)[number] | undefined = LOOKS[drifts.look[0] ?? 0];
  // @ts-expect-error what time is counted by has no default
  driftColumns(past, 1, { limits: { from: "0.15 mm" }, rule: "simple" });
  const first = report.clearance?.valves[0];
  if (first === undefined) return text + String(properties) + word + sure + cold + doubt + dense + hole + due;
  const verdict: "in_band" | "below" | "above" | "cannot_say" = quick.judged.verdict;
  const advice = first.judged[0]?.advice;
  const change: number | undefined = advice?.action === "reset" ? advice.change?.mm : undefined;
  return `${verdict} ${change ?? "unknown"} ${first.felt_low?.mm ?? "open"}`;
}

export function told(why: unknown): readonly Problem[] {
  if (!(why instanceof LashworkError)) throw why;
  const parts: [string, string, string] = [why.code, why.path, why.hint];
  return parts.length ? why.problems : [];
}

// @ts-expect-error a number is no document
run(7);
// @ts-expect-error the fields of an engine are missing
run({ lashwork: 1, title: "x", engine: {} });
// @ts-expect-error no such kind of valve
export const inlet: QuickCheck = { ...check, valve: "inlet" };
// @ts-expect-error a bare number has no unit
export const bare: QuickCheck = { ...check, limits: { set_to: 0.2, set: {} } };
// @ts-expect-error a misspelt field
export const misspelt: QuickCheck = { ...check, reeding: {} };
// @ts-expect-error the reading of a quick check names no cylinder
export const cylinder: QuickCheck = { ...check, reading: { goes: ["0.1 mm"], cylinder: "1" } };
// @ts-expect-error there is no such verdict
export const verdict: OneValveReport["judged"]["verdict"] = "ok";
// @ts-expect-error the low end may be open
export const low = (report: OneValveReport): number => report.felt_low.mm;
