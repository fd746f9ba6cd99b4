// Joins recorded parts into what a panel draws: a case alone, or beside one that was kept. No number is made here.

const KEPT = "kept";
const axisWords = (axis) => (axis.unit ? `${axis.label} [${axis.unit}]` : axis.label);

// Put the points of a picture back into the units of its axes.
function scaled(picture) {
  const by = { x: 10 ** picture.places.x, y: 10 ** picture.places.y };
  const back = (values, axis) => values.map((one) => one / by[axis]);
  const series = picture.series.map((one, turn) => ({
    ...one, x: back(one.x, "x"), y: back(one.y, "y"), low: back(one.low, "y"), high: back(one.high, "y"), trend: picture.trends[turn],
  }));
  return { ...picture, series };
}

// The picture in words: its kinds, its axes with their ends, what each series does. One that says it in its own way is left.
function spoken(picture) {
  if (picture.alt) return picture;
  const kinds = [...new Set(picture.series.map((one) => ({ line: "lines", band: "bands", points: "points with bars" })[one.kind]))];
  const pointed = new Set(picture.series.filter((one) => one.kind === "points").map((one) => one.label));
  const told = picture.series.filter((one) => one.kind !== "line" || !pointed.has(one.label));
  const extent = (name) => `${axisWords(picture[name])} from ${picture.ends[name][0]} to ${picture.ends[name][1]}`;
  const trends = told.map((one) => one.trend).join(" ");
  return { ...picture, alt: `${picture.title}. Chart of ${kinds.join(" and ")}: ${extent("y")} against ${extent("x")}. ${trends}` };
}

function joined(one, other, own) {
  if (!other || !axisWords(one.x)) return one;
  const ghost = (series) => {
    const label = own.length === 1 ? KEPT : `${KEPT}: ${series.label}`;
    return { ...series, label, trend: series.trend && `${series.trend.slice(0, -series.label.length - 1)}${label}.` };
  };
  const axis = (name) => ({ ...one[name], low: Math.min(one[name].low, other[name].low), high: Math.max(one[name].high, other[name].high) });
  const ends = (name) => [(other[name].low < one[name].low ? other : one).ends[name][0], (other[name].high > one[name].high ? other : one).ends[name][1]];
  const ghosts = other.series.filter((series) => own.includes(series.label)).map(ghost);
  return { ...one, x: axis("x"), y: axis("y"), ends: { x: ends("x"), y: ends("y") }, series: [...one.series, ...ghosts] };
}

// Return what is drawn; `hidden` are the labels of series that are drawn only while a control is held.
function drawnCase(mine, kept, hidden) {
  const seen = (one) => !hidden.has(one.label);
  const pictures = mine.pictures.map(scaled).map((one) => ({ ...one, series: one.series.filter(seen) }));
  const old = kept ? kept.pictures.map(scaled) : [];
  const same = (one) => mine.tables.some((other) => JSON.stringify(one) === JSON.stringify(other));
  const before = new Map((kept?.readouts ?? []).map((one) => [one.label, one.text]));
  const engines = [...mine.engines, ...(kept?.engines ?? []).map((one) => ({ ...one, title: `${KEPT}: ${one.title}`, alt: `${KEPT}: ${one.alt}` }))];
  const beside = (kept?.tables ?? []).filter((one) => !same(one)).map((one) => ({ ...one, title: `Kept case. ${one.title}` }));
  return {
    engines, sentence: mine.sentence,
    pictures: pictures.map((one, turn) => spoken(joined(one, old[turn], kept?.own ?? []))),
    readouts: mine.readouts.map((one) => ({ ...one, kept: before.get(one.label) ?? "" })),
    tables: [...mine.tables, ...beside, ...engines.map(({ title, heads, rows }) => ({ title, heads, rows }))],
  };
}
