// How recipes are written, a row a language: the words by which recipe-text.js reads what was pasted. They are never
// said, and all are read at once, whichever language the page speaks. A further language is a further row.

/** @import { StepKind } from "../../bench/shapes/page" */

/**
 * Parts of regular expressions, of whole words and without groups of their own. verbs: what a step of that kind is
 * told by, the first that fits; one of a kind that runs by itself needs a time beside it.
 * goesOn: what ends a name within a sentence.
 * @typedef {{method: string, list: string, step: string, to: string, of: string, goesOn: string, forThe: string,
 *   and: string,
 *   vague: string, vagueAfter: string, thenWait: string, verbs: readonly (readonly [StepKind, string])[],
 *   units: {readonly [written: string]: string}}} TextWords
 */

/** @type {readonly TextWords[]} */
const LANGUAGES = [
  {
    method: "method|steps|directions|instructions|how to make(?!\\p{L}).*",
    list:
      "(?:ingredients?|names?|items?)(?:\\s+(?:amounts?|quantit(?:y|ies)|weights?))?(?:\\s+units?)?|" +
      "amounts?\\s+ingredients?|you need|what you need",
    step: "step",
    to: "to|or",
    of: "of",
    goesOn: "with|and|into|in|to|for|then|until|over|on|at|plus|or|from",
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
    goesOn: "mit|und|in|zu|auf|dann|bis|für|bei|oder|aus",
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
      tr: "drops",
      trpf: "drops",
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
    goesOn: "avec|et|dans|puis|à|pour|jusqu",
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
  {
    method: "preparación|elaboración|instrucciones|pasos|modo de hacerlo",
    list: "ingredientes?(?:\\s+cantidad(?:es)?)?|necesitas",
    step: "paso",
    to: "a|o",
    of: "del?(?: la)?",
    goesOn: "con|y|en|hasta|luego|para",
    forThe: "para(?: (?:la|el|los|las))?",
    and: "y|luego",
    vague: "(?:una?\\s+|unas\\s+)?(?:(?:buena|pequeña)\\s+)?(?:pizcas?|puñados?|chorrito|poco)",
    vagueAfter: "al gusto|una (?:pizca)|un poco",
    thenWait: "(?:dejar|reposar|secar|enfriar)(?!\\p{L}).*",
    verbs: [
      ["weigh", "pesa[rn]?"],
      ["melt", "derreti[rd]|fundir"],
      ["split", "dividir|repartir"],
      ["pieces", "prensar|envolver|desmoldar"],
      ["wait", "dejar|reposar|secar|enfriar"],
    ],
    units: {
      gramos: "g",
      cucharada: "tbsp",
      cucharadas: "tbsp",
      cucharadita: "tsp",
      cucharaditas: "tsp",
      cda: "tbsp",
      cdas: "tbsp",
      cdta: "tsp",
      cdtas: "tsp",
      taza: "cup",
      tazas: "cups",
      gotas: "drops",
      minutos: "min",
      horas: "h",
      días: "days",
    },
  },
  {
    method: "preparazione|procedimento|istruzioni",
    list: "ingredienti(?:\\s+quantità)?|ti serve",
    step: "passo",
    to: "a|o",
    of: "di|del(?:la|lo)?",
    goesOn: "con|e|in|fino|poi|per",
    forThe: "per(?: (?:la|il|lo|i|le))?",
    and: "e|poi",
    vague: "(?:una?\\s+)?(?:(?:buona|piccola)\\s+)?(?:pizzic[oh]i?|manciat[ae]|goccio|po['\u2019])",
    vagueAfter: "a piacere|quanto basta|un pizzico",
    thenWait: "(?:lasciare|riposare|asciugare|raffreddare)(?!\\p{L}).*",
    verbs: [
      ["weigh", "pesare"],
      ["melt", "sciogliere|fondere"],
      ["split", "dividere"],
      ["pieces", "pressare|avvolgere|sformare"],
      ["wait", "lasciare|riposare|asciugare|raffreddare"],
    ],
    units: {
      grammi: "g",
      cucchiaio: "tbsp",
      cucchiai: "tbsp",
      cucchiaino: "tsp",
      cucchiaini: "tsp",
      tazza: "cup",
      tazze: "cups",
      gocce: "drops",
      minuti: "min",
      ore: "h",
      giorni: "days",
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
