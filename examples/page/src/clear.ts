// Keys alone: what takes the focus is not left under the bars at the foot of a phone.

const BARS = ".top nav, .peek";

/** Moves the page where a bar would cover what has just taken the focus. */
export function keepClear(event: FocusEvent): void {
  const target = event.target as Element;
  if (!target.matches(":focus-visible") || target.closest(BARS)) return;
  const fixed = [...document.querySelectorAll(BARS)].filter(
    (bar) => getComputedStyle(bar).position === "fixed" && bar.checkVisibility(),
  );
  const edge = Math.min(...fixed.map((bar) => bar.getBoundingClientRect().top));
  if (target.getBoundingClientRect().bottom > edge) target.scrollIntoView({ block: "center" });
}
