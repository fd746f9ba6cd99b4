"""A homework folder: its places, a secret that is made once, a roster apart, and the numbers that follow from them."""

import os
import stat

import pytest

from tests.homework.a_class import variants_of
from turbomath.homework.asking import variants
from turbomath.homework.course.course import Course
from turbomath.table.errors import RefusedFileError, TurbomathError

FILE_MODE, FOLDER_MODE = (0o600, 0o700) if os.name == "posix" else (0o666, 0o777)  # Windows knows no others
ASSIGNMENT = (
    'name = "week 3"\nunits = "si"\n[[questions]]\nquestion = "hot_day"\n[[questions]]\nquestion = "two_mechanics"\n'
)


@pytest.fixture
def course(tmp_path):
    made = Course(tmp_path / "Übung für Klasse 3")
    made.make_secret()
    made.assignment_file.write_text(ASSIGNMENT, encoding="utf-8")
    return made


def test_everything_lies_inside_and_what_is_private_under_instructor(course):
    private = (course.key_page, course.roster_file, course.secret_file, course.assignment_file)
    assert {path.parent for path in private} == {course.instructor}
    assert course.student("A07").parent == course.students
    assert {path.parent for path in (course.students, course.instructor, course.class_page)} == {course.folder}


@pytest.mark.parametrize("seat", ["..", "../x", "/x", "nul", "", "a/b"])
def test_no_seat_leads_out(course, seat):
    with pytest.raises(TurbomathError, match="seat: found"):
        course.student(seat)
    with pytest.raises(TurbomathError, match="seat: found"):
        variants_of(course, seat)


def test_the_secret_is_made_once_and_differs_from_folder_to_folder(course, tmp_path):
    secret = course.secret
    assert len(secret) == 64  # 256 bits in hexadecimal figures
    course.make_secret()
    assert Course(course.folder).secret == secret
    other = Course(tmp_path / "other")
    other.make_secret()
    assert other.secret != secret


def test_the_secret_is_for_one_user_alone(course):
    for path, mode in ((course.secret_file, FILE_MODE), (course.instructor, FOLDER_MODE)):
        assert stat.S_IMODE(path.stat().st_mode) == mode
        path.chmod(0o777)
    course.make_secret()
    assert stat.S_IMODE(course.secret_file.stat().st_mode) == FILE_MODE
    assert stat.S_IMODE(course.instructor.stat().st_mode) == FOLDER_MODE


def test_the_secret_is_never_open_to_others_not_even_while_it_is_made(tmp_path, monkeypatch):
    seen = []
    opened = os.open

    def watched(path, flags, mode=0o777, **more):
        handle = opened(path, flags, mode, **more)
        seen.append(stat.S_IMODE(os.fstat(handle).st_mode))
        return handle

    before = os.umask(0)
    try:
        monkeypatch.setattr(os, "open", watched)
        Course(tmp_path / "new").make_secret()
    finally:
        os.umask(before)
    assert seen == [FILE_MODE]


@pytest.mark.parametrize("text", ["", "short", " \n"])
def test_a_secret_cut_short_is_refused(course, text):
    course.secret_file.write_text(text, encoding="ascii")
    with pytest.raises(RefusedFileError, match=r"cut short.*Put it back from a copy"):
        _ = course.secret


def test_the_roster_comes_back_and_is_safe_for_a_spreadsheet(course):
    course.write_roster({"A02": "Zoë", "A01": "", "B1": "=HYPERLINK(1)"})
    found = course.roster()
    assert list(found) == ["A02", "A01", "B1"]
    assert [student for student, _ in found.values()] == ["Zoë", "", "'=HYPERLINK(1)"]
    assert len({code for _, code in found.values()}) == 3
    assert course.roster_file.read_bytes().startswith(b"\xef\xbb\xbf")


def test_a_roster_saved_with_semicolons_is_read(course):
    course.write_roster({"A01": "Ann"})
    text = course.roster_file.read_text(encoding="utf-8-sig")
    course.roster_file.write_text(text.replace(",", ";"), encoding="utf-8")
    assert course.roster()["A01"] == ("Ann", course.sheet_code("A01"))


def test_a_roster_with_a_way_out_is_refused_with_its_row(course):
    course.roster_file.write_text("seat,student,sheet code\nA01,Ann,x\n../A02,Bob,y\n", encoding="utf-8")
    with pytest.raises(RefusedFileError, match="row 3, column 'seat'"):
        course.roster()


def test_sheet_codes_follow_from_secret_seat_and_what_is_asked(course, tmp_path):
    code = course.sheet_code("A01")
    assert code == Course(course.folder).sheet_code("A01")
    assert code != course.sheet_code("A02")
    fresh = Course(course.folder)
    fresh.assignment_file.write_text(ASSIGNMENT.replace("two_mechanics", "mass_flow"), encoding="utf-8")
    assert fresh.sheet_code("A01") != code
    fresh = Course(course.folder)
    fresh.assignment_file.write_text(ASSIGNMENT, encoding="utf-8")
    fresh.secret_file.write_text("another secret of sixteen", encoding="ascii")
    assert fresh.sheet_code("A01") != code


def test_numbers_of_a_class_are_those_of_each_seat_and_those_that_make_gives(course):
    course.write_roster({"A01": "", "A02": ""})
    together = course.all_variants()
    assert list(together) == ["A01", "A02"]
    assert list(together["A01"]) == ["hot_day", "two_mechanics"]
    for seat, own in together.items():
        assert {name: one.text for name, one in own.items()} == {
            name: one.text for name, one in variants_of(course, seat).items()
        }
        alone = variants.make("hot_day", secret=course.secret, assignment="week 3", seat=seat, units="si")
        assert (own["hot_day"].text, own["hot_day"].givens) == (alone.text, alone.givens)
    assert together["A01"]["hot_day"].text != together["A02"]["hot_day"].text
