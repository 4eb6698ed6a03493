// One person's screen of a drill: shows what the stream says, sends what the
// person does. An input keeps its number until it is acknowledged, so that one
// sent twice counts once.
"use strict";

const body = document.body;
const drill = "/drill/of/" + body.dataset.drill + "/";
const who = body.dataset.role;
const all = JSON.parse(body.dataset.inventory);
const $ = (id) => document.getElementById(id);
const title = new Map();
for (const list of [all.indications, all.controls, all.lists, all.failures ?? []]) for (const x of list ?? []) title.set(x.id, x.title);

// A device keeps its name and its count through a reload.
const kept = "drill " + body.dataset.drill + " " + who;
const client = sessionStorage.getItem(kept) ?? who + "-" + Math.random().toString(36).slice(2, 10);
sessionStorage.setItem(kept, client);
let sent = Number(sessionStorage.getItem(kept + " sent") ?? 0);

let screen = null;
let sending = Promise.resolve();

function send(what) {
  sending = sending.then(() => deliver({ client, number: sent + 1, at_us: 0, who, ...what }));
  return sending;
}

async function deliver(input) {
  for (let wait = 200; ; wait = Math.min(2 * wait, 5000)) {
    const reply = await fetch(drill + "input", { method: "POST", body: JSON.stringify(input) }).catch(() => null);
    if (reply?.ok) {
      sent = input.number;
      sessionStorage.setItem(kept + " sent", sent);
      return true;
    }
    if (reply && reply.status < 500) {
      say((await reply.json().catch(() => ({ text: "not taken" }))).text);
      return false;
    }
    say("The server does not answer; trying again.");
    await new Promise((r) => setTimeout(r, wait));
  }
}

function say(text) {
  $("heard").textContent = text;
  $("state").textContent = text;
}

// --- showing ------------------------------------------------------------------

// Puts texts into a list without touching lines that stay: what is focused keeps
// its focus, and a screen reader hears only what is new.
function fill(list, items, key, make, update) {
  const old = new Map([...list.children].map((e) => [e.dataset.key, e]));
  let at = null;
  for (const item of items) {
    const k = key(item);
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
const put = (e, text) => { if (e.textContent !== text) e.textContent = text; };

function show(s) {
  const before = screen;
  screen = s;
  put($("time"), s.clock);
  put($("phase"), s.phase);
  put($("state"), s.ended ? "The flight has ended." : s.held ? "The instructor holds the drill." : s.rate === 0 ? "The clock stands." : s.rate > 1 ? s.rate + " times as fast" : "");
  showAlerts(s, before);
  fill($("situation"), s.situation.flatMap((f) => [["dt", f.title, f.title], ["dd", f.text, f.title + " is"]]), (x) => x[2], (x) => element(x[0]), (e, x) => put(e, x[1]));
  showReadings($("looked"), s.looked);
  showControls(s);
  showLists(s);
  for (const b of document.querySelectorAll("#clock-buttons button")) b.setAttribute("aria-pressed", String(Number(b.value) === s.rate));
  if (who === "instructor") {
    fill($("failed"), s.failed ?? [], (x) => x, () => element("li"), (e, x) => put(e, title.get(x) ?? x));
    if ($("truth").parentElement.open) showReadings($("truth"), s.truth ?? []);
  }
}

function showReadings(list, readings) {
  fill(list, readings, (r) => r.id, (r) => {
    const e = element("li");
    e.append(element("span", "name", r.title + ": "), element("strong", "says"), " ", element("span", "ago"));
    return e;
  }, (e, r) => {
    put(e.querySelector(".says"), !r.ready ? "…" : r.lit ? r.text || "lit" : "dark");
    put(e.querySelector(".ago"), r.at_us ? "looked at " + clock(r.at_us) : "");
  });
}

const clock = (us) => {
  const s = Math.floor(us / 1e6);
  return Math.floor(s / 60) + ":" + String(s % 60).padStart(2, "0");
};

function showAlerts(s, before) {
  fill($("alerts"), s.alerts, (a) => a.id, (a) => {
    const e = element("li", a.level);
    e.append(element("span", "message", a.message), " ", element("span", "level", a.level + ", since " + clock(a.since_us)));
    return e;
  }, () => {});
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
  const box = $("controls");
  if (!box.children.length) {
    for (const c of all.controls) box.append(control(c));
  }
  for (const c of s.controls) {
    const select = document.querySelector('select[data-control="' + CSS.escape(c.id) + '"]');
    if (select && select.dataset.is !== c.to) {
      select.dataset.is = c.to;
      select.value = c.to;
    }
  }
}

function control(c) {
  const row = element("div", "control");
  row.dataset.search = (c.title + " " + (c.place ?? "")).toLowerCase();
  const label = element("label", "", c.title);
  const select = document.createElement("select");
  label.htmlFor = select.id = "control-" + c.id;
  select.dataset.control = c.id;
  for (const p of c.positions) select.append(new Option(p, p));
  select.addEventListener("change", async () => {
    if (!(await send({ do: "move", id: c.id, to: select.value }))) select.value = select.dataset.is ?? c.positions[0];
  });
  row.append(label, select);
  return row;
}

function showLists(s) {
  fill($("lists"), s.lists, (l) => l.id, (l) => {
    const e = element("section", "list");
    e.append(element("h3", "", l.title), element("ol"));
    return e;
  }, (e, l) => fill(e.querySelector("ol"), l.lines, (x) => x.number, (x) => line(l, x), (row, x) => {
    row.classList.toggle("done", x.done);
    put(row.querySelector(".mark"), x.done ? (x.way ? x.way : "done") : "");
    for (const b of row.querySelectorAll("button")) b.hidden = x.done;
  }));
}

function line(l, x) {
  const row = element("li");
  row.append(element("span", "is", x.number), element("span", "text", x.says + (x.by ? " (" + x.by + ")" : "") + (x.in ? ", in " + x.in : "")), element("span", "mark is"));
  const buttons = x.do === "decide" ? ["yes", "no"] : ["done"];
  for (const to of buttons) {
    const b = element("button", "", to);
    b.type = "button";
    b.setAttribute("aria-label", to + ": " + x.says);
    b.addEventListener("click", () => send({ do: "tick", id: l.id, step: x.number, ...(x.do === "decide" ? { to } : {}) }));
    row.append(b);
  }
  return row;
}

// --- sound --------------------------------------------------------------------

// Tones of our own: a warning falls three times, a caution twice, the rest once.
let audio = null;
function tone(level) {
  if ($("mute").checked) return;
  audio ??= new AudioContext();
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

function chooser(input, list, button, things, act) {
  for (const x of things ?? []) list.append(new Option(x.title, x.title));
  const go = async () => {
    const want = input.value.trim().toLowerCase();
    const x = (things ?? []).find((x) => x.title.toLowerCase() === want) ?? (things ?? []).find((x) => want && x.title.toLowerCase().includes(want));
    if (!x) return say("Nothing here is called that.");
    if (await act(x)) input.value = "";
    input.focus();
  };
  button.addEventListener("click", go);
  input.addEventListener("keydown", (e) => { if (e.key === "Enter") go(); });
}

chooser($("look-find"), $("looks"), $("look-go"), all.indications, (x) => send({ do: "look", id: x.id }));
chooser($("list-find"), $("list-names"), $("list-go"), all.lists, (x) => send({ do: "call", id: x.id }));
$("move-find").addEventListener("input", () => {
  const want = $("move-find").value.trim().toLowerCase();
  for (const row of document.querySelectorAll(".control")) row.hidden = !row.dataset.search.includes(want);
});

if (who === "instructor" || who === "both") {
  for (const [rate, text] of [[0, "Hold"], [1, "Go on"], [2, "2 times"], [4, "4 times"]]) {
    const b = element("button", "", text);
    b.type = "button";
    b.value = rate;
    b.addEventListener("click", () => send({ do: "clock", rate }));
    $("clock-buttons").append(b);
  }
}
if (who === "instructor") {
  $("instructor").hidden = false;
  chooser($("fail-find"), $("fails"), $("fail-go"), all.failures, (x) => send({ do: "inject", strike: { what: [x.id] } }));
  $("back-go").addEventListener("click", async () => {
    const m = /^\s*(\d+)(?::(\d{1,2}))?\s*$/.exec($("back").value);
    if (!m) return say("Write minutes and seconds, such as 9:30.");
    await send({ do: "rewind", back_us: (60 * Number(m[1]) + Number(m[2] ?? 0)) * 1e6 });
  });
}

function listen() {
  const from = new EventSource(drill + "stream?who=" + encodeURIComponent(who));
  from.onmessage = (e) => show(JSON.parse(e.data));
  from.onerror = () => {
    put($("state"), "The server does not answer; trying again.");
    if (from.readyState === EventSource.CLOSED) setTimeout(listen, 1000);
  };
}
listen();
