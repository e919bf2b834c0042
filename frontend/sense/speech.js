/** Speaks when asked to, with the phone's own voice; what is newer cuts off what is older. */

let last = "";
let primed = false;

/** @param {string} text @returns {boolean} whether this browser can speak */
export function say(text) {
  last = text;
  if (!globalThis.speechSynthesis || !text) return false;
  speechSynthesis.cancel();
  const words = new SpeechSynthesisUtterance(text);
  words.lang = document.documentElement.lang || "en-GB";
  words.rate = 0.95; // over a running mixer, slower is clearer
  speechSynthesis.speak(words);
  return true;
}

/** Inside a touch, once: an iPhone speaks only after a first word that a touch asked for. Here it is an empty one. */
export function prime() {
  if (primed || !globalThis.speechSynthesis) return;
  primed = true;
  speechSynthesis.speak(new SpeechSynthesisUtterance(""));
}

/** Say the last thing once more. */
export function sayAgain() {
  return say(last);
}
