"""The engine as one vector model from its own dimensions, with SVG, DXF and PDF writers."""
