"""What stays of oil, varnish and grease on a line."""
from types import SimpleNamespace as Record


def dressing(d):
    """What stays on the line for good: kg per m³ of voids, thickness of the film, share of grease, factor on the scales."""
    on = Record(filling=0.0, film=0.0, grease=0.0, weighed=1.0, density=d["film_density"])
    empty, stays, volume, liquid, covers = 1.0, 0.0, 0.0, 0.0, False
    for step in d["steps"]:
        bound = 1.0 if step["pressure"] is None else min(max(1 - step["pressure"] / d["air"], 0), 1)
        if step["do"] == "oil":
            fill, share = min(d["oil_fill"], bound), step["varnish"]
            wet = empty * fill / ((1 - share) / d["oil_density"] + share / d["varnish_density"])
            dried, solids = wet * (1 - share) * (1 + d["oil_gain"]), wet * share * d["varnish_solids"]
            dried_volume = dried / d["dried_oil_density"] + solids / d["film_density"]
        elif step["do"] == "varnish":
            fill, share = min(d["varnish_fill"] * d["pick_up"], bound), step["solvent"]
            wet = empty * fill / ((1 - share) / d["varnish_density"] + share / d["solvent_density"])
            dried, solids = 0.0, wet * (1 - share) * d["varnish_solids"]
            dried_volume, covers = solids / d["film_density"], covers or d["varnish_solids"] * (1 - share) > 0
        elif step["do"] == "dry":
            on.filling, empty = on.filling + stays, min(max(empty + liquid - volume, 0), 1)
            on.film = d["film"] * d["pick_up"] if covers else on.film
            stays, volume, liquid, covers = 0.0, 0.0, 0.0, False
            continue
        else:
            on.grease, on.weighed = d["grease"], d["weighed"]
            continue
        on.weighed = d["weighed"]
        stays, volume, liquid = stays + dried + solids, volume + dried_volume, liquid + empty * fill
        empty -= empty * fill
    on.filling += stays
    on.film = d["film"] * d["pick_up"] if covers else on.film
    return on
