"""record.toml is read whole or refused in a sentence with file and key; what is written reads back as it was meant.

All data INVENTED. What an answer is in a damaged file is asked of Python's own reader of TOML, not of the kit.
"""

import random
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.lab.damage import damaged
from turbomath.disk import files
from turbomath.lab.record.questions import KINDS, PARTS, QUESTIONS, Box, boxes
from turbomath.lab.record.record import FILE, LONGEST, read_record, record_of
from turbomath.lab.record.record_text import new_record, record_text, typed
from turbomath.lab.run.bench import Bench, Engine, read_bench
from turbomath.table.cautions import CAUTIONS, SHOP_CAUTIONS
from turbomath.table.errors import RefusedFileError

BENCH, SHIPPED = Bench("bench.toml"), "stand_unloaded_run_up"
IDLE = Box("idle", "low", "as_found")


def record(text, bench=BENCH):
    return record_of(text, FILE, bench)


def test_a_run_folder_without_a_record_has_an_empty_one(tmp_path):
    assert read_record(tmp_path, BENCH).answers == {}


def test_words_yes_and_no_and_numbers_are_read_and_a_blank_is_no_answer():
    found = record(
        '[people_and_stops]\nsupervisor = " AB,  at the panel "\nsignals = "no"\ncover_plate = true\n'
        'air_shut_off = "does not apply"\nrunaway = ""\n[after_the_start]\noil_after = "3,5 s"\nno_air_for = "  min"\n'
        '[after_the_start.idle.low]\nas_found = "11.5 rev/s"\nadjusted = ""\n'.replace("3,5", "3.5")
    ).answers
    assert {box.question: answer for box, answer in found.items()} == {
        "supervisor": ("AB, at the panel", None),
        "signals": ("no", False),
        "cover_plate": ("yes", True),
        "air_shut_off": ("does not apply", None),
        "oil_after": ("3.5 s", 3.5),
        "idle": ("11.5 rev/s", 11.5),
    }


# (what stands there, which key the sentence names, words of what was expected)
BROKEN = [
    ("[people_and_stop]", "people_and_stop", "the nearest is 'people_and_stops'"),
    ("[people_and_stops]\nsupervisr = 'AB'", "[people_and_stops]", "the nearest is 'supervisor'"),
    ("[people_and_stops]\nsupervisor = 3", "[people_and_stops] supervisor", "text in quotes"),
    ("[people_and_stops]\nsignals = 'perhaps'", "[people_and_stops] signals", '"yes", "no" or "does not apply"'),
    ("[people_and_stops]\nsignals = 1", "[people_and_stops] signals", '"yes", "no" or "does not apply"'),
    (f"[people_and_stops]\nrunaway = '{'x' * (LONGEST + 1)}'", "[people_and_stops] runaway", "at most 200 letters"),
    ("[after_the_start]\noil_after = 3", "[after_the_start] oil_after", "a number with its unit"),
    ("[after_the_start]\noil_after = '3'", "[after_the_start] oil_after", "s, min for elapsed time"),
    ("[after_the_start]\noil_after = '3 psi'", "[after_the_start] oil_after", "elapsed time"),
    ("[after_the_start]\noil_after = '-3 s'", "[after_the_start] oil_after", ""),
    ("[after_the_start.idle]\nmiddle = {}", "[after_the_start] idle", "one of low, high"),
    ("[after_the_start.idle]\nlow = 700", "[after_the_start] idle.low", "a table"),
    ("[after_the_start.idle.low]\nfound = '1 rpm'", "[after_the_start] idle.low", "the nearest is 'as_found'"),
    ("[after_the_start.idle.low]\nas_found = '7O0 rpm'", "[after_the_start] idle.low.as_found", ""),
    ("[one_cylinder_out.cut_out]\n25 = '3 rpm'", "[one_cylinder_out] cut_out", "a number in quotes, 1 to 24"),
    ("[instruments.taps.bost]\nzero = true", "[instruments] taps", "the nearest is 'boost'"),
    ("[afterwards]\nput_back = 'all'", "[afterwards] put_back", "a table"),
]


@pytest.mark.parametrize(("text", "key", "expected"), BROKEN, ids=[one[0][:40] for one in BROKEN])
def test_each_mistake_is_one_sentence_with_file_and_key(text, key, expected):
    with pytest.raises(RefusedFileError) as refusal:
        record(text)
    said = str(refusal.value)
    assert said.startswith(FILE)
    assert key.split(".")[0] in said
    assert expected in said
    assert "\n" not in said
    assert "bench.toml" not in said


def test_a_line_that_is_no_toml_is_refused_with_its_row():
    with pytest.raises(RefusedFileError, match=r"record\.toml, row 2: "):
        record('[place]\nguards = ye\ninlet_guard = "yes"\n')


def test_an_engine_of_four_cylinders_has_no_fifth():
    bench = Bench("bench.toml", engine=Engine(cylinders=4))
    assert [row.key for row in QUESTIONS["cut_out"].rows(bench)] == ["1", "2", "3", "4"]
    with pytest.raises(RefusedFileError, match="1 to 4"):
        record("[one_cylinder_out.cut_out]\n5 = '3 rpm'", bench)


def test_a_new_record_has_every_question_as_a_remark_and_is_never_written_over_one(tmp_path):
    path = new_record(tmp_path)
    text = path.read_text(encoding="utf-8")
    assert read_record(tmp_path, BENCH).answers == {}
    assert all(f"# {one.key}" in text for one in QUESTIONS.values())
    taken = "\n".join(line.removeprefix("# ") if " = " in line else line for line in text.splitlines())
    assert record(taken).answers == {}, "a blank that is taken as it stands answers nothing"
    path.write_text("mine", encoding="utf-8")
    assert new_record(tmp_path) is None
    assert path.read_text(encoding="utf-8") == "mine"


ALL = [(box, column) for box, _, _, column in boxes(BENCH)]


LETTERS = st.text(st.characters(exclude_categories=("C", "Z")) | st.just(" "), max_size=60)


@given(st.dictionaries(st.sampled_from(ALL), LETTERS, max_size=12))
def test_whatever_was_typed_reads_back_as_it_was_meant(drawn):
    plain = {"yes or no": ("n", "no"), "number": ("1 234,5", None)}
    kept = {box: plain.get(column.kind, (text, text)) for (box, column), text in drawn.items()}
    values = {box: typed(kept[box][0], column, column.unit("us")) for (box, column) in drawn}
    found = record(record_text(values, BENCH)).answers
    for box, column in drawn:
        shown = found[box].text if box in found else ""
        meant = f"1234.5 {column.unit('us')}" if kept[box][1] is None else " ".join(kept[box][1].split())
        assert shown == meant


@given(st.text(max_size=60))
def test_marks_that_no_file_can_hold_are_shown_as_such_and_break_nothing(text):
    box = Box("supervisor", "", "answer")
    shown = record(record_text({box: text}, BENCH, [text])).answers.get(box)
    assert bool(shown) == bool(text.strip())


def test_every_question_has_a_kind_and_a_known_caution_and_no_two_share_a_key():
    asked = [one for part in PARTS for one in part.questions]
    assert len(QUESTIONS) == len(asked)
    assert {column.kind for one in asked for column in one.columns} == set(KINDS)
    assert {one.caution for one in asked if one.caution} <= {*CAUTIONS, *SHOP_CAUTIONS}
    about = {one.caution.hazard for one in asked if one.caution}
    for hazard in ("Runaway after work", "Dry powder and the engine", "Starting from beside the engine"):
        assert hazard in about
    assert {"Starter and hydrogen", "Hot shut-down", "One cylinder cut out"} <= about


def leaves(table):
    """Yield every text, number and truth in what a TOML reader gives."""
    for value in table.values():
        yield from leaves(value) if isinstance(value, dict) else [value]


@pytest.mark.parametrize("trials", [300, pytest.param(3_000, marks=pytest.mark.long)])
def test_a_damaged_record_is_read_as_it_stands_or_refused_and_never_misread(tmp_path, trials):
    folder, chance, refused = files.shipped("data") / SHIPPED, random.Random(22), []
    bench, whole = read_bench(folder / "bench.toml"), (folder / FILE).read_text(encoding="utf-8")
    for _ in range(trials):
        (tmp_path / FILE).write_bytes(damaged(whole.encode(), chance))
        try:
            found = read_record(tmp_path, bench).answers
        except RefusedFileError as refusal:
            refused.append(str(refusal))
            continue
        raw = (tmp_path / FILE).read_bytes()
        try:
            said = raw.decode("utf-8-sig")
        except UnicodeDecodeError:
            said = raw.decode("cp1252")
        there = [" ".join(str(one).split()) for one in leaves(tomllib.loads(said))]
        blank = ("", "rpm", "psi", "°F", "s", "min", "kPa", "°C")
        kept = [one for one in there if one not in blank]
        assert sorted(answer.text for answer in found.values()) == sorted(kept)
    assert trials / 10 < len(refused) < trials
    assert [said for said in refused if "\n" in said] == []
