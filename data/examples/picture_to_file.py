"""The picture of measured and theoretical charge gain, as a file that any browser opens and any printer prints."""

from pathlib import Path

import turbomath as tm
from turbomath.pictures import charge_gain, printed

reduced = tm.reduce_run("generator_air_to_air")
gains = [reduced[f"{side}_charge_gain"] for side in ("measured", "theoretical")]
pairs = [(gain.value, gain.plus_or_minus) for gain in gains]
picture = charge_gain.picture_charge_gain(reduced.run["boost"], *pairs, "us")
Path("charge_gain.svg").write_text(printed.svg(picture), encoding="utf-8")
print(picture.alt)
