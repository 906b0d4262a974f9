"""The engine's description: models, units at the edge, layers, unknowns, rules, resolve."""
