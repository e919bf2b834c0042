/**
 * The journal: what happened at the bench, and the fold that says where things stand.
 *
 * A run is a grow-only set of entries. Merge is set union; the fold sorts by (at, device, id), so
 * order of arrival does not matter, a duplicate is harmless and two phones converge. An undo is an
 * entry that takes back an earlier one; once the record is signed, what was signed stands, and later
 * entries are remarks with their own time. Nothing that is well-formed is refused because another
 * entry came first: a step reported done before its needs were done is done. An entry this version
 * does not understand, or one that speaks of another sheet, is kept and listed as unread.
 *
 * The fold never throws and never reads a clock. It is the same fold as the server's.
 */

import { fields, inOrder, lessUndone, understood } from "./entries.js";
import { carryFactor } from "./weighing.js";
import { ceiling, divided, halfEven, product, shareOut, sum } from "./whole.js";

const MOST_FACTOR = 1000; // a thousand times the batch is a slip of the finger too

/** Every kind of entry and its fields. Fields not named here are kept and not looked at. */
const KINDS = new Map([
  ["numbered", fields({ number: "text" })],
  ["gathered", fields({ ingredient: "id", lot: "key", "mg?": "mass", "count?": "count" })],
  ["ticked", fields({ thing: "key" })],
  ["weighed", fields({ line: "id", "mg?": "mass", "reading_mg?": "whole" })],
  ["taken_out", fields({ line: "id", mg: "mass" })],
  ["left", fields({ line: "id" })],
  ["left_out", fields({ line: "id" })],
  ["carried", fields({ component: "id", round: "count", num: "factor", den: "factor" })],
  ["zeroed", fields({ vessel: "id" })],
  ["switched", fields({ weigh: "weigh" })],
  ["chose", fields({ step: "id", way: "id" })],
  ["done", fields({ step: "id", "way?": "id" })],
  ["skipped", fields({ step: "id", "why?": "text" })],
  ["began", fields({ step: "id" })],
  ["heated", fields({ step: "id", ms: "span" })],
  ["looked", fields({ step: "id", answer: "answer", "way?": "id" })],
  ["portioned", fields({ vessel: "id", mg: "mass" })],
  [
    "counted",
    fields({ step: "id", "good?": "count", "spoiled?": "count", "partial?": "count", "of?": "id", "way?": "id" }),
  ],
  ["extended", fields({ step: "id", ms: "span" })],
  ["measured", fields({ what: "measured", mg: "mass", "piece?": "count", "step?": "id", "scale?": "key" })],
  ["pictured", fields({ picture: "uuid", sha256: "sha256", "text?": "text", "step?": "id" })],
  ["worked", fields({ ms: "span", "step?": "id" })],
  ["noted", fields({ text: "text", "step?": "id" })],
  ["finished", fields({})],
  ["signed", fields({ name: "text" })],
  ["undone", fields({ entry: "id" })],
]);

/**
 * The entries in order, less the undone and their undos.
 *
 * A living `signed` closes the record: an undo after it takes back the signing itself, or what
 * came after it, and nothing that was signed.
 */
export const living = (entries) => livingAndSeal(entries)[0];

/** The living entries, and the id of the one that signed the record. */
function livingAndSeal(entries) {
  const ordered = inOrder(entries);
  const lives = lessUndone(ordered);
  const seal = lives.find((entry) => entry.kind === "signed" && understood(entry, KINDS))?.id;
  return [seal === undefined ? lives : lessUndone(ordered, seal), seal];
}

/** The state: what the sheet and the journal together say. Never throws for any set of entries. */
export function fold(sheet, entries) {
  const [lives, seal] = livingAndSeal(entries);
  const known = begin(sheet, seal);
  for (const entry of lives) {
    if (!understood(entry, KINDS) || !take(known, entry)) known.unread.push(entry.id);
  }
  return told(known);
}

const byId = (items) => new Map(items.map((item) => [item.id, item]));
const noughts = (items) => new Map(items.map((item) => [item.id, 0]));

/** What is known before the first entry. The entries then change it, one at a time and in order. */
function begin(sheet, seal) {
  return {
    sheet,
    seal,
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
    vesselMg: noughts(sheet.vessels),
    zeroMg: noughts(sheet.vessels),
    portions: new Map(),
    portionedAt: new Map(),
    bursts: new Map(),
    looks: new Map(),
    counts: new Map(),
    countedAt: new Map(),
    extended: new Map(),
    gatherable: new Set([...sheet.ingredients.map(({ id }) => id), "wrap"]), // wrap: see bench/journal.py
    number: null,
    alsoNumbered: new Set(),
    gathered: [],
    ticked: new Map(),
    measured: [],
    pictures: [],
    worked: new Map(),
    signed: null,
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

/** Takes one well-formed entry in; false when it speaks of something not on this sheet. */
function take(known, entry) {
  const { at, body } = entry;
  for (const { name } of KINDS.get(entry.kind)) {
    const named = name === "step" ? known.steps : name === "line" ? known.lines : name === "vessel" ? known.vessels : null;
    if (named && body[name] !== undefined && !named.has(body[name])) return false;
  }
  if (known.signed) {
    known.remarks.push({ at, device: entry.device, kind: entry.kind, body });
    return true;
  }
  if (TAKES[entry.kind](known, at, body, entry) === false) return false;
  known.startedAt ??= at;
  known.lastAt = at;
  return true;
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

function answerBurst(bursts, answer) {
  const last = bursts?.at(-1);
  if (last && last.answer === null) last.answer = answer;
}

/** One function a kind. It answers false when the entry makes no sense on this sheet. */
const TAKES = {
  weighed(known, at, { line: key, mg = 0 }, { id, device }) {
    const { vessel, cup } = known.lines.get(key);
    if (vessel !== null) {
      if (known.weigh === "tare" && !cup) known.zeroMg.set(vessel, known.vesselMg.get(vessel));
      add(known.vesselMg, vessel, mg);
    }
    add(known.inMg, key, mg);
    known.touched.set(key, at);
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

  carried(known, at, { component, round, num, den }) {
    const key = `${component}.${round}`;
    if (!known.rounds.has(key) || !inReach(num, den)) return false;
    known.factors.set(key, [num, den]);
    for (const line of known.sheet.lines) {
      // New targets, so what was let pass is judged again.
      if (`${line.component}.${line.round}` === key && known.decided.get(line.id) === "left") {
        known.decided.delete(line.id);
      }
    }
  },

  zeroed(known, at, { vessel }) {
    known.zeroMg.set(vessel, known.vesselMg.get(vessel));
  },

  switched(known, at, { weigh }) {
    known.weigh = weigh;
  },

  chose(known, at, body) {
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

  heated(known, at, { step, ms }) {
    const bursts = listOf(known.bursts, step);
    answerBurst(bursts, "not_yet");
    bursts.push({ at, ms, answer: null });
  },

  looked(known, at, body) {
    const step = known.steps.get(body.step);
    if (body.way !== undefined && !choose(known, body)) return false;
    answerBurst(known.bursts.get(step.id), body.answer);
    listOf(known.looks, step.id).push({ at, answer: body.answer, way: body.way ?? null });
    if (body.answer === "yes" && ["melt", "check", "wait"].includes(step.kind)) settle(known, step.id, "done", at);
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

  counted(known, at, body) {
    const step = known.steps.get(body.step);
    const part = body.of;
    if (step.kind !== "pieces" || (part !== undefined && part !== "joined" && !step.of.includes(part))) return false;
    if (body.way !== undefined && !choose(known, body)) return false;
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

  numbered(known, at, { number }) {
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

  worked(known, at, { ms, step = "" }) {
    known.worked.set(step, ms);
  },

  signed(known, at, { name }, { id, device }) {
    if (id !== known.seal) return; // another one was taken back, though only after this one
    known.signed = { at, device, name };
    known.finishedAt ??= at;
  },

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
    vessels: Object.fromEntries(
      known.sheet.vessels.map(({ id }) => [id, { in_mg: known.vesselMg.get(id), zero_mg: known.zeroMg.get(id) }]),
    ),
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
    remarks: known.remarks,
    notes: known.notes,
    unread: known.unread.sort(),
  };
}

function lineTold(known, line) {
  const inMg = known.inMg.get(line.id);
  if (line.mg === null && line.step === null) {
    return { target_mg: null, in_mg: inMg, status: "by_hand", twice: null };
  }
  const [num, den] = known.factors.get(`${line.component}.${line.round}`) ?? [1, 1];
  const target = line.mg === null ? null : byPortion(known, line.vessel, halfEven(product(line.mg, num), den));
  const judged = () => {
    if (target === null) return known.touched.has(line.id) ? "in" : "open";
    if (inMg === 0 && target > 0) return "open";
    const tolerance = Math.max(halfEven(product(line.tolerance_mg, num), den), ceiling(line.division_mg || 1, 2));
    if (Math.abs(inMg - target) <= tolerance) return "in";
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

/** How many pieces each count now expects, by step: no more than came out of the counts before it. */
function settleCounting(known) {
  const expected = new Map();
  const usable = (key) => {
    const count = known.counts.get(key);
    return count ? count.good + count.partial : expected.get(key);
  };
  const reckon = (step) => {
    if (expected.has(step.id)) return;
    expected.set(step.id, step.count);
    for (const source of step.follows) {
      for (const key of source.steps) reckon(known.steps.get(key));
      if (!source.steps.every((key) => known.settled.get(key)?.status === "done")) continue;
      const [pieces] = divided(sum(source.steps.map(usable)), source.takes);
      expected.set(step.id, Math.min(expected.get(step.id), pieces));
    }
    const count = known.counts.get(step.id);
    if (count && count.good + count.partial + count.spoiled >= expected.get(step.id)) {
      settle(known, step.id, "done", known.countedAt.get(step.id));
    }
  };
  for (const step of known.sheet.steps) if (step.kind === "pieces") reckon(step);
  return expected;
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
    if (step.window) {
      const opened = step.window.from.map((each) => known.settled.get(each)?.at);
      if (opened.length && !opened.includes(undefined)) {
        const openedAt = Math.max(...opened);
        found.windows.push({ step: key, opened_at: openedAt, latest_at: openedAt + step.window.latest_ms });
      }
    }
    if (step.kind === "do" && step.about_ms !== null && known.began.has(key)) {
      const began = known.began.get(key);
      found.guides.push({ step: key, began_at: began, until: began + step.about_ms });
    }
    const burst = known.bursts.get(key)?.at(-1);
    if (burst?.answer === null) {
      found.guides.push({ step: key, began_at: burst.at, until: burst.at + burst.ms });
    }
  }
  return found;
}

/** What each portion of a split should weigh, in mg, from what really is in the bowl. */
export function portionTargets(step, state) {
  const held = state.vessels[step.vessel].in_mg;
  const done = state.steps[step.id].status === "done";
  const out = sum(step.portions.map((portion) => state.portions[portion.vessel] ?? 0));
  return shareOut(done ? out : held + out, step.portions.map((portion) => portion.share));
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
