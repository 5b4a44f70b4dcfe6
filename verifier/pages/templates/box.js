"use strict";
// Sorts and sifts the table of a box. What each line is stands in its data attributes.
(() => {
  const body = document.querySelector("#box tbody"), form = document.getElementById("filters");
  const lines = [...body.rows], shown = document.getElementById("shown");
  const figures = new Set(["tier", "effort", "minutes", "place"]);
  const text = new Map(lines.map(line => [line, line.textContent.toLowerCase()]));
  const order = new Intl.Collator("en", {numeric: true});

  const compare = (key, down) => (one, other) => {
    const [a, b] = [one.dataset[key], other.dataset[key]];
    if (a === "" || b === "") return (a === "") - (b === ""); // what has none comes last, either way
    const by = figures.has(key) ? a - b : order.compare(a, b);
    return (down ? -by : by) || one.dataset.place - other.dataset.place;
  };
  for (const head of document.querySelectorAll("#box th[data-sort]")) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    button.addEventListener("click", () => {
      const down = head.getAttribute("aria-sort") === "ascending";
      for (const other of document.querySelectorAll("#box [aria-sort]")) other.removeAttribute("aria-sort");
      head.setAttribute("aria-sort", down ? "descending" : "ascending");
      body.append(...lines.sort(compare(head.dataset.sort, down)));
    });
    head.replaceChildren(button);
  }

  const sift = () => {
    const {words, ...chosen} = Object.fromEntries(new FormData(form));
    const wanted = Object.entries(chosen).filter(([, value]) => value);
    const sought = words.toLowerCase().split(/\s+/).filter(word => word);
    const fits = line => wanted.every(([key, value]) => line.dataset[key].split(key === "reasons" ? " " : "\n").includes(value))
      && sought.every(word => text.get(line).includes(word));
    for (const line of lines) line.hidden = !fits(line);
    shown.textContent = `${lines.filter(line => !line.hidden).length} of ${lines.length} shown`;
  };
  form.addEventListener("input", sift);
  form.addEventListener("submit", event => event.preventDefault());
  form.hidden = false;
  sift();
})();
