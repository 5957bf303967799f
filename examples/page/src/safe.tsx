// A view that cannot be drawn takes nothing else with it: what was saved can be kept as a file and put aside.

import { Component, type ComponentChildren } from "preact";
import { download } from "./files";
import { saved, setAside, type Slot } from "./store";

interface Props {
  /** What the view is drawn from. */
  slot: Slot;
  name: string;
  children: ComponentChildren;
}

export class Safe extends Component<Props, { why?: unknown }> {
  static override getDerivedStateFromError(why: unknown) {
    return { why };
  }

  override render({ slot, name, children }: Props, { why }: { why?: unknown }) {
    if (why === undefined) return children;
    const text = saved(slot);
    return (
      <section class="problems" role="alert" aria-label={`The ${name} cannot be shown`}>
        <h1>The {name} cannot be shown</h1>
        <p>
          Something in what was saved does not fit this page ({String(why)}). It is kept as it was. Save it as
          a file, then put it aside to start afresh.
        </p>
        <div class="row">
          {text !== null && (
            <button type="button" onClick={() => download(`kept-${slot}.txt`, text)}>
              Save it as a file
            </button>
          )}
          <button type="button" onClick={() => (setAside(slot), location.reload())}>
            Put it aside
          </button>
        </div>
      </section>
    );
  }
}
