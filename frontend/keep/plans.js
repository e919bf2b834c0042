/**
 * Plans and bench hours: the last that the server gave lies on the phone's disk, and holds until a newer
 * one comes. What is asked of the server here needs it; all that leads a maker through the day does not.
 */

const HOURS = "hours";
const planKey = (run) => `plan ${run}`;

export class Plans {
  #book;
  #server;

  constructor(book, server) {
    this.#book = book;
    this.#server = server;
  }

  /** Hear how the plan of a run stands. @returns {Promise<object>} @throws {Unreachable|Refused} */
  async hear(run) {
    const [hours, plan] = await Promise.all([this.#server.get("/hours"), this.#server.get(`/runs/${run}/plan`)]);
    await this.#keep({ key: HOURS, value: hours.body });
    return this.#keepPlan(run, plan.body);
  }

  /** Ask for a plan that these runs follow. @param asked as POST /plans takes it */
  async ask(run, asked) {
    return this.#keepPlan(run, (await this.#server.ask("POST", "/plans", asked)).body);
  }

  /** Stop looking for a better plan; the best so far stays. */
  async cancel(run, plan) {
    return this.#keepPlan(run, (await this.#server.ask("POST", `/plans/${plan}/cancel`, {})).body);
  }

  async setHours(document) {
    const { version } = this.#book.meta.get(HOURS) ?? { version: 0 };
    const { body } = await this.#server.ask("PUT", "/hours", document, { headers: { "If-Match": `"${version}"` } });
    await this.#keep({ key: HOURS, value: body });
  }

  async #keepPlan(run, plan) {
    const runs = new Set([run, ...plan.parts.map((part) => part.run).filter((id) => this.#book.runs.has(id))]);
    await this.#keep(...[...runs].map((id) => ({ key: planKey(id), value: plan })));
    return plan;
  }

  #keep(...put) {
    return this.#book.commit({ meta: { put } });
  }
}
