// How recipes are written, a row a language: the words by which recipe-text.js reads what was pasted. They are never
// said, and all are read at once, whichever language the page speaks. A further language is a further row.

/** @import { StepKind } from "../../bench/shapes/page" */

/**
 * Parts of regular expressions, of whole words and without groups of their own. verbs: what a step of that kind is
 * told by, the first that fits; one of a kind that runs by itself needs a time beside it.
 * @typedef {{method: string, list: string, step: string, to: string, of: string, forThe: string, and: string,
 *   vague: string, vagueAfter: string, thenWait: string, verbs: readonly (readonly [StepKind, string])[],
 *   units: {readonly [written: string]: string}}} TextWords
 */

/** @type {readonly TextWords[]} */
const LANGUAGES = [
  {
    method: "method|steps|directions|instructions|how to make(?!\\p{L}).*",
    list: "ingredients?(?:\\s+(?:amounts?|quantit(?:y|ies)|weights?))?|amounts?\\s+ingredients?|you need|what you need",
    step: "step",
    to: "to|or",
    of: "of",
    forThe: "for(?: the)?",
    and: "and|then",
    vague:
      "(?:an?\\s+|one\\s+|some\\s+)?(?:(?:good|small|large|big|few)\\s+)?" +
      "(?:pinch(?:es)?|handfuls?|dash(?:es)?|splash(?:es)?|knob|bit|few|little|some)",
    vagueAfter:
      "to taste|as (?:needed|required|wanted)|enough|a (?:pinch|handful|dash|splash|little|few|bit)",
    thenWait: "(?:leave|let|allow|rest|dry|cool|chill|set aside)(?!\\p{L}).*",
    verbs: [
      ["weigh", "weigh\\p{L}*"],
      ["melt", "melt\\p{L}*"],
      ["split", "split|divide"],
      ["pieces", "press|pipe|wrap|unmould"],
      ["wait", "leave|let|dry|set|cool|rest|chill"],
    ],
    units: { c: "cup" },
  },
  {
    method: "zubereitung|anleitung|herstellung|arbeitsschritte|schritte|so (?:geht|wird)(?!\\p{L}).*",
    list: "zutat(?:en)?(?:\\s+mengen?)?|mengen?\\s+zutat(?:en)?|das brauchst du|du brauchst|man nehme",
    step: "schritt",
    to: "bis|oder",
    of: "von",
    forThe: "für(?: (?:die|den|das))?",
    and: "und|dann|danach",
    vague:
      "(?:eine?n?\\s+)?(?:(?:gute|kleine|große)\\s+)?" +
      "(?:prisen?|handvoll|schuss|spritzer|paar|bisschen|wenig|etwas)",
    vagueAfter: "nach (?:geschmack|belieben|gefühl)|eine (?:prise|handvoll)|ein (?:paar|wenig|bisschen)",
    thenWait:
      ".*(?<!\\p{L})(?:lassen|stehen|ruhen|ziehen|warten|(?:ab|aus)?kühlen|trocknen|(?:aus)?härten)\\.?",
    verbs: [
      ["weigh", "(?:ab|ein)?(?:wiegen?|wiegt)"],
      ["melt", "(?:ein)?schmelz(?:en?|t)"],
      ["split", "(?:auf)?teilen|halbieren"],
      ["pieces", "(?:(?:ein|hinein|auf|zusammen)?(?:press|drück|spritz|wickel|pack)|entform)(?:e?n|e|t)"],
      ["wait", "lass(?:en)?|stehen|ruhen|ziehen|warten|(?:ab|aus)?kühlen|trocknen|(?:aus)?härten"],
    ],
    units: {
      gramm: "g",
      tl: "tsp",
      teelöffel: "tsp",
      el: "tbsp",
      esslöffel: "tbsp",
      tasse: "cup",
      tassen: "cups",
      tropfen: "drops",
      stück: "pieces",
      sekunde: "s",
      sekunden: "s",
      minute: "min",
      minuten: "min",
      std: "h",
      stunde: "h",
      stunden: "h",
      tag: "day",
      tage: "days",
      tagen: "days",
      woche: "week",
      wochen: "weeks",
    },
  },
  {
    method: "préparation|étapes|instructions|mode opératoire",
    list: "ingrédients?(?:\\s+quantités?)?|il vous faut|il te faut",
    step: "étape",
    to: "à|ou",
    of: "de la|du|des|de",
    forThe: "pour(?: (?:la|le|les|l['’]))?",
    and: "et|puis",
    vague: "(?:une?\\s+|quelques\\s+)?(?:(?:bonne|petite|grosse)\\s+)?(?:pincées?|poignées?|filet|peu)",
    vagueAfter: "au goût|à volonté|une (?:pincée|poignée)|un peu|quelques",
    thenWait: "(?:laisser|sécher|refroidir|reposer)(?!\\p{L}).*",
    verbs: [
      ["weigh", "pes(?:er|ez)"],
      ["melt", "fondre"],
      ["split", "diviser|partager"],
      ["pieces", "presser|emballer|démouler"],
      ["wait", "laisser|sécher|refroidir|reposer"],
    ],
    units: {
      gramme: "g",
      grammes: "g",
      "cuillère à soupe": "tbsp",
      "cuillères à soupe": "tbsp",
      "cuillère à café": "tsp",
      "cuillères à café": "tsp",
      "c. à soupe": "tbsp",
      "c. à s.": "tbsp",
      "c. à café": "tsp",
      "c. à c.": "tsp",
      tasse: "cup",
      tasses: "cups",
      gouttes: "drops",
      secondes: "s",
      minutes: "min",
      heure: "h",
      heures: "h",
      jour: "day",
      jours: "days",
      semaine: "week",
      semaines: "weeks",
    },
  },
];

/** What a word is called in any of the languages. @param {Exclude<keyof TextWords, "verbs" | "units">} what */
export const anyOf = (what) => LANGUAGES.map((language) => language[what]).join("|");

/** What a step's kind is told by, in each language's order. */
export const VERBS = LANGUAGES.flatMap(({ verbs }) =>
  verbs.map(([kind, words]) => ({ kind, verb: new RegExp(`(?<!\\p{L})(?:${words})(?!\\p{L})`, "iu") })),
);

const UNITS = new Map(LANGUAGES.flatMap(({ units }) => Object.entries(units)));

const IN_WORDS = [...UNITS].filter(([written]) => written.includes(" "));

/** An amount or a time with its units as the format writes them: "2 EL" is "2 tbsp". @param {string} text */
export const asWritten = (text) =>
  IN_WORDS.reduce((left, [written, unit]) => left.replace(written, unit), text).replace(
    /([\d½¼¾]\s*)(\p{L}+)\.?/gu,
    (whole, number, unit) => {
      const known = UNITS.get(unit.toLowerCase());
      return known ? number + known : whole;
    },
  );
