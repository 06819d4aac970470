"""Style, script and foot of the review's page. Colours of signal words after ANSI Z535, with contrast above 7:1
where there is text; word and shape always go with colour.
"""

from __future__ import annotations

from typing import Final

STYLE: Final = """<meta name="viewport" content="width=device-width">
<style>
body{font:16px/1.4 sans-serif;margin:1rem;color:#111;background:#fff}
table{border-collapse:collapse;width:100%}
th,td{border:1px solid #767676;padding:.3rem .5rem;text-align:left;vertical-align:top}
thead th{background:#eee;position:sticky;top:0}
tbody th,.found td{overflow-wrap:anywhere}#rigs tbody th{min-width:11rem}
small{font-weight:normal}
td.n{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums}
button{font:inherit;font-weight:bold;background:none;border:0;padding:.2rem 0;min-height:44px;text-align:left;
cursor:pointer;text-decoration:underline}
th[aria-sort=ascending] button::after{content:" \\25B2"}th[aria-sort=descending] button::after{content:" \\25BC"}
.v0,.v1,.v2,.DANGER{background:#9b2423;color:#fff}.v3,.ask,.CAUTION{background:#eac600;color:#000}
.v4{background:#007252;color:#fff}.WARNING{background:#e37700;color:#000}.NOTICE{background:#005898;color:#fff}
li b{padding:0 .3rem}.js .found{display:none}.js .open-row .found{display:table-row}
svg polyline{fill:none;stroke:#111;stroke-width:1.5}svg rect,svg circle{fill:#111}
svg .l{fill:#fff;stroke:#111;stroke-width:1.5}svg circle{fill:#fff;stroke:#9b2423;stroke-width:1.5}
@media print,(max-width:70rem){th,td{padding:.2rem .25rem}#rigs svg{width:7.5rem;height:3rem}
#rigs thead th:nth-child(n+4):nth-child(-n+8) button{writing-mode:vertical-rl;white-space:nowrap}}
@media print{body{font-size:10pt;margin:0}thead th{position:static}.js .found{display:none}
.js .open-row .found{display:table-row}thead{display:table-header-group}tr{break-inside:avoid}h2{break-after:avoid}
button{text-decoration:none;min-height:0}thead button{display:contents}
#rigs thead th:nth-child(n+4):nth-child(-n+8){writing-mode:vertical-rl;white-space:nowrap}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}}
</style>"""

FOOT: Final = (
    "<p>Arithmetic on what the plans say, not leave to pull. Makers' ratings and instructions, local rules and the"
    " licensed person in charge on the ground come first. Sketches are seen from above, the load's way to the right:"
    " a bar is the load, a black square the winch, a ring a person.</p>"
)

SCRIPT: Final = """<script>
document.documentElement.className = "js";
const table = document.getElementById("rigs");
table.addEventListener("click", event => {
  const button = event.target.closest("button");
  if (!button) return;
  const body = button.closest("tbody");
  if (body) {
    button.setAttribute("aria-expanded", body.classList.toggle("open-row"));
    return;
  }
  const head = button.parentElement, column = head.cellIndex;
  const down = head.getAttribute("aria-sort") === "ascending";
  for (const other of head.parentElement.cells) other.removeAttribute("aria-sort");
  head.setAttribute("aria-sort", down ? "descending" : "ascending");
  const key = rows => {
    const cell = rows.rows[0].cells[column];
    return cell.dataset.key ?? cell.textContent;
  };
  const order = (a, b) => {
    const [x, y] = [key(a), key(b)];
    return (x !== "" && y !== "" && isFinite(x) && isFinite(y) ? x - y : x < y ? -1 : x > y ? 1 : 0) * (down ? -1 : 1);
  };
  table.append(...[...table.tBodies].sort(order));
});
</script>
"""
