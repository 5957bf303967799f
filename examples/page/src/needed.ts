// What is still to be filled in, apart from what is wrong: an empty field is no error.

import { at } from "./draft";
import type { Problem } from "./kernel";

/** The code of a problem that tells of a field that is not there. */
export const MISSING = "document.missing-field";

/** The code of a screw whose pitch was not said. */
const THREAD = "adjust.thread";

/** The code of air of which a barometer alone was said. */
const AIR = "mixture.air-not-stated";

/** Whether a problem only says that something is not there yet. */
export const isAbsence = ({ code }: Problem): boolean => [MISSING, THREAD, AIR].includes(code);

const ORDER = "/engine/firing_order";

/** Where a problem really is: a missing field is told at the part it belongs to. */
export function placeOf({ place, code, hint }: Problem): string {
  if (place === "/engine" && code.startsWith("engine.order")) return ORDER;
  if (code === THREAD) return `${place}/pitch`;
  if (code === AIR) return `${place}/temperature`;
  const field = code === MISSING && /"([^"]+)"/.exec(hint)?.[1];
  return field ? `${place}/${field}` : place;
}

/** Problems of fields that are empty, and all others. */
export function parted(document: unknown, problems: readonly Problem[]) {
  const isEmpty = (problem: Problem) => {
    const value = at(document, placeOf(problem));
    return (
      (isAbsence(problem) && value === undefined) ||
      value === "" ||
      (Array.isArray(value) && value.length === 0)
    );
  };
  return {
    needed: problems.filter(isEmpty),
    wrong: problems.filter((problem) => !isEmpty(problem)),
  };
}
