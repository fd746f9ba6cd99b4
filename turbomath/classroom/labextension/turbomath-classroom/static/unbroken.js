/* No line of a lesson's words parts a number from its unit. *apart* is the pattern of what must not stand alone. */
export function unbroken(node, apart) {
  for (const words of textsOf(node)) {
    const whole = words.data.replace(apart, (found) => found.replaceAll(" ", "\u00a0"));
    if (whole !== words.data && !words.parentElement.closest("code")) words.data = whole;
  }
}

function* textsOf(node) {
  const walker = document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) yield walker.currentNode;
}
