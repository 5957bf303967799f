// What answers questions of the ignition that need no engine: a WebAssembly file of its own. It is asked for where
// this view is opened, and nowhere else.

import { ignitionCheck, init, type IgnitionCheck, type IgnitionCheckReport } from "lashwork/ignition";
import { asked, type Answer } from "../kernel";

/** Settles when questions can be answered. */
export const figuresReady = (): Promise<void> => init();

export type Question = "dwell" | "point" | "winding" | "coil" | "advance";

/** Each question as it is typed, right or wrong. */
export type Typed = { [one in Question]?: unknown };

let known: { typed: unknown; question: Question; answer: Answer<IgnitionCheckReport> } | undefined;

/** The answer to one question; what is wrong in another does not matter to it. */
export function answerTo(question: Question, typed: Typed): Answer<IgnitionCheckReport> {
  const part = typed[question] ?? {};
  if (known?.typed === part && known.question === question) return known.answer;
  const answer = asked(() => ignitionCheck({ [question]: part } as IgnitionCheck));
  known = { typed: part, question, answer };
  return answer;
}
