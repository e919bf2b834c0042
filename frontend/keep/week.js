/**
 * The order of work and the plan of it, which are the server's alone: nothing of them is kept but what home says.
 *
 *   const week = await studio.week();
 *   await week.look("2026-12-01", true);     // how all of it stands; Unreachable
 *   await week.say([{ id, version, said }]);   // lines, each as it was seen; Refused when somebody changed it since
 *   await week.plan(false);            // a new plan, offered
 */

/** @import { Buying, OrderWant, Outlet } from "../../bench/shapes/page" */
/** @import { OrderPlanSaid, WeekNow } from "../../types/answers" */
/** @import { WeekSeen } from "../../types/keep" */
/** @import { WantSaid } from "../../types/told" */
/** @import { Book } from "./book.js" */
/** @import { Server } from "./server.js" */

/**
 * @typedef {{now: WeekNow, wants: readonly OrderWant[], outlets: readonly Outlet[], buying: Buying | null}} WeekLooked
 */

// A plan may take 20 s, and the first of a server that has just started has its solver to load.
const PLANNED_MS = 90_000;

export class Week {
  #book;
  #server;
  /** @type {string | null} */
  #generation = null; // of what was read last: a version is sent under it

  /** @param {Book} book @param {Server} server */
  constructor(book, server) {
    this.#book = book;
    this.#server = server;
  }

  /**
   * @param {string} today @param {boolean} isMaker what it costs to buy is a maker's to know
   * @returns {Promise<WeekLooked>} @throws {Unreachable | Refused}
   */
  async look(today, isMaker) {
    const [now, wants, { body }] = await Promise.all([
      this.lookAtNext(),
      this.#server.all("wants"),
      this.#server.get("/outlets"),
    ]);
    const open = notBegun(now.followed?.needs ?? [], now.begun);
    const buying = isMaker && open.length ? await this.#buying(open, today) : null;
    return { now, wants, outlets: body.outlets, buying };
  }

  /** @returns {Promise<WeekNow>} */
  async lookAtNext() {
    const { body, generation } = await this.#server.get("/week");
    this.#generation = generation;
    const value = nextOf(body);
    if (JSON.stringify(value) !== JSON.stringify(this.#book.meta.get("week") ?? null))
      await this.#book.commit({ meta: { put: [{ key: "week", value }] } });
    return body;
  }

  /** @param {readonly WantSaid[]} lines @throws {Unreachable | Refused} */
  async say(lines) {
    for (const { id, version, said } of lines) {
      const tag = `"${this.#generation?.slice(0, 8)}.${version}"`;
      const headers = version === null ? undefined : { headers: { "If-Match": tag } };
      await this.#server.ask("PUT", `/wants/${id}`, said, headers);
    }
  }

  /** @param {boolean} isQuick by the plain rule, at once */
  async plan(isQuick) {
    await this.#server.ask("POST", `/week/plan?quick=${isQuick}`, undefined, { slowestMs: PLANNED_MS });
  }

  /** @param {string} plan */
  async follow(plan) {
    await this.#server.ask("PUT", "/week/plan", { plan });
  }

  /** What lacks for these batches, and by when to order. @param {OrderPlanSaid["needs"]} wants @param {string} today */
  async #buying(wants, today) {
    return (await this.#server.ask("POST", "/buying", { wants, today })).body;
  }
}

/**
 * Of what is told by the places of a plan's batches, that of the batches that were not begun.
 * @template T @param {readonly T[]} told @param {WeekNow["begun"]} begun
 */
export const notBegun = (told, begun) =>
  told.filter((_, place) => begun.every(({ batch }) => batch !== place));

/** The first planned batch that was not begun. @param {WeekNow} now @returns {WeekSeen} */
function nextOf({ followed, begun }) {
  const [next] = notBegun(followed?.plan.batches ?? [], begun);
  if (!followed || !next) return null;
  const { pieces, begin_by, sittings } = next;
  return { title: followed.titles[next.make] ?? "", pieces, starts_at: sittings[0].starts_at, begin_by };
}
