// What would put a finding right: tried on a copy of the plan when somebody asks, and put in by a tap.

import { button, h, sentence } from "./dom.js";

// What the view of the findings can do: `show` a place, `seek` remedies, `putIn` one of them.
export function acts(app) {
  const { session } = app;
  const seek = (index) => {
    if (!session.fresh) return app.say("The plan is being checked as it stands. Ask again when that is done.");
    if (session.trying?.now) return app.say("Another finding is being tried. Ask again when that is done.");
    session.seek(index);
    app.draw(`tried-${index}`);
  };
  return {
    trying: session.trying,
    canSeek: session.fresh && !session.trying?.now,
    show: (pointer, line) => app.show(pointer, line),
    seek,
    again: seek,
    putIn: (one) => putIn(app, one),
  };
}

// It becomes part of the plan's own text, like one that was typed; it can be taken back until the next change.
function putIn(app, one) {
  const { session } = app;
  const { text, edits } = session.record;
  if (session.trying?.text !== text || edits.length) return;
  session.write(one.text);
  const back = () => {
    if (session === app.session && session.record.text === one.text && !session.record.edits.length) session.write(text);
    else app.say("The plan was changed after that. It stays as it is now.", "fault");
  };
  app.say(`Put into the plan: ${sentence(one.says)}`, "note", true, ["Take it back", back]);
  app.draw();
}

export function tried(finding, { trying, putIn, again }) {
  const one = trying?.of.get(finding.index);
  if (!one) return null;
  const box = (...inside) => h("div", { class: "tried", tabindex: "-1", "data-item": `tried-${finding.index}` }, inside);
  if (one.failed) return box(h("p", { class: "fault" }, `The trial broke off: ${sentence(one.failed)}`), button("Try again", () => again(finding.index)));
  if (!one.found) return box(h("p", { "data-tried": "" }, triedSoFar(one)));
  if (!one.found.length) return box(h("p", {}, "Nothing that was tried on a copy of the plan puts this right."));
  return box(h("p", {}, h("strong", {}, "Tried on a copy of the plan, and puts it right:")), h("ul", { class: "list" }, one.found.map((r) => remedy(r, putIn))));
}

export const triedSoFar = ({ tried }) => (tried ? `Trying changes on a copy of the plan: ${tried} so far.` : "Trying changes on a copy of the plan: a second engine is starting.");

function remedy(one, putIn) {
  const without = one.why_not ? `It can't be written into this text for certain: ${sentence(one.why_not)}` : "What gear that would be, only you can say: change the plan when you have it.";
  return h("li", {},
    h("p", {}, sentence(one.says), h("span", { class: "where" }, ` ${one.comes_of}`)),
    one.text === null ? h("p", { class: "where" }, without) : button("Put it in the plan", () => putIn(one), { "aria-label": `Put it in the plan: ${one.says}` }));
}
