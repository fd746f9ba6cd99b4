// The first page of the live lab: the run-up record, a grid for each part of it, opened and filled in by keyboard.
// `make` and `write` come from the files joined with this one, `readingsGrid` from the live lab's.

function runUpRecord(id, talk, cautions) {
  const summary = make("summary"), lead = make("p"), body = make("div", { class: "tm-record-body" }), said = make("p", { role: "status" });
  const about = make("p", { class: "tm-about", id: `${id}-record-about`, role: "status" }), caution = make("p", { class: "tm-about", role: "status" });
  const line = make("p", { class: "tm-recorded", role: "status" });
  const save = make("button", { type: "button", onclick: () => talk.say({ say: "save record again" }) }, "save again");
  const root = make("details", { class: "tm-record", open: globalThis.turbomathRecordIsOpen, ontoggle: () => { globalThis.turbomathRecordIsOpen = root.open; } }, summary, lead, make("p", { class: "tm-list" }, line, save), body, about, caution, said);
  let grids = [], shape = "", last = null, timer = 0;
  const say = (message) => {
    talk.say({ ...message, say: "settle" });
    clearTimeout(timer);
    timer = setTimeout(() => talk.say({ say: "look over" }), WORK);
  };
  const told = (rows) => (box) => {
    const hazard = rows()[box.row]?.[3];
    write(about, `${box.head}: ${box.words || "empty"}`);
    write(caution, hazard ? `Caution. ${hazard}: ${cautions[hazard]}` : "");
  };
  function count() {
    const waiting = last.unsaved || grids.reduce((all, one) => all + one.grid.waiting(), 0);
    write(line, waiting ? `${waiting} NOT SAVED, ${last.saved} saved.` : last.saved ? `${last.saved} saved. All is on the disk.` : "Nothing answered yet.");
  }
  function build(frame) {
    grids = frame.grids.map((one, turn) => {
      const now = { frame: one };
      const past = (down) => grids[turn + down]?.grid.enter(down);
      now.grid = readingsGrid(`${id}-record`, say, told(() => now.frame.rows), count, { past, corner: "", named: (words, head) => `${head}, ${words}`, caption: one.title });
      return now;
    });
    body.replaceChildren(...grids.flatMap((one) => [make("h3", {}, one.frame.title), one.grid.root]));
  }
  function show(frame) {
    last = frame;
    const now = JSON.stringify([frame.key, frame.grids.map((one) => [one.columns, one.rows])]);
    if (shape !== now) build(frame);
    shape = now;
    write(summary, frame.head);
    write(lead, frame.lead);
    write(said, frame.said);
    save.hidden = !frame.unsaved;
    grids.forEach((one, turn) => {
      one.frame = frame.grids[turn];
      one.grid.show({ ...one.frame, key: frame.key });
    });
    count();
  }
  return { root, show, stop: () => clearTimeout(timer) };
}
