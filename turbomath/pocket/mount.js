// Brings a page to life: each panel gets its record, and shows its still picture where that cannot be unpacked.

const pocketWords = JSON.parse(document.getElementById("words").textContent);

async function mount(place) {
  const record = JSON.parse(document.getElementById(`${place.id}-record`).textContent);
  const packed = record.packed ? await unpacked(record.packed) : null;
  const model = recordedModel(record, packed, pocketWords);
  place.addEventListener("keydown", (event) => { if (event.key === "p" && !event.target.matches("[type=text]")) event.stopPropagation(); }, true);
  place.model = model; // a test asks it what it would draw
  render({ model, el: place });
  place.parentElement.querySelector(".still")?.remove();
}

for (const place of document.querySelectorAll(".live")) {
  mount(place).catch(() => { place.textContent = pocketWords.old; });
}
const shade = document.getElementById("shade");
shade.hidden = false;
shade.addEventListener("click", () => {
  const dark = getComputedStyle(document.documentElement).getPropertyValue("--dark").trim() !== "1";
  document.documentElement.dataset.light = dark ? "dark" : "light";
  document.body.dataset.jpThemeLight = String(!dark);
});
