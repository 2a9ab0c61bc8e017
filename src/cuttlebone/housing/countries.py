"""What countries are called inside a sentence, by their ISO 3166-1 code."""

_NAMES = {
    "AE": "the United Arab Emirates", "AR": "Argentina", "AT": "Austria", "AU": "Australia", "BE": "Belgium", "BG": "Bulgaria",
    "BR": "Brazil", "CA": "Canada", "CH": "Switzerland", "CL": "Chile", "CN": "China", "CO": "Colombia", "CY": "Cyprus",
    "CZ": "Czechia", "DE": "Germany", "DK": "Denmark", "EE": "Estonia", "EG": "Egypt", "ES": "Spain", "FI": "Finland",
    "FR": "France", "GB": "Great Britain", "GR": "Greece", "HK": "Hong Kong", "HR": "Croatia", "HU": "Hungary", "ID": "Indonesia",
    "IE": "Ireland", "IL": "Israel", "IN": "India", "IS": "Iceland", "IT": "Italy", "JP": "Japan", "KE": "Kenya",
    "KR": "South Korea", "LI": "Liechtenstein", "LT": "Lithuania", "LU": "Luxembourg", "LV": "Latvia", "MA": "Morocco", "MT": "Malta",
    "MX": "Mexico", "MY": "Malaysia", "NG": "Nigeria", "NL": "the Netherlands", "NO": "Norway", "NZ": "New Zealand", "PE": "Peru",
    "PH": "the Philippines", "PK": "Pakistan", "PL": "Poland", "PT": "Portugal", "RO": "Romania", "RS": "Serbia", "RU": "Russia",
    "SA": "Saudi Arabia", "SE": "Sweden", "SG": "Singapore", "SI": "Slovenia", "SK": "Slovakia", "TH": "Thailand", "TR": "Türkiye",
    "TW": "Taiwan", "UA": "Ukraine", "US": "the United States", "VN": "Vietnam", "ZA": "South Africa",
}  # fmt: skip


def country_name(code: str) -> str:
    """The country in a sentence; the code itself where the name is not in the table.

    Examples
    --------
    >>> country_name("US"), country_name("SE"), country_name("XX")
    ('the United States', 'Sweden', 'XX')
    """
    return _NAMES.get(code, code)
