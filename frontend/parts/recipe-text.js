// From plain text: a pasted list of ingredients and steps becomes a list to confirm, line by line.
// What a line was understood as is shown; what was not understood says so and must be settled.
//
// textPart({ pasted, measures: () => "us", title: () => "", parts: () => [["base", "Base"]], put: (items) => … }) //
// a node
// readText("For the fizz:\n240 g citric acid\n1. Mix well", "us") // [{text, as, name, amount?, kind?, times?, key?}]
//
// pasted is { text, items }, kept by the screen, so that drawing the page again loses nothing. An
// item's part is the key of a heading in the text, or the id of a part of the recipe.

import { readAmount, readDurationMs } from "../bench/amounts.js";
import { last } from "../bench/lists.js";
import { byHand, runsByItself } from "../bench/steps/index.js";
import { say } from "../words.js";
import { h, part as within, setAttr, setText, show } from "./dom.js";
import { growing, labelOf } from "./recipe-fields.js";
import { KIND_NAMES, kindName } from "./recipe-forms.js";
import { anyOf, asWritten, VERBS } from "./text-words.js";
/** @import { Measures, StepKind } from "../../bench/shapes/page" */
/** @import { Choice } from "../../types/recipe" */

const AS = /** @type {const} */ (["", "title", "part", "line", "step"]);
const STEP_WORDS = new RegExp(`^(?:(?:${anyOf("step")})\\s*)?\\d+\\s*[.):]\\s+`, "iu");
const METHOD = new RegExp(`^(?:${anyOf("method")})$`, "iu");
const LIST = new RegExp(`^(?:${anyOf("list")})$`, "iu");
const FOR_THE = new RegExp(`^(?:${anyOf("forThe")})\\s+`, "iu");
const OF = new RegExp(`^(?:(?:${anyOf("of")})\\s+|(?:de )?[dl]['\u2019])`, "iu");
const NUMBER = String.raw`(?:\d+\s*[½¼¾]|\d+\s+\d+\s*/\s*\d+|\d+(?:[.,/]\d+)?|[½¼¾])`;
const TO = `\\s*(?:-|\u2013|\u2014|(?<!\\p{L})(?:${anyOf("to")})(?!\\p{L}))\\s*`;
const TIME_RANGE = new RegExp(`(${NUMBER})\\s*(\\p{L}+)?${TO}(${NUMBER})\\s*(\\p{L}+)`, "giu");
const TIME = new RegExp(`${NUMBER}\\s*\\p{L}+`, "giu");
const AMOUNT_RANGE = new RegExp(
  `^(${NUMBER}\\s*\\p{L}*${TO}${NUMBER}\\s*(?:fl\\.? ?oz|\\p{L}+|%)?)\\s+(?:(?:${anyOf("of")})\\s+)?(.+)$`,
  "iu",
);
/** What an amount behind these is: the whole that is filled up to, or of something else; not how much of the name. */
const FILLS_UP =
  /(?:^|\s)(?:q\.?\s?s\.?|ad|to|up to|makes?|each|per|of|auf|bis|je|pro|zu|à|jusqu['\u2019]à|hasta|fino a)$/iu;
/** A numbered line that is no step: its amount comes first, or behind a mark at its end. */
const IN_A_LIST = new RegExp(`^${NUMBER}|[-\u2013\u2014:(]\\s*${NUMBER}\\s*\\p{L}+\\)?$`, "u");
/** Short forms of American kitchens, told apart by the capital alone. */
const SHORT = /^([\d\s.,/½¼¾⅓⅔⅛]+)([Tt])\.?$/u;
/** In a sentence: an amount with its unit, and what it is of, as far as the next word that goes on. */
const IN_SENTENCE = new RegExp(
  `(?<![\\p{L}\\d.,/\u2013-])(${NUMBER}\\s*(?:fl\\.? ?oz|\\p{L}+|%)\\.?)\\s+(?:(?:${anyOf("of")})\\s+|[dl]['\u2019])?` +
    `((?:(?!(?:${anyOf("goesOn")})(?!\\p{L}))[\\p{L}\\p{N}'\u2019-]+\\s*){1,5})`,
  "gu",
);
const AMOUNT_WORDS = 6; // of the longest amount: 1 1/2 lb 2 1/2 oz
/** Amounts that no scale and no spoon can give: before a name, or behind it. */
const VAGUE = new RegExp(`^(${anyOf("vague")})\\s+(?:(?:${anyOf("of")})\\s+)?(.+)$`, "iu");
const VAGUE_AFTER = new RegExp(`^(.+?)[\\s,:(\u2013\u2014-]+(${anyOf("vagueAfter")})\\)?$`, "iu");
/** A wait said at the end of a step, to be a step of its own. */
const AND = `(?:${anyOf("and")})\\s+`;
const THEN_WAIT = new RegExp(
  `^(\\S+\\s+\\S.*?)(?:\\s*[,;.]\\s*(?:${AND})*|\\s+${AND}(?:${AND})?)(${anyOf("thenWait")})$`,
  "iu",
);

/**
 * @typedef {{amount: string, name: string, said?: string}} Parted
 * @typedef {{earliest?: string, usual?: string, about?: string}} Times
 * @typedef {{as: string, text?: string, name?: string, amount?: string, said?: string, kind?: StepKind,
 *   times?: Times, key?: string, part?: string, isOffered?: boolean, isPicked?: boolean,
 *   settled?: "yes" | "drop" | false}} TextItem a line of the text, as it was understood
 * @typedef {{text: string, items: TextItem[]}} Pasted
 * @typedef {{pasted: Pasted, measures: () => Measures | undefined, title: () => string, parts: () => Choice[],
 *   put: (items: TextItem[]) => void}} TextGiven
 * @typedef {{item: TextItem, node: HTMLElement, write: () => void}} TextCard
 */

/** @template {readonly unknown[]} G, T @param {(...given: G) => T} read @param {G} given */
const canRead = (read, ...given) => {
  try {
    return read(...given);
  } catch {
    return null;
  }
};
/** @param {string} text @param {Measures | undefined} measures */
const amountOf = (text, measures) => canRead(readAmount, text, measures || "metric");
/** @param {string} text @param {Measures | undefined} measures */
const amountIn = (text, measures) =>
  asWritten(
    measures === "us"
      ? text.replace(SHORT, (_, number, unit) => `${number}${unit === "T" ? "tbsp" : "tsp"}`)
      : text,
  );
/** @param {string} text */
const isTime = (text) => canRead(readDurationMs, text) !== null;
/** @param {string} one @param {string} other */
const isSame = (one, other) => one.toLowerCase() === other.toLowerCase();
/** @param {string} text */
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * "1 cup (240 g) baking soda" is 240 g of it: of two amounts the weight counts, and neither stays in the name.
 * @param {Parted} found @param {Measures | undefined} measures @returns {Parted}
 */
function byWeight(found, measures) {
  const [brackets, within] = /\s*\(([^()]+)\)\s*/.exec(found.name) ?? ["", ""];
  const name = found.name.replace(brackets, " ").replace(OF, "").trim();
  const also = amountOf(asWritten(within), measures);
  if (!also || !name) return found;
  const isWeight = also.kind === "mass" && amountOf(found.amount, measures)?.kind !== "mass";
  return { amount: isWeight ? asWritten(within) : found.amount, name };
}

/**
 * A line as it would be typed: marks of emphasis and of a table's cells taken away.
 * @param {string} line
 */
const plain = (line) =>
  line
    .trim()
    .replace(/^(?:[-*\u2022]\s*)?(?:\[[ xX]?\]|[\u2610-\u2612\u2713\u2714])\s*/u, "")
    .replace(/\s*[;\t]\s*/g, " ")
    .replace(/\*\*|__|\x60/g, "")
    .replace(/^\|?[\s:|-]*\|[\s:|-]*$/, "")
    .replace(/\s*\|\s*/g, " ")
    .trim();

/**
 * "240 g of citric acid" or "Citric acid: 240 g" in its two halves; said: an amount that is named and cannot be one.
 * @param {string} text @param {Measures | undefined} measures @returns {Parted | null}
 */
function parted(text, measures) {
  const range = AMOUNT_RANGE.exec(text);
  if (range && !STEP_WORDS.test(text)) return { amount: "", said: range[1], name: range[2] };
  const words = text.split(/\s+/);
  for (let count = Math.min(AMOUNT_WORDS, words.length - 1); count > 0; count -= 1) {
    const amount = amountIn(words.slice(0, count).join(" "), measures);
    if (amountOf(amount, measures))
      return byWeight({ amount, name: words.slice(count).join(" ").replace(OF, "") }, measures);
  }
  for (let count = Math.min(AMOUNT_WORDS, words.length - 1); count > 0; count -= 1) {
    const amount = asWritten(
      words
        .slice(-count)
        .join(" ")
        .replace(/^\(|\)$/g, ""),
    );
    const name = words
      .slice(0, -count)
      .join(" ")
      .replace(/\s*[:,\u2013\u2014-]$/, "");
    if (!amountOf(amount, measures)) continue;
    const [fills] = FILLS_UP.exec(name) ?? [];
    if (fills)
      return { amount: "", said: `${fills.trim()} ${amount}`, name: name.slice(0, -fills.length).trim() };
    return byWeight({ amount, name }, measures);
  }
  const before = VAGUE.exec(text);
  if (before) return { amount: "", said: before[1], name: before[2] };
  const after = VAGUE_AFTER.exec(text);
  return after ? { amount: "", said: after[2], name: after[1] } : null;
}

/**
 * The first length of time a step names, as it is written there: of a range its ends, the earliest and the usual.
 * @param {string} text @returns {Times & {said: string} | null}
 */
function timesIn(text) {
  for (const [said, low, unit, high, of] of text.matchAll(TIME_RANGE)) {
    const [earliest, usual] = [`${low} ${unit ?? of}`, `${high} ${of}`].map(asWritten);
    if (isTime(earliest) && isTime(usual)) return { said, earliest, usual };
  }
  const found = text.match(TIME)?.find((each) => isTime(asWritten(each)));
  return found ? { said: found, usual: asWritten(found) } : null;
}

/** @param {string} text @param {string} words @returns {TextItem} */
function stepOf(text, words) {
  const times = timesIn(words);
  const told = VERBS.filter(({ verb }) => verb.test(words));
  const kind = told.find((each) => times || !runsByItself(each))?.kind ?? "do";
  return {
    text,
    as: "step",
    name: words,
    kind,
    ...(times && {
      said: times.said,
      times: runsByItself({ kind }) ? times : { about: times.earliest ? "" : times.usual },
    }),
  };
}

/** A step; two where a wait is said at its end. @param {string} text @param {string} words @returns {TextItem[]} */
function stepsOf(text, words) {
  const [, work, wait] = THEN_WAIT.exec(words) ?? [];
  const times = wait && timesIn(wait);
  if (!times) return [stepOf(text, words)];
  return [stepOf(text, work), { ...stepOf(text, capital(wait)), kind: "wait", times, isOffered: true }];
}

/**
 * The lines of a text: of a page's source without its marks, and of several amounts in a row one each.
 * @param {string} text @param {Measures | undefined} measures
 */
function linesOf(text, measures) {
  const bare = /<(?:li|p|br|tr|div)\b/i.test(text)
    ? text
        .replace(/<\/?(?:li|p|br|tr|div|ul|ol|table|h\d)\b[^>]*>/gi, "\n")
        .replace(/<[^>]+>/g, " ")
        .replaceAll("&nbsp;", " ")
        .replaceAll("&amp;", "&")
    : text;
  return bare
    .split(/\r?\n/)
    .map(plain)
    .filter(Boolean)
    .flatMap((line) => inARow(line, measures));
}

/** "Ingredients: 300 g salt, 100 g soda." @param {string} line @param {Measures | undefined} measures */
function inARow(line, measures) {
  const [, head = "", rest = line] = /^([^:\d]{1,40}):\s*(.*\d.*)$/u.exec(line) ?? [];
  const row = rest.replace(/\.$/, "").split(/[,;]\s+/);
  const isRow = row.length > 1 && row.every((each) => parted(each, measures)?.amount);
  return isRow ? [...(head ? [`${head}:`] : []), ...row] : [line];
}

/**
 * Where no line of the text is an ingredient's, the amounts in its sentences are offered as such, to be confirmed.
 * @param {TextItem[]} items @param {Measures | undefined} measures @returns {TextItem[]}
 */
function withOffered(items, measures) {
  if (items.some(({ as, amount }) => as === "line" && amount)) return items;
  return items.flatMap((item) => {
    const text = item.as === "line" ? "" : (item.text ?? "");
    const found = [...text.matchAll(IN_SENTENCE)].flatMap(([, said, name]) => {
      const amount = amountIn(said, measures);
      return amountOf(amount, measures)
        ? [{ text, as: "line", amount, name: name.trim(), isOffered: true }]
        : [];
    });
    if (!found.length) return [item];
    return [...found, ...(item.as === "step" ? [item] : stepsOf(text, text))];
  });
}

/**
 * @param {string} text @param {Measures | undefined} measures
 * @param {boolean} [hasTitle] whether the recipe has a title already: then the first line is not taken for one
 * @returns {TextItem[]} the lines to confirm, in order, and between them {as: "method"} and {as: "again", key}
 *   where the text goes over to its method, or comes back to a part named before
 */
export function readText(text, measures, hasTitle = false) {
  return withOffered(readLines(linesOf(text, measures), measures, hasTitle), measures);
}

/** @param {string[]} lines @param {Measures | undefined} measures @param {boolean} hasTitle @returns {TextItem[]} */
function readLines(lines, measures, hasTitle) {
  let inMethod = false;
  /** @type {Map<string, string>} */
  const headings = new Map();
  /** @param {string | undefined} written */
  const isAmount = (written) => Boolean(parted(bareOf(written ?? ""), measures)?.amount);
  const hasHeadings = lines
    .slice(1)
    .some(
      (written) =>
        written.endsWith(":") && !METHOD.test(written.slice(0, -1)) && !LIST.test(written.slice(0, -1)),
    );
  /** @param {string} written */
  const bareOf = (written) => written.replace(/^[-*\u2022\u00b7#]+\s*/, "");
  return lines.flatMap((written, place) => {
    const line = bareOf(written);
    const bare = line.replace(/:$/, "");
    if (METHOD.test(bare) || LIST.test(bare)) {
      inMethod = METHOD.test(bare);
      return inMethod ? [{ as: "method" }] : [];
    }
    const step = line.replace(STEP_WORDS, "");
    const numbered = step !== line && !inMethod && IN_A_LIST.test(step) ? parted(step, measures) : null;
    if (numbered?.amount) return [{ text: line, as: "line", ...numbered }];
    if (step !== line) return stepsOf(line, step);
    const words = bare.split(/\s+/).length;
    const found = parted(line, measures);
    const name = capital(bare.replace(FOR_THE, ""));
    const known = [...headings].find(([, each]) => isSame(each, name));
    if (known) return [{ as: "again", key: known[0] }];
    const next = lines[place + 1];
    const isHeading =
      line !== bare ||
      written.startsWith("#") ||
      (words <= 4 &&
        !found &&
        !/^[\d½¼¾]/.test(line) &&
        (STEP_WORDS.test(next ?? "") || (!inMethod && isAmount(next))));
    if (isHeading || (place === 0 && !found)) {
      const isPart =
        isHeading && (place > 0 || hasTitle || FOR_THE.test(bare) || (hasHeadings && isAmount(next)));
      if (!isPart) return [{ text: line, as: hasTitle ? "" : "title", name: bare, kind: "do" }];
      const key = `text${place}`;
      headings.set(key, name);
      return [{ text: line, as: "part", name, key }];
    }
    if (inMethod && (words > 3 || timesIn(line))) return stepsOf(line, line);
    if (found) return [{ text: line, as: "line", ...found }];
    return [{ text: line, as: inMethod ? "step" : "", name: line, kind: "do", amount: "" }];
  });
}

/**
 * Say of each line and step which part it goes to, unless its maker has said so: its heading's; of a method for many
 * parts, the one it names.
 * @param {TextItem[]} items @param {string} home
 */
export function assignParts(items, home) {
  /** @param {TextItem} item */
  const isIn = (item) => item.as === "part" && item.settled !== "drop";
  const headings = items.filter(isIn);
  let here = home;
  for (const item of items) {
    if (item.as === "method") here = headings.length > 1 ? "" : (headings[0]?.key ?? home);
    if (item.as === "again" || isIn(item)) here = item.key ?? "";
    if (item.as === "line" || item.as === "step") {
      const words = (item.name ?? "").toLowerCase();
      const named = headings.filter(({ name = "" }) => words.includes(name.toLowerCase()));
      if (!item.isPicked) item.part = here || (named.length === 1 && named[0].key) || "";
    }
  }
}

/** @param {TextGiven} given */
export function textPart({ pasted, measures, title, parts, put }) {
  const text = h("textarea", {
    rows: 6,
    "data-at": "text.all",
    "aria-label": say("page-recipe-text"),
    placeholder: [
      say("page-recipe-text-one"),
      say("page-recipe-text-two"),
      say("page-recipe-text-three"),
    ].join("\n"),
  });
  const found = h("ol", { class: "r-found" });
  const left = h("p", { role: "status", class: "soft" });
  const ready = h("button", { type: "button", class: "outlined", hidden: true }, say("page-recipe-text-put"));
  /** @type {TextCard[]} */
  let cards = [];

  /** The parts that something may go to: those of the recipe, then those of the text. @returns {Choice[]} */
  const places = () => [
    ...parts(),
    ...pasted.items
      .filter(({ as, settled }) => as === "part" && settled !== "drop")
      .map(({ key = "", name = "" }) => /** @type {const} */ ([key, name])),
  ];

  function count() {
    const open = cards.filter(({ item }) => !item.settled).length;
    setText(
      left,
      cards.length === 0
        ? ""
        : open
          ? say("page-recipe-text-left", { open, count: cards.length })
          : say("page-recipe-text-settled"),
    );
    show(ready, cards.length > 0 && open === 0);
    return open;
  }

  function again() {
    assignParts(pasted.items, last(parts())[0]);
    for (const { write } of cards) write();
    count();
  }

  /** @param {TextItem} item */
  function faultOf(item) {
    if (!item.as) return say("page-recipe-text-what");
    if (!item.name) return say("page-recipe-text-no-words");
    if (item.as !== "line" && item.as !== "step") return "";
    if (!places().some(([key]) => key === item.part)) return say("page-recipe-text-no-part");
    if (item.as === "line" && !item.amount)
      return item.said
        ? say(/\d/.test(item.said) ? "page-recipe-text-range" : "page-recipe-text-vague", { said: item.said })
        : say("page-recipe-text-no-amount");
    if (item.as === "line" && !amountOf(item.amount ?? "", measures()))
      return say("page-recipe-text-bad-amount");
    const wrong =
      item.as === "step" && Object.entries(timesOf(item)).find(([, time]) => time && !isTime(time));
    return wrong ? say("amounts-not-a-time", { written: wrong[1] }) : "";
  }

  /** What of its times a step of this kind can say. @param {TextItem} item @returns {Times} */
  const timesOf = ({ kind = "do", times = {} }) =>
    runsByItself({ kind })
      ? { earliest: times.earliest ?? "", usual: times.usual ?? "" }
      : byHand({ kind })
        ? { about: times.about ?? "" }
        : {};

  /** @param {TextItem} item */
  function noteOf(item) {
    if (item.as === "title" && title() && title() !== item.name)
      return say("page-recipe-text-new-title", { title: title() });
    if (item.as !== "step") return "";
    return [
      item.isOffered ? say("page-recipe-text-offered") : "",
      item.said ? say("page-recipe-text-time", { said: item.said }) : "",
      item.said ? askedOfTime(item) : "",
    ]
      .filter(Boolean)
      .join(" ");
  }

  /** What is wanted of a time that a step names. @param {TextItem} item */
  function askedOfTime(item) {
    const { earliest, usual, about } = timesOf(item);
    const { kind = "do" } = item;
    if (byHand({ kind })) return about ? "" : say("page-recipe-text-time-about");
    if (!runsByItself({ kind })) return say("page-recipe-text-time-stays");
    return earliest && usual ? "" : say("page-recipe-text-time-earliest");
  }

  /** @param {TextItem} item @param {number} place @returns {TextCard} */
  function card(item, place) {
    const kinds = KIND_NAMES.map((kind) =>
      h("option", { value: kind, selected: kind === item.kind }, kindName(kind)),
    );
    /** @param {string} key */
    const at = (key) => `text.${place}.${key}`;
    const as = h(
      "select",
      { "aria-label": say("page-recipe-text-as"), "data-at": at("as") },
      AS.map((key) =>
        h("option", { value: key, selected: key === item.as }, say(`page-recipe-taken-${key || "unread"}`)),
      ),
    );
    const amount = h("input", {
      "aria-label": labelOf("amount"),
      "data-at": at("amount"),
      value: item.amount ?? "",
      placeholder: labelOf("amount"),
    });
    const name = growing({ "aria-label": say("page-recipe-text-words"), "data-at": at("name") });
    name.value = item.name ?? "";
    const kind = h("select", { "aria-label": labelOf("step-kind"), "data-at": at("kind") }, kinds);
    const part = h("select", { "aria-label": say("page-recipe-text-part"), "data-at": at("part") });
    /** @param {keyof Times} key @param {string} label a code */
    const timed = (key, label) =>
      h("input", {
        "aria-label": labelOf(label),
        placeholder: labelOf(label),
        "data-at": at(key),
        value: item.times?.[key] ?? "",
      });
    const times = {
      earliest: timed("earliest", "earliest"),
      usual: timed("usual", "usual"),
      about: timed("about", "takes-about"),
    };
    const hint = h("small", { class: "hint" });
    const right = h(
      "button",
      { type: "button", class: "outlined", "data-at": at("right"), onclick: () => settle("yes") },
      say("page-recipe-that-is-right"),
    );
    const node = h(
      "li",
      { class: "r-card" },
      h("q", {}, item.text),
      h("div", { class: "r-card-fields" }, as, part, amount, name, kind, Object.values(times)),
      hint,
      h(
        "div",
        { class: "r-order" },
        right,
        h(
          "button",
          { type: "button", class: "quiet", "data-at": at("drop"), onclick: () => settle("drop") },
          say("page-recipe-text-drop"),
        ),
      ),
    );
    let drawn = "";

    function write() {
      show(amount, item.as === "line");
      show(kind, item.as === "step");
      for (const [key, input] of Object.entries(times))
        show(input, item.as === "step" && key in timesOf(item));
      const choices = places();
      show(part, (item.as === "line" || item.as === "step") && choices.length > 1);
      const told = JSON.stringify([choices, item.part]);
      if (told !== drawn)
        part.replaceChildren(
          h("option", { value: "" }, say("page-recipe-text-which")),
          ...choices.map(([key, label]) =>
            h(
              "option",
              { value: key, selected: key === item.part },
              label ? say("page-recipe-text-to", { part: label }) : say("page-recipe-text-to-unnamed"),
            ),
          ),
        );
      drawn = told;
      const fault = faultOf(item);
      if (fault && item.settled === "yes") item.settled = false;
      setText(hint, fault || noteOf(item));
      setAttr(hint, "data-fault", fault !== "");
      right.disabled = fault !== "";
      setAttr(node, "data-settled", item.settled || null);
    }

    function read() {
      const kept = Object.fromEntries(Object.entries(times).map(([key, input]) => [key, input.value.trim()]));
      Object.assign(item, {
        as: as.value,
        amount: amount.value.trim(),
        name: name.value.trim(),
        kind: kind.value,
        times: kept,
        settled: false,
      });
      if (item.as === "part") item.key ??= `text${place}`;
      again();
    }

    /** @param {"yes" | "drop"} how */
    function settle(how) {
      item.settled = how;
      again();
      if (count() === 0) ready.focus();
      else {
        const next = node.nextElementSibling ?? found.querySelector(":scope > li:not([data-settled])");
        if (next) within(next, "button:not(:disabled), select").focus();
      }
    }

    part.addEventListener("input", () => {
      Object.assign(item, { part: part.value, isPicked: true });
      read();
    });
    for (const field of [as, amount, name, kind, ...Object.values(times)])
      field.addEventListener("input", read);
    return { item, node, write };
  }

  function draw() {
    cards = pasted.items.flatMap((item, place) => (item.text === undefined ? [] : [card(item, place)]));
    found.replaceChildren(...cards.map(({ node }) => node));
    again();
  }

  text.value = pasted.text;
  text.addEventListener("input", () => {
    pasted.text = text.value;
  });
  ready.addEventListener("click", () => put(pasted.items.filter(({ settled }) => settled === "yes")));
  draw();
  return [
    text,
    h(
      "button",
      {
        type: "button",
        class: "outlined",
        "data-at": "text.read",
        onclick: () => {
          pasted.items = readText(text.value, measures(), Boolean(title()));
          draw();
          found.querySelector("select")?.focus();
        },
      },
      say("page-recipe-text-read"),
    ),
    found,
    left,
    ready,
  ];
}
