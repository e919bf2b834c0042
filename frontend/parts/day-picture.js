// The day as a picture: hands above, waits below in one row a part, the now line moving, bench hours shaded.
//
//   picture.data = { ahead, now: () => ms }       // ahead as parts/day-ahead.js gives it
//
// Two fingers, or + and - with the picture focused, zoom; the arrows and a finger move along it. The
// words of it stand below the picture on the page, so it is one image to a screen reader.

import { full, last } from "../bench/lists.js";
import { define, given, h, s, setAttr } from "./dom.js";
import { hatch } from "./hatch.js";
import { onTick } from "./ticker.js";
import { clock, dated, duration } from "./words.js";
import { say } from "../words.js";
/** @import { Ahead, DayTask } from "./day-ahead.js" */

const HOUR_MS = 3_600_000;
const HEAD = 50; // the days and the hours
const LANE = 62; // a maker's row
const ROW = 56; // a part's row
const NAME = 26; // a batch's name above its rows, where there are several
const LEAST = 14; // px an hour
const MOST = 900;
const ZOOM = 1.4;
const SHOWN_H = 5; // hours that stand on a wide page at first
const FIRST = 120; // px an hour at first, unless more must be seen
const LEAST_FIRST = 50;
const ROW_HEAD = 30; // the letters that stay at the left
const BAR = 6; // says above the lanes when the bench is open
const LETTER_W = 11; // of a letter at 18 px, taken wide, for what fits
const PATCH_W = 8.6; // taken as it mostly is, for the ground below words
const THIN = 12; // px; a block below this has no outline of its own
const APART_MS = 60_000;
const EVERY_H = [0.25, 0.5, 1, 2, 3, 6, 12, 24];
/** @type {("pointerdown" | "pointermove" | "pointerup" | "pointercancel")[]} */
const FINGERS = ["pointerdown", "pointermove", "pointerup", "pointercancel"];
const TICK_PX = 74; // between two hours that are named

/**
 * @typedef {{ahead: Ahead, now: () => number}} PictureData
 * @typedef {{run: string, letter: string, y: number}} RowPlace
 * @typedef {{name: string, y: number}} NamePlace
 * @typedef {{text: string, r: number}} Mark
 */

export class DayPicture extends HTMLElement {
  /** @type {PictureData} */
  #data = given();
  #scale = FIRST; // px an hour
  #isMoved = false; // a hand has chosen what is shown
  #stage = h("div", {
    class: "day-stage",
    tabindex: 0,
    role: "region",
    "aria-label": say("page-day-picture"),
  });
  /** @type {SVGElement | null} */
  #now = null;
  /** @type {SVGElement | null} */
  #heads = null;
  /** @type {Map<number, number>} */
  #fingers = new Map();
  #stop = () => {};

  connectedCallback() {
    if (!this.#stage.isConnected) {
      /** @type {[sign: string, label: string, by: number][]} */
      const ways = [
        ["\u2212", say("page-day-show-more"), 1 / ZOOM],
        ["+", say("page-day-show-larger"), ZOOM],
      ];
      const zooms = ways.map(([sign, label, by]) =>
        h(
          "button",
          { type: "button", class: "outlined", "aria-label": label, onclick: () => this.#zoom(by) },
          sign,
        ),
      );
      this.append(
        this.#stage,
        h(
          "div",
          { class: "day-zoom" },
          zooms,
          h(
            "button",
            { type: "button", class: "outlined", onclick: () => this.#toNow() },
            say("page-day-to-now"),
          ),
        ),
      );
      this.#stage.addEventListener("scroll", () => this.#keepHeads(), { passive: true });
      this.#stage.addEventListener("keydown", (event) => this.#onKey(event));
      for (const type of FINGERS) this.#stage.addEventListener(type, (event) => this.#onFinger(event));
    }
    this.#stop = onTick(() => this.#tick());
  }

  disconnectedCallback() {
    this.#stop();
  }

  /** @param {PictureData} data */
  set data(data) {
    this.#data = data;
    if (!this.#isMoved) this.#scale = this.#firstScale();
    this.#draw();
    if (!this.#isMoved) this.#toNow();
  }

  /** From now to the end of what hands do first, where that can still be read. */
  #firstScale() {
    const wide = this.#stage.clientWidth;
    const usual = Math.max(FIRST, wide / SHOWN_H);
    const { ahead, now } = this.#data;
    const next = ahead.tasks
      .filter(({ kind, status }) => kind === "hands" && status === "open")
      .sort((a, b) => a.starts_at - b.starts_at)[0];
    const closes = next && ahead.hours[next.maker ?? 0].find(([, ends]) => ends > next.starts_at)?.[1];
    if (!closes || next.starts_at - now() < HOUR_MS) return usual;
    const fitting = wide / ((Math.min(closes, next.starts_at + 2 * HOUR_MS) - now()) / HOUR_MS / 0.8);
    return Math.min(usual, Math.max(LEAST_FIRST, fitting));
  }

  get #from() {
    const starts = this.#data.ahead.tasks.map((task) => task.starts_at);
    return Math.floor((Math.min(this.#data.now(), ...starts) - HOUR_MS / 2) / HOUR_MS) * HOUR_MS;
  }

  get #until() {
    return (
      Math.max(this.#data.now() + SHOWN_H * HOUR_MS, ...this.#data.ahead.tasks.map((task) => task.ends_at)) +
      HOUR_MS
    );
  }

  /** @param {number} at */
  #x(at) {
    return ((at - this.#drawnFrom) / HOUR_MS) * this.#scale;
  }

  #drawnFrom = 0;
  /** @type {number[]} */
  #named = []; // where the hours that are named stand

  #draw() {
    const { ahead, now } = this.#data;
    const from = (this.#drawnFrom = this.#from);
    const until = this.#until;
    const lanes = ahead.hours.length;
    const top = HEAD + lanes * LANE;
    const { rows, names, height } = rowsOf(ahead, top);
    const wide = Math.ceil(this.#x(until));
    const rowAt = full(rows.map(({ run, letter, y }) => [`${run} ${letter}`, y]));
    /** @param {DayTask} task */
    const rowOf = (task) => rowAt.get(`${task.run} ${task.letter}`);
    const open = ahead.hours.map((hours) =>
      hours
        .filter(([opens, closes]) => closes > from && opens < until)
        .map(([opens, closes]) => [Math.max(from, opens), Math.min(until, closes)]),
    );
    const shaded = open.flatMap((hours, lane) =>
      hours.flatMap(([opens, closes]) => [
        this.#span(
          opens,
          closes,
          HEAD + lane * LANE,
          lane === lanes - 1 ? height - HEAD - lane * LANE : LANE,
          "open-hours",
        ),
        this.#span(opens, closes, HEAD + lane * LANE - BAR / 2, BAR, "open-bar"),
      ]),
    );
    this.#heads = s(
      "g",
      { class: "row-heads" },
      s("rect", { x: 0, y: top, width: ROW_HEAD, height: height - top }),
      rows.map((row) => s("text", { x: ROW_HEAD / 2, y: row.y + ROW / 2 + 6 }, this.#markOf(row).text)),
      names.map(({ name, y }) => s("text", { class: "lane-name", x: 6, y: y + 19 }, name)),
      lanes > 1 &&
        ahead.problem.makers.map(({ name }, lane) =>
          s("text", { class: "lane-name", x: 6, y: HEAD + lane * LANE + 17 }, name),
        ),
    );
    this.#now = s(
      "g",
      { class: "now-line" },
      s("path", { d: `M0 ${HEAD - 6}V${height}` }),
      s("text", { x: 5, y: height - 8 }, say("page-day-now")),
    );
    this.#stage.replaceChildren(
      s(
        "svg",
        {
          class: "day-picture",
          width: wide,
          height,
          viewBox: `0 0 ${wide} ${height}`,
          role: "img",
          "aria-label": summary(ahead, now()),
        },
        shaded,
        this.#ticks(from, until, height),
        [...names, ...rows].map(({ y }) => s("path", { class: "row-line", d: `M0 ${y}H${wide}` })),
        ahead.tasks.filter(({ kind }) => kind === "wait").map((task) => this.#wait(task, rowOf(task))),
        ahead.tasks
          .filter(({ kind }) => kind === "hands")
          .map((task) => this.#hands(task, HEAD + (task.maker ?? 0) * LANE, ahead.next?.step === task.id)),
        inOneGo(ahead.tasks).map((tasks) => this.#oneGo(tasks, HEAD + (tasks[0].maker ?? 0) * LANE)),
        this.#now,
        this.#heads,
      ),
    );
    this.#tick();
    this.#keepHeads();
  }

  /** @param {number} begins @param {number} ends @param {number} y @param {number} height @param {string} name */
  #span(begins, ends, y, height, name) {
    return s("rect", {
      class: name,
      x: this.#x(begins),
      y,
      width: Math.max(1, this.#x(ends) - this.#x(begins)),
      height,
    });
  }

  /** @param {number} from @param {number} until @param {number} height */
  #ticks(from, until, height) {
    const every = EVERY_H.find((hours) => hours * this.#scale >= TICK_PX) ?? last(EVERY_H);
    /** @type {SVGElement[]} */
    const ticks = [];
    this.#named = [];
    // By the phone's own clock, so that midnight is midnight.
    const midnight = new Date(from).setHours(0, 0, 0, 0);
    for (let at = midnight; at < until; at += every * HOUR_MS) {
      if (at < from) continue;
      const x = this.#x(at);
      this.#named.push(x);
      const isDay = new Date(at).getHours() === 0 && new Date(at).getMinutes() === 0;
      ticks.push(
        s("path", { class: isDay ? "tick day-tick" : "tick", d: `M${x} ${HEAD - 8}V${height}` }),
        s("text", { class: "hour", x: x + 3, y: HEAD - 12 }, clock(at)),
      );
      if (isDay || ticks.length === 2)
        ticks.push(s("text", { class: "day-name", x: x + 3, y: 17 }, dated("shortWeekday", at)));
    }
    return ticks;
  }

  /** @param {DayTask} task @param {number} y @param {boolean} isNext */
  #hands(task, y, isNext) {
    const [x, width] = [
      this.#x(task.starts_at),
      Math.max(3, this.#x(task.ends_at) - this.#x(task.starts_at) - 1),
    ];
    const mark = this.#markOf(task);
    const room = Math.floor((width - 2 * mark.r - 10) / LETTER_W);
    return s(
      "g",
      {
        class: "hands-block",
        "data-task": task.id,
        "data-next": isNext,
        "data-status": task.status,
        "data-thin": width < THIN,
      },
      s("title", {}, `${mark.text} ${task.title}, ${clock(task.starts_at)}`),
      s("rect", {
        x,
        y: y + 5,
        width,
        height: LANE - 12,
        rx: 4,
        fill: task.status === "done" ? "none" : hatch(task.letter),
      }),
      width >= 2 * mark.r - 2 && marked(x + mark.r + 5, y + LANE / 2 - 1, mark),
      room >= 4 && patched(x + 2 * mark.r + 7, y + LANE / 2 - 1, cut(task.title, room)),
    );
  }

  /**
   * Steps of one part, one after the other, seen from afar: one outline, and the letter once.
   * @param {DayTask[]} tasks @param {number} y
   */
  #oneGo(tasks, y) {
    const [x, right] = [this.#x(tasks[0].starts_at), this.#x(last(tasks).ends_at)];
    const mark = this.#markOf(tasks[0]);
    const isNamed = this.#x(tasks[0].ends_at) - x < 2 * mark.r - 1 && right - x >= 2 * mark.r + 2;
    return s(
      "g",
      { class: "one-go" },
      s("rect", { x, y: y + 5, width: Math.max(3, right - x - 1), height: LANE - 12, rx: 4 }),
      isNamed && marked((x + right) / 2, y + LANE / 2 - 1, mark),
    );
  }

  /** @param {DayTask} task @param {number} y */
  #wait(task, y) {
    const [x, right] = [this.#x(task.starts_at), this.#x(task.ends_at)];
    const says = `${task.title} ${clock(task.ends_at)}`;
    const mark = this.#markOf(task);
    const room = Math.floor((right - x - 2 * mark.r - 20) / LETTER_W);
    const middle = y + ROW / 2;
    return s(
      "g",
      { class: "wait-block", "data-task": task.id, "data-status": task.status },
      s("title", {}, `${mark.text} ${says}`),
      s("path", {
        class: "body",
        fill: hatch(task.letter),
        d: `M${x} ${y + 8}L${Math.max(x + 2, right)} ${middle - 3}V${middle + 3}L${x} ${y + ROW - 8}Z`,
      }),
      right - x >= 2 * mark.r + 6 && marked(x + mark.r + 5, middle, mark),
      room >= 6 && patched(x + 2 * mark.r + 7, middle, cut(says, room)),
    );
  }

  /**
   * A part's letter; where several batches share the bench, after the batch's own number among them.
   * @param {{run: string, letter: string}} part @returns {Mark}
   */
  #markOf({ run, letter }) {
    const { batches } = this.#data.ahead;
    if (batches.length === 1) return { text: letter, r: 12 };
    return { text: `${batches.findIndex(({ id }) => id === run) + 1}${letter}`, r: 15 };
  }

  #tick() {
    if (!this.#data || !this.#now) return;
    setAttr(this.#now, "transform", `translate(${this.#x(this.#data.now()).toFixed(1)} 0)`);
  }

  #keepHeads() {
    if (this.#heads) setAttr(this.#heads, "transform", `translate(${this.#stage.scrollLeft} 0)`);
  }

  /** An hour that is named stands at the left edge: none is cut there. */
  #toNow() {
    const wanted = this.#x(this.#data.now()) - this.#stage.clientWidth / 5;
    this.#stage.scrollLeft = Math.floor(this.#named.findLast((x) => x <= wanted) ?? 0);
  }

  /**
   * Larger or smaller, with what is at `middle` (px in the stage) staying where it is.
   * @param {number} by @param {number} [middle]
   */
  #zoom(by, middle = this.#stage.clientWidth / 2) {
    this.#isMoved = true;
    const scale = Math.min(MOST, Math.max(LEAST, this.#scale * by));
    const at = (this.#stage.scrollLeft + middle) / this.#scale;
    this.#scale = scale;
    this.#draw();
    this.#stage.scrollLeft = at * scale - middle;
  }

  /** @param {KeyboardEvent} event */
  #onKey(event) {
    const does = {
      "+": () => this.#zoom(ZOOM),
      "=": () => this.#zoom(ZOOM),
      "-": () => this.#zoom(1 / ZOOM),
      ArrowLeft: () => this.#move(-1),
      ArrowRight: () => this.#move(1),
      Home: () => this.#toNow(),
    }[event.key];
    if (!does || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    does();
  }

  /** @param {number} way */
  #move(way) {
    this.#isMoved = true;
    this.#stage.scrollLeft += way * this.#stage.clientWidth * 0.4;
  }

  /**
   * One finger moves the picture, which the browser does; two make it larger or smaller.
   * @param {PointerEvent} event
   */
  #onFinger(event) {
    this.#isMoved = true;
    if (event.type === "pointerup" || event.type === "pointercancel") {
      this.#fingers.delete(event.pointerId);
      return;
    }
    if (
      event.pointerType !== "touch" ||
      (event.type === "pointermove" && !this.#fingers.has(event.pointerId))
    )
      return;
    const apart = () => {
      const [one, other] = [...this.#fingers.values()];
      return other === undefined ? 0 : Math.abs(one - other);
    };
    const before = apart();
    this.#fingers.set(event.pointerId, event.clientX);
    const after = apart();
    if (event.type !== "pointermove" || before < 20 || after < 20) return;
    const [one, other] = [...this.#fingers.values()];
    this.#zoom(after / before, (one + other) / 2 - this.#stage.getBoundingClientRect().left);
  }
}

/**
 * A mark on a ground of its own, in the middle of a block's hatching.
 * @param {number} x @param {number} middle @param {Mark} mark
 */
function marked(x, middle, { text, r }) {
  return [
    s("circle", { class: "disc", cx: x, cy: middle, r }),
    s("text", { class: "block-letter", x, y: middle + 6 }, text),
  ];
}

/** Words on a ground of their own, from here on. @param {number} x @param {number} middle @param {string} words */
function patched(x, middle, words) {
  return [
    s("rect", { class: "disc", x, y: middle - 13, width: words.length * PATCH_W + 4, height: 25, rx: 3 }),
    s("text", { class: "block-name", x: x + 2, y: middle + 6 }, words),
  ];
}

/**
 * Where each part's row is, and each batch's name where there are several: {rows, names, height} in px.
 * @param {Pick<Ahead, "tasks" | "batches">} ahead @param {number} top
 */
function rowsOf({ tasks, batches }, top) {
  /** @type {RowPlace[]} */
  const rows = [];
  /** @type {NamePlace[]} */
  const names = [];
  let y = top;
  for (const [place, { id, name }] of batches.entries()) {
    const letters = [...new Set(tasks.filter(({ run }) => run === id).map(({ letter }) => letter))];
    if (batches.length > 1 && letters.length) {
      names.push({ name: `${place + 1}: ${name}`, y });
      y += NAME;
    }
    for (const letter of letters) {
      rows.push({ run: id, letter, y });
      y += ROW;
    }
  }
  return { rows, names, height: y + 6 };
}

/** @type {("run" | "letter" | "maker" | "status")[]} what steps that make one go have the same */
const SAME = ["run", "letter", "maker", "status"];

/** Hands-on steps of one part and one maker with nothing between them. @param {DayTask[]} tasks */
function inOneGo(tasks) {
  /** @type {DayTask[][]} */
  const goes = [];
  for (const task of tasks
    .filter(({ kind }) => kind === "hands")
    .sort((a, b) => (a.maker ?? 0) - (b.maker ?? 0) || a.starts_at - b.starts_at)) {
    const going = goes.at(-1);
    const before = going && last(going);
    const goesOn =
      before && SAME.every((key) => before[key] === task[key]) && task.starts_at - before.ends_at < APART_MS;
    if (goesOn) going.push(task);
    else goes.push([task]);
  }
  return goes;
}

/** @param {string} words @param {number} room */
const cut = (words, room) => (words.length > room ? `${words.slice(0, room - 1)}\u2026` : words);

/** @param {Ahead} ahead @param {number} at */
function summary({ tasks, next, finish }, at) {
  const open = tasks.filter(({ status }) => status !== "done");
  const hands = open.filter(({ kind }) => kind === "hands");
  const first = next?.step && tasks.find(({ id }) => id === next.step);
  return [
    say("page-day-left", { hands: hands.length }),
    say("page-day-waits-left", { count: open.length - hands.length }),
    first ? say("page-day-next-is", { letter: first.letter, title: first.title }) : "",
    finish && finish > at ? say("page-day-ends-in", { length: duration(finish - at) }) : "",
  ]
    .filter(Boolean)
    .join(" ");
}

export const registerDayPicture = () => define("day-picture", DayPicture);
