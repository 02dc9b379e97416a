-- Whose account each weighing belongs to, where several own one lot too, and what is owed to each.

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

local function members_of(shares, group)
  for lot, members in pairs(shares) do
    if lot == group then return members end
  end
end

-- What is wrong with the shares, a text each.
local function share_faults(shares)
  local list = {}
  for lot, members in pairs(shares) do
    local total = Q "0 %"
    for _, share in pairs(members) do total = total + share end
    if abs(total - 1) > 1e-9 then
      table.insert(list, text.fill("The shares of {lot} sum to {total}, not to 100 %", { lot = lot, total = total:as "%" }))
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

-- What is owed to a group, or to one member of it by the pieces that are this member's; `share` of the opening is theirs.
local function owed(opening, a, working_loss, share)
  local piece = a.piece
  if working_loss then piece = piece * (1 + working_loss) end
  local balance = opening * share + a.added - piece - a.returned - a.kept
  if not working_loss then balance = balance - a.loss end
  return balance
end

local function rows_of(rows, owner)
  local own = {}
  for _, row in ipairs(rows) do
    if row.entry.owner == owner then table.insert(own, row) end
  end
  return own
end

return { group_finder = group_finder, members_of = members_of, share_faults = share_faults, by_group = by_group, owed = owed,
         rows_of = rows_of }
