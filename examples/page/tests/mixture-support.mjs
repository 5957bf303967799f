// What the tests of the third step share: an invented four, the native answers to it, and what is shown of them.
import assert from "node:assert/strict";
import { example, native, openText, saved } from "./support.mjs";

export const DEMO = "four-carburettors-at-altitude";
export const settle = "I have read this and made the engine safe";

/** An invented four with a mixture part, its valves and timing settled. */
export const document = (mixture) => {
  const { ignition: _, ...rest } = { ...example(DEMO), title: "Invented four" };
  return { ...rest, mixture: { valves: "settled", timing: "settled", ...mixture } };
};

export const told = (document) => {
  const { report, problems } = native(document);
  assert.equal(problems, undefined, JSON.stringify(problems));
  return report;
};

/** Why the native kernel does not take a document. */
export function refused(document) {
  try {
    native(document);
  } catch ({ stdout }) {
    return JSON.parse(stdout).problems;
  }
  return assert.fail("taken");
}

/** What the page has kept, without the empty sheet for valves. */
export const kept = async (page) => {
  const { clearance: _, ...rest } = (await saved(page, "job")).document;
  return rest;
};

export const squeezed = (text) => text.replace(/\s+/g, " ").toLowerCase();
export const shown = async (page, where = "main") =>
  squeezed((await page.locator(where).allInnerTexts()).join(" "));
export const has = (text, words) => assert.ok(text.includes(squeezed(words)), `${words} in ${text}`);
export const answers = (page) => shown(page, ".card .answer, .card [aria-label=Throttles]");

/** Opens a document of the mixture alone at one of its parts. */
export async function openPart(page, open, document, name) {
  await open("job");
  await openText(page, document);
  await page.getByRole("button", { name: settle }).click();
  if (name) await part(page, name);
}

export const part = (page, name) =>
  page.getByRole("navigation", { name: "Parts of the mixture" }).getByRole("button", { name }).click();

export async function type(page, label, text, { nth = 0 } = {}) {
  const field = page.locator(".card").getByLabel(label).nth(nth);
  await field.fill(text);
  await field.press("Tab");
}

export const pick = (page, label, choice) =>
  page.locator(".card").getByLabel(label).first().selectOption(choice);

/** Advice of the report stands in the text, what must be sure before the amount. */
export function hasAdvice(text, { first = [], text: what, then_reads, causes = [] }) {
  for (const one of [...first, what, ...(then_reads ? [then_reads] : []), ...causes]) has(text, one);
  for (const one of first) assert.ok(text.indexOf(squeezed(one)) < text.indexOf(squeezed(what)), one);
}

export function hasMeasured(text, { found, limits, verdict_text }) {
  for (const words of [found, limits, verdict_text]) has(text, words);
}

/** What is told of a balance stands in the text: verdict, throttles, screws in their order, what to read next. */
export function hasBalance(text, { spread, verdict_text, throttles, turns, advice, next }) {
  if (spread) hasMeasured(text, spread);
  else has(text, verdict_text);
  for (const { text: one } of throttles) has(text, one);
  const places = turns.map(({ text: one }) => (has(text, one), text.indexOf(squeezed(one))));
  assert.deepEqual(
    places,
    [...places].sort((a, b) => a - b),
  );
  if (turns.length === 0) hasAdvice(text, advice);
  else for (const one of [...advice.first, advice.then_reads]) has(text, one);
  if (next) has(text, next);
}

/** Places along an axis that runs straight: what is drawn at `drawn` where the numbers are `numbers`. */
export function straight(drawn, numbers, what) {
  const order = numbers.map((_, i) => i).sort((a, b) => numbers[a] - numbers[b]);
  const [low, high] = [order[0], order.at(-1)];
  drawn.forEach((d, i) => {
    const share = (numbers[i] - numbers[low]) / (numbers[high] - numbers[low]);
    const expected = drawn[low] + share * (drawn[high] - drawn[low]);
    assert.ok(Math.abs(d - expected) < 0.3, `${what} ${numbers[i]}: ${d}, not ${expected}`);
  });
}

/** Corners of a path that is written in full coordinates. */
export const corners = (d) => [...d.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [+x, +y]);
