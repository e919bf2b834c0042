// The few marks the page needs, drawn by us with one pen: 24 x 24, a 2-unit line.
//
//   mark("back"), and bowlMark(), the sign of the house: a bowl in section with its mark

import { s } from "./dom.js";
import { hatch } from "./hatch.js";

const PATHS = {
  back: "M15 4 7 12l8 8",
  less: "M4 12h16",
  more: "M4 12h16M12 4v16",
  rub: "M9 5h12v14H9l-6-7ZM12 9l6 6m0-6-6 6",
  next: "M9 4l8 8-8 8",
  drag: "M5 8h14M5 16h14",
};

/** @param {keyof typeof PATHS} name */
export function mark(name) {
  return s(
    "svg",
    { class: "mark", viewBox: "0 0 24 24", width: 24, height: 24, "aria-hidden": "true" },
    s("path", {
      d: PATHS[name],
      fill: "none",
      stroke: "currentColor",
      "stroke-width": 2,
      "stroke-linecap": "round",
      "stroke-linejoin": "round",
    }),
  );
}

export function bowlMark() {
  return s(
    "svg",
    { class: "bowl-mark", viewBox: "0 0 44 36", "aria-hidden": "true" },
    s("path", { class: "wall", d: "M1 7h42c0 13-6 21-13 24v4H14v-4C7 28 1 20 1 7Z" }),
    s("path", { class: "inside", d: "M5 10h34c0 10-6 17-12 18H17C11 27 5 20 5 10Z" }),
    s("path", {
      class: "layer",
      fill: hatch("A"),
      d: "M6.500 17h31c-2 6-6 10-10.500 11H17c-4.500-1-8.500-5-10.500-11Z",
    }),
    s("path", { class: "copper-line", d: "M5.500 13h33" }),
  );
}
