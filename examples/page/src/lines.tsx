// Texts of the kernel as a list.

import { sentence } from "./words";

type Texts = readonly (string | { text: string })[];

interface Props {
  lines: Texts;
  look?: string;
}

export function Lines({ lines, look }: Props) {
  const texts = lines.map((line) => sentence(typeof line === "string" ? line : line.text));
  return (
    <ul class={look}>
      {texts.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  );
}

/** What the kernel took for granted, closed until somebody asks; nothing where it took nothing. */
export function Assumed({ lines }: { lines: Texts }) {
  return lines.length === 0 ? null : (
    <details class="small">
      <summary>What was assumed ({lines.length})</summary>
      <Lines look="plain" lines={lines} />
    </details>
  );
}
