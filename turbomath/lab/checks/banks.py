"""Check 41: two turbochargers side by side show alike, and what is read on one bank is read on the other."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks.bounds import BANK_BOUNDS
from turbomath.lab.checks.finding import Finding, judged, spoken
from turbomath.lab.checks.look import Look
from turbomath.table.banks import BANKS, OF_EACH_BANK, of_bank
from turbomath.table.quantities import QUANTITIES

CHECK = 41
SHARED = ("intake_restriction", "compressor_inlet_temperature")  # one filter often serves both
EXCHANGE = (
    "Exchange the two probes or gauges and read again: if the difference goes with them it is theirs, else the bank's."
)


def banks_compared(look: Look) -> Iterable[Finding]:
    """41: left less right where both were read; at idle and at load alike."""
    for name in OF_EACH_BANK:
        left, right = (of_bank(name, bank) for bank in BANKS)
        both = look.present(left, right)
        if len(both) == 2:
            apart = look.run[left] - look.run[right]
            yield from judged(
                look,
                CHECK,
                look.steady,
                apart,
                look.widths(*both),
                BANK_BOUNDS[name],
                both,
                lambda row, both=both: look.told(row, *both),
                EXCHANGE,
            )


def banks_read(look: Look) -> Iterable[Finding]:
    """41 again, for the run: a bank that was not read, and banks of an engine that has only one turbocharger."""
    two = look.bench.engine.turbochargers == len(BANKS)
    for name in OF_EACH_BANK:
        read = look.present(*(of_bank(name, bank) for bank in BANKS))
        plain = QUANTITIES[name].plain_name
        if read and not two:
            reason = (
                f"{' and '.join(QUANTITIES[one].plain_name for one in read)}, while bench.toml says one turbocharger"
            )
            action = (
                f"Write turbochargers = 2 under [engine], or name the column '{plain}'; now it is used for nothing."
            )
            yield spoken(CHECK, None, "amber", read, reason, action)
        elif len(read) == 1 or (not read and two and look.run.has(name) and name not in SHARED):
            there = QUANTITIES[read[0]].plain_name if read else f"one {plain}"
            reason = f"{there} only, of two turbochargers: it stands for both, and nothing compares the banks"
            yield spoken(CHECK, None, "note", read or (name,), reason, f"Read the {plain} of both banks.")


def one_side_missing(look: Look) -> Iterable[Finding]:
    """41 again, at each row: a cell of one bank is empty, so the other stands for both there."""
    for name in OF_EACH_BANK:
        both = look.present(*(of_bank(name, bank) for bank in BANKS))
        if len(both) == 2:
            for row in look.steady:
                here = [look.is_read(column, row) for column in both]
                alone, other = both if here[0] else both[::-1]
                reason = (
                    f"{look.told(row, alone)}, and no {QUANTITIES[other].plain_name}: one bank stands for both here"
                )
                yield spoken(CHECK, row, "amber" if sum(here) == 1 else "", (other, alone), reason, "Read both banks.")


def turbochargers(look: Look) -> Iterable[Finding]:
    """All looks at two turbochargers."""
    with np.errstate(all="ignore"):
        yield from banks_compared(look)
        yield from one_side_missing(look)
