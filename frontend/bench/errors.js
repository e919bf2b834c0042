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
