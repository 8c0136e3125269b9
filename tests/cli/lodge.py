"""Rookhope Lodge, on Wednesday 10 March 2027 at seven in the morning: a house of our own.

A dairy comes every weekday and takes orders until 17:00 of the day before. Two litres of cream die
on Friday, and Saturday's dinner wants a litre; a case of trout lies in the freezer for Thursday.
"""

import csv

NOW = "2027-03-10T07:00:00Z"
HOUSE = "rookhope-lodge"

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday")

SHEETS = {
    "house": [
        "name,time_zone,currency,unit_system,notice,warning,policy,allergen_list,people",
        "Rookhope Lodge,Europe/London,GBP,metric,72 h,24 h,uk,eu14,4",
    ],
    "areas": ["area,kind", "Cold room,chilled", "Pantry,ambient", "Freezer,frozen"],
    "items": [
        "item,base_unit,area,counted,opened_life_days,thawed_life_hours,contains,floor,order_up_to",
        "Double cream,ml,Cold room,yes,3,,milk,,",
        "Caster sugar,g,Pantry,yes,,,none,1 kg,3 kg",
        "Trout fillet,g,Freezer,yes,,24,fish,,",
        "Honey,g,Pantry,yes,,,,,",
        "Salt,g,Pantry,no,,,none,,",
    ],
    "suppliers": [
        "supplier,email,send_minutes",
        "Weardale Dairy,orders@weardale-dairy.example,10",
        "Alston Stores,shop@alston-stores.example,",
    ],
    "deliveries": [
        "supplier,weekday,time,cutoff_days_before,cutoff_time",
        *(f"Weardale Dairy,{weekday},06:45,1,17:00" for weekday in WEEKDAYS),
        "Weardale Dairy,Saturday,06:45,1,17:00",
        "Alston Stores,Thursday,12:00,10,12:00",
    ],
    "packs": [
        "supplier,item,pack,quantity,price,life_on_arrival_days",
        "Weardale Dairy,Double cream,1 l tub,1 l,6.20,9",
        "Alston Stores,Caster sugar,2 kg bag,2 kg,2.40,",
        "Alston Stores,Trout fillet,box of 1 kg,1 kg,14.00,",
    ],
    "batches": [
        "label,item,quantity,area,date_kind,date,lot,state,state_date,cost,supplier",
        "R-0001,Double cream,2 x 1 l,Cold room,use_by,2027-03-12,C11,sealed,,12.40,Weardale Dairy",
        "R-0002,Caster sugar,2.5 kg,Pantry,best_before,2028,S7,sealed,,3.00,Alston Stores",
        "R-0003,Trout fillet,1 kg,Freezer,use_by,2027-03-05,F3,frozen,2027-03-01,14,Alston Stores",
        "R-0004,Honey,340 g,Pantry,best_before,2027-02,,sealed,,4.00,Alston Stores",
        "R-0005,Double cream,300 ml,Cold room,use_by,2027-03-10,C10,sealed,,2.00,Weardale Dairy",
    ],
    "recipes": [
        "recipe,kind,yield,dates,lead,approved,method",
        "Lemon posset,dish,4 portions,cooked,PT4H,yes,Boil cream and sugar.",
        "Grilled trout,dish,4 portions,cooked,PT1H,yes,Grill it.",
        "Honey cream,dish,4 portions,cooked,PT1H,yes,Whip them.",
    ],
    "ingredients": [
        "recipe,ingredient,amount",
        "Lemon posset,Double cream,1 l",
        "Lemon posset,Caster sugar,200 g",
        "Lemon posset,Salt,a pinch",
        "Grilled trout,Trout fillet,600 g",
        "Honey cream,Honey,100 g",
        "Honey cream,Double cream,400 ml",
    ],
    "tables": ["table,rank,usual_covers", "family,1,4"],
    "constraints": ["person,table,cannot_eat,from,to", "Ann Weir,family,milk,,"],
    "services": [
        "date,meal,time,table,covers,state",
        "2027-03-09,dinner,19:30,family,4,served",
        "2027-03-11,dinner,19:30,family,4,confirmed",
        "2027-03-13,dinner,19:30,family,4,confirmed",
        "2027-03-16,dinner,19:30,family,4,proposed",
    ],
    "choices": [
        "date,meal,table,course,dish,variant,portions,chosen",
        "2027-03-09,dinner,family,main,Grilled trout,,,yes",
        "2027-03-11,dinner,family,main,Grilled trout,,,yes",
        "2027-03-13,dinner,family,pudding,Lemon posset,,,yes",
        "2027-03-16,dinner,family,pudding,Honey cream,,,",
        "2027-03-16,dinner,family,pudding,Lemon posset,,,",
    ],
    "orders": [
        "supplier,delivery_date,item,pack,packs",
        "Alston Stores,2027-03-11,Caster sugar,2 kg bag,1",
    ],
    "people": [
        "name,role,email",
        "Mara Tees,manager,",
        "Cato Burn,chef,",
        "Pia Wear,porter,",
    ],
}


def write_book(folder, **changed):
    """Write the book's sheets into a folder; a sheet given otherwise takes the place of its own."""
    folder.mkdir(exist_ok=True)
    for name, lines in (SHEETS | changed).items():
        (folder / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return folder


def rows_of(name):
    """A sheet's rows, the heading first."""
    return list(csv.reader(SHEETS[name]))
