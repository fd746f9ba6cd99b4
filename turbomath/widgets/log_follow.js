// A logger's file followed beside the grid: its last row, and its steady stretches, each taken by a button of its own.
// `make`, `write` come from the files joined with this one, FOLLOW from the live lab's.

function logFollower(id, talk) {
  const box = make("input", { type: "text", id: `${id}-log`, autocomplete: "off", spellcheck: "false", maxlength: 400 });
  const form = make("form", {
    class: "tm-list",
    onsubmit(event) {
      event.preventDefault();
      talk.say({ say: "follow file", path: box.value });
    },
  }, make("label", { for: box.id }, "a logger's file"), box, make("button", {}, "follow"));
  const stop = make("button", { type: "button", onclick: () => talk.say({ say: "follow file", path: "" }) }, "follow no more");
  form.append(stop);
  const as = make("select", { id: `${id}-log-as` }), asked = make("p", { class: "tm-list" }, make("label", { for: as.id }, "take a stretch as"), as);
  const line = make("p"), nothing = make("p"), fault = make("p", { class: "tm-fault", role: "alert" }), offers = make("ul", { class: "tm-offers", "aria-label": "steady stretches that may become points" });
  const root = make("details", { class: "tm-record tm-log", open: globalThis.turbomathLogIsOpen, ontoggle: () => { globalThis.turbomathLogIsOpen = root.open; } }, make("summary", {}, "Let a logger type: follow its file"), form, fault, line, nothing, asked, offers);
  let looks = 0, shape = "";
  function show(log) {
    if (document.activeElement !== box) box.value = log.typed;
    stop.hidden = !log.on;
    write(line, log.line);
    write(nothing, log.nothing);
    write(fault, log.fault ? `! ${log.fault}` : "");
    asked.hidden = !log.offers.length;
    const before = as.value, names = JSON.stringify(log.beside);
    if (as.dataset.names !== names) {
      as.replaceChildren(make("option", { value: "" }, "the next point"), ...log.beside.map((point) => make("option", { value: point }, `second pass of point ${point}`)));
      as.value = log.beside.includes(before) ? before : "";
      as.dataset.names = names;
    }
    const now = JSON.stringify(log.offers);
    if (shape !== now) {
      offers.replaceChildren(...log.offers.map(([number, words]) => make("li", {}, make("button", { type: "button", onclick: () => talk.say({ say: "take", number, point: as.value }) }, `take stretch ${number}`), ` ${words}`)));
      shape = now;
    }
    if (log.on) looks ||= setInterval(() => talk.busy() || talk.say({ say: "look at file" }), FOLLOW);
    else halt();
  }
  function halt() {
    clearInterval(looks);
    looks = 0;
  }
  return { root, show, stop: halt };
}
