/**
 * Talking to the server, and nothing about when or why.
 *
 * Two ways to fail, because the page answers them differently: Unreachable (try again later by
 * itself) and Refused (the server understood and said no: the maker must see `detail`). A phone that
 * is not let in reaches nothing either; NotLetIn says so, and what waits goes on waiting.
 */

import { say } from "../words.js";
import { pageOf } from "./texts.js";
/** @import { Fault } from "../../types/keep" */
/** @import { Answered, BodyOf, Lists, PagePath } from "../../types/server" */
/** @import { Clock } from "./clock.js" */

const SLOWEST_MS = 20_000;
/** Answers that say "not now" rather than "no". */
const NOT_NOW = new Set([408, 425, 429]);
/** By the type of the problem, why the door is shut to this phone. @type {Map<unknown, "unpaired" | "shut-out">} */
const SHUT = new Map([
  ["/problems/unpaired", "unpaired"],
  ["/problems/shut-out", "shut-out"],
]);

/** @typedef {{type?: string, title?: string, detail?: string, errors?: Fault[]}} Problem (RFC 9457) */

export class Unreachable extends Error {
  /** @param {unknown} cause @param {string} [says] */
  constructor(cause, says = say("page-keep-away")) {
    super(says, { cause });
    this.name = "Unreachable";
    this.says = says;
  }
}

export class NotLetIn extends Unreachable {
  /** @param {"unpaired" | "shut-out"} why */
  constructor(why) {
    super(why, say(why === "unpaired" ? "page-keep-unpaired" : "page-keep-shut-out"));
    this.name = "NotLetIn";
    this.why = why;
  }
}

export class Refused extends Error {
  /** @param {number} status @param {string} detail @param {Fault[]} [errors] @param {string | null} [generation] */
  constructor(status, detail, errors = [], generation = null) {
    super(detail);
    this.name = "Refused";
    this.status = status;
    this.errors = errors;
    this.generation = generation;
    this.detail = this.says = detail;
  }
}

/** Whether a refusal has one of these. @param {unknown} error @param {...number} of */
export const saysStatus = (error, ...of) => error instanceof Refused && of.includes(error.status);

export class Server {
  #base;
  /** @type {Clock} */
  #clock;

  /**
   * @param {Clock} clock asked before, and told after, each answer that carries server_ms
   * @param {{base?: string}} [options]
   */
  constructor(clock, { base = "/api/v1" } = {}) {
    this.#clock = clock;
    this.#base = base;
  }

  /** @template {string} P @param {P} path @returns {Promise<Answered<BodyOf<P>>>} @throws {Unreachable | Refused} */
  get(path) {
    return this.ask("GET", path);
  }

  /**
   * @template {string} P
   * @param {string} method @param {P} path @param {unknown} [body] a JSON value, or a Blob as it is
   * @param {{headers?: {[name: string]: string}, slowestMs?: number}} [options]
   * @returns {Promise<Answered<BodyOf<P>>>}
   * @throws {Unreachable | Refused}
   */
  async ask(method, path, body, { headers = {}, slowestMs = SLOWEST_MS } = {}) {
    const ticket = this.#clock.ask();
    let response;
    let text;
    try {
      response = await fetch(this.#base + path, {
        method,
        headers: body === undefined ? headers : { "Content-Type": typeOf(body), ...headers },
        body: body === undefined || body instanceof Blob ? body : JSON.stringify(body),
        cache: "no-cache",
        signal: AbortSignal.timeout(slowestMs),
      });
      text = await response.text();
    } catch (cause) {
      throw new Unreachable(cause);
    }
    const answer = parsed(text, path.startsWith("/recipes/all?") ? pageOf : JSON.parse);
    const { status } = response;
    // A server that has too much to do says so itself.
    if (status >= 500 || NOT_NOW.has(status))
      throw new Unreachable(status, status === 429 ? problem(answer) : undefined);
    const shut = SHUT.get(answer?.type);
    if (shut) throw new NotLetIn(shut);
    const [etag, generation] = ["ETag", "Bowlside-Generation"].map((name) => response.headers.get(name));
    if (!response.ok)
      throw new Refused(
        status,
        problem(answer) ?? say("page-keep-status", { status }),
        answer?.errors,
        generation,
      );
    // Not our server: a hotel's log-in page answers 200 to everything.
    if (answer === undefined) throw new Unreachable("not JSON");
    return { body: answer, etag, generation, heard: () => this.#clock.hear(answer.server_ms, ticket) };
  }

  /**
   * Every item of a paged list: `all("runs", "open=true")` asks /runs?open=true.
   * @template {keyof Lists} N @param {N} name @param {string} [query] @returns {Promise<Lists[N][]>}
   */
  async all(name, query = "") {
    /** @type {Lists[N][]} */
    const items = [];
    for (let page = 1, pages = 1; page <= pages; page += 1) {
      const { body } = await this.get(
        /** @type {PagePath<N>} */ (`/${name}?${query}&page=${page}&page_size=100`),
      );
      items.push(...body[name]);
      pages = body.pages;
    }
    return items;
  }
}

/** A Blob's own; JSON's else. @param {unknown} body */
const typeOf = (body) => (body instanceof Blob && body.type) || "application/json";

/** @param {string} text @param {(text: string) => any} read */
function parsed(text, read) {
  try {
    return read(text);
  } catch {
    return undefined;
  }
}

/** Problem details (RFC 9457) as one sentence for the maker. @param {Problem | undefined} answer */
function problem(answer) {
  const { detail } = answer ?? {};
  if (!answer || !detail) return answer?.title;
  const fields = (answer.errors ?? []).map(({ field, detail: each }) => `${field}: ${each}`);
  return [detail, ...fields.filter((text) => !text.includes(detail))].join(" ");
}

/** How a list of batches is asked to go on after one of them. @param {string | null} after */
export const goingOn = (after) => (after === null ? "" : `&after=${after}`);
