// One person's screen of a drill: shows what the stream says, sends what the
// person does. An input keeps its number until it is acknowledged, so that one
// sent twice counts once.
"use strict";

const body = document.body;
const seat = location.pathname; // ends in a stroke: what belongs to the seat lies behind it
const who = body.dataset.role;
const all = JSON.parse(body.dataset.inventory);
const $ = (id) => document.getElementById(id);
const title = new Map();
for (const list of [all.indications, all.controls, all.lists, all.failures]) for (const x of list ?? []) title.set(x.id, x.title);

// A device keeps its name and its count through a reload.
const kept = "drill " + seat;
let client = sessionStorage.getItem(kept) ?? newName();
let sent = Number(sessionStorage.getItem(kept + " sent") ?? 0);
remember();

function newName() { return who + "-" + Math.random().toString(36).slice(2, 10); }

function remember() {
  sessionStorage.setItem(kept, client);
  sessionStorage.setItem(kept + " sent", sent);
}

let screen = null;
let sending = Promise.resolve();

function send(what) {
  sending = sending.then(() => deliver({ at_us: 0, ...what }));
  return sending;
}

async function deliver(what) {
  for (let wait = 200, renamed = false; ; wait = Math.min(2 * wait, 5000)) {
    const reply = await fetch(seat + "input", { method: "POST", body: JSON.stringify({ client, number: sent + 1, ...what }) }).catch(() => null);
    if (reply?.ok) {
      sent++;
      remember();
      return true;
    }
    if (reply?.status === 404) return lost();
    if (reply && reply.status < 500) {
      const no = await reply.json().catch(() => ({ text: "this was not taken" }));
      if (no.why === "out_of_order" && !renamed) {
        // A copy of this page has counted on under the same name.
        [client, sent, renamed] = [newName(), 0, true];
        continue;
      }
      say("Not taken: " + no.text + ".");
      return false;
    }
    say("The server does not answer; trying again.");
    await new Promise((r) => setTimeout(r, wait));
  }
}

// A seat whose link leads nowhere any more: nothing goes on here.
function lost() {
  put($("message"), "");
  tell("This link leads to no seat any more: the instructor has given out a new one, or the drill is no longer kept. Ask for the new link.");
  return false;
}

// A notice stays.
function tell(text) {
  put($("notice"), text);
  $("notice").hidden = !text;
}

// A message stays long enough to be read, and goes when it is old.
let sayingUntil = 0;
function say(text) {
  $("message").textContent = text;
  sayingUntil = Date.now() + 8000;
}

// --- showing ------------------------------------------------------------------

// Puts texts into a list without touching lines that stay: what is focused keeps
// its focus, and a screen reader hears only what is new.
function fill(list, items, key, make, update) {
  const old = new Map([...list.children].map((e) => [e.dataset.key, e]));
  let at = null;
  for (const [i, item] of items.entries()) {
    const k = key(item, i);
    let e = old.get(k);
    if (!e) {
      e = make(item);
      e.dataset.key = k;
    }
    old.delete(k);
    update(e, item);
    const next = at ? at.nextElementSibling : list.firstElementChild;
    if (next !== e) list.insertBefore(e, next);
    at = e;
  }
  for (const e of old.values()) e.remove();
}

const element = (tag, className, text) => {
  const e = document.createElement(tag);
  if (className) e.className = className;
  if (text !== undefined) e.textContent = text;
  return e;
};
const button = (text, act, label) => {
  const b = element("button", "", text);
  b.type = "button";
  if (label) b.setAttribute("aria-label", label);
  b.addEventListener("click", act);
  return b;
};
const put = (e, text) => { if (e.textContent !== text) e.textContent = text; };

function show(s) {
  const before = screen;
  screen = s;
  put($("time"), s.clock);
  put($("phase"), s.phase);
  tell(s.notice ?? "");
  if (who !== "instructor") for (const id of ["leave", "save"]) if ($(id)?.tagName === "A") $(id).hidden = !s.over;
  put($("state"), s.ended ? "The flight has ended." : s.over ? "The drill has ended." : s.held ? "The instructor holds the drill." : s.rate === 0 ? "The clock stands." : s.rate > 1 ? s.rate + " times as fast" : "");
  if (Date.now() > sayingUntil) put($("message"), "");
  showAlerts(s, before);
  fill($("situation"), s.situation.flatMap((f) => [["dt", f.title, f.title], ["dd", f.text, f.title + " is"]]), (x) => x[2], (x) => element(x[0]), (e, x) => put(e, x[1]));
  showReadings($("looked"), s.looked);
  showControls(s);
  showLists(s);
  for (const b of document.querySelectorAll("#clock-buttons button")) b.setAttribute("aria-pressed", String(Number(b.value) === s.rate));
  if (who === "instructor") {
    fill($("failed"), s.failed ?? [], (x) => x, () => element("li"), (e, x) => put(e, title.get(x) ?? x));
    $("nothing-failed").hidden = !!s.failed?.length;
    if ($("true").open) showReadings($("truth"), s.truth ?? []);
    for (const cue of document.querySelectorAll(".cues li[data-at]")) cue.classList.toggle("past", s.at_us >= cue.dataset.at * 1e6);
    fill($("notes"), s.notes ?? [], (n, i) => String(i), () => element("li"), (e, n) => put(e, n.at.clock + " " + n.text));
  }
}

function showReadings(list, readings) {
  fill(list, readings, (r) => r.id, (r) => {
    const e = element("li");
    e.append(element("span", "name", r.title + ": "), element("strong", "says"), " ", element("span", "ago"));
    if (list.id === "looked") e.append(" ", button("again", () => send({ do: "look", id: r.id }), "look again: " + r.title));
    return e;
  }, (e, r) => {
    put(e.querySelector(".says"), !r.ready ? "…" : r.lit ? r.text || "lit" : "dark");
    put(e.querySelector(".ago"), list.id === "looked" ? (r.ready ? "at " : "looking, ") + clock(r.at_us) : "");
  });
}

const clock = (us) => {
  const s = Math.round(us / 1e6); // as every clock of the house
  return Math.floor(s / 60) + ":" + String(s % 60).padStart(2, "0");
};

let helped = false;

function showAlerts(s, before) {
  fill($("alerts"), s.alerts, (a) => a.id, (a) => {
    const e = element("li", a.level);
    e.append(element("span", "message", a.message), " ", element("span", "level", a.level + ", since " + clock(a.since_us)));
    return e;
  }, () => {});
  $("quiet").hidden = s.alerts.length > 0;
  put($("told-count"), s.alerts.length ? "(" + s.alerts.length + ")" : "");
  if (s.alerts.length && who !== "instructor" && !helped) [helped, $("how").open] = [true, false]; // help folds when there is something to do
  if (!before) return;
  const known = new Map(before.alerts.map((a) => [a.id, a.sound_us]));
  const fresh = s.alerts.filter((a) => known.get(a.id) !== a.sound_us);
  for (const a of fresh) tone(a.level);
  const news = fresh.filter((a) => !known.has(a.id));
  for (const level of ["warning", "other"]) {
    const texts = news.filter((a) => (a.level === "warning") === (level === "warning")).map((a) => a.level + ": " + a.message);
    if (texts.length) $(level === "warning" ? "warned" : "heard").textContent = texts.join(". ");
  }
}

function showControls(s) {
  for (const c of s.controls) {
    for (const b of switches.get(c.id) ?? []) {
      const on = b.value === c.to;
      if (b.getAttribute("aria-pressed") !== String(on)) b.setAttribute("aria-pressed", String(on));
      if (!b.parentElement.contains(document.activeElement)) b.tabIndex = on ? 0 : -1;
    }
  }
}

// The buttons of each control: one for a position. Tab comes to the one that is
// set, arrows go along, Enter moves.
const switches = new Map();

function switchOf(c) {
  const row = element("div", "control"), name = element("span", "name", c.title), group = element("div", "positions");
  name.id = "name-" + c.id;
  row.id = "control-" + c.id;
  group.setAttribute("role", "group");
  group.setAttribute("aria-labelledby", name.id);
  const all = c.positions.map((p) => {
    const b = button(p.replaceAll("_", " "), () => send({ do: "move", id: c.id, to: p }));
    b.value = p;
    b.dataset.control = c.id;
    b.setAttribute("aria-pressed", "false");
    b.tabIndex = p === c.positions[0] ? 0 : -1;
    group.append(b);
    return b;
  });
  group.addEventListener("keydown", (e) => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[e.key];
    const at = all.indexOf(document.activeElement) + (by ?? 0);
    if (e.key === "Escape" && cameFrom) back();
    if (!by) return;
    e.preventDefault();
    e.stopPropagation();
    if (all[at]) focusOn(all[at], all);
  });
  switches.set(c.id, all);
  row.append(name, group);
  return row;
}

function focusOn(b, all) {
  for (const x of all) x.tabIndex = x === b ? 0 : -1;
  b.focus();
}

// From a line of a list to its switch, and with Escape back.
let cameFrom = null;

function toSwitch(id, from) {
  const all = switches.get(id);
  if (!all) return;
  cameFrom = from;
  moving.clear();
  const row = $("control-" + id);
  row.closest("details").open = true;
  for (const x of document.querySelectorAll(".control.meant")) x.classList.remove("meant");
  row.classList.add("meant");
  row.scrollIntoView({ block: "center" });
  focusOn(all.find((b) => b.getAttribute("aria-pressed") === "true") ?? all[0], all);
  say("Escape leads back to the list.");
}

function back() {
  const row = cameFrom;
  cameFrom = null;
  row.scrollIntoView({ block: "center" });
  (row.querySelector("button:not([hidden])") ?? row.closest(".list").querySelector("li:not(.done) button:not([hidden])"))?.focus();
}

function showLists(s) {
  fill($("lists"), s.lists, (l) => l.id, (l) => {
    const e = element("section", "list");
    const head = element("h3", "", l.title);
    head.tabIndex = -1;
    e.append(head, element("ol"));
    return e;
  }, (e, l) => fill(e.querySelector("ol"), l.lines, (x) => x.number, (x) => line(l, x), (row, x) => {
    row.classList.toggle("done", x.done);
    put(row.querySelector(".mark"), x.done ? (x.way ? answer(x.way) : "done") : "");
    for (const b of row.querySelectorAll("button")) {
      if (x.done && b === document.activeElement) (row.nextElementSibling?.querySelector("button:not([hidden])") ?? e.querySelector("h3")).focus();
      b.hidden = x.done;
    }
  }));
  const taken = focusList && [...$("lists").children].find((e) => e.dataset.key === focusList);
  if (taken) {
    focusList = null;
    taken.querySelector("h3").focus();
  }
}

// The list that has just been taken in hand gets the focus when it is there.
let focusList = null;

// What a decision is answered with, in words.
const answer = (to) => to === "unseen" ? "cannot be seen" : to;

function line(l, x) {
  const row = element("li"), text = element("span", "text", x.says);
  const who = [x.by === "both" ? "both" : x.by, x.memory ? "from memory" : "", x.whom ? "tells " + (x.whom === "control" ? "air traffic control" : "the " + x.whom) : "", x.in ? "in " + x.in.replaceAll("_", " ") : "", x.leg ? "turns the flight" : ""].filter(Boolean).join(", ");
  if (who) text.append(" ", element("span", "is", who));
  row.append(element("span", "number is", x.number.replace(/\.(then|else|unknown|later)\./g, ".")), text, element("span", "mark is"));
  const does = element("span", "does");
  row.append(does);
  if (x.set) does.append(button("to the switch", () => toSwitch(x.set, row), "to the switch: " + (title.get(x.set) ?? x.set)));
  for (const to of x.do === "decide" ? ["yes", "no", "unseen"] : ["done"]) {
    does.append(button(answer(to), () => send({ do: "tick", id: l.id, step: x.number, ...(x.do === "decide" ? { to } : {}) }), answer(to) + ": " + x.says));
  }
  return row;
}

// --- sound --------------------------------------------------------------------

// Tones of our own: a warning falls three times, a caution twice, the rest once.
let audio = null;
for (const what of ["pointerdown", "keydown"]) addEventListener(what, () => { audio ??= new AudioContext(); audio.resume(); }, { once: true });
function tone(level) {
  if ($("mute").checked || !audio) return;
  const times = level === "warning" ? 3 : level === "caution" ? 2 : 1;
  for (let i = 0; i < times; i++) {
    const t = audio.currentTime + 0.28 * i;
    const o = audio.createOscillator(), g = audio.createGain();
    o.frequency.setValueAtTime(level === "warning" ? 740 : 520, t);
    o.frequency.linearRampToValueAtTime(level === "warning" ? 560 : 480, t + 0.2);
    g.gain.setValueAtTime(0.0001, t);
    g.gain.exponentialRampToValueAtTime(0.25, t + 0.03);
    g.gain.exponentialRampToValueAtTime(0.0001, t + 0.22);
    o.connect(g).connect(audio.destination);
    o.start(t);
    o.stop(t + 0.24);
  }
}

// --- doing ----------------------------------------------------------------------

// A finder lists things under headings that open. Whoever types sees what the
// search finds: Enter takes the first, arrows go through the others.
function finder(box, things, label, make, act) {
  const field = element("div", "field"), input = document.createElement("input"), count = element("p", "help found"), groups = element("div", "groups");
  const name = element("label", "", label);
  name.htmlFor = input.id = box.id + "-find";
  Object.assign(input, { type: "search", autocomplete: "off", spellcheck: false });
  count.id = box.id + "-count";
  count.setAttribute("role", "status");
  field.append(name, input, count);
  const entries = [];
  const group = new Map();
  for (const x of things ?? []) {
    if (!group.has(x.group)) {
      const d = document.createElement("details"), ul = document.createElement("ul");
      const head = element("summary", "", x.group + " ");
      head.append(element("span", "is"));
      d.append(head, ul);
      group.set(x.group, d);
      groups.append(d);
    }
    const li = document.createElement("li");
    li.append(make(x));
    group.get(x.group).querySelector("ul").append(li);
    entries.push({ x, li, text: (x.title + " " + x.group).toLowerCase() });
  }
  for (const d of group.values()) d.querySelector("summary .is").textContent = d.querySelectorAll("li").length;
  const found = () => entries.filter((e) => !e.li.hidden);
  const search = () => {
    const words = input.value.trim().toLowerCase().split(/\s+/).filter(Boolean);
    for (const e of entries) e.li.hidden = !words.every((w) => e.text.includes(w));
    for (const d of group.values()) {
      d.hidden = !d.querySelector("li:not([hidden])");
      d.open = words.length > 0 && !d.hidden;
    }
    const n = found().length;
    count.textContent = !words.length ? "" : n ? n + " of " + entries.length + " found" : "Nothing here is called that.";
  };
  const focusable = (e) => e.li.querySelector("button[tabindex='0'], button:not([tabindex])");
  input.addEventListener("input", search);
  input.addEventListener("keydown", (e) => {
    const first = input.value.trim() && found()[0];
    if (e.key === "Enter" && first) act(first.x, focusable(first));
    if (e.key === "ArrowDown" && first) { e.preventDefault(); focusable(first).focus(); }
    if (e.key === "Escape") clear();
  });
  groups.addEventListener("keydown", (e) => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[e.key];
    const list = found().filter((f) => f.li.closest("details").open);
    const at = list.findIndex((f) => f.li.contains(document.activeElement));
    if (!by || at < 0) return;
    e.preventDefault();
    if (list[at + by]) focusable(list[at + by]).focus();
    else if (by < 0) input.focus();
  });
  const clear = () => { input.value = ""; search(); };
  box.append(field, groups);
  return { clear, input };
}

// choices is a finder of things that a press does something with.
function choices(id, things, label, act) {
  const go = async (x) => {
    if (!(await act(x))) return;
    f.clear();
  };
  const f = finder($(id), things, label, (x) => button(x.title, () => go(x)), go);
  return f;
}

choices("look", all.indications, "search, or open a place", (x) => send({ do: "look", id: x.id }));
choices("take", all.lists, "search, or open a chapter", async (x) => {
  const taken = await send({ do: "call", id: x.id });
  if (taken) focusList = x.id;
  return taken;
});
const moving = finder($("move"), all.controls, "search, or open a place", switchOf, (x, b) => b.focus());

// Where the flight goes is written as in a plan: "divert QSVA", "land", "go around".
const turn = async () => {
  const to = $("turn").value.trim().replace(/^go around$/i, "go_around");
  if (!to) return say("Write where the flight goes, such as land, or divert QSVA.");
  if (await send({ do: "turn", to })) $("turn").value = "";
};
$("turn-go").addEventListener("click", turn);
$("turn").addEventListener("keydown", (e) => { if (e.key === "Enter") turn(); });

if (who === "instructor" || who === "both") {
  for (const [rate, text] of [[0, "Hold"], [1, "Go on"], [2, "Twice as fast"], [4, "4 times"]]) {
    const b = button(text, () => send({ do: "clock", rate }));
    b.value = rate;
    $("clock-buttons").append(b);
  }
}
if (who === "instructor") {
  choices("fail", all.failures, "search, or open a chapter", (x) => send({ do: "inject", strike: { what: [x.id] } }));
  for (const by of [30, 60, 300]) {
    $("back-by").append(button("by " + (by < 60 ? by + " s" : by / 60 + " min"), () => screen && send({ do: "rewind", back_us: Math.max(0, Math.round(screen.at_us - by * 1e6)) })));
  }
  const note = async () => {
    const says = $("note").value.trim();
    if (!says) return say("Write what is to be said in the debrief.");
    if (await send({ do: "note", says })) $("note").value = "";
  };
  $("note-go").addEventListener("click", note);
  $("note").addEventListener("keydown", (e) => { if (e.key === "Enter") note(); });
  $("back-go").addEventListener("click", async () => {
    const m = /^\s*(\d+)(?::(\d{1,2}))?\s*$/.exec($("back").value);
    if (!m) return say("Write minutes and seconds, such as 9:30.");
    await send({ do: "rewind", back_us: (60 * Number(m[1]) + Number(m[2] ?? 0)) * 1e6 });
  });
}

function listen() {
  const from = new EventSource(seat + "stream");
  from.onmessage = (e) => {
    body.dataset.live = "yes";
    show(JSON.parse(e.data));
  };
  from.onerror = async () => {
    say("The server does not answer; trying again.");
    if (from.readyState !== EventSource.CLOSED) return;
    const reply = await fetch(seat + "now").catch(() => null);
    if (reply?.status === 404) lost();
    else setTimeout(listen, 1000);
  };
}
if ($("how")) {
  const seen = kept + " how";
  if (sessionStorage.getItem(seen)) $("how").open = false;
  $("how").addEventListener("toggle", () => { if (!$("how").open) sessionStorage.setItem(seen, "shut"); });
}
listen();
