// The rules beside givens and cages: the form of each, the list of what is drawn, and what goes for the whole grid.
import {find, make} from "./parts.js";

export const rules = (wish, choice) => {
  const form = find("rule-form"), rule = find("rule"), value = find("value");
  const fields = [...form.querySelectorAll("[data-field]")];
  const wanted = () => rule.selectedOptions[0].dataset;
  const sides = () => find("edge-line").value.startsWith("column") ? ["top", "bottom"] : ["left", "right"];

  const fit = () => {
    for (const field of fields) field.hidden = !wanted()[field.dataset.field];
    find("side").replaceChildren(...sides().map(side => make("option", {}, side)));
  };
  const draw = () => {
    const asked = {do: "rule", rule: rule.value};
    if (wanted().value || wanted().line) asked.value = value.value.trim();
    if (wanted().line) Object.assign(asked, {line: find("edge-line").value, side: find("side").value});
    else asked.cells = choice.path();
    if (wanted().circle) asked.two = find("two").checked;
    wish(asked);
    choice.done();
  };
  rule.addEventListener("change", () => { fit(); choice.changed(); });
  find("edge-line").addEventListener("change", fit);
  form.addEventListener("submit", event => { event.preventDefault(); draw(); });

  const keys = [...document.querySelectorAll("[data-key]")];
  for (const control of keys) control.addEventListener("change", () => {
    const key = control.dataset.key, boxes = keys.filter(each => each.dataset.key === key);
    if (control.tagName === "SELECT") wish({do: "key", key, text: control.value});
    else if (key === "not_consecutive") wish({do: "key", key, text: control.checked ? "yes" : ""});
    else wish({do: "key", key, words: boxes.filter(box => box.checked).map(box => box.value)});
  });
  const showKeys = grid => {
    for (const control of keys) {
      const said = grid[control.dataset.key];
      if (control.tagName === "SELECT") control.value = said.every(Boolean) ? "yes" : said[0] ? "falling" : said[1] ? "rising" : "";
      else control.checked = said === true || Array.isArray(said) && said.includes(control.value);
    }
  };
  return {
    draw,
    how: () => `${wanted().line ? "Choose a line and type the number" : "Draw over the cells in order"}: ${wanted().says}.`,
    needsValue: () => Boolean(wanted().value || wanted().line),
    focus: () => (wanted().value || wanted().line ? value : rule).focus(),
    show: told => {
      find("rules").replaceChildren(...told.rules.map(([number, says]) => make("li", {}, `${says} `,
        make("button", {type: "button", "aria-label": `Take out ${says}`, onclick: () => wish({do: "take_out", rule: number})}, "Take out"))));
      if (find("edge-line").length !== told.rows + told.columns) {
        const names = (word, count) => Array.from({length: count}, (_, number) => make("option", {}, `${word} ${number + 1}`));
        find("edge-line").replaceChildren(...names("row", told.rows), ...names("column", told.columns));
        fit();
      }
      showKeys(told.grid);
      find("forget").hidden = !told.meant;
    },
  };
};
