// What the browser keeps, in slots, so that damage to one leaves the others. What cannot be read
// is put aside and reported, never thrown away.

export type Slot = "settings" | "quick" | "job" | "shelf" | "pasted" | "edited" | "figures";

/** Grows when the shape of a slot changes. */
const FORMAT = 3;
const PREFIX = "lash-check.";
const KEPT = `${PREFIX}kept.`;

/** Slots whose damaged text could not be put aside: nothing is saved over it. */
const locked = new Set<Slot>();

/** Something put aside because it could not be read. */
export interface Kept {
  key: string;
  slot: string;
  text: string;
}

/** What a slot holds, or nothing; `fits` tells whether it can be used. */
export function load<T>(slot: Slot, fits: (value: unknown) => value is T): T | undefined {
  const text = read(PREFIX + slot);
  if (text === null) return undefined;
  const value = unpacked(text);
  if (fits(value)) return value;
  putAside(slot, text);
  return undefined;
}

function unpacked(text: string): unknown {
  try {
    const saved: unknown = JSON.parse(text);
    const packed = saved as { format?: unknown; value?: unknown } | null;
    return packed?.format === FORMAT ? packed.value : undefined;
  } catch {
    return undefined;
  }
}

/** Saves a slot; false if the browser does not let it. */
export function save(slot: Slot, value: unknown): boolean {
  if (locked.has(slot)) return false;
  try {
    if (value === undefined) localStorage.removeItem(PREFIX + slot);
    else localStorage.setItem(PREFIX + slot, JSON.stringify({ format: FORMAT, value }));
    return true;
  } catch {
    return false;
  }
}

/** The text that a slot holds. */
export const saved = (slot: Slot): string | null => read(PREFIX + slot);

/** Puts aside what a slot holds, although it could be read. */
export function setAside(slot: Slot): void {
  const text = saved(slot);
  if (text !== null) putAside(slot, text);
}

function putAside(slot: Slot, text: string): void {
  const free = [...Array(1000).keys()].map((n) => `${KEPT}${slot}.${n}`).find((key) => read(key) === null);
  try {
    if (free) localStorage.setItem(free, text);
    localStorage.removeItem(PREFIX + slot);
  } catch {
    locked.add(slot);
  }
}

/** Everything that was put aside. */
export function kept(): Kept[] {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(KEPT))
      .sort()
      .map((key) => ({ key, slot: key.slice(KEPT.length).split(".")[0] ?? "", text: read(key) ?? "" }));
  } catch {
    return [];
  }
}

/** Deletes what was put aside, when the user says so. */
export function forget(key: string): void {
  localStorage.removeItem(key);
}

function read(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/** Whether another tab has just changed a slot; calls back with it. */
export function watch(changed: (slot: Slot) => void): void {
  addEventListener("storage", ({ key }) => {
    if (key?.startsWith(PREFIX) && !key.startsWith(KEPT)) changed(key.slice(PREFIX.length) as Slot);
  });
}
