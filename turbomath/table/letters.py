"""What the letters of equations stand for that are no quantities: constants, values looked up, and the like."""

from dataclasses import dataclass

from turbomath.table import constants

EXACT, ADOPTED, MEASURED, DERIVED = "exact by definition", "adopted by a standard", "measured", "follows from others"


@dataclass(frozen=True)
class Constant:
    """A constant of `constants`: its name there, its letter, what it is, its SI unit, and how it is known."""

    name: str
    letter: str
    meaning: str
    unit: str
    known: str

    @property
    def value(self) -> float:
        """The value in SI units."""
        return getattr(constants, self.name)

    @property
    def source(self) -> str:
        """The key of the source that prints it."""
        return constants.SOURCES[self.name]


CONSTANTS = (
    Constant("STANDARD_GRAVITY", "g", "standard gravity", "m/s²", EXACT),
    Constant("STANDARD_PRESSURE", r"p_\mathrm{std}", "pressure of the standard day at sea level", "Pa", EXACT),
    Constant("STANDARD_TEMPERATURE", r"T_\mathrm{std}", "temperature of the standard day at sea level", "K", EXACT),
    Constant("STANDARD_LAPSE_RATE", "L", "fall of temperature with height on the standard day", "K/m", EXACT),
    Constant("ZERO_CELSIUS", r"T_\mathrm{ice}", "0 °C as an absolute temperature", "K", EXACT),
    Constant("MOLAR_GAS_CONSTANT", r"R_\mathrm{m}", "gas constant of a mole of any gas", "J/(mol K)", EXACT),
    Constant("AIR_HEAT_CAPACITY_RATIO", r"\gamma", "heat capacity ratio of air", "", EXACT),
    Constant("AIR_GAS_CONSTANT", "R", "gas constant of dry air", "J/(kg K)", ADOPTED),
    Constant("WATER_MOLAR_MASS", r"M_\mathrm{w}", "molar mass of water", "kg/mol", MEASURED),
    Constant("AIR_SPECIFIC_HEAT", "c_p", "specific heat of air at constant pressure", "J/(kg K)", DERIVED),
    Constant("VAPOUR_GAS_CONSTANT", r"R_\mathrm{v}", "gas constant of water vapour", "J/(kg K)", DERIVED),
    Constant("VAPOUR_MASS_RATIO", r"R / R_\mathrm{v}", "vapour over air by mass at equal pressure", "", DERIVED),
)

# Letters that mean the same in every equation; words, or the name of a quantity
OTHERS = {
    "e": "base of the natural logarithm, 2.71828",
    r"\infty": "without end",
    r"k_\mathrm{P}": "what turns torque times speed into power",
    r"k_\mathrm{u}": "what turns work of each pound or kilogram into the square of a speed",
    r"(\gamma-1)/\gamma": "exponent of squeezing",
    r"p_\mathrm{sat}": "saturation_pressure",
    r"T_\mathrm{sat}": "temperature at which water boils at this pressure of vapour",
    r"w_\mathrm{sat}": "humidity ratio of saturated air",
}
