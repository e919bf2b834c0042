/**
 * A batch that is made for practice. Its sheet comes with the page, and its waits are short (an hour is a minute
 * there already). Its journal is in this tab alone and never in the book, so that nothing of it reaches the disk's
 * runs, the server, the shelf, a plan, a batch number or what the last times teach.
 *
 *   const practice = await openPractice(Date.now);
 *   practice.enter("done", { step });      // an entry like any other
 *   practice.run, practice.bench, practice.waits, practice.undoing
 *   practice.again()                       // from the first step
 */

import { fold, now } from "../bench/index.js";
import { newId } from "./ids.js";
import { undoing } from "./undoing.js";
/** @import { Sheet, State } from "../../bench/shapes/page" */
/** @import { BenchRun, KeptEntry } from "../../types/keep" */

const ID = "practice";

/** @param {() => number} at */
export async function openPractice(at) {
  const answer = await fetch("sample.json");
  if (!answer.ok) throw new Error("There is no sample here.");
  return new Practice(await answer.json(), at);
}

export class Practice {
  #sheet;
  #at;
  #entries = readTab();
  /** @type {State | null} */
  #state = null;

  /** @param {Sheet} sheet @param {() => number} at */
  constructor(sheet, at) {
    this.#sheet = sheet;
    this.#at = at;
  }

  /** @returns {BenchRun} */
  get run() {
    this.#state ??= fold(this.#sheet, this.#entries);
    return { id: ID, sheet: this.#sheet, state: this.#state };
  }

  /** What the bench says now. */
  get bench() {
    return now(this.#sheet, this.run.state, this.#at());
  }

  get undoing() {
    return undoing(this.#entries, ID);
  }

  /** @param {string} kind @param {object} body */
  enter(kind, body) {
    const at = Math.max(this.#at(), (this.#entries.at(-1)?.at ?? 0) + 1);
    this.#keep([
      ...this.#entries,
      { id: newId(at), run: ID, device: ID, at, kind, body: /** @type {KeptEntry["body"]} */ (body) },
    ]);
  }

  again() {
    this.#keep([]);
  }

  /** @param {KeptEntry[]} entries */
  #keep(entries) {
    this.#entries = entries;
    this.#state = null;
    try {
      sessionStorage.setItem(ID, JSON.stringify(entries));
    } catch {
      // a tab with no place to keep it: practice lasts until the page is left
    }
  }
}

/** @returns {KeptEntry[]} */
function readTab() {
  try {
    return JSON.parse(sessionStorage.getItem(ID) ?? "[]");
  } catch {
    return [];
  }
}
