"""Words from files: each place filled, each sentence taken, nothing left over."""

import pytest

from turbomath.table.prose import Prose, ProseError, read


def words(**found):
    return Prose(found, "lesson.toml")


def test_a_sentence_is_given_with_its_places_filled():
    assert words(told="{drop} of {most}").text("told", drop="200 F°", most=250) == "200 F° of 250"


def test_a_place_too_few_too_many_or_misspelt_is_refused():
    for places in [{}, {"drop": 1}, {"drop": 1, "most": 2, "least": 3}, {"drop": 1, "moost": 2}]:
        with pytest.raises(ProseError, match=r"lesson\.toml: the places in 'told' must be .*; found drop, most\."):
            words(told="{drop} of {most}").text("told", **places)


def test_what_is_no_sentence_is_refused():
    for wrong in ["", "   ", " told", "told\n", 3, True, ["told"], {"told": "told"}]:
        with pytest.raises(ProseError, match=r"lesson\.toml"):
            words(told=wrong).text("told")
        with pytest.raises(ProseError, match=r"lesson\.toml: all 2"):
            words(all=["one", wrong]).texts("all")


def test_a_name_that_is_not_there_is_refused_with_those_that_are():
    with pytest.raises(ProseError, match=r"lesson\.toml: 'tolled' is missing; found told, other\."):
        words(told="a", other="b").text("tolled")


def test_what_nobody_took_is_refused_wherever_it_stands():
    found = words(told="a", inner={"one": "b", "two": "c"}, parts=[{"x": "d"}, {"x": "e", "y": "f"}])
    found.text("told")
    found.table("inner").text("one")
    assert [one.text("x") for one in found.tables("parts")] == ["d", "e"]
    assert found.unused() == ["lesson.toml: inner: two", "lesson.toml: parts 2: y"]
    with pytest.raises(ProseError, match=r"lesson\.toml: inner: two is used nowhere\. .* Such names: 2\."):
        found.finished()


def test_all_taken_is_finished():
    found = words(told="a", right=True, number=4)
    assert (found.text("told"), found.value("right", bool), found.value("number", int)) == ("a", True, 4)
    found.finished()


def test_a_true_is_no_number_and_a_number_no_true():
    for kind, wrong in ((int, True), (bool, 1), (int, "4")):
        with pytest.raises(ProseError, match="must be of the kind"):
            words(right=wrong).value("right", kind)


def test_what_may_be_left_out_has_its_default():
    assert words().value("right", bool, False) is False
    assert words().raw("mistake", "") == ""
    assert words().tables("options") == ()


def test_a_file_is_read_beside_its_module(tmp_path):
    (tmp_path / "words.toml").write_text('told = "86 F°"\n', encoding="utf-8")
    assert read(str(tmp_path / "module.py"), "words.toml").text("told") == "86 F°"
    (tmp_path / "bad.toml").write_text("told = \n", encoding="utf-8")
    (tmp_path / "latin.toml").write_bytes(b'told = "86 F\xb0"\n')
    for name in ("bad.toml", "latin.toml", "absent.toml"):
        with pytest.raises(ProseError, match="the words cannot be read"):
            read(str(tmp_path / "module.py"), name)
