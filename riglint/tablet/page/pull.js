// The foreman's figures and the run of the pull, stage by stage.

import { h } from "./dom.js";

export function pull(answer) {
  if (!answer?.stages) return [h("p", { class: "notice" }, "The run of the pull is worked out once the plan can be read.")];
  return answer.stages.map((stage, i) => h("section", {},
    answer.stages.length > 1 ? h("h2", {}, `Stage ${i + 1}: ${stage.name}`) : null,
    stage.refused ? h("p", { class: "notice" }, `This rig can't stand as planned: ${stage.refused}.`) : null,
    figures(stage), run(stage)));
}

function figures(stage) {
  if (stage.refused || !stage.figures.length) return null;
  return [h("h3", {}, "At a glance"), h("dl", { class: "figures" }, stage.figures.map(([label, text]) => h("div", {}, h("dt", {}, label), h("dd", {}, text))))];
}

function run(stage) {
  if (!stage.run.length) return null;
  return [
    h("h3", {}, "Run of the pull"),
    h("ol", { class: "run" }, stage.run.map(([at, text]) => h("li", { class: /^STOP\b/.test(text) ? "stop" : "" }, h("span", { class: "at" }, at), h("span", {}, text)))),
  ];
}
