/**
 * The studio's shelf of recipes, as the server has it: what is asked of it before a recipe from
 * elsewhere is kept, and what a recipe was before. Needs the server; what is here works without.
 */

import { Refused, Unreachable } from "./server.js";
/** @import { Delivery, Proposal, WrittenDelivery, WrittenRecipe } from "../../bench/shapes/page" */
/** @import { Fault } from "../../types/keep" */
/** @import { Checked, VersionTold } from "../../types/server" */
/** @import { Server } from "./server.js" */

const VERSIONS_SHOWN = 20;
const NAME_MOST = 200;

export class Shelf {
  /** @type {Server} */
  #server;
  /** What was asked of a name, so that it is asked once. @type {Map<string, Promise<readonly Proposal[] | null>>} */
  #proposed = new Map();

  /** @param {Server} server */
  constructor(server) {
    this.#server = server;
  }

  /** @param {WrittenRecipe} document @returns {Promise<Checked | {errors: Fault[]}>} @throws {Unreachable} */
  async check(document) {
    try {
      return (await this.#server.ask("POST", "/checks", document)).body;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      return { errors: error.errors.length ? error.errors : [{ field: "", detail: error.detail }] };
    }
  }

  /**
   * What a name is taken for, and what else it may become; null where the server did not answer.
   * @param {string} name @returns {Promise<readonly Proposal[] | null>}
   */
  proposed(name) {
    const asked = name.trim().slice(0, NAME_MOST);
    if (!asked) return Promise.resolve([]);
    const kept = this.#proposed.get(asked);
    if (kept) return kept;
    const answer = this.#propose(asked);
    this.#proposed.set(asked, answer);
    return answer;
  }

  /** @param {string} asked @returns {Promise<readonly Proposal[] | null>} */
  async #propose(asked) {
    try {
      return (await this.#server.get(`/substances?name=${encodeURIComponent(asked)}`)).body.substances;
    } catch (error) {
      if (!(error instanceof Unreachable) && !(error instanceof Refused)) throw error;
      this.#proposed.delete(asked); // asked again when there is a connection
      return null;
    }
  }

  /** What the rows of a supplier's list are read as. @param {WrittenDelivery} asked @returns {Promise<Delivery>} */
  async delivery(asked) {
    return (await this.#server.ask("POST", "/deliveries/read", asked)).body;
  }

  /** What each stand-in of a line changes, as the server has it. @param {string} id @param {string} line */
  async swaps(id, line) {
    return (await this.#server.get(`/recipes/${id}/swaps?line=${encodeURIComponent(line)}`)).body.swaps;
  }

  /** A version as it was written. @param {string} id @param {number} version @returns {Promise<WrittenRecipe>} */
  async version(id, version) {
    return (await this.#server.get(`/recipes/${id}/versions/${version}`)).body.document;
  }

  /**
   * A page of the versions, the newest first: what each changed, and the runs made with it.
   * @param {string} id @param {number} page
   */
  async history(id, page) {
    const [{ body }, runs] = await Promise.all([
      this.#server.get(`/recipes/${id}/versions?page=${page}&page_size=${VERSIONS_SHOWN}`),
      this.#server.all("runs", `recipe=${id}`),
    ]);
    const versions = await Promise.all(
      body.versions.map(async (version) => {
        const { body: told } = await this.#server.get(`/recipes/${id}/versions/${version.version}/changes`);
        return { ...version, ...told, runs: runs.filter(({ recipe }) => recipe.version === version.version) };
      }),
    );
    return { versions, page, pages: body.pages };
  }

  /** What one version changed against another, in words. @param {string} id @param {number} from @param {number} to */
  async changes(id, from, to) {
    return (await this.#server.get(`/recipes/${id}/versions/${to}/changes?since=${from}`)).body;
  }

  /** @param {string} id @param {{tags: readonly string[], archived: boolean}} filing */
  async file(id, filing) {
    return this.#server.ask("PUT", `/recipes/${id}/filing`, filing);
  }
}
