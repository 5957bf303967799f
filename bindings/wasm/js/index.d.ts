// The public face of the package. `document.d.ts` and `report.d.ts` are made from the JSON Schemas of
// documents and answers.

import type { BandDoc, ClearanceDoc, Document, GaugeDoc, LimitsDoc, MetalDoc, ReadingDoc, SpecificationDoc, ValvesDoc } from "./document.js";
import type { OneValveReport, Problem, Report } from "./report.js";

export type * from "./document.js";
export type * from "./report.js";

/** Where the WebAssembly file is: an address, a response, its bytes, or a compiled module. */
export type Source =
  | string
  | URL
  | Request
  | Response
  | BufferSource
  | WebAssembly.Module
  | Promise<Response | BufferSource | WebAssembly.Module>;

/** A section of a document whose code lies in a file of its own. */
export type Part = "clearance" | "condition" | "ignition" | "mixture" | "history" | "causes";

/** The parts there are. */
export const PARTS: readonly Part[];

/**
 * Loads the WebAssembly file, and the parts of it that are for one section of a document only. Needed once,
 * before the first call; in node the package loads itself and this does nothing. May be called again: later
 * calls wait for the first, and after a failure it tries again.
 *
 * @param source where the main file is; beside the package's modules if not given
 * @param parts which parts to load with it, or where they are; if not given all of them, or none where the
 *   main file's place is given: {@link bring} loads them
 */
export function init(source?: Source, parts?: readonly Part[] | Partial<Record<Part, Source>>): Promise<void>;

/** Starts from bytes or from compiled modules, without waiting. Parts may be put in by further calls. */
export function initSync(
  module: BufferSource | WebAssembly.Module,
  parts?: Partial<Record<Part, BufferSource | WebAssembly.Module>>,
): void;

/**
 * Loads what a document needs and is not there: the file of each of its sections. For a page that began with
 * `init(undefined, [])`.
 */
export function bring(document: Document | string | Uint8Array): Promise<void>;

/** The parts that {@link bring} would load for a document. */
export function missing(document: Document | string | Uint8Array): Part[];

/**
 * Runs a whole job.
 *
 * @param document a document, its JSON text, or the UTF-8 bytes of that
 * @throws {LashworkError} with every problem of the document
 */
export function run(document: Document | string | Uint8Array): Report;

/**
 * Runs a whole job and gives the answer as JSON text, the same bytes as through every other interface
 * of lashwork: `{"report": ...}` or `{"problems": [...]}`. A refused document is no error here.
 */
export function runJson(document: Document | string | Uint8Array): string;

/**
 * Runs a whole job and gives the job sheet of one page, for print.
 *
 * @throws {LashworkError} with every problem of the document
 */
export function jobSheet(document: Document | string | Uint8Array): string;

/**
 * Runs a whole job and gives the page of {@link jobSheet} and everything behind it.
 *
 * @throws {LashworkError} with every problem of the document
 */
export function fullSheet(document: Document | string | Uint8Array): string;

/** One valve without an engine: what `quickCheck` takes. */
export interface QuickCheck {
  /** Intake or exhaust. */
  valve: "intake" | "exhaust";
  /** What the valve is set to, the band it may be set in, and the band in which it is left alone. */
  limits: LimitsDoc;
  /** Temperature at which the limits hold, such as `"20 C"`; 20 C is assumed, and listed. */
  reference?: SpecificationDoc["reference"];
  /** What was found: `goes` and/or `refuses`, or `drags` with `spread`, and so on. */
  reading: Omit<ReadingDoc, "cylinder" | "valve" | "number">;
  /** The leaves at hand; those the reading names, in the worst case, if not given. */
  gauge?: GaugeDoc;
  /** The metal temperature and how the lash follows it, by at most one model. */
  metal?: Omit<MetalDoc, "use" | "cooling" | "curve">;
  /** The adjusting screw. */
  screw?: ValvesDoc["screw"];
  /** Shims: how the gap follows their thickness, and the sizes available. */
  shim?: Omit<NonNullable<ValvesDoc["shim"]>, "stock" | "swap">;
  /** Valve movement over cam-side movement. */
  rocker_ratio?: number;
  /** The decision rule; `guarded_tight` is assumed, and listed. */
  rule?: ClearanceDoc["rule"];
}

/**
 * Judges the reading of one valve: the lash at the reference temperature, the verdict, how certain
 * it is, and what to turn or fit.
 *
 * @throws {LashworkError} with every problem of the check
 */
export function quickCheck(check: QuickCheck | string | Uint8Array): OneValveReport;

/** Readings, one per row: columns of equal length. What a column that is left out would say is in the settings. */
export interface ReadingColumns {
  /** Lower ends of the lash in millimetres; `-Infinity` where a reading has none. */
  low: Float64Array;
  /** Upper ends of the lash in millimetres; `Infinity` where a reading has none. */
  high: Float64Array;
  /** Standard uncertainties of the ends, in millimetres. */
  uncertainty: Float64Array;
  /** Lower limits in millimetres; `NaN` or infinite where there is none. */
  lower?: Float64Array;
  /** Upper limits in millimetres, likewise. A row needs one of the two. */
  upper?: Float64Array;
  /** Temperatures of the metal in degrees Celsius; `NaN` where it was not taken. */
  at?: Float64Array;
  /** Standard uncertainties of these, in kelvin. */
  at_uncertainty?: Float64Array;
  /**
   * Temperatures at which the limits hold, in degrees Celsius. Of limits for a cold engine, with no temperature
   * printed, 20; and 10 K over the root of three goes into the uncertainty of the temperature.
   */
  reference?: Float64Array;
  /** Changes of lash in millimetres for a kelvin, positive if warmth opens the gap; `NaN` where not known. */
  mm_per_kelvin?: Float64Array;
  /** Standard uncertainties of these. */
  mm_per_kelvin_uncertainty?: Float64Array;
}

/** What holds for all rows of which no column says it. */
export interface ColumnSettings {
  /** The band; one end may be left out, and all of it where the readings have a column of limits. */
  limits?: BandDoc;
  /** The decision rule. There is no default. */
  rule: NonNullable<ClearanceDoc["rule"]>;
  /**
   * How warm the metal was and how the lash follows. Without it and its columns, the gaps are taken to be those at
   * the temperature at which the limits hold.
   */
  warmth?: {
    /** Temperature of the metal, as in `"60 C"`. */
    at?: string;
    /** Its standard uncertainty, as in `"2 K"`. */
    at_uncertainty?: string;
    /** Temperature at which the limits hold. */
    reference?: string;
    /** Change of lash in millimetres for a kelvin, positive if warmth opens the gap. */
    mm_per_kelvin?: number;
    /** Its standard uncertainty. */
    mm_per_kelvin_uncertainty?: number;
  };
}

/** A probability for each row: at least, and at most. Not a number in refused rows. */
export interface ChanceColumns {
  least: Float64Array;
  most: Float64Array;
}

/** Verdicts, one per row. */
export interface JudgedColumns {
  /** Numbers of {@link VERDICTS}; 0 is a refused row. */
  verdict: Uint8Array;
  /** 1; or 0 where the uncertainty is so large that no reading could be accepted under the rule. */
  provable: Uint8Array;
  below: ChanceColumns;
  in_band: ChanceColumns;
  above: ChanceColumns;
  /** Lower ends at the temperature of the limits, in millimetres; not a number in refused rows. */
  low: Float64Array;
  /** Upper ends, likewise. */
  high: Float64Array;
  /** Standard uncertainties of these ends. */
  uncertainty: Float64Array;
  /**
   * 1 where the ends hold at the temperature of the limits; else 0: nothing says how the lash follows, the
   * uncertainty has what that may do to it, and the verdict is that it cannot be said.
   */
  at_reference: Uint8Array;
  /** The first 100 refused rows, at places such as `/rows/17`. */
  refused: Problem[];
}

/** What the numbers of a column of verdicts mean. */
export const VERDICTS: readonly ["refused", "in_band", "below", "above", "cannot_say"];

/**
 * Judges many readings in one call, each brought to the temperature of its limits and then judged as a whole job
 * does, to the bit. A row that cannot be judged is marked and the others are still judged. Metal that is not near
 * the reference, with nothing to say how the lash follows, decides nothing, as in a whole job.
 *
 * @throws {LashworkError} for wrong settings and for columns of unequal lengths
 */
export function judgeColumns(columns: ReadingColumns, settings: ColumnSettings): JudgedColumns;

/** Analyses of dry exhaust gas, one per row: columns of equal length. */
export interface GasColumns {
  /** Carbon dioxide in per cent. */
  co2: Float64Array;
  /** Carbon monoxide in per cent. */
  co: Float64Array;
  /** Oxygen in per cent. */
  o2: Float64Array;
  /** Hydrocarbons in ppm. */
  hc: Float64Array;
}

/** What all analyses share. There are no defaults. */
export interface GasSettings {
  /** The fuel: `"E0"` to `"E100"` by its ethanol, `"LPG"`, or a formula as in `"C8H18"`. */
  fuel: string;
  /** The class on the tester's plate, of OIML R 99. */
  class: "00" | "0" | "I";
  /** What a molecule of hydrocarbon counts for. */
  shown_as: "hexane" | "hexane_of_petrol" | "propane" | "carbon";
}

/** Lambda, one per row; not a number in refused rows. */
export interface LambdaColumns {
  /** By Brettschneider's balance of atoms. It is the engine's mixture only where nothing contradicts it. */
  lambda: Float64Array;
  /** Standard uncertainty, from the class of the tester. */
  uncertainty: Float64Array;
  /** The first thing that does not fit: numbers of {@link CONTRADICTIONS}. */
  contradiction: Uint8Array;
  /** The first 100 refused rows, at places such as `/rows/17`. */
  refused: Problem[];
}

/** What the numbers of a column of contradictions mean. */
export const CONTRADICTIONS: readonly [
  "none",
  "oxygen_with_carbon_monoxide",
  "oxygen_with_hydrocarbons",
  "too_lean_to_burn",
  "beyond_running",
  "total_off",
  "something_else",
];

/**
 * Lambda of many analyses in one call. A row that is no exhaust gas is marked and the others are still worked
 * out. Do not lean a mixture out by a lambda that something contradicts.
 *
 * @throws {LashworkError} for wrong settings and for columns of unequal lengths
 */
export function lambdaColumns(columns: GasColumns, settings: GasSettings): LambdaColumns;

/** Readings of the air, one per row: columns of equal length. */
export interface AirColumns {
  /** Pressure of the place in kilopascals, not that of a barometer set to sea level. */
  pressure: Float64Array;
  /** Temperature in degrees Celsius. */
  temperature: Float64Array;
  /** Relative humidity in per cent. */
  humidity: Float64Array;
}

/** Standard uncertainties of barometer, thermometer and hygrometer, such as `"0.3 kPa"`, `"1 K"`, `"5 %"`. */
export interface AirSettings {
  uncertainty: { pressure: string; temperature: string; humidity: string };
}

/** Densities, one per row; not a number in refused rows. */
export interface DensityColumns {
  /** Kilograms a cubic metre, by CIPM-2007. */
  density: Float64Array;
  /** Standard uncertainty. */
  uncertainty: Float64Array;
  /** Density altitude in metres; not a number outside -1524 to 6096 m either. */
  altitude: Float64Array;
  /** The first 100 refused rows, at places such as `/rows/17`. */
  refused: Problem[];
}

/**
 * The density of the air of many readings in one call. A row that no engine breathes is marked and the others are
 * still worked out.
 *
 * @throws {LashworkError} for wrong settings and for columns of unequal lengths
 */
export function densityColumns(columns: AirColumns, settings: AirSettings): DensityColumns;

/** Leak-down readings with one tester, one per row: columns of equal length. */
export interface LeakColumns {
  /** What stood in the cylinder, in kilopascals over the air around. */
  shown: Float64Array;
  /** Pressure of the air of that day in kilopascals, not that of a barometer set to sea level. */
  air: Float64Array;
}

/** What all leak-down readings share. There are no defaults. */
export interface LeakSettings {
  /** What the regulator shows over the air around, such as `"80 psi"`. */
  supply: string;
  /** Diameter of the tester's orifice, such as `"0.040 in"`. */
  orifice: string;
  /** Standard uncertainties, such as `"3 kPa"` and `"0.01 mm"`. */
  uncertainty: { supply: string; orifice: string; shown: string; air: string };
}

/** Areas of leaks, one per row; not a number in refused rows. */
export interface LeakAreaColumns {
  /** The area through which the cylinder leaks, in square millimetres: what may be compared and kept. */
  area: Float64Array;
  /** Standard uncertainty. */
  uncertainty: Float64Array;
  /** Diameter of one round hole as large, in millimetres. */
  hole: Float64Array;
  /** The first 100 refused rows, at places such as `/rows/17`. */
  refused: Problem[];
}

/**
 * The areas of many leaks in one call. A row that is no reading of this tester is marked and the others are still
 * worked out. Hold the crank before air is let in: it turns it, and a propeller with it. It lies in the part
 * `condition`.
 *
 * @throws {LashworkError} for wrong settings and for columns of unequal lengths
 */
export function leakColumns(columns: LeakColumns, settings: LeakSettings): LeakAreaColumns;

/** What past services read of valves, a reading a row: columns of equal length. Rows of a valve stand together. */
export interface PastColumns {
  /** When, in the unit of the count; whole days since 1 January 1970. Of one valve in the order of time. */
  at: Float64Array;
  /** Lower ends in millimetres; minus infinity where there is none. */
  low: Float64Array;
  /** Upper ends in millimetres; infinity where there is none. */
  high: Float64Array;
  /** Standard uncertainties of the ends in millimetres. */
  uncertainty: Float64Array;
  /** Which valve, from 0. */
  valve: Float64Array;
  /** 1 as found, 2 as left after setting, 3 as left after new parts; all found if left out. */
  state?: Float64Array;
}

/** What all valves share. */
export interface DriftSettings {
  /** What a lash should be; one end or both. */
  limits: { from?: string; to?: string };
  rule: "guarded_tight" | "simple" | "iso_14253_1";
  counted_by: "hours" | "distance" | "days";
  /** How long new parts bed in, such as `"20 h"`; up to the first reading after them if left out. */
  bedding_in?: string;
  /** How far readings of one state scatter from service to service; seen from the readings if left out. */
  scatter?: string;
}

/** Drifts, one valve per row; not a number in refused rows and with too few readings. */
export interface DriftColumns {
  /** Millimetres in a unit of the count, negative where the lash closes. */
  rate: Float64Array;
  /** Standard uncertainty of the rate. */
  uncertainty: Float64Array;
  /** When to look next: numbers of {@link LOOKS}. */
  look: Uint8Array;
  /** The time that goes with it. */
  at: Float64Array;
  /** The first 100 refused valves, at places such as `/rows/17`. */
  refused: Problem[];
}

/** What the numbers of a column of looks mean. */
export const LOOKS: readonly ["refused", "now", "at", "not_before", "not_known", "too_few"];

/**
 * How fast the lash of many valves changes, each by its own readings alone, and when to look at each next: when the
 * chance of finding it out of the limits passes what the rule allows. It does not say that a valve is good until then.
 * It lies in the part `history`.
 *
 * @throws {LashworkError} for wrong settings, columns of unequal lengths, rows that do not stand together
 */
export function driftColumns(columns: PastColumns, valves: number, settings: DriftSettings): DriftColumns;

/** What is known of a gap with two ends, in millimetres: as in a report. */
export interface KnownGap {
  /** Its lower end. */
  low: number;
  /** Its upper end. */
  high: number;
  /** Standard uncertainty of both ends: `normal_uncertainty_mm` of a report. */
  uncertainty: number;
}

/** Where a histogram starts and ends, in millimetres, and how many equal bins it has, 1 to 4096. */
export interface Scale {
  from: number;
  to: number;
  bins: number;
}

/**
 * The chance that a gap lies in each bin of a histogram. They add up to 1, less what lies
 * outside it.
 *
 * @throws {LashworkError} for numbers that are not a valid gap or histogram
 */
export function shares(gap: KnownGap, scale: Scale): Float64Array;

/**
 * A gap as text in another unit: `lashText(0.254, "in", 4)` is `"0.0100 in"`.
 *
 * @param mm the gap in millimetres
 * @param decimals 0 to 9
 * @throws {LashworkError} for a gap outside the range of gaps and for too many decimals
 */
export function lashText(mm: number, unit: "mm" | "um" | "in" | "thou", decimals: number): string;

/**
 * A temperature as text in another unit: `temperatureText(20, "F", 0)` is `"68 F"`.
 *
 * @param celsius the temperature in degrees Celsius
 * @param decimals 0 to 9
 * @throws {LashworkError} for what is not a temperature and for too many decimals
 */
export function temperatureText(celsius: number, unit: "C" | "F" | "K", decimals: number): string;

/** The JSON Schema of a document; its file is loaded when first asked for. Needs no `init`. */
export function schema(): Promise<Record<string, unknown>>;

/** The version of lashwork. */
export function version(): string;

/**
 * What every function of the package throws: one or more problems. `code`, `path` and `hint` are
 * those of the first.
 *
 * Codes of the package itself: `package.not-ready` (call `init` first), `package.argument` (neither
 * object, text nor bytes), `package.trapped` (the instance stopped in the middle of a call and cannot be used again).
 */
export class LashworkError extends Error {
  constructor(problems: readonly Problem[]);
  /** A short name that never changes, such as `document.unknown-field`. */
  readonly code: string;
  /** Where in the document, as a JSON pointer such as `/clearance/readings/3/cylinder`; empty for the whole. */
  readonly path: string;
  /** What to do about it. */
  readonly hint: string;
  /** Every problem found. */
  readonly problems: readonly Problem[];
}
