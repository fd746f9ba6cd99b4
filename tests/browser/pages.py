"""What the browser tests ask of a page."""

PATIENCE = 60_000  # ms; a busy machine starts Python slowly


def state(page, word, timeout=PATIENCE):
    """Wait until the notebook is in the state *word*: live, starting, stranger, restarting, dead, unreachable, ..."""
    page.wait_for_selector(f'.jp-NotebookPanel[data-turbomath="{word}"]', timeout=timeout)


def live(page, timeout=PATIENCE):
    """Wait until the lesson has run to its end and Python answers."""
    state(page, "live", timeout)


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
