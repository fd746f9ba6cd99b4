"""How the dots of the air path show that air is hot: by their colour, and by tails."""

import functools

COLD, HOT, FIRE = 300.0, 440.0, 850.0  # K: where the colour is that of cooled air, of squeezed air, of flame
LONGEST_TAIL = 5.5


@functools.lru_cache(maxsize=256)
def heat(temperature: float, dot: float) -> tuple[float, float]:
    """Return the colour, from 0 cold over 1 hot to 2 flame, and the length of the tails of dots of a size.

    Many stretches of one drawing are equally hot.
    """
    warm = min(max((temperature - COLD) / (HOT - COLD), 0.0), 1.0)
    burning = min(max((temperature - HOT) / (FIRE - HOT), 0.0), 1.0)
    tail = LONGEST_TAIL * dot / 4.4 * (0.55 * max(warm - 0.3, 0.0) / 0.7 + 0.45 * burning)
    return round(warm + burning, 3), round(tail, 1)
