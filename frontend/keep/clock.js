/**
 * One clock for the bench, right to well under a second once the server was heard.
 *
 * Three sources, each believed for what it is good at:
 * - the steady clock (performance.now) never jumps, but stands still while some phones sleep;
 * - the wall clock (Date.now) runs through sleep, but may be wrong, and may be changed mid-run;
 * - the server's clock is right for everyone, when it can be asked.
 *
 * Even the server's may be put right in the middle of a wait. The steady clock shows it: then the
 * time that the wait began with goes on, and the server's is taken over when nothing counts (`leap`).
 *
 * Instants are whole milliseconds since 1970, as the server counts them: wall + offset.
 */

/** @typedef {{steady: number, jumps: number}} Ticket */

/** The wall and the steady clock may drift this far apart before it counts as a jump. */
export const SLACK_MS = 1_000;
/** An answer that took longer says too little about when it was given. */
const SLOW_MS = 2_000;
/** So much may the steady clock be off, of the time since the server was heard: far more than a quartz is. */
const DRIFT = 0.0005;

export class Clock extends EventTarget {
  /** @type {() => number} */
  #wall;
  /** @type {() => number} */
  #steady;
  #offset;
  /** @type {{wall: number, steady: number}} */
  #start;
  #heard = 0;
  #jumps = 0;

  /**
   * @param {number} [offset] what `offset` was in an earlier life of the page
   * @param {{leap?: number, wall?: () => number, steady?: () => number}} [given] `leap` likewise
   */
  constructor(offset = 0, { leap = 0, wall = () => Date.now(), steady = () => performance.now() } = {}) {
    super();
    this.#wall = wall;
    this.#steady = steady;
    this.#offset = offset;
    this.#start = { wall: wall(), steady: steady() };
    /** The server was heard in this life of the page, and the wall clock has not leapt since. */
    this.sure = false;
    /** From a leap forward (a sleep, or a changed clock?) until the server was asked. */
    this.doubtful = false;
    /** By how much the server's clock was changed while this one went on as before; 0 when it was not. */
    this.leap = leap;
  }

  /** The corrected instant, for showing and for countdowns. */
  now() {
    this.#notice();
    return Math.round(this.#start.wall + (this.#steady() - this.#start.steady) + this.#offset);
  }

  /** By how much the server's clock is ahead of this phone's; kept for the page's next life. */
  get offset() {
    return this.#offset;
  }

  /** Before asking the server the time. @returns {Ticket} to hand to `hear` with its answer */
  ask() {
    this.#notice();
    return { steady: this.#steady(), jumps: this.#jumps };
  }

  /**
   * The server's clock stood at `serverMs` at some moment between `ticket` and now.
   * @param {number} serverMs @param {Ticket} ticket
   * @returns {number|null} by how many ms this clock was set forward (back: negative);
   *   null when the answer was too slow to say
   */
  hear(serverMs, ticket) {
    this.#notice();
    const arrived = this.#steady();
    const trip = arrived - ticket.steady;
    if (ticket.jumps !== this.#jumps || trip > SLOW_MS || !Number.isSafeInteger(serverMs)) {
      return null;
    }
    const middle = (ticket.steady + arrived) / 2;
    const offset = Math.round(serverMs - (this.#start.wall + middle - this.#start.steady));
    const moved = offset - this.#offset;
    const wasSure = this.sure;
    const slack = SLACK_MS + trip / 2 + (arrived - this.#heard) * DRIFT;
    this.#heard = arrived;
    this.sure = true;
    this.doubtful = false;
    if (wasSure && Math.abs(moved) > slack) {
      this.leap = moved;
      return 0;
    }
    // The same leap again, first heard of in an earlier life of the page or before a sleep.
    if (!wasSure && this.leap !== 0 && Math.abs(moved - this.leap) <= slack) return 0;
    this.leap = 0;
    // Within half a trip the two agree as well as can be told: leave the countdowns alone.
    if (Math.abs(moved) <= trip / 2 + 1) return 0;
    this.#offset = offset;
    return moved;
  }

  /** Nothing counts: take the server's clock over as it is now. */
  takeOver() {
    this.#offset += this.leap;
    this.leap = 0;
  }

  /** The server cannot be asked: a leap forward is taken for a sleep, which it nearly always is. */
  settle() {
    this.doubtful = false;
  }

  #notice() {
    const wall = this.#wall();
    const steady = this.#steady();
    const slip = wall - this.#start.wall - (steady - this.#start.steady);
    if (Math.abs(slip) <= SLACK_MS) return;
    this.#start = { wall, steady };
    this.#jumps += 1;
    if (slip < 0) {
      this.#offset -= Math.round(slip); // someone set the wall clock back; the steady one is right
    } else {
      this.sure = false;
      this.doubtful = true;
    }
    this.dispatchEvent(new Event("jump"));
  }
}
