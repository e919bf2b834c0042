/**
 * Laying a day out by an order: each step in turn as early as it can be, in whole ms, with no solver.
 * The same as bench/planning/layout.py, which says how it goes.
 */

import { blocksOf, holdsHands } from "./blocks.js";
import { full, last } from "./lists.js";
import { compare, priceOf } from "./price.js";
/** @import { Gap, Problem } from "../../bench/shapes/page" */

export const USUAL = 1000; // paces are in thousandths of the planned time
const LEAST_LEFT_MS = 15_000; // a step that takes longer than planned is believed to be nearly done
const MOST_ROUNDS = 400; // of putting openers later; a day that needs more has no answer this way
export const NEVER = Number.MAX_SAFE_INTEGER;
const SLOW_HANDS = 1300; // what opens a state is begun where all of it fits with hands so slow

/**
 * @typedef {readonly number[]} Busy from when to when
 * @typedef {{sources: number[], to: number, most: number, gap: Gap}} Most a gap that must not be longer
 * @typedef {{pace?: number, first?: number | null, firstPace?: number | null, notBefore?: Map<number, number>}} How
 */

/** A problem at an instant, its tasks numbered: what has ended, what runs, what is open. */
export class Day {
  /** @param {Problem} problem @param {number} now */
  constructor(problem, now) {
    this.problem = problem;
    this.now = now;
    const { tasks } = problem;
    this.tasks = tasks;
    this.number = full(tasks.map(({ id }, index) => /** @type {const} */ ([id, index])));
    this.takes = tasks.map((task) => task.left_ms);
    this.hands = tasks.map((task) => task.kind === "hands");
    /** @type {[number, number][][]} */
    this.needs = tasks.map(() => []);
    /** @type {Most[]} */
    this.mosts = [];
    for (const gap of problem.gaps) {
      const to = this.number.get(gap.to);
      const sources = gap.from.map((each) => this.number.get(each));
      const { least_ms: least } = gap;
      if (least !== null) for (const source of sources) this.needs[to].push([source, least]);
      if (gap.most_ms !== null) this.mosts.push({ sources, to, most: gap.most_ms, gap });
    }
    this.holds = problem.holds.map((hold) => ({
      fill: this.number.get(hold.from),
      empty: this.number.get(hold.until),
      many: hold.many,
      key: hold.equipment,
    }));
    this.uses = tasks.map(({ uses }) => new Map(Object.entries(uses)));
    // One pair of hands keeps the things it uses apart; only several, or none, must look.
    this.apart =
      problem.makers.length === 1 &&
      tasks.every((_task, index) => this.hands[index] || this.uses[index].size === 0);
    this.hours = problem.makers.map(({ hours }) => hours);
    this.longest = Math.max(0, ...this.hours.flat().map(([opens, closes]) => closes - opens));
    /** @type {(number | null)[]} */
    this.start = tasks.map(() => null);
    /** @type {(number | null)[]} */
    this.end = tasks.map(() => null);
    /** @type {(number | null)[]} */
    this.maker = tasks.map(() => null);
    this.#takeHistory();
    this.open = [...tasks.keys()].filter((index) => this.end[index] === null);
    this.full = this.#takeInUse();
    this.atStake = this.#leadsToEnds();
    this.blocks = blocksOf(this);
    /** @type {Map<number, number[]>} */
    this.block = new Map();
    for (const block of this.blocks) for (const index of block) this.block.set(index, block);
    this.pressing = this.withNeeds(this.atStake);
  }

  /** @param {string} key */
  many(key) {
    return this.problem.equipment[key].many;
  }

  /** What is done keeps its end; what hands are on, and a wait that runs, is believed to end soon. */
  #takeHistory() {
    let inHand = 0;
    for (const [index, task] of this.tasks.entries()) {
      if (task.status === "done") {
        this.end[index] = task.ended_at;
        this.start[index] = task.began_at ?? task.ended_at;
      } else if (task.status === "begun" && !this.hands[index]) {
        this.start[index] = task.began_at;
        this.end[index] = Math.max(this.now, (task.began_at ?? 0) + task.left_ms);
      } else if (task.status === "begun" && inHand < this.hours.length) {
        const began = task.began_at ?? this.now;
        this.start[index] = began;
        this.end[index] = Math.max(this.now + LEAST_LEFT_MS, began + task.left_ms);
        this.maker[index] = inHand;
        inHand += 1;
      }
    }
  }

  /** The steps whose bowl or mould is in use already. What is in use beyond what the kit has is of no kit. */
  #takeInUse() {
    const full = new Set(
      this.holds
        .filter(({ fill, empty }) => this.tasks[fill].status !== "open" && this.end[empty] === null)
        .map(({ fill }) => fill),
    );
    /** @type {Map<string, number>} */
    const left = new Map();
    this.holds = this.holds
      .map((hold) => {
        if (!full.has(hold.fill)) return hold;
        const there = left.get(hold.key) ?? this.many(hold.key);
        const many = Math.min(hold.many, there);
        left.set(hold.key, there - many);
        return { ...hold, many };
      })
      .filter(({ many }) => many);
    return full;
  }

  /** The open steps and waits that lead to the end of a state that is open now. */
  #leadsToEnds() {
    /** @type {Set<number>} */
    const chain = new Set();
    const isOver = (/** @type {number} */ index) => (this.end[index] ?? NEVER) <= this.now;
    for (const { sources, to, gap } of this.mosts) {
      const stack = holdsHands(gap) && this.end[to] === null && sources.every(isOver) ? [to] : [];
      for (let index = stack.pop(); index !== undefined; index = stack.pop()) {
        if (chain.has(index)) continue;
        chain.add(index);
        stack.push(...this.needs[index].map(([need]) => need).filter((need) => this.end[need] === null));
      }
    }
    return chain;
  }

  /** Steps with all they still need, each block whole. @param {Iterable<number>} steps */
  withNeeds(steps) {
    /** @type {Set<number>} */
    const chain = new Set();
    const stack = [...steps];
    for (let index = stack.pop(); index !== undefined; index = stack.pop()) {
      if (chain.has(index)) continue;
      chain.add(index);
      stack.push(...(this.block.get(index) ?? []));
      stack.push(...this.needs[index].map(([need]) => need).filter((need) => this.end[need] === null));
    }
    return chain;
  }

  /** Whether what a step takes up for longer is there now. @param {number} index */
  hasFree(index) {
    return this.holds
      .filter(({ fill }) => fill === index && !this.full.has(fill))
      .every(({ key, many }) => {
        const taken = this.holds.filter(
          (other) => other.key === key && (this.full.has(other.fill) || this.#isFixedAt(other, this.now)),
        );
        return taken.reduce((sum, other) => sum + other.many, many) <= this.many(key);
      });
  }

  /**
   * Whether a hold that is past moving goes on at an instant.
   * @param {{fill: number, empty: number}} hold
   * @param {number} at
   */
  #isFixedAt({ fill, empty }, at) {
    const [start, end] = [this.start[fill], this.end[empty]];
    return start !== null && end !== null && start <= at && at < end;
  }

  /**
   * The open tasks by this order, what is at stake first, each after what it needs; what the order lacks comes last.
   * @param {readonly string[]} order
   */
  byNeed(order) {
    const rank = new Map(order.map((key, place) => [key, place]));
    const rankOf = (/** @type {number} */ index) => rank.get(this.tasks[index].id) ?? order.length;
    const isCalm = (/** @type {number} */ index) => (this.atStake.has(index) ? 0 : 1);
    const first = [...this.open].sort((a, b) => isCalm(a) - isCalm(b) || rankOf(a) - rankOf(b) || a - b);
    /** @type {Set<number>} */
    const placed = new Set();
    for (const one of first) {
      const stack = placed.has(one) ? [] : [one];
      while (stack.length) {
        const index = last(stack);
        const whole = this.block.get(index) ?? [index];
        const missing = whole
          .flatMap((each) => this.needs[each])
          .find(
            ([need]) =>
              this.end[need] === null && !placed.has(need) && !whole.includes(need) && !stack.includes(need),
          );
        if (missing) {
          stack.push(missing[0]);
          continue;
        }
        stack.pop();
        for (const each of whole) placed.add(each);
      }
    }
    return [...placed];
  }

  /** The longest run of times from the start of each task to the end of the day, in ms. */
  tails() {
    /** @type {[number, number][][]} */
    const followers = this.tasks.map(() => []);
    for (const index of this.open)
      for (const [need, least] of this.needs[index]) followers[need].push([index, least]);
    const tails = this.tasks.map(() => 0);
    for (const index of this.byNeed([]).reverse()) {
      const after = followers[index].map(([each, least]) => least + tails[each]);
      tails[index] = this.takes[index] + (after.length ? Math.max(...after) : 0);
    }
    return tails;
  }

  /** The plain rule's order: what has the longest run of times after it goes first. */
  latestFinishFirst() {
    const tails = this.tails();
    const late = (/** @type {number} */ index) => this.takes[index] - tails[index];
    return [...this.open].sort((a, b) => late(a) - late(b) || a - b).map((index) => this.tasks[index].id);
  }
}

/** One laying out of a day. `broken` is [{over, gap}], `finish` the end of the last task. */
export class Layout {
  /**
   * @param {Day} day @param {readonly number[]} order task numbers as `byNeed` gives them
   * @param {How} [how] first: a ready step that begins now, whatever the order says; paces in thousandths; notBefore:
   *   task -> earliest start
   */
  constructor(day, order, { pace = USUAL, first = null, firstPace = null, notBefore = new Map() } = {}) {
    this.day = day;
    this.pace = pace;
    this.first = first;
    this.firstPace = firstPace ?? pace;
    // Begun now, it is followed by the rest of its block: nothing else is to come between.
    this.ahead =
      first === null ? [] : [first, ...(day.block.get(first) ?? []).filter((each) => each !== first)];
    this.order = [...this.ahead, ...order.filter((each) => !this.ahead.includes(each))];
    this.least = new Map(notBefore);
    /** @type {Set<Gap>} */
    this.hurried = new Set(); // whose steps go first, because what opens them is past moving
    this.freed = new Set(); // steps that go first, because what they free is waited for
    this.placed = true;
    /** @type {{over: number, gap: Gap}[]} */
    this.broken = [];
    this.start = [...day.start];
    this.end = [...day.end];
    this.maker = [...day.maker];
    /** @type {Busy[][]} */
    this.busy = [];
    this.#lay();
    this.finish = Math.max(
      ...this.end.filter((end) => end !== null),
      ...(this.end.some((end) => end !== null) ? [] : [day.now]),
    );
  }

  /** What the broken gaps cost: the first that differs decides. */
  get price() {
    return priceOf(this.broken);
  }

  /** Lay the day out until no opener is to be put later; where that leaves no room, as it cost least before. */
  #lay() {
    /** @type {Pick<Layout, "price" | "start" | "end" | "maker" | "broken"> | null} */
    let best = null;
    for (let round = 0; round < MOST_ROUNDS; round += 1) {
      if (!this.#once()) {
        if (this.#freeFirst()) continue;
        break;
      }
      if (this.#leaveFree()) continue;
      if (!this.#putOpenersLater()) return;
      const { price, start, end, maker, broken } = this;
      if (best === null || compare(price, best.price) < 0) best = { price, start, end, maker, broken };
    }
    this.placed = best !== null;
    if (best) ({ start: this.start, end: this.end, maker: this.maker, broken: this.broken } = best);
  }

  /**
   * How long a task takes at this pace, in ms; never past the longest stretch if it fits at all.
   * @param {number} index
   */
  #lasts(index) {
    const takes = this.day.takes[index];
    if (!this.day.hands[index]) return takes;
    if (index === this.first) return Math.floor((takes * this.firstPace) / USUAL);
    const paced = Math.floor((takes * this.pace) / USUAL);
    return Math.max(Math.min(takes, paced), Math.min(paced, this.day.longest));
  }

  /** Place every open task once; false when the bench hours run out. */
  #once() {
    const { day } = this;
    this.start = [...day.start];
    this.end = [...day.end];
    this.maker = [...day.maker];
    this.busy = day.hours.map(() => []);
    for (const [index, maker] of day.maker.entries()) {
      const end = day.end[index];
      if (maker !== null && end !== null) this.busy[maker].push([day.now, end]);
    }
    const frees = new Set(day.holds.map(({ empty }) => empty));
    let left = this.order;
    while (left.length) {
      // what waits for a bowl or mould that a later step empties goes as soon as that is placed
      /** @type {number[]} */
      const waiting = [];
      for (const [place, index] of left.entries()) {
        if (!this.#placed(index)) waiting.push(index);
        else if (waiting.length && frees.has(index)) {
          waiting.push(...left.slice(place + 1));
          break;
        }
      }
      if (waiting.length === left.length) return false;
      left = waiting;
    }
    return true;
  }

  /** Whether a task has its place, or can be given one now. @param {number} index */
  #placed(index) {
    const { day } = this;
    if (this.end[index] !== null) return true;
    const block = day.block.get(index);
    if (block && this.#onceBlock(block)) return true;
    let ready = this.#ready(index);
    if (ready === null) return false;
    if (!day.hands[index]) {
      if (day.needs[index].length && day.tasks[index].kind === "wait")
        ready = Math.max(...day.needs[index].map(([need, least]) => this.#ended(need) + least)); // it begins by itself
      const at = this.#onceFree(index, ready, day.takes[index]);
      if (at === NEVER) return false;
      this.start[index] = at;
      this.end[index] = at + day.takes[index];
      return true;
    }
    const lasts = this.#lasts(index);
    const chosen = this.#earliest(index, ready, lasts);
    if (chosen === null) return false;
    const [at, maker] = chosen;
    this.start[index] = at;
    this.end[index] = at + lasts;
    this.maker[index] = maker;
    put(this.busy[maker], [at, at + lasts]);
    return true;
  }

  /** When a task ends that has its place. @param {number} index */
  #ended(index) {
    return this.end[index] ?? NEVER;
  }

  /**
   * From when on a task may begin, those of `within` aside; null while a need has no place yet.
   * @param {number} index @param {number[]} [within]
   */
  #ready(index, within = []) {
    const { day } = this;
    let ready = Math.max(day.now, this.least.get(index) ?? day.now);
    for (const [need, least] of day.needs[index]) {
      const end = this.end[need];
      if (end !== null) ready = Math.max(ready, end + least);
      else if (!within.includes(need)) return null;
    }
    return ready;
  }

  /**
   * Place what is left of a block in one piece; false when that cannot be, and nothing is placed.
   * @param {number[]} block
   */
  #onceBlock(block) {
    const { day } = this;
    const left = block.filter((each) => this.end[each] === null);
    if (left.length < 2 || left.some((each) => each === this.first)) return false;
    /** @type {number[]} */
    const after = [];
    let total = 0;
    for (const each of left) {
      after.push(total);
      total += this.#lasts(each);
    }
    const readies = left.flatMap((each) => this.#ready(each, left) ?? []);
    if (readies.length < left.length) return false;
    const ready = Math.max(day.now, ...readies.map((at, place) => at - after[place]));
    const usual = left.reduce((sum, each) => sum + day.takes[each], 0);
    // What is open already has no room for slow hands to wait for.
    const isOpen = left.some((each) => day.atStake.has(each));
    const slow = isOpen ? 0 : Math.min(Math.floor((usual * SLOW_HANDS) / USUAL), day.longest);
    const chosen = this.#earliestBlock(left, after, ready, total, Math.max(total, slow));
    if (chosen === null) return false;
    const [at, maker] = chosen;
    for (const [place, each] of left.entries()) {
      this.start[each] = at + after[place];
      this.end[each] = at + after[place] + this.#lasts(each);
      this.maker[each] = maker;
    }
    put(this.busy[maker], [at, at + total]);
    return true;
  }

  /**
   * @param {number[]} block @param {number[]} after @param {number} ready @param {number} total @param {number} room
   */
  #earliestBlock(block, after, ready, total, room) {
    /** @type {[at: number, maker: number] | null} */
    let best = null;
    for (const [maker, hours] of this.day.hours.entries()) {
      let at = hole(hours, this.busy[maker], ready, total, room);
      while (at !== null) {
        let later = at;
        for (const [place, each] of block.entries()) {
          const free = this.#equipmentFree(each, at + after[place], this.#lasts(each));
          if (free === NEVER) return best;
          later = Math.max(later, free - after[place]);
        }
        if (later === at) {
          if (best === null || at < best[0]) best = [at, maker];
          break;
        }
        at = hole(hours, this.busy[maker], later, total, room);
      }
    }
    return best;
  }

  /**
   * The first instant from `ready` on when all that a task uses is free; NEVER when it never is.
   * @param {number} index @param {number} ready @param {number} lasts
   */
  #onceFree(index, ready, lasts) {
    let at = ready;
    for (;;) {
      const later = this.#equipmentFree(index, at, lasts);
      if (later === at || later === NEVER) return later;
      at = later;
    }
  }

  /**
   * The first instant, and the maker, at which a step can begin; a first step begins now.
   * @param {number} index @param {number} ready @param {number} lasts
   */
  #earliest(index, ready, lasts) {
    /** @type {[at: number, maker: number] | null} */
    let best = null;
    for (const [maker, hours] of this.day.hours.entries()) {
      let at = ready;
      for (;;) {
        const now = !clash(this.busy[maker], at, lasts) && opened(hours, at) ? at : null;
        const found = index === this.first ? now : hole(hours, this.busy[maker], at, lasts, lasts);
        if (found === null) break;
        const later = this.#equipmentFree(index, found, lasts);
        if (later === found) {
          if (best === null || found < best[0]) best = [found, maker];
          break;
        }
        if (later === NEVER) return null;
        at = later;
      }
    }
    return best;
  }

  /**
   * `at` when all that the step uses is free then, else a later instant to try; NEVER without one.
   * @param {number} index @param {number} at @param {number} lasts
   */
  #equipmentFree(index, at, lasts) {
    let later = at;
    if (!this.day.apart)
      for (const [key, many] of this.day.uses[index])
        later = Math.max(later, this.#useFree(key, many, at, lasts));
    for (const { fill, many, key } of this.day.holds)
      if (fill === index && !this.day.full.has(fill))
        later = Math.max(later, this.#holdFree(index, key, many, at));
    return later;
  }

  /** @param {string} key @param {number} many @param {number} at @param {number} lasts */
  #useFree(key, many, at, lasts) {
    /** @type {[number, number][]} */
    const taken = [];
    for (const [other, uses] of this.day.uses.entries()) {
      const [start, end] = [this.start[other], this.end[other]];
      const used = uses.get(key);
      if (used !== undefined && start !== null && end !== null && start < at + lasts && at < end)
        taken.push([end, used]);
    }
    return this.#free(taken, key, many, at);
  }

  /**
   * When enough is empty: what is not emptied yet in this order is held for ever.
   * @param {number} index @param {string} key @param {number} many @param {number} at
   */
  #holdFree(index, key, many, at) {
    /** @type {[number, number][]} */
    const held = [];
    for (const hold of this.day.holds) {
      const start = this.#begins(hold.fill);
      if (hold.key !== key || hold.fill === index || start === null) continue;
      const end = this.end[hold.empty];
      // Promised to a batch that is planned already: `leaveFree` sees to it.
      if (this.day.end[hold.empty] !== null && start > at) continue;
      if (end === null || end > at) held.push([end ?? NEVER, hold.many]);
    }
    return this.#free(held, key, many, at);
  }

  /** @param {[number, number][]} taken @param {string} key @param {number} many @param {number} at */
  #free(taken, key, many, at) {
    const total = taken.reduce((sum, [, each]) => sum + each, 0);
    if (total + many <= this.day.many(key)) return at;
    return Math.min(NEVER, ...taken.map(([end]) => end));
  }

  /** From when on what this step fills is in use; null while it has no place yet. @param {number} fill */
  #begins(fill) {
    return this.day.full.has(fill) ? this.day.now : this.start[fill];
  }

  /**
   * Nothing more can be placed. Let what empties a bowl or mould that is waited for go first, with all it needs;
   * false when nothing is waited for, or all of it went first already.
   */
  #freeFirst() {
    const { holds, full } = this.day;
    const waiting = new Set(
      holds
        .filter(({ fill }) => this.end[fill] === null && !full.has(fill) && this.#ready(fill) !== null)
        .map(({ key }) => key),
    );
    const blocking = holds.find(
      ({ fill, empty, key }) =>
        waiting.has(key) && this.#begins(fill) !== null && this.end[empty] === null && !this.freed.has(empty),
    );
    if (!blocking) return false;
    this.freed.add(blocking.empty);
    this.#goFirst(blocking.empty);
    return true;
  }

  /**
   * Put later what fills a bowl or mould that is promised to a batch planned already, and would not be empty by
   * then.
   */
  #leaveFree() {
    const { day } = this;
    for (const { fill: fixed, empty: freed, key } of day.holds) {
      const until = day.end[freed] ?? day.now;
      if (until <= day.now) continue;
      const at = this.start[fixed] ?? day.now;
      const there = day.holds.filter(
        (hold) =>
          hold.key === key && (this.start[hold.fill] ?? day.now) <= at && at < (this.end[hold.empty] ?? at),
      );
      const own = there.filter(({ fill }) => day.end[fill] === null && !day.full.has(fill));
      const total = there.reduce((sum, { many }) => sum + many, 0);
      if (!own.length || total <= day.many(key)) continue;
      /** @param {{fill: number}} hold */
      const begun = ({ fill }) => this.start[fill] ?? day.now;
      own.sort((one, other) => begun(other) - begun(one) || other.fill - one.fill);
      this.least.set(own[0].fill, until);
      return true;
    }
    return false;
  }

  /** Say what is broken, and put its openers later; true when something was. */
  #putOpenersLater() {
    let moved = false;
    this.broken = [];
    for (const { sources, to, most, gap } of this.day.mosts) {
      const start = this.start[to];
      if (start === null || this.day.end[to] !== null) continue;
      const opened = Math.max(...sources.map((each) => this.#ended(each)));
      const over = start - opened - most;
      if (over <= 0) continue;
      const latest = sources.filter((each) => this.end[each] === opened);
      this.broken.push({ over, gap });
      if (latest.some((each) => this.#delay(each, over)) || this.#hurry(to, gap)) moved = true;
    }
    return moved;
  }

  /**
   * Let the step that closes a gap, and all it still needs, go before the rest; false if it does already.
   * @param {number} to @param {Gap} gap
   */
  #hurry(to, gap) {
    if (this.hurried.has(gap)) return false;
    this.hurried.add(gap);
    this.#goFirst(to);
    return true;
  }

  /** Let a step, and all it still needs, go before the rest. @param {number} to */
  #goFirst(to) {
    const chain = this.day.withNeeds([to]);
    const rank = (/** @type {number} */ index) =>
      this.day.pressing.has(index) ? 0 : chain.has(index) ? 1 : 2;
    const others = this.order.filter((index) => !this.ahead.includes(index));
    this.order = [...this.ahead, ...others.sort((a, b) => rank(a) - rank(b))];
  }

  /**
   * Make a task end later by so much, a wait through the last of its needs; false if it is history, is to begin now or
   * follows at once.
   * @param {number} index @param {number} by @returns {boolean}
   */
  #delay(index, by) {
    if (this.day.end[index] !== null || this.ahead.includes(index)) return false;
    const later = (this.start[index] ?? NEVER) + by;
    if (this.#isDue(index, later)) return false;
    if (this.day.tasks[index].kind !== "wait") {
      this.least.set(index, later);
      return true;
    }
    // A wait goes on from the last of its needs, so one of those that end last is enough.
    return this.day.needs[index].some(
      ([need, least]) => this.#ended(need) + least === this.start[index] && this.#delay(need, by),
    );
  }

  /**
   * Whether a task at that instant would be too late after what is past moving itself.
   * @param {number} index @param {number} at
   */
  #isDue(index, at) {
    const isFixed = (/** @type {number} */ each) => this.day.end[each] !== null || each === this.first;
    return this.day.mosts.some(
      ({ sources, to, most }) =>
        to === index &&
        sources.every(isFixed) &&
        at - Math.max(...sources.map((each) => this.#ended(each))) > most,
    );
  }
}

/** The place of the last stretch that opens by then; -1 for none. @param {readonly Busy[]} hours @param {number} at */
function lastOpened(hours, at) {
  let [low, high] = [0, hours.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (hours[middle][0] <= at) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** @param {readonly Busy[]} hours @param {number} at */
function opened(hours, at) {
  const place = lastOpened(hours, at);
  return place >= 0 && at < hours[place][1];
}

/** @param {readonly Busy[]} busy @param {number} at @param {number} lasts */
const clash = (busy, at, lasts) => busy.some(([begin, end]) => begin < at + lasts && at < end);

/**
 * The first instant from `ready` on with `room` for a step: open all through, and not busy.
 * @param {readonly Busy[]} hours @param {readonly Busy[]} busy @param {number} ready @param {number} lasts
 * @param {number} room
 */
function hole(hours, busy, ready, lasts, room) {
  for (let place = Math.max(0, lastOpened(hours, ready)); place < hours.length; place += 1) {
    const [opens, closes] = hours[place];
    let at = Math.max(ready, opens);
    for (const [begin, end] of busy) {
      if (begin >= at + lasts) break;
      if (end > at) at = end;
    }
    if (at + room <= closes) return at;
  }
  return null;
}

/** @param {Busy[]} busy @param {Busy} stretch */
function put(busy, stretch) {
  const place = busy.findIndex(
    ([begin, end]) => begin > stretch[0] || (begin === stretch[0] && end > stretch[1]),
  );
  busy.splice(place < 0 ? busy.length : place, 0, stretch);
}
