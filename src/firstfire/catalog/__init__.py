"""Materials, bearings, seals, tube, fasteners, fuels: sourced tables behind one typed reader."""

from firstfire.catalog.fuel_blends import mixture
from firstfire.catalog.lookup import Catalog, kinds, load
from firstfire.catalog.own import own_files
from firstfire.catalog.properties import Property, properties, texts
from firstfire.catalog.row import CurvePoint, Datum, Row
from firstfire.catalog.seals import FittingRing, orings_for_bore

__all__ = [
    "Catalog",
    "CurvePoint",
    "Datum",
    "FittingRing",
    "Property",
    "Row",
    "kinds",
    "load",
    "mixture",
    "orings_for_bore",
    "own_files",
    "properties",
    "texts",
]
