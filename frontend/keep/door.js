/**
 * The studio's door, for a maker: who is let in, and codes to let others in. Fetched when first
 * needed, and needs the server. Every call throws Unreachable or Refused, with `says`.
 */

/** @import { Device, Pairing, Role } from "../../types/server" */
/** @import { Server } from "./server.js" */

export class Door {
  /** @type {Server} */
  #server;

  /** @param {Server} server */
  constructor(server) {
    this.#server = server;
  }

  /** @returns {Promise<Device[]>} those let in, the last seen first */
  async devices() {
    const devices = await this.#server.all("devices");
    return devices.filter(({ shut_out_at }) => shut_out_at === null);
  }

  /** @param {string} id @param {string} name */
  rename(id, name) {
    return this.#server.ask("PATCH", `/devices/${id}`, { name });
  }

  /** @param {string} id */
  shutOut(id) {
    return this.#server.ask("DELETE", `/devices/${id}`);
  }

  /** @param {Role} role @returns {Promise<Pairing>} */
  async makeCode(role) {
    return (await this.#server.ask("POST", "/pairings", said(role))).body;
  }

  /** @param {string} id @param {Role} role */
  setRole(id, role) {
    return this.#server.ask("PATCH", `/devices/${id}`, said(role));
  }

  /** What was done to the studio, the newest first. @param {string | null} before as the page before gave it */
  async audit(before) {
    return (await this.#server.get(`/audit?limit=50${before ? `&before=${before}` : ""}`)).body;
  }
}

/** A role is said twice, once the maker was asked again. @param {Role} role */
function said(role) {
  return { role, confirm: role };
}
