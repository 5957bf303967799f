// The second step: ignition. What stops the work and the order of work first, then the card that is next.

import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { Demo } from "../answer";
import { put } from "../draft";
import type { Sheet } from "../field";
import { Foot } from "../job";
import { download, fileName } from "../files";
import type { AnyReport, IgnitionReport } from "../kernel";
import { Lines } from "../lines";
import { parted, placeOf } from "../needed";
import { Needed, Parts, useHeading } from "../parts";
import { placeWords } from "../places";
import { withoutIgnition } from "../progress";
import { Problems } from "../problems";
import { RecordForm } from "../record";
import { moveJob, openJob, writeJob, type Job, type Settings, type State } from "../state";
import { FIGURES } from "../words";
import { AdvanceCard } from "./advance";
import { found, toKeep, type Found } from "./ask";
import { ContactsCard } from "./contacts";
import { BeforeCard } from "./before";
import { ElectricsCard } from "./electrics";
import { EvennessCard } from "./evenness";
import { LeadsCard } from "./leads";
import { Danger, MagnetoCard } from "./magneto";
import { Steps, StopWork } from "./order";
import { Paper } from "./paper";
import { PointCard } from "./point";
import { PRESETS } from "./presets";
import { TimingCard } from "./timing";

/** What every card works with. */
export interface CardProps {
  sheet: Sheet;
  report: AnyReport | null;
  withValves: boolean;
  unit: "mm" | "in";
  warmth: "C" | "F";
}

const CARDS = {
  before: ["To begin", BeforeCard],
  leads: ["Leads", LeadsCard],
  contacts: ["Contacts", ContactsCard],
  timing: ["Timing", TimingCard],
  advance: ["Advance", AdvanceCard],
  evenness: ["Even sparks", EvennessCard],
  electrics: ["Coil, plugs", ElectricsCard],
  magneto: ["Magneto", MagnetoCard],
  point: ["Point", PointCard],
} as const;

type Card = keyof typeof CARDS;

/** In which card a step of the kernel's is worked on. */
const cardOf = (step: string): Card => (step in CARDS ? (step as Card) : "before");

export function IgnitionView({ state }: { state: State }) {
  const { job } = state;
  if (!job) {
    return (
      <div class="view">
        <h1>Ignition</h1>
        <p class="empty">
          Ignition is set for the engine of a job. <a href="#job">Go to the jobs</a>.
        </p>
        <p>
          <a class="button" href="#figures">
            {FIGURES}
          </a>
        </p>
        <section class="card">
          <h2>Try an invented engine</h2>
          <p class="hint">Made up, with made-up figures, and marked DEMO.</p>
          <div class="stack">
            {PRESETS.map((document) => (
              <button type="button" key={document.title} onClick={() => openJob(document, { demo: true })}>
                {document.title}
              </button>
            ))}
          </div>
        </section>
      </div>
    );
  }
  return <OfJob job={job} settings={state.settings} />;
}

/** Under this name a job keeps that the cautions of this step were read. */
const READ = "ignition.cautions";

function OfJob({ job, settings }: { job: Job; settings: Settings }) {
  const answer = found(job.document);
  // They do not wait for what is wrong in this step.
  const cautions = (answer.report ?? found(withoutIgnition(job.document)).report)?.cautions;
  const isRead = job.seen.includes(READ);
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
        Ignition {job.demo && <Demo />}
      </h1>
      <p class="row tools">
        <span>{job.document.title || "Engine without a name"}</span>
        <a class="button" href="#job">
          Back to the engine
        </a>
      </p>
      {isReport && answer.report ? (
        <Record job={job} back={() => setReport(false)} />
      ) : (
        <>
          {cautions && (
            <Mind cautions={cautions} isRead={isRead} read={() => moveJob({ seen: [...job.seen, READ] })} />
          )}
          {(isRead || !cautions) && <Work job={job} answer={answer} settings={settings} />}
          {isRead && answer.report && (
            <button type="button" onClick={() => setReport(true)}>
              Report of the ignition
            </button>
          )}
        </>
      )}
      <Foot job={job} />
    </div>
  );
}

/** What was found, to be printed and kept. */
function Record({ job, back }: { job: Job; back: () => void }) {
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
      <RecordForm sheet={{ document, problems: [], write: (at, value) => write(job, at, value) }} />
      <Paper job={job} />
    </>
  );
}

const write = ({ document }: Job, pointer: string, value: unknown) =>
  writeJob(put(document, pointer, value), placeWords(pointer, document));

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

function Work({ job, answer, settings }: { job: Job; answer: Found; settings: Settings }) {
  const { report, problems, withValves } = answer;
  const { needed, wrong } = parted(job.document, problems);
  const next = nextOf(report?.ignition);
  const [card, setCard] = useState<Card>(next ?? "before");
  const heading = useHeading(card);
  const sheet: Sheet = {
    document: job.document,
    problems,
    assumptions: report?.assumptions,
    write: (pointer, value) => write(job, pointer, value),
    asked: true,
  };
  const names = needed.map((problem) => placeWords(placeOf(problem), job.document));
  const [title, Form] = CARDS[card];
  return (
    <>
      {report?.ignition && (
        <>
          <Danger report={report} />
          <StopWork found={report.ignition} />
          <section class="card" aria-label="Order of work">
            <h2>Order of work</h2>
            <Steps found={report.ignition} />
            {next && next !== card && (
              <button type="button" class="main" onClick={() => setCard(next)}>
                Next: {CARDS[next][0].toLowerCase()}
              </button>
            )}
          </section>
        </>
      )}
      <Problems problems={wrong} document={job.document} />
      <Needed names={names} />
      <Parts label="Parts of the ignition" parts={CARDS} open={card} choose={setCard} />
      <section class="card" aria-label={title} key={card}>
        <h2 ref={heading} tabIndex={-1}>
          {title}
        </h2>
        <Form
          sheet={sheet}
          report={report}
          withValves={withValves}
          unit={settings.unit}
          warmth={settings.warmth}
        />
      </section>
      {report && report.assumptions.length > 0 && (
        <details class="small">
          <summary>What was assumed ({report.assumptions.length})</summary>
          <Lines look="plain" lines={report.assumptions} />
        </details>
      )}
    </>
  );
}

/** The card of the first step that is not settled. */
function nextOf(found: IgnitionReport | null | undefined): Card | undefined {
  const step = found?.steps.find(({ standing }) => standing !== "settled");
  return step && cardOf(step.step);
}
