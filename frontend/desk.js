/**
 * What the desk's screens tell, that the bench does without: recipes as they are written, lots, pieces, duties, and
 * who may come in. app.js, whose hands these are, comes here when the first of it is told. What only screens tell
 * that need the server is in desk-online.js.
 */

import { saysOf } from "./bench/errors.js";
import { say } from "./words.js";
/** @import { StudioScreen } from "./screens/studio.js" */
/** @import { Detail, From, Hands, Teller } from "../types/page" */
/** @import { Door } from "./keep/door.js" */
/** @import { PairingMade } from "../types/answers" */

/**
 * What the server said to a refusal; "" when it did not answer. Any other error is a fault of ours.
 * @param {unknown} error
 */
export function answerOf(error) {
  const says = saysOf(error);
  if (!says) throw error;
  return error instanceof Error && "status" in error ? says : "";
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
