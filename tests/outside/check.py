"""Libraries of other people against what the program says: check.py TOLD.json SCENARIOS

TOLD.json is written by the test beside this file; the program itself is named by the variable PEEWIT. What is not installed
is SKIPPED by name. The exit code is 1 where something does not hold.
"""

import csv
import datetime
import importlib
import json
import math
import os
import pathlib
import re
import subprocess
import sys
import tempfile

failed = []


def line(name, worst, most, unit, library):
    """One check: the largest difference found, and the largest allowed."""
    held = worst <= most
    print(f"{'held' if held else 'NOT '}  {name}: {worst:.3g} {unit}, at most {most:g}, by {library}")
    if not held:
        failed.append(name)


def library(name):
    try:
        module = importlib.import_module(name)
    except ImportError:
        print(f"SKIPPED: {name} is not installed")
        return None
    return module


def told_by(module, name):
    import importlib.metadata

    return f"{name} {importlib.metadata.version(name)}"


def apart(one, other):
    """Angle between two places in the sky, degrees."""
    (a1, e1), (a2, e2) = ([math.radians(x) for x in pair] for pair in (one, other))
    half = math.sin((e1 - e2) / 2) ** 2 + math.cos(e1) * math.cos(e2) * math.sin((a1 - a2) / 2) ** 2
    return math.degrees(2 * math.asin(math.sqrt(half)))


def sun(told):
    ephem = library("ephem")
    if not ephem:
        return
    # Air is of no concern to what is well below the horizon, and is the same to within a hundredth of a degree from 5 degrees
    # up; between, each library lifts the sun in its own way.
    worst = {"above 5 degrees": 0.0, "between": 0.0, "below the horizon": 0.0}
    for one in told:
        place = ephem.Observer()
        place.lat, place.lon = str(one["latitude_deg"]), str(one["longitude_deg"])
        place.date = datetime.datetime.fromisoformat(one["day"]) + datetime.timedelta(minutes=one["minutes"])
        place.elevation, place.temp = 0, 10
        place.pressure = 0
        bare = math.degrees(ephem.Sun(place).alt)
        place.pressure = 1010 if bare > -1 else 0
        sun = ephem.Sun(place)
        off = apart([math.degrees(sun.az), math.degrees(sun.alt)], [one["azimuth_deg"], one["elevation_deg"]])
        where = "above 5 degrees" if bare > 5 else "between" if bare > -1 else "below the horizon"
        worst[where] = max(worst[where], off)
    for (where, off), most in zip(worst.items(), (0.02, 0.3, 0.02)):
        line(f"sun {where}", off, most, "deg", told_by(ephem, "ephem"))


def reports(told):
    metar = library("metar")
    if not metar:
        return
    from metar import Metar

    wind = gust = way = other = 0.0
    for one in told:
        # It knows no end of a report but its own: what comes after belongs to a forecast.
        read = Metar.Metar(one["text"], month=7, year=2026)

        def off(found, ours, unit):
            value = found.value(unit) if found is not None else None
            if value is None or ours is None:
                return 0.0 if value is None and ours is None else math.inf
            return abs(value - ours)

        wind = max(wind, off(read.wind_speed, one["mean_mps"], "MPS"))
        gust = max(gust, off(read.wind_gust, one["gust_mps"], "MPS"))
        # It has no direction for a wind that varies all round, and 0 for a calm.
        ours, found = one["from_deg"], read.wind_dir.value() if read.wind_dir else None
        if ours is not None or found:
            way = max(way, math.inf if found is None or ours is None else abs((found - ours + 180) % 360 - 180))
        other = max(other, off(read.temp, one["temperature_c"], "C"), off(read.dewpt, one["dew_point_c"], "C"))
        other = max(other, off(read.press, one["qnh_hpa"], "MB"))
        sight = read.vis.value("M") if read.vis else None
        if sight is not None and sight < 9999 and one["visibility_m"] is not None:
            other = max(other, abs(sight - one["visibility_m"]) / 10)
    by = told_by(metar, "metar")
    line("mean wind of weather reports", wind, 0.01, "m/s", by)
    line("gusts of weather reports", gust, 0.01, "m/s", by)
    line("direction of the wind of weather reports", way, 0.0, "deg", by)
    line("temperature, dew point, pressure, sight/10 m", other, 0.1, "", by)


def planes(told):
    pyproj = library("pyproj")
    if not pyproj:
        return
    by = told_by(pyproj, "pyproj")
    plane = distance = 0.0
    geod = pyproj.Geod(ellps="WGS84")
    for one in told:
        (lat0, lon0), (lat, lon), (east, north) = one["datum_deg"], one["there_deg"], one["at_m"]
        topocentric = pyproj.Transformer.from_pipeline(
            "+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad +step +proj=cart +ellps=WGS84 "
            f"+step +proj=topocentric +ellps=WGS84 +lon_0={lon0} +lat_0={lat0} +h_0=0"
        )
        x, y, _ = topocentric.transform(lon, lat, 0.0)
        plane = max(plane, math.hypot(x - east, y - north))
        _, _, along = geod.inv(lon0, lat0, lon, lat)
        distance = max(distance, abs(along - math.hypot(east, north)))
    line("metres about the datum, by a topocentric projection", plane, 1e-6, "m", by)
    # The plane touches the ground: 3.5 km off it is a fraction of a millimetre, s^3 / (6 R^2), shorter.
    line("distances within 3.5 km, along the ground", distance, 0.001, "m", by)


def shares(told):
    if not library("scipy"):
        return
    import scipy
    from scipy.stats import beta, binomtest

    wilson = exact = lower = 0.0
    for one in told:
        test = binomtest(one["count"], one["of"])
        for method, ours in (("wilson", one["wilson"]), ("exact", one["exact"])):
            found = test.proportion_ci(one["confidence"], method=method)
            off = max(abs(found.low - ours[0]), abs(found.high - ours[1]))
            wilson, exact = (max(wilson, off), exact) if method == "wilson" else (wilson, max(exact, off))
        count, of = one["count"], one["of"]
        bound = beta.ppf(1 - one["confidence"], count, of - count + 1) if count else 0.0
        lower = max(lower, abs(bound - one["exact_lower"]))
    by = told_by(scipy, "scipy")
    line("Wilson's intervals", wilson, 1e-9, "", by)
    line("exact intervals", exact, 1e-9, "", by)
    line("one-sided exact bounds", lower, 1e-9, "", by)


def laps(told):
    if not library("scipy"):
        return
    import scipy
    from scipy.special import ellipe

    worst = 0.0
    for one in told:
        v, w, r = one["airspeed_mps"], one["wind_mps"], one["radius_m"]
        k2 = (w / v) ** 2
        worst = max(worst, abs(4 * r * ellipe(k2) / (v * (1 - k2)) / one["lap_s"] - 1))
    line("lap in a wind, share of it", worst, 1e-12, "", told_by(scipy, "scipy"))


def eddies(told):
    if not library("scipy"):
        return
    import scipy
    from scipy.integrate import quad

    worst = 0.0
    for one in told:
        feet = one["height_m"] / 0.3048
        base = 0.177 + 0.000823 * feet
        up = 0.1 * one["wind_20ft_mps"]
        for length, sigma, wanted, strength, across in (
            (one["length_h_m"], one["sigma_h_mps"], feet / base**1.2 * 0.3048, up / base**0.4, False),
            (one["length_v_m"], one["sigma_v_mps"], one["height_m"], up, True),
        ):
            worst = max(worst, abs(length / wanted - 1), abs(sigma / strength - 1))
            along = lambda o: strength**2 * 2 * length / math.pi / (1 + (length * o) ** 2)
            over = lambda o: strength**2 * length / math.pi * (1 + 3 * (length * o) ** 2) / (1 + (length * o) ** 2) ** 2
            whole = quad(over if across else along, 0, math.inf)[0]
            worst = max(worst, abs(whole / sigma**2 - 1))
    line("lengths, strengths and the integral of the spectrum, MIL-F-8785C", worst, 1e-6, "", told_by(scipy, "scipy"))


def metres(text):
    """A length as a scenario has it, in metres."""
    value, unit = re.fullmatch(r"\s*(-?[\d.]+)\s*(m|ft)\s*", text).groups()
    return float(value) * {"m": 1.0, "ft": 0.3048}[unit]


# The people at the pilot position fill so much about it.
PILOT_SPOT_M = 3.0

MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split()


def field_of(scenario, folder):
    """Boundary, areas that count, obstacles, pilot, flight line, in metres about the datum."""
    from shapely.geometry import Point, Polygon

    month = MONTHS[int(scenario["date"][5:7]) - 1]
    counts = lambda area: not area.get("months") or month in [name[:3] for name in area["months"]]
    if "field_file" not in scenario:
        field = scenario["field"]
        ring = lambda part: Polygon(part["ring_m"], part.get("holes_m", []))
        area = lambda part: (part["name"], part["rule"], ring(part))
        tall = lambda part: (part["name"], metres(part["height"]), ring(part) if part.get("ring_m") else Point(part["at_m"]))
        return {
            "boundary": ring(field["boundary"]),
            "areas": [area(part) for part in field.get("areas", []) if counts(part)],
            "obstacles": [tall(part) for part in field.get("obstacles", [])],
            "pilot": Point(field["pilot_m"]),
            "line": field.get("flight_line_m"),
            "flat": not field.get("ground"),
        }
    pyproj = library("pyproj")
    if not pyproj:
        return None
    features = json.loads((folder / scenario["field_file"]).read_text())["features"]
    roles = lambda role: [one for one in features if one["properties"]["role"] == role]
    lon0, lat0 = roles("datum")[0]["geometry"]["coordinates"]
    project = pyproj.Transformer.from_pipeline(
        "+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad +step +proj=cart +ellps=WGS84 "
        f"+step +proj=topocentric +ellps=WGS84 +lon_0={lon0} +lat_0={lat0} +h_0=0"
    )
    place = lambda at: project.transform(at[0], at[1], 0.0)[:2]
    ring = lambda one: Polygon(*(lambda rings: (rings[0], rings[1:]))([[place(at) for at in part] for part in one["geometry"]["coordinates"]]))
    shape = lambda one: Point(place(one["geometry"]["coordinates"])) if one["geometry"]["type"] == "Point" else ring(one)
    line_ = roles("flight-line")
    return {
        "boundary": ring((roles("boundary") or roles("outline"))[0]),
        "areas": [(one["properties"]["name"], one["properties"]["rule"], ring(one)) for one in roles("area") if counts(one["properties"])],
        "obstacles": [(one["properties"]["name"], metres(one["properties"]["height"]), shape(one)) for one in roles("obstacle")],
        "pilot": shape(roles("pilot")[0]),
        "line": [place(at) for at in line_[0]["geometry"]["coordinates"]] if line_ else None,
        "flat": True,
    }


def beside_or_over(track, shape, top, aside, above):
    """The best that either way leaves over its buffer, at its least along the way, and which margin that is."""
    from shapely.geometry import Point

    worst = None
    for (x0, y0, h0), (x1, y1, h1) in zip(track, track[1:]):
        # Far finer than the program's own samples.
        for part in range(50):
            share = part / 50
            at = Point(x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
            beside, over = shape.distance(at), h0 + (h1 - h0) * share - top
            spare, margin = max((beside - aside, beside), (over - above, over))
            if worst is None or spare < worst[0]:
                worst = (spare, margin)
    return worst


def margins(folder):
    program = os.environ.get("PEEWIT")
    if not library("shapely"):
        return
    if not program:
        print("SKIPPED: PEEWIT names no program to ask")
        return
    import shapely
    from shapely.geometry import LineString

    by = told_by(shapely, "shapely")
    for path in sorted(folder.glob("*.json")):
        scenario = json.loads(path.read_text())
        field = field_of(scenario, folder)
        if not field:
            continue
        with tempfile.TemporaryDirectory() as out:
            csv_path, json_path = f"{out}/track.csv", f"{out}/run.json"
            subprocess.run(
                [program, "recover", path, "--trials", "0", "--out", csv_path, "--out", json_path],
                check=True,
                capture_output=True,
            )
            with open(csv_path, newline="") as file:
                rows = list(csv.DictReader(file))
            report = json.loads(pathlib.Path(json_path).read_text())
        track = [(float(row["x_m"]), float(row["y_m"]), float(row["height_m"])) for row in rows]
        way = LineString([(x, y) for x, y, _ in track])
        told = {row["limit"]: row for row in report["margins"]}
        worst, seen, taken = 0.0, 0, []

        def hold(name, found):
            nonlocal worst, seen
            row = told.get(name)
            if row is None or "margin_m" not in row:
                return
            seen += 1
            taken.append(name)
            worst = max(worst, abs(found - row["margin_m"]))

        inside = field["boundary"].covers(way)
        edge = field["boundary"].boundary
        if inside:
            hold("boundary", way.distance(edge))
        else:
            outside = way.difference(field["boundary"])
            hold("boundary", -furthest(outside, edge))
        for name, rule, shape in field["areas"]:
            if rule in ("no-fly", "people"):
                if way.intersects(shape):
                    found = -furthest(way.intersection(shape), shape.boundary)
                else:
                    found = way.distance(shape)
                hold(f"{name}, {rule}", found)
        limits = scenario["limits"]
        hold("pilot position", way.distance(field["pilot"]) - PILOT_SPOT_M)
        if field["line"]:
            (ax, ay), (bx, by_) = field["line"]
            normal = (-(by_ - ay), bx - ax)
            size = math.hypot(*normal)
            side = lambda x, y: ((x - ax) * normal[0] + (y - ay) * normal[1]) / size
            behind = side(field["pilot"].x, field["pilot"].y)
            hold("flight line", min(side(x, y) * (-1 if behind > 0 else 1) for x, y, _ in track))
        highest, lowest = max(h for *_, h in track), min(h for *_, h in track)
        if limits.get("height_limit"):
            above = limits["height_limit"]["above"]
            if field["flat"] or above == "home":
                name = "height limit over home" if above == "home" else "height limit over the ground"
                hold(name, metres(limits["height_limit"]["height"]) - highest)
        if field["flat"]:
            hold("height over the ground", lowest)
            for name, top, shape in field["obstacles"]:
                buffers = metres(limits["buffer"]), metres(limits["height_buffer"])
                hold(f"obstacle: {name}", beside_or_over(track, shape, top, *buffers)[1])
        # The track is told to the millimetre, and the way past a mast is looked at every few centimetres.
        line(f"{scenario['name']}: {seen} margins ({', '.join(taken)})", worst if seen >= 3 else math.inf, 0.005, "m", by)


def furthest(part, edge):
    """How far the furthest point of a way lies from an edge; a segment that is straight is furthest at points a decimetre apart."""
    from shapely.geometry import Point

    pieces = part.geoms if hasattr(part, "geoms") else [part]
    return max(edge.distance(Point(at)) for piece in pieces for at in piece.segmentize(0.1).coords)


def main():
    told = json.loads(pathlib.Path(sys.argv[1]).read_text())
    empty = [name for name, cases in told.items() if not cases]
    if empty:
        sys.exit(f"nothing to look at: {', '.join(empty)}")
    sun(told["sun"])
    reports(told["reports"])
    planes(told["planes"])
    shares(told["shares"])
    laps(told["laps"])
    eddies(told["eddies"])
    margins(pathlib.Path(sys.argv[2]))
    print(f"{len(failed)} did not hold" if failed else "all that could be checked held")
    sys.exit(1 if failed else 0)


main()
