// Works out on the page of a price until when each airfield is good. Without
// this script the link leads to a page of its own that says the same.
"use strict";

const section = document.getElementById("until");

async function work(link) {
  const said = section.querySelector("[role=status]");
  said.textContent = "Working it out: this takes some seconds.";
  section.setAttribute("aria-busy", "true");
  const reply = await fetch(link.href).catch(() => null);
  const text = await reply?.text().catch(() => "");
  const page = new DOMParser().parseFromString(text ?? "", "text/html");
  const found = page.getElementById("until-found");
  section.removeAttribute("aria-busy");
  if (!found) {
    said.textContent = page.querySelector(".problem")?.textContent ?? "The server does not answer. Is it still running?";
    return;
  }
  said.textContent = "";
  found.querySelector("#lead").removeAttribute("id");
  found.querySelector(".lead").className = "costs-lead";
  found.className = "";
  link.closest("p").replaceWith(found);
  found.tabIndex = -1;
  found.focus({ preventScroll: true }); // the link that had it is gone
}

section?.querySelector("a.load").addEventListener("click", (e) => {
  if (e.ctrlKey || e.metaKey || e.shiftKey || e.altKey) return;
  e.preventDefault();
  if (!section.hasAttribute("aria-busy")) work(e.currentTarget);
});
