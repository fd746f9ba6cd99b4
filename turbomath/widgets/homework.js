// Homework: practice that answers at once, and the sheet of an assignment. Python marks, reads and keeps what is typed;
// this script shows it. `set`, `make` and `write` come from the file joined before this one.

const PAUSE = 500; // ms after the last key until what stands in a box of a sheet is sent to be kept
const UNSENT = (globalThis.turbomathUnsent ??= new Map()); // what Python has not said it kept outlives Python, on this page

// An equation from its parts; `space` is the name by which a page knows MathML.
function maths(space, [tag, attributes, text, parts]) {
  const node = set(document.createElementNS(space, tag), attributes);
  node.append(text, ...parts.map((one) => maths(space, one)));
  return node;
}

function paragraphs(words) {
  return words.map((line) => make("p", {}, line));
}

// One part of a question: a box or the options to choose from, and a reply that stands while its text stands.
function part(spec, options, id, heard) {
  const own = `${id}-${spec.name || "answer"}`, head = make("b"), words = make("span");
  const reply = make("p", { class: "tm-reply", id: `${own}-reply`, role: "status" }, head, " ", words);
  const written = make("span", { class: "tm-written", id: `${own}-written` }, spec.written);
  const box = make("input", {
    type: "text", id: own, autocomplete: "off", spellcheck: "false", maxlength: spec.longest ?? 80, size: spec.longest ? 40 : 18, oninput: () => changed(),
    onchange: () => heard.left?.(), "aria-describedby": `${written.id} ${reply.id}`,
  });
  const radio = ([value]) => make("input", { type: "radio", name: own, value, onchange: () => changed() });
  const radios = options.map(radio);
  const choices = make("fieldset", { class: "tm-options", "aria-describedby": reply.id }, make("legend", { class: "tm-unseen" }, spec.label),
    ...options.map(([letter, words], turn) => make("label", { class: "tm-option" }, radios[turn], make("span", {}, `${letter}  ${words}`))));
  const text = () => (options.length ? radios.find((one) => one.checked)?.value ?? "" : box.value);
  let last = { text: "" };
  function changed() {
    show(last);
    heard.changed?.();
  }
  function show(state) {
    last = state;
    const stands = text() === state.text;
    write(head, stands && state.head ? `${state.good ? "" : "! "}${state.head}` : "");
    write(words, stands ? state.words : heard.waiting);
    reply.classList.toggle("tm-good", stands && state.good);
    box.toggleAttribute("aria-invalid", stands && Boolean(state.head) && !state.good);
  }
  return {
    root: make("div", { class: "tm-part" }, ...(options.length ? [choices] : [
      make("label", { for: own }, spec.label), make("span", { class: "tm-entry" }, box, " ", written)]), reply),
    name: spec.name, text, show,
    put(value) {
      box.value = value;
      for (const one of radios) one.checked = one.value === value;
    },
  };
}

// A question: its words and its parts. It is made anew for another one, and keeps what is typed while it is the same.
function exercise(id, heard) {
  const root = make("div", { class: "tm-exercise" });
  let key = null, parts = [];
  return {
    root,
    texts: () => Object.fromEntries(parts.map((one) => [one.name, one.text()])),
    show(spec, states) {
      if (key !== spec.key) {
        key = spec.key;
        parts = spec.parts.map((one) => part(one, one.name === "remark" ? [] : spec.options, id, heard));
        parts.forEach((one, turn) => one.put(heard.unsent?.(one.name) ?? states[turn].text));
        root.replaceChildren(...paragraphs(spec.wording), ...parts.map((one) => one.root));
      }
      parts.forEach((one, turn) => one.show(states[turn]));
    },
  };
}

// Hints, one more at each press; the button goes with the last one, so the focus goes to the hints.
function hinting(press) {
  const list = make("ol", { class: "tm-hints", tabindex: -1, "aria-label": "hints" });
  const button = make("button", { type: "button", onclick: press });
  const show = (given, more) => {
    const mine = document.activeElement === button && !more;
    if (list.childElementCount !== given.length || list.textContent !== given.join("")) {
      list.replaceChildren(...given.map((words) => make("li", {}, words)));
    }
    list.hidden = !given.length;
    button.hidden = !more;
    write(button, `hint ${given.length + 1}`);
    if (mine) list.focus({ preventScroll: true });
  };
  return { list, button, show };
}

function list(label, id, say) {
  const node = make("select", { id, onchange: () => say(node.value) });
  let words = "";
  const show = (options, value) => {
    if (words !== (words = JSON.stringify(options))) node.replaceChildren(...options.map(([key, text]) => make("option", { value: key }, text)));
    node.value = value;
  };
  return { root: make("div", { class: "tm-control tm-pick" }, make("label", { class: "tm-name", for: id }, label), node), show };
}

function solution(space, lines) {
  const head = { given: "Given", answer: "Answer" };
  return lines.flatMap(([sort, words, equations], turn) => [
    ...(head[sort] && lines[turn - 1]?.[0] !== sort ? [make("h3", {}, head[sort])] : []),
    make("p", { class: `tm-${sort}` }, words), ...equations.map((one) => make("div", { class: "tm-equation" }, maths(space, one)))]);
}

// Practice: on the left which question and whose numbers, on the right the question and what is said of the answer.
function practice(sheet, id, talk) {
  const subject = list("subject", `${id}-subject`, (key) => talk.say({ say: "subject", key }));
  const name = list("question", `${id}-question`, (key) => talk.say({ say: "question", key }));
  const system = (value, words) => make("label", {}, make("input", {
    type: "radio", name: `${id}-system`, value, onchange: () => talk.say({ say: "system", system: value }),
  }), ` ${words}`);
  const systems = make("fieldset", { class: "tm-systems" }, make("legend", {}, "units"), system("us", "US"), system("si", "SI"));
  const fault = make("p", { class: "tm-fault tm-note", id: `${id}-seat-fault`, role: "alert" });
  const seat = make("input", {
    type: "text", id: `${id}-seat`, autocomplete: "off", spellcheck: "false", maxlength: 200, "aria-describedby": fault.id,
    onchange: () => talk.say({ say: "seat", text: seat.value }),
  });
  const fresh = make("button", { type: "button", onclick: () => talk.say({ say: "fresh" }) }, "fresh numbers");
  const about = make("p", { class: "tm-asked", role: "status" });
  const record = make("input", { type: "checkbox", onchange: () => talk.say({ say: "record", on: record.checked }) });
  const note = make("p", { class: "tm-written", role: "status" }), lost = make("p", { class: "tm-fault", role: "alert" });
  const left = make("fieldset", { class: "tm-controls" }, make("legend", { class: "tm-unseen" }, "choose the question"),
    subject.root, name.root,
    make("div", { class: "tm-control tm-pick" }, make("label", { class: "tm-name", for: seat.id }, "numbers of seat"), seat, fault),
    make("div", { class: "tm-buttons" }, systems),
    make("label", { class: "tm-option tm-record" }, record, make("span", {}, "keep a record of my practice")), note, lost);
  const body = exercise(id, { waiting: "" });
  const hints = hinting(() => talk.say({ say: "hint" }));
  const worked = make("div", { class: "tm-worked", tabindex: 0, role: "group", "aria-label": "worked solution" });
  const work = make("button", { type: "button", "aria-expanded": "false", onclick: () => talk.say({ say: "work" }) }, "worked solution");
  const form = make("form", {
    onsubmit(event) {
      event.preventDefault();
      talk.say({ say: "check", texts: body.texts() });
    },
  }, body.root, make("div", { class: "tm-buttons" }, make("button", { class: "tm-main" }, "check"), hints.button, work, fresh));
  const right = make("div", { class: "tm-right" }, about, form, hints.list, worked);
  let drawn = "";
  const show = (frame) => {
    subject.show(sheet.subjects.map((one) => [one, one]), frame.subject);
    name.show(frame.names, frame.name);
    for (const one of systems.querySelectorAll("input")) one.checked = one.value === frame.system;
    if (document.activeElement !== seat) seat.value = frame.seat;
    write(fault, frame.fault ? `! ${frame.fault}` : "");
    write(about, frame.about);
    record.checked = frame.record.on;
    write(note, frame.record.note);
    write(lost, frame.record.fault ? `! ${frame.record.fault}` : "");
    body.show(frame.exercise, frame.parts);
    hints.show(frame.hints, frame.more);
    work.hidden = !frame.tried;
    work.setAttribute("aria-expanded", String(Boolean(frame.worked)));
    write(work, frame.worked ? "hide the worked solution" : "worked solution");
    worked.hidden = !frame.worked;
    if (drawn !== (drawn = JSON.stringify(frame.worked))) worked.replaceChildren(...solution(sheet.maths, frame.worked ?? []));
  };
  return [{ root: left, show }, { root: right, show() {}, stop() {} }];
}

// One question of a sheet. What is typed is sent after a pause or on leaving the box, and called saved by Python only.
function sheetQuestion(name, key, id, talk) {
  const unsent = (one) => `${key} ${name} ${one}`;
  let timer = 0, sent = {};
  const send = () => {
    clearTimeout(timer);
    for (const [one, text] of Object.entries(body.texts())) {
      if (text === (sent[one] ?? "")) continue;
      sent[one] = text;
      talk.say({ say: "enter", question: name, part: one, text });
    }
  };
  const later = () => {
    clearTimeout(timer);
    timer = setTimeout(send, PAUSE);
    for (const [one, text] of Object.entries(body.texts())) if (text !== (sent[one] ?? "")) UNSENT.set(unsent(one), text);
  };
  const body = exercise(id, { waiting: "not saved yet", changed: later, left: send, unsent: (one) => UNSENT.get(unsent(one)) });
  const hints = hinting(() => talk.say({ say: "hint", question: name }));
  const head = make("h3", {}), root = make("section", { class: "tm-question" }, head, body.root, make("div", { class: "tm-buttons" }, hints.button), hints.list);
  let begun = false;
  const show = (frame) => {
    const now = frame.states.map((one, turn) => [frame.exercise.parts[turn].name, one]);
    write(head, frame.head);
    body.show(frame.exercise, frame.states);
    hints.show(frame.hints, frame.more);
    if (!begun) sent = Object.fromEntries(now.map(([one, state]) => [one, state.text]));
    if (!begun && now.some(([one]) => UNSENT.has(unsent(one)))) later();
    begun = true;
    for (const [one, { kept, text }] of now) if (kept && text === UNSENT.get(unsent(one))) UNSENT.delete(unsent(one));
  };
  return { root, show, stop: () => clearTimeout(timer) };
}

// Which sheet, its questions, and handing in.
function assignment(sheet, id, talk) {
  const open = (path) => talk.say({ say: "open", path });
  const found = list("sheets in your work folder", `${id}-found`, (path) => path && open(path));
  const fault = make("p", { class: "tm-fault", id: `${id}-path-fault`, role: "alert" });
  const box = make("input", {
    type: "text", id: `${id}-path`, autocomplete: "off", spellcheck: "false", maxlength: 400, "aria-describedby": fault.id,
  });
  const form = make("form", {
    class: "tm-list",
    onsubmit(event) {
      event.preventDefault();
      open(box.value);
    },
  }, make("label", { for: box.id }, "or its path"), box, make("button", {}, "open"),
  make("button", { type: "button", onclick: () => talk.say({ say: "look" }) }, "look again"));
  const head = make("h2"), facts = make("p"), note = make("p", { role: "status" }), body = make("div");
  const filled = make("p", { class: "tm-asked" }), handed = make("p", { role: "status" }), lost = make("p", { class: "tm-fault", role: "alert" });
  const again = make("button", { type: "button", onclick: () => talk.say({ say: "again" }) }, "save again");
  const whole = make("div", { class: "tm-sheet" }, head, facts, note, body, make("div", { class: "tm-buttons" }, again,
    make("button", { type: "button", class: "tm-main", onclick: () => talk.say({ say: "hand in" }) }, "hand in")), filled, handed, lost);
  const root = make("div", {}, found.root, form, fault, whole);
  let key = null, questions = [];
  const stop = () => questions.forEach((one) => one.stop());
  const show = (frame) => {
    const now = frame.sheet;
    found.show([["", frame.found.length ? "choose yours" : "none found"], ...frame.found], frame.found.some(([path]) => path === now?.path) ? now.path : "");
    if (document.activeElement !== box) box.value = frame.typed;
    write(fault, frame.fault ? `! ${frame.fault}` : "");
    whole.hidden = !now;
    if (!now) return;
    if (key !== now.key) {
      stop();
      key = now.key;
      questions = now.questions.map((one, turn) => sheetQuestion(one.name, key, `${id}-${turn}`, talk));
      body.replaceChildren(...questions.map((one) => one.root));
    }
    write(head, now.title);
    write(facts, now.facts);
    write(note, now.note);
    questions.forEach((one, turn) => one.show(now.questions[turn]));
    again.hidden = !now.unsaved;
    write(filled, now.filled);
    write(handed, now.handed);
    write(lost, now.fault ? `! ${now.fault}` : "");
  };
  return [null, { root, show, stop }];
}

const SCREENS = { practice, sheet: assignment }; // what a panel can be besides sliders; the live lab adds its own
