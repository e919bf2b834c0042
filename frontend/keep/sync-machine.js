/**
 * What sync does next: a pure function of what it was doing and of what happened. No clock, no network, no disk;
 * sync.js carries the commands out and tells what came of them. So every order of things can be tried
 * (tests/frontend/sync_world.js), and is.
 *
 *   const { state, commands } = reduce(state, event);
 *
 * A state has one of these names:
 *   stopped    nothing is asked
 *   working    a round is going: step after step, at most one request out at a time
 *   renewing   the server is of another generation; the book is being turned to it
 *   resting    the last round was whole; the next begins when it is due
 *   failed     the last round broke off; it is tried again after a while
 *
 * Every request has a number. An answer to another request than the one awaited is not taken, whatever it says.
 *
 * Below it, what becomes of a journal's rows in the outbox. A row leaves the outbox when what it stands for was
 * read back from the server, under the generation that the book is of, and never before:
 *   {id, run}              to be sent
 *   {id, run, sent}        the server answered that it has it, under that generation; not read back yet
 *   {id, run, held}        read under a former generation: to be looked for in this one, and sent if it is not there
 */

/** @import { OutboxRow } from "../../types/keep" */
/** @import { Command, OnEvent, StepName, SyncEvent, SyncState, Turn } from "../../types/sync" */

/** The leading tab does all; another only keeps its clock right. @type {Record<SyncState["role"], StepName[]>} */
export const STEPS = { leader: ["clock", "send", "open", "lists"], follower: ["clock"] };

/** @param {string | null} generation @returns {SyncState} */
export function begun(generation) {
  return {
    name: "stopped",
    role: "follower",
    generation,
    round: 0,
    step: 0,
    request: 0,
    numbered: 0,
    again: null,
    failures: 0,
    renewals: 0,
    timer: 0,
  };
}

/** @param {SyncState} state @param {SyncEvent} event @returns {Turn} */
export function reduce(state, event) {
  return /** @type {OnEvent<SyncEvent["type"]>} */ (EVENTS[event.type])(state, event);
}

/** @type {{[K in SyncEvent["type"]]: OnEvent<K>}} */
const EVENTS = {
  start: (state) => (state.name === "stopped" ? round({ ...state, failures: 0, renewals: 0 }) : stay(state)),
  stop: (state) => ({ state: { ...state, name: "stopped", request: 0, again: null }, commands: [] }),
  /** This tab leads from now on, or no longer does: what the other one asked is nobody's any more. */
  role: (state, { role }) =>
    role === state.role
      ? stay(state)
      : state.name === "stopped"
        ? stay({ ...state, role })
        : round({ ...state, role, again: null }),
  /** Somebody wants a round. `now`: one of its own, even after one that fails meanwhile. */
  wanted: (state, { now = false }) => {
    if (state.name === "stopped") return stay(state);
    if (isGoing(state)) return stay({ ...state, again: now ? "now" : (state.again ?? "if well") });
    return round(state);
  },
  /** A timer ran out. One that was set before the last is late, and counts no more. */
  due: (state, { timer }) =>
    !isGoing(state) && state.name !== "stopped" && timer === state.timer ? round(state) : stay(state),
  /** A step asks something of the server. */
  asked: (state, { round: of }) => {
    if (state.name !== "working" || of !== state.round) return { state, commands: [{ do: "drop" }] };
    const request = state.numbered + 1;
    return { state: { ...state, request, numbered: request }, commands: [{ do: "send", request }] };
  },
  /** generation: what the answer names; null from a server that names none. */
  answered: (state, { request, generation }) => {
    if (state.name !== "working" || request !== state.request) return { state, commands: [{ do: "drop" }] };
    const heard = { ...state, request: 0 };
    if (generation === null || generation === state.generation)
      return { state: heard, commands: [{ do: "take" }] };
    return {
      state: { ...heard, name: "renewing" },
      commands: [{ do: "drop" }, { do: "renew", generation, round: state.round }],
    };
  },
  renewed: (state, { round: of, generation }) => {
    if (state.name !== "renewing" || of !== state.round) return stay(state);
    const renewed = { ...state, generation, renewals: state.renewals + 1 };
    // Another generation at each answer: two servers under one address. It is asked again, but not at once.
    return renewed.renewals > 2 ? broken(renewed) : round(renewed);
  },
  /** Another tab turned the book: this one's round asked under a generation that is over. */
  turned: (state, { generation }) => {
    if (state.name === "renewing") return stay(state); // this one's own turn ends it
    const turned = { ...state, generation };
    return state.name === "working" ? round(turned) : stay(turned);
  },
  stepped: (state, { round: of }) => {
    if (state.name !== "working" || of !== state.round) return stay(state);
    const step = state.step + 1;
    if (step < STEPS[state.role].length)
      return { state: { ...state, step, request: 0 }, commands: [work(state, step)] };
    return rest({ ...state, name: "resting", failures: 0, renewals: 0 }, state.again !== null, true);
  },
  failed: (state, { round: of }) => (isGoing(state) && of === state.round ? broken(state) : stay(state)),
};

/** @type {(state: SyncState) => boolean} */
const isGoing = ({ name }) => name === "working" || name === "renewing";
/** @type {(state: SyncState) => Turn} */
const stay = (state) => ({ state, commands: [] });
/** @type {(state: SyncState, step: number) => Command} */
const work = ({ role, round }, step) => ({ do: "step", step: STEPS[role][step], round });

/** @param {SyncState} state @returns {Turn} */
function round(state) {
  /** @type {SyncState} */
  const next = { ...state, name: "working", round: state.round + 1, step: 0, request: 0, again: null };
  return { state: next, commands: [work(next, 0)] };
}

/** @param {SyncState} state */
function broken(state) {
  return rest(
    { ...state, name: "failed", failures: state.failures + 1, renewals: 0, request: 0 },
    state.again === "now",
    false,
  );
}

/**
 * The round is over: told, and either followed by another or by a while of nothing.
 * @param {SyncState} state @param {boolean} goesOn @param {boolean} well @returns {Turn}
 */
function rest(state, goesOn, well) {
  /** @type {Command} */
  const told = { do: "tell", well };
  if (goesOn) {
    const next = round(state);
    return { state: next.state, commands: [told, ...next.commands] };
  }
  const timer = state.timer + 1;
  return { state: { ...state, again: null, timer }, commands: [told, { do: "rest", timer, well }] };
}

// What becomes of the outbox's rows

/** Those to send now: neither refused, set aside, sent already, nor first to be looked for. @param {OutboxRow} row */
export const isToSend = (row) => !row.refused && !row.aside && !row.sent && !row.held;

/** Those to be read back. @param {OutboxRow} row */
export const isUnread = (row) => !row.refused && !row.aside && Boolean(row.sent || row.held);

/**
 * Rows after the server answered that it has what they stand for.
 * @param {readonly OutboxRow[]} rows @param {string | null} generation @returns {OutboxRow[]}
 */
export function answeredFor(rows, generation) {
  return rows.map(({ guessed: _, ...row }) => ({ ...row, sent: generation }));
}

/** What was read back needs no row any more. @param {string[]} ids */
export function readBack(ids) {
  return { delete: ids };
}

/**
 * A journal was read to its end: what is unread yet is not there, and is sent (again).
 * @param {readonly OutboxRow[]} rows those that were unread when the reading began, and still are
 * @param {(id: string) => boolean} isOwn whether this phone made it
 * @param {boolean} [isMaker] it gives all back that a restore lost; a helper's phone sends its own, and keeps the rest
 */
export function missed(rows, isOwn, isMaker) {
  /** @type {OutboxRow[]} */
  const put = [];
  /** @type {string[]} */
  const gone = [];
  for (const { sent: _, held, ...row } of rows) {
    if (!held) put.push(row);
    else if (isMaker) put.push({ ...row, given_back: true });
    else if (isOwn(row.id)) put.push(row);
    else gone.push(row.id);
  }
  return { put, delete: gone };
}

/**
 * The server is of another generation: nothing that was read or sent under the former one says anything of this one.
 * @param {readonly OutboxRow[]} rows @param {readonly string[]} entryIds @param {string} run @returns {OutboxRow[]}
 */
export function renewedRows(rows, entryIds, run) {
  const known = new Set(rows.map(({ id }) => id));
  return [
    ...rows.filter(({ sent }) => sent).map(({ sent: _, ...row }) => row),
    ...entryIds.filter((id) => !known.has(id)).map((id) => ({ id, run, held: true })),
  ];
}
