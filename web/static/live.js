// Says at the top of a page when its server is gone or busy, dims what is old, tries
// again, and takes it all back when the server answers. Every page has it.
"use strict";

const live = (() => {
  const gone = "The server does not answer: it was stopped, or cannot be reached. What stands below is what it said last. This page tries again by itself.";
  const beat = 10; // seconds between looks at a server that one has heard nothing of
  const longest = 15; // seconds between tries
  let again = null; // what to do once it answers
  let wait = 0; // seconds; 0: all is well
  let timer = 0;

  function banner(text) {
    let p = document.getElementById("trouble");
    if (!p) {
      p = document.createElement("p");
      p.id = "trouble";
      p.className = "problem";
      p.setAttribute("role", "alert");
      document.querySelector("header.running").after(p);
    }
    if (p.textContent !== text) p.textContent = text;
    document.body.classList.add("old");
  }

  // Shows a trouble, and tries after a while; then does what was to be done.
  function trouble(text, then, seconds) {
    again = then ?? again;
    wait = seconds ?? Math.min(wait ? 2 * wait : 1, longest);
    banner(text);
    clearTimeout(timer);
    timer = setTimeout(look, wait * 1000);
  }

  function mended() {
    clearTimeout(timer);
    wait = 0;
    again = null;
    document.getElementById("trouble")?.remove();
    document.body.classList.remove("old");
  }

  async function look() {
    const reply = await fetch("/static/mark.svg", { cache: "no-store" }).catch(() => null);
    if (!reply?.ok) {
      trouble(gone);
    } else if (wait > 0) {
      const then = again;
      again = null;
      if (then) then();
      else mended();
    }
  }

  setInterval(() => {
    if (wait === 0 && document.visibilityState === "visible") look();
  }, beat * 1000);

  return {
    mended,
    look,
    gone: (then) => trouble(gone, then),
    // A reply that says that there is no room: what it says, and when to ask again.
    busy: (reply, text, then) => {
      const says = new DOMParser().parseFromString(text, "text/html").querySelector(".problem")?.textContent ?? "The server is busy.";
      trouble(says + " What stands below is of before. This page asks again by itself.", then, Number(reply.headers.get("Retry-After")) || 2);
    },
  };
})();
