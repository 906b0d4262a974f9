"""The engine as one vector model from its own dimensions, with SVG, DXF and PDF writers.

`firstfire.drawing.section.section` and `firstfire.drawing.along_crank.along_crank` give a
`Drawing`; `to_svg`, `to_dxf` and `to_pdf` write it.
"""
