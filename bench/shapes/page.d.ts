// Written by `python -m bench.shapes.write` from bench/shapes/*.py: change those, and write it again.

// bench/shapes/units.py

export type JsonValue =
  | null
  | boolean
  | number
  | string
  | readonly JsonValue[]
  | { readonly [key: string]: JsonValue };

/** whole milligrams */
export type Mg = number;

/** whole micrograms */
export type Ug = number;

/** whole nanolitres */
export type Nl = number;

/** millionths of a whole, 0 to 1 000 000 */
export type Ppm = number;

/** whole milliseconds, 0 or more */
export type Ms = number;

/** whole milliseconds since 1970-01-01 UTC */
export type InstantMs = number;

/** whole thousandths of a degree Celsius */
export type MilliK = number;

/** thousandths of a piece or a drop */
export type Thousandths = number;

// bench/shapes/recipe.py

// bench/shapes/kit.py

// bench/shapes/sheet.py

// bench/shapes/entries.py

// bench/shapes/state.py

// bench/shapes/prompts.py

// bench/shapes/record.py

// bench/shapes/shelf.py

// bench/shapes/planning.py
