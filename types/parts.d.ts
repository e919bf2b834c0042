// What the parts of a screen are given and give back. No page loads this.

import type { RecipeRef, Sheet, Size, State } from "../bench/shapes/page";
import type { KeptEntry } from "./keep";

/** A batch as a part looks at it: one of this phone's, or one opened from the server. */
export interface Batch {
  readonly id: string;
  readonly recipe: RecipeRef;
  readonly sheet: Sheet;
  readonly state: State;
  readonly size: Size;
  readonly entries: KeptEntry[];
  readonly open: boolean;
}

/** What a control of a form is. */
export type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

