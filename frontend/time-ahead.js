/**
 * How long a batch will take, before it is begun: at once by the phone's plain rule, and once the maker rests, by a
 * plan of the server's. What is on the bench already is planned with it, for there is one pair of hands.
 */

import { saysOf } from "./bench/errors.js";
import { newBatch, timeWords } from "./parts/day-ahead.js";
/** @import { MeasuredRecipe, Sheet, Size } from "../bench/shapes/page" */
/** @import { BatchTime, MeasuredOf } from "./parts/day-ahead.js" */
/** @import { Studio } from "./keep/studio.js" */

const REST_MS = 1_500; // a size is still being chosen until then: the server is asked for few plans

/**
 * @typedef {{recipe: {id: string, version: number, measured: MeasuredRecipe}, size: Size, sheet: Sheet}} Chosen
 * @typedef {{timeTold: (text: string) => void, isStill: (size: Size) => boolean, isConnected: boolean}} Asking
 *   the screen
 */

let waiting = 0;

/** @param {Studio} studio @param {Chosen} chosen @param {Asking} asking @param {MeasuredOf} measuredOf */
export function tellTime(studio, { recipe, size, sheet }, asking, measuredOf) {
  clearTimeout(waiting);
  const others = studio.beside("");
  /** @param {BatchTime} time @param {"phone" | "server"} by */
  const said = (time, by) => asking.timeTold(timeWords(time, { at: studio.at(), others: others.length, by }));
  try {
    said(
      newBatch({ recipe, sheet, others, hours: studio.planOf("").hours, at: studio.at(), measuredOf }),
      "phone",
    );
  } catch (error) {
    const says = saysOf(error);
    if (!says) throw error;
    asking.timeTold(says);
    return;
  }
  if (studio.link.state !== "online") return;
  waiting = setTimeout(async () => {
    try {
      const runs = others.filter((run) => run.waiting().every(({ id }) => id !== run.id)).map(({ id }) => id);
      const plan = await (await studio.plans()).ofNew(
        { id: recipe.id, version: recipe.version, size },
        runs,
        () => asking.isConnected,
      );
      if (plan && asking.isStill(size)) said(plan, "server");
    } catch (error) {
      if (!saysOf(error)) throw error; // the phone's own word stands
    }
  }, REST_MS);
}
