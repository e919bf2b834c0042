// What the parts of a screen are given and give back. No page loads this.

import type { Seen } from "../frontend/keep/seen";
import type { Answer, Sheet, SheetRecipe, Size, State } from "../bench/shapes/page";
import type { KeptEntry } from "./keep";

/** A batch as a part looks at it: one of this phone's, or one opened from the server. */
export interface Batch {
  readonly id: string;
  readonly recipe: SheetRecipe;
  readonly sheet: Sheet;
  readonly state: State;
  readonly size: Size;
  readonly entries: KeptEntry[];
  readonly open: boolean;
  readonly created_at: number;
}

/** What a control of a form is. */
export type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;


/** An answer of the page's own: it leads elsewhere, or begins a practice again. */
export interface PageAnswer {
  readonly id: string;
  readonly label: string;
  readonly says: string;
  readonly kind: "go" | "again";
  readonly to?: string;
  readonly strong?: boolean;
}
export type BenchAnswer = Answer | PageAnswer;

/** What was said of the duties of selling, as far as it was seen here. */
export interface DutiesNow {
  readonly seen: () => Promise<Seen>;
  readonly isMaker: boolean;
  readonly isOnline: boolean;
  readonly today: string;
}
