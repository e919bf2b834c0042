/**
 * A small world in which every order of things is tried: phones, each a disk and its tabs, and a server that may be
 * put back to an older copy. A line may lose what is asked and what is answered, and may bring either late; a tab may
 * be killed. What the tabs do is the page's own sync-machine.js; here are only a disk, a line and a server.
 *
 * In every state that can be reached it must hold that
 * - no answer is taken but to the request that is awaited;
 * - what has no row in a phone's outbox was read back from the server, under the generation that the phone's disk is of;
 * - what a phone holds and has no row for, the server has, as long as its generation lives;
 * - a phone that has read so far lacks nothing of what lies before.
 * And when all is well again and nobody does anything, all hold the same, and all that was ever entered.
 */

import * as real from "/keep/sync-machine.js";

const RUN = "run";

/** What could be wrong in it, to show that it would be seen. */
export const MUTANTS = {
  "any answer is taken": {
    reduce: (state, event) =>
      real.reduce(state, event.type === "answered" ? { ...event, request: state.request } : event),
  },
  "any generation is taken": {
    reduce: (state, event) =>
      real.reduce(state, event.type === "answered" ? { ...event, generation: state.generation } : event),
  },
  "an answer to a POST empties the outbox": { answeredFor: () => null },
  "nothing is looked for in a new generation": { renewedRows: (rows) => rows },
  "what is not read back is forgotten": { missed: (rows) => ({ put: [], delete: rows.map(({ id }) => id) }) },
  "what is not read back is waited for": { missed: () => ({ put: [], delete: [] }) },
  "a tab writes under a generation that is over": { isUnder: () => true },
  "a row that is gone comes back": { isThere: () => true },
  "the round goes on with what was turned meanwhile": {
    reduce: (state, event) => (event.type === "turned" ? { state, commands: [] } : real.reduce(state, event)),
  },
};

const OWN = {
  reduce: real.reduce,
  answeredFor: real.answeredFor,
  missed: real.missed,
  renewedRows: real.renewedRows,
  isUnder: (disk, generation) => disk.generation === generation,
  isThere: (rows, id) => rows.has(id),
};

export class Wrong extends Error {}

class World {
  #way;
  #given;

  /** @param given {phones: tabs of each, enter, restore, giveUp, kill, swap, now, page, helpers} how much of each may happen */
  constructor(given, mutant = {}) {
    this.#given = {
      enter: [],
      restore: 0,
      giveUp: 0,
      kill: 0,
      swap: 0,
      now: 0,
      page: 1,
      helpers: [],
      ...given,
    };
    this.#way = { ...OWN, ...mutant };
  }

  first() {
    const { phones, enter, restore, giveUp, kill, swap, now } = this.#given;
    let world = {
      server: { generation: 1, log: [], next: 1 },
      phones: phones.map((tabs) => ({
        disk: { generation: null, cursor: 0, entries: new Set(), rows: new Map(), read: new Set() },
        tabs: Array.from({ length: tabs }, () => blankTab(null)),
      })),
      left: { enter, restore, giveUp, kill, swap, now },
    };
    phones.forEach((tabs, p) => {
      // Where a tab leads it leads alone; where there are no locks all of them do.
      for (let t = 0; t < tabs; t += 1)
        if (t === 0 || swap === 0) world = this.#tell(world, p, t, { type: "role", role: "leader" });
    });
    return world;
  }

  /** Every world that may come next. */
  *after(world) {
    const { left, server } = world;
    for (let p = 0; p < world.phones.length; p += 1) {
      const { disk, tabs } = world.phones[p];
      const spent = (what) => ({ ...world, left: { ...left, [what]: left[what] - 1 } });
      if (left.enter[p] > 0) {
        const id = `${p}.${left.enter[p]}`;
        const entered = {
          ...disk,
          entries: new Set([...disk.entries, id]),
          rows: new Map([...disk.rows, [id, { id, run: RUN }]]),
        };
        const after = withDisk(
          { ...world, left: { ...left, enter: left.enter.with(p, left.enter[p] - 1) } },
          p,
          entered,
        );
        yield this.#tell(
          after,
          p,
          tabs.findIndex(({ machine }) => machine.role === "leader"),
          { type: "wanted" },
        );
      }
      for (let t = 0; t < tabs.length; t += 1) {
        const { machine, line, turning } = tabs[t];
        if (machine.name === "stopped") yield this.#tell(world, p, t, { type: "start" });
        else if (machine.name === "resting" || machine.name === "failed")
          yield this.#tell(world, p, t, { type: "due", timer: machine.timer });
        if (turning) yield this.#turn(world, p, t);
        if (isBehind(machine, disk))
          yield this.#tell(world, p, t, { type: "turned", generation: disk.generation });
        for (let n = 0; n < line.length; n += 1) {
          if (!line[n].answer) yield this.#arrive(world, p, t, n);
          else if (!line[n].orphan) yield this.#deliver(world, p, t, n);
        }
        if (machine.request && left.giveUp > 0)
          yield this.#tell(spent("giveUp"), p, t, { type: "failed", round: machine.round });
        if (left.kill > 0 && machine.name !== "stopped") {
          const orphans = line.filter(({ answer }) => !answer).map((each) => ({ ...each, orphan: true }));
          const killed = withTab(spent("kill"), p, t, { ...blankTab(disk.generation), line: orphans });
          yield this.#tell(this.#tell(killed, p, t, { type: "role", role: machine.role }), p, t, {
            type: "start",
          });
        }
        if (left.now > 0 && machine.name === "working")
          yield this.#tell(spent("now"), p, t, { type: "wanted", now: true });
        if (left.swap > 0 && tabs.length > 1 && machine.role === "leader") {
          const other = (t + 1) % tabs.length;
          yield this.#tell(this.#tell(spent("swap"), p, t, { type: "role", role: "follower" }), p, other, {
            type: "role",
            role: "leader",
          });
        }
      }
    }
    if (left.restore > 0) {
      for (let kept = 0; kept <= server.log.length; kept += 1) {
        yield {
          ...world,
          server: {
            generation: server.generation + 1,
            log: server.log.slice(0, kept),
            next: server.next + 100,
          },
          left: { ...left, restore: left.restore - 1 },
        };
      }
    }
  }

  /** What must hold in every state. */
  judge({ server, phones }) {
    const there = new Set(server.log.map(([, id]) => id));
    for (const [p, { disk }] of phones.entries()) {
      if (!this.#given.helpers.includes(p))
        for (const id of disk.entries)
          if (!disk.rows.has(id) && !disk.read.has(id)) throw new Wrong(`${id} left the outbox unread`);
      if (disk.generation !== server.generation) continue;
      for (const id of disk.entries)
        if (!disk.rows.has(id) && !there.has(id))
          throw new Wrong(`${id} left the outbox and the server has not got it`);
      for (const [seq, id] of server.log)
        if (seq <= disk.cursor && !disk.entries.has(id)) throw new Wrong(`${id} was passed over`);
    }
  }

  /** All is well from here on: in the end all hold the same, and all that was entered. */
  heal(world) {
    const wanted = [...new Set(world.phones.flatMap(({ disk }) => [...disk.entries]))].sort().join();
    for (let pass = 0; pass < 12; pass += 1) {
      for (let p = 0; p < world.phones.length; p += 1) {
        for (let t = 0; t < world.phones[p].tabs.length; t += 1) world = this.#settle(world, p, t, pass);
      }
      const held = world.phones.map(({ disk }) => [...disk.entries].sort().join());
      const kept = world.server.log
        .map(([, id]) => id)
        .sort()
        .join();
      if (
        kept === wanted &&
        held.every((each) => each === wanted) &&
        world.phones.every(({ disk }) => disk.rows.size === 0)
      )
        return;
    }
    throw new Wrong("It never comes to rest with all that was entered everywhere");
  }

  #settle(world, p, t, pass) {
    const now = () => world.phones[p].tabs[t];
    const { machine } = now();
    if (machine.name === "stopped") world = this.#tell(world, p, t, { type: "start" });
    else if (machine.name === "resting" || machine.name === "failed")
      world = this.#tell(world, p, t, { type: "due", timer: machine.timer });
    for (let turns = 0; turns < 60; turns += 1) {
      const { machine: at, line, turning } = now();
      if (isBehind(at, world.phones[p].disk))
        world = this.#tell(world, p, t, { type: "turned", generation: world.phones[p].disk.generation });
      else if (turning) world = this.#turn(world, p, t);
      else if (line.length > 0)
        world = line[0].answer
          ? line[0].orphan
            ? withTab(world, p, t, { ...now(), line: line.slice(1) })
            : this.#deliver(world, p, t, 0)
          : this.#arrive(world, p, t, 0);
      else if (at.name === "working" && pass > 0 && turns > 40) throw new Wrong("A round does not end");
      else if (at.name !== "working") return world;
      this.judge(world);
    }
    return world;
  }

  // A tab

  #tell(world, p, t, event) {
    const before = world.phones[p].tabs[t];
    const { state, commands } = this.#way.reduce(before.machine, event);
    let after = withTab(world, p, t, { ...before, machine: state });
    for (const command of commands) {
      if (command.do === "step") after = this.#step(after, p, t, command);
      if (command.do === "renew")
        after = withTab(after, p, t, { ...after.phones[p].tabs[t], turning: command });
    }
    return after;
  }

  #step(world, p, t, { step, round }) {
    const { disk, tabs } = world.phones[p];
    const { machine } = tabs[t];
    const job = { round, generation: machine.generation, unread: null };
    const began = withTab(world, p, t, {
      ...tabs[t],
      job: step === "clock" ? job : { ...job, generation: tabs[t].job.generation },
    });
    if (step === "send") {
      const ids = [...disk.rows.values()].filter(real.isToSend).map(({ id }) => id);
      if (ids.length > 0) return this.#ask(began, p, t, { post: ids });
    }
    if (step === "open") return this.#read(began, p, t);
    return this.#tell(began, p, t, { type: "stepped", round });
  }

  #read(world, p, t) {
    const { disk, tabs } = world.phones[p];
    const { job } = tabs[t];
    const unread = job.unread ?? [...disk.rows.values()].filter(real.isUnread).map(({ id }) => id);
    return this.#ask(withTab(world, p, t, { ...tabs[t], job: { ...job, unread } }), p, t, {
      after: disk.cursor,
    });
  }

  #ask(world, p, t, asks) {
    const { job } = world.phones[p].tabs[t];
    const { state, commands } = this.#way.reduce(world.phones[p].tabs[t].machine, {
      type: "asked",
      round: job.round,
    });
    if (commands[0].do !== "send") return world;
    const tab = world.phones[p].tabs[t];
    const request = { ...asks, request: state.request, meant: job.generation, job };
    return withTab(world, p, t, { ...tab, machine: state, line: [...tab.line, request] });
  }

  #deliver(world, p, t, n) {
    const tab = world.phones[p].tabs[t];
    const { request, answer, post, job } = tab.line[n];
    const event = { type: "answered", request, generation: answer.generation };
    const isAwaited = tab.machine.name === "working" && request === tab.machine.request;
    const isTaken = this.#way.reduce(tab.machine, event).commands[0].do === "take";
    const rest = withTab(world, p, t, { ...tab, line: tab.line.filter((_, at) => at !== n) });
    const told = this.#tell(rest, p, t, event);
    if (!isTaken) return told;
    if (!isAwaited) throw new Wrong("An answer was taken that was not awaited");
    if (answer.status === 409) return this.#tell(told, p, t, { type: "failed", round: job.round });
    if (post) {
      const rows = post.map((id) => ({ ...told.phones[p].disk.rows.get(id), id, run: RUN }));
      return this.#commit(
        told,
        p,
        t,
        job,
        isKept(this.#way.answeredFor(rows, job.generation), post),
        {},
        (kept) => this.#tell(kept, p, t, { type: "stepped", round: job.round }),
      );
    }
    const { entries, next, more } = answer;
    return this.#commit(told, p, t, job, real.readBack(entries), { entries, cursor: next }, (read) => {
      if (more) return this.#read(read, p, t);
      const { unread } = read.phones[p].tabs[t].job;
      const { rows } = read.phones[p].disk;
      const yet = unread.map((id) => rows.get(id)).filter((row) => row && real.isUnread(row));
      const { put, delete: gone } = this.#way.missed(
        yet,
        (id) => id.startsWith(`${p}.`),
        !this.#given.helpers.includes(p),
      );
      const end = (over) =>
        this.#tell(put.length + gone.length ? this.#tell(over, p, t, { type: "wanted" }) : over, p, t, {
          type: "stepped",
          round: job.round,
        });
      return this.#commit(read, p, t, job, { put, delete: gone }, {}, end);
    });
  }

  #commit(world, p, t, job, { put = [], delete: gone = [] }, { entries = [], cursor }, then) {
    const { disk, tabs } = world.phones[p];
    const { machine } = tabs[t];
    if (machine.name !== "working" || machine.round !== job.round) return world;
    if (!this.#way.isUnder(disk, job.generation))
      return this.#tell(world, p, t, { type: "failed", round: job.round });
    const rows = new Map(disk.rows);
    for (const row of put) if (this.#way.isThere(rows, row.id)) rows.set(row.id, row);
    for (const id of gone) rows.delete(id);
    return then(
      withDisk(world, p, {
        ...disk,
        rows,
        entries: new Set([...disk.entries, ...entries]),
        read: new Set([...disk.read, ...entries]),
        cursor: cursor ?? disk.cursor,
      }),
    );
  }

  /** The book is turned to another generation, in one transaction. */
  #turn(world, p, t) {
    const { disk, tabs } = world.phones[p];
    const { generation, round } = tabs[t].turning;
    const rows = new Map(disk.rows);
    for (const row of this.#way.renewedRows([...rows.values()], [...disk.entries], RUN))
      rows.set(row.id, row);
    const turned = withDisk(withTab(world, p, t, { ...tabs[t], turning: null }), p, {
      ...disk,
      generation,
      cursor: 0,
      rows,
      read: new Set(),
    });
    return this.#tell(turned, p, t, { type: "renewed", round, generation });
  }

  // The server

  #arrive(world, p, t, n) {
    const tab = world.phones[p].tabs[t];
    const { post, after, meant } = tab.line[n];
    let { server } = world;
    const { generation } = server;
    let answer = { generation };
    if (post && meant !== null && meant !== generation) answer.status = 409;
    else if (post) {
      const had = new Set(server.log.map(([, id]) => id));
      const log = [
        ...server.log,
        ...post.filter((id) => !had.has(id)).map((id, at) => [server.next + at, id]),
      ];
      server = { ...server, log, next: server.next + post.length };
    } else {
      const further = server.log.filter(([seq]) => seq > after);
      const page = further.slice(0, this.#given.page);
      answer = {
        generation,
        entries: page.map(([, id]) => id),
        next: page.length ? page.at(-1)[0] : after,
        more: further.length > page.length,
      };
    }
    const line = tab.line.with(n, { ...tab.line[n], answer });
    return withTab({ ...world, server }, p, t, { ...tab, line });
  }
}

/** What a mutant that answers null does: it takes the rows out. */
const isKept = (put, ids) => (put ? { put } : { delete: ids });
const blankTab = (generation) => ({ machine: real.begun(generation), line: [], job: null, turning: null });
const isBehind = (machine, disk) => disk.generation !== machine.generation && machine.name !== "renewing";
const withDisk = (world, p, disk) => ({
  ...world,
  phones: world.phones.with(p, { ...world.phones[p], disk }),
});
const withTab = (world, p, t, tab) => ({
  ...world,
  phones: world.phones.with(p, { ...world.phones[p], tabs: world.phones[p].tabs.with(t, tab) }),
});

/** What tells two worlds apart. Of numbers that are only ever compared, whether they are the same. */
function keyOf({ server, phones, left }) {
  const of = ({ disk, tabs }) => {
    const rows = [...disk.rows.values()]
      .map(
        ({ id, sent, held, given_back: back }) =>
          `${id}${sent ? `s${sent}` : ""}${held ? "h" : ""}${back ? "b" : ""}`,
      )
      .sort();
    return [disk.generation, disk.cursor, [...disk.entries].sort(), rows, tabs.map(tabKey)].join("/");
  };
  return [
    server.generation,
    server.next,
    server.log.join(" "),
    phones.map(of).join(" & "),
    Object.values(left).join(" "),
  ].join(" | ");
}

function tabKey({
  machine: { name, role, generation, round, step, request, again, renewals },
  line,
  job,
  turning,
}) {
  const item = (each) =>
    [
      each.request === request,
      each.post,
      each.after,
      each.meant,
      each.orphan,
      each.job.round === round,
      each.job.unread,
      each.answer && Object.values(each.answer).join(","),
    ].join(":");
  return [
    name,
    role,
    generation,
    step,
    Boolean(request),
    again,
    renewals,
    line.map(item).sort(),
    job && [job.generation, job.round === round, job.unread].join(":"),
    turning && [turning.generation, turning.round === round].join(":"),
  ].join(";");
}

/**
 * Try every order, the shortest first.
 * @returns {{states: number, depth: number, healed: number, wrong: string|null}} wrong: the first fault, null for none
 */
export function search(
  given,
  { mutant = null, states: most = Infinity, depth: deepest = Infinity, healEvery = 1 } = {},
) {
  const world = new World(given, mutant ? MUTANTS[mutant] : {});
  const seen = new Set();
  let front = [world.first()];
  let healed = 0;
  let depth = 0;
  try {
    for (; front.length > 0 && depth < deepest; depth += 1) {
      const next = [];
      for (const state of front) {
        for (const after of world.after(state)) {
          const key = keyOf(after);
          if (seen.has(key)) continue;
          if (seen.size >= most) return { states: seen.size, depth, healed, wrong: null };
          seen.add(key);
          world.judge(after);
          if (seen.size % healEvery === 0) {
            world.heal(after);
            healed += 1;
          }
          next.push(after);
        }
      }
      front = next;
    }
  } catch (error) {
    if (!(error instanceof Wrong)) throw error;
    return { states: seen.size, depth, healed, wrong: error.message };
  }
  return { states: seen.size, depth, healed, wrong: null };
}
