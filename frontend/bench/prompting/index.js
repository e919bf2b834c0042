/**
 * What the bench says now: the prompts, the waits and windows, and what is still owed.
 *
 * `now` turns a sheet, a state and an instant into words and numbers. Every prompt carries its
 * possible answers, and an answer is the kind and body of the entry to post, so this alone is
 * enough to write a client; the page draws exactly this. Best next prompt first. The server says
 * the same words, by modules of the same names.
 */

import { ended } from "./ending.js";
import { inOrder, owed, titled } from "./order.js";
import { finish, promptFor } from "./prompt.js";
import { guidesNow, waitsNow, windowsNow } from "./running.js";
import { isSettled, status, viewOf } from "./view.js";
/** @import { Now, Sheet, State } from "../../../bench/shapes/page" */
/** @import { View } from "./view.js" */

/**
 * The bench at an instant (ms). Pure: the same inputs give the same words here and on the server.
 * @param {Sheet} sheet @param {State} state @param {number} at @returns {Now}
 */
export function now(sheet, state, at) {
  const view = viewOf(sheet, state, at);
  const finished = state.finished_at !== null;
  return {
    at,
    finished,
    prompts: finished ? [] : prompts(view),
    waits: waitsNow(view),
    windows: windowsNow(view),
    guides: guidesNow(view),
    skipped: sheet.steps.filter((step) => status(view, step.id) === "skipped").map(titled),
    owed: owed(view),
  };
}

/** @param {View} view */
function prompts(view) {
  const steps = inOrder(view);
  if (!steps.length && view.sheet.steps.every((step) => isSettled(view, step.id))) return [finish(view)];
  return steps.map((step) => ended(view, promptFor(view, step), step));
}
