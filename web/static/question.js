// Makes the page answer at once: every change of the question fetches the
// parts of the page that depend on it, and puts the question into the address.
// Without this script the page is a plain form and says the same.
"use strict";

const form = document.getElementById("question");
let shown = location.search; // the address of what the page shows
const answer = () => document.getElementById("answer");
const step = () => answer().dataset.query + "&" + (answer().dataset.rows ?? "");
let shownStep = step(); // the question in it and its rows, as the server writes them

// The question as it stands in the form, in the order of the form.
function query() {
  const parts = new URLSearchParams();
  for (const [name, value] of new FormData(form)) {
    if (value !== "" && name !== "q") parts.append(name, value);
  }
  return parts;
}

// --- asking -----------------------------------------------------------------

let asked = null; // the request under way
let wanted = false; // another question came meanwhile
const patience = 250; // ms after which a request under way is dropped for the next

async function ask() {
  if (asked) {
    wanted = true;
    if (performance.now() - asked.since > patience) asked.stop.abort();
    return;
  }
  asked = { stop: new AbortController(), since: performance.now() };
  const question = query();
  const mine = asked;
  let failed = false;
  try {
    const reply = await fetch("/answer?" + question, { signal: mine.stop.signal });
    const text = await reply.text();
    if (asked !== mine) return; // the person has gone elsewhere
    if (reply.status === 503) {
      failed = true;
      live.busy(reply, text, ask);
    } else {
      live.mended();
      show(text);
    }
  } catch (e) {
    if (asked !== mine) return;
    failed = e.name !== "AbortError";
    if (failed) live.gone(ask);
  }
  asked = null;
  if (failed && !wanted) return; // it is asked again once there is an answer to be had
  if (wanted) {
    wanted = false;
    ask();
  } else if (!drag) {
    settle();
  }
}

// What follows once nothing is moving any more.
let settling = 0;
let answered = answer().dataset.query; // the question whose answer was said last
function settle() {
  clearTimeout(settling);
  settling = setTimeout(() => {
    for (const row of openRows()) fetchWhy(row);
    fetchLater();
    const rows = answer().dataset.query === answered && document.getElementById("shown");
    answered = answer().dataset.query;
    const lead = rows || document.getElementById("lead");
    if (lead) say(lead.textContent);
    remember();
  }, 200);
}

// Tells who cannot see the page what it says now.
function say(text) {
  document.getElementById("heard").textContent = text;
}

// Puts the question into the address: another question, or other rows of its answer,
// are a step that one can go back from, another open row is none.
function remember() {
  const parts = new URLSearchParams(answer().dataset.query ?? query()); // there is none where there was no answer
  for (const [part, value] of new URLSearchParams(answer().dataset.rows)) parts.append(part, value);
  for (const row of openRows()) parts.append("why", row.dataset.key);
  const to = "?" + parts;
  if (to !== shown) history[step() === shownStep ? "replaceState" : "pushState"](null, "", "/" + to);
  [shown, shownStep] = [to, step()];
}

// --- going back ---------------------------------------------------------------

// Makes the whole page, form and answer, that of its address.
async function restore() {
  const to = location.search;
  asked?.stop.abort();
  asked = null;
  wanted = false;
  drag = held = null;
  clearTimeout(settling);
  const reply = await fetch(location.pathname + to, { headers: { Accept: "text/html" } }).catch(() => null);
  const text = await reply?.text().catch(() => null);
  if (location.search !== to) return; // gone on meanwhile
  if (text == null) return live.gone(restore);
  if (reply.status === 503) return live.busy(reply, text, restore);
  live.mended();
  const fresh = new DOMParser().parseFromString(text, "text/html");
  const next = fresh.getElementById("question");
  if (!next) return location.reload(); // another kind of page
  const open = [...form.querySelectorAll("details[open]")].map((d) => d.className);
  form.replaceChildren(...next.childNodes);
  for (const d of form.querySelectorAll("details")) d.open ||= d.className !== "" && d.className !== "chapter" && open.includes(d.className);
  answer().replaceWith(fresh.getElementById("answer"));
  document.getElementById("address").replaceWith(fresh.getElementById("address"));
  document.title = fresh.title;
  [shown, shownStep] = [to, step()];
  opened();
  fetchLater();
  say(document.getElementById("lead")?.textContent ?? "");
}

addEventListener("popstate", () => {
  if (location.search === shown) openTarget();
  else restore();
});

// A page that the browser kept may be of before; one that it made anew has a form as
// the server wrote it, whatever was typed into it before.
addEventListener("pageshow", (e) => {
  if (e.persisted) restore();
  else if (!form.contains(document.activeElement)) form.reset();
});

// --- showing ----------------------------------------------------------------

// Puts a fragment in place. What the person holds (the mark, the focus, open
// rows) stays.
function show(text) {
  const fresh = new DOMParser().parseFromString(text, "text/html");
  const focus = whereFocus();
  const choices = () => document.getElementById("rows")?.getBoundingClientRect().top ?? 0;
  const before = choices();
  replaceAnswer(fresh.getElementById("answer"));
  if (drag) fetchCosts(); // otherwise once things have settled
  for (const id of ["chosen", "address"]) {
    const part = fresh.getElementById(id);
    if (part) document.getElementById(id).replaceWith(part);
  }
  if (focus) document.querySelector(focus)?.focus({ preventScroll: true });
  if (choosing) scrollBy({ top: choices() - before, behavior: "instant" }); // while the rows were away the page was shorter
  choosing = false;
  document.title = (document.querySelector("main > h1")?.textContent ?? "") + document.title.replace(/^.*(?= \([^()]*\)$)/, "");
  const at = form.elements.at;
  const moment = new URLSearchParams(answer().dataset.query).get("at");
  if (!drag && !pending() && document.activeElement !== at && moment !== null) at.value = moment;
}

function whereFocus() {
  const e = document.activeElement;
  if (e?.closest?.("#unfold")) return "#unfold";
  if (e?.closest?.(".only")) return e.id ? "#" + e.id : ".facets > summary";
  const row = e?.closest?.(".row");
  if (row) return "#" + CSS.escape(row.id) + " > summary";
  const bar = e?.closest?.("svg a");
  if (bar) return "svg." + bar.closest("svg").classList[1] + ' a[href="' + bar.getAttribute("href") + '"]';
  return null;
}

function replaceAnswer(fresh) {
  const old = answer();
  const rows = new Map(openRows().map((r) => [r.id, r]));
  for (const svg of fresh.querySelectorAll("svg.line")) keepMark(svg, old.querySelector("svg.line." + svg.classList[1]));
  for (const row of fresh.querySelectorAll(".row")) {
    const before = rows.get(row.id);
    if (!before) continue;
    row.open = true;
    const why = before.querySelector(".why");
    why.classList.add("stale");
    row.querySelector(".why").replaceWith(why);
  }
  keepCosts(old, fresh);
  keepVaried(old, fresh);
  const facets = fresh.querySelector(".facets");
  if (facets) facets.open ||= !!old.querySelector(".facets")?.open;
  for (const rest of fresh.querySelectorAll(".rest")) rest.open ||= !!document.getElementById(rest.id)?.open;
  const figure = old.querySelector(".line-figure");
  const next = fresh.querySelector(".line-figure");
  if (!figure || !next) {
    old.replaceWith(fresh);
    return;
  }
  // The figure itself stays where it is: what the pointer or the focus holds
  // must not leave the page.
  figure.querySelector("figcaption").replaceWith(next.querySelector("figcaption"));
  replaceAround(old, figure, fresh, next);
  delete old.dataset.rows;
  for (const key of Object.keys(fresh.dataset)) old.dataset[key] = fresh.dataset[key];
}

// Replaces everything in old but the figure by what is around its like in fresh.
function replaceAround(old, figure, fresh, next) {
  const before = [], after = [];
  let list = before;
  for (const node of fresh.childNodes) {
    if (node === next) list = after;
    else list.push(node);
  }
  for (const node of [...old.childNodes]) if (node !== figure) node.remove();
  figure.before(...before);
  figure.after(...after);
}

// Takes a new drawing over into the one that is there.
function keepMark(fresh, old) {
  if (!old) return;
  for (const { name, value } of [...fresh.attributes]) old.setAttribute(name, value);
  for (const part of ["title", "desc", ".ground", ".rows"]) {
    old.querySelector(":scope > " + part).replaceWith(fresh.querySelector(":scope > " + part));
  }
  if (drag || pending()) return;
  const mark = old.querySelector(".mark");
  const next = fresh.querySelector(".mark");
  for (const { name, value } of [...next.attributes]) mark.setAttribute(name, value);
  mark.replaceChildren(...next.childNodes);
}

// --- the mark ---------------------------------------------------------------

let drag = null; // the drawing whose mark is held
let held = null; // and its axis when it was taken: answers that come meanwhile may have another
let frame = 0;

// A move whose answer has not come yet must not be undone by an older answer.
const pending = () => wanted || frame !== 0;

function axis(svg) {
  return {
    x: svg.dataset.x.split(",").map(Number),
    t: svg.dataset.t.split(",").map(Number),
    clock: svg.dataset.clockT.split(",").map(Number), // moments are counted from here
    phases: svg.dataset.clock.split(","),
  };
}

// Straight pieces between the places where phases begin.
function between(from, to, v) {
  let i = 0;
  while (i < from.length - 2 && v >= from[i + 1]) i++;
  const part = from[i + 1] > from[i] ? (v - from[i]) / (from[i + 1] - from[i]) : 0;
  return to[i] + Math.min(Math.max(part, 0), 1) * (to[i + 1] - to[i]);
}

// A moment in whole seconds from where its phase begins with nothing failed: what
// one types, and when that is.
function whole(a, t) {
  let i = 0;
  while (i < a.phases.length - 1 && t >= a.clock[i + 1] - 0.5) i++;
  const s = Math.max(0, Math.round(t - a.clock[i]));
  return { text: a.phases[i] + (s > 0 ? " + " + s + " s" : ""), t: Math.min(a.clock[i] + s, a.clock[a.clock.length - 1]) };
}

function moveTo(t) {
  for (const svg of document.querySelectorAll("svg.line")) {
    const a = axis(svg);
    const { text, t: at } = whole(a, Math.min(Math.max(t, a.clock[0]), a.clock[a.clock.length - 1]));
    const mark = svg.querySelector(".mark");
    mark.setAttribute("transform", "translate(" + between(a.t, a.x, at).toFixed(1) + " 0)");
    mark.setAttribute("aria-valuenow", at);
    mark.setAttribute("aria-valuetext", text.replaceAll("_", " "));
    svg.querySelector(".moment").textContent = "fails at " + text.replaceAll("_", " ");
    form.elements.at.value = text;
  }
  form.elements.when?.remove();
  if (!frame) {
    frame = requestAnimationFrame(() => {
      frame = 0;
      ask();
    });
  }
}

const now = (svg) => Number(svg.querySelector(".mark").getAttribute("aria-valuenow"));

function timeAt(svg, clientX) {
  const box = svg.getBoundingClientRect();
  const a = held ?? axis(svg);
  const x = ((clientX - box.left) / box.width) * svg.viewBox.baseVal.width;
  return between(a.x, a.t, x);
}

document.addEventListener("pointerdown", (e) => {
  const mark = e.target.closest?.("svg.line .mark");
  if (!mark || e.button !== 0) return;
  drag = mark.closest("svg");
  held = axis(drag);
  mark.focus({ preventScroll: true });
  mark.setPointerCapture(e.pointerId);
  e.preventDefault();
});

document.addEventListener("pointermove", (e) => {
  if (drag) moveTo(timeAt(drag, e.clientX));
});

for (const end of ["pointerup", "pointercancel"]) {
  document.addEventListener(end, () => {
    if (!drag) return;
    drag = held = null;
    if (!asked) settle();
  });
}

document.addEventListener("keydown", (e) => {
  const mark = e.target.closest?.("svg.line .mark");
  if (!mark || e.altKey || e.ctrlKey || e.metaKey) return;
  const svg = mark.closest("svg");
  const a = axis(svg), t = now(svg), step = e.shiftKey ? 60 : 10;
  const to = {
    ArrowLeft: t - step, ArrowDown: t - step, ArrowRight: t + step, ArrowUp: t + step,
    PageDown: t - 600, PageUp: t + 600,
    Home: a.t.findLast((s) => s < t - 0.5) ?? a.t[0],
    End: a.t.find((s) => s > t + 0.5) ?? a.t[a.t.length - 1],
  }[e.key];
  if (to === undefined) return;
  e.preventDefault();
  moveTo(to);
});

// --- the form ---------------------------------------------------------------

function choose(part, ref) {
  if ([...form.querySelectorAll("#chosen input")].some((i) => i.name === part && i.value === ref)) return;
  const input = document.createElement("input");
  input.type = "hidden";
  input.name = part;
  input.value = ref;
  document.getElementById("chosen").append(input);
  ask();
}

form.addEventListener("click", (e) => {
  const less = e.target.closest("a.less");
  if (less) {
    e.preventDefault();
    less.closest("li").remove();
    (form.querySelector("a.less") ?? form.elements.q).focus({ preventScroll: true });
    ask();
  }
  const button = e.target.closest("#catalogue button");
  if (button) {
    e.preventDefault();
    choose(button.name, button.value);
    say(button.textContent + " chosen");
  }
});

form.addEventListener("submit", (e) => {
  e.preventDefault();
  const q = form.elements.q;
  if (document.activeElement === q && q.value.trim() !== "") {
    const hits = [...document.querySelectorAll("#catalogue li:not([hidden]) button[name=fail]")];
    hits[0]?.focus();
    if (hits.length === 1) choose("fail", hits[0].value);
    return;
  }
  ask();
});

// On the form itself: what is in it is replaced when one goes back.
form.addEventListener("change", (e) => {
  const { name } = e.target;
  if (name === "build") location.assign("/?" + query()); // another build has other things that can fail: the whole page changes
  else if (name === "at" || name === "flight") ask();
  else if (e.target.closest(".more")) changeMore(e);
});
form.addEventListener("input", (e) => {
  if (e.target.name === "q") search();
});

function changeMore(e) {
  // There is always an empty line for one more control, to set and to move.
  const last = e.target;
  if (last.matches(".lines input[id]") && last.value.trim() !== "") {
    const before = last.cloneNode();
    before.removeAttribute("id");
    before.removeAttribute("placeholder");
    before.setAttribute("aria-label", last.labels[0].textContent);
    before.value = last.value;
    last.before(before);
    last.value = "";
  }
  ask();
}

function search() {
  const all = form.querySelector(".all");
  if (form.elements.q.value.trim() !== "") all.open = true;
  const words = form.elements.q.value.toLowerCase().split(/\s+/).filter(Boolean);
  let count = 0;
  for (const chapter of document.querySelectorAll("#catalogue .chapter")) {
    let here = 0;
    for (const li of chapter.querySelectorAll("li")) {
      const hit = words.every((w) => li.dataset.search.includes(w));
      li.hidden = !hit;
      if (hit) here++;
    }
    chapter.hidden = here === 0;
    chapter.open = words.length > 0 && here > 0;
    count += here;
  }
  const found = document.getElementById("found");
  if (words.length === 0) found.textContent = "";
  else found.textContent = count === 0 ? "Nothing is called that." : count === 1 ? "One found: Enter takes it." : count + " found.";
}

// --- which rows ---------------------------------------------------------------

let choosing = false; // the next answer is shown where its rows are chosen
const wishes = ["phase", "chapter", "severity", "group", "has", "figure"];

// Asks for the rows that an address asks for; the next question asks for them too.
function showRows(parts) {
  for (const input of form.querySelectorAll("#chosen input.wish")) input.remove();
  for (const [name, value] of parts) {
    if (!wishes.includes(name) || value.trim() === "") continue;
    const input = Object.assign(document.createElement("input"), { type: "hidden", className: "wish", name, value });
    document.getElementById("chosen").append(input);
  }
  choosing = document.activeElement?.closest(".only") != null;
  ask();
}

document.addEventListener("click", (e) => {
  const link = e.target.closest?.(".only a, #unfold");
  if (!link || e.ctrlKey || e.metaKey || e.shiftKey || e.altKey) return;
  e.preventDefault();
  showRows(new URLSearchParams(link.search));
});
document.addEventListener("submit", (e) => {
  if (!e.target.matches(".only form")) return;
  e.preventDefault();
  showRows(new FormData(e.target));
});

// What comes after the answer: other runs first, since that is what it teaches.
async function fetchLater() {
  await fetchVary();
  fetchCosts();
}

// --- what it costs ------------------------------------------------------------

// What was there stays until the new one has come; faded if it is of another
// question.
function keepCosts(old, fresh) {
  const before = old.querySelector("#costs"), next = fresh.querySelector("#costs");
  if (!before || !next || !before.dataset.from) return;
  next.innerHTML = before.innerHTML;
  const table = next.querySelector("#costs-table");
  if (table) table.open = before.querySelector("#costs-table").open;
  next.dataset.from = before.dataset.from;
  next.classList.toggle("stale", next.dataset.from !== next.dataset.query);
}

// Other runs are of the question, whatever rows of it are shown.
function keepVaried(old, fresh) {
  const before = old.querySelector("#vary"), next = fresh.querySelector("#vary");
  if (before && next && before.dataset.from === next.dataset.query) next.replaceWith(before);
}

let pricing = false; // one request at a time; the last wish counts

async function fetchCosts() {
  if (pricing) return;
  pricing = true;
  const costs = () => document.getElementById("costs");
  while (costs() && costs().dataset.from !== costs().dataset.query) {
    const from = costs().dataset.query;
    const { text, trouble } = await priceOf(from);
    if (costs()) showCosts(costs(), from, text, trouble);
    if (!text) break;
  }
  pricing = false;
}

// The section for a question; text is "" where the server gives none, and
// trouble what it says then.
async function priceOf(question) {
  try {
    const reply = await fetch("/costs/part?" + question);
    const text = await reply.text();
    if (reply.ok) return { text };
    return { text: "", trouble: new DOMParser().parseFromString(text, "text/html").querySelector(".problem")?.textContent };
  } catch {
    live.look();
    return { text: "" };
  }
}

// An answer that did not come must not leave an older one standing.
function showCosts(costs, from, text, trouble) {
  const open = costs.querySelector("#costs-table")?.open;
  costs.innerHTML = text || '<h2 id="costs-title">What it costs</h2><p class="help"></p>';
  if (!text) costs.querySelector(".help").textContent = trouble ?? "The server gives no price. Is it still running?";
  if (open) costs.querySelector("#costs-table")?.setAttribute("open", "");
  costs.dataset.from = text ? from : "";
  costs.classList.toggle("stale", text !== "" && costs.dataset.query !== from);
}

// --- chains -----------------------------------------------------------------

const openRows = () => [...document.querySelectorAll(".row[open]")];

const whyOf = (row) => "/why?" + answer().dataset.query + "&row=" + encodeURIComponent(row.dataset.key);

async function fetchWhy(row) {
  const why = row.querySelector(".why");
  const from = whyOf(row);
  if (why.dataset.from === from) {
    why.classList.remove("stale");
    return;
  }
  const reply = await fetch(from).catch(() => null);
  if (!reply) live.look();
  if (!row.isConnected || whyOf(row) !== from) return;
  if (!reply?.ok) {
    why.textContent = reply ? new DOMParser().parseFromString(await reply.text(), "text/html").querySelector(".problem")?.textContent ?? "" : "The server does not answer.";
  } else {
    why.innerHTML = await reply.text();
  }
  why.dataset.from = from;
  why.classList.remove("stale");
}

// toggle does not bubble, so it is caught on its way down.
document.addEventListener("toggle", (e) => {
  if (!e.target.matches?.(".row")) return;
  if (e.target.open && !e.target.querySelector(".why.stale")) fetchWhy(e.target);
  if (!asked && !drag) remember();
}, true);

// A row that is linked to opens.
function openTarget() {
  const row = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (row?.matches(".row, .waves details")) row.open = true;
}

function follow(e) {
  const bar = e.target.closest?.("svg.line a");
  if (!bar || !bar.getAttribute("href").startsWith("#")) return; // that row is on the page of the whole answer
  e.preventDefault();
  const row = document.getElementById(bar.getAttribute("href").slice(1));
  for (let d = row; d; d = d.parentElement.closest("details")) d.open = true;
  row.querySelector("summary").focus({ preventScroll: true });
  row.scrollIntoView({ block: "center", behavior: matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth" });
}
document.addEventListener("click", follow);
// By key, the row gets the focus when the key comes up: a row that has it when
// the key goes down would close again.
document.addEventListener("keydown", (e) => {
  if (e.key === "Enter" && e.target.closest?.('svg.line a[href^="#"]')) e.preventDefault();
});
document.addEventListener("keyup", (e) => {
  if (e.key === "Enter") follow(e);
});

// Rows that came open have their chain already.
function opened() {
  for (const row of openRows()) {
    const why = row.querySelector(".why");
    if (why.querySelector(".chain-words")) why.dataset.from = whyOf(row);
  }
}

openTarget();
opened();

fetchLater();
