// The error that every function of the package throws.

/** One or more problems, each with a code that never changes, a place and a hint. */
export class LashworkError extends Error {
  /** @param {readonly import("./report.js").Problem[]} problems at least one */
  constructor(problems) {
    const [first] = problems;
    const more = problems.length > 1 ? ` (and ${problems.length - 1} more)` : "";
    const place = first.place === "" ? "" : ` at ${first.place}`;
    super(`${first.code}${place}: ${first.message}${more}`);
    this.name = "LashworkError";
    this.code = first.code;
    this.path = first.place;
    this.hint = first.hint;
    this.problems = problems;
  }
}

/**
 * An error about the use of the package itself; what is wrong with a document is said by the kernel.
 *
 * @param {string} code
 * @param {string} message
 * @param {string} hint
 */
export function misuse(code, message, hint) {
  return new LashworkError([{ place: "", code, message, hint }]);
}
