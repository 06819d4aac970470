// The checks before the pull, to be ticked on the ground, and the sign-off. List and record are the sheet's.

import { button, h, labelled, newId, save } from "./dom.js";
import { stamp, today } from "./session.js";

const CLEAR = "clear";
const STOPPED = "stopped";
const CAUTION =
  "Arithmetic on what the plan says, not leave to pull. Makers' ratings and instructions, local rules and the licensed person in charge on the ground come first. If anything looks, sounds or moves other than planned: stop.";

export function checks(session, redraw) {
  const { record, answer, sheet } = session;
  if (!sheet) return [h("p", { class: "notice" }, "The checks are made from the plan once it can be read."), signed(session)];
  const stage = Math.min(session.signing ?? 0, sheet.stages.length - 1);
  const all = sheet.items.filter((i) => i.stage === stage).length;
  const words = () => {
    const done = all - leftOf(session, stage).length;
    return done < all ? `${done} of ${all} ticked` : `All ${all} ticked`;
  };
  const progress = h("p", { class: "progress", role: "status" }, words());
  let form = signOff(session, stage, redraw);
  const ticked = () => { // the rows stay as they are, so that no tap is lost
    const next = signOff(session, stage, redraw);
    form.replaceWith(next);
    form = next;
    progress.textContent = words();
  };
  return [
    sheet.stages.length > 1 ? stageChoice(session, stage, redraw) : null,
    progress,
    answer.checklist.sections.filter((s) => s.stage === stage).map((s) =>
      h("section", {}, h("h2", {}, s.title), h("ul", { class: "ticks" }, s.items.map((i) => tick(i, session, ticked))))),
    form,
    signed(session),
    h("p", { class: "caution" }, CAUTION),
  ];
}

const leftOf = ({ sheet, ticked }, stage) => sheet.items.filter((i) => i.stage === stage && !ticked[i.id]);

// Each stage is gone round and signed by itself, before it is pulled.
function stageChoice(session, stage, redraw) {
  const choose = (event) => {
    session.signing = Number(event.target.value);
    redraw("stage");
  };
  const options = session.sheet.stages.map((name, i) => h("option", { value: String(i), selected: i === stage }, `${i + 1}: ${name}`));
  return labelled("Stage", h("select", { "data-item": "stage", onchange: choose }, options));
}

function tick(item, session, ticked) {
  const id = newId("tick");
  const change = (event) => {
    session.tick(item.id, event.target.checked);
    ticked();
  };
  return h("li", {}, h("label", { class: "tick", for: id },
    h("input", { type: "checkbox", id, "data-item": item.id, checked: Boolean(session.ticked[item.id]), onchange: change }),
    h("span", {}, item.text, item.note ? h("span", { class: "where" }, ` ${item.note}`) : null)));
}

// What stands against signing as clear; empty where nothing does.
function barred(session, stage) {
  if (session.otherDay) return [`The checks were worked out for ${session.otherDay}, and by this device's clock today is ${today()}. They are worked out anew as soon as the engine has a hand free.`];
  if (!session.fresh) return ["The engine hasn't checked this plan yet, in this sitting."];
  if (!session.sheet.may_be_clear) return ["The verdict halts this pull:", ...session.sheet.why_not];
  const left = leftOf(session, stage).length;
  return left ? [`${left} ${left === 1 ? "check is" : "checks are"} not ticked yet.`] : [];
}

function signOff(session, stage, redraw) {
  const { record } = session;
  const draft = (record.draft ??= { name: "", because: "" });
  const keep = (key) => (event) => {
    draft[key] = event.target.value;
    session.keep();
  };
  const name = h("input", { type: "text", autocomplete: "name", maxlength: "120", value: draft.name ?? "", oninput: keep("name") });
  const because = h("input", { type: "text", autocomplete: "off", maxlength: "1000", value: draft.because ?? "", oninput: keep("because") });
  const why = barred(session, stage);
  const said = h("p", { class: "fault", role: "alert" });
  const refuse = (text, field) => {
    said.textContent = text;
    field?.focus();
  };
  const sign = (decision) => () => {
    if (decision === CLEAR && session.dayTurned()) return redraw("signed");
    const against = decision === CLEAR ? barred(session, stage) : [];
    if (against.length) return refuse(against.join(" "));
    if (!name.value.trim()) return refuse("Write your name.", name);
    if (decision === STOPPED && !because.value.trim()) return refuse("Write why it is stopped.", because);
    const one = { decision, stage, name: name.value.trim(), at: stamp(), day: session.sheet.day, ...ids(session, stage) };
    if (decision === STOPPED) one.because = because.value.trim();
    add(session, one);
    record.draft = { name: draft.name, because: "" };
    session.keep();
    redraw("signed");
  };
  const whyId = newId("why");
  return h("section", { class: "signoff" },
    h("h2", {}, "Sign off"),
    labelled("Name", name),
    why.length ? h("div", { class: "barred", id: whyId }, h("p", {}, h("strong", {}, "Can't be signed as clear. "), why[0]), why.length > 1 ? h("ul", {}, why.slice(1).map((w) => h("li", {}, w))) : null) : null,
    h("div", { class: "row" }, button("Clear to pull", sign(CLEAR), { class: "clear", "aria-disabled": String(why.length > 0), "aria-describedby": why.length ? whyId : undefined })),
    labelled("Stopped, because", because),
    h("div", { class: "row" }, button("Stopped", sign(STOPPED), { class: "stopped" })),
    said);
}

function ids(session, stage) {
  const left = leftOf(session, stage).map((i) => i.id);
  const own = session.sheet.items.filter((i) => i.stage === stage).map((i) => i.id);
  return { ticked: own.filter((id) => !left.includes(id)), not_ticked: left };
}

// The record as it is handed on, kept whole, so that it can be saved again whatever becomes of the plan.
function add(session, one) {
  const { record, sheet, ticked } = session;
  const items = sheet.items.map((item) => ({ ...item, ticked: ticked[item.id] ?? null }));
  const earlier = (record.signed ?? []).filter((s) => s.sheet === sheet.sheet).map((s) => s.one);
  const file = { record: 1, of: "pre-pull sheet", ...sheet, items, signed: [...earlier, one], saved: stamp() };
  (record.signed ??= []).push({ sheet: sheet.sheet, one, file });
  keepAsFile(file);
}

function keepAsFile(file) {
  save(`pre-pull-record-${file.plan.sha256.slice(0, 12)}-${file.saved.slice(0, 19).replaceAll(":", "")}.json`, `${JSON.stringify(file, null, 1)}\n`, "application/json");
}

function standing({ one, ...row }, sheet) {
  if (row.sheet !== sheet?.sheet) return h("span", { class: "void" }, " For an earlier state of this plan: void for the plan as it stands.");
  if (one.decision === CLEAR && one.at.slice(0, 10) !== today()) return h("span", { class: "void" }, " Signed on another day: a pull that has begun may be ended; sign anew before the next.");
  return null;
}

function signed({ record, sheet }) {
  const rows = [...(record.signed ?? [])].reverse();
  if (!rows.length) return null;
  const words = ({ one, file }) => [
    h("strong", {}, one.decision === CLEAR ? "CLEAR TO PULL" : "STOPPED"), one.because ? `, because ${one.because}` : "",
    file.stages.length > 1 ? `, stage ${one.stage + 1}` : "", `. Signed ${one.name}, ${one.at.slice(0, 16).replace("T", " ")}${one.day && one.day !== one.at.slice(0, 10) ? `, on checks for ${one.day}` : ""}.`,
  ];
  return h("section", { class: "signed" }, h("h2", {}, "Signed records"), h("ul", { class: "list" }, rows.map((row) => h("li", { class: "record" },
    h("span", {}, words(row), standing(row, sheet)),
    button("Save the record", () => keepAsFile(row.file))))));
}
