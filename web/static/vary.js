// Fetches what other runs make of the answer, and what saves the gravest of what nobody
// knows, into the places that the page keeps for them. Without this script a link leads
// there.
"use strict";

const vary = () => document.getElementById("vary");

// Both at once; what comes first is the other runs. An answer that has been replaced
// meanwhile takes nothing.
async function fetchVary() {
  const at = vary();
  if (!at || at.dataset.from === at.dataset.query) return;
  at.dataset.from = at.dataset.query;
  const lead = at.querySelector(".vary-lead"), rescue = at.querySelector(".varied-rescue");
  lead.textContent = "Other runs are being flown.";
  if (rescue) rescue.textContent = "What saves the gravest of what nobody knows is being looked for.";
  const saved = rescue && varyPart("/vary/rescue?", at, (text) => (rescue.innerHTML = text));
  await varyPart("/vary/part?", at, (text) => {
    at.querySelector(".varied").innerHTML = text;
    const n = at.querySelectorAll("li:not(.no-point)").length;
    const open = at.querySelector("li[data-open]") !== null;
    lead.textContent = n > 1 ? n + " of them add a point." : n === 1 ? "One of them adds a point." : open ? "No point is known of them." : "None of them adds a point.";
    if (open) lead.textContent += " Not all was answered.";
    say("With other runs: " + lead.textContent);
  }, (why) => (lead.textContent = why));
  await saved;
  reachable(at);
}

async function varyPart(path, at, put, fail = () => {}) {
  try {
    const reply = await fetch(path + at.dataset.query);
    const text = await reply.text();
    if (!at.isConnected) return;
    if (reply.ok) put(text);
    else fail(new DOMParser().parseFromString(text, "text/html").querySelector(".problem")?.textContent ?? "The server does not fly them.");
  } catch {
    fail("The server does not answer.");
    live.look();
  }
}

// A text that is longer than its place is scrolled, also by keyboard.
function reachable(at) {
  for (const place of at.querySelectorAll(".varied li, .varied-rescue")) {
    if (place.scrollHeight > place.clientHeight + 1) place.tabIndex = 0;
  }
}
