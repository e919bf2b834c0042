// What the server answers, by address, for the type check. No page loads this.

import type { KnownPerson, LateEntry, LotRun, MakerWritten, Plan, RunDue, SwapEffect, TimeSavingSaid } from "../bench/shapes/page";
import type {
  AuditPage,
  Changes,
  Checked,
  CopiesNow,
  DeviceItem,
  EntryAnswer as AnyEntryAnswer,
  KitWhole,
  Paged,
  PairingMade,
  RecipeItem,
  RecipeWhole,
  StudioNow,
  VersionItem,
} from "./answers";
import type { KeptEntry, RunRow } from "./keep";

export type { AuditItem, AuditPage, Changes, Checked, RecipeItem, Role, VersionItem, You } from "./answers";

/** How the studio stands. */
export type Place = StudioNow;
export type Copies = CopiesNow;
export type KitDoc = KitWhole;
export type RecipeDoc = RecipeWhole;
export type Device = DeviceItem;
export type Pairing = PairingMade;
/** What the phone sends has its id, and so has the answer. */
export type EntryAnswer = AnyEntryAnswer & { readonly id: string };
/** A batch that a lot went into. */
export type TraceRun = LotRun;
export type Late = LateEntry;
export type PersonTold = KnownPerson;
export type PlanDue = RunDue;
export type PlanSaving = TimeSavingSaid;

export interface LabelSettings {
  market?: "us" | "eu";
  shape?: "rectangle" | "cylinder" | "other";
  width_mm?: number;
  height_mm?: number;
  opened_months?: number;
}

export interface SettingsDocument {
  batch_number: string;
  currency?: string;
  hourly_rate?: string;
  wrap_cost?: string;
  without_tax?: boolean;
  maker?: string;
  label?: LabelSettings;
}

export interface SettingsDoc {
  version: number;
  document: SettingsDocument;
}

export interface HoursDocument {
  makers: MakerWritten[];
}

export interface HoursDoc {
  version: number;
  document: HoursDocument;
}

/** A plan as the server keeps it. */
export interface PlanDoc {
  id: string;
  at: number;
  state: "working" | "made" | "refused";
  asked_at: number;
  aim: "finish" | "ready_by";
  ready_by: number | null;
  /** Not there in earlier versions, as the next two. */
  runs?: string[];
  due?: PlanDue[];
  out?: string[];
  parts: { run: string; title: string; name?: string }[];
  progress: { aim: string; share: number } | null;
  fault: { field: string; detail: string } | null;
  made_at: number | null;
  age_ms: number | null;
  behind: number;
  savings?: PlanSaving[] | null;
  plan: Plan | null;
}

/** What is asked of POST /plans. */
export interface PlanAsked {
  runs: string[];
  out?: string[];
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
}
export type PageOf<N extends keyof Lists> = Paged & { [K in N]: Lists[N][] };

/** Where a journal's entries are. */
export type EntriesPath = `/runs/${string}/entries` | "/shelf/entries";

/** What a maker wishes of a plan; what is not said stays as it is. */
export interface PlanWish {
  runs?: string[];
  out?: string[];
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
      : P extends `/runs/${string}/record`
        ? ToldOfRun
        : P extends `/runs/${string}`
          ? RunDoc
          : P extends `/recipes/${string}/versions/${string}/changes`
            ? Changes
            : P extends `/recipes/${string}/versions?${string}`
              ? Paged & { versions: VersionItem[] }
              : P extends `/recipes/${string}/swaps?${string}`
                ? { swaps: SwapEffect[] }
                : P extends `/recipes/${string}`
                  ? RecipeDoc
                  : P extends `/${infer N extends keyof Lists}?${string}`
                    ? PageOf<N>
                    : P extends `/lots/${string}/trace`
                      ? { runs: TraceRun[] }
                      : P extends `/audit?${string}`
                        ? AuditPage
                        : P extends `/checks${string}`
                          ? Checked
                          : P extends keyof Places
                            ? Places[P]
                            : null;

interface Places {
  "/clock": { server_ms: number };
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

