"""Currencies: the letters, the number and the decimals of each.

Source: ISO 4217, as the open table `datasets/currency-codes` carries it (commit 1434fbe, Public
Domain Dedication and Licence), checked against Debian's iso-codes 4.15.0. Metals, test codes and
what has no minor unit are left out.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Currency:
    """A currency.

    Attributes:
        code: three letters.
        number: three digits, as a barcode writes it.
        decimals: how many digits of the amount the minor unit has.
    """

    code: str
    number: str
    decimals: int


_BY_DECIMALS = {
    0: """
    BIF108 CLP152 DJF262 GNF324 ISK352 JPY392 KMF174 KRW410 PYG600 RWF646 UGX800 UYI940 VND704
    VUV548 XAF950 XOF952 XPF953
    """,
    2: """
    AED784 AFN971 ALL008 AMD051 AOA973 ARS032 AUD036 AWG533 AZN944 BAM977 BBD052 BDT050 BGN975
    BMD060 BND096 BOB068 BOV984 BRL986 BSD044 BTN064 BWP072 BYN933 BZD084 CAD124 CDF976 CHE947
    CHF756 CHW948 CNY156 COP170 COU970 CRC188 CUP192 CVE132 CZK203 DKK208 DOP214 DZD012 EGP818
    ERN232 ETB230 EUR978 FJD242 FKP238 GBP826 GEL981 GHS936 GIP292 GMD270 GTQ320 GYD328 HKD344
    HNL340 HTG332 HUF348 IDR360 ILS376 INR356 IRR364 JMD388 KES404 KGS417 KHR116 KPW408 KYD136
    KZT398 LAK418 LBP422 LKR144 LRD430 LSL426 MAD504 MDL498 MGA969 MKD807 MMK104 MNT496 MOP446
    MRU929 MUR480 MVR462 MWK454 MXN484 MXV979 MYR458 MZN943 NAD516 NGN566 NIO558 NOK578 NPR524
    NZD554 PAB590 PEN604 PGK598 PHP608 PKR586 PLN985 QAR634 RON946 RSD941 RUB643 SAR682 SBD090
    SCR690 SDG938 SEK752 SGD702 SHP654 SLE925 SOS706 SRD968 SSP728 STN930 SVC222 SYP760 SZL748
    THB764 TJS972 TMT934 TOP776 TRY949 TTD780 TWD901 TZS834 UAH980 USD840 USN997 UYU858 UZS860
    VED926 VES928 WST882 XCD951 XCG532 YER886 ZAR710 ZMW967 ZWG924
    """,
    3: "BHD048 IQD368 JOD400 KWD414 LYD434 OMR512 TND788",
    4: "CLF990 UYW927",
}

CURRENCIES: Mapping[str, Currency] = MappingProxyType(
    {
        word[:3]: Currency(word[:3], word[3:], decimals)
        for decimals, words in _BY_DECIMALS.items()
        for word in words.split()
    }
)
"""Every currency by its letters."""

CURRENCY_NUMBERS: Mapping[str, Currency] = MappingProxyType(
    {currency.number: currency for currency in CURRENCIES.values()}
)
"""Every currency by its number."""
