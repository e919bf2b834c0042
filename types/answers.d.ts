// Written by `python -m tests.frontend.answers` from api/answers.py: change that, and write it again.
// No page loads this.

import type {
  BatchBegun,
  BatchFigures,
  BatchPieces,
  BatchVerdict,
  BuyingWant,
  Change,
  Complaint,
  Difference,
  DutyMark,
  Entry,
  Finding,
  FormerSheet,
  FrozenSeal,
  IngredientThere,
  JsonValue,
  Kit,
  LabelShape,
  LabelSheet,
  LotThere,
  MakerWritten,
  Market,
  MeasuredRecipe,
  NamedRun,
  OrderLine,
  OrderWant,
  Outlet,
  Proposal,
  Sheet,
  Size,
  Spoilage,
  Start,
  SwapEffect,
  VariantChoice,
  Want,
  WeekPlan,
  WrittenKit,
  WrittenRecipe,
} from "../bench/shapes/page";

export type Role = "maker" | "helper";

export interface Paged {
  readonly page: number;
  readonly pages: number;
  readonly total: number;
}

export interface Generation {
  /** Which studio this is: another one after each restore. Cursors and versions of the former one mean nothing here. Every answer also names it in the header Bowlside-Generation */
  readonly generation: string;
}

export interface Standing extends Generation {
  /** How often the clock of the server's computer was seen to leap */
  readonly epoch: number;
  /** By how much it leapt and is not followed yet, because something counts on an open run */
  readonly held_back_ms: number | null;
}

export interface Clock extends Standing {
  readonly server_ms: number;
}

export interface FieldProblem {
  /** Dotted path of the field; empty for the whole */
  readonly field: string;
  /** What is wrong and the way out */
  readonly detail: string;
}

/** Problem details, RFC 9457. */
export interface ProblemDetails {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  /** Names this one answer; the server's log has the same id */
  readonly instance: string;
  readonly errors: readonly FieldProblem[];
}

export interface You {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
}

export type ReadBack = "whole" | "partly" | "unread";

/** How the nightly copies stand. */
export interface CopiesNow {
  /** When the newest copy was made */
  readonly last_at: number | null;
  /** Its name */
  readonly file: string | null;
  /** What laying it out and comparing said; `partly` when the bench cannot read some of it, `unread` when nothing is known */
  readonly read_back: ReadBack | null;
  /** Entries of both journals in it */
  readonly entries: number | null;
  /** When a copy was last sent elsewhere */
  readonly sent_at: number | null;
  /** When the last try failed; null when it went well */
  readonly failed_at: number | null;
  readonly failed_why: string | null;
  /** No copy for 36 hours, or more than one failure in a row: a maker should look */
  readonly stopped: boolean;
}

export interface StudioNow extends Standing {
  readonly mode: "local" | "lan" | "proxy";
  /** The paired device that asks; null where nobody needs to pair */
  readonly you: You | null;
  /** Names of paired devices, by what the journals' entries call them */
  readonly benches: { readonly [key: string]: string };
  /** When the newest nightly copy was made */
  readonly last_copy_at: number | null;
  readonly copies: CopiesNow;
  /** When the server's own certificate ends */
  readonly certificate_ends_at: number | null;
  /** What shows that the server's clock is wrong; null when nothing does */
  readonly clock_wrong: string | null;
  readonly version: string;
}

export interface DeviceItem {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** What the journal's entries call it */
  readonly bench: string | null;
  readonly paired_at: number;
  /** Written about once a minute */
  readonly seen_at: number;
  readonly shut_out_at: number | null;
}

export interface DevicePage extends Paged {
  readonly devices: readonly DeviceItem[];
}

export interface PairingMade {
  readonly code: string;
  readonly expires_at: number;
  /** What the new device opens */
  readonly address: string;
  /** The address as a QR code, in SVG */
  readonly qr: string;
}

export interface Paired {
  readonly device: DeviceItem;
}

export interface AuditItem {
  readonly id: string;
  readonly at: number;
  /** The paired device's id */
  readonly actor: string | null;
  /** Its name then, or who else it was */
  readonly who: string;
  readonly what: string;
  readonly about: { readonly [key: string]: null | boolean | number | string | readonly JsonValue[] | { readonly [key: string]: JsonValue } };
  /** What was done, in words that follow `who` */
  readonly says: string;
}

export interface AuditPage {
  readonly audit: readonly AuditItem[];
  /** For the next page; null on the last */
  readonly before: string | null;
}

export interface RecipeItem {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly summary: string;
  readonly updated_at: number;
  readonly tags: readonly string[];
  /** Since when it is archived */
  readonly archived_at: number | null;
}

export interface RecipePage extends Paged {
  readonly recipes: readonly RecipeItem[];
}

export interface VersionHead {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly updated_at: number;
}

export interface RecipeSaid {
  /** The recipe as written */
  readonly document: WrittenRecipe;
  readonly measured: MeasuredRecipe;
}

export interface RecipeWhole extends VersionHead, RecipeSaid {
}

export interface RecipeKept extends VersionHead {
  readonly tags: readonly string[];
  readonly archived_at: number | null;
  /** As its own address answers it */
  readonly etag: string;
}

export interface WholePage extends Paged {
  readonly recipes: readonly RecipeKept[];
  /** What each of them says, in the same order; one a line */
  readonly said: readonly RecipeSaid[];
}

export interface VersionItem {
  readonly version: number;
  readonly title: string;
  readonly created_at: number;
}

export interface VersionPage extends Paged {
  readonly versions: readonly VersionItem[];
}

export interface Changes {
  readonly version: number;
  /** null: the first version, with none before it */
  readonly since: number | null;
  readonly changes: readonly Change[];
}

export interface Findings {
  readonly findings: readonly Finding[];
}

export interface Checked extends Findings {
  readonly measured: MeasuredRecipe;
}

export interface Proposals {
  readonly substances: readonly Proposal[];
}

export interface Swaps {
  readonly swaps: readonly SwapEffect[];
}

export interface KitWhole {
  readonly version: number;
  readonly document: WrittenKit;
  readonly measured: Kit;
}

export interface SizedRecipe {
  readonly size: Size;
  readonly says: string;
  readonly runs_out: string | null;
  readonly sheet: Sheet;
  /** By component: why it is made in several rounds, in words */
  readonly why: { readonly [key: string]: readonly string[] };
  /** The warnings of the sheet, in words */
  readonly warnings: readonly string[];
}

/** `api.plan_shapes.MakersWritten`, read: whose hands there are, and when. */
export interface StudioHours {
  readonly makers: readonly MakerWritten[];
}

export interface HoursWhole {
  /** 0: nobody said yet, and the bench is open day and night */
  readonly version: number;
  readonly document: StudioHours;
}

/** `api.schemas.LabelSettings`, read. */
export interface LabelSaid {
  readonly market?: Market;
  readonly shape?: LabelShape;
  readonly width_mm?: number;
  readonly height_mm?: number;
  readonly opened_months?: number;
  readonly sheets?: readonly LabelSheet[];
}

export type MoneySaid = "hourly_rate" | "wrap_cost" | "packaging_cost" | "sprays_cost" | "overhead_cost" | "fee_percent" | "fee_each" | "margin_percent" | "tax_percent";

/** `api.schemas.SettingsWritten`, read. */
export interface SettingsSaid {
  readonly batch_number: string;
  readonly currency?: string;
  readonly hourly_rate?: string;
  readonly wrap_cost?: string;
  readonly packaging_cost?: string;
  readonly sprays_cost?: string;
  readonly overhead_cost?: string;
  readonly cleaning_minutes?: number;
  readonly labelling_seconds?: number;
  readonly fee_percent?: string;
  readonly fee_each?: string;
  readonly margin_percent?: string;
  readonly tax_percent?: string;
  readonly without_tax?: boolean;
  readonly before?: readonly Start[];
  readonly maker?: string;
  readonly label?: LabelSaid;
}

/** A week, planned from what is wanted. */
export interface WeekAnswer {
  /** Now, by the server's clock */
  readonly at: number;
  /** As they were asked, each with the id that the plan calls it by */
  readonly wants: readonly Want[];
  readonly titles: { readonly [key: string]: string };
  readonly makers: readonly string[];
  /** By recipe, from own runs; null: fewer than three say it */
  readonly spoilage: { readonly [key: string]: Spoilage | null };
  readonly plan: WeekPlan;
  /** How good the plan is known to be */
  readonly says: string;
}

/** A plan of the order of work, as it is kept. */
export interface OrderPlan {
  readonly id: string;
  /** A first plan: the next full one of the same things takes its place */
  readonly quick: boolean;
  /** Made then, by the server's clock */
  readonly at: number;
  /** Another once wants, pieces, batches, hours, kit, shelf or a recipe are */
  readonly mark: string;
  /** What was planned: lines of one recipe by one instant are one */
  readonly wants: readonly Want[];
  /** By line of the order, where its pieces come from */
  readonly lines: readonly OrderLine[];
  /** Lines whose instant was past */
  readonly past: readonly string[];
  /** Lines beyond what is planned at once */
  readonly later: readonly string[];
  /** Recipes that are not here, or cannot be made with this kit in these hours */
  readonly cannot: readonly string[];
  readonly titles: { readonly [key: string]: string };
  /** Of what the plan says that would help: equipment, by its key */
  readonly names: { readonly [key: string]: string };
  readonly makers: readonly string[];
  readonly spoilage: { readonly [key: string]: Spoilage | null };
  readonly plan: WeekPlan;
  /** What is made on which day: the wants of POST /buying */
  readonly needs: readonly BuyingWant[];
}

export interface OrderPlanSaid extends OrderPlan {
  /** How good the plan is known to be */
  readonly says: string;
}

/** How the order of work stands. */
export interface WeekNow {
  /** Now, by the server's clock */
  readonly at: number;
  readonly mark: string;
  /** Line -> finished pieces that are promised to it */
  readonly there: { readonly [key: string]: number };
  readonly followed: OrderPlanSaid | null;
  /** A newer plan, of things as they are, that is not followed yet */
  readonly offered: OrderPlanSaid | null;
  /** Planned batches that were begun */
  readonly begun: readonly BatchBegun[];
}

export interface WantPage extends Paged {
  readonly wants: readonly OrderWant[];
}

export interface PiecesPage extends Paged {
  readonly pieces: readonly BatchPieces[];
}

/** What a finished batch cost, by the shelf's prices as they are now. */
export interface BatchCost {
  readonly currency: string;
  /** How many the currency is counted in */
  readonly decimals: number;
  readonly total: string;
  /** A good one, less what was kept back; null: nobody counted */
  readonly per_piece: string | null;
  /** How many materials have no price in this currency: above 0, it cost at least so much */
  readonly unpriced: number;
}

/** A finished batch in figures. null: it does not tell, which is not zero. */
export interface BatchItem extends BatchFigures {
  readonly run: string;
  readonly number: string | null;
  readonly recipe: string;
  readonly version: number;
  readonly title: string;
  readonly finished_at: number;
  readonly release: BatchVerdict | null;
  readonly cost: BatchCost | null;
}

export interface BatchPage extends Paged {
  /** The newest first */
  readonly batches: readonly BatchItem[];
  /** Whether this server writes Parquet */
  readonly parquet: boolean;
}

export interface RecipeBatches {
  readonly recipe: string;
  readonly title: string;
  /** The last of them, the oldest first */
  readonly batches: readonly BatchItem[];
}

export interface RecipeBatchesPage extends Paged {
  /** By title; those of which a batch is finished */
  readonly recipes: readonly RecipeBatches[];
}

export interface VariantBatch {
  readonly run: string;
  readonly number: string | null;
  readonly figures: BatchFigures;
}

/** A variant of a recipe, which is a recipe of its own. */
export interface Variant {
  readonly recipe: string;
  readonly letter: string;
  /** The version that it was taken from */
  readonly of_version: number;
  readonly title: string;
  /** What it tries out; none: it is as the recipe was */
  readonly changes: readonly Change[];
  /** What is judged of its pieces at the end */
  readonly judges: readonly string[];
  /** As many as weigh some 100 g */
  readonly small_pieces: number;
  /** Batches of it on the bench */
  readonly open: number;
  /** The last thirty that are finished, the oldest first */
  readonly batches: readonly VariantBatch[];
  /** From the first variant, with Welch's interval */
  readonly differences: readonly Difference[];
}

export interface Trials {
  readonly recipe: string;
  readonly version: number;
  readonly variants: readonly Variant[];
  /** What one change may be of */
  readonly choices: readonly VariantChoice[];
}

export interface OutletList {
  readonly outlets: readonly Outlet[];
}

export interface OutletErased extends Outlet {
  /** Copies in the studio's folder that still name it, or may and cannot be read here */
  readonly copies: readonly string[];
}

export interface ComplaintList {
  /** The newest first */
  readonly complaints: readonly Complaint[];
}

export interface DutyMarks {
  /** What holds of each duty that somebody said something of */
  readonly marks: readonly DutyMark[];
}

export interface SettingsWhole {
  readonly version: number;
  readonly document: SettingsSaid;
}

export interface RunRecipe {
  readonly id: string;
  readonly version: number;
  readonly title: string;
}

export interface RunItem {
  readonly id: string;
  readonly recipe: RunRecipe;
  readonly size: Size;
  readonly created_at: number;
  readonly finished_at: number | null;
  /** The batch number */
  readonly number: string | null;
  /** How many there are */
  readonly entries: number;
  /** How far the journal reaches */
  readonly cursor: number;
  /** When it was begun at the bench */
  readonly made_at: number | null;
  /** As it was judged last, of the record as it is signed now */
  readonly release: BatchVerdict | null;
  /** The signing of an earlier version for which the run says what it seals */
  readonly sealed_by: string | null;
}

export interface RunPage extends Paged {
  readonly runs: readonly RunItem[];
}

export interface RunWhole extends RunItem {
  /** As it was kept when the run was begun */
  readonly sheet: Sheet | FormerSheet;
  readonly sealed: FrozenSeal | null;
}

export interface RunRead extends RunWhole {
  readonly journal: readonly Entry[];
  /** The cursor of the last of these entries; the run's own is greater where more follow */
  readonly read_to: number;
}

export interface WholeRunPage extends Paged {
  readonly runs: readonly RunRead[];
}

export interface EntryAnswer {
  readonly id: string | null;
  readonly result: "kept" | "had" | "refused";
  /** When refused: the field at fault */
  readonly field?: string;
  /** When refused: why, and the way out */
  readonly detail?: string;
  /** When it gave the batch a number that other runs have too: those runs */
  readonly also_used_by?: readonly NamedRun[];
}

export interface EntryAnswers extends Generation {
  readonly answers: readonly EntryAnswer[];
  /** How far the journal reaches. Read on from the cursor you have, not from this one */
  readonly cursor: number;
  readonly server_ms: number;
}

export interface EntryPage extends Generation {
  readonly entries: readonly Entry[];
  /** What to send as `after` next time */
  readonly cursor: number;
  readonly more: boolean;
  readonly server_ms: number;
}

export interface PictureKept {
  readonly id: string;
  readonly sha256: string;
  readonly bytes: number;
}

export interface PictureAwaited {
  readonly id: string;
  /** The run whose entry tells of it */
  readonly run: string;
}

export interface PicturesAwaited {
  readonly awaited: readonly PictureAwaited[];
}

export interface IngredientPage extends Paged {
  readonly ingredients: readonly IngredientThere[];
}

export interface LotPage extends Paged {
  readonly lots: readonly LotThere[];
}

export type FoundKind = "recipe" | "batch" | "ingredient" | "lot" | "note";

export interface FoundRecipe {
  readonly kind: "recipe";
  readonly id: string;
  readonly title: string;
  readonly version: number;
  readonly tags: readonly string[];
  readonly archived_at: number | null;
}

export interface FoundBatch {
  readonly kind: "batch";
  readonly id: string;
  readonly title: string;
  /** The batch number */
  readonly number: string | null;
  readonly pieces: number;
  readonly finished_at: number | null;
  readonly release: BatchVerdict | null;
}

export interface FoundIngredient {
  readonly kind: "ingredient";
  readonly id: string;
  readonly title: string;
  /** A note of its, where that has the words and its name has not */
  readonly note: string | null;
}

export interface FoundLot {
  readonly kind: "lot";
  readonly id: string;
  /** The ingredient's name */
  readonly title: string;
  /** The supplier's */
  readonly number: string;
  readonly ingredient: string;
  readonly supplier: string | null;
  readonly note: string | null;
}

export interface FoundNote {
  readonly kind: "note";
  /** The entry's */
  readonly id: string;
  readonly run: string;
  /** The batch's */
  readonly title: string;
  readonly number: string | null;
  readonly at: number;
  readonly text: string;
}

export interface FoundGroup {
  readonly kind: FoundKind;
  readonly found: readonly (FoundRecipe | FoundBatch | FoundIngredient | FoundLot | FoundNote)[];
  /** Whether the next page has any */
  readonly more: boolean;
}

export interface FoundPage {
  readonly page: number;
  /** Those that have something on this page */
  readonly groups: readonly FoundGroup[];
}

export interface Imported {
  readonly kept: number;
  readonly had: number;
  readonly refused: readonly FieldProblem[];
  /** How many more than those that are named */
  readonly more_refused: number;
}
