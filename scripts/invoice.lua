-- From printed lines to the price: less credit, plus tax by the law of the place, rounded by the house's rule. A quote and the
-- invoice at the end of the job use the same calculation.
--
-- `q` is what both have: { job, house, sheet, nothing, worked, surrendered }; of the job its date and tax_place are read.

local metal_prices = require "metal_prices"
local costs = require "costs"
local taxes = require "taxes"

-- Whether a price is per what it is multiplied by: money for a gram, money for an hour.
local function is_per(value, unit)
  return value:per() == unit or pcall(function() return value:number(value:currency() .. "/" .. unit) end)
end

-- check(what, value, unit, either_way) and sound(): every money is of the studio's own currency, every price is per what it
-- pays for (`unit`, nil for money), and none is negative unless it may go either way. What is not stops; an exchange
-- rate is never guessed.
local function checker(sheet, own)
  local sound = true
  local function check(what, value, unit, either_way)
    if not value then return end
    local function refuse(code, words)
      sound = false
      sheet:stop(code, text.fill(words, { what = what, value = value, own = own, unit = unit,
        by = unit == "h" and "by time" or "by mass", like = unit == "h" and "68" or "98.50" }))
    end
    if value:currency() ~= own then
      refuse("currency", "{what}: {value}, but the studio's currency is {own}. Write it in {own}: no exchange rate is guessed")
    elseif unit and not is_per(value, unit) then
      refuse("per-what", "{what}: {value}, but it is paid {by}. Write it like {like} {own}/{unit}")
    elseif value:sign() < 0 and not either_way then
      refuse("negative", "{what}: {value} is negative. Remove the minus sign, or the whole figure")
    end
  end
  return check, function() return sound end
end

-- A price belongs to its hour: one from after the date, or older than the house allows, has to be confirmed.
-- `what` depends on it: the quote, the invoice. If a date has no time, any hour of that day is accepted. Whether it is too old.
local function ask_price(sheet, house, t)
  local words = { metal = t.metal, at = t.at, what = t.what, date = t.date, limit = house.price_age }
  local age, code = t.date - t.at, t.code or ""
  if metal_prices.is_later(t.at, t.date) then
    sheet:confirm("price-later" .. code, text.fill("The metal price is of {at}, but the {what} is of {date}, before that price existed", words), t.holds)
  elseif age > house.price_age then
    words.age = age > Q "48 h" and (age:as "d"):nearest "0.1 d" or (age:as "h"):nearest "0.1 h"
    sheet:confirm("old-price" .. code, text.fill("The metal price is of {at}, {age} before the {what}; the house allows at most {limit}. Set a newer one: lemel price {metal}", words), t.holds)
    return true
  end
  return false
end

-- The lines that are taxed, and what they come to.
local function taxable(q, lines)
  local taxed, total = {}, q.nothing
  for _, l in ipairs(lines) do
    if not taxes.is_free(q.house.tax_free, l.label) then
      table.insert(taxed, l)
      total = total + l.amount
    end
  end
  return taxed, total
end

-- Tax on the lines; nil after a stop.
local function taxed(q, lines, given)
  local job, house, sheet = q.job, q.house, q.sheet
  local on, total = taxable(q, lines)
  local base, unclear = taxes.base { base = house.tax_base, subtotal = total, credit = given,
    surrendered = q.surrendered, worked = q.worked }
  if not base then
    sheet:stop("tax-base", unclear, nil, { ask = "house.tax_base" })
    return nil
  end
  local place = job.tax_place or house.place
  local t, code, refused = taxes.reckon { place = place, home = house.place, date = job.date, rate = house.tax_rate,
    parts = house.tax_parts, law = house.tax_law, per = house.tax_per, rule = house.tax_rounding, sale = house.tax_sale,
    apart = house.tax_apart, base = base, lines = on }
  if not t then
    local rate = code == "tax-unknown" and (house.tax_rate and "house.tax_law" or "house.tax_rate") or nil
    sheet:stop(code, refused, nil, { ask = rate })
    return nil
  end
  t.place, t.base = place, base
  return t
end

local function rounded(amount, rounding) return amount:rounded(rounding.rule, rounding.step) end

-- What is said to the client for what was calculated: a recipe that takes totals uses rule_said.
local function said(exact, making, rounding)
  local on_total = rounding and rounding.of == "total" and rounding or {}
  return use.rule_said { total = exact, making = making, rounds = on_total.rule, step = on_total.step }.price
end

-- Lines to the price: the subtotal, the credit off, the tax on, as the house says it. nil after a stop.
local function totals(q, charged, given)
  local rounding, lines = q.house.rounding, {}
  for _, l in ipairs(charged) do table.insert(lines, l) end
  local subtotal = costs.total(lines, q.nothing)
  if rounding and rounding.of == "price before tax" then
    local by = rounded(subtotal, rounding) - subtotal
    if not by:is_zero() then
      table.insert(lines, { label = "Rounding", amount = by })
      subtotal = subtotal + by
    end
  end
  local t = taxed(q, lines, given)
  if not t then return nil end
  local exact = subtotal - given + t.tax
  t.price = said(exact, costs.making(lines, q.nothing), rounding)
  t.lines, t.subtotal, t.credit, t.rounded_by = lines, subtotal, given, t.price - exact
  return t
end

-- The number a tax office knows the studio by, which many laws require on a bill.
local function print_number(house, page)
  if house.tax_number then page:text(taxes.number(house.place, house.tax_number) .. ".") end
end

-- What else many laws require on a bill: its own number, and where the studio is.
local function print_details(job, house, page)
  if job.invoice_number then page:text(text.fill("Invoice number: {number}.", { number = job.invoice_number })) end
  if house.address then page:text(text.fill("Our address: {address}.", { address = house.address })) end
  print_number(house, page)
end

-- What heads a bill: the law's words, where it has some and the number that it wants with them is there.
local function heading(house, t)
  return t.bill and house.tax_number and t.bill.heading or "Invoice"
end

-- A bill that the law of the place wants the studio's number on.
local function ask_number(sheet, house, t)
  if not t.bill or house.tax_number then return end
  sheet:note("tax-number", text.fill('A bill with this tax is a "{heading}" only with your tax registration number on it ({law}; {known}). Write it in house.json, as "tax_number": "ABN 12 345 678 901", or "tax_rate": "0 %" and the law in "tax_law" if you charge none',
    { heading = t.bill.heading, law = t.bill.law, known = t.bill.known }), { ask = "house.tax_number" })
end

return { print_number = print_number, print_details = print_details, heading = heading, ask_number = ask_number, totals = totals, checker = checker, ask_price = ask_price }
