// What a sheet on a phone does: it looks whether an answer can be read, keeps what is typed, and saves answers.json.

const { head, fields, questions, words } = JSON.parse(document.getElementById("record").textContent);
const form = document.getElementById("answers"), said = document.getElementById("said"), drafts = `turbomath ${head.sheet}`;
const FIGURES = /^[+-]? ?(?:(?:\d+|[1-9]\d{0,2}([, ])\d{3}(?:\1\d{3})*)?(?:[.,]\d*)?)(?:[eE][+-]?\d{1,2})?$/, TWO_WAYS = /^[+-]? ?[1-9]\d{0,2},\d{3}$/;
const fill = (sentence, places) => sentence.replace(/\{(\w+)\}/g, (_, name) => places[name]);
let unsaved = false;

const section = (question) => form.querySelector(`[data-question="${question}"]`);
const box = (question, part) => section(question).querySelector(`[data-part="${part}"]`);
const remarkOf = (question) => section(question).querySelector(".remark");

// Return [answer, unit] as they stand in a box, or the letter that is chosen.
function written(place) {
  const letter = place.querySelector("[type=radio]:checked");
  if (place.matches("fieldset")) return [letter ? letter.value : "", ""];
  return [place.querySelector("input").value.trim(), place.querySelector("select")?.value ?? ""];
}
function fault(place) {
  const [answer, unit] = written(place), chooses = place.querySelector("select");
  const typed = answer.replace(/[−–]/g, "-").replace(/[\u00a0\u202f\u2009]/g, " ");
  if (!answer) return unit ? words.no_answer : "";
  if (TWO_WAYS.test(typed)) return words.two_ways;
  if (!/\d/.test(typed) || !FIGURES.test(typed)) return words.no_number;
  return chooses && !unit ? words.no_unit : "";
}
function look(place) {
  if (!place || place.matches("fieldset")) return "";
  return place.querySelector(".fault").textContent = fault(place);
}
function content() {
  const entries = [];
  for (const [question, parts] of questions) {
    let remark = remarkOf(question).value.trim();
    for (const part of parts) {
      const [answer, unit] = written(box(question, part));
      if (!answer && !remark) continue;
      const values = [question, part, answer, unit, remark];
      entries.push(Object.fromEntries(fields.map((name, turn) => [name, values[turn]])));
      remark = "";
    }
  }
  return { ...head, answers: entries };
}
const text = () => `${JSON.stringify(content(), null, 1)}\n`;

function keep() {
  document.getElementById("text").value = text();
  try { localStorage.setItem(drafts, text()); } catch { /* a browser that keeps nothing: it stands in the page */ }
}
// Put entries into boxes that are empty; what is there was typed later and stays. What this sheet does not ask is passed over.
function takeUp(entries) {
  const asks = new Set(questions.flatMap(([question, parts]) => parts.map((part) => JSON.stringify([question, part]))));
  for (const { question, part, answer, unit, remark } of entries.filter((one) => asks.has(JSON.stringify([one.question, one.part])))) {
    const place = box(question, part), first = remarkOf(question);
    if (remark && !first.value) first.value = remark;
    const [there] = written(place), letter = [...place.querySelectorAll("[type=radio]")].find((one) => one.value === answer);
    if (there || !answer) continue;
    if (letter) letter.checked = true;
    else if (!place.matches("fieldset")) {
      place.querySelector("input").value = answer;
      const chooses = place.querySelector("select");
      if (chooses && unit && ![...chooses.options].some((one) => one.value === unit)) chooses.add(new Option(unit));
      if (chooses) chooses.value = unit;
    }
    look(place);
  }
  keep();
}
form.addEventListener("input", (event) => {
  if (event.target.id === "again") return;
  unsaved = true;
  said.textContent = words.unsaved;
  keep();
});
form.addEventListener("change", (event) => look(event.target.closest("[data-part]")));
form.addEventListener("submit", (event) => {
  event.preventDefault();
  const places = [...form.querySelectorAll("[data-part]")], filled = places.filter((one) => written(one)[0]).length;
  const count = places.filter(look).length, link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text()], { type: "application/json" }));
  link.download = "answers.json";
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  unsaved = false;
  keep();
  said.textContent = fill(words.saved, { filled, boxes: places.length, faults: count ? fill(words.some_open, { count }) : words.none_open });
});
document.getElementById("again").addEventListener("change", async ({ target }) => {
  try {
    const found = JSON.parse(await target.files[0].text());
    if (found.sheet !== head.sheet || found.schema !== head.schema) said.textContent = words.other_sheet;
    else {
      takeUp(found.answers);
      said.textContent = words.taken_up;
    }
  } catch { said.textContent = words.not_read; }
  target.value = "";
});
window.addEventListener("beforeunload", (event) => { if (unsaved) event.preventDefault(); });

try {
  const before = JSON.parse(localStorage.getItem(drafts) ?? "null");
  if (before?.answers.length) {
    takeUp(before.answers);
    said.textContent = words.kept;
  }
} catch { /* nothing was kept here, or it is no draft of this page */ }
keep();
