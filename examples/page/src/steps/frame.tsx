// The frame of a screen over a whole job: its name, the ways to the others, what is wrong and what is next.

import type { ComponentChildren } from "preact";
import { Demo } from "../answer";
import { Foot } from "../job";
import type { AnyReport, Answer, Document } from "../kernel";
import { Assumed } from "../lines";
import { parted, placeOf } from "../needed";
import { Needed } from "../parts";
import { placeWords } from "../places";
import { Problems } from "../problems";
import type { Job } from "../state";
import { Invented } from "./invented";
import { ServiceNext } from "./next";

interface AloneProps {
  title: string;
  /** The beginning of a sentence that ends with the engine of a job. */
  of: string;
  /** Engines to try it with. */
  engines?: readonly Document[];
  children?: ComponentChildren;
}

/** Where no job is open. */
export const Alone = ({ title, of, engines, children }: AloneProps) => (
  <div class="view">
    <h1>{title}</h1>
    <p class="empty">
      {of} the engine of a job. <a href="#job">Go to the jobs</a>.
    </p>
    {children}
    {engines && <Invented engines={engines} />}
  </div>
);

interface WaysProps {
  job: Job;
  /** The views by their names. */
  ways: { readonly [view: string]: string };
}

/** Ways to other screens of a job, behind its name. */
export const Ways = ({ job, ways }: WaysProps) => (
  <p class="row tools">
    <span>{job.document.title || "Engine without a name"}</span>
    {Object.entries(ways).map(([view, name]) => (
      <a class="button" key={view} href={`#${view}`}>
        {name}
      </a>
    ))}
  </p>
);

/** The ways that every screen of a step has. */
export const HOME = { job: "Back to the engine", service: "Whole service" };

interface FrameProps {
  job: Job;
  title: string;
  answer: Answer<AnyReport>;
  children: ComponentChildren;
}

export function Frame({ job, title, answer: { report, problems }, children }: FrameProps) {
  const { document } = job;
  const { needed, wrong } = parted(document, problems);
  return (
    <div class="view">
      <h1 class="tools">
        {title} {job.demo && <Demo />}
      </h1>
      <Ways job={job} ways={HOME} />
      <Problems problems={wrong} document={document} />
      <Needed names={needed.map((problem) => placeWords(placeOf(problem), document))} />
      {children}
      {report && <Assumed lines={report.assumptions} />}
      <ServiceNext document={document} />
      <Foot job={job} />
    </div>
  );
}
