"""The engine as a path for air: from ambient to manifold, and what flows along it."""
