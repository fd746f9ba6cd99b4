"""Numbers that are rounded to so many significant figures by everything that is done with them, as on paper."""

import math


class Figures(float):
    """A float; each sum, product, quotient and power of it is rounded to `count` significant figures."""

    count = 3

    @classmethod
    def of(cls, value):
        """Return a value rounded to the figures of the class."""
        return cls(0.0) if value == 0 else cls(round(value, cls.count - 1 - math.floor(math.log10(abs(value)))))


def _rounded(name):
    def work(self, *others):
        return type(self).of(getattr(float, name)(float(self), *map(float, others)))

    return work


for _name in ("add", "sub", "mul", "truediv", "pow", "radd", "rsub", "rmul", "rtruediv", "rpow"):
    setattr(Figures, f"__{_name}__", _rounded(f"__{_name}__"))
FourFigures = type("FourFigures", (Figures,), {"count": 4})
