// Unpacks what `columns.py` has packed: a template, and columns of whole numbers, each told by what is added from frame to frame.

const TEXT = 0, LIST = 1, TABLE = 2, NUMBERS = 3, PLACE = "\u0001", FAR = -128;

async function inflated(text) {
  const bytes = Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

// Return the head with `frame(turn)`, all of one frame, and `numbers(name)`, the columns of a list of whole numbers.
async function unpacked(text) {
  const buffer = await inflated(text), size = new DataView(buffer).getUint32(0, true);
  const head = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, 4, size)));
  const far = new Int32Array(buffer, 4 + size, head.far), near = new Int8Array(buffer, 4 + size + 4 * head.far);
  let here = 0, aside = 0;
  const columns = head.orders.map((order) => {
    const column = new Int32Array(head.count);
    let move = 0;
    for (let turn = 1; turn < head.count; turn++) {
      const one = near[here++], more = one === FAR ? far[aside++] : one;
      move = order === 2 ? move + more : more;
      column[turn] = column[turn - 1] + move;
    }
    return column;
  });
  const sentences = head.sentences.map((one) => one.split(PLACE));
  const number = (from, turn) => (typeof from === "number" ? from : columns[from[0]][turn] + from[1]);
  function filled([first, ...rest], slots, turn) {
    const said = rest.map((piece, place) => {
      const decimals = Number(piece[0]), digits = String(number(slots[place], turn)).padStart(decimals + 1, "0"), point = digits.length - decimals;
      return (decimals ? `${digits.slice(0, point)}.${digits.slice(point)}` : digits) + piece.slice(1);
    });
    const text = first + said.join("");
    return text[0] === "s" ? text.slice(1) : JSON.parse(text.slice(1));
  }
  function at([kind, first, second, third], turn) {
    if (kind === TEXT) return filled(sentences[number(first, turn)], second, turn);
    if (kind === TABLE) return Object.fromEntries(Object.entries(first).map(([name, one]) => [name, at(one, turn)]));
    if (kind === LIST) return second.slice(0, number(first, turn)).map((one) => at(one, turn));
    if (kind !== NUMBERS) return first;
    const values = second.slice(0, number(first, turn));
    for (const [place, from] of third) if (place < values.length) values[place] = number(from, turn);
    return values;
  }
  function numbers(name) {
    const [, , fixed, moving] = head.frame[1][name], found = new Map(moving);
    return fixed.map((one, place) => Int32Array.from({ length: head.count }, (_, turn) => (found.has(place) ? number(found.get(place), turn) : one)));
  }
  let last = {};
  const frame = (turn) => (last.turn === turn ? last : (last = { turn, whole: at(head.frame, turn) })).whole; // asked for twice a message
  return { ...head, at: frame, numbers };
}
