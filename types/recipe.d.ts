// A recipe that is being written, for the type check. No page loads this.

import type { WrittenAssembly, WrittenComponent, WrittenLine, WrittenRecipe, WrittenStep } from "../bench/shapes/page";
import type { Sketch } from "../frontend/bench/draft";

export type Part = WrittenComponent | WrittenAssembly;

// Where a thing stands: a dotted path into the document.
export type ComponentPath = `components.${number}`;
export type PartPath = ComponentPath | "assembly";
export type LinePath = `${PartPath}.lines.${number}`;
export type StepPath = `${PartPath}.steps.${number}`;
export type ListPath = "components" | `${PartPath}.lines` | `${PartPath}.steps`;

/** What stands at a path, where its shape says so. */
export type ValueAt<P extends string> = P extends LinePath
  ? WrittenLine
  : P extends StepPath
    ? WrittenStep
    : P extends ComponentPath
      ? WrittenComponent
    : P extends "assembly"
      ? WrittenAssembly
      : P extends `${PartPath}.lines`
        ? readonly WrittenLine[] | undefined
        : P extends `${PartPath}.steps`
          ? readonly WrittenStep[]
          : P extends "components"
            ? readonly WrittenComponent[]
            : P extends `${PartPath | LinePath | StepPath}.id`
              ? string
              : P extends `${LinePath}.amount` | `${StepPath}.title`
                ? string | undefined
                : unknown;

/** What a list or a group of choices is made of. */
export type Choice = readonly [value: string, label: string];
export type Choices = readonly Choice[];
/** Choices by their codes, whose words stand in the catalogue under `of`. */
export interface Coded {
  readonly of: string;
  readonly codes: readonly string[];
  /** How a code is said, where its words stand elsewhere. */
  readonly said?: (code: string) => string;
}
export type ChoicesOf = (document: WrittenRecipe, at: string) => Choices;

/** A field whose value is a list of things with fields of their own. */
export interface RowsOf {
  one: string;
  blank: (had: readonly { id?: string }[]) => object;
  fields: readonly Field[];
}

export type TextField = readonly [
  key: string,
  label: string,
  type?: "" | "grow" | "area" | "whole" | "decimal" | "list",
  example?: string,
];
export type FlagField = readonly [key: string, label: string, type: "flag" | "maybe"];
export type ChoiceField = readonly [
  key: string,
  label: string,
  type: "pick" | "some",
  choices: Coded | ChoicesOf,
  /** What "none of them" is called, where that is an answer too and not the same as saying nothing. */
  none?: () => string,
];
export type RowsField = readonly [key: string, label: string, type: "rows", rows: RowsOf];
/** A field of the recipe form, as recipe-forms.js has them. */
export type Field = TextField | FlagField | ChoiceField | RowsField;

/** A field that is drawn, and the place below it. */
export interface FieldThere {
  input: HTMLElement;
  hint: HTMLElement;
}

/** What the fields write with: the screen's. */
export interface Pen {
  readonly fields: Map<string, FieldThere>;
  open: Set<string>;
  readonly document: WrittenRecipe;
  readonly live: (write: (drawn: Sketch) => void) => void;
  readonly read: <P extends string>(at: P) => ValueAt<P>;
  readonly write: (at: string, value: unknown) => void;
  readonly settle: (at: string) => void;
  readonly refresh: () => void;
  readonly reshape: (change: (document: WrittenRecipe) => WrittenRecipe, focus?: string) => void;
  readonly move: (at: ListPath, from: number, to: number, name: string) => void;
  readonly drop: (at: ListPath, index: number, name: string) => void;
}

/** What any of several shapes may say. */
export type Any<U> = { readonly [K in KeysOf<U>]?: FieldOf<U, K> };
type KeysOf<U> = U extends U ? keyof U : never;
type FieldOf<U, K extends PropertyKey> = U extends { readonly [P in K]?: infer V } ? V : never;
