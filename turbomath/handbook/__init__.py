"""The handbook: every formula of the kit on one page, and the ones for class on a sheet, from the code itself."""
