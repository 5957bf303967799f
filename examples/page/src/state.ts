// What the page remembers, in one place: settings, the quick check, the job. Every change is saved at once.

import { useEffect, useState } from "preact/hooks";
import { isDocument } from "./draft";
import { untouched, type Felt } from "./felt";
import type { Document } from "./kernel";
import { firstBase } from "./first-preset";
import { load, save, watch, type Slot } from "./store";

export type Unit = "mm" | "in";

export interface Settings {
  unit: Unit;
  warmth: "C" | "F";
  theme: "auto" | "light" | "dark";
  rule: NonNullable<Document["clearance"]["rule"]>;
  gauge: Document["clearance"]["gauge"];
  /** How sure the feel of a light drag is. */
  spread: string;
}

export interface Quick {
  /** Engine, limits, adjuster and metal. */
  base: Document;
  valve: "intake" | "exhaust";
  felt: Felt;
  shim: string;
}

export type Stage = "describe" | "cautions" | "turn" | "report";

export interface Job {
  document: Document;
  /** Earlier documents, the last one first to come back. */
  past: Document[];
  stage: Stage;
  cautionsRead: boolean;
  /** Which of the plans is walked; `ADVISED` for the one the kernel advises. */
  plan: number;
  stop: number;
}

export interface State {
  settings: Settings;
  quick: Quick;
  job: Job | undefined;
  /** False when the browser does not save. */
  saves: boolean;
  /** Another tab has changed the job since. */
  elsewhere: boolean;
}

export const LEAVES: Record<Unit, string[]> = {
  mm: "0.05 0.08 0.10 0.12 0.15 0.18 0.20 0.22 0.25 0.28 0.30 0.32 0.35 0.40 0.45 0.50"
    .split(" ")
    .map((leaf) => `${leaf} mm`),
  in: "0.0015 0.002 0.003 0.004 0.005 0.006 0.007 0.008 0.009 0.010 0.012 0.015 0.018"
    .split(" ")
    .map((leaf) => `${leaf} in`),
};

export const SPREADS: Record<Unit, string> = { mm: "0.005 mm", in: "0.0002 in" };

const SETTINGS: Settings = {
  unit: "mm",
  warmth: "C",
  theme: "auto",
  rule: "guarded_tight",
  gauge: { leaves: LEAVES.mm, stack_tolerance: "worst_case" },
  spread: SPREADS.mm,
};

export const ADVISED = -1;

const UNDO_STEPS = 50;

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const isSettings = (value: unknown): value is Settings =>
  isObject(value) &&
  Object.keys(SETTINGS).every((key) => typeof value[key] === typeof SETTINGS[key as keyof Settings]) &&
  Array.isArray((value.gauge as Settings["gauge"]).leaves);

const isFelt = (value: unknown): value is Felt =>
  isObject(value) && Object.keys(untouched("")).every((key) => typeof value[key] === "string");

const isQuick = (value: unknown): value is Quick =>
  isObject(value) &&
  isDocument(value.base) &&
  isFelt(value.felt) &&
  typeof value.shim === "string" &&
  (value.valve === "intake" || value.valve === "exhaust");

const isJob = (value: unknown): value is Job =>
  isObject(value) &&
  isDocument(value.document) &&
  Array.isArray(value.past) &&
  value.past.every(isDocument) &&
  ["describe", "cautions", "turn", "report"].includes(value.stage as string) &&
  typeof value.cautionsRead === "boolean" &&
  Number.isInteger(value.plan) &&
  Number.isInteger(value.stop);

function start(): State {
  const settings = load("settings", isSettings) ?? SETTINGS;
  const quick = load("quick", isQuick) ?? {
    base: firstBase(),
    valve: "intake",
    felt: untouched(settings.spread),
    shim: "",
  };
  return { settings, quick, job: load("job", isJob), saves: true, elsewhere: false };
}

let state = start();
const listeners = new Set<() => void>();

function set(next: State): void {
  state = next;
  for (const listener of listeners) listener();
}

watch((slot) => slot === "job" && set({ ...state, elsewhere: true }));

/** The state, drawn anew at every change. */
export function useApp(): State {
  const [, redraw] = useState(state);
  useEffect(() => {
    const listener = () => redraw(state);
    listeners.add(listener);
    listener();
    return () => void listeners.delete(listener);
  }, []);
  return state;
}

/** What is typed and not left yet is written before the page goes. */
function finishTyping(): void {
  const typing = document.activeElement;
  if (typing?.matches("input[type=text], textarea")) {
    typing.dispatchEvent(new Event("change", { bubbles: true }));
  }
}

addEventListener("pagehide", finishTyping);
document.addEventListener("visibilitychange", () => document.hidden && finishTyping());

function keep<K extends Slot & keyof State>(slot: K, value: State[K]): void {
  set({ ...state, [slot]: value, saves: save(slot, value) && state.saves });
}

export const changeSettings = (change: Partial<Settings>): void =>
  keep("settings", { ...state.settings, ...change });

export const changeQuick = (change: Partial<Quick>): void => keep("quick", { ...state.quick, ...change });

/** Starts a job with a document, or puts it away. */
export function openJob(document: Document | undefined, stage: Stage = "describe"): void {
  save("edited", undefined);
  keep("job", document && { document, past: [], stage, cautionsRead: false, plan: ADVISED, stop: 0 });
}

/** Moves about in the job; the document stays. */
export function moveJob(change: Partial<Omit<Job, "document" | "past">>): void {
  if (state.job) keep("job", { ...state.job, ...change });
}

/** Writes a new document; the one before can be had back. */
export function writeJob(document: Document): void {
  const { job } = state;
  if (!job || document === job.document) return;
  keep("job", { ...job, document, past: [job.document, ...job.past].slice(0, UNDO_STEPS) });
}

/** Takes back the last change of the document. */
export function undoJob(): void {
  const { job } = state;
  const [last, ...past] = job?.past ?? [];
  if (job && last) keep("job", { ...job, document: last, past });
}
