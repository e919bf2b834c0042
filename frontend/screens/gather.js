// Gathering, before the first weighing: every ingredient lot by lot, the tools and what to wear, what is
// short and what is past its date. Each is ticked with a knuckle; all of it may be passed over.
//
//   screen.data = { run, recipe: measured, entries, elsewhere, runs, today }
//   "answer" { kind: "gathered" | "ticked" | "undone" | "noted", body }   "answers" { entries: [{kind, body}] }
//   screen.trouble("…")

import { gather } from "../bench/gather.js";
import { last, those } from "../bench/lists.js";
import { isBarred, papersAbout, papersDue, verdictOf } from "../bench/shelf.js";
import { isUntouched } from "../bench/weighing.js";
import { toDivision } from "../bench/whole.js";
import { define, find, focused, given, h, sameData, setText, show, tell } from "../parts/dom.js";
import { openPad } from "../parts/number-pad.js";
import { pageHead } from "../parts/page-head.js";
import { canScan, scanCode } from "../parts/scanner.js";
import { pickOne, tellPlain } from "../parts/sheets.js";
import { amountOf, bestBefore, dayWords, papersWords, stockOf, typedIn } from "../parts/stock.js";
import { pieces } from "../parts/words.js";
import { say, sayAll } from "../words.js";
/** @import { Gather, GatherIngredient, GatherThing, MeasuredRecipe } from "../../bench/shapes/page" */
/** @import { LotVerdict, PaperDue, Shelf, ShelfLot, Start, ThingKind } from "../../bench/shapes/page" */
/** @import { KeptEntry } from "../../types/keep" */
/** @import { Batch } from "../../types/parts" */

const NAMED = 4; // of what is not ticked; the record names all of it
/** @type {readonly ThingKind[]} */
const KINDS = ["protection", "scale", "vessel", "mould", "heater", "tool"];
const PASSED_OVER = "gathering.passed_over"; // ticked by who leaves with something open: asked once a batch

/**
 * @typedef {{run: Batch, recipe: MeasuredRecipe, entries: readonly KeptEntry[], elsewhere: {[lot: string]: number},
 *   runs: readonly Batch[], today: string, before: readonly Start[]}} GatherData
 * @typedef {{lot: string, number: string | null, left: number | null, take: number, past: boolean,
 *   verdict: LotVerdict | null, papers_due: readonly PaperDue[], gathered: boolean}} LotThere a lot that is named,
 *   or one that may be
 */

export class GatherScreen extends HTMLElement {
  /** @type {GatherData} */
  #data = given();
  /** @type {unknown} */
  #seen = null;
  #pastToo = false;
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #list = h("div", {});
  #go = h("button", { type: "button", class: "copper", onclick: () => this.#leave() });
  /** @type {Gather} */
  #needs = given();

  /** @param {GatherData} data */
  set data(data) {
    this.#data = data;
    if (!this.firstChild) this.#build();
    this.#write();
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
  }

  #build() {
    const { run } = this.#data;
    this.append(
      h(
        "div",
        { class: "sheet gather" },
        pageHead(say("page-title-gather"), ""),
        h("p", { class: "lead" }, `${pieces(run.size.pieces, run.sheet.piece)}, ${run.sheet.recipe.title}`),
        canScan()
          ? h(
              "button",
              { type: "button", class: "outlined wide", onclick: () => this.#scan() },
              say("page-shelf-scan-lot"),
            )
          : null,
        this.#list,
        h("div", { class: "size-foot stack" }, this.#trouble, this.#go),
      ),
    );
  }

  #write() {
    const { run, recipe, today, before } = this.#data;
    const { shelf, free } = stockOf(this.#data, run.id);
    this.#needs = gather(recipe, run.sheet, run.state, shelf, free, today, this.#pastToo, before);
    const seen = [this.#needs, run.state.ticked];
    if (sameData(this.#seen, seen)) return;
    this.#seen = seen;
    const { ingredients, things, cautions } = this.#needs;
    const open = this.#still().length;
    const had = focused()?.dataset.tick;
    /** @param {string} kind */
    const ofKind = (kind) =>
      this.#things(
        say("page-gather-kind", { kind }),
        things.filter((each) => each.kind === kind),
      );
    this.#list.replaceChildren(
      ...those([
        ofKind("start"),
        section(
          say("page-gather-kind", { kind: "ingredients" }),
          ingredients.map((need) => this.#ingredient(need, shelf)),
        ),
        cautions.length
          ? h(
              "ul",
              { class: "cautions" },
              cautions.map((caution) => h("li", {}, caution)),
            )
          : null,
        ...KINDS.map(ofKind),
      ]),
    );
    if (had) find(this.#list, `[data-tick="${CSS.escape(had)}"]`)?.focus();
    setText(
      this.#go,
      open === 0
        ? say("page-gather-all-here")
        : say(isUntouched(run.state) ? "page-gather-start-without" : "page-gather-go-on-without", {
            count: open,
          }),
    );
  }

  /**
   * One kind of things, each with its tick; several that are still open are ticked by one touch too.
   * @param {string} title @param {GatherThing[]} things
   */
  #things(title, things) {
    const still = things.filter(({ ticked }) => !ticked);
    const all = () =>
      tell(this, "answers", { entries: still.map(({ thing }) => ({ kind: "ticked", body: { thing } })) });
    return section(
      title,
      those([
        ...things.map((each) => this.#thing(each)),
        still.length > 1
          ? h(
              "li",
              {},
              h(
                "button",
                { type: "button", class: "quiet knuckle", onclick: all },
                say("page-gather-tick-all", { kind: still[0].kind, count: still.length }),
              ),
            )
          : null,
      ]),
    );
  }

  /** @param {GatherThing} thing */
  #thing({ thing, name, ticked }) {
    return tick(thing, ticked, name.charAt(0).toUpperCase() + name.slice(1), "", () =>
      ticked
        ? this.#undo("ticked", (body) => body.thing === thing)
        : tell(this, "answer", { kind: "ticked", body: { thing } }),
    );
  }

  /** @param {GatherIngredient} need @param {Shelf} shelf */
  #ingredient(need, shelf) {
    const { ingredient, name, mg, count, lots, short, passed_over: passed, barred, by_hand: byHand } = need;
    const measure = { count: mg ? null : count };
    /** @param {number} much */
    const shown = (much) => amountOf(measure, mg ? toDivision(much, { mg: need.division_mg ?? 1 }) : much);
    const asked = mg || count ? shown(mg || count) : say("prompting-to-texture");
    const { left } = stockOf(this.#data, this.#data.run.id);
    const rows = lots.map((row) => {
      const lot = shelf.lots[row.lot];
      const says = [
        row.verdict && lot && isBarred(lot) ? say("page-shelf-verdict", { verdict: row.verdict }) : "",
        papersWords(row.papers_due),
        lot ? bestBefore(lot, this.#data.today) : "",
        row.left === null
          ? say("page-gather-not-here")
          : say("page-gather-left", { amount: amountOf(lot, left(row.lot)) }),
        row.left !== null && row.left < left(row.lot)
          ? say("page-gather-aside", { amount: amountOf(lot, left(row.lot) - row.left) })
          : "",
      ]
        .filter(Boolean)
        .join("; ");
      const number = row.number ?? row.lot;
      const take = row.take
        ? say("page-gather-take-of", { amount: shown(row.take), lot: number })
        : say("page-gather-lot", { lot: number });
      return tick(
        `${ingredient} ${row.lot}`,
        row.gathered,
        take,
        says,
        () => this.#take(need, row, lot),
        row.past ||
          row.papers_due.some(({ past }) => past) ||
          row.verdict === "held" ||
          row.verdict === "rejected",
      );
    });
    const isHere = Object.hasOwn(this.#data.run.state.ticked, thingOf(ingredient));
    const bare = lots.length
      ? []
      : [
          tick(
            ingredient,
            isHere,
            say("page-gather-here"),
            say(need.shelf === null ? "page-gather-not-on-shelf" : "page-gather-none-left"),
            () => this.#bare(ingredient, isHere),
          ),
        ];
    return h(
      "li",
      { class: "need" },
      h("p", { class: "need-name" }, h("b", {}, name), h("span", { class: "figures" }, asked)),
      h("ul", {}, [...rows, ...bare]),
      this.#others(need, shelf).length
        ? h(
            "button",
            {
              type: "button",
              class: "quiet",
              "aria-label": say("page-gather-another-of", { name }),
              onclick: () => this.#another(need, shelf),
            },
            say("page-gather-another"),
          )
        : null,
      short > 0 && lots.length && !byHand
        ? h("p", { class: "short" }, say("page-gather-missing", { amount: shown(short) }))
        : null,
      barred.length
        ? h("p", { class: "short" }, say("page-gather-barred-left-out", { count: barred.length }))
        : null,
      passed.length
        ? h(
            "p",
            { class: "short" },
            say("page-gather-past-left-out", { count: passed.length }),
            " ",
            h(
              "button",
              { type: "button", class: "quiet", onclick: () => this.#takePast() },
              say("page-gather-take-past", { count: passed.length }),
            ),
          )
        : null,
    );
  }

  /**
   * Lots of the same that stand on the shelf beside those named: [{lot, number, left, past, …}].
   * @param {GatherIngredient} need @param {Shelf} shelf
   */
  #others({ shelf: key, lots, passed_over: passed }, shelf) {
    const { left } = stockOf(this.#data, this.#data.run.id);
    const named = new Set([...lots.map(({ lot }) => lot), ...passed]);
    return Object.entries(shelf.lots)
      .filter(([id, lot]) => key !== null && lot.ingredient === key && !named.has(id) && left(id) > 0)
      .map(([id, lot]) => this.#freely(id, lot));
  }

  /**
   * A lot of the maker's own choice: how much of it is asked.
   * @param {string} id @param {ShelfLot} chosen @returns {LotThere}
   */
  #freely(id, chosen) {
    const { number, best_before: best } = chosen;
    const { left, shelf } = stockOf(this.#data, this.#data.run.id);
    return {
      lot: id,
      number,
      left: left(id),
      take: 0,
      past: best !== null && best < this.#data.today,
      verdict: verdictOf(chosen),
      papers_due: papersDue(papersAbout(shelf, chosen), this.#data.today),
      gathered: false,
    };
  }

  /** @param {GatherIngredient} need @param {Shelf} shelf */
  async #another(need, shelf) {
    const choices = this.#others(need, shelf).map((row) => ({
      label: say("page-gather-lot", { lot: row.number ?? row.lot }),
      says: [
        row.verdict && isBarred(shelf.lots[row.lot])
          ? say("page-shelf-verdict", { verdict: row.verdict })
          : "",
        bestBefore(shelf.lots[row.lot], this.#data.today),
        say("page-gather-left", { amount: amountOf(shelf.lots[row.lot], row.left ?? 0) }),
      ]
        .filter(Boolean)
        .join("; "),
      value: row,
    }));
    const row = await pickOne({ title: say("page-gather-which", { name: need.name }), choices });
    if (row) await this.#take(need, row, shelf.lots[row.lot]);
  }

  #takePast() {
    this.#pastToo = true;
    this.#write();
  }

  /**
   * An ingredient of which no lot is kept is ticked like a tool.
   * @param {string} ingredient @param {boolean} isHere
   */
  #bare(ingredient, isHere) {
    const thing = thingOf(ingredient);
    if (isHere) this.#undo("ticked", (body) => body.thing === thing);
    else tell(this, "answer", { kind: "ticked", body: { thing } });
  }

  /**
   * Take a lot, or put it back; more than is booked, and what is past its date, is asked about.
   * @param {GatherIngredient} need @param {LotThere} row @param {ShelfLot} lot
   */
  async #take({ ingredient, name, mg, count }, row, lot) {
    if (row.gathered) {
      this.#undo("gathered", (body) => body.ingredient === ingredient && body.lot === row.lot);
      return;
    }
    if (lot && isBarred(lot)) {
      const { verdict, why } = last(lot.judgements);
      const title = say("page-gather-barred-title", { name, verdict });
      const choices = [
        { label: say("page-gather-take-anyway"), says: say("page-gather-record-shows"), value: true },
      ];
      if (!(await pickOne({ title, says: why ?? "", choices }))) return;
    }
    if (
      row.past &&
      !(await pickOne({
        title: say("page-gather-past-title", { name }),
        says: say("page-gather-past-says", { day: dayWords(lot.best_before ?? "") }),
        choices: [
          { label: say("page-gather-take-anyway"), says: say("page-gather-record-shows"), value: true },
        ],
      }))
    )
      return;
    /** @type {{ingredient: string, lot: string, mg?: number, count?: number}} */
    const body = { ingredient, lot: row.lot };
    if (row.take) body[mg ? "mg" : "count"] = row.take;
    else if (mg || count) {
      const more = await openPad({
        title: say("page-gather-how-much", { name, lot: row.number ?? row.lot }),
        target: mg || count,
        division: mg ? typedIn() : null,
        answer: "take",
      });
      if (more === null) return;
      if (
        row.left !== null &&
        more > row.left &&
        !(await pickOne({
          title: say("page-gather-more-title"),
          says: say("page-gather-more-says", { left: amountOf(lot, row.left) }),
          choices: [{ label: say("page-gather-take-anyway"), value: true }],
        }))
      )
        return;
      body[mg ? "mg" : "count"] = more;
    }
    tell(this, "answer", { kind: "gathered", body });
  }

  /**
   * Takes back this run's own entry of a tick, whichever phone made it.
   * @param {string} kind @param {(body: {readonly [field: string]: unknown}) => boolean} fits
   */
  #undo(kind, fits) {
    const { run } = this.#data;
    const gone = new Set(run.entries.filter((each) => each.kind === "undone").map(({ body }) => body.entry));
    const last = run.entries.findLast((each) => each.kind === kind && fits(each.body) && !gone.has(each.id));
    if (last) tell(this, "answer", { kind: "undone", body: { entry: last.id } });
  }

  async #scan() {
    const code = await scanCode({ title: say("page-shelf-scan-lot") });
    if (!code) return;
    const { shelf } = stockOf(this.#data);
    /** @param {{lot: string}} row */
    const fits = ({ lot }) => [shelf.lots[lot]?.code, shelf.lots[lot]?.number].includes(code);
    const [found] = this.#needs.ingredients.flatMap((need) =>
      need.lots.filter(fits).map((row) => ({ need, row })),
    );
    if (found) {
      const { need, row } = found;
      if (!row.gathered) await this.#take(need, row, shelf.lots[row.lot]);
      return;
    }
    const other = Object.entries(shelf.lots).find(([lot]) => fits({ lot }));
    const wanted = other && this.#needs.ingredients.find((each) => each.shelf === other[1].ingredient);
    if (wanted) await this.#take(wanted, this.#freely(...other), other[1]);
    else
      await tellPlain({
        title: say(other ? "page-gather-not-wanted" : "page-gather-unknown-code"),
        lines: [
          other
            ? say("page-gather-not-wanted-says", { lot: other[1].number })
            : say("page-gather-unknown-code-says"),
        ],
        answer: say("page-common-back"),
      });
  }

  /** The names of what is not ticked. */
  #still() {
    const { ticked } = this.#data.run.state;
    const { ingredients, things } = this.#needs;
    const open = ingredients.filter(
      ({ ingredient, lots }) =>
        !lots.some((lot) => lot.gathered) && !Object.hasOwn(ticked, thingOf(ingredient)),
    );
    return [...open, ...things.filter((each) => !each.ticked)].map(({ name }) => name);
  }

  /** To the bench; what was not gathered is said, and kept with the run. */
  async #leave() {
    const { run } = this.#data;
    const still = this.#still();
    if (still.length && !Object.hasOwn(run.state.ticked, PASSED_OVER)) {
      const names = sayAll(still);
      const more = still.length - NAMED;
      const says =
        more > 0
          ? say("page-gather-go-says-many", { names: still.slice(0, NAMED).join(", "), count: more })
          : say("page-gather-go-says", { names });
      if (
        !(await pickOne({
          title: say("page-gather-go-title"),
          says,
          choices: [{ label: say("page-gather-go"), value: true }],
        }))
      )
        return;
      // The note is the maker's own from here on, as it was read.
      tell(this, "answers", {
        entries: [
          { kind: "ticked", body: { thing: PASSED_OVER } },
          { kind: "noted", body: { text: say("page-gather-note", { names }).slice(0, 2000) } },
        ],
      });
    }
    location.hash = `#/bench/${run.id}`;
  }
}

/** An ingredient's own tick, where no lot of it is kept. @param {string} ingredient */
const thingOf = (ingredient) => `ingredient.${ingredient}`;

/** @param {string} title @param {Node[]} rows */
function section(title, rows) {
  return rows.length
    ? h(
        "section",
        { "aria-label": title },
        h("h2", { class: "section-name" }, title),
        h("ul", { class: "rows" }, rows),
      )
    : null;
}

/**
 * @param {string} key @param {boolean} isTicked @param {string} label @param {string} says
 * @param {() => unknown} press @param {boolean} [isPast]
 */
function tick(key, isTicked, label, says, press, isPast = false) {
  return h(
    "li",
    {},
    h(
      "button",
      {
        type: "button",
        class: "tick-row",
        role: "checkbox",
        "aria-checked": String(isTicked),
        "data-tick": key,
        onclick: press,
      },
      h("span", { class: "tick-box" }),
      h(
        "span",
        { class: "row-words" },
        h("span", {}, label),
        says ? h("span", { class: isPast ? "small past" : "soft small" }, says) : null,
      ),
    ),
  );
}

export const registerGatherScreen = () => define("gather-screen", GatherScreen);
