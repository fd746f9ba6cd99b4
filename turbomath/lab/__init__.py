"""The lab: what the shop hands in (bench and readings), read whole or refused, then reduced, checked and reported."""
