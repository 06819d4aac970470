
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
  const TYPED = ["name", "because", "other_day"];
  let kept = { ticks: {}, signed: [] };

  const stamp = () => {
    const now = new Date();
    const two = n => String(Math.trunc(Math.abs(n))).padStart(2, "0");
    const east = -now.getTimezoneOffset();
    const day = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    const time = `${two(now.getHours())}:${two(now.getMinutes())}:${two(now.getSeconds())}`;
    return `${day}T${time}${east < 0 ? "-" : "+"}${two(east / 60)}:${two(east % 60)}`;
  };
  const today = () => stamp().slice(0, 10);
  // What is due and what was let pass hang on the day: another than the sheet was worked out for is told and signed for.
  const otherDay = () => Boolean(sheet.day) && sheet.day !== today();
  const aboutDay = () => {
    if (!otherDay()) return "";
    const why = sheet.day < today() ? "Since then gear may have fallen due, and what was let pass may have run out." : "What holds on that day may not hold yet.";
    return `Worked out for a pull on ${sheet.day}. By this device's clock today is ${today()}. ${why} Have the plan worked out anew for today and use that sheet. Where that can't be done, ‘clear to pull’ needs the reason in writing, and both days are recorded.`;
  };
  // Each tick and each signature has a place of its own, so that nothing is read, changed and written back: a busy
  // browser may hand out late what another page wrote, and then neither writes over the other. A place is kept twice.
  // The page's storage can be written and read at once, but a browser that is killed within seconds loses it; the
  // database is on the device's disk as soon as it says so. Each place holds its time and its text, the later one
  // counts, and what was taken off is an empty text.
  const held = new Map(); // what this page wrote, or found in the database
  const later = (one, other) => (!one || (other && Number.parseInt(other, 10) > Number.parseInt(one, 10)) ? other : one);
  const stored = place => {
    try {
      return localStorage.getItem(place);
    } catch {
      return null;
    }
  };
  const read = place => {
    const found = later(held.get(place), stored(place));
    return found ? found.slice(found.indexOf(" ") + 1) || null : null;
  };
  const below = start => {
    const places = new Set(held.keys());
    try {
      for (let i = 0; i < localStorage.length; i += 1) places.add(localStorage.key(i));
    } catch {
      // there is no storage: what is held is all there is
    }
    return [...places].filter(place => place.startsWith(start) && read(place)).sort();
  };
  const parsed = text => {
    try {
      return JSON.parse(text);
    } catch {
      return null;
    }
  };
  const tell = text => {
    at("memory").hidden = !text;
    at("memory").textContent = text;
  };

  const PLACES = "places";
  let base = null;
  const opened = () =>
    (base ??= new Promise((resolve, reject) => {
      const request = indexedDB.open("riglint-sheets", 1);
      request.onupgradeneeded = () => request.result.createObjectStore(PLACES);
      request.onsuccess = () => {
        request.result.onversionchange = () => request.result.close();
        resolve(request.result);
      };
      request.onerror = () => reject(request.error);
      request.onblocked = () => reject(new Error("blocked"));
    }));
  const inBase = async (mode, act) => {
    const exchange = (await opened()).transaction(PLACES, mode, { durability: "strict" });
    return new Promise((resolve, reject) => {
      const requests = act(exchange.objectStore(PLACES));
      exchange.oncomplete = () => resolve(requests.map(request => request.result));
      exchange.onerror = exchange.onabort = () => reject(exchange.error ?? new Error("broken off"));
    });
  };
  const NOWHERE = "This browser does not keep ticks here. Save the record as a file before you close the page, or print it.";
  const LATE = "This browser writes ticks down some seconds late: if it or the device stops short, look whether the last ones are still there.";
  let unkept = ""; // why what was written last may be lost
  // Later than what is there, by whatever clock that was written.
  const dated = (place, text) => {
    const before = Number.parseInt(later(held.get(place), stored(place)), 10) || 0;
    return `${Math.max(Date.now(), before + 1)} ${text}`;
  };
  const write = texts => {
    const rows = Object.entries(texts).map(([place, text]) => [place, dated(place, text)]);
    let quick = true;
    for (const [place, row] of rows) {
      held.set(place, row);
      try {
        localStorage.setItem(place, row);
      } catch {
        quick = false;
      }
    }
    inBase("readwrite", store => rows.map(([place, row]) => store.put(row, place))).then(
      () => (unkept = ""),
      () => tell((unkept = quick ? LATE : NOWHERE)));
  };
  const keep = (place, text) => write({ [place]: text, [LAST]: JSON.stringify({ sha256: sheet.plan.sha256, sheet: sheet.sheet }) });
  const drop = place => write({ [place]: "" });
  // What the database has of this sheet, and of the one that this plan was ticked on last.
  const fetched = async () => {
    const all = start => IDBKeyRange.bound(start, `${start}\uffff`);
    const take = found => found.forEach(([place, row]) => held.set(place, later(held.get(place), row)));
    const rows = async start => {
      const [places, texts] = await inBase("readonly", store => [store.getAllKeys(all(start)), store.getAll(all(start))]);
      return places.map((place, i) => [place, texts[i]]);
    };
    take(await rows(`${PLACE}/`));
    take(await rows(LAST));
    const before = parsed(read(LAST));
    if (before) take(await rows(`riglint-sheet/${before.sha256}/${before.sheet}/`));
  };
  const recall = () => {
    kept = { ticks: {}, signed: [] };
    for (const field of TYPED) kept[field] = read(`${PLACE}/${field}`) ?? "";
    for (const { id } of sheet.items) {
      const ticked = read(`${PLACE}/tick/${id}`);
      if (ticked) kept.ticks[id] = ticked;
    }
    const signed = below(`${PLACE}/signed/`).map(place => parsed(read(place)));
    kept.signed = signed.filter(one => one && (one.decision === "stopped" || sheet.may_be_clear));
  };
  const voided = () => {
    const last = parsed(read(LAST));
    if (!last || (last.sha256 === sheet.plan.sha256 && last.sheet === sheet.sheet)) return "";
    if (Object.keys(kept.ticks).length || kept.signed.length) {
      return "Another version of this plan was ticked on this device after this one. Make sure that this is the rig on the ground.";
    }
    const before = `riglint-sheet/${last.sha256}/${last.sheet}`;
    if (!below(`${before}/tick/`).length && !below(`${before}/signed/`).length) return "";
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
  const signature = one => {
    const both = one.day && one.day !== one.at.slice(0, 10) ? `, on a sheet for ${one.day}` : "";
    const why = one.other_day_because ? `, because ${one.other_day_because}` : "";
    return `${one.name}, ${one.at.replace("T", " ")}${both}${why}`;
  };
  const words = one => {
    const what = one.decision === "clear" ? "Clear to pull" : `Stopped, because ${one.because}`;
    return `${named(one.stage)}${what}. Signed ${signature(one)}`;
  };
  const standing = stage => {
    const last = kept.signed.filter(one => one.stage === stage).at(-1);
    const open = left(stage).length;
    if (!last) return `${named(stage)}NOT SIGNED`;
    if (last.decision === "stopped") return `${named(stage)}STOPPED, because ${last.because}`;
    if (open) return `${named(stage)}NOT CLEAR ANY MORE: ${open} ticked off again since it was signed. Sign anew.`;
    if (last.at.slice(0, 10) !== today()) {
      return `${named(stage)}SIGNED ON ANOTHER DAY as clear to pull: ${signature(last)}. A pull that has begun may be ended. Sign anew before the next.`;
    }
    return `${named(stage)}CLEAR TO PULL, signed ${signature(last)}.`;
  };
  const show = () => {
    for (const box of boxes) box.checked = Boolean(kept.ticks[box.dataset.id]);
    const done = sheet.items.filter(item => kept.ticks[item.id]).length;
    at("ticked").textContent = `${done} of ${sheet.items.length} ticked`;
    const open = left(stageNow()).length;
    at("not-yet").textContent = !sheet.may_be_clear || !open ? "" : `${open} not ticked yet: ‘clear to pull’ needs them all.`;
    at("other-day").textContent = aboutDay();
    at("other-day").hidden = at("other-day-field").hidden = !otherDay();
    at("because-field").hidden = form.elements.decision.value !== "stopped";
    at("signed").replaceChildren(...kept.signed.map(one => line("li", words(one))));
    at("nothing-signed").hidden = kept.signed.length > 0;
    at("standing").replaceChildren(...sheet.stages.map((_, stage) => line("p", standing(stage))));
  };
  const say = (text, field) => {
    at("said").textContent = text;
    field?.focus();
  };
  const fault = (decision, name, because, other) => {
    if (!decision) return ["Say which: clear to pull, or stopped.", form.querySelector("input[name=decision]:enabled")];
    if (decision === "clear" && !sheet.may_be_clear) return ["This plan can't be signed off as clear; see why above."];
    const open = left(stageNow());
    if (decision === "clear" && open.length) {
      return [`${open.length} not ticked yet, the first of them: ${open[0].text}`, boxes.find(b => b.dataset.id === open[0].id)];
    }
    if (decision === "clear" && otherDay() && !other) {
      return [`Say why it is signed on ${today()}: the sheet is for ${sheet.day}.`, form.elements.other_day];
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
    if (event.target.checked) keep(`${PLACE}/tick/${id}`, stamp());
    else drop(`${PLACE}/tick/${id}`);
    recall();
    show();
  });
  form.addEventListener("input", event => {
    const { name, value } = event.target;
    if (TYPED.includes(name)) keep(`${PLACE}/${name}`, value);
    else show();
  });
  form.addEventListener("submit", event => {
    event.preventDefault();
    recall();
    show(); // the day may have changed since it was last looked at
    const decision = form.elements.decision.value;
    const [name, because, other] = TYPED.map(field => form.elements[field].value.trim());
    const wrong = fault(decision, name, because, other);
    if (wrong) {
      say(...wrong);
      return;
    }
    const ticked = sheet.items.filter(item => item.stage === stageNow() && kept.ticks[item.id]).map(item => item.id);
    const one = { decision, stage: stageNow(), name, at: stamp(), day: sheet.day, ticked, not_ticked: left(stageNow()).map(item => item.id) };
    if (otherDay() && other) one.other_day_because = other;
    const turn = String(below(`${PLACE}/signed/`).length).padStart(4, "0");
    const own = Math.random().toString(36).slice(2);
    keep(`${PLACE}/signed/${turn}-${Date.now()}-${own}`, JSON.stringify(decision === "stopped" ? { ...one, because } : one));
    for (const field of ["because", "other_day"]) {
      drop(`${PLACE}/${field}`);
      form.elements[field].value = "";
    }
    recall();
    for (const radio of form.elements.decision) radio.checked = false;
    show();
    say("Signed. Save the record as a file to hand it on.");
  });
  at("save").addEventListener("click", save);
  at("again").addEventListener("click", () => at("sure").showModal());
  at("sure").addEventListener("close", () => {
    if (at("sure").returnValue !== "again") return;
    for (const place of below(`${PLACE}/`)) if (place !== `${PLACE}/name`) drop(place);
    form.elements.because.value = "";
    recall();
    show();
    say("Ticks and signatures are gone from this device.");
  });
  at("look").addEventListener("click", () => {
    const dark = document.documentElement.dataset.look ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
    const look = dark === "dark" ? "light" : "dark";
    document.documentElement.dataset.look = look;
    try {
      localStorage.setItem(LOOK, look);
    } catch {
      // only the looks are lost
    }
  });
  // What is stored as it is now; what is being typed here stays.
  const fill = () => {
    recall();
    for (const field of TYPED) {
      if (document.activeElement !== form.elements[field]) form.elements[field].value = kept[field];
    }
    show();
    const told = voided();
    tell(told || unkept);
  };
  const refresh = () => {
    fill();
    fetched().then(fill, () => {}); // without a database the page's storage is all there is
  };
  addEventListener("storage", event => {
    if (event.key === null || event.key.startsWith(PLACE) || event.key === LAST) fill();
  });
  const look = stored(LOOK);
  if (look === "dark" || look === "light") document.documentElement.dataset.look = look;
  refresh();
  for (const event of ["pageshow", "focus"]) addEventListener(event, refresh);
  document.addEventListener("visibilitychange", refresh);
  setInterval(show, 30_000); // the page may lie open over midnight
  for (const ms of [100, 500, 2000, 8000]) setTimeout(refresh, ms); // a busy browser may hand it out late
})();
