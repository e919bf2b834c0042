// The state of the line to the studio's server in as few words as it takes; nothing at
// all when everything is sent, because then there is nothing to know.
//
//   linkWords({ state: "offline", unsent: 3, refused: [] }) -> "no connection, 3 not sent"

import { say } from "../words.js";
/** @import { Link } from "../../types/keep" */

/** @param {Pick<Link, "state" | "unsent" | "refused" | "shut">} link */
export function linkWords(link) {
  /** @type {string[]} */
  const words = [];
  const state = link.shut ?? link.state;
  if (link.shut || state === "offline") words.push(say("page-keep-link", { state }));
  if (link.unsent > 0 && (link.state === "offline" || link.unsent > 5))
    words.push(say("page-keep-unsent", { count: link.unsent }));
  if (link.refused.length) words.push(say("page-keep-refused", { count: link.refused.length }));
  return words.join(", ");
}
