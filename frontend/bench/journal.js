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
import { piecesFrom } from "./sizing.js";
import { openWindow } from "./states.js";
import { allowedMg, carryFactor } from "./weighing.js";
import { canonical, divided, halfEven, product, shareOut, sum } from "./whole.js";

const ASSEMBLY = "assembly";
const ONE_TOUCH_MS = 400; // nobody presses two pieces in that time; a wet thumb bounces within it
const MOST_FACTOR = 1000; // a thousand times the batch is a slip of the finger too

const NO_COUNT = { good: 0, spoiled: 0, partial: 0 };

/** Every kind of entry and its fields. Fields not named here are kept and not looked at. */
const KINDS = new Map([
  ["numbered", fields({ number: "text" })],
  ["gathered", fields({ ingredient: "id", lot: "key", "mg?": "mass", "count?": "count" })],
  ["ticked", fields({ thing: "key" })],
  ["weighed", fields({ line: "id", "mg?": "mass", "reading_mg?": "whole" })],
  ["taken_out", fields({ line: "id", mg: "mass" })],
  ["left", fields({ line: "id" })],
  ["left_out", fields({ line: "id" })],
  ["carried", fields({ component: "id", round: "count", num: "factor", den: "factor", "left?": "ids" })],
  ["zeroed", fields({ vessel: "id" })],
  ["placed", fields({ vessel: "id", scale: "key", "line?": "id" })],
  ["took", fields({ vessel: "id", instead: "key" })],
  ["switched", fields({ weigh: "weigh" })],
  ["chose", fields({ step: "id", way: "id" })],
  ["done", fields({ step: "id", "way?": "id" })],
  ["skipped", fields({ step: "id", "why?": "text" })],
  ["began", fields({ step: "id" })],
  ["heated", fields({ step: "id", ms: "span", "rest_ms?": "span" })],
  ["looked", fields({ step: "id", answer: "answer", "way?": "id" })],
  ["portioned", fields({ vessel: "id", mg: "mass" })],
  [
    "counted",
    fields({
      step: "id",
      "good?": "count",
      "spoiled?": "count",
      "partial?": "count",
      "of?": "id",
      "way?": "id",
      "seen?": "count",
    }),
  ],
  ["extended", fields({ step: "id", ms: "span" })],
  ["measured", fields({ what: "measured", mg: "mass", "piece?": "count", "step?": "id", "scale?": "key" })],
  ["pictured", fields({ picture: "uuid", sha256: "sha256", "text?": "text", "step?": "id" })],
  ["worked", fields({ ms: "span", "step?": "id" })],
  ["noted", fields({ text: "text", "step?": "id" })],
  ["finished", fields({})],
  ["signed", fields({ name: "text", "entries?": "ids", "digest?": "sha256" })],
  ["undone", fields({ entry: "id" })],
]);

/** The field that a well-formed entry lacks beside another that it has; "" for none. */
function lacks({ kind, body }) {
  if (kind === "weighed" && body.reading_mg !== undefined && body.mg === undefined) return "mg";
  if (kind === "signed" && (body.entries === undefined) !== (body.digest === undefined))
    return body.entries ? "digest" : "entries";
  return "";
}

const readable = (entry) => understood(entry, KINDS) && !lacks(entry);
const idsOf = (entries) => entries.map(({ id }) => id).sort();

/** What a `signed` says besides the name, for one who has these entries: their ids and their digest. */
export function seal(entries) {
  const ordered = inOrder(entries);
  return { entries: idsOf(ordered), digest: digest(ordered) };
}

/** What a signing that names nothing seals, if one holds: {signed: its id, entries: ids}; else null. */
export function frozenSeal(entries, frozen = null) {
  const { signing, ids } = judge(inOrder(entries), frozen);
  return signing && !signing.body.entries ? { signed: signing.id, entries: [...ids].sort() } : null;
}

/** The entries that a record is of, in order: all, or once it is signed the sealed ones and the signing. */
export function ofRecord({ signed }, entries) {
  const ordered = inOrder(entries);
  if (!signed) return ordered;
  const ids = new Set([...signed.entries, signed.id]);
  return ordered.filter(({ id }) => ids.has(id));
}

/** Those of them that live: what the state is folded from. */
export const toldOf = (state, entries) => lessUndone(ofRecord(state, entries));

/** The signing that holds, the ids of all that it seals, the signings taken back, and those whose digest does not fit. */
function judge(ordered, frozen) {
  const judged = { signing: null, ids: new Set(), unsigned: [], unfit: new Set() };
  const signings = ordered.filter((entry) => entry.kind === "signed" && readable(entry));
  if (!signings.length) return judged;
  const place = new Map(ordered.map(({ id }, index) => [id, index]));
  const undos = new Map();
  ordered.forEach((entry, index) => {
    if (entry.kind === "undone" && place.get(entry.body.entry) < index)
      listOf(undos, entry.body.entry).push(entry);
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

/** The ids of all that a signing seals by name; null for all that stands before it. */
function namedBy({ id, body }, frozen) {
  const named = body.entries ?? (frozen?.signed === id ? frozen.entries : null);
  return named && new Set(named.filter((each) => each !== id));
}

/** What was found to fit, so that a signed run is not reckoned through at every look. */
const proven = new WeakMap();

/** Whether the entries are those that were signed; who lacks some cannot tell. */
function fits(signing, ids, ordered, place) {
  if (signing.body.digest === undefined) return true;
  const sealed = [...ids].map((id) => ordered[place.get(id)]);
  if (sealed.includes(undefined)) return true;
  const known = proven.get(signing);
  if (known?.length === sealed.length && known.every((entry, index) => entry === sealed[index])) return true;
  if (digest(sealed) !== signing.body.digest) return false;
  proven.set(signing, sealed);
  return true;
}

/** The undo that takes a signing back; what it sealed itself does not. */
function takenBackBy(key, undos, sealed) {
  const reach = (id) => (undos.get(id) ?? []).filter((undo) => !sealed.has(undo.id));
  const chain = [key];
  for (const each of chain) chain.push(...reach(each).map(({ id }) => id));
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
    if (more) for (const entry of more) takeOne(this.#known, entry);
    else this.#known = takeAll(this.#sheet, inOrder(entries), frozen);
    this.#had = entries;
    // Signings are judged over all there is.
    if (frozen === null && !entries.some(({ kind }) => kind === "signed")) return told(twin(this.#known));
    const state = told(this.#known);
    this.#known = null;
    return state;
  }

  /** What came after all that was had; null when that is not all that is new. */
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

const OF_SHEET = new Set(["sheet", "steps", "lines", "vessels", "splitOf", "rounds", "gatherable"]);

/** What is known, once more: to be told from, which settles what follows, while the other is gone on with. */
function twin(known) {
  const copied = ([name, value]) => {
    if (value instanceof Map) return [name, new Map(value)];
    if (value instanceof Set) return [name, new Set(value)];
    return [name, Array.isArray(value) ? [...value] : value];
  };
  const copy = {
    ...known,
    ...Object.fromEntries(
      Object.entries(known)
        .filter(([name]) => !OF_SHEET.has(name))
        .map(copied),
    ),
  };
  for (const [step, bursts] of copy.bursts)
    copy.bursts.set(
      step,
      bursts.map((burst) => ({ ...burst })),
    );
  for (const [step, looks] of copy.looks) copy.looks.set(step, [...looks]);
  for (const [step, count] of copy.counts) copy.counts.set(step, { ...count, of: { ...count.of } });
  return copy;
}

function takeOne(known, entry) {
  if (!readable(entry) || !take(known, entry)) known.unread.push(entry.id);
}

/** What is known once all of them are taken in. */
function takeAll(sheet, ordered, frozen) {
  const { signing, ids, unsigned, unfit } = judge(ordered, frozen);
  const known = begin(sheet, unsigned);
  const sealed = signing ? ordered.filter(({ id }) => ids.has(id)) : ordered;
  for (const entry of lessUndone(sealed)) {
    if (unfit.has(entry.id) || !readable(entry) || !take(known, entry)) known.unread.push(entry.id);
  }
  if (signing) {
    sign(known, signing, idsOf(sealed), ids.size);
    for (const entry of lessUndone(ordered.filter(({ id }) => !ids.has(id)))) {
      if (entry === signing || (!unfit.has(entry.id) && readable(entry) && remark(known, entry))) continue;
      known.unread.push(entry.id);
    }
  }
  return known;
}

const byId = (items) => new Map(items.map((item) => [item.id, item]));
const noughts = (items) => new Map(items.map((item) => [item.id, 0]));

/** What is known before the first entry. The entries then change it, one at a time and in order. */
function begin(sheet, unsigned) {
  return {
    sheet,
    steps: byId(sheet.steps),
    lines: byId(sheet.lines),
    vessels: byId(sheet.vessels),
    splitOf: new Map(
      sheet.steps
        .filter((step) => step.kind === "split")
        .flatMap((step) => step.portions.map((portion) => [portion.vessel, step])),
    ),
    rounds: new Set(sheet.lines.map((line) => `${line.component}.${line.round}`)),
    weigh: sheet.size.weigh,
    startedAt: null,
    finishedAt: null,
    lastAt: null,
    settled: new Map(), // step -> {status, at, why}
    way: new Map(),
    began: new Map(),
    inMg: noughts(sheet.lines),
    touched: new Map(), // line -> when last
    decided: new Map(), // line -> left | left_out
    pouredBy: new Map(), // line -> the device that told its first pour
    twice: new Map(), // line -> the last pour told by another device
    factors: new Map(), // round -> [num, den]
    scaleOf: new Map(sheet.vessels.map(({ id, scale }) => [id, scale])),
    placed: new Map(), // line -> the scale that its small cup was put on
    taken: new Map(), // vessel -> the one of the kit that was taken instead
    weighedOn: new Map(), // line -> the scale of its last pour
    vesselMg: noughts(sheet.vessels),
    zeroMg: noughts(sheet.vessels),
    portions: new Map(),
    portionedAt: new Map(),
    bursts: new Map(),
    looks: new Map(),
    counts: new Map(),
    countedAt: new Map(),
    countedBy: new Map(), // step and device -> what it counted last
    unseeing: new Set(), // steps of which somebody counted without saying how many were seen
    extended: new Map(),
    gatherable: new Set([...sheet.ingredients.map(({ id }) => id), "wrap"]), // wrap: see bench/journal/tally.py
    number: null,
    alsoNumbered: new Set(),
    gathered: [],
    ticked: new Map(),
    measured: [],
    pictures: [],
    worked: new Map(),
    signed: null,
    unsigned,
    remarks: [],
    notes: [],
    unread: [],
  };
}

const add = (map, key, more) => map.set(key, (map.get(key) ?? 0) + more);

function listOf(map, key) {
  if (!map.has(key)) map.set(key, []);
  return map.get(key);
}

/** Whether the step, line and vessel that an entry names are on this sheet. */
function isHere({ steps, lines, vessels }, { kind, body }) {
  return KINDS.get(kind).every(({ name }) => {
    const named = name === "step" ? steps : name === "line" ? lines : name === "vessel" ? vessels : null;
    return !named || body[name] === undefined || named.has(body[name]);
  });
}

/** Takes one well-formed entry in; false when it speaks of something not on this sheet. */
function take(known, entry) {
  const { at, kind, body } = entry;
  if (!isHere(known, entry) || TAKES[kind](known, at, body, entry) === false) return false;
  known.startedAt ??= at;
  known.lastAt = at;
  return true;
}

/** Puts one that was not signed beside the record; false when it speaks of something not on this sheet. */
function remark(known, entry) {
  if (!isHere(known, entry)) return false;
  const { id, at, device, kind, body } = entry;
  known.remarks.push({ id, at, device, kind, body });
  return true;
}

/** Closes the record by this signing, which named so many entries, of which these are here. */
function sign(known, { id, at, device, body }, entries, named) {
  known.signed = { id, at, device, name: body.name, entries, missing: named - entries.length };
  known.startedAt ??= at;
  known.finishedAt ??= at;
  known.lastAt = at;
}

function settle(known, step, status, at, why = "") {
  if (known.settled.get(step)?.status !== status) known.settled.set(step, { status, at, why });
}

/** Notes which way was taken; false when the step has no such way. */
function choose(known, { step, way }) {
  if (!known.steps.get(step).ways.some((each) => each.id === way)) return false;
  known.way.set(step, way);
  return true;
}

/** Whether a device said the same of the same count a moment ago: a thumb that bounced, not a piece. */
function isOneTouch(known, entry) {
  const key = `${entry.body.step} ${entry.device}`;
  const last = known.countedBy.get(key);
  known.countedBy.set(key, entry);
  return (
    last !== undefined && canonical(last.body) === canonical(entry.body) && entry.at - last.at < ONE_TOUCH_MS
  );
}

function answerBurst(bursts, answer) {
  const last = bursts?.at(-1);
  if (last && last.answer === null) last.answer = answer;
}

/** One function a kind. It answers false when the entry makes no sense on this sheet. */
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
    if (!step || vessel === step.portions.at(-1).vessel) return false;
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
    if (!known.counts.has(step.id)) known.counts.set(step.id, { good: 0, spoiled: 0, partial: 0, of: {} });
    const count = known.counts.get(step.id);
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

/** What is in a vessel, and which one it is by now: its name, how it is empty and filled, its scale. */
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

/** The scale that the next of a line is weighed on: the sheet's is a proposal. */
function scaleNow({ vessels, scaleOf, placed }, { id, vessel, scale, cup }) {
  if (scale === null || vessel === null) return scale;
  const isMoved = !cup && scaleOf.get(vessel) !== vessels.get(vessel).scale;
  return placed.get(id) ?? (isMoved ? scaleOf.get(vessel) : scale);
}

/** The division of a scale of the kit, in mg; null where there is no such scale. */
export const divisionOf = ({ kit }, scale) => kit.scales.find(({ id }) => id === scale)?.division_mg ?? null;

/** Where a line stands. `scale` is the one that its next pour goes onto, `weighed_on` that of its last. */
function lineTold(known, line) {
  const on = { scale: scaleNow(known, line), weighed_on: known.weighedOn.get(line.id) ?? null };
  return { ...stands(known, line, on.weighed_on ?? on.scale), ...on };
}

function stands(known, line, scale) {
  const inMg = known.inMg.get(line.id);
  if (line.mg === null && line.step === null) {
    return { target_mg: null, in_mg: inMg, status: "by_hand", twice: null };
  }
  const [num, den] = known.factors.get(`${line.component}.${line.round}`) ?? [1, 1];
  const target =
    line.mg === null ? null : byPortion(known, line.vessel, halfEven(product(line.mg, num), den));
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

function settleWeighing(known, lines) {
  for (const step of known.sheet.steps) {
    if (step.kind !== "weigh") continue;
    if (step.lines.some((key) => ["open", "short", "over"].includes(lines[key].status))) continue;
    const times = step.lines.filter((key) => known.touched.has(key)).map((key) => known.touched.get(key));
    if (times.length) settle(known, step.id, "done", Math.max(...times));
  }
}

/** A target for what goes into a portion, by what that portion really came to. */
function byPortion(known, vessel, target) {
  const step = known.splitOf.get(vessel);
  if (!step || known.settled.get(step.id)?.status !== "done") return target;
  const total = sum(step.portions.map((portion) => known.portions.get(portion.vessel) ?? 0));
  const held = known.portions.get(vessel) ?? 0;
  if (total <= 0 || held < 0 || held > total) return target;
  const { share } = step.portions.find((portion) => portion.vessel === vessel);
  const shares = sum(step.portions.map((portion) => portion.share));
  return halfEven(product(target, product(held, shares)), product(total, share));
}

/**
 * How many good pieces each count now expects, by step: no more than came out of the counts before it.
 *
 * What was spoiled is no piece: it is made again while another comes from before, or out of what is left of the
 * mix. Counts of earlier versions, which do not say what they saw, took it for one, and stay as they were.
 */
function settleCounting(known) {
  const expected = new Map();
  const usable = (key) => {
    const count = known.counts.get(key);
    return count ? count.good + count.partial : expected.get(key);
  };
  const reckon = (step) => {
    if (expected.has(step.id)) return;
    const isOld = known.unseeing.has(step.id);
    const { good, spoiled, partial } = known.counts.get(step.id) ?? NO_COUNT;
    const made = good + partial;
    const lower = (most) => expected.set(step.id, Math.min(expected.get(step.id), most));
    expected.set(step.id, isOld ? step.count : plannedOf(known, step));
    for (const source of step.follows) {
      for (const key of source.steps) reckon(known.steps.get(key));
      if (!source.steps.every((key) => known.settled.get(key)?.status === "done")) continue;
      const [pieces] = divided(sum(source.steps.map(usable)), source.takes);
      lower(Math.max(0, pieces - (isOld ? 0 : spoiled)));
    }
    if (!step.follows.length && !isOld && made + spoiled >= expected.get(step.id) && !makesMore(known, step))
      lower(made);
    if (known.counts.has(step.id) && made + (isOld ? spoiled : 0) >= expected.get(step.id)) {
      settle(known, step.id, "done", known.countedAt.get(step.id));
    }
  };
  for (const step of known.sheet.steps) if (step.kind === "pieces") reckon(step);
  return expected;
}

/** How many pieces a count is for, now that rounds were scaled up or down. */
function plannedOf({ sheet, factors }, step) {
  const partOf = (key) => sheet.components.find(({ id }) => id === key);
  if (step.component !== ASSEMBLY) return askedOf(factors, partOf(step.component), step);
  const more = sheet.components
    .filter(({ id }) => id !== ASSEMBLY)
    .map((part) => moreOf(factors, part, sheet.size.pieces));
  const isLast = step.round === partOf(ASSEMBLY).rounds.length;
  return step.count + (isLast && more.length ? Math.max(0, Math.min(...more)) : 0);
}

/** How many finished pieces more than were asked for this part now is enough for. */
function moreOf(factors, part, pieces) {
  const [takes] = divided(part.count - part.spares, pieces);
  const made = sum(part.rounds.map((each) => askedOf(factors, part, each)));
  return takes ? divided(made - part.spares, takes)[0] - pieces : 0;
}

function askedOf(factors, part, { round, count }) {
  const [num, den] = factors.get(`${part.id}.${round}`) ?? [1, 1];
  if (num === den || part.piece_mg <= 0) return count;
  const now = piecesFrom(part, halfEven(product(part.rounds[round - 1].make_mg, num), den));
  return num > den ? Math.max(count, now) : Math.max(1, Math.min(count, now));
}

/** Whether what is left of the mix is one more whole piece. */
function makesMore({ sheet, counts, vesselMg }, step) {
  const left = leftOfMix(step, (vessel) => vesselMg.get(vessel), counts.get(step.id), sheet);
  return step.piece_mg > 0 && left >= step.piece_mg;
}

function settleSplitting(known) {
  for (const step of known.sheet.steps) {
    if (step.kind !== "split") continue;
    const weighed = step.portions.slice(0, -1).map((portion) => portion.vessel);
    if (weighed.every((key) => known.portions.has(key))) {
      settle(known, step.id, "done", Math.max(...weighed.map((key) => known.portionedAt.get(key))));
    }
    if (known.settled.get(step.id)?.status === "done") {
      const last = step.portions.at(-1).vessel;
      const rest = known.vesselMg.get(step.vessel);
      known.portions.set(last, rest);
      add(known.vesselMg, last, rest);
      add(known.zeroMg, last, rest);
      known.vesselMg.set(step.vessel, 0);
    }
  }
}

/** When the last of a step's needs was settled; null while one is not. */
function readyAt(known, step) {
  let ready = known.startedAt ?? 0;
  for (const need of step.after) {
    const settled = known.settled.get(need);
    if (!settled) return null;
    ready = Math.max(ready, settled.at);
  }
  return ready;
}

function stepTold(known, step) {
  const ready = readyAt(known, step);
  const { status, at, why } = known.settled.get(step.id) ?? {
    status: isTouched(known, step) ? "begun" : ready === null ? "waiting" : "ready",
    at: null,
    why: "",
  };
  return { status, ready_at: ready, at, way: known.way.get(step.id) ?? null, why };
}

function isTouched(known, step) {
  return (
    [known.began, known.bursts, known.looks, known.counts].some((each) => each.has(step.id)) ||
    (step.kind === "weigh" && step.lines.some((line) => known.touched.has(line))) ||
    (step.kind === "split" && step.portions.some(({ vessel }) => known.portions.has(vessel)))
  );
}

/** The waits, windows and guides that run now, with absolute instants. */
function running(known, steps) {
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
    if (step.kind === "do" && step.about_ms !== null && known.began.has(key)) {
      const began = known.began.get(key);
      found.guides.push({ step: key, began_at: began, until: began + step.about_ms });
    }
    const burst = known.bursts.get(key)?.at(-1);
    if (burst?.answer === null) {
      found.guides.push(heating(key, burst));
    } else if (rests(known, step)) {
      const { at } = known.looks.get(key).at(-1);
      found.guides.push({ step: key, began_at: at, until: at + rests(known, step) });
    }
  }
  return found;
}

/** A burst that nobody looked at yet: until it is over, or with its rest, until that is. */
function heating(step, { at, ms, rest_ms }) {
  const ends = at + ms;
  if (rest_ms === undefined) return { step, began_at: at, until: ends };
  return { step, began_at: at, until: ends + rest_ms, rests_at: ends };
}

/** How long what was judged last is to be left: a melt before its next burst, a mix that went too far. */
function rests(known, step) {
  const look = known.looks.get(step.id)?.at(-1);
  if (step.kind === "check" && look?.answer === "too_far") return step.too_far_ms ?? 0;
  const bursts = known.bursts.get(step.id);
  if (step.kind !== "melt" || !bursts || look?.answer !== "not_yet" || look.at < bursts.at(-1).at) return 0;
  return (step.bursts[bursts.length] ?? step.more).rest_ms;
}

/** What each portion of a split should weigh, in mg, from what really is in the bowl. */
export function portionTargets(step, state) {
  const held = state.vessels[step.vessel].in_mg;
  const done = state.steps[step.id].status === "done";
  const out = sum(step.portions.map((portion) => state.portions[portion.vessel] ?? 0));
  return shareOut(
    done ? out : held + out,
    step.portions.map((portion) => portion.share),
  );
}

/** What is left of a part's mix, in mg, after the pieces that were counted; never below nought. heldOf: vessel -> what went in. */
export function leftOfMix(step, heldOf, count, { vessels }) {
  const own = vessels
    .filter(({ component, round }) => component === step.component && round === step.round)
    .map(({ id }) => id);
  const { good, spoiled, partial } = count ?? NO_COUNT;
  const held = sum((step.of.length ? step.of : own).map(heldOf));
  return Math.max(0, held - (good + spoiled + partial) * step.piece_mg);
}

/** Whether a carry by num / den can be meant: between a thousandth and a thousand times. */
export function inReach(num, den) {
  return num <= MOST_FACTOR * den && den <= MOST_FACTOR * num;
}

/** k = max(actual / target) over what is in this round's bowl, as [numerator, denominator]. */
export function carryUp(sheet, state, component, round) {
  return carryFactor(
    sheet.lines
      .filter((line) => line.component === component && line.round === round && line.mg)
      .map((line) => [state.lines[line.id].in_mg, line.mg])
      .filter(([actual]) => actual > 0),
  );
}
