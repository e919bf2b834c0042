/**
 * The one door between the screens and everything that is kept: recipes, kit, runs, the clock,
 * the server and what rings.
 *
 *   const studio = await openStudio();
 *   const runId = await studio.begin(recipe, size);
 *   await studio.enter(runId, "weighed", { line, mg });   // resolved: it is on the phone's disk
 *   studio.addEventListener("change", ({ detail }) => redraw(detail.run));
 *
 * Everything here works with no network, but `setKit`. Events: "change" {run: id or null, isOwnDraft},
 * "link", "ring" {wait, phase, at, together: all that ring at this moment}, "ahead" [{key, phase, at}] (what rings
 * within
 * minutes, to be laid on the sound's clock; what is not named any more does not ring), "back" (in sight again after a
 * while: show `missed()`),
 * "closed" (a newer page took the disk: reload).
 */

import { now } from "../bench/index.js";
import { saysOf } from "../bench/errors.js";
import { seal } from "../bench/journal/index.js";
import { Book, versionKey } from "./book.js";
import { Clock } from "./clock.js";
import { Drafts } from "./drafts.js";
import { markOf, newId } from "./ids.js";
import { Live } from "./live.js";
import { cannot } from "./means.js";
import { Pieces } from "./pieces.js";
import { nextTurn, Rings } from "./rings.js";
import { Run } from "./run.js";
import { resealed } from "./seal.js";
import { goingOn, NotLetIn, Refused, Server, Unreachable } from "./server.js";
import { Shelf } from "./shelf.js";
import { Sync } from "./sync.js";
import { kitOf, settingsOf } from "./sync-round.js";
import { openStore } from "./store.js";
import { undoing } from "./undoing.js";
import { Updates } from "./updates.js";
import { breathe, pacing } from "../platform.js";
import { say } from "../words.js";
/** @import { DutySaid, Entry, Now, Size, State, Trace } from "../../bench/shapes/page" */
/** @import { HearsClass } from "../../types/events" */
/** @import { Changes, Coming, Item, KeptEntry, Link, Meta, OutboxRow, Preferences } from "../../types/keep" */
/** @import { RecipeRow, RefusedRow, RunTold, Said, Undoing } from "../../types/keep" */
/** @import { HoursDoc, PlanDoc, SettingsDocument, ToldOfRun } from "../../types/server" */
/** @import { Archive } from "./archive.js" */
/** @import { Door } from "./door.js" */
/** @import { Plans } from "./plans.js" */
/** @import { Seen } from "./seen.js" */
/** @import { Week } from "./week.js" */
/** @import { Heard } from "./sync-round.js" */
/** @import { Ringing } from "./rings.js" */

/** @type {Preferences} */
const PREFERENCES = {
  sound: true,
  speech: false,
  theme: "auto",
  language: "",
  mass: "g",
  warmth: "c",
  weigh: "running",
};
/** What a studio goes by that has not said otherwise. */
const SETTINGS = { batch_number: "{yy}{mm}{dd}-{mark}{n}" };
const URGENCY = ["late", "soon_late", "ready", "look", "open", "counting"];
/** While the page is in sight, the time is noted this often, so that a killed page knows when it was last seen. */
const SEEN_EVERY_MS = 20_000;
/** When that did not happen for so long, the page stood still. */
const FROZEN_MS = 2 * 60_000;
const CLOSED_AFTER_MS = 2_000;
const TOGETHER_MS = 24 * 3_600_000; // as the server has it (api/planner.py), and so is the demo's device
const DEMO_DEVICE = "demo-phone";

/**
 * @param {{early?: boolean}} [how] early: with the runs that are open; the others come by `readRest`, and sync after
 *   it; the copy for offline by `keepCopy`
 * @returns {Promise<Studio>} rejects with a StoreError when the phone gives no place to keep runs
 */
export async function openStudio({ early = false } = {}) {
  /** @type {Studio | undefined} */
  let studio;
  const store = await openStore({ onClosed: () => studio?.dispatchEvent(new Event("closed")) });
  const book = await Book.open(store, { early });
  const device = await book.revise("device", (kept) => kept ?? newId(Date.now()));
  studio = new Studio(book, device);
  await studio.lookOver();
  if (!early) studio.keepCopy();
  return studio;
}

/** Hundreds of titles at each drawing: localeCompare looks its rules up for each pair. */
const byTitle = new Intl.Collator();

/**
 * @typedef {{state: State, says: Now, items: Item[], from: number, until: number}} Looked
 * @typedef {{run: string | null, isOwnDraft?: boolean}} StudioChange
 * @typedef {{change: StudioChange, link: undefined, ring: Ringing, ahead: Coming[], back: undefined,
 *   closed: undefined}} StudioEvents
 */

export class Studio extends /** @type {HearsClass<StudioEvents>} */ (EventTarget) {
  #book;
  #device;
  #clock;
  #server;
  #sync;
  #rings;
  #updates = new Updates();
  /** @type {Map<string, Looked>} */
  #benches = new Map();
  /** @type {WeakMap<object, Undoing>} */
  #undoings = new WeakMap(); // by the array of a journal's entries, which is another when they are others
  #durable = false;
  #seenTimer = 0;
  #seen = Infinity;
  /** @type {Promise<void> | null} */
  #started = null;
  #noting = 0;
  #isChecking = false;
  #linkTold = "";
  /** @type {Door | undefined} */
  #door;
  /** @type {Archive | undefined} */
  #archive;
  /** @type {Plans | undefined} */
  #plans;
  /** @type {Week | undefined} */
  #week;
  /** @type {Seen | undefined} */
  #seenHere;

  /** @param {Book} book @param {string} device */
  constructor(book, device) {
    super();
    this.#book = book;
    this.#device = device;
    this.#clock = new Clock(book.meta.get("offset"), { leap: book.meta.get("leap") });
    this.#server = new Server(this.#clock);
    this.#sync = new Sync({
      book,
      clock: this.#clock,
      server: this.#server,
      live: new Live(),
      pace: () => this.#pace(),
      ready: () => this.lookOver(),
    });
    this.#rings = new Rings({
      book,
      clock: this.#clock,
      items: () => this.waits(),
      ask: () => this.#sync.soon(),
      follows: () => this.#sync.follows,
    });
    /** Recipes being written. */
    this.drafts = new Drafts({ book, server: this.#server, now: () => this.at() });
    /** Recipes from elsewhere, and what recipes were before. */
    this.shelf = new Shelf(this.#server);
    /** Finished pieces, as last seen. */
    const heard = () => this.#tell("change", { run: null, isOwnDraft: false });
    this.pieces = new Pieces({ book, server: this.#server, heard });
    /** When the maker last had this page in sight before now: hand it to `missed`. */
    this.lookedAt = book.meta.get("looked_at") ?? this.at();
    this.#listen();
  }

  get device() {
    return this.#device;
  }

  /** The corrected instant in ms: the `at` to count down with. */
  at() {
    return this.#clock.now();
  }

  get recipes() {
    return [...this.#book.recipes.values()].sort((a, b) => byTitle.compare(a.title, b.title));
  }

  /** The newest version of a recipe. @param {string} id */
  recipe(id) {
    return this.#book.recipes.get(id);
  }

  /** The measured kit, or null until the studio has said what it owns. */
  get kit() {
    return this.#book.kit?.measured ?? null;
  }

  /** The kit as the maker wrote it, or null. */
  get kitDocument() {
    return this.#book.kit?.document ?? null;
  }

  /** The batch numbers' pattern, money, wrap, and what stands on labels, as last said. @returns {SettingsDocument} */
  get settings() {
    return { ...SETTINGS, ...this.#book.meta.get("settings")?.document };
  }

  newId() {
    return newId(this.at());
  }

  /** The shelf's entries, in order. */
  get shelfEntries() {
    return this.#book.shelf.entries;
  }

  /** How much of each lot went into batches that are not on this phone: {lot: mg or pieces}. */
  get elsewhere() {
    return this.#book.meta.get("elsewhere") ?? {};
  }

  /** The day by this phone's own calendar, "2026-11-25". */
  today() {
    const date = new Date(this.at());
    const two = (/** @type {number} */ whole) => String(whole).padStart(2, "0");
    return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  }

  /**
   * A number for a new batch, by the studio's pattern: this phone's mark and its own count make it unlike any other.
   * @param {string} title
   */
  async nextNumber(title) {
    const { batchNumber } = await import("../bench/batch-number.js"); // here already, where a size was chosen
    const { batch_number: pattern } = this.settings;
    const given = new Set([
      ...this.runs.map((run) => run.told.number),
      ...this.made.map((made) => made.number),
    ]);
    for (;;) {
      const n = await this.#book.revise("batches", (kept) => (kept ?? 0) + 1);
      const number = batchNumber(pattern, this.today(), markOf(this.#device), n, title);
      if (!given.has(number)) return number;
    }
  }

  /** Every run on this phone, newest first. */
  get runs() {
    return [...this.#book.runs.values()].sort((a, b) => b.created_at - a.created_at);
  }

  /** @param {string} id */
  run(id) {
    return this.#book.runs.get(id);
  }

  /**
   * Every finished run on this phone, as a list shows it, the last finished first.
   * @returns {(RunTold & {id: string})[]}
   */
  get made() {
    const here = this.runs.filter((run) => !run.open).map((run) => ({ id: run.id, ...run.told }));
    const closed = this.#book.isWhole ? {} : (this.#book.meta.get("closed") ?? {});
    const later = Object.entries(closed).filter(([id]) => !this.#book.runs.has(id));
    return [...here, ...later.map(([id, told]) => ({ id, ...told }))].sort(
      (a, b) => (b.finished_at ?? 0) - (a.finished_at ?? 0),
    );
  }

  /** Finished runs are here too. */
  get isWhole() {
    return this.#book.isWhole;
  }

  /** Read the finished runs too, and only then talk to the server. @returns {Promise<void>} once they are here */
  async readRest() {
    await this.#book.readRest();
    this.#started ??= this.#sync.start();
  }

  /**
   * @param {RecipeRow | string} recipe one of `recipes`, or its id
   * @param {Size} size as bench's chooseSize gives it @param {string} [number] the batch number
   * @returns {Promise<string>} the new run's id, once the run is on the phone's disk
   */
  async begin(recipe, size, number) {
    const known = this.#book.recipes.get(typeof recipe === "string" ? recipe : recipe.id);
    const { kit } = this;
    if (!known || !kit) throw new Error("A run is begun with a recipe and a kit that are here.");
    const { id, version, title, document, measured } = typeof recipe === "string" ? known : recipe;
    const { makeSheet } = await import("../bench/sheet/index.js"); // here already, where a size was chosen
    const sheet = makeSheet(measured, { id, version }, size, kit);
    const at = this.at();
    const run = { id: newId(at), recipe: { id, version, title }, size, sheet, created_at: at };
    const madeBy = { id: versionKey(id, version), document, measured };
    /** @type {Changes & {outbox: {put: OutboxRow[]}}} */
    const changes = {
      runs: { put: [run] },
      outbox: { put: [this.#guessed({ id: run.id, run: run.id })] },
      versions: { put: [madeBy] },
    };
    if (number) {
      const numbered = this.#newEntry(run.id, at, "numbered", { number });
      changes.entries = { put: [numbered.entry] };
      changes.outbox.put.push(numbered.row);
    }
    await this.#book.commit(changes, { strict: true });
    this.#askToKeep();
    this.#sync.soon();
    return run.id;
  }

  /**
   * Something happened at the bench, or on the shelf (`runId` "shelf").
   * @param {string} runId @param {string} kind @param {Said["body"]} [body]
   * @returns {Promise<KeptEntry>} the entry, once it is on the phone's disk
   * @throws {StoreError} with `says`; then nothing was kept and nothing has changed
   */
  async enter(runId, kind, body = {}) {
    return (await this.enterAll(runId, [{ kind, body }]))[0];
  }

  /**
   * Several things that one touch says: all of them are kept, or none.
   * @param {string} runId @param {readonly Said[]} said
   * @param {number} [at] when it was touched, which may be a moment ago
   */
  async enterAll(runId, said, at = this.at()) {
    return this.#keep(runId, said, at, {});
  }

  /**
   * A photograph of a run, or a paper's file: it and the entry that tells of it, both or neither.
   * @param {string} runId @param {Blob} blob @param {string} sha256 of its bytes, hex
   * @param {Said} said what tells of it @param {number} [at]
   */
  async enterPicture(runId, blob, sha256, { kind, body }, at = this.at()) {
    const picture = this.newId();
    // As bytes: a private session of WebKit's keeps no Blob.
    const changes = {
      pictures: { put: [{ id: picture, bytes: await blob.arrayBuffer(), type: blob.type }] },
      outbox: { put: [{ id: picture, run: runId, picture: true }] },
    };
    return (await this.#keep(runId, [{ kind, body: { picture, sha256, ...body } }], at, changes))[0];
  }

  /** The photograph itself; undefined when another phone took it. @param {string} id */
  picture(id) {
    return this.#book.picture(id);
  }

  /**
   * The batches a lot went into, as the server knows them once this phone has told what it can; those after one go on.
   * @param {string} lot @param {string | null} after @returns {Promise<Trace>} @throws {Unreachable | Refused}
   */
  async trace(lot, after) {
    await this.#sync.soon();
    return (await this.#server.get(`/lots/${lot}/trace?page_size=50${goingOn(after)}`)).body;
  }

  /**
   * What the server alone knows, once this phone has told what it can.
   * @param {string} method @param {string} path @param {unknown} body @throws {Unreachable | Refused}
   */
  async ask(method, path, body) {
    await this.#sync.soon();
    return (await this.#server.ask(method, path, body)).body;
  }

  /**
   * A recipe's former version: from this phone, or from the server.
   * @param {string} id @param {number} version
   * @returns {Promise<Pick<RecipeRow, "document" | "measured">>} @throws {Unreachable | Refused}
   */
  async version(id, version) {
    const { document, measured } = (await this.#book.version(id, version)) ?? {};
    return document && measured
      ? { document, measured }
      : (await this.#server.get(`/recipes/${id}/versions/${version}`)).body;
  }

  /**
   * What the server knows of a run beside its journal: what came late, and who sent what.
   * @param {string} runId @returns {Promise<ToldOfRun>} @throws {Unreachable | Refused}
   */
  async told(runId) {
    const isThere =
      this.#sync.online &&
      !this.run(runId)
        ?.waiting()
        .some(({ id }) => id === runId);
    if (!isThere) return { late: [], people: [] };
    const { late, people } = (await this.#server.get(`/runs/${runId}/record`)).body;
    return { late, people };
  }

  /** @param {string} runId @param {readonly Said[]} said @param {number} at @param {Changes} changes */
  async #keep(runId, said, at, changes) {
    const journal = this.#book.journal(runId);
    if (!journal) throw new Error("What is entered is of a batch that is here.");
    const made = said.map(({ kind, body }) => {
      const sealed = kind === "signed" ? seal(journal.entries) : {}; // who signs, signs what this phone has
      return this.#newEntry(runId, journal.stamp(at), kind, { ...body, ...sealed });
    });
    const entries = made.map(({ entry }) => entry);
    const outbox = { put: [...(changes.outbox?.put ?? []), ...made.map(({ row }) => row)] };
    const written = this.#book.commit({ ...changes, entries: { put: entries }, outbox }, { strict: true });
    // While the disk writes, what the bench says next is worked out; it is said once the disk has it.
    if (journal instanceof Run)
      queueMicrotask(() => this.#benches.set(runId, this.#look(journal, journal.foresee(entries))));
    await written;
    this.#sync.soon();
    return entries;
  }

  /** @param {string} run @param {number} at @param {string} kind @param {Said["body"]} body */
  #newEntry(run, at, kind, body) {
    /** @type {KeptEntry} */
    const entry = {
      id: newId(at),
      run,
      device: this.#device,
      at,
      kind,
      body: /** @type {Entry["body"]} */ (body),
    };
    return { entry, row: this.#guessed({ id: entry.id, run }) };
  }

  /**
   * A row of the outbox, with a mark while this phone's clock is a guess.
   * @param {OutboxRow} row @returns {OutboxRow}
   */
  #guessed(row) {
    return this.#clock.sure ? row : { ...row, guessed: true };
  }

  /**
   * What an undo on this phone takes back in a run, or on the shelf, and what a redo brings again; see undoing.js.
   * @param {string} runId @returns {Undoing}
   */
  undoing(runId) {
    const journal = this.#book.journal(runId);
    if (!journal) return { undo: null, redo: null };
    const { entries } = journal;
    const sealed = journal instanceof Run ? journal.state.signed?.entries : undefined;
    const known = this.#undoings.get(entries) ?? undoing(entries, this.#device, sealed);
    this.#undoings.set(entries, known);
    return known;
  }

  /**
   * Send a refused entry or picture again (both null: the run itself), with an instant the server can believe.
   * @param {Pick<RefusedRow, "run" | "entry" | "picture">} refused
   */
  async sendAgain({ run, entry, picture }) {
    const row = picture ? { id: picture, run, picture: true } : { id: entry?.id ?? run, run };
    /** @type {Changes} */
    const changes = { outbox: { put: [row] } };
    const journal = this.#book.journal(run);
    if (!journal) return;
    if (entry && (entry.at > this.at() || entry.at < journal.floor)) {
      // Made while this phone's clock was wrong; nobody else has seen it.
      const others = journal.entries.filter(({ id, at }) => id !== entry.id && at <= this.at());
      const at = Math.max(this.at(), journal.floor, (others.at(-1)?.at ?? 0) + 1);
      changes.entries = { put: resealed(journal, [{ ...entry, at }]) };
    } else if (entry?.body.entries) {
      // What it signed may have been sent with another instant since.
      changes.entries = { put: resealed(journal, [entry]) };
    }
    await this.#book.commit(changes, { strict: true });
    await this.#sync.soon();
  }

  /**
   * Leave a refused entry out of the run; it stays on this phone's disk.
   * @param {Pick<RefusedRow, "run" | "entry">} refused
   */
  async setAside({ run, entry }) {
    if (!entry) return; // a run that was refused, or a photograph, is sent again or stays
    const row = { id: entry.id, run, refused: "aside", aside: true };
    await this.#book.commit({ outbox: { put: [row] } }, { strict: true });
  }

  /**
   * What the bench says now. It says the same thing, and is the same object, until the run's
   * journal changes or something that counts enters its next phase; so count down with `at()`.
   * @param {string} runId
   */
  bench(runId) {
    const run = this.run(runId);
    if (!run) throw new Error("What is looked at is a batch that is here.");
    return this.#looked(run).says;
  }

  /**
   * Every wait, window and guide of every open run, most urgent first: bench's own, each with
   * `what` ("wait", "window" or "guide"), `run` and `run_name`.
   */
  waits() {
    const open = [...this.#book.runs.values()].filter((run) => run.open);
    return open
      .flatMap((run) => this.#looked(run).items)
      .sort((a, b) => URGENCY.indexOf(a.phase) - URGENCY.indexOf(b.phase) || asksAt(a) - asksAt(b));
  }

  /** What the bench says of a run, its countdowns, and until when that holds. @param {Run} run @returns {Looked} */
  #looked(run) {
    const { id, state } = run;
    const at = this.at();
    const known = this.#benches.get(id);
    if (known?.state === state && known.from <= at && at < known.until) return known;
    const looked = this.#look(run, state);
    this.#benches.set(id, looked);
    return looked;
  }

  /** @param {Run} run @param {State} state what it is, or will be @returns {Looked} */
  #look({ id, sheet }, state) {
    const at = this.at();
    const says = now(sheet, state, at);
    const named = { run: id, run_name: state.number || sheet.recipe.title };
    /** @type {Item[]} */
    const items = [
      ...says.waits.map((item) => ({ ...item, ...named, what: /** @type {const} */ ("wait") })),
      ...says.windows.map((item) => ({ ...item, ...named, what: /** @type {const} */ ("window") })),
      ...says.guides.map((item) => ({ ...item, ...named, what: /** @type {const} */ ("guide") })),
    ];
    const until = Math.min(...items.map((item) => nextTurn(item, at)));
    return { state, says, items, from: at, until };
  }

  /** What fell due since then and is not done yet: [{wait, phase, at}], most recent first. */
  missed(since = this.lookedAt) {
    return this.#rings.missed(since);
  }

  /** @returns {Link} */
  get link() {
    const { journals } = this.#book;
    const { online, trouble } = this.#sync;
    return {
      state: online === null ? "asking" : online ? "online" : "offline",
      unsent: journals.reduce((sum, journal) => sum + journal.unsent, 0),
      refused: journals.flatMap((journal) => journal.refused),
      heard_at: this.#sync.heardAt,
      trouble: saysOf(trouble) || null,
      shut: this.#sync.shut,
      leap: this.#clock.leap,
      trusted: !this.#updates.barred,
      secure: isSecureContext,
      durable: this.#durable,
      kept: this.#updates.kept,
      cannot: cannot({ durable: this.#durable }),
      update: this.#updates.waiting,
    };
  }

  /**
   * How the studio stands, as the server last said: {mode, you: {id, name, role} or null,
   * copies, certificate_ends_at, clock_wrong, version}; null until it was first heard.
   */
  get place() {
    return this.#book.meta.get("studio") ?? null;
  }

  /** Nothing of the studio is on this phone. */
  get isEmpty() {
    return this.#book.runs.size === 0 && this.#book.isWhole && this.#book.recipes.size === 0;
  }

  /** Since this page was opened the studio has not been heard to its end, and it may be yet. */
  get isAsking() {
    return !this.#sync.whole && this.#sync.online !== false && !this.#sync.shut;
  }

  /** The same of a part of it. @param {Heard} what */
  isAskingFor(what) {
    return this.isAsking && !this.#sync.heard.has(what);
  }

  /** This phone may change recipes and the kit, and let others in. The server has the last word. */
  get isMaker() {
    return this.place?.you?.role !== "helper";
  }

  /** The plan a run follows, as the server last gave it, and the bench hours; null for what was never heard. */
  /** @param {string} run @returns {{plan: PlanDoc | null, hours: HoursDoc | null}} */
  planOf(run) {
    return { plan: this.#book.meta.get(`plan ${run}`) ?? null, hours: this.#book.meta.get("hours") ?? null };
  }

  /**
   * The other runs that share the bench with this one: they are open, and somebody here did something in them of
   * late.
   */
  /** @param {string} id */
  beside(id) {
    const since = this.at() - TOGETHER_MS;
    return this.runs.filter(
      (run) =>
        run.open &&
        run.id !== id &&
        (run.entries.at(-1)?.at ?? run.created_at) > since &&
        run.entries.at(-1)?.device !== DEMO_DEVICE,
    );
  }

  /** The runs that one plan covers with this one: those it was made of, else what shares the bench. */
  /** @param {string} id @returns {Run[]} */
  together(id) {
    const { plan } = this.planOf(id);
    const others = plan
      ? (plan.runs ?? plan.parts.map(({ run }) => run)).map((run) => this.run(run))
      : this.beside(id);
    return [this.run(id), ...others.filter((run) => run?.open && run.id !== id)].flatMap((run) => run ?? []);
  }

  /**
   * Every open run, as the day lets the maker choose: [{ id, name, touched_at, isIn, isAsked }]. What nobody
   * touched for a day is asked about, and no more for a day once it was answered.
   * @param {string} id
   */
  choices(id) {
    const { plan } = this.planOf(id);
    const together = new Set(this.together(id));
    const since = this.at() - TOGETHER_MS;
    const isNew = (plan?.asked_at ?? 0) > since; // what it is of was chosen in the last day
    return this.runs
      .filter((run) => run.open)
      .map((run) => {
        const last = run.entries.at(-1);
        const touched = last?.at ?? run.created_at;
        const isAsked =
          run.id !== id &&
          touched <= since &&
          last?.device !== DEMO_DEVICE &&
          !plan?.out?.includes(run.id) &&
          !(isNew && together.has(run));
        return { id: run.id, name: run.name, touched_at: touched, isIn: together.has(run), isAsked };
      });
  }

  /**
   * What the plan had next in a run when it was last looked at, so that a bench opens with the same; null once
   * anything happened since.
   * @param {Run} run
   */
  lastLed(run) {
    const last = this.#book.meta.get("led");
    return last?.run === run.id && last.count === run.count
      ? { step: last.step, advice: "", reason: "" }
      : null;
  }

  /** @param {Run} run @param {string | null} step */
  noteLed({ id, count }, step) {
    const led = { run: id, count, step };
    if (JSON.stringify(led) !== JSON.stringify(this.#book.meta.get("led"))) this.#note("led", led);
  }

  /** To ask for plans; see plans.js. */
  async plans() {
    this.#plans ??= new (await import("./plans.js")).Plans(this.#book, this.#server);
    return this.#plans;
  }

  /** Batches that are on the server alone; see archive.js. */
  async archive() {
    this.#archive ??= new (await (await import("../connected.js")).archive()).Archive(
      this.#book,
      this.#server,
    );
    return this.#archive;
  }

  /** What the server alone works out, as last seen here; see seen.js. */
  async seen() {
    const { Seen } = await import("./seen.js");
    this.#seenHere ??= new Seen({
      book: this.#book,
      server: this.#server,
      now: () => this.at(),
      away: () => this.#sync.soon(),
    });
    return this.#seenHere;
  }

  /**
   * Say how a duty of selling stands. Needs the server. @throws {Unreachable|Refused} with `says`
   * @param {DutySaid} said
   */
  sayDuty(said) {
    return this.#server.ask("PUT", `/duties/${this.newId()}`, said);
  }

  /** Who is let in, for a maker; see door.js. */
  async door() {
    this.#door ??= new (await (await import("../connected.js")).door()).Door(this.#server);
    return this.#door;
  }

  /** The order of work and its plan; see week.js. */
  async week() {
    this.#week ??= new (await (await import("../connected.js")).orders()).Week(this.#book, this.#server);
    return this.#week;
  }

  /** Which batch the week begins next, as last seen. */
  get nextOfWeek() {
    return this.#book.meta.get("week") ?? null;
  }

  /** The clock was compared with the server's since this page was opened. */
  get isClockSure() {
    return this.#clock.sure;
  }

  /** @returns {Preferences} */
  get preferences() {
    return { ...PREFERENCES, ...Object.fromEntries(this.#book.preferences) };
  }

  /** @param {keyof Preferences} key @param {string | number | boolean} value */
  setPreference(key, value) {
    return this.#book.commit({ preferences: { put: [{ key, value }] } });
  }

  /**
   * Replace the kit. Needs the server, which measures it.
   * @param {object} document
   * @throws {Unreachable|Refused} with `says`
   */
  async setKit(document) {
    await this.#book.commit(kitOf(await this.#replace("kit", this.#book.kit?.etag, document)));
  }

  /**
   * Replace the settings. Needs the server. @throws {Unreachable|Refused} with `says`
   * @param {object} document
   */
  async setSettings(document) {
    await this.#book.commit(
      settingsOf(await this.#replace("settings", this.#book.meta.get("settings")?.etag, document)),
    );
  }

  /**
   * @template {"kit" | "settings"} W @param {W} what @param {string | null | undefined} etag @param {object} document
   */
  async #replace(what, etag, document) {
    try {
      return await this.#server.ask("PUT", `/${what}`, document, {
        headers: etag ? { "If-Match": etag } : {},
      });
    } catch (error) {
      if (error instanceof Refused && (error.status === 412 || error.status === 428)) {
        this.#sync.soon({ lists: true });
        error.says = say("page-keep-changed", { what });
      } else if (error instanceof Unreachable && !(error instanceof NotLetIn)) {
        error.says = say("page-keep-needs", { what });
      }
      throw error;
    }
  }

  /** Bring phone and server together now. Never rejects; `link` says how it went. */
  sync() {
    return this.#sync.soon({ lists: true, now: true });
  }

  /** Have the page's own copy fetched, so that it opens with no network. */
  keepCopy() {
    return this.#updates.start();
  }

  /** Let the waiting newer page take over; it reloads. Does nothing while there is none. */
  applyUpdate() {
    this.#updates.apply();
  }

  /** Ask for the page as it is now to be, and open that. Rejects when the server is out of reach. */
  renew() {
    return this.#updates.renew();
  }

  close() {
    clearInterval(this.#seenTimer);
    clearTimeout(this.#noting);
    document.removeEventListener("visibilitychange", this.#inSight);
    this.#sync.stop();
    this.#rings.stop();
    this.#updates.stop();
    this.#book.close();
  }

  #listen() {
    this.#book.addEventListener("change", ({ detail: { stores, runs, isMine } }) => {
      for (const run of runs) this.#tell("change", { run });
      if (runs.length === 0 && stores.some((name) => name !== "meta" && name !== "seen"))
        this.#tell("change", { run: null, isOwnDraft: isMine && stores.join() === "drafts" });
      if (stores.includes("outbox")) this.#tellLink(); // before it is drawn, which says it too
      if (runs.length > 0) this.#checkSoon();
      if (runs.length > 0 || stores.includes("runs")) this.#noteClosedSoon();
    });
    this.#sync.addEventListener("round", () => {
      if (this.#clock.leap && this.waits().length === 0) this.#takeOver();
      this.#tellLink();
      if (this.#sync.online) this.drafts.sendWaiting().catch(() => {}); // the next round tries again
    });
    this.#sync.addEventListener("heard", () => this.#tell("link", undefined));
    this.#updates.addEventListener("change", () => this.#tellLink());
    this.#clock.addEventListener("jump", () => queueMicrotask(() => this.#onLeap()));
    this.#rings.addEventListener("ring", ({ detail }) => this.#tell("ring", detail));
    this.#rings.addEventListener("ahead", ({ detail }) => this.#tell("ahead", detail));
    document.addEventListener("visibilitychange", this.#inSight);
    this.#seenTimer = setInterval(() => this.#see(), SEEN_EVERY_MS);
    navigator.storage?.persisted().then((durable) => this.#setDurable(durable));
    // Before the first ring, so that one cut off is missed.
    if (document.visibilityState === "visible") this.#noteSeen();
    this.#checkSoon();
    if (this.isWhole) this.#started = this.#sync.start();
    this.#noteClosedSoon();
  }

  /** What rings is looked for apart from the write that changed it: to fold a journal takes a while. */
  async #checkSoon() {
    if (this.#isChecking) return;
    this.#isChecking = true;
    await breathe();
    await this.lookOver();
    this.#isChecking = false;
    this.#rings.check();
  }

  /** Each batch that came is folded, and then asked, in a piece of work of its own: all at once hold up a touch. */
  async lookOver() {
    const pace = pacing();
    for (const run of this.#book.runs.values()) {
      const { open } = run;
      const isFolded = pace();
      if (isFolded) await isFolded;
      if (open) this.#looked(run);
      const isAsked = pace();
      if (isAsked) await isAsked;
    }
  }

  /** What is finished is noted at rest, so that the next opening need not read it. */
  #noteClosedSoon() {
    clearTimeout(this.#noting);
    this.#noting = setTimeout(async () => {
      if (!this.isWhole) return;
      await this.lookOver();
      const closed = Object.fromEntries(
        [...this.#book.runs.values()]
          .filter((run) => !run.open && run.isSettled)
          .map((run) => [run.id, run.told]),
      );
      if (JSON.stringify(closed) !== JSON.stringify(this.#book.meta.get("closed") ?? {}))
        this.#note("closed", closed);
    }, CLOSED_AFTER_MS);
  }

  /** @template {keyof StudioEvents} K @param {K} name @param {StudioEvents[K]} detail */
  #tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }

  /** Only when something but the time of the last answer is new: rounds come every few seconds. */
  #tellLink() {
    const { heard_at: _, ...link } = this.link;
    const told = JSON.stringify([link, this.place]);
    if (told === this.#linkTold) return;
    this.#linkTold = told;
    this.#tell("link", undefined);
  }

  #pace() {
    if (document.visibilityState !== "visible") return "hidden";
    for (const run of this.#book.runs.values()) if (run.open) return "run";
    return "page";
  }

  #inSight = () => {
    if (document.visibilityState === "visible") this.#comeBack();
    else this.#noteSeen();
  };

  /** A page may be frozen while it is in sight: then too it comes back, and says what was missed. */
  #see() {
    if (document.visibilityState !== "visible") return;
    if (this.at() - this.#seen > FROZEN_MS) this.#comeBack();
    this.#noteSeen();
  }

  #comeBack() {
    this.lookedAt = this.#book.meta.get("looked_at") ?? this.at();
    this.#rings.check();
    this.#tell("back", undefined);
  }

  #onLeap() {
    this.#note("offset", this.#clock.offset);
    this.#comeBack();
  }

  #takeOver() {
    this.#clock.takeOver();
    this.#note("offset", this.#clock.offset);
    this.#note("leap", 0);
  }

  #noteSeen() {
    this.#seen = this.at();
    this.#note("looked_at", this.#seen);
  }

  /** Kept if there is room: the page can do without. @template {keyof Meta} K @param {K} key @param {Meta[K]} value */
  #note(key, value) {
    this.#book.commit({ meta: { put: [{ key, value }] } }).catch(() => {});
  }

  #askToKeep() {
    if (this.#durable) return;
    navigator.storage?.persist().then((durable) => this.#setDurable(durable));
  }

  /** @param {boolean} durable */
  #setDurable(durable) {
    this.#durable = durable;
    this.#tellLink();
  }
}

/**
 * The instant of an item's present phase, or the next it counts to: what tells two of one phase apart.
 * @param {Item} item
 */
function asksAt(item) {
  if (item.what === "guide") return item.until;
  if (item.what === "window") return item.latest_at;
  if (item.phase === "counting") return item.earliest_at;
  if (item.phase === "look") return item.usual_at;
  return item.latest_at ?? item.usual_at;
}
