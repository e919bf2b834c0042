// What the oldest browsers that the README names have beyond ES2022: frontend/oldest.js asks for it before the page
// begins. Anything newer is refused by the type check (tsconfig.json, "lib"). No page loads this.

interface Array<T> {
  findLast<S extends T>(is: (value: T, index: number, all: T[]) => value is S): S | undefined;
  findLast(is: (value: T, index: number, all: T[]) => unknown): T | undefined;
  findLastIndex(is: (value: T, index: number, all: T[]) => unknown): number;
}

interface ReadonlyArray<T> {
  findLast<S extends T>(is: (value: T, index: number, all: readonly T[]) => value is S): S | undefined;
  findLast(is: (value: T, index: number, all: readonly T[]) => unknown): T | undefined;
  findLastIndex(is: (value: T, index: number, all: readonly T[]) => unknown): number;
}
