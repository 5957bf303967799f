// What the package answers to the shared vectors, for node and for a page: texts by the names of their files.

import { CALLS } from "./calls.mjs";

/** What stands where the package offers no such call. */
const NOT_OFFERED = "-";

/** The report, and both sheets or the code of why there is none. */
function ofDocument(lashwork, name, request) {
  const sheet = (of) => {
    try {
      return of(request);
    } catch (why) {
      return why.code;
    }
  };
  return {
    [`${name}.answer`]: lashwork.runJson(request),
    [`${name}.sheet`]: sheet(lashwork.jobSheet),
    [`${name}.full`]: sheet(lashwork.fullSheet),
  };
}

function ofCall(lashwork, { call, in: given }) {
  try {
    const answer = CALLS[call]?.(lashwork, given);
    return answer ? ["ok", ...answer.out.flat()].join("\t") : NOT_OFFERED;
  } catch (why) {
    return why.code;
  }
}

/** All answers; `read` gives the text of a request by its name. */
export async function answers(lashwork, names, read, cases) {
  const found = {};
  for (const name of names) {
    Object.assign(found, ofDocument(lashwork, name, await read(name)));
  }
  found["direct.tsv"] = cases.map((asked) => `${asked.id}\t${ofCall(lashwork, asked)}\n`).join("");
  return found;
}
