-- The metal statement of one owner, as a client reads it: lines that are rounded first and then added, so that a pocket
-- calculator gives the same totals, and what the rounding leaves over on a line of its own.

local ledger = require "ledger"

-- Rows as they are printed and the sum of the printed ones, so that a client gets the same total.
local function printed_rows(rows, side, step)
  local cells, total = {}, nil
  for _, row in ipairs(rows) do
    if row.side == side then
      local fine = row.fine:nearest(step)
      total = total and total + fine or fine
      table.insert(cells, { ledger.words[row.entry.way] .. ": " .. row.entry.what, row.entry.mass, row.entry.fineness, fine })
    end
  end
  return cells, total
end

local function print_side(page, title, rows, side, zero, step)
  local cells, total = printed_rows(rows, side, step)
  total = (total or zero):nearest(step)
  if #cells > 0 then
    page:grid { columns = { title, "Mass", "Fineness", "Fine" }, rows = cells, total = { "Together", false, false, total } }
  end
  return total
end

local function print_account(page, group, rows, a, zero, complete, step)
  page:heading(group)
  local brought = print_side(page, "In", rows, 1, zero, step)
  local out     = print_side(page, "Out", rows, -1, zero, step)
  if not complete then
    page:text "Not everything that is left has been weighed: the loss is not known yet."
    return
  end
  local loss = a.loss:nearest(step)
  page:line("Lost in working, by the weighings", loss)
  if not a.brought:is_zero() then
    page:line("  of what went in (1 to 2 % is usual)", (a.loss / a.brought):as "%":nearest "0.01 %")
  end
  page:line("Rounding of the lines above", (brought - out - loss):nearest(step))
  page:total("In less out", (brought - out):nearest(step))
end

return { print = print_account }
