// The tasks of a panel: a list of steps, each with a tick once Python has seen that it is done.

// Words with **strong** parts.
function marked(words) {
  return words.split("**").map((part, turn) => (turn % 2 ? make("b", {}, part) : part));
}

function stepList() {
  const head = make("p", { class: "tm-steps-head" }), list = make("ol"), said = make("p", { class: "tm-unseen", role: "status" });
  const root = make("div", { class: "tm-steps", role: "group", "aria-label": "steps", hidden: true }, head, list, said);
  let lines = [], shape = "", before = null;
  const show = (steps) => {
    root.hidden = !steps.length;
    const words = JSON.stringify(steps.map(([text]) => text));
    if (words !== shape) {
      shape = words;
      lines = steps.map(([text]) => ({ tick: make("span", { class: "tm-tick" }), text }));
      list.replaceChildren(...lines.map(({ tick, text }) => make("li", {}, tick, make("span", {}, ...marked(text)))));
      before = null;
    }
    const done = steps.map(([, is]) => is), count = done.filter(Boolean).length;
    lines.forEach(({ tick }, turn) => {
      write(tick, done[turn] ? "✓" : "");
      tick.parentElement.classList.toggle("tm-done", done[turn]);
      set(tick, done[turn] ? { role: "img", "aria-label": "done" } : {});
    });
    write(head, count === done.length ? "Try these, one at a time: all done" : `Try these, one at a time: ${count} of ${done.length} done`);
    const now = before && done.findIndex((is, turn) => is && !before[turn]);
    if (before && now >= 0) write(said, `Step ${now + 1} is done. ${count} of ${done.length}.`);
    before = done;
  };
  return { root, show };
}
