// The shelf: what is in the house, lot by lot, what is left of each, and where it went.
//
//   screen.data = { entries, elsewhere, runs, today, currency, newId, asked }   // asked: the ingredient to open, or ""
//   "shelf-written" { entries: [{kind, body}] }    "answer" { kind: "undone" }    "trace-wanted" { lot }
//   screen.traced(lot, { runs } or { says })       screen.trouble("…")   screen.said("…")

import { saysOf } from "../bench/errors.js";
import { last, those } from "../bench/lists.js";
import { lotPlate } from "../bench/lot-plate.js";
import { isBarred, papersAbout, papersDue } from "../bench/shelf.js";
import { define, find, given, h, setText, show, tell } from "../parts/dom.js";
import { fileLink } from "../parts/hand-over.js";
import { askJudgement } from "../parts/judging.js";
import { openPad } from "../parts/number-pad.js";
import { pageHead } from "../parts/page-head.js";
import { lotLevel } from "../parts/record-bars.js";
import { canScan, scanCode } from "../parts/scanner.js";
import { askNote } from "../parts/sheets.js";
import {
  askCard,
  askLoss,
  askLot,
  askMending,
  askPaper,
  hazardsWords,
  LOT_VERDICTS,
} from "../parts/shelf-forms.js";
import { amountOf, bestBefore, dayWords, goOn, paperLinks, papersWords } from "../parts/stock.js";
import { runsOf, stockOf, typedIn } from "../parts/stock.js";
import { undoPair } from "../parts/undo-pair.js";
import { day, unbroken } from "../parts/words.js";
import { point, say } from "../words.js";
/** @import { Card, LabelSheet, LotJudgement, LotMending, LotSaid, Price } from "../../bench/shapes/page" */
/** @import { Proposal, ShelfPaper, ShelfLot, ShelfNote } from "../../bench/shapes/page" */
/** @import { KeptEntry, ShelfSaid, Undoing } from "../../types/keep" */
/** @import { Trace } from "../../bench/shapes/page" */
/** @import { Batch } from "../../types/parts" */

/**
 * @typedef {{entries: readonly KeptEntry[], elsewhere: {[lot: string]: number}, runs: readonly Batch[], today: string,
 *   asked: string, sheets?: readonly LabelSheet[], currency?: string, isMaker: boolean, newId: () => string,
 *   undoing: Undoing,
 *   isGiven: (once: string) => boolean,
 *   propose: (name: string) => Promise<readonly Proposal[] | null>}} ShelfData
 * @typedef {ShelfLot & {id: string, left: number}} LotRow
 * @typedef {{key: string, card: Card | null, notes: readonly ShelfNote[], papers: readonly ShelfPaper[], name: string,
 *   lots: LotRow[]}} ShelfRow
 * @typedef {(Partial<Trace> & {after?: string | null, says?: string}) | null} Traced null until the server has answered
 * @typedef {{find: HTMLInputElement, list: HTMLElement, none: HTMLElement, trouble: HTMLElement,
 *   said: HTMLElement}} ShelfParts
 * @typedef {"mg" | "count"} LotMeasure
 */

export class ShelfScreen extends HTMLElement {
  /** @type {ShelfData} */
  #data = given();
  /** @type {unknown[]} */
  #seen = [];
  /** @type {Set<string>} */
  #open = new Set();
  /** @type {Map<string, Traced>} */
  #traces = new Map(); // of the lots whose way was asked for: what the server said, or null until it does
  /** @type {Map<string, Traced>} */
  #anew = new Map(); // the same asked for again, until it reaches as far
  /** @type {ShelfParts} */
  #parts = given();
  #undo = undoPair(this, (once) => this.#data.isGiven(once));

  /** @param {ShelfData} data */
  set data(data) {
    this.#data = data;
    if (!this.#parts) {
      this.#open.add(data.asked);
      this.#build();
    }
    this.#undo.write(data.undoing);
    const seen = [data.entries, JSON.stringify(data.elsewhere), ...data.runs.map((run) => run.state)];
    if (seen.length === this.#seen.length && seen.every((each, place) => each === this.#seen[place])) return;
    const isFirst = this.#seen.length === 0;
    this.#seen = seen;
    this.#write();
    if (isFirst) find(this, "details[open]")?.scrollIntoView({ block: "nearest" });
    // It may have gone somewhere since.
    for (const lot of this.#traces.keys()) tell(this, "trace-wanted", { lot, after: null });
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#parts.trouble, text);
    show(this.#parts.trouble, text !== "");
  }

  /** @param {string} text */
  said(text) {
    this.trouble("");
    setText(this.#parts.said, text);
  }

  /**
   * Where a lot went, as the server knows it: also what this phone does not hold.
   * @param {string} lot @param {Traced} told
   */
  traced(lot, told) {
    const here = this.#traces.get(lot);
    const before = [this.#anew.get(lot), here].find((each) => told?.after && each?.next === told.after);
    if (told?.after && !before) return;
    if (!told?.runs) this.#traces.set(lot, told && here?.runs ? { ...here, says: told.says } : told);
    else {
      const whole = { ...told, runs: [...(before?.runs ?? []), ...told.runs] };
      if (here?.runs && whole.next && whole.runs.length < here.runs.length) {
        this.#anew.set(lot, whole);
        tell(this, "trace-wanted", { lot, after: whole.next });
        return;
      }
      this.#anew.delete(lot);
      this.#traces.set(lot, whole);
    }
    this.querySelector(`[data-trace="${CSS.escape(lot)}"]`)?.replaceChildren(...this.#trace(lot));
  }

  #build() {
    const parts = {
      find: h("input", {
        type: "search",
        id: "shelf-find",
        autocomplete: "off",
        oninput: () => this.#write(),
      }),
      list: h("ul", { class: "rows" }),
      none: h("p", { class: "soft" }),
      trouble: h("p", { class: "trouble", role: "alert", hidden: true }),
      said: h("p", { class: "soft small", role: "status" }),
    };
    this.#parts = parts;
    const scan = h(
      "button",
      { type: "button", class: "outlined", onclick: () => this.#scan() },
      say("page-shelf-scan"),
    );
    this.append(
      h(
        "div",
        { class: "sheet shelf" },
        pageHead(say("page-title-shelf"), "shelf"),
        h(
          "div",
          { class: "find" },
          h("label", { class: "field", for: parts.find.id }, h("span", {}, say("page-shelf-find"))),
          h("div", { class: canScan() ? "with-scan" : null }, parts.find, canScan() ? scan : null),
        ),
        parts.list,
        parts.none,
        h(
          "div",
          { class: "size-foot stack" },
          parts.trouble,
          parts.said,
          h(
            "button",
            { type: "button", class: "copper", onclick: () => this.#receive() },
            say("page-shelf-receive"),
          ),
          h("a", { class: "button outlined", href: "#/delivery" }, say("page-shelf-bring-list")),
          h("a", { class: "button outlined", href: "#/buying" }, say("page-title-buying")),
          this.#undo.undo,
          this.#undo.redo,
        ),
      ),
    );
  }

  get #stock() {
    return stockOf(this.#data);
  }

  #write() {
    const { shelf, left } = this.#stock;
    const { today } = this.#data;
    const wanted = this.#parts.find.value.trim().toLowerCase();
    const lots = Object.entries(shelf.lots).map(([id, lot]) => ({ id, ...lot, left: left(id) }));
    /** @param {(string | null | undefined)[]} texts */
    const fits = (...texts) => texts.some((each) => each?.toLowerCase().includes(wanted));
    const rows = Object.entries(shelf.ingredients)
      .map(([key, { card, notes, papers }]) => ({
        key,
        card,
        notes,
        papers,
        name: card?.name ?? key,
        lots: lots.filter((lot) => lot.ingredient === key).sort(oldest),
      }))
      .filter(
        ({ name, card, lots: mine }) =>
          !wanted || fits(name, card?.inci) || mine.some((lot) => fits(lot.number, lot.code, lot.supplier)),
      )
      .sort((one, other) => one.name.localeCompare(other.name));
    const had = this.#parts.list.contains(document.activeElement) && document.activeElement?.ariaLabel;
    this.#parts.list.replaceChildren(
      ...rows.map((row) => this.#row(row, today, wanted !== "" && rows.length === 1)),
    );
    if (had) find(this.#parts.list, `[aria-label="${CSS.escape(had)}"]`)?.focus();
    setText(this.#parts.none, say(wanted ? "page-shelf-no-match" : "page-shelf-empty"));
    show(this.#parts.none, rows.length === 0);
  }

  /** @param {ShelfRow} row @param {string} today @param {boolean} isOnly */
  #row({ key, card, notes, papers, name, lots }, today, isOnly) {
    const { shelf } = this.#stock;
    const there = lots.filter((lot) => lot.left > 0);
    const past = there.filter((lot) => lot.best_before !== null && lot.best_before < today);
    const first = there.find((lot) => lot.best_before !== null);
    const due = there.flatMap((lot) => papersDue(papersAbout(shelf, lot), today));
    const says = [
      papersWords(due),
      first ? bestBefore(first, today) : "",
      lots.length > there.length ? say("page-shelf-used-up", { count: lots.length - there.length }) : "",
    ]
      .filter(Boolean)
      .join(", ");
    /** @type {HTMLDetailsElement} */
    const details = h(
      "details",
      {
        class: "shelf-item",
        open: this.#open.has(key) || isOnly,
        ontoggle: () => this.#open[details.open ? "add" : "delete"](key),
      },
      h(
        "summary",
        { class: "row" },
        h(
          "span",
          { class: "row-words" },
          h("b", { class: "row-title" }, name),
          h(
            "span",
            { class: past.length || due.some((each) => each.past) ? "small past" : "soft small" },
            says,
          ),
        ),
        h("b", { class: "figures shelf-left" }, leftWords(there)),
      ),
      card ? cardFacts(card) : null,
      paperLines(papers, today),
      notes.map((note) => h("p", { class: "small" }, `${day(note.at)}: ${note.text}`)),
      h(
        "ul",
        { class: "lots-list" },
        lots.map((lot) => this.#lot(lot, name, today)),
      ),
      h(
        "div",
        { class: "shelf-does" },
        this.#does(
          say("page-shelf-receive"),
          () => this.#receive(key),
          say("page-shelf-receive-of", { name }),
        ),
        this.#does(
          say("page-shelf-card"),
          () =>
            this.#keep(
              askCard({
                key,
                card,
                there: () => this.#stock.shelf.ingredients[key]?.card ?? card,
                propose: this.#data.propose,
              }),
              say("page-shelf-saved-card"),
            ),
          say("page-shelf-card-of", { name }),
        ),
        this.#data.isMaker
          ? this.#does(
              say("page-shelf-supply"),
              () => this.#supply(key),
              say("page-shelf-supply-of", { name }),
            )
          : null,
        this.#does(
          say("page-shelf-paper"),
          () => this.#paper({ ingredient: key }, name),
          say("page-shelf-paper-on", { name }),
        ),
        this.#does(
          say("page-shelf-note"),
          () => this.#note({ ingredient: key }),
          say("page-shelf-note-on", { name }),
        ),
      ),
    );
    return h("li", {}, details);
  }

  /** How an ingredient is bought: pack, lead time, price, and when to order again. @param {string} key */
  async #supply(key) {
    try {
      const { askSupply } = await import("../connected.js").then((all) => all.supplyForms());
      const there = () => this.#stock.shelf.ingredients[key]?.card ?? null;
      const { currency = "", today } = this.#data;
      await this.#keep(askSupply({ key, there, currency, today }), say("page-shelf-saved-card"));
    } catch (error) {
      this.trouble(saysOf(error) || say("page-common-no-connection"));
    }
  }

  /** @param {LotRow} lot @param {string} name @param {string} today */
  #lot(lot, name, today) {
    const { id, number, supplier, received_on: received, price, notes, wrote_off: gone } = lot;
    const { isMaker } = this.#data;
    const measure = lot.count === null ? "mg" : "count";
    const whole = lot[measure] ?? 0;
    const isPast = lot.best_before !== null && lot.best_before < today && lot.left > 0;
    const trace = () => {
      this.traced(id, null);
      tell(this, "trace-wanted", { lot: id, after: null });
    };
    return h(
      "li",
      { class: "lot", "data-lot": id },
      lotLevel(lot.left, whole),
      h(
        "div",
        { class: "lot-words" },
        h("p", {}, h("b", {}, number), supplier ? h("span", { class: "soft" }, `, ${supplier}`) : null),
        h(
          "p",
          { class: "figures" },
          say("page-shelf-left-of", { left: amountOf(lot, lot.left), whole: amountOf(lot, whole) }),
        ),
        h(
          "p",
          { class: isPast ? "small past" : "soft small" },
          unbroken(
            [
              bestBefore(lot, today),
              say("page-shelf-received", { day: dayWords(received) }),
              price ? paidWords(price) : "",
            ]
              .filter(Boolean)
              .join("; "),
          ),
        ),
        lot.judgements.map((judged, place) =>
          h(
            "p",
            { class: place === lot.judgements.length - 1 && isBarred(lot) ? "small past" : "soft small" },
            judgedWords(judged),
          ),
        ),
        paperLines(lot.papers, today),
        lot.mended.map((each) => h("p", { class: "soft small" }, this.#mendedWords(each))),
        gone.map((loss) =>
          h(
            "p",
            { class: "soft small" },
            say("page-shelf-wrote-off", {
              day: day(loss.at),
              amount: amountOf(lot, loss.much),
              why: loss.why,
            }),
          ),
        ),
        notes.map((note) => h("p", { class: "small" }, `${day(note.at)}: ${note.text}`)),
        h(
          "ul",
          { class: "plain small", "data-trace": id, "aria-live": "polite" },
          this.#traces.has(id) ? this.#trace(id) : [],
        ),
      ),
      h(
        "div",
        { class: "shelf-does" },
        this.#does(
          say("page-shelf-correct"),
          () => this.#correct(lot, name, measure),
          say("page-shelf-correct-lot", { name: number }),
        ),
        this.#does(
          say("page-shelf-write-off"),
          () =>
            this.#keep(
              askLoss({ lot: id, name: `${name}, ${number}`, measure }),
              say("page-shelf-saved-loss"),
            ),
          say("page-shelf-write-off-lot", { name: number }),
        ),
        this.#does(
          say("page-shelf-mend"),
          () =>
            this.#keep(
              askMending({ id, lot, shelf: this.#stock.shelf, isMaker }),
              say("page-shelf-saved-mending"),
            ),
          say("page-shelf-mend-lot", { name: number }),
        ),
        isMaker
          ? this.#does(
              say("page-shelf-judge"),
              () => this.#judge(lot),
              say("page-shelf-judge-lot", { name: number }),
            )
          : null,
        this.#does(
          say("page-shelf-paper"),
          () => this.#paper({ lot: id }, number),
          say("page-shelf-paper-on", { name: number }),
        ),
        this.#does(
          say("page-shelf-note"),
          () => this.#note({ lot: id }),
          say("page-shelf-note-on", { name: number }),
        ),
        this.#does(
          say("page-shelf-sticker"),
          async () => {
            try {
              const { labelSheets } = await import("../connected.js");
              (await labelSheets()).askStickers({
                name: `${name}, ${number}`,
                lots: [{ id, plate: lotPlate(lot, name) }],
                own: this.#data.sheets ?? [],
              });
            } catch (error) {
              this.trouble(saysOf(error));
            }
          },
          say("page-shelf-sticker-of", { name: number }),
        ),
        this.#does(say("page-shelf-where"), trace, say("page-shelf-where-lot", { name: number })),
      ),
    );
  }

  /** What stood in a lot's fields until it was mended. @param {LotMending} mending */
  #mendedWords({ at, was }) {
    const { ingredients } = this.#stock.shelf;
    /** @type {{[field: string]: string | null | undefined}} */
    const stood = {
      ingredient: was.ingredient && (ingredients[was.ingredient]?.card?.name ?? was.ingredient),
      much: muchWords(was),
      number: was.number,
      supplier: was.supplier,
      best: was.best_before && dayWords(was.best_before),
      received: was.received_on && dayWords(was.received_on),
      price: was.price && paidWords(was.price),
      code: was.code,
    };
    const fields = Object.entries(stood).flatMap(([field, before]) =>
      before === undefined ? [] : [say("page-shelf-was", { field, before: before ?? say("page-own-empty") })],
    );
    return say("page-shelf-mended", { day: day(at), fields: fields.join(", ") });
  }

  /** @param {string} label @param {() => unknown} press @param {string} name */
  #does(label, press, name) {
    return h("button", { type: "button", class: "quiet", "aria-label": name, onclick: press }, label);
  }

  /**
   * Where a lot went: what this phone holds at once, the whole once the server has answered.
   * @param {string} lot @returns {Node[]}
   */
  #trace(lot) {
    const told = this.#traces.get(lot);
    const { next = null, total = 0 } = told ?? {};
    const found =
      told?.runs ??
      runsOf(lot, this.#data.runs).map(({ run, mg, count }) => ({
        id: run.id,
        title: run.sheet.recipe.title,
        number: run.state.number,
        at: run.created_at,
        mg,
        count,
      }));
    const rows = found.map(({ id, title, number, at, mg, count }) =>
      h(
        "li",
        {},
        h("a", { class: "trace-link", href: `#/record/${id}` }, [number, title].filter(Boolean).join(", ")),
        h("span", { class: "soft" }, ` ${amountOf({ count: count || null }, count || mg)}, ${day(at)}`),
      ),
    );
    const says = told?.runs ? told.says : [told?.says, say("page-shelf-here")].filter(Boolean).join(" ");
    const whole = told?.runs
      ? h(
          "li",
          {},
          fileLink(`/api/v1/lots/${lot}/recall.csv`, "recall.csv", say("page-shelf-recall")),
          this.#data.isMaker
            ? h("a", { class: "button quiet", href: `#/recall/lots.${lot}` }, say("page-pieces-recall"))
            : null,
        )
      : null;
    return those([
      says ? h("li", { class: "soft" }, says) : null,
      ...(rows.length ? rows : [h("li", {}, say("page-shelf-in-none"))]),
      next
        ? h(
            "li",
            {},
            goOn(rows.length, total, () => tell(this, "trace-wanted", { lot, after: next })),
          )
        : null,
      whole,
    ]);
  }

  /** @param {Promise<readonly ShelfSaid[] | null>} asking @param {string} says */
  async #keep(asking, says) {
    const entries = await asking;
    if (entries) tell(this, "shelf-written", { entries, says });
  }

  /** @param {{lot: string} | {ingredient: string}} about @param {string} name */
  async #paper(about, name) {
    const says = say("page-shelf-saved-paper");
    const given = await askPaper({ about, name });
    if (!given) return;
    const { said, file } = given;
    if (file) tell(this, "picture-taken", { ...file, said, says });
    else tell(this, "shelf-written", { entries: [said], says });
  }

  /** @param {string | null} [ingredient] @param {string} [code] */
  async #receive(ingredient = null, code = "") {
    const { today, currency, newId, isMaker } = this.#data;
    const { shelf } = this.#stock;
    const asked = await askLot({ shelf, today, currency, ingredient, code, isMaker });
    if (!asked) return;
    const { entries, verdict } = asked;
    const { kind, body } = last(entries);
    if (kind !== "received") return;
    this.#open.add(body.ingredient);
    const lot = newId();
    const why = verdict === "held" ? { why: say("page-shelf-held-why") } : {};
    /** @type {ShelfSaid[]} */
    const judged = verdict ? [{ kind: "judged", body: { lot, verdict, ...why } }] : [];
    tell(this, "shelf-written", {
      entries: [...entries.slice(0, -1), { kind, body: { lot, ...body } }, ...judged],
      says: say("page-shelf-saved-lot"),
    });
  }

  /** @param {LotRow} lot @param {string} name @param {LotMeasure} measure */
  async #correct({ id, number, left }, name, measure) {
    const much = await openPad({
      title: say("page-shelf-how-much-left", { name: `${name}, ${number}` }),
      target: left,
      division: measure === "mg" ? typedIn() : null,
      answer: "left",
    });
    if (much !== null)
      tell(this, "shelf-written", {
        entries: [{ kind: "corrected", body: { lot: id, [measure]: much } }],
        says: say("page-shelf-saved-correction"),
      });
  }

  /** @param {LotRow} lot */
  async #judge({ id, number, judgements }) {
    const given = await askJudgement({
      title: say("page-shelf-judge-title", { name: number }),
      verdicts: LOT_VERDICTS,
      name: judgements.at(-1)?.name ?? "",
    });
    if (!given) return;
    const { why, ...rest } = given;
    tell(this, "shelf-written", {
      entries: [{ kind: "judged", body: { lot: id, ...rest, ...(why ? { why } : {}) } }],
      says: say("page-shelf-saved-judgement"),
    });
  }

  /** @param {{ingredient: string} | {lot: string}} about */
  async #note(about) {
    const text = await askNote({ title: say("page-shelf-note"), answer: say("page-common-save") });
    if (text)
      tell(this, "shelf-written", {
        entries: [{ kind: "noted", body: { text, ...about } }],
        says: say("page-shelf-saved-note"),
      });
  }

  /** A code that a lot here has is shown; an unknown one is of something that came. */
  async #scan() {
    const code = await scanCode({ title: say("page-shelf-scan-lot") });
    if (!code) return;
    const lots = Object.values(this.#stock.shelf.lots);
    if (lots.some((lot) => lot.code === code || lot.number === code)) {
      this.#parts.find.value = code;
      this.#write();
    } else this.#receive(null, code);
  }
}

/** How much a lot was said to be; undefined where that was not mended. @param {LotSaid} was */
function muchWords({ mg, count }) {
  const much = mg ?? count;
  return much === undefined || much === null ? undefined : amountOf({ count: count ?? null }, much);
}

/** @param {LotJudgement} judged */
function judgedWords({ verdict, name, at, why }) {
  const when = day(at);
  const who =
    name === null
      ? say("page-shelf-judged", { verdict, at: when })
      : say("page-shelf-judged-by", { verdict, name, at: when });
  return [who, why].filter(Boolean).join(": ");
}

/**
 * The papers, as they were told; one that is past its date stands out.
 * @param {readonly ShelfPaper[]} papers @param {string} today
 */
const paperLines = (papers, today) =>
  papers.map((each) => {
    const { paper, reference, dated, expires, amendment, category } = each;
    const isOver = expires !== null && expires < today;
    const says = [
      say("page-shelf-paper-line", { kind: say("page-shelf-paper-kind", { paper }), reference }),
      amendment ? say("page-shelf-paper-amended", { amendment }) : "",
      category ? say("page-shelf-paper-of-category", { category }) : "",
      dated === null ? "" : say("page-shelf-paper-of", { day: dayWords(dated) }),
      expires === null
        ? ""
        : say(isOver ? "page-shelf-paper-over" : "page-shelf-paper-until", { day: dayWords(expires) }),
    ];
    return h(
      "p",
      { class: isOver ? "small past" : "soft small" },
      says.filter(Boolean).join(", "),
      paperLinks([each]),
    );
  });

/**
 * Lots with a date before those without, the oldest first, then as they came.
 * @param {LotRow} one @param {LotRow} other
 */
function oldest(one, other) {
  /** @param {LotRow} lot */
  const turn = ({ best_before: best, received_on: received }) => `${best ?? "9999"} ${received}`;
  return turn(one) < turn(other) ? -1 : 1;
}

/** What is left of an ingredient over its lots; masses and pieces are never added. @param {readonly LotRow[]} lots */
function leftWords(lots) {
  /** @param {LotMeasure} measure */
  const sum = (measure) =>
    lots.filter((lot) => lot[measure] !== null).reduce((total, lot) => total + lot.left, 0);
  const [mg, count] = [sum("mg"), sum("count")];
  return [mg || !count ? amountOf({ count: null }, mg) : "", count ? amountOf({ count }, count) : ""]
    .filter(Boolean)
    .join(", ");
}

/** A decimal number as it is kept, with the language's own sign. @param {string} kept */
const decimal = (kept) => kept.replace(".", point());

/** What was paid, and its tax. @param {Price} price */
function paidWords({ amount, currency, tax }) {
  return say("page-shelf-paid", {
    tax: tax ? (tax.included ? "included" : "added") : "none",
    price: `${decimal(amount)} ${currency}`,
    percent: tax ? decimal(tax.percent) : "",
  });
}

/** @param {Card} card */
function cardFacts({ inci, cas, density, limits, hazards, note, answers_to: answers }) {
  const dense =
    density?.g_per_ml &&
    say("page-shelf-density", { density: decimal(density.g_per_ml), source: density.source });
  const facts = [
    ["inci", inci],
    ["cas", cas],
    ["density", dense],
    ["limits", limits?.join("; ")],
    ["hazards", hazards && hazardsWords(hazards)],
    ["note", note],
    ["answers_to", answers?.join(", ")],
  ].flatMap(([fact = "", value]) => (value ? [[say("page-shelf-fact", { fact }), value]] : []));
  return facts.length
    ? h(
        "dl",
        { class: "facts small" },
        facts.map(([name, value]) => h("div", {}, h("dt", {}, name), h("dd", {}, value))),
      )
    : null;
}

export const registerShelfScreen = () => define("shelf-screen", ShelfScreen);
