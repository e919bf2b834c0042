// A number with a large less and a large more, for knuckles; the number itself can be typed over.
// What is no whole number from `least` to `most` is said, and what stood there before comes back; a form that is sent
// by the same touch stays (form.js).
//
// const step =
// makeStepper({ label: "Pieces", value: 14, least: 1, most: 1000, by: 1, unit: "bars", onchange: (n) => … });
//   step.node, step.value = 12, step.unit = "bar"

import { say } from "../words.js";
import { h, setAttr, setText, show } from "./dom.js";
import { mark } from "./marks.js";

/**
 * @typedef {{label: string, value: number, least: number, most: number, by?: number, unit: string,
 *   onchange: (value: number) => void}} Stepping
 */

/** @param {Stepping} given */
export function makeStepper({ label, value, least, most, by = 1, unit, onchange }) {
  const field = h("input", {
    type: "text",
    inputmode: "numeric",
    autocomplete: "off",
    class: "stepper-field figures",
    "aria-label": label,
    value,
  });
  const units = h("span", { class: "stepper-unit" }, unit);
  let now = value;

  /** @param {number} wanted */
  function take(wanted) {
    if (!Number.isFinite(wanted)) return;
    now = Math.min(most, Math.max(least, Math.round(wanted)));
    field.value = String(now);
    onchange(now);
  }

  field.addEventListener("change", () => {
    const typed = field.value.replace(/[\s\u00a0]/g, "");
    const fits = /^\d+$/.test(typed) && Number(typed) >= least && Number(typed) <= most;
    setText(wrong, fits ? "" : say("page-stepper-wrong", { written: field.value, least, most, now }));
    show(wrong, !fits);
    setAttr(field, "aria-invalid", fits ? null : "true");
    take(fits ? Number(typed) : now);
  });
  field.addEventListener("input", () => field.removeAttribute("aria-invalid"));
  field.addEventListener("focus", () => field.select());
  const wrong = h("p", { class: "stepper-wrong small", role: "alert", hidden: true });
  /** @param {number} sign */
  const press = (sign) => () => {
    field.removeAttribute("aria-invalid");
    take(sign > 0 ? Math.floor(now / by) * by + by : Math.ceil(now / by) * by - by);
  };
  return {
    node: h(
      "div",
      { class: "stepper" },
      h(
        "button",
        {
          type: "button",
          class: "outlined",
          "aria-label": say("page-stepper-fewer", { what: label }),
          onclick: press(-1),
        },
        mark("less"),
      ),
      h("div", { class: "stepper-middle" }, field, units),
      h(
        "button",
        {
          type: "button",
          class: "outlined",
          "aria-label": say("page-stepper-more", { what: label }),
          onclick: press(1),
        },
        mark("more"),
      ),
      wrong,
    ),
    get value() {
      return now;
    },
    set value(wanted) {
      take(wanted);
    },
    set unit(/** @type {string} */ text) {
      setText(units, text);
    },
  };
}
