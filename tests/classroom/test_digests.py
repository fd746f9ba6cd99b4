"""A lesson is known by its code cells, each of them whole, in their order, and by nothing else."""

import hashlib
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.classroom.served import lesson, notebook
from turbomath.classroom import digests
from turbomath.disk import files

# FIPS 180-4 worked examples (NIST): SHA-256 of "abc" and of the empty text.
ABC = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
EMPTY = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"


@pytest.fixture
def shipped(tmp_path, monkeypatch):
    monkeypatch.setattr(files, "shipped", lambda folder: tmp_path)
    return tmp_path


def test_a_digest_is_the_published_hash_applied_twice():
    assert digests.digest([]) == EMPTY
    assert digests.digest(["abc"]) == hashlib.sha256(ABC.encode()).hexdigest()
    assert digests.digest(["abc", ""]) == hashlib.sha256((ABC + EMPTY).encode()).hexdigest()


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"])), max_size=4), st.data())
def test_any_other_cut_order_or_cell_gives_another_digest(sources, data):
    other = data.draw(
        st.one_of(
            st.permutations(sources),
            st.just(["".join(sources)]),
            st.just([*sources, ""]),
            st.just([source + " " for source in sources]),
        )
    )
    assert (digests.digest(sources) == digests.digest(other)) == (sources == other)


def test_words_and_outputs_do_not_count_but_every_code_cell_does(shipped):
    (shipped / "01_box.ipynb").write_text(lesson(), encoding="utf-8")
    [known] = digests.shipped_digests()
    for change, same in (
        (("markdown", "more words"), True),
        (("raw", "import os"), True),
        (("code", ""), False),
        (("code", "%%javascript\nalert(1)"), False),
    ):
        (shipped / "01_box.ipynb").write_text(lesson(change), encoding="utf-8")
        assert (digests.shipped_digests() == [known]) is same, change


def test_a_source_kept_as_lines_or_as_one_text_is_the_same(shipped):
    path = shipped / "01_box.ipynb"
    path.write_text(lesson(), encoding="utf-8")
    as_lines, data = digests.shipped_digests(), json.loads(lesson())
    for cell in data["cells"]:
        cell["source"] = "".join(cell["source"])
    path.write_text(json.dumps(data), encoding="utf-8")
    assert digests.shipped_digests() == as_lines


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "[" * 100_000, '{"cells": 3, "metadata": {}}', '{"cells": [{}]}', "\0"]
)
def test_what_is_no_notebook_has_no_contents(tmp_path, text):
    path = tmp_path / "torn.ipynb"
    path.write_text(text, encoding="utf-8")
    assert digests.contents(path) is None
    assert digests.contents(tmp_path) is None


def test_the_real_lessons_are_readable_and_known():
    assert len(digests.shipped_digests()) == len(digests.lessons())


def test_another_kernel_is_another_notebook(tmp_path):
    path = tmp_path / "one.ipynb"
    path.write_text(notebook(("code", "1")), encoding="utf-8")
    before = digests.contents(path)
    path.write_text(path.read_text(encoding="utf-8").replace('"name": "python3"', '"name": "other"'), encoding="utf-8")
    assert digests.contents(path) != before
