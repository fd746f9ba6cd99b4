// The controls of a recorded panel: where they stand, which recorded state is nearest, and what is said where it differs.

// How bad it is that a recorded state is off. What slides must follow; a little off what is typed is nothing, much is bad; another one rather stays.
const SLID = (off) => 1000 * off, TYPED = (off) => 125 * off * off, OTHER = (off) => (off ? 0.15 + 3 * off : 0);

function recordedControls(record, packed, words) {
  const systems = ["us", "si"], [ofSystem, ofRun, ...ofControl] = packed.numbers("at");
  const scales = Object.fromEntries(systems.map((system) => [system, packed.systems[system].map(scale)]));
  const fill = (sentence, places) => sentence.replace(/\{(\w+)\}/g, (_, name) => places[name]);
  let system = "us", run = 0, at = [...record.start.us], notes = {}, before = null;
  let held = new Set(Object.keys(record.held).filter((name) => record.held[name]));
  const lists = () => packed.systems[system], turnOf = (name) => lists().findIndex((one) => one.name === name);

  // Where each place of a control lies on a way of length 1; the options of a choice lie one apart.
  function scale(one) {
    if (one.options) return one.options.map((_, turn) => turn);
    const span = one.si.at(-1) - one.si[0] || 1;
    return one.si.map((value) => (value - one.si[0]) / span);
  }
  const apart = (turn, a, b) => (lists()[turn].options ? Number(a !== b) : Math.abs(scales[system][turn][a] - scales[system][turn][b]));

  // Return [state, where its controls stand], the nearest to what is wanted.
  function nearest(wanted, moved = -1, bad = SLID) {
    const number = systems.indexOf(system);
    let best = -1, least = Infinity;
    for (let state = 0; state < ofSystem.length; state++) {
      if (ofSystem[state] !== number || ofRun[state] !== run) continue;
      let far = 0;
      for (let turn = 0; turn < wanted.length && far < least; turn++) {
        const off = apart(turn, ofControl[turn][state], wanted[turn]);
        far += (turn === moved ? bad : OTHER)(off);
      }
      if (far < least) [best, least] = [state, far];
    }
    return [best, ofControl.map((one) => one[best])];
  }
  const said = (turn, place) => lists()[turn].words?.[place] ?? lists()[turn].options[place][1];
  // Go to the nearest recorded state; a control that is not where it was to be says so. `told` is what was asked for, in words.
  function go(wanted, moved = -1, told = null, bad = SLID) {
    [, at] = nearest(wanted, moved, bad);
    notes = {};
    at.forEach((place, turn) => {
      const asked = turn === moved ? told : place === wanted[turn] ? null : said(turn, wanted[turn]);
      if (asked !== null && asked !== said(turn, place)) notes[lists()[turn].name] = fill(words.nearest, { shown: said(turn, place), asked });
    });
    before = null;
  }
  const closest = (positions, value) => positions.reduce((best, one, turn) => (Math.abs(one - value) < Math.abs(positions[best] - value) ? turn : best), 0);
  function still(name) { // with readings open, some controls have been recorded in one place only
    const turn = turnOf(name), places = new Set();
    if (!run) return false;
    ofRun.forEach((one, state) => one === run && ofSystem[state] === systems.indexOf(system) && places.add(ofControl[turn][state]));
    return places.size < 4;
  }
  // How many steps a slider takes at once where the others stand now, so that each of its places was recorded.
  function stride(turn) {
    const { pairs, beside } = record.strides[system], off = (base) => at.flatMap((place, other) => (other !== turn && place !== base[other] ? [other] : []));
    if (run) return beside[turn];
    const bases = record.bases[system].map(off);
    if (bases.some((one) => !one.length) || bases[0].length > 1) return 1;
    const pair = pairs.find(([one, other]) => (one === turn && other === bases[0][0]) || (other === turn && one === bases[0][0]));
    return pair ? pair[pair.slice(0, 2).indexOf(turn) + 2] : 1;
  }
  function put(name, text, typed) {
    const turn = turnOf(name), { positions, unit } = lists()[turn], now = said(turn, at[turn]);
    const value = Number(text.trim().replace(",", ".").replace("−", "-"));
    notes = {};
    if (held.has(name)) notes[name] = fill(words.held, { now });
    else if (!text.trim() || Number.isNaN(value)) notes[name] = fill(words.no_number, { text: text.slice(0, 40), now });
    else {
      const place = closest(positions, value), wanted = at.with(turn, place), step = Math.abs(positions[place] - value);
      go(wanted, turn, typed && step > 1e-6 * Math.max(1, Math.abs(value)) ? `${text.trim()} ${unit}`.trim() : null, typed ? TYPED : SLID);
    }
  }
  const heard = {
    slide: ({ name, text }) => put(name, text, false),
    type: ({ name, text }) => put(name, text, true),
    pick({ name, key }) {
      const turn = turnOf(name);
      go(at.with(turn, lists()[turn].options.findIndex(([one]) => one === key)), turn);
    },
    hold({ name, on }) {
      const { locked } = record.opening.controls.find((one) => one.name === name);
      held[on || locked ? "add" : "delete"](name);
      delete notes[name];
    },
    system({ system: other }) {
      if (other === system) return;
      const back = before?.system === other ? before.at : null, now = { system, at };
      const values = at.map((place, turn) => lists()[turn].si?.[place]);
      const told = at.map((place, turn) => said(turn, place));
      system = other;
      if (back) [at, notes] = [back, {}];
      else {
        const wanted = at.map((place, turn) => (values[turn] === undefined ? place : closest(lists()[turn].si, values[turn])));
        go(wanted);
        at.forEach((place, turn) => {
          const { si, name } = lists()[turn];
          if (si && Math.abs(si[place] - values[turn]) > 1e-6 * Math.abs(si.at(-1) - si[0])) notes[name] = fill(words.nearest, { shown: said(turn, place), asked: told[turn] });
        });
      }
      before = now;
    },
    case: ({ label }) => go(record.cases[label][system]),
    reset() {
      held = new Set(Object.keys(record.held).filter((name) => record.held[name]));
      go(record.start[system]);
    },
  };
  const line = (one, turn) => {
    if (one.options) return { name: one.name, options: one.options, key: one.options[at[turn]][0] };
    const { name, unit, low, high, step, ends, positions, texts, words: told, outside } = one, fixed = still(name);
    return {
      name, unit, low, high, step: Number((step * stride(turn)).toPrecision(9)), ends, position: positions[at[turn]], text: texts[at[turn]], words: told[at[turn]],
      held: held.has(name) || fixed, fault: notes[name] ?? outside[at[turn]] ?? (fixed ? words.still : ""),
    };
  };
  return {
    heard,
    state: () => nearest(at)[0],
    other(place) { // the state that was kept, in the units shown now
      const wanted = place.at.map((one, turn) => {
        const { si } = packed.systems[place.system][turn];
        return si ? closest(lists()[turn].si, si[one]) : one;
      });
      return nearest(wanted)[0];
    },
    place: () => ({ system, at: [...at] }),
    open(number, wanted = at) { run = number; go(wanted); },
    follow: (wanted) => go(wanted[system]),
    frame: () => ({ system, controls: lists().map(line) }),
    system: () => system,
    held: () => held,
  };
}
