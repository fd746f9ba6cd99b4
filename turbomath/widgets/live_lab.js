// The live lab: a grid to enter readings in, keyboard first. Python keeps, checks and works out; nothing is called saved
// before Python has said so. `make`, `write`, `list`, `views`, `UNSENT` and `SCREENS` come from the files joined with this one.

const WORK = 400; // ms after the last entry until checks and results are asked for
const FOLLOW = 300; // ms between two looks of a wall at what was entered elsewhere
const MOVES = { Enter: [1, 0], ArrowDown: [1, 0], ArrowUp: [-1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] };
const DITTO = /^\s*["″”]\s*$/;

// The grid of one run: a box for each row and column. `say` sends an entry; `told` hears which box has the focus, and
// `counted` that another number of boxes waits to be saved. `past` is called where a key leads out of it, up or down;
// `named` makes the name of a box of the words of its column and its row.
function readingsGrid(id, say, told, counted, { past = () => false, corner = "point", caption = "readings", named = (words, head) => `${words}, point ${head}` } = {}) {
  const table = make("table", { class: "tm-grid" }), root = make("div", { class: "tm-gridded" }, table);
  let shape = "", boxes = [], states = [], rows = [], columns = [], key = "";
  const unsent = (one) => `${key} ${rows[one.row]} ${columns[one.column]}`;
  const at = (row, column) => boxes[row]?.[column];
  const hold = (one) => {
    one.node.focus();
    one.node.select();
    return true;
  };
  const move = (one, [down, right]) => {
    const next = at(one.row + down, one.column + right);
    if (next) hold(next);
    return Boolean(next) || Boolean(down && past(down));
  };
  function leave(one) {
    if (DITTO.test(one.node.value) && one.row) one.node.value = at(one.row - 1, one.column).node.value;
    if (one.node.value === one.sent) return;
    one.sent = one.node.value;
    keep(one);
    say({ say: "enter", row: rows[one.row], column: columns[one.column], text: one.sent });
    mark(one);
  }
  function keep(one) { // until Python has said that it did
    const [text, kept] = states[one.row][one.column];
    if (kept && text === one.node.value) UNSENT.delete(unsent(one));
    else UNSENT.set(unsent(one), one.node.value);
    counted();
  }
  function keys(event, one) {
    const { key: pressed, shiftKey } = event, { node } = one;
    if (pressed === "Escape") {
      node.value = states[one.row][one.column][0];
      keep(one);
      mark(one);
      return;
    }
    const whole = node.selectionStart === 0 && node.selectionEnd === node.value.length;
    const edge = { ArrowLeft: node.selectionEnd === 0, ArrowRight: node.selectionStart === node.value.length }[pressed] ?? true;
    if (!MOVES[pressed] || !(edge || whole)) return;
    event.preventDefault();
    const by = shiftKey && pressed === "Enter" ? MOVES.ArrowUp : MOVES[pressed];
    if (!move(one, by)) leave(one);
  }
  function mark(one) {
    const [text, kept, level, words] = states[one.row][one.column], { node } = one;
    const stands = node.value === text && kept;
    node.dataset.level = stands ? level : "unsaved";
    node.toggleAttribute("aria-invalid", !stands || level === "fault");
    one.words = stands ? words : node.value === text ? words : "not saved yet";
    if (document.activeElement === node) told(one);
  }
  function build(frame) {
    const focus = boxes.flat().find((one) => one.node === document.activeElement);
    const before = focus && [rows[focus.row], columns[focus.column]];
    rows = frame.rows.map(([name]) => name);
    columns = frame.columns.map(([name]) => name);
    boxes = frame.rows.map(([name, head], row) => frame.columns.map(([column, words, size = column === "remark" ? 24 : 6], turn) => {
      const one = { row, column: turn, head: named(words, head) };
      one.node = make("input", {
        type: "text", autocomplete: "off", spellcheck: "false", maxlength: 200, size, "aria-label": one.head, "aria-describedby": `${id}-about`,
        oninput: () => {
          keep(one);
          mark(one);
        },
        onchange: () => leave(one), onkeydown: (event) => keys(event, one), onfocus: () => told(one),
      });
      one.node.value = one.sent = frame.boxes[name][turn][0];
      return one;
    }));
    const head = ([, words]) => make("th", { scope: "col" }, words);
    table.replaceChildren(make("caption", { class: "tm-unseen" }, caption),
      make("thead", {}, make("tr", {}, make("th", { scope: "col" }, corner), ...frame.columns.map(head))),
      make("tbody", {}, ...frame.rows.map(([, words], row) => make("tr", {}, make("th", { scope: "row" }, words),
        ...boxes[row].map((one) => make("td", {}, one.node))))));
    const again = before && at(rows.indexOf(before[0]), columns.indexOf(before[1]));
    if (again) again.node.focus({ preventScroll: true });
  }
  function show(frame) {
    const now = JSON.stringify([frame.key, frame.columns, frame.rows.map(([name]) => name)]);
    states = frame.rows.map(([name]) => frame.boxes[name]);
    const first = key !== frame.key;
    key = frame.key;
    if (shape !== now) {
      shape = now;
      build(frame);
      for (const one of boxes.flat()) one.node.value = UNSENT.get(unsent(one)) ?? one.node.value;
      if (first) boxes.flat().forEach(leave); // what was typed while Python was away
    }
    for (const one of boxes.flat()) {
      const [text, kept] = states[one.row][one.column];
      if (kept && UNSENT.get(unsent(one)) === text) UNSENT.delete(unsent(one));
      if (document.activeElement !== one.node && one.node.value === one.sent && !UNSENT.has(unsent(one))) one.node.value = one.sent = text;
      mark(one);
    }
  }
  const enter = (down) => Boolean(boxes.length) && hold(at(down > 0 ? 0 : boxes.length - 1, 0));
  return { root, show, enter, waiting: () => boxes.flat().filter((one) => UNSENT.has(unsent(one))).length };
}

// Which run, the grid, what is said of the box in hand, and below it what the readings come to.
function lab(sheet, id, talk, wall) {
  const open = (path) => talk.say({ say: "open", path });
  const found = list("run folders in your work folder", `${id}-found`, (path) => path && open(path));
  const fault = make("p", { class: "tm-fault", id: `${id}-path-fault`, role: "alert" });
  const box = make("input", { type: "text", id: `${id}-path`, autocomplete: "off", spellcheck: "false", maxlength: 400, "aria-describedby": fault.id });
  const button = (words, say) => make("button", { type: "button", onclick: () => talk.say(typeof say === "function" ? say() : { say }) }, words);
  const form = make("form", {
    class: "tm-list",
    onsubmit(event) {
      event.preventDefault();
      open(box.value);
    },
  }, make("label", { for: box.id }, "or its path"), box, make("button", {}, "open"), button("look again", "look"));
  const head = make("h2"), note = make("p", { role: "status" }), stops = make("div", { class: "tm-notes tm-stops", role: "status" });
  const reader = make("input", {
    type: "text", id: `${id}-reader`, class: "tm-initials", autocomplete: "off", maxlength: 12, size: 6, onchange: () => talk.say({ say: "reader", text: reader.value }),
  });
  const line = make("p", { class: "tm-sentence", role: "status" }), said = make("p", { role: "status" }), lost = make("p", { class: "tm-fault", role: "alert" });
  const about = make("p", { class: "tm-about", id: `${id}-about`, role: "status" });
  let one = null, last = null, timer = 0, again = false;
  const grid = readingsGrid(id, (message) => {
    talk.say(message);
    clearTimeout(timer);
    timer = setTimeout(() => talk.say({ say: "work out" }), WORK);
  }, (now) => {
    one = now;
    write(about, `${one.head}: ${one.words || "empty"}`);
    offer();
  }, () => count());
  const count = () => {
    const waiting = last.unsaved ? 0 : grid.waiting();
    write(line, waiting ? `${waiting} NOT SAVED YET, ${last.saved} saved.` : last.line);
  };
  const record = runUpRecord(id, talk, sheet.cautions);
  const log = logFollower(id, talk), faults = faultFinder(id, talk), aloud = faultsAloud(talk);
  const condition = make("select", { id: `${id}-condition` });
  const second = button("", () => ({ say: "second", point: once() }));
  const add = button("add a point", () => ({ say: "add", condition: condition.value }));
  const once = () => (one && last?.rows[one.row]?.[2]) || "";
  const offer = () => {
    second.hidden = !once();
    write(second, `read point ${once()} a second time`);
  };
  const undo = button("undo", "undo"), redo = button("redo", "redo"), save = button("save again", "save again");
  const right = views(sheet, "", "", make("div", { class: "tm-tables", tabindex: 0, role: "group", "aria-label": "tables" }), wall);
  const following = make("p", { class: "tm-following", role: "status" });
  const notes = make("div", { class: "tm-notes" }), written = make("p", { role: "status" });
  const link = make("a", { target: "_blank", rel: "noopener" }, "open the report");
  const whole = make("div", { class: "tm-sheet" }, head, following, stops, aloud.root, note,
    make("p", { class: "tm-list" }, make("label", { for: reader.id }, "who reads now (initials)"), reader, " ", save), record.root, line, said, lost, grid.root, about, log.root,
    make("div", { class: "tm-buttons" }, undo, redo, second, make("label", { for: condition.id }, "condition"), condition, add),
    right.root, make("div", { class: "tm-buttons" }, button("make the report", "report")), written, link, notes, faults.root);
  const root = make("div", { class: "tm-lab" }, found.root, form, fault, whole);
  const lines = (node, groups) => {
    const words = JSON.stringify(groups);
    if (node.dataset.words === words) return;
    node.dataset.words = words;
    node.replaceChildren(...groups.flatMap(([title, all]) => [make("p", {}, make("b", {}, title)), make("ul", {}, ...all.map((text) => make("li", {}, text)))]));
  };
  // On a wall nothing is typed: it follows what is entered in another window.
  let looks = 0, drawn = "";
  function follow(now, frame) {
    whole.hidden = false;
    log.stop();
    looks ||= setInterval(() => talk.busy() || talk.say({ say: "follow" }), FOLLOW);
    write(following, now.fault ? `! ${now.fault}` : now.line);
    lines(stops, now.stops.length ? [["First of all", now.stops]] : []);
    aloud.show(frame.faults);
    const words = JSON.stringify(frame.shown);
    if (words !== drawn) right.show(frame);
    drawn = words;
  }
  const show = (frame) => {
    if (frame.wall) return follow(frame.wall, frame);
    clearInterval(looks);
    looks = 0;
    drawn = "";
    write(following, "");
    const now = frame.sheet;
    found.show([["", frame.found.length ? "choose yours" : "none found"], ...frame.found], frame.found.some(([path]) => path === now?.folder) ? now.folder : "");
    if (document.activeElement !== box) box.value = frame.typed;
    write(fault, frame.fault ? `! ${frame.fault}` : "");
    whole.hidden = !now;
    right.show(frame);
    if (!now) return;
    write(head, `${now.title}${now.invented ? " (INVENTED)" : ""}`);
    write(note, now.note);
    if (document.activeElement !== reader) reader.value = frame.reader;
    if (condition.childElementCount !== now.conditions.length) condition.replaceChildren(...now.conditions.map((words) => make("option", {}, words)));
    if (!again) condition.value = "load";
    again = true;
    lines(stops, now.stops.length ? [["First of all", now.stops]] : []);
    lines(notes, now.notes);
    last = now;
    grid.show(now);
    record.show(frame.record);
    log.show(frame.log);
    faults.show(frame.faults, frame.found.filter(([path]) => path !== now.folder));
    offer();
    count();
    write(lost, now.fault ? `! ${now.fault}` : "");
    save.hidden = !now.unsaved;
    write(said, [now.said, now.beside].filter(Boolean).join(" "));
    undo.hidden = redo.hidden = !now.undo;
    report(frame.written);
  };
  function report(done) {
    link.hidden = !(done && served(done.page));
    written.hidden = !done;
    write(written, done ? `Written: ${done.path}` : "");
    if (!link.hidden) link.href = served(done.page);
  }
  const stop = () => {
    clearTimeout(timer);
    clearInterval(looks);
    record.stop();
    log.stop();
    right.stop();
  };
  return [null, { root, show, stop, redraw: right.redraw }];
}

SCREENS.lab = lab;
