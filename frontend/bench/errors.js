/** Something in the input cannot be worked with: where (a dotted path, "" is the whole) and what it says. */
export class BenchError extends Error {
  /** @param {string} where @param {string} says */
  constructor(where, says) {
    super(where ? `${where}: ${says}` : says);
    this.name = "BenchError";
    this.where = where;
    this.says = says;
  }
}

/** What an error says to the maker; "" where it is none of ours. @param {unknown} error @returns {string} */
export const saysOf = (error) =>
  error instanceof Error && "says" in error && typeof error.says === "string" ? error.says : "";
