// The batch record: what was asked, what was weighed, when each thing was done, how long each wait
// really was, which lots went in, what it cost, what was corrected, skipped and noted. Made to be read,
// printed, signed and kept.
//
// screen.data =
// { run, runs, entries, settings, device, place, isMaker, refused, picture: async (id) => Blob or undefined,
//     told: async () => what the server knows besides, undoing: as keep/undoing.js gives it }
//   "answer" { kind: "signed" | "undone" | "noted" | "measured" | "worked", body }
//   "picture-taken" { blob, sha256, text }     screen.trouble("…")   screen.said("…")

import { digest } from "../bench/digest.js";
import { saysOf } from "../bench/errors.js";
import { those } from "../bench/lists.js";
import { ofRecord } from "../bench/journal/index.js";
import { record } from "../bench/record.js";
import { isOwn, partName } from "../bench/sheet-words.js";
import { define, given, h, setChildren, setText, show, tell } from "../parts/dom.js";
import { DutiesPart, productIn } from "../parts/duties.js";
import { fileLink, handOver } from "../parts/hand-over.js";
import { letterMark } from "../parts/hatch.js";
import { openPad } from "../parts/number-pad.js";
import { criteriaPart, deviationsPart, releasePart, releaseWords, startsPart } from "../parts/judging.js";
import { pageHead } from "../parts/page-head.js";
import { asOf } from "../parts/seen-words.js";
import { photograph } from "../parts/photograph.js";
import { deviationMark, offBy } from "../parts/record-bars.js";
import {
  balancePart,
  costPart,
  factList,
  kitPart,
  latePart,
  lotsPart,
  offOf,
  part,
  peoplePart,
  remarksPart,
  labelRows,
  roomRows,
  waitsPart,
  whoOf,
  yieldPart,
} from "../parts/record-parts.js";
import { finestFor, readsIn } from "../bench/weighing.js";
import { reading, times, toDivision } from "../bench/whole.js";
import { askNote, pickOne } from "../parts/sheets.js";
import { stockOf } from "../parts/stock.js";
import { undoPair } from "../parts/undo-pair.js";
import { about, clock, day, duration, exactly, pieces } from "../parts/words.js";
import { say } from "../words.js";
/** @import { Correction, Look, Record as BatchRecord, RecordLine } from "../../bench/shapes/page" */
/** @import { RecordLooks, RecordStep, Sheet, SheetComponent, WholeCost } from "../../bench/shapes/page" */
/** @import { KeptEntry, Link, RefusedRow, Undoing } from "../../types/keep" */
/** @import { Batch, DutiesNow } from "../../types/parts" */
/** @import { MeasuredRecipe } from "../../bench/shapes/page" */
/** @import { Place, SettingsDocument, ToldOfRun } from "../../types/server" */
/** @import { MeasuredWhat, Met, RecordCriterion } from "../../bench/shapes/page" */

const BATCHES_SHOWN = 12;
const MINUTE_MS = 60_000;
/** @type {readonly MeasuredWhat[]} */
const WEIGH = ["piece", "left", "spoiled"];

/**
 * @typedef {{run: Batch, runs: readonly Batch[], entries: readonly KeptEntry[], settings: SettingsDocument,
 *   device: string, place: Place | null | undefined, isMaker: boolean, refused: readonly RefusedRow[],
 *   recipe: MeasuredRecipe | null, duties: DutiesNow, link: Link,
 *   picture: (id: string) => Promise<Blob | undefined>, told: () => Promise<ToldOfRun>, undoing: Undoing,
 *   isGiven: (once: string) => boolean}} RecordData
 * @typedef {(device: string) => string} Who
 * @typedef {{[K in Correction["kind"]]:
 *   (each: Correction & {kind: K}, line: RecordLine | undefined, sheet: Sheet) => string}} CorrectionWords
 */

/** @type {CorrectionWords} */
const CORRECTIONS = {
  taken_out: ({ mg }, line) => say("page-record-taken-out", { mass: exactly(mg, line) }),
  left: (_, line) =>
    line?.deviation_mg
      ? say("page-record-left-off", { off: offWords(line.deviation_mg, line) })
      : say("page-record-left"),
  left_out: () => say("page-record-left-out"),
  placed: ({ scale }, _line, { kit }) => say("page-record-placed", { scale: nameIn(kit.scales, scale) }),
  took: ({ instead }, _line, { kit }) =>
    say("page-record-took-instead", { vessel: nameIn(kit.vessels, instead) }),
  carried: ({ num, den }, line) =>
    those([
      say("page-record-scaled", { way: num > den ? "up" : "down", factor: times(num, den) }),
      line &&
        say("page-record-scaled-for", {
          name: line.name,
          mass: about(line.actual_mg, line),
          planned: about(line.planned_mg ?? 0, line),
        }),
    ]).join("; "),
};
/** @param {readonly {readonly id: string, readonly name: string}[]} things @param {string} key */
const nameIn = (things, key) => things.find(({ id }) => id === key)?.name ?? key;
/** @param {number} mg @param {RecordLine} line */
const offWords = (mg, line) =>
  say(mg > 0 ? "page-record-too-much" : "page-record-too-little", { mass: offBy(mg, line) });

export class RecordScreen extends HTMLElement {
  /** @type {RecordData} */
  #data = given();
  /** @type {unknown[]} */
  #seen = [];
  /** @type {string[]} */
  #urls = [];
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #said = h("p", { class: "soft small", role: "status" });
  #duties = new DutiesPart((said) => tell(this, "duty-said", said));
  #undo = undoPair(this, (once) => this.#data.isGiven(once));
  // What is written in stays: the rest is made again around it.
  #sheet = h("div", { class: "sheet record" });
  #foot = h("div", { class: "stack no-print" });
  /** @type {HTMLFormElement | null} */
  #signing = null;
  #cost = h("div", {}); // what stands, stands until the server answers
  #asked = 0;
  #link = "";

  connectedCallback() {
    if (!this.#sheet.isConnected) this.append(this.#sheet);
  }

  /** @param {RecordData} data */
  set data(data) {
    this.#data = data;
    this.#undo.write(data.undoing, data.run.sheet);
    this.#writeDuties();
    const { run, runs, entries, settings, place, isMaker, refused } = data;
    const seen = [
      entries,
      JSON.stringify([settings, place?.you, place?.benches, refused, data.recipe === null]),
      ...runs.map((each) => each.state),
    ];
    const link = `${data.link.state} ${data.link.unsent}`;
    const isSame =
      this.#seen.length === seen.length && seen.every((each, place) => each === this.#seen[place]);
    if ((!isSame || link !== this.#link) && isMaker) this.#hearCost();
    this.#link = link;
    if (isSame) return;
    this.#seen = seen;
    this.#dropUrls();
    const { sheet, state } = run;
    const told = record(sheet, state, run.entries);
    const { shelf } = stockOf(data);
    const who = whoOf(data);
    const late = h("div", {});
    this.#hear(late, who);
    /** @type {Who} */
    const by = told.people.length > 1 ? (device) => `, ${who(device)}` : () => "";
    this.#writeFoot(run, told);
    setChildren(
      this.#sheet,
      those([
        pageHead(say("page-record-title"), ""),
        h("h2", {}, sheet.recipe.title),
        facts(told, run, runs),
        releasePart(told, isMaker, (body) => tell(this, "answer", { kind: "judged", body })),
        criteriaPart(told, (wanted, answer) => this.#answerOf(wanted, answer)),
        deviationsPart(told, isMaker, (body) => tell(this, "answer", { kind: "judged", body })),
        startsPart(told),
        ...sheet.components.map((component) => componentPart(component, told, by)),
        waitsPart(told),
        lotsPart(told, shelf),
        balancePart(told),
        yieldPart(batchesOf(run, runs)),
        isMaker ? this.#cost : null,
        this.#minutes(told),
        kitPart(told),
        peoplePart(told, who),
        listPart(
          say("page-record-checks"),
          told.looks.map((step) => [
            `${step.letter}, ${step.title}`,
            step.looks.map((look) => answered(look, step, sheet)).join("; "),
          ]),
        ),
        listPart(
          say("page-record-corrections"),
          told.corrections.map((each) => [
            `${clock(each.at)}${by(each.device)}`,
            correction(each, told, sheet),
          ]),
        ),
        listPart(
          say("page-record-skipped"),
          told.skipped.map((step) => [
            `${step.letter}, ${step.title}`,
            step.why || say("page-record-no-reason"),
          ]),
        ),
        listPart(
          say("page-record-longer"),
          told.added.map((step) => [
            `${step.letter}, ${step.title}`,
            say("page-record-longer-by", { length: duration(step.ms), at: clock(step.at) }),
          ]),
        ),
        listPart(
          say("page-record-notes"),
          told.notes.map((note) => [`${clock(note.at)}${by(note.device)}`, note.text]),
        ),
        listPart(say("page-record-room"), roomRows(told, sheet)),
        listPart(say("page-record-labels"), labelRows(told)),
        this.#pictures(told),
        remarksPart(told, by),
        late,
        listPart(
          say("page-record-unread"),
          told.unread.length ? [["", say("page-record-unread-entries", { count: told.unread.length })]] : [],
        ),
        this.#digest(run),
        this.#foot,
      ]),
    );
  }

  disconnectedCallback() {
    this.#dropUrls();
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
  }

  /** @param {string} text */
  said(text) {
    this.trouble("");
    setText(this.#said, text);
  }

  /** @param {HTMLElement} place @param {Who} who */
  async #hear(place, who) {
    const told = await this.#data.told().catch(() => null); // with no connection the rest stands as it is
    if (told) place.replaceChildren(...those([latePart(told, who)]));
  }

  /** What the batch cost, as the server says it; as last seen until then, and with no connection. */
  async #hearCost() {
    const { run, settings, duties } = this.#data;
    const turn = ++this.#asked;
    const { shelf } = stockOf(this.#data);
    /** @param {WholeCost | null} cost @param {string} [says] */
    const write = (cost, says = "") =>
      turn === this.#asked && setChildren(this.#cost, [costPart(cost, settings, says)]);
    const { lots } = record(run.sheet, run.state, run.entries);
    if (!settings.currency && !lots.some(({ lot }) => shelf.lots[lot]?.price))
      return write(null, say("page-record-cost-none"));
    const seen = await duties.seen();
    const path = /** @type {const} */ (`/runs/${run.id}/cost`);
    const last = await seen.kept(path);
    if (last && !this.#cost.firstChild) write(last.body);
    try {
      write((await seen.ask(path, { run: run.id })).body);
    } catch (error) {
      const says = saysOf(error);
      if (!says) throw error;
      write(last?.body ?? null, last ? asOf(last.at) : says);
    }
  }

  #dropUrls() {
    for (const url of this.#urls.splice(0)) URL.revokeObjectURL(url);
  }

  /** @param {BatchRecord} told */
  #minutes({ hands, signed }) {
    const correct = async () => {
      const minutes = await openPad({
        title: say("page-record-hands-minutes"),
        division: null,
        answer: "took",
      });
      if (minutes) tell(this, "answer", { kind: "worked", body: { ms: minutes * MINUTE_MS } });
    };
    return part(
      say("page-record-hands"),
      h(
        "p",
        {},
        say(hands.told ? "page-record-hands-told" : "page-record-hands-counted", {
          length: duration(hands.ms),
        }),
      ),
      signed
        ? null
        : h(
            "button",
            { type: "button", class: "quiet no-print", onclick: correct },
            say("page-record-hands-correct"),
          ),
    );
  }

  /** @param {BatchRecord} told */
  #pictures({ pictures }) {
    /** @type {HTMLInputElement} */
    const take = h("input", {
      type: "file",
      accept: "image/*",
      class: "unseen",
      "aria-label": say("page-record-take-picture"),
      onchange: () => this.#take(take),
    });
    const shown = pictures.map((each) => {
      // Not lazily: one that was never scrolled to would be missing on paper.
      const image = h("img", { alt: each.text || say("page-record-picture-of", { at: day(each.at) }) });
      this.#show(image, each.picture);
      return h(
        "figure",
        { class: "photograph" },
        image,
        h("figcaption", { class: "small" }, [day(each.at), each.text].filter(Boolean).join(": ")),
      );
    });
    const of = part(
      say("page-record-pictures"),
      h("div", { class: "photographs" }, shown),
      h(
        "button",
        { type: "button", class: "outlined no-print", onclick: () => take.click() },
        say("page-record-take-picture"),
      ),
      take,
    );
    of.classList.toggle("no-print", !shown.length);
    return of;
  }

  /** @param {HTMLImageElement} image @param {string} id */
  async #show(image, id) {
    const blob = await this.#data.picture(id);
    const url = blob ? URL.createObjectURL(blob) : `/api/v1/pictures/${id}`;
    if (blob) this.#urls.push(url);
    else
      image.onerror = () =>
        image.replaceWith(h("p", { class: "soft small" }, say("page-record-picture-elsewhere")));
    image.src = url;
  }

  /** @param {HTMLInputElement} input */
  async #take(input) {
    const [file] = input.files ?? [];
    input.value = "";
    if (!file) return;
    try {
      const made = await photograph(file);
      const text = await askNote({
        title: say("page-record-picture-shows"),
        answer: say("page-record-picture-save"),
        needed: false,
        hint: say("page-record-picture-caption"),
      });
      if (text === null) return;
      const said = { kind: "pictured", body: text ? { text } : {} };
      tell(this, "picture-taken", { ...made, said, says: say("page-app-photo-saved") });
    } catch (error) {
      const says = saysOf(error);
      if (!says) throw error;
      this.trouble(says);
    }
  }

  /** One number over the entries that the record is of, and how anybody reckons it again. @param {Batch} run */
  #digest({ state, entries }) {
    const sealed = ofRecord(state, entries);
    const of = state.signed
      ? say("page-record-digest-signed", { count: sealed.length - 1 })
      : say("page-record-digest-all", { count: sealed.length });
    return part(
      say("page-record-digest"),
      h("p", { class: "small" }, of, " ", say("page-record-digest-changes")),
      h("p", {}, h("code", { class: "digest" }, digest(sealed))),
      h("p", { class: "soft small" }, say("page-record-digest-how")),
      h("pre", { class: "small", tabindex: 0 }, h("code", {}, ONE_LINER)),
    );
  }

  /** Before a batch is signed: what is due before it is sold, and how that stands. It stops no work. */
  #writeDuties() {
    const { run, recipe, duties } = this.#data;
    if (recipe) this.#duties.look(productIn(recipe), { ...duties, id: run.recipe.id });
  }

  /** Something was said of a duty. */
  dutySaid() {
    this.#duties.again();
  }

  #signForm() {
    const name = h("input", { autocomplete: "name" });
    /** @param {Event} event */
    const sign = (event) => {
      event.preventDefault();
      const signed = name.value.trim();
      if (signed) tell(this, "answer", { kind: "signed", body: { name: signed }, once: "signed" });
      else this.trouble(say("page-record-sign-name-needed"));
    };
    return h(
      "form",
      { class: "stack sign", onsubmit: sign },
      h("label", { class: "field" }, h("span", {}, say("page-record-sign-name")), name),
      h("button", { type: "submit", class: "copper" }, say("page-record-sign")),
      h("p", { class: "soft small" }, say("page-record-sign-locks")),
    );
  }

  /** @param {Batch} run @param {BatchRecord} told */
  #writeFoot(run, told) {
    const { id } = run;
    const refused = this.#data.refused.find(
      ({ entry }) => entry?.kind === "signed" || entry?.kind === "undone",
    );
    const { signed } = told;
    this.#signing = !told.signed && told.finished_at ? (this.#signing ?? this.#signForm()) : null;
    setChildren(
      this.#foot,
      those([
        refused
          ? h(
              "p",
              { class: "trouble", role: "alert" },
              say(
                refused.entry?.kind === "signed" ? "page-record-refused-signing" : "page-record-refused-undo",
                { why: refused.detail },
              ),
              " ",
              say("page-record-refused-do"),
            )
          : null,
        this.#trouble,
        this.#said,
        told.signed || !this.#data.recipe ? null : this.#duties.node,
        told.signed
          ? null
          : (this.#signing ??
            h("a", { class: "button copper", href: `#/bench/${id}` }, say("page-record-to-bench"))),
        h(
          "div",
          { class: "record-does" },
          h(
            "button",
            { type: "button", class: "quiet", onclick: () => this.#note(Boolean(signed)) },
            say(told.signed ? "page-record-remark-add" : "page-record-note-add"),
          ),
          told.signed
            ? null
            : WEIGH.map((what) =>
                h(
                  "button",
                  { type: "button", class: "quiet", onclick: () => this.#weigh(what, told) },
                  say(`page-record-weigh-${what}`),
                ),
              ),
          told.signed || told.yield.good === null
            ? null
            : h(
                "button",
                { type: "button", class: "quiet", onclick: () => this.#keepBack() },
                say("page-record-keep-back"),
              ),
          this.#undo.undo,
          this.#undo.redo,
          signed && this.#data.isMaker
            ? h(
                "button",
                { type: "button", class: "quiet", onclick: () => this.#unsign(signed) },
                say("page-record-unsign"),
              )
            : null,
        ),
        h(
          "div",
          { class: "record-does" },
          h("button", { type: "button", class: "quiet", onclick: () => print() }, say("page-common-print")),
          h("a", { class: "button quiet", href: `#/label/${id}` }, say("page-record-label")),
          h("a", { class: "button quiet", href: "#/pieces" }, say("page-title-pieces")),
          h("a", { class: "button quiet", href: `#/gather/${id}` }, say("page-record-gathered")),
          fileLink(`/api/v1/runs/${id}/record.csv`, `record-${nameOf(run, told)}.csv`, "CSV"),
          h("button", { type: "button", class: "quiet", onclick: () => this.#save(run, told) }, "JSON"),
        ),
      ]),
    );
  }

  /**
   * The record and every entry as one file, with no need of the server.
   * @param {Batch} run @param {BatchRecord} told
   */
  #save(run, told) {
    const text = JSON.stringify(
      {
        format: "bowlside-record/1",
        record: told,
        sheet: run.sheet,
        sealed: told.signed && ofRecord(run.state, run.entries).map((entry) => entry.id),
        entries: run.entries,
      },
      null,
      1,
    );
    handOver(`record-${nameOf(run, told)}.json`, text);
  }

  /** @param {{readonly id: string, readonly name: string}} signed */
  async #unsign({ id, name }) {
    const choices = [
      {
        label: say("page-record-unsign"),
        says: say("page-record-unsign-says"),
        value: true,
      },
    ];
    if (await pickOne({ title: say("page-record-signed-by", { name }), choices }))
      tell(this, "answer", { kind: "undone", body: { entry: id } });
  }

  /**
   * Whether the pieces are as the recipe wants them; of a pH, and of what is not so, what was found is asked.
   * @param {RecordCriterion} wanted @param {Met} answer
   */
  async #answerOf({ criterion }, answer) {
    const asked = { title: say("page-record-met-what"), answer: say("page-common-save"), needed: false };
    const text = criterion === "ph" || isOwn(criterion) || answer === "no" ? await askNote(asked) : "";
    if (text === null) return;
    tell(this, "answer", { kind: "met", body: { criterion, answer, ...(text ? { text } : {}) } });
  }

  async #keepBack() {
    const pieces = await openPad({ title: say("page-record-kept"), division: null, answer: "count" });
    if (pieces !== null) tell(this, "answer", { kind: "kept", body: { pieces } });
  }

  /** @param {boolean} isRemark */
  async #note(isRemark) {
    const text = await askNote({
      title: say(isRemark ? "page-record-remark" : "page-record-note"),
      answer: say("page-common-save"),
      says: isRemark ? say("page-record-remark-says") : "",
    });
    if (text) tell(this, "answer", { kind: "noted", body: { text } });
  }

  /** @param {MeasuredWhat} what @param {BatchRecord} told */
  async #weigh(what, { kit, balance }) {
    const planned = what === "piece" ? (balance?.piece_mg ?? null) : null;
    const mg = await openPad({
      title: say(`page-record-weigh-${what}`),
      target: planned,
      division: kit.scales.length ? readsIn(finestFor(kit, planned ?? 0)) : { mg: 1000 },
      answer: "weighs",
    });
    if (mg === null) return;
    const piece = 1 + Math.max(0, ...this.#data.run.state.measured.map((each) => each.piece ?? 0));
    tell(this, "answer", { kind: "measured", body: what === "piece" ? { what, mg, piece } : { what, mg } });
  }
}

const ONE_LINER =
  "python3 -c 'import hashlib,json,sys; r=json.load(sys.stdin); " +
  `print(hashlib.sha256("".join(json.dumps(e,sort_keys=True,separators=(",",":"),ensure_ascii=False)+"\\n" ` +
  `for e in sorted(r["entries"],key=lambda e:e["id"]) if e["id"] in (r.get("sealed") or ` +
  `[e["id"]])).encode()).hexdigest())' < record.json`;

/** @param {Batch} run @param {BatchRecord} told */
const nameOf = (run, told) => (told.number ?? run.id).replace(/[^A-Za-z0-9._-]/g, "-");

/**
 * The newest counted batches of this run's recipe, the oldest of them first.
 * @param {Batch} run @param {readonly Batch[]} runs
 */
function batchesOf(run, runs) {
  return runs
    .filter((each) => each.recipe.id === run.recipe.id)
    .sort((one, other) => one.created_at - other.created_at)
    .map((each) => ({ each, made: record(each.sheet, each.state, each.entries).yield }))
    .flatMap(({ each, made }) =>
      made.good === null
        ? []
        : {
            name: each.state.number ?? day(each.created_at),
            planned: made.planned,
            good: made.good,
            spoiled: made.spoiled ?? 0,
            here: each.id === run.id,
          },
    )
    .slice(-BATCHES_SHOWN);
}

/** @param {BatchRecord} told @param {Batch} run @param {readonly Batch[]} runs */
function facts(told, run, runs) {
  const made = told.yield;
  const off = lessThanGood(made);
  const alike = runs.filter((each) => each !== run && told.number && each.state.number === told.number);
  return factList([
    [
      say("page-record-batch"),
      told.number
        ? [
            told.number,
            ...told.also_numbered.map((number) => say("page-record-also-numbered", { number })),
          ].join(", ")
        : say("page-record-no-number"),
    ],
    alike.length
      ? [
          say("page-record-caution"),
          say("page-record-alike", {
            count: alike.length,
            batches: alike.map((each) => `${each.recipe.title}, ${day(each.created_at)}`).join("; "),
          }),
        ]
      : null,
    [say("page-record-planned"), pieces(made.planned, told.piece)],
    made.good === null ? null : [say("page-record-made"), [pieces(made.good, told.piece), ...off].join(", ")],
    [
      say("page-record-weighed-in"),
      say("page-record-weighed-in-of", { mass: about(made.actual_mg), planned: about(made.planned_mg) }),
    ],
    [say("page-record-began"), told.started_at ? day(told.started_at) : say("page-record-not-yet")],
    [say("page-record-finished"), told.finished_at ? day(told.finished_at) : say("page-record-open")],
    told.finished_at ? [say("page-record-took"), duration(told.finished_at - (told.started_at ?? 0))] : null,
    [say("page-record-recipe"), say("page-record-version", { number: told.recipe.version })],
    [
      say("page-record-signed"),
      told.signed ? `${told.signed.name}, ${day(told.signed.at)}` : say("page-record-not-yet"),
    ],
    told.judgements.length ? [say("page-record-release"), releaseWords(told)] : null,
    told.signed?.missing
      ? [say("page-record-caution"), say("page-record-signed-missing", { count: told.signed.missing })]
      : null,
    ...told.unsigned.map(
      (each) =>
        /** @type {const} */ ([
          say("page-record-unsigned"),
          say("page-record-unsigned-by", {
            name: each.name,
            signed: day(each.signed_at),
            at: day(each.at),
          }),
        ]),
    ),
  ]);
}

/**
 * Steps that have an instant, each with what its kind has to tell, and by whom where several had a hand in the batch.
 * @param {SheetComponent} component @param {BatchRecord} told @param {Who} by
 */
function componentPart(component, told, by) {
  /** @param {{readonly component: string}} each */
  const mine = (each) => each.component === component.id;
  const lines = told.lines.filter(mine);
  const done = told.steps
    .filter((step) => mine(step) && step.status === "done")
    .flatMap((step) => (step.at === null ? [] : { ...step, at: step.at }))
    .sort((a, b) => a.at - b.at);
  if (!lines.length && !done.length) return null;
  const rounds = component.rounds.length;
  return h(
    "section",
    { class: "plate-part", "aria-label": partName(component) },
    h(
      "h2",
      {},
      letterMark(component.letter),
      h("span", {}, partName(component)),
      h("span", { class: "figures plate-count" }, `\u00d7 ${component.count}`),
    ),
    lines.length
      ? h(
          "table",
          { class: "amounts" },
          h("caption", { class: "unseen" }, say("page-record-weights", { part: partName(component) })),
          h(
            "thead",
            {},
            h(
              "tr",
              {},
              h("td", {}),
              [say("page-record-target"), say("page-record-weighed"), say("page-record-off")].map((name) =>
                h("th", { scope: "col" }, name),
              ),
            ),
          ),
          h(
            "tbody",
            {},
            lines.map((line) => lineRow(line, rounds)),
          ),
        )
      : null,
    h(
      "ol",
      { class: "times small" },
      done.map((step) =>
        h(
          "li",
          {},
          h("time", {}, clock(step.at)),
          h(
            "span",
            {},
            rounds > 1 ? say("page-record-in-round", { number: step.round, title: step.title }) : step.title,
            detail(step, told),
            step.by.map(by),
          ),
        ),
      ),
    ),
  );
}

/** @param {RecordStep} step @param {BatchRecord} told */
function detail(step, told) {
  /** @template {{readonly step: string}} T @param {readonly T[]} list */
  const of = (list) => list.find((each) => each.step === step.step);
  const wait = of(told.waits);
  const window = of(told.windows);
  const burst = of(told.bursts);
  const portions = of(told.portions);
  const look = of(told.looks);
  const count = of(told.counts);
  const said = [
    step.way,
    wait && wait.real_ms !== null
      ? say("page-record-waited", { off: offOf(wait), length: duration(wait.real_ms) })
      : "",
    window?.late
      ? say("page-record-not-within", {
          length: duration(window.real_ms ?? 0),
          most: duration(window.latest_ms),
        })
      : "",
    burst
      ? say("page-record-bursts", {
          word: burst.word ?? "burst",
          count: burst.used,
          length: duration(burst.heated_ms),
        })
      : "",
    portions?.portions // The last stayed in the bowl, and no scale showed it by itself.
      .map(({ name, mg }, i, { length }) => `${name} ${i + 1 < length ? exactly(mg) : about(mg)}`)
      .join(", "),
    look?.tries ? say("page-record-tries", { count: look.tries }) : "",
    count ? [say("page-record-good", { count: count.good }), ...lessThanGood(count)].join(", ") : "",
  ].filter(Boolean);
  return said.length ? `: ${said.join("; ")}` : "";
}

/** @param {RecordLine} line of what no scale shows */
const countedOf = ({ count, unit }) =>
  count === null ? say("prompting-to-texture") : say("prompting-counted", { count, unit: unit ?? "" });

/** @param {{readonly partial: number | null, readonly spoiled: number | null, readonly kept?: number | null}} made */
const lessThanGood = ({ partial, spoiled, kept }) =>
  those([
    kept ? say("page-record-kept-count", { count: kept }) : null,
    partial ? say("page-record-small", { count: partial }) : null,
    spoiled ? say("page-record-spoiled", { count: spoiled }) : null,
  ]);

/** @param {RecordLine} line @param {number} rounds */
function lineRow(line, rounds) {
  const carried =
    line.planned_mg !== null && line.planned_mg !== line.asked_mg
      ? h(
          "span",
          { class: "soft small lot-line" },
          say("page-record-by-sheet", { mass: about(line.planned_mg, line) }),
        )
      : null;
  const name = [
    line.name,
    rounds > 1 ? say("page-record-round", { number: line.round }) : "",
    line.instead_of ? say("page-record-instead-of", { name: line.instead_of }) : "",
  ]
    .filter(Boolean)
    .join(", ");
  /** @param {number} mg */
  const shown = (mg) => reading(mg, readsIn(line));
  if (line.asked_mg === null) {
    const amount = line.spoons || countedOf(line);
    return h(
      "tr",
      {},
      h("th", { scope: "row" }, name),
      h("td", {}, amount),
      h("td", {}, line.status === "open" ? "" : say("page-record-status", { status: line.status })),
      h("td", {}),
    );
  }
  const off = toDivision(line.deviation_mg ?? 0, readsIn(line)); // as it is shown: less is nothing
  const isIn = line.actual_mg > 0;
  const isOut = isIn && !line.within;
  return h(
    "tr",
    { class: isOut ? "out" : null },
    h("th", { scope: "row" }, name, carried),
    h(
      "td",
      {},
      shown(toDivision(line.asked_mg, readsIn(line))),
      h("span", { class: "soft small lot-line" }, `\u00b1 ${about(line.tolerance_mg ?? 0, line)}`),
    ),
    h("td", {}, isIn ? shown(line.actual_mg) : say("page-record-status", { status: line.status })),
    h(
      "td",
      {},
      isIn && off !== 0 ? `${off > 0 ? "+" : "\u2212"}${shown(Math.abs(off))}` : "",
      isIn ? deviationMark(line) : null,
    ),
  );
}

/** @param {Correction} each @param {BatchRecord} told @param {Sheet} sheet */
function correction(each, told, sheet) {
  const line = told.lines.find((candidate) => candidate.line === each.because);
  const says =
    /** @type {(each: Correction, line: RecordLine | undefined, sheet: Sheet) => string} */
    (CORRECTIONS[each.kind]);
  return [each.kind === "carried" ? (line?.letter ?? "") : line?.name, says(each, line, sheet)]
    .filter(Boolean)
    .join(": ");
}

/**
 * One look at a step, as it was answered: "16:01 not yet".
 * @param {Look} look @param {RecordLooks} of @param {Sheet} sheet
 */
function answered({ at, answer, way, text }, { step }, { steps }) {
  const ways = steps.find(({ id }) => id === step)?.ways ?? [];
  const name = ways.find(({ id }) => id === way)?.name;
  return those([say("page-record-look", { at: clock(at), answer }), name, text]).join(", ");
}

/** @param {string} title @param {(readonly [name: string, text: string])[]} rows */
function listPart(title, rows) {
  if (rows.length === 0) return null;
  return h(
    "section",
    { "aria-label": title },
    h("h2", { class: "section-name" }, title),
    h(
      "ul",
      { class: "plain" },
      rows.map(([name, text]) => h("li", {}, name ? h("b", {}, name) : null, name && text ? ": " : "", text)),
    ),
  );
}

export const registerRecordScreen = () => define("record-screen", RecordScreen);
