// Fields for quantities and places: a number and a unit to choose, a range or tolerance where it is one.
// Only the everyday forms are taken apart; any other text stays as written, for the engine to judge.

import { h, newId } from "./dom.js";

const UNITS = {
  length: ["m", "mm", "cm", "ft", "in"],
  length_either_way: ["m", "mm", "cm", "ft", "in"],
  mass_or_force: ["kN", "t", "kg", "N", "lbf", "lb"],
  angle: ["deg"],
  angle_either_way: ["deg"],
  slope: ["deg up", "deg down", "% up", "% down"],
  fraction: ["%"],
  speed: ["m/min", "m/s", "ft/min"],
  coefficient: [""],
};
const SMALL = new Set(["diameter", "tread", "opening", "groove_for", "radius", "width", "flange", "passes_width", "pin_diameter", "splice_tail", "face", "thickness"]);
const HEAVY = new Set(["weight", "laden_mass"]);
const NUMBER = String.raw`-?[0-9][0-9 ,]*(?:\.[0-9]+)?(?: [0-9]+/[0-9]+)?|-?[0-9]+/[0-9]+`;
const UNIT = String.raw`[A-Za-z%°][A-Za-z%°/ ]*?`;
const ONE = new RegExp(`^(${NUMBER}) ?(${UNIT})?$`);
const RANGE = new RegExp(`^(${NUMBER}) ?(${UNIT})? to (${NUMBER}) ?(${UNIT})?$`);
const ABOUT = new RegExp(`^(${NUMBER}) ?(${UNIT})? ± (${NUMBER}) ?(${UNIT})?$`);

export const isQuantity = (name) => name in UNITS;

export function usual(name, key, imperial) {
  if (name === "mass_or_force") return HEAVY.has(key) ? (imperial ? "lb" : "t") : imperial ? "lbf" : "kN";
  if (name.startsWith("length")) return SMALL.has(key) ? (imperial ? "in" : "mm") : imperial ? "ft" : "m";
  if (name === "speed") return imperial ? "ft/min" : "m/min";
  return UNITS[name][0];
}

export function taken(text) {
  const exact = ONE.exec(text);
  if (exact) return { form: "exactly", low: exact[1].trim(), high: "", unit: exact[2] ?? "" };
  const range = RANGE.exec(text) ?? ABOUT.exec(text);
  if (!range || (range[2] && range[4] && range[2] !== range[4])) return null;
  return { form: RANGE.test(text) ? "to" : "±", low: range[1].trim(), high: range[3].trim(), unit: range[4] ?? range[2] ?? "" };
}

export function put({ form, low, high, unit }) {
  const behind = unit ? ` ${unit}` : "";
  if (form === "exactly" || high.trim() === "") return low.trim() === "" ? "" : `${low.trim()}${behind}`;
  return `${low.trim()}${behind} ${form} ${high.trim()}${behind}`;
}

// `changed` gets the text, or "" where the field was emptied.
export function quantity({ name, key, text, imperial, changed, label, attributes = {}, exact = false }) {
  const known = text === undefined ? { form: "exactly", low: "", high: "", unit: usual(name, key, imperial) } : taken(String(text));
  if (!known) return asWritten({ text, changed, attributes, label });
  const units = UNITS[name].includes(known.unit) ? UNITS[name] : [known.unit, ...UNITS[name]];
  const told = () => {
    known.low = low.value;
    known.high = high?.value ?? "";
    known.unit = unit?.value ?? "";
    known.form = form?.value ?? "exactly";
    if (high) high.hidden = known.form === "exactly";
    changed(put(known));
  };
  const low = h("input", { type: "text", inputmode: "decimal", autocomplete: "off", value: known.low, oninput: told, ...attributes });
  const choices = name === "coefficient" ? ["exactly", "to"] : ["exactly", "to", "±"];
  const form = exact ? null : h("select", { class: "form", "aria-label": `${label}: exactly, a range, or a tolerance`, onchange: told },
    choices.map((word) => h("option", { value: word, selected: word === known.form }, word)));
  const high = exact ? null : h("input", { type: "text", inputmode: "decimal", autocomplete: "off", value: known.high, "aria-label": `${label}: second number`, oninput: told, hidden: known.form === "exactly" });
  const unit = units[0] === "" ? null : h("select", { class: "unit", "aria-label": `${label}: unit`, onchange: told },
    units.map((word) => h("option", { value: word, selected: word === known.unit }, word)));
  return h("div", { class: "quantity" }, low, form, high, unit);
}

function asWritten({ text, changed, attributes, label }) {
  return h("div", { class: "quantity" },
    h("input", { type: "text", class: "wide", value: String(text), "aria-label": `${label}, as written`, oninput: (e) => changed(e.target.value), ...attributes }));
}

const PLACE = /^(.+?) bearing (.+?)(?: from ([^\s,]+))?(?:, (.+ (?:up|down)))?$/;

// A place: a distance and a bearing from a point, as tape and compass give them, or coordinates.
export function place({ given, imperial, points, changed, label }) {
  const box = h("div", { class: "place" });
  const found = typeof given === "string" ? PLACE.exec(given) : null;
  const state = {
    way: Array.isArray(given) ? "coordinates" : given === undefined || found ? "distance and bearing" : "as written",
    distance: found?.[1], bearing: found?.[2] ?? "", from: found?.[3] ?? "", up: found?.[4] ?? "",
    axes: Array.isArray(given) ? given.map(String) : [], written: typeof given === "string" ? given : "",
  };
  const told = () => {
    if (state.way === "coordinates") return changed(state.axes.some(Boolean) ? state.axes.map((t) => t || `0 ${imperial ? "ft" : "m"}`) : "");
    if (state.way === "as written") return changed(state.written);
    if (!state.distance || !state.bearing) return changed("");
    changed(`${state.distance} bearing ${state.bearing}${state.from ? ` from ${state.from}` : ""}${state.up ? `, ${state.up}` : ""}`);
  };
  const part = (words, name, text, key, take) => {
    const id = newId("part");
    return h("div", { class: "field" }, h("label", { for: id }, words),
      quantity({ name, key, text, imperial, label: `${label}: ${words}`, exact: true, attributes: { id }, changed: (t) => (take(t), told()) }));
  };
  const show = () => {
    const id = newId("way");
    const fromId = newId("from");
    const ways = ["distance and bearing", "coordinates", ...(state.written && !found ? ["as written"] : [])];
    const parts = {
      "distance and bearing": () => [
        part("Distance", "length", state.distance, "at", (t) => (state.distance = t)),
        part("Bearing", "angle_either_way", state.bearing || undefined, "at", (t) => (state.bearing = t)),
        h("div", { class: "field" }, h("label", { for: fromId }, "From"),
          h("select", { id: fromId, onchange: (e) => ((state.from = e.target.value), told()) },
            ["", ...points.filter((p) => p), ...(state.from && !points.includes(state.from) ? [state.from] : [])].map((p) =>
              h("option", { value: p, selected: p === state.from }, p || "the plan's origin")))),
      ],
      coordinates: () => ["x", "y", "z, up"].map((axis, i) =>
        part(axis, "length_either_way", state.axes[i], "at", (t) => {
          state.axes[i] = t;
          for (let k = 0; k < 2; k += 1) state.axes[k] ??= "";
          if (state.axes.length === 3 && !state.axes[2]) state.axes.pop();
        })),
      "as written": () => [h("input", { type: "text", class: "wide", value: state.written, "aria-label": label, oninput: (e) => ((state.written = e.target.value), told()) })],
    };
    box.replaceChildren(
      h("div", { class: "field" }, h("label", { for: id }, "Given by"),
        h("select", { id, onchange: (e) => ((state.way = e.target.value), show()) }, ways.map((w) => h("option", { value: w, selected: w === state.way }, w)))),
      ...parts[state.way]());
  };
  show();
  return box;
}
