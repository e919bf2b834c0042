// What is said of what the server alone works out (keep/seen.js): of when it is, and that it was never seen here.

import { saysOf } from "../bench/errors.js";
import { say } from "../words.js";
import { day } from "./words.js";

/** @param {number} at */
export const asOf = (at) => say("page-seen-as-of", { at: day(at) });

/** What is no answer, in words, is none; any other error is a fault of ours. @param {unknown} error */
export function unlessFaulty(error) {
  if (!saysOf(error)) throw error;
}
