// A recipe being written, for a thumb and for a keyboard: its parts, lines and steps, what each
// amount comes to at once, the picture of the whole, and what the check says.
//
//   screen.data = { recipe, draft, recipes }      // recipe and draft may be null: a new one
//   "draft-written" { id, base, was, document, first }    screen.kept(document), screen.trouble("…")
//   "check-wanted" { document, air }          screen.checked(document, { findings } | { errors } | { says })
//   "recipe-sent" { id }                      screen.sent("kept" | "same" | "waits" | "changed" | { errors })
//   "draft-dropped" { id }      "draft-copied" { id, document }
//
// Every change makes a new document and leaves the old one whole: that is all that undo needs.

import { saysOf } from "../bench/errors.js";
import { merging, pastedText } from "../connected.js";
import { perCent } from "../bench/whole.js";
import { plainNumber, readAmount } from "../bench/amounts.js";
import { sketch, tidy, untidyPath } from "../bench/draft.js";
import { canonical } from "../bench/index.js";
import { last } from "../bench/lists.js";
import {
  define,
  find,
  focused,
  given,
  h,
  part as within,
  setAttr,
  setText,
  show,
  stay,
  tell,
} from "../parts/dom.js";
import { combobox } from "../parts/combo.js";
import { DutiesPart, productIn } from "../parts/duties.js";
import {
  askedRow,
  cardOf,
  compared,
  KNOWN,
  knownHere,
  knownOf,
  knownRow,
  fieldNames,
  takenOver,
  picked,
  wanting,
} from "../parts/known.js";
import { letterMark } from "../parts/hatch.js";
import { pageHead } from "../parts/page-head.js";
import {
  addComponent,
  addLine,
  addStep,
  asAnother,
  asKind,
  blankRecipe,
  hasDetails,
  moved,
  nameLine,
  renamedEverywhere,
  settleId,
  settleLine,
  shifted,
  without,
  withText,
  withoutFields,
} from "../parts/recipe-edits.js";
import {
  choicesOf,
  fieldRow,
  fieldRows,
  fold,
  growing,
  labelled,
  labelOf,
  ordered,
  sayBeside,
  thingsAt,
  valueAt,
  withValue,
} from "../parts/recipe-fields.js";
import {
  COMPONENT,
  COMPONENT_MORE,
  INGREDIENT,
  INGREDIENT_OF_KIND,
  KIND_NAMES,
  KINDS,
  kindName,
  LINE,
  MEASURES,
  nameOfLine,
  comesAfter,
  otherSteps,
  partsOf,
  RECIPE,
  RECIPE_MORE,
  STEP_MORE,
} from "../parts/recipe-forms.js";
import { recipePicture } from "../parts/recipe-picture.js";
import { placeWords } from "../parts/places.js";
import { pickOne } from "../parts/sheets.js";
import { shelfOf } from "../parts/stock.js";
import { about, idFor } from "../parts/words.js";
import { point, say } from "../words.js";
/** @import { Finding, Measures, Proposal, Shelf, WrittenAssembly, WrittenComponent } from "../../bench/shapes/page" */
/** @import { WrittenIngredient, WrittenLine, WrittenRecipe, WrittenStep } from "../../bench/shapes/page" */
/** @import { DraftRow, Fault, KeptEntry, RecipeRow } from "../../types/keep" */
/** @import { DutiesNow } from "../../types/parts" */
/** @import { Child } from "../../types/dom" */
/** @import { Any, ComponentPath, FieldThere, LinePath, PartPath, Pen, StepPath } from "../../types/recipe" */
/** @import { Sketch, SketchLine } from "../bench/draft.js" */
/** @import { CardThere, Known, KnownField } from "../parts/known.js" */
/** @import { MergeRow } from "../parts/recipe-merge.js" */
/** @import { Pasted } from "../parts/recipe-text.js" */

const NAMES_HERE = 4;
const OF_RECIPE = KNOWN.filter((field) => field !== "cas"); // which a recipe has no field for
const CHECK_AFTER_MS = 500;
const REST_MS = 250;
const CHOSEN_MS = 900; // after this long without a key or a choice, what was picked is meant
const LEVELS = /** @type {const} */ (["will_not_run", "look", "know"]);

/** @param {Element} node @returns {node is HTMLInputElement | HTMLTextAreaElement} */
const isText = (node) => node.matches("textarea, input[type=text], input:not([type])");

/**
 * @typedef {{findings?: readonly Finding[], errors?: readonly Fault[] | null, says?: string}} CheckAnswer
 * @typedef {"kept" | "same" | "waits" | "changed" | {errors: readonly Fault[]} | null} SentAnswer
 * @typedef {{id: string, about: WrittenIngredient | undefined}} Meant what a line means
 * @typedef {(document: WrittenRecipe, at: LinePath) => WrittenRecipe} LineChange
 * @typedef {(name: string) => Promise<readonly Proposal[] | null>} Propose
 * @typedef {{name: string, proposal: Proposal | null, isAnswered: boolean}} MetName
 * @typedef {{line: string, text: string, ways: (readonly [label: string, change: LineChange])[]}} Question
 * @typedef {{at: string, work: () => void, timer: ReturnType<typeof setTimeout>}} Chosen
 * @typedef {{input: HTMLInputElement | HTMLTextAreaElement, text: string, isUndone: boolean}} Entered
 * @typedef {{temperature_c?: string, humidity?: string}} Air
 * @typedef {{title: HTMLElement, write: HTMLElement, changed: HTMLElement, picture: HTMLElement, sums: HTMLElement,
 *   findings: HTMLElement, said: HTMLElement, lead: HTMLElement, undo: HTMLElement, redo: HTMLElement,
 *   copy: HTMLElement, drop: HTMLElement,
 *   foot: HTMLElement}} EditParts
 * @typedef {(...more: Child[]) => HTMLElement} Order
 */

export class RecipeScreen extends HTMLElement {
  #id = "";
  /** @type {number | null} */
  #base = null;
  /** @type {WrittenRecipe | null} */
  #was = null; // the document that version #base is
  /** @type {WrittenRecipe | null} */
  #first = null; // words of mine that the document gave up, to be a version of their own before it
  /** @type {RecipeRow | null} */
  #recipe = null;
  /** @type {WrittenRecipe} */
  #document = given();
  /** @type {readonly WrittenIngredient[]} */
  #known = [];
  /** @type {Propose} */
  #propose = given();
  /** @type {Shelf} */
  #shelf = given();
  /** What the table takes a line's name for, by the line, once it was asked. @type {Map<string, MetName>} */
  #met = new Map();
  /** @type {WrittenRecipe[]} */
  #past = [];
  /** @type {WrittenRecipe[]} */
  #future = [];
  /** @type {string | null} */
  #group = null;
  /** @type {WeakSet<WrittenRecipe>} */
  #mine = new WeakSet();
  /** @type {Set<string>} */
  #touched = new Set();
  /** @type {((drawn: Sketch) => void)[]} */
  #live = [];
  /** @type {EditParts} */
  #parts = given();
  /** @type {CheckAnswer | null} */
  #checked = null;
  #checking = 0;
  #resting = 0;
  #drawing = 0;
  /** @type {Air} */
  #air = {};
  #drawn = ""; // what the picture shows
  #told = ""; // what is said of someone else's change
  #news = "";
  #isDropped = false;
  /** @type {Map<string, string>} */
  #answers = new Map();
  /** @type {WrittenRecipe | null} */
  #stopped = null; // the document that cannot become a version as it is
  /** @type {readonly Fault[] | null} */
  #late = null; // what the server found wrong after it was handed over
  #waits = false;
  /** @type {Pasted} */
  #pasted = { text: "", items: [] };
  /** @type {Question | null} */
  #asked = null; // about the name of a line
  /** @type {Chosen | null} */
  #chosen = null; // what was picked and not put in yet
  /** @type {Entered | null} */
  #entered = null; // the text field that the focus is in
  #footSize = new ResizeObserver(() => {
    // Nothing that has the focus is under the foot, nor does the foot grow over it.
    const { foot } = this.#parts;
    document.documentElement.style.scrollPaddingBottom = `${foot.offsetHeight}px`;
    const field = focused();
    if (!field || !this.contains(field) || field.closest(".r-side, .r-foot")) return;
    const { top, bottom } = field.getBoundingClientRect();
    if (top < innerHeight && bottom > foot.getBoundingClientRect().top)
      field.scrollIntoView({ block: "nearest" });
  });
  #pen = this.#makePen();
  /** @type {DutiesNow} */
  #due = given();
  /** @type {typeof import("../parts/recipe-text.js") | null} */
  #text = null;
  /** @type {typeof import("../parts/recipe-merge.js") | null} */
  #merge = null;
  #duties = new DutiesPart((said) => tell(this, "duty-said", said));

  constructor() {
    super();
    const typing = (which = "") => {
      const hint = find(this, `.r-line .field:focus-within + .hint${which}`);
      if (hint) setAttr(hint, "data-typing", true);
    };
    this.addEventListener("input", () => typing());
    this.addEventListener("focusin", ({ target }) => {
      if (!(target instanceof HTMLElement)) return;
      typing(":not([data-fault])"); // what is wrong there stands whole until it is mended
      if (isText(target)) this.#entered = { input: target, text: target.value, isUndone: false };
      // Of itself a browser shows only the row of the caret.
      if (target.matches("textarea")) target.scrollIntoView({ block: "nearest" });
      if (this.#chosen && target.dataset.at !== this.#chosen.at) this.#putChosen();
    });
    for (const over of ["click", "keyup"])
      this.addEventListener(over, () => {
        for (const left of this.querySelectorAll(".field:not(:focus-within) + .hint[data-typing]"))
          setAttr(left, "data-typing", null);
      });
  }

  /**
   * @param {{id: string, recipe: RecipeRow | null, draft: DraftRow | null, recipes: readonly RecipeRow[],
   *   duties: DutiesNow, stock: {entries: readonly KeptEntry[]}, propose: Propose}} data
   */
  set data({ id, recipe, draft, recipes, duties, stock, propose }) {
    this.#recipe = recipe;
    this.#due = duties;
    this.#propose = propose;
    this.#shelf = shelfOf(stock.entries);
    this.#known = knownHere(
      recipes.flatMap(({ document }) => Object.values(document.ingredients)),
      this.#shelf,
    );
    const isElsewhere = draft && !this.#mine.has(draft.document);
    if (draft && !isElsewhere && (draft.base ?? 0) > (this.#base ?? 0))
      [this.#base, this.#was, this.#first] = [draft.base, draft.was, null]; // sent while it was written on
    if (
      !draft &&
      recipe &&
      this.#document &&
      canonical(recipe.document) === canonical(tidy(this.#document))
    ) {
      if (this.#waits) this.#say(say("page-recipe-saved-version", { version: recipe.version }));
      [this.#base, this.#was, this.#first, this.#waits] = [recipe.version, recipe.document, null, false];
    }
    if (
      !this.#document ||
      this.#isDropped ||
      isElsewhere ||
      (!draft && this.#past.length === 0 && this.#isChanged)
    ) {
      this.#isDropped = false;
      this.#id = id;
      this.#base = draft ? draft.base : (recipe?.version ?? null);
      this.#was = draft ? draft.was : (recipe?.document ?? null);
      this.#first = draft?.first ?? null;
      this.#document = draft?.document ?? recipe?.document ?? blankRecipe();
      this.#mine.add(this.#document);
      this.#frame();
      this.#build();
      this.#waits = Boolean(draft?.send);
      if (this.#waits) this.#say(say("page-recipe-waits"));
      if (!draft && !recipe) this.#focus("use");
    }
    if ((draft?.errors ?? null) !== this.#late) {
      this.#late = draft?.errors ?? null;
      if (this.#late) this.#refused(this.#late);
    }
    if (!this.#parts) return;
    this.#writeDuties();
    this.#writeChanged();
    show(this.#parts.drop, draft !== null);
    show(this.#parts.copy, recipe !== null);
  }

  /** What is due before it is sold, as it is written now. Of what is no version yet nothing can be said. */
  #writeDuties() {
    const isKept = this.#recipe !== null;
    this.#duties.look(productIn(this.#document), {
      ...this.#due,
      id: isKept ? this.#id : "",
      isMaker: this.#due.isMaker && isKept,
    });
  }

  /** Something was said of a duty. */
  dutySaid() {
    this.#duties.again();
  }

  connectedCallback() {
    if (this.#parts) this.#footSize.observe(this.#parts.foot);
  }

  disconnectedCallback() {
    this.#putChosen();
    this.#footSize.disconnect();
    document.documentElement.style.scrollPaddingBottom = "";
  }

  /** @param {WrittenRecipe} document */
  kept(document) {
    // Why it is no version yet stands until something is changed, whenever the disk is done.
    if (document === this.#document && document !== this.#stopped)
      this.#say([this.#news, say("page-recipe-saved")].filter(Boolean).join(" "));
  }

  /** @param {string} text */
  trouble(text) {
    this.#say(text, text !== "");
  }

  /** @param {string} text */
  said(text) {
    this.#say(text);
  }

  /** @param {SentAnswer} answer */
  sent(answer) {
    if (answer === "kept")
      this.#say(say("page-recipe-saved-version", { version: this.#recipe?.version ?? 1 }));
    else if (answer === "same") this.#say(say("page-recipe-unchanged"));
    else if (answer === "waits") {
      this.#waits = true;
      this.#say(say("page-recipe-waits"));
    } else if (answer && answer !== "changed") {
      this.#refused(answer.errors);
      this.#go(this.#placeOf(answer.errors[0]));
    }
    this.#writeChanged();
  }

  /** @param {readonly Fault[]} errors */
  #refused(errors) {
    this.#waits = false;
    this.checked(this.#document, { errors });
    this.#notKept();
  }

  #notKept() {
    this.#stopped = this.#document;
    this.#say(say("page-recipe-not-saved"), true);
  }

  /** @param {WrittenRecipe} document @param {CheckAnswer} answer */
  checked(document, answer) {
    if (document !== this.#document) return;
    this.#checked = answer;
    stay(() => this.#writeCheck());
    this.#pen.refresh();
  }

  /** @returns {Pen} */
  #makePen() {
    const screen = this;
    return {
      fields: new Map(),
      open: new Set(),
      get document() {
        return screen.#document;
      },
      live: (write) => this.#live.push(write),
      read: (at) => valueAt(this.#document, at),
      write: (at, value) => this.#change(withValue(this.#document, at, value), at),
      settle: (at) => this.#settle(at),
      refresh: () => {
        this.#drawing ||= requestAnimationFrame(() => this.#refresh());
      },
      reshape: (change, focus) => this.#reshape(change(this.#document), focus),
      move: (at, from, to, name) => {
        /** @param {string} path */
        const place = (path) => {
          if (!path.startsWith(`${at}.`)) return path;
          const [, digits, rest] = /^(\d+)(.*)$/s.exec(path.slice(at.length + 1)) ?? [];
          const was = Number(digits);
          const is =
            was === from ? to : was + (was > from && was <= to ? -1 : 0) + (was < from && was >= to ? 1 : 0);
          return `${at}.${is}${rest}`;
        };
        this.#pen.open = new Set([...this.#pen.open].map(place));
        this.#reshape(moved(this.#document, at, from, to), place(focused()?.dataset.at ?? ""));
        const { length: count } = thingsAt(this.#document, at);
        this.#news = say("page-recipe-now-at", { name, place: to + 1, count });
      },
      drop: (at, index, name) => {
        this.#pen.open = new Set([...this.#pen.open].filter((path) => !path.startsWith(`${at}.`)));
        this.#reshape(without(this.#document, at, index), `${at}+`);
        this.#news = say("page-recipe-removed", { name });
      },
    };
  }

  // Changing

  /** @param {WrittenRecipe} document @param {string | null} [group] */
  #change(document, group = null) {
    if (group === null || group !== this.#group) {
      this.#past.push(this.#document);
      this.#future = [];
    }
    this.#group = group;
    this.#take(document);
  }

  /** @param {WrittenRecipe} document */
  #take(document) {
    this.#document = document;
    this.#mine.add(document);
    this.#checked = null;
    this.#news = "";
    this.#waits = false;
    this.#say(say("page-recipe-saving"));
    this.#write();
    this.#writeDuties();
    this.#pen.refresh();
    this.#askCheck();
  }

  #write() {
    tell(this, "draft-written", {
      id: this.#id,
      base: this.#base,
      was: this.#was,
      document: this.#document,
      first: this.#first,
    });
  }

  /**
   * What a pick would draw anew waits until the picking is over: each key of a type-ahead is a change.
   * @param {string} at @param {() => void} work
   */
  #choose(at, work) {
    clearTimeout(this.#chosen?.timer);
    this.#chosen = { at, work, timer: setTimeout(() => this.#putChosen(), CHOSEN_MS) };
  }

  #putChosen() {
    if (!this.#chosen) return;
    const { work, timer } = this.#chosen;
    clearTimeout(timer);
    this.#chosen = null;
    work();
  }

  /** @param {WrittenRecipe} document @param {string} [focus] */
  #reshape(document, focus) {
    if (document !== this.#document) this.#change(document);
    this.#build(focus);
  }

  /** @param {WrittenRecipe[]} from @param {WrittenRecipe[]} to */
  #turn(from, to) {
    this.#putChosen();
    const now = canonical(this.#document);
    while (from.length > 0 && canonical(last(from)) === now) from.pop(); // a field's own undo has been there already
    const turned = from.pop();
    if (turned) {
      to.push(this.#document);
      this.#group = null;
      this.#asked = null;
      this.#take(turned);
      this.#build();
    } else this.#pen.refresh();
  }

  /**
   * Undo and redo of the field that the focus is in come first, as far as they go; then the page's.
   * @param {KeyboardEvent} event
   */
  #isFieldsOwn({ target, shiftKey, key }) {
    const entered = this.#entered;
    if (!entered || target !== entered.input) return false;
    const isRedo = shiftKey || key.toLowerCase() === "y";
    return isRedo ? entered.isUndone : entered.input.value !== entered.text;
  }

  /**
   * A field is left: its faults may be said now, and what has a name now gets an id made of it.
   * @param {string} at
   */
  #settle(at) {
    this.#group = null;
    this.#touched.add(at);
    const owner = /** @type {ComponentPath | StepPath | undefined} */ (
      /^(.*)\.(?:name|title)$/.exec(at)?.[1]
    );
    if (owner && this.#pen.read(`${owner}.id`)) {
      const settled = settleId(this.#document, owner, String(this.#pen.read(at) ?? ""));
      if (settled !== this.#document) this.#take(settled);
    }
    this.#pen.refresh();
  }

  get #isBlank() {
    const { title, summary, ingredients } = this.#document;
    return !title && !summary && Object.keys(ingredients).length === 0;
  }

  #askCheck() {
    clearTimeout(this.#checking);
    if (this.#isBlank) return;
    this.#checking = setTimeout(() => {
      const { temperature_c, humidity } = this.#air;
      tell(this, "check-wanted", {
        document: this.#document,
        air: temperature_c && humidity ? { temperature_c, humidity } : null,
      });
    }, CHECK_AFTER_MS);
  }

  /** @param {string} text @param {boolean} [isTrouble] */
  #say(text, isTrouble = false) {
    setText(this.#parts.said, text);
    setAttr(this.#parts.said, "data-fault", isTrouble);
  }

  // Drawing

  #frame() {
    const keep = () => this.#keep();
    const named = {
      title: pageHead("", ""),
      write: h("div", { class: "r-write" }),
      changed: h("section", { class: "r-changed", "aria-label": say("page-recipe-changed") }),
      picture: h("div", { class: "r-picture" }),
      sums: h("p", { class: "soft" }),
      findings: h("div"),
      said: h("p", { role: "status", class: "r-said" }),
      lead: h("button", {
        type: "button",
        class: "outlined r-lead",
        hidden: true,
        onclick: () => this.#lead(),
      }),
      undo: h(
        "button",
        { type: "button", class: "quiet", onclick: () => this.#turn(this.#past, this.#future) },
        say("page-common-undo"),
      ),
      redo: h(
        "button",
        { type: "button", class: "quiet", onclick: () => this.#turn(this.#future, this.#past) },
        say("page-common-redo"),
      ),
      copy: h(
        "button",
        { type: "button", class: "quiet", hidden: true, onclick: () => this.#copy() },
        say("page-recipe-copy"),
      ),
      drop: h(
        "button",
        { type: "button", class: "quiet", hidden: true, onclick: () => this.#askDrop() },
        say("page-recipe-drop"),
      ),
    };
    const foot = h(
      "div",
      { class: "size-foot r-foot" },
      named.said,
      named.lead,
      named.undo,
      named.redo,
      h("button", { type: "button", class: "copper", onclick: keep }, say("page-recipe-save")),
    );
    const parts = { ...named, foot };
    this.#parts = parts;
    this.#drawn = "";
    this.#told = "";
    /** @param {keyof Air} key @param {string} label @param {string} example */
    const airField = (key, label, example) => {
      const input = h("input", {
        type: "text",
        inputmode: "decimal",
        autocomplete: "off",
        placeholder: example,
        "data-at": `air.${key}`,
      });
      input.addEventListener("input", () => {
        this.#air[key] = plainNumber(input.value);
        this.#askCheck();
      });
      return h("label", { class: "field" }, h("span", {}, label), input);
    };
    this.replaceChildren(
      h(
        "div",
        { class: "sheet r-sheet" },
        parts.title,
        parts.changed,
        parts.write,
        h(
          "aside",
          { class: "r-side", "aria-label": say("page-recipe-whole") },
          h("h2", { class: "section-name" }, say("page-recipe-whole")),
          parts.sums,
          parts.picture,
          h("h2", { class: "section-name" }, say("page-recipe-check")),
          parts.findings,
          h("div", { class: "r-order" }, parts.copy, parts.drop),
          h(
            "details",
            { class: "r-fold" },
            h("summary", {}, say("page-recipe-air")),
            h(
              "div",
              { class: "r-fold-in" },
              airField("temperature_c", say("page-recipe-air-temperature"), "20"),
              airField("humidity", say("page-recipe-air-humidity"), "55"),
            ),
          ),
        ),
        parts.foot,
      ),
    );
    this.#footSize.disconnect(); // a foot that is gone would be told of as one with no height
    if (this.isConnected) this.#footSize.observe(parts.foot);
    /** @param {Event} event */
    this.oninput = (event) => {
      const entered = this.#entered;
      if (!entered || event.target !== entered.input) return;
      const kind = event instanceof InputEvent ? event.inputType : "";
      entered.isUndone = kind === "historyUndo" || (kind === "historyRedo" && entered.isUndone);
    };
    /** @param {KeyboardEvent} event */
    this.onkeydown = (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      /** @type {{[key: string]: (() => void) | undefined}} */
      const works = {
        z: () =>
          event.shiftKey ? this.#turn(this.#future, this.#past) : this.#turn(this.#past, this.#future),
        y: () => this.#turn(this.#future, this.#past),
        s: keep,
      };
      const work = works[key];
      if (!work || (key !== "s" && this.#isFieldsOwn(event))) return;
      event.preventDefault();
      work();
    };
  }

  #keep() {
    this.#settleAll();
    const [fault] = sketch(this.#document).faults;
    if (!fault) tell(this, "recipe-sent", { id: this.#id });
    else {
      this.#touched.add(fault[0]);
      this.#refreshWhole(sketch(this.#document));
      this.#notKept();
      this.#go(this.#fieldFor(fault[0]));
    }
  }

  /** Keep may be pressed from within a field. */
  #settleAll() {
    this.#putChosen();
    const field = focused();
    if (this.#pen.fields.has(field?.dataset.at ?? "")) field?.dispatchEvent(new Event("change"));
  }

  /** Draw all the fields anew; the focus, the folds and the place on the page stay. @param {string} [focus] */
  #build(focus) {
    const had = focused();
    const at = focus ?? (this.contains(had) ? had?.dataset.at : undefined);
    const caret = had && isText(had) ? had.selectionStart : null;
    const top = scrollY;
    const pen = this.#pen;
    pen.fields.clear();
    this.#live = [];
    this.#parts.write.replaceChildren(
      h(
        "section",
        { class: "r-recipe", "aria-label": say("page-recipe-itself") },
        fieldRows(pen, "", RECIPE),
        this.#duties.node,
        fold(pen, "recipe", say("page-recipe-more-about"), () => fieldRows(pen, "", RECIPE_MORE)),
      ),
      fold(pen, "text", say("page-recipe-from-text"), () => this.#pastedText(pen)),
      ordered(
        pen,
        "components",
        this.#document.components,
        ({ name }) => name,
        (part, where, place, order) => this.#component(part, where, place, order),
      ),
      h(
        "button",
        {
          type: "button",
          class: "outlined",
          "data-at": "components+",
          onclick: () =>
            this.#reshape(
              addComponent(this.#document),
              `components.${this.#document.components.length}.name`,
            ),
        },
        say("page-recipe-add-part"),
      ),
      this.#document.assembly ? this.#assembly(this.#document.assembly) : "",
    );
    if (at) this.#focusNear(at, caret);
    if (focus === undefined) scrollTo(scrollX, top);
    this.#refresh();
    this.#refreshWhole(sketch(this.#document));
    this.#askCheck();
  }

  /** @param {string} at @param {number | null} [caret] @returns {HTMLElement | null} */
  #focus(at, caret) {
    const node = find(this, `[data-at="${CSS.escape(at)}"]`);
    node?.focus();
    if (node && isText(node) && caret !== undefined && caret !== null) node.setSelectionRange(caret, caret);
    return node;
  }

  /**
   * To that field; where it is gone, to what adds one like it, or to the nearest thing left around it.
   * @param {string} at @param {number | null} [caret]
   */
  #focusNear(at, caret) {
    const around = at.split(".").flatMap((_, place, keys) => {
      const path = keys.slice(0, keys.length - place).join(".");
      return place ? [`${path}+`, `${path}.name`, `${path}.title`] : [];
    });
    if (this.#focus(at, caret)) return;
    const [nearest] = [...around, "title"].flatMap(
      (path) => find(this, `[data-at="${CSS.escape(path)}"]`) ?? [],
    );
    nearest.focus();
  }

  /** @param {WrittenComponent} part @param {PartPath} at @param {number} place @param {Order} order */
  #component(part, at, place, order) {
    const pen = this.#pen;
    return h(
      "section",
      { class: "r-part", "aria-label": part.name || say("page-recipe-a-part") },
      h("h2", { class: "unseen" }, part.name || say("page-recipe-a-part")),
      h("div", { class: "r-part-head" }, letterMark("ABCDEFGHIJKL"[place]), fieldRows(pen, at, COMPONENT)),
      this.#mass(place),
      fold(pen, at, say("page-recipe-part-more"), () => [
        fieldRows(pen, at, COMPONENT_MORE),
        this.#document.components.length > 1 ? order() : "",
      ]),
      this.#lines(at),
      this.#steps(at, "ABCDEFGHIJKL"[place]),
    );
  }

  /** @param {WrittenAssembly} assembly */
  #assembly(assembly) {
    const { components } = this.#document;
    const { letter } = last(partsOf(this.#document));
    const takes = assembly.takes.map(({ component }, index) => {
      const name = components.find(({ id }) => id === component)?.name;
      const label = name ? say("page-recipe-takes", { name }) : say("page-recipe-takes-unnamed");
      return fieldRow(this.#pen, `assembly.takes.${index}`, ["count", "count*", "whole"], label);
    });
    return h(
      "section",
      { class: "r-part", "aria-label": say("page-recipe-joining") },
      h("h2", { class: "r-part-head" }, letterMark(letter), say("page-recipe-joining")),
      takes,
      this.#mass(components.length),
      this.#lines("assembly"),
      this.#steps("assembly", letter),
    );
  }

  /** Live: what the part comes to. @param {number} place */
  #mass(place) {
    const node = h("p", { class: "r-mass" });
    this.#live.push(({ components, faults }) => {
      const { total_ug, needed_mg, piece_mg } = components[place];
      const said = [
        total_ug ? say("page-recipe-as-written", { mass: about(total_ug / 1000) }) : "",
        piece_mg ? say("page-recipe-a-piece", { mass: about(piece_mg) }) : "",
        needed_mg && total_ug && Math.abs(needed_mg - total_ug / 1000) > needed_mg / 100
          ? say("page-recipe-needed", { mass: about(needed_mg) })
          : "",
      ];
      const fault = faults.get(
        `${place < this.#document.components.length ? `components.${place}` : "assembly"}.lines`,
      );
      setText(node, fault ?? said.filter(Boolean).join(", "));
      setAttr(node, "data-fault", fault !== undefined);
    });
    return node;
  }

  /** @param {PartPath} at */
  #lines(at) {
    const pen = this.#pen;
    const lines = pen.read(`${at}.lines`) ?? [];
    const add = () =>
      this.#reshape(
        addLine(this.#document, at),
        `${at}.lines.${pen.read(`${at}.lines`)?.length ?? 0}.ingredient`,
      );
    return h(
      "div",
      {},
      h("h3", {}, say("page-recipe-goes-in")),
      ordered(
        pen,
        `${at}.lines`,
        lines,
        (line) => nameOfLine(this.#document, line),
        (line, where, index, order) => [
          this.#line(line, where, index, add),
          fold(pen, where, say("page-recipe-details"), () => this.#details(where, order)),
        ],
      ),
      h(
        "button",
        { type: "button", class: "quiet", "data-at": `${at}.lines+`, onclick: add },
        say("page-recipe-add-line"),
      ),
    );
  }

  /** @param {WrittenLine} line @param {LinePath} at @param {number} index @param {() => void} add */
  #line(line, at, index, add) {
    const pen = this.#pen;
    const name = h("input", { type: "text", value: nameOfLine(this.#document, line) });
    const list = combobox(name, {
      says: say("page-known-list"),
      now: (text) => this.#namesHere(text),
      later: async (text) => ((await this.#propose(text)) ?? []).map((each) => ({ ...each, proposal: each })),
      take: (taken) => {
        name.dispatchEvent(new Event("change"));
        if (taken.proposal) this.#takeFresh(at, taken.proposal);
      },
    });
    const asking = h("div", { class: "r-ask", role: "status" });
    /** @returns {Meant} */
    const now = () => {
      const { ingredient: id } = pen.read(at);
      return { id, about: this.#document.ingredients[id] };
    };
    let before = now();
    name.addEventListener("focus", () => {
      before = now();
      void this.#meet(at);
    });
    name.addEventListener("input", () => this.#change(nameLine(this.#document, at, name.value), at));
    name.addEventListener("change", () => {
      // Enter says it, and then leaving the field says it again: the question stays.
      const { id, about } = now();
      if (id === before.id && about?.name === before.about?.name) return;
      const settled = settleLine(this.#document, at, before.about, this.#known);
      if (settled !== this.#document) this.#take(settled);
      this.#asked = this.#askAbout(at, before, now());
      before = now();
      this.#writeAsked(asking, at);
      void this.#meet(at);
      if (pen.open.has(at)) requestAnimationFrame(() => this.#build());
    });
    this.#writeAsked(asking, at);
    const amount = h("input", {
      type: "text",
      autocomplete: "off",
      value: line.amount,
      placeholder: "240 g",
    });
    amount.addEventListener("input", () => pen.write(`${at}.amount`, amount.value));
    /** @param {HTMLInputElement} input @param {() => void} go */
    const onEnter = (input, go) =>
      input.addEventListener("keydown", (event) => {
        if (event.key !== "Enter") return;
        event.preventDefault();
        input.dispatchEvent(new Event("change"));
        go();
      });
    onEnter(name, () => amount.focus());
    onEnter(amount, () => this.#focus(`${at.replace(/\d+$/, String(index + 1))}.ingredient`) ?? add());
    const node = h(
      "div",
      { class: "r-line" },
      labelled(pen, `${at}.ingredient`, labelOf("ingredient"), name),
      labelled(pen, `${at}.amount`, labelOf("amount"), amount),
      list,
      this.#wayOut(at),
      asking,
      this.#knownAt(at),
    );
    this.#live.push(() => node.classList.toggle("long", name.value.length > 17 || amount.value.length > 10));
    return node;
  }

  /**
   * Names that recipes and the shelf's cards have, from a beginning of a word on.
   * @param {string} text @returns {{name: string, called?: string, proposal?: Proposal}[]}
   */
  #namesHere(text) {
    const typed = text.trim().toLowerCase();
    return this.#known
      .filter(({ name }) => ` ${name.toLowerCase()}`.includes(` ${typed}`))
      .map(({ name }) => ({ name }))
      .sort((one, other) => one.name.localeCompare(other.name))
      .slice(0, NAMES_HERE);
  }

  /** What a line's name is taken for is asked, and said beside it. @param {LinePath} at */
  async #meet(at) {
    const { id, ingredient } = this.#pen.read(at);
    const name = this.#document.ingredients[ingredient]?.name ?? "";
    if (!name.trim() || this.#met.get(id)?.name === name) return;
    const told = await this.#propose(name);
    this.#met.set(id, {
      name,
      proposal: told?.find(({ taken }) => taken) ?? null,
      isAnswered: told !== null,
    });
    this.#pen.refresh();
  }

  /** Live: what is known of a line's ingredient, and what is not and has to be asked. @param {LinePath} at */
  #knownAt(at) {
    const node = h("div", { class: "r-ask known", "aria-live": "polite" });
    let drawn = "";
    const write = () => {
      const { id, ingredient, amount } = this.#pen.read(at) ?? {};
      const about = this.#document.ingredients[ingredient];
      const met = this.#met.get(id);
      const there = about && met?.name === about.name ? met : null;
      const card = there ? cardOf(this.#shelf, about.name) : null;
      const { measures = null, sold_in: soldIn = [] } = this.#document;
      const seen = JSON.stringify([there, there && [about, card, amount, measures, soldIn]]);
      if (seen === drawn) return;
      drawn = seen;
      node.replaceChildren(
        ...(there
          ? this.#knownRows(at, about, there, card, { amount, measures, isSold: soldIn.length > 0 })
          : []),
      );
    };
    write();
    this.#live.push(write);
    return node;
  }

  /**
   * @param {LinePath} at @param {WrittenIngredient} about @param {MetName} met @param {CardThere | null} card
   * @param {{amount: string, measures: "us" | "imperial" | "metric" | null, isSold: boolean}} line
   */
  #knownRows(at, about, { proposal, isAnswered }, card, line) {
    const known = knownOf(proposal, card?.card);
    const mine = picked(about);
    return [
      ...knownRow({
        proposal,
        isOfCard: card !== null,
        known,
        mine,
        fields: OF_RECIPE,
        take: (fields) => this.#takeKnown(at, known, fields),
      }),
      ...(isAnswered || card
        ? askedRow(wanting({ about: mine, known, ...line }), (answers) =>
            this.#keepAnswers(at, about.name, card, answers),
          )
        : []),
    ];
  }

  /** What was picked from the list brings what is known of it, as far as nothing is written. @param {LinePath} at
   * @param {Proposal} proposal */
  #takeFresh(at, proposal) {
    const { ingredient } = this.#pen.read(at);
    const about = this.#document.ingredients[ingredient];
    if (!about) return;
    const known = knownOf(proposal, cardOf(this.#shelf, about.name)?.card);
    this.#takeKnown(at, known, compared(known, picked(about), OF_RECIPE).fresh);
  }

  /** @param {LinePath} at @param {Known} known @param {readonly KnownField[]} fields */
  #takeKnown(at, known, fields) {
    const { ingredient } = this.#pen.read(at);
    const taken = fields.reduce(
      (document, field) => withValue(document, `ingredients.${ingredient}.${field}`, known[field]),
      this.#document,
    );
    if (fields.length === 0) return;
    this.#change(taken);
    if (this.#pen.open.has(at)) this.#build(`${at}.ingredient`);
    else this.#pen.refresh();
  }

  /**
   * Said once: the recipe has it, and so has the shelf's card, for the next recipe that names it.
   * @param {LinePath} at @param {string} name @param {CardThere | null} there @param {Known} answers
   */
  #keepAnswers(at, name, there, answers) {
    const fields = KNOWN.filter((field) => answers[field] !== undefined);
    if (fields.length === 0) return;
    this.#takeKnown(at, answers, fields);
    if (!this.#due.isMaker) return; // a helper's device has no word on the shelf's cards
    const key = there?.key ?? idFor(name, new Set(Object.keys(this.#shelf.ingredients)));
    const card = { ...there?.card, name: there?.card.name ?? name, ...answers };
    tell(this, "shelf-written", {
      entries: [{ kind: "described", body: { ingredient: key, card } }],
      says: say("page-known-kept"),
    });
  }

  /**
   * What is not plain of a new name: whether what is known of the old one still holds, or holds elsewhere.
   * @param {LinePath} at @param {Meant} before @param {Meant} now @returns {Question | null}
   */
  #askAbout(at, before, { id, about }) {
    const line = this.#pen.read(at).id;
    if (!before.about || !about || about.name === before.about.name) return null;
    const old = before.about.name;
    if (id === before.id) {
      // By the new name, with details of its own.
      const isKnown = canonical({ ...about, name: old }) !== canonical(before.about);
      if (isKnown || !hasDetails(about)) return null;
      const taken = this.#takenOver(line, before.about);
      const gone = taken.length
        ? /** @type {Question["ways"]} */ ([
            [
              say("page-known-leave", { fields: fieldNames(taken) }),
              (document) => withoutFields(document, id, taken),
            ],
          ])
        : [];
      return {
        line,
        text: say("page-recipe-renamed", { name: old }),
        ways: [...gone, [say("page-recipe-is-another"), asAnother]],
      };
    }
    if (!this.#document.ingredients[before.id] || hasDetails(about)) return null;
    return {
      line,
      text: say("page-recipe-used-elsewhere", { name: old }),
      ways: [
        [say("page-recipe-rename-all"), (document, where) => renamedEverywhere(document, where, before.id)],
      ],
    };
  }

  /** What a line's ingredient has just as it is known of its old name.
   * @param {string} line @param {WrittenIngredient} old */
  #takenOver(line, old) {
    const met = this.#met.get(line);
    if (met?.name !== old.name) return [];
    const known = knownOf(met.proposal, cardOf(this.#shelf, old.name)?.card);
    return takenOver(known, picked(old), OF_RECIPE);
  }

  /** @param {HTMLElement} node @param {LinePath} at */
  #writeAsked(node, at) {
    const asked = this.#asked?.line === this.#pen.read(at).id ? this.#asked : null;
    /** @param {LineChange | null} change */
    const answer = (change) => {
      this.#asked = null;
      if (change) this.#reshape(change(this.#document, at), `${at}.ingredient`);
      else this.#build(`${at}.amount`);
    };
    /** @type {(readonly [label: string, change: LineChange | null])[]} */
    const ways = [[say("page-recipe-that-is-right"), null], ...(asked?.ways ?? [])];
    node.replaceChildren(
      ...(asked
        ? [
            h("p", {}, asked.text),
            ...ways.map(([label, change], place) =>
              h(
                "button",
                {
                  type: "button",
                  class: "quiet",
                  "data-at": `${at}.ask${place}`,
                  onclick: () => answer(change),
                },
                label,
              ),
            ),
          ]
        : []),
    );
  }

  /** Beside an amount that wants something said elsewhere: whose spoons, or what one part is. @param {LinePath} at */
  #wayOut(at) {
    const pen = this.#pen;
    const node = h("div", { class: "r-order", hidden: true });
    const root = at.replace(/\.lines\.\d+$/, "");
    const whose = choicesOf(MEASURES).map(([key, label]) =>
      h(
        "button",
        {
          type: "button",
          class: "outlined",
          "data-at": `${at}.measures=${key}`,
          onclick: () => this.#reshape(withValue(this.#document, "measures", key), `${at}.amount`),
        },
        label,
      ),
    );
    const part = [
      h(
        "button",
        {
          type: "button",
          class: "outlined",
          "data-at": `${at}.part`,
          onclick: () => this.#go(`${root}.part`),
        },
        say("page-recipe-part-word"),
      ),
    ];
    /** @type {HTMLElement[] | null} */
    let drawn = null;
    this.#live.push(({ faults }) => {
      const text = pen.read(`${at}.amount`) ?? "";
      const wanted = wantsMeasures(this.#document, text)
        ? whose
        : faults.has(`${root}.part`) && /\bparts?$/i.test(text.trim())
          ? part
          : null;
      show(node, Boolean(wanted));
      if (wanted && wanted !== drawn) node.replaceChildren(...wanted);
      drawn = wanted ?? drawn;
    });
    return node;
  }

  /** @param {LinePath} at @param {Order} order */
  #details(at, order) {
    const pen = this.#pen;
    const { ingredient } = pen.read(at);
    const about = this.#document.ingredients[ingredient];
    return [
      fieldRows(pen, at, LINE),
      about
        ? h(
            "fieldset",
            { class: "some" },
            h("legend", {}, say("page-recipe-about", { name: about.name })),
            fieldRows(pen, `ingredients.${ingredient}`, INGREDIENT),
            this.#ofKind(ingredient),
          )
        : "",
      order(this.#elsewhere(at)),
    ];
  }

  /** Live: what is asked of one kind of ingredient alone. @param {string} ingredient */
  #ofKind(ingredient) {
    const at = `ingredients.${ingredient}`;
    const node = h("div", { class: "r-kind" });
    /** @type {unknown} */
    let drawn;
    const write = () => {
      const kind = this.#pen.read(`${at}.kind`);
      if (kind === drawn || !this.#pen.read(at)) return;
      drawn = kind;
      for (const path of this.#pen.fields.keys())
        if (node.querySelector(`[data-at="${CSS.escape(path)}"]`)) this.#pen.fields.delete(path);
      node.replaceChildren(...fieldRows(this.#pen, at, INGREDIENT_OF_KIND[String(kind)] ?? []));
    };
    write();
    this.#live.push(write);
    return node;
  }

  /** A pick that puts a line or a step into another part. @param {LinePath | StepPath} at */
  #elsewhere(at) {
    const [from] = /^(components\.\d+|assembly)/.exec(at) ?? [];
    /** @type {[root: PartPath, label: string][]} */
    const all = partsOf(this.#document).map(({ part, letter, id }, place) => [
      id === "assembly" ? "assembly" : `components.${place}`,
      `${letter} ${part.name ?? say("page-recipe-joining")}`,
    ]);
    const roots = all.filter(([root]) => root !== from);
    if (roots.length === 0) return "";
    const input = h(
      "select",
      {
        "data-at": `${at}.to`,
        onchange: () =>
          this.#choose(`${at}.to`, () => {
            const [to] = roots.find(([root]) => root === input.value) ?? [];
            if (!to) return;
            const list = `${to}.${at.includes(".lines.") ? "lines" : "steps"}`;
            this.#pen.open = new Set(
              [...this.#pen.open].filter((path) => !path.startsWith(at.replace(/\d+$/, ""))),
            );
            this.#reshape(
              shifted(this.#document, at, to),
              `${list}.${thingsAt(this.#document, list).length}.${at.includes(".lines.") ? "ingredient" : "title"}`,
            );
          }),
      },
      h("option", { value: "" }, "\u2013"),
      roots.map(([root, label]) => h("option", { value: root }, label)),
    );
    return h("label", { class: "field" }, h("span", {}, say("page-recipe-move-to")), input);
  }

  /** @param {PartPath} at @param {string} letter */
  #steps(at, letter) {
    const pen = this.#pen;
    const steps = pen.read(`${at}.steps`);
    return h(
      "div",
      {},
      h("h3", {}, say("page-recipe-steps")),
      ordered(
        pen,
        `${at}.steps`,
        steps,
        ({ title }) => title,
        (step, where, index, order) => [
          labelled(
            pen,
            `${where}.title`,
            `${letter}${index + 1} ${kindName(step.kind)}`,
            this.#title(step, where),
          ),
          fold(pen, where, this.#inShort(where), () => [
            fieldRows(pen, where, KINDS[step.kind]?.main),
            fieldRow(pen, where, ["says", "how", "area"]),
            fold(pen, `${where}.more`, say("page-recipe-more"), () => [
              this.#after(where),
              fieldRows(pen, where, KINDS[step.kind]?.more),
              fieldRows(pen, where, STEP_MORE),
              this.#kind(where),
            ]),
            order(this.#elsewhere(where)),
          ]),
        ],
      ),
      h(
        "div",
        { class: "r-kinds", role: "group", "aria-label": say("page-recipe-add-step") },
        KIND_NAMES.map((kind, index) =>
          h(
            "button",
            {
              type: "button",
              class: "outlined",
              "data-at": index ? null : `${at}.steps+`,
              onclick: () => {
                const where = `${at}.steps.${pen.read(`${at}.steps`).length}`;
                pen.open.add(where);
                this.#reshape(addStep(this.#document, at, kind), `${where}.title`);
              },
            },
            kindName(kind),
          ),
        ),
      ),
    );
  }

  /** @param {WrittenStep} step @param {StepPath} at */
  #title(step, at) {
    const input = growing({ placeholder: labelOf("step-title") });
    input.value = step.title;
    input.addEventListener("input", () => this.#pen.write(`${at}.title`, input.value));
    return input;
  }

  /** Live: what the folded step says, in a line. @param {StepPath} at */
  #inShort(at) {
    const node = h("span");
    const write = () => {
      /** @type {Any<WrittenStep>} */
      const step = this.#pen.read(at);
      const root = /** @type {PartPath} */ (at.replace(/\.steps.*/, ""));
      const lines = this.#pen.read(`${root}.lines`) ?? [];
      const names = (step.lines ?? step.of ?? [])
        .flatMap((id) => lines.find((line) => line.id === id) ?? [])
        .map((line) => nameOfLine(this.#document, line));
      const said = [
        ...names,
        step.about && say("page-recipe-about-time", { length: step.about }),
        step.usual && say("page-recipe-usually", { earliest: step.earliest || "?", usual: step.usual }),
        step.ask,
        step.portions?.map(({ name }) => name).join(", "),
        step.verb,
        step.window?.latest && say("page-recipe-within", { length: step.window.latest }),
      ];
      setText(node, said.filter(Boolean).join(", ") || say("page-recipe-how-and-more"));
    };
    this.#live.push(write);
    return node;
  }

  /** @param {StepPath} at */
  #kind(at) {
    const { kind: now } = this.#pen.read(at);
    const input = h(
      "select",
      {
        onchange: () =>
          this.#choose(`${at}.kind`, () =>
            this.#reshape(asKind(this.#document, at, /** @type {WrittenStep["kind"]} */ (input.value))),
          ),
      },
      [...new Set([...KIND_NAMES, now])].map((kind) =>
        h("option", { value: kind, selected: kind === now }, kindName(kind)),
      ),
    );
    return labelled(this.#pen, `${at}.kind`, labelOf("step-kind"), input);
  }

  /** What a step waits for: the one before it, nothing, or those picked. @param {StepPath} at */
  #after(at) {
    const { after } = this.#pen.read(at);
    const now = after === undefined ? "before" : after.length ? "these" : "nothing";
    // Those picked begin with what it came after all along, so that nothing comes loose.
    const picked = (/** @type {string} */ which) => {
      if (which === "before") return undefined;
      if (which === "nothing") return [];
      const along = comesAfter(this.#document, at);
      return along.length
        ? along
        : otherSteps(this.#document, at)
            .map(([key]) => key)
            .slice(0, 1);
    };
    const input = h(
      "select",
      {
        onchange: () =>
          this.#choose(`${at}.after-which`, () =>
            this.#reshape(withValue(this.#document, `${at}.after`, picked(input.value))),
          ),
      },
      [
        ["before", say(at === "assembly.steps.0" ? "page-recipe-after-all" : "page-recipe-after-before")],
        ["nothing", say("page-recipe-after-nothing")],
        ["these", say("page-recipe-after-these")],
      ].map(([value, label]) => h("option", { value, selected: value === now }, label)),
    );
    return [
      labelled(this.#pen, `${at}.after-which`, labelOf("after"), input),
      now === "these" ? fieldRow(this.#pen, at, ["after", "these-steps*", "some", otherSteps]) : "",
    ];
  }

  /** What is being typed gets its meaning in the next frame; all else follows when the hand rests. */
  #refresh() {
    cancelAnimationFrame(this.#drawing);
    this.#drawing = 0;
    const drawn = sketch(this.#document);
    const at = focused()?.dataset.at ?? "";
    const field = this.#pen.fields.get(at);
    if (field) this.#writeBeside(drawn, [[at, field]]);
    // Not disabled: that would take the focus from whoever is on it.
    setAttr(this.#parts.undo, "aria-disabled", this.#past.length === 0 && "true");
    setAttr(this.#parts.redo, "aria-disabled", this.#future.length === 0 && "true");
    clearTimeout(this.#resting);
    this.#resting = setTimeout(() => this.#refreshWhole(drawn), REST_MS);
  }

  /**
   * Beside each of these fields: its fault, unless it is still being written, or its meaning.
   * @param {Sketch} drawn @param {Iterable<[at: string, field: FieldThere]>} fields
   */
  #writeBeside(drawn, fields) {
    const told = new Map((this.#checked?.errors ?? []).map((error) => [this.#placeOf(error), error.detail]));
    for (const [at, field] of fields) {
      // On a page with nothing on it yet, nothing is wrong either.
      const isUnasked = this.#isBlank && !this.#touched.has(at);
      const fault = isUnasked ? "" : (drawn.faults.get(at) ?? told.get(at));
      const isBeingWritten = field.input === document.activeElement && !this.#touched.has(at);
      sayBeside(field, fault || this.#meaningAt(drawn, at), Boolean(fault) && !isBeingWritten);
    }
  }

  /** @param {Sketch} drawn @param {string} at */
  #meaningAt(drawn, at) {
    const [, assembly, place, index] =
      /^(?:(assembly)|components\.(\d+))\.lines\.(\d+)\.amount$/.exec(at) ?? [];
    if (index === undefined) return "";
    const component = assembly
      ? drawn.components.find(({ id }) => id === assembly)
      : drawn.components[Number(place)];
    const line = component?.lines[Number(index)];
    return line ? this.#meaning(line, drawn.components.length > 1) : "";
  }

  /** @param {Sketch} drawn */
  #refreshWhole(drawn) {
    for (const write of this.#live) write(drawn);
    this.#writeBeside(drawn, this.#pen.fields);
    const { piece_mg, components } = drawn;
    const all = components.reduce((total, { total_ug }) => total + total_ug, 0);
    setText(
      this.#parts.sums,
      !all
        ? ""
        : piece_mg
          ? say("page-recipe-in-all-and-piece", { mass: about(all / 1000), piece: about(piece_mg) })
          : say("page-recipe-in-all", { mass: about(all / 1000) }),
    );
    const picture = JSON.stringify([
      components.map(({ name, steps }) => [name, steps]),
      this.#parts.picture.clientWidth,
    ]);
    if (this.#drawn !== picture) {
      this.#drawn = picture;
      this.#parts.picture.replaceChildren(
        recipePicture(drawn, { width: this.#parts.picture.clientWidth || undefined }),
      );
    }
    const title = this.#document.title || say("page-recipe-new");
    setText(within(this.#parts.title, "h1"), title);
    if (!this.#checked) this.#writeCheck(drawn.faults);
  }

  /**
   * "7.4 mL → 8.1 g, density 1.09 g/mL (supplier's sheet); 31 % of the part, 22 % of the piece"
   * @param {SketchLine} line @param {boolean} hasMany
   */
  #meaning({ ingredient, kind, unit, ug, nl, about_ug, of_part_ppm, of_piece_ppm }, hasMany) {
    if (kind === "texture") return say("page-recipe-as-needed");
    const density = this.#document.ingredients[ingredient]?.density;
    const weight =
      ug !== null
        ? weighs(ug)
        : about_ug !== null
          ? say("page-recipe-about-mass", { mass: weighs(about_ug) })
          : "";
    const drops = unit === "drops" ? say("page-recipe-a-drop") : "";
    if (kind === "parts" && ug === null) return say("page-recipe-parts-no-mass");
    const measure = [nl !== null ? volume(nl) : "", weight].filter(Boolean).join(" \u2192 ");
    const by = nl === null ? "" : densityWords(density);
    const share =
      of_part_ppm === null
        ? ""
        : hasMany
          ? [
              say("page-recipe-of-part", { share: percent(of_part_ppm) }),
              of_piece_ppm === null ? "" : say("page-recipe-of-piece", { share: percent(of_piece_ppm) }),
            ]
              .filter(Boolean)
              .join(", ")
          : say("page-recipe-of-whole", { share: percent(of_part_ppm) });
    return [[measure, drops, by].filter(Boolean).join(", "), share].filter(Boolean).join("; ");
  }

  // The check

  /** @param {ReadonlyMap<string, string>} [faults] */
  #writeCheck(faults = sketch(this.#document).faults) {
    const { findings, errors, says } = this.#checked ?? {};
    const all = errors ?? [];
    // What the page says of a field by itself is of this moment, and of this field: it goes before the check's words.
    const told = all.map((error) => [this.#placeOf(error), error.detail]);
    const places = new Set(told.map(([at]) => at));
    const problems = [
      ...told.map(([at, detail]) => [at, faults.get(at) ?? detail]),
      ...[...faults].filter(([at]) => at && !places.has(at)),
    ];
    /** @param {string} at */
    const go = (at) =>
      at
        ? h(
            "button",
            { type: "button", class: "quiet", onclick: () => this.#go(at) },
            say("page-recipe-go-there"),
          )
        : "";
    const nodes = this.#isBlank
      ? [h("p", { class: "soft" }, say("page-recipe-check-begins"))]
      : [
          says ? h("p", { class: "soft" }, says) : "",
          problems.length ? h("h3", {}, say("page-recipe-unread")) : "",
          h(
            "ul",
            { class: "r-findings" },
            problems.map(([at, text]) =>
              h(
                "li",
                { "data-level": "will_not_run" },
                h("b", {}, placeWords(this.#document, at)),
                h("span", {}, text),
                go(this.#fieldFor(at)),
              ),
            ),
          ),
          ...LEVELS.flatMap((level) => {
            const here = (findings ?? []).filter((each) => each.level === level);
            return here.length
              ? [
                  h("h3", {}, say(`page-recipe-level-${level.replaceAll("_", "-")}`)),
                  h(
                    "ul",
                    { class: "r-findings" },
                    here.map((each) =>
                      h(
                        "li",
                        { "data-level": level },
                        h("b", {}, each.what),
                        each.place ? h("span", { class: "soft" }, each.place) : "",
                        h("span", {}, [each.by, each.why].filter(Boolean).join(". ")),
                        each.do ? h("span", {}, each.do) : "",
                        h("small", { class: "soft" }, each.source),
                        go(this.#placeOfFinding(each.where)),
                      ),
                    ),
                  ),
                ]
              : [];
          }),
          findings?.length === 0 ? h("p", {}, say("page-recipe-no-findings")) : "",
          !this.#checked ? h("p", { class: "soft" }, say("page-recipe-checking")) : "",
        ];
    this.#parts.findings.replaceChildren(...nodes.filter(Boolean));
  }

  /**
   * The field that mends a fault at this path: for a spoon of nobody's, whose spoons the recipe means.
   * @param {string} at
   */
  #fieldFor(at) {
    return at.endsWith(".amount") && wantsMeasures(this.#document, valueAt(this.#document, at))
      ? "measures"
      : at;
  }

  /** A path the server names, as the path of the field that stands for it here. @param {Fault} fault */
  #placeOf({ field }) {
    return untidyPath(this.#document, field);
  }

  /** @param {string} where */
  #placeOfFinding(where) {
    if (where === "air") return "air.temperature_c";
    if (where.startsWith("ingredients.")) return where;
    const [id, key] = where.split(".");
    const { document } = this.#pen;
    const place = document.components.findIndex((part) => part.id === id);
    const root = id === "assembly" ? id : place >= 0 ? `components.${place}` : "";
    if (!root) return [...RECIPE, ...RECIPE_MORE].some(([name]) => name === where) ? where : "";
    if (!valueAt(document, root)) return "";
    for (const list of ["steps", "lines"]) {
      const index = thingsAt(document, `${root}.${list}`).findIndex((each) => each.id === key);
      if (index >= 0) return `${root}.${list}.${index}.${list === "steps" ? "title" : "amount"}`;
    }
    return root === "assembly" ? "assembly.steps+" : `${root}.name`;
  }

  /** Open what hides the place, and put the focus there. @param {string} at */
  #go(at) {
    const pen = this.#pen;
    const [, ingredient] = /^ingredients\.([^.]+)/.exec(at) ?? [];
    const line =
      ingredient &&
      partsOf(this.#document).flatMap(({ part, id }, place) =>
        (part.lines ?? []).flatMap((each, index) =>
          each.ingredient === ingredient
            ? [`${id === "assembly" ? id : `components.${place}`}.lines.${index}`]
            : [],
        ),
      )[0];
    const isThere = () =>
      [.../** @type {NodeListOf<HTMLElement>} */ (this.querySelectorAll("[data-at]"))].find(
        ({ dataset }) => dataset.at === at || dataset.at?.startsWith(`${at}.`),
      );
    if (!isThere()) {
      at.split(".").forEach((_, index, keys) => pen.open.add(keys.slice(0, index + 1).join(".")));
      pen.open.add(line ?? "recipe");
      this.#build();
    }
    const node = isThere() ?? this.#focus(`${at.replace(/\.[^.]*$/, "")}+`);
    node?.closest("details")?.setAttribute("open", "");
    node?.focus();
    node?.scrollIntoView({ block: "center" });
  }

  // Someone else's change

  get #isChanged() {
    if (!this.#recipe) return false;
    const { version, document } = this.#recipe;
    // After a restore another text may have the number.
    return (
      version !== this.#base ||
      (this.#was && document !== this.#was && canonical(document) !== canonical(this.#was))
    );
  }

  /** From the foot to what it speaks of. */
  #lead() {
    if (this.#isChanged) {
      this.#parts.changed.scrollIntoView({ block: "start" });
      within(this.#parts.changed, "h2").focus({ preventScroll: true });
    } else if (this.#late) this.#go(this.#placeOf(this.#late[0]));
  }

  /** The kept version comes back, or the page goes where there is none. */
  #drop() {
    this.#isDropped = true;
    this.#past = [];
    tell(this, "draft-dropped", { id: this.#id });
  }

  async #askDrop() {
    const isSure = await pickOne({
      title: say("page-recipe-drop"),
      says: say(this.#recipe ? "page-recipe-drop-says" : "page-recipe-drop-new-says"),
      choices: [{ label: say("page-recipe-drop-yes"), value: true }],
    });
    if (!isSure || !this.isConnected) return;
    const hasVersion = this.#recipe !== null;
    this.#drop();
    if (!hasVersion) location.hash = "#/";
  }

  /** A copy that goes its own way, and what is written here stays. */
  #copy() {
    const title = say("page-recipe-second", { title: this.#document?.title ?? "" });
    tell(this, "recipe-copied", { document: { ...this.#document, title } });
  }

  /** What takes pasted text apart is not kept for offline; once it is here, it is here at once. @param {Pen} pen */
  #pastedText(pen) {
    const place = h("div", {});
    const lay = () =>
      this.#text &&
      place.replaceChildren(
        ...this.#text.textPart({
          pasted: this.#pasted,
          measures: () => this.#document.measures,
          title: () => this.#document.title,
          parts: () => this.#document.components.map(({ id, name }) => [id, name]),
          put: (items) => {
            pen.open.delete("text");
            this.#pasted = { text: "", items: [] };
            this.#reshape(withText(this.#document, items, this.#known), "title");
          },
        }),
      );
    lay();
    if (!this.#text)
      pastedText().then(
        (module) => {
          this.#text = module;
          lay();
        },
        (error) => setText(place, saysOf(error)),
      );
    return place;
  }

  /** What puts two edits together is not kept for offline: the recipe is sent with a connection only. */
  #bringMerge() {
    merging().then(
      (module) => {
        this.#merge = module;
        this.#writeChanged();
      },
      (error) => this.#parts.changed.replaceChildren(h("p", {}, saysOf(error))),
    );
  }

  #writeChanged() {
    const { changed, lead } = this.#parts;
    const isChanged = this.#isChanged;
    if (isChanged && changed.hidden) this.#say(say("page-recipe-changed-saved"), true);
    show(changed, isChanged);
    show(lead, (isChanged && this.#merge) || this.#late);
    setText(lead, say(isChanged ? "page-recipe-see-what-differs" : "page-recipe-go-to-it"));
    if (!isChanged || !this.#recipe) return;
    if (!this.#merge) return this.#bringMerge();
    const { version, document } = this.#recipe;
    const mine = tidy(this.#document);
    const merged = this.#merge.mergeRecipes(this.#was, mine, document, this.#answers);
    const told = JSON.stringify([version, merged.rows]);
    if (this.#told === told) return;
    this.#told = told;
    const asked = merged.rows.filter(({ from }) => from === "asked");
    const others = merged.rows.filter(({ from }) => from !== "asked");
    changed.replaceChildren(
      h("h2", { tabindex: -1 }, say("page-recipe-changed")),
      h(
        "p",
        {},
        [
          say("page-recipe-theirs-is", { version }),
          say(asked.length ? "page-recipe-asked-here" : "page-recipe-no-clash"),
        ].join(" "),
      ),
      ...asked.map(({ at, where, mine: yours, theirs, was }) =>
        h(
          "fieldset",
          { class: "r-both" },
          h("legend", {}, where),
          this.#was ? h("p", { class: "soft small" }, say("page-recipe-it-was", { was })) : "",
          [
            ["theirs", say("page-recipe-whose-theirs"), theirs],
            ["mine", say("page-recipe-whose-mine"), yours],
          ].map(([key, label, words]) =>
            h(
              "label",
              { class: "choice" },
              h("input", {
                type: "radio",
                name: at,
                "data-at": `both.${at}=${key}`,
                checked: this.#answers.get(at) === key,
                onchange: () => this.#answers.set(at, key),
              }),
              h("span", {}, h("b", {}, `${label}: `), words),
            ),
          ),
        ),
      ),
      others.length
        ? h(
            "details",
            { class: "r-fold", open: asked.length === 0 },
            h("summary", {}, say("page-recipe-together")),
            h(
              "ul",
              { class: "plain" },
              others.map(({ where, was, mine: yours, theirs, from }) =>
                h(
                  "li",
                  {},
                  h("b", {}, say(`page-recipe-whose-${from}`)),
                  `: ${where}: ${from === "mine" ? yours : from === "theirs" ? theirs : `${yours} / ${theirs}`}`,
                  h("span", { class: "soft" }, ", ", say("page-recipe-was", { was })),
                ),
              ),
            ),
          )
        : "",
      h(
        "div",
        { class: "r-order" },
        h(
          "button",
          { type: "button", class: "outlined", onclick: () => this.#together(asked) },
          say("page-recipe-save-both"),
        ),
        h(
          "button",
          {
            type: "button",
            class: "outlined",
            onclick: () =>
              tell(this, "draft-copied", {
                id: this.#id,
                document: {
                  ...this.#document,
                  title: say("page-recipe-second", { title: this.#document.title }),
                },
              }),
          },
          say("page-recipe-save-as-new"),
        ),
        h(
          "button",
          {
            type: "button",
            class: "quiet",
            onclick: () => this.#drop(),
          },
          say("page-recipe-take-theirs"),
        ),
      ),
    );
  }

  /**
   * Both edits as one, on top of theirs; where that gives up words of mine, those are a version before it.
   * @param {readonly MergeRow[]} asked
   */
  #together(asked) {
    const open = asked.find(({ at }) => !this.#answers.has(at));
    if (open) {
      this.#say(say("page-recipe-pick-first", { where: open.where }), true);
      [...this.#parts.changed.querySelectorAll("input")].find(({ name }) => name === open.at)?.focus();
      return;
    }
    if (!this.#recipe || !this.#merge) return;
    const mine = tidy(this.#document);
    const { version, document: theirs } = this.#recipe;
    const { document } = this.#merge.mergeRecipes(this.#was, mine, theirs, this.#answers);
    this.#first = asked.some(({ at }) => this.#answers.get(at) === "theirs") ? mine : null;
    // Undo does not reach behind it: that would take theirs away again.
    [this.#base, this.#was, this.#past, this.#future] = [version, theirs, [], []];
    this.#answers.clear();
    this.#document = document;
    this.#mine.add(document);
    this.#checked = null;
    this.#write();
    this.#build();
    this.#writeChanged();
    tell(this, "recipe-sent", { id: this.#id });
  }
}

/** @param {number} ppm */
const percent = (ppm) => (ppm < 1000 ? `${pointed((ppm / 10_000).toFixed(3))} %` : perCent(ppm, 1_000_000));

/** @param {string} digits */
const pointed = (digits) => digits.replace(".", point());

/** @param {WrittenIngredient["density"]} density */
function densityWords(density) {
  if (!density?.g_per_ml) return say("page-recipe-no-density");
  const said = pointed(density.g_per_ml);
  return density.source
    ? say("page-recipe-density-source", { density: said, source: density.source })
    : say("page-recipe-density", { density: said });
}

/** @param {number} nl */
function volume(nl) {
  const ml = nl / 1_000_000;
  return `${ml >= 100 ? Math.round(ml) : pointed(ml.toFixed(ml >= 1 ? 1 : 2))} mL`;
}

/**
 * A mass as it is read at a glance; a very small one by its own digits, for rounding would make it nothing.
 * @param {number} ug
 */
const weighs = (ug) => (ug >= 10_000 ? about(ug / 1000) : `${pointed(String(ug / 1000))} mg`);

/**
 * Whether an amount is in spoons or cups of a recipe that does not say whose.
 * @param {WrittenRecipe} document @param {unknown} text
 */
function wantsMeasures(document, text) {
  /** @param {Measures | null} measures */
  const canRead = (measures) => {
    try {
      return Boolean(readAmount(typeof text === "string" ? text : "", measures));
    } catch {
      return false;
    }
  };
  return !document.measures && !canRead(null) && canRead("us");
}

export const registerRecipeScreen = () => define("recipe-screen", RecipeScreen);
