/**
 * What the run's journal and the shelf's have in common: an entry's envelope, its fields, its undoing.
 *
 * A table of kinds says which fields a body has. A fold sets aside by `understood`; the server
 * refuses by the same types, in bench/entries.py.
 */

import { byCodePoint, canonical } from "./whole.js";

const MOST_AT = 8_640_000_000_000_000; // the last instant a Date can hold
const MOST_MG = 10 ** 9; // a tonne in one touch is a slip of the finger
const MOST_MS = 366 * 86_400_000;
const MOST_IDS = 20_000;
const MOST_TEXT = 2000;

export const isWhole = (value, least, most) => Number.isSafeInteger(value) && value >= least && value <= most;
const KEY = /^[A-Za-z0-9_.-]{1,140}$/;
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const SHA256 = /^[0-9a-f]{64}$/;
const DEVICE = /^[A-Za-z0-9_-]{1,64}$/;

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
  measured: (value) => ["piece", "left", "spoiled"].includes(value),
  text: isText,
  ids: (value) =>
    Array.isArray(value) &&
    value.length <= MOST_IDS &&
    value.every((each, index) => isKey(each) && (!index || value[index - 1] < each)),
  uuid: (value) => typeof value === "string" && UUID.test(value),
  sha256: (value) => typeof value === "string" && SHA256.test(value),
};

function isKey(value) {
  return typeof value === "string" && KEY.test(value);
}

/** Text of 1 to 2000 characters; one written as a surrogate pair counts once. */
function isText(value) {
  if (typeof value !== "string" || value === "" || value.length > 2 * MOST_TEXT) return false;
  return value.length <= MOST_TEXT || [...value].length <= MOST_TEXT;
}

/** A kind's fields, "?" after the name of one that may be absent, as [{name, fits, required}]. */
export function fields(written, fits = FITS) {
  return Object.entries(written).map(([name, kind]) => ({
    name: name.replace("?", ""),
    fits: fits[kind],
    required: !name.endsWith("?"),
  }));
}

export const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

/** Whether the fold can place an entry at all: it has an id, a device, a time, a kind and a body. */
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

/** Whether a fold can read the body of a placeable entry: a known kind with every field as it should be. */
export function understood(entry, kinds) {
  const known = kinds.get(entry.kind);
  if (!known) return false;
  for (const { name, fits, required } of known) {
    const value = entry.body[name];
    if (value === undefined ? required : !fits(value)) return false;
  }
  return true;
}

function compare(one, other) {
  if (one.at !== other.at) return one.at - other.at;
  if (one.device !== other.device) return one.device < other.device ? -1 : 1;
  return one.id < other.id ? -1 : one.id === other.id ? 0 : 1;
}

/** Each placeable entry once, by (at, device, id). Of two with one id the lesser spelling stays. */
export function inOrder(entries) {
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

/** Entries in order, less the undone and their undos. An undo takes back only what came before it. */
export function lessUndone(ordered) {
  const undos = ordered.filter((entry) => entry.kind === "undone");
  if (!undos.length) return ordered;
  const place = new Map(ordered.map((entry, index) => [entry.id, index]));
  const gone = new Set();
  for (const undo of undos.reverse()) {
    if (!gone.has(undo.id) && place.get(undo.body.entry) < place.get(undo.id))
      gone.add(undo.body.entry).add(undo.id);
  }
  return ordered.filter((entry) => !gone.has(entry.id));
}
