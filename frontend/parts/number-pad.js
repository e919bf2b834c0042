// A pad of large keys for what a scale reads or how many pieces there are. It starts
// empty, and says at once how far off the reading is. A comma is a point, and what is finer than the scale
// shows is not taken: "1700,5" on a scale of 1 g is 1700 g. A scale that reads in ounces is typed in ounces. `least`
// is what was in the bowl before: a display that shows less cannot be meant. `most` is what there is to take from,
// or null. `division`: what the scale reads in; null for a count.
//
// const pad =
// openPad({ title, target: 612000, tolerance: 4000, division: { mg: 1000 }, answer: "reads", least: 0, most });
//   const mg = await pad;      // whole mg or a whole count, null when left
//
// A modal dialog; digits, point, Backspace, Enter and Escape work from a keyboard.

import { openDialog } from "./dialog.js";
import { first, h, setText, show } from "./dom.js";
import { placesOn, toDivision, uozToMg } from "../bench/whole.js";
import { mark } from "./marks.js";
import { exactly } from "./words.js";
import { back } from "./sheets.js";
import { point, say } from "../words.js";

/** @import { Division } from "../bench/whole.js" */

const MOST = 9; // digits a reading may have
const WHOLE = { g: "grams", oz: "ounces", "": "pieces" };

/**
 * @typedef {{title: string, target?: number | null, tolerance?: number, division: Division | null,
 *   answer?: "reads" | "count" | "weighs" | "take" | "left" | "took", least?: number, most?: number | null}} Pad
 */

/** @param {Pad} given @returns {Promise<number | null>} */
export function openPad({
  title,
  target = null,
  tolerance = 0,
  division,
  answer = "reads",
  least = 0,
  most = null,
}) {
  let digits = "";
  const unit = division?.uoz ? "oz" : division ? "g" : "";
  const places = division ? placesOn(division) : 0;
  const on = division && { division_mg: division.mg, division_uoz: division.uoz ?? undefined };
  const shown = h("output", { class: "pad-shown figures", "aria-live": "polite" });
  const off = h("p", { class: "pad-off" });
  const strong = h("button", { type: "submit", value: "given", class: "copper" });
  /** @param {string | Node} label @param {() => void} press @param {string} [name] */
  const key = (label, press, name) =>
    h("button", { type: "button", class: "outlined key", "aria-label": name, onclick: press }, label);
  /** @param {string} d */
  const digit = (d) => key(d, () => type(d));
  const keys = h(
    "div",
    { class: "pad-keys" },
    ["1", "2", "3", "4", "5", "6", "7", "8", "9"].map(digit),
    places ? key(point(), () => type("."), say("page-pad-point")) : h("span", {}),
    digit("0"),
    key(mark("rub"), rub, say("page-pad-rub")),
  );
  /** @type {HTMLDialogElement} */
  const dialog = h(
    "dialog",
    { class: "pad", "aria-label": title },
    h(
      "div",
      { class: "pad-room" },
      h("form", { method: "dialog" }, h("h2", {}, title), shown, off, keys, strong, back()),
    ),
  );

  /** The reading in whole mg or pieces; null while nothing is typed. */
  function value() {
    if (!/\d/.test(digits)) return null;
    const [whole, part = ""] = digits.split(".");
    /** @param {number} decimals */
    const scaled = (decimals) => Number(`${whole}${part.padEnd(decimals, "0").slice(0, decimals)}`);
    return division?.uoz ? uozToMg(scaled(6)) : scaled(division ? 3 : 0);
  }

  /** @param {string} char */
  function type(char) {
    if (char === "." && digits.includes(".")) return;
    if (digits.replace(".", "").length >= MOST) return;
    if (digits.includes(".") && digits.split(".")[1].length >= places && char !== ".") return; // finer than it shows
    digits = digits === "0" && char !== "." ? char : digits + char;
    update();
  }

  function rub() {
    digits = digits.slice(0, -1);
    update();
  }

  function update() {
    const given = value();
    const said = digits.replace(/\.$/, places ? "." : "").replace(".", point());
    setText(shown, `${said || "\u2013"}${unit ? ` ${unit}` : ""}`);
    strong.disabled = given === null || given < least || (most !== null && given > most);
    const amount = given === null ? "\u2026" : `${said}${unit ? ` ${unit}` : ""}`;
    setText(strong, say(`page-pad-it-${answer}`, { amount }));
    const words = offBy(given);
    setText(off, words);
    show(off, words !== "" || target !== null || most !== null);
  }

  /** As this scale would show it. @param {number} much */
  const size = (much) => (division ? exactly(toDivision(much, division), on) : String(much));

  /** @param {number | null} given */
  function offBy(given) {
    if (!places && digits.endsWith(".")) return say(`page-pad-whole-${WHOLE[unit]}`);
    if (most !== null && given !== null && given > most) return say("page-pad-only", { most: size(most) });
    if (target === null) return "";
    const goal = size(target);
    if (answer === "left") return say("page-pad-shelf-says", { goal });
    if (given === null) return say("page-pad-target", { goal });
    if (given < least) return say("page-pad-before", { least: size(least) });
    const gap = given - target;
    if (gap === 0) return say("page-pad-on-target");
    const near = Math.abs(gap) <= tolerance ? "yes" : "no";
    return say(gap > 0 ? "page-pad-over" : "page-pad-under", { gap: size(Math.abs(gap)), goal, near });
  }

  dialog.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (/^\d$/.test(event.key)) type(event.key);
    else if (event.key === "." || event.key === ",") type(".");
    else if (event.key === "Backspace") rub();
    else if (event.key === "Enter")
      strong.click(); // and never the key that has the focus
    else return;
    event.preventDefault();
  });

  update();
  const closed = openDialog(dialog);
  first(keys).focus();
  return closed.then((given) => (given === "given" ? value() : null));
}
