// The batch record: what was asked, what was weighed, when each thing was done, how long each wait
// really was, which lots went in, what it cost, what was corrected, skipped and noted. Made to be read,
// printed, signed and kept.
//
// screen.data =
// { run, runs, entries, settings, device, place, isMaker, refused, picture: async (id) => Blob or undefined,
//     told: async () => what the server knows besides, undoing: as keep/undoing.js gives it }
//   "answer" { kind: "signed" | "undone" | "noted" | "measured" | "worked", body }
//   "picture-taken" { blob, sha256, text }     screen.trouble("…")   screen.said("…")

import { cost } from "../bench/cost.js";
import { digest } from "../bench/digest.js";
import { saysOf } from "../bench/errors.js";
import { grams, toDivision } from "../bench/index.js";
import { those } from "../bench/lists.js";
import { ofRecord } from "../bench/journal/index.js";
import { record } from "../bench/record.js";
import { define, given, h, setChildren, setText, show, tell } from "../parts/dom.js";
import { fileLink, handOver } from "../parts/hand-over.js";
import { letterMark } from "../parts/hatch.js";
import { openPad } from "../parts/number-pad.js";
import { pageHead } from "../parts/page-head.js";
import { photograph } from "../parts/photograph.js";
import { deviationMark } from "../parts/record-bars.js";
import {
  balancePart,
  costPart,
  factList,
  kitPart,
  latePart,
  lotsPart,
  part,
  peoplePart,
  remarksPart,
  waitsPart,
  whoOf,
  yieldPart,
} from "../parts/record-parts.js";
import { times } from "../bench/whole.js";
import { askNote, pickOne } from "../parts/sheets.js";
import { stockOf } from "../parts/stock.js";
import { undoPair } from "../parts/undo-pair.js";
import { about, clock, day, duration, mass, pieces } from "../parts/words.js";
/** @import { Correction, Look, Record as BatchRecord, RecordLine } from "../../bench/shapes/page" */
/** @import { RecordLooks, RecordStep, Sheet, SheetComponent, Shelf, State } from "../../bench/shapes/page" */
/** @import { KeptEntry, RefusedRow, Undoing } from "../../types/keep" */
/** @import { Batch } from "../../types/parts" */
/** @import { Place, SettingsDocument, ToldOfRun } from "../../types/server" */
/** @import { MeasuredWhat } from "../../bench/shapes/page" */

const BATCHES_SHOWN = 12;
const MINUTE_MS = 60_000;
/** @type {[what: MeasuredWhat, label: string][]} */
const WEIGH = [
  ["piece", "Weigh a finished piece"],
  ["left", "Weigh what was left"],
  ["spoiled", "Weigh what is spoiled"],
];

/**
 * @typedef {{run: Batch, runs: readonly Batch[], entries: readonly KeptEntry[], settings: SettingsDocument,
 *   device: string, place: Place | null | undefined, isMaker: boolean, refused: readonly RefusedRow[],
 *   picture: (id: string) => Promise<Blob | undefined>, told: () => Promise<ToldOfRun>, undoing: Undoing,
 *   isGiven: (once: string) => boolean}} RecordData
 * @typedef {(device: string) => string} Who
 * @typedef {{[K in Correction["kind"]]:
 *   (each: Correction & {kind: K}, line: RecordLine | undefined, sheet: Sheet) => string}} CorrectionWords
 */

/** @type {CorrectionWords} */
const CORRECTIONS = {
  taken_out: ({ mg }) => `${mass(mg)} taken out again`,
  left: (_, line) => `left as it was${line?.deviation_mg ? `, ${offBy(line.deviation_mg)}` : ""}`,
  left_out: () => "left out",
  placed: ({ scale }, _line, { kit }) => `weighed on ${nameIn(kit.scales, scale)} from then on`,
  took: ({ instead }, _line, { kit }) => `${nameIn(kit.vessels, instead)} taken instead`,
  carried: ({ num, den }, line) =>
    `the rest scaled ${num > den ? "up" : "down"} to match, \u00d7 ` +
    times(num, den) +
    (line ? `, for ${line.name} came to ${about(line.actual_mg)} of ${about(line.planned_mg ?? 0)}` : ""),
};
/** @type {{readonly [answer: string]: string | undefined}} */
const ANSWERS = { yes: "yes", not_yet: "not yet", too_far: "too far" };
/** @param {readonly {readonly id: string, readonly name: string}[]} things @param {string} key */
const nameIn = (things, key) => things.find(({ id }) => id === key)?.name ?? key;
/** @param {number} mg */
const offBy = (mg) => `${mass(Math.abs(mg))} ${mg > 0 ? "over" : "short"}`;

export class RecordScreen extends HTMLElement {
  /** @type {RecordData} */
  #data = given();
  /** @type {unknown[]} */
  #seen = [];
  /** @type {string[]} */
  #urls = [];
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #said = h("p", { class: "soft small", role: "status" });
  #undo = undoPair(this, (once) => this.#data.isGiven(once));
  // What is written in stays: the rest is made again around it.
  #sheet = h("div", { class: "sheet record" });
  #foot = h("div", { class: "stack no-print" });
  /** @type {HTMLFormElement | null} */
  #signing = null;

  connectedCallback() {
    if (!this.#sheet.isConnected) this.append(this.#sheet);
  }

  /** @param {RecordData} data */
  set data(data) {
    this.#data = data;
    this.#undo.write(data.undoing, data.run.sheet);
    const { run, runs, entries, settings, place, isMaker, refused } = data;
    const seen = [
      entries,
      JSON.stringify([settings, place?.you, place?.benches, refused]),
      ...runs.map((each) => each.state),
    ];
    if (this.#seen.length === seen.length && seen.every((each, place) => each === this.#seen[place])) return;
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
        pageHead("Batch record", ""),
        h("h2", {}, sheet.recipe.title),
        facts(told, state, run, runs),
        ...sheet.components.map((component) => componentPart(component, told)),
        waitsPart(told),
        lotsPart(told, shelf),
        balancePart(told),
        yieldPart(batchesOf(run, runs)),
        isMaker ? costPart(costOf(told, shelf, settings), settings) : null,
        this.#minutes(told),
        kitPart(told),
        peoplePart(told, who),
        listPart(
          "Checks",
          told.looks.map((step) => [
            `${step.letter}, ${step.title}`,
            step.looks.map((look) => answered(look, step, sheet)).join("; "),
          ]),
        ),
        listPart(
          "Corrections",
          told.corrections.map((each) => [
            `${clock(each.at)}${by(each.device)}`,
            correction(each, told, sheet),
          ]),
        ),
        listPart(
          "Skipped",
          told.skipped.map((step) => [`${step.letter}, ${step.title}`, step.why || "no reason given"]),
        ),
        listPart(
          "Waited longer",
          told.added.map((step) => [
            `${step.letter}, ${step.title}`,
            `${duration(step.ms)} more, said at ${clock(step.at)}`,
          ]),
        ),
        listPart(
          "Notes",
          told.notes.map((note) => [`${clock(note.at)}${by(note.device)}`, note.text]),
        ),
        this.#pictures(told),
        remarksPart(told, by),
        late,
        listPart(
          "Not understood",
          told.unread.length
            ? [["", `${told.unread.length} of a kind this page does not know; kept with the run.`]]
            : [],
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

  #dropUrls() {
    for (const url of this.#urls.splice(0)) URL.revokeObjectURL(url);
  }

  /** @param {BatchRecord} told */
  #minutes({ hands, signed }) {
    const correct = async () => {
      const minutes = await openPad({ title: "Minutes of hand work in all", unit: "", answer: "It took" });
      if (minutes) tell(this, "answer", { kind: "worked", body: { ms: minutes * MINUTE_MS } });
    };
    return part(
      "Hand work",
      h(
        "p",
        {},
        `${duration(hands.ms)}, ` +
          `${hands.told ? "as told" : "reckoned from when each thing was touched, pauses left out"}.`,
      ),
      signed
        ? null
        : h("button", { type: "button", class: "quiet no-print", onclick: correct }, "Correct it"),
    );
  }

  /** @param {BatchRecord} told */
  #pictures({ pictures }) {
    /** @type {HTMLInputElement} */
    const take = h("input", {
      type: "file",
      accept: "image/*",
      class: "unseen",
      "aria-label": "Take a photograph",
      onchange: () => this.#take(take),
    });
    const shown = pictures.map((each) => {
      // Not lazily: one that was never scrolled to would be missing on paper.
      const image = h("img", { alt: each.text || `Photograph of ${day(each.at)}` });
      this.#show(image, each.picture);
      return h(
        "figure",
        { class: "photograph" },
        image,
        h("figcaption", { class: "small" }, [day(each.at), each.text].filter(Boolean).join(": ")),
      );
    });
    return part(
      "Photographs",
      h("div", { class: "photographs" }, shown),
      h(
        "button",
        { type: "button", class: "outlined no-print", onclick: () => take.click() },
        "Take a photograph",
      ),
      take,
    );
  }

  /** @param {HTMLImageElement} image @param {string} id */
  async #show(image, id) {
    const blob = await this.#data.picture(id);
    const url = blob ? URL.createObjectURL(blob) : `/api/v1/pictures/${id}`;
    if (blob) this.#urls.push(url);
    else
      image.onerror = () =>
        image.replaceWith(
          h("p", { class: "soft small" }, "Another phone took this one; it is with the server."),
        );
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
        title: "What does it show?",
        answer: "Keep the photograph",
        needed: false,
        hint: "Caption (optional)",
      });
      if (text !== null) tell(this, "picture-taken", { ...made, text });
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
      ? `Of the ${sealed.length - 1} entries that were signed, and the signing.`
      : `Of all ${sealed.length} entries.`;
    return part(
      "Digest",
      h("p", { class: "small" }, `${of} One changed, added or removed gives another.`),
      h("p", {}, h("code", { class: "digest" }, digest(sealed))),
      h(
        "p",
        { class: "soft small" },
        "Anybody can check it from the JSON file. Take the entries that “sealed” names, or all. " +
          "Write each as JSON, keys sorted, no spaces. Sort them by id, end each with a line feed, " +
          "take SHA-256. In a terminal:",
      ),
      h("pre", { class: "small", tabindex: 0 }, h("code", {}, ONE_LINER)),
    );
  }

  #signForm() {
    const name = h("input", { autocomplete: "name" });
    /** @param {Event} event */
    const sign = (event) => {
      event.preventDefault();
      const signed = name.value.trim();
      if (signed) tell(this, "answer", { kind: "signed", body: { name: signed }, once: "signed" });
      else this.trouble("Write your name: the record is signed by it.");
    };
    return h(
      "form",
      { class: "stack sign", onsubmit: sign },
      h("label", { class: "field" }, h("span", {}, "Signed off by"), name),
      h("button", { type: "submit", class: "copper" }, "Sign the record"),
      h("p", { class: "soft small" }, "Signing locks the record. You can add dated remarks."),
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
              `${refused.entry?.kind === "signed" ? "Your signing was refused" : "An undo was refused"}. ` +
                `${refused.detail} It is under Settings, to send again or set aside.`,
            )
          : null,
        this.#trouble,
        this.#said,
        told.signed
          ? null
          : (this.#signing ?? h("a", { class: "button copper", href: `#/bench/${id}` }, "Back to the bench")),
        h(
          "div",
          { class: "record-does" },
          h(
            "button",
            { type: "button", class: "quiet", onclick: () => this.#note(Boolean(signed)) },
            told.signed ? "Add a remark" : "Write a note",
          ),
          told.signed
            ? null
            : WEIGH.map(([what, label]) =>
                h(
                  "button",
                  { type: "button", class: "quiet", onclick: () => this.#weigh(what, label, told) },
                  label,
                ),
              ),
          this.#undo.undo,
          this.#undo.redo,
          signed && this.#data.isMaker
            ? h(
                "button",
                { type: "button", class: "quiet", onclick: () => this.#unsign(signed) },
                "Undo the signing",
              )
            : null,
        ),
        h(
          "div",
          { class: "record-does" },
          h("button", { type: "button", class: "quiet", onclick: () => print() }, "Print"),
          h("a", { class: "button quiet", href: `#/label/${id}` }, "Label"),
          h("a", { class: "button quiet", href: `#/gather/${id}` }, "Gathered"),
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
        label: "Undo the signing",
        says: "The record is open again. It will say that it was signed before.",
        value: true,
      },
    ];
    if (await pickOne({ title: `Signed by ${name}`, choices }))
      tell(this, "answer", { kind: "undone", body: { entry: id } });
  }

  /** @param {boolean} isRemark */
  async #note(isRemark) {
    const text = await askNote({
      title: isRemark ? "A remark" : "A note",
      answer: "Keep it",
      says: isRemark ? "The record is signed: this stands beside it, with its own time." : "",
    });
    if (text) tell(this, "answer", { kind: "noted", body: { text } });
  }

  /** @param {MeasuredWhat} what @param {string} label @param {BatchRecord} told */
  async #weigh(what, label, { kit, balance }) {
    const division = Math.min(...kit.scales.map(({ division_mg }) => division_mg), 1000);
    const mg = await openPad({
      title: label,
      target: what === "piece" ? (balance?.piece_mg ?? null) : null,
      division,
      answer: "It weighs",
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

/**
 * What the batch cost; null when neither a lot's price nor the settings name a currency.
 * @param {BatchRecord} told @param {Shelf} shelf @param {SettingsDocument} settings
 */
function costOf(told, shelf, settings) {
  const priced = told.lots.map(({ lot }) => shelf.lots[lot]?.price?.currency).flatMap((each) => each ?? []);
  const currency = settings.currency ?? priced[0];
  if (!currency) return null;
  return cost(
    told,
    shelf,
    { ...settings, currency },
    Object.fromEntries([currency, ...priced].map((each) => [each, decimalsOf(each)])),
  );
}

/** How many decimals a currency has (ISO 4217, as the browser knows it). @param {string} currency */
function decimalsOf(currency) {
  return new Intl.NumberFormat("en", { style: "currency", currency }).resolvedOptions().maximumFractionDigits;
}

/** @param {BatchRecord} told @param {State} state @param {Batch} run @param {readonly Batch[]} runs */
function facts(told, { notes }, run, runs) {
  const made = told.yield;
  const off = [
    made.partial ? `${made.partial} partial` : "",
    made.spoiled ? `${made.spoiled} spoiled` : "",
  ].filter(Boolean);
  const alike = runs.filter((each) => each !== run && told.number && each.state.number === told.number);
  const passed = notes.some(({ text }) => text.startsWith("Gathering was passed over"));
  return factList([
    [
      "Batch",
      told.number
        ? [told.number, ...told.also_numbered.map((each) => `also numbered ${each}`)].join(", ")
        : "not numbered",
    ],
    alike.length
      ? [
          "Take care",
          `${alike.length === 1 ? "another batch has" : `${alike.length} other batches have`} this ` +
            "number too: " +
            `${alike.map((each) => `${each.recipe.title}, ${day(each.created_at)}`).join("; ")}`,
        ]
      : null,
    ["Asked", pieces(made.planned, told.piece)],
    made.good === null ? null : ["Made", [pieces(made.good, told.piece), ...off].join(", ")],
    ["Weighed in", `${about(made.actual_mg)}, planned ${about(made.planned_mg)}`],
    ["Began", told.started_at ? day(told.started_at) : "not yet"],
    ["Finished", told.finished_at ? day(told.finished_at) : "still open"],
    told.finished_at ? ["Took", duration(told.finished_at - (told.started_at ?? 0))] : null,
    ["Recipe", `version ${told.recipe.version}`],
    passed ? ["Gathering", "passed over in part"] : null,
    ["Signed", told.signed ? `${told.signed.name}, ${day(told.signed.at)}` : "not yet"],
    told.signed?.missing
      ? ["Take care", `${told.signed.missing} of the signed entries are not here yet`]
      : null,
    ...told.unsigned.map(
      (each) =>
        /** @type {const} */ ([
          "Unsigned",
          `${each.name} had signed, ${day(each.signed_at)}; undone ${day(each.at)}`,
        ]),
    ),
  ]);
}

/**
 * Steps that have an instant, each with what its kind has to tell.
 * @param {SheetComponent} component @param {BatchRecord} told
 */
function componentPart(component, told) {
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
    { class: "plate-part", "aria-label": component.name },
    h(
      "h2",
      {},
      letterMark(component.letter),
      h("span", {}, component.name),
      h("span", { class: "figures plate-count" }, `\u00d7 ${component.count}`),
    ),
    lines.length
      ? h(
          "table",
          { class: "amounts" },
          h("caption", { class: "unseen" }, `Weights of ${component.name}`),
          h(
            "thead",
            {},
            h(
              "tr",
              {},
              h("td", {}),
              ["asked", "weighed", "off"].map((name) => h("th", { scope: "col" }, name)),
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
          h("span", {}, [rounds > 1 ? `round ${step.round}: ` : "", step.title, detail(step, told)].join("")),
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
      ? "after " +
        `${duration(wait.real_ms)}${wait.early ? ", earlier than written" : wait.late ? ", later than written" : ""}`
      : "",
    window?.late ? `${duration(window.real_ms ?? 0)} into a window of ${duration(window.latest_ms)}` : "",
    burst
      ? `${burst.used} ${burst.word}${burst.used === 1 ? "" : "s"}, ${duration(burst.heated_ms)} in all`
      : "",
    portions ? portions.portions.map(({ name, mg }) => `${name} ${mass(mg)}`).join(", ") : "",
    look?.tries ? `after ${look.tries} ${look.tries === 1 ? "try" : "tries"}` : "",
    count
      ? [
          `${count.good} good`,
          count.partial ? `${count.partial} partial` : "",
          count.spoiled ? `${count.spoiled} spoiled` : "",
        ]
          .filter(Boolean)
          .join(", ")
      : "",
  ].filter(Boolean);
  return said.length ? `: ${said.join("; ")}` : "";
}

/** @param {RecordLine} line @param {number} rounds */
function lineRow(line, rounds) {
  const carried =
    line.planned_mg !== null && line.planned_mg !== line.asked_mg
      ? h("span", { class: "soft small lot-line" }, `sheet ${about(line.planned_mg)}`)
      : null;
  const name = [
    line.name,
    rounds > 1 ? `round ${line.round}` : "",
    line.instead_of ? `instead of ${line.instead_of}` : "",
  ]
    .filter(Boolean)
    .join(", ");
  /** @param {number} mg */
  const shown = (mg) => grams(mg, line.division_mg ?? 1);
  if (line.asked_mg === null) {
    const amount = line.spoons || (line.count === null ? "to texture" : `${line.count} ${line.unit}`);
    return h(
      "tr",
      {},
      h("th", { scope: "row" }, name),
      h("td", {}, amount),
      h("td", {}, WORDS[line.status] ?? ""),
      h("td", {}),
    );
  }
  const off = toDivision(line.deviation_mg ?? 0, line.division_mg ?? 1); // as it is shown: less is nothing
  const isIn = line.actual_mg > 0;
  const isOut = isIn && !line.within;
  return h(
    "tr",
    { class: isOut ? "out" : null },
    h("th", { scope: "row" }, name, carried),
    h(
      "td",
      {},
      shown(line.asked_mg),
      h("span", { class: "soft small lot-line" }, `\u00b1 ${about(line.tolerance_mg ?? 0)}`),
    ),
    h("td", {}, isIn ? shown(line.actual_mg) : (WORDS[line.status] ?? "\u2013")),
    h(
      "td",
      {},
      isIn && off !== 0 ? `${off > 0 ? "+" : "\u2212"}${shown(Math.abs(off))}` : "",
      isIn ? deviationMark(line) : null,
    ),
  );
}

/** @type {{readonly [status: string]: string | undefined}} */
const WORDS = { in: "in", by_hand: "by hand", left_out: "left out", open: "\u2013" };

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
function answered({ at, answer, way }, { step }, { steps }) {
  const ways = steps.find(({ id }) => id === step)?.ways ?? [];
  return [clock(at), ANSWERS[answer] ?? "", ways.find(({ id }) => id === way)?.name ?? ""]
    .filter(Boolean)
    .join(" ");
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
