// Hands that touch the page at random, faster than any maker, while the network is slow or gone, saves of the kit hang
// and the maker goes back and forth; and what became of each touch. Run in the real page, with its real disk.
//
//   await touchAtRandom({ seed, touches, runs })  ->  { told, lost: [why, …], missing: [entry, …], added: [entry, …] }

const TOLD = new Set(["answer", "answers"]);
const NEVER = /finish|record|gather/i; // a batch goes on to the end of the test

/** What is random, and the same again for the same seed. */
function chances(seed) {
  let state = seed;
  const below = (most) => (state = (state * 48271) % 2147483647) % most;
  return { below, one: (list) => list[below(list.length)], is: (percent) => below(100) < percent };
}

const pause = (ms = 0) => new Promise((go) => setTimeout(go, ms));

const ONE_TOUCH_MS = 420; // a little more than in screens/bench.js
const taps = new Map(); // by answer, when it was last touched

let depth = 0; // of the history, as far as these hands made it: further back is another page

function go(address) {
  if (location.hash !== address) depth += 1;
  location.hash = address;
}

function back() {
  if (depth === 0) return;
  depth -= 1;
  history.back();
}

/** Slow answers, failed rounds and a kit that hangs: in front of the real server. */
function slowNetwork(chance) {
  const real = window.fetch;
  window.fetch = async (address, options) => {
    if (!String(address).includes("/api/")) return real(address, options);
    await pause(chance.one([0, 5, 40, options?.method === "PUT" ? 800 : 120]));
    if (chance.is(20)) throw new TypeError("The line is gone.");
    return real(address, options);
  };
}

/** Every command that a screen tells, with the batch that the screen is of. */
function listen(told) {
  const addresses = new WeakMap();
  const note = () => {
    const screen = document.querySelector("#page > *");
    if (screen && !addresses.has(screen)) addresses.set(screen, location.hash);
  };
  new MutationObserver(note).observe(document.getElementById("page"), { childList: true });
  note();
  const dispatch = EventTarget.prototype.dispatchEvent;
  EventTarget.prototype.dispatchEvent = function (event) {
    if (TOLD.has(event.type)) {
      const screen = [this, ...addressesOver(this)].find((node) => addresses.has(node));
      const run = addresses.get(screen).split("/")[2];
      for (const { kind, body } of event.detail.entries ?? [event.detail])
        told.push(JSON.stringify([run, kind, body]));
    }
    return dispatch.call(this, event);
  };
}

function* addressesOver(node) {
  for (let over = node.parentNode; over; over = over.parentNode) yield over;
}

async function entriesOnDisk(runs) {
  const db = await new Promise(
    (resolve) => (indexedDB.open("bowlside").onsuccess = ({ target }) => resolve(target.result)),
  );
  const all = await new Promise(
    (resolve) =>
      (db.transaction("entries").objectStore("entries").getAll().onsuccess = ({ target }) =>
        resolve(target.result)),
  );
  db.close();
  return all
    .filter(({ run }) => runs.includes(run))
    .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1))
    .map(({ run, kind, body }) => JSON.stringify([run, kind, body]));
}

const seen = (node) => node.checkVisibility() && getComputedStyle(node).pointerEvents !== "none";
const all = (selector) => [...document.querySelectorAll(selector)].filter(seen);

/** A dialog is answered, or left by its own way back or by the browser's. @returns whether an answer must be told */
async function answerDialog(dialog, chance) {
  const isPad = dialog.matches(".pad");
  if (chance.is(30)) dialog.querySelector("button.quiet")?.click();
  else if (chance.is(20)) back();
  else if (isPad) {
    for (const key of all(".pad .key").filter(() => chance.is(30))) key.click();
    const give = dialog.querySelector("[value=given]");
    if (give.disabled) dialog.close("");
    else {
      give.click();
      if (chance.is(30)) go("#/kit"); // and gone in the same moment
      return true;
    }
  } else {
    const text = dialog.querySelector("textarea");
    if (text) text.value = `note ${chance.below(1e9)}`;
    const choices = [...dialog.querySelectorAll("button[type=submit]")].filter(
      ({ textContent }) => !NEVER.test(textContent),
    );
    if (choices.length) chance.one(choices).click();
    else dialog.close("");
    return Boolean(text) && dialog.dataset.by === "answer";
  }
  return false;
}

/** One thing that a hand does. @returns "" or why a touch was lost */
async function act({ chance, told, runs }) {
  const dialog = document.querySelector("dialog[open]");
  const before = told.length;
  if (dialog) {
    const mustTell = await answerDialog(dialog, chance);
    for (let turn = 0; turn < 20; turn += 1) await null; // in the moment in which it is given, and before any frame
    return mustTell && told.length === before
      ? `answered in a dialog, and not told: ${dialog.ariaLabel}`
      : "";
  }
  const what = chance.below(100);
  const buttons = all(what < 70 ? "answer-row button" : ".undoes").filter(
    (button) => !NEVER.test(button.textContent) && !button.closest("[data-settling]"), // where no finger finds it
  );
  if (buttons.length && what < 80) {
    const button = chance.one(buttons);
    const { textContent: label } = button;
    const address = location.hash;
    const tapped = taps.get(button.dataset.answer) ?? -Infinity;
    if (performance.now() - tapped < ONE_TOUCH_MS) return ""; // a piece counted twice in a moment is one touch
    taps.set(button.dataset.answer, performance.now());
    button.click();
    await null; // what a touch is answered with may be asked for in between
    await null;
    await null;
    const opened = document.querySelector("dialog[open]");
    if (opened) opened.dataset.by = "answer";
    return told.length > before || opened || location.hash !== address
      ? ""
      : `touched, and nothing came of it: ${label}`;
  }
  if (what < 84)
    all(".quiet-row .quiet").at(-1)?.click(); // "Other"
  else if (what < 88) document.querySelector("kit-screen [type=submit]")?.click();
  else if (what < 90) back();
  else if (what < 92) dispatchEvent(new Event("online"));
  else
    go(
      chance.one(
        [...runs, ...runs, ...runs]
          .map((run) => `#/bench/${run}`)
          .concat(["#/", "#/kit", `#/day/${runs[0]}`]),
      ),
    );
  return "";
}

export async function touchAtRandom({ seed, touches, runs }) {
  const chance = chances(seed);
  const [told, lost] = [[], []];
  const had = await entriesOnDisk(runs);
  slowNetwork(chance);
  listen(told);
  // Most turns on a slow machine find a bench that is still being drawn, and nothing to touch.
  const isOver = () => runs.every((run) => told.some((each) => each.startsWith(`["${run}","finished"`)));
  for (let turn = 0; told.length < touches && !isOver() && turn < 100 * touches; turn += 1) {
    const why = await act({ chance, told, runs });
    if (why) lost.push(why);
    if (!/^#\/bench/.test(location.hash) && chance.is(60)) go(`#/bench/${chance.one(runs)}`);
    if (chance.is(70)) await pause(chance.one([0, 0, 4, 20]));
  }
  document.querySelector("dialog[open]")?.close("");
  let kept = [];
  for (let turn = 0; turn < 200; turn += 1) {
    await pause(50);
    kept = (await entriesOnDisk(runs)).slice(0);
    if (kept.length >= had.length + told.length) break;
  }
  const count = (list) => list.reduce((sums, each) => sums.set(each, (sums.get(each) ?? 0) + 1), new Map());
  const more = (list, than) =>
    [...count(list)].flatMap(([each, much]) =>
      Array(Math.max(0, much - (count(than).get(each) ?? 0))).fill(each),
    );
  return {
    told: told.length,
    lost,
    missing: more([...had, ...told], kept),
    added: more(kept, [...had, ...told]),
  };
}
