"""The question bank: a file or two for each subject, and the words of its questions in a TOML file beside it."""

import difflib

from turbomath.homework.bank import (
    aftercooler,
    air_gained_and_lost,
    airflow,
    before_and_after,
    choices,
    compression,
    data_sense,
    density,
    effectiveness,
    fuel,
    gauges,
    mistakes,
    pressure,
    shaft,
    temperature,
)
from turbomath.homework.bank.question import Choice, Question
from turbomath.table.errors import TurbomathError, short

SUBJECTS: dict[str, tuple[Question | Choice, ...]] = {
    "pressure": (*pressure.QUESTIONS, *gauges.QUESTIONS),
    "temperature": (*temperature.SCALES, *compression.QUESTIONS, *temperature.THERMOCOUPLES),
    "density": (*density.QUESTIONS, *air_gained_and_lost.QUESTIONS),
    "aftercooler": (*effectiveness.QUESTIONS, *aftercooler.QUESTIONS),
    "airflow": airflow.QUESTIONS,
    "the shaft": shaft.QUESTIONS,
    "fuel": fuel.QUESTIONS,
    "data sense": data_sense.QUESTIONS,
    "choices": choices.QUESTIONS,
}
QUESTIONS = {question.name: question for subject in SUBJECTS.values() for question in subject} | {
    question.name: question
    for question in before_and_after.QUESTIONS  # not to be practised on
}
mistakes.SHARED.finished()


def find(name: str) -> Question | Choice:
    """Return a question by name, or refuse with the nearest one.

    Raises
    ------
    TurbomathError
        If there is no such question.
    """
    if name in QUESTIONS:
        return QUESTIONS[name]
    near = difflib.get_close_matches(short(name), QUESTIONS, 1)
    action = f"The nearest is '{near[0]}'." if near else f"The first is '{next(iter(QUESTIONS))}'."
    raise TurbomathError(f"found {short(name)!r}, expected the name of a question of the bank. {action}")
