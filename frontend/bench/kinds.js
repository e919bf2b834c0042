/** The kinds of entry: written by `python -m bench.shapes.write` from bench/kinds.py. */

/** @typedef {{readonly [kind: string]: {fields: {[field: string]: string}, traits: string[]}}} Rows */

/** @type {Rows} */
export const RUN_KINDS = {
  numbered: {
    fields: {
      number: "text",
    },
    traits: ["standing"],
  },
  gathered: {
    fields: {
      ingredient: "id",
      lot: "key",
      "mg?": "mass",
      "count?": "count",
    },
    traits: ["hand_work", "standing"],
  },
  ticked: {
    fields: {
      thing: "key",
    },
    traits: ["hand_work"],
  },
  weighed: {
    fields: {
      line: "id",
      "mg?": "mass",
      "reading_mg?": "whole",
    },
    traits: ["hand_work", "moves_stock"],
  },
  taken_out: {
    fields: {
      line: "id",
      mg: "mass",
    },
    traits: ["hand_work", "moves_stock", "correction"],
  },
  left: {
    fields: {
      line: "id",
    },
    traits: ["hand_work", "moves_stock", "correction"],
  },
  left_out: {
    fields: {
      line: "id",
    },
    traits: ["hand_work", "moves_stock", "correction"],
  },
  carried: {
    fields: {
      component: "id",
      round: "count",
      num: "factor",
      den: "factor",
      "left?": "ids",
    },
    traits: ["hand_work", "moves_stock", "correction"],
  },
  zeroed: {
    fields: {
      vessel: "id",
    },
    traits: ["hand_work"],
  },
  placed: {
    fields: {
      vessel: "id",
      scale: "key",
      "line?": "id",
    },
    traits: ["correction"],
  },
  took: {
    fields: {
      vessel: "id",
      instead: "key",
    },
    traits: ["correction"],
  },
  switched: {
    fields: {
      weigh: "weigh",
    },
    traits: [],
  },
  chose: {
    fields: {
      step: "id",
      way: "id",
    },
    traits: ["hand_work"],
  },
  done: {
    fields: {
      step: "id",
      "way?": "id",
    },
    traits: ["hand_work"],
  },
  skipped: {
    fields: {
      step: "id",
      "why?": "text",
    },
    traits: [],
  },
  began: {
    fields: {
      step: "id",
    },
    traits: ["hand_work"],
  },
  heated: {
    fields: {
      step: "id",
      ms: "span",
      "rest_ms?": "span",
    },
    traits: ["hand_work"],
  },
  looked: {
    fields: {
      step: "id",
      answer: "answer",
      "way?": "id",
    },
    traits: ["hand_work"],
  },
  portioned: {
    fields: {
      vessel: "id",
      mg: "mass",
    },
    traits: ["hand_work"],
  },
  counted: {
    fields: {
      step: "id",
      "good?": "count",
      "spoiled?": "count",
      "partial?": "count",
      "of?": "id",
      "way?": "id",
      "seen?": "count",
    },
    traits: ["hand_work"],
  },
  extended: {
    fields: {
      step: "id",
      ms: "span",
    },
    traits: [],
  },
  measured: {
    fields: {
      what: "measured",
      mg: "mass",
      "piece?": "count",
      "step?": "id",
      "scale?": "key",
    },
    traits: ["hand_work"],
  },
  aired: {
    fields: {
      humidity: "humidity",
      "mk?": "warmth",
    },
    traits: [],
  },
  proved: {
    fields: {
      scale: "key",
      weight_mg: "mass",
      mg: "whole",
    },
    traits: [],
  },
  pictured: {
    fields: {
      picture: "uuid",
      sha256: "sha256",
      "text?": "text",
      "step?": "id",
    },
    traits: [],
  },
  worked: {
    fields: {
      ms: "span",
      "step?": "id",
    },
    traits: [],
  },
  noted: {
    fields: {
      text: "text",
      "step?": "id",
    },
    traits: [],
  },
  kept: {
    fields: {
      pieces: "count",
      "text?": "text",
    },
    traits: [],
  },
  met: {
    fields: {
      criterion: "key",
      answer: "met",
      "text?": "text",
    },
    traits: [],
  },
  finished: {
    fields: {},
    traits: ["standing"],
  },
  signed: {
    fields: {
      name: "text",
      "entries?": "ids",
      "digest?": "sha256",
    },
    traits: ["standing"],
  },
  judged: {
    fields: {
      about: "key",
      verdict: "judgement",
      name: "text",
      "why?": "text",
      "signing?": "uuid",
    },
    traits: ["judgement", "standing"],
  },
  undone: {
    fields: {
      entry: "id",
    },
    traits: ["standing"],
  },
};

/** @type {Rows} */
export const SHELF_KINDS = {
  described: {
    fields: {
      ingredient: "key",
      card: "card",
    },
    traits: [],
  },
  received: {
    fields: {
      lot: "key",
      ingredient: "key",
      "supplier?": "text",
      number: "text",
      "mg?": "mass",
      "count?": "count",
      received_on: "day",
      "best_before?": "day",
      "price?": "price",
      "code?": "text",
    },
    traits: [],
  },
  corrected: {
    fields: {
      lot: "key",
      "mg?": "mass",
      "count?": "count",
    },
    traits: [],
  },
  mended: {
    fields: {
      lot: "key",
      "ingredient?": "key",
      "supplier?": "text",
      "number?": "text",
      "mg?": "mass",
      "count?": "count",
      "received_on?": "day",
      "best_before?": "day",
      "price?": "price",
      "code?": "text",
      "without?": "ids",
    },
    traits: [],
  },
  wrote_off: {
    fields: {
      lot: "key",
      "mg?": "mass",
      "count?": "count",
      why: "text",
    },
    traits: [],
  },
  judged: {
    fields: {
      lot: "key",
      verdict: "lot_verdict",
      "name?": "text",
      "why?": "text",
    },
    traits: ["judgement"],
  },
  papered: {
    fields: {
      "lot?": "key",
      "ingredient?": "key",
      paper: "paper",
      reference: "text",
      "dated?": "day",
      "expires?": "day",
      "amendment?": "text",
      "category?": "text",
    },
    traits: [],
  },
  noted: {
    fields: {
      text: "text",
      "lot?": "key",
      "ingredient?": "key",
    },
    traits: [],
  },
  undone: {
    fields: {
      entry: "id",
    },
    traits: [],
  },
};
