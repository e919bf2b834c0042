// How many: pieces, total mass, moulds, all of one ingredient or of a mix that is left; what is left
// out or swapped; and at once what that makes of every component.
//
//   screen.data = { recipe, kit, weigh: "running" | "tare", stock: { entries, runs, elsewhere, today } }
//   "begin" { recipe, size }                     screen.trouble("…")
//   "time-wanted" { recipe, size, sheet }       screen.timeTold("…"), screen.costTold(…), if screen.isStill(size)
//   "swap-wanted" { id, line, ingredient }       screen.swapTold(line, ingredient, effects or null)
//
// The sheet is made here, on the phone, by the same pure function the run will use.

import { sketch } from "../bench/draft.js";
import { saysOf } from "../bench/errors.js";
import { those } from "../bench/lists.js";
import { chooseSize, makeSheet } from "../bench/sheet/index.js";
import { reasonWords, warningWords } from "../bench/sheet-reasons.js";
import { partName, pieceWord, spoonsWords } from "../bench/sheet-words.js";
import { uozToMg } from "../bench/whole.js";
import { define, given, h, sameData, setText, show, tell } from "../parts/dom.js";
import { letterMark } from "../parts/hatch.js";
import { pageHead } from "../parts/page-head.js";
import { makeShortage } from "../parts/shortage.js";
import { makeStepper } from "../parts/stepper.js";
import { about, pieces } from "../parts/words.js";
import { say, sayAll, shown, units } from "../words.js";
/** @import { Finding, Kit, Sheet, SheetComponent, Size, SizeRequest, SwapEffect } from "../../bench/shapes/page" */
/** @import { Weighing, WrittenRecipe } from "../../bench/shapes/page" */
/** @import { RecipeRow } from "../../types/keep" */
/** @import { Today } from "../parts/shortage.js" */

const WAYS = /** @type {const} */ (["pieces", "mass", "moulds", "stock"]);

const REST_MS = 300; // what is said of the time waits for a moment without a touch

/** What begins the value of a mix, where ingredients are picked by their id. */
const MIX = "mix:";

/**
 * @typedef {"pieces" | "mass" | "moulds" | "stock"} By
 * @typedef {{recipe: RecipeRow | null, kit: Kit | null, weigh: Weighing, stock: Today,
 *   asked?: {pieces?: number} | null}} SizeData
 * @typedef {{[B in By]?: number} & {component?: string, ingredient?: string}} ChosenBefore
 * @typedef {{name: string, mg: number, count: number, spoons: string, optional: boolean}} Total
 * @typedef {{ways: HTMLElement, steppers: HTMLElement, component: HTMLSelectElement, ingredient: HTMLSelectElement,
 *   swaps: Map<string, HTMLElement>, says: HTMLElement, news: HTMLElement, time: HTMLElement, cost: HTMLElement,
 *   warnings: HTMLElement,
 *   shortage: ReturnType<typeof makeShortage>, components: HTMLElement, trouble: HTMLElement,
 *   begin: HTMLButtonElement, print: HTMLAnchorElement}} SizeParts
 */

export class SizeScreen extends HTMLElement {
  /** @type {SizeData | null} */
  #data = null;
  /** @type {SizeParts | null} */
  #parts = null;
  /** @type {By} */
  #by = "pieces";
  /** @type {{[B in By]: ReturnType<typeof makeStepper>}} */
  #steppers = given();
  /** @type {Set<string>} */
  #without = new Set();
  /** @type {{[line: string]: string}} */
  #swaps = {};
  /** @type {Weighing} */
  #weigh = "running";
  /** @type {Size | null} */
  #sized = null;
  /** @type {Sheet | null} */
  #sheet = null;
  #drawing = 0;

  /** @param {SizeData} data */
  set data(data) {
    const before = this.#data;
    const isSameRecipe = before?.recipe?.version === data.recipe?.version;
    const isSameKit = sameData(before?.kit, data.kit);
    this.#data = data;
    if (before && isSameRecipe && isSameKit) {
      this.#writeShortage();
      return;
    }
    if (!before) this.#weigh = data.weigh;
    // What is chosen does not hang on the kit, and only in part on the recipe.
    if (this.#parts && isSameRecipe && data.kit) this.#soon();
    else if (!data.recipe || !data.kit) this.#lacking();
    else this.#rebuild(data.recipe);
  }

  /** Another version of the recipe: what was chosen stays, with the caret where it was. @param {RecipeRow} recipe */
  #rebuild(recipe) {
    const chosen = {
      ...(this.#data?.asked?.pieces && { pieces: this.#data.asked.pieces }),
      ...Object.fromEntries(Object.entries(this.#steppers ?? {}).map(([by, { value }]) => [by, value])),
      component: this.#parts?.component.value,
      ingredient: this.#parts?.ingredient.value,
    };
    const fields = () =>
      /** @type {HTMLInputElement[]} */ ([...this.querySelectorAll("input.stepper-field")]);
    const had = fields().find((field) => field === document.activeElement);
    const typed = had && { name: had.ariaLabel, value: had.value, caret: had.selectionStart };
    const isLater = this.#parts !== null;
    this.replaceChildren();
    const parts = this.#build(recipe, chosen);
    if (isLater) setText(parts.news, say("page-size-changed", { version: recipe.version }));
    const field = typed && fields().find(({ ariaLabel }) => ariaLabel === typed.name);
    if (!field) return;
    field.focus();
    field.value = typed.value;
    field.setSelectionRange(typed.caret, typed.caret);
  }

  /**
   * What a stand-in changes, as the server works it out; null when it does not answer.
   * @param {string} line @param {string} ingredient @param {SwapEffect | null} effects
   */
  swapTold(line, ingredient, effects) {
    const told = this.#parts?.swaps.get(line);
    if (told && this.#swaps[line] === ingredient)
      told.replaceChildren(...(effects ? swapWords(effects) : [h("li", {}, say("page-size-swap-away"))]));
  }

  /** How long it will take. @param {string} text */
  timeTold(text) {
    if (this.#parts) setText(this.#parts.time, text);
  }

  /** What it will cost; null where nobody can say. @param {Node | null} told */
  costTold(told) {
    this.#parts?.cost.replaceChildren(...(told ? [told] : []));
  }

  /** Whether this size is still the one that is chosen. @param {Size} size */
  isStill(size) {
    return this.isConnected && sameData(size, this.#sized);
  }

  /** @param {string} text */
  trouble(text) {
    if (!this.#parts) return;
    setText(this.#parts.trouble, text);
    show(this.#parts.trouble, text !== "");
  }

  #lacking() {
    const recipe = this.#data?.recipe;
    this.#parts = null;
    this.replaceChildren(
      h(
        "div",
        { class: "sheet stack" },
        pageHead(recipe?.title ?? say("page-app-absent"), ""),
        h("p", {}, say(recipe ? "page-size-no-kit" : "page-size-absent")),
        h(
          "a",
          { class: "button outlined", href: recipe ? "#/kit" : "#/" },
          say(recipe ? "page-size-describe-kit" : "page-title-recipes"),
        ),
      ),
    );
  }

  /** @param {RecipeRow} recipe @param {ChosenBefore} chosen */
  #build(recipe, chosen) {
    const { document: written, measured } = recipe;
    this.#prune(written);
    const unit = units().mass;
    const inOunces = unit === "oz";
    const {
      pieces: count = written.written_for,
      mass: much = inOunces ? 70 : 2000,
      moulds = 1,
      stock = inOunces ? 18 : 500,
    } = chosen;
    const again = () => this.#soon();
    const moulded = written.components.flatMap(({ id, name, mould }) => (mould ? [{ id, name, mould }] : []));
    // What can be used up is what is weighed, the most of it first.
    /** @param {string} id */
    const ugOf = (id) =>
      measured.components
        .flatMap((component) => component.lines)
        .reduce((sum, line) => sum + (line.ingredient === id ? (line.ug ?? 0) : 0), 0);
    const stocked = Object.entries(measured.ingredients)
      .filter(([id]) => ugOf(id))
      .sort(([one], [other]) => ugOf(other) - ugOf(one));

    const mixes = measured.components.filter(({ id, piece_mg: mg }) => mg && id !== "assembly");

    this.#steppers = {
      pieces: makeStepper({
        label: pieceWord(measured.piece, 2),
        value: count,
        least: 1,
        most: 1000,
        unit: pieceWord(measured.piece, 2),
        onchange: again,
      }),
      mass: makeStepper({
        label: say("page-size-mass", { unit }),
        value: much,
        least: inOunces ? 1 : 10,
        most: inOunces ? 35_000 : 1_000_000,
        by: inOunces ? 4 : 100,
        unit: say("page-size-mass-unit", { unit }),
        onchange: again,
      }),
      moulds: makeStepper({
        label: say("page-size-moulds"),
        value: moulds,
        least: 1,
        most: 200,
        unit: say("page-size-moulds-unit"),
        onchange: again,
      }),
      stock: makeStepper({
        label: say("page-size-stock", { unit }),
        value: stock,
        least: 1,
        most: inOunces ? 35_000 : 1_000_000,
        by: inOunces ? 2 : 50,
        unit: say("page-size-stock-unit", { unit }),
        onchange: again,
      }),
    };
    const parts = {
      ways: h("fieldset", { class: "ways" }, h("legend", { class: "unseen" }, say("page-size-by"))),
      steppers: h(
        "div",
        {},
        Object.entries(this.#steppers).map(([by, stepper]) => h("div", { "data-by": by }, stepper.node)),
      ),
      component: h(
        "select",
        { "aria-label": say("page-size-moulds-of"), onchange: again },
        moulded.map((component) =>
          h("option", { value: component.id }, `${component.name}, ${component.mould.shape}`),
        ),
      ),
      ingredient: h(
        "select",
        { "aria-label": say("page-size-all-of"), onchange: again },
        h(
          "optgroup",
          { label: say("page-size-one-ingredient") },
          stocked.map(([id, { name }]) => h("option", { value: id }, name)),
        ),
        h(
          "optgroup",
          { label: say("page-size-mix-left") },
          mixes.map(({ id, name }) =>
            h("option", { value: `${MIX}${id}` }, say("page-size-mixed", { name })),
          ),
        ),
      ),
      swaps: new Map(), // by line: the list that says what its stand-in changes
      says: h("p", { class: "size-says", "aria-live": "polite" }),
      news: h("p", { class: "soft small", role: "status" }),
      time: h("p", { class: "size-time soft", role: "status" }),
      cost: h("div", { class: "size-cost" }),
      warnings: h("ul", { class: "cautions" }),
      shortage: makeShortage({ onmost: (count) => this.#take(count) }),
      components: h("div", { class: "plates" }),
      trouble: h("p", { class: "trouble", role: "alert", hidden: true }),
      begin: h(
        "button",
        {
          type: "button",
          class: "copper",
          onclick: () => this.#sized && tell(this, "begin", { recipe, size: this.#sized }),
        },
        say("page-size-begin"),
      ),
      print: h("a", { class: "button quiet to-paper" }, say("page-common-print")),
    };
    parts.ways.append(
      ...WAYS.filter((by) => by !== "moulds" || moulded.length).map((by) =>
        h(
          "label",
          { class: "way" },
          h("input", {
            type: "radio",
            name: "by",
            value: by,
            checked: by === this.#by,
            onchange: () => this.#turn(by),
          }),
          h("span", {}, say(`page-size-by-${by}`)),
        ),
      ),
    );
    this.#parts = parts;
    this.append(
      h(
        "div",
        { class: "sheet size-sheet" },
        pageHead(written.title, ""),
        // One row, so that a summary that comes while a number is typed moves nothing.
        h(
          "div",
          { class: "size-about" },
          written.summary
            ? h(
                "details",
                { class: "about" },
                h("summary", {}, say("page-size-about")),
                h("p", {}, written.summary),
              )
            : null,
          recipe.address
            ? h("b", {}, say("page-size-former", { version: recipe.version }))
            : h("a", { class: "button quiet to-edit", href: `#/recipe/${recipe.id}` }, say("page-size-edit")),
        ),
        h(
          "section",
          { class: "size-how", "aria-label": say("page-size-how") },
          parts.ways,
          parts.component,
          parts.ingredient,
          parts.steppers,
          parts.says,
          parts.time,
          parts.cost,
          parts.shortage.node,
          parts.news,
        ),
        h(
          "section",
          { class: "size-what", "aria-label": say("page-size-what") },
          parts.warnings,
          parts.components,
        ),
        h(
          "section",
          { class: "size-choices", "aria-label": say("page-size-choices") },
          this.#choices(recipe, parts.swaps),
          this.#weighing(),
        ),
        h("div", { class: "size-foot" }, parts.trouble, parts.begin, parts.print),
      ),
    );
    if (this.#by === "moulds" && !moulded.length) this.#by = "pieces";
    for (const pick of /** @type {const} */ (["component", "ingredient"])) {
      const was = [...parts[pick].options].find(({ value }) => value === chosen[pick]);
      if (was) parts[pick].value = was.value;
    }
    this.#turn(this.#by);
    return parts;
  }

  /** What was left out or swapped and is no longer in the recipe. @param {WrittenRecipe} written */
  #prune(written) {
    const lines = new Set(
      [...written.components, { id: "assembly", ...written.assembly }].flatMap(({ id, lines: own = [] }) =>
        own.map((line) => `${id}.${line.id}`),
      ),
    );
    for (const key of [...this.#without]) if (!lines.has(key)) this.#without.delete(key);
    for (const key of Object.keys(this.#swaps)) if (!lines.has(key)) delete this.#swaps[key];
  }

  /** Lines that may be left out or swapped. @param {RecipeRow} recipe @param {Map<string, HTMLElement>} swaps */
  #choices({ id: recipe, document: written }, swaps) {
    /** @type {HTMLElement[]} */
    const rows = [];
    for (const component of [
      ...written.components,
      { id: "assembly", name: say("page-recipe-joining"), ...written.assembly },
    ]) {
      for (const line of component.lines ?? []) {
        const key = `${component.id}.${line.id}`;
        const name = written.ingredients[line.ingredient]?.name ?? line.ingredient;
        if (line.optional) {
          const box = h("input", {
            type: "checkbox",
            checked: !this.#without.has(key),
            onchange: () => {
              this.#without[box.checked ? "delete" : "add"](key);
              this.#soon();
            },
          });
          rows.push(
            h(
              "label",
              { class: "choice" },
              box,
              h(
                "span",
                {},
                say("page-size-with", { name }),
                h("span", { class: "soft small" }, ` (${partName(component)})`),
              ),
            ),
          );
        }
        if (line.substitutes?.length) {
          const told = h("ul", { class: "plain small swap-told", "aria-live": "polite" });
          swaps.set(key, told);
          const pick = h(
            "select",
            {
              onchange: () => {
                told.replaceChildren();
                if (pick.value) {
                  this.#swaps[key] = pick.value;
                  tell(this, "swap-wanted", { id: recipe, line: key, ingredient: pick.value });
                } else delete this.#swaps[key];
                this.#soon();
              },
            },
            h("option", { value: "" }, name),
            line.substitutes.map(({ ingredient }) =>
              h(
                "option",
                { value: ingredient, selected: this.#swaps[key] === ingredient },
                say("page-size-instead", { name: written.ingredients[ingredient]?.name ?? ingredient }),
              ),
            ),
          );
          rows.push(h("label", { class: "field" }, h("span", {}, `${component.name}: ${name}`), pick), told);
        }
      }
    }
    return rows.length
      ? h("div", { class: "size-lines" }, h("p", { class: "caps" }, say("page-size-this-time")), rows)
      : null;
  }

  #weighing() {
    /** @param {Weighing} value @param {string} label */
    const way = (value, label) =>
      h(
        "label",
        { class: "choice" },
        h("input", {
          type: "radio",
          name: "weigh",
          value,
          checked: this.#weigh === value,
          onchange: () => {
            this.#weigh = value;
            this.#soon();
          },
        }),
        h("span", {}, label),
      );
    return h(
      "fieldset",
      { class: "size-weigh" },
      h("legend", { class: "caps" }, say("page-size-weighing")),
      way("running", say("page-size-running")),
      way("tare", say("page-size-tare")),
    );
  }

  /** @param {By} by */
  #turn(by) {
    this.#by = by;
    if (!this.#parts) return;
    const { steppers, component, ingredient } = this.#parts;
    for (const node of steppers.children) show(node, node.getAttribute("data-by") === by);
    show(component, by === "moulds");
    show(ingredient, by === "stock");
    this.#soon();
  }

  /** As many pieces as the shelf is enough for. @param {number} count */
  #take(count) {
    const way = /** @type {HTMLInputElement | null} */ (
      this.querySelector('input[name="by"][value="pieces"]')
    );
    if (way) way.checked = true;
    this.#turn("pieces");
    this.#steppers.pieces.value = count;
  }

  /** What the shelf has too little of, and at rest what it has enough for. */
  #writeShortage() {
    const { recipe = null, kit = null, stock } = this.#data ?? {};
    const [size, sheet] = [this.#sized, this.#sheet];
    if (!this.#parts || !recipe || !kit || !stock) return;
    const { shortage } = this.#parts;
    const isNews = shortage.write(stock, size && sheet);
    if (!isNews || !size || !sheet) return;
    const isStill = () => this.isStill(size);
    const asked = { stock, recipe: recipe.measured, sheet, size, kit, isStill };
    setTimeout(() => isStill() && shortage.offer(asked), REST_MS);
  }

  #soon() {
    this.#drawing ||= requestAnimationFrame(() => {
      this.#drawing = 0;
      const { recipe = null, kit = null } = this.#data ?? {};
      if (recipe && kit && this.#parts) this.#size(recipe, kit, this.#parts);
    });
  }

  /** @param {SizeParts} parts @returns {SizeRequest} */
  #request({ component, ingredient }) {
    const { value } = this.#steppers[this.#by];
    const chosen = { without: [...this.#without].sort(), swaps: { ...this.#swaps }, weigh: this.#weigh };
    const mg = units().mass === "oz" ? uozToMg(value * 1_000_000) : value * 1000;
    if (this.#by === "mass") return { by: "mass", mg, ...chosen };
    if (this.#by === "moulds") return { by: "moulds", component: component.value, moulds: value, ...chosen };
    if (this.#by === "stock") {
      const { value: which } = ingredient;
      if (which.startsWith(MIX)) return { by: "mix", component: which.slice(MIX.length), mg, ...chosen };
      return { by: "stock", stock: { [which]: mg }, ...chosen };
    }
    return { by: "pieces", pieces: value, ...chosen };
  }

  /** @param {RecipeRow} recipe @param {Kit} kit @param {SizeParts} parts */
  #size(recipe, kit, parts) {
    try {
      const { size, says } = chooseSize(recipe.measured, kit, this.#request(parts));
      const sheet = makeSheet(recipe.measured, { id: recipe.id, version: recipe.version }, size, kit);
      if (!sameData(size, this.#sized))
        setTimeout(() => this.isStill(size) && tell(this, "time-wanted", { recipe, size, sheet }), REST_MS);
      [this.#sized, this.#sheet] = [size, sheet];
      parts.begin.disabled = false;
      parts.print.href = `#/card/${recipe.address ?? recipe.id}/${encodeURIComponent(JSON.stringify(size))}`;
      const made = pieces(size.pieces, sheet.piece);
      setText(parts.begin, say("page-size-begin-pieces", { pieces: made }));
      this.#steppers.pieces.unit = pieceWord(sheet.piece, size.pieces);
      setText(parts.says, says || (this.#by === "pieces" ? "" : say("page-size-makes", { pieces: made })));
      this.trouble("");
      this.#write(recipe, sheet, parts);
      this.#writeShortage();
    } catch (error) {
      const says = saysOf(error);
      if (!says) throw error;
      [this.#sized, this.#sheet] = [null, null];
      this.#writeShortage();
      parts.begin.disabled = true;
      parts.print.href = `#/card/${recipe.address ?? recipe.id}`;
      setText(parts.begin, say("page-size-begin"));
      setText(parts.says, "");
      this.timeTold("");
      this.trouble(says);
    }
  }

  /** @param {RecipeRow} recipe @param {Sheet} sheet @param {SizeParts} parts */
  #write(recipe, sheet, { warnings, components }) {
    const texts = [...asked(recipe.document), ...sheet.warnings.map(warningWords)];
    warnings.replaceChildren(...texts.map((text) => h("li", {}, text)));
    show(warnings, texts.length > 0);
    components.replaceChildren(...those(sheet.components.map((component) => plate(sheet, component))));
  }
}

/**
 * What was kept before it was asked about, as "1.000 g": in whose name, and the question.
 * @param {WrittenRecipe} written
 */
function asked(written) {
  return [...sketch(written).faults]
    .filter(([at]) => at)
    .map(([at, says]) => {
      const [, place, index] = /^(?:components\.(\d+)|assembly)(?:\.lines\.(\d+))?/.exec(at) ?? [];
      const part = place === undefined ? written.assembly : written.components[Number(place)];
      const line = part?.lines?.[Number(index)];
      return [line ? written.ingredients[line.ingredient]?.name : part?.name, says]
        .filter(Boolean)
        .join(": ");
    });
}

/** A swap's arithmetic and method, then what it changes in the check and on the label. @param {SwapEffect} effect */
function swapWords({
  says,
  findings_new: found,
  findings_gone: gone,
  label_new: named,
  label_gone: dropped,
}) {
  /** @param {readonly Finding[]} findings */
  const worth = (findings) => findings.filter(({ level }) => level !== "know");
  return [
    says.join(" "),
    ...worth(found).map(({ what, by, do: way }) =>
      say("page-size-check-new", { what: [what, by, way].filter(Boolean).join(" ") }),
    ),
    ...worth(gone).map(({ what }) => say("page-size-check-gone", { what })),
    named.length ? say("page-size-label-new", { names: sayAll(named) }) : "",
    dropped.length ? say("page-size-label-gone", { names: sayAll(dropped) }) : "",
    named.length || dropped.length ? "" : say("page-size-label-same"),
  ]
    .filter(Boolean)
    .map((text) => h("li", {}, text));
}

/**
 * One component: how many, how much, in how many rounds and why, and what goes in.
 * @param {Sheet} sheet @param {SheetComponent} component
 */
function plate(sheet, component) {
  /** @type {Map<string, Total>} */
  const totals = new Map();
  for (const line of sheet.lines.filter((each) => each.component === component.id)) {
    const total = totals.get(line.line) ?? {
      name: line.name,
      mg: 0,
      count: 0,
      spoons: "",
      optional: line.optional,
    };
    total.mg += line.mg ?? 0;
    total.count += line.count ?? 0;
    total.spoons ||= spoonsWords(line.spoons);
    totals.set(line.line, total);
  }
  if (totals.size === 0 && component.make_mg === 0) return null;
  const rounds = component.rounds.length;
  const facts = [
    component.make_mg ? about(component.make_mg) : "",
    component.spares ? say("page-size-spare", { count: component.spares }) : "",
    rounds > 1
      ? say("page-size-rounds", {
          count: rounds,
          counts: component.rounds.map((round) => round.count).join(" + "),
        })
      : "",
  ].filter(Boolean);
  return h(
    "section",
    { class: "plate-part" },
    h(
      "h2",
      {},
      letterMark(component.letter),
      h("span", {}, partName(component)),
      h("span", { class: "figures plate-count" }, `\u00d7 ${component.count}`),
    ),
    h("p", { class: "soft figures-line" }, facts.join(", ")),
    component.why.map((why) => h("p", { class: "small" }, reasonWords(why))),
    h(
      "table",
      { class: "amounts" },
      h("caption", { class: "unseen" }, say("page-size-goes-in", { name: partName(component) })),
      h(
        "tbody",
        {},
        [...totals.values()].map((total) =>
          h("tr", {}, h("th", { scope: "row" }, total.name), h("td", {}, amount(total))),
        ),
      ),
    ),
  );
}

/** @param {Total} total */
function amount({ mg, count, spoons }) {
  if (mg) return about(mg);
  if (spoons) return spoons;
  return count ? shown(count) : say("prompting-to-texture");
}

export const registerSizeScreen = () => define("size-screen", SizeScreen);
