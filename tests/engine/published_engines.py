"""Engines of two published models, identified from measured engines, to try the fit on: none of the kit's shapes.

A generator set of 6.7 L: M. Sivertsson, L. Eriksson, Modelling for optimal control: a validated diesel-electric
powertrain model, SIMS 2014. A truck's engine of 12.7 L: J. Wahlström, L. Eriksson, Modelling diesel engines with a
variable-geometry turbocharger and exhaust gas recirculation, Proc. IMechE D 225 (2011), here with its vanes held still
and no exhaust led back. Equations are from memory of the papers, figures as seen in public copies of the models.
Drawn by chance is only how such an engine is matched: boost, air-fuel ratio, speed, charge temperature, size of the
compressor. The wheel's speed is that of the published size. Engines stand along the first axis, points along the other.
"""

from dataclasses import dataclass
from types import SimpleNamespace

import numpy as np

KA, KE, CPA, CPE, RA, RE = 1.3964, 1.2734, 1011.0, 1332.0, 287.0, 286.0  # both papers
HEAT, AMBIENT, DAY = 42.9e6, 1.0111e5, 298.46
GASES = (KA - 1) / KA, (KE - 1) / KE


class GeneratorSet:
    """Compressor by flow coefficient and speed, turbine by blade-speed ratio; turbine and bearings in one."""

    displacement, ratio, cylinders, speeds, inlet = 6.7e-3, 17.2, 6, (22.0, 33.0), 9.951e4
    behind = 1.0587e5  # Pa after the turbine
    wheel, exponent = 0.0325, 2.3633  # m, of the turbine; of its flow
    speeds_of_wheel = 1500.0, 16000.0

    @staticmethod
    def compressor(w, ratio):
        share = w / np.sqrt(295.53 / DAY) / 15_000
        most = ((15_000 * share * 0.0328) ** 2 * 1.638 / (2 * CPA * 295.53) + 1) ** (1 / GASES[0])
        corrected = (0.0419 * share**2 + 0.3416 * share + 0.1918) * np.sqrt(np.maximum(1 - (ratio / most) ** 2, 1e-9))
        flow = corrected * (9.951e4 / AMBIENT) / np.sqrt(295.53 / DAY)
        off = flow * RA * 295.53 / (w * 8 * 0.0328**3 * 9.951e4) - 0.0598
        away = 79.2671 * off**2 - 2 * 1.4358 * off * (share - 0.5106) + 0.7985 * (share - 0.5106) ** 2
        return flow, 0.7915 - away

    @staticmethod
    def filling(p3, speed):
        return 1.4393e-4 * np.sqrt(p3) - 0.0239 * np.sqrt(2 * np.pi * speed) + 1.1339

    def indicated(self, injected, speed):
        share = injected / (2 * np.pi * speed) / 0.445
        return (0.6650 + (0.7090 - 0.6650) * (2 * share - share**2)) * (1 - self.ratio**-0.35)

    @staticmethod
    def friction(speed):
        w = 2 * np.pi * speed
        return 1e5 * (3.7591e-5 * w**2 - 0.0052 * w + 0.7196)

    def exhaust(self, air, fuel, charge, pressures):
        start = fuel * HEAT / (air + fuel) / CPA + charge * self.ratio ** (KA - 1)
        out = 1.2563 * pressures ** GASES[0] * self.ratio ** (1 - KA) * start
        return 298.86 + (out - 298.86) * np.exp(-44.6091 / ((air + fuel) * CPE))

    @staticmethod
    def turbine(blade):
        return 0.7075 - 2.0245 * (blade - 0.6220) ** 2


class Truck:
    """Compressor by flow and pressure ratio, flow by ellipses of head and flow coefficient."""

    displacement, ratio, cylinders, speeds, inlet = 12.7e-3, 17.0, 6, (18.0, 30.0), AMBIENT
    behind = AMBIENT
    wheel, exponent = 0.04, 2.8902
    speeds_of_wheel = 2900.0, 12500.0

    @staticmethod
    def compressor(w, ratio):
        head = 2 * CPA * DAY * (ratio ** GASES[0] - 1) / (0.04 * w) ** 2
        wide = (1 - (1.0882e-8 * w**2 - 1.7320e-4 * w + 1.0286) * head**2) / (-1.4298e-8 * w**2 - 0.0015 * w + 29.6462)
        flow = AMBIENT * np.pi * 0.04**3 * w / (RA * DAY) * np.sqrt(np.maximum(wide, 1e-9))
        off, other = flow - 0.2753, np.maximum(ratio - 1, 1e-6) ** 0.2708 - 1.0455
        return flow, 0.7364 - (3.0919 * off**2 - 2 * 2.4823 * off * other + 2.1479 * other**2)

    @staticmethod
    def filling(p3, speed):
        return 1.149702 - 2.08166e-4 * np.sqrt(p3) - 3.44652e-3 * np.sqrt(60 * speed)

    def indicated(self, injected, speed):
        return 0.6894 * (1 - self.ratio**-0.35) + 0 * injected

    @staticmethod
    def friction(speed):
        n = 60 * speed / 1000
        return 1e5 * (0.97272 * n**2 - 0.67688 * n + 0.59819)

    def exhaust(self, air, fuel, charge, pressures):
        squeezed, left, start = self.ratio ** (KA - 1), 0.0, charge
        for _ in range(12):  # burnt gas that stays behind warms the charge
            heat = fuel * HEAT / (air + fuel) * (1 - left) / CPA
            out = 1.1015 * pressures ** GASES[0] / squeezed * (heat + start * squeezed)
            left = pressures ** (1 / KA) / (self.ratio * (1 + heat / (start * squeezed)))
            start = left * out + (1 - left) * charge
        return DAY + (out - DAY) * np.exp(-96.2755 * np.pi * 0.1 * 2 / ((air + fuel) * CPE))

    @staticmethod
    def turbine(blade):
        return 0.8180 - 1.3563 * 1.09 * (blade - 0.9755) ** 2  # 1.09: the weak growth with the wheel's speed


@dataclass(frozen=True)
class Engines:
    """Engines of one published model, each number of shape (engines, 1)."""

    model: object
    speed: np.ndarray
    boost: np.ndarray
    charge: np.ndarray  # K, held by a valve in the water
    fuel: np.ndarray  # rated
    size: np.ndarray  # of the compressor over the published one
    area: np.ndarray  # of the turbine's nozzle


def draw(random, count, model):
    """Return engines of one model, matched so that their rated point lies near the best flow of the compressor."""
    drawn = _drawn(random, 4 * count + 20, model)
    sound = np.flatnonzero(np.isfinite(drawn.area[:, 0]))[:count]
    return Engines(model, *(getattr(drawn, name)[sound] for name in Engines.__annotations__ if name != "model"))


def _drawn(random, count, m):
    def between(low, high):
        return random.uniform(low, high, (count, 1))

    speed, boost, charge = between(*m.speeds), between(1.2e5, 2.2e5), between(295.0, 330.0)
    p3 = AMBIENT + boost
    air = m.filling(p3, speed) * p3 * m.displacement * speed / 2 / (RA * charge)
    fuel = air / between(25, 32)
    wheels = np.linspace(*m.speeds_of_wheel, 400)[None, :]
    flows, efficiencies = m.compressor(wheels, p3 / m.inlet)
    best = np.argmax(efficiencies, axis=1)[:, None]
    size = air / np.take_along_axis(flows, best, axis=1) / between(0.95, 1.2)
    blank = Engines(m, speed, boost, charge, fuel, size, np.ones_like(air))
    low, high = np.full_like(p3, 1.02 * m.behind), np.full_like(p3, 4.0 * m.behind)
    for _ in range(50):
        p4 = (low + high) / 2
        s = _shaft(blank, p3, p4, air, fuel, speed)
        low, high = np.where(s.spare > 0, low, p4), np.where(s.spare > 0, p4, high)
    area = (air + fuel) * np.sqrt(s.t4 * RE) / (p4 * _flow(m, p4))
    sound = (p4 < 3.5 * m.behind) & (np.abs(s.spare) < 1.0) & (s.t4 < 1000) & (s.efficiency > 0.6)
    return Engines(m, speed, boost, charge, fuel, size, np.where(sound, area, np.nan))


def _flow(m, p4):
    return np.sqrt(np.maximum(1 - (m.behind / p4) ** m.exponent, 1e-12))


def _shaft(e, p3, p4, air, fuel, speed):
    """Return what the shaft does at these pressures: spare power, efficiencies and temperatures."""
    m, ratio = e.model, p3 / e.model.inlet
    low, high = (np.full_like(p3, one) for one in m.speeds_of_wheel)
    for _ in range(40):
        w = (low + high) / 2
        less = e.size * m.compressor(w, ratio)[0] < air
        low, high = np.where(less, w, low), np.where(less, high, w)
    efficiency = np.maximum(m.compressor(w, ratio)[1], 0.3)
    start = DAY if m.inlet == AMBIENT else 295.53
    work = CPA * start * (ratio ** GASES[0] - 1) / efficiency
    t4 = m.exhaust(air, fuel, e.charge, p4 / p3)
    ideal = CPE * t4 * (1 - (m.behind / p4) ** GASES[1])
    wheels = m.turbine(m.wheel * w / np.sqrt(2 * ideal))
    spare = (air + fuel) * ideal * wheels - air * work
    return SimpleNamespace(spare=spare, t4=t4, t2=start + work / CPA, efficiency=efficiency, wheels=wheels)


def settled(e, speed, fuel):
    """Return what gauges without error would show where turbine and compressor are in balance."""
    low, high = np.full(np.shape(fuel), 1.0) * AMBIENT, np.full(np.shape(fuel), 4.0) * AMBIENT
    for _ in range(40):
        p3 = (low + high) / 2
        spare = _at(e, p3, speed, fuel)[0]
        low, high = np.where(spare > 0, p3, low), np.where(spare > 0, high, p3)
    return _at(e, p3, speed, fuel)[1]


def _at(e, p3, speed, fuel):
    m = e.model
    air = m.filling(p3, speed) * p3 * m.displacement * speed / 2 / (RA * e.charge)
    p4 = p3
    for _ in range(12):
        t4 = m.exhaust(air, fuel, e.charge, p4 / p3)
        passed = (air + fuel) * np.sqrt(t4 * RE) / e.area
        low, high = np.full_like(p3, m.behind), 8 * np.full_like(p3, m.behind)
        for _ in range(30):
            middle = (low + high) / 2
            less = middle * _flow(m, middle) < passed
            low, high = np.where(less, middle, low), np.where(less, high, middle)
        p4 = middle
    s = _shaft(e, p3, p4, air, fuel, speed)
    injected = fuel / m.cylinders / (speed / 2) * 1e6  # mg a stroke
    swept = m.displacement * speed / 2
    power = m.indicated(injected, speed) * fuel * HEAT - (m.friction(speed) + p4 - p3) * swept
    return s.spare, dict(
        manifold_pressure=p3,
        power=power,
        manifold_temperature=e.charge + 0 * p3,
        compressor_outlet_temperature=s.t2,
        turbine_inlet_temperature=s.t4,
        turbine_inlet_pressure=p4,
    )
