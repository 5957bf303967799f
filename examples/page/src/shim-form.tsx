// Shims: how the gap follows them, the sizes that can be had, those in the tin and how they may be used.

import { at } from "./draft";
import { GroupFaults, Line, Pick, type Sheet } from "./field";

const PLACE = "/valves/shim";

export function ShimForm({ sheet }: { sheet: Sheet }) {
  const line = (step: string, label: string) => (
    <Line sheet={sheet} at={`${PLACE}/${step}`} label={label} unit="mm" />
  );
  return (
    <>
      <div class="fields">
        <Line
          sheet={sheet}
          at={`${PLACE}/gap_per_shim`}
          label="Gap change for one unit of shim (1 on a bucket)"
          kind="number"
        />
        {line("series/first", "Thinnest shim to be had")}
        {line("series/last", "Thickest")}
        {line("series/step", "Step")}
        <Pick
          sheet={sheet}
          at={`${PLACE}/rounding`}
          label="Between two sizes take"
          choices={[
            ["", "not said"],
            ["nearest", "the nearer one"],
            ["never_tighter", "the thinner one"],
          ]}
        />
        <Pick
          sheet={sheet}
          at={`${PLACE}/swap`}
          label="Fitted shims that may be moved"
          choices={[
            ["", "not said"],
            ["only_out_of_band", "those of valves out of limits"],
            ["any", "any"],
          ]}
        />
        {line("uncertainty", "Thickness known to ±")}
      </div>
      <Tin sheet={sheet} />
      <GroupFaults sheet={sheet} places={[PLACE, `${PLACE}/series`, `${PLACE}/stock`]} />
    </>
  );
}

function Tin({ sheet }: { sheet: Sheet }) {
  const place = `${PLACE}/stock`;
  const stock = (at(sheet.document, place) ?? []) as unknown[];
  return (
    <div role="group" aria-label="Shims in the tin">
      <p>
        <strong>Shims in the tin</strong>
      </p>
      {stock.map((_, i) => (
        <div class="fields narrow part" key={i}>
          <Line sheet={sheet} at={`${place}/${i}/size`} label={`Shim ${i + 1}, marked`} unit="mm" />
          <Line sheet={sheet} at={`${place}/${i}/measured`} label="Measured" unit="mm" />
          <Line sheet={sheet} at={`${place}/${i}/count`} label="How many" kind="number" />
          <button type="button" class="quiet" onClick={() => sheet.write(`${place}/${i}`, undefined)}>
            Take out shim {i + 1}
          </button>
        </div>
      ))}
      <button type="button" onClick={() => sheet.write(place, [...stock, { size: "", count: 1 }])}>
        Add a shim
      </button>
    </div>
  );
}
