/**
 * SHA-256 (FIPS 180-4) of text, as UTF-8. A fold cannot wait, and crypto.subtle answers later, or on a
 * page that came over plain http not at all.
 */

const WORD = 2 ** 32;

/** The first 32 bits of the fractional parts of the first primes' roots: square for the start, cube for the rounds. */
function constants() {
  /** @type {number[]} */
  const primes = [];
  for (let number = 2; primes.length < 64; number += 1) {
    if (primes.every((prime) => number % prime)) primes.push(number);
  }
  /** @param {number} root */
  const bits = (root) => Math.floor((root - Math.floor(root)) * WORD) | 0;
  return [
    primes.slice(0, 8).map((prime) => bits(Math.sqrt(prime))),
    Int32Array.from(primes, (prime) => bits(Math.cbrt(prime))),
  ];
}

const [START, ROUNDS] = constants();
const BLOCK = 64;

/** The text's bytes, a one bit, noughts, and how many bits there were: whole blocks. @param {string} text */
function padded(text) {
  const bytes = new TextEncoder().encode(text);
  const whole = new Uint8Array(Math.ceil((bytes.length + 9) / BLOCK) * BLOCK);
  whole.set(bytes);
  whole[bytes.length] = 0x80;
  new DataView(whole.buffer).setBigUint64(whole.length - 8, BigInt(bytes.length) * 8n);
  return whole;
}

/** @returns {string} 64 small hexadecimal digits @param {string} text */
export function sha256(text) {
  const bytes = padded(text);
  const view = new DataView(bytes.buffer);
  const hash = Int32Array.from(START);
  const words = new Int32Array(64);
  for (let block = 0; block < bytes.length; block += BLOCK) {
    for (let index = 0; index < 16; index += 1) words[index] = view.getInt32(block + 4 * index);
    for (let index = 16; index < 64; index += 1) {
      const early = words[index - 15];
      const late = words[index - 2];
      const one = ((early >>> 7) | (early << 25)) ^ ((early >>> 18) | (early << 14)) ^ (early >>> 3);
      const other = ((late >>> 17) | (late << 15)) ^ ((late >>> 19) | (late << 13)) ^ (late >>> 10);
      words[index] = words[index - 16] + one + words[index - 7] + other;
    }
    mix(hash, words);
  }
  return [...hash].map((word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
}

/** @param {Int32Array} hash @param {Int32Array} words */
function mix(hash, words) {
  let [a, b, c, d, e, f, g, h] = hash;
  for (let index = 0; index < 64; index += 1) {
    const turned = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7));
    const first = (h + turned + ((e & f) ^ (~e & g)) + ROUNDS[index] + words[index]) | 0;
    const rolled = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10));
    const second = (rolled + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    h = g;
    g = f;
    f = e;
    e = (d + first) | 0;
    d = c;
    c = b;
    b = a;
    a = (first + second) | 0;
  }
  [a, b, c, d, e, f, g, h].forEach((word, index) => {
    hash[index] += word;
  });
}
