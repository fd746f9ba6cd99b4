// The parts that every widget uses: making nodes, talking to Python, and a question with its answer.

const SILENCE = 1000; // ms without an answer before the panel says so
const OPENED = "Opened without a prediction.";
const SLOW = 150; // ms: after two slower answers running the picture follows on release; one may be a hiccup

function set(node, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (value === true) node.setAttribute(name, "");
    else if (value !== false && value !== undefined && node.getAttribute(name) !== `${value}`) node.setAttribute(name, value);
  }
  return node;
}

function make(tag, attributes = {}, ...children) {
  const node = set(document.createElement(tag), attributes);
  node.append(...children);
  return node;
}

// A line never ends between a number and its unit.
function tied(text) {
  return text.replace(/ (?=[°%])|(?<=\d) (?=(?:psi|kPa|hPa|MPa|bar|inHg|inH2O|hp|kW|ft|m|lb|kg|g|L|rpm|cfm|in|s|h|F°|C°)(?![a-z]))/g, "\u00a0");
}

// Touch the page only where words change, so that a screen reader is not told twice.
function write(node, text) {
  const whole = tied(text);
  if (node.textContent !== whole) node.textContent = whole;
}

// One message under way at a time; while it is, a newer place of a slider replaces the older one that waits.
// `foresee` hears what is said while nothing was under way.
function conversation(model, silent, foresee) {
  const me = Math.random().toString(36).slice(2);
  let count = 0, turn = null, since = 0, took = [0, 0], timer = 0, waiting = [];
  function next() {
    if (turn || !waiting.length) return;
    turn = `${me} ${++count}`;
    since = performance.now();
    timer = setTimeout(silent, SILENCE, true);
    try {
      model.send({ ...waiting.shift(), turn });
    } catch {
      silent(true);
    }
  }
  const busy = () => turn !== null || waiting.length > 0;
  return {
    busy,
    slow: () => Math.min(...took) > SLOW,
    say(message) {
      const older = (one) => message.say === "slide" && one.say === "slide" && one.name === message.name;
      const idle = !busy();
      waiting = [...waiting.filter((one) => !older(one)), message];
      next();
      if (idle) foresee(message);
    },
    heard(answered) {
      if (!turn || answered !== turn) return;
      took = [took[1], performance.now() - since];
      turn = null;
      clearTimeout(timer);
      silent(false);
      next();
    },
    stop: () => clearTimeout(timer),
  };
}

// A question: options or a number; once it is answered, what was said stands beside the outcome.
function question(sheet, number, id, talk, predict) {
  const name = `${id}-q${number}`;
  const fault = make("p", { class: "tm-fault", id: `${name}-fault`, role: "alert" });
  const described = { "aria-describedby": fault.id };
  const radio = (words) => make("input", { type: "radio", name, value: words, ...described });
  const option = (words) => make("label", { class: "tm-option" }, radio(words), make("span", {}, tied(words)));
  const box = make("input", { type: "text", inputmode: "decimal", id: `${name}-box`, autocomplete: "off", size: sheet.stays ? 24 : 8, ...described });
  const entry = sheet.options.length ? sheet.options.map(option)
    : [make("span", {}, make("label", { for: box.id }, `${sheet.entry} `), box, ` ${sheet.unit}`)];
  const why = make("input", { type: "text", maxlength: 200, id: `${name}-why`, autocomplete: "off" });
  const because = predict ? [make("label", { for: why.id, class: "tm-because" }, "because (if you like)"), why] : [];
  const form = make("form", {
    onsubmit(event) {
      event.preventDefault();
      const text = sheet.options.length ? form.elements[name].value : box.value;
      talk.say({ say: "answer", text, why: why.value, question: number });
    },
  }, make("fieldset", {}, make("legend", {}, tied(sheet.text)), make("div", { class: "tm-options" }, ...entry), ...because, fault,
    make("button", { class: "tm-main" }, predict ? "this is my prediction" : "check")));
  const asked = make("p", { class: "tm-asked", hidden: predict || sheet.stays }, tied(sheet.text));
  const said = make("p"), outcome = make("p", { class: "tm-outcome" });
  const reply = make("p", { role: sheet.stays ? "status" : undefined }); // elsewhere the focus moves to the answer
  const now = make("input", {
    type: "text", maxlength: 200, id: `${name}-now`, autocomplete: "off", onchange: () => talk.say({ say: "now", text: now.value, question: number }),
  });
  const again = make("button", { type: "button", onclick: () => talk.say({ say: "again", question: number }) }, "try again");
  const after = make("div", {
    class: "tm-after", tabindex: -1, role: "group", "aria-label": predict ? "your prediction and the outcome" : "your answer",
  }, asked, said, outcome, reply, predict ? make("div", { class: "tm-list" }, make("label", { for: now.id }, "and now, because"), now, again) : again);
  const root = make("div", { class: "tm-question" }, form, after);
  let open = null;
  const show = (frame) => {
    write(fault, frame.fault ? `! ${frame.fault}` : "");
    const why = frame.why ? `, because ${frame.why}` : "", answered = frame.open ?? Boolean(frame.said);
    write(said, frame.said ? `${predict ? "You predicted" : "You said"}: ${frame.said}${why}` : OPENED);
    if (document.activeElement !== now) now.value = frame.now ?? "";
    write(outcome, frame.outcome);
    write(reply, frame.reply);
    again.hidden = Boolean(sheet.stays);
    if (open === answered) return;
    const mine = root.contains(document.activeElement) && !sheet.stays; // asked before anything is hidden
    open = answered;
    form.hidden = open && !sheet.stays;
    after.hidden = !open;
    if (mine) (open ? after : form.querySelector("input")).focus({ preventScroll: true });
  };
  return { root, show };
}
