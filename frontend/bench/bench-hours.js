/**
 * Bench hours as written on a wall clock, made into stretches of absolute instants. The same as
 * `stretches` of bench/planning/day.py, for hours that the studio has taken: what is at fault is said there.
 */

const DAYS = ["sun", "mon", "tue", "wed", "thu", "fri", "sat"];
const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** @returns {[opens: number, closes: number][]} in order, none touching the next */
export function stretches({ zone, daily = [], days = {}, dates = {} }, since, until) {
  const place = new Place(zone);
  const found = [];
  // Days are counted as if the clock were UTC's: only `instant` knows the place.
  const last = Math.floor(place.clock(until) / DAY_MS);
  for (let day = Math.floor(place.clock(since) / DAY_MS) - 1; day <= last; day += 1) {
    const date = new Date(day * DAY_MS);
    const written = dates[date.toISOString().slice(0, 10)] ?? days[DAYS[date.getUTCDay()]] ?? daily;
    for (const [opens, closes] of written.map((pair) => pair.map(minutesOf)).sort(([a], [b]) => a - b)) {
      const begin = Math.max(since, place.instant(day * DAY_MS + opens * MINUTE_MS));
      const end = Math.min(until, place.instant(day * DAY_MS + closes * MINUTE_MS));
      if (begin >= end) continue; // before or after what is asked, or swallowed by the clock's change
      if (found.length && begin <= found.at(-1)[1]) found.at(-1)[1] = Math.max(found.at(-1)[1], end);
      else found.push([begin, end]);
    }
  }
  return found;
}

function minutesOf(text) {
  const [hour, minute] = text.split(":").map(Number);
  return hour * 60 + minute;
}

/** A place's clock. What it shows is counted in ms as if it were UTC's. */
class Place {
  #format;

  constructor(zone) {
    this.#format = new Intl.DateTimeFormat("en-GB", { timeZone: zone, hourCycle: "h23", year: "numeric", month: "numeric", day: "numeric", hour: "numeric", minute: "numeric", second: "numeric" });
  }

  /** What the clock shows at an instant. */
  clock(at) {
    const { year, month, day, hour, minute, second } = Object.fromEntries(this.#format.formatToParts(at).map(({ type, value }) => [type, Number(value)]));
    return Date.UTC(year, month - 1, day, hour, minute, second) + (at % 1000);
  }

  /** The instant at which the clock shows it: the first of two, and of an hour that is skipped the one after. */
  instant(shown) {
    const [before, after] = [shown - DAY_MS, shown + DAY_MS].map((at) => this.clock(at) - at);
    const first = shown - before;
    return before === after || this.clock(first) === shown || this.clock(shown - after) !== shown ? first : shown - after;
  }
}
