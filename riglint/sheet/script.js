
"use strict";
// Ticks and signatures, kept under the digests of the plan and of all that the sheet says about it. Every text goes
// in as text, never as markup.
(() => {
  const sheet = JSON.parse(document.getElementById("sheet").textContent);
  const PLACE = `riglint-sheet/${sheet.plan.sha256}/${sheet.sheet}`;
  const LAST = `riglint-sheet-last/${sheet.plan.file.split(/[\\/]/).at(-1)}`;
  const LOOK = "riglint-sheet-look";
  const at = id => document.getElementById(id);
  const boxes = [...document.querySelectorAll("input[data-id]")];
  const form = at("sign");
  const fresh = () => ({ form: 1, turn: 0, ticks: {}, signed: [], name: "", because: "" });
  let kept = fresh();

  const stamp = () => {
    const now = new Date();
    const two = n => String(Math.trunc(Math.abs(n))).padStart(2, "0");
    const east = -now.getTimezoneOffset();
    const day = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    const time = `${two(now.getHours())}:${two(now.getMinutes())}:${two(now.getSeconds())}`;
    return `${day}T${time}${east < 0 ? "-" : "+"}${two(east / 60)}:${two(east % 60)}`;
  };
  const read = place => {
    try {
      return JSON.parse(localStorage.getItem(place));
    } catch {
      return null;
    }
  };
  const tell = text => {
    at("memory").hidden = !text;
    at("memory").textContent = text;
  };
  const keep = () => {
    try {
      localStorage.setItem(PLACE, JSON.stringify(kept));
      localStorage.setItem(LAST, JSON.stringify({ sha256: sheet.plan.sha256, sheet: sheet.sheet }));
    } catch {
      tell("This browser does not keep ticks here. Save the record as a file before you close the page, or print it.");
    }
  };
  const recall = () => {
    const found = read(PLACE);
    kept = fresh();
    if (!found || found.form !== 1 || typeof found.ticks !== "object" || !Array.isArray(found.signed)) return;
    for (const { id } of sheet.items) if (typeof found.ticks?.[id] === "string") kept.ticks[id] = found.ticks[id];
    kept.signed = found.signed.filter(one => one && (one.decision === "stopped" || sheet.may_be_clear));
    for (const field of ["name", "because"]) if (typeof found[field] === "string") kept[field] = found[field];
    kept.turn = Number(found.turn) || 0;
  };
  // What is stored goes before what this page holds if it is later: a busy browser may hand it out late, and another
  // page may have written since.
  const change = how => {
    if ((Number(read(PLACE)?.turn) || 0) > kept.turn) recall();
    how();
    kept.turn += 1;
    keep();
  };
  const voided = () => {
    const last = read(LAST);
    if (!last || (last.sha256 === sheet.plan.sha256 && last.sheet === sheet.sheet)) return "";
    if (Object.keys(kept.ticks).length || kept.signed.length) {
      return "Another version of this plan was ticked on this device after this one. Make sure that this is the rig on the ground.";
    }
    const before = read(`riglint-sheet/${last.sha256}/${last.sheet}`);
    if (!before || (!Object.keys(before.ticks || {}).length && !(before.signed || []).length)) return "";
    const what = last.sha256 === sheet.plan.sha256 ? "What the rules find in this plan" : "This plan";
    return `${what} has changed since it was ticked on this device. Those ticks and signatures do not count: go round again.`;
  };

  const stageNow = () => Number(form.elements.stage?.value ?? 0);
  const left = stage => sheet.items.filter(item => item.stage === stage && !kept.ticks[item.id]);
  const named = stage => (sheet.stages.length > 1 ? `Stage ${stage + 1}, ${sheet.stages[stage]}: ` : "");
  const line = (tag, text) => {
    const element = document.createElement(tag);
    element.textContent = text;
    return element;
  };
  const words = one => {
    const what = one.decision === "clear" ? "Clear to pull" : `Stopped, because ${one.because}`;
    return `${named(one.stage)}${what}. Signed ${one.name}, ${one.at.replace("T", " ")}`;
  };
  const standing = stage => {
    const last = kept.signed.filter(one => one.stage === stage).at(-1);
    const open = left(stage).length;
    if (!last) return `${named(stage)}NOT SIGNED`;
    if (last.decision === "stopped") return `${named(stage)}STOPPED, because ${last.because}`;
    return open
      ? `${named(stage)}NOT CLEAR ANY MORE: ${open} ticked off again since it was signed. Sign anew.`
      : `${named(stage)}CLEAR TO PULL, signed ${last.name}, ${last.at.replace("T", " ")}.`;
  };
  const show = () => {
    for (const box of boxes) box.checked = Boolean(kept.ticks[box.dataset.id]);
    const done = sheet.items.filter(item => kept.ticks[item.id]).length;
    at("ticked").textContent = `${done} of ${sheet.items.length} ticked`;
    const open = left(stageNow()).length;
    at("not-yet").textContent = !sheet.may_be_clear || !open ? "" : `${open} not ticked yet: ‘clear to pull’ needs them all.`;
    at("because-field").hidden = form.elements.decision.value !== "stopped";
    at("signed").replaceChildren(...kept.signed.map(one => line("li", words(one))));
    at("nothing-signed").hidden = kept.signed.length > 0;
    at("standing").replaceChildren(...sheet.stages.map((_, stage) => line("p", standing(stage))));
  };
  const say = (text, field) => {
    at("said").textContent = text;
    field?.focus();
  };
  const fault = (decision, name, because) => {
    if (!decision) return ["Say which: clear to pull, or stopped.", form.querySelector("input[name=decision]:enabled")];
    if (decision === "clear" && !sheet.may_be_clear) return ["This plan can't be signed off as clear; see why above."];
    const open = left(stageNow());
    if (decision === "clear" && open.length) {
      return [`${open.length} not ticked yet, the first of them: ${open[0].text}`, boxes.find(b => b.dataset.id === open[0].id)];
    }
    if (decision === "stopped" && !because) return ["Say why it was stopped.", form.elements.because];
    if (!name) return ["Write your name.", form.elements.name];
    return null;
  };

  const record = () => ({
    record: 1,
    of: "pre-pull sheet",
    ...sheet,
    items: sheet.items.map(item => ({ ...item, ticked: kept.ticks[item.id] ?? null })),
    signed: kept.signed,
    standing: sheet.stages.map((_, stage) => standing(stage)),
    saved: stamp(),
  });
  const save = () => {
    const file = new Blob([`${JSON.stringify(record(), null, 1)}\n`], { type: "application/json" });
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = `pre-pull-record-${sheet.plan.sha256.slice(0, 12)}-${stamp().slice(0, 19).replaceAll(":", "")}.json`;
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    say(`Saved as ${link.download}, in this browser's downloads.`);
  };

  at("checklist").addEventListener("change", event => {
    const id = event.target.dataset?.id;
    if (!id) return;
    const { checked } = event.target;
    change(() => {
      if (checked) kept.ticks[id] = stamp();
      else delete kept.ticks[id];
    });
    show();
  });
  form.addEventListener("input", event => {
    const { name, value } = event.target;
    if (name === "name" || name === "because") {
      change(() => { kept[name] = value; });
    } else show();
  });
  form.addEventListener("submit", event => {
    event.preventDefault();
    const decision = form.elements.decision.value;
    const [name, because] = [form.elements.name.value.trim(), form.elements.because.value.trim()];
    const wrong = fault(decision, name, because);
    if (wrong) {
      say(...wrong);
      return;
    }
    const ticked = sheet.items.filter(item => item.stage === stageNow() && kept.ticks[item.id]).map(item => item.id);
    const one = { decision, stage: stageNow(), name, at: stamp(), ticked, not_ticked: left(stageNow()).map(item => item.id) };
    change(() => {
      kept.signed.push(decision === "stopped" ? { ...one, because } : one);
      kept.because = "";
    });
    form.elements.because.value = "";
    for (const radio of form.elements.decision) radio.checked = false;
    show();
    say("Signed. Save the record as a file to hand it on.");
  });
  at("save").addEventListener("click", save);
  at("again").addEventListener("click", () => at("sure").showModal());
  at("sure").addEventListener("close", () => {
    if (at("sure").returnValue !== "again") return;
    change(() => { kept = { ...fresh(), name: kept.name, turn: kept.turn }; });
    show();
    say("Ticks and signatures are gone from this device.");
  });
  at("look").addEventListener("click", () => {
    const dark = document.documentElement.dataset.look ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
    const look = dark === "dark" ? "light" : "dark";
    document.documentElement.dataset.look = look;
    try {
      localStorage.setItem(LOOK, JSON.stringify(look));
    } catch {
      // only the looks are lost
    }
  });
  const fill = () => {
    recall();
    for (const field of ["name", "because"]) form.elements[field].value = kept[field];
    show();
    tell(voided());
  };
  addEventListener("storage", event => {
    if (event.key === PLACE || event.key === null) fill();
  });
  const look = read(LOOK);
  if (look === "dark" || look === "light") document.documentElement.dataset.look = look;
  fill();
  const again = () => {
    if ((Number(read(PLACE)?.turn) || 0) > kept.turn) fill();
    else if (at("memory").hidden) tell(voided());
  };
  for (const event of ["pageshow", "focus"]) addEventListener(event, again);
  document.addEventListener("visibilitychange", again);
  for (const later of [100, 500, 2000, 8000]) setTimeout(again, later);
})();
