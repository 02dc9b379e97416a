-- What each place lets a piece be marked with. The law itself decides; this table only remembers it.
--
-- One row for each metal of a place. Figures are parts per thousand by mass.
--   marks     the finenesses that can be struck there; or `from`, the least one where any may be (0: no floor);
--             `karats` when gold may be marked in karats too, `decimals` when a proportion to 1 may be struck (.585);
--             `words` such as sterling
--   least     where the statute asks more than the stamp shows
--   body      how far the metal without solder may lie below its mark
--   whole     how far the whole, melted with its solder, may lie below it
--   tests     "both": each must hold; "soldered": the whole where there is solder, else the body; "whole"
--   solder    the least fineness of the solder: the first line that fits; `least` absent is the mark itself.
--             `rule` "stop" where the law says so plainly, "confirm" where it leaves a door open
--             `together`: gold, silver, platinum and palladium of the solder count together
--   exempt    below this mass no mark is needed; `counts` says what is weighed, `not_beside` what else in the piece ends it
--   old_stock what held for pieces sold before a day
--   unless    the same row for another kind of article or process, where the law treats it apart
-- Of a place: `plated` what may be struck on goods that are precious on their surface only, `mixed` what holds for a piece of
-- several precious metals ({least}: the least precious of them); absent where it was not read.
-- `known` says how the row is known; what reads "from memory, unverified" must be checked before it is used.
-- `as_of` is the date of the text that was read, absent where the copy bears none.

local PRIMARY  = "text of the law, read"
local COPY     = "official text, read in a copy"
local GUIDANCE = "official guidance, read"
local MEMORY   = "from memory, unverified"

local OFFICE = "an assay office of the country, after its own assay"

-- REACH Annex XVII entry 27 para 1 (copy, undated): a post passes below 0.2, skin contact up to and with 0.5.
local NICKEL_EU = { post = "0.2 µg/cm²/week", skin = "0.5 µg/cm²/week", law = "REACH Annex XVII entry 27", known = COPY }

-- Where no statute is known any true fineness may be said, and nothing is forgiven.
local function without_law(law)
  local function any(more)
    local row = { from = 0, body = 0, whole = 0, tests = "both", law = law, known = MEMORY }
    for name, value in pairs(more or {}) do row[name] = value end
    return row
  end
  return { Au = any { karats = true }, Ag = any { words = { sterling = 925 } }, Pt = any(), Pd = any() }
end

local places = {

  US = {
    name = "United States",
    who = "the maker, who answers for it: no office assays it first",
    maker = "the maker's registered trademark (or one applied for within 30 days) or name, struck by the same means, "
         .. "at least as large and as close as possible: 15 U.S.C. 297(b)",
    left_out = "springs, posts and separable backs of lapel buttons, posts and nuts for interchangeable ornaments, "
            .. "snap tongues, metal encased in nonmetal, field pieces and bezels of lockets, wire pegs and rivets: "
            .. "16 CFR Part 23, Appendix",
    plated = "Only a karat mark with the words rolled gold plate, gold plate, gold electroplate or gold filled beside it, "
          .. "and never sterling or coin: 15 U.S.C. 297(a)",
    mixed = "where one part is marked, every other complete part of another quality bears a like mark of its own quality: "
         .. "15 U.S.C. 297(b)(B)",
    metals = {
      Au = { from = 0, karats = true, body = 3, whole = 7, tests = "both",
             law = "15 U.S.C. 295", as_of = "2026-03-26", known = PRIMARY,
             -- sold by its maker or importer before that date: half a karat, a whole one with solder
             old_stock = { before = "1981-10-01", body = 1000 / 48, whole = 1000 / 24,
                           law = "note to 15 U.S.C. 295 (Pub. L. 94-450)" },
             unless = { ["watch case"] = { whole = 3 }, flatware = { whole = 3 } } },
      Ag = { from = 0, words = { sterling = 925, ster = 925, ["ster."] = 925, coin = 900 }, body = 4, whole = 10, tests = "both",
             law = "15 U.S.C. 296", as_of = "2026-03-26", known = PRIMARY },
      -- the statute covers gold and silver only, so there is no tolerance; what may be said of platinum is from memory
      Pt = { from = 850, words = { platinum = 950, ["plat."] = 950, plat = 950 }, body = 0, whole = 0, tests = "both",
             note = "from 950 the word alone is enough, from 850 to 949 the number goes before Pt or Plat.; below 850 the share of "
                 .. "every platinum metal is written out, which is not judged here",
             law = "16 CFR 23.6(b)-(c); 15 U.S.C. 294-300 have no tolerance for platinum", known = MEMORY },
      Pd = { from = 500, body = 0, whole = 0, tests = "both", note = "no rule on the words for palladium was read",
             law = "15 U.S.C. 294-300 have no tolerance for palladium", known = MEMORY },
    },
  },

  CA = {
    name = "Canada",
    who = "the maker; a quality mark is optional",
    maker = "a registered or applied-for trademark, struck by the same method; a bare name is not enough: "
         .. "R.S.C. 1985, c. P-19, s. 4(3); Regulations s. 5(2)",
    left_out = "springs, joint pins, screws, rivets, hat pin stems, clutchbacks, bracelet tongues, locket bezels, "
            .. "earring setting posts and the further parts of C.R.C., c. 1303, s. 4",
    metals = {
      Au = { from = 375, karats = true, decimals = true, body = 3, whole = 7, tests = "soldered",
             white = { from = 750, whole = 15 }, -- white gold of 18 karats or more, with solder
             note = "in decimals the Regulations write a proportion to 1: .585 for 585",
             law = "C.R.C., c. 1303, ss. 6, 13(1)", as_of = "2025-07-25", known = PRIMARY },
      Ag = { from = 925, decimals = true, words = { sterling = 925 }, body = 2, whole = 6, tests = "soldered",
             law = "C.R.C., c. 1303, ss. 6, 13(2)", as_of = "2025-07-25", known = PRIMARY },
      Pt = { from = 950, decimals = true, body = 0, whole = 0, tests = "both", note = "platinum, iridium and ruthenium count together",
             law = "C.R.C., c. 1303, s. 6; s. 13 grants nothing", as_of = "2025-07-25", known = PRIMARY },
      Pd = { from = 950, decimals = true, body = 0, whole = 0, tests = "both",
             note = "90 % palladium is enough where it and Pt, Ir, Ru, Rh, Os and Au make 95 % together",
             law = "C.R.C., c. 1303, s. 6; s. 13 grants nothing", as_of = "2025-07-25", known = PRIMARY },
    },
  },

  GB = {
    name = "United Kingdom",
    who = OFFICE, office = true, maker = "a sponsor's mark registered with the assay office",
    nickel = { post = NICKEL_EU.post, skin = NICKEL_EU.skin, law = "UK REACH entry 27", known = MEMORY },
    base_metal = "must differ plainly in colour or bear its name or METAL: Hallmarking Act 1973, Sch. 2 para 16",
    plated = "A coating of rhodium, or of gold on silver, platinum or palladium, is ignored: describe the metal under it as the "
          .. "body; base metal under a layer is no precious metal: Hallmarking Act 1973, Sch. 2 paras 13-14",
    mixed = "each metal bears its own standard mark, and the office's own mark goes with that of the least precious, here "
         .. "{least}: Hallmarking Act 1973, Sch. 2 paras 10, 15",
    metals = {
      Au = { marks = { 375, 585, 750, 916, 990, 999 }, least = { [916] = 916.6 }, body = 0, whole = 0, tests = "both",
             solder = { rule = "stop", { article = "filigree", at = 750, least = 740 },
                        { article = "watch case", at = 750, least = 740 }, { white = true, at = 585, least = 500 },
                        { white = true, at = 750, least = 500 }, { at = 916, least = 750 }, {} },
             exempt = { below = "1 g", counts = "all the metal", not_beside = { "Pt" } },
             law = "Hallmarking Act 1973, ss. 1(4A)-(4D), 4(3), Sch. 1 paras 12A-14AA", as_of = "2025-04-06", known = PRIMARY },
      Ag = { marks = { 800, 925, 958, 999 }, least = { [958] = 958.4 }, words = { sterling = 925, britannia = 958.4 },
             body = 0, whole = 0, tests = "both", solder = { rule = "stop", { least = 650 } },
             exempt = { below = "7.78 g", counts = "all the metal", not_beside = { "Au", "Pt", "Pd" } },
             law = "Hallmarking Act 1973, ss. 1(4A)-(4D), 4(3), Sch. 1 paras 12A-14AA", as_of = "2025-04-06", known = PRIMARY },
      Pt = { marks = { 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both",
             solder = { rule = "stop", together = true, { least = 950 } },
             note = "of the solder gold, silver, platinum and palladium count together",
             exempt = { below = "0.5 g", counts = "all the metal" },
             law = "Hallmarking Act 1973, ss. 1(4A)-(4D), 4(3), Sch. 1 paras 12A-14AA", as_of = "2025-04-06", known = PRIMARY },
      Pd = { marks = { 500, 950, 999 }, body = 0, whole = 0, tests = "both",
             solder = { rule = "stop", together = true, { at = 950, least = 700 }, { at = 999, least = 700 }, {} },
             exempt = { below = "1 g", counts = "all the metal", not_beside = { "Au", "Pt" } },
             law = "Hallmarking Act 1973, ss. 1(4A)-(4D), 4(3), Sch. 1 paras 12A-14AA", as_of = "2025-04-06", known = PRIMARY },
    },
  },

  IE = {
    name = "Ireland", who = OFFICE, office = true, maker = "a registered maker's mark (from memory, unverified)",
    nickel = NICKEL_EU, note = "no piece is too light to be marked; the tolerance was not read and is taken as none",
    metals = {
      Au = { marks = { 375, 417, 585, 750, 833, 916, 990, 999 }, body = 0, whole = 0, tests = "both",
             law = "Hallmarking Act 1981; S.I. 440-442/2019", known = GUIDANCE },
      Ag = { marks = { 800, 925, 958, 999 }, least = { [958] = 958.4 }, words = { sterling = 925 },
             body = 0, whole = 0, tests = "both", law = "Hallmarking Act 1981; S.I. 440-442/2019", known = GUIDANCE },
      Pt = { marks = { 600, 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both",
             law = "Hallmarking Act 1981; S.I. 440-442/2019", known = GUIDANCE },
      Pd = { marks = { 500, 950, 999 }, body = 0, whole = 0, tests = "both",
             law = "Hallmarking Act 1981; S.I. 440-442/2019", known = GUIDANCE },
    },
  },

  CCM = {
    name = "Hallmarking Convention", who = "an authorised assay office of a member country", office = true,
    maker = "the responsibility mark: Annex II", note = "of several finenesses of one metal the lowest is marked: "
         .. "Annex II para 4.7; no piece is too light to be marked",
    metals = {
      Au = { marks = { 375, 585, 750, 916, 999 }, body = 0, whole = 0, tests = "both", solder = { rule = "confirm", {} },
             law = "Convention on the Control and Marking of Articles of Precious Metals, Annex I paras 2.2-2.4",
             as_of = "2017-05-10", known = PRIMARY },
      Ag = { marks = { 800, 830, 925, 999 }, body = 0, whole = 0, tests = "both", solder = { rule = "confirm", {} },
             law = "the same Convention, Annex I paras 2.2-2.4", as_of = "2017-05-10", known = PRIMARY },
      Pt = { marks = { 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both", solder = { rule = "confirm", {} },
             law = "the same Convention, Annex I paras 2.2-2.4", as_of = "2017-05-10", known = PRIMARY },
      Pd = { marks = { 500, 950, 999 }, body = 0, whole = 0, tests = "both", solder = { rule = "confirm", {} },
             law = "the same Convention, Annex I paras 2.2-2.4", as_of = "2017-05-10", known = PRIMARY },
    },
  },

  DE = {
    name = "Germany", who = "the maker or seller; marking is voluntary", nickel = NICKEL_EU,
    maker = "none for jewellery; the crown is for utensils only: FeinGehG ss. 3, 5(3)",
    note = "the fineness is stated in thousandths; filled or reinforced goods bear none: FeinGehG s. 8",
    plated = "Goods that are filled with another metal, or joined to it for strength, bear no fineness: FeinGehG s. 8; on plated "
          .. "goods no more was read",
    mixed = "another metal that is plainly seen, as decoration or mechanism, is not counted: FeinGehG s. 8",
    metals = {
      Au = { from = 0, whole = 10, tests = "whole",
             law = "FeinGehG s. 5(1)-(2)", as_of = "2025-12-20", known = PRIMARY,
             unless = { utensil = { from = 585, body = 5, whole = 5, tests = "both", law = "FeinGehG s. 2", as_of = "2022-03-26" },
                        ["watch case"] = { body = 5, whole = 5, tests = "both", law = "FeinGehG ss. 2(2), 4", as_of = "2022-03-26" } } },
      Ag = { from = 0, whole = 10, tests = "whole",
             law = "FeinGehG s. 5(1)-(2)", as_of = "2025-12-20", known = PRIMARY,
             unless = { utensil = { from = 800, body = 8, whole = 8, tests = "both", law = "FeinGehG s. 2", as_of = "2022-03-26" },
                        ["watch case"] = { body = 8, whole = 8, tests = "both", law = "FeinGehG ss. 2(2), 4", as_of = "2022-03-26" } } },
      -- the act is on goods of gold and silver: of platinum and palladium it says nothing, so any fineness that is true may be said
      Pt = { from = 0, body = 0, whole = 0, tests = "both", note = "the act on fineness is on gold and silver only: nothing is forgiven",
             law = "FeinGehG, title and sections: gold and silver goods", as_of = "2022-03-26", known = PRIMARY },
      Pd = { from = 0, body = 0, whole = 0, tests = "both", note = "the act on fineness is on gold and silver only: nothing is forgiven",
             law = "FeinGehG, title and sections: gold and silver goods", as_of = "2022-03-26", known = PRIMARY },
    },
  },

  CH = {
    name = "Switzerland",
    who = "the maker; watch cases: the assay office",
    maker = "the responsibility mark beside every fineness mark, at least 0.5 mm high: EMKG art. 9(4), EMKV art. 46",
    note = "of several alloys the lowest is marked; gilded silver is marked as silver: EMKV art. 46",
    plated = "No fineness mark: EMKG art. 8(4)",
    metals = {
      Au = { marks = { 375, 585, 750, 916, 999 }, body = 0, whole = 0, tests = "both",
             solder = { rule = "stop", permitted = { whole = 10, law = "EMKV art. 36" }, {} },
             law = "EMKG art. 7(2), Annex 2", as_of = "2011-01-01", known = PRIMARY },
      Ag = { marks = { 800, 925, 999 }, body = 0, whole = 0, tests = "both",
             solder = { rule = "stop", permitted = { whole = 10, law = "EMKV art. 36" }, {} },
             law = "EMKG art. 7(2), Annex 2", as_of = "2011-01-01", known = PRIMARY },
      Pt = { marks = { 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both", note = "the name or Pt is struck beside it",
             solder = { rule = "stop", permitted = { whole = 10, law = "EMKV art. 36" }, {} },
             law = "EMKG art. 7(2), Annex 2", as_of = "2011-01-01", known = PRIMARY },
      Pd = { marks = { 500, 950, 999 }, body = 0, whole = 0, tests = "both", note = "the name or Pd is struck beside it",
             solder = { rule = "stop", permitted = { whole = 10, law = "EMKV art. 36" }, {} },
             law = "EMKG art. 7(2), Annex 2", as_of = "2011-01-01", known = PRIMARY },
    },
  },

  FR = {
    name = "France", who = "the guarantee office, or a maker under its agreement",
    maker = "the maker's mark and the legal fineness even where no guarantee mark is required", nickel = NICKEL_EU,
    metals = {
      Au = { marks = { 375, 585, 750, 916, 999 }, body = 0, whole = 0, tests = "both",
             exempt = { below = "3 g", counts = "the whole article" },
             law = "CGI art. 522; annexe III", as_of = "2015-01-01", known = PRIMARY },
      Ag = { marks = { 800, 925, 999 }, body = 0, whole = 0, tests = "both",
             exempt = { below = "30 g", counts = "the whole article" },
             law = "CGI art. 522; annexe III", as_of = "2015-01-01", known = PRIMARY },
      Pt = { marks = { 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both", note = "iridium counts as platinum",
             exempt = { below = "3 g", counts = "the whole article" },
             law = "CGI art. 522; annexe III", as_of = "2015-01-01", known = PRIMARY },
    },
  },

  IT = {
    name = "Italy", who = "the maker", nickel = NICKEL_EU,
    maker = "the identification mark of the maker (from memory, unverified)",
    note = "above the highest legal fineness any may be marked: D.Lgs. 251/1999 art. 3",
    metals = {
      Au = { marks = { 375, 585 }, from = 750, body = 0, whole = 0, tests = "both",
             law = "D.Lgs. 251/1999 art. 3(4); D.P.R. 150/2002 art. 6", as_of = "2002-07-25", known = PRIMARY,
             -- only for lost wax with centrifugal injection, and only under the mark 753
             cast = { at = 753, body = 3, whole = 3, law = "D.P.R. 150/2002 art. 6(3)" } },
      Ag = { marks = { 800 }, from = 925, body = 0, whole = 0, tests = "both",
             law = "D.Lgs. 251/1999 art. 3(4); D.P.R. 150/2002 art. 6", as_of = "2002-07-25", known = PRIMARY },
      Pt = { marks = { 850, 900 }, from = 950, body = 5, whole = 10, tests = "soldered",
             law = "D.P.R. 150/2002 art. 6(1)", as_of = "2002-07-25", known = PRIMARY },
      Pd = { marks = { 500 }, from = 950, body = 5, whole = 10, tests = "soldered",
             law = "D.P.R. 150/2002 art. 6(1)", as_of = "2002-07-25", known = PRIMARY },
    },
  },

  NL = {
    name = "Netherlands", who = OFFICE, office = true, maker = "a registered responsibility mark (from memory, unverified)",
    nickel = NICKEL_EU,
    note = "the tolerance was not read and is taken as none; the exemption is about the mass of the metal itself, and is "
        .. "taken here to mean the alloy",
    metals = {
      Au = { marks = { 585, 750, 833, 916 }, body = 0, whole = 0, tests = "both",
             exempt = { below = "1 g", counts = "the metal that is marked" },
             law = "Waarborgwet 2019 arts. 1, 2, 7; Waarborgbesluit 2019 art. 1", as_of = "2022-03-02", known = PRIMARY },
      Ag = { marks = { 800, 835, 925 }, body = 0, whole = 0, tests = "both",
             exempt = { below = "8 g", counts = "the metal that is marked" },
             law = "Waarborgwet 2019 arts. 1, 2, 7; Waarborgbesluit 2019 art. 1", as_of = "2022-03-02", known = PRIMARY },
      Pt = { marks = { 850, 900, 950 }, body = 0, whole = 0, tests = "both",
             exempt = { below = "0.5 g", counts = "the metal that is marked" },
             law = "Waarborgwet 2019 arts. 1, 2, 7; Waarborgbesluit 2019 art. 1", as_of = "2022-03-02", known = PRIMARY },
    },
  },

  AT = {
    name = "Austria", who = "the maker", maker = "a registered responsibility mark (from memory, unverified)",
    nickel = NICKEL_EU, note = "lower solder only as far as it is technically needed: Punzierungsgesetz 2000 s. 2",
    metals = {
      Au = { marks = { 585, 750, 900, 986 }, body = 0, whole = 0, tests = "both",
             law = "Punzierungsgesetz 2000 s. 3(2)-(3)", known = COPY },
      Ag = { marks = { 800, 835, 900, 925 }, body = 0, whole = 0, tests = "both",
             law = "Punzierungsgesetz 2000 s. 3(2)-(3)", known = COPY },
      Pt = { marks = { 950 }, body = 0, whole = 0, tests = "both", note = "iridium counts as platinum",
             law = "Punzierungsgesetz 2000 ss. 2, 3(2)-(3)", known = COPY },
    },
  },

  ES = {
    name = "Spain", who = "an official or authorised laboratory", office = true, maker = "a registered maker's mark (from memory, unverified)",
    nickel = NICKEL_EU,
    note = "small or delicate pieces may go without, but not by weight; the rule for the whole with solder was not read and is taken as none",
    metals = {
      Au = { marks = { 375, 585, 750, 916, 999 }, body = 0, whole = 0, tests = "both",
             law = "Ley 17/1985 art. 9", as_of = "2019-02-21", known = PRIMARY },
      Ag = { marks = { 800, 925, 999 }, body = 0, whole = 0, tests = "both",
             law = "Ley 17/1985 art. 9", as_of = "2019-02-21", known = PRIMARY },
      Pt = { marks = { 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both", note = "up to 5 ‰ iridium counts as platinum",
             law = "Ley 17/1985 art. 9", as_of = "2019-02-21", known = PRIMARY },
    },
  },

  SE = {
    name = "Sweden", who = "the maker or importer", maker = "a name mark beside the fineness: Lag (1999:779) s. 6",
    nickel = NICKEL_EU,
    note = "the shortfall is in the definition of a precious metal work; the regulations on each mark were not read",
    metals = {
      Au = { from = 375, body = 5, whole = 5, tests = "both", law = "Lag (1999:779) s. 1", as_of = "2022-01-01", known = PRIMARY },
      Ag = { from = 800, body = 8, whole = 8, tests = "both", law = "Lag (1999:779) s. 1", as_of = "2022-01-01", known = PRIMARY },
      Pt = { from = 850, body = 5, whole = 5, tests = "both", law = "Lag (1999:779) s. 1", as_of = "2022-01-01", known = PRIMARY },
    },
  },

  NO = {
    name = "Norway", who = "the maker or the assay office", maker = "a registered responsibility mark (from memory, unverified)",
    note = "between two standards the lower is marked; the tolerance was not read and is taken as none",
    metals = {
      Au = { marks = { 375, 585, 750, 916, 999 }, body = 0, whole = 0, tests = "both",
             law = "FOR-2011-01-10-12 s. 2", as_of = "2011-01-10", known = PRIMARY },
      Ag = { marks = { 800, 830, 925, 999 }, body = 0, whole = 0, tests = "both",
             law = "FOR-2011-01-10-12 s. 2", as_of = "2011-01-10", known = PRIMARY },
      Pt = { marks = { 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both",
             law = "FOR-2011-01-10-12 s. 2", as_of = "2011-01-10", known = PRIMARY },
    },
  },

  DK = {
    name = "Denmark", who = "the maker or importer", maker = "a registered responsibility mark (from memory, unverified)",
    nickel = NICKEL_EU, note = "the tolerance was not read and is taken as none",
    metals = {
      Au = { from = 333, body = 0, whole = 0, tests = "both", exempt = { below = "1 g", counts = "the whole article" },
             law = "Lov 798/2020, as the control body explains it", as_of = "2020-01-01", known = GUIDANCE },
      Ag = { from = 800, body = 0, whole = 0, tests = "both", exempt = { below = "3 g", counts = "the whole article" },
             law = "Lov 798/2020, as the control body explains it", as_of = "2020-01-01", known = GUIDANCE },
      Pt = { from = 500, body = 0, whole = 0, tests = "both", exempt = { below = "1 g", counts = "the whole article" },
             law = "Lov 798/2020, as the control body explains it", as_of = "2020-01-01", known = GUIDANCE },
      Pd = { from = 500, body = 0, whole = 0, tests = "both", exempt = { below = "1 g", counts = "the whole article" },
             law = "Lov 798/2020, as the control body explains it", as_of = "2020-01-01", known = GUIDANCE },
    },
  },

  FI = {
    name = "Finland", who = "the maker or importer", maker = "a registered responsibility mark (from memory, unverified)",
    nickel = NICKEL_EU, note = "steps: 588 is marked 585, and 584 is marked 375; the steps above 585 are those of the Hallmarking Convention",
    metals = {
      Au = { marks = { 375, 585, 750, 916, 999 }, body = 0, whole = 0, tests = "both",
             law = "Safety and Chemicals Agency: fineness requirements", known = GUIDANCE },
      Ag = { marks = { 800, 830, 925, 999 }, body = 0, whole = 0, tests = "both",
             law = "Safety and Chemicals Agency: fineness requirements", known = GUIDANCE },
      Pt = { marks = { 500, 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both",
             law = "Safety and Chemicals Agency: fineness requirements", known = GUIDANCE },
      Pd = { marks = { 500, 950, 999 }, body = 0, whole = 0, tests = "both",
             law = "Safety and Chemicals Agency: fineness requirements", known = GUIDANCE },
    },
  },

  PT = {
    name = "Portugal", who = OFFICE, office = true, maker = "a registered responsibility mark (from memory, unverified)",
    nickel = NICKEL_EU, note = "two later versions of art. 56 exist and were not read; the list of marks is from memory, unverified",
    metals = {
      Au = { marks = { 375, 585, 750, 800, 916, 999 }, body = 0, whole = 0, tests = "both",
             solder = { rule = "stop", { article = "filigree", below_mark = 10 }, { article = "watch case", below_mark = 10 },
                        { white = true, at = 375, least = 375 }, { white = true, least = 585 },
                        { at = 916, least = 750 }, { at = 999, least = 750 }, {} },
             law = "Lei 98/2015 arts. 14, 56", as_of = "2015-08-18", known = MEMORY },
      Ag = { marks = { 800, 830, 835, 925, 999 }, body = 0, whole = 0, tests = "both",
             solder = { rule = "stop", { at = 925, least = 650 }, { at = 999, least = 650 }, {} },
             law = "Lei 98/2015 arts. 14, 56", as_of = "2015-08-18", known = MEMORY },
    },
  },

  CN = {
    name = "China", who = "the maker; an official laboratory tests it", maker = "the maker's code (from memory, unverified)",
    note = "the rule for the whole with solder was not read and is taken as none",
    metals = {
      Au = { marks = { 375, 585, 750, 916, 990 }, body = 0, whole = 0, tests = "both",
             law = "GB 11887-2012, 4.1-4.2, Amendment 1", as_of = "2016-05-04", known = COPY },
      Ag = { marks = { 800, 925, 990 }, body = 0, whole = 0, tests = "both",
             law = "GB 11887-2012, 4.1-4.2, Amendment 1", as_of = "2016-05-04", known = COPY },
      Pt = { marks = { 850, 900, 950, 990 }, body = 0, whole = 0, tests = "both",
             law = "GB 11887-2012, 4.1-4.2, Amendment 1", as_of = "2016-05-04", known = COPY },
      Pd = { marks = { 500, 950, 990 }, body = 0, whole = 0, tests = "both",
             law = "GB 11887-2012, 4.1-4.2, Amendment 1", as_of = "2016-05-04", known = COPY },
    },
  },

  JP = {
    name = "Japan", who = "the mint, on request; marking is voluntary", maker = "none",
    note = "416 has stood for ten karats since April 2012 (read); the other classes and the tolerance are from memory, unverified",
    metals = {
      Au = { marks = { 375, 416, 585, 750, 916, 999 }, body = 0, whole = 0, tests = "both",
             law = "Japan Mint fineness certification", known = MEMORY },
    },
  },

  SG = {
    name = "Singapore", who = "the assay office, on request; marking is voluntary", maker = "none",
    note = "the tolerance was not read and is taken as none",
    metals = {
      Au = { marks = { 375, 585, 750, 900, 916, 999 }, body = 0, whole = 0, tests = "both",
             law = "Singapore Assay Office scheme", known = GUIDANCE },
      Ag = { marks = { 800, 925, 958, 999 }, words = { sterling = 925 }, body = 0, whole = 0, tests = "both",
             law = "Singapore Assay Office scheme", known = GUIDANCE },
      Pt = { marks = { 850, 900, 950, 999 }, body = 0, whole = 0, tests = "both",
             law = "Singapore Assay Office scheme", known = GUIDANCE },
    },
  },

  -- Neither has a statute on marks of fineness, as far as is known; neither standard nor consumer law was read.
  AU = {
    name = "Australia", who = "the maker; marking is voluntary", maker = "none that is known (from memory, unverified)",
    note = "no hallmarking law is known; AS 2140 on fineness is voluntary and was not read; a mark that is not true misleads under "
        .. "consumer law: all from memory, unverified. No tolerance below the mark is allowed",
    metals = without_law("none found; AS 2140 not read"),
  },
  NZ = {
    name = "New Zealand", who = "the maker; marking is voluntary", maker = "none that is known (from memory, unverified)",
    note = "no hallmarking law is known, and its own texts were not read; a mark that is not true misleads under the Fair Trading "
        .. "Act 1986: all from memory, unverified. No tolerance below the mark is allowed",
    metals = without_law("none known"),
  },
}

return { places = places, memory = MEMORY }
