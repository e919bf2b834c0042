/**
 * The journal: what happened at the bench, and the fold that says where things stand.
 *
 * A run is a grow-only set of entries. Merge is set union; the fold sorts by (at, device, id), so
 * order of arrival does not matter, a duplicate is harmless and two phones converge. An undo is an
 * entry that takes back an earlier one. Nothing that is well-formed is refused because another entry
 * came first: a step reported done before its needs were done is done. An entry this version does not
 * understand, or one that speaks of another sheet, is kept and listed as unread. What a signing
 * seals, and what then becomes of every other entry, is told in bench/journal/.
 *
 * The fold never throws and never reads a clock. It is the same fold as the server's.
 */

import { digest } from "./digest.js";
import { fields, inOrder, lessUndone, understood } from "./entries.js";
import { RUN_KINDS } from "./kinds.js";
import { piecesFrom } from "./sizing.js";
import { full, last } from "./lists.js";
import { openWindow } from "./states.js";
import { allowedMg, carryFactor } from "./weighing.js";
import { canonical, divided, halfEven, product, shareOut, sum } from "./whole.js";
/** @import { Counted, Entry, FrozenSeal, GatheredLot, Heating, LineState } from "../../bench/shapes/page" */
/** @import { LineStatus, Look, MeasuredMass, Note, OpenWindow, Picture } from "../../bench/shapes/page" */
/** @import { PieceCount, PiecesStep, Remark, RunEntry, RunningGuide, RunningWait } from "../../bench/shapes/page" */
/** @import { Seal, Sheet, SheetComponent, SheetLine, SheetVessel, Signed, Signing } from "../../bench/shapes/page" */
/** @import { SplitStep, State, Step, StepState, Unsigned, Verdict, VesselState } from "../../bench/shapes/page" */
/** @import { Draft, Ratio, Takes } from "../../types/bench" */
/** @import { Full } from "../../types/lists" */
/** @import { Kinds } from "./entries.js" */

const ASSEMBLY = "assembly";
const ONE_TOUCH_MS = 400; // nobody presses two pieces in that time; a wet thumb bounces within it
const MOST_FACTOR = 1000; // a thousand times the batch is a slip of the finger too

const NO_COUNT = { good: 0, spoiled: 0, partial: 0 };

/** Every kind of entry and its fields. Fields not named there are kept and not looked at. @type {Kinds} */
const KINDS = new Map(Object.entries(RUN_KINDS).map(([kind, row]) => [kind, fields(row.fields)]));

/** The field that a well-formed entry lacks beside another that it has; "" for none. @param {Entry} entry */
function lacks({ kind, body }) {
  if (kind === "weighed" && body.reading_mg !== undefined && body.mg === undefined) return "mg";
  if (kind === "signed" && (body.entries === undefined) !== (body.digest === undefined))
    return body.entries ? "digest" : "entries";
  return "";
}

/** What a fold can read, by its kind; null of what it cannot. @param {Entry} entry */
const read = (entry) =>
  understood(entry, KINDS) && !lacks(entry) ? /** @type {RunEntry} */ (/** @type {unknown} */ (entry)) : null;
/** @param {readonly {id: string}[]} entries */
const idsOf = (entries) => entries.map(({ id }) => id).sort();

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

/**
 * The signing that holds, the ids of all that it seals, the signings taken back, and those whose digest does not fit.
 * @typedef {{signing: Signed | null, ids: Set<string>, unsigned: Unsigned[], unfit: Set<string>}} Judged
 */

/** @param {Entry[]} ordered @param {FrozenSeal | null} frozen @returns {Judged} */
function judge(ordered, frozen) {
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
  const known = proven.get(signing);
  if (known?.length === sealed.length && known.every((entry, index) => entry === sealed[index])) return true;
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

/**
 * The state: what the sheet and the journal together say. Never throws for any set of entries.
 *
 * frozen: what a signing that names nothing seals, as the server keeps it; else null.
 * @param {Sheet} sheet @param {readonly Entry[]} entries @param {FrozenSeal | null} [frozen] @returns {State}
 */
export function fold(sheet, entries, frozen = null) {
  return told(takeAll(sheet, inOrder(entries), frozen));
}

/**
 * The same of a journal that mostly grows at its end: what was taken in before is gone on from, and only an undo, a
 * signing, or an entry that stands before others has all of it taken in anew.
 *
 *   const folding = new Folding(sheet);
 *   folding.of(entries, frozen)          // entries in order, each once
 */
export class Folding {
  /** @type {Sheet} */
  #sheet;
  /** @type {readonly Entry[]} */
  #had = [];
  /** @type {Known | null} */
  #known = null;

  /** @param {Sheet} sheet */
  constructor(sheet) {
    this.#sheet = sheet;
  }

  /** @param {readonly Entry[]} entries @param {FrozenSeal | null} [frozen] @returns {State} */
  of(entries, frozen = null) {
    const more = frozen === null && this.#known ? this.#more(entries) : null;
    const known = more && this.#known ? this.#known : takeAll(this.#sheet, inOrder(entries), frozen);
    for (const entry of more ?? []) takeOne(known, entry);
    this.#had = entries;
    // Signings are judged over all there is.
    const goesOn = frozen === null && !entries.some(({ kind }) => kind === "signed");
    this.#known = goesOn ? known : null;
    return told(goesOn ? twin(known) : known);
  }

  /** What came after all that was had; null when that is not all that is new. @param {readonly Entry[]} entries */
  #more(entries) {
    const had = this.#had;
    if (entries.length < had.length || had.some((entry, place) => entries[place] !== entry)) return null;
    const more = entries.slice(had.length);
    if (more.some(({ kind }) => kind === "undone" || kind === "signed")) return null;
    const last = [...had.slice(-1), ...more];
    const ordered = inOrder(last);
    return ordered.length === last.length && ordered.every((entry, place) => entry === last[place])
      ? more
      : null;
  }
}

const OF_SHEET = new Set(["sheet", "steps", "lines", "vessels", "parts", "splitOf", "rounds", "gatherable"]);

/**
 * What is known, once more: to be told from, which settles what follows, while the other is gone on with.
 * @param {Known} known @returns {Known}
 */
function twin(known) {
  /** @param {[string, unknown]} field */
  const copied = ([name, value]) => {
    if (value instanceof Map) return [name, new Map(value)];
    if (value instanceof Set) return [name, new Set(value)];
    return [name, Array.isArray(value) ? [...value] : value];
  };
  /** @type {Known} */
  const copy = {
    ...known,
    ...Object.fromEntries(
      Object.entries(known)
        .filter(([name]) => !OF_SHEET.has(name))
        .map(copied),
    ),
  };
  for (const [step, bursts] of copy.bursts) copy.bursts.set(step, [...bursts.map((burst) => ({ ...burst }))]);
  for (const [step, looks] of copy.looks) copy.looks.set(step, [...looks]);
  for (const [step, count] of copy.counts) copy.counts.set(step, { ...count, of: { ...count.of } });
  return copy;
}

/** @param {Known} known @param {Entry} entry */
function takeOne(known, entry) {
  const told = read(entry);
  if (!told || !take(known, told)) known.unread.push(entry.id);
}

/**
 * What is known once all of them are taken in.
 * @param {Sheet} sheet @param {Entry[]} ordered @param {FrozenSeal | null} frozen
 */
function takeAll(sheet, ordered, frozen) {
  const { signing, ids, unsigned, unfit } = judge(ordered, frozen);
  const known = begin(sheet, unsigned);
  const sealed = signing ? ordered.filter(({ id }) => ids.has(id)) : ordered;
  for (const entry of lessUndone(sealed)) {
    if (unfit.has(entry.id)) known.unread.push(entry.id);
    else takeOne(known, entry);
  }
  if (signing) {
    sign(known, signing, idsOf(sealed), ids.size);
    for (const entry of lessUndone(ordered.filter(({ id }) => !ids.has(id)))) {
      if (entry.id === signing.id || (!unfit.has(entry.id) && read(entry) && remark(known, entry))) continue;
      known.unread.push(entry.id);
    }
  }
  return known;
}

/** @template {{id: string}} T @param {readonly T[]} items */
const byId = (items) => full(items.map((item) => /** @type {const} */ ([item.id, item])));
/** @param {readonly {id: string}[]} items @returns {Full<string, number>} */
const noughts = (items) => full(items.map((item) => [item.id, 0]));

/**
 * @typedef {Omit<Signing, "entries"> & {entries: string[]}} Sealing
 * @typedef {{status: "done" | "skipped", at: number, why: string}} Settled
 * @typedef {ReturnType<typeof begin>} Known
 */

/**
 * What is known before the first entry. The entries then change it, one at a time and in order.
 * @param {Sheet} sheet @param {Unsigned[]} unsigned
 */
function begin(sheet, unsigned) {
  return {
    sheet,
    steps: byId(sheet.steps),
    lines: byId(sheet.lines),
    vessels: byId(sheet.vessels),
    parts: byId(sheet.components),
    splitOf: new Map(
      sheet.steps
        .filter((step) => step.kind === "split")
        .flatMap((step) => step.portions.map((portion) => /** @type {const} */ ([portion.vessel, step]))),
    ),
    rounds: new Set(sheet.lines.map((line) => `${line.component}.${line.round}`)),
    weigh: sheet.size.weigh,
    startedAt: /** @type {number | null} */ (null),
    finishedAt: /** @type {number | null} */ (null),
    lastAt: /** @type {number | null} */ (null),
    settled: /** @type {Map<string, Settled>} */ (new Map()), // by step
    way: /** @type {Map<string, string>} */ (new Map()),
    began: /** @type {Map<string, number>} */ (new Map()),
    inMg: noughts(sheet.lines),
    touched: /** @type {Map<string, number>} */ (new Map()), // line -> when last
    decided: /** @type {Map<string, "left" | "left_out">} */ (new Map()), // by line
    pouredBy: /** @type {Map<string, string>} */ (new Map()), // line -> the device that told its first pour
    twice: /** @type {Map<string, string>} */ (new Map()), // line -> the last pour told by another device
    factors: /** @type {Map<string, Ratio>} */ (new Map()), // by round
    scaleOf: full(sheet.vessels.map(({ id, scale }) => /** @type {const} */ ([id, scale]))),
    placed: /** @type {Map<string, string>} */ (new Map()), // line -> the scale that its small cup was put on
    taken: /** @type {Map<string, string>} */ (new Map()), // vessel -> the one of the kit that was taken instead
    weighedOn: /** @type {Map<string, string | null>} */ (new Map()), // line -> the scale of its last pour
    vesselMg: noughts(sheet.vessels),
    zeroMg: noughts(sheet.vessels),
    portions: /** @type {Map<string, number>} */ (new Map()),
    portionedAt: /** @type {Map<string, number>} */ (new Map()),
    bursts: /** @type {Map<string, Draft<Heating>[]>} */ (new Map()),
    looks: /** @type {Map<string, Look[]>} */ (new Map()),
    counts: /** @type {Map<string, Draft<PieceCount>>} */ (new Map()),
    countedAt: /** @type {Map<string, number>} */ (new Map()),
    countedBy: /** @type {Map<string, Counted>} */ (new Map()), // step and device -> what it counted last
    unseeing: /** @type {Set<string>} */ (new Set()), // steps that somebody counted without saying how many were seen
    extended: /** @type {Map<string, number>} */ (new Map()),
    gatherable: new Set([...sheet.ingredients.map(({ id }) => id), "wrap"]), // wrap: see bench/journal/tally.py
    number: /** @type {string | null} */ (null),
    alsoNumbered: /** @type {Set<string>} */ (new Set()),
    gathered: /** @type {GatheredLot[]} */ ([]),
    ticked: /** @type {Map<string, number>} */ (new Map()),
    measured: /** @type {MeasuredMass[]} */ ([]),
    pictures: /** @type {Picture[]} */ ([]),
    worked: /** @type {Map<string, number>} */ (new Map()),
    signed: /** @type {Sealing | null} */ (null),
    unsigned,
    remarks: /** @type {Remark[]} */ ([]),
    notes: /** @type {Note[]} */ ([]),
    unread: /** @type {string[]} */ ([]),
  };
}

/** @template K @param {Map<K, number>} map @param {K} key @param {number} more */
const add = (map, key, more) => map.set(key, (map.get(key) ?? 0) + more);

/** @template K, T @param {Map<K, T[]>} map @param {K} key */
function listOf(map, key) {
  const list = map.get(key) ?? [];
  map.set(key, list);
  return list;
}

/**
 * Whether the step, line and vessel that an entry names are on this sheet.
 * @param {Known} known @param {Entry | RunEntry} entry
 */
function isHere({ steps, lines, vessels }, { kind, body }) {
  const fields = /** @type {{[field: string]: string | undefined}} */ (body);
  return (KINDS.get(kind) ?? []).every(({ name }) => {
    const named = name === "step" ? steps : name === "line" ? lines : name === "vessel" ? vessels : null;
    const key = fields[name];
    return !named || key === undefined || named.has(key);
  });
}

/**
 * Takes one well-formed entry in; false when it speaks of something not on this sheet.
 * @param {Known} known @param {RunEntry} entry
 */
function take(known, entry) {
  const { at, kind, body } = entry;
  const taken = /** @type {(known: Known, at: number, body: unknown, entry: RunEntry) => boolean | void} */ (
    TAKES[kind]
  );
  if (!isHere(known, entry) || taken(known, at, body, entry) === false) return false;
  known.startedAt ??= at;
  known.lastAt = at;
  return true;
}

/**
 * Puts one that was not signed beside the record; false when it speaks of something not on this sheet.
 * @param {Known} known @param {Entry} entry
 */
function remark(known, entry) {
  if (!isHere(known, entry)) return false;
  const { id, at, device, kind, body } = entry;
  known.remarks.push({ id, at, device, kind, body });
  return true;
}

/**
 * Closes the record by this signing, which named so many entries, of which these are here.
 * @param {Known} known @param {Signed} signing @param {string[]} entries @param {number} named
 */
function sign(known, { id, at, device, body }, entries, named) {
  known.signed = { id, at, device, name: body.name, entries, missing: named - entries.length };
  known.startedAt ??= at;
  known.finishedAt ??= at;
  known.lastAt = at;
}

/**
 * @param {Known} known @param {string} step @param {Settled["status"]} status @param {number} at
 * @param {string} [why]
 */
function settle(known, step, status, at, why = "") {
  if (known.settled.get(step)?.status !== status) known.settled.set(step, { status, at, why });
}

/**
 * Notes which way was taken; false when the step has no such way.
 * @param {Known} known @param {{step: string, way?: string}} body
 */
function choose(known, { step, way }) {
  if (way === undefined || !known.steps.get(step).ways.some((each) => each.id === way)) return false;
  known.way.set(step, way);
  return true;
}

/**
 * Whether a device said the same of the same count a moment ago: a thumb that bounced, not a piece.
 * @param {Known} known @param {Counted} entry
 */
function isOneTouch(known, entry) {
  const key = `${entry.body.step} ${entry.device}`;
  const last = known.countedBy.get(key);
  known.countedBy.set(key, entry);
  return (
    last !== undefined && canonical(last.body) === canonical(entry.body) && entry.at - last.at < ONE_TOUCH_MS
  );
}

/** @param {Draft<Heating>[] | undefined} bursts @param {Verdict} answer */
function answerBurst(bursts, answer) {
  const last = bursts?.at(-1);
  if (last && last.answer === null) last.answer = answer;
}

/** One function a kind. It answers false when the entry makes no sense on this sheet. @type {Takes} */
const TAKES = {
  weighed(known, at, { line: key, mg: told }, { id, device }) {
    const { vessel, cup, mg: target } = known.lines.get(key);
    if (told === undefined && target !== null) return false;
    const mg = told ?? 0;
    if (vessel !== null) {
      if (known.weigh === "tare" && !cup) known.zeroMg.set(vessel, known.vesselMg.get(vessel));
      add(known.vesselMg, vessel, mg);
    }
    add(known.inMg, key, mg);
    known.touched.set(key, at);
    known.weighedOn.set(key, scaleNow(known, known.lines.get(key)));
    if (!known.pouredBy.has(key)) known.pouredBy.set(key, device);
    else if (known.pouredBy.get(key) !== device) known.twice.set(key, id);
    if (known.decided.get(key) === "left_out") known.decided.delete(key);
  },

  taken_out(known, at, { line: key, mg: asked }) {
    const mg = Math.min(asked, known.inMg.get(key));
    const { vessel } = known.lines.get(key);
    add(known.inMg, key, -mg);
    if (vessel !== null) add(known.vesselMg, vessel, -mg);
    known.touched.set(key, at);
  },

  left(known, at, { line }) {
    known.decided.set(line, "left");
    known.touched.set(line, at);
  },

  left_out(known, at, { line }) {
    known.decided.set(line, "left_out");
    known.touched.set(line, at);
  },

  carried(known, _at, { component, round, num, den, left = [] }) {
    const key = `${component}.${round}`;
    if (!known.rounds.has(key) || !inReach(num, den)) return false;
    known.factors.set(key, [num, den]);
    for (const line of known.sheet.lines) {
      // New targets, so what was let pass is judged again.
      if (`${line.component}.${line.round}` !== key) continue;
      if (known.decided.get(line.id) === "left") known.decided.delete(line.id);
      if (left.includes(line.id) && known.touched.has(line.id) && !known.decided.has(line.id))
        known.decided.set(line.id, "left");
    }
  },

  zeroed(known, _at, { vessel }) {
    known.zeroMg.set(vessel, known.vesselMg.get(vessel));
  },

  placed(known, _at, { vessel, scale, line }) {
    if (!known.sheet.kit.scales.some(({ id }) => id === scale)) return false;
    if (line !== undefined && known.lines.get(line).vessel !== vessel) return false;
    if (line !== undefined) known.placed.set(line, scale);
    else {
      known.scaleOf.set(vessel, scale);
      known.zeroMg.set(vessel, known.vesselMg.get(vessel));
    }
    return true;
  },

  took(known, _at, { vessel, instead }) {
    if (!known.sheet.kit.vessels.some(({ id }) => id === instead)) return false;
    known.taken.set(vessel, instead);
    known.zeroMg.set(vessel, known.vesselMg.get(vessel));
    return true;
  },

  switched(known, _at, { weigh }) {
    known.weigh = weigh;
  },

  chose(known, _at, body) {
    return choose(known, body);
  },

  done(known, at, body) {
    const step = known.steps.get(body.step);
    if (body.way !== undefined && !choose(known, body)) return false;
    const wasDone = known.settled.get(step.id)?.status === "done";
    settle(known, step.id, "done", at);
    if (step.kind === "do" && !wasDone) {
      for (const jug of step.tips) {
        add(known.vesselMg, step.into, known.vesselMg.get(jug));
        known.vesselMg.set(jug, 0);
        known.zeroMg.set(jug, 0);
      }
    }
  },

  skipped(known, at, { step, why = "" }) {
    settle(known, step, "skipped", at, why);
  },

  began(known, at, { step }) {
    if (!known.began.has(step)) known.began.set(step, at);
  },

  heated(known, at, { step, ms, rest_ms }) {
    const bursts = listOf(known.bursts, step);
    answerBurst(bursts, "not_yet");
    bursts.push({ at, ms, answer: null, ...(rest_ms === undefined ? {} : { rest_ms }) });
  },

  looked(known, at, body) {
    const step = known.steps.get(body.step);
    if (body.way !== undefined && !choose(known, body)) return false;
    answerBurst(known.bursts.get(step.id), body.answer);
    listOf(known.looks, step.id).push({ at, answer: body.answer, way: body.way ?? null });
    if (body.answer === "yes" && ["melt", "check", "wait"].includes(step.kind))
      settle(known, step.id, "done", at);
  },

  portioned(known, at, { vessel, mg }) {
    const step = known.splitOf.get(vessel);
    if (!step || vessel === last(step.portions).vessel) return false;
    add(known.portions, vessel, mg);
    add(known.vesselMg, vessel, mg);
    add(known.zeroMg, vessel, mg);
    add(known.vesselMg, step.vessel, -mg);
    known.portionedAt.set(vessel, at);
  },

  counted(known, at, body, entry) {
    const step = known.steps.get(body.step);
    const part = body.of;
    if (step.kind !== "pieces" || (part !== undefined && part !== "joined" && !step.of.includes(part)))
      return false;
    if (body.way !== undefined && !choose(known, body)) return false;
    if (body.seen === undefined) known.unseeing.add(step.id);
    else if (isOneTouch(known, entry)) return true;
    const { good = 0, spoiled = 0, partial = 0 } = body;
    const count = known.counts.get(step.id) ?? { good: 0, spoiled: 0, partial: 0, of: {} };
    known.counts.set(step.id, count);
    count.good += good;
    count.spoiled += spoiled;
    count.partial += partial;
    if (part !== undefined) count.of[part] = (count.of[part] ?? 0) + good + spoiled + partial;
    known.countedAt.set(step.id, at);
  },

  extended(known, at, { step, ms }) {
    if (known.steps.get(step).kind !== "wait") return false;
    known.extended.set(step, at + ms);
  },

  numbered(known, _at, { number }) {
    known.number ??= number;
    if (number !== known.number) known.alsoNumbered.add(number);
  },

  gathered(known, at, { ingredient, lot, mg = null, count = null }) {
    if (!known.gatherable.has(ingredient)) return false;
    known.gathered.push({ at, ingredient, lot, mg, count });
  },

  ticked(known, at, { thing }) {
    if (!known.ticked.has(thing)) known.ticked.set(thing, at);
  },

  measured(known, at, { what, mg, step = null, piece = null, scale = null }) {
    known.measured.push({ at, what, mg, step, piece, scale });
  },

  pictured(known, at, { picture, sha256, text = "", step = null }, { device }) {
    known.pictures.push({ at, device, picture, sha256, text, step });
  },

  worked(known, _at, { ms, step = "" }) {
    known.worked.set(step, ms);
  },

  signed() {}, // it was taken back, or seals nothing here

  noted(known, at, { step = null, text }, { device }) {
    known.notes.push({ at, device, step, text });
  },

  finished(known, at) {
    known.finishedAt ??= at;
  },

  undone() {
    return false; // what it takes back is not here, or came after it
  },
};

// What follows from the entries

/** @param {Known} known @returns {State} */
function told(known) {
  settleSplitting(known);
  const lines = Object.fromEntries(known.sheet.lines.map((line) => [line.id, lineTold(known, line)]));
  settleWeighing(known, lines);
  const expected = settleCounting(known);
  const steps = Object.fromEntries(known.sheet.steps.map((step) => [step.id, stepTold(known, step)]));
  return {
    started_at: known.startedAt,
    finished_at: known.finishedAt,
    last_at: known.lastAt,
    weigh: known.weigh,
    steps,
    lines,
    vessels: Object.fromEntries(known.sheet.vessels.map((vessel) => [vessel.id, vesselTold(known, vessel)])),
    bursts: Object.fromEntries(known.bursts),
    looks: Object.fromEntries(known.looks),
    counts: Object.fromEntries(known.counts),
    expected: Object.fromEntries(expected),
    portions: Object.fromEntries(known.portions),
    factors: Object.fromEntries(known.factors),
    ...running(known, steps),
    number: known.number,
    also_numbered: [...known.alsoNumbered],
    gathered: known.gathered,
    ticked: Object.fromEntries(known.ticked),
    measured: known.measured,
    pictures: known.pictures,
    worked: Object.fromEntries(known.worked),
    signed: known.signed,
    unsigned: known.unsigned,
    remarks: known.remarks,
    notes: known.notes,
    unread: known.unread.sort(),
  };
}

/**
 * What is in a vessel, and which one it is by now.
 * @param {Known} known @param {SheetVessel} vessel @returns {VesselState}
 */
function vesselTold(known, vessel) {
  const { id } = vessel;
  const now = known.sheet.kit.vessels.find((each) => each.id === known.taken.get(id)) ?? vessel;
  return {
    in_mg: known.vesselMg.get(id),
    zero_mg: known.zeroMg.get(id),
    name: now.name,
    empty_mg: now.empty_mg,
    holds_mg: now.holds_mg,
    scale: known.scaleOf.get(id),
    kit: known.taken.get(id) ?? vessel.kit ?? null,
  };
}

/**
 * The scale that the next of a line is weighed on: the sheet's is a proposal.
 * @param {Known} known @param {SheetLine} line
 */
function scaleNow({ vessels, scaleOf, placed }, { id, vessel, scale, cup }) {
  if (scale === null || vessel === null) return scale;
  const isMoved = !cup && scaleOf.get(vessel) !== vessels.get(vessel).scale;
  return placed.get(id) ?? (isMoved ? scaleOf.get(vessel) : scale);
}

/**
 * The division of a scale of the kit, in mg; null where there is no such scale.
 * @param {Pick<Sheet, "kit">} sheet @param {string | null} scale
 */
export const divisionOf = ({ kit }, scale) => kit.scales.find(({ id }) => id === scale)?.division_mg ?? null;

/**
 * Where a line stands. `scale` is the one that its next pour goes onto, `weighed_on` that of its last.
 * @param {Known} known @param {SheetLine} line @returns {LineState}
 */
function lineTold(known, line) {
  const on = { scale: scaleNow(known, line), weighed_on: known.weighedOn.get(line.id) ?? null };
  return { ...stands(known, line, on.weighed_on ?? on.scale), ...on };
}

/**
 * @param {Known} known @param {SheetLine} line @param {string | null} scale
 * @returns {Omit<LineState, "scale" | "weighed_on">}
 */
function stands(known, line, scale) {
  const inMg = known.inMg.get(line.id);
  if (line.mg === null && line.step === null) {
    return { target_mg: null, in_mg: inMg, status: "by_hand", twice: null };
  }
  const [num, den] = known.factors.get(`${line.component}.${line.round}`) ?? [1, 1];
  const target =
    line.mg === null ? null : byPortion(known, line.vessel, halfEven(product(line.mg, num), den));
  /** @returns {LineStatus} */
  const judged = () => {
    if (target === null) return known.touched.has(line.id) ? "in" : "open";
    if (inMg === 0 && target > 0) return "open";
    if (Math.abs(inMg - target) <= allowedMg(line, divisionOf(known.sheet, scale), num, den)) return "in";
    return inMg < target ? "short" : "over";
  };
  return {
    target_mg: target,
    in_mg: inMg,
    status: known.decided.get(line.id) ?? judged(),
    twice: known.twice.get(line.id) ?? null,
  };
}

/** @param {Known} known @param {{[line: string]: LineState}} lines */
function settleWeighing(known, lines) {
  for (const step of known.sheet.steps) {
    if (step.kind !== "weigh") continue;
    if (step.lines.some((key) => ["open", "short", "over"].includes(lines[key].status))) continue;
    const times = step.lines.flatMap((key) => known.touched.get(key) ?? []);
    if (times.length) settle(known, step.id, "done", Math.max(...times));
  }
}

/**
 * A target for what goes into a portion, by what that portion really came to.
 * @param {Known} known @param {string | null} vessel @param {number} target
 */
function byPortion(known, vessel, target) {
  const step = vessel === null ? undefined : known.splitOf.get(vessel);
  if (!step || vessel === null || known.settled.get(step.id)?.status !== "done") return target;
  const total = sum(step.portions.map((portion) => known.portions.get(portion.vessel) ?? 0));
  const held = known.portions.get(vessel) ?? 0;
  if (total <= 0 || held < 0 || held > total) return target;
  const share = step.portions.find((portion) => portion.vessel === vessel)?.share ?? 0;
  const shares = sum(step.portions.map((portion) => portion.share));
  return halfEven(product(target, product(held, shares)), product(total, share));
}

/**
 * How many good pieces each count now expects, by step: no more than came out of the counts before it.
 *
 * What was spoiled is no piece: it is made again while another comes from before, or out of what is left of the
 * mix. Counts of earlier versions, which do not say what they saw, took it for one, and stay as they were.
 * @param {Known} known
 */
function settleCounting(known) {
  /** @type {Full<string, number>} */
  const expected = full();
  /** @param {string} key */
  const usable = (key) => {
    const count = known.counts.get(key);
    return count ? count.good + count.partial : expected.get(key);
  };
  /** @param {Step} step */
  const reckon = (step) => {
    if (step.kind !== "pieces" || expected.has(step.id)) return;
    const isOld = known.unseeing.has(step.id);
    const { good, spoiled, partial } = known.counts.get(step.id) ?? NO_COUNT;
    const made = good + partial;
    const lower = (/** @type {number} */ most) =>
      expected.set(step.id, Math.min(expected.get(step.id), most));
    expected.set(step.id, isOld ? step.count : plannedOf(known, step));
    for (const source of step.follows) {
      for (const key of source.steps) reckon(known.steps.get(key));
      if (!source.steps.every((key) => known.settled.get(key)?.status === "done")) continue;
      const [pieces] = divided(sum(source.steps.map(usable)), source.takes);
      lower(Math.max(0, pieces - (isOld ? 0 : spoiled)));
    }
    if (!step.follows.length && !isOld && made + spoiled >= expected.get(step.id) && !makesMore(known, step))
      lower(made);
    const counted = known.countedAt.get(step.id);
    if (counted !== undefined && made + (isOld ? spoiled : 0) >= expected.get(step.id))
      settle(known, step.id, "done", counted);
  };
  for (const step of known.sheet.steps) reckon(step);
  return expected;
}

/**
 * How many pieces a count is for, now that rounds were scaled up or down.
 * @param {Known} known @param {PiecesStep} step
 */
function plannedOf({ sheet, factors, parts }, step) {
  const partOf = (/** @type {string} */ key) => parts.get(key);
  if (step.component !== ASSEMBLY) return askedOf(factors, partOf(step.component), step);
  const more = sheet.components
    .filter(({ id }) => id !== ASSEMBLY)
    .map((part) => moreOf(factors, part, sheet.size.pieces));
  const isLast = step.round === partOf(ASSEMBLY).rounds.length;
  return step.count + (isLast && more.length ? Math.max(0, Math.min(...more)) : 0);
}

/**
 * How many finished pieces more than were asked for this part now is enough for.
 * @param {Map<string, Ratio>} factors @param {SheetComponent} part @param {number} pieces
 */
function moreOf(factors, part, pieces) {
  const [takes] = divided(part.count - part.spares, pieces);
  const made = sum(part.rounds.map((each) => askedOf(factors, part, each)));
  return takes ? divided(made - part.spares, takes)[0] - pieces : 0;
}

/** @param {Map<string, Ratio>} factors @param {SheetComponent} part @param {{round: number, count: number}} made */
function askedOf(factors, part, { round, count }) {
  const [num, den] = factors.get(`${part.id}.${round}`) ?? [1, 1];
  if (num === den || part.piece_mg <= 0) return count;
  const now = piecesFrom(part, halfEven(product(part.rounds[round - 1].make_mg, num), den));
  return num > den ? Math.max(count, now) : Math.max(1, Math.min(count, now));
}

/** Whether what is left of the mix is one more whole piece. @param {Known} known @param {PiecesStep} step */
function makesMore({ sheet, counts, vesselMg }, step) {
  const left = leftOfMix(step, (vessel) => vesselMg.get(vessel), counts.get(step.id), sheet);
  return step.piece_mg > 0 && left >= step.piece_mg;
}

/** @param {Known} known */
function settleSplitting(known) {
  for (const step of known.sheet.steps) {
    if (step.kind !== "split") continue;
    const weighed = step.portions.slice(0, -1).map((portion) => portion.vessel);
    if (weighed.every((key) => known.portions.has(key))) {
      settle(known, step.id, "done", Math.max(...weighed.flatMap((key) => known.portionedAt.get(key) ?? [])));
    }
    if (known.settled.get(step.id)?.status === "done") {
      const final = last(step.portions).vessel;
      const rest = known.vesselMg.get(step.vessel);
      known.portions.set(final, rest);
      add(known.vesselMg, final, rest);
      add(known.zeroMg, final, rest);
      known.vesselMg.set(step.vessel, 0);
    }
  }
}

/** When the last of a step's needs was settled; null while one is not. @param {Known} known @param {Step} step */
function readyAt(known, step) {
  let ready = known.startedAt ?? 0;
  for (const need of step.after) {
    const settled = known.settled.get(need);
    if (!settled) return null;
    ready = Math.max(ready, settled.at);
  }
  return ready;
}

/** @param {Known} known @param {Step} step @returns {StepState} */
function stepTold(known, step) {
  const ready = readyAt(known, step);
  const settled = known.settled.get(step.id);
  const status = isTouched(known, step) ? "begun" : ready === null ? "waiting" : "ready";
  return {
    status: settled?.status ?? status,
    ready_at: ready,
    at: settled?.at ?? null,
    way: known.way.get(step.id) ?? null,
    why: settled?.why ?? "",
  };
}

/** @param {Known} known @param {Step} step */
function isTouched(known, step) {
  return (
    [known.began, known.bursts, known.looks, known.counts].some((each) => each.has(step.id)) ||
    (step.kind === "weigh" && step.lines.some((line) => known.touched.has(line))) ||
    (step.kind === "split" && step.portions.some(({ vessel }) => known.portions.has(vessel)))
  );
}

/**
 * The waits, windows and guides that run now, with absolute instants.
 * @param {Known} known @param {{[step: string]: StepState}} steps
 */
function running(known, steps) {
  /** @type {{waits: RunningWait[], windows: OpenWindow[], guides: RunningGuide[]}} */
  const found = { waits: [], windows: [], guides: [] };
  if (known.startedAt === null || known.finishedAt !== null) return found;
  for (const step of known.sheet.steps) {
    const key = step.id;
    if (known.settled.has(key)) continue;
    const ready = steps[key].ready_at;
    if (step.kind === "wait" && ready !== null) {
      const again = known.extended.get(key);
      found.waits.push({
        step: key,
        began_at: ready,
        earliest_at: again ?? ready + step.earliest_ms,
        usual_at: again ?? ready + step.usual_ms,
        latest_at: step.latest_ms === null ? null : ready + step.latest_ms,
      });
    }
    const window = openWindow(step, (each) => known.settled.get(each)?.at);
    if (window) found.windows.push({ step: key, opened_at: window.opened_at, latest_at: window.latest_at });
    const began = known.began.get(key);
    if (step.kind === "do" && step.about_ms !== null && began !== undefined) {
      found.guides.push({ step: key, began_at: began, until: began + step.about_ms });
    }
    const burst = known.bursts.get(key)?.at(-1);
    const look = known.looks.get(key)?.at(-1);
    if (burst?.answer === null) {
      found.guides.push(heating(key, burst));
    } else if (look && rests(known, step)) {
      found.guides.push({ step: key, began_at: look.at, until: look.at + rests(known, step) });
    }
  }
  return found;
}

/**
 * A burst that nobody looked at yet: until it is over, or with its rest, until that is.
 * @param {string} step @param {Heating} burst @returns {RunningGuide}
 */
function heating(step, { at, ms, rest_ms }) {
  const ends = at + ms;
  if (rest_ms === undefined) return { step, began_at: at, until: ends };
  return { step, began_at: at, until: ends + rest_ms, rests_at: ends };
}

/**
 * How long what was judged last is to be left: a melt before its next burst, a mix that went too far.
 * @param {Known} known @param {Step} step
 */
function rests(known, step) {
  const look = known.looks.get(step.id)?.at(-1);
  if (step.kind === "check" && look?.answer === "too_far") return step.too_far_ms ?? 0;
  const bursts = known.bursts.get(step.id);
  if (step.kind !== "melt" || !bursts || look?.answer !== "not_yet" || look.at < last(bursts).at) return 0;
  return (step.bursts[bursts.length] ?? step.more).rest_ms;
}

/**
 * What each portion of a split should weigh, in mg, from what really is in the bowl.
 * @param {SplitStep} step @param {State} state
 */
export function portionTargets(step, state) {
  const held = state.vessels[step.vessel].in_mg;
  const done = state.steps[step.id].status === "done";
  const out = sum(step.portions.map((portion) => state.portions[portion.vessel] ?? 0));
  return shareOut(
    done ? out : held + out,
    step.portions.map((portion) => portion.share),
  );
}

/**
 * What is left of a part's mix, in mg, after the pieces that were counted; never below nought.
 * @param {PiecesStep} step @param {(vessel: string) => number} heldOf what went in
 * @param {Pick<PieceCount, "good" | "spoiled" | "partial"> | undefined} count @param {Pick<Sheet, "vessels">} sheet
 */
export function leftOfMix(step, heldOf, count, { vessels }) {
  const own = vessels
    .filter(({ component, round }) => component === step.component && round === step.round)
    .map(({ id }) => id);
  const { good, spoiled, partial } = count ?? NO_COUNT;
  const held = sum((step.of.length ? step.of : own).map(heldOf));
  return Math.max(0, held - (good + spoiled + partial) * step.piece_mg);
}

/**
 * Whether a carry by num / den can be meant: between a thousandth and a thousand times.
 * @param {number} num @param {number} den
 */
export function inReach(num, den) {
  return num <= MOST_FACTOR * den && den <= MOST_FACTOR * num;
}

/**
 * k = max(actual / target) over what is in this round's bowl, as [numerator, denominator].
 * @param {Sheet} sheet @param {State} state @param {string} component @param {number} round
 */
export function carryUp(sheet, state, component, round) {
  return carryFactor(
    sheet.lines
      .filter((line) => line.component === component && line.round === round)
      .map((line) => /** @type {const} */ ([state.lines[line.id].in_mg, line.mg ?? 0]))
      .filter(([actual, target]) => actual > 0 && target > 0),
  );
}
