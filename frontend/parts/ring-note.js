// What rang, and whose it is: one line over the head of the page, once, gone after a while or at a touch.
//
//   tellRing("Plain bar, B, Let it set: ready.", () => …);   // what a touch on it leads to

import { h, setText, show } from "./dom.js";

const SHOWN_MS = 20_000;

let note = null;
let lead = () => {};
let going = 0;

const goes = () => {
  clearTimeout(going);
  show(note, false);
};

export function tellRing(says, follow) {
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
  show(note, true);
  setText(note.firstChild, says);
  clearTimeout(going);
  going = setTimeout(goes, SHOWN_MS);
}
