// Finished pieces: what is there, by recipe and batch, those that go off first coming first, and what becomes of them.
//
//   screen.data = { seen, entries, today, isMaker, isOnline, lookUp, newId, undoing, isGiven }
//   "pieces-wanted"   "shelf-written" { entries, says }   "stock-asked" { what, id, … }
//   screen.answered({ what, id, … } or { says })   screen.trouble("…")   screen.said("…")

import { saysOf } from "../bench/errors.js";
import { stand, toldOfPieces } from "../bench/pieces.js";
import { outletForms } from "../connected.js";
import { define, given, h, setText, show, tell } from "../parts/dom.js";
import { pageHead } from "../parts/page-head.js";
import { askAsLot, askComplaint, askLeaving, batchName, releaseWords } from "../parts/pieces-forms.js";
import { unlessFaulty } from "../parts/seen-words.js";
import { askNote } from "../parts/sheets.js";
import { bestBefore, shelfOf } from "../parts/stock.js";
import { undoPair } from "../parts/undo-pair.js";
import { say } from "../words.js";
/** @import { AtOutlet, BatchPieces, Complaint, Outlet, PiecesWhole } from "../../bench/shapes/page" */
/** @import { KeptEntry, PiecesSeen, ShelfSaid, Undoing } from "../../types/keep" */
/** @import { Seen } from "../keep/seen.js" */
/** @typedef {typeof import("../parts/outlet-forms.js")} OutletForms */
/** @import { Last } from "../parts/pieces-forms.js" */

/**
 * @typedef {{seen: PiecesSeen | null, entries: readonly KeptEntry[], today: string, isMaker: boolean,
 *   isOnline: boolean, lookUp: () => Promise<Seen>, newId: () => string, undoing: Undoing,
 *   isGiven: (once: string) => boolean}} PiecesData
 * @typedef {{what: "where", id: string, told: PiecesWhole} | {what: "complaints", told: readonly Complaint[]} |
 *   {what: "outlets", told: readonly Outlet[], copies?: readonly string[]} | {says: string}} Answered
 */

export class PiecesScreen extends HTMLElement {
  /** @type {PiecesData} */
  #data = given();
  /** @type {unknown[]} */
  #seen = [];
  /** @type {Set<string>} */
  #open = new Set();
  /** @type {Map<string, HTMLElement>} what is drawn of it */
  #where = new Map();
  /** @type {Last} */
  #last = { way: "sold", outlet: "" };
  #isBuilt = false;
  #list = h("div", { class: "stack" });
  #none = h("p", { class: "soft" });
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #said = h("p", { class: "soft small", role: "status" });
  #told = h("div", { "aria-live": "polite" });
  #undo = undoPair(this, (once) => this.#data.isGiven(once));

  /** @param {PiecesData} data */
  set data(data) {
    this.#data = data;
    if (!this.#isBuilt) this.#build();
    this.#undo.write(data.undoing);
    const seen = [data.entries, data.seen, data.isOnline];
    if (seen.every((each, place) => each === this.#seen[place])) return;
    if (data.isOnline && !this.#seen[2]) tell(this, "pieces-wanted", {});
    this.#seen = seen;
    this.#write();
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

  /** @param {Answered} answer */
  answered(answer) {
    if ("says" in answer) return this.trouble(answer.says);
    if (answer.what === "where")
      this.#withForms(({ whereRows }) => {
        this.#where.set(answer.id, whereRows(answer.told));
        this.#write();
      });
    else if (answer.what === "complaints")
      this.#withForms(({ complaintRows }) => this.#told.replaceChildren(...complaintRows(answer.told)));
    else this.#told.replaceChildren(...this.#outletRows(answer.told));
    if ("copies" in answer && answer.copies) this.said(erasedWords(answer.copies));
  }

  #build() {
    this.#isBuilt = true;
    const { isMaker } = this.#data;
    this.append(
      h(
        "div",
        { class: "sheet shelf stack" },
        pageHead(say("page-title-pieces"), "pieces"),
        this.#trouble,
        this.#said,
        this.#list,
        this.#none,
        h(
          "div",
          { class: "shelf-does" },
          this.#does(say("page-pieces-complaints"), () => this.#ask({ what: "complaints" })),
          isMaker ? h("a", { class: "button quiet", href: "#/figures/" }, say("page-title-figures")) : null,
          isMaker ? this.#does(say("page-pieces-outlets"), () => this.#ask({ what: "outlets" })) : null,
          this.#undo.undo,
          this.#undo.redo,
        ),
        this.#told,
      ),
    );
  }

  /** The batches as they are with all that this phone has entered. @returns {BatchPieces[]} */
  get #batches() {
    const told = toldOfPieces(this.#data.entries);
    return (this.#data.seen?.batches ?? [])
      .map((batch) => {
        const moved = told[batch.run];
        const now = stand({ good: batch.good, kept: batch.kept_there }, moved);
        return { ...batch, ...now, place: moved?.place ?? null };
      })
      .filter(({ in_stock: there }) => there !== 0);
  }

  #write() {
    const { seen } = this.#data;
    /** @type {Map<string, BatchPieces[]>} */
    const byRecipe = new Map();
    for (const batch of this.#batches)
      byRecipe.set(batch.recipe, [...(byRecipe.get(batch.recipe) ?? []), batch]);
    this.#list.replaceChildren(...[...byRecipe.values()].map((batches) => this.#recipe(batches)));
    setText(this.#none, say(seen ? "page-pieces-none" : "page-pieces-never-seen"));
    show(this.#none, byRecipe.size === 0);
  }

  /** @param {BatchPieces[]} batches of one recipe */
  #recipe(batches) {
    const { title } = batches[0];
    const there = batches.reduce((sum, batch) => sum + batch.in_stock, 0);
    return h(
      "section",
      { "aria-label": title },
      h(
        "div",
        { class: "pieces-head" },
        h("h2", { class: "section-name" }, title),
        h("b", { class: "figures shelf-left" }, String(there)),
        h(
          "button",
          {
            type: "button",
            class: "outlined",
            "aria-label": say("page-pieces-out-of", { name: title }),
            onclick: () => this.#leave(batches),
          },
          say("page-pieces-out"),
        ),
      ),
      h(
        "ul",
        { class: "rows" },
        batches.map((batch) => this.#batch(batch)),
      ),
    );
  }

  /** @param {BatchPieces} batch */
  #batch(batch) {
    const { run, in_stock: there, made, place } = batch;
    const { today, isMaker } = this.#data;
    const name = batchName(batch);
    const isPast = batch.best_before !== null && batch.best_before < today;
    const says = [
      releaseWords(batch),
      bestBefore(batch, today),
      place ?? "",
      there < 0 ? say("page-pieces-too-many", { count: -there }) : "",
    ];
    /** @type {HTMLDetailsElement} */
    const details = h(
      "details",
      {
        class: "shelf-item",
        open: this.#open.has(run),
        ontoggle: () => this.#open[details.open ? "add" : "delete"](run),
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
            { class: isPast || there < 0 ? "small past" : "soft small" },
            says.filter(Boolean).join("; "),
          ),
        ),
        h("b", { class: "figures" }, say("page-pieces-there-of", { there, made })),
      ),
      this.#where.get(run) ?? null,
      h(
        "div",
        { class: "shelf-does" },
        h("a", { class: "button quiet", href: `#/record/${run}` }, say("page-pieces-record")),
        this.#does(say("page-shelf-where"), () => this.#ask({ what: "where", id: run }), name),
        this.#does(say("page-pieces-place"), () => this.#place(run), name),
        this.#does(
          say("page-pieces-complaint"),
          () =>
            this.#keep(
              askComplaint({ run, name, outlets: this.#outlets }),
              say("page-pieces-saved-complaint"),
            ),
          name,
        ),
        this.#does(say("page-pieces-as-lot"), () => this.#asLot(batch), name),
        isMaker
          ? h("a", { class: "button quiet", href: `#/recall/runs.${run}` }, say("page-pieces-recall"))
          : null,
      ),
    );
    return h("li", {}, details);
  }

  get #outlets() {
    return this.#data.seen?.outlets ?? [];
  }

  /** @param {string} label @param {() => unknown} press @param {string} [of] */
  #does(label, press, of = "") {
    const name = of ? `${label}: ${of}` : null;
    return h("button", { type: "button", class: "quiet", "aria-label": name, onclick: press }, label);
  }

  /** @param {import("../../types/told").StockAsked} asked */
  #ask(asked) {
    tell(this, "stock-asked", asked);
  }

  /** @param {BatchPieces[]} batches */
  async #leave(batches) {
    const { today } = this.#data;
    const [{ title, recipe }, last] = [batches[0], this.#last];
    const duties = this.#openDuties(recipe);
    const asked = await askLeaving({ title, batches, outlets: this.#outlets, today, last, duties });
    if (!asked) return;
    this.#last = asked.last;
    tell(this, "shelf-written", {
      entries: asked.entries,
      says: say("page-pieces-saved", { way: asked.last.way }),
    });
  }

  /** How many duties of selling are open, as the server says or as last seen. @param {string} recipe */
  async #openDuties(recipe) {
    const seen = await this.#data.lookUp();
    const path = /** @type {const} */ (`/recipes/${recipe}/duties`);
    const told = (await seen.ask(path).catch(unlessFaulty)) ?? (await seen.kept(path));
    return told?.body.open ?? 0;
  }

  /** @param {string} run */
  async #place(run) {
    const place = await askNote({ title: say("page-pieces-place"), answer: say("page-common-save") });
    if (place)
      tell(this, "shelf-written", {
        entries: [{ kind: "stood", body: { run, place } }],
        says: say("page-pieces-saved-place"),
      });
  }

  /** @param {BatchPieces} batch */
  #asLot(batch) {
    const { entries, today, newId } = this.#data;
    return this.#keep(
      askAsLot({ batch, shelf: shelfOf(entries), today, newId }),
      say("page-shelf-saved-lot"),
    );
  }

  /** @param {Promise<readonly ShelfSaid[] | null>} asking @param {string} says */
  async #keep(asking, says) {
    const entries = await asking;
    if (entries) tell(this, "shelf-written", { entries, says });
  }

  /** @param {readonly Outlet[]} outlets @returns {Node[]} */
  #outletRows(outlets) {
    const rows = outlets.map((outlet) =>
      h(
        "li",
        {},
        h("b", {}, outlet.name ?? say("page-pieces-erased")),
        outlet.contact ? h("p", { class: "small" }, outlet.contact) : null,
        outlet.name === null
          ? null
          : h(
              "div",
              { class: "shelf-does" },
              this.#does(say("page-pieces-change"), () => this.#name(outlet), outlet.name),
              this.#does(say("page-pieces-erase"), () => this.#erase(outlet), outlet.name),
            ),
      ),
    );
    return [
      h("h2", { class: "section-name" }, say("page-pieces-outlets")),
      h("ul", { class: "ruled" }, rows),
      this.#does(say("page-pieces-add-outlet"), () => this.#name(null)),
    ];
  }

  /** @param {Outlet | null} outlet */
  #name(outlet) {
    return this.#withForms(async ({ askOutlet }) => {
      const said = await askOutlet(outlet);
      if (said) this.#ask({ what: "name", id: outlet?.id ?? this.#data.newId(), said });
    });
  }

  /** @param {Outlet} outlet */
  #erase({ id, name }) {
    return this.#withForms(async ({ askErase }) => {
      if (await askErase(name ?? "")) this.#ask({ what: "erase", id });
    });
  }

  /** What the server alone has comes with it. @param {(forms: OutletForms) => void | Promise<void>} use */
  async #withForms(use) {
    try {
      await use(await outletForms());
    } catch (error) {
      this.trouble(saysOf(error) || say("page-common-no-connection"));
    }
  }
}

/** @param {readonly string[]} copies */
const erasedWords = (copies) =>
  copies.length ? say("page-pieces-erased-but", { names: copies.join(", ") }) : say("page-pieces-erased-all");

export const registerPiecesScreen = () => define("pieces-screen", PiecesScreen);
