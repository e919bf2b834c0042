/**
 * Rings that nobody mixes up: "look" (two soft notes up), "ready" (three notes up), "late" (three and two
 * quick ones, high, twice over), "over" (the same four times, closer).
 *
 * Notes are rich, so that they carry over a mixer: each has a fundamental of 150 to 1,000 Hz and
 * at least four harmonics between 300 and 4,000 Hz within 15 dB of it. That is how alarm sounds
 * are built in IEC 60601-1-8, known to us at second hand; nothing here claims to meet it.
 */

/** Fundamental first; all within 15 dB (a factor of 0.18) of it. */
const HARMONICS = [1, 0.7, 0.5, 0.45, 0.35];
/** A note's edges, softened so that it does not click; seconds. */
const EDGE_S = 0.02;

/**
 * hz: the notes' fundamentals; at, lasts: seconds from the ring's start; loud: 0 to 1.
 * @type {Record<RingName, {notes: {hz: number, at: number}[], lasts: number, loud: number}>}
 */
const RINGS = {
  look: {
    notes: [
      { hz: 392, at: 0 },
      { hz: 494, at: 0.3 },
    ],
    lasts: 0.22,
    loud: 0.35,
  },
  ready: {
    notes: [
      { hz: 523, at: 0 },
      { hz: 659, at: 0.28 },
      { hz: 784, at: 0.56 },
    ],
    lasts: 0.24,
    loud: 0.55,
  },
  late: { notes: [...urgent(0), ...urgent(2)], lasts: 0.13, loud: 0.9 },
  over: { notes: [0, 1.3, 2.6, 3.9].flatMap(urgent), lasts: 0.13, loud: 0.95 },
};

/** @typedef {"look" | "ready" | "late" | "over"} RingName */

/** @param {number} from */
function urgent(from) {
  const beats = [0, 0.18, 0.36, 0.72, 0.9];
  return beats.map((beat, index) => ({ hz: index % 2 ? 740 : 784, at: from + beat }));
}

/** @param {RingName} kind @returns {number} how long it sounds, in seconds */
export function ringLength(kind) {
  const { notes, lasts } = RINGS[kind];
  return notes[notes.length - 1].at + lasts;
}

/**
 * Put a ring into an audio context, live or offline, from `start` seconds on.
 * @param {BaseAudioContext} context @param {RingName} kind @param {number} start
 * @returns {() => void} what takes it out again
 */
export function scheduleRing(context, kind, start) {
  const { notes, lasts, loud } = RINGS[kind];
  const partials = Float32Array.from([0, ...HARMONICS]);
  const wave = context.createPeriodicWave(new Float32Array(partials.length), partials);
  const laid = notes.map(({ hz, at }) => {
    const note = context.createOscillator();
    const volume = context.createGain();
    const from = start + at;
    note.setPeriodicWave(wave);
    note.frequency.value = hz;
    volume.gain.setValueAtTime(0, from);
    volume.gain.linearRampToValueAtTime(loud, from + EDGE_S);
    volume.gain.setValueAtTime(loud, from + lasts - EDGE_S);
    volume.gain.linearRampToValueAtTime(0, from + lasts);
    note.connect(volume).connect(context.destination);
    note.start(from);
    note.stop(from + lasts);
    return note;
  });
  return () => laid.forEach((note) => note.disconnect());
}

/** @type {Record<RingName, number[]>} */
const SHAKES = {
  look: [120],
  ready: [200, 100, 200],
  late: [300, 120, 300, 120, 300, 120, 300],
  over: [500, 120, 500, 120, 500, 120, 500, 120, 500],
};

/** A ring that could not sound within this time would only startle. */
const STALE_MS = 5_000;

/** @type {AudioContext | null} */
let context = null;
let _arming = 0;
/**
 * Rings that lie on the sound's own clock, by key; when: seconds on that clock.
 * @type {Map<string, {when: number, off: () => void}>}
 */
const ahead = new Map();
const SAME_S = 0.25;

/** Browsers let a page sound only after a touch: call this from one. @returns whether it can ring */
export async function unlock() {
  if (!globalThis.AudioContext) return false;
  if (navigator.audioSession) navigator.audioSession.type = "playback"; // an iPhone's silent switch mutes any other
  context ??= new AudioContext();
  if (context.state !== "running") await context.resume();
  return context.state === "running";
}

/**
 * At every touch, not at the first alone: a call or the phone's lock takes the sound away, and only a touch brings it
 * back. Opening it takes a while, so the first time it is done `after` ms, once the touch itself has been answered.
 * `turned` is called when the sound comes or goes.
 * @param {number} after @param {() => void} turned
 */
export function arm(after, turned) {
  const follow = () => {
    context?.addEventListener?.("statechange", turned);
    turned();
  };
  if (!context) _arming ||= setTimeout(() => unlock().then(follow, follow), after);
  else if (context.state !== "running") context.resume().catch(() => {}); // refused: the next touch asks again
}

/** What sounds now; null where nothing would. */
const sounding = () => (context?.state === "running" ? context : null);

/** A ring would sound now. */
export function canRing() {
  return sounding() !== null;
}

/**
 * Lay these on the sound's own clock, which goes on where timers sleep, and take off what is not among them any more.
 * @param {{key: string, kind: RingName, inMs: number}[]} coming
 */
export function layAhead(coming) {
  const live = sounding();
  for (const [key, { when, off }] of ahead) {
    const next = coming.findLast((each) => each.key === key);
    if (live && isRight(when, next, live.currentTime)) continue;
    off();
    ahead.delete(key);
  }
  if (!live) return;
  for (const { key, kind, inMs } of coming) {
    if (ahead.has(key)) continue;
    const when = live.currentTime + inMs / 1000;
    ahead.set(key, { when, off: scheduleRing(live, kind, when) });
  }
}

/**
 * Whether a ring stays as it was laid: it sounds now, or it is still wanted then.
 * @param {number} when @param {{inMs: number} | undefined} next @param {number} now
 */
function isRight(when, next, now) {
  if (when <= now) return when > now - STALE_MS / 1000;
  return next !== undefined && Math.abs(now + next.inMs / 1000 - when) < SAME_S;
}

/** It sounds at this moment by itself. @param {string} key */
function isSounding(key) {
  const live = sounding();
  return live && Math.abs((ahead.get(key)?.when ?? Infinity) - live.currentTime) < STALE_MS / 1000;
}

/** Sound and shake once. @param {RingName} kind @param {string} [key] as it may have been laid ahead */
export async function ring(kind, key = "") {
  // Before the first touch a browser shakes nothing, and says so in its log.
  if (navigator.userActivation?.hasBeenActive ?? true) navigator.vibrate?.(SHAKES[kind]);
  if (!context || isSounding(key)) return;
  const asked = performance.now();
  if (context.state !== "running") await context.resume(); // a call took the sound away
  if (performance.now() - asked < STALE_MS) scheduleRing(context, kind, context.currentTime + 0.01);
}
