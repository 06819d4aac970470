// Plans, kits and signed records in the browser's own database. What can't be kept is said at once.

const NAME = "riglint";
const FORM = 1; // of the database; a later form must keep what is in it

const HAND = newRecordId(); // of this page, as long as it is open: tells its own writes from those of another window

let base = null;

export function newRecordId() {
  return globalThis.crypto?.randomUUID?.() ?? `${Date.now()}-${Math.random().toString(36).slice(2)}`;
}

export function open() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, FORM);
    request.onupgradeneeded = ({ oldVersion }) => {
      if (oldVersion < 1) {
        request.result.createObjectStore("plans", { keyPath: "id" });
        request.result.createObjectStore("kits", { keyPath: "name" });
      }
    };
    request.onblocked = () => reject(new Error("riglint is open in an older form elsewhere: close the other windows"));
    request.onerror = () => reject(request.error);
    request.onsuccess = () => {
      base = request.result;
      base.onversionchange = () => base.close();
      resolve();
    };
  });
}

function inBase(store, mode, act) {
  return new Promise((resolve, reject) => {
    if (!base) return reject(new Error("this browser keeps no database"));
    const exchange = base.transaction(store, mode, { durability: "strict" });
    const request = act(exchange.objectStore(store));
    exchange.oncomplete = () => resolve(request?.result);
    exchange.onerror = exchange.onabort = () => reject(exchange.error ?? request?.error ?? new Error("it was broken off"));
  });
}

// An answer is large and written with every key that is struck: as one text it costs next to nothing.
const texts = new WeakMap();

function packed(answer) {
  if (!answer) return null;
  if (!texts.has(answer)) texts.set(answer, JSON.stringify(answer));
  return texts.get(answer);
}

const unpacked = (record) => (typeof record?.answer === "string" ? { ...record, answer: JSON.parse(record.answer) } : record);

export const plans = () => inBase("plans", "readonly", (s) => s.getAll()).then((all) => all.map(unpacked));
export const plan = (id) => inBase("plans", "readonly", (s) => s.get(id)).then(unpacked);
export const remove = (id) => (forgotten(id), inBase("plans", "readwrite", (s) => s.delete(id)));
export const kits = () => inBase("kits", "readonly", (s) => s.getAll());
export const keepKit = (kit) => inBase("kits", "readwrite", (s) => s.put(kit));
export const removeKit = (name) => inBase("kits", "readwrite", (s) => s.delete(name));

export class ElsewhereError extends Error {}

// Writes a plan unless another window wrote something else since it was read here: then nothing is overwritten.
// Resolves to the turn that it has in the database.
function put(record) {
  let fault = null;
  let { rev } = record;
  return inBase("plans", "readwrite", (s) => {
    const before = s.get(record.id);
    before.onsuccess = () => {
      try {
        const kept = before.result;
        if (kept !== undefined && kept.rev !== rev && !alike(kept, record)) throw new ElsewhereError("changed in another window");
        rev = (kept?.rev ?? rev) + 1;
        s.put({ ...record, rev });
      } catch (error) {
        fault = error;
        s.transaction.abort();
      }
    };
    return before;
  }).then(
    () => rev,
    (error) => {
      throw fault ?? error;
    },
  );
}

const OWN = ["name", "text", "edits", "ticks", "signed", "draft"]; // what a person made of a plan
const alike = (a, b) => OWN.every((key) => JSON.stringify(a[key]) === JSON.stringify(b[key]));

// What is on its way to the database stands here meanwhile, written at once: a page that is shut or killed in mid
// write has it back when it opens again.
const UNKEPT = "riglint-unkept/";

function jot(record) {
  try {
    localStorage.setItem(UNKEPT + record.id, JSON.stringify({ ...record, answer: null }));
  } catch {
    forgotten(record.id); // the database has it in a moment; what stood here is out of date
  }
}

function jotted() {
  const places = Array.from({ length: localStorage.length }, (_, i) => localStorage.key(i)).filter((key) => key.startsWith(UNKEPT));
  return places.map((place) => JSON.parse(localStorage.getItem(place)));
}

// The plans as they were when the page was shut, whether or not they had come to the database: all of them, those to
// be kept again, and those that another window wrote to since, which must become plans of their own.
export function recovered(kept) {
  const found = new Map(kept.map((plan) => [plan.id, plan]));
  const again = [];
  const apart = [];
  try {
    for (const record of jotted()) {
      const there = found.get(record.id);
      record.answer = there?.answer ?? null;
      const ours = !there || there.rev === record.rev || there.hand === record.hand; // not written since, or by that page itself
      const newer = !there || record.turn > (there.turn ?? 0); // a killed browser may have what it struck out long before
      if (ours && newer) {
        found.set(record.id, { ...record, rev: there?.rev ?? 0 });
        again.push(found.get(record.id));
      } else if (ours || alike(there, record)) struck(record.id, record.hand);
      else apart.push(record);
    }
  } catch { /* without this storage there is nothing to recover */ }
  return { plans: [...found.values()], again, apart };
}

// What was jotted down of a plan by this page, or by one before it, is not wanted any more.
export function struck(id, hand = HAND) {
  try {
    if (JSON.parse(localStorage.getItem(UNKEPT + id))?.hand === hand) localStorage.removeItem(UNKEPT + id);
  } catch { /* it was never there */ }
}

function forgotten(id) {
  try {
    localStorage.removeItem(UNKEPT + id);
  } catch { /* it was never there */ }
}

// One write at a time, the newest state always; `told` hears of what became of it.
export class Keeper {
  constructor(told) {
    this.told = told;
    this.next = new Map(); // by plan
    this.writing = null;
  }

  keep(record) {
    Object.assign(record, { hand: HAND, turn: (record.turn ?? 0) + 1 });
    this.next.set(record.id, record);
    jot(record);
    this.writing ??= this.run().finally(() => (this.writing = null));
    return this.writing;
  }

  // What waits to be written of a plan is let go; resolves when nothing of it is under way.
  async letGo(id) {
    this.next.delete(id);
    await this.writing;
  }

  async run() {
    while (this.next.size) {
      const [[id, record]] = this.next;
      this.next.delete(id);
      try {
        record.rev = await put({ ...structuredClone({ ...record, answer: null }), answer: packed(record.answer) });
        if (!this.next.has(record.id)) struck(record.id);
        this.told(null, record);
      } catch (error) {
        this.told(error, record);
      }
    }
  }
}
