// From plain text: a pasted list of ingredients and steps becomes a list to confirm, line by line.
// What a line was understood as is shown; what was not understood says so and must be settled.
//
//   textPart({ measures: () => "us", put: (items) => … })      // a node
//   readText("240 g citric acid\n1. Mix well", "us")           // [{text, as, name?, amount?, kind?}]

import { readAmount, readDurationMs } from "../bench/index.js";
import { h, setAttr, setText, show } from "./dom.js";
import { KINDS } from "./recipe-forms.js";

const AS = { "": "Not understood", title: "The recipe's title", part: "A part of the recipe", line: "An ingredient", step: "A step" };
const STEP_WORDS = /^(?:step\s*)?\d+\s*[.):]\s+/i;
const METHOD = /^(?:method|steps|directions|instructions|how to make\b.*)$/i;
const LIST = /^(?:ingredients|you need|what you need)$/i;
const VERBS = { weigh: /\bweigh/i, melt: /\bmelt/i, split: /\b(?:split|divide)\b/i, pieces: /\b(?:press|pipe|wrap|unmould)\b/i, wait: /\b(?:leave|let|dry|set|cool|rest|chill)\b/i };

function amountOf(text, measures) {
  try {
    return readAmount(text, measures || "metric");
  } catch {
    return null;
  }
}

/** "240 g of citric acid" or "Citric acid: 240 g" in its two halves, or null. */
function parted(text, measures) {
  const words = text.split(/\s+/);
  for (let count = Math.min(4, words.length - 1); count > 0; count -= 1) {
    const amount = words.slice(0, count).join(" ");
    if (amountOf(amount, measures)) return { amount, name: words.slice(count).join(" ").replace(/^of\s+/i, "") };
  }
  for (let count = Math.min(4, words.length - 1); count > 0; count -= 1) {
    const amount = words.slice(-count).join(" ").replace(/^\(|\)$/g, "");
    if (amountOf(amount, measures)) return { amount, name: words.slice(0, -count).join(" ").replace(/\s*[:,\u2013\u2014-]$/, "") };
  }
  return null;
}

function kindOf(text) {
  const hasTime = text.match(/[\d½¼¾]+\s*(?:s|sec|min|h|hours?|minutes?|days?)\b/i);
  return Object.keys(VERBS).find((kind) => VERBS[kind].test(text) && (kind !== "wait" || hasTime)) ?? "do";
}

/** The first length of time a step names, as it is written there. */
function timeIn(text) {
  for (const [found] of text.matchAll(/[\d½¼¾][\d½¼¾./ ]*\s*[a-z]+/gi)) {
    try {
      readDurationMs(found);
      return found;
    } catch {
      continue;
    }
  }
  return "";
}

export function readText(text, measures) {
  let inMethod = false;
  const lines = text.split(/\r?\n/).map((each) => each.trim()).filter(Boolean);
  return lines.flatMap((written, place) => {
    const line = written.replace(/^[-*\u2022\u00b7#]+\s*/, "");
    const bare = line.replace(/:$/, "");
    if (METHOD.test(bare) || LIST.test(bare)) {
      inMethod = METHOD.test(bare);
      return [];
    }
    const step = line.replace(STEP_WORDS, "");
    const found = parted(line, measures);
    if (step !== line || (inMethod && !bare.match(/^\S+(?:\s\S+){0,2}$/) && line === bare)) return [{ text: line, as: "step", name: step, kind: kindOf(step), time: timeIn(step) }];
    if (line !== bare || written.startsWith("#")) {
      inMethod = false;
      return [{ text: line, as: place === 0 ? "title" : "part", name: bare }];
    }
    if (found) return [{ text: line, as: "line", ...found }];
    if (place === 0) return [{ text: line, as: "title", name: line }];
    return [{ text: line, as: inMethod ? "step" : "", name: line, kind: "do", amount: "" }];
  });
}

export function textPart({ measures, put }) {
  const text = h("textarea", { rows: 6, "aria-label": "Ingredients and steps, a line for each", placeholder: "Citric acid 240 g\n480 g bicarbonate of soda\n1. Sift and mix" });
  const found = h("ol", { class: "r-found" });
  const left = h("p", { role: "status", class: "soft" });
  const ready = h("button", { type: "button", class: "outlined", hidden: true }, "Put these into the recipe");
  let items = [];

  function count() {
    const open = items.filter((item) => !item.settled).length;
    setText(left, items.length === 0 ? "" : open ? `${open} of ${items.length} still to confirm or drop.` : "All settled. Nothing is in the recipe yet.");
    show(ready, items.length > 0 && open === 0);
    return open;
  }

  function card(item) {
    const kinds = Object.entries(KINDS).map(([kind, { says }]) => h("option", { value: kind, selected: kind === item.kind }, says));
    const as = h("select", { "aria-label": "Understood as" }, Object.entries(AS).map(([key, label]) => h("option", { value: key, selected: key === item.as }, label)));
    const amount = h("input", { "aria-label": "Amount", value: item.amount ?? "", placeholder: "amount" });
    const name = h("input", { "aria-label": "Words", value: item.name });
    const kind = h("select", { "aria-label": "Kind of step" }, kinds);
    const hint = h("small", { class: "hint" });
    const right = h("button", { type: "button", class: "outlined" }, "That is right");
    const node = h("li", { class: "r-card" }, h("q", {}, item.text), h("div", { class: "r-card-fields" }, as, amount, name, kind), hint, h("div", { class: "r-order" }, right, h("button", { type: "button", class: "quiet", onclick: () => settle("drop") }, "Drop it")));

    function read() {
      Object.assign(item, { as: as.value, amount: amount.value.trim(), name: name.value.trim(), kind: kind.value });
      show(amount, item.as === "line");
      show(kind, item.as === "step");
      let fault = item.as ? (item.name ? "" : "Write the words.") : "Say what this is, or drop it.";
      if (!fault && item.as === "line") {
        if (!item.amount) fault = "The amount was not understood. Write it.";
        else if (!amountOf(item.amount, measures())) fault = "The amount cannot be read: a number and a unit, such as 240 g.";
      }
      setText(hint, fault || (item.as === "step" && item.time ? `A time is named: ${item.time}. ${item.kind === "wait" ? "It is taken as the usual time; say the earliest in the recipe." : item.kind === "do" ? "It is taken as about how long." : ""}` : ""));
      setAttr(hint, "data-fault", fault !== "");
      right.disabled = fault !== "";
      setAttr(node, "data-settled", null);
      item.settled = false;
      count();
    }

    function settle(how) {
      item.settled = how;
      setAttr(node, "data-settled", how);
      if (count() === 0) ready.focus();
      else (node.nextElementSibling ?? found.querySelector(":scope > li:not([data-settled])"))?.querySelector("button:not(:disabled), select").focus();
    }

    right.addEventListener("click", () => settle("yes"));
    for (const field of [as, amount, name, kind]) field.addEventListener("input", read);
    read();
    return node;
  }

  ready.addEventListener("click", () => {
    put(items.filter(({ settled }) => settled === "yes"));
  });
  return [
    text,
    h("button", { type: "button", class: "outlined", onclick: () => {
      items = readText(text.value, measures());
      found.replaceChildren(...items.map(card));
      count();
      found.querySelector("select")?.focus();
    } }, "Read it"),
    found,
    left,
    ready,
  ];
}
