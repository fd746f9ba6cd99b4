"""The next test: the one that would tell most, for the minutes it costs, of the faults that are still likely."""

from dataclasses import dataclass

import numpy as np

from turbomath.engine.faults.naming import SOUND, Diagnosis, Named
from turbomath.table import prose
from turbomath.table.cautions import CAUTIONS, SHOP_CAUTIONS, Caution

FINDS, FALSE_ALARM = 0.9, 0.1  # how often a test shows the fault it is for, and one that is not there; common practice
LEAST_TOLD = 0.01  # of a bit, below which a test tells nothing
SIMULATED = 0.2  # of all chances goes to a sound engine: a simulation is never quite sure that the fault is there


@dataclass(frozen=True)
class ShopTest:
    """A test of the shop: minutes, the faults it finds (or sorts of gauge fault), what is done, and its cautions."""

    name: str
    minutes: int
    finds: tuple[str, ...]
    text: str
    cautions: tuple[Caution, ...]

    def of(self, one: Named) -> bool:
        """Return whether this test shows a candidate."""
        sort = one.name.split(":")[0]
        return one.name != SOUND and (sort in self.finds or ("gauges" in self.finds and one.sort == "gauge"))


def _tests() -> tuple[ShopTest, ...]:
    words = prose.read(__file__, "next_tests.toml")
    known = {one.hazard: one for one in (*CAUTIONS, *SHOP_CAUTIONS)}
    found = tuple(
        ShopTest(
            one.text("name"),
            int(str(one.value("minutes", int))),
            one.texts("finds"),
            one.text("text"),
            tuple(known[name] for name in one.texts("cautions")),
        )
        for one in words.tables("tests")
    )
    words.finished()
    return found


TESTS = _tests()


def next_test(found: Diagnosis) -> ShopTest | None:
    """Return the test that tells most a minute; `None` where none tells anything."""
    best = max(TESTS, key=lambda one: told(found, one) / one.minutes)
    return best if told(found, best) > LEAST_TOLD else None


def told(found: Diagnosis, test: ShopTest) -> float:
    """Return how many bits a test would tell on average: how much less there is to doubt after it."""
    chances = np.array([one.probability for one in found.named])
    sound = np.array([one.name == SOUND for one in found.named])
    chances = (1 - SIMULATED) * chances + SIMULATED * sound
    shows = np.array([FINDS if test.of(one) else FALSE_ALARM for one in found.named])
    after = 0.0
    for outcome in (shows, 1 - shows):
        together = chances * outcome
        after += together.sum() * _doubt(together / together.sum())
    return float(_doubt(chances) - after)


def _doubt(chances):
    known = chances[chances > 0]
    return float(-(known * np.log2(known)).sum())
