"""Reads DXF files with ezdxf and saves them again as other programs would, or as they go wrong there.

Input on stdin: a JSON list of {"from", "to", "does": [names of the functions below]}.
"""
import json
import logging
import sys

import ezdxf

# What it thinks of saving in an older release is of no matter here.
logging.disable(logging.WARNING)


def ellipses(doc):
    for circle in doc.modelspace().query("CIRCLE"):
        circle.to_ellipse()


def splines(doc):
    for circle in doc.modelspace().query("CIRCLE"):
        circle.to_spline()


def exploded(doc):
    for polyline in doc.modelspace().query("LWPOLYLINE POLYLINE"):
        polyline.explode()


def r12(doc):
    doc.dxfversion = "R12"


def r2018(doc):
    doc.dxfversion = "R2018"


def polylines(doc):
    msp = doc.modelspace()
    for light in list(msp.query("LWPOLYLINE")):
        heavy = msp.add_polyline2d(
            light.get_points("xyb"), format="xyb", close=light.closed, dxfattribs={"layer": light.dxf.layer}
        )
        heavy.dxf.elevation = (0, 0, 12)
        msp.delete_entity(light)


def hatched(doc):
    msp = doc.modelspace()
    hatch = msp.add_hatch(color=2, dxfattribs={"layer": "HATCH"})
    hatch.paths.add_polyline_path([(0, 0), (80, 0), (80, 90)], is_closed=True)


def one_block(doc):
    msp = doc.modelspace()
    block = doc.blocks.new("PART")
    for entity in list(msp):
        msp.move_to_layout(entity, block)
    msp.add_blockref("PART", (0, 0))


def off(doc):
    doc.layers.get("HOLES").off()


def frozen(doc):
    doc.layers.get("HOLES").freeze()


def paper(doc):
    msp = doc.modelspace()
    for entity in list(msp.query('*[layer=="HOLES"]')):
        msp.move_to_layout(entity, doc.layout("Layout1"))


def unfolded(doc):
    msp = doc.modelspace()
    for entity in list(msp.query('*[layer=="FOLD-UP" | layer=="FOLD-DOWN"]')):
        msp.delete_entity(entity)


def inches(doc):
    doc.units = ezdxf.units.IN


def metres(doc):
    doc.units = ezdxf.units.M


def unitless(doc):
    doc.units = 0


def moved(doc):
    for entity in doc.modelspace():
        entity.translate(250, -40, 0)


for job in json.load(sys.stdin):
    document = ezdxf.readfile(job["from"])
    for name in job["does"]:
        globals()[name](document)
    document.saveas(job["to"])
