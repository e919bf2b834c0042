// The answers to the prompt, in the order that the bench gives them, so that none changes places when another is
// likelier: one strong in copper across the foot, the others outlined.
//
//   row.data = { answers, settle: true, cards: false };      // answers as the bench gives them
//   row.addEventListener("answer-chosen", (e) => e.detail);  // { answer }
//
// `settle`: the prompt has just changed under the maker's hand. For a quarter of a second
// the row takes no touch, so that a knuckle's bounce never answers the next prompt too. What a page opens with
// was under no hand yet: it takes the first touch at once.
// `cards`: one below the other, each the choice and then what it does.

import { define, h, keyed, setAttr, setText, show, tell } from "./dom.js";
import { unbroken } from "./words.js";
import { say } from "../words.js";
/** @import { BenchAnswer } from "../../types/parts" */

const SETTLE_MS = 250;

let wasTouched = false; // this page, anywhere
for (const touch of ["pointerdown", "keydown"])
  addEventListener(touch, () => (wasTouched = true), { capture: true, once: true });

/**
 * A finger that lifts from the answer on which it came down has given it. The click that a browser makes of a touch
 * comes after it has painted how the button looks held down, which a phone takes longer for than to keep the answer.
 * @param {TouchEvent} event
 */
function lifted(event) {
  const button = /** @type {Element} */ (event.target).closest("button");
  const [{ clientX, clientY }] = event.changedTouches;
  if (!button?.contains(document.elementFromPoint(clientX, clientY)) || event.touches.length) return;
  event.preventDefault();
  button.click();
}

export class AnswerRow extends HTMLElement {
  #settling = 0;
  #stood = false;
  #list = h("div", { class: "answers", role: "group", "aria-label": say("page-bench-answers") });

  connectedCallback() {
    if (this.#list.isConnected) return;
    this.append(this.#list);
    this.addEventListener("touchend", lifted);
  }

  /** @param {{answers: readonly BenchAnswer[], settle: boolean, cards: boolean}} given */
  set data({ answers, settle, cards }) {
    setAttr(this.#list, "data-cards", cards);
    keyed(
      this.#list,
      answers,
      (answer) => answer.id,
      () => this.#make(),
      (node, answer, index) => {
        node.onclick = () => this.#isStill || tell(this, "answer-chosen", { answer });
        setAttr(node, "class", answer.strong ? "copper" : "outlined");
        setAttr(node, "data-answer", answer.id);
        setText(node.children[0], unbroken(answer.label));
        setText(node.children[1], unbroken(answer.says));
        show(node.children[1], answer.says);
        setAttr(node, "data-index", index);
      },
    );
    if (settle && (wasTouched || this.#stood)) this.#settle();
    this.#stood = true;
  }

  /**
   * One of these was answered and is on its way to the disk: no other is taken until it is there, or failed.
   * @param {boolean} isHeld
   */
  set held(isHeld) {
    setAttr(this, "data-held", isHeld);
  }

  /** No answer is taken: a finger finds none either (style/bench.css), and a key or a pedal that bounces is one. */
  get #isStill() {
    return this.hasAttribute("data-held") || this.hasAttribute("data-settling");
  }

  #settle() {
    clearTimeout(this.#settling);
    setAttr(this, "data-settling", true);
    this.#settling = setTimeout(() => setAttr(this, "data-settling", null), SETTLE_MS);
  }

  #make() {
    return h(
      "button",
      { type: "button" },
      h("span", { class: "answer-label" }),
      h("span", { class: "answer-says", hidden: true }),
    );
  }

  /**
   * The button of the strong answer; null when the bench has none, as while a wait must still count.
   * @returns {HTMLElement | null}
   */
  get strong() {
    return /** @type {HTMLElement | null} */ (this.#list.querySelector(".copper"));
  }

  /** Move the focus to the next (+1) or last (-1) answer, around the ends. @param {number} by */
  move(by) {
    const buttons = [...this.#list.querySelectorAll("button")];
    const at = buttons.indexOf(/** @type {HTMLButtonElement} */ (document.activeElement));
    buttons[
      at < 0 ? (by > 0 ? 0 : buttons.length - 1) : (at + by + buttons.length) % buttons.length
    ]?.focus();
  }
}

export const registerAnswerRow = () => define("answer-row", AnswerRow);
