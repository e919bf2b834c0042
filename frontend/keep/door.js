/**
 * The studio's door, for a maker: who is let in, and codes to let others in. Fetched when first
 * needed, and needs the server. Every call throws Unreachable or Refused, with `says`.
 */

export class Door {
  #server;

  constructor(server) {
    this.#server = server;
  }

  /** @returns {Promise<{id, name, role, seen_at, shut_out_at}[]>} those let in, the last seen first */
  async devices() {
    const devices = await this.#server.all("devices");
    return devices.filter(({ shut_out_at }) => shut_out_at === null);
  }

  rename(id, name) {
    return this.#server.ask("PATCH", `/devices/${id}`, { name });
  }

  shutOut(id) {
    return this.#server.ask("DELETE", `/devices/${id}`);
  }

  /** @param {"maker"|"helper"} role @returns {Promise<{code, expires_at, address, qr}>} qr as SVG */
  async makeCode(role) {
    return (await this.#server.ask("POST", "/pairings", said(role))).body;
  }

  setRole(id, role) {
    return this.#server.ask("PATCH", `/devices/${id}`, said(role));
  }

  /** What was done to the studio, the newest first. @param {string|null} before as the page before gave it */
  async audit(before) {
    return (await this.#server.get(`/audit?limit=50${before ? `&before=${before}` : ""}`)).body;
  }
}

/** A role is said twice, once the maker was asked again. */
function said(role) {
  return { role, confirm: role };
}
