-- Places as people write them, so that every table of law is asked for the same place: "us", "U.S.", "US-RI" and "United
-- States" are US; "UK", "GB" and "Scotland" are GB.
--
-- Codes are those of ISO 3166-1 alpha-2; CCM, the mark of the Hallmarking Convention, is beside them, for what goes to an
-- office of the Convention. A part of a country ("CA-QC") is asked for at its country: marks and layers are national law.

-- The first name is the one that is printed.
local names = {
  US = { "United States", "USA", "United States of America" },
  CA = { "Canada", "CAN", "Alberta", "British Columbia", "Manitoba", "New Brunswick", "Newfoundland and Labrador", "Nova Scotia", "Northwest Territories", "Nunavut", "Ontario",
         "Prince Edward Island", "Quebec", "Saskatchewan", "Yukon" },
  GB = { "United Kingdom", "UK", "GBR", "Great Britain", "Britain", "England", "Scotland", "Wales", "Northern Ireland" },
  IE = { "Ireland", "IRL", "Republic of Ireland" },
  CCM = { "Hallmarking Convention", "Convention", "Vienna Convention" },
  DE = { "Germany", "DEU" },
  CH = { "Switzerland", "CHE" },
  FR = { "France", "FRA" },
  IT = { "Italy", "ITA" },
  NL = { "Netherlands", "NLD", "The Netherlands", "Holland" },
  AT = { "Austria", "AUT" },
  ES = { "Spain", "ESP" },
  SE = { "Sweden", "SWE" },
  NO = { "Norway", "NOR" },
  DK = { "Denmark", "DNK" },
  FI = { "Finland", "FIN" },
  PT = { "Portugal", "PRT" },
  CN = { "China", "CHN" },
  JP = { "Japan", "JPN" },
  SG = { "Singapore", "SGP" },
  AU = { "Australia", "AUS" },
  NZ = { "New Zealand", "NZL", "Aotearoa" },
}

local by_name = {}
for code, list in pairs(names) do
  by_name[code:lower()] = code
  for _, name in ipairs(list) do by_name[name:lower()] = code end
end

local function code_of(wanted)
  local plain = table.concat(wanted:trim():lower():split("."))
  local part = plain:split("-")
  if #part == 2 and #part[2] >= 1 and #part[2] <= 3 then   -- CA-QC, US-RI, GB-NIR: ISO 3166-2
    return #part[1] == 2 and by_name[part[1]] or nil
  end
  return by_name[plain]
end

local known = {}   -- each way of writing a place is looked up once a run
-- The code of a place, or nil where none of it is known. Points are left out: "U.S." is US.
--     places.code "U.S."   -- US
local function code(wanted)
  if known[wanted] == nil then known[wanted] = code_of(wanted) or false end
  return known[wanted] or nil
end

-- Whether it is written as a code of a country, or of its part, may be: "BR", "US-RI".
local function is_written_so(wanted)
  local part = wanted:trim():split "-"
  return #part[1] == 2 and part[1]:letters() == 2 and (#part == 1 or #part == 2 and #part[2] >= 1 and #part[2] <= 3)
end

-- The name of a place by its code or any of its names; nil where it is not known.
--     places.name "U.S."   -- United States
local function name(wanted)
  local found = code(wanted)
  return found and names[found][1]
end

-- Where a piece goes: as the job says, else to where the house is; nil where the house is at none of these places.
local function destination(said, home)
  return said or home and code(home) and home or nil
end

-- What a table keeps for a place, its rows under such codes; nil where it keeps none. A table may have rows of its own
-- that are no place ("ISO"), written as they are.
local function row(by_code, wanted)
  local found = code(wanted) or wanted:trim():upper()
  local kept = member(by_code, found)
  if kept ~= nil then return kept, found end
end

return { code = code, is_written_so = is_written_so, destination = destination, name = name, row = row, names = names }
