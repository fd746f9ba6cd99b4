"""A shipped run reduced, as a pandas table: what was measured, what theory says, and whether they agree."""

import turbomath as tm

reduced = tm.reduce_run("generator_air_to_air")
print(repr(reduced))
table = reduced.to_frame("us").set_index("point")
print(table.loc[table["condition"] == "load"].filter(regex="charge gain|agree").round(1).T.to_string())
