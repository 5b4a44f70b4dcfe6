// The page of the desk: pens and forms, and who hears what. What is drawn, judged and worded is all the desk's.
import {board as newBoard} from "./board.js";
import {kept as newKept} from "./kept.js";
import {line} from "./line.js";
import {find, make} from "./parts.js";
import {rules as newRules} from "./rules.js";
import {runs as newRuns} from "./runs.js";
import {stage as newStage} from "./stage.js";
import {standing as newStanding} from "./standing.js";

const HOW = {
  given: "Choose cells and type a digit.",
  cage: "Draw over cells to make a cage, then type its total and press Enter. Click on a cage to change its total.",
  grow: "Draw from a cell of a cage over others: they join it.",
  box: "Draw from a cell over others: they join its box. Boxes need not have the right size until you are done.",
  total: "Click on a blocked cell, or in a run, and type the totals across and down.",
  block: "Click or draw over cells to block them, over blocked ones to open them; runs follow.",
};
const styles = new CSSStyleSheet();
document.adoptedStyleSheets = [styles];

let puzzle = null, pen = "given", typed = {text: "", at: 0}, version = 0, refused = null, asked = false, lineIs = "silent";
const total = find("total"), notice = find("notice");

const tell = (text, kind = "", ways = []) => {
  clearTimeout(refused);
  const buttons = ways.map(([label, onclick]) => make("button", {type: "button", onclick}, label));
  notice.replaceChildren(...text ? [make("p", {}, text), ...buttons] : []);
  notice.dataset.kind = kind;
  notice.hidden = !text;
  if (kind === "refused") refused = setTimeout(() => tell(""), 6000);
};
const wish = wanted => {
  if (notice.dataset.kind === "refused") tell("");
  talk.send(wanted);
  kept.keep();
};
const save = text => {
  const link = make("a", {href: URL.createObjectURL(new Blob([text])), download: find("file-name").textContent || "puzzle.yaml"});
  link.click();
  URL.revokeObjectURL(link.href);
};
const giveBack = () => {
  const [key, {text, wishes, at}] = kept.left() ?? [null, {}];
  if (!key) return;
  const done = () => {
    kept.forget(key);
    tell("");
    giveBack();
  };
  tell(`What was drawn here on ${new Date(at).toLocaleString()} did not come to the desk any more. It is still kept in this browser.`, "kept", [
    ["Take it over", () => {
      if (text && text !== puzzle.text) wish({do: "text", text});
      wishes.forEach(wish);
      done();
    }],
    ...text ? [["Save it as a file", () => save(text)]] : [],
    ["Forget it", done],
  ]);
};
const cageAt = cell => puzzle.cages.find(([cells]) => cells.includes(cell));
const cageChosen = () => puzzle.cages.find(([cells]) => board.path.every(cell => cells.includes(cell)));
const showTotal = () => {
  const cage = cageChosen();
  total.value = cage?.[1] ?? "";
  total.disabled = !cage;
};
const typeTotal = (first = null) => {
  showTotal();
  if (total.disabled) return;
  total.focus();
  if (first === null) total.select();
  else total.value = first;
};
const keepTotal = () => {
  const cage = cageChosen(), text = total.value.trim();
  if (cage && text !== String(cage[1] ?? "")) wish({do: "total", cells: board.path, total: text || null});
};

const isBlocked = cell => puzzle.blocked.includes(cell);
const block = (cells, blocked) => wish({do: "block", cells, blocked});

const board = newBoard({
  takes: path => pen === "block" || pen === "total" && path.length === 1 ? path : path.filter(cell => !isBlocked(cell)),
  chosen: () => {
    if (!puzzle) return;
    if (document.activeElement !== total) showTotal();
    runs.show();
  },
  drawn: (path, by) => {
    if (!path.length) return;
    if (stage.shown) return stage.tap(path[0]);
    if (pen === "cage" && (path.length > 1 || by === "keys" && !cageAt(path[0]))) {
      awaited = path;
      wish({do: "cage", cells: path});
    } else if (pen === "cage") typeTotal();
    else if ((pen === "grow" || pen === "box") && path.length > 1) wish({do: pen, cells: path});
    else if (pen === "block") block(path, !isBlocked(path[0]));
    else if (pen === "total") runs.type();
    else if (pen === "rule" && (by === "keys" || path.length > 1 || ["even", "odd"].includes(find("rule").value)))
      rules.needsValue() ? rules.focus() : rules.draw();
  },
  key: (event, path) => {
    const letter = event.key.toLowerCase(), held = event.ctrlKey || event.metaKey;
    if (held) return false;
    const next = pens().find(button => button.querySelector("kbd").textContent.toLowerCase() === letter);
    if (next) return take(next.dataset.pen);
    if (letter in (OF_PENS[pen] ?? {})) return drawWith(OF_PENS[pen][letter]);
    if (["Delete", "Backspace"].includes(event.key) || event.key === "0" && pen === "given") {
      if (pen === "block") block(path, false);
      else if (pen in TAKES_OUT) wish({do: TAKES_OUT[pen], cells: path});
      return true;
    }
    if (!/^[0-9]$/.test(event.key)) return false;
    if (pen === "cage" || pen === "grow") typeTotal(event.key);
    else if (pen === "total") runs.type(event.key);
    else write(event.key, path);
    return true;
  },
});
let awaited = null;  // the cells of a cage that was drawn, and whose total is to be typed
const write = (figure, path) => {
  const now = Date.now(), two = puzzle.digits > 9 && now - typed.at < 800 ? typed.text + figure : figure;
  const digit = Number(two) > puzzle.digits ? Number(figure) : Number(two);
  typed = {text: String(digit), at: now};
  wish({do: "given", cells: path, digit});
};
const drawWith = what => {
  wish({do: what, cells: board.path});
  return true;
};

const OF_CAGES = {j: "join", s: "split"};
const OF_PENS = {cage: OF_CAGES, grow: OF_CAGES, box: {n: "new_box", x: "exchange"}};
const TAKES_OUT = {given: "given", cage: "uncage", grow: "uncage", box: "unbox"};
const pens = () => [...document.querySelectorAll("[data-pen]")].filter(button => !button.hidden);
const take = next => {
  pen = next;
  for (const button of document.querySelectorAll("[data-pen]")) {
    button.setAttribute("aria-checked", button.dataset.pen === pen);
    button.tabIndex = button.dataset.pen === pen ? 0 : -1;
  }
  for (const form of document.querySelectorAll("[data-for]")) form.hidden = !form.dataset.for.split(" ").includes(pen);
  find("how").textContent = pen === "rule" ? rules.how() : HOW[pen];
  if (puzzle) board.choose(board.path.length ? board.path : [board.at]);
  return true;
};
const fitPens = kakuro => {
  for (const button of document.querySelectorAll("[data-of]")) button.hidden = (button.dataset.of === "kakuro") !== kakuro;
  if (!pens().some(button => button.dataset.pen === pen)) take("given");
};
const rules = newRules(wish, {path: () => board.path, done: () => board.focus(), changed: () => take("rule")});
const runs = newRuns(wish, () => board);
const standing = newStanding(wish, board);
const stage = newStage(wish, board, () => take(pen));

for (const button of document.querySelectorAll("[data-pen]")) {
  button.addEventListener("click", () => {
    take(button.dataset.pen);
    if (pen === "rule") find("rule").focus();
    else board.focus();
  });
  button.addEventListener("keydown", event => {
    const way = {ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1}[event.key];
    if (!way) return;
    const all = pens(), next = all[(all.indexOf(button) + way + all.length) % all.length];
    take(next.dataset.pen);
    next.focus();
    event.preventDefault();
  });
}
document.addEventListener("click", ({target, detail}) => {  // who draws with the pointer goes on drawing
  if (detail && target.closest("[data-do], [data-cells], [data-boxes], [data-block]")) board.focus();
});
for (const button of document.querySelectorAll("[data-do]")) button.addEventListener("click", () => wish({do: button.dataset.do}));
for (const button of document.querySelectorAll("[data-cells]")) button.addEventListener("click", () => drawWith(button.dataset.cells));
for (const button of document.querySelectorAll("[data-boxes]"))
  button.addEventListener("click", () => wish({do: "key", key: "boxes", text: button.dataset.boxes}));
for (const button of document.querySelectorAll("[data-block]"))
  button.addEventListener("click", () => block(board.path, button.dataset.block === "yes"));
find("one-by-one").addEventListener("click", ({currentTarget: button}) => {
  const wanted = button.getAttribute("aria-pressed") !== "true";
  button.setAttribute("aria-pressed", wanted);
  board.oneByOne(wanted);
});
find("cage-form").addEventListener("submit", event => {
  event.preventDefault();
  board.focus();
});
total.addEventListener("blur", keepTotal);  // no "change": the first figure may have been typed on the grid
total.addEventListener("keydown", event => { if (event.key === "Escape") { showTotal(); board.focus(); } });
find("as-text").addEventListener("toggle", () => { find("text").value = puzzle.text ?? ""; });
find("text-form").addEventListener("submit", event => {
  event.preventDefault();
  wish({do: "text", text: find("text").value});
});
find("new").addEventListener("submit", event => {
  event.preventDefault();
  const size = find("size").value;
  wish(size === "kakuro" ? {do: "new", kakuro: true, rows: find("rows").value, columns: find("columns").value} : {do: "new", size: Number(size)});
});
find("size").addEventListener("change", () => { find("kakuro-size").hidden = find("size").value !== "kakuro"; });
for (const input of document.querySelectorAll("[data-name]"))
  input.addEventListener("change", () => wish({do: "name", [input.dataset.name]: input.value}));
document.addEventListener("keydown", event => {
  const typing = event.target.matches("input:not([type=checkbox]), textarea");
  if (!(event.ctrlKey || event.metaKey) || typing || !["z", "y"].includes(event.key.toLowerCase())) return;
  wish({do: event.key.toLowerCase() === "y" || event.shiftKey ? "redo" : "undo"});
  event.preventDefault();
});

const put = digit => stage.shown ? stage.write(digit) : wish({do: "given", cells: board.path, digit});
const showPad = () => {
  const digits = Array.from({length: puzzle.digits}, (_, number) => number + 1);
  find("pad").replaceChildren(...digits.map(digit => make("button", {type: "button", onclick: () => put(digit)}, digit)),
    make("button", {type: "button", onclick: () => put(null)}, "Take out"));
};
const HEARD = {
  puzzle: told => {
    const before = puzzle;
    puzzle = told;
    kept.puzzle(told);
    if (told.style !== before?.style) styles.replaceSync(told.style);
    if (told.signs !== before?.signs) find("signs").innerHTML = told.signs;
    fitPens(told.kakuro);
    board.show(told);
    runs.show(told);
    rules.show(told);
    if (told.digits !== before?.digits) showPad();
    for (const input of document.querySelectorAll("[data-name]"))
      if (document.activeElement !== input) input.value = told[input.dataset.name];
    document.title = told.title ? `${told.title}: the desk` : "The desk";
    if (told.version !== version) {
      standing.anew(version = told.version);
      stage.puzzle(told);
    }
    const cage = awaited && cageAt(awaited[0]);
    if (cage && cage[0].length === awaited.length && awaited.every(cell => cage[0].includes(cell))) {
      awaited = null;
      typeTotal();
    }
  },
  file: told => {
    find("file-name").textContent = told.name;
    kept.file(told);
    if (!asked) giveBack();
    asked = true;
    find("file-says").dataset.written = told.saved ? told.version : "";
    find("file-says").textContent = told.says || (told.saved ? "written" : "");
    find("undo").setAttribute("aria-disabled", !told.undo);
    find("redo").setAttribute("aria-disabled", !told.redo);
  },
  refused: told => {
    awaited = null;
    tell(told.says, "refused");
  },
};
const LINE = {
  there: () => "",
  silent: () => `The desk does not answer. What you draw is kept in this browser and goes there when it does. If it was ended, start it again: gridproof desk ${find("file-name").textContent}`,
  elsewhere: () => "The desk was started anew, and has another address now: go to the page that it opened, or to the address that it printed. What was drawn here is kept in this browser and offered to you there.",
};
const kept = newKept(() => talk.waiting, () => lineIs === "there");
const talk = line(
  told => {
    if (told.kind in HEARD) HEARD[told.kind](told);
    else if (told.version === version) {
      standing.hear(told);
      stage.hear(told);
    }
  },
  state => {
    lineIs = state;
    if (state === "there" && notice.dataset.kind !== "line") return;
    const text = puzzle?.text;
    tell(LINE[state](), "line", state === "there" || !text ? [] : [["Save what is here as a file", () => save(text)]]);
  },
);
take("given");
