// What is drawn and does not stand in the file yet, kept in the browser; the page of the next desk gives it back.
const OF_ALL = "gridproof desk";

export const kept = waiting => {
  const page = Math.random().toString(36).slice(2);
  let key = null, ofFile = null, text = null, written = true;

  const keep = () => {
    if (!key) return;
    if (written && !waiting().length) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify({text, wishes: waiting(), at: Date.now()}));
  };
  const others = () => Object.keys(localStorage).filter(each => each.startsWith(ofFile) && each !== key);
  const left = () => others().map(each => [each, JSON.parse(localStorage.getItem(each))])
    .filter(([each, {wishes}]) => wishes.length || !each.includes(` ${location.pathname} `))  // or a page has it open
    .filter(([each, {wishes, text: old}]) => {
      const lost = wishes.length || old && old !== text;
      if (!lost) localStorage.removeItem(each);
      return lost;
    })
    .sort(([, one], [, other]) => other.at - one.at)[0];
  addEventListener("pagehide", () => { if (key && !waiting().length) localStorage.removeItem(key); });

  return {
    keep,
    puzzle: told => {
      text = told.text;
      written = false;
      keep();
    },
    file: told => {
      ofFile = `${OF_ALL} ${told.key} `;
      key = `${ofFile}${location.pathname} ${page}`;
      written = told.saved;
      keep();
    },
    left: () => left() ?? null,
    forget: each => localStorage.removeItem(each),
    get text() { return text; },
  };
};
