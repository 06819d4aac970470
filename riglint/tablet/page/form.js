// The plan as a form, made from the plan's schema: every fact that a plan can hold has its field here.

import { asked, button, details, h, labelled, newId, sign } from "./dom.js";
import { NAME, asName, join, mentions, names, newName, value } from "./plan.js";
import { isQuantity, place, quantity } from "./quantities.js";

// What is shown at once; the rest unfolds. Only the order of showing: what a plan can hold stands in the schema.
const FIRST = {
  Body: ["moves", "weight", "ground", "secured"],
  Travel: ["distance", "bearing"],
  Ground: ["surface", "mired", "slope", "grip"],
  Point: ["on", "at", "kind", "rated"],
  Winch: ["mounted", "rated_pull", "rated_layer", "stall_pull", "brake_hold", "drum", "fairlead"],
  Drum: ["diameter", "width", "flange"],
  Fairlead: ["ahead", "kind", "radius"],
  Line: ["pieces", "path"],
  Piece: ["rope", "diameter", "length", "breaking"],
  Join: ["kind", "set", "twist"],
  Redirect: ["kind", "loss", "hung_from", "sheave", "bore", "groove"],
  Seat: ["tread", "rated", "rated_for", "groove_for"],
  Connector: ["kind", "length", "working_load", "breaking", "wrapped", "legs"],
  Person: ["who", "at", "in"],
  Stop: ["after", "do", "load_held_by"],
  Signals: ["by", "agreed", "given_by"],
  Damper: ["line", "between", "weight"],
  Stage: ["name", "moves", "lines"],
  Resistance: ["steady", "breakaway", "found_by"],
};
const SECTIONS = [
  ["bodies", "What moves, vehicles, ground", "body"],
  ["points", "Points", "point"],
  ["winch", "Winch", ""],
  ["connectors", "Connectors", "connector"],
  ["redirects", "Redirects", "redirect"],
  ["lines", "Lines", "line"],
  ["people", "People", "person"],
  ["signals", "Signals", ""],
  ["stops", "Planned stops", "stop"],
  ["dampers", "Dampers", "damper"],
  ["stages", "Stages", "stage"],
];
const JOB = ["title", "reports_in", "works", "north", "notes", "kit"];
const SEATS = { block: ["sheave", "head"], ring: ["bore", "groove"] };
const GEAR_OF = { Piece: "piece", Join: "join", Connector: "connector", Redirect: "redirect", Winch: "winch", Point: "point" };
const CALLED = {
  pieces: "Pieces, from the drum outward", path: "Path, from the winch to the dead end", hung_from: "Hung from",
  rig_plan: "Form", reports_in: "Units of reports", on: "On", at: "Where", in: "Sits in", from_kit: "Number in the kit",
};

const words = (key) => CALLED[key] ?? key.replaceAll("_", " ").replace(/^./, (c) => c.toUpperCase());

export class Form {
  constructor(session, schema, gear, told) {
    Object.assign(this, { session, schema, gear, told });
    this.places = new Map(); // pointer of a field or card -> what shows its faults and signs
    this.root = h("div", { class: "form" });
    this.open = new Set();
  }

  get data() {
    return this.session.data;
  }

  get imperial() {
    return this.data.reports_in === "imperial";
  }

  render() {
    this.places.clear();
    if (!this.session.mendable) {
      this.root.replaceChildren(h("p", { class: "notice" }, "The plan's text can't be read as it stands, so there is no form for it. Mend it under Text: the lines that need it are marked there."));
      return this.root;
    }
    this.root.replaceChildren(this.jumps(), this.job(), ...SECTIONS.map((s) => this.section(...s)));
    this.marks();
    return this.root;
  }

  again(focus) {
    const active = focus ?? document.activeElement?.dataset?.at;
    const offset = this.root.parentElement?.scrollTop;
    this.render();
    if (offset !== undefined && this.root.parentElement) this.root.parentElement.scrollTop = offset;
    if (active) this.show(active);
  }

  edit(...edits) {
    this.session.edit(...edits);
    this.told();
  }

  restructure(focus, ...edits) {
    if (focus) this.unfold(focus);
    this.edit(...edits);
    this.again(focus);
  }

  unfold(pointer) {
    const steps = pointer.split("/");
    for (let n = 2; n <= steps.length; n += 1) this.open.add(steps.slice(0, n).join("/"));
  }

  // Opens what holds a place of the plan and goes there.
  show(pointer) {
    this.unfold(pointer);
    for (const box of this.root.querySelectorAll("details")) if (pointer === box.dataset.at || pointer.startsWith(`${box.dataset.at}/`)) box.open = true;
    let at = pointer;
    while (at && !this.root.querySelector(`[data-at="${CSS.escape(at)}"]`)) at = at.slice(0, at.lastIndexOf("/"));
    const found = at && this.root.querySelector(`[data-at="${CSS.escape(at)}"]`);
    if (!found) return;
    const target = found.matches("details") ? found.querySelector("summary") : found;
    target.focus();
    target.scrollIntoView({ block: "center" });
  }

  jumps() {
    const jump = (key, title) => button(title, () => this.show(`/${key}`), { class: "jump" });
    return h("nav", { class: "jumps", "aria-label": "Parts of the plan" }, SECTIONS.map(([key, title]) => jump(key, title)));
  }

  job() {
    return this.fold("/title-and-units", "The job", true, JOB.map((key) => this.field(this.schema.properties[key], `/${key}`, key, "Plan")));
  }

  fold(at, title, open, children, side = null) {
    const marks = h("span", { class: "marks" });
    const box = details([h("span", { class: "fold-title" }, title), marks], open || this.open.has(at), ...children);
    box.dataset.at = at;
    box.addEventListener("toggle", () => (box.open ? this.open.add(at) : this.open.delete(at)));
    this.places.set(at, { ...(this.places.get(at) ?? {}), marks });
    if (side) box.append(side);
    return box;
  }

  section(key, title, one) {
    const schema = this.schema.properties[key];
    const at = `/${key}`;
    const body = this.inside(schema, at, key, one);
    const count = this.data[key] && one ? Object.keys(this.data[key]).length : 0;
    const box = this.fold(at, count ? `${title} (${count})` : title, this.open.has(at), [h("p", { class: "hint" }, schema.description ?? ""), body]);
    box.classList.add("section");
    return box;
  }

  resolve(schema) {
    if (!schema.$ref) return { schema, name: "" };
    const name = schema.$ref.split("/").pop();
    return { schema: this.schema.$defs[name], name };
  }

  // A part of the plan that holds others: entries by name, a list, or fields.
  inside(schema, at, key, one) {
    const { schema: meant, name } = this.resolve(schema);
    if (meant.type === "object" && meant.properties) return this.group(meant, at, name);
    if (meant.type === "object") return this.entries(meant, at, one || key.replace(/s$/, ""));
    return this.list(meant, at, one || key.replace(/s$/, ""));
  }

  group(schema, at, name) {
    const given = value(this.data, at) ?? {};
    const keys = Object.keys(schema.properties);
    const first = FIRST[name] ?? keys;
    const seats = SEATS[given.kind] ?? [];
    const shown = keys.filter((k) => (name === "Redirect" && Object.values(SEATS).flat().includes(k) ? seats.includes(k) || k in given : first.includes(k) || k in given));
    const rest = keys.filter((k) => !shown.includes(k) && !(name === "Redirect" && Object.values(SEATS).flat().includes(k)));
    shown.sort((a, b) => (first.indexOf(a) + 99) % 99 - (first.indexOf(b) + 99) % 99);
    const fields = (list) => list.map((k) => this.field(schema.properties[k], join(at, k), k, name, schema.required?.includes(k)));
    const more = rest.length ? this.lazy("More facts", `${at}/ more`, () => fields(rest)) : null;
    return h("div", { class: "group" }, this.fromKit(at, name), fields(shown), more);
  }

  lazy(title, at, make) {
    const box = details(title, false);
    box.classList.add("more");
    const fill = () => box.childElementCount === 1 && box.append(...make().flat().filter(Boolean));
    if (this.open.has(at)) (box.open = true), fill();
    box.addEventListener("toggle", () => {
      box.open ? this.open.add(at) : this.open.delete(at);
      if (box.open) fill(), this.marks();
    });
    return box;
  }

  fromKit(at, name) {
    const kind = GEAR_OF[name];
    const choices = kind ? this.gear().filter(([, entry]) => entry.is === kind) : [];
    if (!choices.length) return null;
    const id = newId("kit");
    const now = value(this.data, join(at, "from_kit")) ?? "";
    const pick = (event) => {
      const chosen = choices.find(([number]) => number === event.target.value);
      const edits = chosen ? [{ op: "set", at: join(at, "from_kit"), value: chosen[0] }] : now ? [{ op: "remove", at: join(at, "from_kit") }] : [];
      if (chosen && !this.data.kit && chosen[2]) edits.push({ op: "set", at: "/kit", value: chosen[2] });
      if (edits.length) this.restructure(at, ...edits);
    };
    const told = ([number, entry]) => h("option", { value: number, selected: number === now }, [number, entry.kind ?? entry.rope ?? entry.is, entry.working_load ?? entry.breaking ?? entry.rated_pull ?? entry.rated ?? ""].filter(Boolean).join(", "));
    return h("div", { class: "field" }, h("label", { for: id }, "From the kit"), h("select", { id, onchange: pick }, h("option", { value: "" }, "not from a kit"), choices.map(told)));
  }

  field(schema, at, key, owner, required = false) {
    const { schema: meant, name } = this.resolve(schema);
    const label = words(key);
    const hint = schema.description ?? "";
    if (key === "path" || key === "hung_from") return this.chainField(at, key, label, hint);
    if (name === "place") return this.framed(at, label, hint, place({ given: value(this.data, at), imperial: this.imperial, points: Object.keys(this.data.points ?? {}).filter((p) => !at.startsWith(`/points/${p}/`)), label, changed: this.setter(at) }));
    if (meant.type === "object" || (meant.type === "array" && meant.items && (meant.items.$ref || meant.items.type === "object"))) return this.nested(schema, meant, at, key, label, hint);
    const id = newId("field");
    const attributes = { id, "data-at": at, "aria-describedby": `${id}-said`, required };
    const input = this.input({ schema: meant, name, at, key, owner, label, attributes });
    const said = h("p", { class: "said", id: `${id}-said` }, hint);
    const fault = h("p", { class: "fault" });
    this.places.set(at, { fault, input: input.matches?.("input,select,textarea") ? input : input.querySelector(`#${CSS.escape(id)}`) });
    const several = input.matches?.("[role=group]");
    const title = several ? h("span", { class: "label", id: `${id}-label` }, label) : h("label", { for: id }, label);
    if (several) input.setAttribute("aria-labelledby", `${id}-label`);
    return h("div", { class: "field" }, title, input, said, fault);
  }

  setter(at) {
    return (given) => {
      if (given === "" || given === undefined) {
        if (value(this.data, at) !== undefined) this.edit({ op: "remove", at });
      } else this.edit({ op: "set", at, value: given });
    };
  }

  input({ schema, name, at, key, owner, label, attributes }) {
    const now = value(this.data, at);
    const set = this.setter(at);
    if (isQuantity(name)) return quantity({ name, key, text: now, imperial: this.imperial, changed: set, label, attributes, exact: /bearing|^north|^climb|rated_direction|heading/.test(key) });
    const either = schema.oneOf ?? schema.anyOf;
    const listed = either?.find((s) => s.type === "array")?.items ?? (schema.type === "array" ? schema.items : null);
    if (listed?.enum) return this.several(listed.enum, at, now, label, Boolean(either));
    if (schema.enum) return this.choice(["", ...schema.enum], now, set, attributes, key === "kind" && owner === "Redirect" ? at : "");
    if (schema.type === "boolean") return this.choice(["", "yes", "no"], now === undefined ? "" : now ? "yes" : "no", (v) => set(v === "" ? "" : v === "yes"), attributes);
    const names = this.namesFor(key, at);
    if (listed) return this.several(names ?? [], at, now, label);
    if (names) return this.choice(["", ...new Set([...names, ...(now && !names.includes(now) ? [now] : [])])], now, set, attributes);
    if (schema.type === "integer") return h("input", { type: "text", inputmode: "numeric", value: now === undefined ? "" : String(now), oninput: (e) => set(/^[0-9]+$/.test(e.target.value) ? Number(e.target.value) : e.target.value), ...attributes });
    if (key === "notes" || key === "do") return h("textarea", { rows: "2", value: now ?? "", oninput: (e) => set(e.target.value), ...attributes });
    return h("input", { type: "text", autocomplete: "off", value: now === undefined ? "" : String(now), oninput: (e) => set(e.target.value), ...attributes });
  }

  choice(options, now, set, attributes, redraws = "") {
    const chosen = (event) => {
      set(event.target.value);
      if (redraws) this.again(redraws);
    };
    const known = options.includes(now ?? "") ? options : [...options, String(now)];
    return h("select", { onchange: chosen, ...attributes }, known.map((word) => h("option", { value: word, selected: word === (now ?? "") }, word || "not stated")));
  }

  several(options, at, now, label, orOne = false) {
    const given = new Set(Array.isArray(now) ? now : now === undefined ? [] : [now]);
    for (const one of given) if (!options.includes(one)) options = [...options, one];
    const change = (word, on) => {
      on ? given.add(word) : given.delete(word);
      const chosen = options.filter((o) => given.has(o));
      this.setter(at)(orOne && chosen.length === 1 ? chosen[0] : chosen.length ? chosen : "");
    };
    return h("div", { class: "several", role: "group", "data-at": at }, options.map((word) => {
      const id = newId("one");
      return h("label", { class: "chip", for: id }, h("input", { type: "checkbox", id, checked: given.has(word), onchange: (e) => change(word, e.target.checked) }), word);
    }), options.length ? null : h("span", { class: "hint" }, `Nothing to choose from yet for ${label.toLowerCase()}.`));
  }

  // The names that a key may refer to; null where it refers to none.
  namesFor(key, at) {
    const { bodies = {}, points = {}, redirects = {}, lines = {} } = this.data;
    if (key === "on") return [...Object.keys(bodies), ...("ground" in bodies ? [] : ["ground"])];
    if (key === "mounted" || key === "to") return Object.keys(points);
    if (key === "line") return Object.keys(lines);
    if (key === "in") return Object.keys(bodies).flatMap((b) => [`${b} cab`, b]);
    if (key === "watches") return [...Object.keys(redirects), ...this.pieces().filter(([, e]) => e?.kind).map(([n]) => n)];
    if (key === "between" || /\/between\//.test(at)) return ["winch", ...Object.keys(redirects), ...Object.keys(points)];
    return null;
  }

  pieces() {
    return Object.values(this.data.lines ?? {}).flatMap((line) => (line?.pieces ?? []).flatMap((e) => Object.entries(e ?? {})));
  }

  framed(at, label, hint, body) {
    const id = newId("frame");
    const fault = h("p", { class: "fault" });
    this.places.set(at, { fault });
    return h("div", { class: "frame", role: "group", "aria-labelledby": id, "data-at": at, tabindex: "-1" }, h("span", { class: "label", id }, label), hint && h("p", { class: "said" }, hint), body, fault);
  }

  nested(schema, meant, at, key, label, hint) {
    const given = value(this.data, at);
    if (given === undefined && meant.type === "object" && meant.properties) {
      const add = button(`Add: ${label.toLowerCase()}`, () => this.restructure(at, { op: "set", at, value: {} }), { class: "add" });
      return h("div", { class: "field" }, add, h("p", { class: "said" }, hint));
    }
    const drop = given !== undefined && meant.properties ? button(`Take out: ${label.toLowerCase()}`, () => this.restructure(at.slice(0, at.lastIndexOf("/")), { op: "remove", at }), { class: "drop" }) : null;
    const fault = h("p", { class: "fault" });
    const box = this.fold(at, label, given !== undefined, [h("p", { class: "said" }, hint), this.inside(schema, at, key, ""), fault, drop]);
    this.places.set(at, { ...this.places.get(at), fault });
    return box;
  }

  // Entries by name, each a card.
  entries(schema, at, one) {
    const given = value(this.data, at) ?? {};
    const cards = Object.keys(given).map((name) => this.card(schema.additionalProperties, join(at, name), name, one, `${name}`));
    return h("div", { class: "cards" }, cards, button(`Add a ${one}`, () => this.add(schema, at, one), { class: "add" }));
  }

  card(schema, at, name, one, title) {
    const { schema: meant, name: def } = this.resolve(schema);
    const given = value(this.data, at);
    const kind = typeof given?.kind === "string" ? `, ${given.kind}` : given?.moves ? ", the load" : "";
    const tools = h("div", { class: "row" },
      name ? button("Change the name", () => this.rename(at, name)) : null,
      button(`Take out this ${one}`, () => this.takeOut(at, title), { class: "drop" }));
    const fault = h("p", { class: "fault" });
    const body = meant.properties ? this.group(meant, at, def) : this.inside(schema, at, one, one);
    const box = this.fold(at, title + kind, false, [fault, body, tools]);
    this.places.set(at, { ...this.places.get(at), fault });
    box.classList.add("card");
    return box;
  }

  async add(schema, at, one) {
    const given = value(this.data, at) ?? {};
    const input = h("input", { type: "text", autocomplete: "off", autocapitalize: "off", value: newName(this.data, starter(at, given)) });
    const loads = at === "/bodies" && !Object.values(given).some((b) => b?.moves);
    const load = loads ? h("input", { type: "checkbox", id: newId("moves"), checked: true }) : null;
    const name = await asked(`Add a ${one}`, [
      labelled("Name, as it is called on the ground", input, "Letters, digits, _ and -; begins with a letter."),
      load && h("label", { class: "chip", for: load.id }, load, "It is the load: it must move"),
    ], { word: "Add", check: () => this.nameFault(asName(input.value)), value: () => asName(input.value) });
    if (!name) return;
    this.restructure(join(at, name), { op: "set", at: join(at, name), value: this.fresh(at, name, load?.checked) });
  }

  fresh(at, name, moves) {
    if (at === "/bodies") return moves ? { moves: {} } : {};
    if (/\/lines$/.test(at)) return { pieces: [{ [newName(this.data, "mainline")]: {} }], path: ["winch"] };
    if (/\/redirects$/.test(at)) return { kind: "block" };
    return {};
  }

  nameFault(name, now = "") {
    if (!NAME.test(name)) return "Write a name that begins with a letter.";
    if (name !== now && names(this.data).has(name)) return `There is something called ${name} already.`;
    return null;
  }

  async rename(at, name) {
    const input = h("input", { type: "text", autocomplete: "off", autocapitalize: "off", value: name });
    const to = await asked(`Another name for ${name}`, [labelled("Name", input, "Wherever the plan names it, the name changes with it.")],
      { word: "Change", check: () => this.nameFault(asName(input.value), name), value: () => asName(input.value) });
    if (!to || to === name) return;
    const holder = at.slice(0, at.lastIndexOf("/"));
    this.restructure(join(holder, to), ...mentions(this.data, name, to), { op: "rename", at, to });
  }

  async takeOut(at, title) {
    const sure = await asked(`Take ${title} out of the plan?`, [h("p", {}, "What else names it will be marked as a fault.")], { word: "Take it out", value: () => true });
    if (sure) this.restructure(at.slice(0, at.lastIndexOf("/")), { op: "remove", at });
  }

  list(schema, at, one) {
    const given = value(this.data, at) ?? [];
    const { schema: item, name: def } = this.resolve(schema.items);
    const isPieces = /\/pieces$/.test(at);
    const cards = given.map((entry, i) => {
      if (isPieces) return this.piece(entry, join(at, i));
      const title = typeof entry === "object" ? entry?.who ?? entry?.do ?? entry?.name ?? entry?.to ?? `${one} ${i + 1}` : `${one} ${i + 1}`;
      return this.card(schema.items, join(at, i), "", one, String(title));
    });
    const put = (v) => this.restructure(join(at, given.length), value(this.data, at) === undefined ? { op: "set", at, value: [v] } : { op: "add", at: join(at, "-"), value: v });
    const adds = isPieces
      ? button("Add a piece of rope", () => this.addPiece(at, given), { class: "add" })
      : button(`Add a ${one}`, () => put(item.properties ? blank(def) : ""), { class: "add" });
    return h("div", { class: "cards" }, cards, adds);
  }

  addPiece(at, given) {
    const rope = { [newName(this.data, "extension_1")]: {} };
    if (!given.length) return this.restructure(join(at, 0), { op: "set", at, value: [rope] });
    const tie = newName(this.data, "join_1");
    this.restructure(join(at, given.length, tie), { op: "add", at: join(at, "-"), value: { [tie]: { kind: "soft shackle" } } }, { op: "add", at: join(at, "-"), value: rope });
  }

  piece(entry, at) {
    const [name, facts] = Object.entries(entry ?? {})[0] ?? ["?", {}];
    const isJoin = facts && "kind" in facts;
    return this.card({ $ref: `#/$defs/${isJoin ? "Join" : "Piece"}` }, join(at, name), name, isJoin ? "join" : "piece of rope", name);
  }

  // A path or a hanger: places in order, each to be chosen.
  chainField(at, key, label, hint) {
    const box = h("div", { class: "chain" });
    const frame = this.framed(at, label, hint, box);
    const show = () => {
      const given = value(this.data, at);
      const list = Array.isArray(given) ? given : given === undefined ? [] : [given];
      const set = (next) => (this.edit(next.length ? { op: "set", at, value: next } : { op: "remove", at }), show());
      box.replaceChildren(...list.map((entry, i) => this.link(list, entry, i, key, set)), this.addLink(list, key, label, set));
      this.marks();
    };
    show();
    return frame;
  }

  link(list, entry, i, key, set) {
    const put = (v) => set(list.map((e, k) => (k === i ? v : e)));
    const swap = (by) => {
      const next = list.slice();
      [next[i], next[i + by]] = [next[i + by], next[i]];
      set(next);
    };
    const inner = Array.isArray(entry);
    const body = inner
      ? h("div", { class: "chain inner", role: "group", "aria-label": `Place ${i + 1}: connectors, then what they are made fast to` },
          entry.map((e, k) => this.link(entry, e, k, "hung_from", (next) => put(next.length > 1 ? next : next[0] ?? ""))),
          this.addLink(entry, "hung_from", "", (next) => put(next)))
      : this.pick(entry, key, `Place ${i + 1}`, put);
    const tools = [
      i > 0 ? button("↑", () => swap(-1), { "aria-label": `Place ${i + 1} earlier` }) : null,
      i < list.length - 1 ? button("↓", () => swap(1), { "aria-label": `Place ${i + 1} later` }) : null,
      key === "path" && !inner && entry !== "winch" && !entry.includes(".") ? button("With a connector", () => put([Object.keys(this.data.connectors ?? {})[0] ?? "", entry])) : null,
      button("✕", () => set(list.filter((_, k) => k !== i)), { "aria-label": `Take place ${i + 1} out`, class: "drop" }),
    ];
    return h("div", { class: "link" }, h("span", { class: "step", "aria-hidden": "true" }, String(i + 1)), body, h("div", { class: "tools" }, tools));
  }

  options(key) {
    const { points = {}, redirects = {}, connectors = {} } = this.data;
    const seats = Object.entries(redirects).flatMap(([n, r]) => (SEATS[r?.kind] ?? ["sheave"]).filter((s) => s !== "head").map((s) => `${n}.${s}`));
    return key === "path" ? ["winch", ...seats, ...Object.keys(points), ...Object.keys(redirects)] : [...Object.keys(connectors), ...Object.keys(points), ...Object.keys(redirects)];
  }

  pick(now, key, label, put) {
    const known = this.options(key);
    const all = known.includes(now) ? known : [now, ...known];
    return h("select", { "aria-label": label, onchange: (e) => put(e.target.value) }, all.map((o) => h("option", { value: o, selected: o === now }, o || "choose")));
  }

  addLink(list, key, label, set) {
    const id = newId("add");
    const add = (event) => event.target.value && set([...list, event.target.value]);
    return h("div", { class: "field" }, h("label", { for: id }, label ? `Add to: ${label.toLowerCase()}` : "Add"),
      h("select", { id, onchange: add }, h("option", { value: "" }, "choose"), this.options(key).map((o) => h("option", { value: o }, o))));
  }

  // Faults at their fields, signs at the folds that hold what was found.
  marks() {
    const { answer, fresh } = this.session;
    const faults = new Map();
    for (const problem of answer?.problems ?? []) {
      let at = problem.pointer;
      while (at && !this.places.has(at)) at = at.slice(0, at.lastIndexOf("/"));
      faults.set(at, [...(faults.get(at) ?? []), `${problem.what}; ${problem.serves}`]);
    }
    const worst = signsByPlace(answer);
    for (const [at, { fault, input, marks }] of this.places) {
      const said = faults.get(at) ?? [];
      if (fault) fault.textContent = said.length ? `${fresh ? "" : "Last time: "}${said.join(" ")}` : "";
      if (input) input.setAttribute("aria-invalid", String(said.length > 0));
      if (marks) {
        const here = [...worst].filter(([p]) => p === at || p.startsWith(`${at}/`)).map(([, g]) => g);
        const grade = ["DANGER", "WARNING", "CAUTION", "NOTICE"].find((g) => here.includes(g));
        const broken = (answer?.problems ?? []).filter((p) => p.pointer === at || p.pointer.startsWith(`${at}/`)).length;
        marks.replaceChildren(...[grade && sign(grade), broken ? h("span", { class: "sign sign-mend" }, `${broken} to mend`) : ""].filter(Boolean));
      }
    }
  }
}

function signsByPlace(answer) {
  const worst = new Map();
  const ranks = ["DANGER", "WARNING", "CAUTION", "NOTICE"];
  for (const finding of answer?.findings ?? []) {
    const at = finding.check.where.pointer;
    if (finding.result === "failed" && (!worst.has(at) || ranks.indexOf(finding.grade) < ranks.indexOf(worst.get(at)))) worst.set(at, finding.grade);
  }
  return worst;
}

const starter = (at, given) => ({ "/bodies": Object.keys(given).length ? "tender" : "load", "/points": "point_1", "/connectors": "shackle_1", "/redirects": "block_1", "/lines": "haul" })[at] ?? "part_1";

const blank = (def) => ({ Person: { who: "spotter" }, Stop: { do: "stop and look" }, Stage: { name: "next stage" } })[def] ?? {};
