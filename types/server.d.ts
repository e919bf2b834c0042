// What the server answers, by address, for the type check. No page loads this.

import type { Alike, BatchPieces, BatchVerdict, Buying, Complaint, Delivery, DutyMark, KeptPlan, KnownPerson, Label, LastTimes, LateEntry, OrderWant, Outcomes, Outlet, PiecesWhole, ProductStands, Proposal, Recall, RunDue, SwapEffect, TimeSavingSaid, Trace, WholeCost } from "../bench/shapes/page";
import type {
  AuditPage,
  BatchPage,
  Changes,
  Checked,
  CopiesNow,
  DeviceItem,
  EntryAnswer as AnyEntryAnswer,
  FoundPage,
  HoursWhole,
  KitWhole,
  OrderPlanSaid,
  OutletErased,
  Paged,
  PairingMade,
  RecipeBatchesPage,
  RecipeItem,
  RecipeKept,
  RecipeWhole,
  SettingsSaid,
  SettingsWhole,
  StudioHours,
  StudioNow,
  Trials,
  VersionItem,
  WeekNow,
} from "./answers";
import type { KeptEntry, RunRow } from "./keep";

export type { AuditItem, AuditPage, Changes, Checked, RecipeItem, Role, VersionItem, You } from "./answers";

/** How the studio stands. */
export type Place = StudioNow;
export type Copies = CopiesNow;
export type KitDoc = KitWhole;
export type SettingsDocument = SettingsSaid;
export type SettingsDoc = SettingsWhole;
export type HoursDocument = StudioHours;
export type HoursDoc = HoursWhole;
/** A plan as the server keeps it, of an earlier version too. */
export type PlanDoc = Omit<KeptPlan, "runs" | "due" | "out" | "savings"> &
  Partial<Pick<KeptPlan, "runs" | "due" | "out">> & { readonly savings?: KeptPlan["savings"] | null };
export type RecipeDoc = RecipeWhole;
export type Device = DeviceItem;
export type Pairing = PairingMade;
/** What the phone sends has its id, and so has the answer. */
export type EntryAnswer = AnyEntryAnswer & { readonly id: string };
/** A batch that a lot went into. */
export type Late = LateEntry;
export type PersonTold = KnownPerson;
export type PlanDue = RunDue;
export type PlanSaving = TimeSavingSaid;

/** What is asked of POST /plans. */
export interface PlanAsked {
  runs: readonly string[];
  out?: readonly string[];
  due?: { [run: string]: number };
  savings?: boolean;
}

/** A run in a list. */
export interface RunItem extends Omit<RunRow, "sheet" | "sealed"> {
  number: string | null;
  finished_at: number | null;
  made_at: number | null;
  cursor: number;
  sealed_by: string | null;
  release: BatchVerdict | null;
}

export interface RunDoc extends RunItem {
  sheet: RunRow["sheet"];
  sealed: RunRow["sealed"];
}

export interface LotItem {
  id: string;
  left_mg: number | null;
  left_count: number | null;
}

/** A version with what it changed and the runs made with it. */
export interface VersionTold extends VersionItem, Changes {
  runs: RunItem[];
}

/** What came late into a record, and who sent what; see api/records.py. */
export interface ToldOfRun {
  late: Late[];
  people: PersonTold[];
}

/** What the items of a paged list are. */
export interface Lists {
  runs: RunItem;
  recipes: RecipeItem;
  devices: Device;
  lots: LotItem;
  pieces: BatchPieces;
  wants: OrderWant;
}
export type PageOf<N extends keyof Lists> = Paged & { [K in N]: Lists[N][] };

/** Where a journal's entries are. */
export type EntriesPath = `/runs/${string}/entries` | "/shelf/entries";

/** What a maker wishes of a plan; what is not said stays as it is. */
export interface PlanWish {
  runs?: readonly string[];
  out?: readonly string[];
  due?: { [run: string]: number | null };
  savings?: boolean;
}

/** Where a page of a list is. */
export type PagePath<N extends keyof Lists> = string & { readonly list: N };

interface EntryPage {
  entries: KeptEntry[];
  cursor: number;
  more: boolean;
}

/** What the server answers at an address. */
export type BodyOf<P extends string> = P extends PagePath<infer N> ? PageOf<N> : BodyAt<P>;
type BodyAt<P extends string> = P extends `/runs/${string}/plan` | `/plans/${string}` | "/plans"
  ? PlanDoc
  : P extends `/runs/${string}/entries?${string}` | `/shelf/entries?${string}`
    ? EntryPage
    : P extends `/runs/${string}/entries` | "/shelf/entries"
      ? { answers: EntryAnswer[]; cursor: number }
      : P extends `/runs/${string}/label?${string}`
        ? Label
      : P extends `/runs/${string}/cost` | `/recipes/${string}/cost`
        ? WholeCost
      : P extends `/recipes/${string}/last`
        ? LastTimes
      : P extends `/recipes/${string}/trials` | `/recipes/${string}/trials/winner` | `/recipes/${string}/trials${string}`
        ? Trials | RecipeDoc
      : P extends `/figures/by-recipe?${string}`
        ? RecipeBatchesPage
      : P extends `/figures?${string}`
        ? BatchPage
      : P extends `/duties/due?${string}` | `/recipes/${string}/duties`
        ? ProductStands
      : P extends `/runs/${string}/record`
        ? ToldOfRun
        : P extends `/runs/whole?${string}`
          ? Paged & { runs: (RunDoc & { journal: KeptEntry[]; read_to: number })[] }
        : P extends `/runs/${string}`
          ? RunDoc
          : P extends `/recipes/${string}/versions/${string}/outcomes?${string}`
            ? Outcomes
          : P extends `/recipes/${string}/versions/${string}/changes${string}`
            ? Changes
            : P extends `/recipes/${string}/versions?${string}`
              ? Paged & { versions: VersionItem[] }
              : P extends `/recipes/${string}/swaps?${string}`
                ? { swaps: SwapEffect[] }
                : P extends `/recipes/all?${string}`
                  ? Paged & { recipes: (RecipeKept & { text: string })[] }
                  : P extends `/recipes/${string}`
                    ? RecipeDoc
                  : P extends `/${infer N extends keyof Lists}?${string}`
                    ? PageOf<N>
                    : P extends `/duties/${string}`
                    ? DutyMark
                    : P extends `/pieces/${string}`
                    ? PiecesWhole
                    : P extends `/${string}/recall?${string}`
                    ? Recall
                    : P extends `/complaints/${string}`
                    ? Alike
                    : P extends `/wants/${string}`
                    ? OrderWant
                    : P extends `/outlets/${string}`
                    ? OutletErased
                    : P extends `/lots/${string}/trace?${string}`
                      ? Trace
                      : P extends `/search?${string}`
                        ? FoundPage
                      : P extends `/audit?${string}`
                        ? AuditPage
                        : P extends `/substances?${string}`
                          ? { substances: readonly Proposal[] }
                        : P extends `/checks${string}`
                          ? Checked
                          : P extends "/deliveries/read"
                          ? Delivery
                          : P extends keyof Places
                            ? Places[P]
                            : null;

interface Places {
  "/clock": { server_ms: number };
  "/outlets": { outlets: Outlet[] };
  "/week": WeekNow;
  "/week/plan": OrderPlanSaid;
  "/buying": Buying;
  "/complaints": { complaints: Complaint[] };
  "/hours": HoursDoc;
  "/kit": KitDoc;
  "/settings": SettingsDoc;
  "/studio": Place;
  "/pictures": { awaited: { id: string; run: string }[] };
  "/pairings": Pairing;
}

export interface Answered<B = unknown> {
  body: B;
  /** To be sent as If-Match by who edits this. */
  etag: string | null;
  /** Which studio this is: another after a restore. */
  generation: string | null;
  /** Sets the clock by this answer: by how much, or null. */
  heard: () => number | null;
}

