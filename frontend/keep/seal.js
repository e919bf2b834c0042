/**
 * What an instant put right does to what was entered by the wrong one: the run's own beginning moves along,
 * and a signing that nobody has yet names the same entries by the digest they then have.
 */

import { seal } from "../bench/journal.js";

/**
 * A run's things made while this clock was a guess, moved by what the guess was wrong by: {entries, runs}, rows to
 * put. Nobody else has them yet. They keep their order, and stay later than what the run held before them.
 */
export function shifted(run, guessed, shift) {
  const runs = guessed.has(run.id) ? [{ ...run.row, created_at: run.created_at + shift }] : [];
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

/** These changed entries of a run, and its signings that are not sent yet, with the digest of what they name as it is now. */
export function resealed(run, changed) {
  const now = new Map([...run.entries, ...changed].map((entry) => [entry.id, entry]));
  const signings = run.unsentSignings().map(({ id }) => now.get(id) ?? run.entry(id));
  for (const signing of signings) {
    const named = signing.body.entries.flatMap((id) => now.get(id) ?? []);
    now.set(signing.id, { ...signing, body: { ...signing.body, ...seal(named) } });
  }
  const ids = new Set([...changed, ...signings].map(({ id }) => id));
  return [...ids].map((id) => now.get(id));
}
