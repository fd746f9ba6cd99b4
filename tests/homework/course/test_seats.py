"""Seat codes are safe as the name of a folder anywhere; a list of seats is read whole, or refused with its row."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.homework.course import seats
from turbomath.homework.course.seats import Seat
from turbomath.table.errors import OutOfRangeError, RefusedFileError

# Names that Windows keeps for devices: Microsoft, "Naming files, paths, and namespaces" (from memory)
DEVICES = ["CON", "prn", "Aux", "NUL", "COM1", "com9", "LPT1", "lpt9"]
NO_SEAT = [
    *("", " ", "A 07", " A07", "A07 ", "A07\n", ".", "..", "../A07", "..\\A07", "/etc/passwd", "C:", "C:A07", "A/B"),
    *("A\\B", "A.07", "A07.", "-A07", "_A07", "~", "$HOME", "%TEMP%", "A:B", "A*", "A?", 'A"B', "A|B", "A<B", "é7"),
    *("A٠٧", "A\0", "A\u202e7", "ｌ", "=A07", "@A07", "x" * 25, None, 7, b"A07", ["A07"]),
]


@pytest.mark.parametrize(
    "code", ["A07", "a", "7", "007", "A-7", "A_7", "x" * 24, "1-2", "CONE", "COM", "COM10", "NULL"]
)
def test_a_plain_code_is_taken_as_it_is(code):
    assert seats.seat(code) == code


@pytest.mark.parametrize("code", NO_SEAT, ids=repr)
def test_what_is_no_plain_code_is_refused(code):
    with pytest.raises(OutOfRangeError, match="expected 1 to 24 of the letters"):
        seats.seat(code)


@pytest.mark.parametrize("code", DEVICES)
def test_a_device_of_windows_is_no_seat(code):
    with pytest.raises(OutOfRangeError, match="device"):
        seats.seat(code)


@given(st.text(max_size=30))
def test_no_text_leads_out_of_a_folder(tmp_path_factory, text):
    folder = tmp_path_factory.getbasetemp()
    try:
        code = seats.seat(text)
    except OutOfRangeError:
        return
    assert (folder / code).resolve().parent == folder.resolve()


@pytest.fixture
def written(tmp_path):
    def write(text):
        path = tmp_path / "the class.csv"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    return write


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A01\nA02\n", (Seat("A01"), Seat("A02"))),
        ("\r\nA01\r\n\r\n  A02  ", (Seat("A01"), Seat("A02"))),
        ("seat\nA01\n", (Seat("A01"),)),
        ("seat,student\nA01,Ann Oh\nA02,\n", (Seat("A01", "Ann Oh"), Seat("A02"))),
        ("Seat;Student\nA01;Müller, Jörg\n", (Seat("A01", "Müller, Jörg"),)),
        ("student\tseat\nAnn\tA01\n", (Seat("A01", "Ann"),)),
        ('seat,student\nA01,"Oh, Ann"\n', (Seat("A01", "Oh, Ann"),)),
        ("\ufeffseat,student\nA01,=cmd()\n", (Seat("A01", "=cmd()"),)),
    ],
)
def test_lists_of_seats_are_read(written, text, expected):
    assert seats.read_seats(written(text)) == expected


def test_names_from_an_old_spreadsheet_keep_their_letters(written):
    found = seats.read_seats(written("seat,student\nA01,Zoë Müller\n".encode("cp1252")))
    assert found == (Seat("A01", "Zoë Müller"),)


def test_two_thousand_seats_are_a_class_and_one_more_is_not(written):
    lines = [f"S{number:04d}\n" for number in range(2001)]
    assert len(seats.read_seats(written("".join(lines[:2000])))) == 2000
    with pytest.raises(RefusedFileError, match="2,001 seats"):
        seats.read_seats(written("".join(lines)))
    with pytest.raises(RefusedFileError, match="2,000"):
        seats.read_seats(written("seat\n" + "".join(lines)))


# name, text, the place named, what was found, words of what was expected or is to be done
HOSTILE = [
    ("empty", "", "", "0 seats", "1 to 2,000"),
    ("blank", " \n\n\t\n", "", "0 seats", "1 to 2,000"),
    ("head only", "seat,student\n", "", "0 seats", "1 to 2,000"),
    ("a way out", "A01\n../../A02\n", "row 2", "../../A02", "1 to 24 of the letters"),
    ("an absolute way out", "A01\n/tmp/x\n", "row 2", "/tmp/x", "1 to 24 of the letters"),
    ("a way out under a head", "seat,student\n..,Ann\n", "row 2", "..", "1 to 24 of the letters"),
    ("a device", "A01\nnul\n", "row 2", "nul", "Windows keeps this name"),
    ("a device under a head", "student,seat\nAnn,COM3\n", "row 2", "COM3", "Windows keeps this name"),
    ("twice", "A01\nA02\nA01\n", "row 3", "A01", "row 1 has it too"),
    ("twice but for the case", "seat,student\nA01,Ann\n\na01,Bob\n", "row 4", "a01", "row 2 has it too"),
    ("names without a head", "A01,Ann\nA02,Bob\n", "row 1", "A01,Ann", "under the head seat,student"),
    ("blank inside", "A 01\n", "row 1", "A 01", "1 to 24 of the letters"),
    ("no seat in a row", "seat,student\n,Ann\n", "row 2", "", "1 to 24 of the letters"),
    ("too long", "A" * 25 + "\n", "row 1", "AAA", "1 to 24 of the letters"),
    ("formula", "=1+1\n", "row 1", "=1+1", "1 to 24 of the letters"),
    ("another column", "seat,student,grade\nA01,Ann,3\n", "column 'grade'", "grade", "Leave this column out"),
    ("two heads of one name", "seat,seat\nA01,A02\n", "row 1", "'seat' twice", "name of its own"),
    ("more cells than heads", "seat,student\nA01,Oh, Ann\n", "row 2", "3 cells", "in quotes"),
    ("an open quote", 'seat,student\nA01,"Ann\nA02,Bob\n', "row 2", "broken cell", "Correct the quotes"),
    ("a long name", f"seat,student\nA01,{'n' * 101}\n", "row 2, column 'student'", "nnn", "at most 100 letters"),
    ("a name of two lines", 'seat,student\nA01,"An\nn"\n', "row 2, column 'student'", "An n", "on one line"),
    ("a name that turns text", "seat,student\nA01,An\u202en\n", "row 2, column 'student'", "An n", "on one line"),
    ("a large file", "A01\n" * 300_000, "", "1,200,000 bytes", "at most 1,000,000"),
    ("a workbook", b"PK\x03\x04" + bytes(40), "", "a workbook", "Save it again as CSV"),
    ("UTF-16", "seat\nA01\n".encode("utf-16"), "", "UTF-16 text", "Save it again as CSV"),
    ("NUL", b"A01\0\n", "", "", "plain text"),
]


@pytest.mark.parametrize(
    ("text", "place", "found", "words"), [row[1:] for row in HOSTILE], ids=[row[0] for row in HOSTILE]
)
def test_a_hostile_list_is_refused_in_one_sentence(written, text, place, found, words):
    with pytest.raises(RefusedFileError) as refused:
        seats.read_seats(written(text))
    told = str(refused.value)
    assert all(part in told for part in ("the class.csv", place, found, words)), told
    assert "\n" not in told
    assert len(told) < 600
