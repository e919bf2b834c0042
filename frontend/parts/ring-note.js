// What rang, and whose it is: one line over the head of the page, once, gone after a while, at a touch, or once
// what rang was answered.
//
//   tellRing("Plain bar, B, Let it set: ready.", () => …, () => …);   // whether it counts; what a touch leads to
//   endRing();                                                        // something happened: it may count no more

import { first, h, setText, show } from "./dom.js";

const SHOWN_MS = 20_000;

/** @type {HTMLElement | null} */
let note = null;
let lead = () => {};
let stillCounts = () => false;
let going = 0;

const goes = () => {
  clearTimeout(going);
  if (note) show(note, false);
};

export function endRing() {
  if (note && !note.hidden && !stillCounts()) goes();
}

/** @param {string} says @param {() => boolean} counts @param {() => void} follow */
export function tellRing(says, counts, follow) {
  if (!note) {
    note = h(
      "div",
      { class: "rang no-print", role: "status" },
      h("button", {
        type: "button",
        onclick: () => {
          goes();
          lead();
        },
      }),
    );
    document.body.append(note);
  }
  lead = follow;
  stillCounts = counts;
  show(note, true);
  setText(first(note), says);
  clearTimeout(going);
  going = setTimeout(goes, SHOWN_MS);
}
