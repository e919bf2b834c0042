// What sync's machine is told and what it bids, for the type check. No page loads this.

export type StepName = "clock" | "send" | "open" | "lists";

export interface SyncState {
  name: "stopped" | "working" | "renewing" | "resting" | "failed" | "closed";
  role: "leader" | "follower";
  generation: string | null;
  round: number;
  step: number;
  request: number;
  numbered: number;
  again: null | "now" | "if well";
  failures: number;
  renewals: number;
  timer: number;
}

export type SyncEvent =
  | { type: "start" | "stop" }
  | { type: "role"; role: SyncState["role"] }
  | { type: "wanted"; now?: boolean }
  | { type: "due"; timer: number }
  | { type: "asked"; round: number }
  | { type: "answered"; request: number; generation: string | null }
  | { type: "renewed"; round: number; generation: string | null }
  | { type: "turned"; generation: string | null }
  | { type: "stepped" | "failed"; round: number };

export type Command =
  | { do: "step"; step: StepName; round: number }
  | { do: "send"; request: number }
  | { do: "renew"; generation: string; round: number }
  | { do: "tell"; well: boolean }
  | { do: "rest"; timer: number; well: boolean }
  | { do: "take" | "drop" };

export interface Turn {
  state: SyncState;
  commands: Command[];
}

export type OnEvent<T = SyncEvent["type"]> = (state: SyncState, event: Extract<SyncEvent, { type: T }>) => Turn;
