"""The words of the bank fit its logic: what is missing, misspelt or left over is refused when the bank is loaded."""

import importlib
import re
import types
from pathlib import Path

import pytest

from turbomath.homework import bank
from turbomath.homework.bank import QUESTIONS, neighbours
from turbomath.homework.bank.mistakes import SHARED, mistake
from turbomath.homework.bank.readings import BAROMETER, BOOST, asked
from turbomath.homework.bank.steps import MANIFOLD
from turbomath.homework.bank.wording import Either, Wording
from turbomath.table.prose import Prose, ProseError

FOLDER = Path(bank.__file__).parent
SUBJECTS = sorted(path.stem for path in FOLDER.glob("*.toml") if path.stem not in ("mistakes", "neighbours"))
LOGIC = {
    "number": 1,
    "difficulty": 1,
    "givens": (BAROMETER, BOOST),
    "steps": (MANIFOLD,),
    "asked": (asked("manifold_pressure", ("psi abs", "kPa abs")),),
    "mistakes": (mistake("own", "M1"), mistake("of_the_subject", "M2"), mistake("of_all", "M3")),
    "verdict": Either(lambda values: values.boost > 1, "more", "less"),
}
WORDS = """\
[mistakes]
of_the_subject = "Said by the subject."

[one]
objective = "gauge to absolute"
wording = "Boost {boost}, barometer {barometer}?"
hints = ["What shows at rest?", "Add."]

[one.mistakes]
own = "Said by the question."

[one.verdicts]
more = "it is more."
less = "it is less."
"""


@pytest.fixture
def worded(tmp_path):
    """Return a function (words, changes of the logic) -> the question that both make, with nothing left over."""

    def of(words=WORDS, **changes):
        (tmp_path / "subject.toml").write_text(words, encoding="utf-8")
        shared = Prose({"of_all": "Said by all.", "own": "Not this one."}, "bank/mistakes.toml")
        subject = Wording(str(tmp_path / "subject.py"), "subject.toml", shared)
        question = subject.question("one", **(LOGIC | changes))
        subject.finished()
        return question

    return of


def test_a_question_takes_each_of_its_words_and_the_nearest_of_a_mistake(worded):
    question = worded()
    assert question.wording.format(boost="22.0 psi", barometer="27.80 inHg") == "Boost 22.0 psi, barometer 27.80 inHg?"
    assert question.hints == ("What shows at rest?", "Add.")
    assert [one.message for one in question.mistakes] == [
        "Said by the question.",
        "Said by the subject.",
        "Said by all.",
    ]
    assert [question.verdict(type("Values", (), {"boost": one})) for one in (2, 0)] == ["it is more.", "it is less."]


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("[one]", "[won]", "one: 'objective' is missing"),
        ("objective =", "objectiv =", "'objective' is missing"),
        ("{boost}", "{bost}", "the places in 'wording' must be barometer, boost; found barometer, bost"),
        ("Boost {boost}, ", "", "the places in 'wording' must be barometer, boost; found barometer"),
        ('["What shows at rest?", "Add."]', '"Add."', "'hints' must be of the kind list"),
        ('"Add."', '""', "hints 2 must be a sentence"),
        ("of_the_subject =", "of_no_subject =", "'of_the_subject' is missing"),
        ("less =", "les =", "'less' is missing"),
        ("own =", "owned =", "owned is used nowhere"),
        ('less = "it is less."', 'less = "it is less."\nequal = "it is equal."', "verdicts: equal is used nowhere"),
        ("hints =", 'hint = "Add."\nhints =', "one: hint is used nowhere"),
        ("[one]", '[two]\nobjective = "other"\n\n[one]', "two is used nowhere"),
    ],
)
def test_words_that_do_not_fit_the_logic_are_refused(worded, before, after, said):
    assert before in WORDS
    with pytest.raises(ProseError, match=r"subject\.toml") as refusal:
        worded(WORDS.replace(before, after))
    assert said in str(refusal.value)


def test_logic_that_does_not_fit_the_words_is_refused(worded):
    with pytest.raises(ProseError, match="'unheard_of' is missing"):
        worded(mistakes=(mistake("unheard_of", "M1"),))
    with pytest.raises(ProseError, match="verdicts is used nowhere"):
        worded(verdict=None)
    with pytest.raises(ProseError, match="the places in 'wording' must be boost"):
        worded(givens=(BOOST,))


def test_a_question_to_choose_in_takes_its_cases(tmp_path):
    words = '[pick]\nobjective = "o"\nhints = ["a?", "b."]\n[[pick.cases]]\ntext = "Which?"\noptions = [\n'
    words += '  { words = "this", reply = "Right." },\n  { words = "that", reply = "No.", mistake = "M8" },\n]\n'
    for text, said in ((words, None), (words.replace("reply", "replay", 1), "'reply' is missing")):
        (tmp_path / "subject.toml").write_text(text, encoding="utf-8")
        subject = Wording(str(tmp_path / "subject.py"), "subject.toml")
        if said:
            with pytest.raises(ProseError, match=said):
                subject.choice("pick", number=0, difficulty=1)
        else:
            (case,) = subject.choice("pick", number=0, difficulty=1).cases
            assert [(one.words, one.code) for one in case.options] == [("this", ""), ("that", "M8")]


@pytest.mark.parametrize("subject", SUBJECTS)
def test_a_sentence_too_many_stops_the_file_of_its_subject(subject, tmp_path):
    for place, said in (("", "stray is used nowhere"), (f"[{first_of(subject)}]\n", "stray is used nowhere")):
        words = (FOLDER / f"{subject}.toml").read_text(encoding="utf-8")
        stray = 'stray = "Nobody says this."\n'
        planted = words.replace(place, place + stray, 1) if place else stray + words
        (tmp_path / f"{subject}.toml").write_text(planted, encoding="utf-8")
        with pytest.raises(ProseError, match=said):
            loaded(subject, tmp_path)
    (tmp_path / f"{subject}.toml").write_text(words, encoding="utf-8")
    loaded(subject, tmp_path)


def first_of(subject):
    """The name of the first question in the words of a subject."""
    names = importlib.import_module(f"turbomath.homework.bank.{subject}").words.words.names()
    return next(name for name in names if name != "mistakes")


def loaded(subject, folder):
    """Load the Python file of a subject as if it lay in another folder, beside other words."""
    module = types.ModuleType(subject)
    module.__file__ = str(folder / f"{subject}.py")
    exec(compile((FOLDER / f"{subject}.py").read_text(encoding="utf-8"), module.__file__, "exec"), vars(module))


def test_every_shared_sentence_is_said_by_more_than_one_file():
    said = {
        name: {subject for subject in SUBJECTS for one in told(subject) if one == SHARED.text(name)}
        for name in SHARED.names()
    }
    assert {name: files for name, files in said.items() if len(files) < 2} == {}
    assert SHARED.unused() == []


def test_every_sentence_on_a_neighbours_mistake_is_said():
    numeric = [one for one in bank.QUESTIONS.values() if hasattr(one, "steps")]
    said = {slip.name for one in numeric for system in ("us", "si") for slip in neighbours.slips(one, system)}
    assert said == set(neighbours.TOLD.names())


def told(subject):
    """The messages of all mistakes of a subject's file."""
    names = importlib.import_module(f"turbomath.homework.bank.{subject}").words.words.names()
    questions = [bank.QUESTIONS[name] for name in names if name in bank.QUESTIONS]
    return [mistake.message for one in questions for mistake in getattr(one, "mistakes", ())]


def test_a_mistake_has_a_name_of_its_own_on_each_sheet(numeric, system):
    names = [one.name for one in bank.QUESTIONS[numeric].mistakes_in(system)]
    assert len(set(names)) == len(names)
    assert all(name.isidentifier() and name.islower() for name in names)


def test_each_subject_has_its_questions_once():
    names = [one.name for subject in bank.SUBJECTS.values() for one in subject]
    asked_twice = [one.name for one in bank.before_and_after.QUESTIONS]  # not to be practised on
    assert names + asked_twice == list(bank.QUESTIONS)
    assert len(set(names)) == len(names)


def test_the_first_hint_of_a_question_does_not_hold_its_formula():
    assert not [name for name, one in QUESTIONS.items() if re.search("[×÷=]", one.hints[0])]
