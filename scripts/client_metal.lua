-- What becomes of the client's metal at the end of a job, and the words that say so on the bill.

local pricing = require "pricing"

local CENTIGRAM = "0.01 g"

-- What becomes of it: handed back, credited on this invoice, or bought in a purchase of its own.
local function settle(job, house, sheet, due, price, nothing, money)
  local s = { returned = due and due * 0 or nil, credit = nothing, purchase = nothing, charge = nil }
  if not due or due:is_zero() then return s end
  if due < due * 0 then
    local w = pricing.worth(-due, price, 1 + house.premium)
    s.charge = { label = text.fill("Metal of the studio's in your piece, {fine} x {price} + {premium}", { fine = w.fine, price = price, premium = house.premium }), amount = w.amount }
  elseif not job.surplus then
    sheet:stop("surplus", text.fill("{due} of the client's metal is over, and nobody says what becomes of it: surplus is returned (handed back), credited (taken off this invoice) or bought (paid in a purchase of its own)", { due = due }), money)
  elseif job.surplus == "returned" then
    s.returned = due
  else
    assert(house.credit_share, "the house sets no credit_share, at which metal is taken over")
    local w = pricing.worth(due, price, house.credit_share)
    local worth = w.amount:rounded "half up"
    s.words = w.words
    if job.surplus == "credited" then s.credit = worth else s.purchase = worth end
  end
  return s
end

local function words_of_main(job, due, s)
  if not due and job.quoted_credit and not job.quoted_credit:is_zero() then
    return { "Your metal was credited in the quote, and is the studio's." }
  elseif not due then
    return { "No metal of yours was weighed in." }
  elseif due:is_zero() then
    return { "Of your metal nothing is left over." }
  elseif s.charge then
    return { text.fill("Your piece holds {over} more than you brought: it is on the invoice.", { over = -due }) }
  end
  local words = { text.fill("Of your metal {due} fine is left.", { due = due }) }
  if job.surplus == "returned" then
    table.insert(words, job.return_fineness and text.fill("Handed back as {mass} of metal at {f}.", {
      mass = due:metal_in(job.return_fineness):up_to(CENTIGRAM), f = job.return_fineness }) or "It is handed back.")
  elseif job.surplus == "credited" then
    table.insert(words, text.fill("It becomes the studio's, and {credit} is taken off above.", { credit = s.credit }))
  elseif job.surplus == "bought" then
    table.insert(words, text.fill("The studio buys it for {sum} ({words}): a purchase of its own, with its own receipt.",
      { sum = s.purchase, words = s.words }))
  end
  return words
end

local function words(job, due, open, s, others)
  if open then return { "What is left of it is not agreed yet, and nothing of it is settled until it is." } end
  local list = (due or #others == 0) and words_of_main(job, due, s) or {}
  for _, other in ipairs(others) do
    table.insert(list, text.fill("Of your other metal {due} fine is held for you, by an account of its own on the metal statement.", { due = other }))
  end
  return list
end

return { settle = settle, words = words }
