// Written by `python -m bench.shapes.write` from bench/shapes/*.py: change those, and write it again.

// bench/shapes/units.py

export type JsonValue =
  | null
  | boolean
  | number
  | string
  | readonly JsonValue[]
  | JsonObject;

export type JsonObject = { readonly [key: string]: JsonValue };

/** whole milligrams */
export type Mg = number;

/** whole micrograms */
export type Ug = number;

/** whole millionths of an avoirdupois ounce */
export type Uoz = number;

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

/** an id of the maker's own */
export type Id = string;

/** a step's id, or component.step */
export type WrittenRef = string;

/** an amount as people write it */
export type WrittenAmount = string;

/** words of the maker's own */
export type Says = string;

/** component.step or component.line of a recipe */
export type RecipeKey = string;

/** component.round.step of a sheet */
export type StepKey = string;

/** component.round.line of a sheet */
export type LineKey = string;

/** component.round.label of a sheet */
export type VesselKey = string;

// bench/shapes/recipe.py

export type StepKind = "weigh" | "do" | "melt" | "split" | "check" | "pieces" | "wait";

export type Does = "grind" | "sift" | "mix" | "wipe" | "whip" | "colour" | "spray" | "press" | "pour" | "pipe" | "unmould" | "join" | "sprinkle" | "wrap" | "label";

export type IngredientKind = "acid" | "alcohol" | "bicarbonate" | "botanical" | "butter" | "carbonate" | "citric_acid" | "dye" | "fragrance" | "humectant" | "lake" | "mica" | "oil" | "pigment" | "powder" | "preservative" | "salt" | "soap_base" | "solubiliser" | "surfactant" | "water" | "wax" | "whipping_base" | "other";

export type Measures = "us" | "imperial" | "metric";

export type AcidForm = "anhydrous" | "monohydrate";

export type Hazard = "alcohol" | "hot_fat" | "hot_soap" | "mixer" | "powder" | "slippery" | "superheated" | "wet_sockets";

export type ProductUse = "bath" | "wash" | "left_on" | "lips" | "eyes" | "air" | "decoration";

export type SoldIn = "us" | "eu" | "uk" | "ni";

export type StateName = "melted_base" | "warm_fat" | "wetted_fizz" | "whipped_base" | "beaten_topping" | "piped_top" | "first_layer" | "unwrapped";

export type WindowClass = "ruin" | "back" | "quality";

export type HazardList = readonly Hazard[];

export interface WrittenDensity {
  readonly g_per_ml: string;
  readonly tapped_g_per_ml?: string;
  readonly source: string;
}

export interface WrittenAllergen {
  readonly name: string;
  readonly share: string;
}

export interface WrittenFragrance {
  readonly limit?: string;
  readonly category?: string;
  readonly allergens?: readonly WrittenAllergen[];
}

export interface WrittenHeat {
  readonly solid_j_per_kg_k: number;
  readonly liquid_j_per_kg_k: number;
  readonly latent_j_per_kg: number;
  readonly melts_c: string;
  readonly source: string;
}

export interface WrittenIngredient {
  readonly name: string;
  readonly note?: Says;
  readonly inci?: string;
  readonly kind?: IngredientKind;
  readonly form?: AcidForm;
  readonly density?: WrittenDensity;
  readonly fragrance?: WrittenFragrance;
  readonly most_c?: string;
  readonly active?: string;
  readonly heat?: WrittenHeat;
  readonly hazards?: HazardList;
}

export interface WrittenSubstitute {
  readonly ingredient: Id;
  readonly amount?: WrittenAmount;
  readonly says?: Says;
  readonly changes_method?: boolean;
}

export interface WrittenLine {
  readonly id: Id;
  readonly ingredient: Id;
  readonly amount: WrittenAmount;
  readonly tolerance?: WrittenAmount;
  readonly optional?: boolean;
  /** another person reads the scale too, before anything else goes in */
  readonly second_look?: boolean;
  readonly note?: Says;
  readonly substitutes?: readonly WrittenSubstitute[];
}

export interface WrittenWay {
  readonly id: Id;
  readonly name: string;
  readonly says?: Says;
  readonly hazards?: HazardList;
}

export interface WrittenWindow {
  /** what opens it; what the step comes after, where it does not say */
  readonly from?: WrittenRef;
  readonly latest: WrittenAmount;
  readonly stake: string;
  readonly rescue?: string;
}

export interface WrittenHead {
  readonly id: Id;
  readonly title: string;
  readonly says?: Says;
  readonly reason?: Says;
  readonly after?: readonly WrittenRef[];
  readonly optional?: boolean;
  readonly does?: Does;
  readonly hazards?: HazardList;
  readonly caution?: string;
  readonly ways?: readonly WrittenWay[];
  readonly window?: WrittenWindow;
  readonly hands?: WrittenAmount;
  readonly tools?: readonly string[];
}

export interface WrittenWeigh extends WrittenHead {
  readonly kind: "weigh";
  readonly lines: readonly Id[];
  readonly into?: Id;
}

export interface WrittenDo extends WrittenHead {
  readonly kind: "do";
  readonly about?: WrittenAmount;
  readonly of?: readonly Id[];
  readonly tips?: readonly Id[];
  readonly into?: Id;
}

export interface WrittenMelt extends WrittenHead {
  readonly kind: "melt";
  readonly of: readonly Id[];
  readonly heater: string;
  readonly burst: WrittenAmount;
  readonly last_burst?: WrittenAmount;
  readonly rest?: WrittenAmount;
  readonly from_c?: WrittenAmount;
  readonly to_c?: WrittenAmount;
  readonly look_for: string;
}

export interface WrittenPortion {
  readonly id: Id;
  readonly name: string;
  readonly share?: number;
  readonly mass?: WrittenAmount;
}

export interface WrittenSplit extends WrittenHead {
  readonly from?: Id;
  readonly kind: "split";
  readonly portions: readonly WrittenPortion[];
}

export interface WrittenNotYet {
  readonly do: string;
}

export interface WrittenTooFar {
  readonly do: string;
  readonly wait?: WrittenAmount;
}

export interface WrittenCheck extends WrittenHead {
  readonly kind: "check";
  readonly ask: string;
  readonly yes?: string;
  readonly not_yet: WrittenNotYet;
  readonly too_far?: WrittenTooFar;
}

export interface WrittenPieces extends WrittenHead {
  readonly kind: "pieces";
  readonly one_by_one?: boolean;
  readonly again?: string;
  readonly of?: readonly Id[];
  readonly partial?: boolean;
  readonly verb?: string;
}

export interface WrittenWait extends WrittenHead {
  readonly kind: "wait";
  readonly word: string;
  readonly earliest: WrittenAmount;
  readonly usual: WrittenAmount;
  readonly latest?: WrittenAmount;
  readonly test?: string;
  readonly stake?: string;
  readonly rescue?: string;
}

export interface WrittenTurn extends WrittenHead {
  readonly kind: "turn";
  /** what a piece is once it was done: turned */
  readonly word: string;
  readonly every: WrittenAmount;
  /** the wait of the same part that goes on meanwhile */
  readonly during: Id;
}

export type PlainStep = WrittenWeigh | WrittenDo | WrittenMelt | WrittenSplit | WrittenCheck | WrittenPieces | WrittenWait;

export interface LoweredStep extends WrittenHead {
  readonly kind: "turn";
  /** what a piece is once it was done: turned */
  readonly word: string;
  readonly every: WrittenAmount;
  /** the wait of the same part that goes on meanwhile */
  readonly during: Id;
}

export type WrittenStep = WrittenWeigh | WrittenDo | WrittenMelt | WrittenSplit | WrittenCheck | WrittenPieces | WrittenWait | LoweredStep;

export interface MouldNeed {
  readonly shape: string;
  /** whether the piece stays in it until it is turned out, so that the next round must wait */
  readonly held: boolean;
}

export interface WrittenComponent {
  readonly id: Id;
  readonly name: string;
  readonly piece?: WrittenAmount;
  readonly spares?: number;
  readonly stays_behind?: WrittenAmount;
  readonly loss?: WrittenAmount;
  readonly part?: WrittenAmount;
  readonly vessel?: Id;
  readonly mould?: MouldNeed;
  readonly lines?: readonly WrittenLine[];
  readonly steps: readonly WrittenStep[];
}

export interface WrittenTake {
  readonly component: Id;
  readonly count?: number;
}

export interface WrittenAssembly {
  readonly name?: string;
  readonly takes: readonly WrittenTake[];
  readonly lines?: readonly WrittenLine[];
  readonly steps: readonly WrittenStep[];
}

export interface PieceWords {
  readonly one: string;
  readonly many: string;
}

/** From the least to the most that will do; one of them may be left out. */
export interface WrittenRange {
  readonly least?: WrittenAmount;
  readonly most?: WrittenAmount;
}

/** What a good piece is: asked at the end, and kept in the record. */
export interface WrittenGoodPiece {
  readonly mass?: WrittenRange;
  readonly ph?: WrittenRange;
  readonly look?: string;
  readonly set?: string;
  /** told in a number or a word */
  readonly judge?: readonly string[];
}

/** The recipe that a variant tries to better; or, of a recipe, the variant that it was written from. */
export interface WrittenOrigin {
  readonly recipe: string;
  readonly version: number;
  /** the variant's */
  readonly letter: string;
}

/** What a variant may change: a value of the recipe, with its name and as it is. */
export interface VariantChoice {
  readonly where: string;
  readonly name: string;
  readonly value: string | number;
}

/** The one change of a variant: a value of the recipe by its path, "components.0.lines.1.amount". */
export interface VariantChange {
  readonly where: string;
  readonly value: null | boolean | number | string | readonly JsonValue[] | { readonly [key: string]: JsonValue };
}

export type Start = "cleaned" | "cleared";

/** A recipe as its maker wrote it: components made apart, and the assembly that joins them. */
export interface WrittenRecipe {
  readonly format: "bowlside-recipe/1";
  readonly title: string;
  readonly summary?: string;
  readonly measures?: Measures;
  readonly written_for: number;
  readonly piece?: PieceWords;
  readonly use?: ProductUse;
  /** none: it is not sold */
  readonly sold_in?: readonly SoldIn[];
  /** how long a piece keeps unopened */
  readonly keeps_months?: number;
  readonly stays_on?: boolean;
  readonly looks_like_food?: boolean;
  readonly good_piece?: WrittenGoodPiece;
  /** it is a variant */
  readonly trial?: WrittenOrigin;
  /** the variant that won a trial */
  readonly written_from?: WrittenOrigin;
  /** what is asked before the first weighing */
  readonly before?: readonly Start[];
  readonly asks_air?: boolean;
  readonly ingredients: { readonly [key: string]: WrittenIngredient };
  readonly components: readonly WrittenComponent[];
  readonly assembly?: WrittenAssembly;
}

export interface Spoon {
  readonly name: string;
  readonly nl: Nl;
}

export interface Density {
  /** a decimal, g/ml */
  readonly g_per_ml: string;
  /** None: not known */
  readonly tapped_g_per_ml: string | null;
  readonly source: string;
}

export interface Heat {
  /** J/(kg K) */
  readonly solid_j_per_kg_k: number;
  /** J/(kg K) */
  readonly liquid_j_per_kg_k: number;
  /** J/kg */
  readonly latent_j_per_kg: number;
  readonly melts_mk: MilliK;
}

export interface Allergen {
  readonly name: string;
  /** of the fragrance */
  readonly ppm: Ppm;
}

export interface Fragrance {
  /** of the finished piece, from its own certificate; None: not given */
  readonly limit_ppm: Ppm | null;
  readonly category: string;
  readonly allergens: readonly Allergen[];
}

/** What is warned of: the usual hazards by their code, and cautions of the recipe's own. */
export interface Cautioned {
  /** absent: measured long ago, in words among the cautions */
  readonly hazards?: readonly Hazard[];
  readonly cautions: readonly string[];
}

export interface Ingredient extends Cautioned {
  readonly name: string;
  readonly inci: string;
  readonly note: string;
  readonly kind: IngredientKind | "";
  readonly form: AcidForm | "";
  /** None: stays in spoons */
  readonly density: Density | null;
  /** None: no estimate of a melt */
  readonly heat: Heat | null;
  /** the warmest it may get; None: its papers were not copied */
  readonly most_mk: MilliK | null;
  readonly fragrance: Fragrance | null;
  /** active share by mass; None: not given */
  readonly active_ppm: Ppm | null;
}

/** How much: exactly one of ug, nl, count and texture says how it is measured. */
export interface Measure {
  readonly ug: Ug | null;
  readonly nl: Nl | null;
  readonly count: Thousandths | null;
  /** of a count: drops or pieces */
  readonly unit: string;
  /** what counted drops are likely to weigh */
  readonly about_ug: Ug | null;
  readonly texture: boolean;
}

export type SubstituteBy = "amount" | "active" | "volume" | "mass" | "count" | "texture";

export interface Substitute extends Measure {
  readonly ingredient: Id;
  /** by what it is equal to the line */
  readonly by: SubstituteBy;
  readonly written: string;
  readonly by_volume: boolean;
  readonly says: string;
  readonly changes_method: boolean;
}

export interface LookedAtTwice {
  readonly second_look?: boolean;
}

export interface RecipeLine extends Measure, LookedAtTwice {
  readonly id: Id;
  readonly ingredient: Id;
  readonly written: string;
  readonly by_volume: boolean;
  readonly tolerance_ppm: Ppm;
  readonly optional: boolean;
  readonly note: string;
  readonly substitutes: readonly Substitute[];
}

export interface Way extends Cautioned {
  readonly id: Id;
  readonly name: string;
  readonly says: string;
}

export interface Guard {
  /** "": over no state that is known; absent: measured long ago */
  readonly state?: StateName | "";
  readonly class?: WindowClass;
  /** of the hands, to bring it back */
  readonly price_ms?: Ms;
  /** past the latest, from when it is lost; None: never by time alone */
  readonly lost_ms?: Ms | null;
  /** what helps when it was missed, in the recipe's own words */
  readonly rescue?: string;
}

/** How soon a step must follow: `from` are component.step in a recipe, component.round.step in a sheet. */
export interface Window extends Guard {
  readonly from: readonly string[];
  /** after the last of `from` has ended */
  readonly latest_ms: Ms;
  readonly stake: string;
}

export interface RecipeHead extends Cautioned {
  readonly id: Id;
  readonly title: string;
  readonly says: string;
  readonly reason: string;
  readonly after: readonly RecipeKey[];
  readonly optional: boolean;
  readonly does: Does | "";
  readonly unmoulds: boolean;
  /** alcohol is in hand */
  readonly alcohol: boolean;
  readonly ways: readonly Way[];
  readonly window: Window | null;
  /** None: the recipe does not say */
  readonly hands_ms: Ms | null;
  readonly tools: readonly string[];
  /** windows by nature; absent: measured long ago */
  readonly keeps?: readonly Window[];
  /** done with, once these are: nothing waits for it */
  readonly until?: readonly RecipeKey[];
  /** the step that it is part of, as written */
  readonly written?: Id;
}

export interface RecipeWeigh extends RecipeHead {
  readonly kind: "weigh";
  readonly lines: readonly Id[];
  readonly into: Id;
}

export interface RecipeDo extends RecipeHead {
  readonly kind: "do";
  readonly about_ms: Ms | null;
  readonly of: readonly Id[];
  readonly tips: readonly Id[];
  readonly into: Id;
}

export interface RecipeMelt extends RecipeHead {
  readonly kind: "melt";
  readonly of: readonly Id[];
  readonly heater: string;
  readonly burst_ms: Ms;
  readonly last_burst_ms: Ms;
  readonly rest_ms: Ms;
  readonly from_mk: MilliK | null;
  readonly to_mk: MilliK | null;
  readonly look_for: string;
}

export interface RecipePortion {
  readonly id: Id;
  readonly name: string;
  /** of the sum of all shares; mg where they were written as masses */
  readonly share: number;
}

export interface RecipeSplit extends RecipeHead {
  readonly from: Id;
  readonly kind: "split";
  readonly portions: readonly RecipePortion[];
}

export interface LeftAlone {
  /** what went too far is to be left for so long before it is judged again */
  readonly too_far_ms?: Ms;
}

export interface LooksAt {
  readonly looks_at?: readonly Id[];
}

export interface RecipeCheck extends RecipeHead, LeftAlone, LooksAt {
  readonly kind: "check";
  readonly ask: string;
  /** "": not said */
  readonly yes: string;
  readonly not_yet: string;
  /** None: it cannot go too far; "": common practice helps */
  readonly too_far: string | null;
}

export interface RecipePieces extends RecipeHead {
  readonly kind: "pieces";
  readonly one_by_one: boolean;
  /** asked after each */
  readonly again: string | null;
  readonly of: readonly Id[];
  readonly partial: boolean;
  /** "": not said */
  readonly verb: string;
}

export interface RecipeWait extends RecipeHead, Guard {
  readonly kind: "wait";
  readonly word: string;
  readonly earliest_ms: Ms;
  readonly usual_ms: Ms;
  /** None: it never ends too late */
  readonly latest_ms: Ms | null;
  readonly test: string;
  readonly stake: string;
}

export type RecipeStep = RecipeWeigh | RecipeDo | RecipeMelt | RecipeSplit | RecipeCheck | RecipePieces | RecipeWait;

export interface Component {
  readonly id: Id;
  readonly name: string;
  /** how many of its pieces one finished piece takes */
  readonly takes: number;
  readonly spares: number;
  /** 0: it is not weighed */
  readonly piece_mg: Mg;
  readonly stays_behind_mg: Mg;
  readonly loss_ppm: Ppm;
  readonly vessel: Id;
  readonly mould: MouldNeed | null;
  readonly lines: readonly RecipeLine[];
  readonly steps: readonly RecipeStep[];
}

/** A written amount that can be read in two ways, and was taken in before it was asked about. */
export interface TwoWays {
  /** a field of the recipe */
  readonly where: string;
  readonly written: string;
  /** as which it is read, and as which it may have been meant */
  readonly ways: readonly string[];
}

/** One thing that a recipe wants of a good piece. */
export interface GoodPiece {
  /** mass, ph, look or set; "judge-1": what the maker judges, in words of its own */
  readonly criterion: string;
  /** whole mg, or thousandths of a pH; None: no bound */
  readonly least: number | null;
  readonly most: number | null;
  /** of what is looked at; "" */
  readonly says: string;
}

/** A recipe whose amounts have been read into whole numbers, every default filled in. */
export interface MeasuredRecipe {
  readonly format: "bowlside-measured/1";
  readonly title: string;
  readonly summary: string;
  readonly measures: Measures;
  /** the largest first */
  readonly spoons: readonly Spoon[];
  /** pieces */
  readonly written_for: number;
  readonly piece: PieceWords;
  readonly use?: ProductUse;
  /** none: it is not sold */
  readonly sold_in?: readonly SoldIn[];
  /** how long a piece keeps unopened */
  readonly keeps_months?: number;
  /** None: neither said nor told by its use */
  readonly stays_on: boolean | null;
  /** None: not said */
  readonly looks_like_food: boolean | null;
  /** absent: the recipe does not say */
  readonly good_piece?: readonly GoodPiece[];
  readonly before?: readonly Start[];
  /** the parts before which the air is asked for; absent: none, or of earlier */
  readonly asks_air?: readonly Id[];
  readonly ingredients: { readonly [key: string]: Ingredient };
  /** the assembly last */
  readonly components: readonly Component[];
  /** of a recipe that is kept */
  readonly asks?: readonly TwoWays[];
}

export type Level = "will_not_run" | "look" | "know";

export interface Finding {
  /** its id in bench/checks/rules.json */
  readonly rule: string;
  readonly level: Level;
  /** component, component.line, component.step, ingredients.id or a field of the recipe */
  readonly where: string;
  readonly what: string;
  readonly why: string;
  readonly by: string;
  readonly do: string;
  readonly source: string;
  /** of its text: a day, a month, a year or "unknown"; "" where there is none */
  readonly dated: string;
  /** what `where` points at, in words */
  readonly place?: string;
}

/** Today's air in the room. */
export interface RoomAir {
  readonly temperature_c: number;
  /** per cent */
  readonly humidity: number;
}

export interface SwapEffect {
  readonly line: RecipeKey;
  readonly ingredient: Id;
  readonly name: string;
  readonly by: SubstituteBy;
  /** of the batch as written; None: not weighed */
  readonly mg_before: Mg | null;
  readonly mg_after: Mg | null;
  readonly changes_method: boolean;
  readonly says: readonly string[];
  readonly findings_new: readonly Finding[];
  readonly findings_gone: readonly Finding[];
  readonly label_new: readonly string[];
  readonly label_gone: readonly string[];
}

/** One thing that is different in another version of a recipe. */
export interface Change {
  readonly where: string;
  readonly what: string;
}

// bench/shapes/kit.py

export type Material = "aluminium" | "copper" | "enamel" | "glass" | "other" | "polypropylene" | "porcelain" | "silicone" | "steel" | "wood";

export interface WrittenScale {
  readonly id: Id;
  readonly name: string;
  readonly capacity: string;
  readonly division: string;
  readonly test_weight?: string;
}

export interface WrittenVessel {
  readonly id: Id;
  readonly name: string;
  readonly kind: Id;
  readonly empty: string;
  readonly holds: string;
  readonly material?: Material;
}

export interface WrittenMould {
  readonly id: Id;
  readonly name: string;
  readonly shape: string;
  readonly cavities: number;
  readonly sets?: number;
  readonly cavity?: string;
}

export interface WrittenHeater {
  readonly id: Id;
  readonly name: string;
  readonly kind: string;
  readonly absorbed_w?: number;
}

export interface WrittenMixer {
  readonly id: Id;
  readonly name: string;
}

/** What stands on one maker's bench. */
export interface WrittenKit {
  readonly format: "bowlside-kit/1";
  readonly scales: readonly WrittenScale[];
  readonly vessels?: readonly WrittenVessel[];
  readonly moulds?: readonly WrittenMould[];
  readonly heaters?: readonly WrittenHeater[];
  readonly mixers?: readonly WrittenMixer[];
}

export interface Scale {
  readonly id: Id;
  readonly name: string;
  /** vessel and contents together */
  readonly capacity_mg: number;
  readonly division_mg: number;
  readonly division_uoz?: number;
  /** what its test weight weighs; absent: there is none */
  readonly test_mg?: number;
}

export interface Vessel {
  readonly id: Id;
  readonly name: string;
  /** bowl, jug, cup … */
  readonly kind: string;
  readonly empty_mg: number;
  readonly holds_mg: number;
  /** absent: not said */
  readonly material?: Material;
}

export interface Mould {
  readonly id: Id;
  readonly name: string;
  readonly shape: string;
  /** in one set */
  readonly cavities: number;
  readonly sets: number;
  /** what one cavity holds; None: not said, so any piece fits */
  readonly cavity_mg: number | null;
}

export interface Heater {
  readonly id: Id;
  readonly name: string;
  readonly kind: string;
  /** what reaches the melt; None: not measured, so no bursts are planned */
  readonly absorbed_w: number | null;
}

export interface Mixer {
  readonly id: Id;
  readonly name: string;
}

/** The measured kit. */
export interface Kit {
  readonly format: "bowlside-kit/1";
  readonly scales: readonly Scale[];
  readonly vessels: readonly Vessel[];
  readonly moulds: readonly Mould[];
  readonly heaters: readonly Heater[];
  readonly mixers: readonly Mixer[];
}

// bench/shapes/sheet.py

export type Weighing = "running" | "tare";

export interface Size {
  readonly pieces: number;
  /** optional lines left out, sorted */
  readonly without: readonly RecipeKey[];
  /** line -> the ingredient that stands in for its own */
  readonly swaps: { readonly [key: string]: Id };
  readonly weigh: Weighing;
}

export interface ByPieces {
  readonly without?: readonly RecipeKey[];
  readonly swaps?: { readonly [key: string]: Id };
  readonly weigh?: Weighing;
  readonly by: "pieces";
  readonly pieces: number;
}

export interface ByMass {
  readonly without?: readonly RecipeKey[];
  readonly swaps?: { readonly [key: string]: Id };
  readonly weigh?: Weighing;
  readonly by: "mass";
  readonly mg: Mg;
}

export interface ByMoulds {
  readonly without?: readonly RecipeKey[];
  readonly swaps?: { readonly [key: string]: Id };
  readonly weigh?: Weighing;
  readonly by: "moulds";
  readonly component: Id;
  readonly moulds: number;
}

export interface ByMix {
  readonly without?: readonly RecipeKey[];
  readonly swaps?: { readonly [key: string]: Id };
  readonly weigh?: Weighing;
  readonly by: "mix";
  readonly component: Id;
  /** so much of its mix is left to use up */
  readonly mg: Mg;
}

export interface ByStock {
  readonly without?: readonly RecipeKey[];
  readonly swaps?: { readonly [key: string]: Id };
  readonly weigh?: Weighing;
  readonly by: "stock";
  readonly stock: { readonly [key: string]: Mg };
}

export type SizeRequest = ByPieces | ByMass | ByMoulds | ByMix | ByStock;

export interface ChosenSize {
  readonly size: Size;
  readonly says: string;
  /** the ingredient that stops a larger batch; by stock only */
  readonly runs_out: Id | null;
}

export interface RecipeRef {
  readonly id: string;
  readonly version: number;
}

export interface SheetRecipe extends RecipeRef {
  readonly title: string;
}

export interface Round {
  /** from 1 */
  readonly round: number;
  readonly count: number;
  readonly make_mg: Mg;
}

/** There are several rounds, since the moulds of the kit hold so many at once. */
export interface MouldsHold {
  readonly kind: "moulds";
  readonly shape: string;
  readonly holds: number;
}

/** There are several rounds, since the largest vessel takes so much at once. */
export interface VesselTakes {
  readonly kind: "vessel";
  readonly name: string;
  readonly mg: Mg;
}

/** There are several rounds, since no vessel of the kit limits them and the largest scale takes so much at once. */
export interface ScaleTakes {
  readonly kind: "scale";
  readonly name: string;
  readonly mg: Mg;
}

/** There are several rounds, since another part is made in so many and does not keep. */
export interface UsedAtOnce {
  readonly kind: "at_once";
  readonly name: string;
  readonly rounds: number;
}

/** What a sheet of the first format said in words. */
export interface AsSaid {
  readonly kind: "said";
  readonly text: string;
}

export type RoundsReason = MouldsHold | VesselTakes | ScaleTakes | UsedAtOnce | AsSaid;

export interface SheetComponent {
  readonly id: Id;
  readonly letter: string;
  readonly name: string;
  /** how many of its pieces one finished piece takes */
  readonly takes: number;
  readonly mould: MouldNeed | null;
  /** pieces, spares among them */
  readonly count: number;
  readonly spares: number;
  readonly piece_mg: Mg;
  readonly stays_behind_mg: Mg;
  readonly loss_ppm: Ppm;
  readonly make_mg: Mg;
  readonly rounds: readonly Round[];
  /** why there are several rounds */
  readonly why: readonly RoundsReason[];
}

/** What the whole batch takes of an ingredient. */
export interface SheetIngredient {
  readonly id: Id;
  readonly name: string;
  readonly mg: Mg;
  readonly nl: Nl;
  readonly count: number;
  /** the most of the finished piece that its own papers allow; absent: they do not say */
  readonly limit_ppm?: Ppm;
}

export interface Spoonful {
  /** one of the recipe's drawer: "½ tsp" */
  readonly spoon: string;
  readonly count: number;
}

/** A volume in spoons that a drawer really holds. */
export interface InSpoons {
  /** the largest first */
  readonly spoons: readonly Spoonful[];
  /** how much more than the volume they hold; below nought, less */
  readonly off_percent: number;
  /** of the one spoon, where less than half of the smallest is wanted */
  readonly part_percent: number | null;
}

export interface SheetLine {
  readonly id: LineKey;
  readonly component: Id;
  readonly round: number;
  readonly line: Id;
  readonly ingredient: Id;
  readonly name: string;
  /** None: no step weighs it */
  readonly vessel: VesselKey | null;
  readonly step: StepKey | null;
  /** None: not weighed */
  readonly mg: Mg | null;
  readonly nl: Nl | null;
  readonly count: number | null;
  readonly unit: string;
  /** what a count is likely to weigh */
  readonly about_mg: Mg | null;
  readonly tolerance_mg: Mg;
  readonly scale: Id | null;
  /** of that scale */
  readonly division_mg: Mg | null;
  /** weighed in a small cup first */
  readonly cup: boolean;
  /** None: not measured by volume */
  readonly spoons: InSpoons | null;
  /** what is too little for its scale to show, where its density is known */
  readonly by_spoon: InSpoons | null;
  readonly optional: boolean;
  readonly note: string;
  /** what the recipe means here; "" where it is used */
  readonly instead_of: string;
}

export interface SheetVessel {
  readonly id: VesselKey;
  readonly component: Id;
  readonly round: number;
  readonly label: Id;
  readonly name: string;
  /** None: nothing is weighed into it */
  readonly scale: Id | null;
  readonly empty_mg: Mg;
  /** None: none of the kit */
  readonly holds_mg: Mg | null;
  /** which of the kit */
  readonly kit?: Id | null;
}

export interface SheetWay {
  readonly id: Id;
  readonly name: string;
  readonly says: string;
  readonly hazards: readonly Hazard[];
  readonly cautions: readonly string[];
}

export interface StepHead {
  readonly id: StepKey;
  readonly component: Id;
  readonly round: number;
  readonly step: Id;
  readonly title: string;
  readonly says: string;
  readonly reason: string;
  readonly after: readonly StepKey[];
  readonly optional: boolean;
  readonly does: Does | "";
  /** it empties a held mould */
  readonly unmoulds: boolean;
  readonly hazards: readonly Hazard[];
  /** the recipe's own */
  readonly cautions: readonly string[];
  readonly ways: readonly SheetWay[];
  readonly window: Window | null;
  /** windows by nature */
  readonly keeps?: readonly Window[];
  /** done with, once these are: nothing waits for it */
  readonly until?: readonly StepKey[];
  /** None: the recipe does not say */
  readonly hands_ms: Ms | null;
  readonly tools: readonly string[];
  /** the longest run of usual waits from its start to the end of the batch */
  readonly tail_ms: Ms;
  /** what else should be ready before it is worth beginning */
  readonly hold_for: readonly StepKey[];
}

export interface WeighStep extends StepHead {
  readonly kind: "weigh";
  readonly lines: readonly LineKey[];
  readonly vessel: VesselKey;
}

export interface DoStep extends StepHead {
  readonly kind: "do";
  readonly about_ms: Ms | null;
  readonly mg: Mg | null;
  readonly tips: readonly VesselKey[];
  readonly into: VesselKey;
}

export interface Burst {
  readonly ms: Ms;
  /** a pause with a stir before the burst */
  readonly rest_ms: Ms;
}

export interface MeltStep extends StepHead {
  readonly kind: "melt";
  readonly mg: Mg;
  /** that are heated; absent: of an earlier version */
  readonly vessels?: readonly VesselKey[];
  readonly heater: string;
  /** []: not planned */
  readonly bursts: readonly Burst[];
  readonly more: Burst;
  readonly to_mk: MilliK | null;
  readonly look_for: string;
}

export interface Portion {
  readonly vessel: VesselKey;
  readonly name: string;
  /** of the sum of all shares */
  readonly share: number;
}

export interface SplitStep extends StepHead {
  readonly kind: "split";
  readonly vessel: VesselKey;
  readonly portions: readonly Portion[];
}

export interface CheckStep extends StepHead, LeftAlone, LooksAt {
  readonly kind: "check";
  readonly ask: string;
  /** "": plainly yes */
  readonly yes: string;
  readonly not_yet: string;
  /** None: it cannot go too far; "": common practice helps */
  readonly too_far: string | null;
}

/** A count that the pieces of another come from. */
export interface Follows {
  /** all its rounds, sorted */
  readonly steps: readonly StepKey[];
  /** how many of its pieces one of these takes */
  readonly takes: number;
}

export interface PiecesStep extends StepHead {
  readonly kind: "pieces";
  readonly one_by_one: boolean;
  readonly again: string | null;
  readonly partial: boolean;
  /** "": done */
  readonly verb: string;
  readonly count: number;
  readonly of: readonly VesselKey[];
  readonly piece_mg: Mg;
  readonly follows: readonly Follows[];
}

export interface WaitStep extends StepHead, Guard {
  readonly kind: "wait";
  readonly word: string;
  readonly earliest_ms: Ms;
  readonly usual_ms: Ms;
  readonly latest_ms: Ms | null;
  readonly test: string;
  readonly stake: string;
}

export type Step = WeighStep | DoStep | MeltStep | SplitStep | CheckStep | PiecesStep | WaitStep;

export interface NoMould {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "no_mould";
  readonly shape: string;
}

/** Vessel and content are more than any scale carries. */
export interface NoScale {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "no_scale";
  readonly mg: Mg;
}

export interface TooFull {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "too_full";
  readonly vessel: string;
  readonly holds_mg: Mg;
  readonly mg: Mg;
}

/** One vessel is needed for two parts that are made side by side. */
export interface ForTwoParts {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "for_two_parts";
  readonly vessel: string;
  readonly part: string;
  readonly other: string;
}

/** One vessel is needed twice for one part. */
export interface NeededTwice {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "needed_twice";
  readonly vessel: string;
  readonly part: string;
  readonly vessel_kind: string;
}

/** Only metal is there for what goes into a microwave. */
export interface Metal {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "metal";
  readonly vessel: string;
}

export interface LessThanOne {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "less_than_one";
  readonly name: string;
}

export interface LessThanASpoon {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "less_than_a_spoon";
  readonly name: string;
}

export interface Drops {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "drops";
}

/** No scale of the kit weighs so little to its tolerance. */
export interface TooLittle {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
  readonly kind: "too_little";
  readonly name: string;
  readonly mg: Mg;
  readonly scale: string;
  readonly off_ppm: Ppm;
}

/** As a sheet of the first format said it. */
export interface SaidBefore extends AsSaid {
  /** a part, a vessel or a line: of the recipe where it is the same in each round */
  readonly where: string;
}

export type Warn = NoMould | NoScale | TooFull | ForTwoParts | NeededTwice | Metal | LessThanOne | LessThanASpoon | Drops | TooLittle | SaidBefore;

/** A sheet of the first format, as it was kept; `open_sheet` reads it. Its other fields are written down no more. */
export interface FormerSheet {
  readonly format: "bowlside-sheet/1";
}

/** A recipe at one size for one kit: every weight on a scale, every wait and burst. */
export interface Sheet {
  readonly format: "bowlside-sheet/2";
  readonly recipe: SheetRecipe;
  readonly size: Size;
  /** for how many pieces the recipe was written; None: read from the first format alone */
  readonly written_for: number | null;
  readonly piece: PieceWords;
  /** absent: the recipe does not say */
  readonly good_piece?: readonly GoodPiece[];
  /** what is asked before the first weighing */
  readonly before?: readonly Start[];
  readonly kit: Kit;
  readonly components: readonly SheetComponent[];
  readonly ingredients: readonly SheetIngredient[];
  readonly lines: readonly SheetLine[];
  readonly vessels: readonly SheetVessel[];
  readonly steps: readonly Step[];
  readonly warnings: readonly Warn[];
  /** the parts before which the air is asked for */
  readonly asks_air?: readonly Id[];
}

// bench/shapes/entries.py

/** the id of something on the sheet, or of an entry */
export type SheetId = string;

/** 1 to 140 letters, digits, dots, - or _ */
export type Key = string;

/** text of 1 to 2000 characters */
export type Text = string;

/** whole milligrams from 0 to a tonne */
export type Mass = number;

/** a whole number that JavaScript keeps exactly */
export type Whole = number;

/** a whole number from 0 to 10 000 */
export type Count = number;

/** a whole number from 1 to a million million */
export type Factor = number;

/** whole milliseconds from 1 to a year */
export type Span = number;

/** a UUID in small letters */
export type Uuid = string;

/** 64 small hexadecimal digits */
export type Sha256 = string;

/** ids of entries, each once and sorted */
export type EntryIds = readonly string[];

/** names of fields, each once and sorted */
export type FieldNames = readonly string[];

/** a day of the calendar, such as 2027-03-31 */
export type DayText = string;

/** relative humidity in whole per cent, 1 to 100 */
export type Humidity = number;

/** thousandths of a degree Celsius, -40 000 to 60 000 */
export type Warmth = number;

export type Verdict = "yes" | "not_yet" | "too_far";

export type MeasuredWhat = "piece" | "left" | "spoiled";

/** running total, or zero for each */
export type WeighFitting = Weighing;

export type Judgement = "released" | "held" | "rejected" | "accepted" | "not_accepted";

export type LotVerdict = "held" | "accepted" | "rejected";

export type Met = "yes" | "no";

export type Market = "us" | "eu" | "uk";

export type PaperKind = "safety_sheet" | "ifra_certificate" | "analysis" | "other";

export type ComplaintSort = "complaint" | "reaction";

/** of a batch: released, held or rejected; of a deviation: accepted or not */
export type JudgementFitting = Judgement;

/** how a lot was judged */
export type LotVerdictFitting = LotVerdict;

/** the market of a label */
export type MarketFitting = Market;

/** whether the pieces are as the recipe wants them */
export type MetFitting = Met;

export type PaperMedia = "pdf" | "jpeg" | "png";

/** what a paper is */
export type PaperFitting = PaperKind;

/** what its file is */
export type MediaFitting = PaperMedia;

/** of the pieces, or how somebody reacted to them */
export type ComplaintFitting = ComplaintSort;

/** how a look was answered */
export type VerdictFitting = Verdict;

/** what was put on the scale */
export type MeasuredFitting = MeasuredWhat;

/** An entry as a journal keeps it, of a kind of any version. */
export interface Entry {
  /** a UUID of version 7 */
  readonly id: string;
  /** the run's id, or "shelf"; not there where the journal itself says it */
  readonly run?: string;
  /** 1 to 64 letters, digits, - or _ */
  readonly device: string;
  /** never earlier than any entry its device has seen */
  readonly at: InstantMs;
  readonly kind: string;
  readonly body: { readonly [key: string]: null | boolean | number | string | readonly JsonValue[] | { readonly [key: string]: JsonValue } };
}

export interface NumberedBody {
  readonly number: Text;
}

export interface GatheredBody {
  /** or "wrap" */
  readonly ingredient: SheetId;
  readonly lot: Key;
  /** not there: as much as it takes */
  readonly mg?: Mass;
  readonly count?: Count;
}

export interface TickedBody {
  readonly thing: Key;
}

export interface WeighedBody {
  readonly line: SheetId;
  /** not there only where the line has no mass */
  readonly mg?: Mass;
  /** what the scale showed */
  readonly reading_mg?: Whole;
}

export interface TakenOutBody {
  readonly line: SheetId;
  readonly mg: Mass;
  /** how much of it was in, as the answer says */
  readonly seen?: Mass;
}

export interface LineBody {
  readonly line: SheetId;
}

export interface CarriedBody {
  readonly component: SheetId;
  readonly round: Count;
  readonly num: Factor;
  readonly den: Factor;
  /** lines that stay as they are */
  readonly left?: EntryIds;
}

export interface ZeroedBody {
  readonly vessel: SheetId;
}

export interface PlacedBody {
  readonly vessel: SheetId;
  readonly scale: Key;
  /** this line's small cup alone */
  readonly line?: SheetId;
}

export interface TookBody {
  readonly vessel: SheetId;
  /** a vessel of the kit */
  readonly instead: Key;
}

export interface SwitchedBody {
  readonly weigh: WeighFitting;
}

export interface ChoseBody {
  readonly step: SheetId;
  readonly way: SheetId;
}

export interface DoneBody {
  readonly step: SheetId;
  readonly way?: SheetId;
}

export interface SkippedBody {
  readonly step: SheetId;
  readonly why?: Text;
}

export interface BeganBody {
  readonly step: SheetId;
}

export interface HeatedBody {
  readonly step: SheetId;
  readonly ms: Span;
  /** how long it rests, stirred, before the look */
  readonly rest_ms?: Span;
}

export interface LookedBody {
  readonly step: SheetId;
  readonly answer: VerdictFitting;
  readonly way?: SheetId;
  /** who looked, where another person had to */
  readonly text?: Text;
}

export interface PortionedBody {
  readonly vessel: SheetId;
  readonly mg: Mass;
  /** how much was in the bowl, as the answer says */
  readonly seen?: Mass;
}

export interface CountedBody {
  readonly step: SheetId;
  readonly good?: Count;
  readonly spoiled?: Count;
  readonly partial?: Count;
  /** the vessel that they came from, or "joined" */
  readonly of?: SheetId;
  readonly way?: SheetId;
  /** how many were counted already */
  readonly seen?: Count;
}

export interface ExtendedBody {
  readonly step: SheetId;
  readonly ms: Span;
}

export interface MeasuredBody {
  readonly what: MeasuredFitting;
  readonly mg: Mass;
  readonly piece?: Count;
  readonly step?: SheetId;
  readonly scale?: Key;
}

export interface AiredBody {
  readonly humidity: Humidity;
  readonly mk?: Warmth;
}

export interface ProvedBody {
  readonly scale: Key;
  /** what the test weight weighs */
  readonly weight_mg: Mass;
  /** what the scale showed */
  readonly mg: Whole;
}

/** Labels of the batch, counted: those that are neither on a piece nor binned are left over. */
export interface LabelledBody {
  readonly market: MarketFitting;
  readonly printed: Count;
  /** pieces */
  readonly on: Count;
  readonly binned: Count;
  /** what stood on them */
  readonly text?: Text;
}

export interface PicturedBody {
  readonly picture: Uuid;
  readonly sha256: Sha256;
  readonly text?: Text;
  readonly step?: SheetId;
}

export interface WorkedBody {
  readonly ms: Span;
  /** not there: all of the run */
  readonly step?: SheetId;
}

export interface NotedBody {
  readonly text: Text;
  readonly step?: SheetId;
}

export interface KeptBody {
  /** kept back of the good ones, all in all */
  readonly pieces: Count;
  /** where they are */
  readonly text?: Text;
}

export interface MetBody {
  /** of the recipe's `good_piece` */
  readonly criterion: Key;
  readonly answer: MetFitting;
  /** what was measured or seen */
  readonly text?: Text;
}

export interface FinishedBody {
}

export interface SignedBody {
  readonly name: Text;
  /** what it seals; not there in earlier versions */
  readonly entries?: EntryIds;
  /** over them; there when they are */
  readonly digest?: Sha256;
}

/** A judgement of a batch, or of one of its deviations. A further one corrects it; none is taken back. */
export interface JudgedBody {
  /** "batch", or what the record's deviation is known by */
  readonly about: Key;
  readonly verdict: JudgementFitting;
  /** who judges */
  readonly name: Text;
  /** there unless it was released or accepted */
  readonly why?: Text;
  /** of what was released: the signing that held */
  readonly signing?: Uuid;
}

export interface UndoneBody {
  readonly entry: SheetId;
}

/** The batch was given its number. */
export interface Numbered {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "numbered";
  readonly body: NumberedBody;
}

/** A lot was picked for an ingredient. */
export interface Gathered {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "gathered";
  readonly body: GatheredBody;
}

/** A tool, a vessel or protection is laid out. */
export interface Ticked {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "ticked";
  readonly body: TickedBody;
}

/** So much of a line went in. */
export interface Weighed {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "weighed";
  readonly body: WeighedBody;
}

/** Some of a line was taken out again. */
export interface TakenOut {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "taken_out";
  readonly body: TakenOutBody;
}

/** A line was left off its tolerance, knowingly. */
export interface Left {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "left";
  readonly body: LineBody;
}

/** A line was not used. */
export interface LeftOut {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "left_out";
  readonly body: LineBody;
}

/** All targets of one round became num/den of the sheet's. */
export interface Carried {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "carried";
  readonly body: CarriedBody;
}

/** The scale lost its count. */
export interface Zeroed {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "zeroed";
  readonly body: ZeroedBody;
}

/** A vessel, or one line's small cup, stands on another scale. */
export interface Placed {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "placed";
  readonly body: PlacedBody;
}

/** Another vessel of the kit was taken, with what was in the sheet's. */
export interface Took {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "took";
  readonly body: TookBody;
}

/** Weighing changed between running total and zero for each. */
export interface Switched {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "switched";
  readonly body: SwitchedBody;
}

/** One of a step's ways was chosen. */
export interface Chose {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "chose";
  readonly body: ChoseBody;
}

/** A step was done. */
export interface Done {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "done";
  readonly body: DoneBody;
}

/** A step was passed over, and why. */
export interface Skipped {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "skipped";
  readonly body: SkippedBody;
}

/** A timed step began. */
export interface Began {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "began";
  readonly body: BeganBody;
}

/** A burst began. */
export interface Heated {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "heated";
  readonly body: HeatedBody;
}

/** A look after a burst, or a judgement. */
export interface Looked {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "looked";
  readonly body: LookedBody;
}

/** A portion was weighed out of the bowl. */
export interface Portioned {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "portioned";
  readonly body: PortionedBody;
}

/** So many good, spoiled or partial pieces. */
export interface Counted {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "counted";
  readonly body: CountedBody;
}

/** A wait was given more time. */
export interface Extended {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "extended";
  readonly body: ExtendedBody;
}

/** A piece, what was left or what was spoiled was weighed. */
export interface Measured {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "measured";
  readonly body: MeasuredBody;
}

/** The room's air was read. */
export interface Aired {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "aired";
  readonly body: AiredBody;
}

/** A test weight was put on a scale. */
export interface Proved {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "proved";
  readonly body: ProvedBody;
}

/** Labels were counted. */
export interface Labelled {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "labelled";
  readonly body: LabelledBody;
}

/** A photograph was taken. */
export interface Pictured {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "pictured";
  readonly body: PicturedBody;
}

/** The hands-on time was put right. */
export interface Worked {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "worked";
  readonly body: WorkedBody;
}

/** A remark. */
export interface Noted {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "noted";
  readonly body: NotedBody;
}

/** So many of the good pieces were kept back. */
export interface Kept {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "kept";
  readonly body: KeptBody;
}

/** The pieces were held against something that the recipe wants of them. */
export interface WasMet {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "met";
  readonly body: MetBody;
}

/** The run was closed. */
export interface Finished {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "finished";
  readonly body: FinishedBody;
}

/** The record was closed by name, over the entries that it names. */
export interface Signed {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "signed";
  readonly body: SignedBody;
}

/** A batch, or a deviation of it, was judged. */
export interface Judged {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "judged";
  readonly body: JudgedBody;
}

/** An earlier entry was taken back. */
export interface Undone {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "undone";
  readonly body: UndoneBody;
}

export interface Tax {
  /** a decimal, as text */
  readonly percent: string;
  readonly included: boolean;
}

export interface PriceBody {
  /** a decimal, as text */
  readonly amount: string;
  /** what bringing it here cost, in the same currency and with the same tax */
  readonly delivery?: string;
  /** three capital letters of ISO 4217 */
  readonly currency: string;
  readonly tax?: Tax;
}

/** money as text, never a float */
export type Price = PriceBody;

export interface DescribedBody {
  readonly ingredient: Key;
  /** as it was written */
  readonly card: { readonly [key: string]: null | boolean | number | string | readonly JsonValue[] | { readonly [key: string]: JsonValue } };
}

export interface ReceivedBody {
  readonly lot: Key;
  readonly ingredient: Key;
  readonly supplier?: Text;
  readonly number: Text;
  /** one of mg and count is there */
  readonly mg?: Mass;
  readonly count?: Count;
  readonly received_on: DayText;
  readonly best_before?: DayText;
  readonly price?: Price;
  readonly code?: Text;
  /** the batch that it was made in, of a part made ahead */
  readonly run?: Uuid;
}

export interface CorrectedBody {
  readonly lot: Key;
  /** one of mg and count is there */
  readonly mg?: Mass;
  readonly count?: Count;
}

/** What a lot is said to be, said anew: the fields that are here. What it was said to be stays in the journal. */
export interface MendedBody {
  readonly lot: Key;
  readonly ingredient?: Key;
  readonly supplier?: Text;
  readonly number?: Text;
  /** as received, in the measure that it was received in */
  readonly mg?: Mass;
  readonly count?: Count;
  readonly received_on?: DayText;
  readonly best_before?: DayText;
  readonly price?: Price;
  readonly code?: Text;
  /** of supplier, best_before, price and code those that are not so */
  readonly without?: FieldNames;
}

export interface WroteOffBody {
  readonly lot: Key;
  /** one of mg and count is there */
  readonly mg?: Mass;
  readonly count?: Count;
  readonly why: Text;
}

export interface OrderedBody {
  readonly ingredient: Key;
  /** one of mg and count is there */
  readonly mg?: Mass;
  readonly count?: Count;
  /** when it is to be there */
  readonly due?: DayText;
  readonly supplier?: Text;
}

export interface ArrivedBody {
  /** the entry that told of it; what came is lots of its own */
  readonly order: Uuid;
}

/** What so much of an ingredient costs, before any of it is bought. */
export interface QuotedBody {
  readonly ingredient: Key;
  /** one of mg and count is there */
  readonly mg?: Mass;
  readonly count?: Count;
  readonly price: Price;
  /** when it was asked */
  readonly on: DayText;
}

export interface ShelfNotedBody {
  readonly text: Text;
  /** one of lot and ingredient is there */
  readonly lot?: Key;
  readonly ingredient?: Key;
}

export interface LotJudgedBody {
  readonly lot: Key;
  readonly verdict: LotVerdictFitting;
  readonly name?: Text;
  readonly why?: Text;
}

/** A paper about a lot or an ingredient: one of the two is there. Of its file all three are, or none. */
export interface PaperedBody {
  readonly lot?: Key;
  readonly ingredient?: Key;
  readonly paper: PaperFitting;
  /** its number, or where it is kept */
  readonly reference: Text;
  readonly dated?: DayText;
  readonly expires?: DayText;
  /** of an IFRA certificate */
  readonly amendment?: Text;
  readonly category?: Text;
  readonly picture?: Uuid;
  readonly sha256?: Sha256;
  readonly media?: MediaFitting;
}

/** Pieces of a batch that leave, or come back. It holds no name: an outlet is named by its id. */
export interface LeavingBody {
  readonly run: Uuid;
  readonly pieces: Count;
  readonly outlet?: Uuid;
}

export interface BinnedBody {
  readonly run: Uuid;
  readonly pieces: Count;
  readonly why: Text;
}

/** Pieces kept as a sample beside those that the batch's own record tells of. */
export interface SampledBody {
  readonly run: Uuid;
  readonly pieces: Count;
}

export interface ShelvedBody {
  readonly run: Uuid;
  readonly pieces: Count;
  /** the lot that they are from here on */
  readonly lot: Key;
}

export interface StoodBody {
  readonly run: Uuid;
  readonly place: Text;
}

export interface ComplainedBody {
  readonly run: Uuid;
  readonly sort: ComplaintFitting;
  /** what is wrong, and nobody's name */
  readonly text: Text;
  readonly pieces?: Count;
  readonly outlet?: Uuid;
}

/** An ingredient got its card. */
export interface Described {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "described";
  readonly body: DescribedBody;
}

/** A lot came in. */
export interface Received {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "received";
  readonly body: ReceivedBody;
}

/** So much of a lot is there, counted or weighed anew. */
export interface Corrected {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "corrected";
  readonly body: CorrectedBody;
}

/** A lot was received as something else than was written. */
export interface Mended {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "mended";
  readonly body: MendedBody;
}

/** So much of a lot is gone, and why. */
export interface WroteOff {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "wrote_off";
  readonly body: WroteOffBody;
}

/** A lot was judged: may it be used? */
export interface LotJudged {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "judged";
  readonly body: LotJudgedBody;
}

/** A paper was seen. */
export interface Papered {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "papered";
  readonly body: PaperedBody;
}

/** So much of an ingredient was ordered. */
export interface Ordered {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "ordered";
  readonly body: OrderedBody;
}

/** An order is done with: it came. */
export interface Arrived {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "arrived";
  readonly body: ArrivedBody;
}

/** A supplier's price. */
export interface Quoted {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "quoted";
  readonly body: QuotedBody;
}

/** A remark about a lot or an ingredient. */
export interface ShelfNoted {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "noted";
  readonly body: ShelfNotedBody;
}

/** Pieces were sold. */
export interface Sold {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "sold";
  readonly body: LeavingBody;
}

/** Pieces were given away. */
export interface Given {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "given";
  readonly body: LeavingBody;
}

/** Pieces that had left came back. */
export interface Returned {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "returned";
  readonly body: LeavingBody;
}

/** Finished pieces were thrown away, and why. */
export interface Binned {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "binned";
  readonly body: BinnedBody;
}

/** Finished pieces were put aside as a sample. */
export interface Sampled {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "sampled";
  readonly body: SampledBody;
}

/** Finished pieces became a lot of the shelf. */
export interface Shelved {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "shelved";
  readonly body: ShelvedBody;
}

/** Where a batch's pieces stand. */
export interface Stood {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "stood";
  readonly body: StoodBody;
}

/** Somebody complained of a batch's pieces, or reacted to one. */
export interface Complained {
  readonly id: string;
  readonly run?: string;
  readonly device: string;
  readonly at: InstantMs;
  readonly kind: "complained";
  readonly body: ComplainedBody;
}

export type RunEntry = Numbered | Gathered | Ticked | Weighed | TakenOut | Left | LeftOut | Carried | Zeroed | Placed | Took | Switched | Chose | Done | Skipped | Began | Heated | Looked | Portioned | Counted | Extended | Measured | Aired | Proved | Labelled | Pictured | Worked | Noted | Kept | WasMet | Finished | Signed | Judged | Undone;

export type BuyingEntry = Ordered | Arrived | Quoted;

export type PiecesEntry = Sold | Given | Returned | Binned | Sampled | Shelved | Stood | Complained;

export type ShelfEntry = Described | Received | Corrected | Mended | WroteOff | LotJudged | Papered | ShelfNoted | Undone;

export type EntryBody = NumberedBody | GatheredBody | TickedBody | WeighedBody | TakenOutBody | LineBody | CarriedBody | ZeroedBody | PlacedBody | TookBody | SwitchedBody | ChoseBody | DoneBody | SkippedBody | BeganBody | HeatedBody | LookedBody | PortionedBody | CountedBody | ExtendedBody | MeasuredBody | AiredBody | ProvedBody | LabelledBody | PicturedBody | WorkedBody | NotedBody | KeptBody | MetBody | FinishedBody | SignedBody | JudgedBody | UndoneBody;

export type RunKind = "numbered" | "gathered" | "ticked" | "weighed" | "taken_out" | "left" | "left_out" | "carried" | "zeroed" | "placed" | "took" | "switched" | "chose" | "done" | "skipped" | "began" | "heated" | "looked" | "portioned" | "counted" | "extended" | "measured" | "aired" | "proved" | "labelled" | "pictured" | "worked" | "noted" | "kept" | "met" | "finished" | "signed" | "judged" | "undone";

export type ShelfKind = "described" | "received" | "corrected" | "mended" | "wrote_off" | "judged" | "papered" | "noted" | "ordered" | "arrived" | "quoted" | "undone" | "sold" | "given" | "returned" | "binned" | "sampled" | "shelved" | "stood" | "complained";

/** What a signing says besides the name. */
export interface Seal {
  /** ids, sorted */
  readonly entries: readonly string[];
  readonly digest: string;
}

/** What a signing of an earlier version, which names nothing, was found to seal. */
export interface FrozenSeal {
  /** the signing's id */
  readonly signed: string;
  /** ids, sorted */
  readonly entries: readonly string[];
}

// bench/shapes/state.py

export type StepStatus = "waiting" | "ready" | "begun" | "done" | "skipped";

export type BatchVerdict = "released" | "held" | "rejected";

export type LineStatus = "by_hand" | "open" | "short" | "in" | "over" | "left" | "left_out";

export interface StepState {
  readonly status: StepStatus;
  /** when the last of its needs was settled; None while one is not */
  readonly ready_at: InstantMs | null;
  /** when it was settled; None while it is not */
  readonly at: InstantMs | null;
  /** the way that was chosen */
  readonly way: string | null;
  /** why it was skipped; "" where nobody said */
  readonly why: string;
}

export interface LineState {
  /** by now: carried, and by its portion; None where it has no mass */
  readonly target_mg: Mg | null;
  readonly in_mg: Mg;
  readonly status: LineStatus;
  /** the last pour told by another device than the first; None: one device told all */
  readonly twice: string | null;
  /** the last taking out that another device had told before */
  readonly out_twice?: string;
  /** of the kit: where the next pour goes; None where it is not weighed */
  readonly scale: string | null;
  /** of the kit: where the last pour went */
  readonly weighed_on: string | null;
}

export interface VesselState {
  /** of contents */
  readonly in_mg: Mg;
  /** of contents when its scale was zeroed last */
  readonly zero_mg: Mg;
  readonly name: string;
  readonly empty_mg: Mg;
  /** None: nobody said, or the kit has none */
  readonly holds_mg: Mg | null;
  /** of the kit */
  readonly scale: string | null;
  /** the vessel of the kit that it is by now; None where the kit has none */
  readonly kit: string | null;
}

export interface Heating {
  readonly at: InstantMs;
  readonly ms: Ms;
  /** None: nobody looked yet */
  readonly answer: Verdict | null;
  /** between the burst and the look */
  readonly rest_ms?: Ms;
}

export interface Look {
  readonly at: InstantMs;
  readonly answer: Verdict;
  /** of a "not yet": what was tried */
  readonly way: string | null;
  /** who looked, where another person had to */
  readonly text?: string;
}

export interface PieceCount {
  readonly good: number;
  readonly spoiled: number;
  readonly partial: number;
  /** vessel, or "joined" -> how many came out of it */
  readonly of: { readonly [key: string]: number };
}

export interface RunningWait {
  readonly step: string;
  readonly began_at: InstantMs;
  readonly earliest_at: InstantMs;
  readonly usual_at: InstantMs;
  /** None: it may take as long as it likes */
  readonly latest_at: InstantMs | null;
}

export interface OpenWindow {
  readonly step: string;
  readonly opened_at: InstantMs;
  readonly latest_at: InstantMs;
}

/** Something that is timed to help, and asks for nothing: a burst, a rest, a step of so many minutes. */
export interface RunningGuide {
  readonly step: string;
  readonly began_at: InstantMs;
  readonly until: InstantMs;
  /** a burst that rests before the look: when it is over */
  readonly rests_at?: InstantMs;
}

export interface GatheredLot {
  readonly at: InstantMs;
  readonly ingredient: string;
  readonly lot: string;
  /** None: as much as it takes */
  readonly mg: Mg | null;
  readonly count: number | null;
}

export interface MeasuredMass {
  readonly at: InstantMs;
  readonly what: MeasuredWhat;
  readonly mg: Mg;
  readonly step: string | null;
  readonly piece: number | null;
  readonly scale: string | null;
}

export interface AirTold {
  readonly at: InstantMs;
  readonly device: string;
  /** whole per cent */
  readonly humidity: number;
  /** None: nobody said */
  readonly mk: MilliK | null;
}

/** What a scale showed of its test weight. */
export interface ScaleProof {
  readonly at: InstantMs;
  readonly device: string;
  readonly scale: string;
  readonly weight_mg: Mg;
  readonly mg: Mg;
}

/** Labels as they were counted: printed, on pieces, binned; and what stood on them. */
export interface LabelsTold {
  readonly at: InstantMs;
  readonly device: string;
  readonly market: Market;
  readonly printed: number;
  readonly on: number;
  readonly binned: number;
  /** "" where nobody said */
  readonly text: string;
}

export interface Picture {
  readonly at: InstantMs;
  readonly device: string;
  /** its id */
  readonly picture: string;
  readonly sha256: string;
  readonly text: string;
  readonly step: string | null;
}

/** The signing that holds. */
export interface Signing {
  readonly id: string;
  readonly at: InstantMs;
  readonly device: string;
  readonly name: string;
  /** ids of those sealed that are here, sorted */
  readonly entries: readonly string[];
  /** how many of the sealed are not here */
  readonly missing: number;
}

/** A signing that was taken back. */
export interface Unsigned {
  readonly at: InstantMs;
  readonly device: string;
  readonly name: string;
  readonly signed_at: InstantMs;
  readonly signed_by: string;
}

/** An entry that was not signed, beside a record that is. */
export interface Remark {
  readonly id: string;
  readonly at: InstantMs;
  readonly device: string;
  readonly kind: string;
  readonly body: { readonly [key: string]: null | boolean | number | string | readonly JsonValue[] | { readonly [key: string]: JsonValue } };
}

export interface Note {
  readonly at: InstantMs;
  readonly device: string;
  readonly step: string | null;
  readonly text: string;
}

/** A judgement of the batch, or of one of its deviations. */
export interface JudgementTold {
  readonly id: string;
  readonly at: InstantMs;
  readonly device: string;
  /** "batch", or what the record's deviation is known by */
  readonly about: string;
  readonly verdict: Judgement;
  /** who judged */
  readonly name: string;
  /** "" where nobody said */
  readonly why: string;
  /** of what was released: the signing that held */
  readonly signing: string | null;
}

/** How the pieces were held against something that the recipe wants of them. */
export interface MetTold {
  readonly at: InstantMs;
  readonly device: string;
  readonly answer: Met;
  readonly text: string;
}

/** What the state says of a whole run, and the record as the state does. */
export interface ToldOfRun {
  readonly number: string | null;
  readonly also_numbered: readonly string[];
  readonly started_at: InstantMs | null;
  readonly finished_at: InstantMs | null;
  readonly unsigned: readonly Unsigned[];
  readonly notes: readonly Note[];
  readonly air: readonly AirTold[];
  readonly proved: readonly ScaleProof[];
  readonly labelled: readonly LabelsTold[];
  readonly pictures: readonly Picture[];
  /** signed or not, as they were told */
  readonly judgements: readonly JudgementTold[];
  /** ids of entries, sorted */
  readonly unread: readonly string[];
}

export interface State extends ToldOfRun {
  readonly last_at: InstantMs | null;
  readonly weigh: Weighing;
  readonly steps: { readonly [key: string]: StepState };
  readonly lines: { readonly [key: string]: LineState };
  readonly vessels: { readonly [key: string]: VesselState };
  /** by step */
  readonly bursts: { readonly [key: string]: readonly Heating[] };
  /** by step */
  readonly looks: { readonly [key: string]: readonly Look[] };
  /** by step */
  readonly counts: { readonly [key: string]: PieceCount };
  /** by step: how many good pieces a count now expects */
  readonly expected: { readonly [key: string]: number };
  /** by vessel */
  readonly portions: { readonly [key: string]: Mg };
  /** by "component.round": numerator and denominator */
  readonly factors: { readonly [key: string]: readonly number[] };
  readonly waits: readonly RunningWait[];
  readonly windows: readonly OpenWindow[];
  readonly guides: readonly RunningGuide[];
  readonly gathered: readonly GatheredLot[];
  readonly ticked: { readonly [key: string]: InstantMs };
  readonly measured: readonly MeasuredMass[];
  /** by step; "" is the whole run */
  readonly worked: { readonly [key: string]: Ms };
  readonly signed: Signing | null;
  readonly remarks: readonly Remark[];
  /** pieces kept back of the good ones; None: nobody said */
  readonly kept: number | null;
  /** by criterion, as it was answered last */
  readonly met: { readonly [key: string]: MetTold };
}

// bench/shapes/prompts.py

export type WaitPhase = "counting" | "look" | "ready" | "soon_late" | "late";

export type WindowPhase = "open" | "soon_late" | "late";

export type GuidePhase = "counting" | "ready";

export type RingKind = "look" | "ready" | "late";

export type PromptKind = StepKind | "over" | "short" | "heating" | "finish";

export type AnswerInput = "reading" | "count" | "note" | "air";

export type WeighHow = "running" | "tare" | "cup" | "spoons" | "count" | "texture" | "over" | "portion";

export interface Ring {
  readonly kind: RingKind;
  readonly at: InstantMs;
}

/** A portion that is still to be read off the scale. */
export interface VesselBody {
  readonly vessel: string;
  /** how much was in the bowl */
  readonly seen: Mg;
}

/** A test weight that is still to be read off the scale. */
export interface ScaleBody {
  readonly scale: string;
  readonly weight_mg: Mg;
}

export interface Besides {
  readonly kind: RunKind;
  readonly body: EntryBody;
}

/** The kind and body of an entry to post, and how it is offered. */
export interface Answer {
  readonly id: string;
  readonly label: string;
  readonly says: string;
  readonly kind: RunKind;
  /** less what `input` asks for */
  readonly body: NumberedBody | GatheredBody | TickedBody | WeighedBody | TakenOutBody | LineBody | CarriedBody | ZeroedBody | PlacedBody | TookBody | SwitchedBody | ChoseBody | DoneBody | SkippedBody | BeganBody | HeatedBody | LookedBody | PortionedBody | CountedBody | ExtendedBody | MeasuredBody | AiredBody | ProvedBody | LabelledBody | PicturedBody | WorkedBody | NotedBody | KeptBody | MetBody | FinishedBody | SignedBody | JudgedBody | UndoneBody | VesselBody | ScaleBody;
  /** what it still wants */
  readonly input: AnswerInput | null;
  /** the most that may be given */
  readonly most: number | null;
  /** the likeliest: what a pedal or a spoken "yes" gives */
  readonly strong: boolean;
  /** what to ask before it is posted; "" for nothing */
  readonly ask: string;
  /** what the same touch tells too, after it */
  readonly also?: readonly Besides[];
}

export interface Caution {
  /** six words at most */
  readonly short: string;
  readonly full: string;
  /** it stood with a step that was begun before */
  readonly seen: boolean;
}

/** The large figure of a prompt. */
export interface Number {
  /** None: it is no mass */
  readonly mg: Mg | null;
  readonly text: string;
  readonly caption: string;
}

export interface OnScale {
  /** None: a portion */
  readonly line: string | null;
  readonly name: string;
  /** below zero: to be taken out */
  readonly add_mg: Mg;
  readonly add: string;
  /** None: no scale shows it */
  readonly reads_mg: Mg | null;
  readonly reads: string;
  /** what the scale shows before */
  readonly before_mg: Mg;
  readonly how: WeighHow;
  /** its name; "" */
  readonly scale: string;
  readonly division_mg: Mg | null;
  /** of a scale that reads in ounces, exactly */
  readonly division_uoz?: Uoz;
  readonly tolerance_mg: Mg;
  readonly vessel: string | null;
}

export interface Prompt {
  /** None: to finish the batch */
  readonly step: string | null;
  readonly component: string | null;
  readonly letter: string;
  readonly round: number;
  readonly of_rounds: number;
  readonly kind: PromptKind;
  readonly title: string;
  readonly says: string;
  readonly why: string;
  readonly more: string;
  readonly cautions: readonly Caution[];
  /** first aid, beside what is hot: a line by itself, then the rest */
  readonly aid?: readonly string[];
  readonly number: Number | null;
  readonly weigh: OnScale | null;
  readonly answers: readonly Answer[];
}

export interface StepTitle {
  readonly step: string;
  readonly title: string;
}

export interface Beside {
  readonly component: string;
  readonly letter: string;
  readonly title: string;
}

export interface WaitNow extends RunningWait, Beside {
  readonly word: string;
  readonly phase: WaitPhase;
  /** "" while it counts */
  readonly asks: string;
}

export interface WindowNow extends OpenWindow, Beside {
  readonly phase: WindowPhase;
  readonly stake: string;
}

export interface GuideNow extends RunningGuide, Beside {
  readonly phase: GuidePhase;
}

export interface Now {
  readonly at: InstantMs;
  readonly finished: boolean;
  /** the best next one first */
  readonly prompts: readonly Prompt[];
  /** the most urgent first */
  readonly waits: readonly WaitNow[];
  readonly windows: readonly WindowNow[];
  readonly guides: readonly GuideNow[];
  readonly skipped: readonly StepTitle[];
  /** passed over: what needs them is settled */
  readonly owed: readonly StepTitle[];
}

/** Something that a step which could be begun now needs, and another batch has. */
export interface InUse {
  readonly step: string;
  readonly what: "vessel" | "mould" | "tool";
  /** what the other batch is called */
  readonly by: string;
  readonly says: string;
  /** the sheet's vessel; None for anything else */
  readonly place: string | null;
  /** the next vessel of the kit that fits and is free */
  readonly instead: string | null;
}

/** A batch on the bench, as `in_use` takes it. */
export interface OnBench {
  /** what it is called */
  readonly name: string;
  readonly sheet: Sheet;
  readonly state: State;
}

/** What the bench says now, and what other batches have in use of the kit. */
export interface NowBesideOthers extends Now {
  readonly in_use: readonly InUse[];
}

// bench/shapes/record.py

/** A step and where it stands on the sheet. */
export interface PlacedStep {
  readonly step: string;
  readonly component: string;
  /** the component's, on the page */
  readonly letter: string;
  readonly round: number;
  readonly title: string;
}

export interface RecordLine {
  readonly line: string;
  readonly component: string;
  readonly letter: string;
  readonly round: number;
  /** None: it goes in at no step */
  readonly step: string | null;
  readonly name: string;
  /** what the recipe asked for; "" where that was taken */
  readonly instead_of: string;
  readonly planned_mg: Mg | null;
  /** after carrying up or down */
  readonly asked_mg: Mg | null;
  readonly actual_mg: Mg;
  /** below zero: too little */
  readonly deviation_mg: Mg | null;
  readonly deviation_ppm: Ppm | null;
  readonly tolerance_mg: Mg | null;
  readonly within: boolean | null;
  /** the amount, where it is spooned */
  readonly spoons: string | null;
  /** the amount, where it is counted */
  readonly count: number | null;
  /** of the count */
  readonly unit: string;
  readonly scale: string | null;
  readonly division_mg: Mg | null;
  /** of a scale that reads in ounces, exactly */
  readonly division_uoz?: Uoz;
  readonly status: LineStatus;
}

export interface RecordStep extends PlacedStep {
  readonly kind: StepKind;
  readonly status: StepStatus;
  readonly at: InstantMs | null;
  /** why it was skipped */
  readonly why: string;
  /** the name of the way that was chosen; "" */
  readonly way: string;
  /** the devices that told of it, in the order in which they first did */
  readonly by: readonly string[];
}

export interface RecordWait extends PlacedStep {
  /** what it will be: set, cool, dry */
  readonly word: string;
  readonly began_at: InstantMs;
  readonly ended_at: InstantMs | null;
  readonly earliest_ms: Ms;
  readonly usual_ms: Ms;
  readonly latest_ms: Ms | null;
  readonly real_ms: Ms | null;
  readonly early: boolean;
  readonly late: boolean;
}

export interface RecordWindow extends PlacedStep {
  readonly opened_at: InstantMs;
  readonly ended_at: InstantMs | null;
  readonly latest_ms: Ms;
  readonly real_ms: Ms | null;
  readonly late: boolean;
}

export type HeatWord = "burst" | "heat";

export interface RecordBursts extends PlacedStep {
  readonly planned: number;
  readonly used: number;
  /** what one is called; records of earlier versions do not say */
  readonly word?: HeatWord;
  /** of what is melted */
  readonly mg: Mg;
  readonly heated_ms: Ms;
}

export interface RecordPortion {
  readonly name: string;
  readonly mg: Mg;
}

export interface RecordPortions extends PlacedStep {
  readonly portions: readonly RecordPortion[];
}

export interface RecordLooks extends PlacedStep {
  /** looks that did not say yes */
  readonly tries: number;
  readonly looks: readonly Look[];
}

export interface RecordCount extends PlacedStep {
  readonly planned: number | null;
  readonly expected: number | null;
  readonly good: number;
  readonly spoiled: number;
  readonly partial: number;
}

/** Something that the recipe wants of a good piece, and what was found. */
export interface RecordCriterion extends GoodPiece {
  /** None: nobody answered */
  readonly found: MetTold | null;
}

/** What is asked before the first weighing. */
export interface RecordStart {
  readonly what: Start;
  /** when it was told; None: nobody did */
  readonly at: InstantMs | null;
}

export type DeviationKind = "weight" | "left_out" | "early" | "late" | "window" | "skipped" | "criterion" | "start";

/** Something that departs from the sheet, from its times or from what a good piece is. */
export interface RecordDeviation {
  /** what it is known by, in a judgement */
  readonly about: string;
  readonly kind: DeviationKind;
  /** the line's name, the step's title, the criterion, or what was asked at the start */
  readonly name: string;
}

/** How the batch was judged last. */
export interface Release extends JudgementTold {
  /** false: it was released, and is not signed as it was then */
  readonly holds: boolean;
}

export interface RecordSkipped extends PlacedStep {
  readonly at: InstantMs | null;
  readonly why: string;
}

export interface RecordAdded extends PlacedStep {
  readonly at: InstantMs;
  /** how much longer a wait was given */
  readonly ms: Ms;
}

export interface TakenOutCorrection extends TakenOutBody {
  readonly at: InstantMs;
  readonly device: string;
  /** the id of the line that it answers */
  readonly because: string | null;
  readonly kind: "taken_out";
}

export interface LineCorrection extends LineBody {
  readonly at: InstantMs;
  readonly device: string;
  /** the id of the line that it answers */
  readonly because: string | null;
  readonly kind: "left" | "left_out";
}

export interface CarriedCorrection extends CarriedBody {
  readonly at: InstantMs;
  readonly device: string;
  /** the id of the line that it answers */
  readonly because: string | null;
  readonly kind: "carried";
}

export interface PlacedCorrection extends PlacedBody {
  readonly at: InstantMs;
  readonly device: string;
  /** the id of the line that it answers */
  readonly because: string | null;
  readonly kind: "placed";
}

export interface TookCorrection extends TookBody {
  readonly at: InstantMs;
  readonly device: string;
  /** the id of the line that it answers */
  readonly because: string | null;
  readonly kind: "took";
}

export type Correction = TakenOutCorrection | LineCorrection | CarriedCorrection | PlacedCorrection | TookCorrection;

export interface RecordSigned {
  /** of the entry; who unsigns names it */
  readonly id: string;
  readonly at: InstantMs;
  readonly device: string;
  readonly name: string;
  /** how many it seals */
  readonly entries: number;
  /** how many of those are not here */
  readonly missing: number;
}

/** Who a device is, the caller knows. */
export interface RecordPerson {
  /** as the entries call it */
  readonly device: string;
  readonly first_at: InstantMs;
  readonly last_at: InstantMs;
  readonly entries: number;
}

export interface RecordKit {
  /** that lines and portions were weighed on */
  readonly scales: readonly Scale[];
  readonly vessels: readonly string[];
  readonly heaters: readonly string[];
}

export interface RecordLot {
  readonly lot: string;
  /** the ingredients' */
  readonly names: readonly string[];
  /** whether it is what the pieces are wrapped in */
  readonly wrap: boolean;
  /** what was really used */
  readonly mg: Mg;
  /** the same, of what is counted */
  readonly count: number;
  readonly booked_mg: Mg;
  readonly over_mg: Mg;
}

/** Pieces asked and made, by the last count on the sheet, and the mass that went in. */
export interface Yield {
  readonly planned: number;
  /** less what was kept back */
  readonly good: number | null;
  readonly spoiled: number | null;
  readonly partial: number | null;
  /** kept back of the good ones */
  readonly kept: number | null;
  readonly planned_mg: Mg;
  readonly actual_mg: Mg;
}

/** Where the mass that went in has gone: in = good + kept + spoiled + spare + left + unaccounted, at division_mg. */
export interface Balance {
  readonly in_mg: Mg;
  readonly good_mg: Mg;
  readonly kept_mg: Mg;
  readonly spoiled_mg: Mg;
  readonly spare_mg: Mg;
  readonly left_mg: Mg;
  /** may be below zero */
  readonly unaccounted_mg: Mg;
  /** what the sheet allows for the bowl and for loss */
  readonly expected_loss_mg: Mg;
  readonly division_mg: Mg;
  /** where that scale reads in ounces, exactly */
  readonly division_uoz?: Uoz;
  readonly good: number;
  readonly kept: number;
  readonly partial: number;
  readonly spoiled: number;
  /** what a piece weighs on average */
  readonly piece_mg: Mg;
  /** how many pieces were weighed */
  readonly weighed: number;
}

export interface HandsOn {
  readonly ms: Ms;
  /** by step of the sheet; "" is what belongs to none */
  readonly steps: { readonly [key: string]: Ms };
  /** whether the maker gave the whole */
  readonly told: boolean;
}

/** The plain batch record of a run, finished or not. */
export interface Record extends ToldOfRun {
  readonly recipe: SheetRecipe;
  readonly size: Size;
  readonly piece: PieceWords;
  readonly signed: RecordSigned | null;
  readonly kit: RecordKit;
  readonly lines: readonly RecordLine[];
  readonly steps: readonly RecordStep[];
  readonly waits: readonly RecordWait[];
  readonly windows: readonly RecordWindow[];
  readonly bursts: readonly RecordBursts[];
  readonly portions: readonly RecordPortions[];
  readonly looks: readonly RecordLooks[];
  readonly counts: readonly RecordCount[];
  readonly corrections: readonly Correction[];
  readonly skipped: readonly RecordSkipped[];
  readonly added: readonly RecordAdded[];
  readonly starts: readonly RecordStart[];
  readonly criteria: readonly RecordCriterion[];
  readonly deviations: readonly RecordDeviation[];
  /** None: nobody judged the batch */
  readonly release: Release | null;
  /** None until finished pieces have been counted */
  readonly balance: Balance | null;
  readonly hands: HandsOn;
  readonly yield: Yield;
  readonly people: readonly RecordPerson[];
  readonly lots: readonly RecordLot[];
  readonly remarks: readonly Remark[];
}

export interface KnownPerson extends RecordPerson {
  /** of the paired device that sent the first of them; None where none is known */
  readonly name: string | null;
  /** other devices that sent some, one that took this one's place */
  readonly also: readonly string[];
}

export interface KnownLot extends RecordLot {
  /** the supplier's; None where the shelf does not know the lot */
  readonly number: string | null;
  readonly supplier: string | null;
  readonly best_before: DayText | null;
}

export interface KnownRemark extends Remark {
  /** by the server's clock; None where it was not noted */
  readonly received_at: InstantMs | null;
}

/** An entry that was received long after it happened. */
export interface LateEntry {
  readonly id: string;
  /** when it happened, by the device that made it */
  readonly at: InstantMs;
  /** when this server had it */
  readonly received_at: InstantMs;
  readonly device: string;
  /** the paired device that sent it; None with no pairing */
  readonly sender: string | null;
  readonly given_back: boolean;
  readonly kind: string;
  /** the line, step, ingredient or vessel that it tells of */
  readonly about: string;
}

export interface NamedRun {
  readonly id: string;
  readonly title: string;
}

/** What is kept of a batch: the record, and all that it is drawn from. */
export interface WholeRecord extends ToldOfRun {
  readonly recipe: SheetRecipe;
  readonly size: Size;
  readonly piece: PieceWords;
  readonly signed: RecordSigned | null;
  readonly kit: RecordKit;
  readonly lines: readonly RecordLine[];
  readonly steps: readonly RecordStep[];
  readonly waits: readonly RecordWait[];
  readonly windows: readonly RecordWindow[];
  readonly bursts: readonly RecordBursts[];
  readonly portions: readonly RecordPortions[];
  readonly looks: readonly RecordLooks[];
  readonly counts: readonly RecordCount[];
  readonly corrections: readonly Correction[];
  readonly skipped: readonly RecordSkipped[];
  readonly added: readonly RecordAdded[];
  readonly starts: readonly RecordStart[];
  readonly criteria: readonly RecordCriterion[];
  readonly deviations: readonly RecordDeviation[];
  /** None: nobody judged the batch */
  readonly release: Release | null;
  /** None until finished pieces have been counted */
  readonly balance: Balance | null;
  readonly hands: HandsOn;
  readonly yield: Yield;
  readonly people: readonly KnownPerson[];
  readonly lots: readonly KnownLot[];
  readonly remarks: readonly KnownRemark[];
  /** other runs with this number */
  readonly also_used_by: readonly NamedRun[];
  readonly late: readonly LateEntry[];
  /** SHA-256 over the entries that it is of; see the contributor's guide */
  readonly digest: string;
  /** of a signed run: the ids of the entries that the digest is over */
  readonly sealed: readonly string[] | null;
  /** the run's whole journal, as it was sent */
  readonly entries: readonly Entry[];
}

/** whole micrometres */
export type Um = number;

export type MeantFor = "all" | "adults" | "children";

export type ListGroup = "over" | "free" | "by_hand" | "colour";

export type LabelShape = "rectangle" | "cylinder" | "other";

export interface LabelSize {
  readonly shape: LabelShape;
  /** of a cylinder, its girth */
  readonly width_um: Um;
  readonly height_um: Um;
}

/** How high letters are: of the small o, of capitals where all are; in Europe the digits of the net content. */
export interface Letters {
  readonly list_um?: Um | null;
  readonly net_um?: Um | null;
}

export interface LabelOptions {
  /** by the recipe's ingredient */
  readonly cards?: { readonly [key: string]: Card };
  /** what a piece weighs; reckoned from the sheet where nobody says */
  readonly net_mg?: Mg | null;
  readonly batch?: string | null;
  /** name and address */
  readonly maker?: string | null;
  readonly identity?: string | null;
  readonly function?: string | null;
  readonly opened_months?: number | null;
  readonly best_before?: DayText | null;
  readonly precautions?: readonly string[];
  readonly size?: LabelSize | null;
  readonly letters?: Letters | null;
  /** None: read from the recipe, where that tells */
  readonly use?: ProductUse | null;
  /** used up at once; None: not said */
  readonly single_use?: boolean | null;
  /** unopened */
  readonly keeps_months?: number | null;
  /** of selling; None: nobody looked */
  readonly open_duties?: number | null;
  readonly today?: DayText | null;
  /** the earliest of the lots that went in */
  readonly lots_best_before?: DayText | null;
  readonly meant_for?: MeantFor | null;
  /** the country it was made in, of what is imported */
  readonly origin?: string | null;
  /** list and cautions stand on one, in the EU and the UK */
  readonly leaflet?: boolean | null;
}

export interface LabelName {
  readonly name: string;
  /** None: not known */
  readonly ppm: Ppm | null;
  readonly group: ListGroup;
  readonly sure: boolean;
}

export interface Sourced {
  readonly says: string;
  readonly source: string;
}

export interface LabelNeed {
  readonly what: string;
  readonly there: boolean;
  readonly source: string;
}

export interface CheckedRule {
  readonly what: string;
  readonly source: string;
}

/** Least letter heights; None where no rule is known here. */
export interface LeastHeights {
  readonly list_um: Um | null;
  readonly net_um: Um | null;
}

export interface LetterHeight {
  readonly least_um: Um | null;
  readonly has_um: Um | null;
  readonly fits: boolean | null;
}

export interface LabelHeights {
  readonly list: LetterHeight;
  readonly net: LetterHeight;
}

export interface ClpStatement {
  /** as in H319 */
  readonly code: string;
  /** in the words of the law */
  readonly says: string;
}

/** Of what only scents the air: what the classes of the substances known here add up to, for eyes and skin. */
export interface Clp {
  /** None: nothing adds up to a class */
  readonly signal: string | null;
  /** as in GHS07 */
  readonly pictograms: readonly string[];
  /** of a pictogram, at least */
  readonly side_um: Um;
  readonly hazards: readonly ClpStatement[];
  readonly precautions: readonly ClpStatement[];
  /** what counts as irritant to eyes, what damages them ten times */
  readonly eye_ppm: Ppm;
  readonly skin_ppm: Ppm;
}

export type PlatePart = "name" | "purpose" | "signal" | "hazard" | "advice" | "net" | "list" | "care" | "foot" | "maker";

export interface PlateLine {
  readonly part: PlatePart;
  readonly text: string;
}

export type Paper = "a4" | "letter";

/** A sheet of labels. From the paper's edge to the first label, and from each label's edge to the next one's. */
export interface LabelSheet {
  readonly name: string;
  readonly paper: Paper;
  readonly columns: number;
  readonly rows: number;
  readonly width_um: Um;
  readonly height_um: Um;
  readonly left_um: Um;
  readonly top_um: Um;
  readonly across_um: Um;
  readonly down_um: Um;
}

/** The upper left corner of a label on its page. */
export interface LabelPlace {
  readonly x_um: Um;
  readonly y_um: Um;
}

export interface Label {
  readonly market: Market;
  readonly identity: string;
  readonly ingredients: readonly LabelName[];
  /** the ingredient list as one line */
  readonly text: string;
  readonly net_mg: Mg;
  readonly net: string;
  /** by how much one pack may fall short; None: no figure is known here */
  readonly shortfall_mg: Mg | null;
  readonly batch: string | null;
  /** the period after opening, as in 12M */
  readonly opened: string | null;
  readonly best_before: DayText | null;
  readonly maker: string | null;
  readonly precautions: readonly Sourced[];
  /** None where it is no mixture under CLP */
  readonly clp: Clp | null;
  /** the words on it, in order */
  readonly plate: readonly PlateLine[];
  /** the words on what goes with it; none: all stands on the label */
  readonly leaflet: readonly PlateLine[];
  /** the net content belongs in the lower 30 % */
  readonly net_low: boolean;
  readonly heights: LabelHeights;
  readonly needs: readonly LabelNeed[];
  readonly warnings: readonly Sourced[];
  readonly not_checked: readonly Sourced[];
  readonly checked: readonly CheckedRule[];
  readonly law: string;
}

export interface CostSettings {
  /** ISO 4217; the amounts here are in it */
  readonly currency: string;
  readonly hourly_rate?: string;
  /** for each good piece, where no priced lot was gathered */
  readonly wrap_cost?: string;
  /** for each good piece: box, label */
  readonly packaging_cost?: string;
  /** for each batch: what goes in unweighed */
  readonly sprays_cost?: string;
  /** for each batch: rent, power, insurance */
  readonly overhead_cost?: string;
  /** for each batch, at the hourly rate */
  readonly cleaning_minutes?: number;
  /** for each good piece, at the hourly rate */
  readonly labelling_seconds?: number;
  /** of the price that is paid, tax and all */
  readonly fee_percent?: string;
  /** for each piece sold */
  readonly fee_each?: string;
  /** of the price without tax; "": no price is reckoned */
  readonly margin_percent?: string;
  /** that is added to the price without tax */
  readonly tax_percent?: string;
  /** whether tax is reclaimed */
  readonly without_tax?: boolean;
}

/** What was taken of a lot, and what that cost. */
export interface PaidRow {
  readonly lot: string;
  readonly number: string;
  readonly names: readonly string[];
  readonly wrap: boolean;
  readonly mg: Mg;
  readonly count: number;
  /** ISO 4217 */
  readonly currency: string;
  /** with two decimals more than the currency has */
  readonly cost: string;
}

/** As it stands in a batch's cost. */
export interface CostRow extends PaidRow {
  /** with as many as the currency has, adding up to the sums */
  readonly read: string;
}

export interface Unpriced {
  readonly lot: string | null;
  readonly names: readonly string[];
  readonly mg: Mg;
}

/** What the total is made of: each thing stands in one of them. */
export interface CostParts {
  /** less the wrap */
  readonly materials: string;
  readonly sprays: string;
  readonly hands: string;
  readonly cleaning: string;
  readonly labelling: string;
  readonly wrap: string;
  readonly packaging: string;
  readonly overhead: string;
}

/** A price for one piece: price = tax + fees + cost + margin. */
export interface SalePrice {
  /** as it is paid, tax and all */
  readonly price: string;
  readonly tax: string;
  readonly fees: string;
  readonly cost: string;
  /** what is left */
  readonly margin: string;
}

/** Of one currency; several are never added. */
export interface CostTotal extends CostParts {
  readonly total: string;
  /** of the materials: dried off, scraped out, unaccounted */
  readonly lost: string | null;
  readonly spoiled: string | null;
  /** of the total: the pieces that were kept back; None: none were */
  readonly kept: string | null;
  /** from the margin that is asked; None: none is, or no price gives it */
  readonly sale: SalePrice | null;
  /** for each good piece */
  readonly per_piece: string | null;
}

export interface Cost {
  readonly materials: readonly CostRow[];
  readonly unpriced: readonly Unpriced[];
  readonly hands_ms: Ms;
  readonly good: number | null;
  /** by currency */
  readonly totals: { readonly [key: string]: CostTotal };
}

export interface WholeCost extends Cost {
  /** the maker's own */
  readonly currency: string;
  /** what it would cost by its sheet, on the shelf as it was when it was begun; None: not begun */
  readonly ahead: Cost | null;
}

export type DryAnswer = "dry" | "not_yet" | "gains" | "too_soon" | "cannot_tell" | "slower" | "unclear";

export interface PieceWeighing {
  readonly at: InstantMs;
  readonly mg: Mg;
}

export interface Dryness {
  readonly constant: DryAnswer;
  /** by the maker's own threshold */
  readonly own: DryAnswer | null;
  /** below zero: it lost */
  readonly change_mg: number;
  readonly change_ppm: number | null;
  /** what a piece must weigh on this scale for constant weight to show */
  readonly least_mg: Mg;
  readonly says: string;
}

export interface PieceDryness extends Dryness {
  readonly piece: number;
}

/** One run's word on a written step; None where it has nothing to say. */
export interface StepHistory {
  readonly bursts: number | null;
  readonly heat_word: HeatWord;
  readonly heat_ms_per_kg: number | null;
  readonly tries: number | null;
  readonly wait_ms: Ms | null;
  /** what the wait was for; "" */
  readonly word: string;
  readonly hands_ms: Ms | null;
}

export interface Spread {
  readonly runs: number;
  readonly median: number;
  /** the lower quartile */
  readonly low: number;
  readonly high: number;
}

/** What the runs teach of a step, or of the batch; None: too few have it, so the recipe's word stands. */
export interface Learned {
  readonly bursts?: Spread | null;
  readonly heat_ms_per_kg?: Spread | null;
  readonly tries?: Spread | null;
  readonly wait_ms?: Spread | null;
  readonly hands_ms?: Spread | null;
  /** of the batch alone */
  readonly loss_ppm?: Spread | null;
}

/** What recent runs say of a recipe's steps, by written step ("base.press"). */
export interface LastTimes {
  /** how many finished runs were read, the newest ones */
  readonly runs: number;
  /** in words, the newest first, by step; of what was weighed by step/line */
  readonly last: { readonly [key: string]: readonly string[] };
  readonly learned: { readonly [key: string]: Learned };
  /** hands-on time for planning */
  readonly hands_ms: { readonly [key: string]: Ms };
}

// bench/shapes/shelf.py

/** How an ingredient is bought. What it costs its lots say, which makers alone are told. */
export interface Supply {
  readonly supplier?: string;
  /** what is in one, such as 1 kg */
  readonly pack?: WrittenAmount;
  readonly lead_days?: number;
  /** the maker's own figure: order once no more is left */
  readonly reorder_at?: WrittenAmount;
}

/** What is known of an ingredient, its fields written as in a recipe's. */
export interface Card extends WrittenIngredient {
  readonly cas?: string;
  readonly limits?: readonly string[];
  readonly supply?: Supply;
  /** further names for it */
  readonly answers_to?: readonly string[];
}

/** What a name may be of, and what is known of that. */
export interface Proposal {
  readonly id: string;
  /** the name of it that was met */
  readonly name: string;
  /** its first name in the language asked for */
  readonly called: string;
  /** the name as it stands is taken for it */
  readonly taken: boolean;
  /** what the table knows, its fields written as on a card */
  readonly about: Card;
  /** hazard statements of its classification */
  readonly hazards: readonly string[];
  /** where that is from, in words; "" where there are none */
  readonly hazards_by: string;
}

export interface ShelfNote {
  readonly at: InstantMs;
  readonly device: string;
  readonly text: string;
}

/** A paper that was seen, and where it is. */
export interface ShelfPaper {
  readonly at: InstantMs;
  readonly device: string;
  readonly paper: PaperKind;
  readonly reference: string;
  readonly dated: DayText | null;
  readonly expires: DayText | null;
  /** of an IFRA certificate */
  readonly amendment: string | null;
  readonly category: string | null;
  /** its file's id, where it has one */
  readonly picture?: string;
  readonly media?: PaperMedia;
}

/** Whether a lot may be used. */
export interface LotJudgement {
  readonly at: InstantMs;
  readonly device: string;
  readonly verdict: LotVerdict;
  /** who judged */
  readonly name: string | null;
  readonly why: string | null;
}

export interface ShelfIngredient {
  /** the last one that was written; None while there is none */
  readonly card: Card | null;
  readonly notes: readonly ShelfNote[];
  /** as they were told */
  readonly papers: readonly ShelfPaper[];
}

export interface WrittenOff {
  readonly at: InstantMs;
  /** mg, or pieces where the lot is counted */
  readonly much: number;
  readonly why: string;
}

/** Fields of a lot as somebody wrote them; None: it has none. */
export interface LotSaid {
  readonly ingredient?: string;
  readonly number?: string;
  readonly supplier?: string | null;
  readonly code?: string | null;
  readonly received_on?: DayText;
  readonly best_before?: DayText | null;
  readonly price?: Price | null;
  readonly mg?: Mg | null;
  readonly count?: number | null;
}

/** A lot was mended: what stood in those fields until then. */
export interface LotMending {
  readonly at: InstantMs;
  readonly device: string;
  readonly was: LotSaid;
}

/** A lot, in mg or in pieces: one of the two is None. */
export interface ShelfLot {
  readonly ingredient: string;
  /** the supplier's */
  readonly number: string;
  readonly supplier: string | null;
  /** what its bar or QR code says */
  readonly code: string | null;
  /** the batch that it was made in, of a part made ahead */
  readonly run: string | null;
  readonly received_on: DayText;
  readonly best_before: DayText | null;
  readonly price: Price | null;
  /** as received */
  readonly mg: Mg | null;
  /** as received */
  readonly count: number | null;
  /** what was there when it was last corrected, less what was written off since */
  readonly held: number;
  readonly held_at: InstantMs;
  readonly wrote_off: readonly WrittenOff[];
  /** as they were told */
  readonly mended: readonly LotMending[];
  readonly notes: readonly ShelfNote[];
  /** as they were told; the last one stands */
  readonly judgements: readonly LotJudgement[];
  readonly papers: readonly ShelfPaper[];
}

export interface Shelf {
  readonly ingredients: { readonly [key: string]: ShelfIngredient };
  readonly lots: { readonly [key: string]: ShelfLot };
  /** entries set aside, by id */
  readonly unread: readonly string[];
}

export interface LotThere extends ShelfLot {
  readonly id: string;
  /** below zero when more was used than booked */
  readonly left_mg: Mg | null;
  readonly left_count: number | null;
}

export interface IngredientThere extends ShelfIngredient {
  readonly id: string;
  /** what its lots have left together */
  readonly left_mg: Mg;
  readonly left_count: number;
}

export interface IngredientWhole extends IngredientThere {
  readonly lots: readonly LotThere[];
}

/** A run that took of a lot. */
export interface LotRun {
  readonly id: string;
  readonly title: string;
  readonly recipe_version: number;
  /** the batch number */
  readonly number: string | null;
  /** planned */
  readonly pieces: number;
  /** when it was begun */
  readonly at: InstantMs;
  readonly finished_at: InstantMs | null;
  /** what was really used of the lot */
  readonly mg: Mg;
  readonly count: number;
  /** None: nobody judged the batch as it is signed now */
  readonly release: BatchVerdict | null;
  /** the lot that it took: the traced one, or one that was made of it */
  readonly lot: string;
}

export interface Trace {
  readonly lot: string;
  /** a part of them */
  readonly runs: readonly LotRun[];
  /** the last of these, where more follow */
  readonly next: string | null;
  readonly total: number;
}

/** What a run took of a lot. */
export interface Taken {
  readonly mg: Mg;
  readonly count: number;
  /** when the last of it was weighed, or when it was gathered while nothing was */
  readonly at: InstantMs;
}

export interface LotUse extends Taken {
  readonly booked_mg: Mg;
}

/** A lot to pick from. */
export interface LotOffered {
  readonly lot: string;
  readonly left: number;
  readonly best_before: DayText | null;
  readonly received_on: DayText;
  /** held or rejected */
  readonly barred?: boolean;
}

export interface Picked {
  readonly lot: string;
  readonly take: number;
  /** past its date */
  readonly past: boolean;
}

export interface Pick {
  readonly picked: readonly Picked[];
  /** what is still lacking */
  readonly short: number;
  /** lots past their date */
  readonly passed_over: readonly string[];
  /** lots that are held or rejected */
  readonly barred: readonly string[];
}

/** A paper that is past its date, or will be within 30 days. */
export interface PaperDue {
  readonly paper: PaperKind;
  readonly expires: DayText;
  readonly past: boolean;
}

export interface GatherLot {
  readonly lot: string;
  /** None: the shelf does not know the lot */
  readonly number: string | null;
  readonly best_before: DayText | null;
  readonly left: number | null;
  /** mg or pieces */
  readonly take: number;
  readonly past: boolean;
  /** None: nobody judged it */
  readonly verdict: LotVerdict | null;
  /** of the lot and its ingredient, where none is newer */
  readonly papers_due: readonly PaperDue[];
  readonly gathered: boolean;
}

export interface GatherIngredient {
  readonly ingredient: string;
  readonly name: string;
  readonly mg: Mg;
  readonly division_mg: Mg;
  readonly count: number;
  /** the shelf's ingredient */
  readonly shelf: string | null;
  readonly lots: readonly GatherLot[];
  /** mg or pieces */
  readonly short: number;
  readonly passed_over: readonly string[];
  /** lots that are held or rejected */
  readonly barred: readonly string[];
  /** its amount is judged or spooned: a lot is named with nothing to take */
  readonly by_hand: boolean;
}

export type ThingKind = "start" | "scale" | "vessel" | "mould" | "heater" | "tool" | "protection";

export interface Thing {
  readonly thing: string;
  readonly kind: ThingKind;
  readonly name: string;
}

export interface GatherThing extends Thing {
  readonly ticked: boolean;
}

export interface Gather {
  readonly ingredients: readonly GatherIngredient[];
  readonly things: readonly GatherThing[];
  readonly cautions: readonly string[];
  /** how many are left */
  readonly open: number;
}

// bench/shapes/delivery.py

export type DeliveryField = "name" | "amount" | "unit" | "packs" | "number" | "best_before" | "price" | "unit_price" | "currency" | "inci" | "cas" | "nothing";

export type SharedBy = "value" | "mass";

/** A list as it was pasted, and what its maker answered. */
export interface WrittenDelivery {
  readonly text: string;
  readonly received_on: DayText;
  readonly supplier?: string;
  /** where the list names none */
  readonly currency?: string;
  /** whose fluid ounces */
  readonly measures?: Measures;
  /** what each is, where the maker says so */
  readonly columns?: readonly DeliveryField[];
  readonly answers?: { readonly [key: string]: string };
  /** what bringing it cost */
  readonly delivery?: string;
  readonly shared_by?: SharedBy;
}

/** What could not be read of a row, or may mean two things. */
export interface DeliveryQuestion {
  readonly field: string;
  readonly says: string;
  /** each can be the answer as it stands */
  readonly choices: readonly string[];
}

export interface DeliveryRow {
  /** its line in the list, the heading not counted */
  readonly row: number;
  /** by field: as it is written, or as it was answered */
  readonly cells: { readonly [key: string]: string };
  readonly name: string;
  /** the shelf's card; None: a new one */
  readonly card: string | null;
  readonly card_name: string | null;
  /** cards that it may be, by id: their names */
  readonly choices: { readonly [key: string]: string };
  readonly mg: Mg | null;
  readonly count: number | null;
  readonly number: string | null;
  readonly best_before: DayText | null;
  readonly price: Price | null;
  readonly questions: readonly DeliveryQuestion[];
  /** left out: a sum, an empty row, or the maker's wish */
  readonly out: boolean;
}

export interface DeliveredCardBody {
  readonly ingredient: string;
  readonly card: Card;
}

export interface DeliveredCard {
  readonly kind: "described";
  readonly body: DeliveredCardBody;
}

/** A `received` without the lot's own id, which who enters it gives. */
export interface DeliveredLotBody {
  readonly ingredient: string;
  readonly number: string;
  readonly received_on: DayText;
  readonly mg?: Mg;
  readonly count?: number;
  readonly supplier?: string;
  readonly best_before?: DayText;
  readonly price?: Price;
}

export interface DeliveredLot {
  readonly kind: "received";
  readonly body: DeliveredLotBody;
}

export interface Delivery {
  /** empty where each line is read by itself */
  readonly columns: readonly DeliveryField[];
  /** what stands above each column */
  readonly heads: readonly string[];
  readonly rows: readonly DeliveryRow[];
  /** what bringing it cost, as it is written; empty: nothing */
  readonly delivery: string;
  /** about the list as a whole */
  readonly questions: readonly DeliveryQuestion[];
  /** how many questions are left */
  readonly open: number;
  /** to be entered as they stand, once nothing is open */
  readonly entries: readonly (DeliveredCard | DeliveredLot)[];
}

// bench/shapes/pieces.py

/** Pieces of a batch at one outlet; None: nobody said where. */
export interface OutletPieces {
  readonly outlet: string | null;
  readonly sold: number;
  readonly given: number;
  readonly returned: number;
}

export interface BinnedPieces {
  readonly at: InstantMs;
  readonly device: string;
  readonly pieces: number;
  readonly why: string;
}

export interface Complaint {
  readonly id: string;
  readonly run: string;
  readonly at: InstantMs;
  readonly device: string;
  readonly sort: ComplaintSort;
  readonly text: string;
  readonly pieces: number | null;
  readonly outlet: string | null;
}

/** What the shelf's journal tells of one batch's pieces. */
export interface PiecesTold {
  readonly sold: number;
  readonly given: number;
  readonly returned: number;
  readonly binned: number;
  readonly sampled: number;
  /** became lots of the shelf */
  readonly shelved: number;
  /** where they stand */
  readonly place: string | null;
  /** by id, the unsaid one first */
  readonly outlets: readonly OutletPieces[];
  readonly bins: readonly BinnedPieces[];
  readonly complaints: readonly Complaint[];
}

/** What the batch's own record says of its pieces once it is finished. */
export interface PiecesMade {
  /** those that were kept among them */
  readonly good: number;
  readonly kept: number;
}

/** Where a batch's pieces are: made = in_stock + left + kept + binned, whatever was told. */
export interface PiecesStand {
  readonly made: number;
  readonly in_stock: number;
  readonly left: number;
  readonly kept: number;
  readonly binned: number;
}

/** A batch's pieces as a list shows them, those that go off first coming first. */
export interface BatchPieces extends PiecesStand {
  readonly run: string;
  /** its id */
  readonly recipe: string;
  readonly title: string;
  readonly number: string | null;
  readonly made_on: DayText;
  readonly best_before: DayText | null;
  readonly place: string | null;
  /** None: nobody judged the batch as it is signed now */
  readonly release: BatchVerdict | null;
  /** as made, those kept in the batch's record among them */
  readonly good: number;
  /** kept in the batch's record */
  readonly kept_there: number;
}

/** Where pieces go: a shop, a market, a person. As little as its maker wants to keep. */
export interface Outlet {
  readonly id: string;
  /** None: it was erased */
  readonly name: string | null;
  readonly contact: string | null;
  readonly erased_at: InstantMs | null;
}

/** What of a batch is at one outlet now, and how to reach it; no outlet where nobody said. */
export interface AtOutlet extends OutletPieces {
  readonly name: string | null;
  readonly contact: string | null;
  readonly there: number;
}

/** Where all of a batch's pieces are, and what was said of them. */
export interface PiecesWhole {
  readonly run: string;
  /** None: it is not finished, not counted, or not here */
  readonly batch: BatchPieces | null;
  readonly at: readonly AtOutlet[];
  readonly bins: readonly BinnedPieces[];
  readonly complaints: readonly Complaint[];
}

/** A batch to be called back, and where its pieces are. */
export interface RecalledBatch {
  readonly run: string;
  readonly title: string;
  readonly number: string | null;
  /** by which lot it has it: None where it is the batch itself */
  readonly lot: string | null;
  /** None: nobody has counted them */
  readonly made: number | null;
  /** in stock, or kept */
  readonly here: number;
  readonly binned: number;
  readonly at: readonly AtOutlet[];
  /** became lots of the shelf, whose batches follow */
  readonly shelved: number;
}

/** Where the pieces are of every batch that has of a lot, straight or through a part made ahead. */
export interface Recall {
  /** only tried */
  readonly rehearsal: boolean;
  /** a part of them */
  readonly batches: readonly RecalledBatch[];
  /** the last of these, where more follow */
  readonly next: string | null;
  /** how many batches; what follows is of all of them */
  readonly total: number;
  readonly made: number;
  /** here, binned, on the shelf, or at an outlet that can be asked */
  readonly found: number;
  /** left, and nobody can say to whom */
  readonly unknown: number;
}

/** A lot that a batch has of, straight or through a part made ahead. */
export interface OriginLot {
  readonly lot: string;
  /** None: the shelf does not know it */
  readonly number: string | null;
  readonly ingredient: string | null;
  /** the batch that it was gathered for */
  readonly into: string;
  /** the batch that it was made in, of a part made ahead */
  readonly made_in: string | null;
}

export interface Origin {
  readonly run: string;
  readonly lots: readonly OriginLot[];
}

/** What a complaint leads to. */
export interface Alike {
  readonly complaint: Complaint;
  /** of the batch; None: it is not here */
  readonly title: string | null;
  readonly number: string | null;
  readonly lots: readonly OriginLot[];
  /** the batches that share a lot with it, and its own */
  readonly others: readonly RecalledBatch[];
  readonly told_of_others: readonly Complaint[];
}

// bench/shapes/buying.py

export type BoughtBy = "mg" | "count";

/** What was ordered and did not come yet: in mg or in pieces, one of the two is None. */
export interface OpenOrder {
  /** the entry that told of it */
  readonly order: string;
  readonly card: string;
  readonly name: string;
  readonly mg: Mg | null;
  readonly count: number | null;
  readonly due: DayText | null;
  readonly supplier: string | null;
}

/** What a mg, or a piece, costs by the last price that was noted: price / much. */
export interface Quote {
  readonly on: DayText;
  readonly measure: BoughtBy;
  readonly much: number;
  readonly price: Price;
}

/** What the shelf's journal tells of buying. */
export interface Purchases {
  /** those that are due first coming first */
  readonly orders: readonly OpenOrder[];
  /** by card */
  readonly quotes: { readonly [key: string]: Quote };
}

/** A lot that goes off before a day on which it is lacking. */
export interface BuyingUnusable {
  readonly lot: string;
  readonly number: string;
  readonly best_before: DayText | null;
}

/** So much of an ingredient is wanted on a day: in mg or in pieces, one of the two. */
export interface BuyingNeed {
  /** the shelf's */
  readonly card: string;
  readonly on: DayText;
  readonly mg?: Mg;
  readonly count?: number;
  /** what it is for, in its maker's words */
  readonly what?: string;
}

/** So many pieces of a recipe, to be begun on a day. */
export interface BuyingWant {
  readonly recipe: string;
  readonly pieces: number;
  readonly on: DayText;
}

export interface WrittenBuying {
  readonly wants: readonly BuyingWant[];
  readonly today: DayText;
}

/** Whole packs as the supplier has them, and what they come to. */
export interface BuyingPacks {
  readonly count: number;
  /** mg or pieces */
  readonly each: number;
  readonly supplier: string | null;
  /** of all of them by the newest price, paid or noted, money as text */
  readonly price: string | null;
  readonly currency: string | null;
}

export interface BuyingRow {
  readonly card: string;
  readonly name: string;
  readonly measure: BoughtBy;
  readonly wanted: number;
  /** of what is there, what goes into these needs */
  readonly free: number;
  /** of what is ordered, what comes in time for these needs */
  readonly on_order: number;
  /** of what is ordered, what comes after their day */
  readonly comes_late: number;
  readonly lacking: number;
  readonly first_lacking_on: DayText | null;
  /** the last day on which it still comes in time; None: nothing lacks */
  readonly order_by: DayText | null;
  /** that day is past */
  readonly late: boolean;
  /** None: the card does not say */
  readonly lead_days: number | null;
  /** None: nothing lacks, or the card knows no pack */
  readonly packs: BuyingPacks | null;
  readonly unusable: readonly BuyingUnusable[];
}

/** When to order again: by the maker's own figure, or from own use where enough batches say so. */
export interface ReorderPoint {
  readonly card: string;
  readonly name: string;
  readonly measure: BoughtBy;
  /** what is there and free */
  readonly left: number;
  readonly on_order: number;
  /** order once no more than this is left or on order; None: nobody knows */
  readonly at: number | null;
  readonly by: "maker" | "use" | "unknown";
  /** that used it, in the weeks looked at */
  readonly batches: number;
  readonly weeks: number;
  /** of the weeks looked at, rounded; None where too few batches say */
  readonly a_week: number | null;
  /** the standard deviation between the weeks */
  readonly spread: number | null;
  readonly lead_days: number | null;
  /** it is time */
  readonly due: boolean;
  readonly packs: BuyingPacks | null;
}

/** An ingredient of a recipe that no card answers to, and the cards that are probably it, by id: their names. */
export interface BuyingUnjoined {
  readonly name: string;
  readonly recipes: readonly string[];
  readonly maybe: { readonly [key: string]: string };
}

/** What goes in with no mass: as needed, or by the spoon; how much is the maker's to know. */
export interface BuyingByHand {
  readonly name: string;
  readonly recipes: readonly string[];
}

export interface Buying {
  /** the soonest to order first, and what lacks nothing last */
  readonly rows: readonly BuyingRow[];
  readonly reorder: readonly ReorderPoint[];
  readonly unjoined: readonly BuyingUnjoined[];
  readonly by_hand: readonly BuyingByHand[];
  /** those that are due first coming first */
  readonly orders: readonly OpenOrder[];
}

// bench/shapes/product.py

export type Trait = "lye" | "frees_chlorine" | "strong_alkali" | "draws_water" | "feeds_microbes" | "allergen_food" | "foams" | "scents" | "borate" | "airways" | "stains" | "food_colour" | "microplastic" | "candle_colour" | "acid_frees_sulfide" | "frees_peroxide" | "frees_formaldehyde" | "gives_gas" | "strong_acid" | "sets_in_forms" | "needs_acid";

export interface UseRow {
  readonly use: ProductUse;
  /** None: it is not for the skin */
  readonly stays_on: boolean | null;
  readonly in_water: boolean;
  /** of the IFRA Standards, by use */
  readonly categories: readonly string[];
  /** a limit of one of these is for something else */
  readonly other_categories: readonly string[];
  /** a row of bench/sources.json, as everywhere here */
  readonly source: string;
}

/** A law that applies to these uses in these markets. */
export interface Law {
  readonly id: string;
  readonly uses: readonly ProductUse[];
  readonly markets: readonly SoldIn[];
  /** only of what holds a soap base */
  readonly soap?: boolean;
  readonly source: string;
  /** where that it holds in Northern Ireland is from */
  readonly source_ni?: string;
}

export type DutyOf = "studio" | "recipe";

/** What is due before, or when, something is sold. */
export interface Duty {
  readonly id: string;
  readonly laws: readonly string[];
  readonly markets: readonly SoldIn[];
  readonly of: DutyOf;
  /** a day */
  readonly since?: string;
  /** a small business may be free of it */
  readonly small_free?: boolean;
  readonly source: string;
  /** where that it holds in Northern Ireland is from */
  readonly source_ni?: string;
}

/** What an annex of the cosmetics regulation limits. A share is of the product, "" where it is forbidden. */
export interface AnnexLimit {
  readonly id: string;
  readonly annex: string;
  /** of the table of substances */
  readonly substances: readonly string[];
  /** so much of each counts, where the limit is of what it gives: "84.75 %" */
  readonly counts?: string;
  readonly markets: readonly SoldIn[];
  readonly rinsed: string;
  readonly left_on: string;
  readonly source: string;
}

/** A law of these markets that ends the use of what has a trait; all of it, or the substances named. */
export interface Ban {
  readonly id: string;
  readonly trait: Trait;
  readonly substances?: readonly string[];
  /** only in what is rinsed off */
  readonly rinsed?: boolean;
  readonly markets: readonly SoldIn[];
  readonly source: string;
}

export interface ProductTable {
  readonly uses: readonly UseRow[];
  readonly laws: readonly Law[];
  readonly duties: readonly Duty[];
  readonly limits: readonly AnnexLimit[];
  readonly bans: readonly Ban[];
}

export type DutyState = "open" | "seen_to" | "not_mine";

/** What a maker says of a duty. `about`: the recipe, or none where it is of the whole studio. */
export interface DutySaid {
  readonly about: Uuid | null;
  readonly duty: string;
  readonly state: DutyState;
  readonly day: DayText | null;
  readonly note: string;
}

export interface DutyMark extends DutySaid {
  readonly id: Uuid;
  /** when it was said */
  readonly at: InstantMs;
}

/** A duty of a recipe, in words, and how it stands. */
export interface DutyStands {
  readonly id: string;
  readonly of: DutyOf;
  /** of those the recipe is sold in */
  readonly markets: readonly SoldIn[];
  readonly says: string;
  readonly state: DutyState;
  readonly day: DayText | null;
  readonly note: string;
  /** who may be free of it; "" for nobody */
  readonly more: string;
  readonly since: string;
  readonly source: string;
  readonly dated: string;
}

export interface LawStands {
  readonly id: string;
  readonly markets: readonly SoldIn[];
  readonly says: string;
  readonly source: string;
  readonly dated: string;
}

/** What follows for a recipe from what it is for and where it is sold. */
export interface ProductStands {
  /** None: the recipe does not say */
  readonly use: ProductUse | null;
  readonly sold_in: readonly SoldIn[] | null;
  readonly laws: readonly LawStands[];
  readonly duties: readonly DutyStands[];
  readonly open: number;
}

// bench/shapes/planning.py

export type TaskKind = "hands" | "wait" | "free";

export type TakesFrom = "recipe" | "planned bursts" | "common practice" | "own runs";

export type TaskStatus = "open" | "begun" | "done";

export type GapWhy = "after" | "wait" | "window" | "keeps";

export type PlanStatus = "proven" | "found" | "impossible" | "unknown";

export type PlannedBy = "solver" | "rule";

export type PlanAimName = "finish" | "ready_by";

export type AimName = "unkept" | "share" | "finish" | "start" | "sessions" | "span" | "changes" | "moved";

export type Suggestion = "late" | "over" | "longer";

export type WhyNow = "window" | "opens" | "starts_wait" | "frees" | "late_last" | "meanwhile" | "next";

export type ReasonKind = "circle" | "too_long" | "hours" | "rules" | "ready_by";

/** Bench hours by a place's clock. A date's own stand before a weekday's, those before the daily ones. */
export interface HoursWritten {
  /** such as Europe/London */
  readonly zone: string;
  /** such as ["9:00", "12:30"]; "24:00" ends a day */
  readonly daily?: readonly (readonly string[])[];
  /** by mon, tue, wed and so on */
  readonly days?: { readonly [key: string]: readonly (readonly string[])[] };
  /** by 2026-11-28 */
  readonly dates?: { readonly [key: string]: readonly (readonly string[])[] };
}

/** A maker as the studio says it. */
export interface MakerWritten {
  readonly name: string;
  readonly hours: HoursWritten;
}

/** A maker and when the bench is theirs. */
export interface MakerHours {
  readonly name: string;
  /** in order and apart */
  readonly hours: readonly (readonly InstantMs[])[];
}

/** One of the few things of a kit that steps share. */
export interface Equipment {
  readonly name: string;
  /** how many there are; moulds are counted in cavities */
  readonly many: number;
}

/** How far a step has come. */
export interface TaskProgress {
  readonly status: TaskStatus;
  /** None: not begun, or nobody knows when */
  readonly began_at: InstantMs | null;
  /** None: not done */
  readonly ended_at: InstantMs | null;
  /** still to do of a begun step from began_at, or from now when that is None; else takes_ms */
  readonly left_ms: Ms;
}

/** A step of a sheet as it is planned. */
export interface Task extends TaskProgress {
  readonly id: string;
  /** "" where there is one run without a name */
  readonly run: string;
  readonly component: string;
  readonly letter: string;
  readonly round: number;
  readonly title: string;
  /** hands: holds a maker; wait: goes on by itself from the end of the last of its needs; free: neither */
  readonly kind: TaskKind;
  readonly takes_ms: Ms;
  readonly takes_from: TakesFrom;
  /** equipment -> how many */
  readonly uses: { readonly [key: string]: number };
}

export interface Gap {
  /** counted from the end of the last of these steps */
  readonly from: readonly string[];
  /** the step that begins */
  readonly to: string;
  /** it begins at least so long after; None: whenever */
  readonly least_ms: number | null;
  /** it begins at most so long after; None: whenever */
  readonly most_ms: number | null;
  readonly why: GapWhy;
  /** what missing it costs, in words; "" when nobody said */
  readonly stake: string;
  /** what it is over, where the stake is common practice */
  readonly state?: string;
  /** none: no state is open in it */
  readonly class?: WindowClass;
  /** of the hands, to bring back what was left too long */
  readonly price_ms?: Ms;
  /** over by more than this there is no way back; None: time never takes it */
  readonly lost_ms?: Ms | null;
}

/** A gap that a plan does not keep. */
export interface BrokenGap extends Gap {
  readonly over_ms: Ms;
}

export interface Hold {
  readonly equipment: string;
  readonly many: number;
  /** from the start of this step */
  readonly from: string;
  /** to the end of this one */
  readonly until: string;
  /** the name of the bowl or jug that it is at the bench */
  readonly vessel?: string;
}

/** What there is to do of one sheet. */
export interface TasksOfRun {
  readonly tasks: readonly Task[];
  readonly gaps: readonly Gap[];
  readonly holds: readonly Hold[];
  readonly equipment: { readonly [key: string]: Equipment };
}

/** What is planned: all that there is to do at one bench, and the hands and hours for it. */
export interface Problem extends TasksOfRun {
  /** the first instant to plan from */
  readonly since: InstantMs;
  /** all ends by then; None: whenever */
  readonly ready_by?: InstantMs | null;
  /** whose clock the reasons speak in */
  readonly zone?: string;
  /** run -> what its batch is called, said with each step where there are several */
  readonly names?: { readonly [key: string]: string };
  readonly makers: readonly MakerHours[];
}

/** One aim of a plan: instants for finish and start, ms for span, how many for all else. */
export interface PlanAim {
  readonly aim: AimName;
  readonly value: number;
  /** nothing is better than this; None: not known */
  readonly bound: number | null;
  readonly proven: boolean;
}

/** What a step is called. */
export interface StepNamed {
  readonly title: string;
  /** its batch by name, where several are planned */
  readonly batch?: string;
}

/** Why a step stands where it does. */
export interface WhyStep {
  readonly kind: WhyNow;
  /** the steps that it has to do with */
  readonly steps: readonly string[];
  /** what these are called; none in plans of earlier versions */
  readonly named?: readonly StepNamed[];
  /** how soon after, how long, or how long it has, by its kind */
  readonly ms?: Ms;
  /** the finish hangs on it */
  readonly last?: boolean;
  /** what it empties */
  readonly vessel?: string;
  /** of the moulds that it empties */
  readonly shape?: string;
  /** what missing it costs, in the recipe's own words */
  readonly stake?: string;
  /** whose common stake that is, where the recipe has no words */
  readonly state?: string;
  /** in words: as the API gives it, and in plans of earlier versions */
  readonly says?: string;
}

/** A step of a plan. */
export interface PlanStep {
  readonly id: string;
  readonly run: string;
  readonly component: string;
  readonly letter: string;
  readonly round: number;
  readonly title: string;
  readonly kind: TaskKind;
  readonly status: TaskStatus;
  readonly starts_at: InstantMs;
  readonly ends_at: InstantMs;
  /** its place in makers; None: no hands */
  readonly maker: number | null;
  /** its place in sessions; None: in none */
  readonly session: number | null;
  /** how far it can slip, nothing later at the end; None: only the rule made the plan */
  readonly slack_ms: Ms | null;
  /** no slack */
  readonly critical: boolean;
  /** None: it is in no session */
  readonly why: WhyStep | null;
}

/** A stretch of bench hours that a plan uses. */
export interface PlanSession {
  /** its place in makers */
  readonly maker: number;
  readonly opens_at: InstantMs;
  readonly closes_at: InstantMs;
  readonly begins_at: InstantMs;
  readonly ends_at: InstantMs;
  readonly hands_ms: Ms;
  readonly steps: readonly string[];
}

/** Give one gap more time. */
export interface GapChange {
  readonly what: "gap";
  readonly gap: Gap;
  /** of the step that may come later */
  readonly title: string;
  readonly ms: Ms;
}

/** Close the bench later. */
export interface HoursChange {
  readonly what: "hours";
  readonly ms: Ms;
  /** its place in makers; none: any */
  readonly maker?: number;
  /** the stretch that closes then; none: any */
  readonly closes_at?: InstantMs;
}

/** Begin earlier. */
export interface StartChange {
  readonly what: "start_by";
  readonly at: InstantMs;
  readonly ms: Ms;
}

/** Be ready later. */
export interface ReadyChange {
  readonly what: "ready_by";
  readonly at: InstantMs;
  readonly ms: Ms;
}

export type PlanChange = GapChange | HoursChange | StartChange | ReadyChange;

/** Why a day cannot be done, and the smallest changes found that would do. */
export interface PlanReason {
  readonly kind: ReasonKind;
  readonly steps: readonly string[];
  readonly gaps: readonly Gap[];
  readonly change: readonly PlanChange[];
  /** what the steps of all these are called; none in earlier versions */
  readonly named?: { readonly [key: string]: StepNamed };
  /** whose clock it speaks in */
  readonly zone?: string;
  /** of the step that is too long */
  readonly takes_ms?: Ms;
  /** in words: as the API gives it, and in plans of earlier versions */
  readonly says?: string;
}

/** When one run is to be ready. */
export interface RunDue {
  readonly run: string;
  readonly ready_by: InstantMs;
  /** the latest start; None: there is none */
  readonly begins_at: InstantMs | null;
  /** why it cannot be ready by then, in words, as the API gives it; "" when it can */
  readonly why: string;
  /** why not, where no reason says it */
  readonly late?: "past" | "unfound";
  /** why not */
  readonly reason?: PlanReason;
}

/** The best order found, and how good it is known to be. */
export interface Plan {
  /** proven: no better first aim exists; unknown: nothing keeps every rule, and no proof of that */
  readonly status: PlanStatus;
  readonly by: PlannedBy;
  readonly aim: PlanAimName;
  readonly since: InstantMs;
  /** None: whenever */
  readonly ready_by: InstantMs | null;
  readonly cancelled: boolean;
  /** hands stay on each state that does not keep until it ends, with room for slow hands */
  readonly stays: boolean;
  /** nothing finishes before this, whatever the order; None: not known */
  readonly bound_at: InstantMs | null;
  /** in their order */
  readonly aims: readonly PlanAim[];
  /** why it is impossible */
  readonly reasons: readonly PlanReason[];
  /** the first start of hands; None: none is left */
  readonly begins_at: InstantMs | null;
  /** None: nothing was planned */
  readonly finish_at: InstantMs | null;
  /** in order of start, history included */
  readonly steps: readonly PlanStep[];
  readonly sessions: readonly PlanSession[];
  /** the gaps not kept; only while live, or with status unknown */
  readonly broken: readonly BrokenGap[];
  /** only where runs are ready by instants of their own */
  readonly due?: readonly RunDue[];
}

/** Word of the first plan that can be followed. */
export interface UsablePlan {
  readonly aim: "usable";
  readonly plan: Plan;
}

/** Word of how far the search is. */
export interface AimProgress {
  readonly aim: AimName | Suggestion;
  /** None as an aim begins */
  readonly value: number | null;
  /** the share left, 1 to 0 */
  readonly work: number;
}

export type Progress = UsablePlan | AimProgress;

/** A gap that breaks, and by how much. */
export interface GapOver {
  readonly gap: Gap;
  readonly over_ms: Ms;
}

/** next: in plan order; sooner: something else would end later; wait: nothing is ready; closed: no bench hours now. */
export interface PlainAdvice {
  readonly kind: "next" | "sooner" | "finished" | "wait" | "closed" | "no_hours";
}

/** Begun now, a gap would break. */
export interface WindowAdvice {
  readonly kind: "window";
  readonly step: string;
  /** none: no layout of the rest was found */
  readonly gap?: Gap;
  readonly over_ms?: Ms;
  readonly closes_at?: InstantMs;
}

/** hours: it would run past the bench hours; ends_sooner: waiting ends the day earlier. */
export interface HoursAdvice {
  readonly kind: "hours" | "ends_sooner";
  readonly step: string;
  readonly closes_at: InstantMs;
}

/** Nothing else is begun: a step of a state that is open, and does not keep, comes in a few minutes. */
export interface RestAdvice {
  readonly kind: "rest";
  readonly step: string;
}

/** Past the bench hours, because all else is worse. */
export interface StayAdvice {
  readonly kind: "stay";
  readonly by_ms: Ms;
  readonly closes_at: InstantMs;
}

export type WhyNext = PlainAdvice | WindowAdvice | HoursAdvice | RestAdvice | StayAdvice;

/** The step to begin now, or until when to wait, and why. */
export interface Advice {
  /** None: begin nothing */
  readonly step: string | null;
  /** when to ask again, at the latest; None: when something is entered */
  readonly until: InstantMs | null;
  readonly why: WhyNext;
  /** how slow hands may be, in thousandths, with all gaps kept; 0 when some break */
  readonly pace: number;
  readonly broken: readonly GapOver[];
  /** the worst that hands that are slow would still break, to be said before; None: nothing */
  readonly risk: GapOver | null;
}

/** What happens if nothing is begun for a while. */
export interface IfStopped {
  /** None: the day does not fit then */
  readonly finish_at: InstantMs | null;
  /** None: one of the two days does not fit */
  readonly later_ms: number | null;
  /** what would break that does not now */
  readonly broken: readonly GapOver[];
}

/** One more pair of hands. */
export interface MakerOption {
  readonly what: "second_maker";
  readonly problem: Problem;
}

/** An hour more on one session. */
export interface TimeOption {
  readonly what: "extra_time";
  readonly maker: number;
  readonly closes_at: InstantMs;
  readonly ms: Ms;
  readonly problem: Problem;
}

/** One more set of a mould. */
export interface MouldOption {
  readonly what: "mould";
  readonly name?: string;
  readonly problem: Problem;
}

export type TimeSavingOption = MakerOption | TimeOption | MouldOption;

/** What one more of something would save. */
export interface TimeSaving {
  readonly what: "second_maker" | "extra_time" | "mould";
  /** whose session, for extra_time */
  readonly maker?: number;
  /** when it closes now, for extra_time */
  readonly closes_at?: InstantMs;
  /** how much longer, for extra_time */
  readonly ms?: Ms;
  /** of the mould */
  readonly name?: string;
  /** None: no plan was found */
  readonly finish_at: InstantMs | null;
  /** None: one of the two has no plan */
  readonly saves_ms: number | null;
  /** None: no plan was found */
  readonly sessions: number | null;
  /** None: one of the two has no plan */
  readonly saves_sessions: number | null;
  readonly proven: boolean;
}

export type PlanState = "working" | "made" | "refused";

/** What a plan is of. */
export interface PlannedPart {
  /** what stands before the / in its steps */
  readonly run: string;
  readonly title: string;
  /** its batch number, else what it is; none in plans of earlier versions */
  readonly name?: string;
}

/** How far the work on a plan is. */
export interface PlanProgress {
  readonly aim: AimName | Suggestion;
  /** of the work that is left, 1 to 0 */
  readonly share: number;
}

/** Why there is no plan. */
export interface PlanFault {
  readonly field: string;
  readonly detail: string;
}

/** What one more of something would save, in words. */
export interface TimeSavingSaid extends TimeSaving {
  readonly says: string;
}

/** A plan as it was kept. It is never derived again, only planned anew when the day has moved. */
export interface KeptPlan {
  readonly id: string;
  /** now, by the server's clock */
  readonly at: InstantMs;
  /** working: a better one is being looked for */
  readonly state: PlanState;
  readonly asked_at: InstantMs;
  readonly aim: PlanAimName;
  /** None: whenever */
  readonly ready_by: InstantMs | null;
  /** the runs it is of */
  readonly runs: readonly string[];
  readonly due: readonly RunDue[];
  /** runs that were left out */
  readonly out: readonly string[];
  /** seconds after which the search ends in any case */
  readonly limit: number;
  readonly parts: readonly PlannedPart[];
  /** None: nobody is at it */
  readonly progress: PlanProgress | null;
  /** None: none */
  readonly fault: PlanFault | null;
  /** None: there is no plan yet */
  readonly made_at: InstantMs | null;
  /** None: there is no plan yet */
  readonly age_ms: Ms | null;
  /** entries that came since; 0 means it is up to date */
  readonly behind: number;
  /** None: there is none yet */
  readonly plan: Plan | null;
  /** step -> the maker's own time, where runs have taught it */
  readonly hands_ms: { readonly [key: string]: Ms };
  readonly savings: readonly TimeSavingSaid[];
  /** how good it is known to be, in one line */
  readonly says: string;
}

// bench/shapes/week.py

export type WeekStatus = "proven" | "found" | "rule";

export type WeekAimName = "short" | "back" | "quality" | "batches" | "hands" | "age";

export type WantState = "open" | "met" | "dropped";

export type Loosened = "hours" | "later" | "equipment" | "lot" | "quality";

/** A line of the order of work, as its maker keeps it. */
export interface OrderWant {
  readonly id: string;
  readonly version: number;
  readonly recipe: string;
  readonly pieces: number;
  readonly by: InstantMs;
  /** for whom: an outlet's id, whose name is kept there and can be erased */
  readonly outlet: string | null;
  readonly note: string;
  readonly state: WantState;
}

/** Finished pieces of one batch that can be handed over. */
export interface StockedPieces {
  readonly run: string;
  readonly recipe: string;
  readonly pieces: number;
  /** None: they keep */
  readonly until: InstantMs | null;
}

/** Where the pieces of a line of the order come from, by a plan. */
export interface OrderLine {
  readonly want: string;
  /** of finished pieces */
  readonly there: number;
  /** of batches on the bench */
  readonly coming: number;
  /** of batches that are planned */
  readonly made: number;
  readonly short: number;
}

/** A batch that was begun since a plan was made. */
export interface BegunRun {
  readonly run: string;
  readonly recipe: string;
  readonly begun_at: InstantMs;
  readonly finished_at: InstantMs | null;
  /** None: not counted yet */
  readonly good: number | null;
}

/** A planned batch that was begun. */
export interface BatchBegun extends BegunRun {
  /** its place in the plan */
  readonly batch: number;
}

/** Good pieces of one recipe, wanted by an instant. */
export interface Want {
  readonly id: string;
  /** whose `Make` */
  readonly make: string;
  readonly pieces: number;
  readonly by: InstantMs;
}

/** Good pieces that are there already, or will be. */
export interface There {
  readonly make: string;
  readonly pieces: number;
  readonly since: InstantMs;
  /** None: they keep */
  readonly until: InstantMs | null;
}

/** So much of an ingredient: stock, or a delivery that is expected. */
export interface WeekLot {
  readonly id: string;
  readonly ingredient: Id;
  /** pieces of what is counted */
  readonly mg: Mg;
  readonly since: InstantMs;
  /** mixed by then; None: it keeps */
  readonly until: InstantMs | null;
}

/** What a batch on the bench has of the kit. */
export interface WeekBusy {
  readonly equipment: string;
  readonly many: number;
  readonly since: InstantMs;
  readonly until: InstantMs;
}

/** A stretch of one batch that one maker works without a break. */
export interface Sitting {
  /** what is done in it: the parts, by name */
  readonly name: string;
  readonly lasts_ms: Ms;
  /** from its start: when all that was begun in it has ended, by itself too */
  readonly until_ms: Ms;
}

export interface Apart {
  /** a sitting, by its place */
  readonly from: number;
  /** a later one */
  readonly to: number;
  /** from start to start */
  readonly least_ms: Ms;
  /** None: whenever */
  readonly most_ms: Ms | null;
  readonly class: WindowClass;
  /** of the hands, to bring back what was left too long */
  readonly price_ms: Ms;
}

export interface WeekHold {
  readonly equipment: string;
  readonly many: number;
  /** a sitting, by its place */
  readonly from: number;
  /** after its start */
  readonly from_ms: Ms;
  readonly until: number;
  readonly until_ms: Ms;
}

/** One batch of a recipe at one size. */
export interface SizeToMake {
  /** to be made */
  readonly pieces: number;
  /** that are likely to be good */
  readonly good: number;
  readonly hands_ms: Ms;
  /** in their order */
  readonly sittings: readonly Sitting[];
  readonly apart: readonly Apart[];
  readonly holds: readonly WeekHold[];
  /** mg, or pieces of what is counted */
  readonly takes: { readonly [key: string]: number };
}

/** What a good piece is to batches that it goes into, of a recipe that is a part made ahead. */
export interface PartMade {
  /** as their `takes` name it */
  readonly ingredient: Id;
  /** of one piece: mg, or 1 where it is counted */
  readonly each: number;
}

/** What can be made of one recipe, at which sizes. */
export interface Make {
  readonly id: string;
  readonly title: string;
  /** a good piece is handed over within; None: it keeps */
  readonly keeps_ms: Ms | null;
  /** the smallest first */
  readonly sizes: readonly SizeToMake[];
  readonly part?: PartMade;
}

/** How many of the pieces made are spoiled, by own runs. The interval is Wilson's, of 95 %. */
export interface Spoilage {
  readonly runs: number;
  readonly made: number;
  readonly spoiled: number;
  /** of the runs together */
  readonly share_ppm: Ppm;
  readonly low_ppm: Ppm;
  readonly high_ppm: Ppm;
}

/** All that a week is planned from. */
export interface Week {
  readonly since: InstantMs;
  readonly zone: string;
  readonly makers: readonly MakerHours[];
  readonly equipment: { readonly [key: string]: Equipment };
  readonly wants: readonly Want[];
  readonly makes: readonly Make[];
  readonly there: readonly There[];
  /** an ingredient that has none, and is no recipe's part, is not counted */
  readonly lots: readonly WeekLot[];
  readonly busy: readonly WeekBusy[];
}

/** A sitting with its time and its maker. */
export interface PlacedSitting {
  readonly name: string;
  readonly starts_at: InstantMs;
  readonly ends_at: InstantMs;
  /** its place in makers */
  readonly maker: number;
  /** what comes after it may begin so long after its start; None: whenever */
  readonly keeps_ms: Ms | null;
}

/** What a batch takes of a part that is made ahead; one of batch and there is a place. */
export interface WeekPart {
  readonly ingredient: Id;
  /** mg, or pieces of what is counted */
  readonly much: number;
  /** in the plan's batches */
  readonly batch: number | null;
  /** in the week's pieces that are there */
  readonly there: number | null;
}

/** One batch of the plan. */
export interface WeekBatch {
  readonly make: string;
  /** its place in sizes */
  readonly size: number;
  readonly pieces: number;
  readonly good: number;
  readonly sittings: readonly PlacedSitting[];
  readonly ready_at: InstantMs;
  /** want -> good pieces */
  readonly gives: { readonly [key: string]: number };
  /** lot -> how much */
  readonly takes: { readonly [key: string]: number };
  /** where it takes some */
  readonly parts?: readonly WeekPart[];
  /** begun later than this, all else as planned, it is late; None: nothing waits for it */
  readonly begin_by: InstantMs | null;
}

/** A want that is not met. */
export interface WeekShort {
  readonly want: string;
  readonly short: number;
}

/** One aim: pieces, broken windows or batches as a count, all else in ms. */
export interface WeekAim {
  readonly aim: WeekAimName;
  readonly value: number;
  /** nothing is better than this with these sizes and sittings; None: not known */
  readonly bound: number | null;
  readonly proven: boolean;
}

/** One thing loosened, and how many pieces would still be short. */
export interface WeekHelp {
  readonly what: Loosened;
  readonly short: number;
  /** for later */
  readonly want?: string;
  /** how much later, or how much longer */
  readonly ms?: Ms;
  /** for hours: its place in makers */
  readonly maker?: number;
  /** for hours: when that stretch closes now */
  readonly at?: InstantMs;
  readonly equipment?: string;
  readonly ingredient?: Id;
}

/** Which batches of what size, when, by whom, for whom; and how good that is known to be. */
export interface WeekPlan {
  /** of the first aim */
  readonly status: WeekStatus;
  /** in their order */
  readonly aims: readonly WeekAim[];
  /** by their first start */
  readonly batches: readonly WeekBatch[];
  /** want -> pieces that were there already */
  readonly from_there: { readonly [key: string]: number };
  readonly short: readonly WeekShort[];
  /** of so many batches at most; a proof holds for these */
  readonly within: number;
  /** where something is short: wants that could all be met, instead of those that are now */
  readonly served: readonly (readonly string[])[];
  /** the best first */
  readonly helps: readonly WeekHelp[];
}

/** One way to make an item. */
export interface LotWay {
  /** at most; None: as much as is wanted */
  readonly gives: number | null;
  /** by period */
  readonly price: readonly number[];
  /** what it takes, whatever the quantity */
  readonly uses: { readonly [key: string]: number };
  /** the first period in which it can be ready */
  readonly first: number;
}

/** One item of a lot-sizing problem. */
export interface LotItem {
  /** by period */
  readonly wanted: readonly number[];
  /** so many more at most go into other items, as the limits say */
  readonly beside?: number;
  /** the price of one that is missing; None: none may be */
  readonly short: number | null;
  readonly ways: readonly LotWay[];
  /** what one piece takes */
  readonly each: { readonly [key: string]: number };
  readonly piece_price: number;
  /** of a piece, a period */
  readonly hold_price: number;
  /** for how many periods, by the one in which it was made; None: for all */
  readonly keeps: readonly number[] | null;
  /** how many can be kept from one period to the next; None: any */
  readonly room: number | null;
}

/** So much there is of one thing in a span of periods. */
export interface LotLimit {
  readonly of: string;
  readonly first: number;
  readonly last: number;
  readonly most: number;
}

/** How much of what to make in which period. */
export interface LotProblem {
  readonly periods: number;
  readonly items: readonly LotItem[];
  readonly limits: readonly LotLimit[];
}

// bench/shapes/figures.py

/** Drawn from a batch's record. None: the batch does not tell, which is not zero. */
export interface BatchFigures {
  readonly started_at: InstantMs | null;
  readonly pieces_planned: number;
  /** those kept back among them */
  readonly pieces_good: number | null;
  readonly pieces_kept: number | null;
  readonly pieces_spoiled: number | null;
  /** good pieces of those planned */
  readonly yield_ppm: Ppm | null;
  /** spoiled pieces of those counted */
  readonly spoiled_ppm: Ppm | null;
  /** of the mass that went in: left over, dried off, stuck, unaccounted */
  readonly lost_ppm: Ppm | null;
  readonly hands_ms: Ms | null;
  /** a good one */
  readonly hands_ms_per_piece: Ms | null;
  readonly deviations: number;
  /** what the maker judges -> the number or word that was told of it */
  readonly judged: { readonly [key: string]: string };
}

/** What of a batch's record its cost hangs on; all else of it are prices, which move. */
export interface CostBasis {
  readonly lots: readonly RecordLot[];
  /** what came from no lot, by name; 0: it went in unweighed, or is the wrap */
  readonly bare: { readonly [key: string]: Mg };
  /** less what was kept back */
  readonly good: number | null;
  readonly kept: number;
  readonly hands_ms: Ms;
  readonly balance: Balance | null;
}

// bench/shapes/outcomes.py

export type OutcomeMeasure = "hands" | "spoiled" | "lost" | "deviations";

/** A mean over batches and over others, and the interval of what lies between, in whole units of the measure. */
export interface Difference {
  readonly measure: OutcomeMeasure;
  /** that tell of it: of the former version, of the other */
  readonly batches: readonly number[];
  /** None: no batch tells of it */
  readonly before: number | null;
  readonly now: number | null;
  /** of now less before; None: too few batches, or none differs from another */
  readonly low: number | null;
  readonly high: number | null;
  readonly says: "more" | "less" | "cannot_tell" | "too_few";
}

/** What followed when a version followed another. */
export interface Outcomes {
  readonly before: number;
  readonly version: number;
  readonly differences: readonly Difference[];
}
