"""The equations of one tank, written out plainly from their description.

Pools, in this order: TAN NO2 NO3 Org Soil Plant Gone, nitrogen in the four guilds
AOB AOA CMX NOB (all mg N/L), Alk (meq/L), O2 and Cl (mg/L). Time is in days. Every
constant comes from a scenario file; none stands here but the fixed ones of the equations.
"""
import json
import math

POOLS = "TAN NO2 NO3 Org Soil Plant Gone AOB AOA CMX NOB Alk O2 Cl".split()
AOB, AOA, CMX, NOB = range(4)


def load(path):
    with open(path) as f:
        return json.load(f)


def start(problem):
    return [problem["Initial"].get(p, 0.0) for p in POOLS]


def jumped(y, jump):
    """The pools after a sudden change."""
    old = dict(zip(POOLS, y))
    new = dict(old)
    for pool, row in jump["Of"].items():
        new[pool] = sum(f * old[q] for q, f in row.items())
    for pool, v in jump["Add"].items():
        new[pool] += v
    return [new[p] for p in POOLS]


def timeline(problem, end):
    """Yields (from, to, segment, jump): what holds between two moments, and the
    jump, or None, that comes first, at `from`."""
    marks = [(s["Day"], 0, n, "segment", s) for n, s in enumerate(problem["Segments"])]
    marks += [(j["Day"], 1, n, "jump", j) for n, j in enumerate(problem["Jumps"])]
    marks = [m for m in sorted(marks, key=lambda m: m[:3]) if m[0] < end]
    segment = None
    for i, (day, _, _, kind, what) in enumerate(marks):
        if kind == "segment":
            segment = what
        to = marks[i + 1][0] if i + 1 < len(marks) else end
        yield day, to, segment, what if kind == "jump" else None


def equations(problem, seg):
    """Returns f(t, y) = dy/dt for one segment."""
    p, guilds = problem["Params"], problem["Guilds"]
    acid, demand, sated = problem["Acid"], problem["Demand"], problem["Sated"]
    grow = [p["GrowA"], p["GrowA"], p["GrowA"], p["GrowN"]]
    # mg N of biomass made per mg N oxidised; oxidised per biomass and day at best, and as slowed
    yn = [g["Yield"] * problem["NPerCOD"] for g in guilds]
    full = [seg["Mu"][i] * grow[i] * p["Phos"] / yn[i] for i in range(4)]
    vmax = [f / (1 + seg["Inhib"] * p["Harm"]) for f in full]
    room_size = seg["Cap"] * p["Area"]
    killed = seg["Kill"] * p["Harm"]
    plant = seg["Plant"] * p["Plant"]
    phi_ref = 1 / (1 + 10 ** (9.24629 - 7.5))  # free ammonia at pH 7.5 and 25 C

    def f(t, y):
        tan, no2, no3, org, soil, _, _, *b, alk, o2, cl = y

        # pH: alkalinity in eq/L is (acid + Kw)/H - H
        a = alk * 1e-3
        root = math.sqrt(a * a + 4 * (acid + seg["Kw"]))
        h = 2 * (acid + seg["Kw"]) / (a + root) if a > 0 else (root - a) / 2
        ph = -math.log10(h)
        phi = seg["KaNH3"] / (seg["KaNH3"] + h)
        nh3 = tan * phi / p["FreeNH3"]
        hno2 = no2 * h / (h + seg["KaHNO2"])
        k_scale = (phi_ref / phi) ** 0.25

        # each guild's capacity under this pH, oxygen and inorganic carbon
        film, carbon = o2 * seg["Film"], max(alk, 0)
        v = []
        for i, g in enumerate(guilds):
            lo, hi = g["PHMin"] + p["PHMin"], g["PHMax"]
            e = 0.0
            if lo < ph < hi:
                e = (ph - lo) * (ph - hi) / ((ph - lo) * (ph - hi) - (ph - g["PHOpt"]) ** 2)
            e = max(e, 0.02)
            v.append(vmax[i] * b[i] * e * film / (g["KO2"] + film) * carbon / (g["KAlk"] + carbon))
        used_a = full[AOB] * b[AOB] + full[AOA] * b[AOA] + full[CMX] * b[CMX]
        used_n = full[NOB] * b[NOB] + full[CMX] * b[CMX]
        room_a = max(1 - (used_a / room_size) ** 2, 0)
        room_n = max(1 - (used_n / room_size) ** 2, 0)

        # oxidation, mg N/L/d
        ga, go, gc, gn = guilds
        k_a, k_o, k_c = ga["KTAN"] * k_scale * p["HalfA"], go["KTAN"] * k_scale * p["HalfA"], gc["KTAN"] * k_scale
        sat_a = tan / (k_a + tan * (1 + nh3 / ga["KiNH3"]))
        sat_o = tan / (k_o + tan * (1 + nh3 / go["KiNH3"]))
        sat_c = tan / (k_c + tan)
        sat_n = no2 / (gn["KNO2"] * p["HalfN"] + no2)
        free = lambda g: g["KiHNO2"] / (g["KiHNO2"] + hno2)
        ox_a = v[AOB] * sat_a * free(ga)
        ox_o = v[AOA] * sat_o * free(go)
        inh_c = v[CMX] * max(gc["KiNH3"] / (gc["KiNH3"] + nh3), 0.3) * free(gc)
        ox_c = inh_c * sat_c
        ox_c2 = inh_c * no2 / (gc["KNO2"] + no2)
        leak = tan / (tan + 10 * k_c)  # of comammox to nitrite
        ox_n = v[NOB] * sat_n * free(gn)
        to_no2 = ox_a + ox_o + ox_c * leak
        through = ox_c * (1 - leak)
        from_no2 = ox_n + ox_c2

        # growth out of TAN (of NOB and of comammox on nitrite: out of NO2), and death
        g_a = yn[AOB] * ox_a * room_a
        g_o = yn[AOA] * ox_o * room_a
        g_c = yn[CMX] * ox_c * room_a * 0.5
        g_c2 = yn[CMX] * ox_c2 * room_n * 0.5
        g_n = yn[NOB] * ox_n * room_n * gn["KiNH3"] / (gn["KiNH3"] + nh3)
        poison = cl * seg["ClKill"] * p["Chlorine"]
        die = []
        for i, fed in enumerate((sat_a, sat_o, sat_c, sat_n)):
            harm = killed + poison * (0.15 if i == AOA else 1)
            die.append(b[i] * (seg["Decay"][i] * p["Decay"] * (0.4 + 0.6 * fed) + harm))

        # the rest
        up_t = up_n = 0.0
        if plant > 0:
            up_t = plant * tan / (0.1 + tan + no3 / 3)
            up_n = plant * no3 / 3 / (0.1 + tan + no3 / 3)
        rise = min(1 + p["Rise"] * t, sated) if seg["Rising"] else 1
        fed_t = seg["FedTAN"] * p["Source"] * rise
        fed_o = seg["FedOrg"] * p["Source"] * rise
        rot, leach, lost = seg["KOrg"] * org, seg["KSoil"] * soil, p["Loss"] * no3
        use = 3.43 * (to_no2 + through) + 1.14 * (from_no2 + through) + demand

        d_tan = fed_t + rot + leach - to_no2 - through - g_a - g_o - g_c - up_t
        d_no2 = to_no2 - from_no2 - g_n - g_c2
        d_no3 = from_no2 + through - up_n - lost
        d_alk = (fed_t + rot + leach - 2 * (to_no2 + through) - g_a - g_o - g_c - up_t + up_n + lost) / 14.007
        return [d_tan, d_no2, d_no3, fed_o + sum(die) - rot, -leach, up_t + up_n, lost,
                g_a - die[AOB], g_o - die[AOA], g_c + g_c2 - die[CMX], g_n - die[NOB],
                d_alk, seg["Kla"] * (seg["SatO2"] - o2) - use * o2 / (o2 + 0.05), -seg["KCl"] * cl]

    return f
