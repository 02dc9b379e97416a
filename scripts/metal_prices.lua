-- The price list as recipes read it: what each metal stood at on a job's date, since a job that is worked again later must
-- find the price that it was reckoned with, and not the one that came after.

local fields = { price = ask.price { "The price" }, at = ask.moment { "When it stood" }, from = ask.text { "Who quoted it" } }
local former = ask.record { "A former price", fields = fields }
local listed = { history = ask.list { "Former prices", of = former, optional = true } }
for name, field in pairs(fields) do listed[name] = field end
local price = ask.record { "A price", fields = listed }

-- Whether a moment lies behind a date; where the date names only its day, behind that day.
local function is_later(at, date)
  if tostring(date):find("T") then return at > date end
  return at >= date + Q "24 h"
end

-- One metal's entry as it stood at `date`. Where the list begins later, its newest one: that a quote rests on a price that
-- did not stand yet is for the quote to ask.
local function stood(entry, date)
  if not date or not is_later(entry.at, date) then return entry end
  local found = nil
  for _, past in ipairs(entry.history or {}) do
    if not is_later(past.at, date) and (not found or past.at > found.at) then found = past end
  end
  return found or entry
end

-- Every metal's price as it stood at `date`, by metal.
local function on(prices, date)
  local list = {}
  for metal, entry in pairs(prices) do list[metal] = stood(entry, date) end
  return list
end

-- The allowance `prices`, by name of the metal.
local function prices(optional) return ask.by_name { "Prices, by metal", of = price, optional = optional, example = "Au" } end

return { prices = prices, on = on, is_later = is_later }
