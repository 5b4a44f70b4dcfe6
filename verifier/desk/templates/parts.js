// Small things that every module needs.
export const find = id => document.getElementById(id);

export const make = (name, facts = {}, ...inside) => {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(facts)) {
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else made.setAttribute(key, value);
  }
  made.append(...inside);
  return made;
};

export const paragraphs = says => says.map(line => make("p", {}, line));
