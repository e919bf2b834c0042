/** What an entry of a run must hold to be read. */

import { fields, understood } from "../entries.js";
import { RUN_KINDS } from "../kinds.js";
/** @import { Entry, RunEntry } from "../../../bench/shapes/page" */
/** @import { Kinds } from "../entries.js" */

/** Every kind of entry and its fields. Fields not named there are kept and not looked at. @type {Kinds} */
export const KINDS = new Map(Object.entries(RUN_KINDS).map(([kind, row]) => [kind, fields(row.fields)]));

/** The field that a well-formed entry lacks beside another that it has; "" for none. @param {Entry} entry */
function lacks({ kind, body }) {
  if (kind === "weighed" && body.reading_mg !== undefined && body.mg === undefined) return "mg";
  if (kind === "signed" && (body.entries === undefined) !== (body.digest === undefined))
    return body.entries ? "digest" : "entries";
  return kind === "judged" ? lacksOfAJudgement(body) : "";
}

/** What a judgement lacks beside its verdict. @param {Entry["body"]} body */
function lacksOfAJudgement({ about, verdict, why, signing }) {
  const isRelease = verdict === "released";
  if ((about === "batch") !== (isRelease || verdict === "held" || verdict === "rejected")) return "verdict";
  if (!isRelease && verdict !== "accepted" && why === undefined) return "why";
  return isRelease === (signing === undefined) ? "signing" : "";
}

/** What a fold can read, by its kind; null of what it cannot. @param {Entry} entry */
export const read = (entry) =>
  understood(entry, KINDS) && !lacks(entry) ? /** @type {RunEntry} */ (/** @type {unknown} */ (entry)) : null;
