"""Renders tanks with Mitsuba 3, a general renderer: standard input and output are JSON.

The water is a closed body of faces of the dielectric kind with an absorbing, scattering medium inside; the floor is an
irradiance meter whose film is the grid of cells, so that every path starts on the floor and looks for the lamp through
the surface. Radiance scales with the square of the refractive index there, which the renderer does by itself.
"""
import json
import math
import os
import sys
import tempfile
import time

import mitsuba as mi

mi.set_variant("scalar_rgb")
mi.set_log_level(mi.LogLevel.Error)
AIR, GLASS = 1.0, 1.52


def grey(value):
    return {"type": "rgb", "value": [value, value, value]}


def matt(albedo):
    return {"type": "diffuse", "reflectance": grey(albedo)}


def rectangle(middle, normal, half_u, half_v, rest):
    """Axis-parallel rectangle; u runs level, v is the other way along its plane (y for a level one)."""
    x, y, z = middle
    turn = mi.ScalarTransform4f().look_at(
        origin=middle,
        target=[x + normal[0], y + normal[1], z + normal[2]],
        up=[0, 1, 0] if normal[2] else [0, 0, 1],
    )
    return {"type": "rectangle", "to_world": turn @ mi.ScalarTransform4f().scale([half_u, half_v, 1]), **rest}


def face(inside, outside, medium=None):
    bsdf = {"type": "dielectric", "int_ior": inside, "ext_ior": outside}
    return {"bsdf": bsdf, **({"interior": medium} if medium else {})}


def obj_file(mesh, folder):
    points, corners = mesh["positions"], mesh["triangles"]
    path = os.path.join(folder, "stone.obj")
    with open(path, "w", encoding="ascii") as out:
        for i in range(0, len(points), 3):
            out.write("v %r %r %r\n" % tuple(points[i : i + 3]))
        for i in range(0, len(corners), 3):
            out.write("f %d %d %d\n" % tuple(c + 1 for c in corners[i : i + 3]))
    return path


def scene_of(tank, folder):
    length, width, depth, index = tank["length"], tank["width"], tank["depth"], tank["index"]
    absorption, scattering = tank["absorption"], tank["scattering"]
    water = {"type": "ref", "id": "water"} if absorption + scattering > 0 else None
    things = {"type": "scene", "integrator": {"type": "volpath", "max_depth": -1}}
    if water:
        things["water"] = {
            "type": "homogeneous",
            "albedo": scattering / (absorption + scattering),
            "sigma_t": absorption + scattering,
            "phase": {"type": "hg", "g": tank["asymmetry"]},
        }
    middle = [length / 2, width / 2, 0.0]
    things["surface"] = rectangle([middle[0], middle[1], depth], [0, 0, 1], length / 2, width / 2, face(index, AIR, water))
    pane = tank["pane"]
    sides = {
        "left": ([0, middle[1], depth / 2], [-1, 0, 0], width / 2),
        "right": ([length, middle[1], depth / 2], [1, 0, 0], width / 2),
        "front": ([middle[0], 0, depth / 2], [0, -1, 0], length / 2),
        "back": ([middle[0], width, depth / 2], [0, 1, 0], length / 2),
    }
    for name, (at, out, half) in sides.items():
        albedo = tank["walls"][name]
        if albedo is not None:
            things[name] = rectangle(at, [-n for n in out], half, depth / 2, {"bsdf": matt(albedo)})
        elif pane == 0:
            things[name] = rectangle(at, out, half, depth / 2, face(index, AIR, water))
        else:
            # water to glass, glass to air, and the pane's four edges dark
            things[name] = rectangle(at, out, half, depth / 2, face(index, GLASS, water))
            outer = [p + pane * n for p, n in zip(at, out)]
            things[name + "-air"] = rectangle(outer, out, half, depth / 2, face(GLASS, AIR))
            mid = [p + pane / 2 * n for p, n in zip(at, out)]
            across = [abs(out[1]), abs(out[0]), 0]
            for k, sign in enumerate((-1, 1)):
                end = [p + sign * half * a for p, a in zip(mid, across)]
                things[f"{name}-end{k}"] = rectangle(
                    end, [-sign * a for a in across], pane / 2, depth / 2, {"bsdf": matt(0)}
                )
                rim = [mid[0], mid[1], depth if sign > 0 else 0]
                size = (pane / 2, half) if out[0] else (half, pane / 2)
                things[f"{name}-rim{k}"] = rectangle(rim, [0, 0, -sign], *size, {"bsdf": matt(0)})
    lamp = tank["lamp"]
    things["lamp"] = rectangle(
        [middle[0], middle[1], lamp["z"]],
        [0, 0, -1],
        lamp["length"] / 2,
        lamp["width"] / 2,
        {
            "bsdf": matt(0),
            "emitter": {"type": "area", "radiance": grey(1 / (math.pi * lamp["length"] * lamp["width"]))},
        },
    )
    if tank["stone"]:
        things["stone"] = {
            "type": "obj",
            "filename": obj_file(tank["stone"], folder),
            "face_normals": True,
            "bsdf": matt(tank["stone"]["albedo"]),
        }
    meter = {
        "type": "irradiancemeter",
        "sampler": {"type": "independent"},
        "film": {
            "type": "hdrfilm",
            "width": tank["columns"],
            "height": tank["rows"],
            "rfilter": {"type": "box"},
            "pixel_format": "luminance",
            "component_format": "float32",
        },
        **({"medium": water} if water else {}),
    }
    things["floor"] = rectangle(middle, [0, 0, 1], length / 2, width / 2, {"bsdf": matt(tank["floor"]), "sensor": meter})
    return mi.load_dict(things)


def main():
    question = json.load(sys.stdin)
    answers = []
    with tempfile.TemporaryDirectory() as folder:
        for tank in question["tanks"]:
            scene = scene_of(tank, folder)
            halves = []
            start = time.process_time()
            for seed in (1, 2):
                image = mi.render(scene, spp=question["paths"] // (tank["columns"] * tank["rows"]), seed=seed)
                halves.append([float(v) for v in mi.TensorXf(image).array])
            answers.append({"seconds": time.process_time() - start, "halves": halves})
    json.dump(answers, sys.stdout)


main()
