/**
 * What the run's journal and the shelf's have in common: an entry's envelope, its fields, its undoing.
 *
 * A table of kinds says which fields a body has. A fold sets aside by `understood`; the server
 * refuses by the same types, in bench/entries.py.
 */

import { RUN_KINDS } from "./kinds.js";
import { byCodePoint, canonical } from "./whole.js";
/** @import { Entry } from "../../bench/shapes/page" */

const MOST_AT = 8_640_000_000_000_000; // the last instant a Date can hold
const MOST_MG = 10 ** 9; // a tonne in one touch is a slip of the finger
const MOST_MS = 366 * 86_400_000;
const MOST_IDS = 20_000;
const MOST_TEXT = 2000;

/**
 * @typedef {(value: unknown) => boolean} Fit whether a value is of a type
 * @typedef {{name: string, fits: Fit, required: boolean}} Field
 * @typedef {Map<string, Field[]>} Kinds
 */

/** @param {unknown} value @param {number} least @param {number} most */
export const isWhole = (value, least, most) =>
  typeof value === "number" && Number.isSafeInteger(value) && value >= least && value <= most;
const KEY = /^[A-Za-z0-9_.-]{1,140}$/;
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const SHA256 = /^[0-9a-f]{64}$/;
const DEVICE = /^[A-Za-z0-9_-]{1,64}$/;

/** @type {{[type: string]: Fit}} */
export const FITS = {
  id: isKey,
  key: isKey,
  mass: (value) => isWhole(value, 0, MOST_MG),
  whole: (value) => Number.isSafeInteger(value),
  count: (value) => isWhole(value, 0, 10_000),
  factor: (value) => isWhole(value, 1, 10 ** 12),
  weigh: (value) => value === "running" || value === "tare",
  answer: (value) => value === "yes" || value === "not_yet" || value === "too_far",
  span: (value) => isWhole(value, 1, MOST_MS),
  humidity: (value) => isWhole(value, 1, 100),
  warmth: (value) => isWhole(value, -40_000, 60_000),
  measured: (value) => value === "piece" || value === "left" || value === "spoiled",
  judgement: oneOf("released", "held", "rejected", "accepted", "not_accepted"),
  lot_verdict: oneOf("held", "accepted", "rejected"),
  met: oneOf("yes", "no"),
  market: oneOf("us", "eu", "uk"),
  paper: oneOf("safety_sheet", "ifra_certificate", "analysis", "other"),
  media: oneOf("pdf", "jpeg", "png"),
  complaint: oneOf("complaint", "reaction"),
  text: isText,
  ids: (value) =>
    Array.isArray(value) &&
    value.length <= MOST_IDS &&
    value.every((each, index) => isKey(each) && (!index || value[index - 1] < each)),
  uuid: (value) => typeof value === "string" && UUID.test(value),
  sha256: (value) => typeof value === "string" && SHA256.test(value),
};

/** @param {...string} words @returns {Fit} */
function oneOf(...words) {
  return (value) => typeof value === "string" && words.includes(value);
}

/** @param {unknown} value */
function isKey(value) {
  return typeof value === "string" && KEY.test(value);
}

/** Text of 1 to 2000 characters; one written as a surrogate pair counts once. @param {unknown} value */
function isText(value) {
  if (typeof value !== "string" || value === "" || value.length > 2 * MOST_TEXT) return false;
  return value.length <= MOST_TEXT || [...value].length <= MOST_TEXT;
}

/**
 * A kind's fields, "?" after the name of one that may be absent.
 * @param {{[name: string]: string}} written @param {{[type: string]: Fit}} [fits] @returns {Field[]}
 */
export function fields(written, fits = FITS) {
  return Object.entries(written).map(([name, kind]) => ({
    name: name.replace("?", ""),
    fits: fits[kind],
    required: !name.endsWith("?"),
  }));
}

/** The kinds of a run's entries that have a trait. @param {string} trait */
export function kindsThat(trait) {
  const rows = Object.entries(RUN_KINDS).filter(([, { traits }]) => traits.includes(trait));
  return new Set(rows.map(([kind]) => kind));
}

/** Kinds that judge what was done: they stand beside any seal, and no undo reaches them. */
export const JUDGEMENTS = kindsThat("judgement");

/** @param {unknown} value @returns {value is {[field: string]: unknown}} */
export const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

/**
 * Whether the fold can place an entry at all: it has an id, a device, a time, a kind and a body.
 * @param {unknown} entry
 */
function placeable(entry) {
  return (
    isObject(entry) &&
    FITS.id(entry.id) &&
    typeof entry.device === "string" &&
    DEVICE.test(entry.device) &&
    isWhole(entry.at, 0, MOST_AT) &&
    typeof entry.kind === "string" &&
    isObject(entry.body)
  );
}

/**
 * Whether a fold can read the body of a placeable entry: a known kind with every field as it should be.
 * @param {Pick<Entry, "kind" | "body">} entry @param {Kinds} kinds
 */
export function understood(entry, kinds) {
  const known = kinds.get(entry.kind);
  if (!known) return false;
  for (const { name, fits, required } of known) {
    const value = entry.body[name];
    if (value === undefined ? required : !fits(value)) return false;
  }
  return true;
}

/** @param {Entry} one @param {Entry} other */
function compare(one, other) {
  if (one.at !== other.at) return one.at - other.at;
  if (one.device !== other.device) return one.device < other.device ? -1 : 1;
  return one.id < other.id ? -1 : one.id === other.id ? 0 : 1;
}

/**
 * Each placeable entry once, by (at, device, id). Of two with one id the lesser spelling stays.
 * @template {Entry} E @param {readonly E[]} entries
 */
export function inOrder(entries) {
  /** @type {Map<string, E>} */
  const kept = new Map();
  for (const entry of entries) {
    if (!placeable(entry)) continue;
    const other = kept.get(entry.id);
    if (!other || (entry !== other && byCodePoint(canonical(entry), canonical(other)) < 0)) {
      kept.set(entry.id, entry);
    }
  }
  return [...kept.values()].sort(compare);
}

/**
 * Entries in order, less the undone and their undos. An undo takes back only what came before it, and no judgement.
 * @template {Entry} E @param {readonly E[]} ordered
 */
export function lessUndone(ordered) {
  const undos = ordered.filter((entry) => entry.kind === "undone");
  if (!undos.length) return ordered;
  const place = new Map(
    ordered.map((entry, index) => [entry.id, JUDGEMENTS.has(entry.kind) ? Infinity : index]),
  );
  /** @type {Set<string>} */
  const gone = new Set();
  for (const undo of undos.reverse()) {
    const undone = String(undo.body.entry);
    if (!gone.has(undo.id) && (place.get(undone) ?? Infinity) < (place.get(undo.id) ?? -1))
      gone.add(undone).add(undo.id);
  }
  return ordered.filter((entry) => !gone.has(entry.id));
}
