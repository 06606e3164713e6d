"""What the prover of units makes of each operator and function, and what it refuses."""

from __future__ import annotations

from typing import Final

import pytest

from wbgen.sheets.formula_tree import FormulaError, parse
from wbgen.sheets.proof.dimension import Proof, prove
from wbgen.sheets.proof.functions import RULES
from wbgen.sheets.proof.types import DATE, TEXT, TRUTH, Type
from wbgen.units.quantity import label

UNITS: Final = {
    "mass": "kg", "grams": "g", "volume": "mL", "area": "m**2", "rate": "kg/ha", "number": "", "air": "degC",
    "water": "degC", "outside": "degF", "step": "delta_degC", "nitrogen": "g_N", "phosphate": "g_P2O5", "wait": "day",
    "weeks": "week", "loads": "load",
}  # fmt: skip
OTHERS: Final = {"day": DATE, "other_day": DATE, "words": TEXT, "other_words": TEXT, "flag": TRUTH}


def lookup(name: str) -> Type:
    return OTHERS[name] if name in OTHERS else Type("quantity", UNITS[name])


def proof(formula: str, *, strict: bool = False) -> Proof:
    return prove(parse(formula), lookup, strict=strict)


PROVEN: Final = {
    "mass*2": "kg",
    "0-mass": "kg",
    "-mass": "kg",
    "+mass": "kg",
    "mass/area": "kg/m²",
    "mass*(number>1)": "kg",
    "(number>1)+(mass>0)": "a plain number",
    "(mass>0)+1": "a plain number",
    "-(mass>0)": "a plain number",
    "(mass>0)-0": "a plain number",
    "(mass>0)*(area>0)": "a plain number",
    "0*mass": "any",
    "mass+0*area": "kg",
    "day-other_day": "day",
    "day+1": "date",
    "day+wait": "date",
    "day-number": "date",
    "day+0": "date",
    "air-water": "°C difference",
    "outside-outside": "°F difference",
    "air+step": "°C",
    "step+air": "°C",
    "air-step": "°C",
    "air-0": "°C",
    "(air-water)/step": "a plain number",
    "mass^2": "kg²",
    "0^2": "any",
    "number^number": "a plain number",
    "mass^-1": "per kg",
    '(mass>0)&""': "text",
    "SQRT(area)": "m",
    "SQRT(grams/grams)": "a plain number",
    "SQRT(0)": "any",
    "SUM(mass,0)": "kg",
    "SUM(mass)": "kg",
    "MAX(0,air)": "°C",
    "MIN(day,other_day)": "date",
    "AVERAGE(air)": "°C",
    "N(mass>0)": "a plain number",
    "N(mass)": "kg",
    "N(day)": "date",
    "ABS(0-mass)": "kg",
    "ROUND(mass,9)": "kg",
    "ROUND(mass,-2)": "kg",
    "ROUND(mass,number+1)": "kg",
    "LARGE(mass,3)": "kg",
    "MOD(number,2)": "a plain number",
    "CEILING(mass,mass)": "kg",
    "INT(loads)": "a plain number",
    "SUMPRODUCT(mass,area)": "kg·m²",
    "SUMPRODUCT(mass,mass)": "kg²",
    "SUMPRODUCT((mass>0)*1)": "a plain number",
    "SUMPRODUCT((mass>0)*(area>0),mass)": "kg",
    'IF(number,mass,"")': "kg",
    "IF(flag,mass,0)": "kg",
    'IF(mass>0,day,"")': "date",
    'CHOOSE(number,words,"")': "text",
    "AND(flag,mass>0,ISNUMBER(mass))": "truth",
    "NOT(flag)": "truth",
    'OR(mass="",words="",day="")': "truth",
    "COUNT(mass,words,day)": "a plain number",
    "ISBLANK(words)": "truth",
    'SUMIFS(mass,words,other_words,volume,">"&volume)': "kg",
    'SUMIFS(mass,volume,">0",words,"<>")': "kg",
    "COUNTIF(mass,mass)": "a plain number",
    'COUNTIF(mass,"<>")': "a plain number",
    'COUNTIF(mass,"")': "a plain number",
    'COUNTIFS(day,"<="&day,air,air)': "a plain number",
    'COUNTIF(words,"yes")': "a plain number",
    'COUNTIF(number,"<2")': "a plain number",
    "MAXIFS(day,words,words)": "date",
    "MATCH(words,other_words,0)": "a plain number",
    "MATCH(mass,mass,0)": "a plain number",
    "INDEX(mass,number)": "kg",
    "LEADS(words,mass,1,area,number)": "text",
    "INDEX(mass,loads+1,0)": "kg",
    "YEAR(day)": "a plain number",
    "EDATE(day,number)": "date",
    "DATE(number,1,loads)": "date",
    "MID(words,number,1)": "text",
    "TRIM(words&number)": "text",
    "VALUE(words)": "a plain number",
    'SEARCH("a",words)': "a plain number",
    "CONCAT(words)": "text",
    'SUBSTITUTE(words,words,"",1)': "text",
    "ROWS(mass)": "a plain number",
    "words=other_words": "truth",
    'mass=""': "truth",
    "day>other_day": "truth",
    'TEXT(mass,"0.0")&" kg"': "text",
    'ROUND(mass,1)&" kg"': "text",
    'words&ROUND(mass,1)&" kg, at most "&mass&" kg"': "text",
    "PI()*area": "m²",
    "EXP(0-number)": "a plain number",
    "LN(number)": "a plain number",
    "MEDIAN(mass,mass)": "kg",
    "SMALL(mass,2)": "kg",
    "ROUNDUP(mass,0)": "kg",
    "ROUNDDOWN(mass,1)": "kg",
    "TODAY()": "date",
    "COUNTA(words)": "a plain number",
    "COUNTBLANK(day)": "a plain number",
    "ISTEXT(mass)": "truth",
    "EOMONTH(day,1)": "date",
    "AVERAGEIFS(air,words,words)": "°C",
    "MINIFS(mass,words,words)": "kg",
    "DAY(day)": "a plain number",
}


@pytest.mark.parametrize("formula", PROVEN)
def test_the_type_of_a_formula(formula: str) -> None:
    found = proof(formula)
    told = label(found.type.unit) if found.type.unit else str(found.type)
    assert (told, found.edits) == (PROVEN[formula], ())
    assert proof(formula, strict=True).type == found.type


REFUSED: Final = {
    "(mass>0)+mass": "adds truth and kg",
    "mass-(mass>0)": "takes truth from kg",
    "flag+words": "adds truth and text",
    "day+flag": "adds date and truth",
    "day+other_day": "adds date and date",
    "mass+day": "adds kg and date",
    "day-words": "takes text from date",
    "day+mass": "adds kg to a date",
    "day-area": "takes m**2 from a date",
    "words+number": "adds text and a plain number",
    "-words": "takes text from nothing",
    "-air": "takes degC from nothing",
    "words^2": "raises text to a power",
    "day^2": "raises date to a power",
    "air^2": "raises degC to a power",
    "number^words": "to the power of text",
    "number^mass": "to the power of kg",
    "mass^number": "not written out",
    "air*2": "multiplies or divides degC and a plain number",
    "mass/air": "kg and degC",
    "air*(mass>0)": "degC",
    "words*2": "text",
    "day*2": "date",
    "air+water": "temperatures may only be subtracted",
    "air-outside": "degF",
    "mass-air": "takes degC from kg",
    "outside+step": "degF",
    "step-air": "takes degC from delta_degC",
    "SUM(air)": "temperatures",
    "SUM(words)": "takes SUM of text",
    "SUM(day)": "takes SUM of date",
    "SUM(mass>0)": "takes SUM of truth",
    "MAX(words)": "takes MAX of text",
    "N(words)": "takes N of text",
    "MIN(mass,volume)": "compares kg with mL",
    "ABS(air)": "ABS",
    "AVERAGE(day)": "date",
    "SUMPRODUCT(mass>0)": "takes SUMPRODUCT of truth",
    "SUMPRODUCT(air)": "degC",
    "SUMPRODUCT(mass,words)": "text",
    "SUMPRODUCT(mass,mass)+mass": "kilogram**2",
    "ROUND(mass,mass)": "takes ROUND of kg",
    "ROUND(mass,words)": "takes ROUND of text",
    "ROUND(words,2)": "text",
    "ROUND(mass,13)": "13",
    "ROUND(mass,3*number)": "has the number 3",
    "LARGE(mass,area)": "m**2",
    "CEILING(mass,area)": "rounds kg to steps of m**2",
    "MOD(mass,number)": "divides kg by a plain number",
    "INT(mass)": "takes INT of kg",
    "EXP(step)": "takes EXP of delta_degC",
    "INT(flag)": "truth",
    "SQRT(words)": "text",
    "SQRT(air)": "degC",
    "AND(mass,area)": "takes AND of kg",
    "OR(number)": "takes OR of a plain number",
    "NOT(words)": "takes NOT of text",
    "AND(flag,day)": "date",
    "IF(mass,1,2)": "lets kg choose in IF",
    "IF(words,1,2)": "lets text choose",
    "CHOOSE(mass,1,2)": "lets kg choose in CHOOSE",
    "IF(flag,mass,words)": "gives kg or text",
    "IF(flag,nitrogen,phosphate)": "gives g_N or g_P2O5",
    "IFERROR(mass,volume)": "gives kg or mL",
    'SUMIFS(mass,grams,">"&mass)': "compares a column in g with a figure in kg",
    "SUMIFS(air,words,words)": "temperatures",
    "SUMIFS(mass,air,outside)": "compares a column in degC with a figure in degF",
    "SUMIFS(words,mass,mass)": "takes SUMIFS of text",
    "COUNTIF(mass,volume)": "compares a column in kg with a figure in mL",
    'COUNTIF(mass,">1")': "a column of kg with a plain number",
    'COUNTIF(number,">7")': "has the number 7",
    "COUNTIF(words,number)": "text with a plain number",
    'COUNTIF(mass,"yes")': "a column of kg with text",
    'COUNTIFS(day,">"&number)': "date with a plain number",
    "COUNTIF(mass,flag)": "truth",
    'IF(flag,">"&mass,"")': "writes kg into text",
    "SUMIFS(mass,words)": "arguments",
    "SUMIFS(mass,words,words,day)": "without its criterion",
    "MATCH(mass,volume,0)": "seeks kg among mL",
    "MATCH(words,mass,0)": "seeks text among kg",
    "MATCH(mass,mass,mass)": "takes MATCH of kg",
    "INDEX(mass,area)": "has m**2 as a place",
    "INDEX(mass,day)": "has date",
    "INDEX(mass,words)": "has text as a place",
    "LEADS(words,mass+mass,1)": "other than words and then a column",
    "LEADS(words,mass,1,area)": "other than words and then a column",
    "LEADS(words,mass,area)": "m**2",
    'HYPERLINK("https://example.org",words)': "may lead out of the workbook",
    "ROW(mass)": "counts rows and columns of a sheet",
    "number+COLUMN(mass)": "counts rows and columns of a sheet",
    "ADDRESS(number,loads)": "counts rows and columns of a sheet",
    "INDEX(mass,1,flag)": "has truth as a place",
    "words=number": "compares text with a plain number",
    "words>mass": "compares text with kg",
    "flag=1": "truth with a plain",
    "day=number": "compares date with",
    "air>step": "compares degC with delta_degC",
    "air>outside": "degF",
    "YEAR(words)": "takes YEAR of text",
    "MONTH(mass)": "kg",
    "MONTH(number)": "a plain number",
    "DATE(number,1,wait)": "day",
    "EDATE(day,wait)": "takes EDATE of day",
    "WEEKDAY(day,mass)": "kg",
    "MID(words,mass,1)": "takes MID of kg",
    "LEFT(mass,1)": "takes LEFT of kg",
    "TRIM(day)": "date",
    "VALUE(mass)": "takes VALUE of kg",
    'SEARCH("a",mass)': "takes SEARCH of kg",
    "SUBSTITUTE(words,mass,words)": "kg",
    "SUBSTITUTE(words,words,number)": "a plain number",
    "SUBSTITUTE(words,words,words,mass)": "kg",
    "CONCAT(mass)": "kg",
    "words&mass": "writes kg into text",
    'mass&" g"': "writes kg into text",
    'mass&" kg a day"': "writes kg into text",
    'words&mass&" kg, at most "&volume': "writes mL into text",
    '" kg"&mass': "writes kg into text",
    "words&day": "writes date into text",
    "TEXT(mass,words)": "not written out",
    "mass*5%": "percent sign",
    "mass#": "sign",
    "SUM((mass,mass))": "operator that is not used here: ,",
    "N()": "gives N 0 arguments",
    "ROUND(mass)": "gives ROUND 1 arguments",
    "TEXT(mass)": "gives TEXT 1",
    "INDEX()": "0",
    "MATCH(mass)": "gives MATCH 1",
    "ABS(mass,mass)": "gives ABS 2",
    "VLOOKUP(words,mass,2)": "VLOOKUP",
}


@pytest.mark.parametrize("formula", REFUSED)
def test_a_formula_is_refused_in_words(formula: str) -> None:
    with pytest.raises(FormulaError) as caught:
        proof(formula)
    assert REFUSED[formula] in str(caught.value)


CONVERTED: Final = {
    "mass+grams": ("grams", 0.001),
    "MAX(grams,mass)": ("mass", 1000),
    "IF(flag,mass,grams)": ("grams", 0.001),
    "mass>grams": ("grams", 0.001),
    "MATCH(mass,grams,0)": ("mass", 1000),
    "day+weeks": ("weeks", 7),
    "CEILING(mass,grams)": ("grams", 0.001),
    "MOD(mass,grams)": ("grams", 0.001),
    "SUM(mass,grams)": ("grams", 0.001),
}


@pytest.mark.parametrize("formula", CONVERTED)
def test_a_conversion_is_asked_for_or_refused(formula: str) -> None:
    """What is sought in a column is converted, never the column: that would take an array formula."""
    (edit,) = proof(formula).edits
    assert (formula[edit.start : edit.end], float(edit.conversion.factor)) == CONVERTED[formula]
    with pytest.raises(FormulaError):
        proof(formula, strict=True)


def test_every_function_is_proven_and_refused_above() -> None:
    def used(formulas: dict[str, str]) -> set[str]:
        nodes = (node for formula in formulas for node in parse(formula).walk())
        return {str(node.value) for node in nodes if node.kind == "function"}

    assert used(REFUSED) - {"VLOOKUP"} <= RULES.keys()
    assert used(REFUSED) | used(PROVEN) >= RULES.keys()
