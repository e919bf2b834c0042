/**
 * Signing: what a signing seals, which of several holds, and the digest that a signer puts down. What it seals, and
 * what then becomes of every other entry, is told in bench/journal/.
 */

import { digest } from "../digest.js";
import { inOrder, lessUndone } from "../entries.js";
import { full, listOf } from "../lists.js";
import { read } from "./reading.js";
/** @import { Entry, FrozenSeal, Seal, Signed, State, Unsigned } from "../../../bench/shapes/page" */
/** @import { Full } from "../../../types/lists" */

/**
 * The signing that holds, the ids of all that it seals, the signings taken back, and those whose digest does not fit.
 * @typedef {{signing: Signed | null, ids: Set<string>, unsigned: Unsigned[], unfit: Set<string>}} Judged
 */

/** @param {readonly {id: string}[]} entries */
export const idsOf = (entries) => entries.map(({ id }) => id).sort();

/**
 * What a `signed` says besides the name, for one who has these entries: their ids and their digest.
 * @param {readonly Entry[]} entries @returns {Seal}
 */
export function seal(entries) {
  const ordered = inOrder(entries);
  return { entries: idsOf(ordered), digest: digest(ordered) };
}

/**
 * What a signing that names nothing seals, if one holds; else null.
 * @param {readonly Entry[]} entries @param {FrozenSeal | null} [frozen] @returns {FrozenSeal | null}
 */
export function frozenSeal(entries, frozen = null) {
  const { signing, ids } = judge(inOrder(entries), frozen);
  return signing && !signing.body.entries ? { signed: signing.id, entries: [...ids].sort() } : null;
}

/**
 * The entries that a record is of, in order: all, or once it is signed the sealed ones and the signing.
 * @template {Entry} E @param {State} state @param {readonly E[]} entries
 */
export function ofRecord({ signed }, entries) {
  const ordered = inOrder(entries);
  if (!signed) return ordered;
  const ids = new Set([...signed.entries, signed.id]);
  return ordered.filter(({ id }) => ids.has(id));
}

/**
 * Those of them that live: what the state is folded from.
 * @template {Entry} E @param {State} state @param {readonly E[]} entries
 */
export const toldOf = (state, entries) => lessUndone(ofRecord(state, entries));

/** @param {Entry[]} ordered @param {FrozenSeal | null} frozen @returns {Judged} */
export function judge(ordered, frozen) {
  /** @type {Judged} */
  const judged = { signing: null, ids: new Set(), unsigned: [], unfit: new Set() };
  const signings = ordered.flatMap((entry) => {
    const signing = entry.kind === "signed" ? read(entry) : null;
    return signing?.kind === "signed" ? [signing] : [];
  });
  if (!signings.length) return judged;
  const place = full(ordered.map(({ id }, index) => /** @type {const} */ ([id, index])));
  /** @type {Map<string, Entry[]>} */
  const undos = new Map();
  ordered.forEach((entry, index) => {
    const undone = String(entry.body.entry);
    if (entry.kind === "undone" && place.get(undone) < index) listOf(undos, undone).push(entry);
  });
  for (const signing of signings) {
    let ids = namedBy(signing, frozen);
    const undo = takenBackBy(signing.id, undos, ids ?? new Set());
    if (undo) {
      judged.unsigned.push({
        at: undo.at,
        device: undo.device,
        name: signing.body.name,
        signed_at: signing.at,
        signed_by: signing.device,
      });
    } else if (!judged.signing) {
      ids ??= new Set(ordered.slice(0, place.get(signing.id)).map(({ id }) => id));
      if (fits(signing, ids, ordered, place)) Object.assign(judged, { signing, ids });
      else judged.unfit.add(signing.id);
    }
  }
  return judged;
}

/**
 * The ids of all that a signing seals by name; null for all that stands before it.
 * @param {Signed} signing @param {FrozenSeal | null} frozen
 */
function namedBy({ id, body }, frozen) {
  const named = body.entries ?? (frozen?.signed === id ? frozen.entries : null);
  return named && new Set(named.filter((each) => each !== id));
}

/** What was found to fit, so that a signed run is not reckoned through at every look. */
/** @type {WeakMap<Signed, Entry[]>} */
const proven = new WeakMap();

/**
 * Whether the entries are those that were signed; who lacks some cannot tell.
 * @param {Signed} signing @param {Set<string>} ids @param {Entry[]} ordered @param {Full<string, number>} place
 */
function fits(signing, ids, ordered, place) {
  if (signing.body.digest === undefined) return true;
  const sealed = [...ids].map((id) => ordered[place.get(id)]);
  if (sealed.some((entry) => entry === undefined)) return true;
  const proof = proven.get(signing);
  if (proof?.length === sealed.length && proof.every((entry, index) => entry === sealed[index])) return true;
  if (digest(sealed) !== signing.body.digest) return false;
  proven.set(signing, sealed);
  return true;
}

/**
 * The undo that takes a signing back; what it sealed itself does not.
 * @param {string} key @param {Map<string, Entry[]>} undos @param {Set<string>} sealed
 */
function takenBackBy(key, undos, sealed) {
  /** @param {string} id */
  const reach = (id) => (undos.get(id) ?? []).filter((undo) => !sealed.has(undo.id));
  const chain = [key];
  for (const each of chain) chain.push(...reach(each).map(({ id }) => id));
  /** @type {Map<string, Entry>} */
  const by = new Map();
  for (const each of chain.reverse()) {
    const undo = reach(each).find(({ id }) => !by.has(id));
    if (undo) by.set(each, undo);
  }
  return by.get(key);
}
