"""One question with the numbers of three seats, and the key of each, worked step by step."""

import turbomath as tm

for seat in ("A01", "A02", "A03"):
    variant = tm.homework.asking.variants.make(
        "manifold_density", secret="change this to your own", assignment="density", seat=seat
    )
    print(f"Seat {seat}: {variant.wording}\n\n{tm.working.solution(variant, units='us')}\n")
