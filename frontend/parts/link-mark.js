// The state of the line to the studio's server in as few words as it takes; nothing at
// all when everything is sent, because then there is nothing to know.
//
//   linkWords({ state: "offline", unsent: 3, refused: [] }) -> "no connection, 3 not sent"

import { say } from "../words.js";
/** @import { Link } from "../../types/keep" */

/** @typedef {Pick<Link, "state" | "unsent" | "refused" | "shut">} Told */

/** @param {Told} link */
export const linkWords = (link) => [stateWords(link), countWords(link)].filter(Boolean).join(", ");

/** How the server is reached; "" where it is. @param {Told} link */
export function stateWords(link) {
  const state = link.shut ?? link.state;
  return link.shut || state === "offline" ? say("page-keep-link", { state }) : "";
}

/** How much is not there yet, or was not taken. @param {Told} link */
export function countWords(link) {
  /** @type {string[]} */
  const words = [];
  if (link.unsent > 0 && (link.state === "offline" || link.unsent > 5))
    words.push(say("page-keep-unsent", { count: link.unsent }));
  if (link.refused.length) words.push(say("page-keep-refused", { count: link.refused.length }));
  return words.join(", ");
}
