// What may be the matter, on paper: what came out, how far it is to be trusted, and where to look next.

import type { Document } from "../kernel";
import { Lines } from "../lines";
import { causesOf } from "../steps/ask";

export function paperOf(document: Document) {
  const { report } = causesOf(document);
  if (!report?.causes) return undefined;
  const { verdict_text, trust_text, next } = report.causes;
  const looks = next.slice(0, 1).map(({ text }) => `next: ${text}`);
  return {
    report,
    stop: null,
    shown: (
      <section>
        <h3>Causes</h3>
        <Lines look="plain" lines={[verdict_text, trust_text, ...looks]} />
      </section>
    ),
  };
}
