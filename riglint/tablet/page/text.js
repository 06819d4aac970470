// The plan's own text, with what was found beside its lines.

import { button, h, sign } from "./dom.js";

const RANK = ["MEND", "DANGER", "WARNING", "CAUTION", "NOTICE", "?"];

export class TextView {
  constructor(session, told) {
    Object.assign(this, { session, told });
    this.numbers = h("div", { class: "gutter", "aria-hidden": "true" });
    this.area = h("textarea", {
      class: "yaml", "aria-label": "The plan as YAML", spellcheck: "false", autocapitalize: "off", autocomplete: "off", wrap: "off",
      oninput: () => this.typed(), onscroll: () => (this.numbers.scrollTop = this.area.scrollTop),
    });
    this.notes = h("div", { class: "line-notes", "aria-live": "polite" });
    this.root = h("div", { class: "text-view" }, h("div", { class: "editor" }, this.numbers, this.area), this.notes);
    this.refresh();
  }

  typed() {
    this.session.write(this.area.value);
    this.gutter();
    this.told();
  }

  refresh() {
    const { record } = this.session;
    this.area.readOnly = record.edits.length > 0; // the form's last edits are being written into the text
    if (this.area.value !== record.text) {
      const { selectionStart, selectionEnd, scrollTop } = this.area;
      this.area.value = record.text;
      this.area.setSelectionRange(selectionStart, selectionEnd);
      this.area.scrollTop = scrollTop;
    }
    this.gutter();
    this.list();
  }

  byLine() {
    const { answer } = this.session;
    const lines = new Map();
    const add = (line, grade, text) => lines.set(line, [...(lines.get(line) ?? []), { grade, text }]);
    for (const p of answer?.problems ?? []) add(p.line, "MEND", `${p.what}; ${p.serves}`);
    for (const f of answer?.findings ?? []) add(f.check.where.line, f.result === "failed" ? f.grade : "?", f.check.message);
    return lines;
  }

  gutter() {
    const lines = this.byLine();
    const count = this.area.value.split("\n").length;
    this.numbers.replaceChildren(...Array.from({ length: count }, (_, i) => {
      const found = lines.get(i + 1) ?? [];
      const worst = RANK.find((g) => found.some((f) => f.grade === g));
      return h("div", { class: `number ${worst ? `mark-${worst === "?" ? "unknown" : worst.toLowerCase()}` : ""}` }, worst ? h("span", { class: "letter" }, worst === "MEND" ? "!" : worst[0]) : "", String(i + 1));
    }));
    this.numbers.scrollTop = this.area.scrollTop;
  }

  list() {
    const rows = [...this.byLine()].sort(([a], [b]) => a - b).map(([line, found]) => {
      const worst = RANK.find((g) => found.some((f) => f.grade === g));
      return h("li", {}, button(`Line ${line}`, () => this.go(line)), h("div", {}, worst === "MEND" ? h("span", { class: "sign sign-mend" }, "to mend") : worst === "?" ? h("span", { class: "sign sign-unknown" }, "? to find out") : sign(worst), [...new Set(found.map((f) => f.text))].map((t) => h("p", {}, t))));
    });
    this.notes.replaceChildren(h("h2", {}, "Beside the lines"), rows.length ? h("ul", { class: "list" }, rows) : h("p", {}, "Nothing was found at any line."));
  }

  go(line) {
    const lines = this.area.value.split("\n");
    const start = lines.slice(0, line - 1).reduce((n, l) => n + l.length + 1, 0);
    this.area.focus();
    this.area.setSelectionRange(start, start + (lines[line - 1]?.length ?? 0));
    const height = parseFloat(getComputedStyle(this.area).lineHeight);
    this.area.scrollTop = Math.max(0, (line - 6) * height);
  }
}
