// What was found: by grade, gravest first, each with its working to unfold and, on asking, what puts it right; then
// what nobody has said yet.

import { button, details, h, sentence, sign } from "./dom.js";
import { tried } from "./remedies.js";

const GRADES = ["DANGER", "WARNING", "CAUTION", "NOTICE"];
const CASES = { expected: "expected pull", stall: "winch stalled", holding: "holding" };

export const percent = (use) => `${Math.abs(100 * use - 100) < 1 && use !== 1 ? (100 * use).toFixed(2) : Math.round(100 * use)} %`;

export function verdictSign(answer) {
  const word = answer?.verdict ?? "not checked yet";
  const mark = { clear: "✓", "not clear": "✕", "can't tell": "?", "can't be read": "!" }[word] ?? "…";
  return h("span", { class: `verdict verdict-${word.replace(/[^a-z]+/g, "-")}` }, h("span", { "aria-hidden": "true" }, mark), word.toUpperCase());
}

export const verdictWords = (answer) => answer?.verdict_words ?? "";

export function counts(answer) {
  const found = (answer?.findings ?? []).filter((f) => f.result === "failed");
  const said = GRADES.map((g) => [g, found.filter((f) => f.grade === g).length]).filter(([, n]) => n).map(([g, n]) => sign(g, ` ${n}`));
  const unknown = answer?.to_find_out?.length ?? 0;
  const mend = answer?.problems?.length ?? 0;
  const grave = (answer?.to_find_out ?? []).filter((t) => t.grade === "DANGER").length;
  if (unknown) said.push(h("span", { class: "sign sign-unknown" }, `? ${unknown} to find out${grave ? `, ${grave} DANGER` : ""}`));
  if (mend) said.push(h("span", { class: "sign sign-mend" }, `! ${mend} to mend`));
  return said;
}

// `acts`: `show` a place, `seek` remedies, `putIn` one of them; `trying` is how far that is, by finding.
export function findings(answer, acts) {
  if (!answer) return [h("p", {}, "Not checked yet.")];
  if (answer.verdict === "can't be read") return problems(answer, acts.show);
  const groups = grouped(answer.findings.map((f, index) => ({ ...f, index })).filter((f) => f.result === "failed"));
  return [
    ...answer.untested.map((o) => h("p", { class: "notice" }, `Rule ${o.rule} broke and was not applied: ${o.reason}`)),
    ...GRADES.filter((g) => groups.some(([f]) => f.grade === g)).map((g) => gradeBlock(g, groups.filter(([f]) => f.grade === g), acts)),
    groups.length ? null : h("p", { class: "notice" }, "No rule found anything against this plan."),
    toFindOut(answer, acts.show),
    limits(answer),
  ].filter(Boolean);
}

function problems(answer, show) {
  const row = (p) => h("li", { class: "finding" },
    h("p", {}, `${sentence(p.what)} ${sentence(p.serves)}`),
    h("p", { class: "where" }, `Line ${p.line}${p.pointer ? `, ${p.pointer.slice(1).replaceAll("/", " › ")}` : ""}`),
    h("div", { class: "row" }, button("Go there", () => show(p.pointer, p.line))));
  return [
    answer.broke ? h("p", { class: "notice" }, `The program itself failed on this plan: ${answer.broke}`) : null,
    h("section", { class: "grade" }, h("h2", {}, "To mend before it can be checked"), h("ul", { class: "list" }, answer.problems.map(row))),
  ];
}

function grouped(found) {
  const groups = new Map();
  for (const finding of found) {
    const key = `${finding.grade} ${finding.rule}`;
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return [...groups.values()];
}

function gradeBlock(grade, groups, acts) {
  return h("section", { class: `grade grade-${grade.toLowerCase()}` }, h("h2", {}, sign(grade)), groups.map((group) => rule(group, acts)));
}

function rule(group, acts) {
  const [first] = group;
  const remedies = [...new Set(group.map((f) => f.check.remedy).filter(Boolean))];
  const bases = [...new Set(group.flatMap((f) => f.basis.map((b) => b.citation)))];
  return h("article", { class: "finding" },
    h("h3", {}, first.title, h("span", { class: "slug" }, first.rule)),
    h("ul", { class: "list" }, group.map((f) => one(f, acts))),
    remedies.map((r) => h("p", { class: "remedy" }, h("strong", {}, "Put right: "), sentence(r))),
    details("Basis", false, bases.map((b) => h("p", {}, sentence(b)))));
}

function one(finding, acts) {
  const { check } = finding;
  const notes = [CASES[check.where.case] ?? check.where.case, Number.isFinite(check.use) ? `${percent(check.use)} of the limit` : "", check.where.line ? `line ${check.where.line}` : ""];
  const waived = finding.waived;
  return h("li", {},
    h("p", {}, sentence(check.message), h("span", { class: "where" }, ` ${notes.filter(Boolean).join("; ")}`)),
    waived ? h("p", { class: "where" }, `Let pass by ${waived.allowed_by ?? "the house file"}${waived.until ? ` until ${waived.until}` : ""}: ${waived.reason}`) : null,
    h("div", { class: "row" },
      button("Go there", () => acts.show(check.where.pointer, check.where.line), { "aria-label": `Go there: ${check.component}` }),
      acts.trying?.of.has(finding.index) ? null : button("Try what puts it right", () => acts.seek(finding.index), { "aria-label": `Try what puts it right: ${check.component}`, "aria-disabled": String(!acts.canSeek) }),
      finding.working.length ? details("Working", false, h("ol", { class: "working" }, finding.working.map((w) => h("li", {}, w)))) : null),
    tried(finding, acts));
}

function toFindOut(answer, show) {
  const rows = answer.to_find_out ?? [];
  if (!rows.length) return null;
  const row = (todo) => h("li", { class: "todo" },
    sign(todo.grade),
    h("span", { class: "todo-text" }, sentence(todo.what), h("span", { class: "where" }, ` asked by ${todo.rules.join(", ")}`)),
    todo.pointer ? button("Go there", () => show(todo.pointer), { "aria-label": `Go there: ${todo.what}` }) : null);
  return h("section", { class: "grade" }, h("h2", {}, "To find out before it can be told"), h("ul", { class: "list" }, rows.map(row)));
}

function limits(answer) {
  if (!answer.changed_limits?.length) return null;
  return h("section", { class: "grade" }, h("h2", {}, "Limits that were set"), h("ul", { class: "list" },
    answer.changed_limits.map((c) => h("li", {}, `${c.rule}, ${c.limit}: ${c.milder ? "MILDER" : "stricter"} than the rule's own; set by ${c.set_by}`))));
}
