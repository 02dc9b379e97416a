-- The alloys an ask can name, besides the house's own stock (which comes first). A name says the fineness, the
-- colour in trade words and, where several share both, what tells them apart.
--
-- A name is a composition, not a promise: what a piece must reach is set by its mark. Density, solidus and
-- liquidus are here only where they were measured or printed for that composition; what is left out the
-- engine calculates and calls estimated. A supplier's sheet beats every row: put it into the house's stock.
-- `also` is what a pure metal is called in the trade.
-- Rows are plain texts, so that a table of many costs nothing until one is looked up.

local ISO   = "ISO 8654:1987 colour grade; usual composition from a secondary source (the standard sets the colour)"
local GOST  = "composition GOST 30649-99, Table 1; melting interval from a design bureau's table of that standard"
local GOST_LIQUIDUS = GOST .. "; the printed solidus disagrees with the phase diagram and is left out"
local ROSE  = "T. Kirke Rose, The Metallurgy of Gold, Table XIV: density measured at 15 °C"
local FAHL  = "B. D. Fahlman, Materials Chemistry, 2nd ed. 2011, Table 3.4"
local AZOM  = "AZoM, Gold/palladium alloys, composition table, 2004"
local TRADE = "jewellery catalogue's table of gold alloys (trade page, composition only)"
local MEMORY = "from memory, unverified"
local GOST_SILVER = "density: a metal dealer's page of the alloy of GOST 30649-99 or 6836-2002"
local GERMAN_SILVER = "density: a German table of silver alloys (a study text)"

return { alloys = {

  -- pure metals
  { name = "Au999.9 fine", also = "fine gold", composition = { Au = "999.9 ‰", Ag = "0.1 ‰" }, solidus = "1064 °C", liquidus = "1064 °C",
    source = "freezing point of gold: ITS-90; the trace is taken as silver" },
  { name = "Ag999 fine", also = "fine silver", composition = { Ag = "999 ‰", Cu = "1 ‰" }, liquidus = "962 °C",
    source = "freezing point of silver: ITS-90; the trace is taken as copper" },
  { name = "Cu fine", also = "copper", composition = { Cu = "1000 ‰" }, solidus = "1084.62 °C", liquidus = "1084.62 °C", source = "ITS-90" },
  { name = "Zn fine", also = "zinc", composition = { Zn = "1000 ‰" }, solidus = "419.527 °C", liquidus = "419.527 °C", source = "ITS-90" },
  { name = "Pd fine", also = "palladium", composition = { Pd = "1000 ‰" }, source = "the element" },
  { name = "Pt fine", also = "platinum", composition = { Pt = "1000 ‰" }, source = "the element" },

  -- 22 kt and coin gold
  { name = "Au917 yellow", composition = { Au = "917 ‰", Ag = "32 ‰", Cu = "51 ‰" }, source = MEMORY },
  { name = "Au916 yellow pale", composition = { Au = "916 ‰", Ag = "55 ‰", Cu = "29 ‰" }, source = MEMORY },
  { name = "Au917 yellow silver", composition = { Au = "917 ‰", Ag = "83 ‰" }, density = "18.08 g/cm3", source = ROSE },
  { name = "Au917 red", composition = { Au = "917 ‰", Cu = "83 ‰" }, density = "17.48 g/cm3",
    source = "standard gold (916.67 in the print): T. Kirke Rose, gold and copper alloys" },
  { name = "Au900 red", composition = { Au = "900 ‰", Cu = "100 ‰" }, density = "17.16 g/cm3",
    source = "coinage gold: T. Kirke Rose, gold and copper alloys" },

  -- 18 kt
  { name = "Au750 yellow 2N", composition = { Au = "750 ‰", Ag = "160 ‰", Cu = "90 ‰" }, source = ISO },
  { name = "Au750 yellow 3N", composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.45 g/cm3",
    source = ISO .. "; density: a metal dealer's page of the GOST 6835-80 alloy of 75 gold 12.5 silver (a refiner's table prints 15.40)" },
  { name = "Au750 rose 4N", composition = { Au = "750 ‰", Ag = "90 ‰", Cu = "160 ‰" }, source = ISO },
  { name = "Au750 red 5N", composition = { Au = "750 ‰", Ag = "45 ‰", Cu = "205 ‰" }, source = ISO },
  { name = "Au750 yellow", composition = { Au = "750 ‰", Ag = "130 ‰", Cu = "120 ‰" }, source = FAHL },
  { name = "Au750 yellow pale", composition = { Au = "750 ‰", Ag = "150 ‰", Cu = "100 ‰" }, source = FAHL },
  { name = "Au750 rose", composition = { Au = "750 ‰", Ag = "50 ‰", Cu = "200 ‰" }, source = FAHL },
  { name = "Au750 red", composition = { Au = "750 ‰", Cu = "250 ‰" }, source = TRADE },
  { name = "Au750 green", composition = { Au = "750 ‰", Ag = "250 ‰" }, density = "16.03 g/cm3", source = ROSE },
  { name = "Au750 palladium white", composition = { Au = "750 ‰", Pd = "150 ‰", Ag = "100 ‰" }, source = AZOM },
  { name = "Au750 palladium white Pd200", composition = { Au = "750 ‰", Pd = "200 ‰", Ag = "50 ‰" }, source = AZOM },
  { name = "Au750 palladium white Pd100", composition = { Au = "750 ‰", Pd = "100 ‰", Ag = "150 ‰" }, source = FAHL },
  { name = "Au750 nickel white", composition = { Au = "750 ‰", Ni = "173 ‰", Zn = "55 ‰", Cu = "22 ‰" }, source = TRADE },

  -- 14 kt. 583 ‰ is a third of a part below fourteen karats (583.33 ‰): a mark may require more.
  { name = "Au585 green 0N", composition = { Au = "585 ‰", Ag = "340 ‰", Cu = "75 ‰" }, source = ISO },
  { name = "Au585 yellow 1N", composition = { Au = "585 ‰", Ag = "260 ‰", Cu = "155 ‰" }, source = ISO },
  { name = "Au585 yellow", composition = { Au = "585 ‰", Ag = "200 ‰", Cu = "215 ‰" }, solidus = "830 °C",
    liquidus = "845 °C", source = GOST },
  { name = "Au585 yellow pale", composition = { Au = "585 ‰", Ag = "300 ‰", Cu = "115 ‰" }, solidus = "835 °C",
    liquidus = "880 °C", source = GOST },
  { name = "Au585 rose", composition = { Au = "585 ‰", Ag = "80 ‰", Cu = "335 ‰" }, solidus = "880 °C",
    liquidus = "905 °C", source = GOST },
  { name = "Au585 green", composition = { Au = "585 ‰", Ag = "415 ‰" }, solidus = "1025 °C", liquidus = "1030 °C",
    source = GOST },
  { name = "Au585 palladium white", composition = { Au = "585 ‰", Pd = "160 ‰", Ag = "255 ‰" }, solidus = "1175 °C",
    liquidus = "1220 °C", source = GOST },
  { name = "Au583 yellow zinc", composition = { Au = "583 ‰", Ag = "40 ‰", Cu = "312 ‰", Zn = "64 ‰", Ni = "1 ‰" },
    source = FAHL },
  { name = "Au583 rose", composition = { Au = "583 ‰", Ag = "21 ‰", Cu = "396 ‰" }, source = FAHL },
  { name = "Au583 palladium white", composition = { Au = "583 ‰", Ag = "322 ‰", Pd = "95 ‰" }, source = FAHL },
  { name = "Au583 nickel white", composition = { Au = "583 ‰", Cu = "283 ‰", Ni = "86 ‰", Zn = "48 ‰" }, source = FAHL },

  -- 12, 10 and 9 kt
  { name = "Au500 red", composition = { Au = "500 ‰", Ag = "100 ‰", Cu = "400 ‰" }, solidus = "835 °C",
    liquidus = "925 °C", source = GOST },
  { name = "Au417 yellow", composition = { Au = "417 ‰", Ag = "117 ‰", Cu = "408 ‰", Zn = "58 ‰" },
    source = FAHL .. "; its zinc of 5.83 % is taken as 5.8 %, so that the parts sum" },
  { name = "Au417 yellow zinc", composition = { Au = "417 ‰", Ag = "55 ‰", Cu = "438 ‰", Zn = "90 ‰" }, source = FAHL },
  { name = "Au417 rose", composition = { Au = "417 ‰", Ag = "28 ‰", Cu = "555 ‰" }, source = FAHL },
  { name = "Au417 palladium white", composition = { Au = "417 ‰", Ag = "474 ‰", Pd = "100 ‰", Zn = "9 ‰" }, source = FAHL },
  { name = "Au375 yellow", composition = { Au = "375 ‰", Ag = "121 ‰", Cu = "444 ‰", Zn = "60 ‰" }, source = TRADE },
  { name = "Au375 yellow Ag250", composition = { Au = "375 ‰", Ag = "250 ‰", Cu = "375 ‰" }, solidus = "770 °C",
    liquidus = "850 °C", source = GOST },
  { name = "Au375 yellow Ag160", composition = { Au = "375 ‰", Ag = "160 ‰", Cu = "465 ‰" }, liquidus = "900 °C",
    source = GOST_LIQUIDUS },
  { name = "Au375 rose", composition = { Au = "375 ‰", Ag = "100 ‰", Cu = "525 ‰" }, liquidus = "940 °C",
    source = GOST_LIQUIDUS },
  { name = "Au375 red", composition = { Au = "375 ‰", Ag = "20 ‰", Cu = "605 ‰" }, solidus = "965 °C",
    liquidus = "985 °C", source = GOST },
  { name = "Au375 rose Pd38", composition = { Au = "375 ‰", Ag = "100 ‰", Pd = "38 ‰", Cu = "487 ‰" },
    solidus = "850 °C", liquidus = "975 °C", source = GOST },
  { name = "Au375 nickel white", composition = { Au = "375 ‰", Cu = "340 ‰", Ni = "177 ‰", Zn = "108 ‰" },
    source = TRADE },

  -- silver
  -- Silver with copper alone. A casting of it, and of anything lower than 935, finishes freezing at the eutectic, 779 °C
  -- (micrographs of cast 935), wherever its equilibrium solidus is. Deoxidised alloys hold germanium, silicon or zinc, and no
  -- model reaches them: they go into the house's stock from their maker's sheet.
  { name = "Ag960 silver", composition = { Ag = "960 ‰", Cu = "40 ‰" }, density = "10.43 g/cm3", source = GOST_SILVER },
  { name = "Ag958 Britannia", composition = { Ag = "958.4 ‰", Cu = "41.6 ‰" },
    source = "composition: a trade page on silver, 2012" },
  { name = "Ag935 silver", composition = { Ag = "935 ‰", Cu = "65 ‰" }, source = "composition: the name" },
  { name = "Ag925 sterling", composition = { Ag = "925 ‰", Cu = "75 ‰" }, density = "10.36 g/cm3", solidus = "779 °C", liquidus = "893 °C",
    source = "density: a supplier's data sheet (annealed); liquidus: a trade page on silver, 2012 (1640 °F); solidus: where a casting ends" },
  { name = "Ag875 silver", composition = { Ag = "875 ‰", Cu = "125 ‰" }, source = "composition: the name" },
  { name = "Ag835 silver", composition = { Ag = "835 ‰", Cu = "165 ‰" }, density = "10.2 g/cm3", source = GERMAN_SILVER },
  { name = "Ag830 silver", composition = { Ag = "830 ‰", Cu = "170 ‰" }, source = "composition: the name" },
  { name = "Ag800 silver", composition = { Ag = "800 ‰", Cu = "200 ‰" }, density = "10.13 g/cm3",
    source = GOST_SILVER .. " (a German table prints 10.1)" },
  { name = "Ag900 coin", composition = { Ag = "900 ‰", Cu = "100 ‰" }, source = "composition: the name" },
  { name = "Ag720 eutectic", composition = { Ag = "720 ‰", Cu = "280 ‰" }, solidus = "780 °C", liquidus = "780 °C",
    source = "standard filler metal, materials database (rounded to 10 degrees)" },

  -- platinum and palladium: taken in, valued and marked; gypsum withstands none of them
  { name = "Pt950 ruthenium", composition = { Pt = "950 ‰", Ru = "50 ‰" }, density = "20.7 g/cm3", source = MEMORY },
  { name = "Pt950 cobalt", composition = { Pt = "950 ‰", Co = "50 ‰" }, density = "20.1 g/cm3", solidus = "1750 °C", liquidus = "1765 °C",
    source = MEMORY .. " (the 20.8 of many lists is a mean by mass)" },
  { name = "Pt950 copper", composition = { Pt = "950 ‰", Cu = "50 ‰" }, density = "20.0 g/cm3", solidus = "1725 °C", liquidus = "1745 °C", source = MEMORY },
  { name = "Pt950 iridium", composition = { Pt = "950 ‰", Ir = "50 ‰" }, density = "21.5 g/cm3", solidus = "1780 °C", liquidus = "1790 °C", source = MEMORY },
  { name = "Pt950 palladium", composition = { Pt = "950 ‰", Pd = "50 ‰" }, solidus = "1755 °C", liquidus = "1765 °C", source = MEMORY },
  { name = "Pt900 palladium", composition = { Pt = "900 ‰", Pd = "100 ‰" }, density = "19.8 g/cm3", source = MEMORY },
  { name = "Pt850 palladium", composition = { Pt = "850 ‰", Pd = "150 ‰" }, density = "19.1 g/cm3", solidus = "1730 °C", liquidus = "1750 °C", source = MEMORY },
  { name = "Pd950 ruthenium", composition = { Pd = "950 ‰", Ru = "50 ‰" }, density = "12.0 g/cm3", solidus = "1570 °C", liquidus = "1590 °C", source = MEMORY },
  { name = "Pd500 silver", composition = { Pd = "500 ‰", Ag = "500 ‰" }, density = "11.2 g/cm3", source = "density: a handbook, from memory, unverified" },
} }
