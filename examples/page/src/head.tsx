// The head from above: each cylinder with its valves. Those of this stop are to be tapped; of the others only
// the verdict is drawn. Where in the head a valve sits is in no document, so the picture does not say it.

import type { ComponentChildren } from "preact";
import { signsOf } from "./answer";
import type { CheckReport, Document, JudgedReport, PlanReport, Report } from "./kernel";
import { judgedOf, keyOf, readSoFar } from "./progress";
import { moveJob } from "./state";
import { ENDS, sentence, VERDICTS } from "./words";

interface Props {
  document: Document;
  report: Report;
  plan: PlanReport;
  /** The valves of this stop. */
  checks: readonly CheckReport[];
  /** The one that is being read, and the one to read next. */
  open: CheckReport;
  next: CheckReport | undefined;
  /** What the book has for a valve. */
  figure: (valve: CheckReport) => string;
}

export function Head(props: Props) {
  const { numbering, cylinders } = props.document.engine;
  const sides = new Set(cylinders.map(({ side }) => side ?? ""));
  const end = ENDS[numbering as keyof typeof ENDS];
  return (
    <div class="valves" role="group" aria-label="Valves to check here">
      {[...sides].map((side) => (
        <div class="bank" key={side}>
          {side && <small>{side}</small>}
          {cylinders.map(
            ({ label, side: own }) =>
              (own ?? "") === side && <Cylinder key={label} {...props} label={label} />,
          )}
        </div>
      ))}
      <p class="hint">{end && sentence(`${end} first`)} In and ex may be the other way.</p>
    </div>
  );
}

function Cylinder(props: Props & { label: string }) {
  const { plan, checks, label } = props;
  const valves = plan.stops.flatMap((stop) => stop.check).filter((valve) => valve.cylinder === label);
  const lit = valves.filter((valve) => checks.includes(valve));
  const dark = valves.filter((valve) => !checks.includes(valve));
  return (
    <div class="cylinder">
      <small aria-hidden="true">
        {label}
        {inOrder(dark).map((valve) => (
          <Seat key={keyOf(valve)} judged={verdictsOf(props, valve)} />
        ))}
      </small>
      {lit.length > 0 && (
        <div>
          {inOrder(lit).map((valve) => (
            <Lit key={keyOf(valve)} {...props} valve={valve} />
          ))}
        </div>
      )}
    </div>
  );
}

/** Intake first, so that a valve keeps its place from stop to stop. */
const inOrder = (valves: readonly CheckReport[]): CheckReport[] =>
  [...valves].sort((a, b) => b.kind.localeCompare(a.kind) || a.number - b.number);

/** What a valve was last judged to be: as left, if it was set. */
function verdictsOf({ document, report }: Props, valve: CheckReport): readonly JudgedReport[] {
  const found = judgedOf(report, valve);
  const isRead = readSoFar(document, report, valve) === "both";
  return (isRead && (found?.left ?? found)?.judged) || [];
}

/** A valve of this stop. */
function Lit(props: Props & { valve: CheckReport }) {
  const { document, report, open, next, figure, valve } = props;
  const judged = verdictsOf(props, valve);
  const half = readSoFar(document, report, valve) === "half";
  const kind = SHORT[valve.kind];
  const several = /\d$/.test(valve.valve);
  return (
    <button
      type="button"
      class={valve === next ? "next" : ""}
      aria-pressed={valve === open}
      onClick={() => moveJob({ open: keyOf(valve) })}
    >
      <span class="sr">{valve.cylinder} </span>
      <Seat judged={judged}>
        <b>{several ? `${kind} ${valve.number}` : kind}</b>
        {judged.length === 0 && <small>{figure(valve)}</small>}
      </Seat>
      <small>
        {half && "half read"}
        {signsOf(judged)
          .map(({ verdict }) => VERDICTS[verdict].word)
          .join(" / ")}
      </small>
      {valve === next && <span class="sr">, next</span>}
    </button>
  );
}

const SHORT = { intake: "in", exhaust: "ex" };

/** A valve as one looks at it: in its ring stands what is known of it. */
function Seat({ judged, children }: { judged: readonly JudgedReport[]; children?: ComponentChildren }) {
  const signs = signsOf(judged);
  return (
    <span class={`seat ${signs[0]?.verdict ?? ""}`}>
      {children}
      {signs.map(({ verdict }) => (
        <span key={verdict} aria-hidden="true">
          {VERDICTS[verdict].sign}
        </span>
      ))}
    </span>
  );
}
