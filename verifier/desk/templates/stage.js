// The page as a stage: the walk by arrow keys, as much of each step as is wanted, and the grid of an audience.
import {find, paragraphs} from "./parts.js";

const STILL = 4000;
const STRENGTHS = ["where", "what", "why"];

export const stage = (wish, board, left) => {
  const says = find("stage-says");
  let shown = false, step = 0, count = 0, strength = 2, marks = false, puzzle = null, digits = null, rest = null;

  const ask = () => wish({do: "step", step, marks, strength: STRENGTHS[strength]});
  const say = lines => says.replaceChildren(...paragraphs(lines));
  const stir = () => {  // what there is to press goes when nothing moves, so that the grid stands alone
    document.body.classList.remove("still");
    clearTimeout(rest);
    rest = setTimeout(() => document.body.classList.add("still"), STILL);
  };
  for (const stirring of ["pointermove", "pointerdown", "focusin"]) document.addEventListener(stirring, () => { if (shown) stir(); });
  const open = () => {
    document.body.classList.add("staged");
    find("stage").hidden = false;
    [shown, step, digits] = [true, 0, null];
    find("stage-count").textContent = "";
    wish({do: "walk"});
    board.focus();
    stir();
  };
  const leave = () => {
    document.body.classList.remove("staged", "audience");
    find("stage").hidden = true;
    shown = false;
    board.preview(null);
    left();
  };
  const go = next => {
    digits = null;
    document.body.classList.remove("audience");
    step = Math.min(Math.max(next, 0), count + 1);
    ask();
  };
  const grid = () => wish({do: "grid", digits});
  const KEYS = {
    ArrowRight: () => go(step + 1),
    ArrowLeft: () => go(step - 1),
    Home: () => go(0),
    End: () => go(count + 1),
    w: () => { strength = (strength + 1) % 3; ask(); },
    m: () => { marks = !marks; ask(); },
    a: () => {
      digits = digits ? null : puzzle.cells.map(() => 0);
      document.body.classList.toggle("audience", digits !== null);
      find("pad-form").hidden = digits === null;
      digits ? grid() : ask();
    },
    n: () => digits && wish({do: "next", digits, strength: STRENGTHS[strength]}),
    Escape: leave,
  };
  const type = key => {
    if (!/^[0-9]$/.test(key) && !["Delete", "Backspace"].includes(key)) return false;
    if (puzzle.blocked.includes(board.at)) return true;
    const figure = Number(key) || 0, two = digits[board.at] * 10 + figure;
    digits[board.at] = puzzle.digits > 9 && figure && two <= puzzle.digits ? two : Math.min(figure, puzzle.digits);
    grid();
    return true;
  };
  document.addEventListener("keydown", event => {
    if (event.key === "F2") shown ? leave() : open();
    else if (!shown || event.ctrlKey || event.metaKey || event.altKey) return;
    else if (digits && event.key.startsWith("Arrow")) return;
    else if (!(digits && type(event.key))) {
      const does = KEYS[event.key.length === 1 ? event.key.toLowerCase() : event.key];
      if (!does) return;
      does();
    }
    event.preventDefault();
    event.stopPropagation();
  }, true);
  find("show").addEventListener("click", open);
  for (const button of document.querySelectorAll("[data-stage]")) button.addEventListener("click", () => KEYS[button.dataset.stage]());

  const HEARD = {
    walk: told => {
      if (told.waiting) return say(["Working it through …"]);
      count = told.count;
      if (!digits) ask();
    },
    step: told => {
      board.preview(told.svg);
      say(told.says);
      if (told.count !== undefined) find("stage-count").textContent = told.step && !told.ends ? `Step ${told.step} of ${told.count}` : "";
      else find("stage-count").textContent = "The audience’s grid";
    },
    next: told => {
      if (told.waiting) return say(["Thinking …"]);
      board.preview(told.svg);
      say(told.says);
    },
  };
  return {
    puzzle: told => {
      puzzle = told;
      if (shown) open();
    },
    hear: told => { if (shown) HEARD[told.kind]?.(told); },
    write: digit => {
      if (!digits || puzzle.blocked.includes(board.at)) return;
      digits[board.at] = digit ?? 0;
      grid();
    },
    tap: cell => { if (!digits) go(step + (cell % puzzle.columns * 3 < puzzle.columns ? -1 : 1)); },
    get shown() { return shown; },
  };
};
