/**
 * What next, by a rule with foresight: no solver, so that a phone without a network can say it.
 * The same as bench/planning/foresight.py, which says how it goes and what the answers mean.
 */

import { AT_ONCE_MS, holdsHands } from "./blocks.js";
import { canEmpty } from "./emptying.js";
import { Day, Layout, NEVER, USUAL } from "./layout.js";
import { full } from "./lists.js";
import { compare, NOTHING, priceOf, WHOLE } from "./price.js";
/** @import { Advice, GapOver, IfStopped, Problem, WhyNext } from "../../bench/shapes/page" */
/** @import { Full } from "../../types/lists" */
/** @import { Busy } from "./layout.js" */

const SLOW = [1300, 1150, USUAL]; // paces in thousandths, the most careful first; hands may be as much too quick
const PATIENCE_MS = 2 * 3_600_000; // being careful may not put the end off by more than this
const STAY_MS = 15 * 60_000; // how long past the bench hours is asked of a maker, to save pieces
const STAYED_MS = Math.floor((STAY_MS * SLOW[0]) / USUAL); // of who stayed already, and was slower than planned
const AHEAD = 6; // instants to wait for that are looked at

/**
 * @param {string | null} step @param {number | null} until @param {WhyNext} why @param {number} pace
 * @param {GapOver[]} broken @returns {Advice}
 */
const told = (step, until, why, pace, broken) => ({ step, until, why, pace, broken, risk: null });
/** @param {Layout} layout */
const worstOf = ({ broken }) => broken.reduce((worst, each) => (each.over > worst.over ? each : worst));
/** @param {Layout} layout @returns {GapOver[]} */
const brokenOf = (layout) => layout.broken.map(({ over, gap }) => ({ gap, over_ms: over }));

/**
 * The step to begin now, or until when to wait, and why.
 * @param {Problem} problem @param {readonly string[]} order @param {number} now @param {number} [maker]
 */
export function nextStep(problem, order, now, maker = 0) {
  return new Choice(new Day(problem, now), order, maker).made();
}

/**
 * The day with longer hours for who is beside an open state outside them, as `nextStep` bids them go on; the same day
 * where nobody is.
 * @param {Day} day @param {readonly string[]} order @returns {Day}
 */
export function withWhoStayed(day, order) {
  if (!day.atStake.size) return day;
  return day.hours.reduce((so, _, place) => new Choice(so, order, place).whoStayed(), day);
}

/**
 * What happens if nothing is begun before `until`.
 * @param {Problem} problem @param {readonly string[]} order @param {number} now @param {number | null} until
 * @returns {IfStopped}
 */
export function ifYouStop(problem, order, now, until) {
  const day = new Day(problem, now);
  const numbers = day.byNeed(order);
  const goingOn = new Layout(day, numbers);
  const stopped = new Layout(day, numbers, { notBefore: notBefore(day, until) });
  const before = new Set(goingOn.broken.map(({ gap }) => gap));
  return {
    finish_at: stopped.placed ? stopped.finish : null,
    later_ms: stopped.placed && goingOn.placed ? stopped.finish - goingOn.finish : null,
    broken: brokenOf(stopped).filter(({ gap }) => !before.has(gap)),
  };
}

/** @param {Day} day @param {number | null} until @returns {Map<number, number>} */
const notBefore = (day, until) =>
  new Map(until === null ? [] : day.open.filter((index) => day.hands[index]).map((index) => [index, until]));

/**
 * @typedef {{index: number, layout: Layout}} Refusal
 * @typedef {{bad: number[], stays: number, layout: Layout, chosen: number | null, until: number | null}} Way
 */

class Choice {
  #day;
  #given;
  #maker;
  #mayStay; // past the bench hours, to end what is open
  #order;
  #ready;
  #staying;
  /** @type {Full<string, Layout>} */
  #slow = full();

  /** @param {Day} day @param {readonly string[]} order @param {number} maker @param {{mayStay?: boolean}} [how] */
  constructor(day, order, maker, { mayStay = true } = {}) {
    this.#day = day;
    this.#given = order;
    this.#maker = maker;
    this.#mayStay = mayStay;
    this.#order = day.byNeed(order);
    const ready = this.#order.filter((index) => this.#isReady(index));
    this.#staying = ready.filter((index) => day.atStake.has(index));
    this.#ready = [...this.#staying, ...ready.filter((index) => !day.atStake.has(index))];
  }

  /** @returns {Advice} */
  made() {
    const day = this.#day;
    if (!day.open.some((index) => day.hands[index])) return told(null, null, { kind: "finished" }, USUAL, []);
    const closes = this.#closes();
    if (closes === null) {
      const stayed = this.#stayed();
      if (stayed) return stayed;
      const later = day.hours[this.#maker].map(([opens]) => opens).filter((opens) => opens > day.now);
      const opens = later.length ? Math.min(...later) : null;
      return told(null, opens, { kind: opens === null ? "no_hours" : "closed" }, USUAL, []);
    }
    const fitting = (this.#staying.length ? this.#staying : this.#ready).filter(
      (index) => day.now + day.takes[index] <= closes,
    );
    const events = this.#events();
    const going = this.#laid(USUAL, null);
    const soon = this.#staying.length ? null : this.#comesBy(going, day.now + AT_ONCE_MS);
    /** @type {Advice | null} */
    let patient = null; // the most careful wait, and when the day would end with it
    let ends = NEVER;
    for (const pace of SLOW) {
      /** @type {Refusal | null} */
      let refused = null;
      const until = events.find((at) => this.#breaks(pace, at) === null) ?? null;
      if (until !== null && soon !== null && patient === null) return this.#rest(until, pace, soon);
      const waiting = until === null ? null : this.#laid(USUAL, until);
      for (const index of fitting) {
        const bad = this.#breaks(pace, null, index);
        if (bad !== null) {
          refused ??= { index, layout: bad };
          continue;
        }
        if (pace < SLOW[0] && compare(this.#risks(index), this.#leastRisk(fitting, events)) > 0) continue;
        const doing = new Layout(day, this.#order, { first: index });
        if (patient && doing.finish > ends - PATIENCE_MS) continue;
        if (waiting && !patient && isSooner(waiting, going, doing)) continue;
        return this.#begin(index, { kind: index === this.#ready[0] ? "next" : "sooner" }, pace, []);
      }
      if (until !== null && patient === null) {
        patient = this.#wait(until, pace, refused, closes);
        ends = waiting?.finish ?? NEVER;
      }
    }
    return patient ?? this.#leastBad(events, closes);
  }

  /** @param {number} index @param {WhyNext} why @param {number} pace @param {GapOver[]} broken @returns {Advice} */
  #begin(index, why, pace, broken) {
    const said = told(this.#day.tasks[index].id, null, why, pace, broken);
    const laid = pace > 0 && pace < SLOW[0] ? this.#slowly(index, null) : null;
    if (!laid?.broken.length) return said;
    const { over, gap } = worstOf(laid);
    return { ...said, risk: { gap, over_ms: over } };
  }

  /**
   * The rest of the day with slow hands throughout; the same is asked for more than once.
   * @param {number | null} first @param {number | null} until
   */
  #slowly(first, until) {
    const key = `${first} ${until}`;
    if (!this.#slow.has(key)) this.#slow.set(key, this.#laid(SLOW[0], until, first));
    return this.#slow.get(key);
  }

  /**
   * What slow hands would ruin, and pay for bringing back.
   * @param {number | null} first @param {number | null} [until]
   */
  #risks(first, until = null) {
    const laid = this.#slowly(first, until);
    return [laid.placed ? 0 : 1, ...laid.price.slice(0, 2)];
  }

  /** @param {number[]} fitting @param {number[]} events */
  #leastRisk(fitting, events) {
    return [...fitting.map((each) => this.#risks(each)), ...events.map((at) => this.#risks(null, at))].reduce(
      (least, each) => (compare(each, least) < 0 ? each : least),
    );
  }

  /**
   * The first layout that breaks a gap; null when every gap is kept, with hands slower and quicker.
   * @param {number} pace @param {number | null} until @param {number | null} [first]
   */
  #breaks(pace, until, first = null) {
    const quick = 2 * USUAL - pace;
    const others = pace === USUAL ? [pace] : [pace, quick];
    const tried =
      first === null
        ? others.map((each) => [each, each])
        : others.flatMap((each) => others.map((own) => [each, own]));
    for (const [each, own] of tried) {
      const laid = this.#laid(each, until, first, own);
      if (!laid.placed || laid.broken.length) return laid;
    }
    return null;
  }

  /**
   * The rest of the day from now, or with nothing begun before `until`.
   * @param {number} pace @param {number | null} until @param {number | null} [first] @param {number | null} [own]
   */
  #laid(pace, until, first = null, own = null) {
    return new Layout(this.#day, this.#order, {
      pace,
      first,
      firstPace: own,
      notBefore: notBefore(this.#day, until),
    });
  }

  /**
   * Something breaks whatever is done: what costs least, slow hands first where a state would be ruined.
   * @param {number[]} events @param {number} closes @returns {Advice}
   */
  #leastBad(events, closes) {
    const stayed = this.#stayed();
    if (stayed) return stayed;
    const day = this.#day;
    /** @type {Way[]} */
    const made = [];
    for (const index of this.#ready) {
      const stays = Math.max(0, day.now + day.takes[index] - closes);
      const layout = stays <= STAY_MS ? new Layout(day, this.#order, { first: index }) : null;
      if (!layout) continue;
      const strays = this.#staying.length > 0 && !this.#staying.includes(index);
      const bad = badness(this.#risks(index), layout, this.#blind(layout, index), strays, stays, false);
      made.push({ bad, stays, layout, chosen: index, until: null });
    }
    for (const at of events) {
      const layout = this.#laid(USUAL, at);
      made.push({
        bad: badness(
          this.#risks(null, at),
          layout,
          this.#blind(layout, null),
          false,
          0,
          this.#staying.length > 0,
        ),
        stays: 0,
        layout,
        chosen: null,
        until: at,
      });
    }
    if (!made.length) return told(null, null, { kind: "no_hours" }, 0, []);
    const { stays, layout, chosen, until } = made.reduce((best, each) =>
      compare(each.bad, best.bad) < 0 ? each : best,
    );
    const broken = brokenOf(layout);
    if (chosen === null) return { ...this.#wait(until, 0, null, closes), broken };
    /** @type {WhyNext} */
    const why = stays ? { kind: "stay", by_ms: stays, closes_at: closes } : { kind: "next" };
    return this.#begin(chosen, why, 0, broken);
  }

  /**
   * Where nothing can be foreseen: whether what is in use could not all be emptied after this step, and whether it
   * leaves a state that is open.
   * @param {Layout} layout @param {number | null} index
   */
  #blind(layout, index) {
    if (layout.placed) return [0, 0];
    const strays = this.#staying.length > 0 && (index === null || !this.#staying.includes(index));
    return [canEmpty(this.#day, index) ? 0 : 1, strays ? 1 : 0];
  }

  /**
   * @param {number | null} until @param {number} pace @param {Refusal | null} refused @param {number} closes
   * @returns {Advice}
   */
  #wait(until, pace, refused, closes) {
    const { tasks, takes, now } = this.#day;
    /** @type {WhyNext} */
    let why = { kind: "wait" };
    if (refused) {
      const step = tasks[refused.index].id;
      why = { kind: "window", step };
      if (refused.layout.broken.length) {
        const { over, gap } = worstOf(refused.layout);
        why = { kind: "window", step, gap, over_ms: over, closes_at: closes };
      }
    } else if (this.#ready.length) {
      const [index] = this.#ready;
      why = {
        kind: now + takes[index] <= closes ? "ends_sooner" : "hours",
        step: tasks[index].id,
        closes_at: closes,
      };
    }
    return told(null, until, why, pace, []);
  }

  /**
   * @param {number} until @param {number} pace @param {number} beside the step of the open state that comes
   * @returns {Advice}
   */
  #rest(until, pace, beside) {
    return told(null, until, { kind: "rest", step: this.#day.tasks[beside].id }, pace, []);
  }

  /**
   * The next step of a state that is open, where one begins by then; else null.
   * @param {Layout} laid @param {number} at
   */
  #comesBy(laid, at) {
    const { atStake, hands } = this.#day;
    if (!laid.placed) return null;
    const begins = (/** @type {number} */ index) => laid.start[index] ?? NEVER;
    const coming = [...atStake].filter((index) => hands[index] && begins(index) <= at);
    return coming.sort((a, b) => begins(a) - begins(b) || a - b)[0] ?? null;
  }

  /**
   * What to begin, or to rest for, where a few minutes past the bench hours end a state that is open, keeping all it
   * asks or losing less than if it were left; else null.
   * @returns {Advice | null}
   */
  #stayed() {
    const { now, takes, number, atStake } = this.#day;
    const [last, goes] = this.#stretchToStayAfter();
    if (!last) return null;
    const closes = last[1];
    const later = this.#goingAt(last, goes);
    const said = later.made();
    const leaving = this.#laid(USUAL, null);
    if (!saves(said.broken, leaving)) return null;
    if (said.step === null) return this.#rested(later, said, leaving, goes);
    const index = number.get(said.step);
    const by = now + takes[index] - closes;
    if (by > 0 && !atStake.has(index)) return null;
    const stays = by > 0 && last[0] < closes;
    return stays ? { ...said, why: { kind: "stay", by_ms: by, closes_at: closes } } : said;
  }

  /**
   * The hours that would be made longer, and until when; none where nothing open asks for it, or it is too late.
   * @returns {[Busy | null, number]}
   */
  #stretchToStayAfter() {
    const { now, atStake } = this.#day;
    const last = this.#mayStay && atStake.size ? this.#lastStretch() : null;
    const goes = last ? last[1] + (now < last[1] ? STAY_MS : STAYED_MS) : 0;
    return last && now < goes ? [last, goes] : [null, 0];
  }

  /** The day with the hours in which they end what is open; as it is inside the bench hours, or where none is asked. */
  whoStayed() {
    const [last, goes] = this.#closes() === null ? this.#stretchToStayAfter() : [null, 0];
    return last && this.#stayed() ? this.#goingAt(last, goes).#day : this.#day;
  }

  /**
   * The stretch of the bench hours that began last; for hands that worked where there are none, the moment when they
   * last did: who opened a state there is at the bench.
   * @returns {Busy | null}
   */
  #lastStretch() {
    const { now, hours, hands, end } = this.#day;
    const last = hours[this.#maker].findLast(([opens]) => opens <= now) ?? null;
    const worked = Math.max(
      ...end.flatMap((at, index) => (hands[index] && at !== null && at <= now ? [at] : [])),
    );
    return worked >= (last ? last[1] + STAYED_MS : 0) ? [worked, worked] : last;
  }

  /**
   * The same with one stretch of the bench hours made longer, into the next where the break is as short.
   * @param {Busy} last @param {number} goes
   */
  #goingAt(last, goes) {
    const { problem, now, hours } = this.#day;
    const own = hours[this.#maker];
    const joined = own.filter(([opens]) => last[0] < opens && opens < goes);
    const closes = Math.max(goes, ...joined.map((each) => each[1]));
    const others = own.filter((each) => each !== last && (each[0] >= goes || each[1] <= last[0]));
    /** @type {Busy[]} */
    const longer = [.../** @type {Busy[]} */ ([[last[0], closes]]), ...others].sort((a, b) => a[0] - b[0]);
    const makers = problem.makers.map((maker, place) =>
      place === this.#maker ? { ...maker, hours: longer } : maker,
    );
    const day = new Day({ ...problem, makers }, now);
    return new Choice(day, this.#given, this.#maker, { mayStay: false });
  }

  /**
   * So that they go later, hands rest only for a step that would else be late.
   * @param {Choice} later @param {Advice} said @param {Layout} leaving @param {number} goes @returns {Advice | null}
   */
  #rested(later, { until, pace }, leaving, goes) {
    if (until === null || (leaving.placed && !leaving.broken.some(({ gap }) => holdsHands(gap)))) return null;
    const beside = this.#comesBy(later.#laid(USUAL, until), goes);
    return beside === null ? null : this.#rest(until, pace, beside);
  }

  /** @param {number} index */
  #isReady(index) {
    const day = this.#day;
    return (
      day.hands[index] &&
      day.needs[index].every(([need, least]) => (day.end[need] ?? NEVER) + least <= day.now) &&
      day.hasFree(index)
    );
  }

  /** When the stretch that is open now closes; null outside bench hours. */
  #closes() {
    const { hours, now } = this.#day;
    return hours[this.#maker].find(([opens, closes]) => opens <= now && now < closes)?.[1] ?? null;
  }

  /** The next instants at which the answer could be another, the soonest first. */
  #events() {
    const day = this.#day;
    /** @type {Set<number>} */
    const events = new Set();
    const later = (/** @type {number} */ at) => {
      if (at > day.now) events.add(at);
    };
    for (const end of day.end) if (end !== null) later(end);
    for (const [opens] of day.hours[this.#maker]) later(opens);
    for (const index of day.open)
      for (const [need, least] of day.needs[index]) {
        const end = day.end[need];
        if (end !== null) later(end + least);
      }
    for (const pace of new Set(SLOW.flatMap((slow) => [slow, 2 * USUAL - slow]))) {
      const laid = this.#laid(pace, null);
      const waitedFor = this.#staying.length ? this.#staying : day.open.filter((index) => day.hands[index]);
      const starts = laid.placed ? waitedFor.flatMap((index) => laid.start[index] ?? []) : [];
      if (starts.length) later(Math.min(...starts));
    }
    return [...events].sort((a, b) => a - b).slice(0, AHEAD);
  }
}

/**
 * What counts when something must give: where nothing can be foreseen, bowls that wait for each other for ever, and
 * leaving what is open; ruin, at the usual pace and by slow hands; beginning something else while a state is open;
 * bringing back; then windows of quality, and how many times their own size they are overrun; then staying on; resting
 * beside a state that is open, though hands could go on with it; and the end.
 * @param {number[]} risks @param {Layout} layout @param {number[]} blind @param {boolean} strays @param {number} stays
 * @param {boolean} rests
 */
function badness(risks, layout, blind, strays, stays, rests) {
  const [ruined, back, missed, share] = layout.placed ? layout.price : NOTHING;
  return [
    layout.placed ? 0 : 1,
    ...blind,
    ruined,
    risks[0],
    risks[1],
    strays ? 1 : 0,
    back,
    risks[2],
    missed,
    Math.floor(share / WHOLE),
    stays,
    rests ? 1 : 0,
    share,
    layout.finish,
  ];
}

/**
 * Whether staying on keeps what is open, or else loses less of it; nobody stays for what is lost already.
 * @param {Advice["broken"]} broken @param {Layout} leaving
 */
function saves(broken, leaving) {
  if (!broken.some(({ gap }) => holdsHands(gap))) return true;
  if (!leaving.placed) return false;
  const staying = priceOf(broken.map(({ over_ms, gap }) => ({ over: over_ms, gap })));
  return (
    compare(staying.slice(0, 2), leaving.price.slice(0, 2)) < 0 ||
    (compare(staying, leaving.price) < 0 && !staying[0])
  );
}

/**
 * Whether waiting ends the day before doing this now does, when both keep every gap.
 * @param {Layout} waiting @param {Layout} going @param {Layout} doing
 */
function isSooner(waiting, going, doing) {
  if (!waiting.placed || waiting.broken.length) return false;
  return !doing.placed || doing.broken.length > 0 || Math.min(waiting.finish, going.finish) < doing.finish;
}
