/**
 * What a sheet's reasons and warnings are in words, for who chooses a size. The same as bench/sheet_words.py.
 */

import { say } from "../words.js";
import { mass, PPM, perCent } from "./whole.js";
/** @import { RoundsReason, Warn } from "../../bench/shapes/page" */

/** Why a part is made in several rounds. @param {RoundsReason} reason */
export function reasonWords(reason) {
  switch (reason.kind) {
    case "moulds":
      return say("sheet-moulds-hold", { shape: reason.shape, held: reason.holds });
    case "vessel":
      return say("sheet-vessel-takes", { vessel: reason.name, mass: mass(reason.mg, 1000) });
    case "scale":
      return say("sheet-scale-takes", { scale: reason.name, mass: mass(reason.mg, 1000) });
    case "at_once":
      return say("sheet-used-at-once", { part: reason.name, rounds: reason.rounds });
    case "said":
      return reason.text;
  }
}

/** @param {Warn} warning */
export function warningWords(warning) {
  switch (warning.kind) {
    case "no_mould":
      return say("sheet-no-mould", { shape: warning.shape });
    case "no_scale":
      return say("sheet-no-scale", { mass: mass(warning.mg, 1000) });
    case "too_full": {
      const { vessel } = warning;
      return say("sheet-too-full", {
        vessel,
        room: mass(warning.holds_mg, 1000),
        mass: mass(warning.mg, 1000),
      });
    }
    case "for_two_parts": {
      const { vessel, part, other } = warning;
      return say("sheet-for-two-parts", { vessel, part, other });
    }
    case "needed_twice": {
      const { vessel, part, vessel_kind: kind } = warning;
      return say("sheet-needed-twice", { vessel, part, kind });
    }
    case "metal":
      return say("sheet-metal", { vessel: warning.vessel });
    case "less_than_one":
      return say("sheet-less-than-one", { name: warning.name });
    case "less_than_a_spoon":
      return say("sheet-less-than-a-spoon", { name: warning.name });
    case "drops":
      return say("sheet-drops-differ");
    case "too_little": {
      const { name, scale } = warning;
      const share = perCent(warning.off_ppm, PPM);
      return say("sheet-too-little", { name, mass: mass(warning.mg, 10), scale, share });
    }
    case "said":
      return warning.text;
  }
}
