// Present mode: one widget fills the wall. A remote's Page keys lead through predict, vote, observe, explain, and on to the next.

const LETTERS = 14; // px of the smallest letters of a chart on a page
const LEAD = 2; // how many controls there are on a wall
const SHOWN = "tm-present";

// How things are drawn now: for a page, or for a wall with one picture of several.
function hung() {
  return {
    on: false, view: 0,
    scale: () => Math.max(24.4, 0.0181 * innerWidth) / LETTERS,
    views: (shown) => (shown?.engines.length ? 1 : 0) + (shown?.pictures.length ?? 0),
    picked(shown) {
      if (!this.on) return shown;
      const { engines, pictures } = shown, drawn = engines.length ? 1 : 0;
      const two = engines.length > 2 ? [engines[0], engines[Math.floor(engines.length / 2)]] : engines; // the first, and it as it was kept
      const view = this.view % Math.max(1, this.views(shown));
      return { engines: view < drawn ? two : [], pictures: view < drawn ? [] : pictures.slice(view - drawn, view - drawn + 1) };
    },
  };
}

// A question for a class: its options by number, a tally of hands, and how they were split once the outcome is out.
function ballot(sheet, number, talk) {
  const vote = (option, hands) => talk.say({ say: "vote", option, hands: String(hands), question: number });
  const lines = sheet.options.map((words, turn) => {
    const add = (more) => talk.say({ say: "hand", option: words, more, question: number }); // Python adds: hands go up faster than it answers
    const box = make("input", {
      type: "text", inputmode: "numeric", maxlength: 8, autocomplete: "off", "aria-label": `hands for ${turn + 1}`, onchange: () => vote(words, box.value),
    });
    const less = make("button", { type: "button", "aria-label": `one hand less for ${turn + 1}`, onclick: () => add(-1) }, "−");
    const more = make("button", { type: "button", "aria-label": `one hand more for ${turn + 1}`, onclick: () => add(1) }, "+");
    const said = make("b", { class: "tm-hands" }), bar = make("i", { class: "tm-split" }), sign = make("span", { class: "tm-sign" });
    return { box, said, bar, sign, add, root: make("li", {}, make("span", {}, sign, tied(words)), make("span", { class: "tm-tally" }, less, box, more), said, bar) };
  });
  const fault = make("p", { class: "tm-fault", role: "alert" }), outcome = make("p", { class: "tm-told", role: "status" });
  const root = make("div", { class: "tm-ballot", hidden: true }, make("p", {}, tied(sheet.text)), make("ol", {}, ...lines.map((one) => one.root)), fault, outcome);
  const show = (frame) => {
    const { votes } = frame, all = votes.reduce((sum, one) => sum + one, 0);
    write(fault, frame.miscount ? `! ${frame.miscount}` : "");
    write(outcome, frame.told);
    lines.forEach(({ box, said, bar, sign }, turn) => {
      if (document.activeElement !== box) box.value = votes[turn];
      write(said, all ? `${votes[turn]} of ${all}` : "");
      write(sign, frame.right[turn] ? "✓ " : "");
      bar.style.width = `${all ? Math.round((100 * votes[turn]) / all) : 0}%`;
    });
  };
  return { root, show, raise: (turn) => lines[turn]?.add(1) };
}

// Return the steps of a widget, each with the number of its question.
function steps(sheet) {
  const seen = sheet.marks ? [{ step: "observe", question: 0 }] : [];
  return sheet.questions.flatMap((one, question) => {
    const of = (...names) => names.map((step) => ({ step, question }));
    const asked = sheet.marks ? of("predict") : [];
    return [...asked, ...(one.options.length ? of("vote") : []), ...seen, ...of("explain")];
  }).concat(sheet.questions.length ? [] : seen);
}

// Everything of present mode that one widget needs: its ballots, its bar, its keys. `stop` leaves nothing behind.
function presenter(sheet, talk, wall, redraw) {
  const slides = steps(sheet), ballots = sheet.questions.map((one, number) => ballot(one, number, talk));
  let place = 0, root = null, frame = null, kept = false;
  const button = (words, onclick) => make("button", { type: "button", onclick }, words);
  const names = [...new Set(slides.map(({ step }) => step))];
  const marks = names.map((step) => button(step, () => to(slides.findIndex((one) => one.step === step && one.question === slides[place].question))));
  const next = button("", () => turn(1)), count = make("span");
  const keep = button("keep this case", () => talk.say({ say: (kept = !kept) ? "keep" : "drop" })); // a second press may come before Python has answered
  const other = button("next picture", () => redraw(++wall.view)), shade = button("dark", darken), out = button("leave", leave);
  const bar = make("nav", { class: "tm-bar", "aria-label": "steps" }, ...marks, count, next, make("span", { class: "tm-gap" }), keep, other, shade, out);
  const own = () => [...(root.closest(".jp-Notebook") ?? document).querySelectorAll(".tm-presentable")];
  const neighbour = (way) => own()[own().indexOf(root) + way];

  function to(number) {
    place = number;
    const { step, question } = slides[place];
    root.dataset.step = step;
    ballots.forEach((one, turn) => { one.root.hidden = turn !== question || step === "observe"; });
    marks.forEach((one, turn) => {
      one.toggleAttribute("aria-current", names[turn] === step);
      one.hidden = !slides.some((each) => each.question === question && each.step === names[turn]);
    });
    if ((step === "observe" || step === "explain") && frame.asked[question]?.open === false) talk.say({ say: "go on", question });
    label();
    redraw();
  }
  function label() {
    const { question, step } = slides[place], after = neighbour(1), more = slides.some((one) => one.question > question);
    write(next, more ? "next question" : after ? (after.dataset.ticket ? "ticket" : "next panel") : "end");
    write(count, sheet.questions.length > 1 ? `${question + 1} of ${sheet.questions.length}` : "");
    write(keep, kept ? "drop the kept case" : "keep this case");
    keep.hidden = step !== "observe" || !sheet.controls.length;
    other.hidden = step !== "observe" || wall.views(frame.shown) < 2;
  }
  function turn(way) {
    const there = neighbour(way);
    if (slides[place + way]) return to(place + way);
    if (!there) return way > 0 ? leave() : undefined;
    const light = root.dataset.light;
    leave();
    there.dispatchEvent(new CustomEvent("turbomath-present", { detail: { last: way < 0, light } }));
  }
  function darken() {
    const dark = getComputedStyle(root).colorScheme === "dark";
    root.dataset.light = dark ? "light" : "dark";
    write(shade, dark ? "dark" : "light");
  }
  function key(event) {
    const typing = event.target.matches?.("[type=text], select");
    const plain = !(event.ctrlKey || event.metaKey || event.altKey);
    const ways = { PageDown: () => turn(1), PageUp: () => turn(-1), Escape: leave };
    const letters = { k: () => keep.hidden || keep.click(), n: () => other.hidden || other.click(), d: darken, p: leave };
    const hand = root.dataset.step === "vote" && /^[1-9]$/.test(event.key) ? () => ballots[slides[place].question].raise(event.key - 1) : null;
    const done = plain && (ways[event.key] ?? (typing ? null : letters[event.key] ?? hand));
    if (!done) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    done();
  }
  function hang(on) {
    wall.on = on;
    root.classList.toggle(SHOWN, on);
    if (sheet.marks) talk.say({ say: "wall", on });
    redraw();
  }
  function enter(event) {
    if (wall.on) return;
    const { last, light } = event?.detail ?? {};
    root.setAttribute("popover", "manual");
    root.showPopover(); // the top layer: nothing of the notebook lies above it or cuts it
    document.addEventListener("keydown", key, true);
    if (light) root.dataset.light = light;
    root.querySelector(".tm-title").after(...ballots.map((one) => one.root)); // there only while it is presented
    root.append(bar);
    hang(true);
    write(shade, getComputedStyle(root).colorScheme === "dark" ? "light" : "dark");
    to(last ? slides.length - 1 : 0);
    root.focus();
  }
  function leave() {
    if (!wall.on) return;
    document.removeEventListener("keydown", key, true);
    hang(false);
    root.hidePopover();
    root.removeAttribute("popover");
    for (const one of ["step", "light"]) delete root.dataset[one];
    for (const one of [...ballots.map((each) => each.root), bar]) one.remove();
    root.scrollIntoView();
    root.focus();
  }
  return {
    enter,
    at(node) {
      root = node;
      if (!slides.length) return;
      root.classList.add("tm-presentable");
      if (!sheet.marks) root.dataset.ticket = "yes";
      root.addEventListener("turbomath-present", enter);
    },
    able: slides.length > 0,
    show(now) {
      [frame, kept] = [now, now.kept];
      ballots.forEach((one, number) => one.show(now.asked[number]));
      if (wall.on) label();
    },
    stop: () => document.removeEventListener("keydown", key, true),
  };
}
