/**
 * Brings the phone's book and the server's together, whenever the server can be reached.
 *
 * Sync is set union: sending twice and hearing twice are harmless, so a round may be cut off
 * anywhere and simply starts again. Rounds never overlap.
 *
 *   const sync = new Sync({ book, clock, server, live, pace: () => "run" | "page" | "hidden" });
 *   sync.start();
 */

import { canonical } from "../bench/index.js";
import { versionKey } from "./book.js";
import { SLACK_MS } from "./clock.js";
import { NotLetIn, Refused, Unreachable } from "./server.js";
import { inOrder, rowOf, SHELF } from "./run.js";
import { shifted } from "./seal.js";

const BATCH = 200;
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
/** Of the finished runs, only the newest are fetched to be looked at with no network. */
const FINISHED_KEPT = 40;
/** How often the server is asked what batches that are not on this phone have used of the shelf. */
const ELSEWHERE_MS = 5 * 60_000;
const HELD = "This phone was shut out before this was sent. Look at it, then send it again or set it aside.";

export class Sync extends EventTarget {
  #book;
  #clock;
  #server;
  #live;
  #pace;
  #timer = null;
  #round = null;
  #again = false;
  #failures = 0;
  #listsAt = -Infinity;
  #elsewhereAt = -Infinity;
  #heard = -Infinity;
  #stopped = true;

  /** @param pace () => "run" when a run is open before the maker's eyes, "page", or "hidden" */
  constructor({ book, clock, server, live, pace }) {
    super();
    this.#book = book;
    this.#clock = clock;
    this.#server = server;
    this.#live = live;
    this.#pace = pace;
    /** Whether the last round reached the server; null before the first. The browser's own word on it is not trusted. */
    this.online = null;
    /** When the server was last heard; corrected ms, or null. */
    this.heardAt = null;
    /** Why the last round was not whole, or null. */
    this.trouble = null;
    /** Why the server does not let this phone in, as it last said: "unpaired", "shut-out", or null. */
    this.shut = null;
  }

  start() {
    this.#stopped = false;
    addEventListener("online", this.#wake);
    addEventListener("pageshow", this.#wake);
    document.addEventListener("visibilitychange", this.#wake);
    this.#live.addEventListener("moved", this.#wake);
    return this.soon();
  }

  stop() {
    this.#stopped = true;
    clearTimeout(this.#timer);
    removeEventListener("online", this.#wake);
    removeEventListener("pageshow", this.#wake);
    document.removeEventListener("visibilitychange", this.#wake);
    this.#live.removeEventListener("moved", this.#wake);
    this.#live.want(false);
  }

  /** A round that begins now, or right after the one that is going. Never rejects. */
  soon({ lists = false } = {}) {
    if (lists) this.#listsAt = -Infinity;
    if (this.#round) {
      this.#again = true;
      return this.#round;
    }
    clearTimeout(this.#timer);
    this.#round = this.#rounds().finally(() => {
      this.#round = null;
      this.#schedule();
    });
    return this.#round;
  }

  #wake = () => {
    if (document.visibilityState === "visible") this.soon();
    else this.#live.want(false);
  };

  async #rounds() {
    do {
      this.#again = false;
      await this.#once();
    } while (this.#again && this.online && !this.#stopped);
  }

  #schedule() {
    if (this.#stopped) return;
    const pace = this.#pace();
    this.#live.want(this.online && pace !== "hidden");
    let wait = PACE_MS[pace] * (this.#live.on ? LIVE_SLOWER : 1);
    if (this.#failures > 0) {
      const longest = Math.min(LONGEST_WAIT_MS[pace], FIRST_WAIT_MS * 2 ** (this.#failures - 1));
      wait = longest * (0.5 + Math.random() / 2); // phones that lost the server together must not return together
    }
    this.#timer = setTimeout(() => this.soon(), wait);
  }

  async #once() {
    try {
      if (!this.#clock.sure || performance.now() - this.#heard > CLOCK_MS) {
        await this.#hear(await this.#server.get("/clock"));
      }
      await this.#send();
      await this.#fetchOpen();
      if (performance.now() - this.#listsAt >= LISTS_MS[this.#pace()]) await this.#fetchLists();
      this.#failures = 0;
      this.online = true;
      this.trouble = null;
    } catch (error) {
      this.#failures += 1;
      this.#listsAt = -Infinity;
      this.#clock.settle();
      this.online = !(error instanceof Unreachable);
      this.trouble = error;
      if (error instanceof NotLetIn) await this.#keepOut(error.why);
    }
    if (this.online) this.shut = null;
    this.dispatchEvent(new Event("round"));
  }

  /** Set the clock by an answer, and with it the entries made while this clock was a guess. */
  async #hear(answer) {
    const moved = answer.heard();
    this.heardAt = this.#clock.now();
    if (moved === null) return;
    this.#heard = performance.now();
    const { offset, leap } = this.#clock;
    const shift = Math.abs(moved) > SLACK_MS ? moved : 0;
    const changes = { entries: { put: [] }, outbox: { put: [] } };
    for (const run of this.#book.journals) {
      const guessed = run.guessed();
      changes.outbox.put.push(...guessed.map(({ guessed: _, ...row }) => row));
      if (!shift) continue;
      const { entries, runs } = shifted(run, new Set(guessed.map(({ id }) => id)), shift);
      changes.entries.put.push(...entries);
      if (runs.length) changes.runs = { put: [...(changes.runs?.put ?? []), ...runs] };
    }
    if (!moved && leap === (this.#book.meta.get("leap") ?? 0) && changes.outbox.put.length === 0) return;
    changes.meta = { put: Object.entries({ offset, leap }).map(([key, value]) => ({ key, value })) };
    await this.#book.commit(changes, { strict: true });
  }

  /** Shut out, and perhaps let in again later: what was not sent by then is the maker's to decide on. */
  async #keepOut(why) {
    this.shut = why;
    if (why !== "shut-out") return;
    const waiting = this.#book.journals.flatMap((journal) => journal.waiting());
    const put = waiting.map((row) => ({ ...row, refused: HELD }));
    if (put.length > 0) await this.#book.commit({ outbox: { put } }, { strict: true });
  }

  async #send() {
    for (const run of this.#book.journals) {
      const waiting = run.waiting();
      if (waiting.length === 0 || run.isRefused) continue;
      if (waiting.some((row) => row.id === run.id) && !(await this.#sendRun(run))) continue;
      const entries = waiting.flatMap((row) => run.entry(row.id) ?? []).sort(inOrder);
      for (let start = 0; start < entries.length; start += BATCH) {
        await this.#sendEntries(run, entries.slice(start, start + BATCH));
      }
      for (const row of waiting) if (row.picture) await this.#sendPicture(row);
      // The lists may be a while off: till then, a server that lost what it just took would not be noticed.
      if (run.id === SHELF) await this.#fetch(SHELF);
    }
  }

  /** Photographs that entries tell of and the server has not: those that lie here are sent, sent before or not. */
  async #sendAwaited() {
    let awaited;
    try {
      ({ awaited } = (await this.#server.get("/pictures")).body);
    } catch (error) {
      if (error instanceof Refused) return; // an older server does not say
      throw error;
    }
    for (const { id, run } of awaited) {
      const journal = this.#book.journal(run);
      if (!journal || journal.holds(id) || !(await this.#book.picture(id))) continue;
      await this.#book.commit({ outbox: { put: [{ id, run, picture: true }] } });
      this.#again = true;
    }
  }

  async #sendPicture(row) {
    const { id } = row;
    const blob = await this.#book.picture(id);
    try {
      if (blob) await this.#server.ask("PUT", `/pictures/${id}`, blob);
      await this.#book.commit({ outbox: { delete: [id] } });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      await this.#book.commit({ outbox: { put: [{ ...row, refused: error.detail }] } });
    }
  }

  /** @returns {Promise<boolean>} whether the server has the run now */
  async #sendRun({ id, recipe, size, sheet, floor, row }) {
    const begin = () => this.#server.ask("PUT", `/runs/${id}`, { recipe: { id: recipe.id, version: recipe.version }, size, kit: sheet.kit, made_at: floor });
    let answer;
    try {
      answer = await begin().catch(async (error) => {
        // Not even the recipe is there any more.
        if (error.status !== 404 || !(await this.#putBack(recipe.id, recipe.version))) throw error;
        return begin();
      });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      await this.#book.commit({ outbox: { put: [{ id, run: id, refused: error.detail }] } });
      return false;
    }
    const changes = { outbox: { delete: [id] } };
    if (canonical(answer.body.sheet) !== canonical(sheet)) {
      // A page older than the server may reckon a sheet otherwise. Every other device, and the
      // record, go by the server's; so does this phone from here on.
      changes.runs = { put: [{ ...row, sheet: answer.body.sheet }] };
    }
    await this.#book.commit(changes);
    return true;
  }

  async #sendEntries(run, entries) {
    let answer;
    try {
      answer = await this.#server.ask("POST", entriesOf(run.id), { entries });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      await this.#batchRefused(run, entries, error);
      return;
    }
    const refused = answer.body.answers.filter(({ result }) => result === "refused");
    const kept = answer.body.answers.filter(({ result }) => result !== "refused");
    await this.#book.commit({
      outbox: {
        put: refused.map(({ id, field, detail }) => ({
          id,
          run: run.id,
          refused: detail ?? `The server did not take ${field ?? "it"}.`,
        })),
        delete: kept.map(({ id }) => id),
      },
    });
    await this.#hear(answer);
  }

  /** The server refused the request, not an entry: find out which entry is to blame. */
  async #batchRefused(run, entries, error) {
    if (error.status === 404) {
      // Every studio of this version has a shelf: an older server keeps none, and what is for it waits.
      if (run.id !== SHELF) await this.#sendAgain(run);
    } else if (entries.length > 1) {
      const half = Math.ceil(entries.length / 2);
      await this.#sendEntries(run, entries.slice(0, half));
      await this.#sendEntries(run, entries.slice(half));
    } else {
      const { id } = entries[0];
      await this.#book.commit({ outbox: { put: [{ id, run: run.id, refused: error.detail }] } });
    }
  }

  /** The server lost this journal or some of it (an older copy was put back?): it gets all of it, and the shelf. */
  async #sendAgain(journal) {
    const { shelf } = this.#book;
    const lost = [...new Set([journal, shelf])];
    // A helper's phone has others' lots without their prices: it gives back its own alone.
    const isWhole = (entry) => this.#isMaker || entry.device === this.#book.meta.get("device");
    const rows = lost.flatMap(({ id: run, entries }) =>
      entries.filter((entry) => run !== SHELF || isWhole(entry)).map(({ id }) => ({ id, run })),
    );
    const { id } = journal;
    await this.#book.commit({
      outbox: { put: journal === shelf ? rows : [{ id, run: id }, ...rows] },
      meta: { put: lost.map((each) => ({ key: cursorOf(each.id), value: null })) },
    });
    this.#again = true;
  }

  /** Give the server back a recipe version that it lost. @returns {Promise<boolean>} whether it has it now */
  async #putBack(recipe, version) {
    const document = this.#isMaker && (await this.#book.document(recipe, version));
    if (!document) return false;
    try {
      await this.#server.ask("PUT", `/recipes/${recipe}/versions/${version}`, document);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      return false; // it has another recipe by that number
    }
    return true;
  }

  /** A helper's phone gives nothing back: the server would not take it. */
  get #isMaker() {
    return this.#book.meta.get("studio")?.you?.role !== "helper";
  }

  async #fetch(runId) {
    const run = this.#book.journal(runId);
    if (run.isRefused || run.waiting().some((row) => row.id === runId)) return;
    for (let more = true; more; ) {
      const cursor = this.#book.meta.get(cursorOf(runId));
      const after = cursor === undefined || cursor === null ? "" : `&after=${encodeURIComponent(cursor)}`;
      let answer;
      try {
        answer = await this.#server.get(`${entriesOf(runId)}?limit=500${after}`);
      } catch (error) {
        if (!(error instanceof Refused) || error.status !== 404) throw error;
        if (runId !== SHELF) await this.#sendAgain(run);
        return;
      }
      const { entries, cursor: next } = answer.body;
      more = answer.body.more;
      if (cursor > next) {
        await this.#sendAgain(run); // it reaches less far than this phone has read in it
        return;
      }
      // The server's copy wins: it differs if this phone corrected an instant after sending, and on the
      // shelf by a price, which is a maker's to see.
      const news = entries.filter((entry) => {
        const here = run.entry(entry.id);
        return here?.at !== entry.at || (runId === SHELF && canonical(here) !== canonical(entry));
      });
      if (next !== cursor || news.length > 0) {
        await this.#book.commit({
          entries: { put: news },
          outbox: { delete: entries.map(({ id }) => id) },
          meta: { put: [{ key: cursorOf(runId), value: next }] },
        });
      }
      await this.#hear(answer);
    }
  }

  /** One question tells of every open run how far its journal reaches. */
  async #fetchOpen() {
    const listed = await this.#server.all("runs", "open=true");
    await this.#fetchRuns(listed);
    const known = new Set(listed.map(({ id }) => id));
    // Open here and not there: another phone has finished it.
    for (const run of this.#book.runs.values()) if (run.open && !known.has(run.id)) await this.#fetch(run.id);
  }

  async #fetchLists() {
    this.#listsAt = performance.now(); // first, so that who asks for them meanwhile gets them again
    await this.#fetchStudio();
    await this.#fetchKit();
    await this.#fetchSettings();
    await this.#fetch(SHELF);
    await this.#fetchRecipes();
    const { runs, total } = (await this.#server.get(`/runs?open=false&page_size=${FINISHED_KEPT}`)).body;
    await this.#fetchRuns(runs);
    await this.#fetchVersions();
    await this.#missFinished(runs, total);
    await this.#sendAwaited();
    if (total > runs.length) await this.#fetchElsewhere();
  }

  /** How the studio stands, and which paired device this phone is; told once which bench that is in the journal. */
  async #fetchStudio() {
    const { body } = await this.#server.get("/studio");
    const { meta } = this.#book;
    const isNew = canonical(body) !== canonical(meta.get("studio") ?? null);
    const was = meta.get("studio")?.you?.role;
    const put = [{ key: "studio", value: body }];
    // In another role the shelf is told otherwise: all of it is read again.
    if (was && was !== body.you?.role) put.push({ key: cursorOf(SHELF), value: null });
    if (isNew) await this.#book.commit({ meta: { put } });
    if (!body.you || meta.get("told_bench") === body.you.id) return;
    await this.#server.ask("PATCH", `/devices/${body.you.id}`, { bench: meta.get("device") });
    await this.#book.commit({ meta: { put: [{ key: "told_bench", value: body.you.id }] } });
  }

  /** The newest of each recipe: fetched from the server, or given back to one that knows only an older or none. */
  async #fetchRecipes() {
    const missing = new Map(this.#book.recipes);
    for (const { id, version } of await this.#server.all("recipes")) {
      if ((missing.get(id)?.version ?? 0) <= version) missing.delete(id);
      const here = this.#book.recipes.get(id);
      if (missing.has(id) || (here?.version === version && here.etag)) continue;
      const { body, etag } = await this.#server.get(`/recipes/${id}`);
      await this.#book.commit({ recipes: { put: [{ ...body, etag }] } });
    }
    for (const { id, version } of missing.values()) await this.#putBack(id, version);
  }

  /** The document of each recipe version that a run here was made by, in case the server is ever lost. */
  async #fetchVersions() {
    for (const { recipe, isRefused } of this.#book.runs.values()) {
      const id = versionKey(recipe.id, recipe.version);
      if (this.#book.versions.has(id) || isRefused) continue;
      let document = await this.#book.document(recipe.id, recipe.version);
      try {
        document ??= (await this.#server.get(`/recipes/${recipe.id}/versions/${recipe.version}`)).body.document;
      } catch (error) {
        if (error.status === 404) continue;
        throw error;
      }
      await this.#book.commit({ versions: { put: [{ id, document }] } });
    }
  }

  /** Finished runs that should be among the server's newest and are not: does it still know them? */
  async #missFinished(listed, total) {
    const known = new Set(listed.map(({ id }) => id));
    const oldest = total > listed.length ? listed.at(-1).created_at : -Infinity;
    for (const { id, open, created_at } of this.#book.runs.values()) {
      if (!open && !known.has(id) && created_at > oldest) await this.#fetch(id);
    }
  }

  async #fetchRuns(listed) {
    for (const { id, cursor, sealed_by } of listed) {
      const run = this.#book.runs.get(id);
      if (!run || (sealed_by && run.sealed?.signed !== sealed_by)) {
        const { body } = await this.#server.get(`/runs/${id}`);
        await this.#book.commit({ runs: { put: [rowOf(body)] } });
      }
      if (this.#book.meta.get(cursorOf(id)) !== cursor) await this.#fetch(id);
    }
  }

  async #fetchKit() {
    let answer = await this.#server.get("/kit");
    const { kit } = this.#book;
    if (answer.body.version === 0 && kit?.version > 0) {
      if (!this.#isMaker) return;
      answer = await this.#server.ask("PUT", "/kit", kit.document); // the server lost it
    }
    if (answer.etag !== this.#book.kit?.etag) await keepKit(this.#book, answer);
  }

  /** How much of each lot went into batches that this phone does not hold: by so much the server has less left. */
  async #fetchElsewhere() {
    const { journals, meta, runs, shelf } = this.#book;
    if (performance.now() - this.#elsewhereAt < ELSEWHERE_MS || journals.some((journal) => journal.unsent > 0)) return;
    const [{ foldShelf, leftOf }, { useOf }, told] = await Promise.all([import("../bench/shelf.js"), import("../bench/lots.js"), this.#server.all("lots")]);
    const { lots } = foldShelf(shelf.entries);
    const uses = {};
    for (const { sheet, state, entries } of runs.values()) {
      for (const [lot, use] of Object.entries(useOf(sheet, state, entries))) (uses[lot] ??= []).push(use);
    }
    const known = told.filter(({ id }) => Object.hasOwn(lots, id));
    const gaps = known.map(({ id, left_mg, left_count }) => [id, leftOf(lots[id], uses[id] ?? []) - (left_mg ?? left_count)]);
    const elsewhere = Object.fromEntries(gaps.filter(([, much]) => much !== 0));
    if (canonical(elsewhere) !== canonical(meta.get("elsewhere") ?? {})) {
      await this.#book.commit({ meta: { put: [{ key: "elsewhere", value: elsewhere }] } });
    }
    this.#elsewhereAt = performance.now();
  }

  /** The batch numbers' pattern, money, and what stands on labels. */
  async #fetchSettings() {
    try {
      const answer = await this.#server.get("/settings");
      if (answer.etag !== this.#book.meta.get("settings")?.etag) await keepSettings(this.#book, answer);
    } catch (error) {
      if (error.status !== 404) throw error; // an older server keeps none
    }
  }
}

/** Where a journal's entries are read and sent. */
function entriesOf(id) {
  return id === SHELF ? "/shelf/entries" : `/runs/${id}/entries`;
}

/** @param {{body: {version, document, measured}, etag}} answer the server's, to a question for the kit */
export function keepKit(book, { body: { version, document, measured }, etag }) {
  return book.commit({ kit: { put: [{ id: "kit", version, document, measured, etag }] } });
}

/** @param {{body: {version, document}, etag}} answer likewise for the settings */
export function keepSettings(book, { body, etag }) {
  return book.commit({ meta: { put: [{ key: "settings", value: { ...body, etag } }] } });
}

function cursorOf(runId) {
  return `cursor/${runId}`;
}
