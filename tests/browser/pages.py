"""What the browser tests ask of a page."""

import re

PATIENCE = 60_000  # ms; a busy machine starts Python slowly
KEYS = ("x", "d", "d", "b", "m", "0", "0", "Escape")  # in the notebook they delete, insert and restart
WHOLE, NARROW = {"width": 1366, "height": 768}, {"width": 683, "height": 384}  # 200 % leaves half of it each way
PHONE = {"width": 390, "height": 844}


def state(page, word):
    """Wait until the notebook is in the state *word*: live, starting, stranger, restarting, dead, unreachable, ..."""
    page.wait_for_selector(f'.jp-NotebookPanel[data-turbomath="{word}"]')


def live(page):
    """Wait until the lesson has run to its end and Python answers."""
    state(page, "live")


def sentence(page):
    """Return what the bar above the notebook says."""
    return page.locator(".turbomath-bar p").text_content()


def cells(page):
    """Return [kind, source] of each cell as the page holds them now, saved or not."""
    return page.evaluate(
        "window.jupyterapp.shell.currentWidget.model.toJSON().cells.map(cell => [cell.cell_type, cell.source])"
    )


def leaving(requests):
    """Return the requests that would leave this machine."""
    own = ("http://127.0.0.1:", "ws://127.0.0.1:", "data:", "blob:")
    return [address for address in requests if not address.startswith(own)]


def pop_ups(page):
    """Return how many windows and notices cover the page."""
    return page.locator("dialog, .jp-Dialog, .Toastify__toast").count()


def afresh(page):
    """Begin the lesson again, so that every panel is as at the start; return the page, at its top."""
    page.set_viewport_size(WHOLE)
    page.keyboard.press("Escape")
    count = page.locator(".tm").count()
    page.evaluate("""async () => {
      document.querySelectorAll('.tm').forEach((node) => { node.dataset.old = 'yes'; });
      await window.jupyterapp.commands.execute('turbomath:again', {sure: true});
      window.jupyterapp.shell.currentWidget.content.outerNode.scrollTop = 0;
    }""")
    page.wait_for_function(
        """count => document.querySelectorAll('.tm').length === count
      && !document.querySelector('.tm[data-old]')""",
        arg=count,
        timeout=PATIENCE,
    )
    return page


def panel(page, number=0):
    """Return the panel of that number."""
    return page.locator(".tm").nth(number)


def told(page, pattern, number=0):
    """Wait until the sentence of a panel matches."""
    words = re.compile(pattern.replace(" ", r"\s"))  # some spaces hold a number to its unit
    panel(page, number).locator(".tm-sentence").filter(has_text=words).wait_for()


def otherwise(locator, before):
    """Wait until the words of a place are others than *before*."""
    locator.page.wait_for_function("([node, old]) => node.innerText !== old", arg=[locator.element_handle(), before])


def slider(page, name, number=0):
    """Return the slider of a quantity."""
    return panel(page, number).get_by_role("slider", name=name, exact=True)


def box(page, name, number=0):
    """Return the number box of a quantity."""
    return panel(page, number).get_by_role("textbox", name=f"{name}, number")


def choose(page, label, option, number=0):
    """Pick one option of a list."""
    panel(page, number).get_by_label(label, exact=True).select_option(option)


def enter(page, name, text, number=0):
    """Type a number and send it by Enter."""
    box(page, name, number).fill(text)
    box(page, name, number).press("Enter")


def button(page, name, number=0):
    """Return the button with that name."""
    return panel(page, number).get_by_role("button", name=name)


def said(page, number=0):
    """Return where the sentence of a panel stands."""
    return panel(page, number).locator(".tm-sentence")


def readouts(page, number=0):
    """Return the numbers under the sentence, each as text with its ±."""
    texts = panel(page, number).locator(".tm-readouts b").all_inner_texts()
    return [text.replace("\xa0", " ") for text in texts]


def at_top(page, number=0):
    """Scroll until a panel begins at the top."""
    panel(page, number).evaluate("node => node.scrollIntoView()")
    painted(page)


def tab_to(control, key="Tab"):
    """Press Tab until the control has the focus."""
    for _ in range(99):
        control.page.keyboard.press(key)
        if control.evaluate("node => node === document.activeElement"):
            return
    raise AssertionError(f"{key} does not lead to {name_of(control)}")


def painted(page):
    """Wait until what was changed is laid out and drawn."""
    page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")


def settled(page):
    """Wait until Python has answered all that was done, and the answers are drawn."""
    page.evaluate(SETTLED)


def plain(locator):
    """Return its words with plain spaces."""
    return locator.inner_text().replace("\xa0", " ")


def parted(locator):
    """Return what stands where a line may end between a number and its unit."""
    units = r"\d (?:°|%|psi|kPa|inHg|inH2O|hp|kW|ft|m|lb|F°|C°)(?![a-z])"
    return [found for words in locator.all_text_contents() for found in re.findall(units, words)]


def in_sight(page, locator):
    """Whether the whole of it lies in the window."""
    box = locator.bounding_box()
    size = page.viewport_size
    return box["y"] >= 0 and box["y"] + box["height"] <= size["height"] and box["x"] + box["width"] <= size["width"]


def serious(page, within=".tm"):
    """Return what axe finds in the panels, or elsewhere, that a screen reader or a reader who sees badly cannot use."""
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page, context=within).response
    assert len(found["passes"]) > 10
    worst = ("serious", "critical")
    return [(one["id"], one["nodes"][0]["html"]) for one in found["violations"] if one["impact"] in worst]


def nameless_or_unseen(controls):
    """Return which of the controls, reached by keyboard, have no name or no outline of 2 px or more."""
    controls.page.keyboard.press("Shift")  # the last doing was by keyboard, so the focus is shown
    return controls.evaluate_all(NAMELESS_OR_UNSEEN, NAMED)


def name_of(control):
    """Return by what words the control is known."""
    return control.evaluate(NAMED).strip()


def cut(page, number=0):
    """Return the words that do not fit into the panel of that number."""
    return page.evaluate(CUT, number)


def overlaps(page):
    """Return the pairs of words that lie on each other in the pictures of any panel."""
    return page.evaluate(OVERLAPS)


def sized(page, size):
    """Give the window that size and wait until the page has taken it."""
    page.set_viewport_size(size)
    page.wait_for_function("width => innerWidth === width", arg=size["width"])
    painted(page)


def shifted(page):
    """Return the layout shift since the page was opened, without what its reader did: Layout Instability, W3C draft."""
    return page.evaluate(SHIFTED)


def on_one_screen(page, *places):
    """Scroll to the first of these places and return whether all of them lie in the window then."""
    top = min(places, key=lambda place: place.bounding_box()["y"])
    top.evaluate("node => node.scrollIntoView()")
    painted(page)
    return all(in_sight(page, place) for place in places)


def fits(page, case, pictured):
    """Whole and at 200 %, nothing is cut in any panel and no words of a picture lie on each other; picture it."""
    for size, zoom in ((NARROW, "zoom"), (WHOLE, "whole")):
        sized(page, size)
        found = [words for number in range(page.locator(".tm").count()) for words in cut(page, number) if words]
        assert found == [], (case, zoom)
        lying = overlaps(page)
        assert lying == [], (case, zoom, lying)
        pictured(page, f"{case}_{zoom}")


NAMED = """node => node.ariaLabel || [...(node.labels || [])].map((label) => label.innerText).join(' ')
  || node.innerText"""
SETTLED = """async () => {
  const kernel = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel;
  const drawn = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  const seen = () => [...document.querySelectorAll('.tm')].map((node) => node.innerHTML).join('');
  let before;
  do {
    before = seen();  // what was sent before this request is answered before it
    await kernel.requestExecute({code: '', silent: true, store_history: false}).done;
    await drawn();
  } while (seen() !== before);
}"""
SHIFTED = """() => new Promise((done) => {
  let sum = 0;
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) sum += one.hadRecentInput ? 0 : one.value;
  }).observe({ type: 'layout-shift', buffered: true });
  setTimeout(() => done(sum), 100);
})"""
NAMELESS_OR_UNSEEN = """(controls, named) => controls.filter((control) => {
  control.focus();
  const { outlineStyle, outlineWidth } = getComputedStyle(control);
  return !eval(named)(control).trim() || outlineStyle !== 'solid' || parseFloat(outlineWidth) < 2;
}).map((control) => control.outerHTML)"""
CUT = """(number) => {
  const panel = document.querySelectorAll('.tm')[number], outer = panel.getBoundingClientRect(), cut = [];
  const parts = 'p, label, legend, button, input, dt, dd, svg text, figcaption, .tm-held';
  for (const node of panel.querySelectorAll(parts)) {
    const box = node.getBoundingClientRect();
    if (!box.width || node.closest('.tm-unseen, .tm-scrolled')) continue;
    const hides = getComputedStyle(node).overflowX !== 'visible' && !node.matches('input');
    const cropped = hides && node.scrollWidth > node.clientWidth + 1;
    if (box.left < outer.left - 1 || box.right > outer.right + 1 || cropped) cut.push(node.textContent);
  }
  return cut;
}"""
OVERLAPS = """() => {
  const found = [];
  for (const svg of document.querySelectorAll('.tm svg')) {
    const grown = svg.getScreenCTM()?.a ?? 1; // on a wall, of a drawing that is enlarged as a whole
    const texts = [...svg.querySelectorAll('text')].map((node) => [node.textContent, node.getBoundingClientRect()]);
    texts.forEach(([one, a], turn) => texts.slice(turn + 1).forEach(([other, b]) => {
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > 1 && high > 4 * grown) found.push(`${one} | ${other}`);
    }));
  }
  return found;
}"""
