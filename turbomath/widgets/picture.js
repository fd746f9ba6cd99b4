// Draws a Picture record as SVG: line, band, points with bars, text. Axes and labels as words, marks by role.

const SVG = "http://www.w3.org/2000/svg";
const LETTER = 7.8; // px, about the width of a letter of a label
const BESIDE = 0.4; // the most that labels beside a chart may take of its width
const LINE = 17; // px from one line of words to the next, at least
const LEAST = 600; // px of a picture without axes, whose words are part of it
const OUTSIDE = 1e6, WORD = 1e4, POINT = 100, FAR = 300; // how bad it is for a label to leave the picture, to hide these, to be far off
const MARKS = {
  square: "m-4.5-4.5h9v9h-9z",
  triangle: "m0-6.5 6 11h-12z",
  diamond: "m0-6.5 6 6.5-6 6.5-6-6.5z",
  circle: "m-5 0a5 5 0 1 0 10 0a5 5 0 1 0-10 0z",
  "": "m-1.6 0a1.6 1.6 0 1 0 3.2 0a1.6 1.6 0 1 0-3.2 0z",
};

// One part of a picture, before it stands in it.
const draw = (tag, attributes, text = "") => ({ tag, attributes, text });

// Bring the parts of an SVG from what was drawn to what is to be drawn; what stays as it is costs nothing.
function patch(svg, old, parts) {
  parts.forEach((part, turn) => {
    const before = old[turn];
    if (before?.tag !== part.tag) {
      const node = set(document.createElementNS(SVG, part.tag), part.attributes);
      node.textContent = part.text;
      if (before) svg.children[turn].replaceWith(node);
      else svg.append(node);
      return;
    }
    const node = svg.children[turn];
    for (const name in before.attributes) if (!(name in part.attributes)) node.removeAttribute(name);
    for (const name in part.attributes) if (part.attributes[name] !== before.attributes[name]) node.setAttribute(name, part.attributes[name]);
    if (part.text !== before.text) node.textContent = part.text;
  });
  while (svg.children.length > parts.length) svg.lastElementChild.remove();
}

// Return [value, text] for five or six round numbers along an axis, or as near to that as round numbers come.
function ticks(axis) {
  const power = 10 ** Math.floor(Math.log10((axis.high - axis.low) / 5));
  const choices = [1, 2, 2.5, 5, 10].map((part) => {
    const step = part * power, first = Math.ceil(axis.low / step - 1e-9);
    return { part, step, first, count: Math.floor(axis.high / step + 1e-9) - first + 1 };
  });
  const far = (one) => Math.abs(one.count - 5.5);
  const { part, step, first, count } = choices.reduce((best, one) => (far(one) < far(best) ? one : best));
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) + (part === 2.5 && step < 10 ? 1 : 0);
  return Array.from({ length: count }, (_, turn) => (first + turn) * step).map((value) => [value, real(value, digits)]);
}

function real(value, digits) {
  return value.toFixed(digits).replace(/^-(?=.*[1-9])/, "−").replace("-", "");
}

// Push labels apart along one direction, keeping their order; none leaves low..high while there is room.
function spread(labels, low, high) {
  labels.sort((a, b) => a.at - b.at);
  labels.forEach((one, turn) => {
    const before = labels[turn - 1];
    one.at = Math.max(one.at, before ? before.at + (before.size + one.size) / 2 : low);
  });
  let most = high;
  for (const one of [...labels].reverse()) {
    one.at = Math.min(one.at, most - one.size / 2);
    most = one.at - one.size / 2;
  }
}

// Pixels that the labels need at the ends of their lines, which may take no more than a share of the picture.
const besideLines = (lines) => Math.max(12, ...lines.map((one) => one.label.length)) * (LETTER + 1) + 12;

// The least width in pixels in which no word of a picture is cut; on a narrower screen it is scrolled.
function leastWidth(record) {
  if (!record.x) return 0; // an air path has a drawing of its own for a narrow screen
  return record.x.label ? besideLines(record.series.filter((one) => one.kind === "line")) / BESIDE : LEAST;
}

// Pixels of a picture that is `width` by `height`: margins, and functions from the units of its axes.
function frameOf(record, width, height) {
  const bare = !record.x.label;
  const lines = record.series.filter((one) => one.kind !== "points" && one.x.length);
  const onTop = (one) => one.y.at(-1) >= record.y.high - 1e-9 && one.x.at(-1) < record.x.high - 1e-9;
  const margin = Math.min(besideLines(lines.filter((one) => !onTop(one))), BESIDE * width);
  const box = bare ? { left: 1, right: width - 1, top: 1, bottom: height - 1 }
    : { left: 52, right: width - margin, top: lines.some(onTop) ? 50 : 28, bottom: height - 44 };
  const { x, y } = record, [floor, line] = record.foot ?? [y.low, 0], tall = box.bottom - box.top;
  const below = line ? Math.max(LINE, (line / (y.high - y.low)) * tall) / line : 0; // px a unit below the floor: what is low keeps its lines apart
  const ground = box.bottom - below * (floor - y.low), above = (ground - box.top) / (y.high - floor);
  return {
    ...box, bare, width,
    px: (value) => box.left + ((value - x.low) / (x.high - x.low)) * (box.right - box.left),
    py: (value) => ground - (value - floor) * (value < floor ? below : above),
  };
}

function axes(record, at) {
  const words = (axis) => (axis.unit ? `${axis.label} [${axis.unit}]` : axis.label);
  const along = ticks(record.x), [first, second] = along.map(([value]) => at.px(value));
  const longest = Math.max(...along.map(([, text]) => text.length)), every = Math.ceil((longest * LETTER + 8) / (second - first || 99));
  const upright = along.flatMap(([value, text], turn) => [
    draw("path", { class: "tm-grid", d: `M${at.px(value)} ${at.top}V${at.bottom}` }),
    ...(turn % every ? [] : [draw("text", { x: at.px(value), y: at.bottom + 19, "text-anchor": "middle" }, text)]),
  ]);
  const level = ticks(record.y).flatMap(([value, text]) => [
    draw("path", { class: "tm-grid", d: `M${at.left} ${at.py(value)}H${at.right}` }),
    draw("text", { x: at.left - 7, y: at.py(value) + 5, "text-anchor": "end" }, text),
  ]);
  return [
    ...upright, ...level,
    draw("path", { class: "tm-axis", d: `M${at.left} ${at.top}V${at.bottom}H${at.right}` }),
    draw("text", { class: "tm-axis-name", x: at.right, y: at.bottom + 38, "text-anchor": "end" }, words(record.x)),
    draw("text", { class: "tm-axis-name", x: 2, y: 15 }, words(record.y)),
  ];
}

function drawn(one, at, look) {
  const spot = (x, y) => `${at.px(x).toFixed(1)} ${at.py(y).toFixed(1)}`;
  const path = (x, y) => x.map((value, turn) => (turn ? "L" : "M") + spot(value, y[turn])).join("");
  const own = `tm-${one.kind} tm-role-${one.role} tm-${look.dash}${one.label.startsWith("kept") ? " tm-kept" : ""}`;
  if (one.kind === "line") return [draw("path", { class: own, d: path(one.x, one.y) })];
  if (one.kind === "band") {
    const back = path([...one.x].reverse(), [...one.low].reverse()).replace("M", "L");
    return [draw("path", { class: own, d: `${path(one.x, one.high)}${back}Z` })];
  }
  const bar = (x, turn) => `M${spot(x, one.low[turn])}m-4 0h8m-4 0L${spot(x, one.high[turn])}m-4 0h8`;
  const along = (y, turn) => `M${spot(one.left[turn], y)}m0-4v8m0-4L${spot(one.right[turn], y)}m0-4v8`;
  const mark = at.bare ? MARKS[""] : MARKS[look.marker];
  const ends = [...(one.low.length ? one.x.map(bar) : []), ...(one.left?.length ? one.y.map(along) : [])];
  const bars = ends.length ? [draw("path", { class: `${own} tm-bars`, d: ends.join("") })] : [];
  return [...bars, draw("path", { class: own, d: one.x.map((x, turn) => `M${spot(x, one.y[turn])}${mark}`).join("") })];
}

// Label each series once at its end: lines in the margin beside or above, points where nothing is yet.
function labels(record, at) {
  const parts = [], ends = new Map(), taken = [];
  const label = (one, x, y, anchor) =>
    parts.push(draw("text", { class: `tm-end tm-role-${one.role}`, x, y, "text-anchor": anchor }, one.label));
  for (const one of record.series.filter((each) => each.x.length)) {
    const x = at.px(one.x.at(-1)), y = at.py(one.kind === "band" ? one.high.at(-1) : one.y.at(-1));
    ends.set(one.label, { label: one.label, role: one.role, x, y, points: one.kind === "points" });
    if (one.kind === "points") one.x.forEach((each, turn) => taken.push(around(at, one, turn)));
  }
  taken.push(...record.series.filter((one) => one.kind === "line").flatMap((one) => alongside(at, one)));
  const lines = [...ends.values()].filter((one) => !one.points);
  const onTop = (one) => one.y <= at.top + 0.1 && one.x < at.right - 0.1;
  const above = lines.filter(onTop).map((one) => ({ ...one, at: one.x, size: one.label.length * LETTER + 10 }));
  const aside = lines.filter((one) => !onTop(one)).map((one) => ({ ...one, at: one.y, size: 17 }));
  spread(above, at.left + 40, at.width);
  spread(aside, at.top, at.bottom + 8);
  let used = at.left - 20; // where the margin is too short for all of them, the table twin has the rest
  for (const one of above.filter((each) => each.at - each.size / 2 >= used && (used = each.at + each.size / 2))) {
    label(one, one.at, at.top - 7, "middle");
  }
  for (const one of aside) {
    label(one, at.right + 7, one.at + 5, "start");
    taken.push({ weight: WORD, left: at.right + 7, right: at.right + 7 + one.label.length * LETTER, top: one.at - 8, bottom: one.at + 8 });
  }
  for (const one of [...ends.values()].filter((each) => each.points)) {
    const place = freePlace(one, at, taken);
    taken.push({ ...place.box, weight: WORD });
    label(one, place.x, place.y, place.anchor);
  }
  return parts;
}

// The room that a point takes, with its bar.
function around(at, one, turn) {
  const x = at.px(one.x[turn]), y = at.py(one.y[turn]);
  const ends = one.low.length ? [at.py(one.high[turn]), at.py(one.low[turn])] : [y, y];
  return { owner: one.label, weight: POINT, left: x - 7, right: x + 7, top: Math.min(y - 7, ends[0]), bottom: Math.max(y + 7, ends[1]) };
}

// Spots along a line, a few px apart.
function alongside(at, one) {
  const spots = one.x.map((x, turn) => [at.px(x), at.py(one.y[turn])]);
  return spots.slice(1).flatMap(([x, y], turn) => {
    const [fromX, fromY] = spots[turn], steps = Math.ceil(Math.hypot(x - fromX, y - fromY) / 6);
    return Array.from({ length: steps }, (_, step) => {
      const part = step / steps, here = fromX + part * (x - fromX), level = fromY + part * (y - fromY);
      return { weight: 1, left: here, right: here, top: level, bottom: level };
    });
  });
}

// Of the places around a point, the first that hides least.
function freePlace(one, at, taken) {
  const long = one.label.length * (LETTER + 1); // bold words are a little wider: rather too much room than too little
  const places = [[11, 5, "start"], [-11, 5, "end"], [0, -12, "middle"], [0, 22, "middle"], [11, 22, "start"],
    [-11, -12, "end"], [11, -12, "start"], [-11, 22, "end"], [11, -29, "start", FAR], [11, 39, "start", FAR]].map(([dx, dy, anchor, far = 0]) => {
    const x = one.x + dx, y = one.y + dy, left = x - { start: 0, end: long, middle: long / 2 }[anchor];
    return { x, y, anchor, far, box: { left, right: left + long, top: y - 13, bottom: y + 3 } };
  });
  const apart = (a, b, by) => a.right + by < b.left || a.left - by > b.right || a.bottom + by < b.top || a.top - by > b.bottom;
  const room = ({ owner }) => (owner && owner !== one.label ? 10 : 0); // nearer, and it would seem to be the label of that point
  const hit = (box) => taken.reduce((sum, other) => sum + (apart(box, other, room(other)) ? 0 : other.weight), 0);
  const inside = (box) => box.left > at.left && box.right < at.width && box.top > at.top - 4 && box.bottom < at.bottom;
  const hidden = ({ box, far }) => far + (inside(box) ? 0 : OUTSIDE) + hit(box);
  return places.reduce((best, each) => (hidden(each) < hidden(best) ? each : best));
}

// Return the parts of a picture. One without axes is labelled by its own texts.
function picture(record, marks, width, height) {
  const at = frameOf(record, width, height);
  const texts = record.texts.map((one) => draw("text", { x: at.px(one.x), y: at.py(one.y) }, one.words));
  const forms = record.series.filter((one) => one.x.length).flatMap((one) => drawn(one, at, marks[one.role]));
  return [...(at.bare ? [] : axes(record, at)), ...forms, ...(at.bare ? [] : labels(record, at)), ...texts];
}
