// Small sheets that come up from the foot of the page, ask one thing and go.
//
//   const text = await askNote({ title: "Why is it skipped?", answer: "Skip it", needed: false });
//   const picked = await pickOne({ title: "Something else to do", choices: [{ letter, label, says, value }] });
//   await tellPlain({ title: "While you were away", lines: ["…"], answer: "Go on" });
//
// Each is a modal dialog; Escape or Back answers null.

import { openDialog } from "./dialog.js";
import { h } from "./dom.js";
import { letterMark } from "./hatch.js";
import { say } from "../words.js";

/**
 * @template T @param {HTMLDialogElement} dialog @param {(given: string) => T} valueOf @param {{stays?: boolean}} [more]
 * @returns {Promise<T | null>}
 */
async function open(dialog, valueOf, more) {
  const given = await openDialog(dialog, more);
  return given === "" ? null : valueOf(given);
}

/** @template T @typedef {{letter?: string, label: string, says?: string, value: T}} Pickable */

export const back = (words = say("page-common-back")) =>
  h(
    "button",
    {
      type: "button",
      class: "quiet knuckle",
      onclick: ({ currentTarget }) => currentTarget.closest("dialog")?.close(""),
    },
    words,
  );

/** @param {{title: string, answer: string, needed?: boolean, says?: string, hint?: string}} asked */
export function askNote({ title, answer, needed = true, says = "", hint = "" }) {
  const text = h("textarea", { "aria-label": title, maxlength: 2000 });
  const form = h(
    "form",
    {
      method: "dialog",
      class: "stack",
      onsubmit: (event) => {
        if (needed && !text.value.trim()) event.preventDefault();
      },
    },
    h("h2", {}, title),
    says ? h("p", { class: "soft" }, says) : null,
    hint ? h("p", { class: "soft small" }, hint) : null,
    text,
    h("button", { type: "submit", value: "given", class: "copper" }, answer),
    back(),
  );
  return open(h("dialog", { "aria-label": title }, form), () => text.value.trim());
}

/** @template T @param {{title: string, choices: Pickable<T>[], says?: string}} asked */
export function pickOne({ title, choices, says = "" }) {
  const form = h(
    "form",
    { method: "dialog", class: "stack" },
    h("h2", {}, title),
    says ? h("p", { class: "soft" }, says) : null,
    choices.map((choice, index) =>
      h(
        "button",
        { type: "submit", value: String(index), class: "outlined choice-card" },
        choice.letter ? letterMark(choice.letter) : null,
        h(
          "span",
          { class: "choice-words" },
          h("b", {}, choice.label),
          choice.says ? h("span", { class: "soft small" }, choice.says) : null,
        ),
      ),
    ),
    back(),
  );
  return open(h("dialog", { "aria-label": title }, form), (index) => choices[Number(index)].value);
}

/**
 * `stays`: of the page, not of the screen in sight. `leave`: the words of the other way out, which answers null.
 * @param {{title: string, lines: string[], answer: string, stays?: boolean, leave?: string}} told
 */
export function tellPlain({ title, lines, answer, stays = false, leave = "" }) {
  const form = h(
    "form",
    { method: "dialog", class: "stack" },
    h("h2", {}, title),
    h(
      "ul",
      { class: "ruled" },
      lines.map((line) => h("li", {}, line)),
    ),
    h("button", { type: "submit", value: "read", class: "copper" }, answer),
    leave ? back(leave) : null,
  );
  return open(h("dialog", { "aria-label": title }, form), () => true, { stays });
}
