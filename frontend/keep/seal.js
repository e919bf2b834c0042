/**
 * What an instant put right does to what was entered by the wrong one: the run's own beginning moves along,
 * and a signing that nobody has yet names the same entries by the digest they then have.
 */

import { seal } from "../bench/journal/index.js";
import { Run } from "./run.js";
/** @import { KeptEntry } from "../../types/keep" */
/** @import { Journal } from "./run.js" */

/**
 * A run's things made while this clock was a guess, moved by what the guess was wrong by: {entries, runs}, rows to
 * put. Nobody else has them yet. They keep their order, and stay later than what the run held before them.
 * @param {Journal} run @param {Set<string>} guessed @param {number} shift
 */
export function shifted(run, guessed, shift) {
  const runs =
    run instanceof Run && guessed.has(run.id) ? [{ ...run.row, created_at: run.created_at + shift }] : [];
  const begun = runs.length ? run.floor + shift : run.floor;
  let latest = Math.max(begun - 1, run.entries.findLast(({ id }) => !guessed.has(id))?.at ?? 0);
  const moved = run.entries
    .filter(({ id }) => guessed.has(id))
    .map((entry) => {
      latest = Math.max(latest + 1, entry.at + shift);
      return { ...entry, at: latest };
    });
  return { entries: resealed(run, moved), runs };
}

/**
 * These changed entries of a run, and its signings that are not sent yet, with the digest of what they name as it is
 * now.
 * @param {Journal} run @param {KeptEntry[]} changed
 */
export function resealed(run, changed) {
  const now = new Map([...run.entries, ...changed].map((entry) => [entry.id, entry]));
  const signings = run.unsentSignings().map((signing) => now.get(signing.id) ?? signing);
  for (const signing of signings) {
    const ids = Array.isArray(signing.body.entries) ? signing.body.entries : [];
    const named = ids.flatMap((id) => now.get(id) ?? []);
    now.set(signing.id, { ...signing, body: { ...signing.body, ...seal(named) } });
  }
  const ids = new Set([...changed, ...signings].map(({ id }) => id));
  return [...ids].flatMap((id) => now.get(id) ?? []);
}
