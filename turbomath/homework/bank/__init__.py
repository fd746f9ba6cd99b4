"""The question bank: one file a subject, each a tuple of plain data."""

import difflib

from turbomath.homework.bank import aftercooler, airflow, choices, data_sense, density, fuel, pressure, temperature
from turbomath.table.errors import TurbomathError, short

_FILES = (pressure, temperature, density, aftercooler, airflow, fuel, data_sense, choices)
QUESTIONS = {question.name: question for file in _FILES for question in file.QUESTIONS}


def find(name):
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
