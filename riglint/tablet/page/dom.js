// Small helpers for building the page. Text always goes in as text, never as markup.

const SVG = "http://www.w3.org/2000/svg";

export function h(tag, given = {}, ...children) {
  const element = document.createElement(tag);
  for (const [key, value] of Object.entries(given)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (key === "class") element.className = value;
    else if (key in element && key !== "list" && key !== "form" && typeof value !== "string") element[key] = value;
    else element.setAttribute(key, value === true ? "" : value);
  }
  if (typeof given.value === "string" && "value" in element) element.value = given.value;
  const shown = children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false);
  element.append(...shown.map((child) => (typeof child === "string" ? unparted(child) : child)));
  return element;
}

// A number is never parted from its unit at the end of a line.
const UNIT = /(\d) (%|°|kN|N|m|mm|cm|km|t|kg|g|lb|lbf|tf|kip|ft|in|deg|kPa|MPa|kJ|J|s|min)(?![\w-])/g;
const unparted = (text) => text.replace(UNIT, "$1\u00a0$2");

export const button = (text, onclick, given = {}) => h("button", { type: "button", onclick, ...given }, text);

export const sentence = (text) => (/[.!?:]$/.test(text) ? text : `${text}.`).replace(/^[a-z]+(?= )/, (w) => w[0].toUpperCase() + w.slice(1));

let used = 0;
export const newId = (word) => `${word}-${++used}`;

// Signal words after ISO 3864 and ANSI Z535: the word is always there, the triangle never with NOTICE.
export function sign(word, text = "") {
  const known = ["DANGER", "WARNING", "CAUTION", "NOTICE"].includes(word);
  const triangle = known && word !== "NOTICE" ? alertTriangle() : null;
  return h("span", { class: `sign sign-${word.toLowerCase().replace(/[^a-z]+/g, "-")}` }, triangle, h("span", {}, word + text));
}

function alertTriangle() {
  const svg = document.createElementNS(SVG, "svg");
  for (const [key, value] of Object.entries({ viewBox: "0 0 24 21", width: 22, height: 19, "aria-hidden": "true" })) svg.setAttribute(key, value);
  for (const [d, part] of [["M12 1 23 20H1Z", "ground"], ["M11 7h2l-.4 7h-1.2zM12 15.6a1.2 1.2 0 1 1 0 2.4 1.2 1.2 0 0 1 0-2.4z", "mark"]]) {
    const path = document.createElementNS(SVG, "path");
    path.setAttribute("d", d);
    path.setAttribute("class", part);
    svg.append(path);
  }
  return svg;
}

export function details(summary, open, ...children) {
  return h("details", { open }, h("summary", {}, summary), ...children);
}

// What is drawn comes as text and goes in only if every element and attribute in it is one that can't act.
const SHAPES = new Set("svg title desc defs pattern clipPath marker g path rect circle ellipse line polyline polygon text tspan".split(" "));
const ACTS = /^on|href|src|style$/i;

export function picture(text) {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  const inert = [parsed, ...parsed.querySelectorAll("*")].every(
    (e) => SHAPES.has(e.localName) && e.namespaceURI === SVG && [...e.attributes].every((a) => !ACTS.test(a.name)),
  );
  return inert ? document.importNode(parsed, true) : h("p", {}, "The picture holds something that a picture must not. It isn't shown.");
}

export function save(name, text, type = "text/plain") {
  const url = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = h("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

// A question in a dialog; answers null where it was left.
export function asked(title, fields, done) {
  return new Promise((resolve) => {
    const heading = newId("asked");
    const fail = h("p", { class: "fault", role: "alert" });
    let answer = null;
    const dialog = h(
      "dialog",
      { "aria-labelledby": heading, onclose: () => (dialog.remove(), resolve(answer)) },
      h("form", {
        method: "dialog",
        novalidate: true,
        onsubmit: (event) => {
          event.preventDefault();
          const refused = done.check?.();
          fail.textContent = refused ?? "";
          if (refused) return;
          answer = done.value();
          dialog.close();
        },
      },
        h("h2", { id: heading }, title), ...fields, fail,
        h("div", { class: "row" }, h("button", { class: "main" }, done.word), button("Leave it", () => dialog.close()))),
    );
    document.body.append(dialog);
    dialog.showModal();
  });
}

export function labelled(label, input, hint = "") {
  input.id ||= newId("field");
  return h("div", { class: "field" }, h("label", { for: input.id }, label), input, hint && h("p", { class: "hint" }, hint));
}
