/**
 * What there is to do: the steps of a sheet as tasks, gaps and holds; and several of them as one problem.
 * The same as bench/planning/tasks.py and together.py, which say how it goes.
 */

import { stretches } from "./bench-hours.js";
import { BenchError } from "./errors.js";
import { heldNow, mouldHolds, mouldPools, toolsOf, vesselHolds, vesselNow, vesselPools } from "./holding.js";
import { full } from "./lists.js";
import { keepsMs, stakeOf } from "./states.js";
import { byHand, countsPieces, plannedMs, putsIn, runsByItself, usualHandsMs } from "./steps/index.js";
import { ceiling, halfEven, PPM, product, span, sum } from "./whole.js";
import { say } from "../words.js";
/** @import { Equipment, Gap, GapWhy, Hold, MakerWritten, Problem } from "../../bench/shapes/page" */
/** @import { Sheet, State, Step, TakesFrom, Task, TaskProgress, TasksOfRun } from "../../bench/shapes/page" */
/** @import { Window } from "../../bench/shapes/page" */
/** @import { Held, VesselHold } from "./holding.js" */
/** @import { Draft } from "../../types/bench" */

const MINUTE_MS = 60_000;
const LONGEST_MS = 366 * 86_400_000;
const TIGHT_MS = 120 * MINUTE_MS; // a window this short is kept by working straight through
const PAD_PPM = 150_000; // the room left in a tight chain, for hands that are slower than they think
const GRAIN_MS = 15_000; // hand times are kept to a quarter of a minute: nobody works finer

/** @param {number} ms */
const toGrain = (ms) => Math.max(GRAIN_MS, ceiling(ms, GRAIN_MS) * GRAIN_MS);
/** @param {number} ms @param {number} ppm */
const padded = (ms, ppm) => toGrain(ceiling(product(ms, PPM + ppm), PPM));

/**
 * @typedef {{[step: string]: number}} HandsMs
 * @typedef {{state?: State | null, run?: string, hands?: HandsMs}} HowFar
 */

/** @param {Sheet} sheet @param {HowFar} [how] state: how far the run has come @returns {TasksOfRun} */
export function tasksOf(sheet, { state = null, run = "", hands = {} } = {}) {
  return new Tasks(sheet, state, run, hands).told();
}

/**
 * What `tasksOf` gave for each run, as a problem.
 * @param {TasksOfRun[]} parts @param {readonly MakerWritten[]} makers as the studio says them @param {number} since
 * @param {number} until @param {number | null} [readyBy] @returns {Problem}
 */
export function makeProblem(parts, makers, since, until, readyBy = null) {
  return {
    since,
    ready_by: readyBy,
    zone: makers[0].hours.zone,
    makers: makers.map(({ name, hours }) => ({ name, hours: stretches(hours, since, until) })),
    equipment: Object.assign({}, ...parts.map(({ equipment }) => equipment)),
    tasks: parts.flatMap(({ tasks }) => tasks),
    gaps: parts.flatMap(({ gaps }) => gaps),
    holds: parts.flatMap(({ holds }) => holds),
  };
}

/** @template {{id: string}} T @param {readonly T[]} items */
const byId = (items) => full(items.map((item) => /** @type {const} */ ([item.id, item])));

class Tasks {
  /** @type {Map<string, Set<string>>} */
  #upstream = new Map();
  /**
   * @param {Sheet} sheet @param {State | null} state @param {string} run
   * @param {HandsMs} hands
   */
  constructor(sheet, state, run, hands) {
    this.sheet = sheet;
    this.state = state;
    this.run = run;
    this.hands = hands;
    this.steps = byId(sheet.steps);
    this.about = byId(sheet.components);
    this.running = new Map((state?.waits ?? []).map((wait) => [wait.step, wait]));
    this.tasks = full(sheet.steps.map((step) => /** @type {const} */ ([step.id, this.#task(step)])));
    this.gaps = sheet.steps.flatMap((step) => this.#gaps(step));
    this.#pad();
  }

  told() {
    const { kit } = this.sheet;
    /** @type {{[id: string]: Equipment}} */
    const equipment = {};
    for (const group of /** @type {const} */ (["scales", "heaters", "mixers"]))
      for (const each of kit[group]) equipment[`${group}.${each.id}`] = { name: each.name, many: 1 };
    const holds = this.#holds(equipment);
    return { tasks: [...this.tasks.values()], gaps: this.gaps, holds, equipment };
  }

  /** @param {string} step */
  #id(step) {
    return this.run ? `${this.run}/${step}` : step;
  }

  /** @param {Step} step @returns {Draft<Task>} */
  #task(step) {
    const waits = runsByItself(step);
    const [takes, source] = this.#takes(step);
    if (Math.max(takes, runsByItself(step) ? (step.latest_ms ?? 0) : 0) > LONGEST_MS) {
      throw new BenchError(`steps.${step.id}`, say("planning-over-a-year", { title: step.title }));
    }
    return {
      id: this.#id(step.id),
      run: this.run,
      component: step.component,
      letter: this.about.get(step.component).letter,
      round: step.round,
      title: step.title,
      kind: waits ? "wait" : "hands",
      takes_ms: takes,
      takes_from: source,
      uses: Object.fromEntries(toolsOf(this.sheet, step).map((tool) => [tool, 1])),
      ...this.#progress(step, takes),
    };
  }

  /**
   * How long a step holds the hands, or goes on, in ms, and where that comes from.
   * @param {Step} step @returns {[number, TakesFrom]}
   */
  #takes(step) {
    if (runsByItself(step)) return [step.usual_ms, "recipe"];
    if (step.id in this.hands) return [toGrain(this.hands[step.id]), "own runs"];
    if (step.hands_ms !== null) {
      const written = this.#writtenCount(step);
      if (countsPieces(step) && written)
        return [toGrain(ceiling(product(step.hands_ms, step.count || 1), written)), "recipe"];
      return [toGrain(step.hands_ms), "recipe"];
    }
    if (byHand(step) && step.about_ms) return [toGrain(step.about_ms), "recipe"];
    const planned = plannedMs(step);
    return planned === null
      ? [toGrain(usualHandsMs(step)), "common practice"]
      : [toGrain(planned), "planned bursts"];
  }

  /** For how many pieces the recipe's hand times were written; null when nobody can say. @param {Step} step */
  #writtenCount(step) {
    const { written_for: writtenFor, components } = this.sheet;
    const part = components.find(({ id }) => id === step.component);
    return part && writtenFor !== null ? writtenFor * part.takes + part.spares : null;
  }

  /** How far a step has come. @param {Step} step @param {number} takes @returns {TaskProgress} */
  #progress(step, takes) {
    /** @type {TaskProgress} */
    const open = { status: "open", began_at: null, ended_at: null, left_ms: takes };
    if (!this.state) return open;
    const told = this.state.steps[step.id];
    if (told.status === "done" || told.status === "skipped")
      return { status: "done", began_at: null, ended_at: told.at, left_ms: 0 };
    const wait = this.running.get(step.id);
    if (wait)
      return {
        status: "begun",
        began_at: wait.began_at,
        ended_at: null,
        left_ms: wait.usual_at - wait.began_at,
      };
    if (told.status !== "begun" || runsByItself(step)) return open;
    const began = [...(this.state.bursts[step.id] ?? []), ...(this.state.looks[step.id] ?? [])].map(
      ({ at }) => at,
    );
    began.push(...this.state.guides.filter((guide) => guide.step === step.id).map((guide) => guide.began_at));
    const made = this.#made(step, takes);
    // Counted pieces say more than a clock.
    return {
      status: "begun",
      began_at: made || !began.length ? null : Math.min(...began),
      ended_at: null,
      left_ms: Math.max(GRAIN_MS, takes - made),
    };
  }

  /**
   * The part of a begun step's time that its counted pieces or weighed lines have used, in ms.
   * @param {Step} step @param {number} takes
   */
  #made(step, takes) {
    const { state } = this;
    const count = state?.counts[step.id];
    if (state && count) {
      const made = count.good + count.spoiled + count.partial;
      return halfEven(product(takes, made), Math.max(made, state.expected[step.id], 1));
    }
    if (state && putsIn(step) && step.lines.length) {
      const settled = step.lines.filter((key) => state.lines[key].status !== "open");
      return halfEven(product(takes, settled.length), step.lines.length);
    }
    return 0;
  }

  /** @param {Step} step @returns {Gap[]} */
  #gaps(step) {
    if (this.tasks.get(step.id).status === "done") return [];
    const gaps = step.after.map((need) => {
      const before = this.steps.get(need);
      const most = this.#mostAfter(before);
      return runsByItself(before) && most !== null
        ? this.#gap([need], step, 0, most, "wait", before)
        : this.#gap([need], step, 0, null, "after", {});
    });
    const { window } = step;
    const humidity = this.state?.air.at(-1)?.humidity ?? null;
    /** @type {[GapWhy, Window][]} */
    const windows = (step.keeps ?? []).map((keeps) => [
      "keeps",
      { ...keeps, latest_ms: keepsMs(keeps, humidity) },
    ]);
    if (window) windows.unshift(["window", window]);
    const opened = windows.filter(([, each]) => each.from.length); // one that nothing opens says nothing
    const takes = step.hands_ms ?? 0; // as written: what a larger batch takes is only a reckoning
    if (window?.from.length && takes > window.latest_ms && !this.state) {
      throw new BenchError(
        `steps.${step.id}.window`,
        say("planning-not-within", {
          title: step.title,
          length: span(takes),
          most: span(window.latest_ms),
        }),
      );
    }
    return [
      ...gaps,
      ...opened.map(([why, each]) => this.#gap(each.from, step, null, each.latest_ms, why, each)),
    ];
  }

  /**
   * How long after the planned end of a wait what follows may begin; null once it is settled, or where nothing says
   * so.
   * @param {Step} wait
   */
  #mostAfter(wait) {
    const told = this.tasks.get(wait.id);
    if (!runsByItself(wait) || wait.latest_ms === null || told.status === "done") return null;
    return Math.max(0, wait.latest_ms - told.left_ms);
  }

  /**
   * over: the window, with what it is over and what missing it costs.
   * @param {readonly string[]} sources @param {Step} step @param {number | null} least @param {number | null} most
   * @param {GapWhy} why @param {Partial<Pick<Window, "stake" | "state" | "class" | "price_ms" | "lost_ms">>} over
   * @returns {Gap}
   */
  #gap(sources, step, least, most, why, over) {
    const state = why === "keeps" && !over.stake ? over.state : "";
    return {
      from: sources.map((each) => this.#id(each)),
      to: this.#id(step.id),
      least_ms: least,
      most_ms: most,
      why,
      stake: why === "keeps" ? stakeOf(over) : (over.stake ?? ""),
      class: over.class ?? "quality",
      price_ms: over.price_ms ?? 0,
      lost_ms: over.lost_ms ?? null,
      ...(state ? { state } : {}),
    };
  }

  /** Leave room in the tight chains: steps between the two ends of a short window take longer. */
  #pad() {
    /** @type {Set<string>} */
    const inside = new Set();
    for (const { id, window } of this.sheet.steps.flatMap((step) =>
      [step.window, ...(step.keeps ?? [])].map((each) => ({ id: step.id, window: each })),
    )) {
      if (!window || window.latest_ms > TIGHT_MS) continue;
      const chain = [...this.#before(id)].filter(
        (key) =>
          !runsByItself(this.steps.get(key)) && window.from.some((opener) => this.#before(key).has(opener)),
      );
      const total = sum(chain.map((key) => padded(this.tasks.get(key).takes_ms, PAD_PPM)));
      if (total <= window.latest_ms) for (const key of chain) inside.add(key);
    }
    for (const key of inside) {
      const task = this.tasks.get(key);
      if (task.status === "open") task.takes_ms = task.left_ms = padded(task.takes_ms, PAD_PPM);
    }
  }

  /** All that comes before a step, each step walked back from only once. @param {string} key @returns {Set<string>} */
  #before(key) {
    const known = this.#upstream.get(key);
    if (known) return known;
    /** @type {Set<string>} */
    const seen = new Set();
    this.#upstream.set(key, seen);
    const stack = [...this.steps.get(key).after];
    for (let need = stack.pop(); need !== undefined; need = stack.pop()) {
      if (seen.has(need)) continue;
      seen.add(need);
      stack.push(...this.steps.get(need).after);
    }
    return seen;
  }

  /**
   * One hold for each bowl, jug or mould and each pool of the kit it is taken from; the pools into `equipment`.
   * @param {{[id: string]: Equipment}} equipment
   */
  #holds(equipment) {
    const { kit } = this.sheet;
    const found = [
      ...vesselHolds(this.sheet).map((hold) => {
        const really = this.state && heldNow(this.state, hold) ? vesselNow(this.state, hold) : null;
        const pools = vesselPools(kit, hold.kind, hold.mg, really);
        return { hold, many: 1, pools, named: { vessel: this.#named(hold) } };
      }),
      ...mouldHolds(this.sheet).map((hold) => ({
        hold,
        many: hold.many,
        pools: mouldPools(kit, hold.shape, hold.piece_mg),
        named: {},
      })),
    ];
    /** @type {Hold[]} */
    const holds = [];
    for (const { hold, many, pools, named } of found) {
      for (const pool of pools) equipment[pool.key] = { name: pool.name, many: pool.many };
      const isBegun = this.tasks.get(hold.from).status !== "open";
      if (this.tasks.get(hold.until).status === "done" || (isBegun && !this.#isHeld(hold))) continue;
      for (const { key } of pools)
        holds.push({
          equipment: key,
          many,
          from: this.#id(hold.from),
          until: this.#id(hold.until),
          ...named,
        });
    }
    return holds;
  }

  /** The vessel of the kit as which the bench has it. @param {VesselHold} hold */
  #named(hold) {
    const vessel = (this.state && vesselNow(this.state, hold)) ?? hold.vessel;
    return this.sheet.kit.vessels.find(({ id }) => id === vessel)?.name ?? "";
  }

  /** @param {Held} hold */
  #isHeld(hold) {
    return this.state !== null && heldNow(this.state, hold);
  }
}
