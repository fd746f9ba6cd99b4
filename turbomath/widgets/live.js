// A live panel. Python sends `opening` once and a `frame` after every doing; this script shows the frame and reports
// what the reader does. It works nothing out: every number and every word about the air comes from Python.
// `set`, `make`, `write`, `picture`, `question`, `readings` and `SCREENS` come from the files joined before this one.

// One line for a quantity: label, range, number box, unit, hold; and a note below it in words.
function control(spec, id, talk) {
  const own = `${id}-${spec.name}`;
  const note = make("p", { class: "tm-fault tm-note", id: `${own}-note`, role: "alert" });
  const ends = make("span", { class: "tm-ends", id: `${own}-ends` });
  const described = { "aria-describedby": `${ends.id} ${note.id}` };
  const range = make("input", { type: "range", id: `${own}-range`, ...described });
  const box = make("input", {
    type: "text", inputmode: "decimal", autocomplete: "off", spellcheck: "false", maxlength: 40,
    "aria-label": `${spec.label}, number`, ...described,
  });
  const unit = make("span", { class: "tm-unit" });
  const held = make("span", { class: "tm-held" });
  const hold = make("input", { type: "checkbox", "aria-label": `hold ${spec.label}` });
  let dragging = false, typing = false, sent = null;
  const slide = () => {
    if (sent !== range.value) talk.say({ say: "slide", name: spec.name, text: (sent = range.value) });
  };
  set(range, {
    oninput() {
      dragging = true;
      typing = false;
      box.value = range.value.replace("-", "−"); // a wall must never show a number that the slider has left
      if (!talk.slow()) slide();
    },
    onchange() {
      dragging = false;
      slide();
    },
  });
  set(box, {
    oninput: () => { typing = true; },
    onchange() {
      typing = false;
      talk.say({ say: "type", name: spec.name, text: box.value });
    },
  });
  set(hold, { onchange: () => talk.say({ say: "hold", name: spec.name, on: hold.checked }) });
  const root = make("div", { class: spec.locked ? "tm-control tm-locked" : "tm-control" },
    make("span", { class: "tm-name" }, make("label", { for: range.id }, spec.label), ends),
    spec.locked ? "" : make("label", { class: "tm-hold" }, hold, " hold"), range, held, box, unit, note);
  const show = (frame) => {
    if (!talk.busy()) sent = null;
    for (const node of [range, box, unit]) node.hidden = frame.held;
    held.hidden = !frame.held;
    hold.checked = frame.held;
    write(held, `held at ${frame.words}`);
    write(ends, frame.held ? "" : `${frame.ends[0]} to ${frame.ends[1]} ${frame.unit}`);
    set(range, { min: frame.low, max: frame.high, step: frame.step, "aria-valuetext": frame.words });
    if (!dragging && !talk.busy()) range.value = frame.position;
    if (!typing && !(dragging && talk.busy())) box.value = frame.text;
    box.toggleAttribute("aria-invalid", Boolean(frame.fault));
    write(unit, frame.unit);
    write(note, frame.fault ? `! ${frame.fault}` : "");
  };
  return { root, show };
}

// A short list to pick from: label and list on one line.
function selector(spec, id, talk) {
  const list = make("select", { id: `${id}-${spec.name}`, onchange: () => talk.say({ say: "pick", name: spec.name, key: list.value }) });
  const root = make("div", { class: "tm-control tm-pick" }, make("label", { class: "tm-name", for: list.id }, spec.label), list);
  let words = "";
  const show = (frame) => {
    if (words !== (words = JSON.stringify(frame.options))) {
      list.replaceChildren(...frame.options.map(([value, text]) => make("option", { value }, text)));
    }
    list.value = frame.key;
  };
  return { root, show };
}

// The left side behind the prediction: the controls and the buttons.
function controls(sheet, id, talk, twin) {
  const lines = sheet.controls.map((spec) => ({ spec, ...(spec.choice ? selector : control)(spec, id, talk) }));
  const led = (choice) => lines.filter(({ spec }) => !spec.more && !spec.locked && Boolean(spec.choice) === choice);
  for (const { root } of [...led(false), ...led(true)].slice(0, LEAD)) root.classList.add("tm-lead");
  const nodes = (more) => lines.filter(({ spec }) => spec.more === more).map(({ root }) => root);
  const button = (words, message) => make("button", { type: "button", onclick: () => talk.say(message()) }, words);
  const system = (value, words) => make("label", {}, make("input", {
    type: "radio", name: `${id}-system`, value, onchange: () => talk.say({ say: "system", system: value }),
  }), ` ${words}`);
  const systems = make("fieldset", { class: "tm-systems" }, make("legend", {}, "units"), system("us", "US"), system("si", "SI"));
  let kept = false;
  const keep = button("keep this case", () => ({ say: (kept = !kept) ? "keep" : "drop" })); // pressed again, it need not wait for Python
  const cases = sheet.cases.map((label) => button(`go to ${label}`, () => ({ say: "case", label })));
  const hidden = nodes(true);
  const root = make("fieldset", { class: "tm-controls" }, make("legend", { class: "tm-unseen" }, "set the case"), ...nodes(false),
    hidden.length ? make("details", {}, make("summary", {}, "more"), ...hidden) : "",
    make("div", { class: "tm-buttons" }, systems, ...cases),
    make("div", { class: "tm-buttons" }, keep, button("reset", () => ({ say: "reset" })), twin));
  const show = (frame) => {
    root.disabled = root.hidden = !(frame.shown || frame.error);
    lines.forEach((line, turn) => line.show(frame.controls[turn]));
    for (const one of systems.querySelectorAll("input")) one.checked = one.value === frame.system;
    kept = frame.kept;
    write(keep, kept ? "drop the kept case" : "keep this case");
  };
  return { root, show };
}

// The right side: errors, pictures, the sentence, read-outs, and the table twin.
function views(sheet, top, above, tables, wall) {
  const error = make("p", { class: "tm-fault", role: "alert" }), details = make("pre", { tabindex: 0 });
  const instructor = make("details", {}, make("summary", {}, "for the instructor"), details);
  const closed = make("p", { class: "tm-closed" }, sheet.closed ?? "Predict first. What happens is drawn here once you have said what you expect.");
  const figures = make("div", { class: "tm-pictured" }), charts = make("div", { class: "tm-pictured" }), sentence = make("p", { class: "tm-sentence", role: "status" });
  const readouts = make("dl", { class: "tm-readouts" }), shown = make("div", {}, top, figures, sentence, readouts, charts, above, tables);
  const engines = [], pictures = [];
  let last = null, width = 0, height = 0, twins = "";
  function redraw() {
    if (!last || !width) return;
    const scale = wall.on ? wall.scale() : 1, room = wall.on ? height - sentence.offsetHeight - 8 : 0, picked = wall.picked(last);
    const captions = wall.on ? 1.25 * LETTERS * scale * (picked.engines.length || 1) : 0;
    const fill = (drawings, records, place, parts) => {
      drawings.forEach(({ figure }, turn) => { figure.hidden = turn >= records.length; });
      records.forEach((record, turn) => {
        const one = (drawings[turn] ??= drawing(place)), { figure, svg, caption } = one;
        const [drawn, wide, high] = parts(record), scrolled = !wall.on && leastWidth(record) > width;
        const tall = Math.round((width * high) / wide), most = Math.floor((room - captions) / records.length);
        const size = scrolled ? [wide, high] : ["100%", wall.on ? Math.max(100, Math.min(tall, most)) : tall];
        set(svg, { viewBox: `0 0 ${wide} ${high}`, width: size[0], height: size[1], "aria-label": record.alt });
        figure.classList.toggle("tm-scrolled", scrolled);
        figure.tabIndex = scrolled ? 0 : -1;
        figure.classList.toggle("tm-bare", record.x && !record.x.label);
        write(caption, scrolled ? `${record.title} (slide it sideways)` : record.title);
        patch(svg, one.parts, drawn);
        one.parts = drawn;
      });
    };
    fill(engines, picked.engines, figures, (record) => airPath(record, width));
    fill(pictures, picked.pictures, last.engines.length ? charts : figures, (record) => {
      const usual = record.height || (record.x.label ? Math.round(Math.min(300, Math.max(250, width * 0.46))) : 124);
      const wide = Math.round(Math.max(width / scale, leastWidth(record))), high = wall.on ? Math.max(120, Math.round((room - captions) / scale)) : usual;
      return [picture(record, sheet.marks, wide, high), wide, high];
    });
  }
  const watcher = new ResizeObserver(() => {
    const wide = Math.floor(shown.clientWidth), high = wall.on ? shown.clientHeight : 0;
    if (wide === width && high === height) return;
    [width, height] = [wide, high];
    redraw();
  });
  watcher.observe(shown);
  const show = (frame) => {
    last = frame.shown;
    closed.hidden = Boolean(last || frame.error);
    shown.hidden = !last;
    instructor.hidden = !frame.error;
    write(error, frame.error ? `! ${frame.error.words}` : "");
    write(details, frame.error ? frame.error.details : "");
    if (!last) return;
    write(sentence, last.sentence);
    redraw();
    readouts.replaceChildren(...last.readouts.map(readout));
    tabulate();
  };
  function tabulate() { // only where it is seen
    const words = tables.hidden || !last ? twins : JSON.stringify(last.tables);
    if (words === twins) return;
    twins = words;
    tables.replaceChildren(...last.tables.map(table));
  }
  return { root: make("div", { class: "tm-right" }, error, instructor, closed, shown), show, redraw, tabulate, stop: () => watcher.disconnect() };
}

function drawing(figures) {
  const svg = set(document.createElementNS(SVG, "svg"), { role: "img", width: "100%" }), caption = make("figcaption");
  const figure = make("figure", {}, caption, svg);
  figures.append(figure);
  return { svg, caption, figure, parts: [] };
}

function readout(one) {
  return make("div", {}, make("dt", {}, one.label), make("dd", {}, make("b", {}, one.text), ` ${one.unit}`,
    make("small", {}, one.kept ? `kept: ${one.kept}` : "")));
}

function table(record) {
  const head = (scope) => (cell) => make("th", { scope }, cell);
  const row = ([first, ...cells]) => make("tr", {}, head("row")(first), ...cells.map((cell) => make("td", {}, cell)));
  return make("table", {}, make("caption", {}, record.title), make("thead", {}, make("tr", {}, ...record.heads.map(head("col")))),
    make("tbody", {}, ...record.rows.map(row)));
}

function render({ model, el }) {
  const sheet = model.get("opening"), id = `tm${Math.random().toString(36).slice(2)}`;
  const word = make("p", { class: "tm-word tm-fault", role: "alert" }), notice = make("p", { class: "tm-fault", role: "alert" });
  const journal = make("p", { class: "tm-fault", role: "alert" });
  const talk = conversation(model, (quiet) => write(word, quiet ? `! ${sheet.silence}` : ""), foresee);
  const title = make("p", { class: "tm-title", id: `${id}-title` }, tied(sheet.title));
  const asked = sheet.questions.map((one, number) => question(one, number, id, talk, sheet.predict));
  const tables = make("div", { // it scrolls where it is too wide, so the keyboard must reach it
    class: "tm-tables", id: `${id}-tables`, hidden: true, tabindex: 0, role: "group", "aria-label": "tables",
  });
  const twin = make("button", {
    type: "button", "aria-expanded": "false", "aria-controls": tables.id, "aria-keyshortcuts": "t",
    onclick() {
      tables.hidden = !tables.hidden;
      sides[1].tabulate();
      if (!tables.hidden && sheet.controls.length) talk.say({ say: "table" }); // a step may ask for it
      twin.setAttribute("aria-expanded", String(!tables.hidden));
    },
  }, "table ", make("kbd", {}, "t"));
  const runs = sheet.runs ? readings(sheet, id, talk) : null, wall = hung();
  const sides = sheet.screen ? SCREENS[sheet.screen](sheet, id, talk, wall)
    : sheet.controls.length ? [controls(sheet, id, talk, twin), views(sheet, runs?.top ?? "", runs?.below ?? "", tables, wall)]
    : sheet.marks ? [null, views(sheet, "", make("div", { class: "tm-buttons" }, twin), tables, wall)] : []; // a figure has nothing to set
  const shown = presenter(sheet.marks || !sheet.screen ? sheet : { ...sheet, questions: [] }, talk, wall, () => sides[1]?.redraw());
  const todo = stepList();
  const left = make("div", {}, title, ...asked.map(({ root }) => root), sides[0]?.root ?? "", todo.root);
  const root = make("section", {
    class: "tm", tabindex: -1, "aria-labelledby": title.id,
    onkeydown(event) {
      event.stopPropagation(); // the notebook must never take a key that is meant for the panel
      const plain = !(event.ctrlKey || event.metaKey || event.altKey || event.target.matches("[type=text], select"));
      if (event.key === "t" && plain) twin.click();
      if (event.key === "p" && plain && shown.able) shown.enter();
    },
  }, word, notice, journal, make("div", { class: sides[0] ? "tm-columns" : "" }, left, sides[1]?.root ?? ""));
  shown.at(root);
  el.append(root);
  const show = () => {
    const frame = model.get("frame");
    talk.heard(frame.turn);
    write(notice, frame.notice ? `! ${frame.notice}` : "");
    write(journal, frame.journal ? `! ${frame.journal}` : "");
    asked.forEach((one, number) => one.show(frame.asked[number]));
    shown.show(frame);
    todo.show(frame.steps ?? []);
    for (const side of [...sides, runs]) side?.show(frame);
  };
  let ahead = []; // what Python has worked out for the next step of a slider, before it is taken
  const reckon = (one) => { ahead = [...ahead.filter(({ turn }) => turn === one.turn), one]; };
  function foresee(message) {
    const frame = model.get("frame");
    const one = ahead.find(({ turn, name, text }) => turn === frame.turn && name === message.name && Number(text) === Number(message.text));
    if (message.say !== "slide" || !one) return;
    for (const side of sides) side?.show({ ...frame, controls: one.controls, shown: one.shown });
  }
  model.on("change:frame", show);
  model.on("msg:custom", reckon);
  show();
  return () => {
    model.off("change:frame", show);
    model.off("msg:custom", reckon);
    talk.stop();
    sides[1]?.stop?.();
    shown.stop();
  };
}

export default { render };
