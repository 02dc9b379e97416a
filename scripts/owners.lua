-- Whose account each weighing belongs to, where several own one lot too, and what is owed to each.

local members = require "members"

-- ---- whose account ----------------------------------------------------------------------------------------------

-- The group an owner's metal is accounted in: the lot that the owner has a share of, or the owner alone.
local function group_finder(shares)
  return function(owner)
    for lot, members in pairs(shares) do
      if lot == owner then return lot end
      for member in pairs(members) do
        if member == owner then return lot end
      end
    end
    return owner
  end
end

-- The lots that share one group; nil where there is no such group.
local function members_of(shares, group)
  for lot, members in pairs(shares) do
    if lot == group then return members end
  end
end

-- The shares that a job gives with the pieces that were brought, under the names of their owners; `typed` count before them. What has
-- another shape is another recipe's.
local function shares_of_job(old_metal, typed)
  local all = copy(typed)
  local function of_piece(piece)
    local lot, shares = members.of(piece, "owner"), members.of(piece, "shares")
    if type(lot) ~= "text" and type(lot) ~= "string" or all[lot] then return end
    local of = {}
    for owner, share in pairs(shares or {}) do
      of[owner] = share
      all[lot] = of
    end
  end
  for _, piece in ipairs((type(old_metal) == "list" or type(old_metal) == "table") and old_metal or {}) do
    if type(piece) == "record" or type(piece) == "table" then of_piece(piece) end
  end
  return all
end

-- What is wrong with the shares, a text each.
local function share_faults(shares)
  local list = {}
  for lot, members in pairs(shares) do
    local total = Q "0 %"
    for _, share in pairs(members) do total = total + share end
    if abs(total - 1) > 1e-9 then
      table.insert(list, text.fill("The shares of {lot} add up to {total}, not 100 %", { lot = lot, total = total:as "%" }))
    end
  end
  return list
end

-- Rows of each group, in the order in which the groups first appear.
local function by_group(rows)
  local groups, order = {}, {}
  for _, row in ipairs(rows) do
    if not groups[row.group] then
      groups[row.group] = {}
      table.insert(order, row.group)
    end
    table.insert(groups[row.group], row)
  end
  return groups, order
end

-- ---- what is owed ---------------------------------------------------------------------------------------------

-- The way from what was brought to what is owed, as steps { label, fine metal that it adds or takes }: of a group, or of one
-- member of it by the pieces that are this member's. `opening` is { label, fine metal }; `ruled` is what settling.ruled says.
local function steps(opening, a, working_loss, ruled)
  local list = { opening, { "Added by the studio", a.added }, { "In the piece", -a.piece } }
  local as_agreed, as_weighed = working_loss and ruled.away == a.piece * working_loss, not working_loss and ruled.away == a.loss
  if as_agreed then
    table.insert(list, { text.fill("Agreed working loss: {share} of what is in the piece", { share = working_loss }), -ruled.away })
  elseif not as_weighed then
    table.insert(list, { "Working loss, by the house's rule", -ruled.away })
  end
  table.insert(list, { "Returned", -a.returned })
  table.insert(list, { "Kept by agreement", -a.kept })
  if as_weighed then table.insert(list, { "Lost in working, from the weighings", -ruled.away }) end
  if not ruled.filings_kept:is_zero() then table.insert(list, { "Filings kept, by the house's rule", -ruled.filings_kept }) end
  if not ruled.button_kept:is_zero() then table.insert(list, { "Button kept by the studio, by the house's rule", -ruled.button_kept }) end
  return list
end

-- The balance after all steps of one owner's account.
local function owed(list)
  local balance = list[1][2]
  for i = 2, #list do balance = balance + list[i][2] end
  return balance
end

-- The rows that are of one owner.
local function rows_of(rows, owner)
  local own = {}
  for _, row in ipairs(rows) do
    if row.entry.owner == owner then table.insert(own, row) end
  end
  return own
end

return { shares_of_job = shares_of_job, group_finder = group_finder, members_of = members_of, share_faults = share_faults, by_group = by_group, steps = steps,
         owed = owed, rows_of = rows_of }
