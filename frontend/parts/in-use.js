// Which bowls and jugs of the kit hold something of a batch, so that another is not told to take one of them.
//
//   takenBy(run, "base.1.weigh", runs)  ->  ["Small jug is in use by D-A41. Take another."]

/** @import { Place } from "../../types/bench" */
/** @import { BenchRun } from "../../types/keep" */
/** @import { Batch } from "../../types/parts" */

/** @param {Place} given */
const placeOf = ({ component, round }) => `${component}.${round}`;

/**
 * The kit's vessels that hold something of a batch now. A bowl is free once its part is pressed or poured, a jug once
 * it is tipped out.
 * @param {Batch} given
 */
function heldBy({ sheet, state, open }) {
  if (!open) return [];
  const emptied = new Set(
    sheet.steps
      .filter(({ kind, id }) => kind === "pieces" && ["done", "skipped"].includes(state.steps[id].status))
      .map(placeOf),
  );
  return sheet.vessels
    .filter((vessel) => state.vessels[vessel.id].in_mg > 0 && !emptied.has(placeOf(vessel)))
    .map(({ id }) => state.vessels[id].name);
}

/** @param {BenchRun} run @param {string} step @param {readonly Batch[]} runs */
export function takenBy(run, step, runs) {
  const { sheet, state } = run;
  const wanted = sheet.steps.find(({ id }) => id === step);
  const vessel = wanted && "vessel" in wanted ? state.vessels[wanted.vessel] : undefined;
  const { kind } = sheet.kit.vessels.find(({ name }) => name === vessel?.name) ?? {};
  if (!vessel || !kind || kind === "cup" || vessel.in_mg > 0) return []; // small cups are wiped and used again
  return runs
    .filter((other) => other.id !== run.id && heldBy(other).includes(vessel.name))
    .map(
      (other) =>
        `${vessel.name} is in use by ${other.state.number ?? other.sheet.recipe.title}. Take another.`,
    );
}
