/**
 * One clock for the bench, right to well under a second once the server was heard.
 *
 * Three sources, each believed for what it is good at:
 * - the steady clock (performance.now) never jumps, but stands still while some phones sleep;
 * - the wall clock (Date.now) runs through sleep, but may be wrong, and may be changed mid-run;
 * - the server's clock is right for everyone, when it can be asked.
 *
 * Instants are whole milliseconds since 1970, as the server counts them: wall + offset.
 */

/** The wall and the steady clock may drift this far apart before it counts as a jump. */
export const SLACK_MS = 1_000;
/** An answer that took longer says too little about when it was given. */
const SLOW_MS = 2_000;

export class Clock extends EventTarget {
  #wall;
  #steady;
  #offset;
  #start;
  #jumps = 0;

  /**
   * @param {number} [offset] what `offset` was in an earlier life of the page
   * @param {{wall?: () => number, steady?: () => number}} [clocks]
   */
  constructor(offset = 0, { wall = () => Date.now(), steady = () => performance.now() } = {}) {
    super();
    this.#wall = wall;
    this.#steady = steady;
    this.#offset = offset;
    this.#start = { wall: wall(), steady: steady() };
    /** The server was heard in this life of the page, and the wall clock has not leapt since. */
    this.sure = false;
    /** From a leap forward (a sleep, or a changed clock?) until the server was asked. */
    this.doubtful = false;
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

  /** Before asking the server the time. @returns a ticket to hand to `hear` with its answer */
  ask() {
    this.#notice();
    return { steady: this.#steady(), jumps: this.#jumps };
  }

  /**
   * The server's clock stood at `serverMs` at some moment between `ticket` and now.
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
    this.sure = true;
    this.doubtful = false;
    // Within half a trip the two agree as well as can be told: leave the countdowns alone.
    if (Math.abs(moved) <= trip / 2 + 1) return 0;
    this.#offset = offset;
    return moved;
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
