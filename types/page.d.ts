// The page as a whole: which screens there are, and who told it something. No page loads this.

import type { Studio } from "../frontend/keep/studio";
import type { AuditScreen } from "../frontend/screens/audit";
import type { BenchScreen } from "../frontend/screens/bench";
import type { DeliveryScreen } from "../frontend/screens/delivery";
import type { BringScreen } from "../frontend/screens/bring";
import type { BuyingScreen } from "../frontend/screens/buying";
import type { CardScreen } from "../frontend/screens/card";
import type { DayScreen } from "../frontend/screens/day";
import type { FiguresScreen } from "../frontend/screens/figures";
import type { GatherScreen } from "../frontend/screens/gather";
import type { KitScreen } from "../frontend/screens/kit";
import type { LabelScreen } from "../frontend/screens/label";
import type { PracticeScreen } from "../frontend/screens/practice";
import type { RecipeScreen } from "../frontend/screens/recipe-edit";
import type { RecipesScreen } from "../frontend/screens/recipes";
import type { RecordScreen } from "../frontend/screens/record";
import type { PiecesScreen } from "../frontend/screens/pieces";
import type { RecallScreen } from "../frontend/screens/recall";
import type { ShelfScreen } from "../frontend/screens/shelf";
import type { SizeScreen } from "../frontend/screens/size";
import type { TrialsScreen } from "../frontend/screens/trials";
import type { StudioScreen } from "../frontend/screens/studio";
import type { WeekScreen } from "../frontend/screens/week";
import type { VersionsScreen } from "../frontend/screens/versions";
import type { ToldBy } from "./told";

/** The screens, by the word of their address. */
export interface Screens {
  recipes: RecipesScreen;
  size: SizeScreen;
  recipe: RecipeScreen;
  bench: BenchScreen;
  day: DayScreen;
  gather: GatherScreen;
  record: RecordScreen;
  label: LabelScreen;
  shelf: ShelfScreen;
  pieces: PiecesScreen;
  recall: RecallScreen;
  week: WeekScreen;
  card: CardScreen;
  practice: PracticeScreen;
  audit: AuditScreen;
  figures: FiguresScreen;
  versions: VersionsScreen;
  trials: TrialsScreen;
  bring: BringScreen;
  delivery: DeliveryScreen;
  buying: BuyingScreen;
  kit: KitScreen;
  studio: StudioScreen;
}
/** A batch's number leads on to its record. */
export type ScreenName = keyof Screens | "batch";

export interface Route {
  name: ScreenName;
  id: string;
  asked?: string;
}

/** Any screen, as the page has it. */
export type Screen = HTMLElement & {
  data: unknown;
  trouble?(text: string): void;
  said?(text: string): void;
  turnTo?(step: string): void;
  /** The first data, written and fitted while nothing of it is seen, with a pause wherever it yields. */
  rise?(data: unknown): Generator<void>;
};

/** What a screen of a name is called, and what it is given; nothing, where that is not here. */
export interface Shown<D> {
  tag: string;
  title?: (id: string) => string | undefined;
  data: (id: string, asked: string) => D | null | undefined;
}
export type ShownScreens = { [N in keyof Screens]: Shown<Screens[N]["data"]> } & { batch: Shown<null> };

/** The screen that told something, and its address, whatever is in sight by then. */
export interface From<S = Screen> {
  screen: S;
  route: Route;
}

export type Hearing = {
  [K in keyof ToldBy]: (detail: ToldBy[K]["detail"], from: From<ToldBy[K]["screen"]>) => unknown;
};

/** What is told by a name, and by whom. */
export type Detail<K extends keyof ToldBy> = ToldBy[K]["detail"];
export type Teller<K extends keyof ToldBy> = From<ToldBy[K]["screen"]>;

/** What app.js lends to those who do what it is told. */
export interface Hands {
  readonly studio: Studio;
  readonly screen: Screen | null;
  notSaved(error: unknown): string;
}
