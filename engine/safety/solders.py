"""What solders hold that hurts. Names are in lower case without blanks or marks."""

from __future__ import annotations

# Share of cadmium. BAg-2a, BAg-3, BAg-27: Machinery's Handbook, 31st ed., p. 1484, Table 1a (AWS A5.8).
# BAg-1, 1a, 2, 33: from memory, unconfirmed.
CADMIUM = {
    "bag1": "24 %",
    "bag1a": "18 %",
    "bag2": "18 %",
    "bag2a": "20 %",
    "bag3": "16 %",
    "bag27": "13 %",
    "bag33": "17 %",
}
# Tin and lead, by the usual ways of writing their shares.
LEADED = ("6337", "6040", "5050", "4060", "sn63", "sn60", "sn50", "sn40", "sn63pb37", "sn60pb40", "tinlead")
LEAD_FREE = (
    "sac305",
    "sn965ag35",
    "sn965ag3cu05",
    "sn993cu07",
    "sn95ag5",
    "sn95sb5",
    "tinsilver",
    "tincopper",
)
