"use strict";
// Shows one step after the other in the one grid of the page. The facts come from walkthrough.py:
//   start     for each cell the mask of its open digits, or its digit with a minus once it is written in
//   changes   for each step what has changed before it: cell, state, cell, state ...
//   says, names  for each step its sentence, and its technique
//   points    for each step what it points at: layers as svg.py draws them, kinds of signs, cells spoken of, what goes
//             and what is placed
(() => {
  const facts = JSON.parse(document.getElementById("data").textContent);
  const board = document.getElementById("board"), svg = board.querySelector("svg");
  const chart = document.querySelector("#chart svg"), steps = document.getElementById("steps");
  const all = document.getElementById("all-marks"), words = document.getElementById("words");
  const SPACE = "http://www.w3.org/2000/svg";
  const count = facts.points.length, givens = new Set(facts.givens);
  const layer = name => svg.querySelector("g." + name);
  const corner = cell => [cell % facts.columns * facts.cell, Math.floor(cell / facts.columns) * facts.cell];
  const spot = (cell, digit) => corner(cell).map((edge, way) => edge + facts.marks[digit][way]);
  const digitsOf = mask => facts.marks.map((_, digit) => digit).filter(digit => mask >> digit & 1);
  const nameOf = cell => `r${Math.floor(cell / facts.columns) + 1}c${cell % facts.columns + 1}`;

  const boards = [];
  facts.changes.reduce((before, change) => {
    const after = before.slice();
    change.forEach((number, place) => { if (place % 2) after[change[place - 1]] = number; });
    boards.push(after);
    return after;
  }, facts.start);

  const make = (name, attributes, text) => {
    const made = document.createElementNS(SPACE, name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    if (text !== undefined) made.textContent = text;
    return made;
  };
  const digitAt = (cell, digit) => {
    const [x, y] = corner(cell);
    return make("text", {class: "digit", x: x + facts.cell / 2, y: y + facts.foot}, digit);
  };
  const nothing = {under: "", bands: "", over: "", kinds: [], spoken: [], gone: [], placed: []};
  const marks = (state, point, shown) => {
    const gone = new Set(point.gone.map(String));
    return state.flatMap((mask, cell) => shown(cell) && mask > 0 ? digitsOf(mask).map(digit => {
      const [x, y] = spot(cell, digit);
      return make("text", {class: gone.has(`${cell},${digit}`) ? "mark gone" : "mark", x, y: y + facts.half}, digit);
    }) : []);
  };

  let now = 0;
  const draw = () => {
    const point = now ? facts.points[now - 1] : nothing, state = now ? boards[now - 1] : facts.start;
    const placed = new Set(point.placed.map(([cell]) => cell)), spoken = new Set(point.spoken);
    const written = state.flatMap((digit, cell) =>
      0 > digit && !givens.has(cell) && !placed.has(cell) ? [digitAt(cell, -digit)] : []);
    for (const name of ["under", "bands", "over"]) layer(name).innerHTML = point[name];
    layer("digits").replaceChildren(...written);
    layer("marks").replaceChildren(...marks(state, point, cell => !placed.has(cell) && (all.checked || spoken.has(cell))));
    const full = state.filter(digit => 0 > digit).length + placed.size;
    svg.setAttribute("aria-label", `The grid at step ${now} of ${count}: ${full} of ${state.length} cells filled`);
    for (const item of document.querySelectorAll(".controls .key li")) item.hidden = !point.kinds.includes(item.dataset.kind);
    spell(state, new Map(point.placed));
    return [[...spoken, ...placed], [...placed, ...point.gone.map(([cell]) => cell)]];
  };

  // The grid as a table: for people who hear it, and for whoever wants to copy it.
  const spell = (state, placed) => {
    if (!words.closest("details").open) return;
    const cell = (kind, text) => { const made = document.createElement(kind); made.textContent = text; return made; };
    const rows = [];
    for (let at = 0; state.length > at; at += facts.columns) {
      const row = document.createElement("tr"), head = cell("th", nameOf(at).split("c")[0]);
      head.scope = "row";
      row.append(head, ...state.slice(at, at + facts.columns).map((digit, column) => {
        if (placed.has(at + column)) return cell("td", placed.get(at + column));
        return cell("td", 0 > digit ? -digit : `(${digitsOf(digit).join(" ")})`);
      }));
      rows.push(row);
    }
    const top = document.createElement("tr");
    top.append(cell("td", ""), ...Array.from({length: facts.columns}, (_, column) => {
      const head = cell("th", "c" + (column + 1));
      head.scope = "col";
      return head;
    }));
    words.replaceChildren(top, ...rows);
  };

  const tell = () => {
    const item = now && document.getElementById("step" + now).closest("li");
    document.getElementById("count").textContent = now ? `Step ${now} of ${count} · ${facts.names[now - 1]}` : `Start · ${count} steps`;
    document.getElementById("says").textContent = now ? facts.says[now - 1] : board.dataset.start;
    for (const old of steps.querySelectorAll("[aria-current]")) old.removeAttribute("aria-current");
    if (item) {
      item.setAttribute("aria-current", "step");
      if (steps.scrollHeight > steps.clientHeight) // move the list, never the page
        steps.scrollTop += item.getBoundingClientRect().top - steps.getBoundingClientRect().top - steps.clientHeight / 3;
    }
    for (const button of document.querySelectorAll("[data-go]")) {
      const idle = {first: now === 0, back: now === 0, forward: now === count, last: now === count};
      button.setAttribute("aria-disabled", String(Boolean(idle[button.dataset.go])));
    }
  };

  const here = chart && chart.appendChild(make("rect", {class: "now", y: 0, width: 1, height: 100}));
  // Moves a large grid in its frame to all cells of a step; where these do not fit, to those that change.
  const reveal = (spoken, changed) => {
    if (!spoken.length) return;
    const view = svg.viewBox.baseVal, scale = svg.getBoundingClientRect().width / view.width;
    const middle = (edge, room, way) => {
      const span = cells => {
        const places = cells.map(cell => corner(cell)[way]);
        return [Math.min(...places), Math.max(...places) + facts.cell];
      };
      const [all, few] = [span(spoken), span(changed)];
      const [from, to] = (all[1] - all[0]) * scale > room ? few : all;
      return ((from + to) / 2 - edge) * scale - room / 2;
    };
    board.scrollTo(middle(view.x, board.clientWidth, 0), middle(view.y, board.clientHeight, 1));
  };
  const go = step => {
    now = Math.max(0, Math.min(count, step));
    const cells = draw();
    tell();
    reveal(...cells);
    if (here) {
      here.setAttribute("x", now - 1);
      here.style.visibility = now ? "visible" : "hidden";
    }
    history.replaceState(null, "", now ? "#s" + now : location.pathname + location.search);
  };

  const ways = {first: () => 0, back: () => now - 1, forward: () => now + 1, last: () => count};
  for (const button of document.querySelectorAll("[data-go]"))
    button.addEventListener("click", () => go(button.dataset.step ? Number(button.dataset.step) : ways[button.dataset.go]()));
  const keys = {ArrowLeft: "back", ArrowRight: "forward", Home: "first", End: "last"};
  document.addEventListener("keydown", event => {
    const way = keys[event.key];
    if (!way || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    go(ways[way]());
  });
  const asked = () => Number((location.hash.match(/^#s(\d+)$/) || [0, 0])[1]);
  window.addEventListener("hashchange", () => go(asked()));
  steps.addEventListener("click", event => {
    const item = event.target.closest("li");
    if (!item) return;
    event.preventDefault();
    go(Number(item.querySelector("[id]").id.slice("step".length)));
  });
  all.addEventListener("change", draw);
  words.closest("details").addEventListener("toggle", draw);
  if (chart) chart.addEventListener("click", event => {
    const box = chart.getBoundingClientRect();
    go(Math.floor((event.clientX - box.left) / box.width * count) + 1);
  });

  let touched = null; // a swipe: across more than down, where the grid itself has nowhere to scroll
  board.addEventListener("touchstart", event => { touched = event.touches.length === 1 ? event.touches[0] : null; }, {passive: true});
  board.addEventListener("touchend", event => {
    if (!touched || board.scrollWidth > board.clientWidth) return;
    const across = event.changedTouches[0].clientX - touched.clientX, down = event.changedTouches[0].clientY - touched.clientY;
    if (Math.abs(across) > 40 && Math.abs(across) > 2 * Math.abs(down)) go(now + (across > 0 ? -1 : 1));
  }, {passive: true});

  // An address such as #s5 means a step here, and no place to scroll to: the grid stays in sight.
  for (const mark of steps.querySelectorAll("li [id]")) mark.id = mark.id.replace("s", "step");
  if (asked()) window.scrollTo(0, 0);
  document.documentElement.classList.add("live");
  for (const part of document.querySelectorAll(".controls, .words")) part.hidden = false;
  go(asked());
})();
