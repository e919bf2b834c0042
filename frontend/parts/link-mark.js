// The state of the line to the studio's server in as few words as it takes; nothing at
// all when everything is sent, because then there is nothing to know.
//
//   linkWords({ state: "offline", unsent: 3, refused: [] }) -> "offline, 3 not sent"

/** @import { Link } from "../../types/keep" */

/** @param {Pick<Link, "state" | "unsent" | "refused" | "shut">} link */
export function linkWords(link) {
  /** @type {string[]} */
  const words = [];
  if (link.shut) words.push(link.shut === "unpaired" ? "not paired" : "shut out");
  else if (link.state === "offline") words.push("offline");
  if (link.unsent > 0 && (link.state === "offline" || link.unsent > 5)) words.push(`${link.unsent} not sent`);
  if (link.refused.length) words.push(`${link.refused.length} refused`);
  return words.join(", ");
}
