/**
 * The pages beside the bench: what each is given, and what they tell. Fetched with the first of them, so that the
 * bench opens sooner.
 *
 *   const { screens, heard } = seated(app);   as SCREENS and HEARD in app.js, which takes them as its own
 */

import { DISK } from "./touches.js";

let app = null; // what app.js lends (LENT)

export function seated(by) {
  app = by;
  return { screens: SCREENS, heard: HEARD };
}

const SCREENS = {
  recipes: {
    tag: "recipes-screen",
    title: () => "Recipes",
    data: () => ({
      recipes: app.studio.recipes,
      drafts: app.studio.drafts.all,
      runs: app.studio.runs,
      made: app.studio.made,
      bench: (id) => app.studio.bench(id),
      waits: app.studio.waits(),
      link: app.studio.link,
      copies:
        app.studio.isMaker && app.studio.link.state === "online" ? (app.studio.place?.copies ?? null) : null,
      now: () => app.studio.at(),
    }),
  },
  size: {
    tag: "size-screen",
    title: (id) => app.recipe(id)?.title ?? "Size",
    data: (id) => ({
      recipe: app.recipe(id) ?? null,
      kit: app.studio.kit,
      weigh: app.studio.preferences.weigh,
    }),
  },
  recipe: {
    tag: "recipe-screen",
    title: (id) => app.studio.drafts.get(id)?.document.title || app.recipe(id)?.title || "New recipe",
    data: (id) => {
      const draft = app.studio.drafts.get(id) ?? null;
      const known = app.recipe(id) ?? null;
      if (!draft && !known && id !== "new") return null;
      return {
        id: id === "new" ? app.studio.newId() : id,
        recipe: known,
        draft,
        recipes: app.studio.recipes,
      };
    },
  },
  day: {
    tag: "day-screen",
    title: () => "The day",
    data: (id) => {
      const run = app.studio.run(id);
      const ahead = run && app.aheadOf(run);
      return (
        ahead && {
          run,
          ahead,
          ...app.studio.planOf(id),
          choices: app.studio.choices(id),
          isMaker: app.studio.isMaker,
          isOnline: app.studio.link.state === "online",
          now: () => app.studio.at(),
        }
      );
    },
  },
  gather: {
    tag: "gather-screen",
    title: () => "Gather",
    data: (id) => {
      const run = app.studio.run(id);
      const made = run && app.measuredOf(run);
      return (
        made && {
          run,
          recipe: made,
          entries: app.studio.shelfEntries,
          elsewhere: app.studio.elsewhere,
          runs: app.studio.runs,
          today: app.studio.today(),
        }
      );
    },
  },
  record: {
    tag: "record-screen",
    title: () => "Batch record",
    data: (id) =>
      app.runOf(id) && {
        run: app.runOf(id),
        runs: app.runsWith(id),
        entries: app.studio.shelfEntries,
        settings: app.studio.settings,
        device: app.studio.device,
        place: app.studio.place,
        isMaker: app.studio.isMaker,
        refused: app.studio.link.refused.filter(({ run }) => run === id),
        picture: (picture) => app.studio.picture(picture),
        told: () => app.studio.told(id),
        undoing: app.studio.undoing(id),
        isGiven: (once) => app.isGiven(id, once),
      },
  },
  label: {
    tag: "label-screen",
    title: () => "Label",
    data: (id) => {
      const run = app.runOf(id);
      const made = run && app.measuredOf(run);
      return (
        made && {
          run,
          recipe: made,
          entries: app.studio.shelfEntries,
          runs: app.runsWith(id),
          settings: app.studio.settings,
        }
      );
    },
  },
  shelf: {
    tag: "shelf-screen",
    title: () => "Shelf",
    data: () => ({
      entries: app.studio.shelfEntries,
      elsewhere: app.studio.elsewhere,
      runs: app.studio.runs,
      today: app.studio.today(),
      currency: app.studio.settings.currency,
      newId: () => app.studio.newId(),
      undoing: app.studio.undoing("shelf"),
      isGiven: (once) => app.isGiven("shelf", once),
    }),
  },
  card: {
    tag: "card-screen",
    title: (id) => app.recipe(id).title,
    data: (id, asked) =>
      app.recipe(id) && {
        recipe: app.recipe(id),
        kit: app.studio.kit,
        asked: readSize(asked),
        weigh: app.studio.preferences.weigh,
      },
  },
  practice: {
    tag: "practice-screen",
    title: () => "Practice",
    data: () => ({ practice: app.practice, now: Date.now }),
  },
  audit: {
    tag: "audit-screen",
    title: () => "Who did what",
    data: () => ({ isOnline: app.studio.link.state === "online" }),
  },
  versions: {
    tag: "versions-screen",
    title: () => "Versions",
    data: (id) => app.recipe(id) && { id, recipe: app.recipe(id) },
  },
  bring: {
    tag: "bring-screen",
    title: () => "Bring in a recipe",
    data: () => ({ recipes: app.studio.recipes }),
  },
  kit: {
    tag: "kit-screen",
    title: () => "Kit",
    data: () => ({ document: app.studio.kitDocument, isMaker: app.studio.isMaker }),
  },
  studio: {
    tag: "studio-screen",
    title: () => "Settings",
    data: () => ({
      link: app.studio.link,
      place: app.studio.place,
      isMaker: app.studio.isMaker,
      preferences: app.studio.preferences,
      settings: app.studio.settings,
      runs: app.studio.runs,
      shelf: app.studio.shelfEntries,
      now: () => app.studio.at(),
      ringing: app.ringing(),
    }),
  },
};

/** A size in an address: pieces alone, or as JSON with what is left out and swapped; else null. */
function readSize(asked) {
  try {
    const read = JSON.parse(decodeURIComponent(asked));
    const size = typeof read === "number" ? { pieces: read } : read;
    return Number.isInteger(size?.pieces) ? size : null;
  } catch {
    return null;
  }
}

function begin(from, { recipe: chosen, size }) {
  const write = async () => app.studio.begin(chosen, size, await app.studio.nextNumber(chosen.title));
  app.accept(from, DISK, write, {
    once: "begin",
    done: (run) => {
      location.hash = `#/bench/${run}`;
      app.draw();
    },
  });
}

function saved(from) {
  app.redraw(from);
  from.screen.kept();
}

/** Once a new recipe's first letter is kept, the address is its own, so that a reload finds it. */
async function writeDraft({ id, base, was, document: written, first }, { screen: writer, route: address }) {
  try {
    await app.studio.drafts.write({ id, base, was, document: written, first });
    if (app.isShown(writer) && address.id === "new") {
      history.replaceState(null, "", `#/recipe/${id}`);
      address.id = id;
    }
    writer.kept(written);
  } catch (error) {
    writer.trouble(error.says ?? `That was not kept: ${error.message}`);
  }
}

async function checkDraft({ document: written, air }, { screen: writer }) {
  try {
    writer.checked(written, await app.studio.drafts.check(written, air));
  } catch (error) {
    if (!error.says) throw error;
    writer.checked(written, {
      says: "The check needs the server, and it does not answer. What you write is kept on this phone.",
    });
  }
}

function sendDraft(from, { id }) {
  app.send(
    from,
    "recipe",
    () => app.studio.drafts.send(id),
    (answer) => {
      app.draw();
      from.screen.sent(answer);
    },
  );
}

async function copyDraft({ id, document: written }) {
  const copy = app.studio.newId();
  await app.studio.drafts.write({ id: copy, base: null, document: written });
  await app.studio.drafts.drop(id);
  location.hash = `#/recipe/${copy}`;
}

async function checkPicked({ document: picked }, { screen: bringing }) {
  try {
    bringing.checked(picked, await app.studio.shelf.check(picked));
  } catch (error) {
    if (!error.says) throw error;
    bringing.checked(picked, {
      says: "The check needs the server, and it does not answer. What you picked stays here.",
    });
  }
}

/** A recipe from elsewhere goes the way of one that was written here, so nothing of anybody else's is lost. */
async function keepPicked({ document: picked, over }, { screen: bringing }) {
  const id = over?.id ?? app.studio.newId();
  await app.studio.drafts.write({ id, base: over?.version ?? null, was: over?.document, document: picked });
  const answer = await app.studio.drafts.send(id);
  if (answer === "kept" || answer === "same") location.hash = `#/card/${id}`;
  else if (answer === "waits")
    bringing.checked(picked, {
      says: "The server does not answer. The recipe is on this phone as a draft, and is sent when it does.",
    });
  else location.hash = `#/recipe/${id}`;
}

async function editPicked({ document: picked }) {
  const id = app.studio.newId();
  await app.studio.drafts.write({ id, base: null, document: picked });
  location.hash = `#/recipe/${id}`;
}

async function tellSwap({ id, line, ingredient }, { screen: asking }) {
  try {
    const swaps = await app.studio.shelf.swaps(id, line);
    asking.swapTold(line, ingredient, swaps.find((each) => each.ingredient === ingredient) ?? null);
  } catch (error) {
    if (!error.says) throw error;
    asking.swapTold(line, ingredient, null);
  }
}

/** Told at rest: what reckons it is fetched when it is first wanted. */
async function tellTime(chosen, { screen: asking }) {
  const module = await import("./time-ahead.js").catch(() => null); // a first visit, and the server gone since
  if (module && asking.isStill(chosen.size)) module.tellTime(app.studio, chosen, asking, app.measuredOf);
}

async function tellTrace({ lot }, { screen: asking }) {
  try {
    asking.traced(lot, { runs: await app.studio.trace(lot) });
  } catch (error) {
    if (!error.says) throw error;
    asking.traced(lot, {
      says: `${error.status ? error.says : "The server does not answer."} Of the batches on this phone:`,
    });
  }
}

async function tellHistory({ id }, { screen: asking }) {
  try {
    asking.told(await app.studio.shelf.history(id));
  } catch (error) {
    if (!error.says) throw error;
    asking.told({ says: "Older versions are with the server, and it does not answer. The newest is here." });
  }
}

async function tellAudit({ before }, { screen: asking }) {
  try {
    asking.told(await (await app.studio.door()).audit(before));
  } catch (error) {
    if (!error.says) throw error;
    asking.told({ says: error.status ? error.says : "No connection. The server keeps this list." });
  }
}

/** At the door: do something about who may come in, then tell the screen who may. */
async function atTheDoor({ screen: asking }, act) {
  try {
    const [door, { registerDeviceList }] = await Promise.all([
      app.studio.door(),
      import("./parts/device-list.js"),
    ]);
    registerDeviceList();
    const made = await act(door);
    asking.told({ devices: await door.devices(), made });
  } catch (error) {
    asking.told({ says: error.says ?? "Who may come in is known to the server, and it does not answer." });
  }
}

const HEARD = {
  begin: (detail, from) => begin(from, detail),
  "kit-written": ({ document: written }, from) =>
    app.send(
      from,
      "kit",
      () => app.studio.setKit(written),
      () => saved(from),
    ),
  "settings-written": ({ document: written }, from) =>
    app.send(
      from,
      "settings",
      () => app.studio.setSettings(written),
      () => saved(from),
    ),
  "shelf-written": ({ entries, says }, from) => app.keep(from, entries, { says }),
  "plan-asked": (detail, from) =>
    app.planWith(from, (plans, run) => plans.askTogether(run, detail, app.studio), { done: "Planned." }),
  "plan-stopped": (_, from) =>
    app.planWith(from, (plans, run) => plans.cancel(run, app.studio.planOf(run).plan.id)),
  "hours-written": ({ document: written }, from) =>
    app.planWith(from, (plans, run) => plans.setHours(written).then(() => plans.hear(run)), {
      done: "The hours are kept.",
    }),
  "trace-wanted": tellTrace,
  "draft-written": writeDraft,
  "check-wanted": checkDraft,
  "recipe-sent": (detail, from) => sendDraft(from, detail),
  "draft-copied": (detail, from) => app.accept(from, DISK, () => copyDraft(detail)),
  "draft-dropped": ({ id }, from) => app.accept(from, DISK, () => app.studio.drafts.drop(id)),
  "document-picked": checkPicked,
  "document-kept": (detail, from) => app.send(from, "recipe", () => keepPicked(detail, from)),
  "document-edited": (detail, from) => app.accept(from, DISK, () => editPicked(detail)),
  "swap-wanted": tellSwap,
  "time-wanted": tellTime,
  "history-wanted": tellHistory,
  "devices-wanted": (_, from) => atTheDoor(from, () => null),
  "device-renamed": ({ id, name }, from) =>
    atTheDoor(from, async (door) => void (await door.rename(id, name))),
  "device-shut-out": ({ id }, from) => atTheDoor(from, async (door) => void (await door.shutOut(id))),
  "role-given": ({ id, role }, from) => atTheDoor(from, async (door) => void (await door.setRole(id, role))),
  "audit-wanted": tellAudit,
  "code-wanted": ({ role }, from) => atTheDoor(from, (door) => door.makeCode(role)),
};
