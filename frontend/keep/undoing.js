/**
 * What an undo on this phone takes back, and what a redo brings again. Pure.
 *
 * An undo is an entry that takes another back, and a redo is one that takes the undo back. What is signed
 * stands, and a batch keeps its number: undoing never comes to either. Something newly entered ends the redoing.
 */

import { JUDGEMENTS } from "../bench/entries.js";

/** @import { KeptEntry, Undoing } from "../../types/keep" */

const STAYS = new Set(["undone", "signed", "numbered", ...JUDGEMENTS]);

/**
 * @param {readonly KeptEntry[]} entries in order @param {string} device this phone's
 * @param {readonly string[]} [sealed] the ids that a signing holds
 * @returns {Undoing}
 */
export function undoing(entries, device, sealed = []) {
  const stands = new Set(sealed);
  const gone = /** @type {Set<unknown>} */ (new Set());
  /** @type {KeptEntry[]} */
  const live = []; // the undos that hold, the newest first
  for (const entry of entries.filter(({ kind }) => kind === "undone").reverse()) {
    if (gone.has(entry.id)) continue;
    gone.add(entry.body.entry);
    live.push(entry);
  }
  /** @param {KeptEntry} entry */
  const isDeed = (entry) => entry.device === device && !STAYS.has(entry.kind) && !stands.has(entry.id);
  const last = entries.findLastIndex(isDeed);
  const undo = entries.findLast((entry) => isDeed(entry) && !gone.has(entry.id)) ?? null;
  for (const each of live) {
    if (each.device !== device || stands.has(each.id)) continue;
    const deed = entries.find(({ id }) => id === each.body.entry);
    if (!deed || !isDeed(deed)) continue;
    return { undo, redo: entries.indexOf(each) > last ? { deed, undo: each } : null };
  }
  return { undo, redo: null };
}
