"""The ways out of a shortage (PL5), with the rules they are checked by.

Friday's dinner at Larkrise for eight: sole in a cream sauce, and the cream has not come.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.allergens import Larder
from pantry.rules.allocation import Need
from pantry.rules.buying import wants_of
from pantry.rules.conflicts import conflicts
from pantry.rules.house_time import Span
from pantry.rules.market import Market
from pantry.rules.menu import (
    Change,
    Constraint,
    DiningTable,
    Ingredient,
    Recipe,
    RecipeKind,
    Service,
    ServiceState,
    Serving,
    Substitute,
    VariantChange,
)
from pantry.rules.recipes import direct_needs, piece_of
from pantry.rules.stock import BaseUnit, Declared, Item
from pantry.rules.supply import DeliveryRule, Pack, Supplier
from pantry.rules.variants import with_variant
from pantry.rules.ways_out import (
    AnotherDish,
    Checks,
    FewerPortions,
    ShopRun,
    Shortage,
    UseSubstitute,
    UseVariant,
    ways_out,
)

LONDON = ZoneInfo("Europe/London")
FRIDAY = date(2027, 3, 12)
DINNER = datetime(2027, 3, 12, 19, 30, tzinfo=UTC)
NOW = datetime(2027, 3, 12, 9, 0, tzinfo=UTC)
LITRE = 1_000_000

FREE_OF_ALL = Declared(free_of=frozenset({"milk", "egg", "fish", "soya", "nuts"}))


def item(id_, unit=BaseUnit.ML, declared=FREE_OF_ALL, **facts):
    return Item(id_, id_, unit, declared=declared, **facts)


def containing(allergen):
    free_of = FREE_OF_ALL.free_of - {allergen}
    return Declared(contains=frozenset({allergen}), free_of=free_of)


ITEMS = {
    each.id: each
    for each in (
        item("cream", declared=containing("milk")),
        item("creme fraiche", declared=containing("milk")),
        item("soya cream", declared=containing("soya")),
        item("nut cream", declared=Declared(free_of=frozenset({"milk"}))),
        item("olive oil"),
        item("sole", BaseUnit.G, containing("fish")),
        item("leeks", BaseUnit.G),
        item("lemon", BaseUnit.EACH, whole=True),
        item("lime", BaseUnit.EACH, whole=True),
    )
}


def recipe(id_, *lines, **facts):
    ingredients = tuple(Ingredient(name, Fraction(amount)) for name, amount in lines)
    return Recipe(id_, id_, RecipeKind.DISH, Fraction(8), ingredients, **facts)


PLAIN = ("plain", (VariantChange(Change.REPLACE, "cream", "olive oil", Fraction(80)),))
LESS = ("lighter", (VariantChange(Change.REPLACE, "cream", "cream", Fraction(300)),))
SOYA = ("soya", (VariantChange(Change.REPLACE, "cream", "soya cream", Fraction(600)),))
SOLE = recipe(
    "sole in cream", ("sole", 1600), ("cream", 800), ("lemon", 2), variants=(PLAIN, LESS, SOYA)
)
LEEK_TART = recipe("leek tart", ("leeks", 1200))
GRILLED_SOLE = recipe("grilled sole", ("sole", 2000), ("olive oil", 100))


class Kitchen:
    """What stands there, who sells what, who sits at the table: the checks that follow from it."""

    def __init__(
        self, stock, suppliers=(), packs=(), constraints=(), recipes=(), items=(), now=NOW
    ):
        self.stock = {"sole": 1600_000, "lemon": 2000, **stock}
        self.items = {**ITEMS, **{each.id: each for each in items}}
        self.constraints = constraints
        self.recipes = {each.id: each for each in (SOLE, *recipes)}
        market = Market(
            suppliers, packs, margin=Span(), zone=LONDON, now=now, last=DINNER + timedelta(days=7)
        )
        self.checks = Checks(
            available=self.available,
            offers=market.offers,
            itself=self.itself,
            needs=self.needs,
            conflicts=self.conflicts,
            piece=lambda item: piece_of(self.items[item]),
        )

    def available(self, item, wanted_by, until):
        assert wanted_by <= until
        return self.stock.get(item, 0)

    def itself(self, dish, portions):
        return wants_of(self.needs(dish, None, portions))

    def needs(self, dish, variant, portions):
        service = Service(
            "2027-03-12/dinner/family",
            FRIDAY,
            "dinner",
            "family",
            DINNER,
            8,
            ServiceState.CONFIRMED,
            (Serving("main", dish, variant, portions, chosen=True),),
        )
        table = DiningTable("family", "Family", 1)
        return direct_needs(service, self.recipes, self.items, {"family": table}, LONDON)

    def conflicts(self, dish, variant, instead_of):
        larder = Larder(
            {each.id: each.declared for each in self.items.values()},
            {each.id: each.name for each in self.items.values()},
            {},
            instead_of,
        )
        cooked = with_variant(self.recipes[dish], variant)
        return conflicts(self.constraints, cooked, "family", FRIDAY, larder)


def shortage(short=800_000, what="cream", **facts):
    need = Need("n1", "2027-03-12/dinner/family", SOLE.id, what, 800_000, DINNER, DINNER)
    facts = {"dish": SOLE, "variant": None, "portions": 8, **facts}
    return Shortage(need, short, FRIDAY, **facts)


def found(kitchen, of=None, *, substitutes=(), dishes=(), kind=None, now=NOW):
    every = ways_out(of or shortage(), substitutes, dishes, kitchen.checks, now)
    return [way for way in every if kind is None or way.kind == kind]


def supplier(id_, cutoff=time(12, 0), at=time(16, 0), days_before=0, **terms):
    rules = tuple(DeliveryRule(weekday, at, days_before, cutoff) for weekday in range(7))
    return Supplier(id_, id_.title(), rules, **terms)


def pack(who, what, quantity, price, life=None):
    name = f"{who}-{what}-{quantity}"
    return Pack(name, who, what, name, quantity, quantity, price, life_on_arrival_days=life)


def cannot(person, *words):
    return Constraint(person, "family", frozenset(words))


def test_PL5_every_way_out_in_the_order_of_how_little_it_changes():
    kitchen = Kitchen(
        {"cream": 250_000, "creme fraiche": LITRE, "olive oil": LITRE, "leeks": 1200_000},
        [supplier("dairy")],
        [pack("dairy", "cream", LITRE, 320)],
        recipes=[LEEK_TART],
    )

    every = found(
        kitchen,
        shortage(550_000),
        substitutes=[Substitute("cream", "creme fraiche", Fraction(1))],
        dishes=[LEEK_TART],
    )

    assert [way.kind for way in every] == [
        "another_supplier",
        "substitute",
        "variant",
        "another_dish",
        "fewer_portions",
        "shop_run",
    ]
    assert every[-1] == ShopRun("cream", 550_000)


def test_PL5_with_nothing_anywhere_there_is_only_the_shop():
    assert found(Kitchen({})) == [ShopRun("cream", 800_000)]


@pytest.mark.parametrize(("minutes", "ways"), [(-1, 1), (0, 0), (1, 0)])
def test_PL5_nobody_goes_shopping_for_a_service_that_has_begun(minutes, ways):
    now = DINNER + timedelta(minutes=minutes)

    assert len(found(Kitchen({}, now=now), kind="shop_run", now=now)) == ways


class TestAnotherSupplier:
    def test_PL5_one_purchase_a_supplier_the_cheapest_first_in_whole_packs(self):
        kitchen = Kitchen(
            {},
            [supplier("dairy"), supplier("farm")],
            [
                pack("dairy", "cream", LITRE, 320),
                pack("farm", "cream", LITRE // 2, 140),
                pack("farm", "cream", 2 * LITRE, 450),
            ],
        )

        ways = found(kitchen, kind="another_supplier")

        assert [way.purchase.offer.pack.supplier for way in ways] == ["farm", "dairy"]
        assert [way.purchase.packs for way in ways] == [2, 1]
        assert [way.purchase.quantity for way in ways] == [800_000, 800_000]
        assert ways[0].purchase.offer.delivery.at == datetime(2027, 3, 12, 16, 0, tzinfo=UTC)

    def test_PL5_the_supplier_who_was_missed_is_no_way_out(self):
        kitchen = Kitchen({}, [supplier("dairy")], [pack("dairy", "cream", LITRE, 320)])

        of = shortage(missed=frozenset({"dairy"}))

        assert found(kitchen, of, kind="another_supplier") == []

    @pytest.mark.parametrize(
        ("terms", "ways"),
        [
            ({"cutoff": time(9, 0)}, 1),
            ({"cutoff": time(8, 59)}, 0),
            ({"cutoff": time(10, 0), "send": timedelta(hours=2)}, 0),
            ({"at": time(19, 30)}, 1),
            ({"at": time(19, 31)}, 0),
        ],
    )
    def test_PL5_only_a_delivery_that_still_makes_it(self, terms, ways):
        kitchen = Kitchen({}, [supplier("dairy", **terms)], [pack("dairy", "cream", LITRE, 320)])

        assert len(found(kitchen, kind="another_supplier")) == ways

    def test_PL5_a_sure_delivery_comes_before_a_cheaper_one_that_may_fail(self):
        """From Tuesday and Friday only Friday's still makes it, and there is none in reserve."""
        boat = Supplier("boat", "Boat", (DeliveryRule(4, time(16, 0), 0, time(12, 0)),))
        kitchen = Kitchen(
            {},
            [replace(boat, may_fail=True), supplier("dairy")],
            [pack("boat", "cream", LITRE, 10, life=2), pack("dairy", "cream", LITRE, 320)],
        )

        ways = found(kitchen, kind="another_supplier")

        assert [way.purchase.offer.pack.supplier for way in ways] == ["dairy", "boat"]
        assert [way.purchase.offer.at_risk for way in ways] == [False, True]


class TestSubstitute:
    FRAICHE = Substitute("cream", "creme fraiche", Fraction(3, 4), "not for whipping")

    def test_PL5_by_its_ratio_and_with_its_condition(self):
        kitchen = Kitchen({"creme fraiche": 600_000})

        ways = found(kitchen, substitutes=[self.FRAICHE], kind="substitute")

        assert ways == [UseSubstitute(self.FRAICHE, 600_000, None)]
        assert ways[0].substitute.when == "not for whipping"

    def test_PL5_not_where_there_is_too_little_and_none_can_come(self):
        kitchen = Kitchen({"creme fraiche": 599_999})

        assert found(kitchen, substitutes=[self.FRAICHE], kind="substitute") == []

    def test_PL5_what_is_lacking_of_it_can_be_bought(self):
        kitchen = Kitchen(
            {"creme fraiche": 400_000},
            [supplier("dairy")],
            [pack("dairy", "creme fraiche", 150_000, 110)],
        )

        (way,) = found(kitchen, substitutes=[self.FRAICHE], kind="substitute")

        assert way.quantity == 600_000
        assert (way.purchase.item, way.purchase.quantity) == ("creme fraiche", 200_000)
        assert way.purchase.packs == 2

    def test_PL5_only_for_what_is_short(self):
        kitchen = Kitchen({"cream": 500_000, "creme fraiche": 225_000})

        ways = found(kitchen, shortage(300_000), substitutes=[self.FRAICHE], kind="substitute")

        assert ways == [UseSubstitute(self.FRAICHE, 225_000, None)]

    def test_PL5_another_items_substitute_is_none(self):
        kitchen = Kitchen({"creme fraiche": LITRE})
        for_oil = Substitute("olive oil", "creme fraiche", Fraction(1))

        assert found(kitchen, substitutes=[for_oil], kind="substitute") == []

    def test_MS1_a_share_of_a_thousandth_is_rounded_up(self):
        third = Substitute("cream", "creme fraiche", Fraction(1, 3))

        (way,) = found(
            Kitchen({"creme fraiche": LITRE}),
            shortage(100),
            substitutes=[third],
            kind="substitute",
        )

        assert way.quantity == 34

    def test_RQ1_a_whole_substitute_is_taken_in_whole_pieces(self):
        """One lemon lacks; one lime and a half stand in for it: two limes."""
        limes = Substitute("lemon", "lime", Fraction(3, 2))
        of = shortage(1000, "lemon")

        (way,) = found(
            Kitchen({"lemon": 1000, "lime": 2000}), of, substitutes=[limes], kind="substitute"
        )

        assert way.quantity == 2000
        assert not found(
            Kitchen({"lemon": 1000, "lime": 1999}), of, substitutes=[limes], kind="substitute"
        )

    def test_PL5_what_the_dish_uses_of_the_substitute_anyway_is_not_given_twice(self):
        """The sauce has 200 ml of creme fraiche of its own besides the cream."""
        sauce = recipe("sole in cream", ("cream", 800), ("creme fraiche", 200))
        of = shortage(dish=sauce)

        def ways(there):
            kitchen = Kitchen({"creme fraiche": there}, recipes=[sauce])
            return found(kitchen, of, substitutes=[self.FRAICHE], kind="substitute")

        assert ways(800_000) == [UseSubstitute(self.FRAICHE, 600_000, None)]
        assert ways(799_999) == []

    @pytest.mark.parametrize(
        ("substitute", "constraints", "ways"),
        [
            ("creme fraiche", (), 1),
            ("soya cream", (), 1),
            ("soya cream", (cannot("Ines", "soya"),), 0),
            ("soya cream", (cannot("Tom", "milk"),), 1),
            ("creme fraiche", (cannot("Tom", "milk"),), 1),  # he does not eat the sole as it is
            ("creme fraiche", (cannot("Ines", "creme fraiche"),), 0),
            ("nut cream", (cannot("Rosa", "nuts"),), 0),  # nobody said that it is free of them
            ("nut cream", (cannot("Tom", "milk"),), 1),
        ],
    )
    def test_AL3_it_is_no_worse_for_anybody_at_the_table(self, substitute, constraints, ways):
        kitchen = Kitchen({substitute: LITRE}, constraints=constraints)
        one = Substitute("cream", substitute, Fraction(1))

        assert len(found(kitchen, substitutes=[one], kind="substitute")) == ways

    def test_AL3_the_worst_that_is_known_of_a_dish_counts(self):
        """The sole may have milk in it and the cream has: whoever asks last must not hide that."""
        kitchen = Kitchen(
            {"nut cream": LITRE},
            constraints=[cannot("Tom", "milk")],
            items=[
                replace(ITEMS["sole"], declared=Declared(may_contain=frozenset({"milk"}))),
                replace(ITEMS["nut cream"], declared=containing("milk")),
            ],
        )
        backwards = replace(
            kitchen.checks, conflicts=lambda *asked: reversed(kitchen.conflicts(*asked))
        )
        one = Substitute("cream", "nut cream", Fraction(1))

        assert UseSubstitute(one, 800_000, None) in ways_out(shortage(), [one], [], backwards, NOW)
        milkless = item("cream")
        kitchen.items["cream"] = milkless
        assert ways_out(shortage(), [one], [], backwards, NOW) == (ShopRun("cream", 800_000),)

    def test_AL3_what_was_not_known_does_not_become_certain(self):
        """Of the cream nobody knows about egg; a custard certainly has it."""
        kitchen = Kitchen(
            {"custard": LITRE},
            constraints=[cannot("Rosa", "egg")],
            items=[
                replace(ITEMS["cream"], declared=Declared()),
                item("custard", declared=containing("egg")),
            ],
        )
        one = Substitute("cream", "custard", Fraction(1))

        assert found(kitchen, substitutes=[one], kind="substitute") == []


class TestVariant:
    def test_PL5_one_that_does_without_and_for_which_all_is_there(self):
        assert found(Kitchen({"olive oil": 80_000}), kind="variant") == [UseVariant("plain", ())]

    def test_PL5_one_that_only_wants_less_of_it_is_none(self):
        kitchen = Kitchen({"cream": 300_000})

        assert found(kitchen, kind="variant") == []

    def test_PL5_one_that_lacks_something_else_is_none(self):
        assert found(Kitchen({"olive oil": 79_999}), kind="variant") == []
        assert found(Kitchen({"olive oil": 80_000, "sole": 0}), kind="variant") == []

    def test_PL5_what_it_lacks_can_be_bought(self):
        """Of whom it costs least: two small bottles here, one large there."""
        kitchen = Kitchen(
            {},
            [supplier("deli"), supplier("grocer")],
            [pack("deli", "olive oil", LITRE, 1100), pack("grocer", "olive oil", 50_000, 90)],
        )

        (way,) = found(kitchen, kind="variant")

        (one,) = way.purchases
        assert (one.item, one.quantity, one.packs) == ("olive oil", 80_000, 2)
        assert one.offer.pack.supplier == "grocer"

    def test_AL3_one_that_harms_somebody_is_none(self):
        stock = {"olive oil": LITRE, "soya cream": LITRE}

        def variants(*constraints):
            kitchen = Kitchen(stock, constraints=constraints)
            return [way.variant for way in found(kitchen, kind="variant")]

        assert variants() == ["plain", "soya"]
        assert variants(cannot("Ines", "soya")) == ["plain"]


class TestAnotherDish:
    def dishes(self, *dishes, constraints=(), stock=None):
        kitchen = Kitchen(stock or {"leeks": 1200_000}, constraints=constraints, recipes=dishes)
        return [way.dish for way in found(kitchen, dishes=dishes, kind="another_dish")]

    def test_PL5_one_for_which_everything_is_there(self):
        assert self.dishes(LEEK_TART, GRILLED_SOLE) == ["leek tart"]
        assert self.dishes(LEEK_TART, stock={"leeks": 1199_999}) == []

    def test_PL5_what_is_made_for_it_is_there_as_well(self):
        """The tart has its leeks; the pastry it is baked in wants cream beside them."""
        for cream, offered in ((100_000, ["leek tart"]), (99_999, [])):
            kitchen = Kitchen({"leeks": 1200_000, "cream": cream}, recipes=[LEEK_TART])
            pastry = Need("pastry", "2027-03-12/dinner/family", "", "cream", 100_000, NOW, DINNER)

            def with_pastry(*asked, of=kitchen, made=pastry):
                return [*of.needs(*asked), made]

            kitchen.checks = replace(kitchen.checks, needs=with_pastry)
            ways = found(kitchen, dishes=[LEEK_TART], kind="another_dish")
            assert [way.dish for way in ways] == offered

    def test_PL5_nothing_is_bought_for_it(self):
        kitchen = Kitchen(
            {}, [supplier("moffat")], [pack("moffat", "leeks", LITRE, 90)], recipes=[LEEK_TART]
        )

        assert found(kitchen, dishes=[LEEK_TART], kind="another_dish") == []

    def test_PL5_only_an_approved_dish_and_never_the_same_one(self):
        draft = replace(LEEK_TART, approved=False)
        pastry = replace(LEEK_TART, kind=RecipeKind.PREPARATION, makes="tart")

        assert self.dishes(draft) == []
        assert self.dishes(pastry) == []
        assert self.dishes(SOLE, stock={"cream": 800_000}) == []

    @pytest.mark.parametrize(
        ("season", "offered"), [(((10, 1), (3, 12)), True), (((3, 13), (9, 30)), False)]
    )
    def test_PL5_only_in_season(self, season, offered):
        assert bool(self.dishes(replace(LEEK_TART, season=season))) is offered

    def test_AL3_it_is_safe_for_the_whole_table(self):
        """Even where the sole was not safe either: whoever cannot eat that has their own dish."""
        tart = recipe("leek tart", ("leeks", 1000), ("cream", 100))
        stock = {"leeks": LITRE, "cream": 100_000}

        assert self.dishes(tart, stock=stock) == ["leek tart"]
        assert self.dishes(tart, stock=stock, constraints=[cannot("Tom", "milk")]) == []


class TestFewerPortions:
    @pytest.mark.parametrize(
        ("cream", "portions"),
        [(799_999, 7), (700_000, 7), (699_999, 6), (100_000, 1), (99_999, None), (0, None)],
    )
    def test_PL5_as_many_as_what_is_there_suffices_for(self, cream, portions):
        ways = found(Kitchen({"cream": cream}), kind="fewer_portions")

        assert ways == ([FewerPortions(portions)] if portions else [])

    def test_PL5_what_could_be_bought_of_it_is_another_way_out(self):
        kitchen = Kitchen(
            {"cream": 400_000}, [supplier("dairy")], [pack("dairy", "cream", LITRE, 320)]
        )

        assert found(kitchen, kind="fewer_portions") == [FewerPortions(4)]

    def test_PL5_the_other_ingredients_count_too(self):
        """Cream for six, fish for five; with a fishmonger who still comes, six."""
        stock = {"cream": 600_000, "sole": 1000_000}
        boats = [supplier("quayside")], [pack("quayside", "sole", LITRE, 2400)]

        assert found(Kitchen(stock), kind="fewer_portions") == [FewerPortions(5)]
        assert found(Kitchen(stock, *boats), kind="fewer_portions") == [FewerPortions(6)]

    def test_PL5_of_the_variant_that_is_served(self):
        of = shortage(variant="lighter", portions=4)

        assert found(Kitchen({"cream": 75_000}), of, kind="fewer_portions") == [FewerPortions(2)]

    def test_PL5_one_portion_cannot_be_fewer(self):
        of = shortage(portions=1)

        assert found(Kitchen({"cream": 99_999}), of, kind="fewer_portions") == []


def nearly(portions):
    """So many portions' worth, or a thousandth more or less."""
    return st.builds(
        lambda n, off: max(0, n * 100_000 + off), portions, st.sampled_from([-1, 0, 1])
    )


@given(
    nearly(st.integers(0, 8)),
    nearly(st.integers(0, 16)),
    st.sampled_from([999, 1000, 1999, 2000]),
    st.integers(1, 8),
)
def test_PL5_fewer_portions_is_the_most_that_what_is_there_gives(cream, sole, lemon, portions):
    """Against trying them all: 100 ml, 200 g and, rounded up together, a quarter of a lemon."""
    kitchen = Kitchen({"cream": cream, "sole": sole, "lemon": lemon})

    ways = found(kitchen, shortage(portions=portions), kind="fewer_portions")

    enough = [
        n
        for n in range(1, portions)
        if n * 100_000 <= cream and n * 200_000 <= sole and -(-n // 4) * 1000 <= lemon
    ]
    assert ways == ([FewerPortions(max(enough))] if enough else [])


@pytest.mark.parametrize(("cream", "offered"), [(800_000, True), (799_999, False)])
def test_PL5_needs_of_one_item_are_covered_together(cream, offered):
    """A tart wants cream for its base the day before and more on the day: one litre gives both."""
    tart = recipe("leek tart", ("leeks", 1200))
    day_before = DINNER - timedelta(days=1)
    base = Need("base", "s", tart.id, "cream", 300_000, day_before, day_before)
    sauce = Need("sauce", "s", tart.id, "cream", 500_000, DINNER, DINNER)
    kitchen = Kitchen({"cream": cream}, recipes=[tart])
    asked = []

    def needs(dish, variant, portions):
        return [base, sauce] if dish == tart.id else kitchen.needs(dish, variant, portions)

    def available(item, wanted_by, until):
        asked.append((item, wanted_by, until))
        return kitchen.stock.get(item, 0)

    def itself(*_):
        return wants_of([sauce])

    checks = replace(kitchen.checks, itself=itself, needs=needs, available=available)
    ways = ways_out(shortage(), [], [tart], checks, NOW)

    assert (AnotherDish(tart.id) in ways) is offered
    assert ("cream", day_before, DINNER) in asked
