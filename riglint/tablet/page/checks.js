// The checks before the pull, to be ticked on the ground, and the sign-off.

import { button, h, labelled, newId, save } from "./dom.js";

export const CLEAR = "clear to pull";
export const STOPPED = "stopped";

export function checks(session, redraw) {
  const { record, answer } = session;
  if (!answer?.checklist) return [h("p", { class: "notice" }, "The checks are made from the plan once it can be read."), signed(record)];
  const done = ticked(session);
  const stages = answer.stages.length;
  const stage = Math.min(session.signing ?? 0, stages - 1);
  const items = itemsOf(answer, stage);
  const left = items.filter((i) => !done[i.id]).length;
  const progress = h("p", { class: "progress", role: "status" }, left ? `${items.length - left} of ${items.length} ticked` : `All ${items.length} ticked`);
  return [
    stages > 1 ? stageChoice(session, stage, redraw) : null,
    progress,
    answer.checklist.sections.filter((s) => s.stage === stage).map((s) => h("section", {}, h("h2", {}, s.title), h("ul", { class: "ticks" }, s.items.map((i) => tick(i, done, session, redraw))))),
    signOff(session, stage, left, redraw),
    signed(record),
    h("p", { class: "caution" }, "Arithmetic on what the plan says, not leave to pull. Makers' ratings and instructions, local rules and the licensed person in charge on the ground come first. If anything looks, sounds or moves other than planned: stop."),
  ];
}

const ticked = ({ record, answer }) => (record.ticks?.digest === answer.digest ? record.ticks.at : {});
const itemsOf = (answer, stage) => answer.checklist.sections.filter((s) => s.stage === stage).flatMap((s) => s.items);

// Each stage is gone round and signed by itself, before it is pulled.
function stageChoice(session, stage, redraw) {
  const choose = (event) => {
    session.signing = Number(event.target.value);
    redraw("stage");
  };
  return labelled("Stage", h("select", { "data-item": "stage", onchange: choose }, session.answer.stages.map((s, i) => h("option", { value: String(i), selected: i === stage }, `${i + 1}: ${s.name}`))));
}

function tick(item, done, session, redraw) {
  const id = newId("tick");
  const change = (event) => {
    session.tick(item.id, event.target.checked);
    redraw(item.id);
  };
  return h("li", {}, h("label", { class: "tick", for: id },
    h("input", { type: "checkbox", id, "data-item": item.id, checked: Boolean(done[item.id]), onchange: change }),
    h("span", {}, item.text, item.note ? h("span", { class: "where" }, ` ${item.note}`) : null)));
}

function barred(session, left) {
  const { answer, fresh } = session;
  if (!fresh) return ["This plan isn't checked by the engine yet, in this sitting."];
  if (!answer.checklist.may_be_clear) return ["The verdict halts this pull:", ...answer.checklist.why_not];
  return left ? [`${left} ${left === 1 ? "check is" : "checks are"} not ticked yet.`] : [];
}

function signOff(session, stage, left, redraw) {
  const { record } = session;
  const draft = (record.draft ??= { who: "", because: "" });
  const keep = (key) => (event) => {
    draft[key] = event.target.value;
    session.keep();
  };
  const who = h("input", { type: "text", autocomplete: "name", value: draft.who, oninput: keep("who") });
  const because = h("input", { type: "text", autocomplete: "off", value: draft.because, oninput: keep("because") });
  const why = barred(session, left);
  const said = h("p", { class: "fault", role: "alert" });
  const sign = (decision) => () => {
    if (!who.value.trim()) return void ((said.textContent = "Write your name."), who.focus());
    if (decision === STOPPED && !because.value.trim()) return void ((said.textContent = "Write why it is stopped."), because.focus());
    if (decision === CLEAR && barred(session, left).length) return void (said.textContent = why.join(" "));
    (record.signed ??= []).push(made(session, stage, decision, who.value.trim(), because.value.trim()));
    record.draft = { who: draft.who, because: "" };
    session.keep();
    keepAsFile(record.signed.at(-1), record.name);
    redraw("signed");
  };
  const whyId = newId("why");
  return h("section", { class: "signoff" },
    h("h2", {}, "Sign off"),
    labelled("Name", who),
    why.length ? h("div", { class: "barred", id: whyId }, h("p", {}, h("strong", {}, "Can't be signed as clear. "), why[0]), why.length > 1 ? h("ul", {}, why.slice(1).map((w) => h("li", {}, w))) : null) : null,
    h("div", { class: "row" }, button("Clear to pull", sign(CLEAR), { class: "clear", "aria-disabled": String(why.length > 0), "aria-describedby": why.length ? whyId : undefined })),
    labelled("Stopped, because", because),
    h("div", { class: "row" }, button("Stopped", sign(STOPPED), { class: "stopped" })),
    said);
}

function made(session, stage, decision, who, because) {
  const { record, answer } = session;
  const done = ticked(session);
  const sections = answer.checklist.sections.filter((s) => s.stage === stage);
  const items = sections.flatMap((s) => s.items.map((i) => ({ id: i.id, section: s.title, check: i.text, ticked_at: done[i.id] ?? null })));
  return {
    signed_record: 1,
    decision,
    ...(decision === STOPPED ? { because } : {}),
    signed_by: who,
    signed_at: new Date().toISOString(),
    plan: { file: record.name, title: answer.title, sha256: answer.digest },
    stage: answer.stages[stage].name,
    verdict: answer.verdict,
    halting_grade: answer.halting_grade,
    program: { name: answer.program, version: answer.version },
    rulebooks: answer.rulebooks,
    checks: items,
  };
}

export const recordName = (one, name) => `${name.replace(/\.ya?ml$/, "")}-signed-${one.signed_at.slice(0, 19).replaceAll(":", "")}.json`;
const keepAsFile = (one, name) => save(recordName(one, name), `${JSON.stringify(one, null, 2)}\n`, "application/json");

function signed(record) {
  const now = record.answer?.digest;
  const rows = [...(record.signed ?? [])].reverse();
  if (!rows.length) return null;
  return h("section", { class: "signed" }, h("h2", {}, "Signed records"), h("ul", { class: "list" }, rows.map((one) => h("li", { class: "record" },
    h("span", {},
      h("strong", {}, one.decision.toUpperCase()), one.because ? `: ${one.because}` : "", ` by ${one.signed_by}, ${new Date(one.signed_at).toLocaleString()}`,
      one.plan.sha256 === now ? null : h("span", { class: "void" }, " For an earlier text of this plan: void for the plan as it stands.")),
    button("Save the record", () => keepAsFile(one, record.name))))));
}
