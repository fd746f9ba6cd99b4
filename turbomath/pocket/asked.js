// A question while it is put, as the panel's Python keeps it: what was said, why, what was wrong, the hands of a class.

const MOST_HANDS = 999, CLOSED = { said: "", why: "", now: "", fault: "", unasked: false };

function putQuestion(recorded, sheet, words) {
  let state = { ...CLOSED }, miscount = "", votes = sheet.options.map(() => 0);
  const place = (option) => sheet.options.indexOf(option);
  const heard = {
    answer({ text, why = "" }) {
      state = text in recorded.replies ? { ...state, said: text, why, fault: "" } : { ...state, fault: recorded.unanswered };
    },
    again: () => { state = { ...CLOSED }; },
    "go on": () => { state = { ...state, unasked: true }; },
    now({ text }) { state = { ...state, now: text }; },
    vote({ option, hands }) {
      miscount = /^[0-9]{1,3}$/.test(hands.trim()) ? "" : words.hands;
      if (!miscount) votes[place(option)] = Number(hands);
    },
    hand({ option, more }) { votes[place(option)] = Math.min(Math.max(votes[place(option)] + more, 0), MOST_HANDS); },
  };
  const open = () => Boolean(state.said) || state.unasked;
  const frame = (system) => {
    const outcome = open() ? recorded.outcome[system] : "";
    const { said, why, now, fault } = state;
    return {
      open: open(), said, why, now, fault, outcome, miscount, votes: [...votes], reply: recorded.replies[said] ?? "",
      told: open() ? outcome || recorded.answer : "", right: open() ? recorded.right : [],
    };
  };
  return { heard, open, frame };
}
