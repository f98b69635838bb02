"""Which figures of a plan are common practice, without a source? All in one place, to be questioned and changed."""

from __future__ import annotations

from dataclasses import dataclass, field

COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Settings:
    """
    Figures marked (cp): common practice without a published source. Each is a default, never a safety limit of a table.

    Attributes
    ----------
    adult_age
        A participant younger than this counts as a minor. [year] (cp)
    pressure_age
        Minors work at a pressure station from this age; unknown age never. [year] (cp)
    gauge_days
        A dial gauge counts as tested within the year for so many days, a leap day included. [day] GR-117: every year.
    gauge_off_psi
        A dial gauge that is off by more is replaced, not corrected. [lb/in2] (cp)
    small_load_quarts
        A pressure load of fewer quarts is filled up with jars of hot water. [quart] GR-78
    rack_and_boil_in
        Room under the jars for the rack and over the water for the boil. [in] (cp)
    few_sources_ft
        Above this elevation publications differ. [ft] (cp)
    long_wait_minutes
        A wait of at least this starts ahead of the class. [min] (cp)
    longest_wait_minutes
        A longer wait is refused for a class. [min] (cp)
    canners_per_kettle
        Boiling-water canners that one kettle of boiling water keeps topped up. (cp)
    break_after_minutes
        A class longer than this needs a break. [min] (cp)
    too_hot_minutes
        A canner is too hot to pack for so long after its last load. [min] (cp)
    water_lb_per_quart
        Weight of a quart of water, rounded up. [lb]
    food_lb_per_quart
        Weight of a quart of packed food with its liquid. [lb] (cp)
    glass_lb
        Weight of an empty jar with its lid and screw band by size. [lb] (cp)
    empty_lb
        Weight of an empty canner with lid and rack by kind, on the heavy side; a heavy-walled pressure canner is
        "pressure, heavy wall". [lb] (cp)
    water_qt
        Water with the jars in, by kind of canner. [quart] (cp)
    quick_share, slow_share
        The shortest and longest of a heating time that was worked out, as shares of the likely one. (cp)
    loss_f_per_minute
        What a canner's water loses with the heat off. [deg F/min] (cp)
    refresh_minutes
        Minutes to bring the water back for a further load, by kind of canner and pack. [min] (cp)
    most_batches
        A station makes at most so many batches in a class. (cp)
    extra_batches
        Small published batches fill up large ones while a station makes at most so many more batches for it. (cp)
    demonstration_jars
        Jars of a demonstration where nothing asks for more. (cp)
    least_work_share
        Preparing and cooking a small part of a load takes at least this share of the load's minutes. (cp)
    spare_lid_percent
        Lids bought beyond the jars. [%] (cp)
    warm_jar_minutes
        Warm jars stand so long before they are carried. [min] (cp)
    still_hours
        Jars stand still so long before they travel another way than warm. [h] GR-09
    session_days
        From one session of a series to the next. [day] (cp)
    loose_step_lb
        Steps in which a market weighs loose produce. [lb] (cp)
    lp_gas_btu_per_lb
        Energy in a pound of LP gas. [Btu/lb] (cp)
    break_even_most
        A break-even is looked for up to so many people where no maximum is set.
    """

    adult_age: int = 18
    pressure_age: int = 14
    gauge_days: int = 366
    gauge_off_psi: float = 2.0
    small_load_quarts: float = 2.0
    rack_and_boil_in: float = 1.5
    few_sources_ft: int = 8000
    long_wait_minutes: int = 60
    longest_wait_minutes: int = 1440
    canners_per_kettle: int = 2
    break_after_minutes: int = 240
    too_hot_minutes: tuple[int, int] = (45, 60)
    water_lb_per_quart: float = 2.1
    food_lb_per_quart: float = 2.2
    glass_lb: dict[str, float] = field(
        default_factory=lambda: {
            "quarter-pint": 0.3,
            "half-pint": 0.4,
            "12-ounce": 0.5,
            "pint": 0.65,
            "pint-and-a-half": 0.8,
            "quart": 1.0,
            "half-gallon": 1.8,
        }
    )
    empty_lb: dict[str, float] = field(
        default_factory=lambda: {"boiling-water": 9.0, "steam": 6.0, "pressure": 14.0, "pressure, heavy wall": 22.0}
    )
    water_qt: dict[str, float] = field(default_factory=lambda: {"boiling-water": 12.0, "steam": 2.5, "pressure": 3.0})
    quick_share: float = 0.85
    slow_share: float = 1.3
    loss_f_per_minute: float = 0.5
    refresh_minutes: dict[tuple[str, str], int] = field(
        default_factory=lambda: {
            ("boiling-water", "hot"): 5,
            ("boiling-water", "raw"): 10,
            ("steam", "hot"): 5,
            ("steam", "raw"): 5,
            ("pressure", "hot"): 5,
            ("pressure", "raw"): 10,
        }
    )
    most_batches: int = 12
    extra_batches: int = 2
    demonstration_jars: int = 4
    least_work_share: float = 0.5
    spare_lid_percent: int = 10
    warm_jar_minutes: int = 20
    still_hours: int = 12
    session_days: int = 7
    loose_step_lb: float = 0.5
    lp_gas_btu_per_lb: float = 21_500.0
    break_even_most: int = 60


SETTINGS = Settings()
