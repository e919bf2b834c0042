/**
 * What next, by a rule with foresight: no solver, so that a phone without a network can say it.
 * The same as bench/planning/foresight.py, which says how it goes and what the answers mean.
 */

import { Day, Layout, NEVER, USUAL } from "./layout.js";

const SLOW = [1300, 1150, USUAL]; // paces in thousandths, the most careful first; hands may be as much too quick
const PATIENCE_MS = 2 * 3_600_000; // being careful may not put the end off by more than this
const STAY_MS = 15 * 60_000; // how long past the bench hours is asked of a maker, to save pieces
const AHEAD = 6; // instants to wait for that are looked at

const told = (step, until, why, pace, broken) => ({ step, until, why, pace, broken });
const brokenOf = (layout) => layout.broken.map(({ over, gap }) => ({ gap, over_ms: over }));

/** The step to begin now, or until when to wait, and why: {step, until, why, pace, broken}. */
export function nextStep(problem, order, now, maker = 0) {
  return new Choice(new Day(problem, now), order, maker).made();
}

/** What happens if nothing is begun before `until`: {finish_at, later_ms, broken: [{gap, over_ms}]}. */
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

const notBefore = (day, until) => new Map(until === null ? [] : day.open.filter((index) => day.hands[index]).map((index) => [index, until]));

class Choice {
  #day;
  #maker;
  #order;
  #ready;

  constructor(day, order, maker) {
    this.#day = day;
    this.#maker = maker;
    this.#order = day.byNeed(order);
    this.#ready = this.#order.filter((index) => this.#isReady(index));
  }

  made() {
    const day = this.#day;
    if (!day.open.some((index) => day.hands[index])) return told(null, null, { kind: "finished" }, USUAL, []);
    const closes = this.#closes();
    if (closes === null) {
      const later = day.hours[this.#maker].map(([opens]) => opens).filter((opens) => opens > day.now);
      const opens = later.length ? Math.min(...later) : null;
      return told(null, opens, { kind: opens === null ? "no_hours" : "closed" }, USUAL, []);
    }
    const fitting = this.#ready.filter((index) => day.now + day.takes[index] <= closes);
    const events = this.#events();
    const going = this.#laid(USUAL, null);
    let patient = null; // the most careful wait, and when the day would end with it
    let ends = NEVER;
    for (const pace of SLOW) {
      let refused = null;
      const until = events.find((at) => this.#breaks(pace, at) === null) ?? null;
      const waiting = until === null ? null : this.#laid(USUAL, until);
      for (const index of fitting) {
        const bad = this.#breaks(pace, null, index);
        if (bad !== null) {
          refused ??= { index, layout: bad };
          continue;
        }
        const doing = new Layout(day, this.#order, { first: index });
        if (patient && doing.finish > ends - PATIENCE_MS) continue;
        if (waiting && !patient && isSooner(waiting, going, doing)) continue;
        return told(day.tasks[index].id, null, { kind: index === this.#ready[0] ? "next" : "sooner" }, pace, []);
      }
      if (until !== null && patient === null) {
        patient = this.#wait(until, pace, refused, closes);
        ends = waiting.finish;
      }
    }
    return patient ?? this.#leastBad(events, closes);
  }

  /** The first layout that breaks a gap; null when every gap is kept, with hands slower and quicker. */
  #breaks(pace, until, first = null) {
    const quick = 2 * USUAL - pace;
    const others = pace === USUAL ? [pace] : [pace, quick];
    const tried = first === null ? others.map((each) => [each, each]) : others.flatMap((each) => others.map((own) => [each, own]));
    for (const [each, own] of tried) {
      const laid = this.#laid(each, until, first, own);
      if (!laid.placed || laid.broken.length) return laid;
    }
    return null;
  }

  /** The rest of the day from now, or with nothing begun before `until`. */
  #laid(pace, until, first = null, own = null) {
    return new Layout(this.#day, this.#order, { pace, first, firstPace: own, notBefore: notBefore(this.#day, until) });
  }

  /** Something breaks whatever is done: the least time over, then the fewest, then the soonest end. */
  #leastBad(events, closes) {
    const day = this.#day;
    const made = [];
    for (const index of this.#ready) {
      const stays = Math.max(0, day.now + day.takes[index] - closes);
      if (stays <= STAY_MS) made.push({ stays, layout: new Layout(day, this.#order, { first: index }), chosen: index, until: null });
    }
    for (const at of events) made.push({ stays: 0, layout: this.#laid(USUAL, at), chosen: null, until: at });
    if (!made.length) return told(null, null, { kind: "no_hours" }, 0, []);
    const { stays, layout, chosen, until } = made.reduce((best, each) => (isLess(badness(each), badness(best)) ? each : best));
    const broken = brokenOf(layout);
    if (chosen === null) return { ...this.#wait(until, 0, null, closes), broken };
    const why = stays ? { kind: "stay", by_ms: stays, closes_at: closes } : { kind: "next" };
    return told(day.tasks[chosen].id, null, why, 0, broken);
  }

  #wait(until, pace, refused, closes) {
    const { tasks, takes, now } = this.#day;
    let why = { kind: "wait" };
    if (refused) {
      why = { kind: "window", step: tasks[refused.index].id };
      if (refused.layout.broken.length) {
        const { over, gap } = refused.layout.broken.reduce((worst, each) => (each.over > worst.over ? each : worst));
        why = { ...why, gap, over_ms: over, closes_at: closes };
      }
    } else if (this.#ready.length) {
      const [index] = this.#ready;
      why = { kind: now + takes[index] <= closes ? "ends_sooner" : "hours", step: tasks[index].id, closes_at: closes };
    }
    return told(null, until, why, pace, []);
  }

  #isReady(index) {
    const day = this.#day;
    return day.hands[index] && day.needs[index].every(([need, least]) => day.end[need] !== null && day.end[need] + least <= day.now);
  }

  /** When the stretch that is open now closes; null outside bench hours. */
  #closes() {
    const { hours, now } = this.#day;
    return hours[this.#maker].find(([opens, closes]) => opens <= now && now < closes)?.[1] ?? null;
  }

  /** The next instants at which the answer could be another, the soonest first. */
  #events() {
    const day = this.#day;
    const events = new Set();
    const later = (at) => {
      if (at > day.now) events.add(at);
    };
    for (const end of day.end) if (end !== null) later(end);
    for (const [opens] of day.hours[this.#maker]) later(opens);
    for (const index of day.open) for (const [need, least] of day.needs[index]) if (day.end[need] !== null) later(day.end[need] + least);
    for (const pace of new Set(SLOW.flatMap((slow) => [slow, 2 * USUAL - slow]))) {
      const laid = this.#laid(pace, null);
      const starts = laid.placed ? day.open.filter((index) => day.hands[index]).map((index) => laid.start[index]) : [];
      if (starts.length) later(Math.min(...starts));
    }
    return [...events].sort((a, b) => a - b).slice(0, AHEAD);
  }
}

/** What counts when something must give: time over in all, staying on included, then how many, then the end. */
const badness = ({ stays, layout }) => [layout.placed ? 0 : 1, layout.over() + stays, layout.broken.length, layout.finish];

function isLess(one, other) {
  const place = one.findIndex((each, index) => each !== other[index]);
  return place >= 0 && one[place] < other[place];
}

/** Whether waiting ends the day before doing this now does, when both keep every gap. */
function isSooner(waiting, going, doing) {
  if (!waiting.placed || waiting.broken.length) return false;
  return !doing.placed || doing.broken.length > 0 || Math.min(waiting.finish, going.finish) < doing.finish;
}
