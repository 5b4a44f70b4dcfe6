// The totals of a kakuro: those of the runs that a blocked cell stands before, or that go through the cells chosen.
import {find} from "./parts.js";

export const runs = (wish, board) => {
  const fields = [...find("runs-form").querySelectorAll("input")];
  let facts = null;

  const isAcross = ([one, two]) => two === undefined || two === one + 1;
  const runOf = field => {
    const {path} = board(), across = field.dataset.across === "yes";
    const begins = facts.blocked.includes(path[0]) ? path[0] + (across ? 1 : facts.columns) : null;
    return path.length && facts.cages.find(([cells]) => isAcross(cells) === across
      && (begins === null ? path.every(each => cells.includes(each)) : cells[0] === begins));
  };
  const put = field => { field.value = runOf(field)?.[1] ?? ""; };
  const show = () => {
    for (const field of fields) {
      field.disabled = !runOf(field);
      if (field !== document.activeElement) put(field);
    }
  };
  const keep = field => {
    const run = runOf(field), text = field.value.trim();
    if (run && text !== String(run[1] ?? "")) wish({do: "total", cells: run[0], total: text || null});
  };
  const type = (first = null, among = fields) => {
    show();
    const field = among.find(each => !each.disabled);
    if (!field) return board().focus();
    field.focus();
    if (first === null) field.select();
    else field.value = first;
  };
  for (const [place, field] of fields.entries()) {
    field.addEventListener("blur", () => keep(field));
    field.addEventListener("keydown", event => {
      if (event.key === "Enter") {
        event.preventDefault();
        type(null, fields.slice(place + 1));
      } else if (event.key === "Escape") {
        put(field);
        board().focus();
      }
    });
  }
  return {
    type,
    show: (told = facts) => {
      facts = told;
      if (facts?.kakuro) show();
    },
  };
};
