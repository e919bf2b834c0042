/** A mix is divided by what really is in the bowl. */

import { say } from "../../words.js";
import { joined } from "../brief.js";
import { portionTargets } from "../journal/index.js";
import { last } from "../lists.js";
import { readsIn } from "../weighing.js";
import { ceiling, reading, toDivision } from "../whole.js";
import { answer } from "./answers.js";
import { isFirstAsked, scaleOf } from "./view.js";
/** @import { SplitStep } from "../../../bench/shapes/page" */
/** @import { Said, View } from "./view.js" */

/** @param {View} view @param {SplitStep} step @returns {Said} */
export function split(view, step) {
  const targets = portionTargets(step, view.state);
  const weighed = step.portions.slice(0, -1);
  const index = Math.max(
    0,
    weighed.findIndex(({ vessel }) => !(vessel in view.state.portions)),
  );
  const portion = step.portions[index];
  const target = targets[index];
  const scale = scaleOf(view, view.state.vessels[portion.vessel].scale);
  const division = scale ? readsIn(scale) : { mg: 1000 };
  const reads = toDivision(target, division);
  const text = reading(reads, division);
  const there = view.state.vessels[step.vessel].in_mg;
  const body = { vessel: portion.vessel, seen: there };
  return {
    first: scale ? say("prompting-zero-empty", { scale: scale.name }) : "",
    says: joined(
      isFirstAsked(view, step) ? step.says : "",
      say("prompting-rest-stays", { mass: reading(last(targets), division), name: last(step.portions).name }),
    ),
    number: { mg: reads, text, caption: say("prompting-weigh-out-for", { name: portion.name }) },
    weigh: {
      line: null,
      name: portion.name,
      add_mg: target,
      add: text,
      reads_mg: reads,
      reads: text,
      before_mg: 0,
      how: "portion",
      scale: scale?.name ?? "",
      division_mg: division.mg,
      ...(division.uoz ? { division_uoz: division.uoz } : {}),
      tolerance_mg: ceiling(division.mg, 2),
      vessel: portion.vessel,
    },
    answers: [
      answer(
        "reads",
        say("prompting-reads", { reading: text }),
        "portioned",
        { ...body, mg: reads > 0 ? Math.min(reads, there) : target },
        { strong: true },
      ),
      answer("other", say("prompting-reads-else"), "portioned", body, { input: "reading", most: there }),
    ],
  };
}
