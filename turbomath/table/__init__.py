"""The ground floor: quantities, constants, sources, cautions, formulas and refusals."""
