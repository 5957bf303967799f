// What the page remembers, in one place: settings, the one valve, the job. Every change is saved at once.

import { useEffect, useState } from "preact/hooks";
import { blank } from "./blank";
import { isDocument } from "./draft";
import { untouched, type Felt } from "./felt";
import type { Document } from "./kernel";
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
  /** Book figures, adjuster and metal: the user's own, those of a job, or those of an invented engine. */
  base: Document;
  /** Whether they are of an invented engine. */
  demo: boolean;
  /** The valve that was said to be closed; empty before that. */
  valve: "intake" | "exhaust" | "";
  /** Whether the engine was said to be stone cold. */
  cold: boolean;
  felt: Felt;
  shim: string;
  cautionsRead: boolean;
}

export type Stage = "describe" | "cautions" | "turn" | "report";

/** Where in a job something was entered. */
type Place = Pick<Job, "stage" | "plan" | "stop" | "open">;

/** What a job was before an entry. */
export interface Step {
  document: Document;
  /** What was entered then, in words. */
  what: string;
  place: Place;
}

export interface Job {
  /** Tells it from the other jobs on the device. */
  id: number;
  /** What was found, what was left and who wrote it down, as the kernel takes it. */
  document: Document;
  /** Whether the engine is an invented one. */
  demo: boolean;
  /** Before each entry, the last one first to come back. */
  past: Step[];
  /** What was taken back, the last one first to be put back. */
  future: Step[];
  stage: Stage;
  cautionsRead: boolean;
  /** Which of the plans is walked; `ADVISED` for the one the kernel advises. */
  plan: number;
  /** Where the crank stands. */
  stop: number;
  /** The valve that is being read, by its key; empty for the next one. */
  open: string;
  /** Joint findings that were read, by their codes; and whether the cautions of the second step were. */
  seen: string[];
  /** The layout that was tapped; empty where none was. */
  layout: string;
}

export interface State {
  settings: Settings;
  quick: Quick;
  job: Job | undefined;
  /** Jobs that were put away. */
  shelf: Job[];
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
  ["demo", "cold", "cautionsRead"].every((key) => typeof value[key] === "boolean") &&
  ["intake", "exhaust", ""].includes(value.valve as string);

const isStep = (value: unknown): value is Step =>
  isObject(value) && isDocument(value.document) && typeof value.what === "string" && isObject(value.place);

const isJob = (value: unknown): value is Job =>
  isObject(value) &&
  isDocument(value.document) &&
  ["past", "future"].every((key) => Array.isArray(value[key]) && value[key].every(isStep)) &&
  ["describe", "cautions", "turn", "report"].includes(value.stage as string) &&
  ["demo", "cautionsRead"].every((key) => typeof value[key] === "boolean") &&
  ["id", "plan", "stop"].every((key) => Number.isInteger(value[key])) &&
  ["open", "layout"].every((key) => typeof value[key] === "string") &&
  Array.isArray(value.seen);

const isShelf = (value: unknown): value is Job[] => Array.isArray(value) && value.every(isJob);

/** Nothing is in force before the user has said it. */
export const emptyQuick = (spread: string): Quick => ({
  base: blank(),
  demo: false,
  valve: "",
  cold: true,
  felt: untouched(spread),
  shim: "",
  cautionsRead: false,
});

function start(): State {
  const settings = load("settings", isSettings) ?? SETTINGS;
  return {
    settings,
    quick: load("quick", isQuick) ?? emptyQuick(settings.spread),
    job: load("job", isJob),
    shelf: load("shelf", isShelf) ?? [],
    saves: true,
    elsewhere: false,
  };
}

let state = start();
const listeners = new Set<() => void>();

function set(next: State): void {
  state = next;
  for (const listener of listeners) listener();
}

/** Draws the same state again, when what answers has changed. */
export const redraw = (): void => set({ ...state });

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

interface Opened {
  stage?: Stage;
  demo?: boolean;
}

/** Starts a job with a document. */
export function openJob(document: Document, { stage = "describe", demo = false }: Opened = {}): void {
  save("edited", undefined);
  const id = 1 + Math.max(0, ...[state.job, ...state.shelf].map((job) => job?.id ?? 0));
  const nothing = { past: [], future: [], seen: [], open: "", layout: "" };
  keep("job", {
    id,
    document,
    demo,
    stage,
    cautionsRead: false,
    plan: ADVISED,
    stop: 0,
    ...nothing,
  });
}

/** Puts the open job into the list of jobs. */
export function shelveJob(): void {
  const { job, shelf } = state;
  if (!job) return;
  save("edited", undefined);
  // The list first: what is there twice is not lost.
  keep("shelf", [job, ...shelf.filter(({ id }) => id !== job.id)]);
  if (state.saves) keep("job", undefined);
}

/** Takes a job out of the list, to go on with it. */
export function takeJob(id: number): void {
  const found = state.shelf.find((job) => job.id === id);
  if (!found) return;
  keep("job", found);
  dropJob(id);
}

/** Deletes a job from the list. */
export const dropJob = (id: number): void =>
  keep(
    "shelf",
    state.shelf.filter((job) => job.id !== id),
  );

type Move = Partial<Omit<Job, "document" | "past" | "future">>;

/** Moves about in the job; what was found stays. */
export function moveJob(change: Move): void {
  if (state.job) keep("job", { ...state.job, ...change });
}

/** Writes what was entered; what was before can be had back. */
export function writeJob(document: Document, what: string, move: Move = {}): void {
  const { job } = state;
  if (!job) return;
  const next = { ...job, document, ...move };
  if (document === job.document) return moveJob(move);
  const step = { ...stepOf(job, what), place: placeOf(next) };
  keep("job", { ...next, past: [step, ...job.past].slice(0, UNDO_STEPS), future: [] });
}

const placeOf = ({ stage, plan, stop, open }: Job): Place => ({ stage, plan, stop, open });

const stepOf = (job: Job, what: string): Step => ({
  document: job.document,
  what,
  place: placeOf(job),
});

/** Takes back the last entry and goes to where it was made. */
export const undoJob = (): void => walk("past", "future");

/** Puts back what was taken back last. */
export const redoJob = (): void => walk("future", "past");

function walk(from: "past" | "future", to: "past" | "future"): void {
  const { job } = state;
  const [step, ...rest] = job?.[from] ?? [];
  if (!job || !step) return;
  const back = { ...stepOf(job, step.what), place: step.place };
  const { document, place } = step;
  keep("job", { ...job, document, ...place, [from]: rest, [to]: [back, ...job[to]] });
}
