-- The price list as recipes read it: the price of each metal on a job's date, since a job that is run again later must
-- find the price it used then, not a later one.

local fields = { price = ask.price { "The price" }, at = ask.moment { "Date and time of the price" }, from = ask.text { "Who quoted it" } }
local former = ask.record { "An earlier price", fields = fields }
local listed = { history = ask.list { "Earlier prices", of = former, optional = true } }
for name, field in pairs(fields) do listed[name] = field end
local price = ask.record { "A price", fields = listed }

-- The test whether a moment is after a date; if the date has no time, after that day.
local function after(date)
  if tostring(date):find("T") then return function(at) return at > date end end
  local end_of_day = date + Q "24 h"
  return function(at) return at >= end_of_day end
end

-- Whether a moment is after a date; if the date has no time, after that day.
local function is_later(at, date) return after(date)(at) end

-- One metal's entry as it was at a date, `is_late` after it. Where the list begins later, its newest one: that a quote uses a price from
-- after its date is for the quote to ask about. Of two of one moment the later entry corrects the other.
local function stood(entry, is_late)
  if not is_late(entry.at) then return entry end
  local found = nil
  for _, past in ipairs(entry.history or {}) do
    if not is_late(past.at) and (not found or past.at >= found.at) then found = past end
  end
  return found or entry
end

-- Every metal's price as it was at `date`, by metal.
local function on(prices, date)
  local list, is_late = {}, date and after(date) or function() return false end
  for metal, entry in pairs(prices) do list[metal] = stood(entry, is_late) end
  return list
end

-- The allowance `prices`, by name of the metal.
local function prices(optional) return ask.by_name { "Prices, by metal", of = price, optional = optional, example = "Au" } end

return { prices = prices, on = on, is_later = is_later }
