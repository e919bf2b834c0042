/** What follows from the order of the steps: counts, tails, and what is held for a window. */

import { say } from "../../words.js";
import { BenchError } from "../errors.js";
import { full, last } from "../lists.js";
import { ASSEMBLY } from "../states.js";
import { countsPieces, isEmpty, traits, usualWaitMs } from "../steps/index.js";
/** @import { Step } from "../../../bench/shapes/page" */
/** @import { Draft, Place } from "../../../types/bench" */
/** @import { Full } from "../../../types/lists" */

/** @param {Draft<Step>[]} steps */
export const byIdOf = (steps) => full(steps.map((step) => /** @type {const} */ ([step.id, step])));

/** The recipe's own window of a step, and those by nature. @param {Draft<Step>} step */
const windowsOf = ({ window, keeps = [] }) => [...(window ? [window] : []), ...keeps];

/**
 * Takes out weighings with nothing left to weigh; what came after one comes after its needs.
 * @param {Draft<Step>[]} steps
 */
export function dropEmpty(steps) {
  for (const empty of steps.filter((step) => isEmpty(step))) {
    steps.splice(steps.indexOf(empty), 1);
    for (const step of steps) {
      for (const needs of [step.after, ...windowsOf(step).map(({ from }) => from)]) {
        const place = needs.indexOf(empty.id);
        if (place >= 0) needs.splice(place, 1, ...empty.after.filter((need) => !needs.includes(need)));
      }
    }
  }
}

/**
 * follows: for each count of pieces, the counts that its pieces come from.
 *
 * [{steps: [ids], takes}]: one for each such count with all its rounds, and how many of its pieces
 * one of these takes.
 * @param {Draft<Step>[]} steps @param {Full<string, number>} takes
 */
export function addFollows(steps, takes) {
  const byId = byIdOf(steps);
  for (const step of steps) {
    if (!countsPieces(step)) continue;
    /** @type {Map<string, {steps: string[], takes: number}>} */
    const sources = new Map();
    const seen = new Set();
    const stack = [...step.after];
    for (let key = stack.pop(); key !== undefined; key = stack.pop()) {
      if (seen.has(key)) continue;
      seen.add(key);
      const before = byId.get(key);
      const isInside = before.component === step.component;
      if (countsPieces(before) && (isInside || step.component === ASSEMBLY)) {
        const name = `${before.component} ${before.step}`; // a space sorts before any letter of an id
        const source = sources.get(name) ?? { steps: [], takes: isInside ? 1 : takes.get(before.component) };
        source.steps.push(key);
        sources.set(name, source);
      } else {
        stack.push(...before.after);
      }
    }
    step.follows = [...sources].sort(([one], [other]) => (one < other ? -1 : 1)).map(([, source]) => source);
    for (const source of step.follows) source.steps.sort();
  }
}

/**
 * tail_ms: the longest run of usual waits from the start of a step to the end of the batch.
 * @param {Draft<Step>[]} steps
 */
export function addTails(steps) {
  /** @type {Full<string, Draft<Step>[]>} */
  const followers = full(steps.map((step) => [step.id, []]));
  for (const step of steps) for (const need of step.after) followers.get(need).push(step);
  /** @type {Full<string, number>} */
  const tails = full();
  /** @type {Set<string>} */
  const opened = new Set();
  for (const start of steps) {
    const stack = [start];
    while (stack.length) {
      const step = last(stack);
      const open = followers.get(step.id).filter((each) => !tails.has(each.id));
      if (open.length) {
        if (opened.has(step.id)) {
          // Met again before what follows it was settled.
          throw new BenchError("pieces", say("sizes-waits-for-itself", { title: step.title }));
        }
        opened.add(step.id);
        stack.push(...open);
        continue;
      }
      stack.pop();
      const own = usualWaitMs(step);
      tails.set(step.id, own + Math.max(0, ...followers.get(step.id).map((each) => tails.get(each.id))));
    }
  }
  for (const step of steps) step.tail_ms = tails.get(step.id);
}

/**
 * hold_for: what else must be ready before a step is worth beginning, because a window follows.
 *
 * For a window opened by F and closed by C, what C needs of other parts should be done before F,
 * and before the hands-on steps of F's own round that lead straight to it.
 * @param {Draft<Step>[]} steps
 */
export function addHolds(steps) {
  const byId = byIdOf(steps);
  /** @type {Map<string, Set<string>>} */
  const known = new Map(); // many closings ask about the same steps
  /** @param {string} key */
  const before = (key) => {
    const found = known.get(key) ?? allBefore(byId, key);
    known.set(key, found);
    return found;
  };
  for (const step of steps) step.hold_for = [];
  for (const closing of steps) {
    for (const opener of new Set(windowsOf(closing).flatMap(({ from }) => from))) {
      const upstream = before(opener);
      const others = closing.after.filter(
        (need) =>
          !sameRound(byId.get(need), byId.get(opener)) && !upstream.has(need) && !before(need).has(opener),
      );
      for (const key of handsBefore(byId, opener)) {
        const held = byId.get(key).hold_for;
        held.push(...others.filter((need) => !held.includes(need)));
      }
    }
  }
}

/** @param {Place} one @param {Place} other */
function sameRound(one, other) {
  return one.component === other.component && one.round === other.round;
}

/** @param {Full<string, Draft<Step>>} byId @param {string} key */
function allBefore(byId, key) {
  /** @type {Set<string>} */
  const seen = new Set();
  const stack = [...byId.get(key).after];
  for (let need = stack.pop(); need !== undefined; need = stack.pop()) {
    if (seen.has(need)) continue;
    seen.add(need);
    stack.push(...byId.get(need).after);
  }
  return seen;
}

/**
 * The opener and the steps of its round that lead to it with no wait between.
 * @param {Full<string, Draft<Step>>} byId @param {string} opener
 */
function handsBefore(byId, opener) {
  /** @type {Set<string>} */
  const chain = new Set();
  const stack = [opener];
  for (let key = stack.pop(); key !== undefined; key = stack.pop()) {
    const step = byId.get(key);
    if (chain.has(key) || traits(step).runsByItself || !sameRound(step, byId.get(opener))) continue;
    chain.add(key);
    stack.push(...step.after);
  }
  return [...chain];
}
