/**
 * One round of sync: what is asked of the server, step by step, and how the book takes what it answers.
 *
 * Sync is set union: sending twice and hearing twice are harmless, so a round may be cut off anywhere and
 * simply starts again. Which step comes next, and whether an answer is taken at all, sync-machine.js says.
 */

import { canonical } from "../bench/index.js";
import { last } from "../bench/lists.js";
import { versionKey } from "./book.js";
import { opened, whole } from "./texts.js";
import { inOrder, rowOf, Run, SHELF } from "./run.js";
import { Refused, saysStatus } from "./server.js";
import { answeredFor, missed, readBack } from "./sync-machine.js";
/** @import { LotUse } from "../../bench/shapes/page" */
/** @import { Changes, DraftRow, KeptEntry, MetaRow, OutboxRow, RecipeRow, WriteOptions } from "../../types/keep" */
/** @import { Answered, BodyOf, EntriesPath, KitDoc, Lists, PagePath, RecipeDoc } from "../../types/server" */
/** @import { RecipeKept } from "../../types/answers" */
/** @import { RunItem, SettingsDoc } from "../../types/server" */
/** @import { Book } from "./book.js" */
/** @import { Journal } from "./run.js" */

const BATCH = 200;
/** More recipes than these are read by pages of so many, each recipe whole: a new phone has all to read. */
const FEW = 3;
const WHOLE = 200;
const WHOLE_RUNS = 20;
const MOST_RUNS = 100;
/** So many lots in one answer, at the most. */
const MOST_LOTS = 500;
/** So many entries in one answer, at the most. */
const MOST_ENTRIES = 500;
/** Of the finished runs, only the newest are fetched to be looked at with no network. */
const FINISHED_KEPT = 40;
/** How often the server is asked what batches that are not on this phone have used of the shelf. */
const ELSEWHERE_MS = 5 * 60_000;
/** So many awaited pictures the server names; one older than the last may be awaited all the same. */
const MOST_AWAITED = 200;

/** A recipe that is read by itself does not say how it is filed. @param {RecipeRow} [here] */
const filingOf = ({ tags = [], archived_at = null } = /** @type {RecipeRow} */ ({})) => ({
  tags,
  archived_at,
});

/** @typedef {"open" | "studio" | "recipes"} Heard the batches that are open, how the studio stands, its recipes */
/**
 * What a round may do, of sync.js: `ask` and `commit` throw when the round is no longer the one that goes; `goOn` asks
 * for another after it.
 * @typedef {{
 *   ask: <P extends string>(round: Round, method: string, path: P, body?: unknown) => Promise<Answered<BodyOf<P>>>,
 *   commit: (round: Round, changes: Changes, options?: WriteOptions) => Promise<void>,
 *   hear: (round: Round, answer: Answered) => Promise<void>,
 *   goOn: () => void, isClockOld: () => boolean, isDue: (what: string, everyMs: number) => boolean,
 *   done: (what: string) => void, heard: (what: Heard) => void, now: () => number,
 * }} SyncDoor
 */

export class Round {
  #book;
  #sync;

  /**
   * @param {number} number as the machine counts @param {string | null} generation @param {Book} book
   * @param {SyncDoor} sync
   */
  constructor(number, generation, book, sync) {
    this.number = number;
    this.generation = generation;
    this.#book = book;
    this.#sync = sync;
  }

  /** @template {string} P @param {P} path */
  #get(path) {
    return this.#sync.ask(this, "GET", path);
  }

  /** @template {string} P @param {string} method @param {P} path @param {unknown} [body] */
  #ask(method, path, body) {
    return this.#sync.ask(this, method, path, body);
  }

  /** @param {Changes} changes @param {WriteOptions} [options] */
  #commit(changes, options) {
    return this.#sync.commit(this, changes, options);
  }

  /**
   * Every item of a paged list.
   * @template {keyof Lists} N @param {N} name @param {string} [query] @param {number} [size] of a page
   * @returns {Promise<Lists[N][]>}
   */
  async #all(name, query = "", size = 100) {
    /** @type {Lists[N][]} */
    const items = [];
    for (let page = 1, pages = 1; page <= pages; page += 1) {
      const path = /** @type {PagePath<N>} */ (`/${name}?${query}&page=${page}&page_size=${size}`);
      const { body } = await this.#get(path);
      items.push(...body[name]);
      pages = body.pages;
    }
    return items;
  }

  async clock() {
    if (this.#sync.isClockOld()) await this.#hear(await this.#get("/clock"));
  }

  /** @param {Answered} answer */
  #hear(answer) {
    return this.#sync.hear(this, answer);
  }

  async send() {
    for (const run of this.#book.journals) {
      const waiting = run.waiting();
      if (waiting.length === 0 || run.isRefused || isUnsettled(run, waiting)) continue;
      if (run instanceof Run && waiting.some((row) => row.id === run.id) && !(await this.#sendRun(run)))
        continue;
      for (const isBack of [true, false]) {
        const rows = waiting.filter((row) => Boolean(row.given_back) === isBack);
        const entries = rows.flatMap(({ id }) => run.entry(id) ?? []).sort(inOrder);
        for (let start = 0; start < entries.length; start += BATCH) {
          await this.#sendEntries(run, entries.slice(start, start + BATCH), isBack);
        }
      }
      for (const row of waiting) if (row.picture && !run.isHeld(row.id)) await this.#sendPicture(row);
    }
  }

  /** @param {Run} run @returns {Promise<boolean>} whether the server has the run now */
  async #sendRun(run) {
    const { id, recipe, size, sheet, floor } = run;
    const begin = () =>
      this.#ask("PUT", `/runs/${id}`, {
        recipe: { id: recipe.id, version: recipe.version },
        size,
        kit: sheet.kit,
        made_at: floor,
      });
    const row = { id, run: id };
    let answer;
    try {
      answer = await begin().catch(async (error) => {
        // Not even the recipe is there any more.
        if (!saysStatus(error, 404) || !(await this.#putBack(recipe.id, recipe.version))) throw error;
        return begin();
      });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      await this.#commit({ outbox: { mark: [{ ...row, refused: error.detail }] } });
      return false;
    }
    /** @type {Changes} */
    const changes = { outbox: { mark: answeredFor([row], this.generation) } };
    if (canonical(answer.body.sheet) !== canonical(run.row.sheet)) {
      // A page older than the server may reckon a sheet otherwise. Every other device, and the
      // record, go by the server's; so does this phone from here on.
      changes.runs = { put: [{ ...run.row, sheet: answer.body.sheet }] };
    }
    await this.#commit(changes);
    return true;
  }

  /**
   * @param {Journal} run @param {KeptEntry[]} entries
   * @param {boolean} isBack the server lost them; others may have made them
   */
  async #sendEntries(run, entries, isBack) {
    let answer;
    try {
      answer = await this.#ask(
        "POST",
        entriesOf(run.id),
        isBack ? { entries, given_back: true } : { entries },
      );
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      await this.#batchRefused(run, entries, isBack, error);
      return;
    }
    const row = (/** @type {string} */ id) =>
      isBack ? { id, run: run.id, given_back: true } : { id, run: run.id };
    const { answers } = answer.body;
    const kept = answers.filter(({ result }) => result !== "refused").map(({ id }) => row(id));
    const refused = answers.filter(({ result }) => result === "refused");
    await this.#commit({
      outbox: {
        mark: [
          ...answeredFor(kept, this.generation),
          ...refused.map(({ id, detail }) => ({
            ...row(id),
            refused: detail ?? "not_taken",
          })),
        ],
      },
    });
    await this.#hear(answer);
  }

  /**
   * The server refused the request, not an entry: find out which entry is to blame.
   * @param {Journal} run @param {KeptEntry[]} entries @param {boolean} isBack @param {Refused} error
   */
  async #batchRefused(run, entries, isBack, error) {
    if (error.status === 404) {
      // Every studio of this version has a shelf: an older server keeps none, and what is for it waits.
      if (run.id !== SHELF) await this.#notThere(run);
    } else if (entries.length > 1) {
      const half = Math.ceil(entries.length / 2);
      await this.#sendEntries(run, entries.slice(0, half), isBack);
      await this.#sendEntries(run, entries.slice(half), isBack);
    } else {
      await this.#commit({ outbox: { mark: [{ id: entries[0].id, run: run.id, refused: error.detail }] } });
    }
  }

  /** @param {OutboxRow} row */
  async #sendPicture(row) {
    const { id } = row;
    const blob = await this.#book.picture(id);
    try {
      if (blob) await this.#ask("PUT", `/pictures/${id}`, blob);
      await this.#commit({ outbox: blob ? { mark: answeredFor([row], this.generation) } : { delete: [id] } });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      await this.#commit({ outbox: { mark: [{ ...row, refused: error.detail }] } });
    }
  }

  /**
   * Give the server back a recipe version that it lost.
   * @param {string} recipe @param {number} version @returns {Promise<boolean>} whether it has it now
   */
  async #putBack(recipe, version) {
    const document = this.#isMaker && (await this.#book.document(recipe, version));
    if (!document) return false;
    try {
      await this.#ask("PUT", `/recipes/${recipe}/versions/${version}`, document);
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

  /** One question tells of every open run how far its journal reaches; what was sent is read back. */
  async open() {
    const { runs: listed } = await this.#listed(true);
    await this.#takeRuns(listed);
    const known = new Set(listed.map(({ id }) => id));
    for (const run of this.#book.runs.values()) {
      // Open here and not there: another phone has finished it.
      if (!known.has(run.id) && (run.open || run.unread().length > 0)) await this.#read(run.id);
    }
    if (this.#book.shelf.unread().length > 0) await this.#read(SHELF);
    if (this.#book.journals.some((journal) => journal.unread().some(({ picture }) => picture)))
      await this.#readPictures();
  }

  async lists() {
    await this.#readStudio();
    this.#sync.heard("studio");
    await this.#readRecipes(); // before what no page opens with
    this.#sync.heard("recipes");
    await this.#readKit();
    await this.#readSettings();
    await this.#read(SHELF);
    const { runs, total } = await this.#listed(false, FINISHED_KEPT);
    await this.#takeRuns(runs);
    await this.#readVersions();
    await this.#readPictures();
    if (total > runs.length) await this.#readElsewhere();
  }

  /** @param {RunItem[]} listed */
  async #takeRuns(listed) {
    for (const { id, cursor, sealed_by } of listed) {
      const run = this.#book.runs.get(id);
      if (!run) await this.#takeNew(id);
      else if (sealed_by && run.sealed?.signed !== sealed_by) {
        const { body } = await this.#get(`/runs/${id}`);
        await this.#commit({ runs: { put: [rowOf(body)] } });
      }
      if (this.#book.meta.get(cursorOf(id)) !== cursor || this.#book.journal(id)?.unread().length)
        await this.#read(id);
    }
  }

  /**
   * The newest so many of the runs that are open, or finished. A phone that has none of these takes them whole.
   * @param {boolean} open @param {number} [most] @returns {Promise<{runs: RunItem[], total: number}>}
   */
  async #listed(open, most = Infinity) {
    const hasSome = [...this.#book.runs.values()].some((run) => run.open === open);
    /** @type {RunItem[]} */
    const runs = [];
    for (let page = 1, left = most; ; page += 1) {
      const asked = `open=${open}&page=${page}&page_size=`;
      const { body } = hasSome
        ? await this.#get(`/runs?${asked}${Math.min(most, MOST_RUNS)}`)
        : await this.#takeWhole(`/runs/whole?${asked}${WHOLE_RUNS}`);
      runs.push(...body.runs);
      left -= body.runs.length;
      if (page >= body.pages || left <= 0) return { runs, total: body.total };
    }
  }

  /** @param {`/runs/whole?${string}`} path */
  async #takeWhole(path) {
    const answer = await this.#get(path);
    const news = answer.body.runs.filter(({ id }) => !this.#book.runs.has(id));
    if (news.length)
      await this.#commit({
        runs: { put: news.map(rowOf) },
        entries: { put: news.map(({ id, journal }) => whole(id, journal)) },
        meta: { put: news.map(({ id, read_to: value }) => ({ key: cursorOf(id), value })) },
      });
    await this.#hear(answer);
    return answer;
  }

  /**
   * A run that is new here, with its journal as far as one answer reaches: it is folded once, and not first without.
   * @param {string} id
   */
  async #takeNew(id) {
    const { body: run } = await this.#get(`/runs/${id}`);
    const answer = await this.#get(`${entriesOf(id)}?limit=${MOST_ENTRIES}`);
    const { entries, cursor } = answer.body;
    await this.#commit({
      runs: { put: [rowOf(run)] },
      entries: { put: entries },
      meta: { put: [{ key: cursorOf(id), value: cursor }] },
    });
    await this.#hear(answer);
  }

  /** Read a journal on, to its end: what was sent is then read back, or it is not there. @param {string} id */
  async #read(id) {
    const journal = this.#book.journal(id);
    if (!journal || journal.isRefused || journal.waiting().some((row) => row.id === id)) return;
    const unread = journal.unread().filter((row) => !row.picture && row.id !== id);
    const wasPassedOver = isUnsettled(journal, journal.waiting());
    for (let more = true; more; ) {
      const cursor = this.#book.meta.get(cursorOf(id));
      const after = cursor === undefined || cursor === null ? "" : `&after=${encodeURIComponent(cursor)}`;
      let answer;
      try {
        answer = await this.#get(`${entriesOf(id)}?limit=${MOST_ENTRIES}${after}`);
      } catch (error) {
        if (!saysStatus(error, 404)) throw error;
        if (id !== SHELF) await this.#notThere(journal);
        return;
      }
      const { entries, cursor: next } = answer.body;
      more = answer.body.more;
      // The server's copy wins: it differs if this phone corrected an instant after sending, and on the
      // shelf by a price, which is a maker's to see.
      const news = entries.filter((entry) => {
        const here = journal.entry(entry.id);
        return here?.at !== entry.at || (id === SHELF && canonical(here) !== canonical(entry));
      });
      if (next !== cursor || news.length > 0 || journal.unread().some((row) => row.id === id)) {
        await this.#commit({
          entries: { put: news },
          outbox: readBack([
            ...(journal.unread().some((row) => row.id === id) ? [id] : []),
            ...entries.map((entry) => entry.id).filter((each) => journal.hasRow(each)),
          ]),
          meta: { put: [{ key: cursorOf(id), value: next }] },
        });
      }
      await this.#hear(answer);
    }
    await this.#miss(journal, unread);
    if (wasPassedOver && journal.waiting().length > 0) this.#sync.goOn();
  }

  /**
   * What was unread when a journal was begun to be read, and is yet, is not there.
   * @param {Journal} journal @param {OutboxRow[]} unread @param {OutboxRow[]} [put]
   */
  async #miss(journal, unread, put = []) {
    const yet = new Set(journal.unread().map(({ id }) => id));
    const own = this.#book.meta.get("device");
    const { put: mark, delete: gone } = missed(
      unread.filter(({ id }) => yet.has(id)),
      (id) => journal.entry(id)?.device === own,
      this.#isMaker,
    );
    if (mark.length + gone.length + put.length === 0) return;
    await this.#commit({ outbox: { put, mark, delete: gone } });
    this.#sync.goOn();
  }

  /** The server has not got the run itself. @param {Journal} run */
  async #notThere(run) {
    const unread = run.unread().filter((row) => !row.picture && row.id !== run.id);
    const own = this.#book.meta.get("device");
    const isOurs = this.#isMaker || run.entries.some(({ device }) => device === own);
    await this.#miss(run, unread, isOurs ? [{ id: run.id, run: run.id }] : []);
  }

  /** Which photographs that entries tell of the server has not: those that lie here are sent, sent before or not. */
  async #readPictures() {
    /** @type {BodyOf<"/pictures">["awaited"]} */
    let awaited;
    try {
      ({ awaited } = (await this.#get("/pictures")).body);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      awaited = []; // an older server does not say
    }
    const ids = new Set(awaited.map(({ id }) => id));
    const oldest = awaited.length < MOST_AWAITED ? "" : last(awaited).id;
    const unread = this.#book.journals.flatMap((journal) =>
      journal.unread().filter(({ picture }) => picture),
    );
    /** @type {{mark: OutboxRow[], delete: string[], put: OutboxRow[]}} */
    const outbox = {
      mark: missed(
        unread.filter(({ id }) => ids.has(id)),
        () => true,
      ).put,
      ...readBack(unread.map(({ id }) => id).filter((id) => !ids.has(id) && id > oldest)),
      put: [],
    };
    // A paper's file is large: once the server has it, it is had from there.
    const papers = unread.filter(({ id, run }) => run === SHELF && !ids.has(id) && id > oldest);
    for (const { id, run } of awaited) {
      const journal = this.#book.journal(run);
      if (journal && !journal.holds(id) && (await this.#book.picture(id)))
        outbox.put.push({ id, run, picture: true });
    }
    const pictures = { delete: papers.map(({ id }) => id) };
    if (unread.length + outbox.put.length > 0) await this.#commit({ outbox, pictures });
    if (outbox.mark.length + outbox.put.length > 0) this.#sync.goOn();
  }

  /** How the studio stands, and which paired device this phone is; told once which bench that is in the journal. */
  async #readStudio() {
    const { body } = await this.#get("/studio");
    const { meta } = this.#book;
    const isNew = canonical(body) !== canonical(meta.get("studio") ?? null);
    const was = meta.get("studio")?.you?.role;
    /** @type {MetaRow[]} */
    const put = [{ key: "studio", value: body }];
    // In another role the shelf is told otherwise: all of it is read again.
    if (was && was !== body.you?.role) put.push({ key: cursorOf(SHELF), value: null });
    if (isNew) await this.#commit({ meta: { put } });
    if (!body.you || meta.get("told_bench") === body.you.id) return;
    await this.#ask("PATCH", `/devices/${body.you.id}`, { bench: meta.get("device") });
    await this.#commit({ meta: { put: [{ key: "told_bench", value: body.you.id }] } });
  }

  /** The newest of each recipe: fetched from the server, or given back to one that knows only an older or none. */
  async #readRecipes() {
    if (this.#book.recipes.size === 0) return this.#readAllWhole();
    /** @type {Map<string, {id: string, version: number}>} */
    const missing = new Map(this.#book.recipes);
    /** @type {Map<string, number>} */
    const wanted = new Map(); // to be read, and where each stands in the list
    for (const [place, { id, version, tags, archived_at }] of (await this.#all("recipes")).entries()) {
      const here = this.#book.recipes.get(id);
      if (here && (`${here.tags}` !== `${tags}` || here.archived_at !== archived_at))
        await this.#commit({ recipes: { put: [{ ...here, tags, archived_at }] } });
      if ((here?.version ?? 0) <= version) missing.delete(id);
      if (here && here.version > version && (await this.#isAnother(id, version))) {
        missing.delete(id);
      } else if (missing.has(id) || (here?.version === version && here.generation === this.generation))
        continue;
      wanted.set(id, place);
    }
    if (wanted.size > FEW) await this.#readWhole(wanted);
    for (const id of wanted.keys()) {
      const { body, etag } = await this.#get(`/recipes/${id}`);
      await this.#keepRecipes([{ ...body, etag }]);
    }
    for (const { id, version } of missing.values()) await this.#putBack(id, version);
  }

  /** On a phone that has none yet: what there is need not be asked first. */
  async #readAllWhole() {
    /** @type {Promise<void> | undefined} */
    let keeping;
    for (let page = 1, pages = 1; page <= pages; page += 1) {
      const asked = this.#get(`/recipes/all?page=${page}&page_size=${WHOLE}`);
      const [{ body }] = await Promise.all([asked, keeping]); // the disk writes while the server works
      keeping = body.recipes.length ? this.#keepRecipes(body.recipes) : undefined;
      pages = body.pages;
    }
    await keeping;
  }

  /**
   * The pages of whole recipes on which these stand; what a change moved to another meanwhile stays wanted.
   * @param {Map<string, number>} wanted
   */
  async #readWhole(wanted) {
    const pages = new Set([...wanted.values()].map((place) => Math.floor(place / WHOLE) + 1));
    for (const page of pages) {
      const { recipes } = (await this.#get(`/recipes/all?page=${page}&page_size=${WHOLE}`)).body;
      const read = recipes.filter(({ id }) => wanted.delete(id));
      if (read.length) await this.#keepRecipes(read);
    }
  }

  /** @param {((RecipeDoc & {etag: string | null}) | (RecipeKept & {text: string}))[]} read */
  #keepRecipes(read) {
    const rows = read.map((each) => ({
      ...filingOf(this.#book.recipes.get(each.id)),
      ...each,
      generation: this.generation,
    }));
    const drafts = read.flatMap((each) => this.#mineOf(this.#book.recipes.get(each.id), opened(each)));
    return this.#commit({ recipes: { put: rows }, ...(drafts.length && { drafts: { put: drafts } }) });
  }

  /**
   * Whether the server's version is another than the one that this phone knows by that number.
   * @param {string} id @param {number} version
   */
  async #isAnother(id, version) {
    const known = await this.#book.document(id, version);
    return (
      Boolean(known) && canonical((await this.#get(`/recipes/${id}`)).body.document) !== canonical(known)
    );
  }

  /**
   * A text that only this phone has, under a number that is another's by now, stays here as a draft.
   * @param {RecipeRow | undefined} here @param {RecipeRow} there @returns {DraftRow[]}
   */
  #mineOf(here, there) {
    const isMine =
      here && here.version >= there.version && canonical(here.document) !== canonical(there.document);
    if (!isMine || !this.#isMaker || this.#book.drafts.has(here.id)) return [];
    const { id } = here;
    const draft = {
      id,
      base: there.version,
      was: there.document,
      document: here.document,
      first: null,
      at: this.#sync.now(),
      send: false,
      errors: null,
    };
    return [draft];
  }

  /** The document of each recipe version that a run here was made by, in case the server is ever lost. */
  async #readVersions() {
    for (const { recipe, isRefused } of this.#book.runs.values()) {
      const id = versionKey(recipe.id, recipe.version);
      if (this.#book.versions.has(id) || isRefused) continue;
      let document = await this.#book.document(recipe.id, recipe.version);
      try {
        document ??= (await this.#get(`/recipes/${recipe.id}/versions/${recipe.version}`)).body.document;
      } catch (error) {
        if (saysStatus(error, 404)) continue;
        throw error;
      }
      await this.#commit({ versions: { put: [{ id, document }] } });
    }
  }

  async #readKit() {
    let answer = await this.#get("/kit");
    const { kit } = this.#book;
    if (answer.body.version === 0 && kit && kit.version > 0) {
      if (!this.#isMaker) return;
      answer = await this.#ask("PUT", "/kit", kit.document); // the server lost it
    }
    if (answer.etag !== this.#book.kit?.etag) await this.#commit(kitOf(answer));
  }

  /** The batch numbers' pattern, money, and what stands on labels. */
  async #readSettings() {
    try {
      const answer = await this.#get("/settings");
      if (answer.etag !== this.#book.meta.get("settings")?.etag) await this.#commit(settingsOf(answer));
    } catch (error) {
      if (!saysStatus(error, 404)) throw error; // an older server keeps none
    }
  }

  /** How much of each lot went into batches that this phone does not hold: by so much the server has less left. */
  async #readElsewhere() {
    const { journals, meta, runs, shelf } = this.#book;
    if (
      !this.#sync.isDue("elsewhere", ELSEWHERE_MS) ||
      journals.some((journal) => journal.unsent + journal.unread().length > 0)
    )
      return;
    const [{ foldShelf, leftOf }, { useOf }, told] = await Promise.all([
      import("../bench/shelf.js"),
      import("../bench/lots.js"),
      this.#all("lots", "", MOST_LOTS),
    ]);
    const { lots } = foldShelf(shelf.entries);
    /** @type {{[lot: string]: LotUse[]}} */
    const uses = {};
    for (const { sheet, state, entries } of runs.values()) {
      for (const [lot, use] of Object.entries(useOf(sheet, state, entries))) (uses[lot] ??= []).push(use);
    }
    const known = told.filter(({ id }) => Object.hasOwn(lots, id));
    const gaps = known.map(({ id, left_mg, left_count }) => [
      id,
      leftOf(lots[id], uses[id] ?? []) - (left_mg ?? left_count ?? 0),
    ]);
    const elsewhere = Object.fromEntries(gaps.filter(([, much]) => much !== 0));
    if (canonical(elsewhere) !== canonical(meta.get("elsewhere") ?? {})) {
      await this.#commit({ meta: { put: [{ key: "elsewhere", value: elsewhere }] } });
    }
    this.#sync.done("elsewhere");
  }
}

/**
 * In another generation a journal is read before more is sent to it: what a restore lost goes first, for a signing
 * names it.
 * @param {Journal} journal @param {OutboxRow[]} waiting
 */
function isUnsettled({ id, rows }, waiting) {
  return rows.some(({ held }) => held) && !waiting.some((row) => row.id === id);
}

/** Where a journal's entries are read and sent. @param {string} id @returns {EntriesPath} */
function entriesOf(id) {
  return id === SHELF ? "/shelf/entries" : `/runs/${id}/entries`;
}

/** @param {string} runId @returns {`cursor/${string}`} */
export function cursorOf(runId) {
  return `cursor/${runId}`;
}

/**
 * What the book keeps of the server's answer to a question for the kit.
 * @param {Answered<KitDoc>} answer @returns {Changes}
 */
export function kitOf({ body: { version, document, measured }, etag }) {
  return { kit: { put: [{ id: "kit", version, document, measured, etag }] } };
}

/** Likewise for the settings. @param {Answered<SettingsDoc>} answer @returns {Changes} */
export function settingsOf({ body, etag }) {
  return { meta: { put: [{ key: "settings", value: { ...body, etag } }] } };
}
