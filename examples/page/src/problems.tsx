// Everything that is wrong with a document, each with a way to its field.

import { idOf } from "./field";
import type { Problem } from "./kernel";
import { CLEARANCE, steps } from "./draft";
import { placeWords } from "./places";
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

/** Takes the keys to the field of a place, wherever it is folded away. */
export function focusField(place: string): void {
  const field = fieldOf(place);
  for (let around = field?.closest("details"); around; around = around.parentElement?.closest("details"))
    around.setAttribute("open", "");
  field?.focus();
}

interface Props {
  problems: readonly Problem[];
  /** What they are about, to name valves by. */
  document?: unknown;
}

export function Problems({ problems, document: about }: Props) {
  if (problems.length === 0) return null;
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
              <button type="button" class="link" onClick={() => focusField(problem.place)}>
                {placeWords(problem.place, about)}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
