// Everything that is wrong with a document, each with a way to its field.

import { idOf } from "./field";
import type { Problem } from "./kernel";
import { CLEARANCE, steps } from "./draft";
import { sentence } from "./words";

/** The steps to a place; what is about clearances is named without saying so. */
const pathOf = (place: string): string[] =>
  steps(place.startsWith(`${CLEARANCE}/`) ? place.slice(CLEARANCE.length) : place);

/** The field of a place, the first one inside it, or that of the nearest part around it. */
function fieldOf(place: string): HTMLElement | null {
  const path = pathOf(place);
  for (let length = path.length; length > 0; length -= 1) {
    const id = idOf(
      path
        .slice(0, length)
        .map((step) => `/${step}`)
        .join(""),
    );
    const inside = `input[id^="${CSS.escape(id)}."], select[id^="${CSS.escape(id)}."]`;
    const field = document.getElementById(id) ?? document.querySelector<HTMLElement>(inside);
    if (field) return field;
  }
  return null;
}

export function Problems({ problems }: { problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  const show = (place: string) => {
    const field = fieldOf(place);
    field?.closest("details")?.setAttribute("open", "");
    field?.focus();
  };
  return (
    <section class="problems" role="alert" aria-label="What has to be corrected">
      <p>
        <strong>
          {problems.length === 1 ? "One thing has" : `${problems.length} things have`} to be corrected first.
        </strong>
      </p>
      <ul>
        {problems.map((problem) => (
          <li key={problem.place + problem.code + problem.message}>
            {sentence(problem.message)} {sentence(problem.hint)}{" "}
            {problem.place && (
              <button type="button" class="link" onClick={() => show(problem.place)}>
                {placeWords(problem.place)}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A place in words: `readings 3, goes`. */
export function placeWords(place: string): string {
  return pathOf(place)
    .map((step) => (/^\d+$/.test(step) ? String(Number(step) + 1) : step.replaceAll("_", " ")))
    .join(" › ");
}
