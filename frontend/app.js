/**
 * The page. This module alone knows both sides: it gives the screens their data from the studio,
 * and carries what they tell back to it. Screens and parts never fetch, store or ring; nothing
 * under keep/, sense/ or bench/ ever touches the document.
 */

import { saysOf } from "./bench/errors.js";
import { partName } from "./bench/sheet-words.js";
import { openStudio } from "./keep/studio.js";
import { senses } from "./sense/index.js";
import { registerAnswerRow } from "./parts/answer-row.js";
import { registerBowlSection } from "./parts/bowl-section.js";
import { closeDialogs } from "./parts/dialog.js";
import { h, setAttr, styled } from "./parts/dom.js";
import { installHatching } from "./parts/hatch.js";
import { registerPlateRow } from "./parts/plate-rows.js";
import { endRing, tellRing } from "./parts/ring-note.js";
import { tellPlain } from "./parts/sheets.js";
import { registerWaitStrip } from "./parts/wait-strip.js";
import { clock, duration, readied } from "./parts/words.js";
import { breathe, holdsScreen } from "./platform.js";
import { registerBenchScreen } from "./screens/bench.js";
import { registerRecipesScreen } from "./screens/recipes.js";
import { DISK, Touches } from "./touches.js";
import { measure, say, spoken } from "./words.js";
/** @import { MeasuredRecipe, Size } from "../bench/shapes/page" */
/** @import { Coming, RecipeRow, RingPhase, Rung, Said } from "../types/keep" */
/** @import { Entering } from "../types/told" */
/** @import { Ringing } from "./keep/rings.js" */
/** @import { BringScreen } from "./screens/bring.js" */
/** @import { KitScreen } from "./screens/kit.js" */
/** @import { RecipeScreen } from "./screens/recipe-edit.js" */
/** @import { SizeScreen } from "./screens/size.js" */
/** @import { StudioScreen } from "./screens/studio.js" */
/** @import { Detail, From, Hands, Hearing, Route, Screen, ScreenName, ShownScreens, Teller } from "../types/page" */
/** @import { Run } from "./keep/run.js" */
/** @import { Studio } from "./keep/studio.js" */
/** @import { Practice } from "./keep/practice.js" */
/** @import { Plans } from "./keep/plans.js" */
/** @import { Door } from "./keep/door.js" */
/** @import { Seeker } from "./seek.js" */
/** @import { Batch, DutiesNow } from "../types/parts" */
/** @import { PairingMade } from "../types/answers" */
/** @import { Child } from "../types/dom" */
/** @import { AskedSize } from "./screens/card.js" */

const UNLOCK_AFTER_MS = 300; // well inside the seconds for which a browser remembers a touch

const HEAR_PLAN_MS = 30_000;
const HEAR_WEEK_MS = 60_000;
const AT_REST_MS = 300; // the bench stands first, then what looks ahead is fetched and reckoned

const ASK_AT_MOST_MS = 10_000;
const STALE_RING_MS = 60_000; // what fell due longer ago is told in the summary

const AWAY_MS = 30 * 60_000; // after this long away, say where things stand even if nothing rang

const page = /** @type {HTMLElement} */ (document.getElementById("page"));
const dark = matchMedia("(prefers-color-scheme: dark)");
/** @type {Studio} */
let studio;
/** @type {Screen | null} */
let screen = null;
/** @type {Route | {name: "", id: string}} */
let route = { name: "", id: "" };
let drawing = 0;
/** @type {Promise<void> | null} */
let rising = null; // the first drawing, while it is made and not seen
let isRisen = false; // it is seen from this drawing on
let isPressed = false;
let isAsking = false; // a first visit: what stands on the page was heard to its end, so that nothing moves on it
/** @type {Set<string> | null} */
let firstOpen = null; // the batches that were open when they had all been heard, while more is asked
const touches = new Touches();
/** @type {Practice | null} */
let practice = null; // keep/practice.js, once it was opened
let planHeard = -Infinity;
let weekHeard = -Infinity;
/** @type {{run: string, state: unknown, lead: {step?: string | null, advice: string, reason: string} | null}} */
let led = { run: "", state: null, lead: null }; // what the plan was last found to say, and when
let looking = 0;
/** @type {Promise<unknown> | null} */
let styles = null; // of the pages that are opened later, on their way or here
/** @type {Seeker | null} */
let seeker = null; // seek.js, once a batch was looked for that is not on this phone
/** @type {readonly Coming[]} */
let coming = []; // what rings within minutes, as the studio last said
/** @type {Map<string, RecipeRow | null>} */
const former = new Map(); // older versions of recipes, as they were opened or runs were made by them

/** @type {ShownScreens} */
const SCREENS = {
  recipes: {
    tag: "recipes-screen",
    data: () => {
      const isHeard = heardOpen();
      return {
        recipes: isAsking && studio.isAskingFor("recipes") ? [] : studio.recipes,
        drafts: studio.drafts.all,
        runs: studio.runs.filter(({ id }) => isHeard(id)),
        made: isAsking ? [] : studio.made,
        isAsking,
        bench: (id) => studio.bench(id),
        waits: studio.waits().filter(({ run }) => isHeard(run)),
        link: studio.link,
        week: studio.nextOfWeek,
        copies: studio.isMaker && studio.link.state === "online" ? (studio.place?.copies ?? null) : null,
        shelf: () => studio.shelfEntries,
        whole: () => studio.readRest(),
        now: () => studio.at(),
      };
    },
  },
  size: {
    tag: "size-screen",
    title: (id) => recipe(id)?.title,
    data: (id, asked) => {
      const known = recipe(id) ?? null;
      const { kit } = studio;
      return known || !id.includes("@")
        ? {
            recipe: known,
            kit,
            weigh: studio.preferences.weigh,
            asked: readSize(asked),
            stock: shelfNow(),
          }
        : null;
    },
  },
  recipe: {
    tag: "recipe-screen",
    title: (id) => studio.drafts.get(id)?.document.title || recipe(id)?.title,
    data: (id) => {
      const draft = studio.drafts.get(id) ?? null;
      const known = recipe(id) ?? null;
      if (!draft && !known && id !== "new") return null;
      return {
        id: id === "new" ? studio.newId() : id,
        recipe: known,
        draft,
        recipes: studio.recipes,
        duties: dutiesNow(),
        stock: shelfNow(),
        propose: (/** @type {string} */ name) => studio.shelf.proposed(name),
      };
    },
  },
  bench: {
    tag: "bench-screen",
    title: (id) => studio.run(id)?.sheet.recipe.title,
    data: (id) => {
      const run = studio.run(id);
      return (
        run && {
          run,
          bench: studio.bench(id),
          waits: studio.waits(),
          signs: signs(),
          now: () => studio.at(),
          link: studio.link,
          beside: (step) => besideOf(run, step),
          lead: (isAsked) => leadOf(run, isAsked),
          isGiven: (prompt) => touches.isGiven(onceOf(id, prompt)),
          undoing: studio.undoing(id),
          willRing: () => atRest()?.rings.willRing(ringing()) ?? "",
        }
      );
    },
  },
  day: {
    tag: "day-screen",
    data: (id) => {
      const run = studio.run(id);
      const ahead = run && aheadOf(run);
      return (
        ahead && {
          run,
          ahead,
          ...studio.planOf(id),
          choices: studio.choices(id),
          isMaker: studio.isMaker,
          isOnline: studio.link.state === "online",
          now: () => studio.at(),
        }
      );
    },
  },
  gather: {
    tag: "gather-screen",
    data: (id) => {
      const run = studio.run(id);
      const made = run && measuredOf(run);
      return (
        made && {
          run,
          recipe: made,
          ...shelfNow(),
          before: studio.settings.before ?? [],
        }
      );
    },
  },
  record: {
    tag: "record-screen",
    data: (id) => {
      const run = runOf(id);
      return (
        run && {
          run,
          runs: runsWith(id),
          entries: studio.shelfEntries,
          settings: studio.settings,
          device: studio.device,
          place: studio.place,
          isMaker: studio.isMaker,
          recipe: productOf(run),
          duties: dutiesNow(),
          link: studio.link,
          refused: studio.link.refused.filter(({ run: of }) => of === id),
          picture: (picture) => studio.picture(picture),
          told: () => studio.told(id),
          undoing: studio.undoing(id),
          isGiven: (once) => touches.isGiven(onceOf(id, once)),
        }
      );
    },
  },
  label: {
    tag: "label-screen",
    data: (id) => {
      const run = runOf(id);
      return (
        run && {
          run,
          recipe: productOf(run),
          duties: dutiesNow(),
          link: studio.link,
          entries: studio.shelfEntries,
          settings: studio.settings,
        }
      );
    },
  },
  shelf: {
    tag: "shelf-screen",
    data: (id) => ({
      ...shelfNow(),
      asked: id,
      propose: (/** @type {string} */ name) => studio.shelf.proposed(name),
      currency: currency(),
      sheets: studio.settings.label?.sheets,
      isMaker: studio.isMaker,
      newId: () => studio.newId(),
      undoing: studio.undoing("shelf"),
      isGiven: (once) => touches.isGiven(onceOf("shelf", once)),
    }),
  },
  pieces: {
    tag: "pieces-screen",
    data: () => ({
      seen: studio.pieces.seen,
      entries: studio.shelfEntries,
      today: studio.today(),
      isMaker: studio.isMaker,
      isOnline: studio.link.state === "online",
      lookUp: () => studio.seen(),
      newId: () => studio.newId(),
      undoing: studio.undoing("shelf"),
      isGiven: (once) => touches.isGiven(onceOf("shelf", once)),
    }),
  },
  week: {
    tag: "week-screen",
    data: () => ({
      recipes: studio.recipes,
      isMaker: studio.isMaker,
      isOnline: studio.link.state === "online",
      now: () => studio.at(),
      newId: () => studio.newId(),
    }),
  },
  recall: {
    tag: "recall-screen",
    data: (id) =>
      WHOSE_RECALL.test(id)
        ? { id, isOnline: studio.link.state === "online", entries: studio.shelfEntries }
        : null,
  },
  card: {
    tag: "card-screen",
    title: (id) => recipe(id)?.title,
    data: (id, asked) => {
      const known = recipe(id);
      return (
        known && {
          recipe: known,
          kit: studio.kit,
          asked: readSize(asked),
          weigh: studio.preferences.weigh,
        }
      );
    },
  },
  practice: {
    tag: "practice-screen",
    data: () => practice && { practice, now: Date.now },
  },
  batch: { tag: "", data: () => null }, // an address by number leads on to the record
  audit: {
    tag: "audit-screen",
    data: () => ({ isOnline: studio.link.state === "online" }),
  },
  figures: {
    tag: "figures-screen",
    data: (id) => ({ id, recipes: studio.recipes, isOnline: studio.link.state === "online" }),
  },
  versions: {
    tag: "versions-screen",
    data: (id) => {
      const known = recipe(id);
      return known && { id, recipe: known };
    },
  },
  trials: {
    tag: "trials-screen",
    data: (id) => {
      const known = recipe(id);
      return (
        known && {
          id,
          recipe: known,
          isOnline: studio.link.state === "online",
          newId: () => studio.newId(),
        }
      );
    },
  },
  bring: { tag: "bring-screen", data: () => ({ recipes: studio.recipes }) },
  delivery: {
    tag: "delivery-screen",
    data: (id) => ({
      today: studio.today(),
      currency: currency(),
      newId: () => studio.newId(),
      entries: studio.shelfEntries,
      came: id ? id.split(",") : [],
    }),
  },
  buying: {
    tag: "buying-screen",
    data: (id, asked) => ({
      recipes: studio.recipes,
      entries: studio.shelfEntries,
      today: studio.today(),
      asked: { recipe: id, pieces: Number(asked) },
      undoing: studio.undoing("shelf"),
      isGiven: (once) => touches.isGiven(onceOf("shelf", once)),
    }),
  },
  kit: {
    tag: "kit-screen",
    data: () => ({ document: studio.kitDocument, isMaker: studio.isMaker }),
  },
  studio: {
    tag: "studio-screen",
    data: () => ({
      link: studio.link,
      place: studio.place,
      isMaker: studio.isMaker,
      preferences: studio.preferences,
      settings: studio.settings,
      runs: studio.runs,
      shelf: studio.shelfEntries,
      now: () => studio.at(),
      ringing: ringing(),
    }),
  },
};

/** What is on the shelf, and what has been taken of it. */
const shelfNow = () => ({
  entries: studio.shelfEntries,
  elsewhere: studio.elsewhere,
  runs: studio.runs,
  today: studio.today(),
});

/** The maker's own, else what the first lot with a price was paid in; as the server has it for costs. */
const currency = () =>
  studio.settings.currency ??
  studio.shelfEntries
    .map(({ body }) => /** @type {{price?: {currency: string}}} */ (body).price?.currency)
    .find(Boolean) ??
  "";

/** What the duties of selling are asked with. @returns {DutiesNow} */
function dutiesNow() {
  return {
    seen: () => studio.seen(),
    isMaker: studio.isMaker,
    isOnline: studio.link.state === "online",
    today: studio.today(),
  };
}

/**
 * What a batch's recipe says it is for and where it is sold; one made before that was asked goes by the newest version,
 * and so does each until its own is here.
 * @param {Batch} run @returns {MeasuredRecipe | null}
 */
function productOf(run) {
  const newest = recipe(run.recipe.id)?.measured;
  const made = measuredOf(run) ?? newest;
  if (!made) return null;
  const { use = newest?.use, sold_in = newest?.sold_in } = made;
  return { ...made, ...(use && { use }), ...(sold_in && { sold_in }) };
}

/** The newest version of a recipe, or another one: "its id@2". @param {string} id */
function recipe(id) {
  const [own, version = ""] = id.split("@");
  const newest = studio.recipe(own);
  return version && Number(version) !== newest?.version ? formerOf(own, Number(version)) : newest;
}

/** A batch on this phone, or one of the server's that was opened here. @param {string} id */
function runOf(id) {
  return studio.run(id) ?? seeker?.run(id);
}

/** @param {string} id @returns {Batch[]} */
function runsWith(id) {
  const run = runOf(id);
  return studio.run(id) || !run ? studio.runs : [...studio.runs, run];
}

/**
 * The recipe as a run was made by it, measured; null while an older version of it is being looked for.
 * @param {{readonly recipe: {readonly id: string, readonly version: number}}} run
 */
function measuredOf({ recipe: { id, version } }) {
  const current = recipe(id);
  return current?.version === version ? current.measured : (formerOf(id, version)?.measured ?? null);
}

/** An older version of a recipe; null while it is being looked for. @param {string} id @param {number} version */
function formerOf(id, version) {
  const address = `${id}@${version}`;
  if (!former.has(address)) {
    former.set(address, null);
    studio.version(id, version).then(
      ({ document: written, measured }) => {
        const { title } = written;
        former.set(address, { id, version, title, document: written, measured, address });
        drawSoon();
      },
      (error) => {
        former.delete(address);
        const wanted = readRoute();
        if (isOfVersions(wanted) && wanted.id === address) nowhere(wanted, { says: saysOf(error) });
      },
    );
  }
  return former.get(address) ?? null;
}

/** @param {Route} wanted */
const isOfVersions = ({ name }) => name === "card" || name === "size";

/**
 * A module that is fetched when it is first wanted, and drawn with once it is here: null until then.
 * @template M @param {() => Promise<M>} fetch @returns {() => M | null}
 */
function fetched(fetch) {
  /** @type {M | null} */
  let here = null;
  let isComing = false;
  return () => {
    if (here || isComing) return here;
    isComing = true;
    fetch().then(
      (module) => {
        here = module;
        drawSoon();
      },
      () => {
        isComing = false;
      },
    );
    return null;
  };
}

const inUse = fetched(() => import("./parts/in-use.js"));
const beside = fetched(() => import("./parts/beside.js"));
const atRest = fetched(async () => {
  await new Promise((resolve) => setTimeout(resolve, AT_REST_MS));
  const [planning, rings] = await Promise.all([
    import("./parts/day-ahead.js"),
    import("./parts/ring-state.js"),
    inPieces(readied()),
  ]);
  return { planning, rings };
});
const planning = () => atRest()?.planning;

/**
 * What is told beside a step: what another batch has that it needs, how it went the last times, and whether a piece
 * is dry. Fetched once there is any of it.
 * @param {Run} run @param {{step: string | null, line: string | null}} step
 */
function besideOf(run, step) {
  return [...taken(run, step.step), ...formerly(run, step)];
}

/** @param {Run} run @param {string | null} step */
function taken(run, step) {
  if (!studio.runs.some((other) => other !== run && other.open)) return [];
  return inUse()?.takenBy(run, step, studio.runs, measuredOf) ?? [];
}

/** @param {Run} run @param {{step: string | null, line: string | null}} step */
function formerly(run, step) {
  const isTold =
    run.state.measured.length > 0 ||
    studio.runs.some((other) => !other.open && other.recipe.id === run.recipe.id);
  return isTold ? (beside()?.besideStep(run, step, studio, drawSoon) ?? []) : [];
}

/**
 * The rest of the day, over all runs that this run's plan is of; null while what reckons it is fetched.
 * @param {Run} run
 */
function aheadOf(run) {
  return planning()?.dayOfRun(studio, run, measuredOf) ?? null;
}

/**
 * What the plan says is next in a run, and why: { step, advice, reason, isOld }. Looking over the day is no part of a
 * touch's
 * answer: unless the next step is asked for, what was found last stands, as old, until the page has been at rest for
 * a moment. Now and then the server is asked for a newer plan.
 * @param {Run} run @param {boolean} isAsked
 */
function leadOf(run, isAsked) {
  if (!run.open) return null;
  if (studio.link.state === "online" && studio.at() - planHeard > HEAR_PLAN_MS) {
    if (hearPlan(run)) planHeard = studio.at();
  }
  clearTimeout(looking);
  if (isAsked || led.run !== run.id) look(run);
  else looking = setTimeout(lookAtRest, AT_REST_MS, run);
  return led.lead && { ...led.lead, isOld: led.state !== run.state };
}

/** @param {Run} run */
function look(run) {
  const ahead = aheadOf(run);
  const lead =
    (ahead && planning()?.leadOf(ahead, run.id, studio.planOf(run.id).plan)) ??
    (ahead ? null : studio.lastLed(run));
  led = { run: run.id, state: run.state, lead };
  if (ahead) setTimeout(() => studio.noteLed(run, lead?.step ?? null), AT_REST_MS); // a touch is answered first
}

/** @param {Run} run */
async function lookAtRest(run) {
  const mine = looking; // another is set with the next touch
  const { state } = run;
  await planning()?.readyDayOfRun(
    studio,
    run,
    measuredOf,
    () => looking === mine && run.state === state && !isPressed,
  );
  if (looking !== mine) return;
  if (isPressed || run.state !== state) {
    looking = setTimeout(lookAtRest, AT_REST_MS, run);
    return;
  }
  const was = led;
  look(run);
  if (led.state !== was.state || led.lead?.step !== was.lead?.step || led.lead?.advice !== was.lead?.advice)
    drawSoon();
}

/** What may pause, with a breath at each pause. @param {Generator<void> | undefined} work */
async function inPieces(work) {
  while (work && !work.next().done) await breathe();
}

/** @param {string} name @returns {name is ScreenName} */
const isScreen = (name) => Object.hasOwn(SCREENS, name);

/** @returns {Required<Route>} */
function readRoute() {
  const [name, id = "", asked = ""] = location.hash.replace(/^#\/?/, "").split("/");
  return { name: isScreen(name) ? name : "recipes", id: decoded(id), asked };
}

/** Part of an address, as it stands when it is no proper escape. @param {string} text */
function decoded(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/**
 * A size in an address: pieces alone, or as JSON with what is left out and swapped; else null.
 * @param {string} asked @returns {AskedSize | null}
 */
function readSize(asked) {
  try {
    const read = JSON.parse(decodeURIComponent(asked));
    const size = typeof read === "number" ? { pieces: read } : read;
    return Number.isInteger(size?.pieces) ? size : null;
  } catch {
    return null;
  }
}

const connected = () => import("./connected.js");

/**
 * What the bench can do without is fetched when first opened, so that it opens sooner. It is kept for offline all the
 * same, but for what is for the desk with a connection.
 * @type {{readonly [N in ScreenName]?: () => Promise<unknown>}}
 */
const LATER = {
  gather: () => dressed(import("./screens/gather.js")).then((module) => module.registerGatherScreen()),
  label: () => dressed(import("./screens/label.js")).then((module) => module.registerLabelScreen()),
  record: () => dressed(import("./screens/record.js")).then((module) => module.registerRecordScreen()),
  shelf: () => dressed(import("./screens/shelf.js")).then((module) => module.registerShelfScreen()),
  pieces: () => dressed(import("./screens/pieces.js")).then((module) => module.registerPiecesScreen()),
  day: () => dressed(import("./screens/day.js")).then((module) => module.registerDayScreen()),
  audit: () => online((all) => all.audit()),
  bring: () => online((all) => all.bring()),
  delivery: () => online((all) => all.delivery()),
  buying: () => online((all) => all.buying()),
  figures: () => online((all) => all.figures()),
  recall: () => online((all) => all.recall()),
  card: () => dressed(import("./screens/card.js")).then((module) => module.registerCardScreen()),
  kit: () => dressed(import("./screens/kit.js")).then((module) => module.registerKitScreen()),
  recipe: () => dressed(import("./screens/recipe-edit.js")).then((module) => module.registerRecipeScreen()),
  size: () =>
    dressed(besides(import("./screens/size.js"), import("./bench/batch-number.js"))).then((module) =>
      module.registerSizeScreen(),
    ),
  practice: () =>
    Promise.all([import("./screens/practice.js"), import("./keep/practice.js")]).then(
      async ([{ registerPracticeScreen }, { openPractice }]) => {
        practice ??= await openPractice(Date.now); // on this phone alone, by its own clock
        registerPracticeScreen();
      },
    ),
  studio: () => dressed(import("./screens/studio.js")).then((module) => module.registerStudioScreen()),
  versions: () => online((all) => all.versions()),
  trials: () => online((all) => all.trials()),
  week: () => online((all) => all.week()),
};

/**
 * A module of a page, and what the page will ask for when it is used.
 * @template M @param {Promise<M>} module @param {Promise<unknown>[]} others
 */
const besides = (module, ...others) => Promise.all([module, ...others]).then(([first]) => first);

/**
 * A module of a page, once the styles are here too that the bench does without.
 * @template M @param {Promise<M>} module
 */
async function dressed(module) {
  await (styles ??= styled("style/later.css"));
  return module;
}

/**
 * A page that needs the server, after the styles of all others: its own come with it.
 * @template M @param {(all: Awaited<ReturnType<typeof connected>>) => M} ask
 */
async function online(ask) {
  await dressed(Promise.resolve());
  return ask(await connected());
}

/**
 * What is reckoned from finished batches too, and what is of one batch, which may be finished.
 * @type {ReadonlySet<ScreenName>}
 */
const OF_ALL = new Set(["gather", "record", "label", "shelf", "studio", "batch"]);
/** @type {ReadonlySet<ScreenName>} */
const OF_ONE = new Set(["bench", "day"]);
/** What is a maker's alone; a helper is shown no way to it (style/pages.css). @type {ReadonlySet<ScreenName>} */
const MAKERS = new Set(["recipe", "bring", "delivery", "buying", "audit", "figures", "recall", "trials"]);
/** What a recall begins with; an address that was cut short names nothing. */
const WHOSE_RECALL = /^(lots|runs|complaint)\.[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
/** What a maker looks for when the server is away. @type {readonly ScreenName[]} */
const OFTEN = ["size", "studio", "gather", "record", "shelf"];
/** What the server may have though this phone does not. @type {ReadonlySet<ScreenName>} */
const SOUGHT = new Set(["record", "label", "batch"]);

/** Put the screen of the address on the page, or give the one that stands there its new data. */
function draw() {
  cancelAnimationFrame(drawing);
  drawing = 0;
  if (rising) return;
  const wanted = readRoute();
  isAsking &&= studio.isAsking;
  if (isAsking && !standsStill(wanted)) return;
  const shown = SCREENS[wanted.name];
  const fetching = LATER[wanted.name];
  if (fetching && !customElements.get(shown.tag)) {
    fetching().then(drawSoon, (error) => nowhere(wanted, error));
    return;
  }
  if (!studio.isWhole && (OF_ALL.has(wanted.name) || (OF_ONE.has(wanted.name) && !studio.run(wanted.id)))) {
    whenWhole(wanted);
    return;
  }
  document.documentElement.dataset.role = studio.isMaker ? "maker" : "helper";
  const data = studio.isMaker || !MAKERS.has(wanted.name) ? shown.data(wanted.id, wanted.asked) : null;
  if (!data && isOfVersions(wanted) && former.get(wanted.id) === null) {
    waitFor(wanted);
    return;
  }
  if (!data) {
    nowhere(wanted);
    return;
  }
  const there = screen && wanted.name === route.name && wanted.id === route.id ? screen : null;
  const isNew = !there;
  const drawn = there ?? /** @type {Screen} */ (document.createElement(shown.tag));
  if (isNew) {
    const isFirst = !route.name;
    closeDialogs();
    route = wanted;
    screen = drawn;
    hear(drawn, wanted);
    if (isFirst) {
      rising = rise(drawn, data).finally(() => {
        rising = null;
        isRisen = true;
        draw();
      });
      return;
    }
    page.replaceChildren(drawn);
    window.scrollTo(0, 0);
  }
  const held = document.activeElement;
  const typed =
    held && drawn.contains(held) && held.matches("input,textarea,select")
      ? { field: held, top: held.getBoundingClientRect().top }
      : null;
  drawn.data = data;
  if (typed?.field.isConnected) stayPut(typed.field, typed.top);
  const title = `${shown.title?.(wanted.id) || say(`page-title-${wanted.name}`)} \u2013 Bowlside`;
  if (document.title !== title) document.title = title;
  document.documentElement.dataset.screen = wanted.name;
  const isOpened = isNew || isRisen;
  isRisen = false;
  if (isOpened && !drawn.contains(document.activeElement)) page.focus({ preventScroll: true });
  // Where a recipe is chosen, how much of it is asked next.
  if (isOpened && wanted.name === "recipes") setTimeout(() => LATER.size?.().catch(() => {}), AT_REST_MS);
  if (wanted.name === "recipes" && (studio.link.state === "online" || hasRecipes())) hearWeek();
  holdScreen(wanted.name === "bench" && studio.run(wanted.id)?.open === true);
  endRing();
  keepCopySoon();
}

let isCopied = false;

/** The copy for offline is fetched once something stands: it holds up nothing that is waited for. */
function keepCopySoon() {
  if (isCopied) return;
  isCopied = true;
  setTimeout(() => studio.keepCopy(), AT_REST_MS);
}

/**
 * The first drawing of all: made under what says that the page opens, and seen once it stands. It takes a slow phone
 * long, so that it is built, written, laid out part by part and fitted in pieces of work, between which a touch is
 * heard.
 * @param {Screen} drawn @param {unknown} data
 */
async function rise(drawn, data) {
  const opening = page.firstElementChild;
  setAttr(page, "data-rising", true);
  page.append(drawn);
  const parts = [...(drawn.firstElementChild?.children ?? [])];
  for (const part of parts) setAttr(part, "data-unlaid", true);
  try {
    await breathe();
    const pieces = drawn.rise?.(data);
    if (pieces) pieces.next();
    else drawn.data = data;
    for (const part of parts) {
      await breathe();
      setAttr(part, "data-unlaid", null);
      part.getBoundingClientRect(); // lays it out
    }
    await breathe();
    await inPieces(pieces);
    await breathe();
  } finally {
    // A fault in a screen leaves what stands of it in sight, as every later drawing does.
    for (const part of parts) setAttr(part, "data-unlaid", null);
    opening?.remove();
    setAttr(page, "data-rising", null);
  }
}

/** Home’s recipes are heard, and the rest of a first round is on its way. */
const hasRecipes = () => studio.isAsking && !studio.isAskingFor("recipes");

/** On home, once there is a connection: what the week begins next. */
function hearWeek() {
  if (studio.at() - weekHeard < HEAR_WEEK_MS) return;
  weekHeard = studio.at();
  setTimeout(() => desk().then((at) => at.lookAtWeek(hands).then(drawSoon)), AT_REST_MS);
}

/**
 * On a first visit a page is drawn once all that stands above anything else on it is here.
 * @param {Route} wanted
 */
function standsStill({ name, id }) {
  if (studio.isAskingFor("open")) return false;
  return name === "recipes" ? !studio.isAskingFor("studio") : name === "bench" && Boolean(studio.run(id));
}

/** While it is asked, a batch that is on its way and finished still looks open: only those heard of as open are. */
function heardOpen() {
  if (!isAsking) firstOpen = null;
  else firstOpen ??= new Set(studio.runs.flatMap(({ id, open }) => (open ? id : [])));
  return (/** @type {string} */ id) => firstOpen?.has(id) ?? true;
}

/**
 * What is written in stays where it is on the glass, whatever came above it.
 * @param {Element} typed @param {number} top
 */
function stayPut(typed, top) {
  const off = typed.getBoundingClientRect().top - top;
  if (Math.abs(off) >= 1) window.scrollBy(0, off);
}

/** A page of finished batches stands once they are read. @param {Route} wanted */
function whenWhole(wanted) {
  waitFor(wanted);
  studio.readRest().then(draw);
}

/** @param {Route} wanted */
function waitFor(wanted) {
  if (screen) closeDialogs();
  route = wanted;
  screen = null;
  page.replaceChildren(h("p", { class: "opening", role: "status" }, say("page-app-reading")));
}

/** The screen stays on at an open bench, and on every page while something counts. @param {boolean} isAtBench */
function holdScreen(isAtBench) {
  const was = senses.mayGoDark();
  senses.awake(isAtBench || studio.waits().length > 0).then(() => senses.mayGoDark() !== was && drawSoon());
}

/** What keeps this phone from ringing when something is due, in a few words each; where it stands is in Settings. */
function signs() {
  const isMute = studio.preferences.sound && !senses.canRing();
  return [
    ...(isMute ? [{ says: say("page-app-mute"), isEndedByTouch: true }] : []),
    ...(senses.mayGoDark() ? [{ says: say("page-app-dark"), isEndedByTouch: false }] : []),
  ];
}

function stopAsking() {
  isAsking = false;
  drawSoon();
  keepCopySoon();
}

function ringing() {
  return {
    sound: studio.preferences.sound,
    canRing: senses.canRing(),
    holdsScreen,
    mayGoDark: senses.mayGoDark(),
    isClockSure: studio.isClockSure,
  };
}

/**
 * An address whose run this phone does not hold (yet), or whose page did not come.
 * @param {Route} wanted @param {{isOtherVersion?: boolean, says?: string}} [error]
 */
function nowhere(wanted, { isOtherVersion, says: why } = {}) {
  closeDialogs();
  route = wanted;
  screen = null;
  holdScreen(false);
  keepCopySoon();
  /** @type {Child[]} */
  let says = [h("h1", {}, say("page-app-absent")), h("p", {}, say("page-app-absent-says"))];
  if (!studio.isMaker && MAKERS.has(wanted.name))
    says = [h("h1", {}, say("page-app-makers")), h("p", {}, say("page-app-makers-says"))];
  else if (isOtherVersion)
    says = [
      h("h1", {}, say("page-app-newer")),
      h("p", {}, say("page-app-newer-says")),
      h("button", { type: "button", class: "copper", onclick: () => studio.renew() }, say("page-app-load")),
    ];
  else if (why) says = [h("h1", {}, say("page-common-no-connection")), h("p", {}, why)];
  else if (SOUGHT.has(wanted.name)) says = seeker?.words() ?? says;
  page.replaceChildren(
    h(
      "section",
      { class: "sheet stack" },
      says,
      h("a", { class: "button outlined", href: "#/" }, say("page-common-home")),
    ),
  );
  if (SOUGHT.has(wanted.name))
    whenSeeking().then(
      (found) => found.seek(wanted),
      () => {},
    );
}

/** @type {Promise<Seeker> | null} */
let seeking = null;

function whenSeeking() {
  seeking ??= connected()
    .then((all) => all.seeking())
    .then(
      ({ Seeker: Made }) => (seeker = new Made(studio, draw)),
      (error) => {
        seeking = null;
        throw error;
      },
    );
  return seeking;
}

/** What two touches on one answer of a prompt have in common. @param {string} run @param {string} prompt */
const onceOf = (run, prompt) => `${run} ${prompt}`;

/** A batch in which something is to be entered lies on this phone. @param {string} run */
async function holdRun(run) {
  if (run !== "shelf" && !studio.run(run)) await seeker?.hold(run);
}

/** @param {unknown} error */
const messageOf = (error) => (error instanceof Error ? error.message : String(error));

/** What an error says, or that something was not saved. @param {unknown} error */
const notSaved = (error) => saysOf(error) || say("page-app-not-saved-why", { why: messageOf(error) });

function drawSoon() {
  drawing ||= requestAnimationFrame(drawUnpressed);
}

/** Nothing moves under a finger: what is to be drawn while one is down is drawn when it is up. */
function drawUnpressed() {
  if (!isPressed) draw();
}

/** @param {PointerEvent} event */
function press({ button }) {
  isPressed = button === 0;
}

function release() {
  isPressed = false;
  if (drawing) drawing = requestAnimationFrame(drawUnpressed); // the touch itself is answered before that
}

/**
 * An iPhone's keyboard lies over the page, and the page goes on under it: dialogs are told how much of it is covered.
 */
function coverUp() {
  if (!visualViewport) return;
  const covered =
    visualViewport.scale > 1 ? 0 : innerHeight - visualViewport.height - visualViewport.offsetTop;
  document.documentElement.style.setProperty("--covered", `${Math.max(0, Math.round(covered))}px`);
}

/** What a browser allows only inside a touch. */
function touched() {
  senses.arm(UNLOCK_AFTER_MS, () => {
    layRings();
    drawSoon();
  });
  if (studio.preferences.speech) senses.prime();
}

/**
 * The page in another language is another page: asked for, and opened in place of this one.
 * @param {string} language @param {Parameters<typeof sayTrouble>[0]} from
 */
async function speakFromNowOn(language, from) {
  // biome-ignore lint/suspicious/noDocumentCookie: the other way is in no Safari before 18.4
  document.cookie = `language=${language}; path=/; max-age=${language ? 31_536_000 : 0}; samesite=lax`;
  try {
    await studio.renew();
  } catch {
    sayTrouble(from, say("language-needs-connection"));
  }
}

function dress() {
  const { theme, language, mass, warmth } = studio.preferences;
  measure({ mass, warmth });
  document.documentElement.lang = spoken();
  const night = theme === "night" || (theme !== "day" && dark.matches);
  document.documentElement.dataset.theme = night ? "night" : "day";
  try {
    localStorage.setItem("theme", theme); // for early.js, the next time
    localStorage.setItem("language", language);
    localStorage.setItem("units", `${mass}-${warmth}`);
  } catch {
    // no place to keep it: the page opens as the phone is set
  }
}

/**
 * Do what a touch asked for, in its line. What fails is said where it was touched, or on the page that is there by
 * now; else that page is drawn anew, and what was touched may say that it is done. again: where what was given
 * stands nowhere else any more, it can be given again with nothing typed anew.
 * @template T @param {From<Partial<Pick<Screen, "trouble">> & HTMLElement>} from @param {string} line
 * @param {() => T | Promise<T>} act
 * @param {{once?: string | null, done?: (made: T | null) => void, again?: (() => void) | null}} [how]
 */
function accept(from, line, act, { once = null, done = () => {}, again = null } = {}) {
  touches.give(
    line,
    act,
    (error, made) => {
      if (!error) done(made);
      else {
        const says = notSaved(error);
        sayTrouble(from, says);
        if (again) askAgain(says).then((isWanted) => isWanted && again());
        drawSoon();
      }
    },
    once,
  );
}

/** Nothing else is asked before that is answered, wherever the maker goes. @param {string} says */
const askAgain = (says) =>
  tellPlain({
    title: say("page-common-not-saved"),
    lines: [says, say("page-app-still-here")],
    answer: say("page-app-save-again"),
    stays: true,
    leave: say("page-app-do-not-save"),
  });

/** @param {Pick<From<Partial<Pick<Screen, "trouble">> & HTMLElement>, "screen">} from @param {string} says */
function sayTrouble({ screen: touched }, says) {
  const there = touched.isConnected ? touched : screen;
  if (there?.trouble) there.trouble(says);
  else tellPlain({ title: say("page-common-not-saved"), lines: [says], answer: say("page-app-go-on") });
}

/**
 * Keep entries, all of them or none; the screen changes only once they are on the phone's disk. What was given in a
 * dialog, which is closed by then, has no `once`.
 * @param {From<Entering>} from @param {readonly Said[]} entries @param {{once?: string, says?: string}} [how]
 */
function keep(from, entries, { once, says } = {}) {
  const at = studio.at();
  const run = journalOf(from);
  const write = async () => {
    await holdRun(run);
    await studio.enterAll(run, entries, at);
  };
  const again = once ? null : () => keep(from, entries, { says });
  accept(from, DISK, write, { once: once && onceOf(run, once), done: () => redraw(from, says), again });
}

/** What is entered on these is of the shelf: a recipe being written has its cards. */
const OF_SHELF = new Set(["shelf", "recipe", "delivery", "buying", "pieces"]);
/** @param {From<Entering>} from */
const journalOf = ({ route: { name, id } }) => (OF_SHELF.has(name) ? "shelf" : id);

/** What was done is said first, and what comes next after it. @param {From<Entering>} from @param {string} [says] */
function redraw({ screen: touched }, says = "") {
  touched.trouble("");
  if (says) touched.said?.(says);
  draw();
}

/** @param {From<Entering>} from @param {Detail<"picture-taken">} picture */
function keepPicture(from, picture) {
  const { blob, sha256, said, says } = picture;
  const at = studio.at();
  const run = journalOf(from);
  const write = async () => {
    await holdRun(run);
    await studio.enterPicture(run, blob, sha256, said, at);
  };
  const again = () => keepPicture(from, picture);
  accept(from, DISK, write, { done: () => redraw(from, says), again });
}

/** @param {From<SizeScreen>} from @param {Detail<"begin">} chosen */
function begin(from, { recipe: chosen, size }) {
  const write = async () => studio.begin(chosen, size, await studio.nextNumber(chosen.title));
  accept(from, DISK, write, {
    once: "begin",
    done: (run) => {
      // What is asked before the first weighing is asked first: else nobody would see it.
      const asked = [...(studio.settings.before ?? []), ...(studio.run(run ?? "")?.sheet.before ?? [])];
      location.hash = `#/${asked.length ? "gather" : "bench"}/${run}`;
      draw();
    },
  });
}

/**
 * To the server, each in its line: a slow answer holds no touch at the bench.
 * @template T @param {From<Partial<Pick<Screen, "trouble">> & HTMLElement>} from @param {string} line
 * @param {() => T | Promise<T>} act @param {(made: T | null) => void} [done]
 */
function send(from, line, act, done) {
  accept(from, line, act, { done });
}

/** @param {From<KitScreen | StudioScreen>} from */
function saved(from) {
  redraw(from);
  from.screen.kept();
}

/** @param {From<RecipeScreen>} from @param {{id: string}} draft */
function sendDraft(from, { id }) {
  send(
    from,
    "recipe",
    () => studio.drafts.send(id),
    (answer) => {
      draw();
      from.screen.sent(answer);
    },
  );
}

/**
 * Told at rest: what reckons it is fetched when it is first wanted.
 * @param {Detail<"time-wanted">} chosen @param {Teller<"time-wanted">} from
 */
async function tellTime(chosen, { screen: asking }) {
  const module = await import("./time-ahead.js").catch(() => null); // a first visit, and the server gone since
  if (!asking.isStill(chosen.size)) return;
  module?.tellTime(studio, chosen, asking, measuredOf);
  if (!studio.isMaker || studio.link.state !== "online") return;
  const cost = await connected()
    .then((all) => all.costAhead())
    .then(({ costAhead }) => costAhead(asking, chosen.recipe.id, chosen.size))
    .catch(() => null);
  if (asking.isStill(chosen.size)) asking.costTold(cost);
}

/**
 * Something about the plan that needs the server; without it the day goes on by the last plan there is.
 * @param {{screen: Screen | null, route: {id: string}}} from
 * @param {(plans: Plans, run: string) => unknown} act
 * @param {{quietly?: boolean, done?: string}} [how]
 */
async function planWith({ screen: asking, route: { id } }, act, { quietly = false, done = "" } = {}) {
  try {
    await act(await studio.plans(), id);
    drawSoon();
    if (screen === asking && done) asking?.said?.(done);
  } catch (error) {
    const says = saysOf(error);
    if (!says) throw error;
    if (!quietly && screen === asking) asking?.trouble?.(says);
  }
}

/**
 * How the plan of a run stands, once the server knows the run. @returns {boolean} whether it was asked
 * @param {Run} run
 */
function hearPlan(run) {
  const isKnown = run.waiting().every(({ id }) => id !== run.id);
  if (isKnown) planWith({ screen, route }, (plans) => plans.hear(run.id), { quietly: true });
  return isKnown;
}

/** What the desk's screens tell is done by a module that comes with them. */
const desk = () => import("./desk.js");
const deskOnline = () => connected().then((all) => all.desk());

/** @type {Hands} */
const hands = {
  get studio() {
    return studio;
  },
  get screen() {
    return screen;
  },
  notSaved,
};

/**
 * At the door: do something about who may come in, then tell the screen who may.
 * @param {From<StudioScreen>} from
 * @param {(door: Door) => PairingMade | null | void | Promise<PairingMade | null | void>} act
 */
const atTheDoor = (from, act) => desk().then((at) => at.atTheDoor(hands, from, act));

/** Back after a while: what rang and what is owed comes before anything else. */
async function sayWhatWasMissed() {
  const missed = studio.missed();
  const away = studio.at() - studio.lookedAt;
  if (document.querySelector("dialog[open]") || (missed.length === 0 && away < AWAY_MS)) return;
  const open = studio.runs.filter((run) => run.open);
  if (open.length === 0) return;
  /** @param {string} title @param {{name: string} | null | undefined} run */
  const of = (title, run) => (open.length > 1 ? `${title} (${run?.name})` : title);
  const rang = missed.map(({ wait, phase, at }) => {
    const what = [wait.letter, of(wait.title, studio.run(wait.run))].filter(Boolean).join(", ");
    return say("page-app-rang", { time: clock(at), what, phase });
  });
  const owed = open.flatMap((run) =>
    studio.bench(run.id).owed.map((step) => say("page-app-undone", { title: of(step.title, run) })),
  );
  await tellPlain({
    title: say("page-app-away", { length: duration(Math.max(away, 60_000)) }),
    lines: rang.length || owed.length ? [...rang, ...owed] : [say("page-app-nothing-rang")],
    answer: say("page-app-go-on"),
    stays: true,
  });
}

/**
 * What rings, the least urgent first; "late" rings shortly before the latest time, while it still helps.
 * @type {readonly RingPhase[]}
 */
const RINGS = ["look", "ready", "late", "over"];

/** @param {{phase: RingPhase}} ring */
const urgency = ({ phase }) => RINGS.indexOf(phase);

/** Whose it is, where there are several batches, and of which part. @param {Rung} rung */
function ringWords({ wait, phase, at }) {
  const run = studio.run(wait.run);
  const step = run?.sheet.steps.find(({ id }) => id === wait.step);
  const part = run?.sheet.components.filter(({ id }) => id === step?.component).map(partName)[0];
  const isOne = studio.runs.filter((run) => run.open).length === 1;
  const what = [isOne ? "" : run?.name, part, wait.title].filter(Boolean).join(", ");
  const rests = "rests_at" in wait && at === wait.rests_at;
  return rests ? say("page-app-ring-stir", { what }) : say("page-app-ring-says", { what, phase });
}

/**
 * All that rings at one moment rings once, as the most urgent of it does. After a sleep the summary says the rest.
 * @param {Ringing} ringing
 */
function ring({ key, together }) {
  drawSoon();
  if (key !== together[0].key) return;
  const [worst, ...others] = [...together].sort((one, other) => urgency(other) - urgency(one));
  const { sound, speech } = studio.preferences;
  if (sound) senses.ring(worst.phase, worst.key);
  const says = [ringWords(worst), others.length ? say("page-app-ring-more", { count: others.length }) : ""]
    .filter(Boolean)
    .join(" ");
  if (speech) senses.say(says);
  if (studio.at() - worst.at >= STALE_RING_MS) return;
  const { run, step, what } = worst.wait;
  const counts = () =>
    studio.waits().some((wait) => wait.run === run && wait.step === step && wait.what === what);
  tellRing(says, counts, () => goToBench({ run, step }));
}

/** What rings within minutes lies on the sound's own clock, which no sleeping timer holds up. */
function layRings() {
  const laid = studio.preferences.sound ? coming : [];
  senses.layAhead(
    laid
      .map(({ key, phase, at }) => ({ key, kind: phase, inMs: at - studio.at() }))
      .filter(({ inMs }) => inMs > 0),
  );
}

/** @param {{run: string, step: string}} wanted */
function goToBench({ run, step }) {
  location.hash = `#/bench/${run}`;
  draw();
  screen?.turnTo?.(step);
}

/**
 * What a screen tells, by name: `from` is the screen that told it and its address, whatever is in sight by then.
 * @type {Hearing}
 */
const HEARD = {
  answer: ({ kind, body, once, says }, from) => keep(from, [{ kind, body }], { once, says }),
  answers: ({ entries, once }, from) => keep(from, entries, { once }),
  "say-again": (_, { screen: asked }) => senses.say(asked.spoken),
  "prompt-shown": ({ text }) => studio.preferences.speech && senses.say(text),
  "go-bench": goToBench,
  "wait-turned": drawSoon,
  begin: (detail, from) => begin(from, detail),
  "kit-written": ({ document: written }, from) =>
    send(
      from,
      "kit",
      () => studio.setKit(written),
      () => saved(from),
    ),
  "settings-written": ({ document: written }, from) =>
    send(
      from,
      "settings",
      () => studio.setSettings(written),
      () => saved(from),
    ),
  "shelf-written": ({ entries, says }, from) => keep(from, entries, { says }),
  "picture-taken": (detail, from) => keepPicture(from, detail),
  "plan-heard": (_, { route: { id } }) => {
    const run = studio.run(id);
    if (run) hearPlan(run);
  },
  "plan-asked": (detail, from) =>
    planWith(from, (plans, run) => plans.askTogether(run, detail, studio), { done: say("page-app-planned") }),
  "plan-stopped": (_, from) =>
    planWith(from, (plans, run) => {
      const { plan } = studio.planOf(run);
      return plan && plans.cancel(run, plan.id);
    }),
  "hours-written": ({ document: written }, from) =>
    planWith(from, (plans, run) => plans.setHours(written).then(() => plans.hear(run)), {
      done: say("page-app-hours-saved"),
    }),
  "online-asked": (detail) => deskOnline().then((at) => at.askOnline(hands, detail)),
  "list-given": (detail, from) => deskOnline().then((at) => at.readList(hands, detail, from)),
  "pieces-wanted": (_, from) => desk().then((at) => at.lookAtPieces(hands, from)),
  "stock-asked": (detail, from) => desk().then((at) => at.askOfStock(hands, detail, from)),
  "recall-wanted": (detail, from) => deskOnline().then((at) => at.tellRecall(hands, detail, from)),
  "week-asked": (detail, from) => deskOnline().then((at) => at.askOfWeek(hands, detail, from)),
  "trace-wanted": (detail, from) => desk().then((at) => at.tellTrace(hands, detail, from)),
  preferred: async ({ key, value }, from) => {
    if (key === "speech" && value) senses.prime();
    await studio.setPreference(key, value);
    dress();
    if (key === "language") await speakFromNowOn(`${value}`, from);
    if (key === "mass" || key === "warmth") return location.reload(); // all that is worded is worded anew
    layRings();
    draw();
  },
  "draft-written": (detail, from) => desk().then((at) => at.writeDraft(hands, detail, from)),
  "check-wanted": (detail, from) => desk().then((at) => at.checkDraft(hands, detail, from)),
  "recipe-sent": (detail, from) => sendDraft(from, detail),
  "draft-copied": (detail, from) =>
    accept(from, DISK, () => desk().then((at) => at.copyDraft(hands, detail))),
  "draft-dropped": ({ id }, from) => accept(from, DISK, () => studio.drafts.drop(id)),
  "document-picked": (detail, from) => deskOnline().then((at) => at.checkPicked(hands, detail, from)),
  "document-kept": (detail, from) =>
    send(from, "recipe", () => deskOnline().then((at) => at.keepPicked(hands, detail, from))),
  "document-edited": (detail, from) =>
    accept(from, DISK, () => desk().then((at) => at.editPicked(hands, detail))),
  "recipe-copied": (detail, from) =>
    accept(from, DISK, () => desk().then((at) => at.editPicked(hands, detail))),
  "duty-said": (detail, from) => desk().then((at) => at.sayDuty(hands, detail, from)),
  "product-said": (detail, from) => desk().then((at) => at.sayProduct(hands, detail, from)),
  "version-taken": (detail, from) => deskOnline().then((at) => at.takeVersion(hands, detail, from)),
  "swap-wanted": (detail, from) => desk().then((at) => at.tellSwap(hands, detail, from)),
  "time-wanted": tellTime,
  "history-wanted": (detail, from) => deskOnline().then((at) => at.tellHistory(hands, detail, from)),
  "changes-wanted": (detail, from) => deskOnline().then((at) => at.tellChanges(hands, detail, from)),
  "recipe-filed": (detail, from) => deskOnline().then((at) => at.fileRecipe(hands, detail, from)),
  "devices-wanted": (_, from) => atTheDoor(from, () => null),
  "device-renamed": ({ id, name }, from) =>
    atTheDoor(from, async (door) => void (await door.rename(id, name))),
  "device-shut-out": ({ id }, from) => atTheDoor(from, async (door) => void (await door.shutOut(id))),
  "role-given": ({ id, role }, from) => atTheDoor(from, async (door) => void (await door.setRole(id, role))),
  "audit-wanted": (detail, from) => deskOnline().then((at) => at.tellAudit(hands, detail, from)),
  "find-wanted": (asked, { screen: asking }) => {
    whenSeeking()
      .then(
        (seeker) => seeker.find(asked),
        () => ({ says: say("page-find-here") }),
      )
      .then((found) => asking.found({ words: asked.words, ...found }));
  },
  "code-wanted": ({ role }, from) => atTheDoor(from, (door) => door.makeCode(role)),
  "ring-tried": () => senses.ring("ready"),
  "practice-rang": ({ phase }) => studio.preferences.sound && senses.ring(phase),
  "sync-wanted": () => studio.sync(),
  "send-again": (detail) => studio.sendAgain(detail),
  "set-aside": (detail) => studio.setAside(detail),
  "update-wanted": () => studio.applyUpdate(),
};

/**
 * On the screen itself, so that what it says is heard though it has left the page meanwhile.
 * @param {Screen} told @param {Route} address
 */
function hear(told, address) {
  // Each name is told by its own screens alone (types/told.d.ts).
  const acts = /** @type {[string, (detail: unknown, from: From) => unknown][]} */ (Object.entries(HEARD));
  for (const [name, act] of acts)
    told.addEventListener(name, (event) =>
      act(/** @type {CustomEvent} */ (event).detail, { screen: told, route: address }),
    );
}

function listen() {
  // Who writes a recipe is not drawn anew by every letter that reaches the disk.
  studio.addEventListener(
    "change",
    ({ detail }) => (detail.isOwnDraft && route.name === "recipe") || drawSoon(),
  );
  addEventListener("focusout", () => studio.drafts.flush().catch(() => {})); // who wrote is told
  addEventListener("pagehide", () => studio.drafts.flush().catch(() => {}));
  studio.addEventListener("link", drawSoon);
  studio.addEventListener("ring", ({ detail }) => ring(detail));
  studio.addEventListener("ahead", ({ detail }) => {
    coming = detail;
    layRings();
  });
  studio.addEventListener("closed", () => location.reload());
  studio.addEventListener("back", () => {
    draw();
    sayWhatWasMissed();
  });
  addEventListener("hashchange", draw);
  addEventListener("pointerdown", press, true);
  // The end of a touch may never come: a menu, another window or a scroll takes it.
  for (const end of ["pointerup", "pointercancel", "contextmenu", "blur"])
    addEventListener(end, release, true);
  for (const touch of ["pointerup", "click", "keyup"]) addEventListener(touch, touched);
  visualViewport?.addEventListener("resize", coverUp);
  dark.addEventListener("change", dress);
}

async function open() {
  await breathe(); // the modules have just been run
  for (const register of [
    registerAnswerRow,
    registerBowlSection,
    registerPlateRow,
    registerWaitStrip,
    registerBenchScreen,
    registerRecipesScreen,
  ])
    register();
  installHatching();
  try {
    const isHome = readRoute().name === "recipes";
    [studio] = await Promise.all([openStudio({ early: true }), isHome ? inPieces(readied()) : null]);
  } catch (error) {
    page.replaceChildren(
      h(
        "section",
        { class: "sheet stack" },
        h("h1", {}, say("page-app-closed")),
        h("p", { role: "alert" }, saysOf(error) || messageOf(error)),
      ),
    );
    return;
  }
  dress();
  listen();
  isAsking = studio.isEmpty;
  if (isAsking) setTimeout(stopAsking, ASK_AT_MOST_MS);
  draw();
  await rising;
  sayWhatWasMissed();
  setTimeout(() => studio.readRest(), AT_REST_MS); // the bench stands first
  // Over plain http no copy is kept: what a maker looks for when the server is away is fetched before it is.
  if (!isSecureContext) for (const name of OFTEN) LATER[name]?.().catch(() => {});
}

// On the page alone: whoever imports this elsewhere wants its modules.
if (page && !window.isTooOld) open();
