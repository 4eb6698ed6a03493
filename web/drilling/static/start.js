// The page on which a drill is chosen: theme, length and words say which exercises are
// shown, and of which the surprise is one.
"use strict";

const $ = (id) => document.getElementById(id);
const all = [...document.querySelectorAll(".exercises label[data-theme]")];

function choose() {
  const words = $("search").value.trim().toLowerCase().split(/\s+/).filter(Boolean);
  const most = Number($("most").value || Infinity);
  let fit = 0, found = 0;
  for (const e of all) {
    const fits = (!$("theme").value || e.dataset.theme === $("theme").value) && Number(e.dataset.minutes) <= most;
    e.hidden = !fits || !words.every((w) => e.textContent.toLowerCase().includes(w));
    fit += fits;
    found += !e.hidden;
    if (e.hidden && e.querySelector("input").checked) document.querySelector(".exercises input").checked = true;
  }
  $("among").textContent = fit;
  $("found").textContent = words.length || fit < all.length ? found + " of " + all.length + " found" : "";
}
if ($("search")) {
  $("searching").addEventListener("submit", (e) => e.preventDefault()); // Enter chooses, and begins nothing
  for (const id of ["search", "theme", "most"]) $(id).addEventListener("input", choose);
  $("search").addEventListener("keydown", (e) => {
    if (e.key !== "Enter") return;
    const first = all.find((x) => !x.hidden)?.querySelector("input");
    if (first && $("search").value.trim()) [first.checked, $("found").textContent] = [true, "Chosen: " + first.parentElement.textContent.trim()];
  });
  choose();
}
