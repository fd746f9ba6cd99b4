// A recorded model: what a panel's Python answers, looked up. The panel's script speaks to it as it would to Python.

function recordedModel(record, packed, words) {
  const { opening } = record, listeners = new Set();
  const asked = record.questions.map((one, number) => putQuestion(one, opening.questions[number], words));
  const controls = packed?.systems ? recordedControls(record, packed, words) : null;
  const readings = record.readings ? recordedReadings(record.readings, controls, words) : null;
  const ticked = new Set();
  let kept = null, last = null, frame = null;

  const heard = {
    keep: () => { kept = controls.place(); },
    drop: () => { kept = null; },
    reset: () => { kept = null; controls.heard.reset(); },
    table: () => {},
    wall: () => {},
  };
  for (const name of ["run", "read", "point", "follow", "report"]) {
    heard[name] = (message) => {
      if (name !== "report") kept = null; // beside other readings it was not recorded
      readings.heard[name](message);
    };
  }
  function hear({ say, question = 0, ...message }) {
    const doing = heard[say] ?? controls?.heard[say] ?? asked[question]?.heard[say];
    doing(message);
    if (controls && asked.every((one) => one.open())) tick(say);
  }
  function tick(did) {
    const { done } = packed.at(controls.state()), holds = controls.held();
    const so = {
      kept: (want) => Boolean(kept) === want, system: (want) => controls.system() === want, did: (want) => did === want,
      held: (names) => names.every((name) => holds.has(name)), free: (names) => names.every((name) => !holds.has(name)),
      run: (want) => readings?.run() === want,
    };
    record.steps.forEach(([text, asks], turn) => {
      if (done[turn] && Object.entries(asks).every(([name, want]) => so[name](want))) ticked.add(text);
    });
  }
  function shown() {
    const now = packed.at(controls ? controls.state() : 0);
    const hidden = Object.entries(record.of_held ?? {}).flatMap(([name, labels]) => (controls.held().has(name) ? [] : labels));
    const other = kept ? packed.at(controls.other(kept)).shown[0] ?? null : null;
    if (now.shown.length) last = drawnCase(now.shown[0], other, new Set(hidden));
    const error = now.error ? { words: `${now.error}${last ? ` ${words.last}` : ""}`, details: words.details } : null;
    return { shown: last, error };
  }
  function made(more) {
    const open = asked.every((one) => one.open()), system = controls?.system() ?? "us";
    const steps = open ? (record.steps ?? []).map(([text]) => [text, ticked.has(text)]) : [];
    return {
      asked: asked.map((one) => one.frame(system)), steps, kept: Boolean(kept), journal: "", notice: "", error: null, shown: null,
      ...(controls?.frame() ?? {}), ...(packed && (open || !controls) ? shown() : {}), ...(readings ? { readings: readings.frame() } : {}), ...more,
    };
  }
  frame = made({});
  return {
    get: (name) => (name === "opening" ? opening : frame),
    on: (what, listener) => what === "change:frame" && listeners.add(listener), // nothing else ever comes from a record
    off: (_, listener) => listeners.delete(listener),
    send({ turn, ...message }) {
      hear(message);
      frame = made({ turn });
      for (const one of listeners) one();
    },
  };
}

// The shipped readings beside the sliders: which run, which of its points.
function recordedReadings({ chosen, runs, own }, controls, words) {
  let run = "", row = null, fault = "";
  const open = () => controls.open(Math.max(0, chosen.findIndex(([one, other]) => one === run && String(other) === String(row))));
  const heard = {
    run({ key }) {
      fault = key === own[0] ? words.own : "";
      run = key;
      row = runs[key]?.row ?? null;
      open();
    },
    read: () => { fault = words.own; },
    point({ row: other }) {
      row = Number(other);
      open();
    },
    follow: () => controls.follow(runs[run].follows[row]),
    report: () => { fault = words.report; },
  };
  const frame = () => ({ run, folder: "", fault, written: null, points: runs[run]?.points ?? [], notes: runs[run]?.notes ?? [], row });
  return { heard, frame, run: () => run };
}
