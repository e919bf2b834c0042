// Settings, and the plain truth about the line to the server and what this browser cannot do.
//
//   screen.data = { link, preferences, runs, now }
//   "preferred" { key, value }, "sync-wanted", "update-wanted", "send-again" / "set-aside" { run, entry }

import { define, h, keyed, setText, show, tell } from "../parts/dom.js";
import { pageHead } from "../parts/page-head.js";
import { clock, day } from "../parts/words.js";

const CHOICES = [
  ["theme", "Colours", [["auto", "As the phone"], ["day", "Day"], ["night", "Night"]]],
  ["weigh", "Weighing", [["running", "The display climbs"], ["tare", "Tare before each"]]],
];
const SWITCHES = [
  ["sound", "Ring when something is ready or late"],
  ["speech", "Say each step aloud"],
];

class StudioScreen extends HTMLElement {
  #parts = null;
  #data = null;

  set data(data) {
    this.#data = data;
    if (!this.#parts) this.#build(data.preferences);
    const { link } = data;
    const parts = this.#parts;
    setText(parts.state, link.state === "online" ? "The server answers." : "Offline: the server does not answer. Everything you do is kept on this phone and sent later.");
    setText(parts.heard, link.heard_at ? `Last heard from it ${day(link.heard_at)}.` : "Not heard from it yet.");
    setText(parts.unsent, link.unsent ? `${link.unsent} not sent yet.` : "Everything is sent.");
    setText(parts.trouble, link.trouble ?? "");
    show(parts.trouble, Boolean(link.trouble) && link.state === "online");
    keyed(parts.refused, link.refused, (item) => `${item.run} ${item.entry?.id ?? ""}`, (item) => this.#makeRefused(item), (node, item) => setText(node.firstChild.lastChild, item.detail));
    show(parts.refusedPart, link.refused.length > 0);
    keyed(parts.cannot, link.cannot, (text) => text, (text) => h("li", {}, text));
    show(parts.cannotPart, link.cannot.length > 0);
    show(parts.update, link.update);
  }

  #build(preferences) {
    const prefer = (key, value) => tell(this, "preferred", { key, value });
    const parts = {
      state: h("p", { role: "status" }),
      heard: h("p", { class: "soft" }),
      unsent: h("p", {}),
      trouble: h("p", { class: "notice" }),
      refused: h("ul", { class: "rows" }),
      cannot: h("ul", { class: "plain" }),
      update: h("p", { class: "notice" }, "A newer page is ready. It takes over when you say so, and no run is lost. ", h("button", { type: "button", class: "outlined", onclick: () => tell(this, "update-wanted") }, "Use it")),
    };
    parts.refusedPart = h("section", { "aria-label": "Refused" }, h("h2", { class: "section-name" }, "Refused by the server"), h("p", { class: "soft" }, "These stay on this phone."), parts.refused);
    parts.cannotPart = h("section", { "aria-label": "What this browser cannot do" }, h("h2", { class: "section-name" }, "What this browser cannot do"), parts.cannot);
    this.#parts = parts;
    this.append(
      h(
        "div",
        { class: "sheet" },
        pageHead("Settings", "studio"),
        parts.update,
        h(
          "section",
          { "aria-label": "At the bench" },
          h("h2", { class: "section-name" }, "At the bench"),
          SWITCHES.map(([key, label]) => h("label", { class: "choice" }, h("input", { type: "checkbox", checked: preferences[key], onchange: (event) => prefer(key, event.target.checked) }), h("span", {}, label))),
          CHOICES.map(([key, label, options]) => h("fieldset", { class: "setting" }, h("legend", { class: "caps" }, label), options.map(([value, says]) => h("label", { class: "choice" }, h("input", { type: "radio", name: key, value, checked: preferences[key] === value, onchange: () => prefer(key, value) }), h("span", {}, says))))),
        ),
        h("section", { "aria-label": "The server" }, h("h2", { class: "section-name" }, "The line to the server"), h("div", { class: "stack" }, parts.state, parts.heard, parts.unsent, parts.trouble, h("button", { type: "button", class: "outlined", onclick: () => tell(this, "sync-wanted") }, "Try now"))),
        parts.refusedPart,
        parts.cannotPart,
        h("section", { "aria-label": "Take it with you" }, h("h2", { class: "section-name" }, "Take it with you"), h("p", {}, "Everything on this phone as one file: runs with their sheets and every entry."), h("div", { class: "stack export" }, h("button", { type: "button", class: "outlined", onclick: () => this.#save() }, "Save what is on this phone"), h("a", { class: "button quiet", href: "/api/v1/export", download: "bowlside.json" }, "Save everything from the server"))),
      ),
    );
  }

  #makeRefused(item) {
    const what = item.entry ? `${item.entry.kind.replaceAll("_", " ")}, ${clock(item.entry.at)}` : "The run itself";
    const run = this.#data.runs.find((each) => each.id === item.run);
    return h(
      "li",
      { class: "refused" },
      h("p", {}, h("b", {}, `${what}: `), run ? h("span", { class: "soft" }, `${run.sheet.recipe.title}. `) : null, h("span", {}, item.detail)),
      h("div", { class: "pair" }, h("button", { type: "button", class: "outlined", onclick: () => tell(this, "send-again", item) }, "Send again"), item.entry ? h("button", { type: "button", class: "outlined", onclick: () => tell(this, "set-aside", item) }, "Set aside") : null),
    );
  }

  #save() {
    const runs = this.#data.runs.map(({ id, recipe, size, sheet, created_at, entries }) => ({ id, recipe, size, sheet, created_at, entries }));
    const url = URL.createObjectURL(new Blob([JSON.stringify({ format: "bowlside-phone/1", saved_at: this.#data.now(), runs })], { type: "application/json" }));
    h("a", { href: url, download: "bowlside-phone.json" }).click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
  }
}

export const registerStudioScreen = () => define("studio-screen", StudioScreen);
