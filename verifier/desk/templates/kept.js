// What is drawn and does not stand in the file yet, kept in the browser; the page of the next desk gives it back.
const OF_ALL = "gridproof desk";

const read = key => {
  try {
    const {text, wishes, at} = JSON.parse(localStorage.getItem(key));
    return {text: typeof text === "string" ? text : null, wishes: Array.isArray(wishes) ? wishes : [], at: Number(at)};
  } catch {
    return {text: null, wishes: [], at: 0};  // something else has written there
  }
};

export const kept = (waiting, there) => {
  const page = Math.random().toString(36).slice(2);
  let key = null, ofFile = null, text = null, written = true;

  const keep = () => {
    if (!key) return;
    try {
      if (written && !waiting().length) localStorage.removeItem(key);
      else localStorage.setItem(key, JSON.stringify({text, wishes: waiting(), at: Date.now()}));
    } catch { /* a browser that keeps nothing */ }
  };
  const left = () => {
    const lost = [];
    for (const each of Object.keys(localStorage)) {
      if (!each.startsWith(ofFile) || each === key) continue;
      const found = read(each), ofThisDesk = each.includes(` ${location.pathname} `);
      if (found.wishes.length || !ofThisDesk && found.text !== null && found.text !== text) lost.push([each, found]);
      else if (!ofThisDesk) localStorage.removeItem(each);  // it stands in the file
    }
    return lost.sort(([, one], [, other]) => other.at - one.at)[0] ?? null;
  };
  addEventListener("pagehide", () => {  // what has come to the desk it writes by itself
    written ||= there();
    keep();
  });

  return {
    keep,
    left,
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
    forget: each => localStorage.removeItem(each),
  };
};
