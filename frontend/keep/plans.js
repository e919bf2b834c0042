/**
 * Plans and bench hours: the last that the server gave lies on the phone's disk, and holds until a newer
 * one comes. What is asked of the server here needs it; all that leads a maker through the day does not.
 */

import { saysStatus } from "./server.js";
/** @import { Size } from "../../bench/shapes/page" */
/** @import { MetaRow } from "../../types/keep" */
/** @import { Answered, HoursDoc, HoursDocument, PlanAsked, PlanDoc, PlanWish } from "../../types/server" */
/** @import { Book } from "./book.js" */
/** @import { Server } from "./server.js" */
/** @import { Studio } from "./studio.js" */

const HOURS = "hours";
const MOST_TOGETHER = 8;
const NEW = "new-1"; // as the server names the first batch that is not begun yet
const LOOK_MS = 500;
/** @param {string} run @returns {`plan ${string}`} */
const planKey = (run) => `plan ${run}`;

/** The runs of a plan; earlier versions named them by its parts alone. @param {PlanDoc} plan */
const runsOf = (plan) => plan.runs ?? plan.parts.map(({ run }) => run);

/**
 * Run -> when it is to be ready, as a plan has it, and is still to come.
 * @param {PlanDoc | null | undefined} plan @param {number} at @returns {{[run: string]: number}}
 */
function wantedOf(plan, at) {
  const due = plan?.due?.length
    ? plan.due
    : plan?.aim === "ready_by"
      ? plan.parts.map(({ run }) => ({ run, ready_by: plan.ready_by ?? 0 }))
      : [];
  return Object.fromEntries(
    due.filter(({ ready_by: by }) => by > at).map(({ run, ready_by: by }) => [run, by]),
  );
}

export class Plans {
  #book;
  #server;

  /** @param {Book} book @param {Server} server */
  constructor(book, server) {
    this.#book = book;
    this.#server = server;
  }

  /**
   * Hear how the plan of a run stands.
   * @param {string} run @returns {Promise<PlanDoc>} @throws {Unreachable | Refused}
   */
  async hear(run) {
    await this.#hearHours();
    const { body } = await this.#server.get(`/runs/${run}/plan`);
    const kept = this.#book.meta.get(planKey(run));
    const due = wantedOf(kept, body.at);
    const asked = kept && kept.id !== body.id && Object.keys(due).length > 0 && (await this.#isLost(kept.id));
    if (asked) return this.ask(run, { due, out: kept.out ?? [], runs: this.#known(run, kept) });
    return this.#keepPlan(run, body);
  }

  async #hearHours() {
    let answer = await this.#server.get("/hours");
    const kept = this.#book.meta.get(HOURS);
    if (answer.body.version === 0 && kept && kept.version > 0) {
      if (this.#book.meta.get("studio")?.you?.role === "helper") return;
      answer = await this.#server.ask("PUT", "/hours", kept.document); // the server lost them
    }
    await this.#keepHours(answer);
  }

  /** Whether the server has lost a plan, and with it what it was to be ready by. @param {string} plan */
  async #isLost(plan) {
    try {
      await this.#server.get(`/plans/${plan}`);
      return false;
    } catch (error) {
      if (!saysStatus(error, 404)) throw error;
      return true;
    }
  }

  /** The runs of a plan that this phone has. @param {string} run @param {PlanDoc} plan */
  #known(run, plan) {
    return [...new Set([run, ...runsOf(plan).filter((id) => this.#book.runs.has(id))])];
  }

  /**
   * Ask for a plan of what the maker chose, each batch to be ready by its own time; what is not said stays as it is.
   * @param {string} run @param {PlanWish} asked @param {Studio} studio
   */
  askTogether(run, { runs, out, due, savings = false }, studio) {
    const { plan } = studio.planOf(run);
    const chosen = (runs ?? studio.together(run).map((each) => each.id)).slice(0, MOST_TOGETHER);
    const wishes = Object.entries({ ...wantedOf(plan, studio.at()), ...due });
    const wanted = wishes.flatMap(([id, instant]) =>
      instant !== null && chosen.includes(id) ? [{ id, instant }] : [],
    );
    return this.ask(run, {
      runs: chosen,
      out: (out ?? plan?.out ?? []).filter((id) => !chosen.includes(id)),
      due: Object.fromEntries(wanted.map(({ id, instant }) => [id, instant])),
      savings,
    });
  }

  /** Ask for a plan that these runs follow. @param {string} run @param {PlanAsked} asked */
  async ask(run, asked) {
    return this.#keepPlan(run, (await this.#server.ask("POST", "/plans", asked)).body);
  }

  /**
   * When a batch that is not begun yet would be done, with these runs on the bench: { finish, hands_ms }, or null.
   * They keep the plan that they follow.
   * @param {{id: string, version: number, size: Size}} recipe @param {string[]} runs
   * @param {() => boolean} isWanted whether anybody still waits for it
   */
  async ofNew(recipe, runs, isWanted) {
    let told = (
      await this.#server.ask("POST", "/plans", { recipes: [recipe], runs: runs.slice(0, MOST_TOGETHER - 1) })
    ).body;
    while (told.state === "working" && isWanted()) {
      await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
      told = (await this.#server.get(`/plans/${told.id}`)).body;
    }
    const own = (told.plan?.steps ?? []).filter(({ run }) => run === NEW);
    if (!own.length) return null;
    const hands = own
      .filter(({ kind }) => kind === "hands")
      .map(({ starts_at: starts, ends_at: ends }) => ends - starts);
    return {
      finish: Math.max(...own.map(({ ends_at: ends }) => ends)),
      hands_ms: hands.reduce((sum, ms) => sum + ms, 0),
    };
  }

  /** Stop looking for a better plan; the best so far stays. @param {string} run @param {string} plan */
  async cancel(run, plan) {
    return this.#keepPlan(run, (await this.#server.ask("POST", `/plans/${plan}/cancel`, {})).body);
  }

  /** @param {HoursDocument} document */
  async setHours(document) {
    const etag = this.#book.meta.get(HOURS)?.etag;
    await this.#keepHours(
      await this.#server.ask("PUT", "/hours", document, { headers: etag ? { "If-Match": etag } : {} }),
    );
  }

  /** @param {Answered<HoursDoc>} answer */
  #keepHours({ body, etag }) {
    return this.#keep({ key: HOURS, value: { ...body, etag } });
  }

  /** @param {string} run @param {PlanDoc} plan */
  async #keepPlan(run, plan) {
    await this.#keep(
      ...this.#known(run, plan).map((id) => ({ key: planKey(id), value: this.#meanwhile(id, plan) })),
    );
    return plan;
  }

  /**
   * Until a first order of a new plan is there, the day goes on by the one before.
   * @param {string} run @param {PlanDoc} plan
   */
  #meanwhile(run, plan) {
    const before = this.#book.meta.get(planKey(run));
    if (plan.plan || !before?.plan || plan.state !== "working") return plan;
    return {
      ...before,
      id: plan.id,
      state: plan.state,
      progress: plan.progress,
      asked_at: plan.asked_at,
      runs: plan.runs,
      out: plan.out,
    };
  }

  /** @param {...MetaRow} put */
  #keep(...put) {
    return this.#book.commit({ meta: { put } });
  }
}
