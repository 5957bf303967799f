// What the browser keeps: damaged and older saves are told and kept, never dropped; no network is needed.
import assert from "node:assert/strict";
import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test from "node:test";
import { serve } from "../serve.mjs";
import { everySection, example, firstCheck, openText, PHONE, saved, setUp } from "./support.mjs";

const { on } = setUp();
/** The browser itself complains when its check for a newer worker finds no network. */
const own = (text) => !/ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED|foreign/.test(text);
const older = { format: 0, value: { document: example("v-twin"), step: 2 } };

for (const [what, text] of [
  ["torn", '{"format":3,"value":{"document":{"lash'],
  ["of another shape", '{"format":3,"value":{"document":{"engine":3}}}'],
  ["of an older format", JSON.stringify(older)],
]) {
  test(
    `a save that is ${what} is told and kept`,
    on(PHONE, async ({ page, open }) => {
      await open();
      await page.evaluate((text) => localStorage.setItem("lash-check.job", text), text);
      await page.reload();
      const notice = page.getByRole("status").filter({ hasText: "could not be used" });
      await notice.waitFor();
      const kept = await page.evaluate(() => localStorage.getItem("lash-check.kept.job.0"));
      assert.equal(kept, text);
      const waiting = page.waitForEvent("download");
      await notice.getByRole("button", { name: "Save it as a file" }).click();
      assert.equal((await waiting).suggestedFilename(), "kept-job.txt");
      await page.reload();
      await notice.waitFor();
    }),
  );
}

test(
  "a save that is read but cannot be drawn is told and put aside when wanted",
  on(PHONE, async ({ page, open }) => {
    const document = example("v-twin");
    document.clearance.metal = { parts: 5 };
    const nothing = { past: [], future: [], seen: [], open: "", layout: "" };
    const place = { stage: "describe", plan: -1, stop: 0 };
    const job = { id: 1, document, demo: false, cautionsRead: false, ...place, ...nothing };
    const text = JSON.stringify({ format: 3, value: job });
    await open("job");
    await page.evaluate((text) => localStorage.setItem("lash-check.job", text), text);
    await page.reload();
    const told = page.getByRole("alert", { name: "The job cannot be shown" });
    await told.getByRole("button", { name: "Put it aside" }).click();
    await page.getByRole("heading", { name: "Whole engine" }).waitFor();
    assert.equal(await page.evaluate(() => localStorage.getItem("lash-check.kept.job.0")), text);
    await page.getByRole("button", { name: "Open the document in it" }).waitFor();
    await page.getByRole("link", { name: "One valve" }).click();
    await page.getByRole("heading", { name: "One valve" }).waitFor();
  }),
);

test(
  "the document in an older save can be opened",
  on(PHONE, async ({ page, open }) => {
    await open();
    await page.evaluate((text) => localStorage.setItem("lash-check.job", text), JSON.stringify(older));
    await page.reload();
    await page.getByRole("button", { name: "Open the document in it" }).click();
    await page.getByRole("heading", { name: example("v-twin").title }).waitFor();
    assert.deepEqual((await saved(page, "job")).document, example("v-twin"));
  }),
);

test(
  "an older save with every section is kept, opened, taken out as a file and opened again as it was",
  on(PHONE, async ({ page, open }) => {
    const document = everySection();
    const text = JSON.stringify({ format: 0, value: { document, step: 2 } });
    await open();
    await page.evaluate((text) => localStorage.setItem("lash-check.job", text), text);
    await page.reload();
    await page.getByRole("button", { name: "Open the document in it" }).click();
    await page.getByRole("heading", { name: document.title }).waitFor();
    assert.deepEqual((await saved(page, "job")).document, document);
    assert.equal(await page.evaluate(() => localStorage.getItem("lash-check.kept.job.0")), text);
    // Each view is gone through, and nothing of the others is lost by it.
    for (const view of ["condition", "ignition", "mixture", "history", "service"]) {
      await page.goto(new URL(`#${view}`, page.url()).href);
      await page.locator("main h1").waitFor();
      await page.getByText(document.title).first().waitFor();
    }
    assert.deepEqual((await saved(page, "job")).document, document);
    const waiting = page.waitForEvent("download");
    await page.getByRole("link", { name: "Report of all of it" }).click();
    await page.getByRole("button", { name: "Save as a file" }).click();
    const file = await readFile(await (await waiting).path(), "utf8");
    assert.deepEqual(JSON.parse(file), document);
    await page.getByRole("button", { name: "Save and close" }).click();
    await openText(page, file);
    assert.deepEqual((await saved(page, "job")).document, document);
  }),
);

test(
  "damaged settings and quick check leave the job alone",
  on(PHONE, async ({ page, open }) => {
    await open("job");
    await page.getByRole("button", { name: example("v-twin").title }).click();
    const job = await saved(page, "job");
    await page.evaluate(() => {
      localStorage.setItem("lash-check.settings", "[]");
      localStorage.setItem("lash-check.quick", "{");
    });
    await page.reload();
    await page.getByText("The saved settings is damaged").waitFor();
    assert.deepEqual(await saved(page, "job"), job);
  }),
);

test(
  "a browser that does not save says so",
  on(PHONE, async ({ page, open }) => {
    await page.addInitScript(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    });
    await open();
    await page.getByText("Exhaust", { exact: true }).first().click();
    await page.getByText("does not let the page save").waitFor();
  }),
);

/** After the first answer the page keeps itself for offline use. */
async function firstAnswer(page) {
  await firstCheck(page, "Intake", { to: "0.20 mm", from: "0.18", until: "0.22" });
  await page.locator('label[for="quick.goes.leaf.0.12 mm"]').click();
  await page.locator('label[for="quick.refuses.leaf.0.15 mm"]').click();
  await page.locator(".answer .sign").first().waitFor();
}

test("works without a network after the first visit", async (t) => {
  const server = await serve(new URL("../dist", import.meta.url).pathname);
  await on(
    PHONE,
    async ({ page, context, complaints }) => {
      await page.goto(server.address);
      await firstAnswer(page);
      await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
      await server.close();
      await context.setOffline(true);
      await page.reload();
      assert.match(await page.locator(".answer .sign").first().textContent(), /Too tight/);
      await page.goto(`${server.address}#charts`);
      await page.getByRole("heading", { name: "Charts" }).waitFor();
      complaints.splice(0, complaints.length, ...complaints.filter(own));
    },
    { site: server.address, worker: true },
  )(t);
});

/** The views of parts that are loaded later, each with an invented engine to try it with or with what it asks. */
const LATER = {
  condition: "Invented inline four, condition",
  ignition: "Invented opposed four, ignition",
  mixture: "Invented four with four carburettors, at altitude",
  history: "Invented inline-four, nine years of services",
};

test("after one visit every step opens and answers without a network", async (t) => {
  const server = await serve(new URL("../dist", import.meta.url).pathname);
  await on(
    PHONE,
    async ({ page, context, complaints }) => {
      const asked = new Set();
      page.on("response", (response) => asked.add(new URL(response.url()).pathname));
      await page.goto(server.address);
      await firstAnswer(page);
      await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
      for (const part of ["ignition_bg", "lashwork_ignition", "lashwork_mixture", "lashwork_history"])
        assert.ok(
          ![...asked].some((path) => path.includes(`assets/${part}`)),
          `${part} came with the first answer`,
        );
      await server.close();
      await context.setOffline(true);
      // Each from a fresh start, so that nothing is at hand but what is kept.
      const openView = async (view) => {
        await page.goto(`${server.address}#${view}`);
        await page.reload();
        await page.locator("main h1").waitFor();
        assert.equal(await page.getByText("could not be loaded").count(), 0, view);
      };
      for (const [view, title] of Object.entries(LATER)) {
        await openView(view);
        await page.getByRole("button", { name: title }).click();
        await page.getByText(title).first().waitFor();
        await openView(view);
        await page.locator(".cautions li, [aria-label='What the years say'] .do").first().waitFor();
        await openView("service");
        await page.getByRole("heading", { name: "Steps in their order" }).waitFor();
        await page.getByRole("button", { name: "Save and close" }).click();
      }
      await openView("figures");
      await page.getByRole("heading", { name: "Dwell" }).waitFor();
      for (const view of ["charts", "settings", "job"]) await openView(view);
      complaints.splice(0, complaints.length, ...complaints.filter(own));
    },
    { site: server.address, worker: true },
  )(t);
});

test("works from a folder deep in a server, without a network too", async (t) => {
  const root = await mkdtemp(join(tmpdir(), "lash-check-"));
  await cp(new URL("../dist", import.meta.url), join(root, "tools", "lash check"), { recursive: true });
  const server = await serve(root);
  try {
    await on(
      PHONE,
      async ({ page, context, complaints }) => {
        const address = `${server.address}tools/lash%20check/`;
        await page.goto(`${address}#charts`);
        await page.getByRole("heading", { name: "Charts" }).waitFor();
        await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
        await server.close();
        await context.setOffline(true);
        await page.goto(`${address}index.html#check`);
        await firstAnswer(page);
        assert.match(await page.locator(".answer .sign").first().textContent(), /Too tight/);
        complaints.splice(0, complaints.length, ...complaints.filter(own));
      },
      { site: server.address, worker: true },
    )(t);
  } finally {
    await server.close();
    await rm(root, { recursive: true });
  }
});

test("a newer version waits until it is wanted", async (t) => {
  const folder = await mkdtemp(join(tmpdir(), "lash-check-"));
  await cp(new URL("../dist", import.meta.url), folder, { recursive: true });
  const server = await serve(folder);
  try {
    await on(
      PHONE,
      async ({ page }) => {
        await page.goto(server.address);
        await firstAnswer(page);
        await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
        const worker = join(folder, "worker.js");
        await writeFile(worker, (await readFile(worker, "utf8")).replace("`${OWN}", "`${OWN}newer "));
        await page.reload();
        const button = page.getByRole("button", { name: "Load it now" });
        await button.waitFor();
        await page.locator('label[for="quick.valve.intake"]').click();
        await page.locator('label[for="quick.goes.leaf.0.10 mm"]').click();
        const loaded = page.waitForEvent("load");
        await button.click();
        await loaded;
        await page.getByText("0.10 goes").first().waitFor();
        assert.equal(await button.count(), 0);
        const names = await page.evaluate(() => caches.keys());
        assert.ok(names.length === 1 && names[0].includes("newer"), String(names));
      },
      { site: server.address, worker: true },
    )(t);
  } finally {
    await server.close();
    await rm(folder, { recursive: true });
  }
});

test(
  "what a phone needs to install the page is there",
  on(PHONE, async ({ page, open, address }) => {
    await open();
    const manifest = await page.evaluate(async () =>
      (await fetch(document.querySelector("link[rel=manifest]").href)).json(),
    );
    assert.equal(manifest.display, "standalone");
    for (const { src, sizes } of manifest.icons) {
      const icon = await page.request.get(new URL(src, address).href);
      assert.equal(icon.status(), 200, src);
      assert.ok(sizes);
    }
  }),
);

test(
  "the page says what it may load, in itself and in its headers",
  on(PHONE, async ({ page, address }) => {
    const answer = await page.goto(address);
    const header = answer.headers()["content-security-policy"];
    const meta = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
    assert.ok(header.startsWith(meta));
    assert.match(meta, /default-src 'none'/);
    assert.doesNotMatch(meta, /unsafe-inline|'unsafe-eval'|https?:|\*/);
    const html = await answer.text();
    assert.doesNotMatch(html, /<script(?![^>]*\bsrc=)|<style|\son\w+=|style="/i);
  }),
);
