// Draws an air path record as SVG: lines, crowds of dots, words. It works out where each dot stands and nothing else.

const SPREAD_X = 0.7548776662466927, SPREAD_Y = 0.5698402909980532, TURN = 0.618033988749895; // no two dots meet, however many there are

// Nobody stands in rank and file: each dot is a little off its place. A dot is a line of no length with a round end; a hot one has a length, its tail.
function crowd(one, dot) {
  const [[ax, ay], [bx, by], [cx, cy], [dx, dy]] = one.corners;
  let path = "";
  for (let turn = one.first; turn < one.first + one.count; turn++) {
    const along = (0.5 + turn * SPREAD_X) % 1, down = (0.5 + turn * SPREAD_Y) % 1;
    const x = (1 - along) * ((1 - down) * ax + down * bx) + along * ((1 - down) * dx + down * cx);
    const y = (1 - along) * ((1 - down) * ay + down * by) + along * ((1 - down) * dy + down * cy);
    const angle = 2 * Math.PI * ((turn * TURN) % 1), loose = 0.5 * dot;
    path += `M${(x + loose * Math.sin(5 * angle)).toFixed(1)} ${(y + loose * Math.sin(7 * angle)).toFixed(1)}l${(one.tail * Math.cos(angle)).toFixed(1)} ${(one.tail * Math.sin(angle)).toFixed(1)}`;
  }
  const [from, to, share] = one.colour <= 1 ? ["cooled", "hot", one.colour] : ["hot", "fire", one.colour - 1];
  return draw("path", {
    class: one.quiet ? "tm-crowd tm-still" : "tm-crowd", d: path, "stroke-width": dot,
    style: `stroke: color-mix(in oklab, var(--tm-${to}) ${Math.round(100 * share)}%, var(--tm-${from}))`,
  });
}

// Return [parts, width, height] of an air path where there are so many px for it.
function airPath(record, room) {
  const laid = room < 600 ? record.narrow : record.wide;
  const still = (one) => (one.quiet ? " tm-still" : "");
  const lines = laid.lines.map((one) => draw("path", { class: `tm-${one.weight}${still(one)}`, d: one.d }));
  const words = laid.words.map((one) => draw("text", {
    class: `tm-plate-${one.sort}${still(one)}`, x: one.x, y: one.y, "text-anchor": one.anchor, style: `font-size: ${one.size}px`,
  }, one.text));
  return [[...laid.crowds.map((one) => crowd(one, laid.dot)), ...lines, ...words], ...laid.size];
}
