// Readings beside the sliders: which run, which of its points, a folder of one's own, what the checks say, the report.

function readings(sheet, id, talk) {
  const button = (words, say) => make("button", { type: "button", onclick: () => talk.say({ say }) }, words);
  const list = (name, message) => {
    const node = make("select", { id: `${id}-${name}`, onchange: () => talk.say(message(node.value)) });
    return { node, root: make("span", { class: "tm-list" }, make("label", { for: node.id }, name), node) };
  };
  const fill = (node, options) => {
    const words = JSON.stringify(options);
    if (node.dataset.words === words) return;
    node.dataset.words = words;
    node.replaceChildren(...options.map(([value, text]) => make("option", { value }, text)));
  };
  const run = list("readings", (key) => {
    form.hidden = key !== sheet.own; // at once, so that the next Tab finds the box, and no point of the run before
    if (!form.hidden) point.root.hidden = true;
    return { say: "run", key };
  });
  const point = list("point", (row) => ({ say: "point", row }));
  const fault = make("p", { class: "tm-fault", id: `${id}-folder-fault`, role: "alert" });
  const box = make("input", {
    type: "text", id: `${id}-folder`, autocomplete: "off", spellcheck: "false", maxlength: 400, "aria-describedby": fault.id,
  });
  const form = make("form", {
    class: "tm-list",
    onsubmit(event) {
      event.preventDefault();
      talk.say({ say: "read", folder: box.value });
    },
  }, make("label", { for: box.id }, "folder"), box, make("button", {}, "read it"));
  const link = make("a", { target: "_blank", rel: "noopener" }, "open the report");
  const written = make("p", { role: "status" }), notes = make("div", { class: "tm-notes" });
  const doing = make("div", { class: "tm-buttons" }, button("set the sliders to this point", "follow"), button("make the report", "report"));
  const show = ({ readings: now }) => {
    fill(run.node, sheet.runs);
    run.node.value = now.run;
    fill(point.node, now.points);
    point.node.value = String(now.row);
    point.root.hidden = !now.points.length;
    doing.firstChild.hidden = now.row === null;
    doing.hidden = !now.notes.length;
    form.hidden = now.run !== sheet.own;
    if (document.activeElement !== box) box.value = now.folder;
    box.toggleAttribute("aria-invalid", Boolean(now.fault));
    write(fault, now.fault ? `! ${now.fault}` : "");
    report(now.written);
    const words = JSON.stringify(now.notes);
    if (notes.dataset.words === words) return;
    notes.dataset.words = words;
    notes.replaceChildren(...now.notes.flatMap(([head, lines]) => [
      make("p", {}, make("b", {}, head)), make("ul", {}, ...lines.map((line) => make("li", {}, line)))]));
  };
  function report(done) {
    link.hidden = !(done && served(done.page));
    written.hidden = !done;
    write(written, done ? `Written: ${done.path}` : "");
    if (!link.hidden) link.href = served(done.page);
  }
  return {
    top: make("div", { class: "tm-readings" }, run.root, point.root, form, fault),
    below: make("div", {}, doing, written, link, notes),
    show,
  };
}

// Where this server shows a page of the work folder; nothing where there is no server.
function served(page) {
  const told = document.getElementById("jupyter-config-data");
  if (!told) return "";
  const { baseUrl, turbomathWork } = JSON.parse(told.textContent);
  return [`${baseUrl}files`, ...`${turbomathWork ?? ""}/${page}`.split("/").filter(Boolean).map(encodeURIComponent)].join("/");
}
