// The bench: one thing now, the number to reach largest, the bowl beside it, everything
// that counts above it and the answers under the thumb.
//
//   screen.data = { run: { id, sheet, state }, bench, waits, now, link, beside: (step) => [text], lead }
//                 // lead: what the day's plan has next, { step, advice, reason }, or null
// // isGiven(once): an answer is on its way to the disk; undoing: as keep/undoing.js gives it; willRing()
//                 // practice: what is said of a batch that leaves nothing behind; "practice-again" begins it anew
//   "answer"       { kind, body, once, says }   an entry to keep; once: what it is one answer to; says: once it is kept
//   "answers"      { entries: [{ kind, body }], once }   the same, where one touch tells several
//   "say-again"                     no detail
//   "prompt-shown" { text }         a new prompt stands there; speak it if wanted
//   "go-bench"     { run, step }    another run's countdown was chosen
//   screen.trouble("…")             say plainly that something was not kept
//
// Space or Enter gives the strong answer, Up and Down move between answers, Left and Right
// between the other things to do, Escape goes back to the best one.

import { runsByItself } from "../bench/steps/index.js";
import { partName } from "../bench/sheet-words.js";
import {
  define,
  given,
  h,
  isDrawn,
  keyed,
  part as within,
  setAttr,
  setText,
  show,
  tell,
} from "../parts/dom.js";
import { countdownOf, figureFor } from "../parts/figure.js";
import { fitting, forget } from "../parts/fit.js";
import { letterMark, relabelMark } from "../parts/hatch.js";
import { countWords, stateWords } from "../parts/link-mark.js";
import { mark } from "../parts/marks.js";
import { openPad } from "../parts/number-pad.js";
import { askNote, pickOne } from "../parts/sheets.js";
import { onTick } from "../parts/ticker.js";
import { undoPair } from "../parts/undo-pair.js";
import { finestFor, isUntouched, readsIn } from "../bench/weighing.js";
import { exactly, timeLeft, unbroken } from "../parts/words.js";
import { say, sayAll, units } from "../words.js";
/** @import { Caution, Now, Prompt, PromptKind, State, StepTitle, WaitStep } from "../../bench/shapes/page" */
/** @import { BenchRun, Item, Link, RunSaid, Undoing } from "../../types/keep" */
/** @import { BenchAnswer, PageAnswer } from "../../types/parts" */
/** @import { Answer } from "../../bench/shapes/page" */
/** @import { Pickable } from "../parts/sheets.js" */

const BESIDE = 2; // secondary answers that stand beside the strong one; the rest are under “Other”
const BESIDE_PIECES = 3; // counting goes wrong in more ways; "all" stands with them
/** @type {ReadonlySet<PromptKind>} */
const ALL_STAND = new Set(["over", "short", "check", "do", "finish"]); // here every answer is a real choice
/** @type {ReadonlySet<string>} */
const QUIET = new Set(["skipped", "placed", "took", "proved"]); // under “Other” alone
const ONE_TOUCH_MS = 400;
const STANDING = /** @type {const} */ (["strip", "link", "signs", "figure"]); // which not every prompt has
/** @type {ReadonlySet<PromptKind>} */
const CARDS = new Set(["over", "short", "check", "do"]);
/** @type {ReadonlySet<PromptKind>} */
const RIGHTING = new Set(["over", "short"]);

/**
 * @typedef {{step?: string | null, advice: string, reason: string, isOld?: boolean}} Lead
 * @typedef {{says: string, isEndedByTouch: boolean}} Sign what keeps this phone from ringing
 * @typedef {{run: BenchRun, bench: Now, waits: readonly Item[], signs: readonly Sign[], now: () => number,
 *   link: Pick<Link, "state" | "unsent" | "refused" | "shut">,
 *   beside: (step: {step: string | null, line: string | null}) => readonly string[],
 *   lead: (isAsked: boolean) => Lead | null, isGiven: (once: string) => boolean, undoing: Undoing,
 *   willRing?: () => string, practice?: string}} BenchData
 * @typedef {{title: string, says: string, answers: PageAnswer[]}} End
 * @typedef {{prompt?: Prompt, answer?: Answer, again?: true, redo?: true, ring?: true, note?: true, record?: true,
 *   piece?: string, switched?: true, finish?: true}} Picking what was picked among all else there is to do
 */

/** @returns {End} */
const finished = () => ({
  title: say("page-bench-finished"),
  says: say("page-bench-finished-says"),
  answers: [{ id: "record", label: say("page-bench-see-record"), says: "", kind: "go", strong: true }],
});
/** @returns {End} */
const practised = () => ({
  title: say("page-bench-practised"),
  says: say("page-bench-practised-says"),
  answers: [
    { id: "write", label: say("page-bench-write"), says: "", kind: "go", to: "#/recipe/new", strong: true },
    { id: "bring", label: say("page-bench-bring"), says: "", kind: "go", to: "#/bring" },
    { id: "again", label: say("page-bench-practise-again"), says: "", kind: "again" },
  ],
});

/** The other way of weighing. @param {State} state */
const otherWay = ({ weigh }) => (weigh === "tare" ? "running" : "tare");

/** @param {Prompt} prompt */
const keyOf = (prompt) => `${prompt.step} ${prompt.kind} ${prompt.weigh?.line ?? ""}`;
/** @param {Prompt} prompt */
const sideOf = (prompt) => `${prompt.component} ${prompt.round}`;

/**
 * One line that opens, for what has no room beside the number (style/bench.css says when).
 * @param {string} name @param {string} [says]
 */
function folded(name, says = "") {
  return h(
    "details",
    { class: `folded ${name}`, hidden: true },
    h("summary", {}, h("span", {}, says)),
    h("ul"),
  );
}

/** How damp and how warm the room is; the second may be left out. Null when the maker went back. */
async function askAir() {
  const humidity = await openPad({
    title: say("page-bench-humidity"),
    division: null,
    answer: "count",
    least: 1,
    most: 100,
  });
  if (humidity === null) return null;
  const inFahrenheit = units().warmth === "f";
  const warmth = await openPad({
    title: say("page-bench-warmth"),
    division: null,
    answer: "count",
    most: inFahrenheit ? 140 : 60,
  });
  if (warmth === null) return { humidity };
  return { humidity, mk: inFahrenheit ? Math.round(((warmth - 32) * 5000) / 9) : warmth * 1000 };
}

/**
 * Whether a piece's weight says something of a wait: it dries, and does not set or cool; or one was weighed there
 * before.
 * @param {WaitStep} step @param {State} state
 */
const dries = ({ id, word }, { measured }) =>
  word === "dry" || measured.some((each) => each.what === "piece" && each.step === id);

/** What the plan says, less the sentences that the prompt says itself. @param {string} says @param {Prompt} prompt */
function lessSaid(says, { says: own, more, why }) {
  return says
    .split(/(?<=[.!?]) /)
    .filter((each) => ![own, more, why].some((text) => text.includes(each)))
    .join(" ");
}

/**
 * An answer's entries, the first with what was asked for. The bench gives each its kind's own body.
 * @param {Answer} answer @param {Answer["body"]} body
 */
const saidOf = ({ kind, also = [] }, body) => /** @type {RunSaid[]} */ ([{ kind, body }, ...also]);

/**
 * What the plan has to say beside a prompt: what changes what to do, or why this and not what the bench asks first.
 * No line says another again.
 * @param {Prompt} prompt @param {Lead | null} lead @param {Prompt} first
 */
function adviceFor(prompt, lead, first) {
  const says = lead?.advice || (first.step !== prompt.step && lead?.step === prompt.step ? lead.reason : "");
  return prompt.why.includes(says) ? "" : says;
}

/** How large the glass and the text were by which what is known to fit was measured. @type {Map<string, string>} */
const sizes = new Map();

/**
 * Whether that is another size now. An observer tells of each once, though it is as it was.
 * @param {ResizeObserverEntry} entry
 */
function isOtherSize({ target: { localName }, contentRect: { width, height } }) {
  const size = `${width} ${height}`;
  const was = sizes.get(localName) ?? size;
  sizes.set(localName, size);
  return was !== size;
}

export class BenchScreen extends HTMLElement {
  /** @type {BenchData} */
  #data = given();
  #shown = "";
  /** @type {string | null} */
  #pin = null; // the component and round that the maker chose to go on with
  /** @type {string | null} */
  #picked = null; // the prompt chosen by hand
  /** @type {string | null} */
  #counting = null; // the prompt whose pieces were counted by the last answer
  /** @type {{state: State, step: string | null} | null} */
  #led = null; // what the plan had next when the run last changed
  /** @type {string | null} */
  #offered = null; // the step that a plan which came since would have next
  #lit = "";
  /** @type {{what: string, at: number} | null} */
  #counted = null; // the last piece that was counted by a touch
  #stop = () => {};
  /** @type {HTMLElement & {data: unknown} | null} */
  #figure = null;
  #news = ""; // what was done, to be spoken before what comes next
  #undo = undoPair(this, (once) => this.#data.isGiven(once));
  /** @type {ReturnType<BenchScreen["makeParts"]>} */
  #parts = given();
  #isFitted = false;
  #isRising = false;
  #sized = new ResizeObserver((entries) => {
    const isOther = entries.filter(isOtherSize).length > 0; // each of them is noted
    if (!isOther && this.#isFitted) return;
    forget();
    if (this.#data && !this.#isRising) this.#fit();
  });

  connectedCallback() {
    if (!this.#parts) this.#build();
    this.#stop = onTick(() => this.#tick());
    for (const sized of [this, this.#parts.text]) this.#sized.observe(sized);
    document.addEventListener("keydown", this.#onKey);
  }

  disconnectedCallback() {
    this.#stop();
    this.#sized.disconnect();
    document.removeEventListener("keydown", this.#onKey);
  }

  /** @param {BenchData} data */
  set data(data) {
    if (this.#data && this.#data.run.id !== data.run.id) this.#forgetChoice();
    this.#data = data;
    this.update();
  }

  #forgetChoice() {
    this.#pin = null;
    this.#picked = null;
    this.#counting = null;
  }

  /** Turn to a step's prompt, if it asks something now; what was in hand comes back after it. @param {string} step */
  turnTo(step) {
    const found = this.#data.bench.prompts.find((prompt) => prompt.step === step);
    if (!found) return;
    this.#picked = keyOf(found);
    this.update();
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#parts.trouble, text);
    show(this.#parts.trouble, text !== "");
    for (const pressed of this.querySelectorAll(".pressed")) pressed.classList.remove("pressed");
    this.#hold();
  }

  /**
   * What was done; what comes next is said by another voice, so that neither hides the other.
   * @param {string} text
   */
  said(text) {
    setText(this.#parts.told, text);
    this.#news = text;
  }

  /** What "say again" should say: all of it. */
  get spoken() {
    return this.#wordsOf(true);
  }

  /**
   * Cautions that were read out with a step's first prompt are not said over again with each that follows.
   * @param {boolean} isWhole
   */
  #wordsOf(isWhole) {
    const prompt = this.#prompt();
    if (!prompt) return "";
    const { number, cautions } = prompt;
    const fresh = cautions.filter(({ seen }) => isWhole || (!seen && !RIGHTING.has(prompt.kind)));
    return [
      `${prompt.title}.`,
      number ? `${number.text} ${number.caption}.` : "",
      prompt.says,
      prompt.more,
      ...fresh.map(({ full }) => full),
    ]
      .filter(Boolean)
      .join(" ");
  }

  /** What the page is of, in the order in which it is read. */
  makeParts() {
    const state = h("span", { class: "link-state" });
    const count = h("span");
    const parts = {
      state,
      count,
      back: h("a", { class: "button back", href: "#/", "aria-label": say("page-common-home") }, mark("back")),
      batch: h("span", { class: "head-number small" }),
      name: h("span", { class: "head-name small" }),
      link: h("b", { class: "head-link small", role: "status" }, state, count),
      signs: h("span", { class: "head-sign small", role: "status" }),
      strip: h("wait-strip"),
      letter: letterMark("A"),
      place: h("b", { class: "place" }),
      title: h("h1", { tabindex: -1 }),
      says: h("p", { class: "says" }),
      more: h("p", { class: "more" }),
      moreFold: folded("more-fold"),
      why: h("p", { class: "why soft" }),
      lead: h("a", { class: "lead small", onclick: (event) => this.#takeOffer(event) }),
      beside: h("ul", { class: "beside small" }),
      gather: h("a", { class: "button outlined gather-first" }, say("page-bench-gather")),
      cautions: h("ul", { class: "cautions" }),
      cautionFold: folded("caution-fold"),
      aidFold: folded("aid-fold"),
      whatEach: folded("what-each", say("page-bench-what-each")),
      number: h("p", { class: "number figures" }, h("span", {}), h("span", { class: "unit" })),
      caption: h("span", { class: "number-caption" }),
      add: h("b", { class: "add figures" }),
      scale: h("span", {}),
      drawing: h("div", { class: "drawing" }),
      legend: h("figcaption", { class: "soft small" }),
      answers: h("answer-row"),
      trouble: h("p", { class: "trouble", role: "alert", hidden: true }),
      again: h(
        "button",
        { type: "button", class: "quiet", onclick: () => tell(this, "say-again") },
        say("page-bench-say-again"),
      ),
      other: h(
        "button",
        { type: "button", class: "quiet", onclick: () => this.#pickOther() },
        say("page-bench-other"),
      ),
      told: h("p", { class: "unseen", role: "status" }),
      live: h("p", { class: "unseen", "aria-live": "polite" }),
      text: h("span", { class: "unseen of-text", "aria-hidden": "true" }), // as wide as the browser's text is large
    };
    const reach = h(
      "div",
      { class: "reach" },
      parts.number,
      h("p", { class: "reach-side" }, parts.add, parts.caption, parts.scale),
    );
    const figure = h("figure", { class: "plate-figure" }, parts.drawing, parts.legend);
    const words = h(
      "section",
      { class: "bench-words", "aria-label": say("page-bench-now") },
      parts.title,
      parts.cautionFold,
      parts.cautions,
      parts.says,
      reach,
      parts.more,
      parts.moreFold,
      parts.aidFold,
      parts.whatEach,
      parts.lead,
      parts.why,
      parts.beside,
      parts.gather,
    );
    return { ...parts, reach, figure, words };
  }

  #build() {
    const parts = this.makeParts();
    parts.answers.addEventListener("answer-chosen", (event) => this.#choose(event.detail.answer));
    parts.strip.addEventListener("wait-chosen", (event) => {
      const { run, step } = event.detail;
      if (run === this.#data.run.id) this.turnTo(step);
      else tell(this, "go-bench", { run, step });
    });
    this.#parts = parts;
    this.append(
      h(
        "div",
        { class: "bench" },
        h(
          "header",
          { class: "bench-head" },
          parts.back,
          parts.letter,
          h(
            "div",
            { class: "head-words" },
            parts.place,
            h("div", { class: "head-line" }, parts.batch, parts.link, parts.signs, parts.name),
          ),
        ),
        parts.strip,
        parts.words,
        parts.figure,
        h(
          "footer",
          { class: "bench-foot" },
          parts.trouble,
          parts.answers,
          h("div", { class: "quiet-row" }, this.#undo.undo, this.#undo.redo, parts.again, parts.other),
        ),
        parts.told,
        parts.live,
        parts.text,
      ),
    );
  }

  /**
   * The prompt to show: the one picked, else one of the side the maker went on with, else the pieces that are being
   * counted, which a touch goes on with and no plan is asked for, else what the plan has next, else the best.
   * @returns {Prompt | null}
   */
  #prompt() {
    const prompts = this.#data.bench.prompts;
    const picked = prompts.find((prompt) => keyOf(prompt) === this.#picked);
    if (picked) return picked;
    const best = prompts[0] ?? null;
    if (this.#isPressing(best)) return best;
    const pinned = prompts.find((prompt) => sideOf(prompt) === this.#pin && prompt.kind !== "wait");
    const counted = prompts.find((prompt) => keyOf(prompt) === this.#counting);
    const chosen = pinned ?? counted;
    if (chosen) return chosen;
    const next = this.#next();
    return prompts.find(({ step }) => step !== null && step === next) ?? best;
  }

  /** @param {Prompt | null} best @returns {best is Prompt} */
  #isPressing(best) {
    return (
      best !== null &&
      (best.kind === "heating" ||
        RIGHTING.has(best.kind) ||
        this.#data.bench.windows.some((window) => window.step === best.step))
    );
  }

  /** @param {Event} event */
  #takeOffer(event) {
    if (!this.#offered) return; // it leads to the day
    event.preventDefault();
    this.turnTo(this.#offered);
  }

  /**
   * The step the plan has next. A plan that comes meanwhile changes nothing under the maker's hand: what it says is
   * offered, and holds from the next entry on.
   */
  #next() {
    const { run, lead } = this.#data;
    if (this.#led?.state === run.state) return this.#led.step;
    const step = lead(true)?.step ?? null;
    this.#led = { state: run.state, step };
    return step;
  }

  /**
   * The prompt that the plan would have first, where the maker did not choose otherwise and nothing presses.
   * @param {Prompt} prompt @param {Lead | null} lead
   */
  #offer(prompt, lead) {
    const { prompts } = this.#data.bench;
    if (this.#pin || this.#picked || this.#isPressing(prompts[0])) return null;
    const planned = prompts.find(({ step }) => step !== null && step === lead?.step);
    return planned && planned.step !== prompt.step ? planned : null;
  }

  update() {
    const { run, bench, waits, signs, link, practice } = this.#data;
    const parts = this.#parts;
    const prompt = this.#prompt();
    setText(parts.batch, practice ? "" : (run.state.number ?? ""));
    setText(parts.name, practice ? "" : run.sheet.recipe.title);
    // One at a time, so that it can be read to its end: what a touch ends, then how the server is reached, then
    // the rest.
    const state = practice ?? stateWords(link);
    const count = practice ? "" : countWords(link);
    const isLink = state + count !== "";
    const sign = waits.length ? signs[0] : undefined;
    const isSign = Boolean(sign && (sign.isEndedByTouch || !isLink));
    setText(parts.state, state && count ? `${state}, ` : state);
    setAttr(parts.state, "data-more", count !== "");
    setText(parts.count, count);
    show(parts.link, isLink && !isSign);
    setText(parts.signs, isSign && sign ? sign.says : "");
    show(parts.signs, isSign);
    this.#undo.write(this.#data.undoing, run.sheet);
    const { undo, redo } = this.#undo;
    show(parts.again, undo.hidden && redo.hidden); // else under “Other”: what can be undone is said whole
    if (!prompt) {
      this.#nothing(bench);
      return;
    }

    const key = keyOf(prompt);
    const isNew = key !== this.#shown || unbroken(prompt.title) !== parts.title.textContent;
    this.#shown = key;
    show(parts.letter, prompt.letter !== "");
    if (prompt.letter) relabelMark(parts.letter, prompt.letter);
    const part =
      run.sheet.components.filter(({ id }) => id === prompt.component).map(partName)[0] ??
      say("page-bench-whole-batch");
    setText(
      parts.place,
      prompt.of_rounds > 1
        ? say("page-bench-round", { part, round: prompt.round, rounds: prompt.of_rounds })
        : part,
    );
    setText(parts.title, unbroken(prompt.title));
    setText(parts.says, unbroken(prompt.says));
    show(parts.says, prompt.says !== "");
    setText(parts.more, unbroken(prompt.more));
    const beneath = [prompt.more, prompt.why].filter(Boolean).join(" ");
    setText(within(parts.moreFold, "span"), beneath);
    keyed(
      within(parts.moreFold, "ul"),
      [beneath],
      (text) => text,
      (text) => h("li", {}, unbroken(text)),
    );
    show(parts.more, prompt.more !== "");
    show(parts.moreFold, beneath !== "");
    setText(parts.why, unbroken(prompt.why));
    show(parts.why, Boolean(prompt.why));
    const lead = this.#data.lead(false);
    const says =
      (lead?.step ?? prompt.step) === prompt.step
        ? lessSaid(adviceFor(prompt, lead, bench.prompts[0]) ?? "", prompt)
        : "";
    const offered = this.#offer(prompt, lead);
    this.#offered = offered?.step ?? null;
    const offer = offered?.step ? say("page-bench-by-plan", { title: offered.title }) : "";
    if (!lead?.isOld) setText(parts.lead, unbroken(offer || says || say("page-bench-whole-day")));
    setAttr(parts.lead, "href", `#/day/${run.id}`);
    show(parts.lead, !practice);
    keyed(
      parts.beside,
      this.#data.beside({ step: prompt.step, line: prompt.weigh?.line ?? null }),
      (text) => text,
      (text) => h("li", {}, unbroken(text)),
    );
    setAttr(parts.gather, "href", `#/gather/${run.id}`);
    show(parts.gather, !practice && isUntouched(run.state));
    this.#writeCautions(RIGHTING.has(prompt.kind) ? [] : prompt.cautions); // putting a weight right handles nothing new
    if (isNew) {
      for (const fold of [parts.cautionFold, parts.moreFold, parts.aidFold, parts.whatEach])
        fold.open = false;
    }
    this.#writeAid(prompt.aid ?? []);
    this.#writeNumber(prompt);
    this.#writeFigure(prompt);
    const standing = this.#standing(prompt);
    const lit = standing.find((answer) => answer.strong)?.id ?? ""; // another answer under the same thumb
    const hadFocus = parts.answers.contains(document.activeElement); // which goes with an answer that goes
    parts.answers.data = {
      answers: standing,
      settle: isNew || lit !== this.#lit,
      cards: CARDS.has(prompt.kind) && standing.some((answer) => answer.says),
    };
    this.#lit = lit;
    const explained = standing.filter((answer) => answer.says);
    keyed(
      within(parts.whatEach, "ul"),
      explained,
      ({ label, says }) => `${label} ${says}`,
      ({ label, says }) => h("li", {}, h("b", {}, label), ": ", unbroken(says)),
    );
    show(parts.whatEach, explained.length > 0);
    this.#hold();
    const rest = bench.prompts.length - 1;
    setText(parts.other, rest > 0 ? say("page-bench-others", { count: rest }) : say("page-bench-other"));
    if (isNew) {
      // A focus left on the second answer would now stand on another meaning.
      if (hadFocus) (parts.answers.strong ?? parts.title).focus();
      this.trouble("");
    }
    // Not only a new prompt is news: so is the next piece to press, or one more try.
    const spoken = this.#wordsOf(false);
    if (setText(parts.live, spoken))
      tell(this, "prompt-shown", { text: [this.#news, spoken].filter(Boolean).join(" ") });
    this.#news = "";
    this.#fit();
    if (isNew) parts.words.scrollTop = 0;
  }

  /**
   * What a maker must see without a scroll is in sight, whatever the glass and the text size. All that is measured is
   * measured here, once the rest is written: each earlier look would have the browser lay the page out for itself.
   */
  #fit() {
    if (this.#isRising) return;
    for (const _ of this.#fitting());
  }

  *#fitting() {
    const { run, waits, now } = this.#data;
    this.#parts.strip.data = { waits, now, here: run.id };
    yield;
    const { words, title, cautionFold, cautions, says, reach, more, moreFold, aidFold, whatEach, why } =
      this.#parts;
    const folded = [cautionFold, moreFold, aidFold, whatEach].map((fold) => within(fold, "summary"));
    const bench = words.parentElement;
    if (bench) {
      const shown = STANDING.filter((part) => !this.#parts[part].hidden);
      setAttr(bench, "data-has", shown.join(" ")); // asked by its style
      yield* fitting(bench, words, [title, cautions, says, reach, more, why, ...folded], this.#shown);
    }
    this.#isFitted = this.isConnected;
  }

  /**
   * The first data, unseen yet: written, and fitted a measure at a time, each a piece of work of its own.
   * @param {BenchData} data
   */
  *rise(data) {
    this.#isRising = true;
    this.data = data;
    yield;
    for (const _ of this.#fitting()) yield;
    this.#isRising = false;
  }

  /**
   * In full the first time in a batch; from then on, or where there is no room, in one line that opens.
   * @param {readonly Caution[]} cautions
   */
  #writeCautions(cautions) {
    const { cautions: list, cautionFold: fold } = this.#parts;
    /** @param {Element} place @param {readonly string[]} texts */
    const write = (place, texts) =>
      keyed(
        place,
        texts,
        (text) => text,
        (text) => h("li", {}, text),
      );
    const fresh = cautions.filter(({ seen }) => !seen);
    write(
      list,
      fresh.map(({ full }) => full),
    );
    write(
      within(fold, "ul"),
      cautions.map(({ full }) => full),
    );
    setText(within(fold, "span"), cautions.map(({ short }) => unbroken(short)).join(" \u00b7 "));
    setAttr(fold, "data-seen", fresh.length < cautions.length);
    show(list, fresh.length > 0);
    show(fold, cautions.length > 0);
  }

  /** First aid, in one line that opens. @param {readonly string[]} aid */
  #writeAid([short = "", ...rest]) {
    const fold = this.#parts.aidFold;
    setText(within(fold, "span"), unbroken(short));
    keyed(
      within(fold, "ul"),
      rest,
      (text) => text,
      (text) => h("li", {}, unbroken(text)),
    );
    show(fold, short !== "");
  }

  /** @param {Now} bench */
  #nothing(bench) {
    const parts = this.#parts;
    const end = this.#data.practice ? practised() : finished();
    setText(parts.title, bench.finished ? end.title : say("page-bench-nothing"));
    setText(parts.says, bench.finished ? end.says : say("page-bench-nothing-says"));
    for (const part of [
      parts.cautions,
      parts.reach,
      parts.more,
      parts.moreFold,
      parts.lead,
      parts.why,
      parts.letter,
      parts.beside,
      parts.gather,
      parts.cautionFold,
      parts.aidFold,
      parts.whatEach,
    ])
      show(part, false);
    setText(parts.place, say("page-bench-whole-batch"));
    setText(parts.other, say("page-bench-other"));
    show(parts.says, true);
    show(parts.figure, false);
    const answers = bench.finished ? end.answers : [];
    parts.answers.data = { answers, settle: this.#shown !== "nothing", cards: false };
    this.#shown = "nothing";
    this.#fit();
  }

  /** @param {Prompt} prompt */
  #writeNumber(prompt) {
    const parts = this.#parts;
    const counting = prompt.weigh ? null : countdownOf(prompt, this.#data.bench);
    const text = counting ? timeLeft(counting.until - this.#data.now()) : (prompt.number?.text ?? "");
    const [, figures, unit] = text.match(/^([^\p{L}]+?)\s*(\p{L}+)$/u) ?? ["", text, ""];
    setText(parts.number.children[0], figures.replaceAll(" ", "\u00a0").replaceAll("\u00a0+", " +"));
    setText(parts.number.children[1], unit && ` ${unit}`);
    setAttr(
      parts.number,
      "data-long",
      text.length > 10 ? "very" : figures.length > 5 ? "rather" : figures.length > 3 ? "four" : null,
    );
    const isRest = ["melt", "check"].includes(prompt.kind); // it says itself what comes after
    setText(
      parts.caption,
      (isRest && prompt.number?.caption) || (counting?.until_says ?? prompt.number?.caption ?? ""),
    );
    const { weigh } = prompt;
    setText(parts.add, weigh?.how === "running" && weigh.before_mg > 0 ? unbroken(`+ ${weigh.add}`) : "");
    setText(parts.scale, weigh?.scale ?? "");
    show(parts.reach, text !== "");
  }

  /** @param {Prompt} prompt */
  #writeFigure(prompt) {
    const { run, bench, now } = this.#data;
    const figure = figureFor(run.sheet, run.state, prompt, bench, now());
    show(this.#parts.figure, figure !== null);
    if (!figure) return;
    if (this.#figure?.localName !== figure.element) {
      this.#figure = /** @type {HTMLElement & {data: unknown}} */ (document.createElement(figure.element));
      this.#parts.drawing.replaceChildren(this.#figure);
    }
    this.#figure.data = figure.data;
    setAttr(this.#parts.figure, "data-low", "kind" in figure.data && figure.data.kind === "looks");
    setText(this.#parts.legend, figure.caption);
  }

  #tick() {
    const prompt = this.#data && this.#prompt();
    if (!prompt || prompt.weigh || !countdownOf(prompt, this.#data.bench)) return;
    this.#writeNumber(prompt);
    this.#writeFigure(prompt);
  }

  /** The answers that stand on the page; the others are under "Other". @param {Prompt} prompt @returns {Answer[]} */
  #standing(prompt) {
    const answers = prompt.answers.filter(({ id, kind }) => !QUIET.has(kind) || id === "prove_again");
    if (ALL_STAND.has(prompt.kind)) return answers;
    const line = this.#data.run.sheet.lines.find((candidate) => candidate.id === prompt.weigh?.line);
    const meant = answers.filter((answer) => answer.id !== "left_out" || line?.optional);
    const unexplained = meant.map((answer) => ({ ...answer, says: "" }));
    const stands = (/** @type {Answer} */ { id, strong }) => strong || id === "all";
    const beside = unexplained
      .filter((answer) => !stands(answer))
      .slice(0, prompt.kind === "pieces" ? BESIDE_PIECES : BESIDE);
    return unexplained.filter((answer) => stands(answer) || beside.includes(answer));
  }

  /** @param {BenchAnswer} answer @param {boolean} [isPicked] in a dialog, where it was given already */
  async #choose(answer, isPicked = "input" in answer && Boolean(answer.input || answer.ask)) {
    if (!("input" in answer)) {
      if (answer.kind === "go") location.hash = answer.to ?? `#/record/${this.#data.run.id}`;
      else tell(this, "practice-again");
      return;
    }
    const prompt = this.#prompt();
    if (!prompt) return;
    if (
      answer.ask &&
      !(await pickOne({ title: answer.ask, choices: [{ label: answer.label, value: true }] }))
    )
      return;
    if (this.#isBounce(answer)) return;
    const body = await this.#complete(prompt, answer);
    if (body === null) return;
    this.#picked = null;
    this.#counting = answer.kind === "counted" ? keyOf(prompt) : null;
    this.querySelector(`[data-answer="${CSS.escape(answer.id)}"]`)?.classList.add("pressed");
    // One touch answers a prompt; only what is counted is said again and again. What a dialog asked for was given
    // there.
    const once = answer.kind === "counted" || isPicked ? undefined : keyOf(prompt);
    const [said, ...also] = saidOf(answer, body);
    if (also.length) tell(this, "answers", { entries: [said, ...also], once });
    else tell(this, "answer", { ...said, once });
    this.#hold();
  }

  /**
   * A piece counted twice in a moment is one touch of a wet thumb, whatever was drawn meanwhile; so says the fold
   * too.
   * @param {Answer} answer
   */
  #isBounce({ id, kind, body, input }) {
    if (kind !== "counted" || input) return false;
    const said = { what: `${"step" in body ? body.step : ""} ${id}`, at: performance.now() };
    const last = this.#counted;
    this.#counted = said;
    return last?.what === said.what && said.at - last.at < ONE_TOUCH_MS;
  }

  /** A prompt takes no other answer while one is on its way to the disk. */
  #hold() {
    const prompt = this.#prompt();
    this.#parts.answers.held = prompt !== null && this.#data.isGiven(keyOf(prompt));
  }

  /**
   * Ask for what the answer still lacks: a reading, a count or words. Null when the maker went back.
   * @param {Prompt} prompt @param {Answer} answer @returns {Promise<Answer["body"] | null>}
   */
  async #complete(prompt, answer) {
    const { weigh } = prompt;
    if (answer.input === "reading") {
      const proof = "weight_mg" in answer.body ? answer.body.weight_mg : null; // of a test weight
      const pour = weigh ? say("page-bench-reading", { name: weigh.name }) : prompt.title;
      const reading = await openPad({
        title: proof === null ? pour : answer.label,
        target: proof ?? prompt.number?.mg ?? null,
        tolerance: proof === null ? (weigh?.tolerance_mg ?? 0) : 0,
        division: weigh ? readsIn({ ...weigh, division_mg: weigh.division_mg ?? 1000 }) : { mg: 1000 },
        least: weigh?.before_mg ?? 0,
        most: answer.most,
      });
      if (reading === null) return null;
      const mg = reading - (weigh?.before_mg ?? 0);
      return answer.kind === "weighed" ? { ...answer.body, mg, reading_mg: reading } : { ...answer.body, mg };
    }
    if (answer.input === "count") {
      const count = await openPad({
        title: answer.label,
        division: null,
        answer: "count",
        most: answer.most,
      });
      if (count === null) return null;
      const field = ["good", "spoiled", "partial"].find((name) => name in answer.body) ?? "good";
      return { ...answer.body, [field]: count };
    }
    if (answer.input === "air") return askAir();
    if (answer.input === "note") {
      const text = await askNote({
        title: answer.label,
        answer: answer.kind === "skipped" ? say("page-bench-skip") : answer.label,
        needed: answer.kind !== "skipped",
        says: answer.says,
        hint: answer.kind === "skipped" ? say("page-common-reason") : "",
      });
      if (text === null) return null;
      if (answer.kind === "skipped") return text ? { ...answer.body, why: text } : answer.body;
      return { ...answer.body, text };
    }
    return answer.body;
  }

  async #pickOther() {
    const { bench, run, practice } = this.#data;
    const prompt = this.#prompt();
    /** @type {Pickable<Picking>[]} */
    const choices = [];
    for (const other of bench.prompts) {
      if (other === prompt) continue;
      const number = other.number ? `${other.number.text} ${other.number.caption}` : "";
      choices.push({ letter: other.letter, label: other.title, says: number, value: { prompt: other } });
    }
    if (prompt) {
      const standing = this.#standing(prompt);
      for (const answer of prompt.answers) {
        if (!standing.some((other) => other.id === answer.id))
          choices.push({ label: answer.label, says: answer.says, value: { answer } });
      }
    }
    const { redo } = this.#undo;
    if (!redo.hidden && !isDrawn(redo))
      choices.push({ label: redo.textContent ?? "", value: { redo: true } });
    if (this.#parts.again.hidden)
      choices.push({ label: say("page-bench-say-again"), value: { again: true } });
    if (!practice)
      choices.push({
        label: say("page-bench-will-it-ring"),
        says: this.#data.willRing?.(),
        value: { ring: true },
      });
    if (!bench.finished)
      choices.push({
        label: say("page-bench-note"),
        says: say("page-bench-note-says"),
        value: { note: true },
      });
    if (!practice)
      choices.push({
        label: say("page-bench-record"),
        says: say("page-bench-record-says"),
        value: { record: true },
      });
    const step = run.sheet.steps.find((candidate) => candidate.id === prompt?.step);
    if (step && runsByItself(step) && dries(step, run.state) && !practice)
      choices.push({
        label: say("page-bench-piece"),
        says: say("page-bench-piece-says"),
        value: { piece: step.id },
      });
    if (prompt?.weigh?.how === "running" || prompt?.weigh?.how === "tare") {
      const way = otherWay(run.state);
      const [label, says] = [say(`page-bench-weigh-${way}`), say(`page-bench-weighed-${way}`)];
      choices.push({ label, says, value: { switched: true } });
    }
    if (!bench.finished && prompt?.kind !== "finish")
      choices.push({
        label: say("page-bench-finish"),
        says: say("page-bench-finish-says"),
        value: { finish: true },
      });
    const picked = await pickOne({ title: say("page-bench-something-else"), choices });
    if (!picked) return;
    if (picked.again) {
      tell(this, "say-again");
    } else if (picked.redo) {
      redo.click();
    } else if (picked.ring) {
      location.hash = "#/studio";
    } else if (picked.switched) {
      tell(this, "answer", {
        kind: "switched",
        body: { weigh: otherWay(run.state) },
      });
    } else if (picked.finish) {
      this.#finishHere();
    } else if (picked.record) {
      location.hash = `#/record/${run.id}`;
    } else if (picked.piece) {
      this.#weighPiece(picked.piece);
    } else if (picked.prompt) {
      this.#picked = keyOf(picked.prompt);
      this.#pin = sideOf(picked.prompt);
      this.update();
    } else if (picked.answer) {
      this.#choose(picked.answer, true);
    } else {
      const text = await askNote({ title: say("page-bench-note-title"), answer: say("page-common-save") });
      if (text)
        tell(this, "answer", { kind: "noted", body: prompt?.step ? { text, step: prompt.step } : { text } });
    }
  }

  /** For the test of dryness: a piece that was weighed before, or another one. @param {string} step */
  async #weighPiece(step) {
    const { sheet, state } = this.#data.run;
    const part = sheet.components.find(
      ({ id }) => id === sheet.steps.find((each) => each.id === step)?.component,
    );
    /** @param {number | null} [mg] */
    const scaleFor = (mg) => finestFor(sheet.kit, mg ?? part?.piece_mg ?? 0);
    const weighed = new Map(
      state.measured
        .filter((each) => each.what === "piece" && each.step === step && each.piece !== null)
        .map((each) => [each.piece, each.mg]),
    );
    const fresh = Math.max(0, ...state.measured.map((each) => each.piece ?? 0)) + 1;
    const choices = [...weighed].map(([piece, mg]) => ({
      label: say("page-bench-piece-again", { number: piece ?? 0 }),
      says: say("page-bench-piece-weighed", { mass: exactly(mg, scaleFor(mg)) }),
      value: piece,
    }));
    const piece = weighed.size
      ? await pickOne({
          title: say("page-bench-piece-which"),
          choices: [...choices, { label: say("page-bench-piece-other"), value: fresh }],
        })
      : fresh;
    if (piece === null) return;
    const before = weighed.get(piece);
    const scale = scaleFor(before);
    const told = { number: piece, scale: scale.name };
    const mg = await openPad({
      title:
        before === undefined
          ? say("page-bench-piece-weigh", told)
          : say("page-bench-piece-weigh-again", { ...told, before: exactly(before, scale) }),
      division: readsIn(scale),
      answer: "weighs",
    });
    if (mg !== null)
      tell(this, "answer", { kind: "measured", body: { what: "piece", step, piece, mg, scale: scale.id } });
  }

  /** Before its end: name what is skipped and owed, then finish if that is meant. */
  async #finishHere() {
    const { bench, run } = this.#data;
    const undone = run.sheet.steps.filter(
      (step) => !["done", "skipped"].includes(run.state.steps[step.id].status),
    ).length;
    /** @param {readonly StepTitle[]} steps */
    const all = (steps) => sayAll(steps.map((step) => step.title));
    const says = [
      bench.owed.length ? say("page-bench-undone", { titles: all(bench.owed) }) : "",
      bench.skipped.length ? say("page-bench-skipped", { titles: all(bench.skipped) }) : "",
      say("page-bench-steps-left", { count: undone }),
    ]
      .filter(Boolean)
      .join(" ");
    if (
      await pickOne({
        title: say("page-bench-finish-title"),
        says,
        choices: [{ label: say("prompting-finish-title"), says: say("page-bench-finish-undo"), value: true }],
      })
    )
      tell(this, "answer", { kind: "finished", body: {} });
  }

  /** @param {KeyboardEvent} event */
  #onKey = (event) => {
    if (
      event.ctrlKey ||
      event.metaKey ||
      event.altKey ||
      event.shiftKey ||
      document.querySelector("dialog[open]")
    )
      return;
    const onControl =
      event.target instanceof Element && event.target.closest("button,a,input,textarea,select");
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      this.#parts.answers.move(event.key === "ArrowDown" ? 1 : -1);
    } else if (["ArrowRight", "ArrowLeft", "PageUp"].includes(event.key)) {
      this.#turn(event.key === "ArrowRight" ? 1 : -1);
    } else if (event.key === "Escape") {
      if (!this.#picked && !this.#pin) return;
      this.#forgetChoice();
      this.update();
    } else if (
      event.key === "PageDown" ||
      ([" ", "Enter"].includes(event.key) && (event.repeat || !onControl))
    ) {
      if (!event.repeat) this.#parts.answers.strong?.click();
    } else {
      return;
    }
    event.preventDefault();
  };

  /** @param {number} by */
  #turn(by) {
    const prompts = this.#data.bench.prompts;
    if (prompts.length < 2) return;
    const here = this.#prompt();
    const at = here ? prompts.indexOf(here) : -1;
    const next = prompts[(at + by + prompts.length) % prompts.length];
    this.#picked = keyOf(next);
    this.#pin = sideOf(next);
    this.update();
  }
}

export const registerBenchScreen = () => define("bench-screen", BenchScreen);
