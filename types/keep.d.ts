// What the phone keeps, for the type check. No page loads this.

import type {
  BatchPieces,
  BatchVerdict,
  Card,
  Entry,
  EntryBody,
  FrozenSeal,
  GuideNow,
  Kit,
  MeasuredRecipe,
  PieceWords,
  ReceivedBody,
  RunKind,
  FormerSheet,
  Sheet,
  SheetRecipe,
  ShelfKind,
  Size,
  State,
  WaitNow,
  WindowNow,
  WrittenKit,
  WrittenRecipe,
} from "../bench/shapes/page";
import type { EntryOf, ShelfEntryOf } from "./bench";
import type { BodyOf, HoursDoc, Place, PlanDoc, SettingsDoc } from "./server";

// Rows on the phone's disk

/** A recipe as the server last gave it. */
export interface RecipeRow {
  id: string;
  version: number;
  title: string;
  document: WrittenRecipe;
  measured: MeasuredRecipe;
  /** How it is filed; not noted by earlier versions. */
  tags?: readonly string[];
  archived_at?: number | null;
  /** Of a version that is not the newest: "its id@2". */
  address?: string;
  etag?: string | null;
  /** Of the studio, under which it was read. */
  generation?: string | null;
}

/** A recipe as it lies on the disk: what it says is JSON. */
export type RecipeLain = Omit<RecipeRow, "document" | "measured"> & { text: string };

/** A recipe version that a run here was made by. */
export interface VersionRow {
  id: string;
  document: WrittenRecipe;
  measured?: MeasuredRecipe;
}

export interface Fault {
  field: string;
  detail: string;
}

/** A recipe that is being written. */
export interface DraftRow {
  id: string;
  /** The version that it was begun from; null for a new recipe. */
  base: number | null;
  was: WrittenRecipe | null;
  document: WrittenRecipe;
  /** Its maker's own words of before, which become a version first. */
  first: WrittenRecipe | null;
  at: number;
  send: boolean;
  errors: Fault[] | null;
}

export interface KitRow {
  id: string;
  version: number;
  document: WrittenKit;
  measured: Kit;
  etag: string | null;
}

export interface RunRow {
  id: string;
  recipe: SheetRecipe;
  size: Size;
  /** As it was kept; `Run.sheet` is what this version uses. */
  sheet: Sheet | FormerSheet;
  created_at: number;
  /** When it was begun, as the server says. */
  made_at?: number | null;
  sealed?: FrozenSeal | null;
}

/** An entry as the phone keeps it: it names its run. */
export type KeptEntry = Entry & { run: string };

/** A journal that came whole: JSON of its entries. */
export interface JournalLain {
  id: string;
  run: string;
  text: string;
}
export type EntryRow = KeptEntry | JournalLain;

/** Something that is still to be sent, or to be read back. */
export interface OutboxRow {
  id: string;
  run: string;
  /** The generation under which the server answered that it has it. */
  sent?: string | null;
  held?: boolean;
  guessed?: boolean;
  given_back?: boolean;
  picture?: boolean;
  aside?: boolean;
  /** Why the server does not take it. */
  refused?: string;
}

export interface PictureRow {
  id: string;
  bytes?: ArrayBuffer;
  /** Of a paper's file; a photograph is a JPEG. */
  type?: string;
  /** Of an earlier page. */
  blob?: Blob;
}

/** What the server worked out, as it was seen, and when. */
export interface SeenRow<B = unknown> {
  id: string;
  at: number;
  body: B;
}
export type SeenAt<P extends string> = SeenRow<BodyOf<P>>;
/** What was typed, by field. */
export type Typed = { [field: string]: string };

export interface MetaRow<V = unknown> {
  key: string;
  value: V;
}

/** What a list shows of a finished run. */
export interface RunTold {
  number: string | null;
  finished_at: number | null;
  release?: BatchVerdict | null; // not noted by earlier versions
  count: number;
  title: string;
  size: { pieces: number };
  piece: PieceWords;
}

export interface Stores {
  recipes: RecipeRow | RecipeLain;
  drafts: DraftRow;
  kit: KitRow;
  runs: RunRow;
  entries: EntryRow;
  outbox: OutboxRow;
  preferences: MetaRow<string | number | boolean>;
  meta: MetaRow;
  versions: VersionRow;
  pictures: PictureRow;
  seen: SeenRow;
}
export type StoreName = keyof Stores;

export interface Changed<Row> {
  put?: Row[];
  /** Put where there is a row of that key. */
  mark?: Row[];
  delete?: string[];
}
export type Changes = { [N in StoreName]?: Changed<Stores[N]> };
export interface WriteOptions {
  /** Flushed to the medium, and not to the system alone. */
  strict?: boolean;
  /** Only while the disk is of this generation. */
  under?: string | null;
}

/** An outlet by name; null: it was erased. */
export interface OutletNamed {
  id: string;
  name: string | null;
}

/** Finished pieces as last seen. */
export interface PiecesSeen {
  batches: readonly BatchPieces[];
  outlets: readonly OutletNamed[];
}

/** Which batch the week's plan begins next, as last seen; null: none. */
export type WeekSeen = { title: string; pieces: number; starts_at: number; begin_by: number | null } | null;

/** What is kept under meta, by key. */
export interface Meta {
  device: string;
  offset: number;
  leap: number;
  generation: string | null;
  looked_at: number;
  batches: number;
  rung: [string, number][];
  closed: { [run: string]: RunTold };
  elsewhere: { [lot: string]: number };
  studio: Place;
  settings: SettingsDoc & { etag: string | null };
  pieces: PiecesSeen;
  week: WeekSeen;
  hours: HoursDoc & { etag: string | null };
  told_bench: string;
  led: { run: string; count: number; step: string | null };
  [cursor: `cursor/${string}`]: number | null;
  [plan: `plan ${string}`]: PlanDoc;
}
export interface MetaMap extends Map<string, unknown> {
  get<K extends keyof Meta>(key: K): Meta[K] | undefined;
}

// What counts on the bench

export type Item = ({ what: "wait" } & WaitNow | { what: "window" } & WindowNow | { what: "guide" } & GuideNow) & {
  run: string;
  run_name: string;
};

/** An entry that names its run, as `Studio.enterAll` takes it. */
export interface Said {
  kind: RunKind | string;
  body: Entry["body"] | EntryBody;
}

/** The same as a screen tells it: the body is its kind's. */
export type RunSaid = { [K in RunKind]: { kind: K; body: EntryOf<K>["body"] } }[RunKind];
/** Of the shelf; what comes gets its lot's id once it is kept. */
export type ShelfSaid =
  | { [K in PlainShelfKind]: { kind: K; body: ShelfEntryOf<K>["body"] } }[PlainShelfKind]
  | { kind: "described"; body: { ingredient: string; card: Card } }
  | { kind: "received"; body: Omit<ReceivedBody, "lot"> & { lot?: string } };
type PlainShelfKind = Exclude<ShelfKind, "described" | "received">;

/** What the server does not take, and why; entry and picture are null where it is the run itself. */
export interface RefusedRow {
  run: string;
  entry: KeptEntry | null;
  picture: string | null;
  detail: string;
}

/** What an undo takes back, and what a redo brings again. */
export interface Undoing {
  undo: KeptEntry | null;
  redo: { deed: KeptEntry; undo: KeptEntry } | null;
}

export type RingPhase = "look" | "ready" | "late" | "over";

/** Something that rings or rang. */
export interface Rung {
  wait: Item;
  phase: RingPhase;
  at: number;
}
export interface Due extends Rung {
  key: string;
}
export interface Coming {
  key: string;
  phase: RingPhase;
  at: number;
}

/** How phone and server stand. */
export interface Link {
  state: "online" | "offline" | "asking";
  unsent: number;
  refused: RefusedRow[];
  heard_at: number | null;
  trouble: string | null;
  shut: Shut | null;
  leap: number;
  trusted: boolean;
  secure: boolean;
  durable: boolean;
  kept: boolean;
  cannot: { what: Cannot; because: Because }[];
  update: boolean;
}
export type Shut = "unpaired" | "shut-out";

export interface Preferences {
  sound: boolean;
  speech: boolean;
  theme: "auto" | "day" | "night";
  language: string;
  mass: "g" | "oz";
  warmth: "c" | "f";
  weigh: "running" | "tare";
  dry?: string;
}

/** An open run as the day lets the maker choose it. */
export interface Choice {
  id: string;
  name: string;
  touched_at: number;
  isIn: boolean;
  isAsked: boolean;
}

/** A run as what shows a bench needs it: one of the studio's, or a practice. */
export interface BenchRun {
  id: string;
  sheet: Sheet;
  state: State;
}

/** What a browser will not do, and why. */
export type Cannot = "reload" | "awake" | "keep" | "keep-in-safari" | "speak" | "ring";
export type Because = "insecure" | "lacking" | "not-installed" | "no-promise";
