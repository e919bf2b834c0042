/** Speaks when asked to, with the phone's own voice; what is newer cuts off what is older. */

let last = "";

/** @returns {boolean} whether this browser can speak */
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

/** Say the last thing once more. */
export function sayAgain() {
  return say(last);
}
