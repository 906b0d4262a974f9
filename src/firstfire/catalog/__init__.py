"""Materials, bearings, seals, tube, fasteners, fuels: sourced tables behind one typed reader."""
