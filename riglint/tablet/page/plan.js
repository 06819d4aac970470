// The plan as plain data while it is edited here. The engine makes the same edits in the plan's text.

export const steps = (pointer) => pointer.split("/").slice(1).map((s) => s.replaceAll("~1", "/").replaceAll("~0", "~"));
export const join = (pointer, ...more) =>
  pointer + more.map((s) => "/" + String(s).replaceAll("~", "~0").replaceAll("/", "~1")).join("");

export function value(data, pointer) {
  for (const step of steps(pointer)) {
    if (data === null || typeof data !== "object") return undefined;
    data = Object.hasOwn(data, step) ? data[step] : undefined;
  }
  return data;
}

// Applies one edit, as `edited` in the engine does.
export function apply(data, edit) {
  const way = steps(edit.at);
  const key = way.pop();
  const makes = edit.op === "set" || edit.op === "add";
  let holder = data;
  for (const step of way) {
    const inside = Object.hasOwn(holder, step) ? holder[step] : undefined;
    if (makes && !Array.isArray(holder) && (inside === null || typeof inside !== "object"))
      Object.defineProperty(holder, step, { value: {}, writable: true, enumerable: true, configurable: true });
    holder = holder[step];
    if (holder === undefined) return;
  }
  if (edit.op === "remove") Array.isArray(holder) ? holder.splice(+key, 1) : delete holder[key];
  else if (edit.op === "rename") rename(holder, key, edit.to);
  else if (Array.isArray(holder)) {
    const index = key === "-" ? holder.length : +key;
    holder.splice(index, edit.op === "add" ? 0 : 1, structuredClone(edit.value));
  } else Object.defineProperty(holder, key, { value: structuredClone(edit.value), writable: true, enumerable: true, configurable: true });
}

function rename(holder, from, to) {
  const entries = Object.entries(holder).map(([k, v]) => [k === from ? to : k, v]);
  for (const key of Object.keys(holder)) delete holder[key];
  for (const [k, v] of entries) holder[k] = v;
}

// Two edits of the same value are one, as long as the first hasn't gone to the engine.
export function joined(edits, edit, begun) {
  const last = edits.length > begun ? edits.at(-1) : null;
  if (edit.op === "set" && last?.op === "set" && last.at === edit.at) edits[edits.length - 1] = edit;
  else edits.push(edit);
}

export const NAME = /^[A-Za-z][A-Za-z0-9_-]{0,63}$/;
export const asName = (words) => words.trim().replace(/[^A-Za-z0-9_-]+/g, "_").replace(/^[^A-Za-z]+/, "").slice(0, 64);

export function newName(data, word) {
  const taken = names(data);
  if (!taken.has(word)) return word;
  let n = 2;
  while (taken.has(`${word}_${n}`)) n += 1;
  return `${word}_${n}`;
}

export function names(data) {
  const found = new Set(["winch", "ground"]);
  for (const part of [data, ...Object.values(data.stages ?? [])])
    for (const key of ["bodies", "points", "redirects", "connectors", "lines"])
      for (const name of Object.keys(part?.[key] ?? {})) found.add(name);
  for (const line of Object.values(data.lines ?? {}))
    for (const entry of line?.pieces ?? []) for (const name of Object.keys(entry ?? {})) found.add(name);
  return found;
}

// Edits that make every mention of a name the new one.
export function mentions(data, from, to) {
  const edits = [];
  const visit = (node, pointer, key) => {
    if (typeof node === "string") {
      const changed = mention(node, key, from, to);
      if (changed !== node) edits.push({ op: "set", at: pointer, value: changed });
    } else if (node && typeof node === "object") {
      for (const [k, v] of Object.entries(node)) visit(v, join(pointer, k), Array.isArray(node) ? key : k);
    }
  };
  visit(data, "", "");
  return edits;
}

const NAMING = new Set(["on", "mounted", "to", "line", "between", "watches", "hung_from", "path"]);

function mention(text, key, from, to) {
  if (NAMING.has(key)) return text === from ? to : text.startsWith(`${from}.`) ? to + text.slice(from.length) : text;
  if (key === "in") return text === from || text.startsWith(`${from} `) ? to + text.slice(from.length) : text;
  if (key === "at" || key === "middle") return text.replace(/( from )([^\s,]+)/, (all, word, name) => (name === from ? word + to : all));
  return text;
}
