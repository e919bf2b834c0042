/** The digest: one number over all entries of a run, that anyone can reckon again. The same as bench/digest.py. */

import { inOrder } from "./entries.js";
import { canonical } from "./whole.js";

/** What the digest is taken of: SHA-256 over its UTF-8 bytes, by crypto.subtle where the page may use it. */
export function digestText(entries) {
  const ordered = inOrder(entries).sort((one, other) => (one.id < other.id ? -1 : 1));
  return ordered.map((entry) => `${canonical(entry)}\n`).join("");
}
