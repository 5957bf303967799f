// Parts of a view, of which one is open: the row to choose by, what is still needed, and where a part begins.

import { useLayoutEffect, useRef } from "preact/hooks";

interface PartsProps<Part extends string> {
  label: string;
  parts: { readonly [one in Part]: readonly [string, ...unknown[]] };
  open: Part;
  choose: (one: Part) => void;
}

/** The row of parts, each by its first word. */
export function Parts<Part extends string>({ label, parts, open, choose }: PartsProps<Part>) {
  return (
    <nav class="stages" aria-label={label}>
      <ol>
        {(Object.keys(parts) as Part[]).map((one) => (
          <li key={one}>
            <button
              type="button"
              aria-current={one === open ? "step" : undefined}
              onClick={() => choose(one)}
            >
              {parts[one][0]}
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}

/** What is not said yet, each once. */
export function Needed({ names }: { names: readonly string[] }) {
  const once = [...new Set(names)];
  if (once.length === 0) return null;
  return (
    <p class="notice" role="status">
      Still needed: {once.join("; ")}.
    </p>
  );
}

/** The heading of a part: when another is opened it has the focus, for eyes and for keys. */
export function useHeading(open: string) {
  const heading = useRef<HTMLHeadingElement>(null);
  const before = useRef(open);
  useLayoutEffect(() => {
    if (before.current !== open) heading.current?.focus();
    before.current = open;
  }, [open]);
  return heading;
}
