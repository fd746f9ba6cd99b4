"""Two turbochargers side by side: the quantities that are read once for each bank, and how they are named."""

from dataclasses import replace
from typing import Any

BANKS = ("left", "right")
OF_EACH_BANK = (
    "intake_restriction",
    "compressor_inlet_temperature",
    "compressor_outlet_pressure",
    "compressor_outlet_temperature",
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
    "turbine_inlet_pressure",
)


def of_bank(name: str, bank: str) -> str:
    """Return the name of a quantity as it is read on one bank."""
    return f"{name}_{bank}"


COLUMNS_OF_BANKS = tuple(of_bank(name, bank) for name in OF_EACH_BANK for bank in BANKS)


def with_banks(quantities: dict[str, Any]) -> dict[str, Any]:
    """Return the table of quantities with a row for each bank where both may be read."""
    return quantities | {of_bank(name, bank): _row(quantities[name], bank) for name in OF_EACH_BANK for bank in BANKS}


def _row(row, bank):
    symbol = rf"{row.symbol}^\mathrm{{{bank}}}"
    return replace(row, name=of_bank(row.name, bank), meaning=f"{row.meaning}, {bank} bank", symbol=symbol)
