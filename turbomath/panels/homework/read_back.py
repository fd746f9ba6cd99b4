"""What the kit reads in an answer, without a word on whether it is right."""

from turbomath import units
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.marking import answers
from turbomath.table.errors import TurbomathError
from turbomath.widgets.asking import sentence
from turbomath.working.coherent import scale


def read_as(question: str, part: str, text: str, system: str) -> tuple[bool, str]:
    """Return (whether it can be read, the words for it) of an answer to one part of a question.

    Examples
    --------
    >>> read_as("manifold_pressure_from_boost", "manifold_pressure", "254 kPa abs", "us")
    (True, 'Read as 36.84 psi abs.')
    """
    asked = next((one for one in getattr(QUESTIONS.get(question), "asked", ()) if one.name == part), None)
    try:
        if asked is None:
            number = units.number(answers.parted(text)[0])
            return True, f"Read as {number:.10g}. This kit does not know the question: the unit was not looked at."
        found = answers.taken(text, "", asked, system)
    except TurbomathError as refusal:
        return False, sentence(refusal)
    if found.value is None:
        return False, sentence(found.complaint)
    zero, size = scale(asked.unit(system), asked.row)
    number = f"{(found.value - zero) / size:.4g}".replace("-", "−")
    return True, f"Read as {number} {asked.unit(system).removesuffix('-')}".strip() + "."
