// What can hurt someone, before the crank is turned for the first time.

import { Lines } from "./lines";
import type { StageProps } from "./job";
import { moveJob } from "./state";

export function Cautions({ job, answer }: StageProps) {
  return (
    <section class="cautions">
      <h2>Before the crank is turned</h2>
      <Lines lines={answer.report?.cautions ?? []} />
      <label class="check">
        <input
          type="checkbox"
          checked={job.cautionsRead}
          onChange={(event) => moveJob({ cautionsRead: event.currentTarget.checked })}
        />
        I have read this and made the engine safe
      </label>
      <button
        type="button"
        class="main"
        disabled={!job.cautionsRead}
        onClick={() => moveJob({ stage: "turn" })}
      >
        Go to the first stop
      </button>
    </section>
  );
}
