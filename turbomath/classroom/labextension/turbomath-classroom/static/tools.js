/* What stands above a lesson: all lessons, the one before and the one after, begin again, on the wall, show code. */
import { Lesson } from "./lesson.js";

export function tools(commands, tracker, { Widget, order, home, base, own }, named) {
  const widget = new Widget(), node = widget.node;
  widget.id = "turbomath-tools";
  const link = () => node.appendChild(document.createElement("a"));
  const button = (command) => {
    const made = node.appendChild(document.createElement("button"));
    made.type = "button";
    made.addEventListener("click", () => commands.execute(command, {}));
    return made;
  };
  const all = link(), before = link(), after = link();
  const gap = node.appendChild(document.createElement("span"));
  const again = button(named.again), wall = button(named.present), code = button(named.code);
  gap.className = "turbomath-gap";
  wall.className = code.className = "turbomath-large"; // a phone has no room for them
  all.textContent = "all lessons";
  all.href = `${base}${home}`;
  const lead = (to, name, words) => {
    to.hidden = !name;
    to.textContent = words;
    if (name) to.href = `${base}${home}/open/${name}`;
  };
  const refresh = () => {
    const lesson = Lesson.of(tracker.currentWidget), place = order.indexOf(lesson?.name);
    const short = (name) => name?.replace(/_.*/, "");
    lead(before, order[place - 1], `‹ ${short(order[place - 1])}`);
    lead(after, place < 0 ? "" : order[place + 1], `${short(order[place + 1])} ›`);
    before.setAttribute("aria-label", `the lesson before: ${order[place - 1]}`);
    after.setAttribute("aria-label", `the next lesson: ${order[place + 1]}`);
    again.textContent = commands.label(named.again);
    wall.textContent = `${commands.label(named.present)} (p)`;
    code.textContent = commands.label(named.code);
    code.title = "the key F2 does the same";
    again.hidden = !commands.isEnabled(named.again, {});
    wall.hidden = !commands.isEnabled(named.present);
    code.hidden = !commands.isEnabled(named.code);
    document.body.classList.toggle("turbomath-reading", Boolean(lesson?.reading));
    widget.setHidden(!own && !lesson);
  };
  commands.commandChanged.connect((_, change) => change.id === named.code && refresh());
  tracker.currentChanged.connect(() => commands.notifyCommandChanged(named.code));
  refresh();
  return widget;
}
