/**
 * What is told by screens that need the server (connected.js): recipes brought in, versions, lists, recalls, the week,
 * and who did what. It comes with them, and is not kept for offline.
 */

import { saysOf } from "./bench/errors.js";
import { answerOf, editPicked } from "./desk.js";
import { say } from "./words.js";
/** @import { BringScreen } from "./screens/bring.js" */
/** @import { Detail, From, Hands, Teller } from "../types/page" */

/** @param {Hands} hands @param {Detail<"audit-wanted">} detail @param {Teller<"audit-wanted">} from */
export async function tellAudit({ studio }, { before }, { screen: asking }) {
  try {
    asking.told(await (await studio.door()).audit(before));
  } catch (error) {
    asking.told({ says: answerOf(error) || say("page-app-list-away") });
  }
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
