// A modal form that is answered whole or not at all.
//
//   const given = await askForm("A card", submit("Save the card"), rows, read);   // what `read` gives, or null
//   read: () => …                    // may `throw refuse("…")`: that is said, and the form stays as it is written
//   field("Its name", input)         // a row: what it is called, and its control

import { saysOf } from "../bench/errors.js";
import { openDialog } from "./dialog.js";
import { find, h, setText, show } from "./dom.js";
import { back } from "./sheets.js";
/** @import { Child } from "../../types/dom" */

/**
 * `answers` send it; `read` is told which of them did, by its value.
 * @template T @param {string} title @param {Child | readonly Child[]} answers @param {readonly Child[]} rows
 * @param {(answer: string) => T} read @returns {Promise<T | null>}
 */
export async function askForm(title, answers, rows, read) {
  const trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  /** @type {T | null} */
  let given = null;
  const form = h(
    "form",
    {
      method: "dialog",
      class: "stack",
      novalidate: true,
      onsubmit: (event) => {
        const wrong = find(form, ".stepper-field[aria-invalid]");
        if (wrong) {
          event.preventDefault(); // nobody has read yet what stands there instead
          wrong.removeAttribute("aria-invalid");
          return;
        }
        try {
          given = read(event.submitter?.getAttribute("value") ?? "");
        } catch (error) {
          const says = saysOf(error);
          if (!says) throw error;
          event.preventDefault();
          setText(trouble, says);
          show(trouble, true);
        }
      },
    },
    h("h2", {}, title),
    rows,
    trouble,
    answers,
    back(),
  );
  await openDialog(h("dialog", { "aria-label": title }, form));
  return given;
}

/** The one answer of a form. @param {string} words */
export const submit = (words) => h("button", { type: "submit", value: "given", class: "copper" }, words);

/** @param {string} says */
export const refuse = (says) => Object.assign(new Error(says), { says });

/** @param {string} label @param {Node} control */
export const field = (label, control) => h("label", { class: "field" }, h("span", {}, label), control);
