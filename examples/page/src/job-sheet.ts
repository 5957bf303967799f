// The sheet on which the forms of a job write: what was before can be had back, by the name of the place.

import { put } from "./draft";
import type { Sheet } from "./field";
import { placeWords } from "./places";
import { writeJob, type Job } from "./state";

export const sheetOf = (
  { document }: Job,
  { problems, assumptions }: Pick<Sheet, "problems" | "assumptions">,
): Sheet => ({
  document,
  problems,
  assumptions,
  write: (pointer, value) => writeJob(put(document, pointer, value), placeWords(pointer, document)),
});
