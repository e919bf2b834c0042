// Where the pieces are of every batch that has of a lot, or that is like one somebody complained of: to be printed, and
// to be tried before it is needed. Needs the server.
//
//   screen.data = { id, isOnline, entries }     // id: "lots.<lot>", "runs.<run>" or "complaint.<entry>"; of the shelf
//   "recall-wanted" { of, id, rehearsal, after }; answered by screen.told({ recall, after } or { alike } or { says })

import { papersAbout } from "../bench/shelf.js";
import { define, given, h, setText, show, tell } from "../parts/dom.js";
import { fileLink } from "../parts/hand-over.js";
import { FromServer } from "../parts/from-server.js";
import { pageHead } from "../parts/page-head.js";
import { goOn, paperLinks, shelfOf } from "../parts/stock.js";
import { outletName } from "../parts/outlet-forms.js";
import { day } from "../parts/words.js";
import { say } from "../words.js";
/** @import { KeptEntry } from "../../types/keep" */
/** @import { Alike, AtOutlet, Recall, RecalledBatch } from "../../bench/shapes/page" */

/** @typedef {{id: string, isOnline: boolean, entries: readonly KeptEntry[]}} RecallData */

export class RecallScreen extends HTMLElement {
  /** @type {RecallData} */
  #data = given();
  #isBuilt = false;
  #server = new FromServer(() => this.#ask(false));
  #isPrinting = false; // once all of the list is here
  /** @type {Recall | undefined} what is here of the list */
  #here;
  #note = h("p", { class: "soft", role: "status" }, say("page-common-asking"));
  #list = h("div", { class: "stack" });
  #does = h("div", { class: "shelf-does no-print" });

  /** @param {RecallData} data */
  set data(data) {
    this.#data = data;
    if (!this.#isBuilt) this.#build();
    this.#server.draw(data.isOnline);
  }

  /** @param {{recall?: Recall, after?: string | null, alike?: Alike, says?: string}} answer */
  told({ recall, after = null, alike, says = "" }) {
    setText(this.#note, says);
    show(this.#note, says !== "");
    if (says) this.#isPrinting = false;
    this.#server.ended(Boolean(recall ?? alike));
    if (recall && after === null) this.#write(recall);
    else if (recall && this.#here?.next === after && this.#here.rehearsal === recall.rehearsal)
      this.#write({ ...recall, batches: [...this.#here.batches, ...recall.batches] });
    if (alike) this.#writeAlike(alike);
  }

  /** @param {boolean} rehearsal @param {string | null} [after] */
  #ask(rehearsal, after = null) {
    const [of, id] = splitId(this.#data.id);
    tell(this, "recall-wanted", { of, id, rehearsal, after });
  }

  /** What is printed is the whole list: what is not here yet is asked for first. */
  #print() {
    this.#isPrinting = Boolean(this.#here?.next);
    if (this.#here?.next) this.#ask(this.#here.rehearsal, this.#here.next);
    else print();
  }

  #build() {
    this.#isBuilt = true;
    this.append(
      h(
        "div",
        { class: "sheet shelf stack" },
        pageHead(say("page-title-recall"), "", ["#/pieces", say("page-title-pieces")]),
        this.#note,
        this.#server.again,
        this.#list,
        this.#does,
      ),
    );
  }

  /** @param {Recall} recall */
  #write(recall) {
    this.#here = recall;
    const { rehearsal, batches, next, total, made, found, unknown } = recall;
    const [of, id] = splitId(this.#data.id);
    const share = `${Math.floor((found * 100) / made)}`;
    const query = rehearsal ? "?rehearsal=true" : "";
    this.#list.replaceChildren(
      ...(rehearsal ? [h("p", { class: "short" }, say("page-recall-rehearsal"))] : []),
      // Of nothing that was counted no share can be told: each batch says so below.
      ...(made ? [h("p", { class: "figures" }, say("page-recall-found", { found, made, share }))] : []),
      ...(unknown > 0 ? [h("p", { class: "past" }, say("page-recall-unknown", { count: unknown }))] : []),
      ...(batches.length ? batches.map(batchSection) : [h("p", {}, say("page-recall-none"))]),
      ...(next ? [goOn(batches.length, total, () => this.#ask(rehearsal, next))] : []),
      ...this.#papers(),
    );
    this.#does.replaceChildren(
      h("button", { type: "button", class: "quiet", onclick: () => this.#print() }, say("page-recall-print")),
      fileLink(
        `/api/v1/${of}/${id}/recall-outlets.csv${query}`,
        rehearsal ? "recall-rehearsal.csv" : "recall-outlets.csv",
        say("page-recall-file"),
      ),
      h(
        "button",
        { type: "button", class: "quiet", onclick: () => this.#ask(!rehearsal) },
        say(rehearsal ? "page-recall-real" : "page-recall-rehearse"),
      ),
    );
    if (this.#isPrinting) this.#print();
  }

  /** The papers of the lot that is called back; those of a batch's lots open from its record. */
  #papers() {
    const { id, entries } = this.#data;
    const shelf = shelfOf(entries);
    const lot = shelf.lots[splitId(id)[1]];
    const links = lot ? paperLinks(papersAbout(shelf, lot)) : [];
    return links.length ? [h("p", { class: "no-print" }, links)] : [];
  }

  /** @param {Alike} alike */
  #writeAlike({ complaint, title, number, lots, others, told_of_others: told }) {
    this.#list.replaceChildren(
      h("p", {}, h("b", {}, say("page-pieces-sort", { sort: complaint.sort })), ` ${day(complaint.at)}`),
      h("p", {}, complaint.text),
      h("p", { class: "soft" }, [number, title].filter(Boolean).join(", ")),
      h("h2", { class: "section-name" }, say("page-recall-lots")),
      h(
        "ul",
        { class: "plain" },
        lots.map(({ lot, number: of, ingredient }) =>
          h("li", {}, [ingredient, of ?? lot].filter(Boolean).join(", ")),
        ),
      ),
      h("h2", { class: "section-name" }, say("page-recall-alike")),
      ...others.map(batchSection),
      ...(told.length
        ? [
            h("h2", { class: "section-name" }, say("page-recall-others-said")),
            h(
              "ul",
              { class: "ruled" },
              told.map(({ at, text }) => h("li", {}, `${day(at)}: ${text}`)),
            ),
          ]
        : []),
    );
    this.#does.replaceChildren(
      h("button", { type: "button", class: "quiet", onclick: () => print() }, say("page-recall-print")),
    );
  }
}

/** @param {string} id @returns {[of: string, id: string]} */
const splitId = (id) => [id.slice(0, id.indexOf(".")), id.slice(id.indexOf(".") + 1)];

/** @param {RecalledBatch} batch */
function batchSection({ run, title, number, made, here, binned, at, shelved }) {
  const name = [number, title].filter(Boolean).join(", ");
  const lines = [
    made === null ? say("page-recall-uncounted") : say("page-recall-made", { count: made }),
    say("page-recall-here", { count: here }),
    binned ? say("page-recall-binned", { count: binned }) : "",
    shelved ? say("page-recall-shelved", { count: shelved }) : "",
  ];
  return h(
    "section",
    { "aria-label": name },
    h("h2", {}, h("a", { class: "trace-link", href: `#/record/${run}` }, name)),
    h("p", { class: "soft" }, lines.filter(Boolean).join("; ")),
    h(
      "ul",
      { class: "ruled" },
      at.map((each) => h("li", {}, outletLine(each))),
    ),
  );
}

/** @param {AtOutlet} at */
const outletLine = (at) =>
  [say("page-pieces-at", { name: outletName(at), count: at.there }), at.contact ?? ""]
    .filter(Boolean)
    .join(", ");

export const registerRecallScreen = () => define("recall-screen", RecallScreen);
