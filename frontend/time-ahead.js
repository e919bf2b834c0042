/**
 * How long a batch will take, before it is begun: at once by the phone's plain rule, and once the maker rests, by a
 * plan of the server's. What is on the bench already is planned with it, for there is one pair of hands.
 */

import { newBatch, timeWords } from "./parts/day-ahead.js";

const REST_MS = 1_500; // a size is still being chosen until then: the server is asked for few plans

let waiting = 0;

/** @param chosen { recipe, size, sheet } @param asking the screen, which is told by `timeTold(text)` */
export function tellTime(studio, { recipe, size, sheet }, asking, measuredOf) {
  clearTimeout(waiting);
  const others = studio.beside("");
  const said = (time, by) => asking.timeTold(timeWords(time, { at: studio.at(), others: others.length, by }));
  try {
    said(
      newBatch({ recipe, sheet, others, hours: studio.planOf("").hours, at: studio.at(), measuredOf }),
      "phone",
    );
  } catch (error) {
    if (!error.says) throw error;
    asking.timeTold(error.says);
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
      if (!error.says) throw error; // the phone's own word stands
    }
  }, REST_MS);
}
