-- What holds for many things, said once: the same remark of a hundred stones, the hours of a hundred flasks. A remark holds 2,000
-- bytes, a job 500 remarks, a grid 500 rows.

local MOST = 1200   -- bytes of a list within a remark
local ROWS = 500    -- of a grid

-- The texts one after the other, as many as there is room for.
--     gathered.listed({ "ring A", "ring B" }, ", ")   -- ring A, ring B
local function listed(texts, between)
  local out, length = {}, 0
  for i, one in ipairs(texts) do
    length = length + #one + #between
    if length > MOST and i > 1 then
      table.insert(out, text.fill("and {n} more", { n = #texts - i + 1 }))
      break
    end
    table.insert(out, one)
  end
  return table.concat(out, between)
end

-- Numbers that rise, in words: "1 to 4, 7".
--     gathered.numbers { 1, 2, 3, 4, 7 }   -- 1 to 4, 7
local function numbers(list)
  local runs, i = {}, 1
  while i <= #list do
    local first = i
    while list[i + 1] == list[i] + 1 do i = i + 1 end
    if i < first + 2 then
      for k = first, i do table.insert(runs, text.fill("{a}", { a = list[k] })) end
    else
      table.insert(runs, text.fill("{a} to {b}", { a = list[first], b = list[i] }))
    end
    i = i + 1
  end
  return listed(runs, ", ")
end

-- Remarks about the items of a list, `what` they are called. The same words are written once, with the numbers of the items that
-- they hold for, under the code of the first.
local function remarks(what)
  local order, known = {}, {}
  local function add(code, number, words)
    local key = code .. " " .. words
    if not known[key] then
      known[key] = { code = code, words = words, of = {} }
      table.insert(order, known[key])
    end
    table.insert(known[key].of, number)
  end
  local function write(say)
    for _, r in ipairs(order) do
      local words = #r.of == 1 and r.words or text.fill("{what} {n}, {words}", { what = what, n = numbers(r.of), words = r.words })
      say(r.code .. "-" .. r.of[1], words)
    end
  end
  return { add = add, write = write }
end

-- A grid, and another where one is full.
local function grid(page, columns, rows)
  local some = {}
  for i, row in ipairs(rows) do
    table.insert(some, row)
    if #some == ROWS or i == #rows then
      page:grid { columns = columns, rows = some }
      some = {}
    end
  end
end

return { grid = grid, listed = listed, numbers = numbers, remarks = remarks }
