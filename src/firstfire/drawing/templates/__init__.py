"""Templates at true size: to be printed, held against the engine, cut out or extruded."""
