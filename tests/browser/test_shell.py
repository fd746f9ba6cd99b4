"""The lesson shell: opens by itself, is safe from a keystroke, comes back to life, and runs nobody else's code."""

import json
import shutil
import time

import pytest

from tests.browser.pages import (
    PATIENCE,
    WHOLE,
    cells,
    leaving,
    live,
    painted,
    panel,
    pop_ups,
    sentence,
    settled,
    sized,
    state,
)
from tests.classroom.served import lesson, served

NOTE = (
    "This notebook is not one of the shipped lessons, so it was not run. "
    "Read it first; to run it choose Run > Run All Cells."
)
# No z among them: it undoes, and would hide what the others did.
KEYS = ("b", "x", "x", "d", "d", "m", "0", "0", "Escape", "a", "r", "Shift+Enter", "Control+Enter")


NAME, OWN = "90_box", "92_box"  # the page that the tests share, and one of a test's own with the same lesson


@pytest.fixture
def box(shared_lesson):
    page = shared_lesson
    sized(page, WHOLE)
    page.keyboard.press("Escape")
    page.evaluate("window.jupyterapp.commands.execute('notebook:run-all-cells')")
    answer(page, "twice is 6")
    return page


@pytest.fixture
def own_box(open_lesson):
    page = open_lesson(OWN)
    answer(page, "twice is 6")
    return page


def number(page):
    return page.locator(".jp-Notebook input[type=number]")


def enter(page, value):
    number(page).fill(str(value))
    number(page).press("Enter")


def answer(page, words):
    page.locator(".answer", has_text=words).wait_for()


def test_a_lesson_opens_by_itself_live_with_nothing_in_the_way(own_box, requests, screenshot):
    box = own_box
    assert sentence(box) == ""
    assert box.get_by_text("second 42").is_visible()
    enter(box, 7)
    answer(box, "twice is 14")
    assert pop_ups(box) == 0
    assert not box.locator(".jp-SideBar").first.is_visible()
    assert box.title().startswith(OWN)
    assert len(requests) > 10
    assert leaving(requests) == []
    screenshot(box, "shell_live")


def test_the_code_is_out_of_sight_and_one_named_button_away(box, screenshot):
    code = box.get_by_text("import ipywidgets")
    assert not code.is_visible()
    box.get_by_role("button", name="Show code").click()
    code.wait_for()
    screenshot(box, "shell_code")
    assert box.get_by_role("button", name="Show code").count() == 0
    button = box.get_by_role("button", name="Hide code")
    button.focus()
    box.keyboard.press("Enter")
    box.get_by_role("button", name="Show code").wait_for()
    assert not code.is_visible()


def test_in_a_lesson_there_are_no_menus_and_one_key_brings_them_with_the_code(box):
    menus, code = box.locator("#jp-MainMenu"), box.get_by_text("import ipywidgets")
    assert not menus.is_visible()
    assert not box.locator("#jp-top-panel").is_visible()
    box.locator(".jp-Notebook h1").click()
    box.keyboard.press("F2")
    menus.wait_for()
    code.wait_for()
    box.get_by_role("button", name="Hide code").click()
    menus.wait_for(state="hidden")
    number(box).fill("1e1")
    number(box).press("Enter")
    answer(box, "twice is 20")
    assert not menus.is_visible()


def press_all(page, place):
    page.locator(f".jp-Notebook {place}").first.click()
    for key in KEYS:
        page.keyboard.press(key)
    settled(page)


def test_no_key_changes_the_notebook(box):
    before = cells(box)
    for place in ("input", ".noUi-handle", "p.answer", ".jp-MarkdownOutput h1", ".jp-OutputArea pre"):
        press_all(box, place)
        assert cells(box) == before, place
        assert pop_ups(box) == 0, place
    box.locator(".jp-MarkdownOutput h1").dblclick()
    box.keyboard.type("words that must not get in")
    assert cells(box) == before
    assert not box.locator(".jp-Notebook .cm-content").first.is_visible()
    answer(box, "twice is")


def test_with_the_code_shown_a_control_still_keeps_its_keys_and_a_contributor_can_edit(own_box):
    box = own_box
    box.get_by_role("button", name="Show code").click()
    before = cells(box)
    for place in ("input[type=number]", ".noUi-handle"):
        press_all(box, place)
        assert cells(box) == before, place
        assert pop_ups(box) == 0, place
    box.locator(".jp-InputPrompt").last.click()
    box.keyboard.press("b")
    box.wait_for_function(
        "count => window.jupyterapp.shell.currentWidget.model.cells.length === count", arg=len(before) + 1
    )


def saved_from(page, copy):
    """Save with the keyboard and wait until the file on disk is a new one."""
    before = copy.stat().st_mtime_ns
    with page.expect_response(lambda answer: answer.request.method == "PUT" and copy.stem in answer.url):
        page.keyboard.press("Control+s")
    assert copy.stat().st_mtime_ns != before


def test_saving_from_inside_a_control_still_saves(box, classroom):
    copy = classroom.work / "90_box.ipynb"
    number(box).click()
    saved_from(box, copy)
    saved = json.loads(copy.read_text(encoding="utf-8"))
    assert [["".join(cell["source"])] for cell in saved["cells"]] == [[source] for _, source in cells(box)]
    assert any(cell.get("outputs") for cell in saved["cells"])


@pytest.mark.parametrize(
    ("reach", "rule"),
    [
        ("fetch('http://127.0.0.1:9/').catch(() => {})", "connect-src"),
        ("new Image().src = 'http://127.0.0.1:9/told'", "img-src"),
        ("import('http://127.0.0.1:9/code.js').catch(() => {})", "script-src-elem"),
    ],
)
def test_what_a_page_shows_reaches_no_other_machine(box, reach, rule):
    stopped = "addEventListener('securitypolicyviolation', (event) => done(event.effectiveDirective), { once: true })"
    assert box.evaluate(f"() => new Promise((done) => {{ {stopped}; {reach}; }})") == rule


def test_after_a_crash_it_says_so_and_is_live_again(box, classroom, screenshot):
    enter(box, 7)
    answer(box, "twice is 14")
    for count in (1, 2):
        box.evaluate(
            "window.seen = 0; new MutationObserver(() => "
            "window.seen += document.querySelectorAll('dialog').length)"
            ".observe(document.body, {childList: true}); "
            "const bar = document.querySelector('.turbomath-bar p'); window.told = []; "
            "new MutationObserver(() => window.told.push(bar.textContent))"
            ".observe(bar, {childList: true, characterData: true, subtree: true})"
        )
        classroom.kill_kernels(NAME)
        box.wait_for_function("window.told.some(said => said.includes('Python stopped'))")
        assert box.locator(".turbomath-bar p").get_attribute("role") == "status"
        screenshot(box, "shell_crash")
        live(box)
        assert sentence(box) == ""
        enter(box, 10 * count)
        answer(box, f"twice is {20 * count}")
        assert box.evaluate("window.seen") == 0
    assert pop_ups(box) == 0


def test_when_python_was_shut_down_it_says_so_and_how_to_go_on(own_box, classroom):
    box = own_box
    classroom.end_sessions(OWN)
    state(box, "dead")
    assert sentence(box).endswith("Choose Kernel > Restart Kernel and Run All Cells.")
    box.get_by_role("menuitem", name="Kernel", exact=True).click()  # the sentence brought the menus back
    box.get_by_role("menuitem", name="Restart Kernel and Run All Cells").click()
    live(box)
    enter(box, 8)
    answer(box, "twice is 16")


def test_when_the_server_is_gone_it_says_what_to_do(open_address, lessons_folder, tmp_path, screenshot):
    with served(lessons_folder, tmp_path / "work") as classroom:
        page = open_address(classroom.lesson("90_box"))
        live(page)
    state(page, "unreachable")
    assert sentence(page).endswith("start it again: turbomath lessons")
    page.wait_for_event("requestfailed", lambda request: request.method == "PUT")  # it tries to save
    painted(page)
    assert pop_ups(page) == 0
    screenshot(page, "shell_no_server")


def test_on_a_slow_pc_nothing_is_seen_before_the_first_panel_stands(open_address, classroom, lessons_folder):
    shutil.copy(lessons_folder / "03_hot_air_is_thin.ipynb", classroom.work)
    page = open_address("about:blank")
    page.route("**/api/sessions*", lambda route: (time.sleep(3), route.continue_()))  # longer than a layout takes
    page.goto(classroom.lesson("03_hot_air_is_thin"))
    page.wait_for_function("document.querySelector('.turbomath-quiet') && !document.querySelector('.turbomath-shut')")
    assert panel(page).is_visible()
    classroom.end_sessions("03_hot_air_is_thin")


def test_when_python_cannot_be_started_it_says_so_and_is_not_called_live(open_address, classroom, screenshot):
    page = open_address("about:blank")
    page.route("**/api/sessions*", lambda route: route.fulfill(status=500, body="{}"))
    page.goto(classroom.lesson("90_box"))
    state(page, "none")
    assert sentence(page).startswith("Python could not be started")
    screenshot(page, "shell_no_python")


def canary(folder):
    return f"from pathlib import Path; Path({str(folder / 'CANARY')!r}).touch()"


def altered(folder):
    """Return name -> notebook: files that a student could hand in, each wanting to run on open."""
    code = ("code", canary(folder))
    script = "<script>document.title = 'CANARY'</script><img src=x onerror=\"document.title='CANARY'\">"
    trusting, turned, raw, output = (json.loads(lesson(code)) for _ in range(4))
    trusting["metadata"] |= {"trusted": True, "run_on_open": True, "signature": "hmac:0", "digest": "0" * 64}
    for cell in trusting["cells"]:
        cell["metadata"] |= {"trusted": True, "init_cell": True, "deletable": False, "editable": False}
    turned["cells"] = turned["cells"][2::-1]
    raw["cells"][1] = {"cell_type": "raw", "id": "raw", "metadata": {}, "source": raw["cells"][1]["source"]}
    data = {"text/html": script, "application/javascript": "document.title = 'CANARY'"}
    for cell in output["cells"][1:]:
        cell["outputs"] = [{"output_type": "display_data", "metadata": {}, "data": data}]
    return {
        "cell_added": lesson(code),
        "inside_a_cell": lesson().replace("6 * 7)", f"6 * 7); {code[1]}"),
        "magic_added": lesson(("code", f"%%python3\n{code[1]}")),
        "empty_cell_added": lesson(("code", "")),
        "javascript_added": lesson(("code", "%%javascript\ndocument.title = 'CANARY'"), ("markdown", script)),
        "trusting": json.dumps(trusting),
        "turned": json.dumps(turned),
        "raw": json.dumps(raw),
        "output": json.dumps(output),
    }


def look_at(page, name):
    """Open another notebook in the same window, as a click in the file menu does."""
    page.wait_for_function("window.jupyterapp?.commands.hasCommand('docmanager:open')")
    page.evaluate("path => void window.jupyterapp.commands.execute('docmanager:open', {path})", f"{name}.ipynb")
    page.wait_for_function(
        "name => { const shown = window.jupyterapp.shell.currentWidget;"
        " return shown?.title.label === name && shown.node.dataset.turbomath === 'stranger' }",
        arg=f"{name}.ipynb",
        timeout=PATIENCE,
    )


def kernel_is_ready(page):
    page.wait_for_function(
        "window.jupyterapp.shell.currentWidget.sessionContext.session?.kernel?.status === 'idle'", timeout=PATIENCE
    )


def test_a_students_altered_notebook_does_not_run_on_open(open_notebook, classroom, tmp_path, screenshot):
    files = altered(tmp_path)
    page = open_notebook(files)
    for name in files:
        look_at(page, name)
        kernel_is_ready(page)
        settled(page)  # what was sent to run would have run
        shown = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden)")
        assert shown.locator(".turbomath-bar p").text_content() == NOTE
        assert shown.get_by_text("import ipywidgets").first.is_visible(), "what would run can be read"
        content = page.evaluate("window.jupyterapp.shell.currentWidget.model.toJSON().cells")
        assert all(cell.get("execution_count") is None for cell in content), name
        assert "CANARY" not in page.title(), name
        assert pop_ups(page) == 0
    screenshot(page, "shell_stranger")
    assert list(tmp_path.iterdir()) == []


def test_where_a_browser_cannot_check_a_lesson_it_is_not_run_and_the_page_says_why(own_box):
    own_box.add_init_script("Object.defineProperty(Crypto.prototype, 'subtle', { get: () => undefined })")
    own_box.reload()  # as it comes by plain http from another machine
    state(own_box, "unchecked")
    assert "https" in sentence(own_box)


def test_run_by_hand_it_runs_and_the_note_goes(open_notebook, tmp_path):
    page = open_notebook({"by_hand": lesson(("code", canary(tmp_path)))})
    state(page, "stranger")
    kernel_is_ready(page)
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
    answer(page, "twice is 6")
    live(page)
    settled(page)
    assert (tmp_path / "CANARY").exists()
    assert sentence(page) == ""


def test_a_crash_does_not_make_altered_code_run(own_box, classroom, tmp_path):
    box = own_box
    add = "source => void window.jupyterapp.shell.currentWidget.model.sharedModel.addCell({cell_type: 'code', source})"
    box.evaluate(add, canary(tmp_path))
    classroom.kill_kernels(OWN)
    state(box, "altered")
    assert "not run" in sentence(box)
    kernel_is_ready(box)
    settled(box)  # what was sent to run would have run
    assert list(tmp_path.iterdir()) == []


def test_a_renamed_copy_of_a_lesson_is_still_that_lesson_and_its_old_outputs_stay_harmless(open_notebook):
    copy = json.loads(lesson(("raw", "my notes")))
    copy["cells"][2]["outputs"] = [
        {
            "output_type": "display_data",
            "metadata": {},
            "data": {"text/html": "<img src=x onerror=\"document.title='CANARY'\">"},
        }
    ]
    page = open_notebook({"my renamed copy": json.dumps(copy)})
    live(page)
    answer(page, "twice is 6")
    assert "CANARY" not in page.title()


def test_a_lesson_that_breaks_shows_its_error(open_lesson):
    page = open_lesson("91_breaks")
    page.get_by_text("ZeroDivisionError").first.wait_for()
    assert pop_ups(page) == 0


def test_nothing_is_cut_or_overlaps_up_to_a_zoom_of_200_per_cent(box, screenshot):
    for width, height in ((1366, 768), (1024, 768), (683, 384)):
        sized(box, {"width": width, "height": height})
        screenshot(box, f"shell_{width}")
        assert box.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
        for place in (
            "#turbomath-tools a >> nth=0",
            "#turbomath-tools button:visible >> nth=-1",
            ".jp-Notebook h1",
            ".answer",
        ):
            one = box.locator(place).bounding_box()
            assert one["x"] >= 0, place
            assert one["x"] + one["width"] <= width, place
            assert one["y"] + one["height"] <= height, place


def test_a_saved_lesson_opens_clean_and_live_again_without_a_copy(open_lesson, classroom, lessons_folder, monkeypatch):
    from turbomath.classroom import work_copies
    from turbomath.disk import files

    page = open_lesson(OWN)
    page.get_by_role("button", name="Show code").click()
    saved_from(page, classroom.work / f"{OWN}.ipynb")
    monkeypatch.setattr(files, "shipped", lambda folder: lessons_folder)
    assert "second 42" in (classroom.work / f"{OWN}.ipynb").read_text(encoding="utf-8")
    assert work_copies.refresh(OWN, classroom.work) is None
    again = page.context.new_page()
    again.goto(classroom.lesson(OWN))
    live(again)
    answer(again, "twice is 6")
