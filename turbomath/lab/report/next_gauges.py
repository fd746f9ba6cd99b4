"""Which one or two gauges more would tell most: those that stand between these readings and the most results."""

from collections.abc import Mapping, Sequence
from itertools import combinations

# What a reading is called in the advice, by the need it meets; what bench.toml would have to state is no gauge
GAUGES = {
    "ambient_pressure": "the barometer",
    "ambient_temperature": "the temperature of the air outside",
    "compressor_inlet_temperature": "the temperature at the compressor inlet",
    "compressor_outlet_pressure": "the pressure loss of the aftercooler",
    "compressor_outlet_temperature": "the temperature at the compressor outlet",
    "cooler_pressure_loss": "the pressure loss of the aftercooler",
    "manifold_pressure": "the boost",
    "manifold_temperature": "the manifold temperature",
    "medium_temperature": "the temperature of what cools the aftercooler",
    "medium_flow": "the cooling medium where it leaves the aftercooler",
    "humidity": "the humidity",
    "engine_speed": "the engine speed",
    "air_flow": "the air flow",
    "fuel_flow": "the fuel flow",
    "power": "the power",
    "turbine_inlet_temperature": "the temperature at the turbine inlet",
    "turbine_outlet_temperature": "the temperature at the turbine outlet",
    "turbine_inlet_pressure": "the pressure at the turbine inlet",
}
LEAST = 3  # results, for fewer it is not worth a word


def next_gauges_sentence(wanting: Mapping[str, Sequence[str]]) -> str:
    """Return in a sentence what to read next, from `Reduced.wanting`; "" where no gauge tells more."""
    lacking = [{GAUGES[need] for need in needs} for needs in wanting.values() if needs and GAUGES.keys() >= set(needs)]
    picked, told = _most_telling(lacking)
    if told < LEAST:
        return ""
    return f"What would tell most: {', then '.join(picked)}. With that, {told} results more can be worked out."


def _most_telling(lacking: Sequence[set[str]]) -> tuple[list[str], int]:
    """Return the gauge or the two gauges that open the most results, the better one first, and how many they open.

    A second gauge is named only if it opens a result more than the first alone.
    """
    gauges = list(dict.fromkeys(gauge for one in lacking for gauge in sorted(one)))

    def opened(*picked):
        return sum(one <= set(picked) for one in lacking)

    alone = max(gauges, key=opened, default="")
    pair = max(combinations(gauges, 2), key=lambda two: opened(*two), default=())
    if not pair or opened(*pair) <= opened(alone):
        return [alone], opened(alone)
    return sorted(pair, key=opened, reverse=True), opened(*pair)
