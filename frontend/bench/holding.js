/**
 * What a batch has in use of the kit: a bowl, jug or pan from its first use to when its content leaves it, a mould
 * from when it is filled to when it is turned out, a mixer or a heater while hands are on its step.
 * The same as bench/holding.py, which says how it goes.
 */

import { say } from "../words.js";
import { joined } from "./brief.js";
import { loads, weighedLines } from "./capacity.js";
import { roomMg } from "./sizing.js";
import { full, last } from "./lists.js";
import { ceiling, product, sum } from "./whole.js";
import { byHand, countsPieces, divides, heats, putsIn, runsByItself } from "./steps/index.js";

/** @import { InUse, Kit, OnBench, Sheet, State, Step, Vessel } from "../../bench/shapes/page" */

/**
 * @typedef {{from: string, until: string, places?: string[]}} Held
 * @typedef {Held & {places: string[], vessel: string, kind: string, mg: number}} VesselHold
 * @typedef {Held & {shape: string, piece_mg: number, many: number}} MouldHold
 * @typedef {{key: string, name: string, many: number}} Pool
 */

/** @type {readonly string[]} */
const SETTLED = ["done", "skipped"];
/** @type {readonly string[]} */
const FILLS = ["press", "pour", "pipe"];

/** From the start of one step to the end of another. @param {Sheet} sheet @returns {VesselHold[]} */
export function vesselHolds(sheet) {
  const held = known.get(sheet) ?? new Vessels(sheet).holds();
  known.set(sheet, held);
  return held;
}

/** By sheet, which never changes. @type {WeakMap<Sheet, VesselHold[]>} */
const known = new WeakMap();

/** One for each round of a part that stays in its mould. @param {Sheet} sheet */
export function mouldHolds(sheet) {
  /** @type {MouldHold[]} */
  const found = [];
  for (const component of sheet.components) {
    const { mould, piece_mg: pieceMg } = component;
    if (!mould?.held) continue;
    const matching = mouldsOf(sheet.kit, mould.shape, pieceMg);
    if (!matching.length) continue;
    const many = sum(matching.map(({ cavities, sets }) => cavities * sets));
    const least = Math.min(...matching.map(({ cavities }) => cavities));
    for (const made of component.rounds) {
      const steps = sheet.steps.filter(
        (step) => step.component === component.id && step.round === made.round && !runsByItself(step),
      );
      const fill = steps.find((each) => countsPieces(each) || FILLS.includes(each.does));
      const empty = steps.find(({ unmoulds }) => unmoulds) ?? steps.at(-1);
      if (!fill || !empty) continue;
      found.push({
        shape: mould.shape,
        piece_mg: pieceMg,
        many: Math.min(many, ceiling(made.count, least) * least),
        from: fill.id,
        until: empty.id,
      });
    }
  }
  return found;
}

/**
 * The pools of the kit's vessels that one with this load is taken from. vessel: which one it is, where that is known.
 * @param {Kit} kit @param {string} kind @param {number} mg @param {string | null} [vessel] @returns {Pool[]}
 */
export function vesselPools(kit, kind, mg, vessel = null) {
  const rooms = kit.vessels
    .filter((each) => each.kind === kind)
    .map((each) => ({ id: each.id, room: roomOf(kit, each) }))
    .sort((one, other) => one.room - other.room);
  const takes = (
    rooms.find(({ id }) => id === vessel) ??
    rooms.find((each) => each.room >= mg) ??
    last(rooms)
  ).room;
  return [...new Set(rooms.map((each) => each.room))]
    .filter((least) => least <= takes)
    .map((least) => ({
      key: `vessels.${kind}.${least}`,
      name: kind,
      many: rooms.filter((each) => each.room >= least).length,
    }));
}

/**
 * The pools of the kit's moulds that a piece is taken from, as `vesselPools`; counted in cavities.
 * @param {Kit} kit @param {string} shape @param {number} pieceMg @returns {Pool[]}
 */
export function mouldPools(kit, shape, pieceMg) {
  const sizes = [...new Set(kit.moulds.filter((each) => each.shape === shape).map(({ cavity_mg: mg }) => mg))]
    .filter((size) => size !== null)
    .sort((one, other) => one - other);
  const takes = sizes.find((size) => size >= pieceMg) ?? null;
  const larger = sizes.slice(1).filter((size) => takes === null || size <= takes);
  const named = larger.map((least) => ({ key: `moulds.${shape}.${least}`, least }));
  return [{ key: `moulds.${shape}`, least: 0 }, ...named].map(({ key, least }) => ({
    key,
    name: shape,
    many: sum(mouldsOf(kit, shape, least).map(({ cavities, sets }) => cavities * sets)),
  }));
}

/**
 * Which of the few things of the kit a step needs while hands are on it: "mixers.hand_mixer".
 * @param {Sheet} sheet @param {Step} step
 */
export function toolsOf({ kit, lines }, step) {
  if (runsByItself(step)) return [];
  const used = kit.heaters
    .filter(({ name }) => heats(step) && name === step.heater)
    .map(({ id }) => `heaters.${id}`);
  const named = step.tools.map((tool) => tool.toLowerCase());
  for (const { id, name } of kit.mixers)
    if (named.includes(name.toLowerCase()) || named.includes(id.replaceAll("_", " ")))
      used.push(`mixers.${id}`);
  if (putsIn(step))
    for (const { id, scale } of lines) if (scale && step.lines.includes(id)) used.push(`scales.${scale}`);
  return [...new Set(used)].sort();
}

/**
 * Whether a batch has it in its hands now: something went in, and has not left it yet.
 * @param {State} state
 * @param {Held} hold
 */
export function heldNow(state, hold) {
  if (state.finished_at !== null || SETTLED.includes(state.steps[hold.until].status)) return false;
  const isFilled = (hold.places ?? []).some((place) => state.vessels[place].in_mg > 0);
  return isFilled || ["begun", "done"].includes(state.steps[hold.from].status);
}

/** The vessel of the kit that it really is. @param {State} state @param {VesselHold} hold */
export const vesselNow = (state, { places }) => state.vessels[places[0]].kit;

/**
 * What the steps that can be begun now need, and other batches have.
 * @param {OnBench} run @param {readonly OnBench[]} others @returns {InUse[]}
 */
export function inUse(run, others) {
  const starting = startingOf(run);
  if (!starting.size || !others.length) return [];
  return [
    ...vesselsInUse(run, others, starting),
    ...mouldsInUse(run, others, starting),
    ...toolsInUse(run, others, starting),
  ];
}

/** @param {OnBench} run @param {readonly OnBench[]} others @param {Set<string>} starting @returns {InUse[]} */
function vesselsInUse({ sheet, state }, others, starting) {
  const { kit } = sheet;
  /** @type {Map<string | null, string>} */
  const taken = new Map();
  for (const other of [...others].reverse())
    for (const hold of vesselHolds(other.sheet))
      if (heldNow(other.state, hold)) taken.set(vesselNow(other.state, hold), other.name);
  const holds = vesselHolds(sheet);
  const own = new Set(holds.filter((hold) => heldNow(state, hold)).map((hold) => vesselNow(state, hold)));
  /** @type {InUse[]} */
  const found = [];
  for (const hold of holds) {
    const vessel = vesselNow(state, hold);
    const by = taken.get(vessel);
    if (!starting.has(hold.from) || heldNow(state, hold) || by === undefined) continue;
    const [instead] = kit.vessels
      .filter(
        (each) =>
          each.kind === hold.kind && !taken.has(each.id) && !own.has(each.id) && roomOf(kit, each) >= hold.mg,
      )
      .sort((one, other) => one.holds_mg - other.holds_mg || (one.id < other.id ? -1 : 1));
    const name = kit.vessels.find(({ id }) => id === vessel)?.name ?? "";
    const then = instead ? say("holding-take", { vessel: instead.name }) : say("holding-empty-first");
    found.push({
      step: hold.from,
      what: "vessel",
      by,
      says: joined(say("holding-vessel", { by, vessel: name }), then),
      place: hold.places[0],
      instead: instead?.id ?? null,
    });
  }
  return found;
}

/** @param {OnBench} run @param {readonly OnBench[]} others @param {Set<string>} starting @returns {InUse[]} */
function mouldsInUse({ sheet }, others, starting) {
  /** @type {InUse[]} */
  const found = [];
  for (const hold of mouldHolds(sheet).filter(({ from }) => starting.has(from))) {
    for (const { key, many: there } of mouldPools(sheet.kit, hold.shape, hold.piece_mg)) {
      const by = others.flatMap((other) =>
        mouldHolds(other.sheet)
          .filter(
            (each) =>
              heldNow(other.state, each) &&
              mouldPools(other.sheet.kit, each.shape, each.piece_mg).some((pool) => pool.key === key),
          )
          .map(({ many }) => ({ name: other.name, many })),
      );
      const taken = sum(by.map(({ many }) => many));
      if (!taken || taken + hold.many <= there) continue;
      const free = Math.max(0, there - taken);
      const then = free ? say("holding-free", { count: free }) : say("holding-turn-out");
      const cavities = { by: by[0].name, taken, many: there, shape: hold.shape };
      found.push(told(hold.from, "mould", by[0].name, joined(say("holding-cavities", cavities), then)));
      break;
    }
  }
  return found;
}

/** @param {OnBench} run @param {readonly OnBench[]} others @param {Set<string>} starting @returns {InUse[]} */
function toolsInUse({ sheet }, others, starting) {
  /** @type {Map<string, string>} */
  const names = new Map(
    /** @type {const} */ (["heaters", "mixers"]).flatMap((group) =>
      sheet.kit[group].map(({ id, name }) => /** @type {const} */ ([`${group}.${id}`, name])),
    ),
  );
  /** @type {Map<string, string>} */
  const busy = new Map();
  for (const other of others)
    for (const step of other.sheet.steps)
      if (other.state.steps[step.id].status === "begun")
        for (const tool of toolsOf(other.sheet, step)) if (!busy.has(tool)) busy.set(tool, other.name);
  return sheet.steps
    .filter(({ id }) => starting.has(id))
    .flatMap((step) =>
      toolsOf(sheet, step)
        .filter((tool) => busy.has(tool) && names.has(tool))
        .map((tool) => toolInUse(step.id, busy.get(tool) ?? "", names.get(tool) ?? "")),
    );
}

/** @param {string} step @param {"mould" | "tool"} what @param {string} by @param {string} says @returns {InUse} */
const told = (step, what, by, says) => ({
  step,
  what,
  by,
  says,
  place: null,
  instead: null,
});

/** @param {string} step @param {string} by @param {string} tool */
const toolInUse = (step, by, tool) => told(step, "tool", by, say("holding-vessel", { by, vessel: tool }));

/** The steps that could be begun now. @param {OnBench} run */
function startingOf({ sheet, state }) {
  if (state.finished_at !== null) return new Set();
  return new Set(sheet.steps.map(({ id }) => id).filter((id) => state.steps[id].status === "ready"));
}

/** @param {Kit} kit @param {Vessel} vessel */
const roomOf = (kit, vessel) => roomMg(kit, vessel) ?? vessel.holds_mg;

/** @param {Kit} kit @param {string} shape @param {number} pieceMg */
const mouldsOf = (kit, shape, pieceMg) =>
  kit.moulds.filter((each) => each.shape === shape && (each.cavity_mg === null || each.cavity_mg >= pieceMg));

/** The vessels of a sheet, each from its first use to when its content leaves it. */
class Vessels {
  /** @param {Sheet} sheet */
  constructor(sheet) {
    this.sheet = sheet;
    this.kit = full(sheet.kit.vessels.map((each) => /** @type {const} */ ([each.id, each])));
    this.steps = full(sheet.steps.map((step) => /** @type {const} */ ([step.id, step])));
    this.vessels = full(sheet.vessels.map((each) => /** @type {const} */ ([each.id, each])));
    this.turn = this.#inTurn();
    this.order = full(this.turn.map((key, place) => /** @type {const} */ ([key, place])));
    /** @type {Map<string, string>} */
    this.stays = new Map(); // what is divided -> the portion that stays where it is
    for (const step of sheet.steps) {
      if (!divides(step)) continue;
      for (const { vessel } of step.portions)
        if (this.#ofKit(vessel) === this.#ofKit(step.vessel)) this.stays.set(step.vessel, vessel);
    }
  }

  holds() {
    const staying = new Set(this.stays.values());
    const found = [...this.vessels.keys()]
      .filter((key) => !staying.has(key))
      .map((key) => this.#hold(key))
      .filter((hold) => hold !== null)
      .sort((one, other) => this.order.get(one.from) - this.order.get(other.from));
    /** @type {VesselHold[]} */
    const kept = [];
    for (const hold of found) {
      const fits = this.#pools(hold).every(
        ({ key, many }) => kept.filter((other) => this.#isBeside(hold, other, key)).length < many,
      );
      if (fits) kept.push(hold);
    }
    return kept;
  }

  /** @param {VesselHold} hold */
  #pools({ kind, mg }) {
    return vesselPools(this.sheet.kit, kind, mg);
  }

  /**
   * Whether an earlier one is still in use when this one is taken, one step after the other.
   * @param {VesselHold} hold
   * @param {VesselHold} earlier
   * @param {string} pool
   */
  #isBeside(hold, earlier, pool) {
    return (
      this.order.get(earlier.until) >= this.order.get(hold.from) &&
      this.#pools(earlier).some(({ key }) => key === pool)
    );
  }

  /** @param {string} key */
  #ofKit(key) {
    const vessel = this.vessels.get(key).kit ?? null;
    return vessel !== null && this.kit.has(vessel) ? vessel : null;
  }

  /** @param {string} key @returns {VesselHold | null} */
  #hold(key) {
    const vessel = this.#ofKit(key);
    if (vessel === null || this.kit.get(vessel).kind === "cup") return null;
    const places = [key];
    for (let next = this.stays.get(key); next !== undefined; next = this.stays.get(next)) places.push(next);
    const from = this.sheet.steps.find((step) => fills(step, key))?.id;
    const until = this.#until(last(places));
    if (from === undefined || until === undefined || this.order.get(until) < this.order.get(from))
      return null;
    return { places, vessel, kind: this.kit.get(vessel).kind, mg: this.#load(key), from, until };
  }

  /**
   * The step with which the content leaves it: tipped out, divided, made into pieces, else the part's last.
   * @param {string} key
   */
  #until(key) {
    const { component, round } = this.vessels.get(key);
    const leaves = this.sheet.steps.find(
      (step) => (byHand(step) && step.tips?.includes(key)) || (divides(step) && step.vessel === key),
    );
    if (leaves) return leaves.id;
    const part = this.sheet.steps.filter(
      (step) => step.component === component && step.round === round && !runsByItself(step),
    );
    const made = part.find((step) => countsPieces(step) && (!step.of?.length || step.of.includes(key)));
    if (made || !part.length) return made?.id;
    return this.#madeAfter(last(part).id) ?? last(part).id;
  }

  /** The first step that makes pieces of a part that makes none itself. @param {string} before */
  #madeAfter(before) {
    const after = new Set([before]);
    for (const key of this.turn) {
      const step = this.steps.get(key);
      if (!step.after.some((need) => after.has(need))) continue;
      after.add(key);
      if (countsPieces(step)) return key;
    }
    return undefined;
  }

  /** @param {string} key */
  #load(key) {
    const { component, round } = this.vessels.get(key);
    const lines = weighedLines(this.sheet, { component, round });
    const ends = full(lines.map(({ id, mg }) => /** @type {const} */ ([id, mg])));
    const held = new Map(loads(this.sheet, { component, round }, ends));
    for (const step of this.sheet.steps) {
      const whole = divides(step) ? held.get(step.vessel) : undefined;
      if (!divides(step) || whole === undefined) continue;
      const portion = step.portions.find(({ vessel }) => vessel === key);
      const of = sum(step.portions.map(({ share }) => share));
      if (portion) return ceiling(product(whole, portion.share), of);
    }
    return held.get(key) ?? 0;
  }

  /** The steps one after the other, in the order of the sheet as far as what they need allows. */
  #inTurn() {
    const ids = [...this.steps.keys()];
    const place = full(ids.map((key, number) => /** @type {const} */ ([key, number])));
    const missing = ids.map((key) => this.steps.get(key).after.filter((need) => place.has(need)).length);
    /** @type {number[][]} */
    const followers = ids.map(() => []);
    for (const key of ids)
      for (const need of this.steps.get(key).after)
        if (place.has(need)) followers[place.get(need)].push(place.get(key));
    const ready = ids.map((_key, number) => number).filter((number) => !missing[number]);
    /** @type {string[]} */
    const turn = [];
    while (ready.length) {
      const number = ready.splice(ready.indexOf(Math.min(...ready)), 1)[0];
      turn.push(ids[number]);
      for (const other of followers[number]) {
        missing[other] -= 1;
        if (!missing[other]) ready.push(other);
      }
    }
    return turn;
  }
}

/** @param {Step} step @param {string} key */
function fills(step, key) {
  if (divides(step)) return step.portions.some(({ vessel }) => vessel === key);
  if (byHand(step)) return Boolean(step.tips?.length) && step.into === key;
  return putsIn(step) && step.vessel === key;
}
