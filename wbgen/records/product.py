"""What the catalogue says of one product: each fact with its unit as written, its basis and its place in the file."""

from __future__ import annotations

from typing import Annotated, ClassVar, Final, Generic, Literal, TypeVar

from pydantic import BeforeValidator, ValidationInfo

from wbgen.files.yaml.fields import NumberLeaf, OneOf, Text
from wbgen.files.yaml.records import PlacedMapping, Record, only_symbols, report_of
from wbgen.records.basis import BasisOf
from wbgen.records.fields import Count, LabelRate, Measure, MonthLeaf, Name, Of, Share, VolumeRate
from wbgen.records.meant import offer, slip_of
from wbgen.trade.nutrients import FORMS
from wbgen.trade.tank_rules import TRAITS

T = TypeVar("T")

Form = Literal["soluble powder", "liquid", "granule", "brew"]
LIQUID_FORMS: Final = ("liquid", "brew")


class Fact(Record, Generic[T]):
    """One thing that is known of a product, and how it is known. A plain value in the file is its `value`."""

    PLAIN: ClassVar = "value"

    value: T
    basis: BasisOf
    note: Text | None = None


def _forms_only(data: object, info: ValidationInfo) -> object:
    """The contents by symbol; a symbol that is none goes to the report and is left out."""
    if not isinstance(data, PlacedMapping):
        return data
    return only_symbols(data, FORMS, report_of(info))


Contents = Annotated[dict[str, Share], BeforeValidator(_forms_only)]


class Analysis(Record):
    """What a product contains. `contents` has a share for each symbol on the label; the symbol says oxide or element.

    w/w is mass in mass; w/v is mass in volume, 1 % being 10 g/L.
    """

    per: Annotated[Literal["w/w", "w/v"], OneOf("w/w", "w/v")]
    contents: Contents
    basis: BasisOf
    note: Text | None = None


class NitrogenForms(Record):
    """The parts of a product's nitrogen, each as a share of the product; None where it is not stated."""

    ammonium: Share | None = None
    nitrate: Share | None = None
    urea: Share | None = None
    slow_release: Share | None = None
    basis: BasisOf
    note: Text | None = None


class Active(Record):
    """What a product is bought for besides its nutrients: `what` it is, and its share, counted as the analysis is."""

    what: Name
    share: Share
    basis: BasisOf
    note: Text | None = None


class Rates(Record):
    """The label rate: what is usual, and the lowest and highest that the label gives (None where it gives none).

    A plain value in the file is the usual rate.
    """

    PLAIN: ClassVar = "usual"

    low: LabelRate | None = None
    usual: LabelRate
    high: LabelRate | None = None
    basis: BasisOf
    note: Text | None = None


class Carrier(Record):
    """The water that carries a spray: the least and the usual carrier volume. A plain value is the usual one."""

    PLAIN: ClassVar = "usual"

    least: VolumeRate | None = None
    usual: VolumeRate
    basis: BasisOf
    note: Text | None = None


_Concentration = Annotated[Measure, Of("mass per volume")]


class Solubility(Record):
    """Mass of the product, as sold, that a volume of water dissolves at two temperatures."""

    at_10_C: _Concentration | None = None  # noqa: N815 - the file's key, with _ for a space
    at_20_C: _Concentration | None = None  # noqa: N815
    basis: BasisOf
    note: Text | None = None


Months = Annotated[int, MonthLeaf()]


class TraitLeaf(OneOf):
    """A word of what a product is in the tank; a word for another substance is never taken for it."""

    def remedy(self, written: str) -> str:
        return offer(slip_of(written, {word: word for word in self.words}), self.words)


Trait = Annotated[str, TraitLeaf(*TRAITS.values())]


class Product(Record):
    """One product. Every field but the name, form and family may be None: not stated.

    `interval` and `most_a_year` are of the one method that the product is put on by, of spraying where it is put on by
    both: those of dry spreading are then `dry_interval` and `dry_most_a_year`. Neither stands in for the other.

    `synonyms` are other names by which it may be called. `basis` is that of the facts that state none of their own,
    which have it already.
    """

    name: Name
    synonyms: tuple[Name, ...] = ()
    form: Annotated[Form, OneOf("soluble powder", "liquid", "granule", "brew")]
    family: Name
    basis: BasisOf | None = None
    analysis: Analysis | None = None
    nitrogen: NitrogenForms | None = None
    active: Active | None = None
    release: Fact[Annotated[Measure, Of("time")]] | None = None
    density: Fact[_Concentration] | None = None
    dissolved_solids: Fact[Annotated[Measure, Of("mass per volume", zero=True)]] | None = None
    spray: Rates | None = None
    dry: Rates | None = None
    carrier: Carrier | None = None
    interval: Fact[Annotated[Measure, Of("time", zero=True)]] | None = None
    most_a_year: Fact[Count] | None = None
    dry_interval: Fact[Annotated[Measure, Of("time", zero=True)]] | None = None
    dry_most_a_year: Fact[Count] | None = None
    months: Fact[tuple[Months, ...]] | None = None
    solubility: Solubility | None = None
    salt_index: Fact[Annotated[float, NumberLeaf(0, 1000)]] | None = None
    traits: Fact[tuple[Trait, ...]] | None = None
    mixing_place: Fact[Count] | None = None
    hazards: Fact[tuple[Text, ...]] | None = None
    cautions: Fact[tuple[Text, ...]] | None = None
    pack: Fact[Annotated[Measure, Of("mass", "volume")]] | None = None
    price: Fact[Annotated[float, NumberLeaf(0)]] | None = None
    note: Text | None = None

    @property
    def is_liquid(self) -> bool:
        """Whether it is poured by volume rather than weighed."""
        return self.form in LIQUID_FORMS
