// One shared timer for everything that counts. It starts with the first listener, stops
// with the last, and sleeps while the page is hidden: all counting is against absolute
// instants, so nothing is lost by not looking.
//
//   const stop = onTick(() => …);   // about once a second, just after the second turns
//   stop();

const listeners = new Set();
let timer = null;

function turn() {
  timer = null;
  for (const listener of [...listeners]) listener();
  arm();
}

function arm() {
  if (timer !== null || listeners.size === 0 || document.hidden) return;
  timer = setTimeout(turn, 1000 - (Date.now() % 1000) + 4);
}

document.addEventListener("visibilitychange", () => {
  clearTimeout(timer);
  timer = null;
  if (!document.hidden && listeners.size) turn();
});

export function onTick(listener) {
  listeners.add(listener);
  arm();
  return () => {
    listeners.delete(listener);
    if (listeners.size === 0) {
      clearTimeout(timer);
      timer = null;
    }
  };
}
