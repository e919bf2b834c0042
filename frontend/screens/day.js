// The day: what is next and why, the whole of it as a picture, what stopping would cost, the sessions to
// keep, and what would save time.
//
//   screen.data = { run, ahead, plan, hours, choices, isMaker, isOnline, now: () => ms }
//                       // plan as the server gave it last, or null; ahead as parts/day-ahead.js gives it;
//                       // choices: the open batches, as studio.choices gives them
// "plan-asked" { runs, out, due: { run: ms or null }, savings }, "plan-heard", "plan-stopped", "hours-written"
// { document }
//   screen.trouble("…")   screen.said("…")

import {
  brokenWords,
  dueWords,
  isDueSaid,
  nextOf,
  planAge,
  stopLines,
  stretch,
  when,
} from "../parts/day-ahead.js";
import { registerDayPicture } from "../parts/day-picture.js";
import { define, given, h, keyed, part as within, setText, show, tell } from "../parts/dom.js";
import { letterMark } from "../parts/hatch.js";
import { HoursForm } from "../parts/hours-form.js";
import { pageHead } from "../parts/page-head.js";
import { onTick } from "../parts/ticker.js";
import { clock } from "../parts/words.js";
import { say } from "../words.js";
import { isApple } from "../platform.js"; // which opens a calendar, and puts a download away unseen
/** @import { Choice } from "../../types/keep" */
/** @import { HoursDoc } from "../../types/server" */
/** @import { Ahead, DayTask, PlanThere } from "../parts/day-ahead.js" */
/** @import { Run } from "../keep/run.js" */
/** @import { Child } from "../../types/dom" */
/** @import { Told } from "../../types/told" */

const HOUR_MS = 3_600_000;
const LISTEN_MS = 2_000; // between two questions while a plan is worked on
/** What stands in place of a step when hands have none to begin. @param {Ahead} ahead @param {number} at */
function nothingNow({ next }, at) {
  if (next?.why.kind === "finished") return say("page-day-nothing-left");
  if (next?.until && next.why.kind === "closed")
    return say("page-day-bench-opens", { when: when(next.until, at) });
  return next?.until && next.why.kind !== "rest"
    ? say("page-day-hands-free", { when: when(next.until, at) })
    : say("page-day-follow");
}

/** The run whose step hands begin first, once they can. @param {Ahead} ahead */
function comesNext({ tasks }) {
  const open = tasks.filter(({ kind, status }) => kind === "hands" && status === "open");
  return open.sort((a, b) => a.starts_at - b.starts_at)[0]?.run;
}

/** The parts of the page that change. @param {() => void} stop stops the looking for a better plan */
function makeParts(stop) {
  const parts = {
    letter: letterMark("A"),
    next: h("h2", { class: "day-next" }),
    why: h("p", { class: "day-why" }),
    broken: h("ul", { class: "cautions" }),
    due: h("ul", { class: "plain" }),
    says: h("p", { class: "soft" }),
    age: h("p", { class: "soft small" }),
    progress: h("p", { class: "soft small", role: "status" }),
    stop: h("button", { type: "button", class: "outlined", onclick: stop }, say("page-day-looking-stop")),
    bench: h("a", { class: "button copper" }, say("page-day-to-bench")),
    picture: h("day-picture"),
    stops: h("ul", { class: "plain stops" }),
    sessions: h("ol", { class: "rows sessions" }),
    calendar: h(
      "a",
      { class: "button outlined", download: isApple ? null : "bench.ics" },
      say("page-day-calendar"),
    ),
    asks: h("div", { class: "stack" }),
    choices: h("ul", { class: "plain" }),
    of: h("select", { "aria-label": say("page-day-which-batch") }),
    by: h("input", { type: "datetime-local", required: true }),
    savings: h("ul", { class: "plain" }),
    trouble: h("p", { class: "trouble", role: "alert", hidden: true }),
    said: h("p", { class: "soft", role: "status" }),
  };
  const working = h("div", { class: "day-working" }, parts.progress, parts.stop);
  return { ...parts, working };
}

/**
 * @typedef {{run: Run, ahead: Ahead, plan: PlanThere, hours: HoursDoc | null, choices: readonly Choice[],
 *   isMaker: boolean, isOnline: boolean, now: () => number}} DayData
 * @typedef {{runs?: readonly string[], out?: readonly string[], due?: {[run: string]: number | null},
 *   savings?: boolean}} PlanAsking
 * @typedef {ReturnType<typeof makeParts>} DayParts
 */

export class DayScreen extends HTMLElement {
  /** @type {DayData} */
  #data = given();
  /** @type {DayParts} */
  #parts = given();
  #stop = () => {};
  #listening = 0;
  #heard = "";
  #hours = new HoursForm((document, button) => this.#ask(button, "hours-written", { document }));

  connectedCallback() {
    if (!this.#parts) this.#build();
    this.#stop = onTick(() => this.#turn());
    this.#listening = setInterval(
      () => this.#data?.plan?.state === "working" && tell(this, "plan-heard"),
      LISTEN_MS,
    );
  }

  disconnectedCallback() {
    this.#stop();
    clearInterval(this.#listening);
  }

  /** @param {DayData} data */
  set data(data) {
    this.#data = data;
    // The plan is heard of once, and again whenever something has happened in the run, and was sent.
    const heard = `${data.run.id} ${data.run.entries.length} ${data.run.waiting().length} ${data.isOnline}`;
    if (data.isOnline && heard !== this.#heard) tell(this, "plan-heard");
    this.#heard = heard;
    this.#write();
  }

  /**
   * What went wrong, beside what was asked last, where eyes are; it takes the place of what was said before.
   * @param {string} text
   */
  trouble(text) {
    setText(this.#parts.trouble, text);
    show(this.#parts.trouble, text !== "");
    if (!text) return;
    setText(this.#parts.said, "");
    this.#parts.trouble.scrollIntoView({ block: "nearest" });
  }

  /** @param {string} text */
  said(text) {
    this.trouble("");
    setText(this.#parts.said, text);
  }

  /**
   * Ask for something; how it went is said beside the button that asked.
   * @template {"plan-asked" | "hours-written"} K @param {Element} button @param {K} name @param {Told[K]} detail
   */
  #ask(button, name, detail) {
    button.after(this.#parts.trouble, this.#parts.said);
    this.said("");
    tell(this, name, detail);
  }

  /** Something turned with the clock: every minute the day is looked at anew, and the server asked. */
  #turn() {
    if (!this.#data || this.#data.now() - this.#data.ahead.at < 60_000) return;
    tell(this, "wait-turned");
    if (this.#data.isOnline) tell(this, "plan-heard");
  }

  /** This batch in the plan, or left out of it. @param {Element} beside @param {string} id @param {boolean} isIn */
  #choose(beside, id, isIn) {
    const { choices, plan } = this.#data;
    const runs = choices.filter((each) => (each.id === id ? isIn : each.isIn)).map((each) => each.id);
    const out = new Set(plan?.out ?? []);
    out[isIn ? "delete" : "add"](id);
    this.#ask(beside, "plan-asked", { runs, out: [...out] });
  }

  #build() {
    registerDayPicture();
    const parts = makeParts(() => tell(this, "plan-stopped"));
    /** @param {() => PlanAsking} asked @returns {(event: MouseEvent & {currentTarget: Element}) => void} */
    const ask = (asked) => (event) => this.#ask(event.currentTarget, "plan-asked", asked());
    const late = h("button", { class: "outlined" }, say("page-day-as-late"));
    const readyBy = h(
      "form",
      {
        class: "ready-by",
        onsubmit: (event) => {
          event.preventDefault();
          this.#ask(late, "plan-asked", { due: { [parts.of.value]: new Date(parts.by.value).getTime() } });
        },
      },
      parts.of,
      h("label", { class: "field" }, h("span", {}, say("page-day-day-and-time")), parts.by),
      late,
      h(
        "button",
        { type: "button", class: "quiet", onclick: ask(() => ({ due: { [parts.of.value]: null } })) },
        say("page-day-as-soon"),
      ),
    );
    /** @param {string} name @param {Child[]} rest */
    const section = (name, ...rest) =>
      h("section", { "aria-label": name }, h("h2", { class: "section-name" }, name), ...rest);
    this.#parts = parts;
    this.append(
      h(
        "div",
        { class: "sheet day" },
        pageHead(say("page-day-title"), ""),
        parts.trouble,
        h(
          "section",
          { class: "day-now", "aria-label": say("page-day-next") },
          parts.broken,
          h("div", { class: "day-line" }, parts.letter, parts.next),
          parts.why,
          parts.bench,
          parts.due,
          parts.says,
          parts.age,
          parts.working,
        ),
        parts.picture,
        section(say("page-day-in-plan"), parts.asks, parts.choices),
        section(say("page-day-stop"), parts.stops),
        section(say("page-day-sessions"), parts.sessions, parts.calendar),
        section(say("page-day-ready-by"), readyBy),
        section(
          say("page-day-save-time"),
          parts.savings,
          h(
            "button",
            { type: "button", class: "outlined wide", onclick: ask(() => ({ savings: true })) },
            say("page-day-work-out"),
          ),
        ),
        section(say("page-day-hours"), this.#hours.node),
        parts.said,
      ),
    );
  }

  #write() {
    const { run, ahead, plan, isOnline, now } = this.#data;
    const parts = this.#parts;
    const at = now();
    const next = nextOf(ahead, plan);
    const task = next?.step ? ahead.tasks.find(({ id }) => id === next.step) : null;
    show(parts.letter, task !== null);
    if (task && parts.letter.lastChild?.textContent !== task.letter) {
      const mark = letterMark(task.letter);
      parts.letter.replaceWith(mark);
      parts.letter = mark;
    }
    setText(parts.next, task ? task.title : nothingNow(ahead, at));
    const batch =
      task && ahead.batches.length > 1 ? `${ahead.batches.find(({ id }) => id === task.run)?.name}. ` : "";
    // What stands above is not said again.
    const isSaid = !task && ["closed", "wait", "later"].includes(ahead.next?.why.kind ?? "");
    const why = `${batch}${isSaid ? "" : next?.advice || next?.reason || ""}`.trim();
    setText(parts.why, why);
    show(parts.why, why !== "");
    const broken = brokenWords(ahead);
    keyed(
      parts.broken,
      broken,
      (text) => text,
      (text) => h("li", {}, text),
    );
    show(parts.broken, broken.length > 0);
    parts.bench.href = `#/bench/${task?.run ?? comesNext(ahead) ?? run.id}`;
    const due = dueWords(ahead, plan);
    keyed(
      parts.due,
      due,
      (text) => text,
      (text) => h("li", {}, text),
    );
    show(parts.due, due.length > 0);
    const ends =
      ahead.finish !== null && ahead.finish > at
        ? say("page-day-done", { when: when(ahead.finish, at) })
        : "";
    const says = plan?.fault?.detail ?? plan?.says ?? "";
    setText(parts.says, `${ends} ${isDueSaid(plan, at) ? "" : says}`.trim());
    setText(parts.age, planAge(plan, at, isOnline));
    const isWorking = plan?.state === "working" && isOnline;
    show(parts.working, isWorking);
    setText(
      parts.progress,
      isWorking
        ? [
            say("page-day-looking", { aim: plan.progress?.aim ?? "" }),
            say("page-day-looking-ends", { seconds: plan.limit }),
          ].join(" ")
        : "",
    );
    parts.picture.data = { ahead, now };
    this.#writeChoices(at);
    this.#writeStops(at);
    this.#writeSessions(at);
    parts.calendar.href = `/api/v1/runs/${run.id}/calendar.ics`;
    show(parts.calendar, Boolean(plan?.plan?.sessions.length) && isOnline);
    keyed(
      parts.savings,
      plan?.savings ?? [],
      ({ says }) => says,
      ({ says }) => h("li", {}, says),
    );
    this.#hours.data = this.#data;
  }

  /** Which batches the plan is of; what nobody touched for a day is asked about. @param {number} at */
  #writeChoices(at) {
    const { run, choices, isOnline } = this.#data;
    const { asks, choices: list, of } = this.#parts;
    if (list.parentElement) show(list.parentElement, choices.length > 1);
    const asked = choices.filter((each) => each.isAsked);
    keyed(
      asks,
      asked,
      ({ id }) => id,
      ({ id, name, touched_at: touched }) =>
        h(
          "div",
          { class: "ask-batch" },
          h("p", {}, say("page-day-touched", { name, when: when(touched, at) })),
          h(
            "button",
            { type: "button", class: "outlined", onclick: () => this.#choose(list, id, true) },
            say("page-day-take-in"),
          ),
          h(
            "button",
            { type: "button", class: "quiet", onclick: () => this.#choose(list, id, false) },
            say("page-day-leave-out"),
          ),
        ),
    );
    keyed(
      list,
      choices,
      ({ id }) => id,
      ({ id }) => {
        /** @type {HTMLInputElement} */
        const box = h("input", { type: "checkbox", onchange: () => this.#choose(list, id, box.checked) });
        return h("li", {}, h("label", { class: "choice" }, box, h("span", {})));
      },
      (node, { id, name, isIn }) => {
        const box = /** @type {HTMLInputElement} */ (within(node, "input"));
        box.checked = isIn;
        box.disabled = id === run.id || !isOnline;
        setText(within(node, "span"), name);
      },
    );
    const chosen = choices.filter((each) => each.isIn);
    keyed(
      of,
      chosen,
      ({ id }) => id,
      ({ id, name }) => h("option", { value: id, selected: id === run.id }, name),
    );
    show(of, chosen.length > 1);
  }

  /**
   * Stopping for an hour from when hands could go on, and until the bench opens the time after.
   * @param {number} at
   */
  #writeStops(at) {
    const { ahead } = this.#data;
    const later = Math.max(at, ahead.next?.until ?? at) + HOUR_MS;
    const opens = ahead.hours[0].map(([begins]) => begins).find((begins) => begins > later);
    const untils = ahead.next && ahead.next.why.kind !== "finished" ? [later, ...(opens ? [opens] : [])] : [];
    keyed(
      this.#parts.stops,
      stopLines(ahead, untils),
      (text) => text,
      (text) => h("li", {}, text),
    );
    const { parentElement: around } = this.#parts.stops;
    if (around) show(around, untils.length > 0);
  }

  /** @param {number} at */
  #writeSessions(at) {
    const { ahead } = this.#data;
    const sessions = ahead.hours.flatMap((hours, maker) =>
      hours
        .map(([opens, closes]) =>
          ahead.tasks
            .filter(
              (task) =>
                task.kind === "hands" &&
                task.status !== "done" &&
                task.maker === maker &&
                task.starts_at >= opens &&
                task.starts_at < closes,
            )
            .sort((a, b) => a.starts_at - b.starts_at),
        )
        .filter((tasks) => tasks.length),
    );
    sessions.sort((a, b) => a[0].starts_at - b[0].starts_at);
    /** @param {DayTask} task */
    const stepOf = ({ run, starts_at, letter, title }) => {
      const step = { at: clock(starts_at), letter, title };
      const name = ahead.batches.find(({ id }) => id === run)?.name ?? "";
      return ahead.batches.length > 1
        ? say("page-day-session-step-of", { ...step, name })
        : say("page-day-session-step", step);
    };
    const told = sessions.map((tasks) => ({
      name: stretch(tasks[0].starts_at, Math.max(...tasks.map((task) => task.ends_at)), at),
      tasks: tasks.map(stepOf),
    }));
    keyed(
      this.#parts.sessions,
      told,
      ({ name, tasks }) => name + tasks.join(),
      ({ name, tasks }) =>
        h(
          "li",
          {},
          h(
            "details",
            {},
            h(
              "summary",
              {},
              h("b", {}, name),
              h("span", { class: "soft" }, " ", say("page-day-session-steps", { count: tasks.length })),
            ),
            h(
              "ol",
              { class: "plain figures-list" },
              tasks.map((text) => h("li", {}, text)),
            ),
          ),
        ),
    );
  }
}

export const registerDayScreen = () => define("day-screen", DayScreen);
