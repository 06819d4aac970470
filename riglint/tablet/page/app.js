// The page: one plan open at a time, seven views of it, and a line at the top that always tells how it stands.

import { button, details, h, newId, picture, sign } from "./dom.js";
import { Engine } from "./engine.js";
import { checks } from "./checks.js";
import { counts, findings, verdictSign, verdictWords } from "./findings.js";
import { Form } from "./form.js";
import { begin, changeOver, installed } from "./offline.js";
import { exportPlan, plansView } from "./plans.js";
import { pull } from "./pull.js";
import { acts, triedSoFar } from "./remedies.js";
import { Session } from "./session.js";
import * as store from "./store.js";
import { TextView } from "./text.js";

const VIEWS = [
  ["plans", "Plans"], ["rig", "Rig"], ["findings", "Findings"], ["picture", "Picture"], ["pull", "Pull"], ["checks", "Checks"], ["text", "Text"],
];
const LAST = "riglint-last";
const DAY_LOOK_MS = 15_000;

class App {
  constructor(given) {
    this.given = given;
    this.plans = [];
    this.kits = [];
    this.about = null;
    this.session = null;
    this.offline = {};
    this.engineState = "starting";
    this.view = "plans";
    this.keeper = new store.Keeper((error, record) => this.kept(error, record));
  }

  async begin() {
    this.shell();
    this.engine = new Engine((state, told) => this.heard(state, told));
    try {
      await store.open();
      const kept = await store.plans();
      const { plans, again, apart } = store.recovered(kept);
      this.plans = plans;
      for (const record of again) await this.keeper.keep(record);
      for (const record of apart) await this.apart(record);
      this.kits = await store.kits();
    } catch (error) {
      this.say(`This browser can't keep plans here (${error.message}). Work on, and export each plan before you close the page.`, "fault", true);
    }
    for (const kit of this.kits) this.engine.keepKit(kit.name, kit.text).catch(() => {});
    const { id, view } = remembered();
    const last = this.plans.find((p) => p.id === id) ?? this.newest(); // a killed browser may have forgotten which
    if (last) await this.open(last.id);
    this.go(location.hash.slice(1) || (this.session ? view : "plans"));
    addEventListener("hashchange", () => this.go(location.hash.slice(1)));
    addEventListener("pagehide", () => this.session?.keep());
    document.addEventListener("visibilitychange", () => document.hidden || this.session?.dayTurned() || this.session?.work()); // it may be another day
    setInterval(() => this.session?.dayTurned(), DAY_LOOK_MS);
    begin((told) => this.heardOffline(told));
  }

  shell() {
    this.title = h("h1", {}, "riglint");
    this.state = h("p", { class: "state", role: "status" });
    this.standing = h("div", { class: "standing" });
    this.said = h("div", { class: "said-box", role: "alert" });
    this.tabs = h("nav", { class: "tabs", "aria-label": "Views" }, VIEWS.map(([key, word]) => h("a", { href: `#${key}`, class: "tab", "data-view": key }, word)));
    this.main = h("main", { id: "main", tabindex: "0" });
    this.side = h("aside", { class: "side", "aria-label": "Picture and findings" });
    const light = button("", () => this.light(document.documentElement.dataset.light === "dark" ? "bright" : "dark"), { class: "light" });
    this.lightButton = light;
    document.body.replaceChildren(
      h("a", { class: "skip", href: "#main", onclick: (e) => (e.preventDefault(), this.main.focus()) }, "To the content"),
      h("header", { class: "top" }, h("div", { class: "who" }, this.title, this.state), this.standing, light),
      this.tabs, this.said, h("div", { class: "work" }, this.main, this.side));
    this.light(lastLight() ?? "bright");
  }

  light(word) {
    document.documentElement.dataset.light = word;
    this.lightButton.textContent = word === "dark" ? "Bright" : "Dark";
    this.lightButton.setAttribute("aria-label", word === "dark" ? "Bright page, for the sun" : "Dark page, for the night");
    try {
      localStorage.setItem("riglint-light", word);
    } catch { /* it is only a convenience */ }
  }

  heard(state, told) {
    this.engineState = state;
    if (state === "ready") {
      this.about = told;
      this.session?.work();
      if (this.view === "rig" || this.view === "plans") this.draw();
    }
    if (state === "broken") this.say(`The engine stopped: ${told}.`, "fault", true, ["Start it again", () => this.engine.again()]);
    this.top();
  }

  heardOffline(told) {
    Object.assign(this.offline, told);
    if (told.failed) this.say(`This page could not be kept for use without a network: ${told.failed}.`, "fault");
    this.top();
    if (this.view === "plans") this.draw();
  }

  kept(error, record) {
    if (!error) {
      this.full?.remove();
      const index = this.plans.findIndex((p) => p.id === record.id);
      if (index >= 0) this.plans[index] = record;
      else this.plans.push(record);
      return;
    }
    if (error instanceof store.ElsewhereError) return void this.apart(record);
    const full = error.name === "QuotaExceededError" || /quota|full/i.test(error.message ?? "");
    const why = full ? "the device's storage is full" : error.message;
    this.full?.remove();
    this.full = this.say(`The last change could not be kept on this device: ${why}. It is still on this page. Export the plan now, then make room.`, "fault", true, ["Export the plan", () => exportPlan(this, record.id)]);
  }

  // Another window wrote this plan: what was done here goes on as a plan of its own, so that neither is lost.
  async apart(record) {
    const { id, hand } = record;
    record.id = store.newRecordId();
    record.name = this.freeName(record.name);
    record.rev = 0;
    this.say(`This plan was changed in another window. What you did here is kept as ${record.name}.`, "fault", true);
    if (this.session?.record === record) remember(record.id, this.view);
    await this.keeper.keep(record);
    store.struck(id, hand);
    const theirs = await store.plan(id).catch(() => null);
    this.plans = [...this.plans.filter((p) => p !== record && p.id !== id), record, ...(theirs ? [theirs] : [])];
    if (this.view === "plans") this.draw();
  }

  newest() {
    return this.plans.slice().sort((a, b) => (b.changed ?? "").localeCompare(a.changed ?? ""))[0];
  }

  freeName(name) {
    const taken = new Set(this.plans.map((p) => p.name));
    const [, stem, end] = /^(.*?)(\.ya?ml)?$/i.exec(name);
    let free = name;
    for (let n = 2; taken.has(free); n += 1) free = `${stem} (${n})${end ?? ""}`;
    return free;
  }

  async take({ name, text, data }) {
    const record = { form: 1, id: store.newRecordId(), name: this.freeName(name), text, edits: [], data, answer: null, ticks: null, signed: [], changed: new Date().toISOString(), rev: 0 };
    this.plans.push(record);
    this.enter(record);
    await this.session.keep();
  }

  async open(id) {
    const record = (await store.plan(id).catch(() => null)) ?? this.plans.find((p) => p.id === id);
    if (record) this.enter(record);
  }

  enter(record) {
    this.session?.leave();
    this.session = new Session(record, this.engine, this.keeper, (what, told) => this.changed(what, told));
    this.form = this.textView = null;
    remember(record.id, this.view);
    this.session.work();
    this.top();
  }

  async drop(id) {
    if (this.session?.record.id === id) {
      this.session.leave();
      this.session = null;
    }
    await this.keeper.letGo(id); // else what waits to be written would bring it back
    await store.remove(id);
    this.plans = this.plans.filter((p) => p.id !== id);
    this.go("plans");
  }

  // A plan that isn't open, whose last edits aren't in its text yet.
  async folded(record) {
    const answer = await this.engine.work(record.text, { name: record.name, edits: record.edits });
    record.text = answer.text;
    record.edits.length = 0;
  }

  kitRows() {
    const builtIn = (this.about?.kits ?? []).map((kit) => ({ ...kit, builtIn: true }));
    return [...builtIn, ...this.kits];
  }

  gear() {
    return this.kitRows().flatMap((kit) => Object.entries(kit.gear).map(([number, entry]) => [number, entry, kit.name]));
  }

  async addKit(kit) {
    this.kits = [...this.kits.filter((k) => k.name !== kit.name), kit];
    await store.keepKit(kit);
    this.session?.work();
    this.draw();
  }

  async dropKit(name) {
    this.kits = this.kits.filter((k) => k.name !== name);
    await store.removeKit(name);
    this.draw();
  }

  changed(what, told) {
    if (what === "voided") this.say("The plan changed: the ticks are void. Go through the checks again.", "fault");
    if (what === "unedited") this.say(`An edit could not be written into the plan: ${told}.`, "fault");
    if (what === "broken") this.say(`The plan could not be checked: ${told}.`, "fault");
    if (what === "tried") return void this.main.querySelectorAll("[data-tried]").forEach((p) => (p.textContent = triedSoFar(this.session.tries.now)));
    if (what === "remedies") return void (this.view === "findings" && this.draw(document.activeElement?.dataset.item));
    this.top();
    if (what === "day" && this.view === "checks") this.draw(document.activeElement?.dataset.item);
    if (what !== "answer") return;
    this.form?.marks();
    this.textView?.refresh();
    if (["findings", "picture", "pull"].includes(this.view) || (this.view === "checks" && this.drawn !== this.standingNow())) this.draw();
    this.sideDraw();
    document.documentElement.dataset.checked = String((this.count = (this.count ?? 0) + 1));
  }

  top() {
    const { record, answer, fresh } = this.session ?? {};
    this.title.textContent = record ? this.session.data?.title ?? record.name : "riglint";
    document.title = record ? `${this.title.textContent}: riglint` : "riglint";
    const engine = { starting: "Engine is starting", ready: "", broken: "Engine stopped" }[this.engineState];
    const otherDay = this.session?.otherDay;
    const plan = !record ? "" : otherDay ? `Worked out for ${otherDay}, not for today; being worked out anew` : fresh ? "Checked as it stands" : answer ? "Shows the last check; checking" : "Checking";
    const off = !installed() ? (globalThis.riglintOneFile ? "One file: needs no network" : "") : this.offline.ready ? "Ready offline" : "Not ready offline yet";
    const text = [engine, otherDay || !engine ? plan : "", off, this.offline.waiting ? "A newer riglint waits" : ""].filter(Boolean).join(". ");
    if (this.state.textContent !== text) this.state.textContent = text;
    this.standing.replaceChildren(...(record ? [verdictSign(answer), h("span", { class: "counts" }, counts(answer))] : []));
    document.documentElement.dataset.fresh = String(Boolean(fresh));
    document.documentElement.dataset.engine = this.engineState;
  }

  say(text, kind = "note", stays = false, act = null) {
    const box = h("div", { class: `message ${kind}` }, h("p", {}, text), h("div", { class: "row" }, act ? button(act[0], () => (box.remove(), act[1]())) : null, button("Close", () => box.remove(), { "aria-label": "Close this message" })));
    this.said.append(box);
    if (!stays && kind === "note") setTimeout(() => box.remove(), 12_000);
    return box;
  }

  go(view) {
    const known = VIEWS.some(([key]) => key === view) ? view : "plans";
    this.view = this.session ? known : "plans";
    if (location.hash !== `#${this.view}`) history.replaceState(null, "", `#${this.view}`);
    if (this.session) remember(this.session.record.id, this.view);
    for (const tab of this.tabs.children) {
      const here = tab.dataset.view === this.view;
      here ? tab.setAttribute("aria-current", "page") : tab.removeAttribute("aria-current");
      tab.toggleAttribute("data-off", !this.session && tab.dataset.view !== "plans");
    }
    document.documentElement.dataset.view = this.view;
    this.draw();
    this.main.scrollTop = 0;
  }

  // What the checks were drawn for: as long as it is the same they stay as they are, under the thumb.
  standingNow() {
    return `${this.session?.record.id} ${this.session?.sheet?.sheet} ${this.session?.fresh}`;
  }

  draw(focus) {
    this.drawn = this.standingNow();
    const kept = this.main.scrollTop;
    this.main.replaceChildren(...[this.views()[this.view]()].flat(Infinity).filter(Boolean));
    this.main.scrollTop = kept;
    if (focus) this.main.querySelector(`[data-item="${CSS.escape(focus)}"]`)?.focus();
    this.sideDraw();
  }

  views() {
    const { session } = this;
    const heading = (word, hint) => h("h2", { class: "view-title" }, word, hint ? h("span", { class: "hint" }, hint) : null);
    return {
      plans: () => [plansView(this), this.about1()],
      rig: () => this.rig(),
      findings: () => [heading("Findings", verdictWords(session.answer)), findings(session.answer, acts(this))],
      picture: () => [heading("Picture"), this.pictureView()],
      pull: () => [heading("Pull"), pull(session.answer)],
      checks: () => [heading("Checks"), checks(session, (focus) => this.draw(focus))],
      text: () => ((this.textView ??= new TextView(session, () => this.top())), this.textView.refresh(), [heading("Text", "the plan's own YAML"), this.textView.root]),
    };
  }

  rig() {
    if (!this.about) return [h("h2", { class: "view-title" }, "Rig"), h("p", { class: "notice" }, "The form opens as soon as the engine is there, in a moment. The last result is under the other views.")];
    this.form ??= new Form(this.session, this.about.schema, () => this.gear(), () => this.top());
    return [h("h2", { class: "view-title" }, "Rig"), this.form.render()];
  }

  show(pointer, line) {
    if (!this.session.mendable || !pointer) {
      this.go("text");
      if (line) this.textView.go(line);
      return;
    }
    this.go("rig");
    this.form?.show(pointer);
  }

  drawing() {
    const { answer } = this.session;
    if (!answer?.picture) return h("p", { class: "notice" }, "There is a picture once the plan can be read.");
    if (this.drawnPicture?.text !== answer.picture) this.drawnPicture = { text: answer.picture, shown: picture(answer.picture) };
    return h("div", { class: "drawing" }, this.drawnPicture.shown);
  }

  pictureView() {
    const { answer } = this.session;
    const stages = answer?.stages ?? [];
    const stageId = newId("stage");
    const placeId = newId("place");
    const stations = stages[this.session.stage]?.stations ?? [];
    const at = (s) => (s.travel_m ? `${s.travel_m} m` : "start");
    const look = (stage, station) => this.session.look(stage, station);
    return [
      h("div", { class: "row" },
        stages.length > 1 ? h("div", { class: "field" }, h("label", { for: stageId }, "Stage"), h("select", { id: stageId, onchange: (e) => look(Number(e.target.value), "start") }, stages.map((s, i) => h("option", { value: String(i), selected: i === this.session.stage }, s.name)))) : null,
        stations.length > 1 ? h("div", { class: "field" }, h("label", { for: placeId }, "Place on the travel"), h("select", { id: placeId, onchange: (e) => look(this.session.stage, e.target.value) }, stations.map((s) => h("option", { value: at(s), selected: at(s) === this.session.station }, `${s.travel_m.toFixed(1)} m, ${s.title}`)))) : null,
        button(this.large ? "Fit to the page" : "Larger", () => ((this.large = !this.large), this.draw()), { class: "end" })),
      h("div", { class: this.large ? "large" : "fitted" }, this.drawing()),
    ];
  }

  sideDraw() {
    const beside = this.session && ["rig", "text"].includes(this.view);
    this.side.hidden = !beside;
    if (!beside) return;
    const open = this.side.querySelector("details.beside")?.open ?? true;
    const failed = (this.session.answer?.findings ?? []).filter((f) => f.result === "failed").slice(0, 6);
    const fold = details("Picture and first findings", open,
      this.drawing(),
      h("ul", { class: "list short" }, failed.map((f) => h("li", {}, sign(f.grade), " ", f.check.message))),
      (this.session.answer?.problems ?? []).slice(0, 6).map((p) => h("p", { class: "short" }, `To mend, line ${p.line}: ${p.what}; ${p.serves}`)));
    fold.className = "beside";
    this.side.replaceChildren(fold);
  }

  about1() {
    const { version } = this.about ?? {};
    const rows = [
      version ? `riglint ${version}.` : "",
      globalThis.riglintOneFile ? "This is the one-file form: plans are kept in this browser for this file's place. A browser may treat a moved or renamed file as another place, so export what must last." : "",
      installed() && this.offline.ready ? "Every file of this page is on this device: it works with no network." : "",
      !installed() && !globalThis.riglintOneFile ? "Opened over a plain network address, a browser keeps no page for use without a network: open it by https, or from this machine itself." : "",
      this.offline.lasting === false ? "This browser may clear its storage when the device runs short: install the page, or export plans." : "",
    ];
    const change = this.offline.waiting ? button("Change over to the newer riglint", () => this.changeOver()) : null;
    return h("section", { class: "about" }, h("h2", {}, "About"), rows.filter(Boolean).map((r) => h("p", {}, r)), h("div", { class: "row" }, change));
  }

  changeOver() {
    const ticking = this.plans.some((p) => p.ticks && Object.keys(p.ticks.at).length && !(p.signed ?? []).some((s) => s.sheet === p.ticks.sheet));
    if (ticking) return void this.say("A checklist is under way. Sign it off first, then change over.", "fault");
    changeOver();
  }
}

function lastLight() {
  try {
    return localStorage.getItem("riglint-light");
  } catch {
    return null;
  }
}

function remember(id, view) {
  try {
    localStorage.setItem(LAST, JSON.stringify({ id, view }));
  } catch { /* the list of plans is still there */ }
}

function remembered() {
  try {
    return JSON.parse(localStorage.getItem(LAST)) ?? {};
  } catch {
    return {};
  }
}

const given = JSON.parse(document.getElementById("given")?.textContent ?? "{}");
globalThis.riglint = new App(given);
globalThis.riglint.begin();
