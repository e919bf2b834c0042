/**
 * What the desk's screens tell, that the bench does without: recipes as they are written or brought in, versions,
 * lots, and who may come in. app.js, whose hands these are, comes here when the first of it is told.
 */

import { saysOf } from "./bench/errors.js";
import { say } from "./words.js";
/** @import { BringScreen } from "./screens/bring.js" */
/** @import { StudioScreen } from "./screens/studio.js" */
/** @import { Detail, From, Hands, Teller } from "../types/page" */
/** @import { Door } from "./keep/door.js" */
/** @import { PairingMade } from "../types/answers" */

/**
 * What the server said to a refusal; "" when it did not answer. Any other error is a fault of ours.
 * @param {unknown} error
 */
function answerOf(error) {
  const says = saysOf(error);
  if (!says) throw error;
  return error instanceof Error && "status" in error ? says : "";
}

/** @param {Hands} hands @param {Detail<"audit-wanted">} detail @param {Teller<"audit-wanted">} from */
export async function tellAudit({ studio }, { before }, { screen: asking }) {
  try {
    asking.told(await (await studio.door()).audit(before));
  } catch (error) {
    asking.told({ says: answerOf(error) || say("page-app-list-away") });
  }
}

/**
 * Once a new recipe's first letter is kept, the address is its own, so that a reload finds it.
 * @param {Hands} hands @param {Detail<"draft-written">} detail @param {Teller<"draft-written">} from
 */
export async function writeDraft(
  hands,
  { id, base, was, document: written, first },
  { screen: writer, route: address },
) {
  try {
    await hands.studio.drafts.write({ id, base, was, document: written, first });
    if (hands.screen === writer && address.id === "new") {
      history.replaceState(null, "", `#/recipe/${id}`);
      address.id = id;
    }
    writer.kept(written);
  } catch (error) {
    writer.trouble(hands.notSaved(error));
  }
}

/** @param {Hands} hands @param {Detail<"check-wanted">} detail @param {Teller<"check-wanted">} from */
export async function checkDraft({ studio }, { document: written, air }, { screen: writer }) {
  try {
    writer.checked(written, await studio.drafts.check(written, air));
  } catch (error) {
    if (!saysOf(error)) throw error;
    writer.checked(written, {
      says: say("page-app-check-away"),
    });
  }
}

/** @param {Hands} hands @param {Detail<"draft-copied">} draft */
export async function copyDraft({ studio }, { id, document: written }) {
  const copy = studio.newId();
  await studio.drafts.write({ id: copy, base: null, document: written });
  await studio.drafts.drop(id);
  location.hash = `#/recipe/${copy}`;
}

/** @param {Hands} hands @param {Detail<"document-picked">} detail @param {Teller<"document-picked">} from */
export async function checkPicked({ studio }, { document: picked }, { screen: bringing }) {
  try {
    bringing.checked(picked, await studio.shelf.check(picked));
  } catch (error) {
    if (!saysOf(error)) throw error;
    bringing.checked(picked, {
      says: say("page-app-picked-away"),
    });
  }
}

/**
 * What a screen asks of the server alone: it is told the answer, or says why there is none.
 * @param {Hands} hands @param {Detail<"online-asked">} asked
 */
export async function askOnline({ studio }, { method, path, body, isChange, done }) {
  try {
    const answer = await studio.ask(method, path, body);
    if (isChange) await studio.sync();
    done(answer);
  } catch (error) {
    done({ says: answerOf(error) || say("page-common-no-connection") });
  }
}

/** @param {Hands} hands @param {Detail<"list-given">} list @param {Teller<"list-given">} from */
export async function readList({ studio }, { list }, { screen: asking }) {
  try {
    asking.told(list, await studio.shelf.delivery(list));
  } catch (error) {
    asking.told(list, { says: answerOf(error) || say("page-common-no-connection") });
  }
}

/**
 * A recipe from elsewhere goes the way of one that was written here, so nothing of anybody else's is lost.
 * @param {Hands} hands @param {Detail<"document-kept">} picked @param {From<BringScreen>} from
 */
export async function keepPicked({ studio }, { document: picked, over }, { screen: bringing }) {
  const id = over?.id ?? studio.newId();
  await studio.drafts.write({ id, base: over?.version ?? null, was: over?.document, document: picked });
  const answer = await studio.drafts.send(id);
  if (answer === "kept" || answer === "same") location.hash = `#/card/${id}`;
  else if (answer === "waits")
    bringing.checked(picked, {
      says: say("page-app-draft-waits"),
    });
  else location.hash = `#/recipe/${id}`;
}

/** @param {Hands} hands @param {Detail<"document-edited">} picked */
export async function editPicked({ studio }, { document: picked }) {
  const id = studio.newId();
  await studio.drafts.write({ id, base: null, document: picked });
  location.hash = `#/recipe/${id}`;
}

/** @param {Hands} hands @param {Detail<"swap-wanted">} detail @param {Teller<"swap-wanted">} from */
export async function tellSwap({ studio }, { id, line, ingredient }, { screen: asking }) {
  try {
    const swaps = await studio.shelf.swaps(id, line);
    asking.swapTold(line, ingredient, swaps.find((each) => each.ingredient === ingredient) ?? null);
  } catch (error) {
    if (!saysOf(error)) throw error;
    asking.swapTold(line, ingredient, null);
  }
}

/** @param {Hands} hands @param {Detail<"trace-wanted">} detail @param {Teller<"trace-wanted">} from */
export async function tellTrace({ studio }, { lot, after }, { screen: asking }) {
  try {
    asking.traced(lot, { after, ...(await studio.trace(lot, after)) });
  } catch (error) {
    asking.traced(lot, { after, says: answerOf(error) || say("page-common-no-connection") });
  }
}

/** @param {Hands} hands @param {Detail<"history-wanted">} detail @param {Teller<"history-wanted">} from */
export async function tellHistory({ studio }, { id, page }, { screen: asking }) {
  try {
    asking.told(await studio.shelf.history(id, page));
  } catch (error) {
    asking.told({ says: answerOf(error) || say("page-app-versions-away") });
  }
}

/** @param {Hands} hands @param {Detail<"changes-wanted">} two @param {Teller<"changes-wanted">} from */
export async function tellChanges({ studio }, { id, from, to }, { screen: asking }) {
  try {
    asking.compared(await studio.shelf.changes(id, from, to), { from, to });
  } catch (error) {
    asking.compared({ says: answerOf(error) || say("page-app-versions-away") }, { from, to });
  }
}

/** @param {Hands} hands @param {Detail<"recipe-filed">} filing @param {Teller<"recipe-filed">} from */
export async function fileRecipe({ studio }, { id, tags, archived }, { screen: asking }) {
  try {
    await studio.shelf.file(id, { tags, archived });
    asking.said(say("page-versions-filed"));
    studio.sync();
  } catch (error) {
    asking.trouble(answerOf(error) || say("page-common-no-connection"));
  }
}

/**
 * As last seen, where the server does not answer.
 * @param {Hands} hands @param {Teller<"pieces-wanted">} from
 */
export async function lookAtPieces(hands, { screen: asking }) {
  try {
    await hands.studio.pieces.look();
  } catch (error) {
    if (answerOf(error)) asking.trouble(answerOf(error));
  }
}

/** @param {Hands} hands @param {Detail<"stock-asked">} asked @param {Teller<"stock-asked">} from */
export async function askOfStock({ studio: { pieces } }, asked, { screen: asking }) {
  try {
    if (asked.what === "where")
      return asking.answered({ what: "where", id: asked.id, told: await pieces.where(asked.id) });
    if (asked.what === "complaints")
      return asking.answered({ what: "complaints", told: await pieces.complaints() });
    if (asked.what === "name") await pieces.name(asked.id, asked.said);
    const copies = asked.what === "erase" ? await pieces.erase(asked.id) : undefined;
    asking.answered({ what: "outlets", told: await pieces.outlets(), copies });
  } catch (error) {
    asking.answered({ says: answerOf(error) || say("page-pieces-away") });
  }
}

/** @param {Hands} hands @param {Detail<"recall-wanted">} detail @param {Teller<"recall-wanted">} from */
export async function tellRecall({ studio: { pieces } }, { of, id, rehearsal, after }, { screen: asking }) {
  try {
    asking.told(
      of === "complaint"
        ? { alike: await pieces.alike(id) }
        : { after, recall: await pieces.recall(`${of}/${id}`, rehearsal, after) },
    );
  } catch (error) {
    asking.told({ says: answerOf(error) || say("page-pieces-away") });
  }
}

/**
 * The week is the server's: what it is asked is done there, and then all of it is told as it stands.
 * @param {Hands} hands @param {Detail<"week-asked">} asked @param {Teller<"week-asked">} from
 */
export async function askOfWeek({ studio }, asked, { screen: asking }) {
  let says = "";
  try {
    const week = await studio.week();
    try {
      if (asked.what === "plan") await week.plan(asked.isQuick);
      if (asked.what === "follow") await week.follow(asked.plan);
      if (asked.what === "say") await week.say(asked.lines);
    } catch (error) {
      says = answerOf(error) || say("page-week-away");
    }
    asking.told(await week.look(studio.today(), studio.isMaker), asked, says);
  } catch (error) {
    asking.away(asked, says || answerOf(error) || say("page-week-away"));
  }
}

/** What is next of the week, for home; without a connection it stays as last seen. @param {Hands} hands */
export async function lookAtWeek({ studio }) {
  try {
    await (await studio.week()).lookAtNext();
  } catch (error) {
    answerOf(error);
  }
}

/** @param {Hands} hands @param {Detail<"duty-said">} said @param {Teller<"duty-said">} from */
export async function sayDuty({ studio }, said, { screen: asking }) {
  try {
    await studio.sayDuty(said);
    asking.dutySaid();
  } catch (error) {
    const why = answerOf(error) || say("page-common-no-connection");
    asking.trouble(say("page-duties-not-saved", { why }));
  }
}

/**
 * What was answered at a label is said in the recipe's next version, so that the check and every later label read it.
 * @param {Hands} hands @param {Detail<"product-said">} said @param {Teller<"product-said">} from
 */
export async function sayProduct({ studio }, { id, use, sold_in }, { screen: asking }) {
  const known = studio.recipes.find((each) => each.id === id);
  if (!known) return asking.trouble(say("page-app-absent"));
  if (studio.drafts.get(id)) return asking.trouble(say("page-versions-has-draft"));
  const written = { ...known.document, use, sold_in: [...sold_in] };
  await studio.drafts.write({ id, base: known.version, was: known.document, document: written });
  const answer = await studio.drafts.send(id);
  if (answer === "kept" || answer === "same") asking.told(say("page-duties-kept"));
  else if (answer === "waits") asking.told(say("page-duties-kept-waits"));
  else location.hash = `#/recipe/${id}`;
}

/**
 * An earlier version is written on: as this recipe's draft, whose next version says it again, or as a recipe of
 * its own.
 * @param {Hands} hands @param {Detail<"version-taken">} detail @param {Teller<"version-taken">} from
 */
export async function takeVersion(hands, { id, version, as }, { screen: asking }) {
  const { studio } = hands;
  if (as !== "copy" && studio.drafts.get(id)) return asking.trouble(say("page-versions-has-draft"));
  try {
    const written = await studio.shelf.version(id, version);
    const known = studio.recipes.find((each) => each.id === id);
    if (as === "copy") {
      const title = say("page-recipe-second", { title: written.title });
      return await editPicked(hands, { document: { ...written, title } });
    }
    await studio.drafts.write({ id, base: known?.version ?? null, was: known?.document, document: written });
    const answer = as === "newest" && (await studio.drafts.send(id));
    if (answer === "kept" || answer === "same")
      asking.said(say("page-versions-restored", { number: version }));
    else location.hash = `#/recipe/${id}`;
  } catch (error) {
    if (!saysOf(error)) throw error;
    asking.trouble(answerOf(error) || say("page-app-versions-away"));
  }
}

/**
 * At the door: do something about who may come in, then tell the screen who may.
 * @param {Hands} hands @param {From<StudioScreen>} from
 * @param {(door: Door) => PairingMade | null | void | Promise<PairingMade | null | void>} act
 */
export async function atTheDoor({ studio }, { screen: asking }, act) {
  try {
    const [door, { registerDeviceList }] = await Promise.all([
      studio.door(),
      import("./connected.js").then((all) => all.deviceList()),
    ]);
    registerDeviceList();
    const made = await act(door);
    asking.told({ devices: await door.devices(), made: made ?? null });
  } catch (error) {
    asking.told({ says: saysOf(error) || say("page-app-list-away") });
  }
}
