"""The fuels that the kit knows by name: what each needs of air, what heat it gives, and which mixtures burn.

Heating values: Heywood, table D.4 (from memory of the print); natural gas: U.S. Department of Energy, Alternative Fuels
Data Center, compressed natural gas, 20,160 Btu/lb. Which mixtures burn in an engine is common practice: a hot cylinder
burns leaner ones than open air does, and a diesel has fuel left over from the stoichiometric ratio down.
"""

from dataclasses import dataclass

from turbomath.physics.combustion_air import stoichiometric_air_fuel_ratio
from turbomath.physics.fuel import DIESEL_HYDROGEN_CARBON_RATIO, DIESEL_LOWER_HEATING_VALUE


@dataclass(frozen=True)
class Fuel:
    """One fuel: its hydrogen-carbon ratio, its lower heating value [J/kg], and the excess-air ratios that burn.

    `cools` is whether it dries up in the charge and so cools it below every medium that touches it.
    """

    hydrogen_carbon_ratio: float
    lower_heating_value: float
    richest: float
    leanest: float
    cools: bool = False

    @property
    def stoichiometric(self) -> float:
        """Air that burns a kilogram of it with nothing left over [-]."""
        return float(stoichiometric_air_fuel_ratio(self.hydrogen_carbon_ratio))


FUELS = {
    "diesel": Fuel(DIESEL_HYDROGEN_CARBON_RATIO, DIESEL_LOWER_HEATING_VALUE, 1.0, float("inf")),
    "natural gas": Fuel(3.8, 46.9e6, 0.6, 2.6),
    "propane": Fuel(8 / 3, 46.4e6, 0.5, 2.2, cools=True),
    "gasoline": Fuel(1.87, 44.0e6, 0.5, 1.8, cools=True),
}


def known(name: str) -> Fuel | None:
    """Return the fuel of that name in any letter case; None for one that the kit does not know.

    Examples
    --------
    >>> round(known("Propane").stoichiometric, 1), known("wood gas")
    (15.7, None)
    """
    return FUELS.get(plain(name))


def plain(name: str) -> str:
    """Return the name of a fuel as the table has it: small letters, one space between words."""
    return " ".join(name.lower().split())
