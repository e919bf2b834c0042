/**
 * Bench hours as written on a wall clock, made into stretches of absolute instants. The same as
 * `stretches` of bench/planning/bench_hours.py, for hours that the studio has taken: what is at fault is said there.
 */

import { full, last } from "./lists.js";
/** @import { HoursWritten } from "../../bench/shapes/page" */
/** @import { Full } from "../../types/lists" */

const DAYS = ["sun", "mon", "tue", "wed", "thu", "fri", "sat"];
const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** @type {Full<string, Place>} */
const places = full(); // each zone's clock, kept: it costs more to make one than to ask it

/**
 * @param {HoursWritten} hours @param {number} since @param {number} until
 * @returns {[opens: number, closes: number][]} in order, none touching the next
 */
export function stretches({ zone, daily = [], days = {}, dates = {} }, since, until) {
  if (!places.has(zone)) places.set(zone, new Place(zone));
  const place = places.get(zone);
  /** @type {[number, number][]} */
  const found = [];
  // Days are counted as if the clock were UTC's: only `instant` knows the place.
  const final = Math.floor(place.clock(until) / DAY_MS);
  for (let day = Math.floor(place.clock(since) / DAY_MS) - 1; day <= final; day += 1) {
    const date = new Date(day * DAY_MS);
    const written = dates[date.toISOString().slice(0, 10)] ?? days[DAYS[date.getUTCDay()]] ?? daily;
    for (const [opens, closes] of written.map((pair) => pair.map(minutesOf)).sort(([a], [b]) => a - b)) {
      const begin = Math.max(since, place.instant(day, opens));
      const end = Math.min(until, place.instant(day, closes));
      if (begin >= end) continue; // before or after what is asked, or swallowed by the clock's change
      if (found.length && begin <= last(found)[1]) last(found)[1] = Math.max(last(found)[1], end);
      else found.push([begin, end]);
    }
  }
  return found;
}

/** @param {string} text */
function minutesOf(text) {
  const [hour, minute] = text.split(":").map(Number);
  return hour * 60 + minute;
}

/** A place's clock. What it shows is counted in ms as if it were UTC's. */
class Place {
  #format;
  /** @type {Full<number, number>} */
  #offsets = full(); // at midnights: a fortnight's hours ask for the same few again and again

  /** @param {string} zone */
  constructor(zone) {
    this.#format = new Intl.DateTimeFormat("en-GB", {
      timeZone: zone,
      hourCycle: "h23",
      year: "numeric",
      month: "numeric",
      day: "numeric",
      hour: "numeric",
      minute: "numeric",
      second: "numeric",
    });
  }

  /** What the clock shows at an instant. @param {number} at */
  clock(at) {
    const { year, month, day, hour, minute, second } = Object.fromEntries(
      this.#format.formatToParts(at).map(({ type, value }) => [type, Number(value)]),
    );
    return Date.UTC(year, month - 1, day, hour, minute, second) + (at % 1000);
  }

  /**
   * The instant at which the clock shows so many minutes of a day: the first of two, and of an hour that is skipped
   * the one after.
   * @param {number} day @param {number} minutes
   */
  instant(day, minutes) {
    const shown = day * DAY_MS + minutes * MINUTE_MS;
    // Beyond the day on either side, wherever the place is.
    const [before, after] = [day - 1, day + 2].map((each) => this.#offset(each));
    const first = shown - before;
    return before === after || this.clock(first) === shown || this.clock(shown - after) !== shown
      ? first
      : shown - after;
  }

  /** @param {number} day */
  #offset(day) {
    if (!this.#offsets.has(day)) this.#offsets.set(day, this.clock(day * DAY_MS) - day * DAY_MS);
    return this.#offsets.get(day);
  }
}
