// What the page's elements tell, by name: what it says with it, and the screen that told it. No page loads this.

import type { DutySaid, ProductUse, Size, SoldIn, WantState, WrittenDelivery, WrittenRecipe, Sheet } from "../bench/shapes/page";
import type { Role } from "./answers";
import type { DraftRow, Preferences, RefusedRow, RecipeRow, RunSaid, Said, ShelfSaid } from "./keep";
import type { BenchAnswer } from "./parts";
import type { HoursDocument, PlanWish } from "./server";
import type { FindAsked } from "../frontend/parts/find-all";
import type { AuditScreen } from "../frontend/screens/audit";
import type { BringScreen } from "../frontend/screens/bring";
import type { BuyingScreen } from "../frontend/screens/buying";
import type { DayScreen } from "../frontend/screens/day";
import type { DeliveryScreen } from "../frontend/screens/delivery";
import type { KitScreen } from "../frontend/screens/kit";
import type { LabelScreen } from "../frontend/screens/label";
import type { PiecesScreen } from "../frontend/screens/pieces";
import type { RecallScreen } from "../frontend/screens/recall";
import type { RecipeScreen } from "../frontend/screens/recipe-edit";
import type { RecipesScreen } from "../frontend/screens/recipes";
import type { RecordScreen } from "../frontend/screens/record";
import type { ShelfScreen } from "../frontend/screens/shelf";
import type { SizeScreen } from "../frontend/screens/size";
import type { StudioScreen } from "../frontend/screens/studio";
import type { WeekScreen } from "../frontend/screens/week";
import type { VersionsScreen } from "../frontend/screens/versions";

/** A screen that entries are given on: it says how that went. */
export interface Entering extends HTMLElement {
  trouble(text: string): void;
  said?(text: string): void;
}

interface Tells<D, S = HTMLElement> {
  detail: D;
  screen: S;
}
type Nothing = { readonly [key: string]: never };

/** What a screen asks of the server alone; what a change changed is on this phone when it is answered. */
interface OnlineAsked {
  method: string;
  path: string;
  body: unknown;
  isChange: boolean;
  done: (answer: unknown) => void;
}

/** What the server is asked of finished pieces and outlets. */
export type StockAsked =
  | { what: "complaints" | "outlets" }
  | { what: "where" | "erase"; id: string }
  | { what: "name"; id: string; said: { name: string; contact: string | null } };

/** What is said of one line of the order of work, as it was seen. */
export interface WantSaid {
  id: string;
  /** Null: it is new. */
  version: number | null;
  said: { recipe: string; pieces: number; by: number; outlet: string | null; note: string; state: WantState };
}

/** What the server is asked of the week. */
export type WeekAsked =
  | { what: "look" }
  | { what: "plan"; isQuick: boolean }
  | { what: "follow"; plan: string }
  | { what: "say"; lines: readonly WantSaid[]; says: string };

/** All that is told to the page itself. */
export interface ToldBy {
  answer: Tells<(RunSaid | ShelfSaid) & { once?: string; says?: string }, Entering>;
  answers: Tells<{ entries: readonly RunSaid[]; once?: string }, Entering>;
  "say-again": Tells<Nothing, HTMLElement & { readonly spoken: string }>;
  "prompt-shown": Tells<{ text: string }>;
  "go-bench": Tells<{ run: string; step: string }>;
  "wait-turned": Tells<Nothing>;
  begin: Tells<{ recipe: RecipeRow; size: Size }, SizeScreen>;
  "kit-written": Tells<{ document: object }, KitScreen>;
  "settings-written": Tells<{ document: object }, StudioScreen>;
  "shelf-written": Tells<{ entries: readonly ShelfSaid[]; says?: string }, ShelfScreen | DeliveryScreen | BuyingScreen | PiecesScreen | RecipeScreen>;
  "picture-taken": Tells<{ blob: Blob; sha256: string; said: Said; says: string }, Entering>;
  "plan-heard": Tells<Nothing>;
  "plan-asked": Tells<PlanWish, DayScreen>;
  "plan-stopped": Tells<Nothing, DayScreen>;
  "hours-written": Tells<{ document: HoursDocument }, DayScreen>;
  "online-asked": Tells<OnlineAsked>;
  "list-given": Tells<{ list: WrittenDelivery }, DeliveryScreen>;
  "pieces-wanted": Tells<Nothing, PiecesScreen>;
  "stock-asked": Tells<StockAsked, PiecesScreen>;
  "recall-wanted": Tells<{ of: string; id: string; rehearsal: boolean; after: string | null }, RecallScreen>;
  "week-asked": Tells<WeekAsked, WeekScreen>;
  "trace-wanted": Tells<{ lot: string; after: string | null }, ShelfScreen>;
  preferred: Tells<{ key: keyof Preferences; value: string | boolean }>;
  "draft-written": Tells<Pick<DraftRow, "id" | "base" | "was" | "document" | "first">, RecipeScreen>;
  "check-wanted": Tells<{ document: WrittenRecipe; air: { temperature_c: string; humidity: string } | null }, RecipeScreen>;
  "recipe-sent": Tells<{ id: string }, RecipeScreen>;
  "draft-copied": Tells<{ id: string; document: WrittenRecipe }, RecipeScreen>;
  "recipe-copied": Tells<{ document: WrittenRecipe }, RecipeScreen>;
  "duty-said": Tells<DutySaid, LabelScreen | RecordScreen | RecipeScreen>;
  "product-said": Tells<{ id: string; use: ProductUse; sold_in: readonly SoldIn[] }, LabelScreen>;
  "version-taken": Tells<{ id: string; version: number; as: "draft" | "copy" | "newest" }, VersionsScreen>;
  "draft-dropped": Tells<{ id: string }, RecipeScreen>;
  "document-picked": Tells<{ document: WrittenRecipe }, BringScreen>;
  "document-kept": Tells<{ document: WrittenRecipe; over: RecipeRow | null }, BringScreen>;
  "document-edited": Tells<{ document: WrittenRecipe }, BringScreen>;
  "swap-wanted": Tells<{ id: string; line: string; ingredient: string }, SizeScreen>;
  "time-wanted": Tells<{ recipe: RecipeRow; size: Size; sheet: Sheet }, SizeScreen>;
  "history-wanted": Tells<{ id: string; page: number }, VersionsScreen>;
  "changes-wanted": Tells<{ id: string; from: number; to: number }, VersionsScreen>;
  "recipe-filed": Tells<{ id: string; tags: readonly string[]; archived: boolean }, VersionsScreen>;
  "devices-wanted": Tells<Nothing, StudioScreen>;
  "device-renamed": Tells<{ id: string; name: string }, StudioScreen>;
  "device-shut-out": Tells<{ id: string }, StudioScreen>;
  "role-given": Tells<{ id: string; role: Role }, StudioScreen>;
  "audit-wanted": Tells<{ before: string | null }, AuditScreen>;
  "find-wanted": Tells<FindAsked, RecipesScreen>;
  "code-wanted": Tells<{ role: Role }, StudioScreen>;
  "ring-tried": Tells<Nothing>;
  "practice-rang": Tells<{ phase: "look" | "ready" | "late" }>;
  "sync-wanted": Tells<Nothing>;
  "send-again": Tells<Pick<RefusedRow, "run" | "entry" | "picture">>;
  "set-aside": Tells<Pick<RefusedRow, "run" | "entry">>;
  "update-wanted": Tells<Nothing>;
}

/** All that is told, to the page or to the screen that a part stands on. */
export type Told = { [K in keyof ToldBy]: ToldBy[K]["detail"] } & {
  "wait-chosen": { run: string; step: string };
  "practice-again": Nothing;
  "answer-chosen": { answer: BenchAnswer };
};

type ToldEvents = { [K in keyof Told]: CustomEvent<Told[K]> };

declare global {
  interface HTMLElementEventMap extends ToldEvents {}
}
