// What a style sheet says that the oldest browsers of the README cannot read, a line each: whatever lightningcss,
// which carries MDN's compatibility data, would write otherwise for them. Run by test_platform.py.

import { readFileSync } from "node:fs";
import { transform } from "lightningcss";

const version = (major) => major << 16;
const OLDEST = { safari: version(16), ios_saf: version(16), chrome: version(105), firefox: version(121) };
// Safari reads the colour of an underline without a prefix since 12.1, and Firefox makes no text larger by itself.
// Light and dark are told apart by tokens.css itself; what a browser makes of `color-scheme` is its own.
const HARMLESS = /^(-webkit-text-decoration-color|-moz-text-size-adjust|--lightningcss-(light|dark)):/;

for (const filename of process.argv.slice(2)) {
  const code = readFileSync(filename);
  const lines = (targets) =>
    transform({ filename, code, targets })
      .code.toString()
      .split("\n")
      .map((line) => line.trim());
  // A range reads alike with both, for the library writes it as the browsers it is told of can read it.
  const ranges = code.toString().match(/@(media|container)[^{]*[<>][^{]*/g) ?? [];
  const now = new Set(lines(undefined));
  const isWritten = (line) => now.has(line) || code.includes(line);
  const older = lines(OLDEST).filter((line) => !isWritten(line) && !HARMLESS.test(line) && !line.startsWith("@media"));
  for (const line of [...ranges, ...older]) console.log(`${filename}: ${line.trim()}`);
}
