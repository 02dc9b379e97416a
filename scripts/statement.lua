-- The metal statement of one owner, as a client reads it: lines that are rounded first and then added, so that a pocket
-- calculator gives the same totals, with rounding differences on a separate line.

local ledger = require "ledger"

-- Rows as they are printed and the sum of the printed ones, so that a client gets the same total.
local function printed_rows(rows, side, step)
  local cells, total = {}, nil
  for _, row in ipairs(rows) do
    if row.side == side then
      local fine = row.fine:nearest(step)
      total = total and total + fine or fine
      table.insert(cells, { (row.taken and "Taken out of what is here" or ledger.words[row.way]) .. ": " .. row.what, row.mass, row.entry.fineness, fine })
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

-- `usual` says in words what loss is usual; the figure is the one used for the verdict.
local function print_account(page, heading, rows, a, zero, complete, step, usual)
  page:heading(heading)
  local brought = print_side(page, "In", rows, 1, zero, step)
  local out     = print_side(page, "Out", rows, -1, zero, step)
  if not complete then
    page:text "Not everything left over has been weighed yet, so the loss is not known."
    return
  end
  local loss = a.loss:nearest(step)
  page:line("Lost in working, from the weighings", loss)
  local rounding = (brought - out - loss):nearest(step)
  if not rounding:is_zero() then page:line("Rounding difference", rounding) end
  page:total("Difference", (brought - out):nearest(step))
  page:line("Usual loss: " .. usual, a.expected:nearest(step))
  if not a.brought:is_zero() then
    page:line("Loss as a share of what went in", (a.loss / a.brought):as "%":nearest "0.01 %")
  end
end

-- The way to what is owed, line by line, under `total`; `due` was rounded so that nobody is promised more than there is.
local function print_way(page, total, steps, due, step)
  local sum = nil
  for i, s in ipairs(steps) do
    local amount = s.agreed and s[2]:down_to(step) or s[2]:nearest(step)   -- as the letter said "at least"
    sum = sum and sum + amount or amount
    if i == 1 or not s[2]:is_zero() then page:line(s[1], amount) end
  end
  local rounding = (due - sum):nearest(step)
  if not rounding:is_zero() then page:line("Rounding difference", rounding) end
  page:total(total, due)
end

return { print = print_account, print_way = print_way }
