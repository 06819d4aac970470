// One open plan: every edit is kept at once, and checked as soon as the engine has a hand free.
// Typing never waits: the engine works on a copy, and an answer that is out of date only brings the text on.

import { apply, joined } from "./plan.js";

const PAUSE_MS = 10; // what is typed while the engine works waits for it anyway

export const today = () => {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
};

// The time here, with how far it is from UTC.
export function stamp(now = new Date()) {
  const two = (n) => String(Math.trunc(Math.abs(n))).padStart(2, "0");
  const east = -now.getTimezoneOffset();
  const time = [now.getHours(), now.getMinutes(), now.getSeconds()].map(two).join(":");
  return `${today()}T${time}${east < 0 ? "-" : "+"}${two(east / 60)}:${two(east % 60)}`;
}

export class Session {
  constructor(record, engine, keeper, told) {
    Object.assign(this, { record, engine, keeper, told });
    this.begun = 0; // edits that the engine is working on
    this.busy = false;
    this.checked = ""; // the day for which this engine checked the text as it stands
    this.asked = ""; // the day for which it checks now
    this.station = "start";
    this.stage = 0;
    this.shut = false;
    this.tries = null; // of remedies, by finding: under way, found or failed
    this.data = record.data ? structuredClone(record.data) : null;
    for (const edit of record.data ? record.edits : []) apply(this.data, edit);
  }

  // What is due and what was let pass hang on the day: yesterday's answer is none for today.
  get fresh() {
    return this.checked === today();
  }

  // The other day for which the answer was worked out, where it isn't today's.
  get otherDay() {
    const day = this.sheet?.day;
    return day && day !== today() ? day : null;
  }

  get answer() {
    return this.record.answer ?? null;
  }

  get mendable() {
    return this.data !== null && typeof this.data === "object" && !Array.isArray(this.data);
  }

  edit(...edits) {
    for (const edit of edits) {
      apply(this.data, edit);
      joined(this.record.edits, edit, this.begun);
    }
    this.changed();
  }

  write(text) {
    this.record.text = text;
    this.record.edits = [];
    this.begun = 0;
    this.changed();
  }

  changed() {
    this.checked = "";
    this.forget();
    this.record.changed = new Date().toISOString();
    this.keep();
    this.told("changed");
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.work(), PAUSE_MS);
  }

  keep() {
    return this.keeper.keep(this.record);
  }

  leave() {
    this.shut = true;
    this.forget();
  }

  // What would put one finding right, tried in a worker of its own, which stays for the next one that is asked about.
  // Any change of the plan breaks it off.
  async seek(finding) {
    if (!this.fresh || this.tries?.now) return;
    const tries = (this.tries ??= { sheet: this.sheet.sheet, text: this.record.text, of: new Map(), now: null, bench: null });
    const one = { tried: 0, found: null, failed: "" };
    tries.of.set(finding, one);
    tries.now = one;
    tries.bench ??= this.engine.another();
    this.told("remedies");
    const heard = (tried) => {
      one.tried = tried;
      if (this.tries === tries) this.told("tried");
    };
    try {
      const answer = await tries.bench.remedies(tries.text, { name: this.record.name, today: today(), finding }, heard);
      one.found = answer.remedies;
    } catch (error) {
      one.failed = error.message;
    }
    if (this.tries !== tries) return;
    tries.now = null;
    if (one.failed) {
      tries.bench.stop();
      tries.bench = null;
    }
    this.told("remedies");
  }

  forget() {
    this.tries?.bench?.stop();
    this.tries = null;
  }

  // The tries for what is shown now, if there are any.
  get trying() {
    return this.tries?.sheet === this.sheet?.sheet ? this.tries : null;
  }

  look(stage, station) {
    this.stage = stage;
    this.station = station;
    return this.work();
  }

  // The page may lie open over midnight, or come out of a pocket days later.
  dayTurned() {
    if (!this.asked || this.asked === today()) return false;
    this.told("day");
    this.work();
    return true;
  }

  async work() {
    if (this.busy) return void (this.again = true);
    this.busy = true;
    do {
      this.again = false;
      await this.once();
    } while (this.again && !this.shut);
    this.busy = false;
  }

  async once() {
    const { record } = this;
    const { text } = record;
    const edits = record.edits.slice();
    this.begun = edits.length;
    const asked = performance.now();
    const day = today();
    this.asked = day;
    try {
      const options = { name: record.name, today: day, edits, stage: this.stage, station: this.station };
      const answer = await this.engine.work(text, options);
      answer.took = performance.now() - asked;
      this.take(answer, text, edits.length, day);
    } catch (error) {
      this.told("broken", error.message);
    }
    this.begun = 0;
  }

  take(answer, text, folded, day) {
    const { record } = this;
    if (this.shut || record.text !== text) return; // written over meanwhile: the next round is on its way
    record.text = answer.text;
    record.edits.splice(0, folded);
    if (answer.unedited) this.told("unedited", answer.unedited);
    const same = JSON.stringify(record.data) === JSON.stringify(answer.data);
    record.data = answer.data;
    if (record.edits.length === 0) {
      this.data = structuredClone(answer.data);
      this.checked = day;
    }
    record.answer = answer;
    this.voidTicks();
    this.keep();
    this.told("answer", same);
  }

  // Ticks are for one text of the plan, and for what was found in it: the digest of the sheet stands for both.
  voidTicks() {
    const { ticks } = this.record;
    if (ticks && ticks.sheet !== this.sheet?.sheet) {
      if (Object.keys(ticks.at).length) this.told("voided");
      this.record.ticks = null;
    }
  }

  get sheet() {
    return this.answer?.checklist?.sheet;
  }

  get ticked() {
    const { ticks } = this.record;
    return ticks && ticks.sheet === this.sheet?.sheet ? ticks.at : {};
  }

  tick(id, on) {
    const ticks = (this.record.ticks ??= { sheet: this.sheet.sheet, at: {} });
    if (on) ticks.at[id] = stamp();
    else delete ticks.at[id];
    this.keep();
  }
}
