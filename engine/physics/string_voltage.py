"""Voltage of solar panels in series: highest on the coldest morning, lowest in the heat."""

from engine.physics.ranges import within

STANDARD_DEGC = 25.0
"""Cell temperature of a panel's label (IEC 61215, standard test conditions)."""

COLD_FACTORS = (
    (25, 1.00), (20, 1.02), (15, 1.04), (10, 1.06), (5, 1.08), (0, 1.10), (-5, 1.12), (-10, 1.14), (-15, 1.16),
    (-20, 1.18), (-25, 1.20), (-30, 1.21), (-35, 1.23), (-40, 1.25),
)  # fmt: skip
"""Down to which lowest air temperature a factor on the open-circuit voltage of crystalline panels holds. Source: NFPA
70 (NEC) 2023, table 690.7(A): 4 °C and below compared with a public authority's file, the warmer rows from memory."""


def voltage_v(label_v: float, coefficient_frac_k: float, cell_degc: float) -> float:
    """A panel's voltage at a cell temperature, from that of its label.

    U = U₂₅·(1 + β·(T − 25)). label_v: 1 to 200. coefficient_frac_k: −0.01 to 0. cell_degc: −60 to 120.

    Source: IEC 60891 (linear temperature coefficients, from memory).

    >>> round(voltage_v(37, -0.0030, -20), 1), round(voltage_v(31, -0.0040, 65), 2)
    (42.0, 26.04)
    """
    within("label_v", label_v, 1, 200)
    within("coefficient_frac_k", coefficient_frac_k, -0.01, 0)
    within("cell_degc", cell_degc, -60, 120)
    return label_v * (1 + coefficient_frac_k * (cell_degc - STANDARD_DEGC))


def cold_factor_frac(coldest_degc: float) -> float:
    """Factor on the open-circuit voltage where a panel's coefficient is not known, by the lowest air temperature.

    coldest_degc: −40 to 60; between two rows the colder one counts. Source: NFPA 70 (NEC) 2023, table 690.7(A).

    >>> cold_factor_frac(-20), cold_factor_frac(-20.5), cold_factor_frac(30)
    (1.18, 1.2, 1.0)
    """
    within("coldest_degc", coldest_degc, -40, 60)
    return next(factor for least, factor in COLD_FACTORS if coldest_degc >= least)


def cold_open_v(open_circuit_v: float, coefficient_frac_k: float | None, coldest_degc: float) -> float:
    """Open-circuit voltage of one panel on the coldest morning, its cells as cold as the air.

    By the maker's coefficient, else by the table; never below the label's. coldest_degc: −60 to 60, without a
    coefficient −40 and more. The others as for `voltage_v`.

    Source: NFPA 70 (NEC) 2023, 690.7(A): the maker's coefficient has priority.

    >>> round(cold_open_v(45, -0.0028, -20), 2), round(cold_open_v(45, None, -20), 2)
    (50.67, 53.1)
    """
    within("coldest_degc", coldest_degc, -60, 60)
    if coefficient_frac_k is None:
        return within("open_circuit_v", open_circuit_v, 1, 200) * cold_factor_frac(coldest_degc)
    return voltage_v(open_circuit_v, coefficient_frac_k, min(coldest_degc, STANDARD_DEGC))


def reached_degc(string_v: float, coefficient_frac_k: float, limit_v: float) -> float:
    """Cell temperature at which a string's open-circuit voltage reaches a limit; colder is over it.

    T = 25 + (U_limit/U₂₅ − 1)/β. string_v, limit_v: 1 to 2000. coefficient_frac_k: −0.01 to −0.0005. A temperature that
    no cell ever has means that the limit is never reached, or always passed. Source: as for `voltage_v`.

    >>> round(reached_degc(148, -0.0030, 150), 1)
    20.5
    """
    within("string_v", string_v, 1, 2000)
    within("limit_v", limit_v, 1, 2000)
    within("coefficient_frac_k", coefficient_frac_k, -0.01, -0.0005)
    return STANDARD_DEGC + (limit_v / string_v - 1) / coefficient_frac_k
