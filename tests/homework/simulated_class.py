"""A marked class without files: seats that work alone, with the usual slips, and some that copy."""

from turbomath.homework.asking import variants
from turbomath.homework.course import planted
from turbomath.homework.marking import marking
from turbomath.homework.marking.class_marks import PartMark, SeatMarks

COMMON = 5  # slips of a question that a class makes again and again
SHARE_RIGHT = 0.6


def simulated(questions, size, draw, copiers=(), copied=0.8, units="us"):
    """Return the `SeatMarks` of a class; *copiers* are (who, from whom), each takes over a share of the answers."""
    seats = [f"S{place:04}" for place in range(size)]
    secret = f"secret {draw.random()}"
    made = {
        name: variants.make_all(name, secret=secret, assignment="simulated", seats=seats, units=units)
        for name in questions
    }
    said = {(place, name): _said(made[name][place], draw, units) for name in questions for place in range(size)}
    for who, whom in copiers:
        said |= {(who, name): said[whom, name] for name in questions if draw.random() < copied}
    return [
        SeatMarks(
            seat,
            "",
            {name: made[name][place] for name in questions},
            tuple(part for name in questions for part in _marked(made[name][place], said[place, name])),
            (),
            (),
        )
        for place, seat in enumerate(seats)
    ]


def _said(variant, draw, units):
    recipes = planted.recipes(variant.question, units)
    slips = [recipe for name, recipe in recipes.items() if name not in ("unanswered", "unreadable")]
    recipe = planted.right if draw.random() < SHARE_RIGHT else slips[draw.randrange(COMMON) % len(slips)]
    found = recipe(variant, draw) or planted.right(variant, draw)
    return {part: _in_figures(answer, draw.choice((3, 3, 4, 4, 5))) for part, _, answer in found}


def _in_figures(answer, figures):
    number, _, unit = answer.partition(" ")
    try:
        value = float(number.replace("−", "-"))
    except ValueError:
        return answer
    return f"{float(f'{value:.{figures}g}'):.10g} {unit}".strip()


def _marked(variant, said):
    for part, answer in said.items():
        found = marking.mark(variant, answer, part=part or None)
        yield PartMark(
            variant.question.name,
            part,
            answer,
            found.finding,
            found.points,
            1.0,
            found.message,
            value=found.value,
            half_digit=found.half_digit,
        )
