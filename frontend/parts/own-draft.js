// A form's own draft: base (what was saved, as this form last knew it), mine (what stands in its fields), theirs (what
// was saved elsewhere meanwhile). News goes into a field that nobody wrote in; beside one that somebody did, it stands,
// with a way to take it, and never replaces what was written.
//
//   const draft = new OwnDraft();
//   h("label", {}, control, draft.own("rate", control, "18.00"));   // the node is where news stands
//   draft.news({ rate: "20.00" });                                  // "Saved elsewhere: 20.00", where mine is another
//   draft.isMine("rate")                                            // written in, and not what is saved
//   draft.sent(); draft.saved();                                    // this form's own save, once news of it has come

import { say } from "../words.js";
import { h, setText, show } from "./dom.js";
/** @import { Control } from "../../types/parts" */

/**
 * @typedef {{control: Control, base: string | boolean, theirs: HTMLElement, beside: HTMLElement,
 *   sent?: string | boolean}} OwnField
 */

/** @param {Control} control @returns {control is HTMLInputElement} */
const isTick = (control) => control.type === "checkbox";

/** @param {Control} control */
const valueOf = (control) => (isTick(control) ? control.checked : control.value);

/** @param {Control} control @param {string | boolean} value */
function put(control, value) {
  if (isTick(control)) control.checked = value === true;
  else {
    control.value = String(value);
    // What was written by other means may be none of the choices.
    if (control instanceof HTMLSelectElement && control.value !== value) {
      control.add(new Option(String(value), String(value)));
      control.value = String(value);
    }
  }
}

/** @param {Control} control @param {string | boolean} value */
function worded(control, value) {
  if (isTick(control)) return say(value ? "page-own-ticked" : "page-own-not-ticked");
  const options = control instanceof HTMLSelectElement ? [...control.options] : [];
  return options.find((option) => option.value === value)?.text ?? (value || say("page-own-empty"));
}

export class OwnDraft {
  /** @type {Map<string, OwnField>} */
  #fields = new Map();

  /**
   * Give a control its value, and make the node where news of it stands.
   * @param {string} key @param {Control} control @param {string | boolean} value
   */
  own(key, control, value) {
    put(control, value);
    const beside = h("span", { class: "theirs small", role: "status", hidden: true });
    /** @type {OwnField} */
    const field = { control, base: valueOf(control), theirs: h("span", {}), beside };
    const take = () => {
      put(control, field.base);
      this.#compare(field);
      control.focus();
    };
    beside.append(
      field.theirs,
      " ",
      h("button", { type: "button", class: "quiet", onclick: take }, say("page-own-use-that")),
    );
    control.addEventListener("input", () => field.beside.hidden || this.#compare(field));
    this.#fields.set(key, field);
    return field.beside;
  }

  /** @param {{[key: string]: string | boolean | undefined}} saved by key; a key that is missing is empty */
  news(saved) {
    for (const [key, field] of this.#fields) {
      const { control, base } = field;
      const theirs = saved[key] ?? (control.type === "checkbox" ? false : "");
      if (theirs === base) continue;
      if (valueOf(control) === base && control !== document.activeElement) put(control, theirs);
      field.base = theirs;
      this.#compare(field);
    }
  }

  /** Fields that are no longer there. @param {Iterable<string>} keys */
  drop(keys) {
    for (const key of keys) this.#fields.delete(key);
  }

  /** @param {string} key */
  isMine(key) {
    const field = this.#fields.get(key);
    return field !== undefined && valueOf(field.control) !== field.base;
  }

  /** What stands there is on its way to be saved. */
  sent() {
    for (const field of this.#fields.values()) field.sent = valueOf(field.control);
  }

  /** It was saved, perhaps written a little otherwise: so it stands there now, where nobody has written on. */
  saved() {
    for (const field of this.#fields.values()) {
      if (valueOf(field.control) === field.sent) put(field.control, field.base);
      this.#compare(field);
    }
  }

  /** @param {OwnField} given */
  #compare({ control, base, beside, theirs }) {
    setText(theirs, say("page-own-elsewhere", { value: String(worded(control, base)) }));
    show(beside, valueOf(control) !== base);
  }
}
