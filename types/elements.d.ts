// The page's own elements, by their tags. No page loads this.

import type { AnswerRow } from "../frontend/parts/answer-row";
import type { BowlSection } from "../frontend/parts/bowl-section";
import type { DayPicture } from "../frontend/parts/day-picture";
import type { DeviceList } from "../frontend/parts/device-list";
import type { PlateRow } from "../frontend/parts/plate-rows";
import type { WaitStrip } from "../frontend/parts/wait-strip";
import type { BenchScreen } from "../frontend/screens/bench";

declare global {
  interface HTMLElementTagNameMap {
    "answer-row": AnswerRow;
    "bench-screen": BenchScreen;
    "bowl-section": BowlSection;
    "day-picture": DayPicture;
    "device-list": DeviceList;
    "plate-row": PlateRow;
    "wait-strip": WaitStrip;
  }
}
