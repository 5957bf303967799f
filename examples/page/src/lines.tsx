// Texts of the kernel as a list.

import { sentence } from "./words";

interface Props {
  lines: readonly (string | { text: string })[];
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
