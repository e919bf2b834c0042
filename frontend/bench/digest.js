/** The digest: one number over the entries of a run, that anyone can reckon again. The same as bench/digest.py. */

import { inOrder } from "./entries.js";
import { sha256 } from "./sha256.js";
import { canonical } from "./whole.js";
/** @import { Entry } from "../../bench/shapes/page" */

/** What the digest is taken of: SHA-256 over its UTF-8 bytes. @param {readonly Entry[]} entries */
export function digestText(entries) {
  const ordered = inOrder(entries).sort((one, other) => (one.id < other.id ? -1 : 1));
  return ordered.map((entry) => `${canonical(entry)}\n`).join("");
}

/** The digest, 64 small hexadecimal digits. @param {readonly Entry[]} entries */
export const digest = (entries) => sha256(digestText(entries));
