"""Reads DXF files with ezdxf and prints what it finds as JSON, one entry per file.

Input on stdin: a JSON list of file names. Arcs are worked out from bulges by ezdxf, not here.
"""
import json
import sys

import ezdxf
from ezdxf.math import bulge_to_arc


def vertices(points, closed):
    """Each point with its bulge and, where it starts an arc, the arc that ezdxf makes of it."""
    found = []
    for index, (x, y, bulge) in enumerate(points):
        vertex = {"x": x, "y": y, "bulge": bulge, "arc": None}
        if bulge and (closed or index + 1 < len(points)):
            following = points[(index + 1) % len(points)]
            centre, start, end, radius = bulge_to_arc((x, y), following[:2], bulge)
            vertex["arc"] = {"centre": list(centre)[:2], "radius": radius, "start": start, "end": end}
        found.append(vertex)
    return found


def entity(item):
    kind = item.dxftype()
    entry = {"type": kind, "layer": item.dxf.layer}
    if kind == "LWPOLYLINE":
        entry["closed"] = bool(item.closed)
        entry["vertices"] = vertices([tuple(p) for p in item.get_points("xyb")], item.closed)
    elif kind == "POLYLINE":
        points = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0)) for v in item.vertices]
        entry["closed"] = bool(item.is_closed)
        entry["vertices"] = vertices(points, item.is_closed)
        entry["layersOfParts"] = sorted({v.dxf.layer for v in item.vertices} | {item.seqend.dxf.layer})
    elif kind == "CIRCLE":
        entry["centre"] = list(item.dxf.center)[:2]
        entry["radius"] = item.dxf.radius
    elif kind == "LINE":
        entry["from"] = list(item.dxf.start)[:2]
        entry["to"] = list(item.dxf.end)[:2]
    elif kind == "TEXT":
        entry["at"] = list(item.dxf.insert)[:2]
        entry["text"] = item.plain_text()
        entry["height"] = item.dxf.height
        entry["rotation"] = item.dxf.rotation
    return entry


def read(name):
    document = ezdxf.readfile(name)
    auditor = document.audit()
    header = document.header
    layers = {
        layer.dxf.name: {
            "colour": layer.dxf.color,
            "lineType": layer.dxf.linetype,
            "lineWeight": layer.dxf.get("lineweight"),
        }
        for layer in document.layers
    }
    view = document.viewports.get("*ACTIVE")[0]
    return {
        "errors": [error.message for error in auditor.errors],
        "fixes": [fix.message for fix in auditor.fixes],
        "version": document.dxfversion,
        "insUnits": header.get("$INSUNITS"),
        "measurement": header.get("$MEASUREMENT"),
        "extMin": list(header["$EXTMIN"])[:2],
        "extMax": list(header["$EXTMAX"])[:2],
        "view": {"centre": list(view.dxf.center)[:2], "height": view.dxf.height},
        "layers": layers,
        "entities": [entity(item) for item in document.modelspace()],
    }


print(json.dumps([read(name) for name in json.load(sys.stdin)]))
