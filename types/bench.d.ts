// What the arithmetic on the phone hands from one of its rooms to another. No page loads this.

import type { BuyingEntry, LineState, PiecesEntry, RunEntry, RunKind, SheetLine, ShelfEntry, ShelfKind } from "../bench/shapes/page";
import type { Tally } from "../frontend/bench/journal/tally";

/** One round of a part. */
export interface Place {
  readonly component: string;
  readonly round: number;
}

/** What a window is over, and what it costs to miss it. */
export interface Over {
  readonly class?: string;
  readonly price_ms?: number;
  readonly lost_ms?: number | null;
  readonly stake?: string;
  readonly state?: string;
  readonly rescue?: string;
}

/** An entry that a fold understands, by its kind. */
export type EntryOf<K extends RunKind> = Extract<RunEntry, { kind: K }>;
export type ShelfEntryOf<K extends ShelfKind> = Extract<ShelfEntry | PiecesEntry | BuyingEntry, { kind: K }>;

/** How a run's kinds are taken in: false where an entry makes no sense on this sheet. */
export type Takes = {
  [K in RunKind]: (tally: Tally, at: number, body: EntryOf<K>["body"], entry: EntryOf<K>) => boolean | undefined | void;
};

/** The same object, to be filled in before anybody else sees it. */
export type Draft<T> = T extends readonly (infer E)[] ? Draft<E>[] : T extends object ? { -readonly [K in keyof T]: Draft<T[K]> } : T;


/** A line that has a mass, and where it stands. */
export type WeighedLine = SheetLine & { readonly mg: number };
export type WeighedState = LineState & { readonly target_mg: number };

/** [numerator, denominator] of what the lines of a round become. */
export type Ratio = readonly [number, number];
