// What faults would show the readings: a guess first, then what the run is held against, then the answer by a button.
// `make`, `write`, `list` come from the files joined with this one.

const BY_PATH = "?"; // of the list of folders: the path is typed
const ASK = "What fault would show it? Guess aloud first";

function faultFinder(id, talk) {
  const fault = make("p", { class: "tm-fault", id: `${id}-faults-fault`, role: "alert" });
  const text = (name, most) => make("input", { type: "text", id: `${id}-${name}`, autocomplete: "off", maxlength: most, "aria-describedby": fault.id });
  const guess = text("guess", 200), path = text("beside", 400), folder = make("select", { id: `${id}-beside-list`, onchange: () => named(folder.value === BY_PATH ? "" : folder.value, folder.value) });
  const own = make("select", { id: `${id}-own` }, make("option", { value: "own" }, "this engine, when it was sound"), make("option", { value: "" }, "another engine of its make and type"));
  const label = (words, node) => make("label", { for: node.id }, words);
  const typed = make("p", { class: "tm-list" }, label("its path", path), path);
  function named(value, choice) {
    [path.value, folder.value] = [value, choice];
    typed.hidden = choice !== BY_PATH;
  }
  const form = make("form", {
    onsubmit(event) {
      event.preventDefault();
      talk.say({ say: "look for faults", guess: guess.value, beside: path.value, own: own.value === "own" });
    },
  },
  make("p", {}, "Look at limits, verdicts and checks above. What do you think is wrong, and what speaks for it? Then ask. Held against an earlier run of this very engine, the answer is worth most."),
  make("p", { class: "tm-list" }, label("your guess first", guess), guess),
  make("p", { class: "tm-list" }, label("hold it against", folder), folder), typed,
  make("p", { class: "tm-list" }, label("that is a run of", own), own, make("button", {}, "look for faults")), fault);
  const said = make("p"), answer = make("p", { class: "tm-sentence", role: "status" }), head = make("p");
  const listed = make("div"), tests = make("div"), worth = make("div");
  const root = make("details", { class: "tm-record tm-faults", open: globalThis.turbomathFaultsAreOpen, ontoggle: () => { globalThis.turbomathFaultsAreOpen = root.open; } },
    make("summary", {}, "What fault would show these readings? Guess first"), form, said, head, answer, listed, tests, worth);
  let folders = "", drawn = "", taken = "";
  const headed = (words, ...nodes) => (nodes.length ? [make("h3", {}, words), ...nodes] : []);
  function show(now, found) {
    root.hidden = !now;
    if (!now) return;
    const names = JSON.stringify(found);
    if (folders !== names) {
      const before = folder.value;
      folders = names;
      folder.replaceChildren(make("option", { value: "" }, "nothing of its own"), ...found.map(([value, words]) => make("option", { value }, words)), make("option", { value: BY_PATH }, "another: type its path"));
      named(path.value, [...folder.options].some((one) => one.value === before) ? before : path.value ? BY_PATH : "");
    }
    const kept = JSON.stringify([now.guess, now.beside, now.own]); // what is typed and not yet asked stays
    if (taken !== (taken = kept) && !root.contains(document.activeElement)) {
      [guess.value, own.value] = [now.guess, now.own ? "own" : ""];
      named(now.beside, !now.beside || found.some(([value]) => value === now.beside) ? now.beside : BY_PATH);
    }
    write(fault, now.fault ? `! ${now.fault}` : "");
    write(said, now.said);
    write(head, now.answer?.head ?? "");
    write(answer, now.answer?.answer ?? "");
    answer.hidden = !now.answer;
    const words = JSON.stringify(now.answer);
    if (drawn === words) return;
    drawn = words;
    const lines = (every) => (every ?? []).map((one) => make("p", {}, one)), likely = now.answer?.likely ?? [];
    listed.replaceChildren(...headed("What would show these readings", ...(likely.length ? [make("ul", {}, ...likely.map((one) => make("li", {}, one)))] : [])));
    tests.replaceChildren(...headed("Next test", ...lines(now.answer?.test)));
    worth.replaceChildren(...headed("What that is worth", ...lines(now.answer?.worth)));
  }
  return { root, show };
}

// The same on a wall, once a class has voted and guessed aloud: by a button, and away again by the same.
function faultsAloud(talk) {
  const fault = make("p", { class: "tm-fault", role: "alert" }), lines = make("div", { role: "status" });
  const button = make("button", { type: "button", onclick() {
    if (root.toggleAttribute("data-told")) talk.say({ say: "faults on the wall" });
    write(button, root.hasAttribute("data-told") ? "back to the question" : ASK);
  } }, ASK);
  const root = make("div", { class: "tm-aloud" }, button, fault, lines);
  function show(now) {
    const answer = now?.answer, test = answer?.test ?? [];
    write(fault, now?.fault ? `! ${now.fault}` : "");
    const told = answer ? [answer.head, answer.answer, ...test.map((one, turn) => (turn ? one : `Next test: ${one}`)), ...answer.worth.slice(-2)] : [];
    if (lines.textContent !== told.join("")) lines.replaceChildren(...told.map((one, turn) => make("p", {}, turn === 1 ? make("b", {}, one) : one)));
  }
  return { root, show };
}
