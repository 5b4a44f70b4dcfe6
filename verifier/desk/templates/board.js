// The grid that takes pointer and keys: which cells are chosen, and in which order. The picture below it is the desk's.
import {find, make} from "./parts.js";

export const board = ({takes, chosen, drawn, key}) => {
  const cells = find("cells"), picture = find("picture");
  let facts = {rows: 0, columns: 0, blocked: [], cells: [], cages: [], unfit: []};
  let at = 0, path = [], collecting = false, more = false, dragging = null, shape = "", marked = "";

  const place = () => {
    const {rows, columns, frame} = facts;
    const [left, top, wide, high, size] = frame;
    const share = (part, whole) => `${100 * part / whole}%`;
    cells.replaceChildren(...Array.from({length: rows}, (_, row) => make("div", {role: "row"},
      ...Array.from({length: columns}, (_, column) => {
        const cell = make("span", {role: "gridcell", id: `cell-${row * columns + column}`});
        cell.style.left = share(column * size - left, wide);
        cell.style.top = share(row * size - top, high);
        cell.style.width = share(size, wide);
        cell.style.height = share(size, high);
        return cell;
      }))));
  };
  const totalsToCome = () => {
    const heads = new Map();
    for (const [[first, second], total] of facts.cages) {
      const across = second === first + 1, head = first - (across ? 1 : facts.columns);
      if (total === null && facts.blocked.includes(head)) heads.set(head, `${heads.get(head) ?? ""}${across ? "→" : "↓"}`);
    }
    return heads;
  };
  const all = () => cells.querySelectorAll("[role=gridcell]");
  const show = () => {
    const open = new Set(facts.kakuro ? [] : facts.cages.filter(([, total]) => total === null).map(([cells]) => cells[0]));
    const unfit = new Map(facts.unfit), lacking = facts.kakuro ? totalsToCome() : new Map();
    const order = new Map(path.map((cell, place) => [cell, place + 1]));
    all().forEach((cell, number) => {
      cell.setAttribute("aria-selected", order.has(number));
      cell.setAttribute("aria-label", facts.cells[number]);
      cell.toggleAttribute("data-at", number === at);
      cell.toggleAttribute("data-open", open.has(number));
      if (unfit.has(number)) cell.dataset.size = unfit.get(number);
      else delete cell.dataset.size;
      if (lacking.has(number)) cell.dataset.lacks = lacking.get(number);
      else delete cell.dataset.lacks;
      if (order.has(number) && path.length > 1) cell.dataset.order = order.get(number);
      else delete cell.dataset.order;
    });
    cells.setAttribute("aria-activedescendant", `cell-${at}`);
    chosen(path);
  };
  const choose = (next, cursor = next[next.length - 1]) => {
    path = takes(next);
    if (cursor !== undefined) at = cursor;
    show();
  };

  const under = (event, reach) => {
    const box = cells.getBoundingClientRect(), [left, top, wide, high, size] = facts.frame;
    const x = (event.clientX - box.left) / box.width * wide + left, y = (event.clientY - box.top) / box.height * high + top;
    const column = Math.floor(x / size), row = Math.floor(y / size);
    if (0 > column || 0 > row || column >= facts.columns || row >= facts.rows) return null;
    const off = Math.hypot(x - (column + .5) * size, y - (row + .5) * size) / size;
    return off > reach ? null : row * facts.columns + column;
  };
  cells.addEventListener("pointerdown", event => {
    const cell = under(event, 1);
    if (cell === null || event.button) return;
    event.preventDefault();
    cells.focus({preventScroll: true});
    cells.setPointerCapture(event.pointerId);
    dragging = {id: event.pointerId, more: more || event.ctrlKey || event.metaKey || event.shiftKey};
    collecting = false;
    if (!dragging.more) choose([cell]);
    else choose(path.includes(cell) ? path.filter(each => each !== cell) : [...path, cell], cell);
  });
  cells.addEventListener("pointermove", event => {
    if (!dragging || dragging.id !== event.pointerId) return;
    for (const each of event.getCoalescedEvents?.() ?? [event]) {
      const cell = under(each, .44);  // so a line can go through the corner of a cell
      if (cell === null || cell === at) continue;
      if (path[path.length - 2] === cell) choose(path.slice(0, -1));
      else if (!path.includes(cell)) choose([...path, cell]);
    }
  });
  const drop = event => {
    if (!dragging || dragging.id !== event.pointerId) return;
    const {more: only} = dragging;
    dragging = null;
    if (event.type === "pointerup" && !only) drawn(path, "pointer");
  };
  cells.addEventListener("pointerup", drop);
  cells.addEventListener("pointercancel", drop);

  const STEPS = {ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1]};
  const go = (event, [down, across]) => {
    const row = Math.floor(at / facts.columns) + down, column = at % facts.columns + across;
    if (0 > row || 0 > column || row >= facts.rows || column >= facts.columns) return;
    const cell = row * facts.columns + column;
    if (event.shiftKey) choose(path[path.length - 2] === cell ? path.slice(0, -1) : [...path.filter(each => each !== cell), cell], cell);
    else if (collecting) choose(path, cell);
    else choose([cell]);
  };
  cells.addEventListener("keydown", event => {
    if (event.key in STEPS && !event.ctrlKey && !event.metaKey) go(event, STEPS[event.key]);
    else if (event.key === " ") {
      const others = collecting || path.length > 1 ? path.filter(cell => cell !== at) : [];
      choose(collecting && path.includes(at) ? others : [...others, at], at);
      collecting = true;
    } else if (event.key.toLowerCase() === "a" && (event.ctrlKey || event.metaKey)) {
      choose(facts.cells.map((_, cell) => cell).filter(cell => !facts.blocked.includes(cell)), at);
    } else if (event.key === "Escape") {
      collecting = false;
      choose([at]);
    } else if (event.key === "Enter") {
      drawn(path, "keys");
      collecting = false;
    } else if (!key(event, path)) return;
    event.preventDefault();
  });

  return {
    show: next => {
      const other = `${next.rows} ${next.columns} ${next.frame}`;
      facts = next;
      picture.innerHTML = facts.svg;
      marked = "";
      if (other !== shape) {
        shape = other;
        place();
        choose([0]);
      } else show();
    },
    preview: svg => {
      picture.innerHTML = svg ?? facts.svg;
      if (!svg) picture.querySelector("g.under").innerHTML = marked;
    },
    mark: under => {
      marked = under;
      picture.querySelector("g.under").innerHTML = under;
    },
    choose: cells => { collecting = false; choose(cells); },
    oneByOne: wanted => {
      more = wanted;
      choose(wanted ? [] : [at], at);
    },
    focus: () => cells.focus({preventScroll: true}),
    get path() { return path; },
    get at() { return at; },
  };
};
