/**
 * Brings the phone's book and the server's together, whenever the server can be reached.
 *
 * What comes next is decided by sync-machine.js, and a round's questions are in sync-round.js; here are the
 * timers, the tabs and the server. Of several tabs one leads, by a Web Lock, and the others tell it what they
 * want; where the browser gives no locks (plain http), each goes by itself, which is as right and asks more.
 *
 *   const sync = new Sync({ book, clock, server, live, pace: () => "run" | "page" | "hidden" });
 *   sync.start();
 */

import { SLACK_MS } from "./clock.js";
import { shifted } from "./seal.js";
import { NotLetIn, Refused, Unreachable } from "./server.js";
import { begun, reduce, renewedRows } from "./sync-machine.js";
import { Round } from "./sync-round.js";
import { breathe } from "../platform.js";
/** @import { Changes, MetaRow, Shut, WriteOptions } from "../../types/keep" */
/** @import { Answered, BodyOf } from "../../types/server" */
/** @import { Command, StepName, SyncEvent, SyncState } from "../../types/sync" */
/** @import { Book, Told } from "./book.js" */
/** @import { Clock } from "./clock.js" */
/** @import { Live } from "./live.js" */
/** @import { Server } from "./server.js" */
/** @import { Heard, SyncDoor } from "./sync-round.js" */

/** How long after a good round the next one comes. */
const PACE_MS = { run: 3_000, page: 15_000, hidden: 60_000 };
/** So many times longer while a live line says what moves. */
const LIVE_SLOWER = 5;
/** How old the lists of recipes and of finished runs may grow. */
const LISTS_MS = { run: 20_000, page: 0, hidden: 0 };
const FIRST_WAIT_MS = 1_000;
const LONGEST_WAIT_MS = { run: 10_000, page: 30_000, hidden: 120_000 };
/** How long the server's clock is believed without hearing it again. */
const CLOCK_MS = 60_000;
/** How long a leading tab may be silent before another takes its place. */
const SILENT_MS = 2_000;
const LOCK = "bowlside-sync";

/** A round that is no longer the one that goes: it ends without a word. */
class Superseded extends Error {}

/** @typedef {"run" | "page" | "hidden"} Pace a run is open before the maker's eyes, or a page is, or nothing */

export class Sync extends EventTarget {
  #book;
  #clock;
  #server;
  #live;
  #pace;
  #ready;
  /** @type {SyncState} */
  #state;
  /** @type {Round | null} */
  #round = null;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #silence;
  /** What the leading tab was asked for last, while it has not told of the end of a round for it; else 0. */
  #asked = 0;
  #isAway = false;
  /** @type {Promise<unknown> | null} */
  #decided = null;
  /** @type {(() => void) | null} */
  #letGo = null;
  /** @type {(() => void)[]} */
  #resting = [];
  /** @type {Map<string, number>} */
  #doneAt = new Map();
  /** @type {SyncDoor} */
  #door;

  /**
   * ready: what came is made ready to be drawn, before it counts as heard.
   * @param {{book: Book, clock: Clock, server: Server, live: Live, pace: () => Pace,
   *   ready?: () => Promise<void>}} given
   */
  constructor({ book, clock, server, live, pace, ready = async () => {} }) {
    super();
    this.#book = book;
    this.#clock = clock;
    this.#server = server;
    this.#live = live;
    this.#pace = pace;
    this.#ready = ready;
    this.#state = begun(book.meta.get("generation") ?? null);
    this.#door = {
      ask: (...asked) => this.#ask(...asked),
      commit: (...given) => this.#commit(...given),
      hear: (...heard) => this.#hear(...heard),
      goOn: () => this.#dispatch({ type: "wanted" }),
      isClockOld: () => !this.#clock.sure || this.#isDue("clock", CLOCK_MS),
      isDue: (...asked) => this.#isDue(...asked),
      done: (what) => this.#doneAt.set(what, performance.now()),
      heard: (what) => this.#noteHeard(what),
      now: () => this.#clock.now(),
    };
    /**
     * Whether the last round reached the server; null before the first. The browser's own word on it is not trusted.
     * @type {boolean | null}
     */
    this.online = null;
    /** Whether a round was ever whole: what the server has is here, as of then. */
    this.whole = false;
    /** What was ever heard to its end, of what a page is drawn from. @type {Set<Heard>} */
    this.heard = new Set();
    /** When the server was last heard; corrected ms. @type {number | null} */
    this.heardAt = null;
    /** Why the last round was not whole. @type {unknown} */
    this.trouble = null;
    /** Why the server does not let this phone in, as it last said. @type {Shut | null} */
    this.shut = null;
  }

  /** Whether this tab brings phone and server together, and not another one. */
  get leads() {
    return this.#state.role === "leader";
  }

  /** Another tab of this phone's leads. */
  get follows() {
    return this.#state.role === "follower";
  }

  start() {
    addEventListener("online", this.#wake);
    addEventListener("pageshow", this.#wake);
    addEventListener("pagehide", this.#sleep);
    document.addEventListener("freeze", this.#sleep);
    document.addEventListener("resume", this.#wake);
    document.addEventListener("visibilitychange", this.#wake);
    this.#live.addEventListener("moved", this.#moved);
    this.#book.addEventListener("change", this.#turned);
    this.#book.addEventListener("told", this.#told);
    this.#decided = this.#compete().then(() => this.#dispatch({ type: "start" }));
    return this.soon();
  }

  stop() {
    this.#dispatch({ type: "stop" });
    this.#yield();
    this.#settle();
    clearTimeout(this.#timer);
    clearTimeout(this.#silence);
    removeEventListener("online", this.#wake);
    removeEventListener("pageshow", this.#wake);
    removeEventListener("pagehide", this.#sleep);
    document.removeEventListener("freeze", this.#sleep);
    document.removeEventListener("resume", this.#wake);
    document.removeEventListener("visibilitychange", this.#wake);
    this.#live.removeEventListener("moved", this.#moved);
    this.#book.removeEventListener("change", this.#turned);
    this.#book.removeEventListener("told", this.#told);
    this.#live.want(false);
    this.#state = { ...this.#state, name: "closed" };
  }

  /**
   * A round that begins now, or right after the one that is going; `now`: even if that one fails.
   * Resolved at the end of it; never rejects.
   * @param {{lists?: boolean, now?: boolean}} [wanted]
   */
  async soon({ lists = false, now = false } = {}) {
    await this.#decided;
    if (this.#state.name === "stopped" || this.#state.name === "closed") return;
    if (lists) this.#doneAt.delete("lists");
    const rested = new Promise((/** @type {(value?: undefined) => void} */ resolve) =>
      this.#resting.push(resolve),
    );
    if (!this.leads) {
      this.#asked = Math.random();
      this.#book.tell({ wanted: { lists, now, ask: this.#asked } });
      this.#silence ??= setTimeout(() => this.#compete({ steal: true }), SILENT_MS);
    }
    this.#dispatch({ type: "wanted", now });
    await rested;
  }

  // The tabs

  /**
   * Lead, or stand in line to. Resolved when it is known which of the two.
   * @param {{steal?: boolean}} [how] @returns {Promise<void>}
   */
  #compete({ steal = false } = {}) {
    if (!navigator.locks) {
      this.#dispatch({ type: "role", role: "leader" });
      return Promise.resolve();
    }
    return new Promise((known) => {
      /** @param {Lock | null} lock */
      const lead = (lock) => {
        known();
        if (!lock) {
          if (!this.#isClosed) this.#stand(navigator.locks.request(LOCK, lead));
          return undefined;
        }
        if (this.#isClosed) return undefined;
        this.#hearLeader();
        this.#asked = 0;
        this.#dispatch({ type: "role", role: "leader" });
        return new Promise((/** @type {(value?: undefined) => void} */ resolve) => (this.#letGo = resolve));
      };
      this.#stand(navigator.locks.request(LOCK, steal ? { steal: true } : { ifAvailable: true }, lead)).then(
        known,
      );
    });
  }

  /** @param {Promise<unknown>} request */
  async #stand(request) {
    try {
      await request;
    } catch (error) {
      this.#letGo = null;
      // Another tab took the lock away: it took this one for gone. Or there are no locks to be had: then it goes by
      // itself.
      const wasTaken = error instanceof DOMException && error.name === "AbortError";
      this.#dispatch({ type: "role", role: wasTaken ? "follower" : "leader" });
      if (wasTaken && !this.#isClosed) this.#compete();
    }
  }

  #hearLeader() {
    clearTimeout(this.#silence);
    this.#silence = undefined;
  }

  /** Let another tab lead, if there is one. */
  #yield() {
    if (!this.#letGo) return;
    this.#dispatch({ type: "role", role: "follower" });
    this.#letGo();
    this.#letGo = null;
  }

  get #isClosed() {
    return this.#state.name === "closed";
  }

  /** @param {CustomEvent<Told>} event */
  #told = ({ detail }) => {
    if (detail.wanted && this.leads) {
      this.#book.tell({ here: true });
      const { inSight, ask } = detail.wanted;
      if (inSight) this.#giveWay();
      else this.soon(detail.wanted).then(() => this.#book.tell({ rested: ask }));
    }
    if (detail.here) this.#hearLeader();
    if (detail.rested === this.#asked && !this.leads) {
      this.#asked = 0;
      this.#settle();
    }
  };

  /** Out of sight, let one lead that is in sight. */
  #giveWay() {
    if (document.visibilityState === "visible" || !this.#letGo) return;
    this.#yield();
    this.#compete();
  }

  /** Frozen from now on, or gone. */
  #sleep = () => {
    this.#isAway = true;
    this.#yield();
  };

  #wake = () => {
    if (document.visibilityState !== "visible") {
      this.#live.want(false);
      this.#giveWay();
      return;
    }
    if (this.#isAway && navigator.locks) this.#compete();
    this.#isAway = false;
    if (!this.leads) this.#book.tell({ wanted: { inSight: true } });
    this.soon({ now: true });
  };

  #moved = () => {
    if (document.visibilityState === "visible") this.soon();
  };

  /** Another tab turned the book to another generation. */
  #turned = () => {
    const generation = this.#book.meta.get("generation") ?? null;
    if (generation !== this.#state.generation) this.#dispatch({ type: "turned", generation });
  };

  // The machine

  /** @param {SyncEvent} event @returns {Command["do"][]} */
  #dispatch(event) {
    if (this.#isClosed) return [];
    const { state, commands } = reduce(this.#state, event);
    this.#state = state;
    for (const command of commands) {
      if (command.do === "step") this.#work(command);
      else if (command.do === "renew") this.#renew(command);
      else if (command.do === "tell") this.#end(command.well);
      else if (command.do === "rest") this.#rest(command);
    }
    return commands.map(({ do: what }) => what);
  }

  /** @param {{step: StepName, round: number}} command */
  async #work({ step, round }) {
    await (step === "clock" ? breathe() : undefined); // what led here is over first, and a touch painted
    try {
      if (step === "clock") this.#round = new Round(round, this.#state.generation, this.#book, this.#door);
      if (step !== "lists" || this.#isDue("lists", LISTS_MS[this.#pace()])) {
        if (step === "lists") this.#door.done("lists"); // first, so that who asks for them meanwhile gets them again
        await this.#round?.[step]();
      }
    } catch (error) {
      if (!(error instanceof Superseded)) await this.#fail(round, error);
      return;
    }
    if (step === "open" && !this.heard.has("open")) {
      await this.#ready();
      this.#noteHeard("open");
    }
    this.#dispatch({ type: "stepped", round });
  }

  /** @param {Heard} what */
  #noteHeard(what) {
    if (this.heard.has(what)) return;
    this.heard.add(what);
    this.dispatchEvent(new Event("heard"));
  }

  /** @param {{generation: string, round: number}} command */
  async #renew({ generation, round }) {
    const { journals, meta } = this.#book;
    const put = journals.flatMap((journal) => renewedRows(journal.rows, journal.allIds, journal.id));
    /** @type {MetaRow[]} */
    const cursors = [...meta.keys()]
      .filter((key) => key.startsWith("cursor/"))
      .map((key) => ({ key, value: null }));
    try {
      await this.#book.commit(
        { outbox: { put }, meta: { put: [...cursors, { key: "generation", value: generation }] } },
        { strict: true },
      );
    } catch (error) {
      await this.#fail(round, error);
      return;
    }
    this.#doneAt.clear();
    this.#dispatch({ type: "renewed", round, generation });
  }

  /** @param {number} round @param {unknown} error */
  async #fail(round, error) {
    if (round !== this.#state.round) return;
    this.trouble = error;
    if (error instanceof NotLetIn) await this.#keepOut(error.why);
    this.#doneAt.delete("lists");
    this.#dispatch({ type: "failed", round });
  }

  /** @param {boolean} well */
  #end(well) {
    this.whole ||= well;
    if (well) this.trouble = null;
    else this.#clock.settle();
    this.online = well || !(this.trouble instanceof Unreachable);
    if (this.online) this.shut = null;
    this.dispatchEvent(new Event("round"));
  }

  /** @param {{timer: number}} command */
  #rest({ timer }) {
    if (this.leads || !this.#asked) this.#settle();
    const pace = this.#pace();
    this.#live.want(this.leads && this.online === true && pace !== "hidden");
    let wait = PACE_MS[pace] * (this.#live.on ? LIVE_SLOWER : 1);
    const { failures } = this.#state;
    if (failures > 0) {
      const longest = Math.min(LONGEST_WAIT_MS[pace], FIRST_WAIT_MS * 2 ** (failures - 1));
      wait = longest * (0.5 + Math.random() / 2); // phones that lost the server together must not return together
    }
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#dispatch({ type: "due", timer }), wait);
  }

  #settle() {
    for (const resolve of this.#resting.splice(0)) resolve();
  }

  /** @param {string} what @param {number} everyMs */
  #isDue(what, everyMs) {
    return performance.now() - (this.#doneAt.get(what) ?? -Infinity) >= everyMs;
  }

  // What a round asks for

  /**
   * @template {string} P
   * @param {Round} round @param {string} method @param {P} path @param {unknown} [body]
   * @returns {Promise<Answered<BodyOf<P>>>}
   */
  async #ask(round, method, path, body) {
    if (!this.#dispatch({ type: "asked", round: round.number }).includes("send")) throw new Superseded();
    const { request } = this.#state;
    const headers =
      method === "GET" || !round.generation ? undefined : { "Bowlside-Generation": round.generation };
    let answer;
    try {
      answer = await this.#server.ask(method, path, body, { headers });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      answer = error;
    }
    if (!this.#dispatch({ type: "answered", request, generation: answer.generation }).includes("take"))
      throw new Superseded();
    if (answer instanceof Refused) throw answer;
    return answer;
  }

  /** @param {Round} round @param {Changes} changes @param {WriteOptions} [options] */
  async #commit(round, changes, options = {}) {
    if (round.number !== this.#state.round || this.#state.name !== "working") throw new Superseded();
    await this.#book.commit(changes, { ...options, under: round.generation });
  }

  /**
   * Set the clock by an answer, and with it what was made while it was a guess.
   * @param {Round} round @param {Answered} answer
   */
  async #hear(round, answer) {
    const moved = answer.heard();
    this.heardAt = this.#clock.now();
    if (moved === null) return;
    this.#door.done("clock");
    const { offset, leap } = this.#clock;
    const shift = Math.abs(moved) > SLACK_MS ? moved : 0;
    const guesses = this.#book.journals.map((run) => ({ run, guessed: run.guessed() }));
    const mark = guesses.flatMap(({ guessed }) => guessed.map(({ guessed: _, ...row }) => row));
    const moves = guesses
      .filter(() => shift !== 0)
      .map(({ run, guessed }) => shifted(run, new Set(guessed.map(({ id }) => id)), shift));
    if (!moved && leap === (this.#book.meta.get("leap") ?? 0) && mark.length === 0) return;
    const changes = {
      entries: { put: moves.flatMap(({ entries }) => entries) },
      outbox: { mark },
      runs: { put: moves.flatMap(({ runs }) => runs) },
      meta: { put: Object.entries({ offset, leap }).map(([key, value]) => ({ key, value })) },
    };
    await this.#commit(round, changes, { strict: true });
  }

  /**
   * Shut out, and perhaps let in again later: what was not sent by then is the maker's to decide on.
   * @param {Shut} why
   */
  async #keepOut(why) {
    this.shut = why;
    if (why !== "shut-out") return;
    const waiting = this.#book.journals.flatMap((journal) => journal.waiting());
    const put = waiting.map((row) => ({ ...row, refused: "held" }));
    if (put.length > 0) await this.#book.commit({ outbox: { put } }, { strict: true });
  }
}
