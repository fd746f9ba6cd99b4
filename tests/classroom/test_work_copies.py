"""A work copy is clean when it opens, and nothing that a person wrote in it is ever lost."""

import json

import pytest

from tests.classroom.served import lesson
from turbomath import cli
from turbomath.classroom import work_copies
from turbomath.disk import files
from turbomath.table.errors import TurbomathError

NAMES = ("01_gauge", "03_hot_air", "10_three_engines")


@pytest.fixture
def shipped(tmp_path, monkeypatch):
    folder = tmp_path / "shipped"
    folder.mkdir()
    for name in NAMES:
        (folder / f"{name}.ipynb").write_text(lesson(("markdown", f"This is {name}.")), encoding="utf-8")
    monkeypatch.setattr(files, "shipped", lambda _: folder)
    return folder


@pytest.fixture
def work(tmp_path):
    return tmp_path / "work"


def names(folder):
    return sorted(path.name for path in folder.iterdir() if path.name != ".turbomath")


def alter(path, mark):
    path.write_text(path.read_text(encoding="utf-8").replace("6 * 7", mark), encoding="utf-8")


def as_saved_by_jupyterlab(path):
    """Save the notebook again as JupyterLab does after a run: outputs, counts, versions, ids and views added."""
    data = json.loads(path.read_text(encoding="utf-8"))
    data["metadata"] |= {"language_info": {"name": "python", "version": "3.11.7"}, "widgets": {}}
    data["metadata"]["kernelspec"]["display_name"] = "Python 3"
    data["nbformat_minor"] = 4
    for number, cell in enumerate(data["cells"]):
        cell["id"], cell["metadata"] = f"new-{number}", {"jupyter": {"source_hidden": False}, "scrolled": True}
        cell["source"] = "".join(cell["source"])
        if cell["cell_type"] == "code":
            cell |= {"execution_count": 5, "outputs": [{"output_type": "stream", "name": "stdout", "text": "42\n"}]}
    path.write_text(json.dumps(data, indent=1) + "\n", encoding="utf-8")


def test_a_missing_copy_is_made_whole(shipped, work):
    assert work_copies.refresh("03_hot_air", work) is None
    assert (work / "03_hot_air.ipynb").read_bytes() == (shipped / "03_hot_air.ipynb").read_bytes()
    assert names(work) == ["03_hot_air.ipynb"]


def test_a_saved_but_unaltered_lesson_stays_as_it_is_however_often_it_opens(shipped, work):
    work_copies.refresh("03_hot_air", work)
    as_saved_by_jupyterlab(work / "03_hot_air.ipynb")
    saved = (work / "03_hot_air.ipynb").read_bytes()
    for _ in range(3):
        assert work_copies.refresh("03_hot_air", work) is None
    assert (work / "03_hot_air.ipynb").read_bytes() == saved
    assert names(work) == ["03_hot_air.ipynb"]


@pytest.mark.parametrize("saved", [False, True])
def test_an_altered_copy_is_kept_and_a_clean_one_put_beside_it(shipped, work, saved):
    work_copies.refresh("03_hot_air", work)
    copy = work / "03_hot_air.ipynb"
    alter(copy, "6 * 8")
    if saved:
        as_saved_by_jupyterlab(copy)
    mine = copy.read_bytes()
    kept = work_copies.refresh("03_hot_air", work)
    assert kept.name == "03_hot_air (yours).ipynb"
    assert kept.read_bytes() == mine
    assert copy.read_bytes() == (shipped / "03_hot_air.ipynb").read_bytes()


def test_changed_words_count_as_altered(shipped, work):
    work_copies.refresh("03_hot_air", work)
    copy = work / "03_hot_air.ipynb"
    copy.write_text(copy.read_text(encoding="utf-8").replace("How much", "My note: how much"), encoding="utf-8")
    assert "My note" in work_copies.refresh("03_hot_air", work).read_text(encoding="utf-8")


def test_an_older_kept_copy_is_never_written_over(shipped, work):
    for mark in ("first", "second", "third"):
        work_copies.refresh("03_hot_air", work)
        alter(work / "03_hot_air.ipynb", mark)
    work_copies.refresh("03_hot_air", work)
    kept = ["03_hot_air (yours).ipynb", "03_hot_air (yours 2).ipynb", "03_hot_air (yours 3).ipynb"]
    assert names(work) == sorted([*kept, "03_hot_air.ipynb"])
    for name, mark in zip(kept, ("first", "second", "third"), strict=True):
        assert mark in (work / name).read_text(encoding="utf-8")


def test_a_torn_file_a_folder_and_a_dead_link_are_kept_too(shipped, work):
    work.mkdir()
    copy = work / "03_hot_air.ipynb"
    copy.write_text('{"cells": [', encoding="utf-8")
    assert work_copies.refresh("03_hot_air", work).read_text(encoding="utf-8") == '{"cells": ['
    copy.unlink()
    copy.mkdir()
    assert work_copies.refresh("03_hot_air", work).is_dir()
    copy.unlink()
    copy.symlink_to(work / "nowhere")
    assert work_copies.refresh("03_hot_air", work).is_symlink()
    assert copy.read_bytes() == (shipped / "03_hot_air.ipynb").read_bytes()


def test_the_masters_are_never_touched_and_a_copy_of_a_read_only_master_can_be_written(shipped, work):
    master = shipped / "03_hot_air.ipynb"
    master.chmod(0o444)
    before = master.read_bytes(), master.stat().st_mtime_ns
    work_copies.refresh("03_hot_air", work)
    alter(work / "03_hot_air.ipynb", "6 * 9")
    work_copies.refresh("03_hot_air", work)
    assert (master.read_bytes(), master.stat().st_mtime_ns) == before
    assert (work / "03_hot_air.ipynb").stat().st_mode & 0o200


def test_an_untouched_copy_of_an_older_lesson_gives_way_and_an_altered_one_is_kept(shipped, work):
    master, copy = shipped / "03_hot_air.ipynb", work / "03_hot_air.ipynb"
    older = master.read_text(encoding="utf-8").replace("How much", "In the older kit: how much")
    for touched in (False, True):
        newer = master.read_text(encoding="utf-8")
        master.write_text(older, encoding="utf-8")
        work_copies.refresh("03_hot_air", work)
        assert "older kit" in copy.read_text(encoding="utf-8")
        if touched:
            alter(copy, "mine")
        master.write_text(newer, encoding="utf-8")
        kept = work_copies.refresh("03_hot_air", work)
        assert (kept is not None) == touched
        assert copy.read_text(encoding="utf-8") == newer


def test_a_record_of_copies_that_is_torn_only_keeps_more(shipped, work):
    work_copies.refresh("03_hot_air", work)
    (work / ".turbomath" / "copied.json").write_text('{"03_hot', encoding="utf-8")
    alter(work / "03_hot_air.ipynb", "mine")
    assert "mine" in work_copies.refresh("03_hot_air", work).read_text(encoding="utf-8")


def test_other_files_in_the_work_folder_are_left_alone(shipped, work):
    work.mkdir()
    (work / "my run.csv").write_text("a,b\n", encoding="utf-8")
    (work / "01_gauge.ipynb").write_text("{}", encoding="utf-8")
    work_copies.refresh("03_hot_air", work)
    assert names(work) == ["01_gauge.ipynb", "03_hot_air.ipynb", "my run.csv"]


@pytest.mark.parametrize("asked", ["03_hot_air", "03_hot_air.ipynb", "3", "03"])
def test_a_lesson_is_asked_for_by_name_or_number(shipped, asked):
    assert work_copies.lesson_name(asked) == "03_hot_air"


def test_number_one_is_not_number_ten(shipped):
    assert work_copies.lesson_name("1") == "01_gauge"
    assert work_copies.lesson_name("10") == "10_three_engines"


@pytest.mark.parametrize(
    "asked", ["03_hot_aire", "hot_air", "2", "0", "../shipped/03_hot_air", "", "²", "*", "10_three"]
)
def test_an_unknown_lesson_is_refused_with_the_list(shipped, asked):
    with pytest.raises(TurbomathError, match="The lessons are: 01_gauge, 03_hot_air, 10_three_engines"):
        work_copies.lesson_name(asked)


def test_the_command_refuses_in_one_sentence_that_names_the_nearest(shipped, work, monkeypatch, capsys):
    monkeypatch.setenv("TURBOMATH_WORK", str(work))
    assert cli.main(["lessons", "03_hot_aire", "--no-browser"]) == 1
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err == (
        "There is no lesson '03_hot_aire'. Did you mean 03_hot_air? "
        "The lessons are: 01_gauge, 03_hot_air, 10_three_engines.\n"
    )
    assert not work.exists()


def test_a_work_folder_that_cannot_be_made_is_one_sentence(shipped, tmp_path, monkeypatch, capsys):
    (tmp_path / "file").write_text("", encoding="utf-8")
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path / "file" / "work"))
    assert cli.main(["lessons", "--no-browser"]) == 1
    assert "Traceback" not in capsys.readouterr().err
