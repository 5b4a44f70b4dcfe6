// What the puzzle is, in three beats, and what can be done now. Everything that is said here was worded by the desk.
import {find, make, paragraphs} from "./parts.js";

const TITLES = {one: "Exactly one solution", several: "Several solutions", none: "No solution", unknown: "Looking …"};

export const standing = (wish, board) => {
  const section = find("standing"), says = find("standing-says"), offers = find("offers"), now = find("now");
  const beats = Object.fromEntries([...find("beats").children].map(item => [item.dataset.beat, item]));

  const title = text => {
    find("standing-title").textContent = text;
    find("brief").textContent = text;
  };
  const beat = (name, done, text = name) => {
    beats[name].dataset.done = done;
    beats[name].textContent = text;
  };
  const anew = version => {
    Object.assign(section.dataset, {standing: "unknown", tier: "", proved: "", version});
    for (const name of Object.keys(beats)) beat(name, "no");
    now.hidden = true;
    offers.replaceChildren();
    section.classList.add("looking");
  };
  const settle = () => {
    section.classList.remove("looking");
    find("tier").textContent = "";
    find("chart-of-solve").hidden = true;
    says.replaceChildren();
    find("idle").hidden = form.hidden = true;
  };

  const found = told => {
    settle();
    section.dataset.standing = told.standing;
    title(told.standing === "unknown" ? "Not known" : TITLES[told.standing]);
    beat("found", "yes");
    says.append(...told.without.map(line => make("p", {class: "without"}, line)));
    says.append(...paragraphs(told.says));
    if (told.swings?.length) {
      const swings = told.swings.slice(0, 12).map(([cell, one, other]) => `${cell}: ${one} or ${other}`);
      const more = told.swings.length > 12 ? ` and ${told.swings.length - 12} more` : "";
      says.append(make("p", {}, `The solutions differ in ${swings.join(", ")}${more}.`),
        make("button", {type: "button", onclick: () => wish({do: "mean", example: 0})}, "Take one of them as the solution that is meant"));
    }
    if (told.under) board.mark(told.under);
  };
  const proved = told => {
    section.dataset.standing = told.standing;
    section.dataset.proved = told.by ? "yes" : "";
    if (told.standing === "unknown") title("Not known");
    find("idle").hidden = told.standing !== "one";
    beat("proved", told.by ? "yes" : "no", told.by ? `proved ${told.by}` : "not proved");
    if (told.standing !== "several") says.append(...paragraphs(told.says ?? []));
  };
  let mine = false;  // what can be done now was asked for on this page, so that it is brought into view
  for (const button of find("on-demand").children) button.addEventListener("click", () => { mine = true; });
  const awaitHere = told => {
    find("now-says").replaceChildren(...paragraphs([told.says]));
    offers.replaceChildren();
    if (mine) now.scrollIntoView({block: "nearest"});
    mine = false;
  };
  const form = find("towards"), tiers = find("tiers");
  const offerTiers = told => {
    form.hidden = !told.tier;
    if (!told.tier) return;
    tiers.replaceChildren(make("option", {value: ""}, "any"),
      ...told.tiers.map((name, place) => make("option", {value: place + 1}, `${place + 1} ${name}`)));
    tiers.value = Math.min(Number(told.tier) + 1, told.tiers.length);
  };
  form.addEventListener("submit", event => {
    event.preventDefault();
    mine = true;
    wish({do: "tune", ...Object.fromEntries([...new FormData(form)].filter(([, said]) => said.trim()))});
  });
  const graded = told => {
    beat("graded", told.tier ? "yes" : "no", told.tier ? "graded" : "not graded");
    find("tier").replaceChildren(...told.tier ? [make("strong", {}, `${told.tier} ${told.name}`), " ", told.effort] : []);
    says.append(...paragraphs([told.says].filter(Boolean)));
    for (const [title, lines] of [["Against the house style", told.against], ["Worth a look", told.remarks]])
      if (lines.length) says.append(make("h3", {}, title), ...paragraphs(lines));
    if (told.chart) {
      find("chart").innerHTML = told.chart;
      find("break-in").textContent = told.break_in ? `Break-in, in round ${told.round}: ${told.break_in}` : "";
      find("chart-of-solve").hidden = false;
    }
    section.dataset.tier = told.tier;
    if (told.tier) find("brief").textContent += `, ${told.tier} ${told.name}`;
    offerTiers(told);
  };
  const offered = ({offer, findings, says: text, picture, version}) => {
    now.hidden = false;
    find("now-says").replaceChildren(...paragraphs([...findings, "Looking for more …"]));
    offers.append((() => {
      const small = make("div", {class: "small"});
      small.innerHTML = picture;
      const look = () => board.preview(picture), away = () => board.preview(null);
      return make("li", {onpointerenter: look, onpointerleave: away, onfocusin: look, onfocusout: away}, small, make("div", {}, make("p", {}, text),
        make("button", {type: "button", "data-offer": offer, onclick: () => wish({do: "take", offer, version})}, "Take it")));
    })());
  };
  const repairs = told => {
    now.hidden = false;
    if (told.waiting) return awaitHere(told);
    find("now-says").replaceChildren(...paragraphs(told.findings));
    const places = new Map(told.order.map((offer, place) => [String(offer), place]));
    const place = item => places.get(item.querySelector("[data-offer]").dataset.offer) ?? Infinity;
    offers.replaceChildren(...[...offers.children].filter(item => place(item) < Infinity).sort((one, other) => place(one) - place(other)));
  };
  const idle = told => {
    now.hidden = false;
    if (told.waiting) return awaitHere(told);
    find("now-says").replaceChildren(...paragraphs(told.findings));
  };
  const looking = told => find("now-says").replaceChildren(...paragraphs([told.says]));
  const HEARD = {found, proved, graded, offer: offered, repairs, tuned: repairs, looking, idle, repeats: idle};
  return {anew, hear: told => HEARD[told.kind.split(" ")[0]]?.(told)};
};
