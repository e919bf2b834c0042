// Judging: whether a batch may leave, whether a deviation is accepted, whether a lot may be used. Each is an entry of
// its own beside the record; a further one corrects it, and all of them stay.
//
//   await askJudgement({ title, verdicts, name })    // { verdict, name, why }, or null

import { judgementOf } from "../bench/release.js";
import { last, those } from "../bench/lists.js";
import { criterionName, isOwn, wantedWords } from "../bench/sheet-words.js";
import { h } from "./dom.js";
import { askForm, field, refuse } from "./form.js";
import { part } from "./record-parts.js";
import { clock, day } from "./words.js";
import { say } from "../words.js";
/** @import { GoodPiece, JudgedBody, JudgementTold, Met, Record as BatchRecord } from "../../bench/shapes/page" */
/** @import { RecordCriterion, RecordDeviation, RecordLine, Start } from "../../bench/shapes/page" */

/** @typedef {"released" | "held" | "rejected" | "accepted" | "not_accepted"} Verdict */

/** Those that need no reason. @type {readonly Verdict[]} */
const BARE = ["released", "accepted"];
/** @type {readonly Verdict[]} */
const OF_A_BATCH = ["released", "held", "rejected"];
/** @type {readonly Verdict[]} */
const OF_A_DEVIATION = ["accepted", "not_accepted"];

/**
 * One verdict of several, by whom, and why; a reason is asked where the verdict needs one, and of any verdict where
 * something is open.
 * @template {Verdict} V
 * @param {{title: string, verdicts: readonly V[], name?: string, says?: string, isOpen?: boolean}} asked
 * @returns {Promise<{verdict: V, name: string, why: string} | null>}
 */
export function askJudgement({ title, verdicts, name = "", says = "", isOpen = false }) {
  const who = h("input", { autocomplete: "name", value: name, maxlength: 200 });
  const why = h("textarea", { rows: 2, maxlength: 2000 });
  const rows = [
    says ? h("p", { class: "soft" }, says) : null,
    field(say("page-record-judge-name"), who),
    field(say("page-record-judge-why"), why),
  ];
  const answers = verdicts.map((verdict) =>
    h("button", { type: "submit", value: verdict, class: "outlined" }, say("page-record-judge", { verdict })),
  );
  return askForm(title, answers, rows, (given) => {
    const verdict = verdicts.find((each) => each === given);
    if (verdict === undefined || !who.value.trim()) throw refuse(say("page-record-judge-name-needed"));
    if ((isOpen || !BARE.includes(verdict)) && !why.value.trim())
      throw refuse(say("page-record-judge-why-needed"));
    return { verdict, name: who.value.trim(), why: why.value.trim() };
  });
}

/** "Released by A., 30 Nov, 09:12: reason". @param {JudgementTold} judged */
const judgedWords = ({ verdict, name, at, why }) =>
  [say("page-record-judged", { verdict, name, at: day(at) }), why].filter(Boolean).join(": ");

/** How the batch was judged, for the facts on top. @param {Pick<BatchRecord, "release">} told */
export function releaseWords({ release }) {
  if (!release) return say("page-record-judged-none");
  return release.holds ? judgedWords(release) : say("page-record-judged-anew", { at: day(release.at) });
}

/** Who judged last is likely to judge again. @param {Pick<BatchRecord, "judgements">} told */
const lastName = ({ judgements }) => (judgements.length ? last(judgements).name : "");

/** @param {string} words @param {() => unknown} press @param {string} [label] */
const does = (words, press, label) =>
  h("button", { type: "button", class: "quiet no-print", "aria-label": label, onclick: press }, words);

/** What nobody accepted and nobody said, which a release must give a reason for. @param {BatchRecord} told */
function openWords(told) {
  const departs = told.deviations.filter(
    ({ about }) => judgementOf(told, about)?.verdict !== "accepted",
  ).length;
  const unsaid = told.criteria.filter(({ found }) => !found).length;
  return [
    departs ? say("page-record-judge-departs", { count: departs }) : "",
    unsaid ? say("page-record-judge-unsaid", { count: unsaid }) : "",
  ].filter(Boolean);
}

/**
 * Whether the batch may leave, and every judgement of it.
 * @param {BatchRecord} told @param {boolean} mayJudge @param {(body: JudgedBody) => void} judge
 */
export function releasePart(told, mayJudge, judge) {
  const earlier = told.judgements.filter(({ about }) => about === "batch");
  if (!told.finished_at && !earlier.length) return null;
  const signed = told.signed;
  const ask = async () => {
    const verdicts = OF_A_BATCH.filter((each) => each !== "released" || signed);
    const open = openWords(told);
    const given = await askJudgement({
      title: say("page-record-judge-batch"),
      verdicts,
      name: lastName(told),
      says: [...(signed ? [] : [say("page-record-judge-sign-first")]), ...open].join(" "),
      isOpen: open.length > 0,
    });
    if (!given) return;
    const { verdict, name, why } = given;
    const body = { about: "batch", verdict, name, ...(why ? { why } : {}) };
    judge(verdict === "released" && signed ? { ...body, signing: signed.id } : body);
  };
  return part(
    say("page-record-release"),
    h("p", {}, h("b", {}, releaseWords(told))),
    earlier.length > 1
      ? h(
          "ul",
          { class: "plain small" },
          earlier.map((each) => h("li", {}, judgedWords(each))),
        )
      : null,
    mayJudge ? does(say("page-record-judge-batch"), ask) : null,
  );
}

/**
 * What departs, and how it was judged.
 * @param {BatchRecord} told @param {boolean} mayJudge @param {(body: JudgedBody) => void} judge
 */
export function deviationsPart(told, mayJudge, judge) {
  if (!told.deviations.length) return null;
  /** @param {RecordDeviation} departs */
  const row = ({ about, kind, name }) => {
    const called =
      kind === "start"
        ? say(`gather-start-${/** @type {Start} */ (name)}`)
        : kind === "criterion"
          ? calledOf(name, told.criteria)
          : name;
    const judged = judgementOf(told, about);
    const ask = async () => {
      const title = [called, say("page-record-deviation", { kind })].join(": ");
      const given = await askJudgement({ title, verdicts: OF_A_DEVIATION, name: lastName(told) });
      if (!given) return;
      const { why, ...rest } = given;
      judge({ about, ...rest, ...(why ? { why } : {}) });
    };
    return h(
      "li",
      {},
      h("b", {}, called),
      `: ${say("page-record-deviation", { kind })}`,
      h(
        "span",
        { class: "soft small lot-line" },
        judged ? judgedWords(judged) : say("page-record-judged-none"),
      ),
      mayJudge ? does(say("page-record-judge-it"), ask, say("page-record-judge-of", { name: called })) : null,
    );
  };
  return part(say("page-record-deviations"), h("ul", { class: "plain" }, told.deviations.map(row)));
}

/** What is judged, by its code. @param {string} criterion @param {readonly GoodPiece[]} all */
function calledOf(criterion, all) {
  const wanted = all.find((each) => each.criterion === criterion);
  return wanted ? criterionName(wanted) : criterion;
}

/**
 * What the recipe wants of a good piece, each asked at the end.
 * @param {BatchRecord} told @param {(wanted: RecordCriterion, answer: Met) => unknown} answer
 */
export function criteriaPart(told, answer) {
  if (!told.criteria.length) return null;
  const isOpen = !told.signed && told.finished_at !== null;
  return part(
    say("sheet-good-piece"),
    h(
      "ul",
      { class: "plain" },
      told.criteria.map((wanted) => {
        const name = criterionName(wanted);
        const { found } = wanted;
        return h(
          "li",
          {},
          h("b", {}, name),
          isOwn(wanted.criterion) ? "" : `: ${wantedWords(wanted)}`,
          h(
            "span",
            { class: "soft small lot-line" },
            found
              ? those([say("page-record-found", { at: clock(found.at), answer: found.answer }), found.text])
                  .filter(Boolean)
                  .join(": ")
              : say("page-record-not-said"),
          ),
          isOpen
            ? h(
                "div",
                { class: "record-does no-print" },
                /** @type {readonly Met[]} */ (["yes", "no"]).map((each) =>
                  does(
                    say("page-record-met", { answer: each }),
                    () => answer(wanted, each),
                    say("page-record-met-of", { answer: each, name }),
                  ),
                ),
              )
            : null,
        );
      }),
    ),
  );
}

/** What was asked before the first weighing. @param {BatchRecord} told */
export function startsPart({ starts }) {
  if (!starts.length) return null;
  return part(
    say("sheet-starts"),
    h(
      "ul",
      { class: "plain" },
      starts.map(({ what, at }) =>
        h(
          "li",
          {},
          `${say(`gather-start-${what}`)}: ${at === null ? say("page-record-not-said") : clock(at)}`,
        ),
      ),
    ),
  );
}
