-- The metal statement of one owner, as a client reads it: lines that are rounded first and then added, so that a pocket
-- calculator gives the same totals, with rounding differences on a separate line.

local ledger = require "ledger"
local steps = require "steps"

local WEIGHED = "weighed "   -- how the record calls what was weighed out

-- What a row is about: its name in the record, and whose it is where several owners have one heading.
local function named(row, group)
  local owner, what = row.entry.owner, row.what:starts(WEIGHED) and row.what:sub(#WEIGHED + 1) or row.what
  return owner ~= group and owner ~= "studio" and text.fill("{what} of {owner}", { what = what, owner = owner }) or what
end

-- Rows as they are printed and the sum of the printed ones, so that a client gets the same total.
local function printed_rows(rows, side, group, step, scale)
  local cells, total = {}, nil
  for _, row in ipairs(rows) do
    if row.side == side then
      local fine = row.fine:nearest(step)
      total = total and total + fine or fine
      table.insert(cells, { (row.taken and "Taken out of what is here" or ledger.words[row.way]) .. ": " .. named(row, group), steps.as_weighed(row.mass, scale), row.entry.fineness, fine })
    end
  end
  return cells, total
end

local function print_side(page, title, rows, side, group, zero, step, scale)
  local cells, total = printed_rows(rows, side, group, step, scale)
  total = (total or zero):nearest(step)
  if #cells > 0 then
    page:grid { columns = { title, "Mass", "Fineness", "Fine" }, rows = cells, total = { "Together", false, false, total } }
  end
  return total
end

-- `group` is whose account it is; `usual` says in words what loss is usual; the figure is the one used for the verdict.
local function print_account(page, heading, rows, group, a, zero, complete, step, scale, usual)
  page:heading(heading)
  local brought = print_side(page, "In", rows, 1, group, zero, step, scale)
  local out     = print_side(page, "Out", rows, -1, group, zero, step, scale)
  if not complete then
    page:text "Not everything left over has been weighed yet, so the loss is not known."
    return
  end
  local loss = a.loss:nearest(step)
  if a.piece:is_zero() and brought == out then return page:total("Difference", (brought - out):nearest(step)) end   -- nobody worked it
  page:line("Lost in working, from the weighings", loss)
  local rounding = (brought - out - loss):nearest(step)
  if not rounding:is_zero() then page:line("Rounding difference", rounding) end
  page:total("Difference", (brought - out):nearest(step))
  page:line("Usual loss: " .. usual, a.expected:nearest(step))
  if not a.brought:is_zero() then
    page:line("Loss as a share of what went in", (a.loss / a.brought):as "%":nearest "0.01 %")
  end
end

-- The way to what is owed, line by line, under `total`; `due` was rounded so that nobody is promised more than there is. Gives the
-- rounding difference.
local function print_way(page, total, way, due, step)
  local sum = nil
  for i, s in ipairs(way) do
    local amount = s.agreed and s[2]:down_to(step) or s[2]:nearest(step)   -- as the letter said "at least"
    sum = sum and sum + amount or amount
    if i == 1 or not s[2]:is_zero() then page:line(s[1], amount) end
  end
  local rounding = (due - sum):nearest(step)
  if not rounding:is_zero() then page:line("Rounding difference", rounding) end
  page:total(total, due)
  return rounding
end

-- Whether that is more than so many rounded figures can differ by: each by one step.
--     statement.is_too_much(Q "-0.002 g", 2, Q "0.001 g")   -- false
--     statement.is_too_much(Q "0.003 g", 2, Q "0.001 g")   -- true
local function is_too_much(rounding, figures, step) return abs(rounding) > step * (figures + 0.5) end

return { print = print_account, named = named, print_way = print_way, is_too_much = is_too_much }
