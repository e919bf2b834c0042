// Two buttons that say what they do: "Undo: Citric acid 480 g", and after it "Redo: Citric acid 480 g".
//
//   const pair = undoPair(host, (once) => …);   // tells "answer" of it: an undo is an entry like any other;
//                                               // what is on its way to the disk is not undone twice
//   pair.write(undoing, sheet);            // as keep/undoing.js gives it; a button with nothing to do is hidden
//   pair.undo, pair.redo                   // the buttons
//
// A label that has just changed under the finger takes no touch for a moment: a bounce must not undo a second thing.
// Where a style has no room for all its words (it hides them, and data-short stands there), a touch says them first.

import { first, h, isDrawn, setAttr, setText, show, tell } from "./dom.js";
import { pickOne } from "./sheets.js";
import { deedWords } from "./undo-words.js";
import { say } from "../words.js";
/** @import { Sheet } from "../../bench/shapes/page" */
/** @import { Undoing } from "../../types/keep" */

const SETTLE_MS = 250;

/**
 * @typedef {{entry: string, words: string}} Taking what the next touch takes back
 * @param {HTMLElement} host @param {boolean} isRedo @param {(once: string) => boolean} isGiven
 */

function makeOne(host, isRedo, isGiven) {
  /** @type {Taking | null} */
  let taking = null; // { entry, words } that the next touch takes back
  let settling = 0;
  const settle = () => {
    clearTimeout(settling);
    setAttr(button, "data-settling", true);
    settling = setTimeout(() => setAttr(button, "data-settling", null), SETTLE_MS);
  };
  const once = () => `undone ${taking?.entry}`;
  const hold = () => setAttr(button, "data-held", isGiven(once()));
  const short = say(isRedo ? "page-undo-redo-short" : "page-undo-undo-short");
  /** @param {Taking} meant */
  const give = (meant) => {
    if (taking?.entry !== meant.entry || isGiven(once())) return;
    tell(host, "answer", {
      kind: "undone",
      body: { entry: meant.entry },
      once: once(),
      says: say(isRedo ? "page-undo-redone" : "page-undo-undone", { deed: meant.words }),
    });
    hold();
  };
  const press = async () => {
    const meant = taking;
    if (!meant || isGiven(once()) || button.hasAttribute("data-settling")) return;
    const isSaid = isDrawn(first(button)) || !isDrawn(button); // there, or where it was picked
    if (isSaid) return give(meant);
    const title = first(button).textContent ?? "";
    if (await pickOne({ title, choices: [{ label: short, value: true }] })) give(meant);
  };
  const button = h(
    "button",
    { type: "button", class: "quiet undoes", "data-short": short, hidden: true, onclick: press },
    h("span", {}),
  );
  /** @param {Taking | null} next */
  const write = (next) => {
    if (taking && next && next.entry !== taking.entry) settle();
    taking = next;
    const words = next && say(isRedo ? "page-undo-redo" : "page-undo-undo", { deed: next.words });
    if (words) setText(first(button), words);
    setAttr(button, "aria-label", words);
    show(button, next !== null);
    hold();
  };
  return { button, write };
}

/** @param {HTMLElement} host @param {(once: string) => boolean} isGiven */
export function undoPair(host, isGiven) {
  const undo = makeOne(host, false, isGiven);
  const redo = makeOne(host, true, isGiven);
  return {
    undo: undo.button,
    redo: redo.button,
    /** @param {Undoing} undoing @param {Sheet | null} [sheet] */
    write({ undo: last, redo: back }, sheet = null) {
      undo.write(last && { entry: last.id, words: deedWords(last, sheet) });
      redo.write(back && { entry: back.undo.id, words: deedWords(back.deed, sheet) });
    },
  };
}
