// The page of a debrief that is being worked out follows how far it is, and gives
// way to the debrief.
"use strict";

async function look() {
  const reply = await fetch(location.href).catch(() => null);
  if (!reply) return setTimeout(look, 3000);
  const page = new DOMParser().parseFromString(await reply.text(), "text/html");
  if (!page.getElementById("working")) return location.reload();
  const now = page.getElementById("progress").textContent, shown = document.getElementById("progress");
  if (shown.textContent !== now) shown.textContent = now;
  const bar = page.querySelector("progress"), old = document.querySelector("progress");
  if (bar && old) old.value = bar.value;
  else if (bar) shown.after(bar);
  setTimeout(look, 1000);
}
setTimeout(look, 700);
