// Invented engines to try a step with, where no job is open.

import type { Document } from "../kernel";
import { openJob } from "../state";

export function Invented({ engines }: { engines: readonly Document[] }) {
  return (
    <section class="card">
      <h2>Try an invented engine</h2>
      <p class="hint">Made up, with made-up figures, and marked DEMO.</p>
      <div class="stack">
        {engines.map((document) => (
          <button type="button" key={document.title} onClick={() => openJob(document, { demo: true })}>
            {document.title}
          </button>
        ))}
      </div>
    </section>
  );
}
