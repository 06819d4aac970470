// The plans and kits on this device: open, make, import, export, take away.

import { asked, button, h, labelled, save } from "./dom.js";
import { counts, verdictSign } from "./findings.js";

const LARGEST = 1_000_000;

export function plansView(app) {
  const rows = app.plans.slice().sort((a, b) => (b.changed ?? "").localeCompare(a.changed ?? ""));
  return h("div", { class: "plans" },
    h("div", { class: "row wide" },
      button("New plan", () => newPlan(app), { class: "main" }),
      picker("Import a plan", ".yaml,.yml,text/*", (file) => importPlan(app, file)),
      app.given.examples?.length ? button("Look at an example", () => example(app)) : null),
    h("h2", {}, "Plans on this device"),
    rows.length ? h("ul", { class: "list plans-list" }, rows.map((record) => row(app, record))) : h("p", {}, "None yet. Make a new one, or import a YAML file."),
    h("h2", {}, "Kits on this device"),
    h("p", { class: "hint" }, "A kit is a register of gear with ratings and inspections; plans pick gear from it."),
    h("ul", { class: "list" }, app.kitRows().map((kit) => h("li", { class: "plan-row" }, h("span", { class: "plan-name" }, kit.name, h("span", { class: "where" }, ` ${Object.keys(kit.gear).length} pieces of gear${kit.builtIn ? ", built in" : ""}`)), kit.builtIn ? null : button("Take away", () => app.dropKit(kit.name), { class: "drop" })))),
    h("div", { class: "row" }, picker("Import a kit", ".yaml,.yml,text/*", (file) => importKit(app, file))));
}

function row(app, record) {
  const open = record.id === app.session?.record.id;
  return h("li", { class: "plan-row", "aria-current": open ? "true" : undefined },
    button([h("strong", {}, record.data?.title ?? record.name), h("span", { class: "where" }, ` ${record.name}`)], () => app.open(record.id).then(() => app.go("rig")), { class: "open" }),
    h("span", { class: "signs" }, verdictSign(record.answer), counts(record.answer)),
    h("div", { class: "row" },
      button("Export", () => exportPlan(app, record.id), { "aria-label": `Export ${record.name}` }),
      button("Take away", () => takeAway(app, record), { class: "drop", "aria-label": `Take away ${record.name}` })));
}

function picker(text, accept, take) {
  const input = h("input", { type: "file", accept, hidden: true, onchange: async () => {
    const [file] = input.files;
    input.value = "";
    if (file) await take(file);
  } });
  return h("span", { class: "picker" }, button(text, () => input.click()), input);
}

export async function exportPlan(app, id) {
  const record = app.session?.record.id === id ? app.session.record : app.plans.find((p) => p.id === id);
  if (record.edits.length) await app.folded(record);
  save(record.name, record.text, "application/yaml");
}

async function newPlan(app) {
  const title = h("input", { type: "text", autocomplete: "off", value: "" });
  const units = h("select", {}, ["metric", "imperial"].map((u) => h("option", { value: u }, u)));
  const given = await asked("A new plan", [labelled("What the job is, in a line", title), labelled("Units", units)],
    { word: "Make it", check: () => (title.value.trim() ? null : "Write what the job is."), value: () => ({ title: title.value.trim(), units: units.value }) });
  if (!given) return;
  const data = { rig_plan: 1, title: given.title, reports_in: given.units };
  const text = `rig_plan: 1\ntitle: ${JSON.stringify(given.title)}\nreports_in: ${given.units}\n`;
  await app.take({ name: `${fileName(given.title)}.yaml`, text, data });
  app.go("rig");
}

const fileName = (title) => title.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60) || "plan";

async function example(app) {
  const choose = h("select", {}, app.given.examples.map((e, i) => h("option", { value: String(i) }, e.title)));
  const index = await asked("Look at an example", [labelled("Example", choose, "It becomes a plan of your own on this device.")], { word: "Open it", value: () => Number(choose.value) });
  if (index === null) return;
  const { name, text } = app.given.examples[index];
  await app.take({ name, text, data: null });
  app.go("findings");
}

async function read(file) {
  if (file.size > LARGEST) throw new Error(`it has ${Math.round(file.size / 1000)} kB, more than any plan needs`);
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(await file.arrayBuffer());
  } catch {
    throw new Error("it isn't text in UTF-8");
  }
}

async function importPlan(app, file) {
  try {
    const text = await read(file);
    const answer = await app.engine.work(text, { name: file.name });
    if (!answer.data || typeof answer.data !== "object" || Array.isArray(answer.data)) throw new Error(answer.problems?.length ? first(answer.problems) : "it isn't a rig plan");
    if (!("rig_plan" in answer.data)) throw new Error("it isn't a rig plan: it doesn't begin with `rig_plan: 1`");
    await app.take({ name: /\.ya?ml$/i.test(file.name) ? file.name : `${file.name}.yaml`, text, data: answer.data });
    app.go("findings");
  } catch (error) {
    app.say(`${file.name} was not imported: ${error.message}. Nothing on this device was changed.`, "fault");
  }
}

const first = (problems) => problems.slice(0, 3).map((p) => `line ${p.line}: ${p.what}; ${p.serves}`).join(". ");

async function importKit(app, file) {
  try {
    const text = await read(file);
    const answer = await app.engine.keepKit(file.name, text);
    if (answer.problems) throw new Error(first(answer.problems));
    await app.addKit({ name: answer.name, text, gear: answer.gear });
    app.say(`${answer.name}: ${Object.keys(answer.gear).length} pieces of gear taken in.`);
  } catch (error) {
    app.say(`${file.name} was not imported: ${error.message}. Nothing on this device was changed.`, "fault");
  }
}

async function takeAway(app, record) {
  const sure = await asked(`Take ${record.name} off this device?`, [h("p", {}, "The plan, its ticks and its signed records go for good. Export it first if it may be wanted.")], { word: "Take it away", value: () => true });
  if (sure) await app.drop(record.id);
}
