// A step after the valves: what stops the work and the order of work first, then the card that is next.

import type { ComponentChildren, ComponentType } from "preact";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { Demo } from "../answer";
import { put } from "../draft";
import type { Sheet } from "../field";
import { Foot } from "../job";
import { sheetOf } from "../job-sheet";
import { download, fileName } from "../files";
import type { AnyReport, Document } from "../kernel";
import { Assumed, Lines } from "../lines";
import { parted, placeOf } from "../needed";
import { Needed, Parts, useHeading } from "../parts";
import { placeWords } from "../places";
import { Problems } from "../problems";
import { RecordForm } from "../record";
import { moveJob, type Job, type Settings, type State } from "../state";
import { found, toKeep, type Found, type StepPart } from "./ask";
import { ServiceNext } from "./next";
import { Alone, HOME, Ways } from "./frame";
import { Foretold, Steps, type StepFound } from "./order";
import { Before, Paper, type OnPaper } from "./paper";

/** What every card works with. */
export interface CardProps {
  sheet: Sheet;
  report: AnyReport | null;
  withValves: boolean;
  withIgnition: boolean;
  unit: "mm" | "in";
  warmth: "C" | "F";
}

/** A step of the service: its cards by the steps of the kernel's, the first for all others; and its paper. */
export interface Step extends OnPaper {
  cards: { readonly [card: string]: readonly [string, ComponentType<CardProps>] };
  presets: readonly Document[];
  /** What of it needs no engine. */
  besides?: ComponentChildren;
}

export function StepView({ state, step }: { state: State; step: Step }) {
  const { job } = state;
  if (!job) {
    return (
      <Alone title={step.title} of={`${step.title} is set for`} engines={step.presets}>
        {step.besides}
      </Alone>
    );
  }
  return <OfJob job={job} settings={state.settings} step={step} />;
}

interface OfJobProps {
  job: Job;
  settings: Settings;
  step: Step;
}

function OfJob({ job, settings, step }: OfJobProps) {
  const { part } = step;
  const answer = found(job.document, part);
  // They do not wait for what is wrong in this step.
  const cautions = (answer.report ?? found(without(job.document, part), part).report)?.cautions;
  /** Under this name a job keeps that the cautions of the step were read. */
  const read = `${part}.cautions`;
  const isRead = job.seen.includes(read);
  const [isReport, setReport] = useState(false);
  const title = useRef<HTMLHeadingElement>(null);
  useLayoutEffect(() => {
    if (isReport) title.current?.focus();
  }, [isReport]);
  // Whoever has read the cautions to their end is shown next what is dangerous and what stops the work.
  const wasRead = useRef(isRead);
  useLayoutEffect(() => {
    if (isRead && !wasRead.current) {
      title.current?.focus({ preventScroll: true });
      scrollTo({ top: 0, behavior: "instant" });
    }
    wasRead.current = isRead;
  }, [isRead]);
  return (
    <div class="view">
      <h1 class="tools" ref={title} tabIndex={-1}>
        {step.title} {job.demo && <Demo />}
      </h1>
      <Ways job={job} ways={{ ...HOME, ...OTHERS[part] }} />
      {isReport && answer.report ? (
        <Record job={job} step={step} back={() => setReport(false)} />
      ) : (
        <>
          {cautions && (
            <Mind cautions={cautions} isRead={isRead} read={() => moveJob({ seen: [...job.seen, read] })} />
          )}
          {(isRead || !cautions) && <Work job={job} answer={answer} settings={settings} step={step} />}
          {isRead && answer.report && (
            <button type="button" onClick={() => setReport(true)}>
              Report of the {step.title.toLowerCase()}
            </button>
          )}
        </>
      )}
      <Foot job={job} />
    </div>
  );
}

/** What was found, to be printed and kept. */
function Record({ job, step, back }: { job: Job; step: Step; back: () => void }) {
  const { document } = job;
  return (
    <>
      <div class="row tools">
        <button type="button" class="main" onClick={() => print()}>
          Print
        </button>
        <button type="button" onClick={() => download(fileName(document.title ?? ""), toKeep(document))}>
          Save as a file
        </button>
        <button type="button" onClick={back}>
          Back to the work
        </button>
      </div>
      <RecordForm sheet={sheetOf(job, { problems: [] })} />
      <Paper job={job} of={step} />
    </>
  );
}

/** The cautions, to be read once before anything is said of the engine, and at hand afterwards. */
function Mind({
  cautions,
  isRead,
  read,
}: {
  cautions: readonly string[];
  isRead: boolean;
  read: () => void;
}) {
  if (isRead) {
    return (
      <details class="small cautions">
        <summary>Cautions</summary>
        <Lines lines={cautions} />
      </details>
    );
  }
  return (
    <section class="cautions notice" aria-label="Cautions">
      <Lines lines={cautions} />
      <button type="button" class="main" onClick={read}>
        I have read this and made the engine safe
      </button>
    </section>
  );
}

function Work({ job, answer, settings, step }: OfJobProps & { answer: Found }) {
  const { report, problems, withValves, withIgnition } = answer;
  const { cards } = step;
  const own = report?.[step.part];
  const { needed, wrong } = parted(job.document, problems);
  const first = Object.keys(cards)[0]!;
  const next = own?.next;
  const nextCard = next ? cardOf(next, cards, first) : first;
  const [card, setCard] = useState(addressed(cards) ?? nextCard);
  useEffect(() => {
    const moved = () => setCard((card) => addressed(cards) ?? card);
    addEventListener("hashchange", moved);
    return () => removeEventListener("hashchange", moved);
  }, [cards]);
  const heading = useHeading(card);
  const sheet = { ...sheetOf(job, { problems, assumptions: report?.assumptions }), asked: true };
  const names = needed.map((problem) => placeWords(placeOf(problem), job.document));
  const [title, Form] = cards[card]!;
  const open = own?.steps.find(({ step }) => step === card);
  return (
    <>
      {own && report && (
        <>
          <Before report={report} of={step} />
          <section class="card" aria-label="Order of work">
            <h2>Order of work</h2>
            <Steps found={own} />
            {next && nextCard !== card && (
              <button type="button" class="main" onClick={() => setCard(nextCard)}>
                Next: {next.name}
              </button>
            )}
          </section>
        </>
      )}
      <Problems problems={wrong} document={job.document} />
      <Needed names={names} />
      <Parts label={`Parts of the ${step.title.toLowerCase()}`} parts={cards} open={card} choose={setCard} />
      <section class="card" aria-label={title} key={card}>
        <h2 ref={heading} tabIndex={-1}>
          {title}
        </h2>
        <Form
          sheet={sheet}
          report={report}
          withValves={withValves}
          withIgnition={withIgnition}
          unit={settings.unit}
          warmth={settings.warmth}
        />
      </section>
      {report && <Assumed lines={report.assumptions} />}
      {open ? (
        <Foretold step={open} show={() => heading.current?.scrollIntoView({ block: "start" })} />
      ) : (
        <ServiceNext document={job.document} />
      )}
    </>
  );
}

/** The card that the address names behind the view. */
const addressed = (cards: Step["cards"]): string | undefined => {
  const step = location.hash.split("/")[1] ?? "";
  return step in cards ? step : undefined;
};

/** The card of a step; what comes before all of them stands in the first. */
const cardOf = ({ step }: NonNullable<StepFound["next"]>, cards: Step["cards"], first: string) =>
  step in cards ? step : first;

const without = (document: Document, part: StepPart): Document => put(document, `/${part}`, undefined);

/** The way to the other step. */
const OTHERS = {
  condition: { ignition: "Ignition" },
  ignition: { mixture: "Mixture" },
  mixture: { ignition: "Ignition" },
};
